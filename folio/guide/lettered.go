package guide

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// A measure is one thing that is measured on every folio of a family.
type measure struct {
	name   string
	boards []string                       // of a width the boards that have it, instead of a name
	of     func(*folio.Plan) units.Length // 0 where a folio has none
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

// lettersOf lists what is measured on the folios of a family, of which one is drawn.
func lettersOf(plans []*folio.Plan, drawn *folio.Plan) *letters {
	l := &letters{liner: [2]int{-1, -1}}
	for i, b := range slices.Collect(drawn.Boards()) {
		at := l.share(plans, l.boards, measure{of: boardWidth(i)})
		l.measures[at].boards = append(l.measures[at].boards, b.Name())
		l.boards = append(l.boards, at)
	}
	l.height = l.put(measure{name: "boards, height", of: boardHeight})
	for i := range slices.Collect(drawn.Gaps()) {
		l.gaps = append(l.gaps, l.share(plans, l.gaps, measure{name: "hinge gap", of: gapWidth(i)}))
	}
	l.wrap = [2]int{
		l.put(measure{name: "wrap, width", of: func(p *folio.Plan) units.Length { return p.Wrap().Size().W }}),
		l.put(measure{name: "wrap, height", of: func(p *folio.Plan) units.Length { return p.Wrap().Size().H }}),
	}
	if drawn.LiningStyle() == rule.LiningOnePiece {
		l.liner = [2]int{
			l.put(measure{name: "liner, width", of: func(p *folio.Plan) units.Length { return liner(p).W }}),
			l.put(measure{name: "liner, height", of: func(p *folio.Plan) units.Length { return liner(p).H }}),
		}
	}
	return l
}

func boardWidth(i int) func(*folio.Plan) units.Length {
	return func(p *folio.Plan) units.Length { return slices.Collect(p.Boards())[i].Rect().Size().W }
}

// boardHeight returns the height of the boards, which are all as high.
func boardHeight(p *folio.Plan) (h units.Length) {
	for b := range p.Boards() {
		h = b.Rect().Size().H
	}
	return h
}

func gapWidth(i int) func(*folio.Plan) units.Length {
	return func(p *folio.Plan) units.Length { return slices.Collect(p.Gaps())[i].Width() }
}

// liner returns the size of a liner in one piece; the zero Size of any other.
func liner(p *folio.Plan) (size units.Size) {
	if p.LiningStyle() == rule.LiningOnePiece {
		for l := range p.Liner() {
			size = l.Size()
		}
	}
	return size
}

// put adds a measure and returns its place.
func (l *letters) put(m measure) int {
	l.measures = append(l.measures, m)
	return len(l.measures) - 1
}

// share is put for a measure that has the letter of one of those at some places which is
// as wide on every folio.
func (l *letters) share(plans []*folio.Plan, others []int, m measure) int {
	for _, i := range others {
		if !slices.ContainsFunc(plans, func(p *folio.Plan) bool { return l.measures[i].of(p) != m.of(p) }) {
			return i
		}
	}
	return l.put(m)
}

// How a lettered drawing is laid out on paper.
const (
	letteredWidth = 110 * units.Millimetre // of the wrap
	letteredTall  = 90 * units.Millimetre  // at most
	letteredEdge  = 18 * units.Millimetre  // left free for letters, and the bar
)

// drawing draws the open case of a folio on its wrap, the liner dashed, with
// letters for the measures and a bar that shows how much smaller it is drawn.
func (l *letters) drawing(p *folio.Plan, f units.Format) Drawing {
	d := Drawing{
		Title:       "What the letters measure",
		Description: "The boards in a row on the wrap, as they lie before the edges are turned in; the liner is dashed. Each measure has the letter that the table names it by. Drawn is the cover of " + f.Size(p.Spec().Cover) + ", the bar is drawn as much smaller.",
	}
	wrap := p.Wrap().Size()
	s := scaler{num: letteredWidth, den: wrap.W}
	if tall := s.len(wrap.H); tall > letteredTall {
		s = scaler{num: letteredTall, den: wrap.H}
	}
	width, height := s.len(wrap.W), s.len(wrap.H)
	v := vectors{}
	v.open(units.Size{W: width + 2*letteredEdge, H: height + 2*letteredEdge}, d.Title+". "+d.Description)
	at := func(r units.Rect) units.Rect {
		return units.Rect{Min: units.Point{X: letteredEdge + s.len(r.Min.X), Y: letteredEdge + s.len(r.Min.Y)},
			Max: units.Point{X: letteredEdge + s.len(r.Max.X), Y: letteredEdge + s.len(r.Max.Y)}}
	}
	full := at(units.RectAt(units.Point{}, wrap))
	v.rect(full, wideLine)
	i, below := 0, full.Max.Y+7*units.Millimetre
	var last units.Rect
	for b := range p.Boards() {
		on, _ := p.OnWrap(b.Role())
		r := at(on)
		v.rect(r, wideLine)
		if i > 0 {
			v.across(last.Max.X, r.Min.X, letteredEdge-5*units.Millimetre, letteredEdge, letter(l.gaps[i-1]))
		}
		v.across(r.Min.X, r.Max.X, below, r.Max.Y, letter(l.boards[i]))
		last = r
		i++
	}
	v.down(last.Min.Y, last.Max.Y, full.Max.X+6*units.Millimetre, last.Max.X, letter(l.height))
	v.across(letteredEdge, full.Max.X, letteredEdge-12*units.Millimetre, letteredEdge, letter(l.wrap[0]))
	v.down(letteredEdge, full.Max.Y, letteredEdge-6*units.Millimetre, letteredEdge, letter(l.wrap[1]))
	if l.liner[0] >= 0 {
		l.drawLiner(&v, p, at)
	}
	bar := barLength(s, p.Notation())
	v.across(letteredEdge, letteredEdge+s.len(bar), full.Max.Y+16*units.Millimetre, full.Max.Y+16*units.Millimetre, units.Format{Ruler: p.Notation().Exact()}.Text(bar))
	d.svg = v.close()
	return d
}

// barLength returns the length of the bar of a drawing: of round ones the longest
// that is drawn no longer than 45 mm.
func barLength(s scaler, n units.Notation) units.Length {
	unit := 10 * units.Millimetre
	if n != units.MetricDecimal {
		unit = units.Inch
	}
	longest := unit
	for _, times := range [...]int64{2, 5, 10, 20, 50, 100} {
		if l, _ := unit.Times(times); s.len(l) <= 45*units.Millimetre {
			longest = l
		}
	}
	return longest
}

// drawLiner draws the liner as it will lie on the boards, with its measures
// inside.
func (l *letters) drawLiner(v *vectors, p *folio.Plan, at func(units.Rect) units.Rect) {
	size := laidAs(p, stock.LinerPiece)[0].rect.Size()
	var row units.Rect
	for b := range p.Boards() {
		on, _ := p.OnWrap(b.Role())
		if row.Empty() {
			row = on
		}
		row.Max = on.Max
	}
	corner := units.Point{
		X: row.Min.X + (row.Size().W - size.W).Half(units.Down),
		Y: row.Min.Y + (row.Size().H - size.H).Half(units.Down),
	}
	r := at(units.RectAt(corner, size))
	v.rect(r, dashedLine)
	x, y := r.Min.X+6*units.Millimetre, r.Max.Y-6*units.Millimetre
	v.across(r.Min.X, r.Max.X, y, y, letter(l.liner[0]))
	v.down(r.Min.Y, r.Max.Y, x, x, letter(l.liner[1]))
}

// A scaler scales lengths, to the nearest nanometre.
type scaler struct{ num, den units.Length }

func (s scaler) len(l units.Length) units.Length {
	to, _ := l.Scale(s.num.Nanometres(), s.den.Nanometres(), units.Nearest)
	return to
}
