package score_test

import (
	"context"
	"encoding/binary"
	"errors"
	"testing"
	"time"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// stripFrom takes a strip of 1 to 64 panels from any bytes: how many, then for each
// panel a byte with its fold and its width, small so that scores meet.
func stripFrom(data []byte) score.Strip {
	if len(data) == 0 {
		data = []byte{0}
	}
	n := int(data[0])%64 + 1
	panels := make([]units.Length, n)
	folds := make([]score.Fold, n-1)
	for i := range n {
		b := byte(0)
		if len(data) > 1 {
			b = data[1+i%(len(data)-1)] + byte(i/(len(data)-1))
		}
		panels[i], _ = units.Millimetre.Times(int64(b>>1)%16 + 1)
		if i < n-1 && b&1 == 1 {
			folds[i] = score.Mountain
		}
	}
	s, err := score.NewStrip(panels, folds...)
	if err != nil {
		panic(err)
	}
	return s
}

// FuzzStrip: any strip of 1 to 64 panels ends with an answer in bounded time,
// and all the answers agree.
func FuzzStrip(f *testing.F) {
	for _, seed := range []string{"", "\x02ab", "\x3f", "\x3f\x00\x01\x02\x03", "\x0aspring outing", "\x3f\x1e\x1e\x1f\x1f", "\x20\x03\x02"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s := stripFrom(data)
		folded, err := s.Fold()
		if (err == nil) != s.FoldsFlat() {
			t.Fatal("Fold and FoldsFlat disagree")
		}
		ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
		defer cancel()
		all, listErr := s.Foldings(ctx, 20)
		if listErr != nil && !errors.Is(listErr, score.ErrLimit) && !errors.Is(listErr, context.DeadlineExceeded) {
			t.Fatal(listErr)
		}
		if listErr == nil && (len(all) > 0) != (err == nil) {
			t.Fatal("the list and the decision disagree")
		}
		turns, turnsErr := s.Turns()
		if err != nil {
			var u *score.Unfoldable
			if !errors.As(err, &u) || len(u.Scores()) < 2 || u.Error() == "" || turnsErr == nil || len(all) > 0 {
				t.Fatalf("%v, %v, %d orders", err, turnsErr, len(all))
			}
			return
		}
		by, turnsErr := s.FoldBy(context.Background(), turns...)
		if turnsErr != nil || !by.Equal(folded) {
			t.Fatalf("turns %v: %v", turns, turnsErr)
		}
		if fault := broken(s, never, overIn(folded)); fault != "" {
			t.Fatalf("witness: %s", fault)
		}
		for i, o := range all {
			if fault := broken(s, never, overIn(o)); fault != "" {
				t.Fatalf("order %d: %s", i, fault)
			}
		}
	})
}

// FuzzFoldBy: any turns end, and leave layers that paper can take.
func FuzzFoldBy(f *testing.F) {
	f.Add([]byte("\x04abcde"), []byte("\x00\x01\x02\x03"))
	f.Add([]byte("\x08\x02"), []byte("\x03\x11\x25\x07\x01"))
	f.Fuzz(func(t *testing.T, data, moves []byte) {
		s := stripFrom(data)
		turns := make([]score.Turn, 0, len(moves))
		for _, m := range moves[:min(len(moves), 100)] {
			st := score.Turn{Score: int(m>>2) - 1, Way: score.TurnWay(m & 3)}
			before, err := s.FoldBy(context.Background(), turns...)
			if err != nil {
				t.Fatal(err)
			}
			after, err := s.FoldBy(context.Background(), append(turns, st)...)
			if err != nil {
				var b *score.Blocked
				if errors.As(err, &b) && !after.Equal(before) {
					t.Fatal("a blocked turn changed the strip")
				}
				continue
			}
			turns = append(turns, st)
			if fault := broken(after.Strip(), after.Flat, overIn(after)); fault != "" {
				t.Fatalf("%v by %v: %s", s, turns, fault)
			}
		}
	})
}

// FuzzSnap: any strip on any board ends with a strip as long as before.
func FuzzSnap(f *testing.F) {
	seed := binary.BigEndian.AppendUint64(nil, uint64(units.Inch/8))
	f.Add([]byte("\x05abcdef"), seed, false)
	f.Fuzz(func(t *testing.T, data, board []byte, noTurn bool) {
		var nums [3]int64
		for i := range nums {
			if len(board) >= 8*i+8 {
				nums[i] = int64(binary.BigEndian.Uint64(board[8*i:]))
			}
		}
		g := score.Grooves{NoTurn: noTurn}
		g.Pitch, _ = units.Nanometre.Times(nums[0])
		g.Origin, _ = units.Nanometre.Times(nums[1])
		g.Reach, _ = units.Nanometre.Times(nums[2])
		s := stripFrom(data)
		got, err := g.Snap(s)
		if err != nil {
			return
		}
		if got.Strip().Length() != s.Length() || 2*got.Largest() > g.Pitch {
			t.Fatalf("%v on %v: %v", s, g, got.Strip())
		}
	})
}

// FuzzDrawing: any drawing is taken or refused, and one that is taken is taken
// again.
func FuzzDrawing(f *testing.F) {
	f.Add(int64(1e8), int64(2e8), int64(5e7), int64(0), int64(1e7), uint8(1), uint8(2))
	f.Fuzz(func(t *testing.T, a, b, c, d, e int64, m, n uint8) {
		l := func(n int64) units.Length { x, _ := units.Nanometre.Times(n); return x }
		area := units.Rect{Min: units.Point{X: l(d), Y: l(e)}, Max: units.Point{X: l(b), Y: l(c)}}
		drawing := score.Draft{
			Size:    units.Size{W: l(a), H: l(b)},
			Lines:   []score.Line{{Axis: score.Axis(m), At: l(c), From: l(d), To: l(e), Fold: score.Fold(n)}},
			CutOuts: []score.CutOut{{Area: area, Radius: l(e)}},
			Notches: []score.Notch{{Edge: score.Edge(m), Middle: l(c), Width: l(d), Depth: l(e)}},
			Glue:    []score.Glue{{Area: area, Side: score.Side(n)}},
			Tabs:    []score.Tab{{Edge: score.Edge(n), Depth: l(c), From: l(d), To: l(e), Taper: l(a)}},
		}
		if m&1 == 0 {
			drawing.CutOuts = nil
		}
		blank, err := score.NewBlank(drawing)
		if err != nil {
			return
		}
		if _, err := score.NewBlank(blank.Draft()); err != nil {
			t.Fatal(err)
		}
		for _, axis := range []score.Axis{score.Upright, score.Level} {
			if _, err := blank.Strip(axis); err != nil {
				t.Fatal(err)
			}
		}
	})
}
