package score_test

import (
	"errors"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

func TestSnapEighths(t *testing.T) {
	in := units.Inch
	board := score.Grooves{Pitch: in / 8}
	// A C-fold of 11 in has its scores at 3 11/16 and 7 3/8: the first lies
	// midway between two grooves, 3 5/8 and 3 3/4. The last panel, 3 5/8, has
	// to stay no wider than the others, so 3 3/4 and 7 3/8 give 3 3/4, 3 5/8,
	// 3 5/8; turned, 11 - 3 11/16 is midway just so. Derived.
	s, err := score.CFold(11*in, score.TuckIn{Ruler: units.ThirtySeconds})
	if err != nil {
		t.Fatal(err)
	}
	got, err := board.Snap(s.Strip(), score.NoWider{Panel: 2, Than: 0}, score.NoWider{Panel: 2, Than: 1})
	if err != nil {
		t.Fatal(err)
	}
	if w := got.Strip(); w.Length() != 11*in || w.Panel(2) > w.Panel(0) || w.Panel(2) > w.Panel(1) || len(got.OffGroove()) != 0 {
		t.Errorf("%v, off %v", w, got.OffGroove())
	}
	if got.Largest() != in/16 || got.Turned() {
		t.Errorf("moved by %v, turned %v", got.Largest(), got.Turned())
	}
	// 8 13/16 in with a score 5 1/16 from the left: 3 3/4 from the right end,
	// which is a groove once the sheet is turned.
	s2, err := score.ScoredStrip(8*in+13*in/16, []units.Length{5*in + in/16}, score.Valley)
	if err != nil {
		t.Fatal(err)
	}
	got, err = board.Snap(s2)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range got.Snaps() {
		if n.End != score.RightEnd || n.Residue() != 0 || n.Groove != 29 || n.Working.Length() != n.To {
			t.Errorf("%+v", n)
		}
		if want := "score 1 128.5875 mm = length 223.8375 mm - first groove 3.175 mm - 29 x pitch 3.175 mm"; n.Working.String() != want {
			t.Errorf("%q, want %q", n.Working, want)
		}
	}
	if !got.Turned() || !got.Strip().Equal(s2) {
		t.Errorf("turned %v, %v", got.Turned(), got.Strip())
	}
	// On a board without turning it goes to the nearest groove from the left,
	// here midway again.
	board.NoTurn = true
	got, err = board.Snap(s2)
	if err != nil || got.Turned() || got.Largest() != in/16 {
		t.Errorf("turned %v, moved by %v, %v", got.Turned(), got.Largest(), err)
	}
	// A board with its last groove at 5 in.
	board.Reach = 5 * in
	if got, err = board.Snap(s2); err != nil || got.Largest() != in/16 || got.Strip().Panel(0) != 5*in {
		t.Errorf("%v, %v", got.Strip(), err)
	}
	board.Reach = 4 * in
	if got, err = board.Snap(s2); err != nil || !slices.Equal(got.OffGroove(), []int{0}) || !got.Strip().Equal(s2) {
		t.Errorf("%v, off %v, %v", got.Strip(), got.OffGroove(), err)
	}
}

// TestSnapKeepsOrder: panels 1.4 and 1.3, scores at 1.4 and 2.7 on grooves a
// unit apart; the nearest grooves are 1 and 3 and would make the narrower
// panel the wider one.
func TestSnapKeepsOrder(t *testing.T) {
	s := mustStrip(t, []units.Length{14 * mm, 13 * mm, 50*mm + 3*mm}, score.Valley, score.Mountain)
	got, err := score.Grooves{Pitch: 10 * mm, NoTurn: true}.Snap(s)
	if err != nil {
		t.Fatal(err)
	}
	w := got.Strip()
	if w.Panel(1) > w.Panel(0) {
		t.Errorf("the order is broken: %v", w)
	}
	if off := got.OffGroove(); !slices.Equal(off, []int{0, 1}) || !w.Equal(s) {
		t.Errorf("off the grooves: %v, want both scores", off)
	}
}

func TestSnapErrors(t *testing.T) {
	s := mustStrip(t, []units.Length{10 * mm, 20 * mm}, score.Valley)
	_, err := score.Grooves{Origin: -1, Reach: 11 * units.Metre}.Snap(s, score.NoWider{Panel: 1, Than: 0}, score.NoWider{Panel: 2, Than: -1})
	violation(t, err, "grooves.pitch", check.NotPositive)
	violation(t, err, "grooves.origin", check.Negative)
	violation(t, err, "grooves.reach", check.OutOfRange)
	violation(t, err, "keep[0]", check.Conflict)
	violation(t, err, "keep[1].panel", check.Unknown)
	violation(t, err, "keep[1].than", check.Unknown)
	violation(t, second(score.Grooves{Pitch: mm}.Snap(score.Strip{})), "strip", check.Missing)
	long := mustStrip(t, slices.Repeat([]units.Length{mm}, score.MaxSnap+1), score.Repeat(score.MaxSnap, score.Valley)...)
	violation(t, second(score.Grooves{Pitch: mm}.Snap(long)), "strip", check.TooMany)
	if e := new(check.Error); !errors.As(err, &e) || e.Len() != 6 {
		t.Errorf("%v", err)
	}
}

// On a sheet of 53 mm grooves 10 mm apart are met at 13, 23, 33 and 43 mm with the other
// end at the fence. A score at 11.5 mm is as far from 10 as from 13, and the sheet need
// not be turned for it; one at 12 mm is nearer to 13.
func TestSnapSparesATurn(t *testing.T) {
	for at, want := range map[units.Length]score.Snap{11*mm + mm/2: {To: 10 * mm, End: score.LeftEnd}, 12 * mm: {To: 13 * mm, End: score.RightEnd}} {
		got, err := score.Grooves{Pitch: 10 * mm}.Snap(mustStrip(t, []units.Length{at, 53*mm - at}, score.Valley))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range got.Snaps() {
			if n.To != want.To || n.End != want.End {
				t.Errorf("%v is moved to %v, %v at the fence; want %v, %v", at, n.To, n.End, want.To, want.End)
			}
		}
	}
}

// boards have grooves from fine to coarse, with any origin and reach.
func boards() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		gen.OneConstOf(units.Inch/8, units.Inch/16, 5*mm, 7*mm+3),
		lengths(0, 12*mm), gen.OneGenOf(gen.Const(units.Length(0)), lengths(0, 100*mm)), gen.Bool(),
	), func(v []any) score.Grooves {
		return score.Grooves{Pitch: v[0].(units.Length), Origin: v[1].(units.Length), Reach: v[2].(units.Length), NoTurn: v[3].(bool)}
	})
}

// groovesOf lists where a sheet can be scored at all, in plain counting.
func groovesOf(g score.Grooves, length units.Length) map[units.Length]bool {
	origin, reach := g.Origin, g.Reach
	if origin == 0 {
		origin = g.Pitch
	}
	if reach == 0 {
		reach = length
	}
	places := map[units.Length]bool{}
	for x := origin; x < length && x <= reach; x += g.Pitch {
		places[x] = true
		if !g.NoTurn {
			places[length-x] = true
		}
	}
	return places
}

func TestSnapProperties(t *testing.T) {
	strips := gen.OneGenOf(drafts(24, smallWidths(30)), drafts(24, lengths(2*mm, 60*mm)))
	properties(t, func(p *gopter.Properties) {
		p.Property("half a pitch at most, no order broken, the sum kept, residues true", prop.ForAll(
			func(d draft, g score.Grooves) string {
				s := d.strip()
				got, err := g.Snap(s)
				if err != nil {
					return err.Error()
				}
				w := got.Strip()
				if w.Length() != s.Length() || w.Len() != s.Len() {
					return "the sum"
				}
				places := groovesOf(g, s.Length())
				for i, n := range got.Snaps() {
					before, _ := s.Score(i)
					after, _ := w.Score(i)
					if n.From != before.At || n.To != after.At || after.Fold != before.Fold || n.Residue() != n.To-n.From || n.Working.Length() != n.To {
						return "a residue or a working"
					}
					if 2*n.Residue().Abs() > g.Pitch {
						return "moved too far"
					}
					if n.End == score.NoEnd {
						if n.To != n.From {
							return "moved to no groove"
						}
					} else if !places[n.To] {
						return "not on a groove"
					}
				}
				for a, x := range s.Panels() {
					if w.Panel(a) < units.Shortest {
						return "a panel vanished"
					}
					for b, y := range s.Panels() {
						if x < y && w.Panel(a) > w.Panel(b) {
							return "an order is broken"
						}
					}
				}
				return ""
			}, strips, boards()))
		p.Property("no choice is better, for few panels", prop.ForAll(
			func(d draft, g score.Grooves) string {
				s := d.strip()
				got, err := g.Snap(s)
				if err != nil {
					return err.Error()
				}
				off, moved, turns := len(got.OffGroove()), units.Length(0), 0
				for _, n := range got.Snaps() {
					moved += n.Residue().Abs()
					if n.End == score.RightEnd {
						turns++
					}
				}
				bestOff, bestMoved, bestTurns := leastMoves(s, g)
				if off != bestOff || moved != bestMoved || turns != bestTurns {
					return "a better choice exists"
				}
				return ""
			}, drafts(6, lengths(2*mm, 30*mm)), boards()))
		p.Property("an order named is kept, others need not be", prop.ForAll(
			func(d draft, g score.Grooves) string {
				s := d.strip()
				narrow, wide := 0, 0
				for i, x := range s.Panels() {
					if x < s.Panel(narrow) {
						narrow = i
					}
					if x > s.Panel(wide) {
						wide = i
					}
				}
				got, err := g.Snap(s, score.NoWider{Panel: narrow, Than: wide})
				if err != nil {
					return err.Error()
				}
				free, err := g.Snap(s)
				if err != nil {
					return err.Error()
				}
				if got.Strip().Panel(narrow) > got.Strip().Panel(wide) {
					return "broken"
				}
				if s.Len() <= 6 && len(got.OffGroove()) > len(free.OffGroove()) {
					return "fewer rules, more scores off the grooves"
				}
				return ""
			}, strips, boards()))
	})
}

// leastMoves tries every choice of places for the scores of a short strip: the fewest
// off the grooves, of those what is moved least, of those the fewest made with the
// sheet turned.
func leastMoves(s score.Strip, g score.Grooves) (off int, moved units.Length, turns int) {
	var places []units.Length
	for x := range groovesOf(g, s.Length()) {
		places = append(places, x)
	}
	grooved := groovesOf(g, s.Length())
	edges := make([]units.Length, s.Len()+1)
	edges[s.Len()] = s.Length()
	still := g
	still.NoTurn = true
	atLeft := groovesOf(still, s.Length())
	off = s.Len()
	var try func(i, o int, m units.Length, turned int)
	try = func(i, o int, m units.Length, turned int) {
		if i == s.Len() {
			for a := range s.Len() {
				if edges[a+1]-edges[a] < units.Shortest {
					return
				}
				for b := range s.Len() {
					if s.Panel(a) < s.Panel(b) && edges[a+1]-edges[a] > edges[b+1]-edges[b] {
						return
					}
				}
			}
			if o < off || o == off && (m < moved || m == moved && turned < turns) {
				off, moved, turns = o, m, turned
			}
			return
		}
		sc, _ := s.Score(i - 1)
		for _, x := range places {
			if d := (x - sc.At).Abs(); 2*d <= g.Pitch {
				edges[i] = x
				if atLeft[x] {
					try(i+1, o, m+d, turned)
				} else {
					try(i+1, o, m+d, turned+1)
				}
			}
		}
		if !grooved[sc.At] {
			edges[i] = sc.At
			try(i+1, o+1, m, turned)
		}
	}
	try(1, 0, 0, 0)
	return off, moved, turns
}

// What was asked for in another place came out in the same one, but is another thing to
// have been put there; so is what a board that is turned put there.
func TestSnapsAreTheSameOnlyFromTheSame(t *testing.T) {
	snap := func(g score.Grooves, at units.Length) score.Snapped {
		s, err := score.ScoredStrip(103*mm, []units.Length{at}, score.Valley)
		if err != nil {
			t.Fatal(err)
		}
		out, err := g.Snap(s)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	board := score.Grooves{Pitch: 10 * mm, NoTurn: true}
	from41, from42 := snap(board, 41*mm), snap(board, 42*mm)
	if !from41.Strip().Equal(from42.Strip()) || from41.Equal(from42) || from42.Equal(from41) {
		t.Errorf("put on 40 mm from 41 and from 42: %v, %v", from41, from42)
	}
	if again := snap(board, 41*mm); !from41.Equal(again) {
		t.Error("the same put twice differs")
	}
	// 63 mm from the left end are 40 mm from the right one; no groove is there without
	// turning.
	turned := snap(score.Grooves{Pitch: 10 * mm}, 63*mm)
	still := snap(score.Grooves{Pitch: 21 * mm, NoTurn: true}, 63*mm)
	if !turned.Strip().Equal(still.Strip()) || turned.Equal(still) {
		t.Errorf("63 mm from the right and from the left: %v, %v", turned, still)
	}
}
