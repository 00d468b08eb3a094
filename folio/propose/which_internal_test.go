package propose

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// anyOptions generates a few ways to hold a thing, of which many are alike.
func anyOptions() gopter.Gen {
	return proptest.Map(proptest.List(1, 6, gen.IntRange(0, 3*3*3*3*2*3*8-1)), func(list []int) []option {
		const mm = units.Millimetre
		var out []option
		for i, n := range list {
			next := func(many int) int { k := n % many; n /= many; return k }
			o := option{turned: i&1 != 0, number: 1 + next(3)}
			o.box = box{w: 30*mm + units.Length(next(3))*mm, h: 40*mm + units.Length(next(3)), height: mm + units.Length(next(3)), mouth: next(2) != 0}
			o.cards = units.Size{W: mm, H: units.Length(1 + next(3))}.Area()
			o.way = Holder(next(8))
			out = append(out, o)
		}
		return out
	})
}

// Of the ways to hold a thing those are tried that are thin enough and, where all is to
// be in view, in view; none is left out without another that is as good in all that
// counts, and of two that are kept neither is as good as the other. How much card they
// take counts where sheets do. Those that take the least area come first.
func TestUsableIsWhatNothingBeats(t *testing.T) {
	proptest.Run(t, 400, func(ps *gopter.Properties) {
		ps.Property("no way is lost and none is tried in vain", prop.ForAll(func(list []option, bits int) string {
			const mm = units.Millimetre
			aim, thick, between := Aim(bits%4), mm+units.Length(bits/4%4), units.Length(5+bits/16%2)*mm
			s := &searcher{all: [][]option{list}, between: between, grip: 6 * mm, request: Request{Things: []Thing{{Sight: Sight(bits / 32 % 3)}}}}
			worse := func(a, b option) []bool {
				counts := []bool{a.box.w > b.box.w, a.box.h > b.box.h, a.number > b.number, a.box.height > b.box.height, a.box.mouth && !b.box.mouth && between < 6*mm}
				if aim == FewestSheets {
					counts = append(counts, a.cards.Times(int64(a.number)).Compare(b.cards.Times(int64(b.number))) > 0)
				}
				return counts
			}
			asGood := func(a, b option) bool { return !slices.Contains(worse(a, b), true) }
			kept := s.usable(aim, 0, thick)
			may := func(o option) bool {
				return o.box.height <= thick && (aim != AllInView || s.request.Things[0].Sight == TuckedAway || o.way <= Mat)
			}
			for i, a := range kept {
				if !may(a) || !slices.Contains(list, a) {
					return fmt.Sprintf("%+v is tried", a)
				}
				if i > 0 && s.takes(&kept[i-1]) > s.takes(&a) {
					return "the one that takes less comes later"
				}
				for k, b := range kept {
					if i != k && asGood(a, b) {
						return fmt.Sprintf("%+v is as good as %+v", a, b)
					}
				}
			}
			for i, o := range list {
				if !may(o) {
					continue
				}
				if !slices.ContainsFunc(kept, func(k option) bool { return asGood(k, o) }) {
					return fmt.Sprintf("%+v is lost", o)
				}
				if k := slices.IndexFunc(list, func(b option) bool { return may(b) && asGood(b, o) && asGood(o, b) }); k < i && slices.Contains(kept, o) && !slices.Contains(kept, list[k]) {
					return fmt.Sprintf("%+v is kept, and %+v is as good and came first", o, list[k])
				}
			}
			return ""
		}, anyOptions(), gen.IntRange(0, 4*4*2*3-1)))
	})
}

// What lies in rows, one over the other on a board of 101 x 300 mm, lies evenly along its
// row where that is the only one of several, or the rows are a grid of like ones, whose
// columns follow the first row then. By hand: two of 20 and 30 mm leave 51, of which a
// third is 17: they begin at 17 and 54; two of 20 leave 61, a third down to 20: at 20 and
// 60; three of 20 leave 41, a quarter 10.25: at 10, 40 and 70.
func TestAcrossByHand(t *testing.T) {
	const mm = units.Millimetre
	a, b, c := units.Size{W: 20 * mm, H: 10 * mm}, units.Size{W: 30 * mm, H: 10 * mm}, units.Size{W: 20 * mm, H: 12 * mm}
	type row = []units.Size
	for _, k := range []struct {
		name  string
		order Order
		rows  []row
		even  map[int]units.Length // where a fitting lies evenly
		like  map[int]int          // which it follows
	}{
		{name: "one by itself in each", rows: []row{{a}, {b}, {a}}},
		{name: "one row", rows: []row{{a, b}}, even: map[int]units.Length{0: 17, 1: 54}},
		{name: "the only row of several", rows: []row{{a}, {a, b}, {a}}, even: map[int]units.Length{1: 17, 2: 54}},
		{name: "lined up", order: LinedUp, rows: []row{{a}, {a, b}}},
		{name: "two rows of several", rows: []row{{a, b}, {a, b}}},
		{name: "the first unlike", rows: []row{{a, b}, {a, a}}},
		{name: "the second unlike", rows: []row{{a, a}, {a, b}}},
		{name: "one is higher", rows: []row{{a, a}, {a, c}}},
		{name: "of two and three", rows: []row{{a, a}, {a, a, a}}},
		{name: "two, two and one", rows: []row{{a, a}, {a, a}, {a}}},
		{name: "two and one of two", rows: []row{{a}, {a, a}, {a, a}}},
		{name: "a grid", rows: []row{{a, a}, {a, a}}, even: map[int]units.Length{0: 20, 1: 60}, like: map[int]int{2: 0, 3: 1}},
		{name: "three rows", rows: []row{{a, a}, {a, a}, {a, a}}, even: map[int]units.Length{0: 20, 1: 60}, like: map[int]int{2: 0, 3: 1, 4: 0, 5: 1}},
		{name: "three columns", rows: []row{{a, a, a}, {a, a, a}}, even: map[int]units.Length{0: 10, 1: 40, 2: 70}, like: map[int]int{3: 0, 4: 1, 5: 2}},
	} {
		w := spreading{panel: units.Size{W: 101 * mm, H: 300 * mm}, tall: true}
		w.arranger = &arranger{s: &searcher{fitting: units.WholeMillimetres, request: Request{Taste: Taste{Order: k.order}}}}
		for _, r := range k.rows {
			w.first = append(w.first, len(w.all))
			var shapes []*shape
			for _, size := range r {
				n := len(w.all)
				w.opts = append(w.opts, option{box: box{w: size.W, h: size.H}})
				w.all = append(w.all, laid{nth: n, kind: n, at: units.Point{X: 7 * mm, Y: 9 * mm}})
				shapes = append(shapes, &shape{w: size.W, h: size.H, kind: n})
			}
			w.rows = append(w.rows, shapes)
		}
		w.across()
		for n, l := range w.all {
			at, even := k.even[n]
			of, like := k.like[n]
			if like {
				at = k.even[of]
			} else if !even {
				at = 7
			}
			want := inLine{}
			switch {
			case even:
				want.how = evenly
			case like:
				want.how, want.of = inLineWith, of
			}
			if l.at != (units.Point{X: at * mm, Y: 9 * mm}) || l.by != [2]inLine{want} {
				t.Errorf("%s: %d at %v by %+v, want %v by %+v", k.name, n, l.at, l.by, at*mm, want)
			}
		}
	}
}

// What things take is no more than any cover has on which they lie, whatever a board is
// larger than what lies on it, with its margins; and where that is as much as must be
// between them it is what they take, of one board.
func TestAreaIsABound(t *testing.T) {
	const mm = units.Millimetre
	bound := 0
	for n := range 4 * 4 * 3 * 4 {
		pick := func(many int) units.Length { k := units.Length(n % many); n /= many; return k }
		inset, margin, between := units.Size{W: 4 * mm * pick(4), H: 4 * mm * pick(4)}, 3*mm*pick(3), 6*mm*pick(4)
		s := &searcher{margin: margin, between: between, leaves: []leaf{{rule: boards.WidthCover, shares: 1, inset: inset}}}
		q := &quest{searcher: s}
		for many := units.Length(1); many <= 3; many++ {
			o := option{number: int(many), box: box{w: 20 * mm, h: 10 * mm}}
			long := many*20*mm + (many-1)*between
			cover := units.Size{W: long, H: 10 * mm}.Plus(inset.W+2*margin, inset.H+2*margin)
			area := q.area(s.takes(&o))
			if area > microArea(cover) {
				t.Errorf("%d beside each other, %v between, %v round: at least %d µm², and %v does", many, between, inset.Plus(2*margin, 2*margin), area, cover)
			}
			if area > 0 {
				bound++
			} else if min(inset.W, inset.H)+2*margin >= between {
				t.Errorf("%v between, %v round: no bound", between, inset.Plus(2*margin, 2*margin))
			}
		}
	}
	if bound < 100 {
		t.Errorf("lopsided: %d bounds", bound)
	}
	fixed := &quest{searcher: &searcher{leaves: []leaf{{rule: boards.WidthCover, inset: units.Size{W: mm, H: mm}}, {rule: boards.WidthFixed, inset: units.Size{W: mm, H: mm}}}}}
	if got := fixed.area(1000); got != 0 {
		t.Errorf("beside a board of its own width: %d", got)
	}
	two := &quest{searcher: &searcher{leaves: []leaf{{rule: boards.WidthCover}, {rule: boards.WidthHalf}}}}
	if got := two.area(1001); got != 500 {
		t.Errorf("on two boards: %d", got)
	}
}

// Two boards are always as wide where nothing that decides on it differs.
func TestLikeInEverything(t *testing.T) {
	base := leaf{role: boards.LeftCover, rule: boards.WidthCover, shares: 2, width: 7, gap: 3, inset: units.Size{W: 4, H: 5}, more: units.Size{W: 6, H: 8}, right: true}
	for name, c := range map[string]struct {
		change func(*leaf)
		like   bool
	}{
		"nothing": {func(*leaf) {}, true}, "the role": {func(l *leaf) { l.role = boards.RightCover }, true}, "the side": {func(l *leaf) { l.left, l.right = true, false }, true},
		"the rule": {func(l *leaf) { l.rule = boards.WidthShared }, false}, "the shares": {func(l *leaf) { l.shares++ }, false}, "the width": {func(l *leaf) { l.width++ }, false},
		"the inset": {func(l *leaf) { l.inset.W++ }, false}, "the inset's height": {func(l *leaf) { l.inset.H++ }, false}, "more": {func(l *leaf) { l.more.W++ }, false}, "more of the height": {func(l *leaf) { l.more.H++ }, false},
		"all": {func(l *leaf) { *l = leaf{} }, false},
	} {
		other := base
		c.change(&other)
		if base.like(&other) != c.like || other.like(&base) != c.like {
			t.Errorf("%s: %v", name, !c.like)
		}
	}
}

// A cover on which neither turn-ins nor mitres meet is found within the smallest square
// that does: a graduation lower they meet on it, and a graduation narrower.
func TestGrownIsTheLeast(t *testing.T) {
	for _, ideal := range []units.Length{15 * units.Millimetre, 25 * units.Millimetre, 31_300_007} {
		s := begin(t, folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Margin: rule.Margin{Ideal: ideal}})
		s.grow()
		step := s.ruler.Step()
		if least := s.least; least.Empty() || s.meetOn(least) || !s.meetOn(least.Plus(0, -step)) || !s.meetOn(least.Plus(-step, 0)) || !s.meetOn(units.Size{W: max(least.W, least.H) - step, H: max(least.W, least.H) - step}) {
			t.Errorf("turn-ins of %v: %v", ideal, least)
		}
	}
}

// fronts are all sizes that boxes can take, laid beside each other in any parts, of which
// none is both wider and higher than another: by trying every way to part them.
func fronts(all []box, between, grip units.Length) []units.Size {
	var of func(set int) []units.Size
	known := map[int][]units.Size{}
	mouth := func(set int) bool {
		for i, b := range all {
			if set>>i&1 != 0 && b.mouth {
				return true
			}
		}
		return false
	}
	of = func(set int) []units.Size {
		if out, ok := known[set]; ok {
			return out
		}
		var out []units.Size
		for i, b := range all {
			if set == 1<<i {
				out = append(out, units.Size{W: b.w, H: b.h})
			}
		}
		for part := (set - 1) & set; part > 0; part = (part - 1) & set {
			gap := between
			if mouth(set) { // in either part
				gap = max(gap, grip)
			}
			for _, a := range of(part) {
				for _, b := range of(set &^ part) {
					out = append(out, units.Size{W: a.W + gap + b.W, H: max(a.H, b.H)}, units.Size{W: max(a.W, b.W), H: a.H + gap + b.H})
				}
			}
		}
		slices.SortFunc(out, func(a, b units.Size) int { return cmp.Or(cmp.Compare(a.W, b.W), cmp.Compare(a.H, b.H)) })
		var front []units.Size
		for _, s := range out {
			if n := len(front); n == 0 || s.H < front[n-1].H {
				front = append(front, s)
			}
		}
		known[set] = front
		return front
	}
	return of(1<<len(all) - 1)
}

// tight says what is wrong with a shape: two parts that are not as far apart as they must
// be, or one that is larger than what lies in it.
func tight(s *shape, boxes []box, between, grip units.Length) string {
	if s.cut == noCut {
		if b := boxes[s.kind]; s.w != b.w || s.h != b.h {
			return fmt.Sprintf("%v x %v for %+v", s.w, s.h, b)
		}
		return ""
	}
	var mouth func(s *shape) bool
	mouth = func(s *shape) bool {
		if s.cut == noCut {
			return boxes[s.kind].mouth
		}
		return mouth(s.a) || mouth(s.b)
	}
	gap := between
	if mouth(s) {
		gap = max(gap, grip)
	}
	want := units.Size{W: s.a.w + gap + s.b.w, H: max(s.a.h, s.b.h)}
	if s.cut == level {
		want = units.Size{W: max(s.a.w, s.b.w), H: s.a.h + gap + s.b.h}
	}
	if want != (units.Size{W: s.w, H: s.h}) {
		return fmt.Sprintf("%v x %v, want %v", s.w, s.h, want)
	}
	return tight(s.a, boxes, between, grip) + tight(s.b, boxes, between, grip)
}

// Up to five boxes of up to three kinds: the shapes that are found are those of every way
// to part them, but for what is larger than may be or of no use.
func TestShapesByEveryPart(t *testing.T) {
	one := proptest.Map(gopter.CombineGens(gen.IntRange(1, 6), gen.IntRange(1, 6), gen.IntRange(1, 2), gen.Bool()), func(v []any) box {
		return box{w: units.Length(v[0].(int)) * 10, h: units.Length(v[1].(int)) * 10, count: v[2].(int), mouth: v[3].(bool)}
	})
	proptest.Run(t, 200, func(ps *gopter.Properties) {
		ps.Property("every part", prop.ForAll(func(boxes []box, between, grip, most, area int) string {
			var all []box
			for _, b := range boxes {
				all = append(all, slices.Repeat([]box{b}, b.count)...)
			}
			if len(all) > 5 {
				return ""
			}
			p, ok := newPacker(endless(), boxes, units.Length(between), units.Length(grip), units.Size{W: units.Length(most), H: units.Length(most) + 20})
			p.useful = func(w, h units.Length) bool { return w*h <= units.Length(area) }
			if !ok || !p.all() {
				return "it is not got through"
			}
			var want, got []units.Size
			for _, s := range fronts(all, units.Length(between), units.Length(grip)) {
				if s.W <= units.Length(most) && s.H <= units.Length(most)+20 && s.W*s.H <= units.Length(area) {
					want = append(want, s)
				}
			}
			for i := range p.shapes[p.sets-1] {
				s := &p.shapes[p.sets-1][i]
				if bad := tight(s, boxes, units.Length(between), units.Length(grip)); bad != "" {
					return bad
				}
				got = append(got, units.Size{W: s.w, H: s.h})
			}
			if !slices.Equal(got, want) {
				return fmt.Sprintf("%v, want %v", got, want)
			}
			return ""
		}, proptest.List(1, 3, one), gen.IntRange(0, 9), gen.IntRange(0, 9), gen.IntRange(60, 300), gen.IntRange(3000, 40000)))
	})
}

// Where the budget ends before every shape is worked out that is said, and no cover is
// given.
func TestShapesAreAllOrNone(t *testing.T) {
	boxes := []box{{w: 20, h: 30, count: 2}, {w: 50, h: 10, count: 1}}
	all := func(m *meter) bool {
		p, ok := newPacker(m, boxes, 3, 3, units.Size{W: 1000, H: 1000})
		p.useful = func(w, h units.Length) bool { return true }
		return ok && p.all()
	}
	free := endless()
	if !all(free) || all(&meter{until: free.until, left: free.done}) || !all(&meter{until: free.until, left: free.done + 1}) {
		t.Errorf("of %d steps not all are needed, or no more do", free.done)
	}
}

// What is wrong with a row or a form is said of that one of several, the rest of the case.
func TestUnderCase(t *testing.T) {
	for _, at := range []string{"", "forms[1]"} {
		for path, form := range map[string]bool{"form": true, "row": true, "row.boards[0].width": true, "rows": false, "formed": false, "cover.w": false, "hinge": false} {
			var list, bad check.List
			list.Malformed(path, check.Conflict, "this", "that")
			underCase(&bad, list.Err(), at)
			want := "case." + path
			if form && at != "" {
				want = at + "." + path
			}
			wrong, _ := bad.Err().(*check.Error)
			if v, ok := wrong.Find(want, check.Conflict); !ok || wrong.Len() != 1 || v.Want != "that" {
				t.Errorf("%q, %s: %v", at, path, wrong)
			}
		}
	}
}

// What is proved to be the best stays, whatever was found for another aim that is as
// good and less work; what is not gives way to it, but for one of which no sheets are
// counted where they are to be.
func TestKeptByHand(t *testing.T) {
	q, opts, one := searched(t, Smallest)
	f, why, _ := q.verify(opts, &one, q.most)
	if f == nil {
		t.Fatal(why)
	}
	plainer := *f
	plainer.opts, f.opts = opts, slices.Clone(opts)
	for i := range f.opts {
		f.opts[i].way = FoldedFlap
	}
	for _, c := range []struct {
		aim               Aim
		complete, counted bool
		kept              bool
	}{{Smallest, true, true, false}, {Smallest, false, true, true}, {Smallest, false, false, true}, {FewestSheets, false, true, true}, {FewestSheets, false, false, false}, {FewestSheets, true, true, false}} {
		f.counted, plainer.counted = true, c.counted
		tr := &trial{searcher: q.searcher}
		mine, other := &Proposal{aim: c.aim, found: f}, &Proposal{aim: Thinnest, found: &plainer}
		tr.got[c.aim], tr.got[Thinnest] = result{proposal: mine, complete: c.complete}, result{proposal: other, complete: true}
		tr.keep(c.aim)
		got := tr.got[c.aim]
		if kept := got.proposal != mine; kept != c.kept || got.complete != c.complete || got.proposal.aim != c.aim || kept && got.proposal.found.opts[0].way != Mat {
			t.Errorf("%v, complete %v, counted %v: another is taken: %v, complete %v", c.aim, c.complete, c.counted, kept, got.complete)
		}
	}
}
