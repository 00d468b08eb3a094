package propose

import (
	"sort"

	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// boxesOf returns the boxes of options.
func boxesOf(opts []option) []box {
	boxes := make([]box, len(opts))
	for i := range opts {
		boxes[i] = opts[i].box
	}
	return boxes
}

// covers lists the covers that a choice of options can lie on, the smallest
// first, and reports whether it is all of them: of too many it gives some, and
// none where the search ends.
func (s *searcher) covers(opts []option, useful func(units.Size) bool) (list []candidate, whole bool) {
	boxes := boxesOf(opts)
	p, ok := newPacker(s.meter, boxes, s.between, s.grip, s.largest())
	if !ok {
		return s.rows(boxes), false
	}
	p.useful = func(w, h units.Length) bool { return useful(s.around(w, h)) }
	if !p.all() {
		return nil, false
	}
	d := dealer{s: s, p: p, opts: opts, sets: make([]int, len(s.leaves)), useful: useful}
	d.least, d.most = s.stacks(p)
	whole = d.deal(0, p.sets-1)
	if s.least != (units.Size{}) {
		whole = false // what lies between the two is not tried
		for i := range d.list {
			d.list[i].cover = d.list[i].cover.Max(s.least)
		}
	}
	sortCovers(d.list)
	return d.list, whole
}

// grow finds how large a cover must be so that neither turn-ins nor mitres meet on
// it with a narrow spine, however little it holds: the lowest and then the narrowest
// within the smallest square that does; where there is none it stays as it is.
func (s *searcher) grow() {
	step := s.ruler.Step()
	least := func(most units.Length, cover func(units.Length) units.Size) (units.Length, bool) {
		n := int(most / step)
		i := sort.Search(n, func(i int) bool { return !s.meetOn(cover(units.Length(i+1) * step)) })
		return units.Length(i+1) * step, i < n
	}
	side, ok := least(s.roomy, func(l units.Length) units.Size { return units.Size{W: l, H: l} })
	if !ok {
		return
	}
	high, _ := least(side, func(l units.Length) units.Size { return units.Size{W: side, H: l} })
	wide, _ := least(side, func(l units.Length) units.Size { return units.Size{W: l, H: high} })
	s.least = units.Size{W: wide, H: high}
}

// meetOn reports whether turn-ins or mitres meet on a cover with a narrow spine.
func (s *searcher) meetOn(cover units.Size) bool {
	spec := s.full
	spec.Cover = cover
	s.widen(&spec, s.spineFor(0))
	_, err := s.build(spec)
	return meet(err)
}

// meet reports whether turn-ins or mitres are said to meet.
func meet(err error) bool {
	bad, ok := err.(*check.Error)
	if !ok {
		return false
	}
	_, mitres := bad.Find("", folio.MitresMeet)
	_, edges := bad.Find("", folio.TurnInsMeet)
	return mitres || edges
}

// stacks returns the height of the thickest box of all, and of the thickest in
// each set.
func (s *searcher) stacks(p *packer) (least units.Length, most []units.Length) {
	most = make([]units.Length, p.sets)
	for set := range most {
		for i, b := range p.boxes {
			if p.digit(set, i) > 0 {
				most[set] = max(most[set], b.height)
			}
		}
	}
	return most[p.sets-1], most
}
