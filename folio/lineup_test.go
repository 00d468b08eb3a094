package folio_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func tag(name string, w, h units.Length, place place.Place) folio.Fitting {
	return folio.Fitting{Name: name, Kind: folio.Mat{Size: units.Size{W: w * mm, H: h * mm}}, Place: place}
}

// rectsOf are the footprints of a plan's fittings, by name, from the corner of
// the right cover's panel, which is at 133, 5.
func rectsOf(p *folio.Plan) map[string]units.Rect {
	out := map[string]units.Rect{}
	for f := range p.Fittings() {
		out[f.Name()] = f.Rect().Moved(units.Point{X: -133 * mm, Y: -5 * mm})
	}
	return out
}

// In line with another fitting by every edge, beside it, and evenly: on a panel
// of 90 x 140 mm, beside or below a tag of 20 x 30 at 10, 15.
func TestLineUp(t *testing.T) {
	at := place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10 * mm, Y: 15 * mm}}
	to := func(across, along place.Align, x, y units.Length) place.Place {
		return place.Place{Across: across, Along: along, AcrossOf: "a", AlongOf: "a", Offset: units.Point{X: x * mm, Y: y * mm}}
	}
	for name, c := range map[string]struct {
		place place.Place
		want  units.Rect // of a tag of 11 x 12
	}{
		"on the right, heads in line": {to(place.After, place.Head, 4, 0), box(34, 15, 45, 27)},
		"below, left edges in line":   {to(place.Left, place.After, 0, 3), box(10, 48, 21, 60)},
		"below, right edges in line":  {to(place.Right, place.After, 0, 3), box(19, 48, 30, 60)},
		"below, middles in line":      {to(place.Middle, place.After, 0, 3), box(14, 48, 25, 60)},
		"right, tails in line":        {to(place.After, place.Tail, 4, 0), box(34, 33, 45, 45)},
		"right, middles, moved":       {to(place.After, place.Middle, 4, 2), box(34, 26, 45, 38)},
		"above":                       {to(place.Left, place.Before, 0, 1), box(10, 2, 21, 14)},
		"across alone, else the panel's middle": {place.Place{Across: place.After, AcrossOf: "a", Along: place.Tail, Offset: units.Point{X: mm}},
			box(31, 128, 42, 140)},
	} {
		if got := rectsOf(mustBuild(t, related(tag("a", 20, 30, at), tag("b", 11, 12, c.place))))["b"]; got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	// 90 - 20 - 10 - 30 leaves 30, shared by four: 7.5, 15, 22.5 and 30, each
	// rounded down to a whole millimetre.
	even := place.Place{Across: place.Even, Along: place.Head}
	got := rectsOf(mustBuild(t, related(tag("a", 20, 30, even), tag("b", 10, 20, even), tag("c", 30, 10, even))))
	for name, want := range map[string]units.Rect{"a": box(7, 0, 27, 30), "b": box(35, 0, 45, 20), "c": box(52, 0, 82, 10)} {
		if got[name] != want {
			t.Errorf("%s: %v, want %v", name, got[name], want)
		}
	}
	// An offset moves one of them from there, to the right.
	moved := even
	moved.Offset.X = 3 * mm
	if got := rectsOf(mustBuild(t, related(tag("a", 20, 30, even), tag("b", 10, 20, moved), tag("c", 30, 10, even))))["b"]; got != box(38, 0, 48, 20) {
		t.Errorf("even and 3 mm to the right: %v", got)
	}
	// The head of a picture on the left cover in line with one on the right.
	left := tag("b", 30, 20, place.Place{Along: place.Head, AlongOf: "a"})
	left.Panel = boards.LeftCover
	if got := rectsOf(mustBuild(t, related(tag("a", 20, 30, at), left)))["b"]; got.Min.Y != 15*mm {
		t.Errorf("over the spine: %v", got)
	}
}

func TestLineUpRefused(t *testing.T) {
	even := place.Place{Across: place.Even}
	down := place.Place{Along: place.Even}
	left := tag("b", 10, 10, place.Place{AcrossOf: "a"})
	left.Panel = boards.LeftCover
	for name, c := range map[string]struct {
		list []folio.Fitting
		path string
		code check.Code
	}{
		"with nothing there is":    {[]folio.Fitting{tag("a", 9, 9, place.Place{AcrossOf: "sail"})}, "fittings[0].place.acrossof", check.Unknown},
		"with itself":              {[]folio.Fitting{tag("a", 9, 9, place.Place{AlongOf: "a"})}, "fittings[0].place.alongof", check.Unknown},
		"with a later one":         {[]folio.Fitting{tag("a", 9, 9, place.Place{AlongOf: "b"}), tag("b", 9, 9, place.Place{})}, "fittings[0].place.alongof", check.Unknown},
		"beside nothing":           {[]folio.Fitting{tag("a", 9, 9, place.Place{Across: place.After})}, "fittings[0].place.across", check.Missing},
		"even with one":            {[]folio.Fitting{tag("a", 9, 9, place.Place{}), tag("b", 9, 9, place.Place{Across: place.Even, AcrossOf: "a"})}, "fittings[1].place.acrossof", check.Conflict},
		"across boards":            {[]folio.Fitting{tag("a", 9, 9, place.Place{}), left}, "fittings[1].place.acrossof", check.Conflict},
		"head across":              {[]folio.Fitting{tag("a", 9, 9, place.Place{Across: place.Head})}, "fittings[0].place.across", check.Unknown},
		"wider than the panel":     {[]folio.Fitting{tag("a", 50, 9, even), tag("b", 41, 9, even)}, "fittings[0].place.across", folio.TooWide},
		"higher than the panel":    {[]folio.Fitting{tag("a", 50, 90, down), tag("b", 41, 51, down)}, "fittings[0].place.along", folio.TooTall},
		"beside, beyond the panel": {[]folio.Fitting{tag("a", 80, 9, place.Place{}), tag("b", 6, 9, place.Place{Across: place.After, AcrossOf: "a"})}, "fittings[1].place.offset.x", folio.OffPanel},
	} {
		_, err := folio.Build(related(c.list...))
		var bad *check.Error
		if !errors.As(err, &bad) || bad.Len() != 1 {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if v, ok := bad.Find(c.path, c.code); !ok || v.Want == "" {
			t.Errorf("%s: %v; want %s %s", name, err, c.path, c.code)
		}
	}
	// What stands on one that cannot be is not blamed for it.
	_, err := folio.Build(related(tag("a", 91, 9, even), folio.Fitting{Name: "b", StandsOn: "a", Kind: folio.Mat{Size: units.Size{W: mm, H: mm}}}))
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Errorf("standing on what cannot be: %v", err)
	} else if v, _ := bad.Find("fittings[0].place.across", folio.TooWide); v.Got != "91 mm in width for what is placed evenly" {
		t.Errorf("of one it is said: %v", v)
	}
}

// However wide they are, whatever else is worked out among them: what is even
// keeps its order, nothing overlaps, and no margin or gap differs from another by
// two steps of the ruler, of which the panel itself may be one off.
func TestEven(t *testing.T) {
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("equal margins", prop.ForAll(func(s folio.Spec, widths []units.Length, tall, relative bool) string {
			bare := mustPlan(s)
			panel, _ := bare.Panel(boards.MainPanel, false)
			room := panel.Size().W
			where := place.Place{Across: place.Even}
			if tall {
				room, where = panel.Size().H, place.Place{Along: place.Even}
			}
			step := bare.Spec().Rulers.Fitting.Step()
			s.Fittings = nil
			for i, w := range widths {
				size := units.Size{W: ceiling(max(w*room/(300*mm)/6, mm), step), H: ceiling(2*mm, step)}
				if tall {
					size = size.Turned()
				}
				f := folio.Fitting{Name: string(rune('a' + i)), Kind: folio.Mat{Size: size}, Place: where}
				if relative {
					f.Kind = folio.Mat{}
					r := place.Relation{Of: place.OfPanel, Shares: 7 + i}
					f.Size = place.Sizing{W: r, H: r}
				}
				s.Fittings = append(s.Fittings, f)
			}
			p, err := folio.Build(s)
			if err != nil {
				return err.Error()
			}
			least, most, last := units.Longest, units.Length(0), panel.Min
			gap := func(to units.Point) {
				g := to.X - last.X
				if tall {
					g = to.Y - last.Y
				}
				least, most = min(least, g), max(most, g)
			}
			for f := range p.Fittings() {
				gap(f.Rect().Min)
				last = f.Rect().Max
			}
			gap(panel.Max)
			if least < 0 || most-least >= 2*step {
				return fmt.Sprintf("gaps from %v to %v", least, most)
			}
			return ""
		}, anySpec(), proptest.List(1, 5, within(0, 300*mm)), gen.Bool(), gen.Bool()))
	})
}

// What is even on one board, or on one fitting, is no matter to another; and one
// that cannot be is said once, not by those that share its ground.
func TestEvenByGround(t *testing.T) {
	even := place.Place{Across: place.Even}
	left, on := tag("c", 60, 9, even), tag("d", 20, 9, even)
	left.Panel, on.StandsOn, on.Panel = boards.LeftCover, "a", boards.MainPanel
	got := rectsOf(mustBuild(t, related(tag("a", 40, 30, even), left, tag("b", 20, 10, even), on)))
	// 90 - 60 leaves 30, a third of it each; 60 on the other board and 20 on the
	// mat of 40 are in the middle.
	for name, want := range map[string]units.Length{"a": 10, "b": 60, "c": 15 - 128, "d": 20} {
		if got[name].Min.X != want*mm {
			t.Errorf("%s at %v, want %d mm", name, got[name].Min.X, want)
		}
	}
	_, err := folio.Build(related(tag("a", 40, 30, even), folio.Fitting{Name: "b", Kind: folio.Mat{}, Place: even}))
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 2 || !refusedWith(err, "fittings[1].kind.size.w", check.NotPositive) || !refusedWith(err, "fittings[1].kind.size.h", check.NotPositive) {
		t.Errorf("one that has no size: %v", err)
	}
}

// A refit keeps in line what is in line, and margins even.
func TestRefitKeepsInLine(t *testing.T) {
	even := place.Place{Across: place.Even, Along: place.Head}
	s := related(
		tag("a", 20, 30, even), tag("b", 31, 20, even),
		tag("below", 20, 20, place.Place{Across: place.Middle, AcrossOf: "a", Along: place.After, AlongOf: "a", Offset: units.Point{Y: 5 * mm}}),
		tag("beside", 10, 11, place.Place{Across: place.Right, AcrossOf: "b", Along: place.Tail, AlongOf: "below"}),
	)
	for by := -2 * mm; by <= 3*mm; by += mm / 4 {
		q, err := mustBuild(t, s).Refit(refit.Measured{Width: 228 * mm, Height: 150*mm + by, Panels: []units.Length{100*mm - by, 20 * mm, 100*mm + by}})
		if err != nil {
			t.Errorf("%v: %v", by, err)
			continue
		}
		at, rect := rectsOf(q), map[string]units.Rect{}
		for f := range q.Fittings() {
			rect[f.Name()] = f.Rect()
		}
		panel, _ := q.Panel(boards.RightCover, false)
		gaps := []units.Length{rect["a"].Min.X - panel.Min.X, rect["b"].Min.X - rect["a"].Max.X, panel.Max.X - rect["b"].Max.X}
		if slices.Max(gaps)-slices.Min(gaps) >= 2*mm {
			t.Errorf("%v: gaps %v", by, gaps)
		}
		if at["below"].Min.X != at["a"].Min.X || at["below"].Min.Y != at["a"].Max.Y+5*mm || at["beside"].Max.X != at["b"].Max.X || at["beside"].Max.Y != at["below"].Max.Y {
			t.Errorf("%v: %v", by, at)
		}
	}
}
