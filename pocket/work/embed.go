package work

import "boardwrap.example/units"

// Embed returns an action of a pocket by itself as one of the folio that it
// sits in: pieces count on from shift, and what is said of the place under the
// pocket is said of what it lies on there. Under is asked for the base and the
// place on it of something that lies at a place of the closed footprint.
func Embed(a Action, shift int, under func(Base, At, units.Size) (Base, At)) Action {
	thing := func(t *Thing) {
		if t.Kind == Piece {
			t.Index += shift
		}
	}
	base := func(b *Base, at *At, size units.Size) {
		switch b.Kind {
		case OnPiece:
			b.Index += shift
		case Under:
			*b, *at = under(*b, *at, size)
		}
	}
	switch a := a.(type) {
	case FindGrain:
		for _, list := range [...]*[]Thing{&a.Across, &a.Either} {
			moved := make([]Thing, len(*list))
			for i, t := range *list {
				thing(&t)
				moved[i] = t
			}
			*list = moved
		}
		return a
	case Cut:
		thing(&a.What)
		return a
	case Open:
		thing(&a.What)
		return a
	case NotchOut:
		thing(&a.What)
		return a
	case Trim:
		thing(&a.What)
		return a
	case Draw:
		if a.On.Kind == OnPiece {
			a.On.Index += shift
		}
		return a
	case ScoreAt:
		thing(&a.What)
		return a
	case FoldAt:
		thing(&a.What)
		return a
	case TurnOver:
		thing(&a.What)
		return a
	case MarkPlace:
		thing(&a.What)
		base(&a.On, &a.At, a.Size)
		return a
	case Lay:
		thing(&a.What)
		base(&a.On, &a.At, a.Size)
		return a
	case Put:
		thing(&a.What)
		base(&a.On, &a.At, a.Size)
		return a
	case Fix:
		thing(&a.What)
		base(&a.On, &a.At, a.Size)
		return a
	case Stick:
		thing(&a.What)
		var none At
		base(&a.To, &none, a.Area.Size())
		return a
	case Tuck:
		thing(&a.What)
		return a
	case TurnIn:
		thing(&a.What)
		return a
	case Rub:
		thing(&a.What)
		return a
	case Insert:
		thing(&a.What)
		base(&a.On, &a.At, a.Size)
		return a
	}
	return a
}
