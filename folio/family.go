package folio

import (
	"iter"

	"boardwrap.example/units"
)

// A Family is one design in several sizes: the cover is scaled, every rule is
// kept, and each size is worked out anew.
type Family struct {
	rows     []Relative
	notation units.Notation
}

// A Relative is one size of a family: its plan, or why it cannot be made.
type Relative struct {
	cover units.Size
	plan  *Plan
	err   error
}

// Cover returns the size of the cover as it was asked for.
func (r Relative) Cover() units.Size { return r.cover }

// Plan returns the plan, nil if there is none.
func (r Relative) Plan() *Plan { return r.plan }

// Err returns why this size cannot be made, a *[check.Error], or nil.
func (r Relative) Err() error { return r.err }

// FamilyOf works out a design with each of the covers. Contents have the size
// they have, so fittings are not scaled; a cover that is too small for them
// says so in its row.
func FamilyOf(s Spec, covers ...units.Size) Family {
	f := Family{rows: make([]Relative, 0, len(covers)), notation: s.WithDefaults().Rulers.Main.Notation()}
	for _, c := range covers {
		s.Cover, s.Block = c, Block{}
		plan, err := Build(s)
		f.rows = append(f.rows, Relative{c, plan, err})
	}
	return f
}

// ScaledCovers returns the sizes of a cover scaled by parts of a whole, to the
// nearest graduation of the ruler: with of = 100 the parts are percentages.
func ScaledCovers(cover units.Size, r units.Ruler, of int64, parts ...int64) []units.Size {
	out := make([]units.Size, 0, len(parts))
	for _, part := range parts {
		w, _ := cover.W.Scale(part, of, units.Nearest)
		h, _ := cover.H.Scale(part, of, units.Nearest)
		out = append(out, units.Size{W: r.Nearest(w), H: r.Nearest(h)})
	}
	return out
}

// Rows walks the sizes in the order in which they were asked for.
func (f Family) Rows() iter.Seq[Relative] { return walk(f.rows) }

// Columns of the table.
var familyHead = [...]string{"cover", "spine", "open", "wrap", "liner", "closed thickness", "room", "largest photograph"}

// Table returns the family as a table of text: a row of headings, then a row
// for each size. A size that cannot be made has its cover in the first column
// and why not in the second. Every length is written exactly.
func (f Family) Table() [][]string {
	out := make([][]string, 0, len(f.rows)+1)
	out = append(out, append([]string(nil), familyHead[:]...))
	for _, r := range f.rows {
		n := f.notation
		if r.plan == nil {
			out = append(out, []string{sizeText(n, r.cover), r.err.Error()})
			continue
		}
		p := r.plan
		row := []string{sizeText(n, r.cover), "none", sizeText(n, units.Size{W: p.openW.Length(), H: p.openH.Length()}), sizeText(n, p.wrap.Size()), "in panels", "stays open", "stays open", "none"}
		if b, ok := p.Board(Spine1); ok {
			row[1] = n.Text(b.width.Length())
		}
		if p.lining == LiningOnePiece && len(p.liner) == 1 {
			row[4] = sizeText(n, p.pieces[p.liner[0].piece].Size())
		}
		if c, ok := p.Closed(); ok {
			row[5], row[6] = n.Text(c.thickness.Length()), n.Text(c.between.Length())
		}
		if fit, ok := p.largestPhoto(); ok {
			row[7] = fit.Content.Name
			if fit.Turned {
				row[7] += ", turned"
			}
		}
		out = append(out, row)
	}
	return out
}

// largestPhoto is the largest usual photograph that goes anywhere.
func (p *Plan) largestPhoto() (Fit, bool) {
	var best Fit
	found := false
	for s := range p.Rooms() {
		if fit, ok := p.LargestOf(UsualPhotos(), s); ok &&
			(!found || fit.Content.Size.Area().Compare(best.Content.Size.Area()) > 0) {
			best, found = fit, true
		}
	}
	return best, found
}

// String returns the table with its columns lined up.
func (f Family) String() string {
	table := f.Table()
	var wide [len(familyHead)]int
	for _, row := range table {
		if len(row) < len(familyHead) {
			wide[0] = max(wide[0], len(row[0]))
			continue
		}
		for i, cell := range row {
			wide[i] = max(wide[i], len(cell))
		}
	}
	var dst []byte
	for _, row := range table {
		for i, cell := range row {
			dst = append(dst, cell...)
			if i+1 < len(row) {
				for n := len(cell); n < wide[i]+2; n++ {
					dst = append(dst, ' ')
				}
			}
		}
		dst = append(dst, '\n')
	}
	return string(dst)
}
