package fit

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
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

// So many that are as thick as their share go into a room together, and would not if each
// were a nanometre thicker.
func TestShareOfARoom(t *testing.T) {
	for thick := range units.Length(40) {
		for count := range 10 {
			r := Room{thickness: thick, count: count}
			if n := units.Length(r.Count()); r.share()*n > thick || (r.share()+1)*n <= thick {
				t.Errorf("%d in %d: %d each", count, thick, r.share())
			}
		}
	}
}

// Where equal contents go is looked for once: that takes no more work than for one of them,
// for different ones as much for each.
func TestWorkOfEqualContents(t *testing.T) {
	const mm = units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 120 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 20 * mm},
		Fittings: []folio.Fitting{{Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 30 * mm}, Thickness: 3 * mm}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	work := func(names ...string) int {
		var contents []pocket.Content
		for _, name := range names { // too thick for either panel
			contents = append(contents, pocket.Content{Name: name, Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 60 * mm})
		}
		m := newMeter(context.Background(), Budget{})
		if _, err := Of(p).all(m, 0, contents); err == nil {
			t.Fatal("it goes in")
		}
		return m.rest + ofAStep*int(m.done)
	}
	one := work("oar")
	if equal, other := work("oar", "oar", "oar"), work("oar", "cox", "bow"); one == 0 || equal != one || other != 3*one {
		t.Errorf("for one %d, for three equal ones %d, for three different ones %d", one, equal, other)
	}
}

// Of equal contents no two orders are tried, of different ones all: by counting, for as
// many tickets as there are pockets, each for one or two of them, and a last one that has
// no room at all. Each ticket that is given a pocket is a step.
func TestStepsOfEqualContents(t *testing.T) {
	const mm = units.Millimetre
	for _, each := range []int{1, 2} {
		made := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: mm / 4}
		spec := folio.Spec{Cover: units.Size{W: 250 * mm, H: 250 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 30 * mm}}
		for i := range 3 {
			spec.Fittings = append(spec.Fittings, folio.Fitting{
				Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: made, Count: each}},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10*mm + 70*mm*units.Length(i), Y: 10 * mm}},
			})
		}
		p, err := folio.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		s := Of(p)
		pockets := []int{s.bare, s.bare + 1, s.bare + 2}
		// given counts the ways to give k more tickets pockets: all of them, or the rising ones.
		var given func(k, from int, rising bool, used [3]int) int64
		given = func(k, from int, rising bool, used [3]int) int64 {
			if k == 0 {
				return 0
			}
			n := int64(0)
			for i := range used {
				if used[i] < each && !(rising && i < from) {
					with := used
					with[i]++
					n += 1 + given(k-1, i, rising, with)
				}
			}
			return n
		}
		for n := 1; n <= 3; n++ {
			for _, equal := range []bool{true, false} {
				w := together{s: s, m: newMeter(context.Background(), Budget{})}
				for i := range n {
					c := made
					c.Size, c.Thickness = units.Size{W: 39 * mm, H: 38 * mm}, c.Thickness/2 // either way round
					if !equal {
						c.Name += strconv.Itoa(i)
					}
					w.contents, w.where = append(w.contents, c), append(w.where, pockets)
				}
				w.contents, w.where = append(w.contents, pocket.Content{Name: "oar"}), append(w.where, nil)
				if found := w.search(); found || w.m.done != given(n, 0, equal, [3]int{}) {
					t.Errorf("%d tickets in pockets for %d, equal %t: found %t in %d steps, want %d", n, each, equal, found, w.m.done, given(n, 0, equal, [3]int{}))
				}
			}
		}
	}
}
