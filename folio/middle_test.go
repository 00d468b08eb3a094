package folio_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// halves says what is wrong with how something lies in the middle: what is left
// over by a nanometre is at the right and at the tail.
func halves(what string, in, room units.Rect) string {
	l, r := in.Min.X-room.Min.X, room.Max.X-in.Max.X
	h, t := in.Min.Y-room.Min.Y, room.Max.Y-in.Max.Y
	if r-l < 0 || r-l > nm || t-h < 0 || t-h > nm {
		return fmt.Sprintf("%s: %d left, %d right, %d at the head, %d at the tail", what, l, r, h, t)
	}
	return ""
}

// What lies in the middle does, to the nanometre, with odd rests.
func TestMiddleToTheNanometre(t *testing.T) {
	odd := map[string]int{}
	proptest.Run(t, 800, func(props *gopter.Properties) {
		props.Property("liner, pictures, films and strips lie in the middle", prop.ForAll(func(u unruled) string {
			p, err := folio.Build(u.spec())
			if err != nil {
				return ""
			}
			see := func(what string, in, room units.Rect) string {
				if (room.Size().W-in.Size().W)%2 != 0 {
					odd[what]++
				}
				return halves(what, in, room)
			}
			row := units.RectAt(units.Point{}, units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()})
			name := map[int]string{}
			i := 0
			for pc := range p.Pieces() {
				name[i] = pc.Name()
				i++
			}
			var rows []folio.Board
			for b := range p.Boards() {
				rows = append(rows, b)
			}
			var frame units.Rect
			var sides [2]units.Rect // the foam strips beside the mouth
			atTail := u.rulers%2 == 0
			for x := range p.Placed() {
				i, copy := x.Piece()
				bad := ""
				if f, of := x.Fitting(); of && f != 1 {
					continue // another frame than the second fitting
				}
				switch first, last := x.Boards(); {
				case name[i] == "liner":
					bad = see("liner", x.Rect(), row)
				case len(name[i]) > 5 && name[i][:5] == "liner":
					if first != last {
						bad = "a panel on two boards"
					} else {
						bad = see("liner panel", x.Rect(), rows[first].Rect())
					}
				case name[i] == "frame":
					frame = x.Rect()
				case name[i] == "window film":
					bad = see("film", x.Rect(), frame)
				case name[i] == "side foam strip":
					sides[copy] = x.Rect()
					if both := sides[0].Union(sides[1]); copy == 1 && atTail {
						both.Min.Y, both.Max.Y = frame.Min.Y, frame.Max.Y
						bad = see("side strips", both, frame)
					} else if copy == 1 {
						both.Min.X, both.Max.X = frame.Min.X, frame.Max.X
						bad = see("side strips", both, frame)
					}
				case name[i] == "far foam strip":
					room := x.Rect()
					if atTail {
						room.Min.X, room.Max.X = sides[0].Max.X, sides[1].Min.X
					} else {
						room.Min.Y, room.Max.Y = sides[0].Max.Y, sides[1].Min.Y
					}
					bad = see("far strip", x.Rect(), room)
				}
				if bad != "" {
					return bad
				}
			}
			for f := range p.Fittings() {
				for _, s := range f.Spots() {
					if _, ok := s.Content(); !ok {
						continue
					}
					if mouth, slips := s.Mouth(); slips {
						room, in := s.Rect(), s.Lies()
						far, near := in.Min.Y-f.Rect().Min.Y, f.Rect().Max.Y-in.Max.Y
						switch mouth {
						case score.Head:
							far, near = near, far
						case score.Left:
							far, near = f.Rect().Max.X-in.Max.X, in.Min.X-f.Rect().Min.X
						}
						// Lapped at the far end as asked for, it has what the opening was rounded by
						// more at the mouth.
						if step := p.Spec().Rulers.Fitting.Step(); near-far < -step || near-far > step {
							return fmt.Sprintf("a picture lies %v from the far edge of its frame and %v from the other", far, near)
						}
						if mouth < 2 {
							in.Min.Y, in.Max.Y = room.Min.Y, room.Max.Y
						} else {
							in.Min.X, in.Max.X = room.Min.X, room.Max.X
						}
						if bad := see("picture in a frame", in, room); bad != "" {
							return bad
						}
					} else if bad := see("picture on a mat", s.Lies(), f.Rect()); bad != "" {
						return bad
					}
				}
			}
			for b := range p.Boards() {
				// Head and tail of a panel are in by as much as the liner at least.
				area, ok := p.Panel(b.Role(), false)
				if head := area.Min.Y; ok && !area.Empty() {
					if tail := row.Max.Y - area.Max.Y; head != tail {
						return fmt.Sprintf("the panel of the %v is %v in at the head and %v at the tail", b.Role(), head, tail)
					}
					for l := range p.Liner() {
						if over := 2*head - (row.Size().H - l.Size().H); over < 0 || over > 1 {
							return fmt.Sprintf("the panel of the %v is %v in at the head, the liner leaves %v in all", b.Role(), head, row.Size().H-l.Size().H)
						}
					}
				}
			}
			return ""
		}, anyUnruled()))
	})
	for _, what := range []string{"liner", "liner panel", "film", "picture in a frame", "picture on a mat"} {
		if odd[what] < proptest.Cases(20) {
			t.Errorf("an odd rest beside %s came up %d times", what, odd[what])
		}
	}
}

// A stiffener lies in the middle of a gap whose rest is odd.
func TestStiffenerInTheMiddle(t *testing.T) {
	s := unruledCase(0)
	s.Form, s.Hinge, s.Stocks = boards.SoftSpine, rule.Hinge{}, []stock.Stock{{Name: "card", Caliper: mm / 4}}
	s.Spine = rule.Spine{Contents: 12*mm + 2, Stiffener: "card"}
	odd := 0
	for n := range units.Length(8) {
		s.Rulers.Gap = []units.Ruler{everyNanometre, units.HalfMillimetres}[n%2]
		s.Spine.Contents++
		p := mustBuild(t, s)
		q, err := p.Refit(measuredBy(p, 2*s.Covering.Caliper+n/2, 0)) // the covering takes that much
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []*folio.Plan{p, q} {
			var names []string
			for pc := range p.Pieces() {
				names = append(names, pc.Name())
			}
			for x := range p.Placed() {
				if i, _ := x.Piece(); names[i] == "spine stiffener" {
					for g := range p.Gaps() {
						if bad := halves("stiffener", x.Rect(), g.Rect()); bad != "" {
							t.Error(bad)
						}
						if (g.Width()-x.Rect().Size().W)%2 != 0 {
							odd++
						}
						// A board's caliper is left for the wrap to bend in, a step of the ruler more at most.
						if in := x.Rect().Min.X - g.Rect().Min.X; in < s.Board.Caliper || in > s.Board.Caliper+s.Rulers.Gap.Step()+n {
							t.Errorf("a stiffener %v from a board of %v", in, s.Board.Caliper)
						}
					}
				}
			}
		}
	}
	if odd == 0 {
		t.Error("no rest is odd")
	}
}

// Closed, what a bend that is no fraction makes of a gap errs to the safe side and by
// less than a few nanometres: rooms are never above the exact value, sizes never
// below it. By hand: a fold of two creases rises and reaches gap × √½; one bent
// round gap × 2/π.
func TestClosedErrsToTheSafeSide(t *testing.T) {
	for n := range 200 {
		k := units.Length(n)
		s := unruledCase(n)
		s.Rulers.Gap, s.Rulers.Board = everyNanometre, everyNanometre
		s.Hinge = rule.Hinge{Crease: rule.CreaseTwo, Width: 6*mm + 7919*k}
		part := math.Sqrt2 / 2
		if n%2 > 0 {
			s.Hinge.Crease, part = rule.CreaseRound, 2/math.Pi
		}
		stands := folio.Ornament{Size: units.Size{W: 9*mm + 1, H: 40 * mm}, Thickness: 5*mm + 1}
		s.Fittings = []folio.Fitting{
			{Name: "badge", Panel: boards.Spine1, Kind: stands, Place: place.Place{Across: []place.Align{place.Left, place.Right, place.Middle}[n%3]}},
		}
		s.Closing.Adhesive.Caliper, s.Closing.Ease = units.None, units.None
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		c := mustClosed(t, p)
		bend := part * float64(s.Hinge.Width)
		spine, cover := float64(s.Spine.Width), float64(s.Cover.W)
		t2, c2, l2 := 2*float64(s.Board.Caliper), 2*float64(s.Covering.Caliper), 2*float64(s.Liner.Caliper)
		below := func(what string, got units.Length, exact float64) {
			t.Helper()
			if d := exact - float64(got); d < -1e-4 || d > 3 {
				t.Errorf("%d: %s is %d, exactly %.4f", n, what, got, exact)
			}
		}
		above := func(what string, got units.Length, exact float64) {
			t.Helper()
			if d := float64(got) - exact; d < -1e-4 || d > 3 {
				t.Errorf("%d: %s is %d, exactly %.4f", n, what, got, exact)
			}
		}
		below("room", c.Room().Length(), spine+2*bend-t2-l2)
		above("thickness", c.Thickness().Length(), spine+2*bend+c2)
		above("width", c.Width().Length(), cover+bend+c2)
		checkSection(t, p, bend, stands)
		// What stands less than a nanometre further in than the fold is beside it.
		for reach, want := range map[units.Length]bool{units.Length(bend): false, units.Length(bend) + 1: true} {
			low := stands
			low.Thickness = reach - s.Board.Caliper - s.Liner.Caliper
			s := s
			s.Fittings = []folio.Fitting{s.Fittings[0]}
			if s.Fittings[0].Kind = low; low.Thickness < units.Shortest {
				continue
			}
			if _, beside := mustBuild(t, s).TightestOf(closing.BesideSpine, false); beside != want {
				t.Errorf("%d: what reaches %d of %.4f is beside the spine: %v", n, reach, bend, beside)
			}
		}
		tight, ok := p.TightestOf(closing.BesideSpine, false)
		if !ok {
			t.Fatalf("%d: nothing beside the spine", n)
		}
		on, _ := p.Board(boards.Spine1)
		for f := range p.Fittings() {
			left, right := f.Rect().Min.X-on.Rect().Min.X, on.Rect().Max.X-f.Rect().Max.X
			below("room beside the spine", tight.Room().Length(), float64(min(left, right))+bend-t2/2-l2/2)
		}
	}
}

// checkSection holds where the boards lie in section, and what stands on the spine
// over the cover beside it, to where the bends bring them exactly, rounded down.
func checkSection(t *testing.T, p *folio.Plan, bend float64, stands folio.Ornament) {
	t.Helper()
	s := p.Spec()
	section, _ := p.Section()
	board := float64(s.Board.Caliper)
	for slab := range section {
		// From the wrong side of the covering on the cover that lies on the table.
		var exact, bends float64
		switch slab.Board() {
		case 0:
			exact, bends = float64(s.Spine.Width)+2*bend-board, 2
		case 1:
			exact, bends = bend, 1
		}
		if d := exact - float64(slab.Rect().Min.Y); d < -1e-4 || d > bends {
			t.Errorf("board %d lies at %d, exactly %.4f", slab.Board(), slab.Rect().Min.Y, exact)
		}
	}
	base := board + float64(s.Liner.Caliper)
	for _, role := range []boards.Role{boards.LeftCover, boards.RightCover} {
		n := 0
		for over, room := range p.Beside(role, false) {
			n++
			if d := float64(over.Size().W) - (base + float64(stands.Thickness) - bend); d < -1e-4 || d > 3 {
				t.Errorf("what stands on the spine reaches %d over the %v, exactly %.4f", over.Size().W, role, float64(over.Size().W)-d)
			}
			for f := range p.Fittings() {
				on, _ := p.Board(boards.Spine1)
				way := f.Rect().Min.X - on.Rect().Min.X
				if role == boards.RightCover {
					way = on.Rect().Max.X - f.Rect().Max.X
				}
				if d := float64(way) + bend - base - float64(room); d < -1e-4 || d > 3 {
					t.Errorf("over the %v there is room of %d, exactly %.4f", role, room, float64(room)+d)
				}
			}
		}
		if n != 1 {
			t.Errorf("%d things reach over the %v", n, role)
		}
	}
}

// measuredBy is what a plan measures, by so much wider and higher.
func measuredBy(p *folio.Plan, w, h units.Length) (m refit.Measured) {
	m.Width, m.Height = p.OpenWidth().Length()+w, p.OpenHeight().Length()+h
	return m
}
