package pocket_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// thickAsMade compares the heights of a design, empty and full, with what lies on
// the table when a maker has made and filled it: in every cell between the edges
// of all that lies there, papers and contents are counted one by one. Where one
// of them covers a cell only in part (a slant, a notch, a content smaller than
// its place), it may count or not.
func thickAsMade(d pocket.Design) error {
	made, err := makertest.Made(jobOf(d))
	if err != nil {
		return err
	}
	var places []pocket.Spot
	for _, p := range d.Spots() {
		places = append(places, p)
	}
	var xs, ys []units.Length
	edges := func(r units.Rect) {
		xs, ys = append(xs, r.Min.X, r.Max.X), append(ys, r.Min.Y, r.Max.Y)
	}
	for _, l := range made {
		edges(l.Rect)
	}
	heights := [][]pocket.Height{slices.Collect(d.Heights(false))}
	if _, ok := d.Content(); ok { // otherwise nothing has been put in
		heights = append(heights, slices.Collect(d.Heights(true)))
	}
	for _, list := range heights {
		for _, h := range list {
			edges(h.Rect())
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	xs, ys = slices.Compact(xs), slices.Compact(ys)
	for i := 1; i < len(xs); i++ {
		for j := 1; j < len(ys); j++ {
			cell := units.Rect{Min: units.Point{X: xs[i-1], Y: ys[j-1]}, Max: units.Point{X: xs[i], Y: ys[j]}}
			if err := cellAsMade(d, cell, made, places, heights); err != nil {
				return err
			}
		}
	}
	return nil
}

func cellAsMade(d pocket.Design, cell units.Rect, made []makertest.Lying, places []pocket.Spot, heights [][]pocket.Height) error {
	var least, most [2]units.Length // empty and full
	layers := [2]int{}
	for _, l := range made {
		thick, within, from := l.Thick, l.Rect, 0
		if l.Kind == work.Content {
			place := places[l.Copy]
			if _, ok := d.Kind().(pocket.Concertina); !ok { // what is taped on is one thing
				thick, _ = thick.Times(int64(place.Capacity().Count))
			}
			within, from = place.Rect().Union(l.Rect), 1
		}
		for full := from; full < 2; full++ {
			// A slant is laid to some micrometres: that covers nothing beyond its own paper.
			if l.Covers(cell) && l.Rect.Overlaps(cell) {
				least[full] += thick
			}
			if within.Overlaps(cell) {
				most[full] += thick
			}
		}
		if from == 0 && within.Overlaps(cell) {
			layers[1]++
			if l.Covers(cell) {
				layers[0]++
			}
		}
	}
	for full := range heights {
		var h pocket.Height
		for _, k := range heights[full] {
			if k.Rect().Overlaps(cell) {
				h = k
			}
		}
		if h.Height() < least[full] || h.Height() > most[full] {
			return fmt.Errorf("%v, full %d: %v thick by the plan, made %v to %v", cell, full, h.Height(), least[full], most[full])
		}
		if full == 0 && h.Layers() > layers[1] {
			return fmt.Errorf("%v: %d layers by the plan, made %d", cell, h.Layers(), layers[1])
		}
	}
	return nil
}

// stands reports whether parts of a closed design stand upright and hold it open:
// lands, and a guard on a spine. How high that is says no stack of paper.
func stands(k pocket.Kind) bool {
	switch k := k.(type) {
	case pocket.Concertina:
		return k.OnSpine || k.Land != units.None
	case pocket.GussetRun:
		return k.Land > 0
	}
	return false
}

// Made from the sheet, folded, glued and filled, every kind is as thick as it
// says at every place of its footprint.
func TestClosedAsThickAsMade(t *testing.T) {
	tried := map[string]int{}
	for i, k := range workbench() {
		if stands(k) {
			continue
		}
		for _, r := range []units.Ruler{units.WholeMillimetres, units.Sixteenths} {
			d := design(t, k, pocket.Paper{Caliper: 200 * units.Micrometre}, r)
			if err := thickAsMade(d); err != nil {
				t.Errorf("%d %s on %v: %v", i, k.Name(), r, err)
			}
			tried[k.Name()]++
		}
	}
	guard := pocket.Concertina{Content: pocket.IDCard(), Leaves: 4, Land: units.None}
	if err := thickAsMade(design(t, guard, pocket.Paper{}, units.WholeMillimetres)); err != nil {
		t.Error(err)
	}
	if tried[guard.Name()]++; len(tried) < 9 {
		t.Errorf("only %v", tried)
	}
	proptest.Run(t, 60, func(p *gopter.Properties) {
		p.Property("it is as thick as it says", prop.ForAll(func(j job) string {
			d, err := j.design()
			if err == nil && !stands(j.kind) {
				err = thickAsMade(d)
			}
			if err != nil {
				return err.Error()
			}
			return ""
		}, genJob()))
	})
}

// How many layers lie under a panel is how many papers the maker has laid there
// before it, where most of them are.
func TestLevelsAsMade(t *testing.T) {
	thin := pocket.Gusset{Place: units.MustParseSize("100 x 100 mm"), Opening: 400 * units.Micrometre} // one fold at its foot
	for i, k := range append(workbench(), thin) {
		if stands(k) {
			continue
		}
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		made, err := makertest.Made(jobOf(d))
		if err != nil {
			t.Fatal(err)
		}
		made = slices.DeleteFunc(made, func(l makertest.Lying) bool { return l.Kind != work.Piece })
		levels, at := d.Levels(), 0
		for _, p := range d.Panels() {
			level := levels[at]
			if at++; p.Closed().Empty() {
				continue
			}
			most := -1
			for n, l := range made {
				if l.Index == p.Piece() && l.Copy == p.Copy() && l.Drawn.Overlaps(p.Blank()) {
					most = max(most, mostUnder(l.Rect.Intersect(p.Closed()), made[:n]))
				}
			}
			if level != most {
				t.Errorf("%d %s: %d layers under the %s, copy %d, at %v; made, %d", i, k.Name(), level, p.Name(), p.Copy(), p.Closed(), most)
			}
		}
	}
}

// mostUnder returns how many papers overlap within an area, where most do.
func mostUnder(r units.Rect, papers []makertest.Lying) int {
	most := 0
	for _, a := range papers {
		for _, b := range papers {
			corner := units.RectAt(units.Point{X: max(a.Rect.Min.X, r.Min.X), Y: max(b.Rect.Min.Y, r.Min.Y)}, units.Size{W: 1000, H: 1000})
			n := 0
			for _, l := range papers {
				if corner.In(r) && l.Rect.Overlaps(corner) {
					n++
				}
			}
			most = max(most, n)
		}
	}
	return most
}
