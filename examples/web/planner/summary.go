package planner

import (
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/internal/jsontext"
	"boardwrap.example/units"
)

// A sheet is a document that is being written, lengths as texts in the notation of
// the plan.
type sheet struct {
	out []byte
	of  units.Format
}

// member begins a member, or with no name an element.
func (s *sheet) member(name string) *sheet {
	switch s.out[len(s.out)-1] {
	case '{', '[':
	default:
		s.out = append(s.out, ',')
	}
	if name != "" {
		s.out = append(jsontext.AppendText(s.out, name), ':')
	}
	return s
}

func (s *sheet) raw(text string)         { s.out = append(s.out, text...) }
func (s *sheet) text(text string)        { s.out = jsontext.AppendText(s.out, text) }
func (s *sheet) number(n int)            { s.out = strconv.AppendInt(s.out, int64(n), 10) }
func (s *sheet) truth(yes bool)          { s.out = strconv.AppendBool(s.out, yes) }
func (s *sheet) length(l units.Length)   { s.text(string(s.of.Append(nil, l))) }
func (s *sheet) drawn(l units.Length)    { s.out = jsontext.AppendNumber(s.out, l.Millimetres()) }
func (s *sheet) working(w units.Working) { s.text(string(w.AppendLine(nil, false))) }

// summary answers with what a front end shows of a plan while somebody types: sizes
// and workings as texts, places in mm.
func (d *Desk) summary(texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	s := &sheet{of: units.Format{Ruler: p.Notation().Exact()}}
	s.raw(`{"version":1,"summary":{"title":`)
	s.text(p.Spec().Title)
	s.raw(`,"open":{"width":`)
	s.length(p.OpenWidth().Length())
	s.raw(`,"height":`)
	s.length(p.OpenHeight().Length())
	s.raw(`},"boards":[`)
	for b := range p.Boards() {
		s.member("").text(b.Role().String())
	}
	s.raw(`],"pieces":[`)
	for q := range p.Pieces() {
		s.member("")
		s.piece(q)
	}
	s.raw(`],"fittings":[`)
	for f := range p.Fittings() {
		s.member("")
		s.fitting(f)
	}
	s.raw(`],"warnings":[`)
	for w := range p.Warnings() {
		s.member("").text(w.Text)
	}
	s.raw(`]`)
	if c, ok := p.Closed(); ok {
		s.raw(`,"closed":{"width":`)
		s.length(c.Width().Length())
		s.raw(`,"height":`)
		s.length(c.Height().Length())
		s.raw(`,"thickness":`)
		s.length(c.Thickness().Length())
		s.raw(`}`)
	}
	s.raw(`}}`)
	return s.out, nil
}

func (s *sheet) piece(q folio.Piece) {
	s.raw(`{"name":`)
	s.text(q.Name())
	s.raw(`,"stock":`)
	s.text(q.Stock())
	s.raw(`,"fitting":`)
	s.text(q.Fitting())
	s.raw(`,"quantity":`)
	s.number(q.Quantity())
	s.raw(`,"width":`)
	s.length(q.Size().W)
	s.raw(`,"height":`)
	s.length(q.Size().H)
	s.raw(`,"working":[`)
	s.working(q.Width())
	s.raw(`,`)
	s.working(q.Height())
	s.raw(`]}`)
}

func (s *sheet) fitting(f folio.Fitted) {
	s.raw(`{"index":`)
	s.number(f.Index())
	s.raw(`,"label":`)
	s.text(f.Label())
	s.raw(`,"panel":`)
	s.text(f.Panel().String())
	s.raw(`,"outside":`)
	s.truth(f.Outside())
	s.raw(`,"x":`)
	s.drawn(f.Rect().Min.X)
	s.raw(`,"y":`)
	s.drawn(f.Rect().Min.Y)
	s.raw(`,"pieces":[`)
	for i := range f.Pieces() {
		s.member("").number(i)
	}
	s.raw(`]}`)
}
