package guide_test

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// Where nothing is left at the tightest place the detail still says so: the
// figure stands beside the stack, and an arrow points to either face.
func TestNothingToSpare(t *testing.T) {
	p := build(t, folio.Spec{Form: boards.SoftGate, Cover: units.Size{W: 200 * mm, H: 150 * mm}, Spine: rule.Spine{Contents: 418 * mm / 100},
		Rulers: rule.Rulers{Main: units.HalfMillimetres}, Closing: closing.Allowance{Ease: units.None}})
	tight, ok := p.Tightest(true)
	if left := tight.Left().Length(); !ok || left != 0 {
		t.Fatalf("%v is left", left)
	}
	for _, o := range options {
		r, bad := readPicture(guide.Closed(p, o))
		if bad != "" {
			t.Fatal(bad)
		}
		if bad := r.overlaps(); bad != "" {
			t.Error(bad)
		}
		i := slices.IndexFunc(r.texts, func(x readText) bool {
			return x.s == "room left 0" || x.s == "room left 0 (0)"
		})
		if i < 0 {
			t.Errorf("the detail does not say what is left: %v", r.texts)
		}
	}
}

// The line through the tightest place goes through what is under a flap too, which
// lies over the covers.
func TestTightestUnderFlap(t *testing.T) {
	p := build(t, folio.Spec{Form: boards.ForeEdgeFlap, Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 18 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres}})
	if tight, _ := p.Tightest(true); tight.Meeting() != closing.UnderFlap {
		t.Fatal(tight)
	}
	r, bad := readPicture(guide.Closed(p, guide.Options{}))
	if bad != "" {
		t.Fatal(bad)
	}
	top := int64(1 << 62) // of the boards
	for b := range p.Boards() {
		i, n := b.Piece()
		at, _ := round(r.of(strconv.Itoa(i), copyText(n), "", ""))
		top = min(top, at.y0)
	}
	through := false
	for _, l := range r.kind("centre") {
		b, _ := round([]readLine{l})
		through = through || !l.legend && b.x0 == b.x1 && b.y0 < top
	}
	if !through {
		t.Errorf("no line reaches past the flap at %d", top)
	}
}

// What is to spare is never told as more than there is: 1.58 mm are 1 mm on a ruler of
// whole millimetres, 1/32 in on one of 32nds or of 16ths (25.4/16 are 1.5875), and 1.58 mm exactly.
func TestRoomLeftIsToldDown(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 200 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 554 * mm / 100},
		Rulers: rule.Rulers{Main: units.TenthMillimetres, Board: units.Ruler(mm / 100)}})
	tight, _ := p.Tightest(true)
	if left := tight.Left().Length(); left != 158*mm/100 {
		t.Fatalf("%v is left", left)
	}
	for ruler, want := range map[units.Ruler][2]string{units.WholeMillimetres: {"~1", "~2"}, units.ThirtySeconds: {"~1/32", "~1/16"}, units.Sixteenths: {"~1/32", "~1/16"}, 0: {"1.58", "~1.6"}} {
		r, bad := readPicture(guide.Closed(p, guide.Options{Format: units.Format{Ruler: ruler}}))
		if bad != "" {
			t.Fatal(bad)
		}
		told := func(s string) bool { return slices.ContainsFunc(r.texts, func(x readText) bool { return x.s == s }) }
		if !told(want[0]) || told(want[1]) {
			t.Errorf("on a ruler of %v not %s but %s: %v", ruler.Step(), want[0], want[1], r.texts)
		}
	}
}

// A soft spine whose covering is creased in the round goes round the edges in half a
// circle: its wrong side is everywhere as far from the middle between the boards' inner
// corners as these are.
func TestSoftSpineIsHalfACircle(t *testing.T) {
	p := build(t, folio.Spec{Form: boards.SoftSpine, Cover: units.Size{W: 200 * mm, H: 150 * mm}, Hinge: rule.Hinge{Width: 33 * mm, Crease: rule.CreaseRound}})
	r, bad := readPicture(guide.Closed(p, guide.Options{}))
	if bad != "" {
		t.Fatal(bad)
	}
	var pts []point
	for _, l := range r.kind("layer") {
		if !l.legend && len(l.pts) > 5 { // which no board and no liner has
			pts = append(pts, l.pts...)
		}
	}
	if len(pts) < 12 {
		t.Fatalf("%d points of a half circle", len(pts))
	}
	a, b := pts[0], pts[len(pts)-1]
	middle, radius := float64(a.y+b.y)/2, math.Abs(float64(b.y-a.y))/2
	left := a.x
	for _, p := range pts {
		if off := math.Hypot(float64(p.x-a.x), float64(p.y)-middle) - radius; math.Abs(off) > 100 || p.x > a.x {
			t.Errorf("%v is %v nm off the half circle from %v to %v", p, off, a, b)
		}
		left = min(left, p.x)
	}
	if off := float64(a.x-left) - radius; a.x != b.x || math.Abs(off) > 100 {
		t.Errorf("the half circle from %v to %v reaches to %v", a, b, left)
	}
}
