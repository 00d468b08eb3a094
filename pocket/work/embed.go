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

func (a FindGrain) embed(e embedding) Action {
	a.Across, a.Either = e.all(a.Across), e.all(a.Either)
	return a
}

func (a Cut) embed(e embedding) Action      { a.What = e.thing(a.What); return a }
func (a Open) embed(e embedding) Action     { a.What = e.thing(a.What); return a }
func (a NotchOut) embed(e embedding) Action { a.What = e.thing(a.What); return a }
func (a Trim) embed(e embedding) Action     { a.What = e.thing(a.What); return a }
func (a ScoreAt) embed(e embedding) Action  { a.What = e.thing(a.What); return a }
func (a FoldAt) embed(e embedding) Action   { a.What = e.thing(a.What); return a }
func (a TurnOver) embed(e embedding) Action { a.What = e.thing(a.What); return a }
func (a Sink) embed(e embedding) Action     { a.What = e.thing(a.What); return a }
func (a TurnIn) embed(e embedding) Action   { a.What = e.thing(a.What); return a }
func (a Tuck) embed(e embedding) Action     { a.What = e.thing(a.What); return a }
func (a Rub) embed(e embedding) Action      { a.What = e.thing(a.What); return a }

func (a TryPair) embed(e embedding) Action {
	a.One, a.Other = e.thing(a.One), e.thing(a.Other)
	return a
}

// A line is drawn on pieces and boards only, never on the place under a pocket.
func (a Draw) embed(e embedding) Action {
	if a.On.Kind == OnPiece {
		a.On.Index += e.shift
	}
	return a
}

func (a MarkPlace) embed(e embedding) Action {
	a.What = e.thing(a.What)
	a.On, a.At = e.base(a.On, a.At, a.Size)
	return a
}

func (a Lay) embed(e embedding) Action { return Lay(MarkPlace(a).embed(e).(MarkPlace)) }
func (a Put) embed(e embedding) Action { return Put(MarkPlace(a).embed(e).(MarkPlace)) }

func (a Fix) embed(e embedding) Action {
	a.What = e.thing(a.What)
	a.On, a.At = e.base(a.On, a.At, a.Size)
	return a
}

func (a Stick) embed(e embedding) Action {
	a.What = e.thing(a.What)
	a.To, _ = e.base(a.To, At{}, a.Area.Size())
	return a
}

func (a Insert) embed(e embedding) Action {
	a.What = e.thing(a.What)
	a.On, a.At = e.base(a.On, a.At, a.Size)
	return a
}

func (a Dry) embed(embedding) Action     { return a }
func (a Measure) embed(embedding) Action { return a }
func (a Refit) embed(embedding) Action   { return a }
func (a Close) embed(embedding) Action   { return a }
