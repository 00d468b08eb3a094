package propose_test

import (
	"context"
	"fmt"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// A liningCase is a case whose liner is cut on another ruler than its boards, or out
// of sheets so narrow that it may be lined board by board, and one mat or two on one
// cover.
type liningCase struct {
	form     boards.Form
	board    units.Length // the step of the boards' ruler
	liner    units.Length // of the liner's
	sheet    units.Length // how wide its sheets are, 0 for none
	pictures []units.Size
	thick    units.Length
}

func (c liningCase) spec(tb testing.TB) folio.Spec {
	ruler := func(step units.Length) units.Ruler {
		r, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			tb.Fatal(err)
		}
		return r
	}
	s := folio.Spec{Form: c.form, Margin: rule.Margin{Ideal: 9 * mm}, Rulers: rule.Rulers{Main: ruler(c.board), Liner: ruler(c.liner), Fitting: units.WholeMillimetres}}
	if c.sheet > 0 {
		s.Liner.Sheets = []stock.Sheet{{Size: units.Size{W: c.sheet, H: units.Metre}, Grain: stock.GrainAlongHeight}}
	}
	return s
}

func (c liningCase) request(tb testing.TB) propose.Request {
	r := propose.Request{Case: c.spec(tb), Taste: propose.Taste{Margin: 3 * mm, Between: 6 * mm}}
	for w := propose.Corners; w <= propose.FoldedFlap; w++ {
		if w != propose.Mat {
			r.Without = append(r.Without, w)
		}
	}
	for i, size := range c.pictures {
		r.Things = append(r.Things, propose.Thing{Sticks: true, Upright: true, Group: "crew",
			Content: pocket.Content{Name: string(rune('a' + i)), Size: size, Thickness: c.thick}})
	}
	return r
}

// smallest builds every cover and every spine with every layout of the mats on each
// cover board, the smallest covers first, and returns the first that is sound. It
// knows of the library only what a built plan tells of its panels.
func (c liningCase) smallest(tb testing.TB, mats []units.Size, than units.Size) (units.Size, bool) {
	area := func(s units.Size) int64 { return int64(s.W/mm) * int64(s.H/mm) }
	best, ok := than, false
	from := units.Size{W: c.board, H: c.board}
	for w := from.W; w <= than.W+than.H; w += c.board {
		for h := from.H; int64(w/mm)*int64(h/mm) <= area(best); h += c.board {
			cover := units.Size{W: w, H: h}
			if area(cover) == area(best) && w >= best.W || len(ways(mats, cover.Plus(-6*mm, -6*mm))) == 0 {
				continue // or its margins alone leave too little
			}
			if c.takes(tb, cover, mats) {
				best, ok = cover, true
			}
		}
	}
	return best, ok
}

// takes reports whether a cover takes the mats, with some spine.
func (c liningCase) takes(tb testing.TB, cover units.Size, mats []units.Size) bool {
	for spine := c.board; spine <= 24*mm; spine += c.board {
		s := c.spec(tb)
		s.Cover = cover
		if s.Spine.Width = spine; c.form == boards.SoftSpine {
			s.Spine.Width, s.Spine.Contents = 0, spine
		}
		bare, err := folio.Build(s)
		if err != nil {
			continue
		}
		for b := range bare.Boards() {
			panel, _ := bare.Panel(b.Role(), false)
			room := panel.Grow(-s.WithDefaults().Clearance - 3*mm).Size()
			if b.Role().Spine() {
				continue
			}
			for _, at := range ways(mats, room) {
				full := s
				for i := range mats {
					full.Fittings = append(full.Fittings, folio.Fitting{Panel: b.Role(), Kind: folio.Mat{Picture: pocket.Content{Name: string(rune('a' + i)), Size: c.pictures[i], Thickness: c.thick}},
						Place: place.Place{Across: place.Left, Along: place.Head, Offset: at[i].Plus(units.Point{X: 3 * mm, Y: 3 * mm})}})
				}
				if plan, err := folio.Build(full); err == nil && shutsWell(plan) {
					return true
				}
			}
		}
	}
	return false
}

// ways are the places of one mat or two in a room.
func ways(mats []units.Size, room units.Size) [][]units.Point {
	var all [][]units.Point
	add := func(whole units.Size, at ...units.Point) {
		if whole.FitsIn(room) {
			all = append(all, at)
		}
	}
	if len(mats) == 1 {
		add(mats[0], units.Point{})
		return all
	}
	a, b := mats[0], mats[1]
	add(units.Size{W: a.W + 6*mm + b.W, H: max(a.H, b.H)}, units.Point{}, units.Point{X: a.W + 6*mm})
	add(units.Size{W: max(a.W, b.W), H: a.H + 6*mm + b.H}, units.Point{}, units.Point{Y: a.H + 6*mm})
	return all
}

// shutsWell reports whether a plan has no warning but those of the paper at hand, and
// closes with its ease.
func shutsWell(plan *folio.Plan) bool {
	for w := range plan.Warnings() {
		switch w.Code {
		case pocket.NarrowEdge, folio.WarnRuler, folio.WarnMargin, folio.WarnQuarter, folio.WarnPanels:
		default:
			return false
		}
	}
	t, ok := plan.TightestOf(closing.BetweenCovers, true)
	return ok && t.Eased()
}

// On boards in steps of 5 and 7 mm and a liner in steps of 3 mm as much as 2 mm more is lost
// of some heights than of others: for pictures of all heights the search finds the smallest
// cover.
func TestSmallestForEveryHeight(t *testing.T) {
	for _, board := range []units.Length{5 * mm, 7 * mm} {
		for h := 20 * mm; h < 42*mm; h += mm {
			c := liningCase{form: boards.SpineBoard, board: board, liner: 3 * mm, thick: mm, pictures: []units.Size{{W: 24 * mm, H: h}}}
			best, ok := asked(t, c.request(t)).Of(propose.Smallest)
			if !ok || !best.Complete() {
				t.Errorf("%v high: found %v", h, ok)
				continue
			}
			if smaller, is := c.smallest(t, []units.Size{c.pictures[0].Plus(6*mm, 6*mm)}, best.Cover()); is {
				t.Errorf("%v high: a cover of %v is said to be the smallest, and %v does", h, best.Cover(), smaller)
			}
		}
	}
}

// With a liner on another ruler than the boards what may be covered of a board
// depends on how wide cover and spine are, and with narrow sheets of it on how it
// comes out of them: what is said to be the smallest is the smallest of all covers
// that can be built, whatever the spine; and there is a folio where one can be.
func TestSmallestWithLinerOnAnotherRuler(t *testing.T) {
	proved := 0
	const cases = 40
	proptest.Run(t, cases, func(ps *gopter.Properties) {
		side := func(n int) units.Length { return units.Length(n) * mm }
		one := gopter.CombineGens(
			gen.OneConstOf(boards.SpineBoard, boards.SoftSpine), gen.OneConstOf(2*mm, 3*mm, 5*mm), gen.OneConstOf(2*mm, 3*mm, 5*mm, 7*mm, 2_500_000*units.Nanometre), gen.IntRange(0, 3),
			gen.SliceOfN(2, gen.IntRange(20, 32)), gen.SliceOfN(2, gen.IntRange(20, 32)), gen.IntRange(1, 2),
		)
		ps.Property("the smallest is the smallest", prop.ForAll(func(v []any) string {
			c := liningCase{form: v[0].(boards.Form), board: v[1].(units.Length), liner: v[2].(units.Length), thick: mm}
			if n := v[3].(int); n > 0 {
				c.sheet = side(70 + 15*n)
			}
			ws, hs := v[4].([]int), v[5].([]int)
			for i := range v[6].(int) {
				c.pictures = append(c.pictures, units.Size{W: side(ws[i]), H: side(hs[i])})
			}
			r := c.request(t)
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			best, ok := answer.Of(propose.Smallest)
			mats := make([]units.Size, len(c.pictures))
			for i, p := range c.pictures {
				mats[i] = p.Plus(6*mm, 6*mm)
			}
			than := units.Size{W: 100 * mm, H: 100 * mm}
			if ok {
				than = best.Cover()
			}
			smaller, is := c.smallest(t, mats, than)
			switch {
			case !ok && is:
				return fmt.Sprintf("%+v: there is none, and a cover of %v does", c, smaller)
			case is && best.Complete():
				return fmt.Sprintf("%+v: a cover of %v is said to be the smallest, and %v does", c, best.Cover(), smaller)
			case ok && best.Complete():
				proved++
			}
			if ok {
				if bad := sound(r, best); bad != "" {
					return fmt.Sprintf("%+v: %s", c, bad)
				}
			}
			return ""
		}, one))
	})
	if least := proptest.Cases(cases) / 2; proved < least {
		t.Errorf("only %d are proved", proved)
	}
}
