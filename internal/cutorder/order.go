package cutorder

import "boardwrap.example/internal/packing"

// An Order is the order in which the sheets of a layout are cut up.
type Order struct {
	// Sheets are the patterns, laid anew where that saves settings: the same
	// pieces from the same stock, cut from the same strips.
	Sheets []packing.Sheet
	// Steps are in the order of work.
	Steps []Step
	// Settings is how often the fence is set, and LeastSettings a proven bound:
	// no order for these sheets takes fewer.
	Settings, LeastSettings int
	// Turns is how often the direction of cutting changes within a pass, and
	// LeastTurns a bound in the same sense.
	Turns, LeastTurns int
	// Cuts is how many cuts are made over all sheets, and LeastCuts a bound: all
	// but one of the strips of a series take a cut, and so does what is left of it.
	Cuts, LeastCuts int64
	// Passes is how often one goes through sheets: 1 where they are all cut
	// together.
	Passes int
	// Work is what the search took, in the order of ten nanoseconds each.
	Work int64
}

// A Step is cuts at one setting to parts of one size, each as often.
type Step struct {
	// Pass counts from 0.
	Pass int
	// Axis is packing.CutX or packing.CutY.
	Axis packing.Use
	// Setting is the length of what each cut takes off; 0 or less where the kerf
	// only takes off the edge.
	Setting int64
	// Cuts is how many cuts each part gets, one after the other: each takes off
	// node A of the part and leaves node B for the next.
	Cuts int
	// Parts are the parts before they are cut.
	Parts []Ref
}

// A Ref is a node of a sheet.
type Ref struct {
	Sheet int // index of Order.Sheets
	Node  int // index of its Nodes
}

// count fills in what the steps come to, and the fewest turns.
func (o *Order) count(t *shapes, roots []int32) {
	o.Settings, o.Turns, o.Cuts = 0, 0, 0
	for i, s := range o.Steps {
		if i == 0 || o.Steps[i-1].Setting != s.Setting {
			o.Settings++
		}
		if i > 0 && o.Steps[i-1].Axis != s.Axis && o.Steps[i-1].Pass == s.Pass {
			o.Turns++
		}
		for _, p := range s.Parts {
			o.Cuts += int64(s.Cuts) * int64(o.Sheets[p.Sheet].Times)
		}
	}
	known := map[int32]int{}
	for _, id := range roots { // none where the sheets are cut as they come
		o.LeastTurns = max(o.LeastTurns, t.turns(id, known))
	}
}
