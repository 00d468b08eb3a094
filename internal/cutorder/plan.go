package cutorder

import (
	"cmp"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/stop"
)

// Options say how to look for an order.
type Options struct {
	// Kerf, LongestCut, KeepShort and KeepLong are those of the problem.
	Kerf, LongestCut, KeepShort, KeepLong int64
	// Trim is that of each kind of stock.
	Trim []int64
	// Work bounds each of two searches.
	Work int64
	// Least is the work that may be done with however little Work, so that all
	// but the largest jobs get an order that goes from setting to setting.
	// Beyond it, and when the Stopper has ended, the sheets are cut up as they come.
	Least int64
}

// perNode is the work of the greedy order for each node of the sheets.
const perNode = 200

// perLook is how many nodes are gone through between two looks at the Stopper.
const perLook = 4096

// Beyond these the settings are chosen one by one, without a search.
const (
	mostShapes  = 4000
	mostLengths = 2048
)

// Plan returns an order for the sheets of a result. What is proved is proved of
// the strips that the order cuts.
func Plan(until stop.Stopper, sheets []packing.Sheet, o Options) *Order {
	nodes := int64(0)
	for i := range sheets {
		nodes += int64(len(sheets[i].Nodes))
	}
	if nodes*perNode > max(o.Work, o.Least) || nodes > perLook && until.Err() != nil {
		return asTheyCome(sheets)
	}
	sheets = alike(sheets)
	best := o.plan(until, sheets, nil, o.Work)
	if best == nil {
		return asTheyCome(sheets)
	}
	best.Work += nodes * perNode
	// Fewer cuts, where that takes no more settings.
	lengths := map[int64]bool{}
	for _, s := range best.Steps {
		lengths[s.Setting] = true
	}
	if other := o.plan(until, sheets, lengths, o.Work); other != nil {
		other.Work += best.Work
		if cmp.Or(cmp.Compare(other.Settings, best.Settings), cmp.Compare(other.Cuts, best.Cuts), cmp.Compare(other.Turns, best.Turns)) < 0 {
			return other
		}
		best.Work = other.Work
	}
	return best
}

// plan orders the cuts of sheets. With known lengths strips with the same
// leftover are kept together where that costs no setting; it returns nil if
// nothing comes of that, or when the Stopper has ended.
func (o *Options) plan(until stop.Stopper, sheets []packing.Sheet, known map[int64]bool, work int64) *Order {
	t := newShapes(o)
	t.known = known
	out := &Order{}
	roots := make([]int32, len(sheets))
	look := 0
	for i := range sheets {
		s := &sheets[i]
		if look += len(s.Nodes); look > perLook {
			if look = 0; until.Err() != nil {
				return nil
			}
		}
		roots[i] = t.of(s, 0, o.Trim[s.Stock])
	}
	if known != nil && !t.merged {
		return nil
	}
	pl := &planner{shapes: t, until: until, out: out, roots: roots, base: len(t.all)}
	passes := pl.passes(work)
	if passes == nil {
		return nil
	}
	b := newBuilder(t, sheets)
	for i, p := range passes {
		b.pass(i, p, roots)
	}
	out.Sheets, out.Steps, out.Passes = b.sheets, b.steps, len(passes)
	out.count(t, roots)
	var least leastCutter
	for i := range out.Sheets {
		out.LeastCuts += least.of(&out.Sheets[i]) * int64(out.Sheets[i].Times)
	}
	return out
}

// A pass is some sheets that are cut together, and what is done to each shape at
// which setting.
type pass struct {
	sheets   []int
	settings []int64
	act      func(id int32, from int32) (int32, move)
}

// planner chooses between orders.
type planner struct {
	*shapes
	until stop.Stopper
	out   *Order
	roots []int32
	base  int // shapes of the layout as it is
}

// passes returns the best order found, nil if the Stopper had ended before there
// was one.
func (p *planner) passes(limit int64) []pass {
	all := make([]int, len(p.roots))
	for i := range all {
		all[i] = i
	}
	g := newGreedy(p.shapes)
	if !g.run(p.until, p.open(all)) {
		return nil
	}
	joint := pass{all, g.settings, g.act}
	p.out.LeastSettings = p.must()
	if p.until.Err() != nil || limit <= 0 || len(p.all) > mostShapes {
		return []pass{joint}
	}
	n := newNeeds(p.shapes)
	if len(n.lengths) > mostLengths {
		return []pass{joint}
	}
	joint, p.out.LeastSettings = p.search(n, joint, limit/2)
	if len(p.roots) == 1 {
		return []pass{joint}
	}
	// One sheet after the other, where going through all at once saves nothing.
	var single []pass
	settings := 0
	for i := range all {
		one := all[i : i+1]
		parts := p.open(one)
		if len(parts) == 0 {
			continue
		}
		g := newGreedy(p.shapes)
		if !g.run(p.until, parts) {
			return []pass{joint}
		}
		s, _ := p.search(n, pass{one, g.settings, g.act}, limit/2/int64(len(all)))
		settings += len(s.settings)
		if k := len(single); k > 0 && single[k-1].settings[len(single[k-1].settings)-1] == s.settings[0] {
			settings--
		}
		if settings > len(joint.settings) {
			return []pass{joint}
		}
		single = append(single, s)
	}
	// Sheets that need no cut belong to some pass.
	if len(single) == 0 {
		return []pass{joint}
	}
	for i := range all {
		if p.all[p.roots[i]].leaf {
			single[0].sheets = append(single[0].sheets[:len(single[0].sheets):len(single[0].sheets)], i)
		}
	}
	return single
}

// must is a number of settings that no order can do without: lengths of series
// whose kids are all as long.
func (p *planner) must() int {
	lengths := map[int64]bool{}
	for i := range p.base {
		s := &p.all[i]
		if s.leaf || s.lead.kind != noEnd {
			continue
		}
		pure := s.rest.kind != noEnd || len(s.kids) > 1 || s.kids[0].n > 1
		for _, c := range s.kids {
			pure = pure && c.len == s.kids[0].len
		}
		if pure {
			lengths[s.kids[0].len] = true
		}
	}
	return len(lengths)
}

// open returns the shapes of sheets that are to be cut, sorted, each once.
func (p *planner) open(sheets []int) []int32 {
	var list []int32
	for _, i := range sheets {
		if !p.all[p.roots[i]].leaf {
			list = union(list, []int32{p.roots[i]})
		}
	}
	return list
}

// search improves on a pass within a limit of work and returns what is proved of
// any.
func (p *planner) search(n *needs, known pass, limit int64) (pass, int) {
	parts := p.open(known.sheets)
	s := &searcher{book: newBook(p.shapes), needs: n, until: p.until, limit: limit / 4}
	path, least, found := s.exact(parts, len(known.settings))
	if !found && least < len(known.settings) {
		for width := 2; width <= 512; width *= 4 {
			s.limit = s.work + (limit-s.work)/2
			if s.work >= limit || p.until.Err() != nil {
				break
			}
			if better, ok := s.beam(parts, width, len(known.settings)); ok && len(better) < len(known.settings) {
				path, found = better, true
				known.settings = better
			}
			if len(known.settings) == least {
				break
			}
		}
	}
	p.out.Work += s.work
	if found {
		r := &runner{book: newBook(p.shapes), settings: path, good: map[when]choice{}, able: map[when]bool{}}
		if r.all(parts) {
			known.settings, known.act = path, r.act
		}
	}
	return known, least
}
