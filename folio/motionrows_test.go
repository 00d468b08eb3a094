package folio_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// ownRow is a random row as data: two to five boards that lie, with spine boards or
// soft joints between, valleys and mountains, hinges creased anywhere.
func ownRow(r *rand.Rand, lying int) folio.Spec {
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	ruler := nanometres()
	s := folio.Spec{
		Cover: units.Size{W: um(60_000, 120_000), H: um(80_000, 150_000)}, Spine: rule.Spine{Width: um(12_000, 25_000)},
		Board: stock.Stock{Caliper: um(500, 3000)}, Liner: stock.Stock{Caliper: um(50, 400)}, Covering: stock.Stock{Caliper: um(50, 500)},
		Rulers: rule.Rulers{Main: ruler}, Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None},
	}
	if lying > 2 {
		s.Closing.UnderFlap = um(0, 3000)
	}
	spines := []boards.Role{boards.Spine1, boards.Spine2, boards.Spine3, boards.Spine4}
	soft := true
	for k := range lying {
		if k > 0 {
			j := boards.Joint{Fold: score.Fold(r.IntN(2))}
			if r.IntN(3) > 0 && k <= len(spines) {
				j.Hinge = rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreasePlace(r.IntN(5))}
				if j.Hinge.Crease == rule.CreaseAtOffset {
					j.Hinge.Offset = um(100, 400)
				}
				s.Row.Boards = append(s.Row.Boards, boards.Board{Role: spines[k-1]})
				s.Row.Joints = append(s.Row.Joints, j, j)
				soft = false
			} else {
				j.Hinge = rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo + rule.CreasePlace(r.IntN(2))}
				s.Row.Joints = append(s.Row.Joints, j)
			}
		}
		b := boards.Board{Role: boards.Panel1 + boards.Role(k)}
		if r.IntN(2) == 0 {
			b.Width = um(40_000, 120_000)
		}
		s.Row.Boards = append(s.Row.Boards, b)
	}
	if soft {
		s.Spine = rule.Spine{Contents: um(2000, 12_000)}
	}
	return s
}

// A section is a rectangle in cross-section that moves with a board.
type section struct {
	board   int
	corners []vec
	name    string
}

// atHead are the boards in cross-section at head or tail, with their turn-ins.
func atHead(p *folio.Plan, less float64) []section {
	var out []section
	for i, part := range sections(p, less) {
		out = append(out, section{i, part, roles(p)[i].String()})
	}
	return out
}

// filledAt are the boards in cross-section at a height, with all that stands there
// on both sides of each, whatever it stands on.
func filledAt(p *folio.Plan, y units.Length, less float64) []section {
	r, list := rowOf(p), roles(p)
	box := func(i int, a, z, low, high float64, name string) section {
		return section{i, []vec{{X: a + less, Y: low + less}, {X: z - less, Y: low + less}, {X: z - less, Y: high - less}, {X: a + less, Y: high - less}}, name}
	}
	var out []section
	for i, role := range list {
		a, z := r.boards[role][0], r.boards[role][1]
		if i == 0 {
			a -= r.c
		}
		if i == len(list)-1 {
			z += r.c
		}
		// The liner may keep off the hinges; then it ends with the panel.
		out = append(out, box(i, a, z, -r.c, r.t, role.String()))
		if panel, ok := p.Panel(role, false); ok && !panel.Empty() {
			out = append(out, box(i, panel.Min.X.Millimetres(), panel.Max.X.Millimetres(), r.t-2*less, r.t+r.l, "liner of the "+role.String()))
		}
		type standing struct {
			rect units.Rect
			top  float64
		}
		for _, outside := range []bool{false, true} {
			var on []standing
			for h := range p.Heights(true) {
				if h.Panel() != role || h.Outside() != outside || h.Rect().Min.Y > y || h.Rect().Max.Y <= y {
					continue
				}
				low := 0.0
				for _, o := range on {
					if o.rect.Min.X < h.Rect().Max.X && h.Rect().Min.X < o.rect.Max.X {
						low = max(low, o.top)
					}
				}
				high := low + h.Height().Millimetres()
				on = append(on, standing{h.Rect(), high})
				at, _ := h.Fitting()
				name := fmt.Sprint("what stands on the ", role, ", ", at)
				from, to := h.Rect().Min.X.Millimetres(), h.Rect().Max.X.Millimetres()
				if outside {
					out = append(out, box(i, from, to, -r.c-high, -r.c-low, name))
				} else {
					out = append(out, box(i, from, to, r.t+r.l+low, r.t+r.l+high, name))
				}
			}
		}
	}
	return out
}

// rowTurned is a row with each joint turned by an angle: a mountain the other way.
func rowTurned(p *folio.Plan, main int, angles []float64) shutting {
	r, list, spec := rowOf(p), roles(p), p.Spec()
	var s shutting
	i := 0
	for g := range p.Gaps() {
		j := i
		i++
		hinge, angle := spec.Hinge, angles[j]
		if len(spec.Row.Joints) > 0 {
			hinge = spec.Row.Joints[j].Hinge
			if spec.Row.Joints[j].Fold == score.Mountain {
				angle = -angle
			}
		}
		left, right := r.boards[list[j]][1], r.boards[list[j+1]][0]
		var all []fold // from left to right
		switch soft := !list[j].Spine() && !list[j+1].Spine(); {
		case soft && hinge.Crease == rule.CreaseRound:
			all = arc(left, right, angle)
		case soft:
			a, b := folio.SoftCreases(g)
			all = []fold{{left + a.Millimetres(), angle / 2}, {right - b.Millimetres(), angle / 2}}
		case hinge.Crease == rule.CreaseRound:
			all = arc(left, right, angle)
		default:
			x := 0.0
			switch hinge.Crease {
			case rule.CreaseMidGap:
				x = (right - left) / 2
			case rule.CreaseAtOffset:
				x = min(hinge.Offset.Millimetres(), right-left)
			}
			if list[j].Spine() {
				all = creases(nil, left, right, hinge.Crease, x, angle, false)
			} else {
				all = creases(nil, right, left, hinge.Crease, x, angle, true)
			}
		}
		if j >= main {
			s.right = append(s.right, all...)
			continue
		}
		for k := range all { // nearer to the right, nearer to the board that stays
			s.left = append([]fold{all[k]}, s.left...)
		}
	}
	return s
}

// arc is a round bend from one place to another.
func arc(from, to, angle float64) []fold {
	const n = 100
	all := make([]fold, n)
	for i := range all {
		all[i] = fold{from + (to-from)*(float64(i)+0.5)/n, angle / n}
	}
	return all
}

// collides moves the solids as the order of work says, and tells which two ever
// overlap, and when.
func collides(t *testing.T, p *folio.Plan, solids []section, samples int) string {
	t.Helper()
	main, turns := turnings(t, p)
	parts := sections(p, 0)
	angles := make([]float64, len(parts)-1)
	placed := make([][]vec, len(solids))
	moved := make([]func(vec) vec, len(parts))
	at := func() [][]vec {
		s := rowTurned(p, main, angles)
		for i := range parts {
			moved[i] = s.board(i, parts)
		}
		for i, part := range solids {
			placed[i] = placed[i][:0]
			for _, v := range part.corners {
				placed[i] = append(placed[i], moved[part.board](v))
			}
		}
		return placed
	}
	for _, turn := range turns {
		from := angles[turn.joint]
		for k := 1; k <= samples; k++ {
			angles[turn.joint] = from + (turn.by-from)*float64(k)/float64(samples)
			if turn.held >= 0 { // it turns back by what the turn is past upright
				past := angles[turn.joint] - math.Pi/2
				if turn.by < 2 {
					past = angles[turn.joint] // from a spine that stands
				}
				angles[turn.held] = max(angles[turn.held], past)
			}
			placed := at()
			for i := range placed {
				for j := range i {
					if solids[i].board != solids[j].board && near(placed[i], placed[j]) && planetest.Overlap(placed[i], placed[j]) {
						return fmt.Sprintf("%s meets %s at %.0f degrees of joint %d", solids[j].name, solids[i].name, angles[turn.joint]*180/math.Pi, turn.joint)
					}
				}
			}
		}
	}
	return ""
}

// near reports whether the rectangles round two shapes overlap.
func near(a, b []vec) bool {
	al, ah := extent(a)
	bl, bh := extent(b)
	return al.X < bh.X && bl.X < ah.X && al.Y < bh.Y && bl.Y < ah.Y
}

// withPlates puts ornaments on both sides of boards of a row, all in the same strip
// from 20 to 40 mm below the head, and some on others: on half of the rows many and
// thick ones, so that some meet on the way.
func withPlates(r *rand.Rand, s folio.Spec) folio.Spec {
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	most, thick, along := 3, 4000, 1
	if s.Clearance = mm; r.IntN(2) == 0 {
		s.Clearance, most, thick, along = mm/10, 4, 8000, 5000
	}
	for i, b := range s.Row.Boards {
		n := r.IntN(most)
		for k := range n {
			f := folio.Fitting{
				Name: fmt.Sprint("plate ", i, ".", k), Panel: b.Role, Outside: r.IntN(5) == 0,
				Kind:  folio.Ornament{Size: units.Size{W: um(4000, 30_000), H: 20 * mm}, Thickness: um(300, thick)},
				Place: place.Place{Along: place.Head, Offset: units.Point{X: um(0, along), Y: 15 * mm}, Across: place.Align(r.IntN(3))},
			}
			if f.Place.Across == place.Middle {
				f.Place.Offset.X = 0
			}
			if b.Role.Spine() {
				f.Kind = folio.Ornament{Size: units.Size{W: um(2000, 8000), H: 20 * mm}, Thickness: um(300, thick)}
			}
			if k > 0 && len(s.Fittings) > 0 && r.IntN(2) == 0 {
				f.StandsOn = s.Fittings[len(s.Fittings)-1].Name
				f.Kind = folio.Ornament{Size: units.Size{W: um(1000, 4000), H: 20 * mm}, Thickness: um(300, 2000)}
				f.Panel, f.Outside, f.Place = boards.MainPanel, false, place.Place{}
			}
			with := s
			with.Fittings = append(slices.Clip(s.Fittings), f)
			// Where it shuts only if the hinges crease otherwise, a warning says so.
			if p, err := folio.Build(with); err == nil && !warned(p, folio.WarnCrease) {
				s = with
			} else if along == 1 {
				break
			}
		}
	}
	return s
}

// Rows as data of up to five boards that lie shut as their last step says, turn by
// turn: at head and tail, where the turn-ins lie in the hinges, no board ever runs
// into another one, nor does anything that stands on either side of one, stacks and
// what stands on spines among them, into a board or what stands there, unless a warning
// says so. With everything thicker some do.
func ownRowsByMotion(t *testing.T, trials int) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 6))
	tried, fittings, met, metFilled, touch := map[int]int{}, 0, 0, 0, 0
	for trial := range trials {
		lying := 2 + trial%4
		s := ownRow(r, lying)
		p, err := folio.Build(s)
		if err != nil {
			continue // which others judge
		}
		tried[lying]++
		const samples, less = 24, 2e-3
		if bad := collides(t, p, atHead(p, less), samples); bad != "" {
			t.Fatalf("trial %d: %s\n%+v", trial, bad, s)
		}
		row := rowOf(p)
		if collides(t, p, atHead(p, -0.1*(row.t+row.l+row.c)), samples) != "" {
			met++
		}
		if p, err = folio.Build(withPlates(r, s)); err != nil {
			t.Fatal(err)
		}
		n := 0
		for range p.Fittings() {
			n++
		}
		fittings += n
		if bad := collides(t, p, filledAt(p, 30*mm, less), samples); bad != "" {
			if !warned(p, folio.WarnPassing) {
				t.Fatalf("trial %d, filled: %s\n%+v", trial, bad, p.Spec())
			}
			touch++
		}
		if n > 2 && collides(t, p, filledAt(p, 30*mm, -0.3), samples) != "" {
			metFilled++
		}
	}
	t.Logf("%v shut, %d meet when they are thicker, %d with %d fittings, %d of them as they are", tried, met, metFilled, fittings, touch)
	for lying := 2; lying <= 5; lying++ {
		if tried[lying] < trials/16 {
			t.Errorf("of %d boards only %d rows shut", lying, tried[lying])
		}
	}
	if met < trials/4 || fittings < trials || metFilled < trials/16 {
		t.Errorf("only %d meet when they are thicker, %d with %d fittings", met, metFilled, fittings)
	}
}

func TestOwnRowsByMotion(t *testing.T) { ownRowsByMotion(t, proptest.Cases(120)) }

// The least hinge that closes closes: no row is refused because an edge does not
// clear a fold whose gap the rule gives, soft joints that bend round among them, whose
// folds move as what lies between grows.
func TestLeastHingesClear(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 5))
	round := 0
	for trial := range proptest.Cases(3000) {
		s := ownRow(r, 3+trial%3)
		_, err := folio.Build(s)
		if err == nil && slices.ContainsFunc(s.Row.Joints, func(j boards.Joint) bool { return j.Hinge.Crease == rule.CreaseRound }) {
			round++
		}
		bad, ok := err.(*check.Error)
		if !ok {
			continue
		}
		for v := range bad.All() {
			if v.Code == folio.NotClosing && strings.HasSuffix(v.Path, ".hinge.rule") {
				t.Fatalf("trial %d: %v\n%+v", trial, err, s)
			}
		}
	}
	if round < proptest.Cases(300) {
		t.Errorf("only %d rows with round hinges shut", round)
	}
}
