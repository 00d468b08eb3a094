package folio_test

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"testing"
)

// turnedIn says again, from the margins, what the wrap adds to the inside of each
// board: what of a piece stands past the boards' edge, less what goes round that
// edge, lies on the board from its edge inwards.
func turnedIn(p *folio.Plan) map[boards.Role][]slab {
	out := map[boards.Role][]slab{}
	spec := p.Spec()
	wrap := p.Wrap()
	near := wrap.Across()
	left, head := near.Near().Length(), wrap.Along().Near().Length()
	tail := wrap.Along().Far().Length()
	row := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
	for piece := range wrap.Pieces() {
		c := spec.Covering.Caliper
		if piece.Strip() {
			c = spec.SpineCovering.Caliper
		}
		round := spec.Board.Caliper + c
		from := piece.X() - left
		to := from + piece.Piece().Size().W
		var flaps []slab
		add := func(x0, x1, y0, y1 units.Length) {
			flaps = append(flaps, slabOf(units.Rect{Min: units.Point{X: max(x0, 0), Y: y0}, Max: units.Point{X: min(x1, row.W), Y: y1}}, c))
		}
		if deep := head - round; deep > 0 {
			add(from, to, 0, deep)
		}
		if deep := tail - round; deep > 0 {
			add(from, to, row.H-deep, row.H)
		}
		if deep := -from - round; deep > 0 {
			add(0, deep, 0, row.H)
		}
		if deep := to - row.W - round; deep > 0 {
			add(row.W-deep, row.W, 0, row.H)
		}
		for b := range p.Boards() {
			x0, x1 := b.Rect().Min.X.Millimetres(), b.Rect().Max.X.Millimetres()
			for _, f := range flaps {
				f.x0, f.x1 = max(f.x0, x0), min(f.x1, x1)
				if f.x0 < f.x1 {
					out[b.Role()] = append(out[b.Role()], f)
				}
			}
		}
	}
	return out
}

// In quarter style the outside of a board is covered unevenly: by a strip, by a paper, or
// by both. What is counted there, beyond the thinner of the two that is counted everywhere,
// is at every place what the pieces are thick that lie there.
func TestCoveringWhereItLaps(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		for _, strip := range []units.Length{mm / 20, mm/5 - nm, mm / 5, mm/5 + nm, mm / 2} {
			s := plainCase()
			s.Form, s.Quarter.Rule, s.Hinge.Width = form, rule.QuarterAlways, 10*mm
			s.SpineCovering = stock.Stock{Name: "cloth", Caliper: strip}
			p := mustBuild(t, s)
			left, laps := p.Wrap().Across().Near().Length(), 0
			for b := range p.Boards() {
				at := b.Rect()
				for x := at.Min.X + mm/7; x < at.Max.X; x += mm / 3 {
					var want, got units.Length
					pieces := 0
					for w := range p.Wrap().Pieces() {
						if from := w.X() - left; from <= x && x < from+w.Piece().Size().W {
							want += w.Piece().Caliper()
							pieces++
						}
					}
					want -= min(s.Covering.Caliper, strip)
					for _, h := range p.Lapped(b.Role()) {
						if r := h.Rect(); r.Min.X <= x && x < r.Max.X {
							got += h.Height()
							if r.Min.Y != at.Min.Y || r.Max.Y != at.Max.Y || !h.Outside() || h.Panel() != b.Role() || !h.TurnIn() {
								t.Fatalf("%v: %+v on the outside of %v", form, h, at)
							}
						}
					}
					if got != want {
						t.Fatalf("%v, a strip of %v: %v more at %v on the %v, where %v more lie", form, strip, got, x-at.Min.X, b.Role(), want)
					}
					if pieces > 1 {
						laps++
					}
				}
			}
			if laps < 10 {
				t.Errorf("%v: only %d places where two lap", form, laps)
			}
		}
	}
}

// A spine that goes round a block goes round the turn-ins under it too, two of them at a
// mitred corner of each cover: boards of 2 mm, liners of 0.1 mm, a block of 6 mm and four
// turn-ins of 0.2 mm are 11 mm, with no block but as thick contents 10.2 mm. So does a soft
// spine, however its gap is come by.
func TestSpineGoesRoundTheBlock(t *testing.T) {
	for block, want := range map[bool]units.Length{true: 11 * mm, false: 10*mm + mm/5} {
		s := plainCase()
		s.Spine, s.Rulers.Board = rule.Spine{Rule: rule.SpineContents, Contents: 6 * mm}, everyNanometre
		if block {
			s.Cover, s.Spine.Contents = units.Size{}, 0
			s.Block = boards.Block{Page: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: 6 * mm}
		}
		for b := range mustBuild(t, s).Boards() {
			if got := b.Rect().Size().W; b.Role() == boards.Spine1 && got != want {
				t.Errorf("block %v: the spine is %v wide, want %v", block, got, want)
			}
		}
		s.Form, s.Rulers.Gap = boards.SoftSpine, everyNanometre
		s.Spine = rule.Spine{Contents: s.Spine.Contents}
		for _, h := range []rule.HingeRule{rule.HingeRoundContents, rule.HingeLeast} {
			s.Hinge = rule.Hinge{Rule: h}
			for gap := range mustBuild(t, s).Gaps() {
				if gap.Width() != want {
					t.Errorf("block %v, a soft spine by %v: %v wide, want %v", block, h, gap.Width(), want)
				}
			}
		}
	}
}

// Contents that are thinner than the turn-ins take no more room than these do, which a spine
// goes round. So where something does not go in, contents would do that are as thick as it must
// be over the turn-ins, and no thinner ones.
func TestContentsThinnerThanTurnIns(t *testing.T) {
	s := plainCase()
	s.Spine, s.Rulers.Board, s.Closing.Ease = rule.Spine{Rule: rule.SpineContents, Contents: mm / 10}, everyNanometre, units.None
	s.Closing.Adhesive.Caliper = units.None
	s.Fittings = []folio.Fitting{{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 9 * mm}}}
	v := only(builds(s))
	if v.Path != "spine.contents" || v.Bound != check.AtLeast {
		t.Fatal(v)
	}
	for _, less := range []units.Length{0, nm} {
		s.Spine.Contents = v.Limit - less
		p, err := folio.Build(s)
		if does := err == nil && !warned(p, folio.WarnCrease); does != (less == 0) {
			t.Errorf("contents of %v, where %v would do: %v", s.Spine.Contents, v.Limit, err)
		}
	}
}
