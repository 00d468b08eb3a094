package pocket_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// property runs a check over many cases; it returns what broke, or
// "".
func property(t *testing.T, name string, check func(job, pocket.Design) string) {
	t.Helper()
	p := gopter.NewProperties(proptest.Parameters(1500))
	p.Property(name, prop.ForAll(func(j job) string {
		d, err := j.design()
		if err != nil {
			return j.kind.Name() + " cannot be designed: " + err.Error()
		}
		if broke := check(j, d); broke != "" {
			return j.kind.Name() + ": " + broke
		}
		return ""
	}, genJob()))
	p.TestingRun(t)
}

func TestAcceptsWhatItIsFor(t *testing.T) {
	property(t, "a pocket takes its content and nothing a step beyond its capacity", func(j job, d pocket.Design) string {
		if err := d.AcceptsMany(j.content, j.count); err != nil {
			return "does not take what it was designed for: " + err.Error()
		}
		if d.Pockets() != j.n {
			return "has " + strconv.Itoa(d.Pockets()) + " pockets"
		}
		if got := d.HowMany(j.content); got < j.count {
			return "takes only " + strconv.Itoa(got)
		}
		var first pocket.Spot
		for i, p := range d.Spots() {
			if i == 0 {
				first = p
			} else if p.Capacity() != first.Capacity() {
				return "its places do not hold alike"
			}
			most := pocket.Content{Size: p.Capacity().Size, Thickness: p.Capacity().Thickness}
			if err := d.Accepts(most); err != nil {
				return "does not take its capacity: " + err.Error()
			}
			step := j.ruler.Step()
			for path, larger := range map[string]pocket.Content{
				"size.w":    {Size: most.Size.Plus(step, 0), Thickness: most.Thickness},
				"size.h":    {Size: most.Size.Plus(0, step), Thickness: most.Thickness},
				"thickness": {Size: most.Size, Thickness: most.Thickness + step},
			} {
				var list *check.Error
				if err := d.Accepts(larger); !errors.As(err, &list) || list.Len() != 1 {
					return "takes more than its capacity: " + path
				}
				if v, ok := list.Find(path, check.TooLarge); !ok || v.By != step {
					return "does not say that " + path + " is too large by a step"
				}
			}
		}
		return ""
	})
}

func TestHeights(t *testing.T) {
	property(t, "heights tile the footprint, and layers times caliper is the thickness", func(j job, d pocket.Design) string {
		all := units.RectAt(units.Point{}, d.Closed())
		for _, full := range []bool{false, true} {
			var before []pocket.Height
			most, layers := units.Length(0), 0
			for h := range d.Heights(full) {
				if h.Rect().Empty() || !h.Rect().In(all) {
					return "a height lies off the footprint"
				}
				for _, b := range before {
					if b.Rect().Overlaps(h.Rect()) {
						return "two heights lie on one place"
					}
				}
				before = append(before, h)
				most, layers = max(most, h.Height()), max(layers, h.Layers())
				if paper := units.Length(h.Layers()) * d.Paper().Caliper; !full && h.Height() != paper && (j.landed() == 0 && !j.stands() || h.Height() < paper) {
					return "empty, a height is not layers times caliper"
				}
			}
			if most != d.Thickness(full) {
				return "the thickness is not the greatest height"
			}
			if !full && most != units.Length(layers)*d.Paper().Caliper && j.landed() == 0 && !j.stands() {
				return "the thickness is not layers times caliper"
			}
		}
		if d.Thickness(true) < d.Thickness(false) {
			return "thinner full than empty"
		}
		return ""
	})
}

// landed returns the land of a gusset run, which keeps its pockets apart.
func (j job) landed() units.Length {
	if k, ok := j.kind.(pocket.GussetRun); ok {
		return k.Land
	}
	return 0
}

// stands reports whether it stands on a spine, as high as its leaves are wide.
func (j job) stands() bool {
	k, ok := j.kind.(pocket.Concertina)
	return ok && k.OnSpine
}

func TestPlacesAndPanels(t *testing.T) {
	property(t, "places and panels lie in the footprint, panels on their pieces", func(j job, d pocket.Design) string {
		all := units.RectAt(units.Point{}, d.Closed())
		for _, p := range d.Spots() {
			if !p.Rect().In(all) || p.Rect().Size() != p.Capacity().Size && !j.stands() {
				return "a place lies off the footprint or is not as large as its capacity"
			}
		}
		if !d.Closed().FitsIn(d.Open()) {
			return "opens to less than it is closed"
		}
		var pieces []pocket.Piece
		for _, p := range d.Pieces() {
			pieces = append(pieces, p)
		}
		for _, p := range d.Panels() {
			if !p.Blank().In(units.RectAt(units.Point{}, pieces[p.Piece()].Blank().Size())) || p.Blank().Empty() {
				return "the panel " + p.Name() + " lies off its piece"
			}
			if !p.Closed().In(all) {
				return "the panel " + p.Name() + " lies off the footprint"
			}
			switch edge := d.Outline(p); {
			case p.Closed().Empty() && !edge.Empty():
				return "the panel " + p.Name() + " stands, and is as large as " + edge.String()
			case !p.Closed().Empty() && edge.Bounds() != p.Closed():
				return "the panel " + p.Name() + " lies elsewhere than its outline " + edge.String()
			}
		}
		return ""
	})
}

func TestWorkingsAddUp(t *testing.T) {
	property(t, "every working adds up to what it says", func(j job, d pocket.Design) string {
		for w := range d.Workings() {
			var sum units.Length
			for term := range w.Terms() {
				sum += units.Length(term.Count) * term.Length
			}
			share, _ := sum.Scale(1, int64(w.Shares()), w.Rounded().Direction)
			if w.Rounded().Ruler.Round(share, w.Rounded().Direction).To != w.Length() {
				return "adds up wrongly: " + w.String()
			}
		}
		for _, p := range d.Pieces() {
			if p.Blank().Size() != (units.Size{W: p.Width().Length(), H: p.Height().Length()}) {
				return "the working of the " + p.Name() + " gives another size than its blank"
			}
			if p.Quantity() < 1 {
				return "the " + p.Name() + " is not cut at all"
			}
		}
		return ""
	})
}

// strips returns the blank as strips: its whole lines along either axis, or
// the upper parts of lines that a turned-up foot divides.
func strips(b score.Blank) []score.Strip {
	var out []score.Strip
	for _, axis := range []score.Axis{score.Upright, score.Level} {
		var at []units.Length
		var folds []score.Fold
		for _, l := range b.Lines() {
			if l.Axis == axis && (l.From == 0 || b.Whole(l)) {
				at, folds = append(at, l.At), append(folds, l.Fold)
			}
		}
		length := b.Size().W
		if axis == score.Level {
			length = b.Size().H
		}
		// Lines stand in the order of folding.
		for i := range at {
			for k := i; k > 0 && at[k] < at[k-1]; k-- {
				at[k], at[k-1] = at[k-1], at[k]
				folds[k], folds[k-1] = folds[k-1], folds[k]
			}
		}
		if len(at) == 0 {
			continue
		}
		s, err := score.ScoredStrip(length, at, folds...)
		if err != nil {
			panic(err)
		}
		out = append(out, s)
	}
	return out
}

// flat takes the walls out of a piece's strip: spines, feet and lands, which
// stand between two folds of a quarter turn each.
func (j job) flat(piece string, s score.Strip) score.Strip {
	wall := func(i int) bool { return false }
	switch {
	case strings.HasSuffix(piece, "run"), piece == "guard":
		if j.n > 1 && s.Len() == 3*j.n+1 { // 3n scores
			wall = func(i int) bool { return i > 0 && i < 3*j.n && i%3 == 0 }
		}
	case piece == "back and front" && s.Len() == 3, piece == "leaf" && s.Len() == 3:
		wall = func(i int) bool { return i == 1 }
	case piece == "strip" && s.Len() == 5:
		wall = func(i int) bool { return i == 1 }
		if j.kind.(pocket.FoldedStrip).OpensRight {
			wall = func(i int) bool { return i == 3 }
		}
	}
	var panels []units.Length
	var folds []score.Fold
	for i, p := range s.Panels() {
		if wall(i) {
			continue
		}
		if before, ok := s.Score(i - 1); ok {
			folds = append(folds, before.Fold)
		}
		panels = append(panels, p)
	}
	out, err := score.NewStrip(panels, folds...)
	if err != nil {
		panic(err)
	}
	return out
}

func TestBlanksFold(t *testing.T) {
	property(t, "panels sum to the blank, which folds flat within its widest reach", func(j job, d pocket.Design) string {
		for _, p := range d.Pieces() {
			for _, s := range strips(p.Blank()) {
				sum := units.Length(0)
				for _, w := range s.Panels() {
					sum += w
				}
				if sum != s.Length() {
					return "the panels of the " + p.Name() + " do not add up"
				}
				s = j.flat(p.Name(), s)
				folded, err := s.Fold()
				if err != nil {
					return "the " + p.Name() + " does not fold flat: " + s.String() + ": " + err.Error()
				}
				if folded.Width() > s.Length() || folded.Width() < s.Widest() {
					return "the " + p.Name() + " is wider folded than its reach"
				}
			}
		}
		switch j.kind.(type) {
		case pocket.FoldedStrip, pocket.FoldedAccordion:
			for _, p := range d.Pieces() {
				folded, _ := j.flat(p.Name(), strips(p.Blank())[0]).Fold()
				if folded.Width() != d.Closed().W {
					return "folded it is " + folded.Width().String() + " wide, closed " + d.Closed().W.String()
				}
			}
		}
		return ""
	})
}

// A panel is counted as hands count it: by the scores between it and the left or upper edge
// of its drawing. Of what is folded both ways, and of strips that are folded to and fro as
// one with others, no panel lies by itself.
func TestPanelsAreCountedByTheirScores(t *testing.T) {
	property(t, "so many scores before it as its number says", func(j job, d pocket.Design) string {
		var pieces []pocket.Piece
		for _, p := range d.Pieces() {
			pieces = append(pieces, p)
		}
		for _, p := range d.Panels() {
			var before, all [2]int
			for _, l := range pieces[p.Piece()].Blank().Lines() {
				at := p.Blank().Min.X
				if l.Axis == score.Level {
					at = p.Blank().Min.Y
				}
				all[l.Axis]++
				if l.At <= at {
					before[l.Axis]++
				}
			}
			want := before[score.Upright] + before[score.Level]
			strip := pieces[p.Piece()].Name() // of which there may be several in one
			if all[score.Upright] > 0 && all[score.Level] > 0 || strings.Contains(strip, "gusset run") || strings.HasPrefix(strip, "guard") {
				want = work.All
			}
			if p.Base() != want {
				return fmt.Sprintf("the %s of the %s is told to be panel %d; want %d", p.Name(), strip, p.Base(), want)
			}
		}
		return ""
	})
}

// A piece is folded at lines that it has, each as far as that runs: from edge to edge, or
// from where to where is told.
func TestFoldsRunAsFarAsTheirLines(t *testing.T) {
	property(t, "folded as far as it is scored", func(j job, d pocket.Design) string {
		var blanks []score.Blank
		for _, p := range d.Pieces() {
			blanks = append(blanks, p.Blank())
		}
		for s := range d.Steps() {
			for _, a := range s.Do {
				f, ok := a.(work.FoldAt)
				if !ok {
					continue
				}
				b := blanks[f.What.Index]
				edge, _ := b.Outline()
				var from, to units.Length // of all lines there
				n := 0
				for _, l := range b.Lines() {
					if l.Axis == f.Axis && l.At == f.At {
						if n++; n == 1 || l.From < from {
							from = l.From
						}
						to = max(to, l.To)
					}
				}
				if n == 0 {
					return fmt.Sprintf("%s is folded at %v, where it has no line", f.What.Name, f.At)
				}
				// How far the paper reaches there, which has no feet under its tabs.
				end := edge.Bounds().Max.Y
				if f.Axis == score.Level {
					end = edge.Bounds().Max.X
				}
				wantFrom, wantTo := from, to
				if from == 0 && (to == end || f.Axis == score.Upright && cutAway(b, units.Point{X: f.At, Y: to})) {
					wantTo = 0
				}
				if f.From != wantFrom || f.To != wantTo {
					return fmt.Sprintf("%s is folded at %v from %v to %v; scored it is from %v to %v, and ends at %v", f.What.Name, f.At, f.From, f.To, from, to, end)
				}
			}
		}
		return ""
	})
}

// cutAway reports whether a blank is cut out right below a place.
func cutAway(b score.Blank, p units.Point) bool {
	for _, c := range b.CutOuts() {
		if c.Area.Min.Y <= p.Y && p.Y < c.Area.Max.Y && c.Area.Min.X <= p.X && p.X < c.Area.Max.X {
			return true
		}
	}
	return false
}

// The strip's own heights agree with the layers that folding it gives.
func TestStripLayersAsFolded(t *testing.T) {
	property(t, "a folded strip has the layers of its folding", func(j job, d pocket.Design) string {
		k, ok := j.kind.(pocket.FoldedStrip)
		if !ok {
			return ""
		}
		s := j.flat("strip", strips(piece(t, d, "strip").Blank())[0])
		if k.OpensRight { // read it from the flap's end
			s = s.Reversed()
		}
		folded, err := s.FoldBy(context.Background(), score.Turn{Score: 2}, score.Turn{Score: 1}, score.Turn{Score: 0})
		if err != nil {
			return "cannot be folded hem first: " + err.Error()
		}
		if over, _ := folded.Over(1, 2); !over { // seen from the flap's side the base is on top
			return "the front does not lie between base and flap"
		}
		if over, both := folded.Over(1, 3); !both || !over {
			return "the hem does not lie in the pocket"
		}
		if over, both := folded.Over(0, 2); both && over {
			return "the front lies outside the flap"
		}
		// The base lies from the flap's fold onwards; find its near edge.
		for stack := range folded.Stacks() {
			middle := (stack.From + stack.To).Half(units.Down)
			from, to := folded.Span(1)
			x := middle - from
			if f0, _ := folded.Span(0); f0 < from || folded.FaceUp(0) && to == folded.Width() {
				x = to - middle // the flap's fold is at the right of the folded strip
			}
			if k.OpensRight {
				x = d.Closed().W - x
			}
			if got := layersAt(d, units.Point{X: x, Y: 0}); got != len(stack.Panels) {
				return strconv.Itoa(got) + " layers at " + x.String() + "; folding gives " + strconv.Itoa(len(stack.Panels))
			}
		}
		return ""
	})
}

// with returns the job with so many pockets.
func (j job) with(n int) (pocket.Kind, bool) {
	switch k := j.kind.(type) {
	case pocket.GussetRun:
		k.Pockets = n
		// Of two the first opens less far than a single one: its half panels are wider.
		return k, n > 2 || k.Place == units.Size{}
	case pocket.FoldedAccordion:
		k.Panels = n
		return k, k.Strip == units.Size{}
	case pocket.Concertina:
		k.Leaves = n
		return k, true
	case pocket.Pleat:
		k.Pleats = n
		return k, k.Place == units.Size{} // otherwise each shows less
	}
	return nil, false
}

// strip returns how long the strip of an accordion is in all.
func stripOf(d pocket.Design) units.Length {
	for w := range d.Workings() {
		switch w.Label() {
		case "gusset run", "strip", "guard", "length":
			return w.Length()
		}
	}
	return 0
}

func TestMorePockets(t *testing.T) {
	property(t, "one pocket more never shortens the strip nor makes it thinner", func(j job, d pocket.Design) string {
		k, ok := j.with(j.n + 1)
		if !ok {
			return ""
		}
		more, err := k.Design(j.paper, j.ruler)
		if err != nil {
			return "one more cannot be designed: " + err.Error()
		}
		switch {
		case stripOf(d) == 0 || stripOf(more) <= stripOf(d):
			return "the strip is no longer: " + stripOf(more).String()
		case more.Thickness(false) < d.Thickness(false), more.Thickness(true) < d.Thickness(true):
			return "it is thinner"
		}
		return ""
	})
}

// A spine as thick as the full accordion takes it; a nanometre less does not,
// and asking how many it takes gives the same number.
func TestSpine(t *testing.T) {
	property(t, "the spine takes what is no thicker", func(j job, d pocket.Design) string {
		spine := func(room units.Length, n int) (pocket.Design, error) {
			switch k := j.kind.(type) {
			case pocket.GussetRun:
				k.Spine, k.Pockets = room, n
				return k.Design(j.paper, j.ruler)
			case pocket.FoldedAccordion:
				k.Spine, k.Panels = room, n
				return k.Design(j.paper, j.ruler)
			case pocket.Concertina:
				k.Spine, k.Leaves = room, n
				return k.Design(j.paper, j.ruler)
			}
			return d, nil
		}
		full := d.Thickness(true)
		if j.stands() {
			full = d.Closed().W
		}
		if _, err := spine(full, j.n); err != nil {
			return "a spine as wide as it is thick does not take it: " + err.Error()
		}
		if _, ok := j.kind.(pocket.Pleat); !ok && j.n > 1 {
			var list *check.Error
			if _, err := spine(full-1, j.n); !errors.As(err, &list) {
				return "a spine a nanometre too narrow takes it"
			} else if v, ok := list.Find("spine", check.TooSmall); !ok || v.Limit < full {
				return "does not say how wide the spine has to be"
			}
		}
		most, err := spine(full, 0)
		if err != nil || most.Pockets() < j.n || most.Thickness(true) > full && !j.stands() || most.Closed().W > full && j.stands() {
			return "a spine for " + strconv.Itoa(j.n) + " is given " + strconv.Itoa(most.Pockets())
		}
		return ""
	})
}

// Joined from small sheets the strips add up to the whole and its tabs.
func TestJointsAddUp(t *testing.T) {
	property(t, "joined strips add up to the whole strip and its joint tabs", func(j job, d pocket.Design) string {
		// Folds of a concertina are too shallow to hide a joint.
		if k, ok := j.kind.(pocket.FoldedAccordion); !ok || j.n < 2 || k.Strip != (units.Size{}) || k.Panel != (units.Size{}) {
			return ""
		}
		whole := piece(t, d, "accordion").Blank().Size()
		panel, _ := d.Panel("panel")
		j.paper.Sheet = units.Size{W: max(2*panel.Size().W+20*units.Millimetre, whole.H), H: whole.H}
		if whole.W <= j.paper.Sheet.W {
			return ""
		}
		// A strip with one panel only is glued at both ends of it, so that the
		// panels may be wider than those of the whole.
		alone := panel.Size().W
		joined, err := j.design()
		if err != nil {
			return "cannot be joined: " + err.Error()
		}
		sum, count, last := units.Length(0), 0, 0
		panel, _ = joined.Panel("panel")
		for _, p := range joined.Pieces() {
			sum += units.Length(p.Quantity()) * p.Blank().Size().W
			if !p.Blank().Size().FitsTurned(j.paper.Sheet) {
				return "a strip is larger than the sheet"
			}
		}
		for joint := range joined.Splices() {
			count++
			sum -= joint.Tab()
			if joint.Fold() <= last || joint.At() != units.Length(joint.Fold())*panel.Size().W {
				return "a joint lies at no fold"
			}
			last = joint.Fold()
		}
		if want := units.Length(j.n)*panel.Size().W + whole.W - units.Length(j.n)*alone; count == 0 || sum != want {
			return "the strips add up to " + sum.String() + "; the whole is " + want.String()
		}
		return ""
	})
}

var (
	blades = regexp.MustCompile(`(?i)\b(cut|trim|bore)\b`)
	glues  = regexp.MustCompile(`(?i)\bglue\b`)
)

func TestStepsAreComplete(t *testing.T) {
	property(t, "steps name their sizes and carry their cautions", func(j job, d pocket.Design) string {
		cut := map[int]bool{}
		for s := range d.Steps() {
			text := s.Text(units.Format{Ruler: j.ruler})
			if text == "" || text[len(text)-1] != '.' {
				return "a step is no sentence: " + text
			}
			// What hands read says what may hurt them.
			for care, words := range map[work.Care]*regexp.Regexp{work.CareBlade: blades, work.CareGlue: glues} {
				if has := slices.Contains(s.Care(), care); has != words.MatchString(text) {
					return fmt.Sprintf("the caution %q: %t, and the step reads: %s", care, has, text)
				}
			}
			for _, a := range s.Do {
				if c, ok := a.(work.Cut); ok {
					cut[c.What.Index] = true
				}
			}
		}
		pieces := 0
		for range d.Pieces() {
			pieces++
		}
		if len(cut) < pieces {
			return "not every piece is cut"
		}
		return ""
	})
}

func TestSameAgain(t *testing.T) {
	property(t, "the same again gives the same, and reading changes nothing", func(j job, d pocket.Design) string {
		again, err := j.design()
		if err != nil {
			return err.Error()
		}
		if diff := cmp.Diff(texts(d), texts(again)); diff != "" {
			return diff
		}
		if diff := cmp.Diff(texts(d), texts(d)); diff != "" {
			return diff
		}
		return ""
	})
}

func texts(d pocket.Design) []string {
	var out []string
	for w := range d.Workings() {
		out = append(out, w.String())
	}
	for w := range d.Warnings() {
		out = append(out, w.String())
	}
	for s := range d.Steps() {
		out = append(out, s.Text(units.Format{}))
	}
	for h := range d.Heights(true) {
		out = append(out, h.Rect().Size().String(), h.Height().String())
	}
	return out
}

// Stand-in again, by its definition in whole numbers.
func TestStandInSquares(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(2000))
	p.Property("s² ≤ w² − (h/2)² < (s + 1)²", prop.ForAll(func(w units.Length, share int64) bool {
		h, _ := (2 * w).Scale(share, 1000, units.Down)
		s, ok := pocket.StandIn(w, h, units.Down)
		up, _ := pocket.StandIn(w, h, units.Up)
		near, _ := pocket.StandIn(w, h, units.Nearest)
		goal := (2 * w).By(2 * w).Minus(h.By(h))
		return ok && (2*s).By(2*s).Compare(goal) <= 0 && (2*s+2).By(2*s+2).Compare(goal) > 0 &&
			(2*up).By(2*up).Compare(goal) >= 0 && up-s <= 1 && s <= near && near <= up
	}, genLength(1, 10*units.Metre), gen.Int64Range(0, 1000)))
	p.TestingRun(t)
}

// sound says what is wrong with a design that nobody knows the numbers of.
func sound(d pocket.Design) string {
	texts(d)
	all := units.RectAt(units.Point{}, d.Closed())
	for _, full := range []bool{false, true} {
		var before []pocket.Height
		var most units.Length
		for h := range d.Heights(full) {
			if !h.Rect().In(all) || h.Rect().Empty() {
				return "a height off the footprint"
			}
			for _, b := range before {
				if b.Rect().Overlaps(h.Rect()) {
					return "two heights in one place"
				}
			}
			before = append(before, h)
			most = max(most, h.Height())
		}
		if most != d.Thickness(full) {
			return "a thickness that is nowhere"
		}
	}
	for _, p := range d.Spots() {
		if !p.Rect().In(all) {
			return "a place off the footprint"
		}
		if d.Accepts(pocket.Content{Size: p.Capacity().Size, Thickness: p.Capacity().Thickness}) != nil {
			return "a place that does not take its capacity"
		}
	}
	var pieces []pocket.Piece
	for _, p := range d.Pieces() {
		pieces = append(pieces, p)
		if p.Blank().Size().Empty() || p.Blank().Size() != (units.Size{W: p.Width().Length(), H: p.Height().Length()}) {
			return "a blank of another size than its working"
		}
	}
	for _, p := range d.Panels() {
		if !p.Blank().In(units.RectAt(units.Point{}, pieces[p.Piece()].Blank().Size())) || !p.Closed().In(all) {
			return "the panel " + p.Name() + " off its piece or the footprint"
		}
	}
	return ""
}

// describe writes the fields of a kind that are set.
func describe(d pocket.Design) string {
	dst := "\n  " + d.Kind().Name() + ", closed " + d.Closed().String()
	v := reflect.ValueOf(d.Kind())
	for i := range v.NumField() {
		if !v.Field(i).IsZero() {
			dst += fmt.Sprintf("\n  %s: %v", v.Type().Field(i).Name, v.Field(i))
		}
	}
	return dst
}

// garbage designs the kind with its fields filled from lengths, those outside
// mask left to their defaults.
func garbage(kind pocket.Kind, lengths []units.Length, mask int, r units.Ruler) string {
	v := reflect.New(reflect.TypeOf(kind)).Elem()
	at := 0
	fill(v, lengths, &at)
	for i := range v.NumField() {
		if mask>>(i%20)&1 == 0 {
			v.Field(i).SetZero()
		}
	}
	var paper pocket.Paper
	if mask&3 == 3 {
		fill(reflect.ValueOf(&paper).Elem(), lengths, &at)
	}
	d, err := v.Interface().(pocket.Kind).Design(paper, r)
	if err == nil {
		_, _ = d.Carry(units.Size{W: lengths[0], H: lengths[0]})
		_, _ = d.StandIn(lengths[0])
		if broke := sound(d); broke != "" {
			return broke + describe(d)
		}
		return ""
	}
	var list *check.Error
	if !errors.As(err, &list) {
		return "not a list: " + err.Error()
	}
	for one := range list.All() {
		if one.Code == "" || one.Want == "" {
			return "a violation says nothing: " + one.Error()
		}
	}
	if d.Pockets() != 0 || d.Kind() != nil {
		return "something partial came with the error"
	}
	return ""
}

func TestGarbage(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(6000))
	var kinds []pocket.Kind
	for k := range pocket.Kinds() {
		kinds = append(kinds, k)
	}
	p.Property("absurd fields give an error that lists them, or a design that holds", prop.ForAll(
		func(which int, lengths []units.Length, ruler int64, mask int) string {
			r := rulers[(which+mask)%len(rulers)]
			if mask%5 == 0 {
				r = units.Ruler(ruler)
			}
			return garbage(kinds[which], lengths, mask, r)
		},
		gen.IntRange(0, len(kinds)-1), gen.SliceOfN(24, genAny()), gen.Int64(), gen.IntRange(0, 1<<20),
	))
	p.Property("so do fields that might be meant", prop.ForAll(
		func(which int, lengths []units.Length, mask, other int) string {
			return garbage(kinds[which], lengths, mask&other, rulers[(which+mask)%len(rulers)])
		},
		gen.IntRange(0, len(kinds)-1), gen.SliceOfN(24, genLength(0, 300*units.Millimetre)), gen.IntRange(0, 1<<20), gen.IntRange(0, 1<<20),
	))
	p.TestingRun(t)
}

// A piece is cut from its sheet as that lies, or from the sheet turned where the piece does
// not go into it as it lies; a side that a sheet has not got is without end.
func TestCutFromTheSheetAsItGoes(t *testing.T) {
	property(t, "each piece goes into its sheet", func(j job, d pocket.Design) string {
		goes := func(p, sheet units.Size) bool {
			if sheet.W == 0 {
				sheet.W = units.Longest
			}
			if sheet.H == 0 {
				sheet.H = units.Longest
			}
			return p.FitsIn(sheet)
		}
		pieces := 0
		for s := range d.Steps() {
			for _, a := range s.Do {
				c, ok := a.(work.Cut)
				if !ok {
					continue
				}
				pieces++
				sheet := j.paper.Sheet
				turned := !goes(c.Size, sheet)
				if turned {
					sheet = sheet.Turned()
				}
				if !goes(c.Size, sheet) || c.From.Size != sheet || c.From.Turned != turned {
					return fmt.Sprintf("%v is cut from %v, turned %t; the sheet is %v", c.Size, c.From.Size, c.From.Turned, j.paper.Sheet)
				}
			}
		}
		if pieces == 0 {
			return "nothing is cut"
		}
		return ""
	})
}

// A mat lies in the middle of the panel that carries it, where that lies when closed.
func TestMatsLieInTheMiddle(t *testing.T) {
	tried := 0
	property(t, "in the middle", func(j job, d pocket.Design) string {
		on, ok := d.Carrier()
		mat := on.Size()
		if mat.W, mat.H = mat.W/3, mat.H/4; !ok || mat.Empty() {
			return ""
		}
		at, err := d.Carry(mat)
		if err != nil {
			return err.Error()
		}
		tried++
		left, right := at.Min.X-on.Closed().Min.X, on.Closed().Max.X-at.Max.X
		above, below := at.Min.Y-on.Closed().Min.Y, on.Closed().Max.Y-at.Max.Y
		if at.Size() != mat || right-left < 0 || right-left > 1 || below-above < 0 || below-above > 1 {
			return fmt.Sprintf("%v lies at %v on %v", mat, at, on.Closed())
		}
		return ""
	})
	if tried == 0 {
		t.Error("nothing carries a mat")
	}
}

// Pleats are glued to what they lie on along both sides, from the first mouth to the tail.
func TestPleatsAreGluedDown(t *testing.T) {
	property(t, "from the first mouth to the tail", func(j job, d pocket.Design) string {
		if _, ok := j.kind.(pocket.Pleat); !ok {
			return ""
		}
		first, _ := d.Panel("visible part")
		want := 2 * (d.Closed().H - first.Closed().Min.Y)
		var got units.Length
		for s := range d.Steps() {
			for _, a := range s.Do {
				if fix, ok := a.(work.Fix); ok && fix.On.Kind == work.Under {
					for _, r := range fix.Areas {
						got += r.Size().H
					}
				}
			}
		}
		if got != want {
			return fmt.Sprintf("%v of both sides are glued down; want %v", got, want)
		}
		return ""
	})
}

// fronts are the panels before what a pocket holds, by the kind.
var fronts = map[string]string{"slip pocket": "front", "gusset pocket": "front", "gusset run": "leaf", "folded-up accordion": "foot"}

// covered returns how much of a place lies behind the front of its pocket.
func covered(d pocket.Design) (units.Length, pocket.Spot, bool) {
	front, ok := d.Panel(fronts[d.Kind().Name()])
	for _, p := range d.Spots() {
		return p.Rect().Max.Y - front.Closed().Min.Y, p, ok
	}
	return 0, pocket.Spot{}, false
}

// A pocket covers of its content what its depth says, down on the ruler; one for all of it
// all of that with its ease, up on the ruler, or all the room that there is.
func TestPocketsAreAsDeepAsTold(t *testing.T) {
	property(t, "as much is covered as is told", func(j job, d pocket.Design) string {
		deep, place, ok := covered(d)
		v := reflect.ValueOf(j.kind)
		if a, is := j.kind.(pocket.FoldedAccordion); !ok || is && a.Strip != (units.Size{}) {
			return "" // no such pocket, or of a strip that is divided
		}
		share := v.FieldByName("Depth").Interface().(pocket.Share)
		if share == (pocket.Share{}) {
			share = pocket.Share{Part: 2, Of: 3}
		}
		tall := j.content.Size.H
		want, _ := tall.Scale(int64(share.Part), int64(share.Of), units.Down)
		want = j.ruler.Down(want)
		if share.Part == share.Of {
			n := units.MetricDecimal
			if j.ruler.Notation() != n {
				n = units.InchFraction
			}
			usual := pocket.EnvelopeEase(n)
			if units.Length(j.count)*j.content.Thickness > pocket.FlatLimit {
				usual = pocket.ThickEase(n)
			}
			switch given := v.FieldByName("Ease").Interface().(pocket.Ease).H; given {
			case units.None:
			case 0:
				tall += usual.H
			default:
				tall += given
			}
			want = min(j.ruler.Up(tall), place.Clear().H)
		}
		if deep != want {
			return fmt.Sprintf("%v of %v are covered, with a depth of %v; want %v", deep, j.content.Size.H, share, want)
		}
		return ""
	})
}

// Contents that go in all the way want a notch to be gripped by, and are warned of without
// one; none is warned of that stands out, or has a notch.
func TestNothingToGrip(t *testing.T) {
	met := map[string]int{}
	property(t, "what nobody can grip is told", func(j job, d pocket.Design) string {
		deep, _, all := covered(d)
		all = all && deep >= j.content.Size.H
		for _, p := range d.Pieces() {
			b := p.Blank().Draft()
			for range b.Notches {
				all = false
			}
		}
		told := 0
		for w := range d.Warnings() {
			if w.Code == pocket.NoGrip {
				told++
			}
		}
		if all {
			met[j.kind.Name()]++
		}
		if told > 0 != all || told > 1 {
			return fmt.Sprintf("%v deep for %v: told %d times", deep, j.content.Size.H, told)
		}
		return ""
	})
	if len(met) == 0 {
		t.Error("nothing goes in all the way")
	}
}
