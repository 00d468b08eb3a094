package work

import (
	"slices"

	"boardwrap.example/units"
)

// Embed returns an action of a pocket by itself as one of the folio that it
// sits in: pieces count on from shift, and what is said of the place under the
// pocket is said of what it lies on there. Under is asked for the base and the
// place on it of something that lies at a place of the closed footprint.
func Embed(a Action, shift int, under func(Base, At, units.Size) (Base, At)) Action {
	return a.embed(embedding{shift, under})
}

// An embedding is how a pocket's work becomes a folio's.
type embedding struct {
	shift int
	under func(Base, At, units.Size) (Base, At)
}

func (e embedding) thing(t Thing) Thing {
	if t.Kind == Piece {
		t.Index += e.shift
	}
	return t
}

func (e embedding) all(list []Thing) []Thing {
	list = slices.Clone(list)
	for i, t := range list {
		list[i] = e.thing(t)
	}
	return list
}

func (e embedding) base(b Base, at At, size units.Size) (Base, At) {
	switch b.Kind {
	case OnPiece:
		b.Index += e.shift
	case Under:
		return e.under(b, at, size)
	}
	return b, at
}

func (g FindGrain) embed(e embedding) Action {
	g.Across, g.Either = e.all(g.Across), e.all(g.Either)
	return g
}

func (c Cut) embed(e embedding) Action      { c.What = e.thing(c.What); return c }
func (o Open) embed(e embedding) Action     { o.What = e.thing(o.What); return o }
func (n NotchOut) embed(e embedding) Action { n.What = e.thing(n.What); return n }
func (t Trim) embed(e embedding) Action     { t.What = e.thing(t.What); return t }
func (s ScoreAt) embed(e embedding) Action  { s.What = e.thing(s.What); return s }
func (f FoldAt) embed(e embedding) Action   { f.What = e.thing(f.What); return f }
func (t TurnOver) embed(e embedding) Action { t.What = e.thing(t.What); return t }
func (s Sink) embed(e embedding) Action     { s.What = e.thing(s.What); return s }
func (t TurnIn) embed(e embedding) Action   { t.What = e.thing(t.What); return t }
func (t Tuck) embed(e embedding) Action     { t.What = e.thing(t.What); return t }
func (r Rub) embed(e embedding) Action      { r.What = e.thing(r.What); return r }

func (t TryPair) embed(e embedding) Action {
	t.One, t.Other = e.thing(t.One), e.thing(t.Other)
	return t
}

// A line is drawn on pieces and boards only, never on the place under a pocket.
func (d Draw) embed(e embedding) Action {
	if d.On.Kind == OnPiece {
		d.On.Index += e.shift
	}
	return d
}

func (m MarkPlace) embed(e embedding) Action {
	m.What = e.thing(m.What)
	m.On, m.At = e.base(m.On, m.At, m.Size)
	return m
}

func (l Lay) embed(e embedding) Action { return Lay(MarkPlace(l).embed(e).(MarkPlace)) }
func (p Put) embed(e embedding) Action { return Put(MarkPlace(p).embed(e).(MarkPlace)) }

func (f Fix) embed(e embedding) Action {
	f.What = e.thing(f.What)
	f.On, f.At = e.base(f.On, f.At, f.Size)
	return f
}

func (s Stick) embed(e embedding) Action {
	s.What = e.thing(s.What)
	s.To, _ = e.base(s.To, At{}, s.Area.Size())
	return s
}

func (i Insert) embed(e embedding) Action {
	i.What = e.thing(i.What)
	i.On, i.At = e.base(i.On, i.At, i.Size)
	return i
}

func (d Dry) embed(embedding) Action     { return d }
func (m Measure) embed(embedding) Action { return m }
func (r Refit) embed(embedding) Action   { return r }
func (c Close) embed(embedding) Action   { return c }
