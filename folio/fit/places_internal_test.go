package fit

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A thousand rectangles that are looked at are a step of work; what is less is kept
// for the next.
func TestWorkByHand(t *testing.T) {
	m := newMeter(context.Background(), Budget{Steps: 10})
	for _, c := range []struct {
		rects int
		done  int64
	}{{999, 0}, {1, 1}, {2500, 3}, {499, 3}, {1, 4}, {4999, 8}, {1, 9}, {999, 9}} {
		if m.work(c.rects); m.done != c.done || m.left != 10-c.done || m.over() {
			t.Errorf("%d more: %d steps, want %d", c.rects, m.done, c.done)
		}
	}
	if m.work(1); !m.over() {
		t.Error("ten steps of ten, and it goes on")
	}
}

// What a search that ended says of its steps is a number of the usual kind.
func TestEndingByHand(t *testing.T) {
	m := newMeter(context.Background(), Budget{Steps: 40})
	m.spend(47)
	if err := m.ending(); err == nil || !strings.Contains(err.Error(), "more than "+strconv.Itoa(40+7)+" steps") {
		t.Error(err)
	}
}

// Where a content that is not the last may lie are the first place and all corners,
// each once, on the panel that is asked for. Who has seen enough is shown no more.
func TestPlacesAreTheCorners(t *testing.T) {
	const mm = units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 120 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 20 * mm},
		Fittings: []folio.Fitting{{Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 30 * mm}, Thickness: 3 * mm}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	s := Of(p)
	room := s.rooms[slices.IndexFunc(s.rooms, func(r Room) bool { return r.kind == OnPanel && r.panel == boards.RightCover })]
	c := pocket.Content{Name: "medal", Size: units.Size{W: 14 * mm, H: 24 * mm}, Thickness: 2 * mm}
	w := together{s: s, m: newMeter(context.Background(), Budget{}), contents: []pocket.Content{c}}
	all := slices.Collect(w.places(s.panels, room, c))
	want := map[units.Point]bool{}
	l := s.load(c)
	for at := range s.panelOf(boards.RightCover).corners(w.m, l) {
		want[at.Plus(l.in)] = true
	}
	first, ok := s.panelOf(boards.RightCover).place(w.m, l)
	if want[first.Min.Plus(l.in)] = true; !ok || len(all) != len(want) || len(all) < 8 || all[0].Min != first.Min.Plus(l.in) {
		t.Fatalf("%d places, %d corners: %v", len(all), len(want), all)
	}
	for _, r := range all {
		if !want[r.Min] || r.Size() != c.Size {
			t.Errorf("%v is no corner, or comes twice", r)
		}
		delete(want, r.Min)
	}
	for n := 1; n < len(all); n++ {
		seen := 0
		for range w.places(s.panels, room, c) {
			if seen++; seen == n {
				break
			}
		}
	}
}

// A search takes a step for each room that a content is given and one for each place
// where it is laid. By hand: what lies on a panel takes two, what goes into a pocket one;
// of two for one pocket, the second finds no room.
func TestStepsOfASearch(t *testing.T) {
	const mm = units.Millimetre
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm / 5}
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 120 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 20 * mm},
		Fittings: []folio.Fitting{{Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	s := Of(p)
	for _, c := range []struct {
		where [][]int // 0 is the left panel, 1 the right one, 2 the pocket
		steps int64
		found bool
	}{
		{[][]int{{0}}, 2, true}, {[][]int{{2}}, 1, true}, {[][]int{{2}, {0}}, 3, true}, {[][]int{{0, 2}, {0, 2}}, 3, true},
		{[][]int{{2}, {2}}, 1, false},
	} {
		w := together{s: s, m: newMeter(context.Background(), Budget{}), where: c.where}
		for i := range c.where { // of equal ones no order is tried twice
			c := ticket
			c.Name += strconv.Itoa(i)
			w.contents = append(w.contents, c)
		}
		if found := w.search(); found != c.found || w.m.done != c.steps {
			t.Errorf("rooms %v: found %t in %d steps, want %t in %d", c.where, found, w.m.done, c.found, c.steps)
		}
	}
}
