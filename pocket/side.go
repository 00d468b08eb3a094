package pocket

import (
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// WrongSideShows marks a paper with one good side whose other side is seen
// after folding.
const WrongSideShows check.Code = "wrong-side-shows"

// A seen is a part of which one side of the drawing can be seen, closed or
// open. The insides of pockets do not count.
type seen struct {
	what string
	side score.Side
}

// sees adds what is seen of a panel: the side that lies up, or with under the
// other one.
//
//go:noinline
func (p panels) sees(all []seen, what, panel string, under bool) []seen {
	side := p.called(panel).side
	if under {
		side = side.Other()
	}
	return append(all, seen{what, side})
}

// sideUp returns which side of the drawing lies up at a panel: every fold
// between it and the part that no fold has turned turns it over.
func (d *design) sideUp(p *Panel) score.Side {
	turns := 0 // quarter turns about the folds
	count := func(f crease) {
		switch {
		case f.end == creased:
		case f.end.wall():
			turns++
		default:
			turns += 2
		}
	}
	each := func(piece int, from units.Length, upTo units.Length) {
		q := &d.pieces[piece]
		for _, f := range q.folds {
			if f.axis != q.folds[0].axis && !p.crossed {
				continue
			}
			if p.crossed && f.axis != score.Upright {
				continue
			}
			if from+f.at <= upTo {
				count(f)
			}
			if f.moves == score.Left || f.moves == score.Head { // the beginning itself turns
				count(f)
			}
		}
	}
	piece := &d.pieces[p.piece]
	if p.chain > 0 {
		chain := d.chains[p.chain-1]
		upTo := p.blank.Min.X
		for _, l := range chain {
			if l.piece == p.piece && l.copy == p.copy {
				upTo += l.from
			}
		}
		for _, l := range chain {
			each(l.piece, l.from, upTo)
		}
	} else if len(piece.folds) > 0 {
		upTo := p.blank.Min.X
		if piece.folds[0].axis == score.Level {
			upTo = p.blank.Min.Y
		}
		each(p.piece, 0, upTo)
	}
	if turned := turns/2%2 == 1; turned != (piece.over != p.front) {
		return score.Back
	}
	return score.Face
}

// Showing returns the design cut with that side of its paper up which brings the
// given one out where it can be seen: the other one, where folds turn it over.
// Where both sides of the drawings are seen, closed or open, that counts which is
// seen first, and a paper with one good side gets a warning for the rest
// ([WrongSideShows]).
func (d Design) Showing(side work.PaperSide) Design {
	w := d.of()
	if len(w.seen) > 0 && w.seen[0].side == score.Back {
		side = side.Other()
	}
	d.up = side
	return d
}

// wrongSide says where the wrong side of a paper with one good side can be seen,
// cut with that side up; "" where it cannot.
func (d *design) wrongSide(cut work.PaperSide) string {
	if d.paper.TwoSided {
		return ""
	}
	var buf [192]byte
	text := append(buf[:0], "only one side of the paper is good, and cut with the "...)
	text = append(text, cut.String()...)
	text = append(text, " up it shows its wrong side at: "...)
	bare := len(text)
	for i, part := range d.seen {
		up := cut
		if part.side == score.Back {
			up = up.Other()
		}
		if up != work.WrongSide || slices.Contains(d.seen[:i], part) {
			continue
		}
		if len(text) > bare {
			text = append(text, ", "...)
		}
		text = append(text, part.what...)
	}
	if len(text) == bare {
		return ""
	}
	return string(text)
}
