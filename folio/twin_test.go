package folio_test

import (
	"math/big"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// A twin works the case of a folio out as a careful user would who has rational
// numbers and no library: inches as fractions, nothing rounded but on the ruler.
// It answers for cover, spine, cover in one piece of covering and liner, with
// the default rules, and checks that it can be made.
type twin struct{ step *big.Rat }

func rat(a, b int64) *big.Rat { return big.NewRat(a, b) }

func (t twin) put(l *big.Rat, up bool) *big.Rat {
	n := new(big.Rat).Quo(l, t.step)
	q, rest := new(big.Int).QuoRem(n.Num(), n.Denom(), new(big.Int))
	if up && rest.Sign() != 0 {
		q.Add(q, big.NewInt(1))
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(q), t.step)
}

func (t twin) up(l *big.Rat) *big.Rat   { return t.put(l, true) }
func (t twin) down(l *big.Rat) *big.Rat { return t.put(l, false) }

func add(list ...*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for _, l := range list {
		sum.Add(sum, l)
	}
	return sum
}

func mul(n int64, l *big.Rat) *big.Rat { return new(big.Rat).Mul(rat(n, 1), l) }
func neg(l *big.Rat) *big.Rat          { return new(big.Rat).Neg(l) }
func half(l *big.Rat) *big.Rat         { return new(big.Rat).Quo(l, rat(2, 1)) }

// A twinned is what the twin works out.
type twinned struct {
	cover, height, spine, gap, open, madeW, madeH *big.Rat
	wrapW, wrapH, linerW, linerH                  *big.Rat
	reach, lapW, lapH, room                       *big.Rat
	legs                                          [4]*big.Rat
	cuts                                          [4][4]*big.Rat // from x, y to x, y
	boards, lines, panels                         []*big.Rat
}

// works works a case out from cover, spine, board, covering and a sheet.
func (t twin) works(w, h, spine, board, covering, sheetW, sheetH *big.Rat) (twinned, bool) {
	out := twinned{cover: t.up(w), height: t.up(h), spine: t.up(spine), gap: t.up(mul(2, board))}
	out.open = add(mul(2, out.cover), out.spine, mul(2, out.gap))
	out.madeW, out.madeH = add(out.open, mul(2, covering)), add(out.height, mul(2, covering))
	inset := rat(1, 8)

	// The sheet as it lies or turned, whichever leaves the wider margins.
	spare := func(w, h *big.Rat) *big.Rat {
		x, y := add(w, neg(out.open)), add(h, neg(out.height))
		if x.Cmp(y) < 0 {
			return x
		}
		return y
	}
	if spare(sheetH, sheetW).Cmp(spare(sheetW, sheetH)) > 0 {
		sheetW, sheetH = sheetH, sheetW
	}
	margin := func(open, sheet *big.Rat) (blank, near, far *big.Rat) {
		if blank = t.up(add(open, mul(2, rat(1, 1)))); blank.Cmp(sheet) > 0 {
			blank = sheet
		}
		near = t.down(half(add(blank, neg(open))))
		return blank, near, add(blank, neg(open), neg(near))
	}
	var left, right, head, tail *big.Rat
	out.wrapW, left, right = margin(out.open, sheetW)
	out.wrapH, head, tail = margin(out.height, sheetH)
	for _, m := range []*big.Rat{left, right, head, tail} {
		if m.Cmp(rat(1, 4)) < 0 {
			return out, false
		}
	}
	x := new(big.Rat)
	for _, board := range []*big.Rat{out.cover, out.spine, out.cover} {
		end := add(x, board)
		out.boards = append(out.boards, x, end)
		out.lines = append(out.lines, add(left, x), add(left, end))
		out.panels = append(out.panels, add(x, inset), add(end, neg(inset)))
		x = add(end, out.gap)
	}

	// The diagonal of a square on 1 1/2 calipers: 4243/2000 of a caliper is
	// just above it.
	edge := add(board, covering)
	out.reach = t.up(new(big.Rat).Mul(board, rat(4243, 2000)))
	if out.reach.Cmp(edge) < 0 {
		return out, false
	}
	for c, m := range [4][2]*big.Rat{{left, head}, {right, head}, {right, tail}, {left, tail}} {
		leg := t.down(add(m[0], m[1], neg(out.reach)))
		if leg.Sign() <= 0 || mul(2, leg).Cmp(out.wrapH) > 0 || mul(2, leg).Cmp(out.wrapW) > 0 {
			return out, false
		}
		out.legs[c] = leg
		cut := [4]*big.Rat{leg, new(big.Rat), new(big.Rat), leg}
		if c == 1 || c == 2 {
			cut[0], cut[2] = add(out.wrapW, neg(leg)), out.wrapW
		}
		if c >= 2 {
			cut[1], cut[3] = out.wrapH, add(out.wrapH, neg(leg))
		}
		out.cuts[c] = cut
	}

	out.linerW = t.down(add(out.open, mul(-2, inset)))
	out.linerH = t.down(add(out.height, mul(-2, inset)))
	lap := func(near, far, open, liner *big.Rat) (*big.Rat, bool) {
		least := near
		if far.Cmp(near) < 0 {
			least = far
		}
		inside := add(least, neg(edge))
		return add(inside, neg(half(add(open, neg(liner))))), inside.Sign() > 0 && mul(2, inside).Cmp(open) < 0
	}
	var goesW, goesH bool
	out.lapW, goesW = lap(left, right, out.open, out.linerW)
	out.lapH, goesH = lap(head, tail, out.height, out.linerH)

	// Each hinge turns by a right angle about the spine board's edge.
	out.room = add(out.spine, mul(-2, board), mul(-2, covering))
	return out, goesW && goesH && out.gap.Cmp(edge) >= 0 && out.lapW.Sign() > 0 && out.lapH.Sign() > 0 && out.room.Cmp(rat(1, 32)) >= 0
}

func (t twin) keepsake() (twinned, bool) {
	return t.works(rat(9, 2), rat(25, 4), rat(1, 1), rat(1, 16), rat(63, 10000), rat(12, 1), rat(12, 1))
}

// plain is the same case for the library.
func plain() folio.Spec {
	return folio.Spec{
		Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in"), Grain: stock.GrainAlongHeight}}},
	}
}

// The twin and the library agree.
func TestTwin(t *testing.T) {
	want, ok := twin{rat(1, 16)}.keepsake()
	if !ok {
		t.Fatal("the twin refuses the case")
	}
	p := mustBuild(t, plain())
	same := func(what string, got units.Length, want *big.Rat) {
		t.Helper()
		if new(big.Rat).SetFrac64(got.Nanometres(), units.Inch.Nanometres()).Cmp(want) != 0 {
			t.Errorf("%s is %v, the twin has %v in", what, got, want)
		}
	}
	left, _ := p.Board(boards.LeftCover)
	spine, _ := p.Board(boards.Spine1)
	same("cover", left.Size().W, want.cover)
	same("height", left.Size().H, want.height)
	same("spine", spine.Size().W, want.spine)
	for g := range p.Gaps() {
		same("gap", g.Width(), want.gap)
	}
	same("open width", p.OpenWidth().Length(), want.open)
	same("wrap", p.Wrap().Size().W, want.wrapW)
	same("wrap height", p.Wrap().Size().H, want.wrapH)
	same("reach", p.Wrap().Corners()[0].Reach().Length(), want.reach)
	for i, c := range p.Wrap().Corners() {
		same("leg", c.Leg().Length(), want.legs[i])
		cut := c.Cut()
		for k, l := range [4]units.Length{cut.From.X, cut.From.Y, cut.To.X, cut.To.Y} {
			same("cut", l, want.cuts[i][k])
		}
	}
	w, h := p.AsMade()
	same("as made", w.Length(), want.madeW)
	same("as made", h.Length(), want.madeH)
	same("room", mustClosed(t, p).Room().Length(), want.room)
	k := 0
	for b := range p.Boards() {
		in, _ := p.Panel(b.Role(), false)
		same("board", b.Rect().Min.X, want.boards[k])
		same("board", b.Rect().Max.X, want.boards[k+1])
		same("panel", in.Min.X, want.panels[k])
		same("panel", in.Max.X, want.panels[k+1])
		k += 2
	}
	for l := range p.Liner() {
		same("liner", l.Size().W, want.linerW)
		same("liner height", l.Size().H, want.linerH)
	}
	sides, ends := p.TurnInLap()
	same("lap", sides.Length(), want.lapW)
	same("lap at head and tail", ends.Length(), want.lapH)
	i := 0
	for l := range p.Placement() {
		if l.Upright() {
			same("line", l.At(), want.lines[i])
			i++
		}
	}
}

func BenchmarkCase(b *testing.B) {
	s := plain()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := folio.Build(s); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCaseTwin is the same case by rational numbers, with less checked, no
// other rules and no working kept.
func BenchmarkCaseTwin(b *testing.B) {
	t := twin{rat(1, 16)}
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := t.keepsake(); !ok {
			b.Fatal("refused")
		}
	}
}
