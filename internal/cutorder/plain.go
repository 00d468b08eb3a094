package cutorder

import "boardwrap.example/internal/packing"

// asTheyCome cuts up sheet after sheet, part after part: an order that costs
// next to nothing, with more settings than need be.
func asTheyCome(sheets []packing.Sheet) *Order {
	o := &Order{Sheets: sheets, Passes: len(sheets)}
	cuts := 0
	for i := range sheets {
		for k := range sheets[i].Nodes {
			if u := sheets[i].Nodes[k].Use; u == packing.CutX || u == packing.CutY {
				cuts++
			}
		}
	}
	o.Steps = make([]Step, 0, cuts)
	refs := make([]Ref, 0, cuts)
	var todo []int
	for i := range sheets {
		nodes := sheets[i].Nodes
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
