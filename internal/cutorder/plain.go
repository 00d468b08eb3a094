package cutorder

import "boardwrap.example/internal/packing"

// asTheyCome cuts up sheet after sheet, part after part: an order that costs
// next to nothing, with more settings than need be.
func asTheyCome(sheets []packing.Sheet) *Order {
	o := &Order{Sheets: sheets, Passes: len(sheets)}
	nodes := 0
	for i := range sheets {
		nodes += len(sheets[i].Nodes)
	}
	most := nodes/2 + len(sheets) // most cuts leave two parts
	o.Steps = make([]Step, 0, most)
	refs := make([]Ref, 0, most)
	var least leastCutter
	var todo []int
	for i := range sheets {
		nodes := sheets[i].Nodes
		o.LeastCuts += least.of(&sheets[i]) * int64(sheets[i].Times)
		todo = append(todo[:0], 0)
		for len(todo) > 0 {
			at := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			n := &nodes[at]
			if n.Use != packing.CutX && n.Use != packing.CutY {
				continue
			}
			refs = append(refs, Ref{i, at})
			s := Step{Pass: i, Axis: n.Use, Setting: n.At, Parts: refs[len(refs)-1:]}
			for at >= 0 && nodes[at].Use == s.Axis && nodes[at].At == s.Setting {
				s.Cuts++
				if a := nodes[at].A; a >= 0 {
					todo = append(todo, a)
				}
				at = nodes[at].B
			}
			if at >= 0 {
				todo = append(todo, at)
			}
			o.Steps = append(o.Steps, s)
		}
	}
	if len(o.Steps) > 0 {
		o.LeastSettings = 1
	}
	o.count(nil, nil)
	return o
}
