package worktop_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const mm = units.Millimetre

// A strip is the folds of a sheet along one axis: where its lines are, their kinds,
// and by which turns they are folded.
type strip struct {
	score.Strip
	at    []units.Length
	turns []score.Turn
}

// strips are strips of one to five panels off the ruler, with any turns.
func strips() gopter.Gen {
	panel := gopter.CombineGens(gen.Int64Range(int64(mm), int64(40*mm)), gen.Bool())
	turn := gopter.CombineGens(gen.IntRange(0, 3), gen.Bool())
	return proptest.Map(gopter.CombineGens(proptest.List(1, 5, panel), proptest.List(0, 8, turn)), func(v []any) strip {
		var s strip
		var widths []units.Length
		var kinds []score.Fold
		var at units.Length
		for i, p := range v[0].([][]any) {
			if i > 0 {
				s.at = append(s.at, at)
				kind := score.Valley
				if p[1].(bool) {
					kind = score.Mountain
				}
				kinds = append(kinds, kind)
			}
			widths = append(widths, units.Length(p[0].(int64)))
			at += widths[i]
		}
		s.Strip, _ = score.NewStrip(widths, kinds...)
		for _, t := range v[1].([][]any) {
			part := score.Beyond
			if t[1].(bool) {
				part = score.Before
			}
			s.turns = append(s.turns, score.Turn{Score: t[0].(int), Part: part})
		}
		return s
	})
}

// folded makes those turns that are possible, one after the other, and returns them
// with how the strip then lies.
func (s strip) folded() (done []score.Turn, lies score.Folding) {
	lies, _ = s.FoldBy(context.Background())
	for _, t := range s.turns {
		if t.Score >= s.Len()-1 {
			continue
		}
		if f, err := s.FoldBy(context.Background(), append(slices.Clone(done), t)...); err == nil {
			done, lies = append(done, t), f
		}
	}
	return done, lies
}

// A sheet is folded along one axis, then through the stack along the other.
type sheet struct {
	axis          score.Axis // of the lines that are folded first
	first, second strip
}

func sheets() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 1), strips(), strips()), func(v []any) sheet {
		return sheet{score.Axis(v[0].(int)), v[1].(strip), v[2].(strip)}
	})
}

// blank is the sheet with the lines of both strips.
func (s sheet) blank() (score.Blank, error) {
	d := score.Draft{Size: units.Size{W: s.first.Length(), H: s.second.Length()}}
	if s.axis == score.Level {
		d.Size = d.Size.Turned()
	}
	for k, one := range [...]strip{s.first, s.second} {
		across := [...]strip{s.second, s.first}[k].Length()
		for _, sc := range one.Scores() {
			d.Lines = append(d.Lines, score.Line{Axis: s.axis ^ score.Axis(k), At: sc.At, To: across, Fold: sc.Fold})
		}
	}
	return score.NewBlank(d)
}

// point returns the place so far along both strips.
func (s sheet) point(first, second units.Length) units.Point {
	if s.axis == score.Level {
		first, second = second, first
	}
	return units.Point{X: first, Y: second}
}

// part returns the part of a heap that a place of the drawing is on.
func part(h worktop.Heap, q units.Point) worktop.Stretch {
	for _, p := range h.Stretches() {
		if edge, _ := p.Outline(); edge.Contains(q) {
			return p
		}
	}
	return worktop.Stretch{}
}

// fold makes a turn on the table: the way that the kind of the score asks for, by
// the side of the stack that is up, which is that of a panel of the first strip that
// lies face up in it, or does not.
func (s sheet) fold(t *worktop.Bench, k int, turn score.Turn, faceUp bool) bool {
	one := [...]strip{s.first, s.second}[k]
	axis := s.axis ^ score.Axis(k)
	a := work.FoldAt{Axis: axis, At: one.at[turn.Score], Flat: true, Way: work.Away}
	a.Moves = [...]score.Edge{score.Upright: score.Right, score.Level: score.Tail}[axis]
	beside := a.At + units.Nanometre
	if turn.Part == score.Before {
		a.Moves = [...]score.Edge{score.Upright: score.Left, score.Level: score.Head}[axis]
	}
	q := s.point(units.Nanometre, beside)
	if k == 0 {
		q = s.point(beside, units.Nanometre)
	}
	up := part(t.Heap(0, 0), q).Lies().Up() == score.Face
	if !faceUp {
		up = !up
	}
	if line, _ := one.Score(turn.Score); (line.Fold == score.Valley) == up {
		a.Way = work.Towards
	}
	return t.Do(a)
}

// Sheets folded on the table fold by fold lie as package score has them, which knows
// strips and what folding a stack across means: every part at the same place, the
// same side up, in the same order, at every place. What was turned over as a whole
// on the way is compared from its other side.
func TestLiesAsFoldedByScore(t *testing.T) {
	most, both := 0, 0
	proptest.Run(t, 1500, func(p *gopter.Properties) {
		p.Property("a sheet lies as package score folds it", prop.ForAll(func(s sheet) string {
			b, err := s.blank()
			if err != nil {
				return err.Error()
			}
			table := worktop.New([]worktop.Workpiece{{Blank: b, Quantity: 1}})
			turns, first := s.first.folded()
			for _, turn := range turns {
				if !s.fold(table, 0, turn, true) {
					return fmt.Sprintf("%v cannot be followed", turn)
				}
			}
			more, second := s.second.folded()
			clone := table.Clone()
			for _, turn := range more {
				if !s.fold(table, 1, turn, first.FaceUp(0)) {
					return fmt.Sprintf("%v through the stack cannot be followed", turn)
				}
			}
			for _, turn := range more { // nothing that was done there moved anything here
				if !s.fold(clone, 1, turn, first.FaceUp(0)) {
					return fmt.Sprintf("%v through the stack of a clone cannot be followed", turn)
				}
			}
			want, err := score.FoldAcross(s.axis, first, second)
			if err != nil {
				return err.Error()
			}
			most = max(most, want.MostLayers())
			both += len(turns) * len(more)
			if bad := s.compare(table.Heap(0, 0), want); bad != "" {
				return bad
			}
			if bad := s.compare(clone.Heap(0, 0), want); bad != "" {
				return "of a clone " + bad
			}
			return sections(table.Heap(0, 0))
		}, sheets()))
	})
	if most < 8 || both == 0 {
		t.Errorf("at most %d layers", most)
	}
}

// compare says where a heap differs from a sheet as score has it.
func (s sheet) compare(h worktop.Heap, want score.CrossFolded) string {
	bounds := h.Bounds()
	if bounds.Size() != want.Size() {
		return fmt.Sprintf("it covers %v; want %v", bounds.Size(), want.Size())
	}
	// Which way the first panels run, here and there.
	lies := part(h, units.Point{X: units.Nanometre, Y: units.Nanometre}).Lies()
	x, y := lies.Way(score.Right).X > 0, lies.Way(score.Tail).Y > 0
	a, b := want.First().FaceUp(0), want.Second().FaceUp(0)
	if s.axis == score.Level {
		a, b = b, a
	}
	flipX, flipY := x != a, y != b
	for patch := range want.Patches() {
		size := patch.Area.Size()
		at := patch.Area.Min.Plus(units.Point{X: size.W / 2, Y: size.H / 2})
		layers := want.At(at)
		if flipX {
			at.X = want.Size().W - at.X
		}
		if flipY {
			at.Y = want.Size().H - at.Y
		}
		if flipX != flipY {
			slices.Reverse(layers)
		}
		at = at.Plus(bounds.Min)
		var got []score.CrossPanel
		for _, p := range h.Stretches() {
			q := p.Lies().Undone().Point(at)
			if edge, _ := p.Outline(); edge.Contains(q) {
				got = append(got, s.layer(q))
				if up := want.FaceUp(s.layer(q)) != (flipX != flipY); up != (p.Lies().Up() == score.Face) {
					return fmt.Sprintf("at %v %v has the wrong side up", at, s.layer(q))
				}
			}
		}
		if !slices.Equal(got, layers) {
			return fmt.Sprintf("at %v lie %v; want %v", at, got, layers)
		}
	}
	return ""
}

// sections says what is wrong with sections through the middle of a heap: a part that
// lies over another one is drawn on a higher level, one that goes on flat on the same.
func sections(h worktop.Heap) string {
	var parts []worktop.Stretch
	for _, p := range h.Stretches() {
		parts = append(parts, p)
	}
	r := h.Bounds()
	middle := units.Point{X: r.Min.X + r.Size().W/2, Y: r.Min.Y + r.Size().H/2}
	for _, axis := range [...]score.Axis{score.Upright, score.Level} {
		cuts := h.Section(axis, middle)
		if len(cuts) == 0 {
			return "nothing is cut through"
		}
		for i, c := range cuts {
			from, to := c.Ends()
			for _, d := range cuts[:i] {
				first, last := d.Ends()
				p, q := parts[c.Stretch()], parts[d.Stretch()]
				switch {
				case max(from, first) < min(to, last):
					if c.Level() <= d.Level() {
						return "what lies over something is drawn no higher"
					}
				case p.Lies() == q.Lies() && (first == to || last == from):
					if c.Level() != d.Level() {
						return "what lies flat is drawn on two levels"
					}
				}
				if at, ok := h.Fold(d, c, axis); ok && (at != from && at != to || at != first && at != last) {
					return fmt.Sprintf("a fold at %v of what ends at %v, %v and %v, %v", at, first, last, from, to)
				}
			}
		}
	}
	return ""
}

// layer returns on which panels a place of the drawing is.
func (s sheet) layer(q units.Point) score.CrossPanel {
	if s.axis == score.Level {
		q.X, q.Y = q.Y, q.X
	}
	n := func(at []units.Length, x units.Length) int {
		i, _ := slices.BinarySearch(at, x)
		return i
	}
	return score.CrossPanel{First: n(s.first.at, q.X), Second: n(s.second.at, q.Y)}
}
