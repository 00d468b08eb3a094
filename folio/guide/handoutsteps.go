package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio/layout"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// MostDrawn is how many fittings a folio may have for the pictures of its steps to
// show all of them that are there already. With more a picture shows the fittings
// that its step is for, and what they stand on, as many of a stack, and says that
// others are left out.
const MostDrawn = 20

// mostPictures is how many steps of a hand-out are drawn; that the others are not
// is said where they begin.
const mostPictures = 500

// steps is the order of work, part by part.
func (h *hander) steps() {
	draw := h.draw
	draw.Fit = units.Size{W: 88 * units.Millimetre, H: 62 * units.Millimetre} // beside the words
	if h.exact.Second != 0 {                                                  // twice the words
		draw.Fit = units.Size{W: 110 * units.Millimetre, H: 85 * units.Millimetre}
	}
	drawn := 0
	var last tabletop
	steps := Steps{h.plan, h.all, newWorkshop(h.plan)}
	var blocks []Element
	var list *Checklist
	for i, s := range h.all {
		if i == 0 || s.For != h.all[i-1].For {
			if list != nil {
				blocks = append(blocks, *list)
			}
			list = &Checklist{Part: s.For.Name}
		}
		t := Tick{Number: s.Number, Text: s.Text(words(Options{Format: h.o.Format}.laid(h.plan, s).Format, s, h.plan.Notation()))}
		for _, c := range s.Care() {
			t.Cautions = append(t.Cautions, c.String())
		}
		for _, a := range s.Do {
			switch a.(type) {
			case work.Dry:
				if n := meanwhile(h.all, i); n != "" {
					t.Notes = append(t.Notes, "While it dries you can do "+n+".")
				}
			case work.Measure:
				t.Fill = []string{"Width of the open cover", "Height of the open cover"}
			}
		}
		if drawn < mostPictures {
			pic, ok := steps.draw(i, draw, &last)
			if ok && pic.dwarfed() { // more room, down the page
				wide := draw
				wide.Fit.H += 50 * units.Millimetre
				pic, ok = steps.draw(i, wide, &last)
			}
			if ok {
				t.Figure = &Figure{Picture: pic}
				drawn++
			}
		} else if drawn == mostPictures {
			t.Notes = append(t.Notes, "From here on the steps are not drawn: "+strconv.Itoa(mostPictures)+" pictures are the most.")
			drawn++
		}
		list.Ticks = append(list.Ticks, t)
	}
	if list != nil {
		blocks = append(blocks, *list)
	}
	h.section("Order of work", true, blocks...)
}

// meanwhile tells what else can be done until a step is dry: the later steps that do
// not rest on it. They may be done then, since what they rest on does not rest on it
// either.
func meanwhile(steps []work.Step, dries int) string {
	waits := map[int]bool{steps[dries].Number: true} // by number; only looked up
	var free []int
	for _, s := range steps[dries+1:] {
		if slices.ContainsFunc(s.After, func(n int) bool { return waits[n] }) {
			waits[s.Number] = true
		} else {
			free = append(free, s.Number)
		}
	}
	return ranges(free)
}

// cutting tells how the sheets are cut up, material by material, each sheet drawn
// where it is taken.
func (h *hander) cutting(l *layout.Layout) {
	cuts := cuttingBlocks(l, h.exact, h.o.Paper)
	if len(cuts) == 0 {
		return
	}
	done := "Cut like this, every step of the order of work that cuts a piece to size is done; windows, notches, slants and mitres are still to be cut."
	if len(h.sheets(func(stock string) bool { _, ok := l.Material(stock); return !ok }).Rows) > 0 {
		done = "Cut like this, the pieces of these materials are cut to size, and the steps of the order of work that cut them are done; windows, notches, slants and mitres are still to be cut."
	}
	h.section("Cutting", true, append([]Element{Para(done)}, cuts...)...)
}
