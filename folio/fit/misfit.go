package fit

import (
	"errors"
	"iter"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket"
	"boardwrap.example/units/check"
)

// A Misfit is a fitting of a Spec that does not go into its cover, or no longer
// goes into it as measured.
type Misfit struct {
	index   int
	label   string
	fitting folio.Fitting
	why     []check.Violation
	base    string // what it follows from that is left out, where nothing else is wrong with it
}

// Index returns its place in Spec.Fittings.
func (m Misfit) Index() int { return m.index }

// Label returns what it is called in texts, as [folio.Spec.Label].
func (m Misfit) Label() string { return m.label }

// Content returns the content of a size of its own that goes nowhere with it,
// and whether there is one. Where it has none, it holds what follows from its
// place, or nothing.
func (m Misfit) Content() (pocket.Content, bool) { return m.fitting.Content() }

// Why walks what is impossible about it, each with what would do. There is nothing
// where it is left out because what it stands on, is measured by or is lined up
// with is.
func (m Misfit) Why() iter.Seq[check.Violation] { return slices.Values(m.why) }

// String returns what it is, what goes nowhere with it, and why:
//
//	frame, for the photo 5 x 7 in: too wide: got 5 in; want at most 4 1/2 in wide on the panel
func (m Misfit) String() string {
	text := m.Label()
	if c, ok := m.Content(); ok && c.Name != "" {
		text += ", for the " + check.Clip(c.Name)
	}
	for i, v := range m.why {
		sep := ": "
		if i > 0 {
			sep = "; "
		}
		text += sep + v.Words()
	}
	if m.base != "" {
		text += ": it follows from " + m.base
	}
	return text
}

// Misfits returns the fittings of a Spec that an error of [folio.Build] or of
// [folio.Plan.Refit] says cannot be, in their order. What is wrong with the case,
// or with a field that cannot be read, is no misfit.
func Misfits(s folio.Spec, err error) []Misfit {
	out, _ := misfits(s, err)
	return out
}

// misfits returns what is wrong besides as well.
func misfits(s folio.Spec, err error) (out []Misfit, others []check.Violation) {
	all, ok := errors.AsType[*check.Error](err)
	if !ok {
		return nil, nil
	}
	byFitting := map[int][]check.Violation{}
	for v := range all.All() {
		if i, ok := fittingOf(s, v); ok && v.Nature == check.Impossible {
			byFitting[i] = append(byFitting[i], v)
		} else {
			others = append(others, v)
		}
	}
	for i := range s.Fittings {
		if why := byFitting[i]; why != nil {
			out = append(out, Misfit{index: i, label: s.Label(i), fitting: s.Fittings[i], why: why})
		}
	}
	return out, others
}

// fittingOf returns the place in Spec.Fittings of the one that a violation is
// about: by its path, or by its label where no sheet of its stock takes it.
func fittingOf(s folio.Spec, v check.Violation) (at int, ok bool) {
	if rest, ok := strings.CutPrefix(v.Path, "fittings["); ok {
		index, _, _ := strings.Cut(rest, "]")
		at, err := strconv.Atoi(index)
		return at, err == nil
	}
	if v.Of != "" && v.Code == folio.SheetSmall { // what is no kind has no name
		for i := range s.Fittings {
			if s.Label(i) == v.Of {
				return i, true
			}
		}
	}
	return at, ok
}

// Without builds a Spec without the fittings that do not go into its cover, and
// without those that stand on them, are measured by them or are lined up with
// them. It returns them as well, in their order, with their places in the Spec that
// was given. The error is that of [folio.Build] where leaving fittings out does not
// help.
func Without(s folio.Spec) (*folio.Plan, []Misfit, error) {
	all, given := s, s.Fittings
	place := make([]int, len(given)) // of what is left in the Spec that was given
	for i := range place {
		place[i] = i
	}
	var left []Misfit
	var last *folio.Plan
	for {
		p, err := last.Again(s)
		if err == nil {
			inorder.Sort(left, func(a, b Misfit) int { return a.index - b.index })
			return p, left, nil
		}
		out := Misfits(s, err)
		if len(out) == 0 || malformed(err) {
			return nil, nil, err
		}
		out = append(out, following(s, out)...)
		gone := make([]bool, len(s.Fittings))
		for _, m := range out {
			gone[m.index] = true
			m.index = place[m.index]
			m.label = all.Label(m.index) // counted among those that were given
			left = append(left, m)
		}
		var rest []folio.Fitting
		var places []int
		for i, f := range s.Fittings {
			if !gone[i] {
				rest, places = append(rest, f), append(places, place[i])
			}
		}
		s.Fittings, place = rest, places
	}
}

// malformed reports whether something of a Spec cannot be read.
func malformed(err error) bool {
	if all, ok := errors.AsType[*check.Error](err); ok {
		for v := range all.All() {
			if v.Nature == check.Malformed {
				return true
			}
		}
	}
	return false
}

// following returns what follows from fittings that are left out, and what follows
// from that.
func following(s folio.Spec, out []Misfit) []Misfit {
	gone := map[string]bool{}
	known := map[int]bool{}
	for _, m := range out {
		known[m.index] = true
		if m.fitting.Name != "" {
			gone[m.fitting.Name] = true
		}
	}
	var more []Misfit
	for again := true; again; {
		again = false
		for i, f := range s.Fittings {
			if known[i] {
				continue
			}
			for _, name := range [...]string{f.StandsOn, f.Size.W.Fitting, f.Size.H.Fitting, f.Place.AcrossOf, f.Place.AlongOf} {
				if name == "" || !gone[name] {
					continue
				}
				more = append(more, Misfit{index: i, label: s.Label(i), fitting: f, base: name})
				known[i], again = true, true
				if f.Name != "" {
					gone[f.Name] = true
				}
				break
			}
		}
	}
	return more
}
