package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A lump is something of the shut folio: where it reaches from and to across, counted
// from the left edge of the board on the table, along the spine, and up, counted from
// the wrong side of the covering of that board.
type lump struct {
	x, y, z [2]units.Length
	panel   boards.Role
	name    string
	of      int // the fitting
}

// stands reports whether a lump stands on a board, and might be lower.
func (l *lump) stands() bool { return l.of >= ofBlock }

// apart reports whether two lumps have some way between them along a stretch.
func apart(a, b [2]units.Length) bool { return a[1] <= b[0] || b[1] <= a[0] }

// across appends what is left between all that stands on a spine board and what that
// comes to lie against straight across. At its back, which is the side that its fold does
// not close, that lies inside another fold: spine boards, boards, and what stands on
// those. On its other side boards that lie within its own fold are looked at elsewhere,
// and the folds at their ends there.
func (s *shut) across(all []pinch, back, full bool) []pinch {
	p, f := s.p, &s.p.folded
	if f.n == 2 {
		return all
	}
	var on []Height
	p.heights(full, func(h Height) bool {
		if k := p.foldAt(h.panel); k >= 0 && (h.outside == p.valley(k)) == back {
			on = append(on, h)
		}
		return true
	})
	things := stacked(on)
	if len(things) == 0 {
		return all
	}
	z := s.lies()
	lumps := s.standing(z, s.lumps(z, 0), full)
	for _, h := range things {
		fold := p.foldAt(h.panel)
		t := s.lumpOf(z, h)
		right := z.right(fold) == back // it looks to the right
		var nearest *lump
		room := units.Longest
		for i := range lumps {
			o := &lumps[i]
			k, other := f.lies(p.index(o.panel)), p.foldAt(o.panel) // the board that it lies on, or its fold
			if i >= f.n && i < 2*f.n-1 {
				k, other = -1, i-f.n
			}
			if k == fold || k == fold+1 || other == fold || apart(t.y, o.y) {
				continue
			}
			// A thing that lies beside it may be nearer to it than the ease all the same.
			beside := max(o.z[0]-t.z[1], t.z[0]-o.z[1])
			if beside >= 0 && (beside >= p.spec.Closing.Ease || !o.stands()) {
				continue
			}
			if !back && (k >= 0 && z.within(k, fold) || other >= 0 && z.right(other) == z.right(fold) && (z.within(other, fold) || z.within(other+1, fold))) {
				continue
			}
			way, end := o.x[0]-t.x[0], o.x[1]-t.x[0]
			if !right {
				way, end = t.x[1]-o.x[1], t.x[1]-o.x[0]
			}
			if beside >= 0 {
				way = max(way, beside+h.height)
			}
			if end > 0 && way < room { // not behind it
				nearest, room = o, way
			}
		}
		if nearest == nil {
			continue
		}
		b := pinch{meeting: closing.BesideSpine, panel: h.panel, spine: h.panel, stands: h.fitting, room: room, against: nearest.name}
		for _, o := range on {
			// With few on the spine each place where several lie has had its turn by itself.
			if r := o.rect.Intersect(h.rect); r == h.rect || len(on) > manyOnSpine && !r.Empty() {
				b.cells = append(b.cells, cell{r, o.height, o.fitting})
			}
		}
		b.stack, b.place = greatest(b.cells)
		all = append(all, b)
	}
	return all
}

// lumps are the boards of the shut folio that lie, and then its folds, with the spine
// boards in them, with turn-ins of a caliper on their insides.
func (s *shut) lumps(z *sizing, turned units.Length) []lump {
	p, f := s.p, &s.p.folded
	y := [2]units.Length{0, p.row().H}
	var out []lump
	face := func(inside bool) units.Length {
		if inside {
			return p.face(true) + turned
		}
		return p.face(false)
	}
	for k := range f.n {
		role, c := p.boards[f.inRow(k)].role, p.spec.Covering.Caliper
		low, high := s.level(k)-face(!f.up(k)), s.level(k)+face(f.up(k))
		out = append(out, lump{[2]units.Length{z.x[k][0] - c, z.x[k][1] + c}, y, [2]units.Length{low, high}, role, role.String(), ofBoard})
	}
	for k := range f.n - 1 {
		left, right := f.between(k)
		l := lump{x: [2]units.Length{z.at[k] - z.outside(k), z.at[k] + z.inside(k)}, y: y, name: "fold", of: ofBoard}
		if left != right {
			role := p.boards[right].role
			l.x = [2]units.Length{z.at[k] - face(!p.valley(k)), z.at[k] + face(p.valley(k))}
			l.panel, l.name = role, p.boards[right].name
		}
		if z.right(k) {
			l.x = [2]units.Length{2*z.at[k] - l.x[1], 2*z.at[k] - l.x[0]}
		}
		a, b := s.level(k), s.level(k+1)
		l.z = [2]units.Length{min(a, b), max(a, b)}
		out = append(out, l)
	}
	return out
}

// standing appends what stands on boards, on any side.
func (s *shut) standing(z *sizing, out []lump, full bool) []lump {
	p := s.p
	var faces [2 * boards.MaxBoards][]Height
	p.heights(full, func(h Height) bool {
		at := 2 * p.index(h.panel)
		if h.outside {
			at++
		}
		faces[at] = append(faces[at], h)
		if h.TurnIn() {
			out = append(out, s.lumpOf(z, h))
		}
		return true
	})
	for _, list := range faces {
		for _, h := range stacked(list) {
			out = append(out, s.lumpOf(z, h))
		}
	}
	return out
}

// A hooked lump lies beside a board, and with its thickness over its edge: on the way
// there, or in the end, it runs into it.
type hooked struct {
	lump, board int
	by          units.Length
}

// rests reports whether a board lies on another one, at once or with others between
// that do.
func (f *folding) rests(high, low int) bool {
	for k := range f.n {
		if f.near[low].has(k) && (k == high || f.rests(high, k)) {
			return true
		}
	}
	return false
}

// hooked looks for a board or a fold that lies beside a board, none of its own on
// that, and reaches over its edge all the same, unless it comes down on it from
// above, or the board on it. Whether doors meet is looked at elsewhere.
func (s *shut) hooked(lumps []lump, z *sizing) (hooked, bool) {
	p, f := s.p, &s.p.folded
	for i := range lumps {
		l, k, low, high := &lumps[i], i, i, i // of these boards
		if i >= f.n {
			k = i - f.n
			if low, high = k, k+1; f.rank[high] < f.rank[low] {
				low, high = high, low
			}
		}
		for c := range f.n {
			o := &lumps[c]
			switch {
			case c == low || c == high:
			case apart(l.x, o.x) || f.rests(c, high) || f.rests(high, c): // what lies under the lower one has the higher one on it
			case i >= f.n && z.within(c, k): // must clear the fold
			case p.shape.rule(f.inRow(k)) == boards.WidthShared && p.shape.rule(f.inRow(c)) == boards.WidthShared:
			case f.rank[c] < f.rank[low] && o.z[1] <= l.z[0] || f.rank[c] > f.rank[high] && l.z[1] <= o.z[0]:
			default:
				return hooked{i, c, min(l.x[1]-o.x[0], o.x[1]-l.x[0])}, true
			}
		}
	}
	return hooked{}, false
}

// hook looks for one as the boards lie with their hinges bent.
func (s *shut) hook() (hooked, bool) {
	if s.p.folded.n == 2 {
		return hooked{}, false
	}
	z := s.lies()
	return s.hooked(s.lumps(z, s.p.spec.Covering.Caliper), z)
}

// hooks says that a board or a fold does not pass a board that it comes to lie beside.
func (b *builder) hooks(s *shut) {
	p, f, n := b.plan, &b.plan.folded, b.notation()
	h, ok := s.hook()
	if !ok {
		return
	}
	at := "edge of the "
	if h.lump < f.n {
		at += p.boards[f.inRow(h.lump)].name
	} else if left, right := f.between(h.lump - f.n); left == right {
		at = "fold between the " + p.boards[left].name + " and the " + p.boards[left+1].name
	} else {
		at = p.boards[right].name
	}
	got := "the " + at + " " + n.Bound(h.by, units.Up) + " over the edge of the " + p.boards[f.inRow(h.board)].name + ", beside which it lies"
	if p.measured != nil {
		b.warn(check.Warning{Path: "measured", Code: NotClosing, Got: h.by, Text: "the cover as measured does not close without force: " + got})
		return
	}
	path := "flapwidth" // of the forms only two flaps come to lie beside boards, the others' lie over each other
	if b.spec.Row.Given() {
		path = check.Index("row.boards", f.inRow(h.board)) + ".width"
	}
	b.bad.Add(check.Violation{Path: path, Code: NotClosing, Nature: check.Impossible, Got: got,
		Want: "boards of such widths that the two lie over each other, or at least " + n.Bound(h.by, units.Up) + " further apart"})
}

// lumpOf returns what stands on a board as it lies when the folio is shut.
func (s *shut) lumpOf(z *sizing, h Height) lump {
	p, f := s.p, &s.p.folded
	l := lump{y: [2]units.Length{h.rect.Min.Y, h.rect.Max.Y}, panel: h.panel, name: p.called(h.panel), of: h.fitting}
	if h.fitting >= 0 {
		l.name = p.fitted[h.fitting].Label()
	} else if h.fitting == ofBlock {
		l.name = "block"
	}
	i := p.index(h.panel)
	rect, face := &p.boards[i].rect, p.face(!h.outside)
	from, to := h.rect.Min.X-rect.Min.X, h.rect.Max.X-rect.Min.X
	if k := f.lies(i); k >= 0 {
		level := s.level(k)
		if l.z = [2]units.Length{level + face, level + face + h.height}; h.outside == f.up(k) {
			l.z = [2]units.Length{level - face - h.height, level - face}
		}
		if l.x = [2]units.Length{z.x[k][0] + from, z.x[k][0] + to}; !f.up(k) {
			l.x = [2]units.Length{z.x[k][1] - to, z.x[k][1] - from}
		}
		return l
	}
	fold := p.foldAt(h.panel)
	at := s.upright(fold)
	if l.z = [2]units.Length{at[0] + from, at[0] + to}; f.rank[fold+1] < f.rank[fold] {
		l.z = [2]units.Length{at[1] - to, at[1] - from}
	}
	l.x = [2]units.Length{z.at[fold] + face, z.at[fold] + face + h.height}
	if closes := h.outside != p.valley(fold); closes == z.right(fold) {
		l.x = [2]units.Length{z.at[fold] - face - h.height, z.at[fold] - face}
	}
	return l
}
