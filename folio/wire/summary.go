package wire

import (
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// AppendSummary appends to dst what a front end shows of a plan while somebody types:
//
//	{"version": 1, "summary": {"title": "…", "open": {"width": "12 7/8 in", "height": "8 in"},
//		"boards": ["left cover", …], "pieces": [{"name": "liner", "stock": "liner", "fitting": "",
//			"quantity": 1, "width": "12 5/8 in", "height": "7 3/4 in", "working": ["…", "…"]}, …],
//		"fittings": [{"index": 0, "label": "…", "panel": "left cover", "outside": false,
//			"x": 12.7, "y": 19.05, "pieces": [4]}, …],
//		"warnings": ["…"], "closed": {"width": "…", "height": "…", "thickness": "…"}}}
//
// Lengths are texts in the notation of the plan, places in mm on the open row; closed
// is rounded up to 1/64 in, 0.001 in or 0.1 mm, which can be read off a ruler where
// calipers add up to many decimals, and left out where the folio does not shut. Everything else of the plan is in the
// document of [AppendPlan], which takes many times the machine code to write.
// Of nil it is that of a plan of nothing.
func AppendSummary(dst []byte, p *folio.Plan) []byte {
	if p == nil {
		p = new(folio.Plan)
	}
	e := newEncoder(dst, p.Notation())
	e.raw(`{"version":` + strconv.Itoa(Version) + `,"summary":{"title":`)
	e.string(p.Spec().Title)
	e.raw(`,"open":{"width":`)
	e.exactly(p.OpenWidth().Length())
	e.raw(`,"height":`)
	e.exactly(p.OpenHeight().Length())
	e.raw(`},"boards":[`)
	for b := range p.Boards() {
		e.element()
		e.string(b.Role().String())
	}
	e.raw(`],"pieces":[`)
	for q := range p.Pieces() {
		e.element()
		e.pieceInShort(q)
	}
	e.raw(`],"fittings":[`)
	for f := range p.Fittings() {
		e.element()
		e.fittingInShort(f)
	}
	e.raw(`],"warnings":[`)
	for w := range p.Warnings() {
		e.element()
		e.string(w.Text)
	}
	e.raw(`]`)
	if c, ok := p.Closed(); ok {
		fine := e.note.Fine()
		e.raw(`,"closed":{"width":`)
		e.exactly(fine.Up(c.Width().Length()))
		e.raw(`,"height":`)
		e.exactly(fine.Up(c.Height().Length()))
		e.raw(`,"thickness":`)
		e.exactly(fine.Up(c.Thickness().Length()))
		e.raw(`}`)
	}
	e.raw(`}}`)
	return e.out
}

// element begins an element of a list.
//
//go:noinline
func (e *encoder) element() {
	if e.out[len(e.out)-1] != '[' {
		e.put(',')
	}
}

func (e *encoder) pieceInShort(q folio.Piece) {
	e.raw(`{"name":`)
	e.string(q.Name())
	e.raw(`,"stock":`)
	e.string(q.Stock())
	e.raw(`,"fitting":`)
	e.string(ownerOf(q))
	e.raw(`,"quantity":`)
	e.int(int64(q.Quantity()))
	e.raw(`,"width":`)
	e.exactly(q.Size().W)
	e.raw(`,"height":`)
	e.exactly(q.Size().H)
	e.raw(`,"working":[`)
	for i, w := range [...]units.Working{q.Width(), q.Height()} {
		if i > 0 {
			e.put(',')
		}
		e.string(string(w.AppendLine(nil, false)))
	}
	e.raw(`]}`)
}

func (e *encoder) fittingInShort(f folio.Fitted) {
	e.raw(`{"index":`)
	e.int(int64(f.Index()))
	e.raw(`,"label":`)
	e.string(f.Label())
	e.raw(`,"panel":`)
	e.string(f.Panel().String())
	e.raw(`,"outside":`)
	e.bool(f.Outside())
	e.raw(`,"x":`)
	e.millimetres(f.Rect().Min.X)
	e.raw(`,"y":`)
	e.millimetres(f.Rect().Min.Y)
	e.raw(`,"pieces":[`)
	for i := range f.Pieces() {
		e.element()
		e.int(int64(i))
	}
	e.raw(`]}`)
}
