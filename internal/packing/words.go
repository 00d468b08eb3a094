package packing

import (
	"slices"

	"boardwrap.example/internal/inorder"
)

// result says what the best layout comes to.
func (v *solver) result() *Result {
	t := v.t
	r := &Result{Used: make([]int, len(t.p.Stock)), Cost: v.m.cost, Ordinary: v.m.ordinary,
		Bound: min(v.lower, v.m.ordinary)}
	r.Proved = v.done()
	v.prove(r)
	for i := range v.best {
		s := &v.best[i]
		r.Used[t.kinds[s.b.kind].stock] += s.times
	}
	for q, n := range v.short {
		if n > 0 {
			r.Short = append(r.Short, Short{Item: t.parts[q].item, Copies: n, Fits: true})
		}
	}
	for _, s := range t.unfit {
		r.Short = append(r.Short, t.need(s))
	}
	inorder.Sort(r.Short, func(a, b Short) int { return a.Item - b.Item })
	return r
}

// write puts the sheets of the best layout into words.
func (v *solver) write(r *Result) {
	inorder.Sort(v.best, func(a, b stacked) int { return int(a.b.kind - b.b.kind) })
	m := maker{t: v.t}
	for i := range v.best {
		m.room += 2 * len(v.best[i].b.nodes)
	}
	r.Sheets = make([]Sheet, 0, len(v.best))
	for i := range v.best {
		r.Sheets = append(r.Sheets, m.sheet(&v.best[i].b, v.best[i].times))
	}
	r.Sheets = same(r.Sheets)
	for i := range r.Sheets {
		r.Areas.add(&r.Sheets[i])
	}
}

// same makes equal sheets one that is cut more often.
func same(sheets []Sheet) []Sheet {
	out := sheets[:0]
	at := make(map[uint64]int, len(sheets)) // by hash, or the next that is free
	for _, s := range sheets {
		h := s.hash()
		i, seen := at[h]
		for seen && (out[i].Stock != s.Stock || !slices.Equal(out[i].Nodes, s.Nodes)) {
			h++
			i, seen = at[h]
		}
		if seen {
			out[i].Times += s.Times
			continue
		}
		at[h] = len(out)
		out = append(out, s)
	}
	return out
}

// hash is the same for equal patterns (FNV-1a over what becomes of their parts).
//
//go:noinline
func (s *Sheet) hash() uint64 {
	h := uint64(14695981039346656037)
	add := func(v int64) { h = (h ^ uint64(v)) * 1099511628211 }
	add(int64(s.Stock))
	for i := range s.Nodes {
		n := &s.Nodes[i]
		add(int64(n.Item))
		add(n.At)
	}
	return h
}

func (a *Areas) add(s *Sheet) {
	n := uint64(s.Times)
	var piece, off Area
	for _, d := range s.Nodes {
		switch d.Use {
		case Piece:
			piece = piece.Add(mulArea(d.W, d.H))
		case Offcut:
			off = off.Add(mulArea(d.W, d.H))
		}
	}
	all := mulArea(s.Nodes[0].W, s.Nodes[0].H)
	a.Stock = a.Stock.Add(all.Times(n))
	a.Pieces = a.Pieces.Add(piece.Times(n))
	a.Offcuts = a.Offcuts.Add(off.Times(n))
	a.Waste = a.Waste.Add(all.Sub(piece).Sub(off).Times(n))
}

// need works out the least sheet for an item that fits none.
func (t *task) need(s Short) Short {
	it := t.p.Items[s.Item]
	s.NeedW, s.NeedH = it.W, it.H
	if !it.Turn {
		return s
	}
	// Which way round is the smaller step from some sheet?
	over := func(w, h int64) int64 {
		least := int64(-1)
		for _, k := range t.p.Stock {
			o := max(0, w-(k.W-2*k.Trim)) + max(0, h-(k.H-2*k.Trim))
			if least < 0 || o < least {
				least = o
			}
		}
		return least
	}
	if over(it.H, it.W) < over(it.W, it.H) {
		s.NeedW, s.NeedH, s.Turned = it.H, it.W, true
	}
	return s
}
