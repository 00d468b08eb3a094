package fit

import (
	"boardwrap.example/score"
	"errors"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Family is one design in several sizes: the cover is scaled, every rule is
// kept, and each size is worked out anew.
type Family struct {
	rows     []Relative
	notation units.Notation
}

// A Relative is one size of a family: its plan, or why it cannot be made.
type Relative struct {
	cover   units.Size
	plan    *folio.Plan
	err     error
	misfits []Misfit
	others  []check.Violation // what is wrong with no fitting
}

// Cover returns the size of the cover as it was asked for.
func (r Relative) Cover() units.Size { return r.cover }

// Plan returns the plan, nil if there is none.
func (r Relative) Plan() *folio.Plan { return r.plan }

// Err returns why this size cannot be made, a *[check.Error], or nil.
func (r Relative) Err() error { return r.err }

// Misfits walks what does not go into this cover, each with the fixed content that
// goes nowhere with it.
func (r Relative) Misfits() iter.Seq[Misfit] { return slices.Values(r.misfits) }

// Why says in one line why this size cannot be made: what is wrong with the case,
// then each misfit with what is wrong with it, all with what would do. It is empty
// where there is a plan.
func (r Relative) Why() string {
	var parts []string
	for _, v := range r.others {
		parts = append(parts, v.Error())
	}
	for _, m := range r.misfits {
		parts = append(parts, m.String())
	}
	if all, ok := errors.AsType[*check.Error](r.err); ok && all.More() > 0 {
		parts = append(parts, "and "+strconv.Itoa(all.More())+" more")
	}
	return strings.Join(parts, "; ")
}

// MostCovers bounds the sizes of a family.
const MostCovers = 1000

// FamilyOf works out a design with each of the covers. Fittings whose size is given
// by relation are scaled with them, their pictures too; contents that have a size
// of their own keep it, and a cover that is too small for one says so in its row.
//
// The error is a *[check.Error] of too many covers, or that of the Stopper: the
// family then has the rows that were worked out before.
func FamilyOf(until score.Stopper, s folio.Spec, covers ...units.Size) (Family, error) {
	if len(covers) > MostCovers {
		var bad check.List
		bad.Malformed("covers", check.TooMany, strconv.Itoa(len(covers)), "at most "+strconv.Itoa(MostCovers))
		return Family{}, bad.Err()
	}
	f := Family{rows: make([]Relative, 0, len(covers)), notation: s.WithDefaults().Rulers.Main.Notation()}
	var last *folio.Plan
	m := newMeter(until, Budget{})
	for _, c := range covers {
		if err := m.until.Err(); err != nil {
			return f, err
		}
		s.Cover, s.Block = c, boards.Block{}
		plan, err := last.Again(s)
		if err == nil {
			last = plan
		}
		r := Relative{cover: c, plan: plan, err: err}
		r.misfits, r.others = misfits(s, err)
		f.rows = append(f.rows, r)
	}
	return f, nil
}

// ScaledCovers returns the sizes of a cover scaled by parts of a whole, to the
// nearest graduation of the ruler: with of = 100 the parts are percentages.
func ScaledCovers(cover units.Size, r units.Ruler, of int64, parts ...int64) []units.Size {
	out := make([]units.Size, 0, len(parts))
	for _, part := range parts {
		out = append(out, units.Size{W: scaled(cover.W, part, of, r), H: scaled(cover.H, part, of, r)})
	}
	return out
}

// scaled returns the graduation nearest to l·part/of. What lies between two
// nanometres is taken to the side of the middle between two graduations on which it
// lies: that is a whole nanometre where the step is even, and half of one elsewhere.
func scaled(l units.Length, part, of int64, r units.Ruler) units.Length {
	d := units.Nearest
	if r.Step()%2 == 0 {
		d = units.Down
	}
	at, _ := l.Scale(part, of, d)
	return r.Nearest(at)
}

// Rows walks the sizes with their numbers, in the order in which they were asked
// for.
func (f Family) Rows() iter.Seq2[int, Relative] { return slices.All(f.rows) }

// spineOf returns the spine board of the covers: that on the left of the board on the
// table, of a row without one there the first.
func spineOf(p *folio.Plan) (folio.Board, bool) {
	on, _ := p.Board(boards.MainPanel)
	var before folio.Board
	for b := range p.Boards() {
		if b.Role() == on.Role() && before.Role().Spine() {
			return before, true
		}
		before = b
	}
	return p.Board(boards.Spine1)
}

// Columns of the table.
var familyHead = [...]string{"cover", "spine", "open", "wrap", "liner", "closed thickness", "room", "largest photograph", "why not"}

// Table returns the family as a table of text: a row of headings, then a row for
// each size, all with as many cells, as a table of CSV needs them. A size that cannot
// be made has its cover in the first column and [Relative.Why] in the last, with
// nothing between. Every length is written exactly.
func (f Family) Table() [][]string {
	out := make([][]string, 0, len(f.rows)+1)
	out = append(out, append([]string(nil), familyHead[:]...))
	for _, r := range f.rows {
		n := f.notation
		if r.plan == nil {
			row := make([]string, len(familyHead))
			row[0], row[len(row)-1] = sizeText(n, r.cover), r.Why()
			out = append(out, row)
			continue
		}
		p := r.plan
		row := []string{sizeText(n, r.cover), "none", sizeText(n, units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}), sizeText(n, p.Wrap().Size()), "in panels", "stays open", "stays open", "none", ""}
		if b, ok := spineOf(p); ok {
			row[1] = n.Text(b.Width().Length())
		}
		if p.LiningStyle() == rule.LiningOnePiece {
			for liner := range p.Liner() {
				row[4] = sizeText(n, liner.Size())
			}
		}
		if c, ok := p.Closed(); ok {
			row[5], row[6] = n.Bound(c.Thickness().Length(), units.Up), n.Bound(c.Room().Length(), units.Down)
		}
		if way, ok := largestPhoto(Of(p)); ok {
			row[7] = way.content.Name
			if way.turned {
				row[7] += ", turned"
			}
		}
		out = append(out, row)
	}
	return out
}

// largestPhoto is the largest usual photograph that goes anywhere.
func largestPhoto(s *Survey) (Berth, bool) {
	var best Berth
	found := false
	for i := range s.rooms {
		if way, ok := s.Largest(UsualPhotos(), i); ok &&
			(!found || way.content.Size.Area().Compare(best.content.Size.Area()) > 0) {
			best, found = way, true
		}
	}
	return best, found
}

func sizeText(n units.Notation, s units.Size) string { return n.Text(s.W) + " x " + n.Text(s.H) }

// String returns the table with its columns lined up, and why there is no plan right
// after the cover.
func (f Family) String() string {
	var wide [len(familyHead) - 1]int
	table := f.Table()
	for k, row := range table {
		for i, cell := range row[:len(wide)] {
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
		table[k] = row[:len(wide)]
		if k > 0 && row[len(wide)] != "" {
			table[k] = []string{row[0], row[len(wide)]}
		}
	}
	var dst []byte
	for _, row := range table {
		for i, cell := range row {
			dst = append(dst, cell...)
			if i+1 < len(row) {
				for n := utf8.RuneCountInString(cell); n < wide[i]+2; n++ {
					dst = append(dst, ' ')
				}
			}
		}
		dst = append(dst, '\n')
	}
	return string(dst)
}
