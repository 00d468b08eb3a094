package folio_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// roomOf is the room between the covers; ok is false where a folio stays open.
func roomOf(s folio.Spec) (units.Length, bool, string) {
	p, err := folio.Build(s)
	if err != nil {
		return 0, false, err.Error()
	}
	c, ok := p.Closed()
	return c.Room().Length(), ok, ""
}

// closable generates a folio with every size given and a gap wide enough to
// be creased anywhere.
func closable() func(v []any) folio.Spec {
	return func(v []any) folio.Spec {
		length := func(i int) units.Length { return v[i].(units.Length) }
		s := folio.Spec{
			Form: v[0].(boards.Form), Cover: units.Size{W: 120 * mm, H: 160 * mm}, Spine: rule.Spine{Width: length(1)},
			Board: stock.Stock{Caliper: length(2)}, Liner: stock.Stock{Caliper: length(3)}, Covering: stock.Stock{Caliper: length(3)},
			Hinge:  rule.Hinge{Width: 2*(length(2)+length(3)) + 3*mm + length(4), Crease: v[5].(rule.CreasePlace)},
			Mitre:  rule.Mitre{Distance: 6 * mm},
			Rulers: rule.Rulers{Main: units.TenthMillimetres},
		}
		if s.Form == boards.SoftSpine {
			s.Spine = rule.Spine{Contents: mm}
			if s.Hinge.Crease != rule.CreaseRound {
				s.Hinge.Crease = rule.CreaseTwo
			}
			s.Hinge.Width *= 2
		}
		return s
	}
}

func TestClosingProperties(t *testing.T) {
	p := runs()
	form := oneOf(boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate)
	bend := oneOf(rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseTwo, rule.CreaseRound)
	spine, board, paper := within(20*mm, 60*mm), within(mm/2, 3*mm), within(50*units.Micrometre, 400*units.Micrometre)
	more := within(mm/10, 5*mm)
	make5 := func(form boards.Form, spine, board, paper, gap units.Length, bend rule.CreasePlace) folio.Spec {
		return closable()([]any{form, spine, board, paper, gap, bend})
	}
	p.Property("room grows with the spine", prop.ForAll(func(f boards.Form, s, b, l, g units.Length, c rule.CreasePlace, d units.Length) string {
		spec := make5(f, s, b, l, g, c)
		before, ok, bad := roomOf(spec)
		if f == boards.SoftSpine {
			return bad // has none
		}
		spec.Spine.Width += d
		after, ok2, bad2 := roomOf(spec)
		if bad+bad2 != "" || !ok || !ok2 {
			return bad + bad2 + " or stays open"
		}
		if after <= before && units.TenthMillimetres.Up(s+d) > units.TenthMillimetres.Up(s) {
			return fmt.Sprintf("a spine of %v more: %v, then %v", d, before, after)
		}
		return ""
	}, form, spine, board, paper, more, bend, more))
	p.Property("room does not shrink as the gap grows, and grows unless creased at the edge", prop.ForAll(func(f boards.Form, s, b, l, g units.Length, c rule.CreasePlace, d units.Length) string {
		spec := make5(f, s, b, l, g, c)
		before, ok, bad := roomOf(spec)
		spec.Hinge.Width += units.Millimetre + d
		after, ok2, bad2 := roomOf(spec)
		if bad+bad2 != "" || !ok || !ok2 {
			return bad + bad2 + " or stays open"
		}
		if after < before || after == before && spec.Hinge.Crease != rule.CreaseAtEdge {
			return fmt.Sprintf("a gap of %v more: %v, then %v", d, before, after)
		}
		return ""
	}, form, spine, board, paper, more, bend, more))
	p.Property("room never grows with the caliper of board or liner", prop.ForAll(func(f boards.Form, s, b, l, g units.Length, c rule.CreasePlace, d units.Length, liner bool) string {
		spec := make5(f, s, b, l, g, c)
		before, ok, bad := roomOf(spec)
		if d = min(d, mm); liner {
			spec.Liner.Caliper += d
		} else {
			spec.Board.Caliper += d
		}
		after, ok2, bad2 := roomOf(spec)
		if bad+bad2 != "" || !ok || !ok2 {
			return bad + bad2 + " or stays open"
		}
		if after > before {
			return fmt.Sprintf("%v thicker: %v, then %v", d, before, after)
		}
		return ""
	}, form, spine, board, paper, more, bend, more, gen.Bool()))
	p.Property("spine for contents: holds them, and the graduation below does not", prop.ForAll(func(contents, b, l, x units.Length, r rule.Rulers) string {
		x = min(x, b)
		w := rule.SpineFor(contents, b, l, x, r.Main)
		if bad := addUp(w); bad != "" {
			return bad
		}
		exact := units.MetricDecimal.Exact()
		if rule.ContentsFor(w.Length(), b, l, x, exact).Length() < contents {
			return "it does not hold them"
		}
		if rule.ContentsFor(w.Length()-r.Main.Step(), b, l, x, exact).Length() >= contents {
			return "a narrower one would do"
		}
		return ""
	}, within(mm, 40*mm), board, paper, more, anyRulers()))
	p.Property("workings of the closed folio add up, and agree with each other", prop.ForAll(holds(func(p *folio.Plan) string {
		c, ok := p.Closed()
		if !ok {
			return "stays open"
		}
		least, most, ok := p.ClosedRange()
		if !ok {
			return "no range"
		}
		all := []units.Working{}
		for _, c := range []folio.Closed{c, least, most} {
			all = append(all, c.Room(), c.Thickness(), c.Width(), c.Height())
			s := p.Spec()
			if s.Form != boards.ForeEdgeFlap {
				inside := c.Room().Length() + 2*s.Board.Caliper + 2*s.Liner.Caliper + 2*s.Covering.Caliper
				if p.Wrap().Quarter() {
					inside += 2 * s.SpineCovering.Caliper // where one laps the other
				}
				if d := c.Thickness().Length() - inside; d < 0 || d > 4 {
					return fmt.Sprintf("thickness %v, but the room with boards, liners and coverings makes %v", c.Thickness().Length(), inside)
				}
			}
		}
		o, _ := p.Overall(true)
		tight, _ := p.Tightest(true)
		box, _ := post.BoxFor(p, 0)
		all = append(all, o.Width(), o.Height(), o.Thickness(), tight.Stack(), tight.Room(), tight.Left(), tight.WouldDo(), box.Width(), box.Height(), box.Depth())
		for _, w := range all {
			if bad := addUp(w); bad != "" {
				return bad
			}
		}
		if box.Width().Length() < c.Width().Length() || box.Depth().Length() < c.Thickness().Length() {
			return "the box is smaller than the folio"
		}
		return ""
	}), anySpec()))
	p.Property("twice the copies weigh twice as much", prop.ForAll(func(s folio.Spec, n int, filled bool) string {
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm / 3}}}}
		s.Closing.Ease = units.None
		p, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		one, c := massOf(p, weigh.Options{Copies: n, Filled: filled, Estimate: true})
		two, c2 := massOf(p, weigh.Options{Copies: 2 * n, Filled: filled, Estimate: true})
		if two != 2*one || c != c2 || one <= 0 {
			return fmt.Sprintf("%v, then %v", one, two)
		}
		return ""
	}, anySpec(), gen.IntRange(1, 50), gen.Bool()))
	p.Property("a folio of the same design in a larger cover weighs no less", prop.ForAll(func(s folio.Spec, d units.Length) string {
		s.Covering.Sheets = nil
		p, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		s.Cover = s.Cover.Plus(d, d)
		q, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		one, _ := massOf(p, weigh.Options{Estimate: true})
		two, _ := massOf(q, weigh.Options{Estimate: true})
		if two < one {
			return fmt.Sprintf("%v, then %v", one, two)
		}
		return ""
	}, anySpec(), within(2*mm, 30*mm)))
	p.TestingRun(t)
}

// hung is a folio with n medals on each cover, in rows.
func hung(n int) folio.Spec {
	s := folio.Spec{
		Cover: units.Size{W: 200 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
	}
	for i := range n {
		panel := boards.LeftCover
		if i%2 == 1 {
			panel = boards.RightCover
		}
		k := i / 2
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: panel, Kind: folio.Ornament{Size: units.Size{W: 24 * mm, H: 24 * mm}, Thickness: mm + units.Length(i)*units.Micrometre},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(k%6) * 30 * mm, Y: units.Length(k/6) * 30 * mm}},
		})
	}
	return s
}

func BenchmarkHeightMap(b *testing.B) {
	for _, n := range []int{4, 16, 64} {
		p, err := folio.Build(hung(n))
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, ok := p.Tightest(true); !ok {
					b.Fatal("stays open")
				}
			}
		})
	}
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	b.Run("keepsake", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, ok := p.Tightest(true); !ok {
				b.Fatal("stays open")
			}
		}
	})
}

// Where another layer asks for more than what is under a flap, or between outsides, already,
// room that is added there makes no more at first: it is told how much there must be, so
// that it does at once. Of rows by chance.
func TestRoomUnderAFlapDoesAtOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 61))
	place := func(v check.Violation) string {
		_, at, _ := strings.Cut(v.Got, " too thick")
		return at
	}
	told := 0
	for i := 0; told < proptest.Cases(80) && i < 40*proptest.Cases(80); i++ {
		s, ok := rolledUp(r), true
		if i%2 == 0 {
			s, ok = crowdedRow(r)
		}
		if !ok {
			continue
		}
		v, refused := refusal(s, "closing.underflap", folio.NotClosing)
		if !refused {
			continue
		}
		told++
		s.Closing.UnderFlap = v.Limit
		if again, refused := refusal(s, "closing.underflap", folio.NotClosing); refused && place(again) == place(v) {
			t.Errorf("%v; and then %v", v, again)
		}
	}
	if told < proptest.Cases(80) {
		t.Errorf("told only %d times", told)
	}
}
