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
	var cannot Texts
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
		drawn := plans[len(plans)/2]
		ls := lettersOf(plans, drawn)
		s.add(ls.drawing(drawn, format), ls.names(), ls.table(plans, format))
		s.add(ls.pieceTables(plans, format)...)
	} else {
		s.add(Para("None of the sizes can be made."))
	}
	if len(cannot) > 0 {
		s.add(cannot)
	}
	d.sections = []Section{s}
	return d
}

// names says what the letters stand for.
func (l *letters) names() Table {
	var t Table
	for i, m := range l.measures {
		name := m.name
		if m.boards != nil {
			name = listed(m.boards) + ", width"
		}
		t.Rows = append(t.Rows, []string{letter(i), name})
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
			if at := m.of(p); at != 0 {
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

// tell reports whether the letters tell the size of a piece.
func (l *letters) tell(p *folio.Plan, piece folio.Piece) bool {
	switch piece.Role() {
	case stock.BoardPiece:
		return true
	case stock.CoveringPiece, stock.StripPiece:
		return !p.Wrap().Quarter()
	case stock.LinerPiece:
		return l.liner[0] >= 0 && p.LiningStyle() == rule.LiningOnePiece
	}
	return false
}

// pieceTables list the pieces that no letter stands for, a row for each, the sizes
// beside each other as many as go on a page.
func (l *letters) pieceTables(plans []*folio.Plan, f units.Format) []Element {
	const across = 5
	var out []Element
	for part := range slices.Chunk(plans, across) {
		t := Table{Head: []string{"Pieces for a cover of"}, Figures: len(part)}
		rows := map[string]int{}
		for i, p := range part {
			t.Head = append(t.Head, f.Size(p.Spec().Cover))
			for piece := range p.Pieces() {
				if l.tell(p, piece) {
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
