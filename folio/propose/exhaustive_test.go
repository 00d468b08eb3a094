package propose_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
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

// cell is the ruler on which everything is tried: one graduation in 10 mm.
const cell = 10 * mm

// A tile is a mat in cells.
type tile struct{ w, h int }

// cells is a case on the coarse ruler, whose liner ends a cell inside the cover.
func cells(tb testing.TB) folio.Spec {
	tb.Helper()
	r, err := units.NewRuler(cell, units.MetricDecimal)
	if err != nil {
		tb.Fatal(err)
	}
	return folio.Spec{Rulers: rule.Rulers{Main: r}, Lining: rule.Lining{Inset: cell}, Margin: rule.Margin{Ideal: 2 * cell}}
}

// A puzzle is a request of which every layout can be tried: mats alone, which
// are 6 mm larger than their picture and then on the ruler.
type puzzle struct {
	tiles           []tile
	thick           []int // of the pictures, in mm
	margin, between int   // in cells
	panels          int   // 1: all on one cover
	upright         bool  // none is turned
}

func (p puzzle) picture(i int) pocket.Content {
	return pocket.Content{Name: "picture " + string(rune('a'+i)), Thickness: mm * units.Length(p.thick[i]), Size: units.Size{
		W: cell*units.Length(p.tiles[i].w) - 6*mm, H: cell*units.Length(p.tiles[i].h) - 6*mm,
	}}
}

func (p puzzle) request(tb testing.TB) propose.Request {
	length := func(n int) units.Length {
		if n == 0 {
			return units.None
		}
		return cell * units.Length(n)
	}
	r := propose.Request{Case: cells(tb), Taste: propose.Taste{Margin: length(p.margin), Between: length(p.between)}}
	for w := propose.Corners; w <= propose.FoldedFlap; w++ {
		if w != propose.Mat {
			r.Without = append(r.Without, w)
		}
	}
	for i := range p.tiles {
		r.Things = append(r.Things, propose.Thing{Content: p.picture(i), Sticks: true, Upright: p.upright, Group: [...]string{1: "crew", 2: ""}[p.panels]})
	}
	return r
}

// A spot is where a tile lies: on which cover, and its corner and size in cells.
type spot struct{ panel, x, y, w, h int }

// layouts calls f with every layout of the tiles on two panels so wide and high,
// until f returns true, and reports whether it did.
func (p puzzle) layouts(w, h int, f func([]spot) bool) bool {
	panels := make([]tile, p.panels)
	for i := range panels {
		panels[i] = tile{w, h}
	}
	return p.layoutsOn(panels, f)
}

// layoutsOn is layouts on any panels. It knows nothing of how a layout is found: it
// tries every place on the grid.
func (p puzzle) layoutsOn(panels []tile, f func([]spot) bool) bool {
	var all []spot
	var put func(i int) bool
	put = func(i int) bool {
		if i == len(p.tiles) {
			for panel := range panels {
				if !p.parted(all, panel) {
					return false
				}
			}
			return f(all)
		}
		sizes := []tile{p.tiles[i]}
		if t := p.tiles[i]; t.w != t.h && !p.upright {
			sizes = append(sizes, tile{t.h, t.w})
		}
		for _, t := range sizes {
			for panel, room := range panels {
				for x := p.margin; x+t.w <= room.w-p.margin; x++ {
				rows:
					for y := p.margin; y+t.h <= room.h-p.margin; y++ {
						s := spot{panel, x, y, t.w, t.h}
						for _, o := range all {
							if o.panel == panel && x < o.x+o.w+p.between && o.x < x+t.w+p.between && y < o.y+o.h+p.between && o.y < y+t.h+p.between {
								continue rows
							}
						}
						all = append(all, s)
						done := put(i + 1)
						all = all[:len(all)-1]
						if done {
							return true
						}
					}
				}
			}
		}
		return false
	}
	return put(0)
}

// parted reports whether what lies on a panel can be parted by straight lines from
// edge to edge, each with as much between, until everything is by itself.
func (p puzzle) parted(all []spot, panel int) bool {
	var here []spot
	for _, s := range all {
		if s.panel == panel {
			here = append(here, s)
		}
	}
	if len(here) < 2 {
		return true
	}
	for _, across := range [...]bool{false, true} {
		for _, s := range here {
			line := s.x + s.w
			if across {
				line = s.y + s.h
			}
			var before, after []spot
			for _, o := range here {
				from, to := o.x, o.x+o.w
				if across {
					from, to = o.y, o.y+o.h
				}
				switch {
				case to <= line:
					before = append(before, o)
				case from >= line+p.between:
					after = append(after, o)
				}
			}
			if len(after) > 0 && len(before)+len(after) == len(here) && p.parted(before, panel) && p.parted(after, panel) {
				return true
			}
		}
	}
	return false
}

// spec is a layout as a folio.
func (p puzzle) spec(tb testing.TB, w, h int, spine units.Length, all []spot) folio.Spec {
	s := cells(tb)
	s.Cover = units.Size{W: cell * units.Length(w+2), H: cell * units.Length(h+2)}
	s.Spine.Width = spine
	for i, o := range all {
		c := p.picture(i)
		if o.w != p.tiles[i].w {
			c = c.Turned()
		}
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[o.panel], Kind: folio.Mat{Picture: c},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: cell * units.Length(o.x), Y: cell * units.Length(o.y)}},
		})
	}
	return s
}

// smallest tries every layout on every cover, the smallest covers first.
func (p puzzle) smallest(tb testing.TB, most int) (w, h int, all []spot) {
	var covers []tile
	area := 0
	for _, t := range p.tiles {
		area += t.w * t.h
	}
	for w := 1; w <= most; w++ {
		for h := 1; h <= most; h++ {
			if p.panels*w*h >= area { // less does not hold them
				covers = append(covers, tile{w, h})
			}
		}
	}
	slices.SortFunc(covers, func(a, b tile) int {
		if d := (a.w+2)*(a.h+2) - (b.w+2)*(b.h+2); d != 0 {
			return d
		}
		return a.w - b.w
	})
	for _, c := range covers {
		if p.layouts(c.w, c.h, func(found []spot) bool { all = slices.Clone(found); return true }) {
			return c.w, c.h, all
		}
	}
	tb.Fatalf("%v: none up to %d cells", p, most)
	return 0, 0, nil
}

func anyPuzzle(most, side int) gopter.Gen {
	one := proptest.Map(gopter.CombineGens(gen.IntRange(3, side), gen.IntRange(3, side), gen.IntRange(0, 14)), func(v []any) [3]int {
		return [3]int{v[0].(int), v[1].(int), v[2].(int)}
	})
	return proptest.Map(gopter.CombineGens(proptest.List(1, most, one), gen.IntRange(0, 1), gen.IntRange(0, 1), gen.IntRange(1, 2), gen.Bool()), func(v []any) puzzle {
		p := puzzle{margin: v[1].(int), between: v[2].(int), panels: v[3].(int), upright: v[4].(bool)}
		for _, n := range v[0].([][3]int) {
			p.tiles, p.thick = append(p.tiles, tile{n[0], n[1]}), append(p.thick, n[2])
		}
		return p
	})
}

// Up to four mats on a ruler of 10 mm: the smallest folio is as small as the
// smallest of all layouts on all covers that straight lines part, and the library
// builds that one too.
func TestSmallestByExhaustion(t *testing.T) {
	proptest.Run(t, 60, func(ps *gopter.Properties) {
		ps.Property("no layout on the grid is smaller", prop.ForAll(func(p puzzle) string {
			answer, err := propose.Folios(context.Background(), p.request(t), propose.Budget{})
			if err != nil {
				return err.Error()
			}
			best, ok := answer.Of(propose.Smallest)
			w, h, all := p.smallest(t, 26)
			want := units.Size{W: cell * units.Length(w+2), H: cell * units.Length(h+2)}
			if _, err := folio.Build(p.spec(t, w, h, 10*cell, all)); err != nil {
				return "the library does not build what was found: " + err.Error()
			}
			switch {
			case !ok:
				return fmt.Sprintf("there is none, and a cover of %v does", want)
			case best.Cover() != want:
				return fmt.Sprintf("a cover of %v, and %v does", best.Cover(), want)
			case !best.Complete():
				return "it is not said to be proved"
			}
			return sound(p.request(t), best)
		}, anyPuzzle(4, 6)))
	})
}

// Up to three mats within a largest cover: what is said to be the thinnest is as
// thin as the thinnest of all layouts on that cover, each built by the library;
// none that is found is thinner than those.
func TestThinnestByExhaustion(t *testing.T) {
	proved := 0
	proptest.Run(t, 40, func(ps *gopter.Properties) {
		ps.Property("no layout on the grid is thinner", prop.ForAll(func(p puzzle, w, h int) string {
			r := p.request(t)
			r.Limits.Cover = units.Size{W: cell * units.Length(w+2), H: cell * units.Length(h+2)}
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			var thinnest units.Length
			tried := 0
			p.layouts(w, h, func(all []spot) bool {
				tried++
				plan, err := folio.Build(p.spec(t, w, h, 10*cell, all))
				if err != nil {
					t.Fatal(err)
				}
				tight, _ := plan.TightestOf(closing.BetweenCovers, true)
				if need := tight.WouldDo().Length(); tried == 1 || need < thinnest {
					thinnest = need
				}
				return tried > 4000
			})
			best, ok := answer.Of(propose.Thinnest)
			switch {
			case tried > 4000:
				return "" // too many to try
			case ok && tried == 0:
				return "there is one, and no layout does"
			case ok && best.Spec().Spine.Width < thinnest:
				return fmt.Sprintf("a spine of %v, and no layout does with less than %v", best.Spec().Spine.Width, thinnest)
			case ok && best.Complete() && best.Spec().Spine.Width != thinnest:
				return fmt.Sprintf("a spine of %v is said to be the thinnest, and %v does", best.Spec().Spine.Width, thinnest)
			case !ok && tried > 0:
				return fmt.Sprintf("there is none, and %d layouts do", tried)
			case ok && best.Complete():
				proved++
			}
			return ""
		}, anyPuzzle(3, 4), gen.IntRange(4, 7), gen.IntRange(4, 7)))
	})
	if least := proptest.Cases(40) / 5; proved < least {
		t.Errorf("only %d are proved", proved)
	}
}

// Up to three thin mats, slip pockets allowed: what has everything in view is as
// small as the smallest of all layouts of the mats.
func TestInViewByExhaustion(t *testing.T) {
	proptest.Run(t, 20, func(ps *gopter.Properties) {
		ps.Property("no layout in view is smaller", prop.ForAll(func(p puzzle) string {
			r := p.request(t)
			r.Without = slices.DeleteFunc(r.Without, func(w propose.Holder) bool { return w == propose.Slip })
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			best, ok := answer.Of(propose.AllInView)
			w, h, _ := p.smallest(t, 26)
			want := units.Size{W: cell * units.Length(w+2), H: cell * units.Length(h+2)}
			switch {
			case !ok:
				return fmt.Sprintf("there is none, and a cover of %v does", want)
			case best.Cover() != want || !best.Complete():
				return fmt.Sprintf("a cover of %v, proved %v, and %v does", best.Cover(), best.Complete(), want)
			}
			return sound(r, best)
		}, anyPuzzle(3, 5)))
	})
}

// Up to three thin mats and sheets of board that two boards hardly come out of: what
// is said to take the fewest sheets takes as few as any cover does that has a
// layout, each built and laid out by the library; none takes fewer.
func TestFewestSheetsByExhaustion(t *testing.T) {
	proved := 0
	proptest.Run(t, 12, func(ps *gopter.Properties) {
		ps.Property("no layout takes fewer sheets", prop.ForAll(func(p puzzle, sw, sh int) string {
			for i := range p.thick {
				p.thick[i] = 0
			}
			sheet := units.Size{W: cell * units.Length(sw), H: cell * units.Length(sh)}
			r := p.request(t)
			r.Case.Board.Sheets = []stock.Sheet{{Size: sheet}}
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			fewest := 0
			for w := 3; w+2 <= max(sw, sh); w++ {
				for h := 3; h+2 <= max(sw, sh); h++ {
					var found []spot
					if !p.layouts(w, h, func(all []spot) bool { found = slices.Clone(all); return true }) {
						continue
					}
					s := p.spec(t, w, h, 10*cell, found)
					plan, err := folio.Build(s)
					if err != nil {
						t.Fatal(err)
					}
					tight, _ := plan.TightestOf(closing.BetweenCovers, true)
					s.Spine.Width, s.Board.Sheets = tight.WouldDo().Length(), r.Case.Board.Sheets
					if plan, err = folio.Build(s); err != nil {
						continue // no sheet takes it
					}
					job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 1}}, Ruler: s.Rulers.Main}
					for _, m := range layout.MaterialsOf(plan) {
						if len(m.Sheets) > 0 {
							job.Materials = append(job.Materials, m)
						} else {
							job.Except = append(job.Except, m.Name)
						}
					}
					laid, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 100_000})
					if err != nil {
						continue
					}
					if n := laid.Bought(); fewest == 0 || n < fewest {
						fewest = n
					}
				}
			}
			best, ok := answer.Of(propose.FewestSheets)
			if !ok {
				if fewest > 0 {
					return fmt.Sprintf("there is none, and %d sheets of %v do", fewest, sheet)
				}
				return ""
			}
			n, _ := best.Sheets()
			switch {
			case fewest == 0 || n < fewest:
				return fmt.Sprintf("%d sheets of %v, and no layout does with less than %d", n, sheet, fewest)
			case best.Complete() && n != fewest:
				return fmt.Sprintf("%d sheets of %v are said to be the fewest, and %d do", n, sheet, fewest)
			case best.Complete():
				proved++
			}
			return ""
		}, anyPuzzle(3, 5), gen.IntRange(8, 14), gen.IntRange(8, 18)))
	})
	if proved < proptest.Cases(12)/4 {
		t.Errorf("only %d are proved", proved)
	}
}
