package folio_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// runs returns the settings of every property here: 1,500 cases.
func runs() *gopter.Properties { return gopter.NewProperties(proptest.Parameters(1500)) }

// within generates a length between two, in steps of a quarter millimetre or
// of 1/64 in, so that some are on the ruler and some are not.
func within(low, high units.Length) gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.Int64Range(0, 1_000_000), gen.Bool()), func(v []any) units.Length {
		step := units.Length(250 * units.Micrometre)
		if v[1].(bool) {
			step = units.Inch / 64
		}
		l := low + units.Length(v[0].(int64))*(high-low)/1_000_000
		return min(max(l-l%step, low), high)
	})
}

func oneOf[T any](list ...T) gopter.Gen {
	return proptest.Map(gen.IntRange(0, len(list)-1), func(i int) T { return list[i] })
}

func anyRulers() gopter.Gen {
	one := oneOf(units.Eighths, units.Sixteenths, units.ThirtySeconds, units.SixtyFourths, units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres)
	return proptest.Map(gopter.CombineGens(one, one, gen.Bool()), func(v []any) rule.Rulers {
		r := rule.Rulers{Main: v[0].(units.Ruler)}
		if v[2].(bool) {
			r.Wrap, r.Gap = v[1].(units.Ruler), v[1].(units.Ruler)
		}
		return r
	})
}

const mm = units.Millimetre

// anySpec generates a folio that can be made, by construction: margins that
// the boards leave room for, an inset that the turn-in reaches, a hinge rule
// that closes.
func anySpec() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		oneOf(boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate), // 0
		within(90*mm, 320*mm), within(90*mm, 320*mm), // 1, 2 cover
		within(14*mm, 60*mm), // 3 spine or contents
		within(mm/2, 3*mm),   // 4 board
		within(50*units.Micrometre, 400*units.Micrometre),                          // 5 covering and liner
		oneOf(rule.HingeTwoCalipers, rule.HingeFlatBackGroove, rule.HingeShoulder), // 6
		within(12*mm, 20*mm), within(0, 6*mm), // 7 tolerated margin, 8 more for each bound
		within(mm, 6*mm), // 9 inset
		oneOf(rule.MitreOneAndHalfCalipers, rule.MitreEighth), // 10
		anyRulers(), // 11
		oneOf(rule.LiningAuto, rule.LiningPanels),                       // 12
		oneOf(rule.QuarterNever, rule.QuarterNever, rule.QuarterAlways), // 13
		gen.IntRange(0, 3), within(0, 30*mm), // 14 sheets, 15 what they leave
	), func(v []any) folio.Spec {
		length := func(i int) units.Length { return v[i].(units.Length) }
		s := folio.Spec{
			Form:     v[0].(boards.Form),
			Cover:    units.Size{W: length(1), H: length(2)},
			Board:    stock.Stock{Caliper: length(4)},
			Covering: stock.Stock{Caliper: length(5)},
			Liner:    stock.Stock{Caliper: length(5)},
			Hinge:    rule.Hinge{Rule: v[6].(rule.HingeRule)},
			Margin:   rule.Margin{Tolerated: length(7), Least: length(7) + length(8)/2, Ideal: length(7) + length(8)},
			Lining:   rule.Lining{Inset: length(9), Rule: v[12].(rule.LiningRule)},
			Mitre:    rule.Mitre{Rule: v[10].(rule.MitreRule)},
			Rulers:   v[11].(rule.Rulers),
			Quarter:  rule.Quarter{Rule: v[13].(rule.QuarterRule)},
		}
		if s.Mitre.Rule == rule.MitreEighth && s.Board.Caliper > 2*mm {
			s.Board.Caliper = 2 * mm // 1/8 in reaches 4.49 mm, enough for this
		}
		if s.Mitre.Rule == rule.MitreOneAndHalfCalipers && s.Covering.Caliper > s.Board.Caliper {
			s.Covering.Caliper = s.Board.Caliper // 1.5 t reaches 2.12 t
		}
		if s.Form == boards.ForeEdgeFlap && s.Covering.Caliper > s.Board.Caliper/3 {
			// Else the front cover's fore edge meets the second spine: a gap of two
			// boards must take one with its liner and two coverings.
			s.Covering.Caliper = max(s.Board.Caliper/3, 50*units.Micrometre)
		}
		s.Liner.Caliper = s.Covering.Caliper
		if s.Form == boards.SoftSpine {
			s.Hinge.Rule = rule.HingeRoundContents
			s.Spine.Contents = length(3)
		} else {
			s.Spine.Width = length(3)
		}
		if v[14].(int) > 0 && s.Quarter.Rule == rule.QuarterNever {
			// A sheet with what the tolerated margin needs and some more; the
			// open size is at most that of five boards and four gaps, so it is
			// taken from a plan without sheets.
			open := openOf(s)
			side := open.Grow(s.Margin.Tolerated + length(15)/2)
			sheet := stock.Sheet{Size: side}
			if v[14].(int) == 2 {
				sheet = stock.Sheet{Size: side.Turned(), Grain: stock.GrainAlongWidth}
			}
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 50 * mm, H: 50 * mm}}, sheet}
		}
		return s
	})
}

func openOf(s folio.Spec) units.Size {
	p, err := folio.Build(s)
	if err != nil {
		panic(fmt.Sprintf("the generator made a folio that cannot be made: %v", err))
	}
	return units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
}

// holds runs the checks of a built plan and names the first that fails.
func holds(check func(*folio.Plan) string) func(folio.Spec) string {
	return func(s folio.Spec) string {
		p, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		return check(p)
	}
}

func TestCaseProperties(t *testing.T) {
	p := runs()
	p.Property("liner: smaller than the cover on both axes, laps every turn-in", prop.ForAll(holds(func(p *folio.Plan) string {
		// From sizes alone: where the liner's edge lies, as it was cut, and
		// where the turn-in ends.
		spec := p.Spec()
		open := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
		var widest units.Size
		for l := range p.Liner() {
			if l.Size().W >= open.W || l.Size().H >= open.H {
				return "liner not smaller than the cover"
			}
			widest = widest.Max(l.Size())
		}
		inset := units.Size{W: (open.W - widest.W) / 2, H: (open.H - widest.H) / 2}
		if p.LiningStyle() == rule.LiningPanels {
			first, _ := p.Board(spec.Form.Roles()[0])
			for l := range p.Liner() {
				inset.W = (first.Size().W - l.Size().W) / 2
				break
			}
		}
		t, c := spec.Board.Caliper, spec.Covering.Caliper
		for i, a := range []folio.Extent{p.Wrap().Across(), p.Wrap().Along()} {
			for _, m := range []units.Length{a.Near().Length(), a.Far().Length()} {
				if m-t-c <= []units.Length{inset.W, inset.H}[i] {
					return "a turn-in ends outside the liner"
				}
			}
		}
		sides, ends := p.TurnInLap()
		if sides.Length() <= 0 || ends.Length() <= 0 {
			return "no lap"
		}
		return ""
	}), anySpec()))
	p.Property("wrap: at least the boards and twice the tolerated margin", prop.ForAll(holds(func(p *folio.Plan) string {
		need := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}.Grow(p.Spec().Margin.Tolerated)
		if !need.FitsIn(p.Wrap().Size()) {
			return fmt.Sprintf("wrap %v, needs %v", p.Wrap().Size(), need)
		}
		return ""
	}), anySpec()))
	p.Property("boards, gaps and margins tile the wrap exactly", prop.ForAll(holds(func(p *folio.Plan) string {
		x := p.Wrap().Across().Near().Length()
		var gaps []units.Length
		for g := range p.Gaps() {
			gaps = append(gaps, g.Width())
		}
		i := 0
		for b := range p.Boards() {
			at, ok := p.OnWrap(b.Role())
			if !ok || at.Min.X != x {
				return "the " + b.Role().String() + " does not begin where the gap before it ends"
			}
			x += b.Size().W
			if i < len(gaps) {
				x += gaps[i]
			}
			i++
			if at.Min.Y != p.Wrap().Along().Near().Length() || at.Max.Y+p.Wrap().Along().Far().Length() != p.Wrap().Size().H {
				return "the height is not tiled"
			}
		}
		if x+p.Wrap().Across().Far().Length() != p.Wrap().Size().W {
			return "the width is not tiled"
		}
		return ""
	}), anySpec()))
	p.Property("the wrap comes out of its sheet; quarter-style pieces cover the whole", prop.ForAll(holds(func(p *folio.Plan) string {
		w := p.Wrap()
		if sheet, _, ok := w.Source(); ok && !w.Size().FitsIn(sheet) {
			return "the wrap is larger than its sheet"
		}
		covered := units.Length(0)
		var ends []units.Rect
		for pc := range w.Pieces() {
			ends = append(ends, units.RectAt(units.Point{X: pc.X()}, pc.Piece().Size()))
		}
		for range ends {
			for _, r := range ends {
				if r.Min.X <= covered {
					covered = max(covered, r.Max.X)
				}
			}
		}
		if covered != w.Size().W {
			return fmt.Sprintf("covered up to %v of %v", covered, w.Size().W)
		}
		return ""
	}), anySpec()))
	p.Property("rounding breaks no rule: boards and gaps not below, liner not above what was asked for", prop.ForAll(holds(func(p *folio.Plan) string {
		s := p.Spec()
		for b := range p.Boards() {
			switch b.Role() {
			case boards.LeftCover, boards.RightCover, boards.Back:
				if b.Size().W < s.Cover.W || b.Size().H < s.Cover.H {
					return "a board is smaller than asked for"
				}
			case boards.Spine1:
				if b.Size().W < s.Spine.Width {
					return "the spine is smaller than asked for"
				}
			}
		}
		for g := range p.Gaps() {
			// A published gap need not take the turn-ins, which is said.
			if g.Width() < g.Least() && !warned(p, folio.WarnHingeEnds) {
				return "a gap does not close"
			}
			if g.Width() < g.Planned().Rounded().From {
				return "a gap was rounded down"
			}
		}
		for l := range p.Liner() {
			if l.Width().Length() > l.Width().Rounded().From || l.Height().Length() > l.Height().Rounded().From {
				return "a liner was rounded up"
			}
		}
		for _, c := range p.Wrap().Corners() {
			if c.Reach().Length() < c.Edge() {
				return "a corner is bare"
			}
		}
		return ""
	}), anySpec()))
	p.Property("refitting with the nominal size changes nothing", prop.ForAll(holds(func(p *folio.Plan) string {
		q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length(), Height: p.OpenHeight().Length()})
		if err != nil {
			return err.Error()
		}
		return samePieces(p, q)
	}), anySpec()))
	p.Property("refitting leaves boards and wrap alone, and the liner follows the measure", prop.ForAll(func(s folio.Spec, more units.Length) string {
		p, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + more, Height: p.OpenHeight().Length() + more/2})
		if err != nil {
			short := func(a folio.Extent, more units.Length) bool { return a.Smaller()-(more+1)/2 < s.Margin.Tolerated }
			if refusedWith(err, "", folio.MarginSmall) && (short(p.Wrap().Across(), more) || short(p.Wrap().Along(), more/2)) {
				return "" // the wrap no longer reaches, which is for the maker to hear
			}
			return err.Error()
		}
		if p.Wrap().Size() != q.Wrap().Size() {
			return "the wrap changed"
		}
		for b := range p.Boards() {
			if c, _ := q.Board(b.Role()); c.Size() != b.Size() {
				return "a board changed"
			}
		}
		inset := s.Lining.Inset
		for l := range q.Liner() {
			if l.Size().H > q.OpenHeight().Length()-2*inset || l.Size().H+p.Spec().Rulers.Liner.Step() <= q.OpenHeight().Length()-2*inset {
				return "the liner's height does not follow the measure"
			}
		}
		return ""
	}, anySpec(), within(0, 5*mm)))
	p.TestingRun(t)
}

// Filling in the defaults, once or twice, and building from what a plan says
// of its Spec make the same folio; None stays nothing.
func TestDefaultsFilledIn(t *testing.T) {
	p := runs()
	p.Property("WithDefaults changes no piece", prop.ForAll(func(s folio.Spec, flush bool) string {
		if flush {
			s.Block = boards.Block{Page: s.Cover, Square: units.None}
			s.Cover = units.Size{}
			s.DoorGap = 0
			if s.Form == boards.DoubleSpineGate {
				s.DoorGap = units.None
			}
			s.Closing.Ease = units.None
			s.Covering.Sheets = nil // they were cut for the other size
		}
		a, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		for _, again := range []folio.Spec{s.WithDefaults(), s.WithDefaults().WithDefaults(), a.Spec()} {
			b, err := folio.Build(again)
			if err != nil {
				return err.Error()
			}
			if d := samePieces(a, b); d != "" {
				return d
			}
		}
		return ""
	}, anySpec(), gen.Bool()))
	p.TestingRun(t)
}

type listed struct {
	Name, Part string
	Size       units.Size
	Quantity   int
}

func list(p *folio.Plan) []listed {
	var out []listed
	for pc := range p.Pieces() {
		out = append(out, listed{pc.Name(), pc.Part(), pc.Size(), pc.Quantity()})
	}
	return out
}

func samePieces(p, q *folio.Plan) string { return cmp.Diff(list(p), list(q)) }

// With no limit of sheets, or one sheet that lies one way, a larger cover has
// no smaller piece. (With several it may come out of another one, where the
// margins are limited otherwise.)
func TestLargerCover(t *testing.T) {
	p := runs()
	p.Property("larger cover: no piece smaller", prop.ForAll(func(s folio.Spec, w, h units.Length) string {
		s.Covering.Sheets = nil
		larger := s
		larger.Cover.W += w
		larger.Cover.H += h
		small, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		large, err := folio.Build(larger)
		if err != nil {
			return err.Error()
		}
		a, b := list(small), list(large)
		if len(a) != len(b) {
			// Boards of equal width are one entry; a flap may come to equal
			// a cover or cease to.
			return ""
		}
		for i := range a {
			if a[i].Name == b[i].Name && !a[i].Size.FitsIn(b[i].Size) {
				return fmt.Sprintf("%s: %v becomes %v", a[i].Name, a[i].Size, b[i].Size)
			}
		}
		return ""
	}, anySpec(), within(0, 40*mm), within(0, 40*mm)))
	p.Property("larger cover: no smaller wrap from one sheet", prop.ForAll(func(s folio.Spec, w units.Length) string {
		s.Quarter.Rule = rule.QuarterNever
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 2400 * mm, H: 2400 * mm}, Grain: stock.GrainAlongHeight}}
		open := openOf(s)
		s.Covering.Sheets[0].Size.W = open.W + 2*s.Margin.Ideal + 4*mm
		larger := s
		larger.Cover.W += min(w, s.Margin.Ideal-s.Margin.Tolerated)
		small, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		large, err := folio.Build(larger)
		if err != nil {
			return "" // too wide by now, which another test holds
		}
		if !small.Wrap().Size().FitsIn(large.Wrap().Size()) {
			return fmt.Sprintf("wrap %v becomes %v", small.Wrap().Size(), large.Wrap().Size())
		}
		return ""
	}, anySpec(), within(0, 40*mm)))
	p.TestingRun(t)
}

// The twin of a Spec on another ruler differs by no more than what both rulers
// round: one step for every length that goes into a size.
func TestTwins(t *testing.T) {
	p := runs()
	p.Property("inch and metric twins differ by no more than the rulers", prop.ForAll(func(s folio.Spec) string {
		s.Covering.Sheets = nil
		inch, metric := s, s
		inch.Rulers = rule.Rulers{Main: units.SixtyFourths}
		metric.Rulers = rule.Rulers{Main: units.HalfMillimetres}
		a, err := folio.Build(inch)
		if err != nil {
			return err.Error()
		}
		b, err := folio.Build(metric)
		if err != nil {
			return err.Error()
		}
		// Five boards, four gaps, two margins and the piece itself, each
		// rounded once.
		const most = 12
		allowed := most * (units.SixtyFourths.Step() + units.HalfMillimetres.Step())
		x, y := list(a), list(b)
		if len(x) != len(y) {
			return ""
		}
		for i := range x {
			if (x[i].Size.W-y[i].Size.W).Abs() > allowed || (x[i].Size.H-y[i].Size.H).Abs() > allowed {
				return fmt.Sprintf("%s: %v and %v", x[i].Name, x[i].Size, y[i].Size)
			}
		}
		// A cover is rounded once on each ruler.
		ca, _ := a.Board(boards.MainPanel)
		cb, _ := b.Board(boards.MainPanel)
		if (ca.Size().W - cb.Size().W).Abs() > max(units.SixtyFourths.Step(), units.HalfMillimetres.Step()) {
			return "the covers differ by more than a ruler step"
		}
		return ""
	}, anySpec()))
	p.TestingRun(t)
}

// Every working adds up: terms, shares, rounding; and its line shows its
// result.
func TestWorkingsAddUp(t *testing.T) {
	p := runs()
	p.Property("workings add up", prop.ForAll(holds(func(p *folio.Plan) string {
		n := 0
		for w := range p.Workings() {
			n++
			if s := addUp(w); s != "" {
				return s
			}
		}
		if n < 12 {
			return fmt.Sprintf("only %d workings", n)
		}
		for pc := range p.Pieces() {
			for _, w := range []units.Working{pc.Width(), pc.Height()} {
				if s := addUp(w); s != "" {
					return pc.Name() + ": " + s
				}
			}
		}
		return ""
	}), anySpec()))
	p.TestingRun(t)

	for _, s := range furnished() {
		plan, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for w := range plan.Workings() {
			if s := addUp(w); s != "" {
				t.Error(s)
			}
		}
	}
}

// addUp adds a working up again and says what does not agree.
func addUp(w units.Working) string {
	sum, terms := units.Length(0), 0
	for t := range w.Terms() {
		sum += units.Length(t.Count) * t.Length
		terms++
		if t.Label == "" {
			return fmt.Sprintf("%q has a term without a label", w)
		}
	}
	r := w.Rounded()
	if terms == 0 || w.Label() == "" {
		return fmt.Sprintf("%q has no terms or no label", w)
	}
	if d := sum - units.Length(w.Shares())*r.From; d.Abs() >= units.Length(w.Shares()) {
		return fmt.Sprintf("%q: the terms make %v", w, sum)
	}
	if r.Ruler.Round(r.From, r.Direction).To != r.To || w.Length() != r.To {
		return fmt.Sprintf("%q is not rounded as it says", w)
	}
	return ""
}

// furnished are folios with every kind of fitting.
func furnished() []folio.Spec {
	s := withStrip(
		folio.Fitting{Name: "strip", Panel: boards.LeftCover, Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")},
		folio.Fitting{Name: "mat", StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize("3 1/2 x 5 3/4 in")}},
		folio.Fitting{Kind: folio.Frame{Picture: pocket.Content{Size: units.MustParseSize("3 1/2 x 5 in"), Thickness: 260 * units.Micrometre}, Film: "acetate", Mouth: 2}},
		folio.Fitting{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: mm}},
	)
	s.Stocks = []stock.Stock{{Name: "acetate", Caliper: 100 * units.Micrometre}}
	metric := s
	metric.Rulers.Main = units.WholeMillimetres
	metric.Cover.H = 160 * mm // 152.4 mm of strip on a liner of 153 mm
	return []folio.Spec{s, metric}
}

// The same Spec gives the same plan, step by step.
func TestSameSpecSameBytes(t *testing.T) {
	text := func(s folio.Spec) string {
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		out := ""
		for w := range p.Workings() {
			out += w.String() + "\n"
		}
		for s := range p.Steps() {
			out += fmt.Sprintln(s)
		}
		for w := range p.Warnings() {
			out += w.String() + "\n"
		}
		return out
	}
	for _, s := range furnished() {
		want := text(s)
		for range 5 {
			if got := text(s); got != want {
				t.Fatal(cmp.Diff(want, got))
			}
		}
	}
}
