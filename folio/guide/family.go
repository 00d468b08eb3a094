package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// FamilySheet returns one page with the measurements of one design in many sizes:
// a drawing with letters, and a table with a row for each size and a column for
// each letter. A size that cannot be made says why below the table.
func FamilySheet(f fit.Family, o PrintOptions) *Document {
	d := &Document{title: "One folio in several sizes", paper: o.Paper}
	s := Section{Title: d.title}
	var plans []*folio.Plan
	var cannot List
	format := o.Format
	format.Bare = false
	for _, r := range f.Rows() {
		if r.Plan() != nil {
			plans = append(plans, r.Plan())
		}
	}
	if len(plans) > 0 && format.Ruler == 0 {
		format.Ruler = plans[0].Notation().Exact()
	}
	for _, r := range f.Rows() {
		if r.Plan() == nil {
			cannot = append(cannot, format.Size(r.Cover())+": "+r.Why())
		}
	}
	if len(plans) > 0 {
		if title := clean(plans[0].Spec().Title); title != "" {
			d.title, s.Title = title, title
		}
		ls := lettersOf(plans)
		s.add(ls.drawing(plans[len(plans)/2], format), ls.names(), ls.table(plans, format))
		s.add(pieceTables(plans, format)...)
	} else {
		s.add(Para("None of the sizes can be made."))
	}
	if len(cannot) > 0 {
		s.add(cannot)
	}
	d.sections = []Section{s}
	return d
}

// A measure is one thing that is measured on every folio of a family.
type measure struct {
	name string
	of   func(*folio.Plan) (units.Length, bool)
}

// A letters is the list of measures, each with its letter: what is the same in
// all folios of the family has one.
type letters struct {
	measures []measure
	boards   []int // the letter of each board's width, by place in the row
	gaps     []int // the letter of each gap
	height   int   // of the boards
	wrap     [2]int
	liner    [2]int // −1 where it is not in one piece
}

// lettersOf lists what is measured on the folios of a family.
func lettersOf(plans []*folio.Plan) *letters {
	l := &letters{}
	i := 0
	for b := range plans[0].Boards() {
		l.boards = append(l.boards, l.put(plans, i, b.Name()+", width", boardWidth(i)))
		i++
	}
	l.height = l.put(plans, -1, "boards, height", func(p *folio.Plan) (units.Length, bool) {
		for b := range p.Boards() {
			return b.Rect().Size().H, true
		}
		return 0, false
	})
	i = 0
	for range plans[0].Gaps() {
		l.gaps = append(l.gaps, l.put(plans, -1, "hinge gap", gapWidth(i)))
		i++
	}
	l.wrap = [2]int{
		l.put(plans, -1, "wrap, width", func(p *folio.Plan) (units.Length, bool) { return p.Wrap().Size().W, true }),
		l.put(plans, -1, "wrap, height", func(p *folio.Plan) (units.Length, bool) { return p.Wrap().Size().H, true }),
	}
	l.liner = [2]int{-1, -1}
	if plans[0].LiningStyle() == rule.LiningOnePiece {
		l.liner = [2]int{
			l.put(plans, -1, "liner, width", func(p *folio.Plan) (units.Length, bool) { s, ok := liner(p); return s.W, ok }),
			l.put(plans, -1, "liner, height", func(p *folio.Plan) (units.Length, bool) { s, ok := liner(p); return s.H, ok }),
		}
	}
	return l
}

func boardWidth(i int) func(*folio.Plan) (units.Length, bool) {
	return func(p *folio.Plan) (units.Length, bool) {
		n := 0
		for b := range p.Boards() {
			if n == i {
				return b.Rect().Size().W, true
			}
			n++
		}
		return 0, false
	}
}

func gapWidth(i int) func(*folio.Plan) (units.Length, bool) {
	return func(p *folio.Plan) (units.Length, bool) {
		n := 0
		for g := range p.Gaps() {
			if n == i {
				return g.Width(), true
			}
			n++
		}
		return 0, false
	}
}

// liner returns the size of a liner in one piece.
func liner(p *folio.Plan) (units.Size, bool) {
	if p.LiningStyle() == rule.LiningOnePiece {
		for l := range p.Liner() {
			return l.Size(), true
		}
	}
	return units.Size{}, false
}

// put adds a measure and returns its place. A board or a gap that is as wide as
// one before it on every folio shares its letter.
func (l *letters) put(plans []*folio.Plan, board int, name string, of func(*folio.Plan) (units.Length, bool)) int {
	if board >= 0 || name == "hinge gap" {
		for i := range l.measures {
			same := (l.measures[i].name == "hinge gap") == (name == "hinge gap")
			for _, p := range plans {
				a, okA := l.measures[i].of(p)
				b, okB := of(p)
				same = same && a == b && okA == okB
			}
			if same {
				if board >= 0 {
					l.measures[i].name = "covers, width"
				}
				return i
			}
		}
	}
	l.measures = append(l.measures, measure{name, of})
	return len(l.measures) - 1
}

// alphabet are letters that are not taken for figures.
const alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// letter returns the letter of a measure: A to Z, without I and O, which look
// like figures.
func letter(i int) string {
	return alphabet[i%len(alphabet) : i%len(alphabet)+1]
}

// names says what the letters stand for.
func (l *letters) names() Table {
	var t Table
	for i, m := range l.measures {
		t.Rows = append(t.Rows, []string{letter(i), m.name})
	}
	return t
}

// table has a row for each folio.
func (l *letters) table(plans []*folio.Plan, f units.Format) Table {
	t := Table{Head: []string{"Cover"}}
	for i := range l.measures {
		t.Head = append(t.Head, letter(i))
	}
	t.Head = append(t.Head, "Closed, thick", "Largest photograph")
	t.Figures = len(t.Head) - 1
	for _, p := range plans {
		row := []string{f.Size(p.Spec().Cover)}
		for _, m := range l.measures {
			text := "–"
			if at, ok := m.of(p); ok {
				text = f.Text(at)
			}
			row = append(row, text)
		}
		thick := "stays open"
		if c, ok := p.Closed(); ok {
			thick = f.Text(p.Spec().Rulers.Main.Round(c.Thickness().Length(), units.Up).To)
		}
		t.Rows = append(t.Rows, append(row, thick, photo(p)))
	}
	return t
}

// pieceTables list the pieces that no letter stands for, a row for each, the sizes
// beside each other as many as go on a page.
func pieceTables(plans []*folio.Plan, f units.Format) []Element {
	const across = 5
	var out []Element
	for part := range slices.Chunk(plans, across) {
		t := Table{Head: []string{"Pieces for a cover of"}, Figures: len(part)}
		rows := map[string]int{}
		for i, p := range part {
			t.Head = append(t.Head, f.Size(p.Spec().Cover))
			for piece := range p.Pieces() {
				if lettered(p, piece) {
					continue
				}
				name := fullName(piece.Name(), piece.Part())
				if piece.Quantity() > 1 {
					name = strconv.Itoa(piece.Quantity()) + " x " + name
				}
				if _, ok := rows[name]; !ok {
					rows[name] = len(t.Rows)
					t.Rows = append(t.Rows, append([]string{name}, make([]string, len(part))...))
				}
				t.Rows[rows[name]][i+1] = f.Size(piece.Size())
			}
		}
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// lettered reports whether the letters tell the size of a piece.
func lettered(p *folio.Plan, piece folio.Piece) bool {
	switch piece.Role() {
	case stock.BoardPiece:
		return true
	case stock.CoveringPiece, stock.StripPiece:
		return !p.Wrap().Quarter()
	case stock.LinerPiece:
		return p.LiningStyle() == rule.LiningOnePiece
	}
	return false
}

// photo names the largest usual photograph that goes anywhere.
func photo(p *folio.Plan) string {
	s := fit.Of(p)
	photos := slices.Values(slices.Collect(fit.UsualPhotos()))
	name := "none"
	var best units.Area
	for i := range s.Rooms() {
		way, ok := s.Largest(photos, i)
		if ok && way.Content().Size.Area().Compare(best) > 0 {
			name, best = way.Content().Name, way.Content().Size.Area()
			if way.Turned() {
				name += ", turned"
			}
		}
	}
	return name
}
