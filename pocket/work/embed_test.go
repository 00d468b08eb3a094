package work_test

import (
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// every has one action of each type.
var every = []work.Action{
	work.FindGrain{Stocks: []string{"card"}, Across: []work.Thing{{}}, Either: []work.Thing{{}, {}}}, work.Cut{}, work.Open{}, work.NotchOut{},
	work.Trim{}, work.Draw{}, work.MarkPlace{}, work.ScoreAt{}, work.FoldAt{}, work.TurnOver{}, work.Lay{}, work.Put{}, work.Sink{}, work.TryPair{},
	work.Fix{}, work.Stick{}, work.TurnIn{}, work.Tuck{}, work.Rub{}, work.Dry{}, work.Measure{}, work.Refit{}, work.Insert{}, work.Close{},
}

// each walks the fields of one type in an action, in lists too.
func each[T any](v reflect.Value, do func(*T)) {
	switch {
	case v.CanAddr() && v.Type() == reflect.TypeFor[T]():
		do(v.Addr().Interface().(*T))
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			each(v.Field(i), do)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			each(v.Index(i), do)
		}
	}
}

// with returns the action with its things and bases changed.
func with(a work.Action, things func(*work.Thing), bases func(*work.Base)) work.Action {
	v := reflect.New(reflect.TypeOf(a)).Elem()
	v.Set(reflect.ValueOf(a))
	each(v, things)
	each(v, bases)
	return v.Interface().(work.Action)
}

// Whatever an action says of a piece, wherever it says it, is said of the piece
// further on; what is not a piece stays as it was.
func TestEmbedCountsOn(t *testing.T) {
	for _, a := range every {
		for _, kind := range [...]work.ThingKind{work.Piece, work.Content, work.Bought, work.Magnet} {
			n := 0
			before := with(a, func(th *work.Thing) { n++; *th = work.Thing{Kind: kind, Index: 10 * n, Copy: 2, Name: "card"} },
				func(b *work.Base) { n++; *b = work.Base{Kind: work.OnPiece, Index: 10 * n, Copy: 1, Panel: 3} })
			after := work.Embed(before, 7, func(b work.Base, at work.At, s units.Size) (work.Base, work.At) {
				t.Errorf("%T asks for the place of a piece", a)
				return b, at
			})
			n = 0
			with(after, func(th *work.Thing) {
				n++
				want := work.Thing{Kind: kind, Index: 10 * n, Copy: 2, Name: "card"}
				if kind == work.Piece {
					want.Index += 7
				}
				if *th != want {
					t.Errorf("%T: thing %d is %+v, want %+v", a, n, *th, want)
				}
			}, func(b *work.Base) {
				n++
				if want := (work.Base{Kind: work.OnPiece, Index: 10*n + 7, Copy: 1, Panel: 3}); *b != want {
					t.Errorf("%T: base %d is %+v, want %+v", a, n, *b, want)
				}
			})
		}
	}
}

// What lies on the place under the pocket lies on what is there, and boards stay
// as they are.
func TestEmbedAsksForThePlace(t *testing.T) {
	at := work.At{Across: score.Left, X: 3, Along: score.Head, Y: 4}
	there, moved := work.Base{Kind: work.OnBoard, Index: 2, Name: "spine board", Panel: work.All}, work.At{Across: score.Right, X: 30, Along: score.Tail, Y: 40}
	size := units.Size{W: 50, H: 60}
	on := work.Base{Kind: work.Under}
	for _, c := range []struct{ before, after work.Action }{
		{work.MarkPlace{On: on, At: at, Size: size}, work.MarkPlace{On: there, At: moved, Size: size}},
		{work.Lay{On: on, At: at, Size: size}, work.Lay{On: there, At: moved, Size: size}},
		{work.Put{On: on, At: at, Size: size}, work.Put{On: there, At: moved, Size: size}},
		{work.Fix{On: on, At: at, Size: size}, work.Fix{On: there, At: moved, Size: size}},
		{work.Insert{On: on, At: at, Size: size}, work.Insert{On: there, At: moved, Size: size}},
		{work.Stick{To: on, Area: units.RectAt(units.Point{X: 1, Y: 1}, size)}, work.Stick{To: there, Area: units.RectAt(units.Point{X: 1, Y: 1}, size)}},
		{work.Lay{On: there, At: at, Size: size}, work.Lay{On: there, At: at, Size: size}},
	} {
		got := work.Embed(c.before, 0, func(b work.Base, a work.At, s units.Size) (work.Base, work.At) {
			if b != on || s != size || a != at && a != (work.At{}) {
				t.Errorf("%T asks for %+v, %+v of %v", c.before, b, a, s)
			}
			return there, moved
		})
		if diff := cmp.Diff(c.after, got); diff != "" {
			t.Errorf("%T (-want +got):\n%s", c.before, diff)
		}
	}
}

// What is embedded is a copy: the pocket's own list stays as it was.
func TestEmbedLeavesTheList(t *testing.T) {
	list := []work.Thing{{Index: 1}}
	work.Embed(work.FindGrain{Across: list, Either: list}, 5, nil)
	if list[0].Index != 1 {
		t.Errorf("the pocket's own piece is now %d", list[0].Index)
	}
}
