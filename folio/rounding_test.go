package folio_test

import (
	"fmt"
	"iter"
	"math/big"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Which way each size is put on which ruler, by the name of its working: what
// covers or must go round is never below what adds up, what must stay inside
// never above, and what is only measured stays as it is.
var roundedBy = map[string]struct {
	on  string // the role of the ruler, "" for none
	way units.Direction
}{
	"cover width":        {"board", units.Up},
	"cover height":       {"board", units.Up},
	"spine width":        {"board", units.Up},
	"second spine width": {"board", units.Up},
	"flap width":         {"board", units.Down}, // half of the cover
	"door width":         {"board", units.Down},
	"hinge gap":          {"gap", units.Up},
	"spine stiffener":    {},

	"wrap width":                {"wrap", units.Up},
	"wrap height":               {"wrap", units.Up},
	"side paper width":          {"wrap", units.Up},
	"spine strip width":         {"wrap", units.Up},
	"reach of the spine strip":  {"wrap", units.Up},
	"mitre distance":            {"", units.Up},
	"mitre reach":               {"wrap", units.Up},
	"mitre leg":                 {"wrap", units.Down},
	"liner width":               {"liner", units.Down},
	"liner height":              {"liner", units.Down},
	"liner panel width":         {"liner", units.Down},
	"open width":                {},
	"open height":               {},
	"open width as made":        {},
	"open height as made":       {},
	"turn-in lap at the sides":  {},
	"turn-in lap at head":       {},
	"left margin":               {"margin", units.Down},
	"right margin":              {},
	"head margin":               {"margin", units.Down},
	"tail margin":               {},
	"mat width":                 {"fitting", units.Up},
	"mat height":                {"fitting", units.Up},
	"mat width in proportion":   {"fitting", units.Down},
	"mat height in proportion":  {"fitting", units.Down},
	"ornament width":            {},
	"ornament height":           {},
	"picture width":             {"fitting", units.Down}, // of a mat; of a frame see opening
	"picture height":            {"fitting", units.Down},
	"frame opening width":       {"fitting", units.Down},
	"frame opening height":      {"fitting", units.Down},
	"frame width":               {"fitting", units.Up},
	"frame height":              {"fitting", units.Up},
	"side strip from the fra":   {"fitting", units.Down}, // both unless the window would be bared
	"far strip from the fra":    {"fitting", units.Down},
	"foam strip width":          {},
	"foam strip at the sides":   {},
	"opening ":                  {"fitting", units.Down},
	"foam strip at the far end": {},
	"film width":                {"fitting", units.Down},
	"film height":               {"fitting", units.Down},
	"width for the ":            {"fitting", units.Down}, // by relation
	"height for the ":           {"fitting", units.Down},
}

// fine is a length that is on no ruler: an odd number of nanometres.
func fine(low, high units.Length) gopter.Gen {
	return proptest.Map(gen.Int64Range(0, int64(high-low)/2-1), func(n int64) units.Length { return low + units.Length(2*n) | 1 })
}

// An unruled is a folio whose every length is off the ruler.
type unruled struct {
	form, rulers, quarter, lining, sheet, fitting int
	lengths                                       [12]units.Length
}

func anyUnruled() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, 3), gen.IntRange(0, 6), gen.IntRange(0, 2), gen.IntRange(0, 1), gen.IntRange(0, 2), gen.IntRange(0, 4),
		fine(110*mm, 200*mm), fine(150*mm, 260*mm), // cover
		fine(26*mm, 40*mm), fine(3*mm/2, 3*mm), // spine or contents, board
		fine(60*units.Micrometre, 500*units.Micrometre), fine(60*units.Micrometre, 400*units.Micrometre), // covering, liner
		fine(20*mm, 26*mm), fine(3*mm, 6*mm), // margin, inset
		fine(32*mm, 60*mm), fine(32*mm, 60*mm), fine(mm, 4*mm), // picture, reveal
		fine(0, 2*mm), // placing
	), func(v []any) unruled {
		u := unruled{form: v[0].(int), rulers: v[1].(int), quarter: v[2].(int), lining: v[3].(int), sheet: v[4].(int), fitting: v[5].(int)}
		for i := range u.lengths {
			u.lengths[i] = v[6+i].(units.Length)
		}
		return u
	})
}

// spec is the folio: no two roles have the same ruler.
func (u unruled) spec() folio.Spec {
	l := u.lengths
	all := []units.Ruler{units.Sixteenths, units.HalfMillimetres, units.ThirtySeconds, units.WholeMillimetres, units.Eighths, units.TenthMillimetres, units.SixtyFourths}
	r := func(n int) units.Ruler { return all[(u.rulers+n)%len(all)] }
	s := folio.Spec{
		Form:  []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate, boards.SoftSpine}[u.form],
		Cover: units.Size{W: l[0], H: l[1]}, Spine: rule.Spine{Width: l[2]},
		Board: stock.Stock{Caliper: l[3]}, Covering: stock.Stock{Caliper: l[4]}, Liner: stock.Stock{Caliper: l[5]},
		Hinge: rule.Hinge{Width: 3*l[3] + 2}, Margin: rule.Margin{Ideal: l[6], Least: l[6] - 5*mm - l[11]/4, Tolerated: l[6] - 5*mm - l[11]/2},
		Lining: rule.Lining{Inset: l[7]}, Mitre: rule.Mitre{Rule: rule.MitreOneAndHalfCalipers},
		Rulers:  rule.Rulers{Main: r(0), Board: r(1), Gap: r(2), Wrap: r(3), Liner: r(4), Fitting: r(5)},
		Quarter: rule.Quarter{Rule: []rule.QuarterRule{rule.QuarterNever, rule.QuarterNever, rule.QuarterAlways}[u.quarter]},
		Placing: l[11] / 2, Closing: closing.Allowance{Ease: units.None},
		Stocks: []stock.Stock{{Name: "film", Caliper: mm / 10}},
	}
	if u.lining == 1 {
		s.Lining.Rule = rule.LiningPanels
	}
	if u.fitting == 4 {
		// Built around a block, for covers as wide and as high.
		s.Block = boards.Block{Page: units.Size{W: l[0], H: l[1]}, Thickness: 4*mm + l[11], Square: 3*mm + l[11], Setback: l[10]}
		s.Cover, s.Spine = units.Size{}, rule.Spine{Contents: l[2]}
	}
	if s.Form == boards.SoftSpine {
		s.Spine, s.Hinge = rule.Spine{Contents: l[2]}, rule.Hinge{}
	}
	if u.sheet > 0 {
		// A sheet that leaves less than the ideal, whose sides are off the ruler too.
		side := openOf(s).Grow(l[6] - 5*mm)
		s.Covering.Sheets = []stock.Sheet{{Size: side, Grain: stock.GrainAlongHeight}}
		if u.sheet == 2 {
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: side.W, H: side.H + 40*mm}, Grain: stock.GrainAlongHeight}}
		}
	}
	print := pocket.Content{Name: "print", Size: units.Size{W: l[8], H: l[9]}, Thickness: mm / 5}
	by := place.Relation{Of: place.OfPanel, Less: l[10], Shares: 2}
	s.Fittings = []folio.Fitting{
		{Name: "mat", Kind: folio.Mat{Picture: print, Reveal: l[10]}, Place: place.Place{Along: place.Head}},
		{Name: "frame", Kind: folio.Frame{Picture: print, Film: "film", Mouth: 1 << (u.rulers % 2), Ease: l[10] / 2, Lap: 2*mm + l[10]/4}, Place: place.Place{Along: place.Tail}},
	}
	shared := folio.Fitting{Name: "shared", Panel: s.Form.Roles()[0], Kind: folio.Mat{}}
	switch in := (place.Proportions{W: 3, H: 2 + u.rulers}); u.fitting {
	case 0:
		shared.Kind, shared.Size = folio.Mat{Reveal: l[10], Picture: pocket.Content{Name: "other"}}, place.Sizing{W: by, H: by}
	case 1:
		shared.Size = place.Sizing{W: by, Proportions: in}
	case 2:
		shared.Size = place.Sizing{H: by, Proportions: in}
	case 3:
		shared.Kind, shared.Size = folio.Frame{Rail: 11*mm + l[10]/2, Picture: pocket.Content{Name: "other"}}, place.Sizing{W: by, H: by}
	case 4:
		shared.Kind = folio.Mat{Size: units.Size{W: l[8] / 2, H: l[9] / 2}}
	}
	s.Fittings = append(s.Fittings, shared)
	return s
}

// onRuler puts a sum over n on a ruler of so many nanometres, by rational numbers.
func onRuler(sum units.Length, n int, step units.Length, way units.Direction) units.Length {
	over := big.NewInt(int64(n) * int64(step))
	q, rest := new(big.Int).DivMod(big.NewInt(int64(sum)), over, new(big.Int)) // rest >= 0: rounded down
	if way == units.Up && rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return units.Length(q.Int64()) * step
}

func TestEachSizeIsRoundedItsWay(t *testing.T) {
	seen := map[string]int{} // off the ruler
	refused := 0
	proptest.Run(t, 400, func(props *gopter.Properties) {
		props.Property("each size goes its way", prop.ForAll(func(u unruled) string {
			s := u.spec()
			p, err := folio.Build(s)
			if err != nil {
				refused++
				return ""
			}
			for w := range p.Workings() {
				if bad := goesItsWay(p, w, seen); bad != "" {
					return bad
				}
			}
			for _, c := range p.Wrap().Corners() {
				for _, w := range []units.Working{c.Leg(), c.Reach()} {
					if bad := goesItsWay(p, w, seen); bad != "" {
						return bad
					}
				}
			}
			return ""
		}, anyUnruled()))
	})
	t.Log(refused, seen)
	for label, by := range roundedBy {
		if by.way != units.Nearest && seen[label] == 0 && by.on != "" {
			t.Errorf("%s was never off the ruler", label)
		}
	}
	if refused > proptest.Cases(400)/4 {
		t.Errorf("%d are refused", refused)
	}
}

// goesItsWay says what is wrong with how a working was rounded.
func goesItsWay(p *folio.Plan, w units.Working, seen map[string]int) string {
	r, s := p.Spec().Rulers, p.Spec()
	label := ""
	for l := range roundedBy {
		if strings.HasPrefix(w.Label(), l) && len(l) > len(label) {
			label = l
		}
	}
	by, ok := roundedBy[label]
	if !ok {
		return fmt.Sprintf("nobody says how this is rounded: %v", w)
	}
	var sum units.Length
	first, edge := "", false
	for t := range w.Terms() {
		edge = edge || t.Label == "margin"
		sum += units.Length(t.Count) * t.Length
		if first == "" {
			first = t.Label
		}
	}
	step := units.Nanometre
	switch {
	case by.on == "board" && (label == "flap width" || label == "door width") && first == "as given":
		step, by.way = r.Board.Step(), units.Up
	case by.on == "board":
		step = r.Board.Step()
	case by.on == "gap":
		step = r.Gap.Step()
	case label == "side paper width" && p.Wrap().Across().Near().Length()%r.Wrap.Step() != 0 && edge:
		by.way = units.Nearest // its margin, which keeps a bound off the ruler, would be less
	case first == "sheet", label == "wrap width" && p.Wrap().Quarter():
		by.way = units.Nearest // the sheet's own side needs no cut
	case by.on == "wrap", by.on == "margin":
		step = r.Wrap.Step()
	case by.on == "liner":
		step = r.Liner.Step()
	case by.on == "fitting":
		step = r.Fitting.Step()
	}
	if w.Label() == "mitre reach as cut" {
		step = units.Nanometre
	}
	if strings.Contains(label, "strip from the fra") && w.Length()%step != 0 {
		step = units.Nanometre // TestStripsOfAFrame says where that must be
		if label[0] == 'f' && w.Length() == onRuler(sum, w.Shares(), step, units.Up) {
			by.way = units.Up // the half nanometre goes to the end that has more: TestFarStripJustLapped
		}
	}
	if first == "opening" && strings.HasPrefix(label, "picture") {
		by.way = units.Up // a frame's picture is lapped as much as is asked for
	}
	if by.on == "margin" {
		// Half of both margins, down where that keeps what the half keeps, else up
		// where the other then does, else as it is; and what was shared out.
		half := onRuler(sum, w.Shares(), units.Nanometre, units.Down)
		keeps := func(m units.Length) bool {
			for _, least := range []units.Length{s.Margin.Least, s.Margin.Tolerated} {
				if half >= least && m < least {
					return false
				}
			}
			return true
		}
		switch {
		case w.Shares() == 1, !keeps(onRuler(half, 1, step, units.Down)) && !keeps(sum-onRuler(half, 1, step, units.Up)):
			step = units.Nanometre
		case !keeps(onRuler(half, 1, step, units.Down)):
			by.way = units.Up
		}
	}
	if sum%(step*units.Length(w.Shares())) != 0 {
		seen[label]++
	}
	if want := onRuler(sum, w.Shares(), step, by.way); w.Length() != want {
		return fmt.Sprintf("%v\nis not %v, its terms in steps of %v", w, want, step)
	}
	return ""
}

// A row whose widths are put on the ruler beforehand is the same row: nothing goes by
// a width that no board has.
func TestWidthsOfARowOnTheRuler(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	same := 0
	for range proptest.Cases(600) {
		s := anyRow(r)
		s.Rulers.Board = []units.Ruler{units.WholeMillimetres, units.Sixteenths}[r.Intn(2)]
		s.Spine.Contents |= 1
		on := s
		on.Row.Boards = slices.Clone(s.Row.Boards)
		for i := range s.Row.Boards {
			b := &s.Row.Boards[i]
			if b.Role.Spine() && r.Intn(2) == 0 {
				b.Width = 14*mm + units.Length(r.Int63n(int64(30*mm)))
			}
			on.Row.Boards[i].Width = onRuler(b.Width, 1, s.Rulers.Board.Step(), units.Up)
		}
		p, err := folio.Build(s)
		q, other := folio.Build(on)
		if err != nil || other != nil {
			if (err == nil) != (other == nil) {
				t.Errorf("%v: %v; on the ruler: %v", s.Row, err, other)
			}
			continue
		}
		same++
		if d := samePieces(p, q); d != "" {
			t.Errorf("%v: %s", s.Row, d)
		}
		if d := cmp.Diff(slices.Collect(widths(p)), slices.Collect(widths(q))); d != "" {
			t.Errorf("%v: %s", s.Row, d)
		}
	}
	if same < proptest.Cases(100) {
		t.Errorf("only %d rows shut", same)
	}
}

// widths walks boards and gaps.
func widths(p *folio.Plan) iter.Seq[units.Length] {
	return func(yield func(units.Length) bool) {
		for b := range p.Boards() {
			if !yield(b.Size().W) {
				return
			}
		}
		for g := range p.Gaps() {
			if !yield(g.Width()) {
				return
			}
		}
	}
}

// In quarter style every piece comes out of its sheets, whatever those are: the
// margins are never below what is tolerated, and a step of the ruler more would
// need a larger sheet or be more than the ideal.
func TestQuarterOutOfItsSheets(t *testing.T) {
	limited := map[string]int{}
	proptest.Run(t, 300, func(props *gopter.Properties) {
		props.Property("pieces come out of their sheets", prop.ForAll(func(u unruled) string {
			u.form, u.quarter, u.sheet, u.fitting = u.form%2, 2, 0, 4
			s := u.spec()
			s.Fittings = nil
			s.SpineCovering = stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper}
			s.Margin.Least, s.Margin.Tolerated = s.Margin.Ideal-6*mm, s.Margin.Ideal-10*mm
			free, err := folio.Build(s)
			if err != nil {
				return ""
			}
			// Sheets of both that are a little too small for the ideal.
			var paper, strip units.Size
			for w := range free.Wrap().Pieces() {
				if size := w.Piece().Size(); w.Strip() {
					strip = strip.Max(size)
				} else {
					paper = paper.Max(size)
				}
			}
			short := func(n int) units.Length { return u.lengths[n]%(7*mm) | 1 }
			paper.W, paper.H, strip.H = paper.W-short(0), paper.H-2*short(1)+u.lengths[5]%2, strip.H-2*short(8)
			s.Covering.Sheets = []stock.Sheet{{Size: paper, Grain: stock.GrainAlongHeight}}
			s.SpineCovering.Sheets = []stock.Sheet{{Size: strip, Grain: stock.GrainAlongHeight}}
			p, err := folio.Build(s)
			if err != nil {
				return err.Error()
			}
			step := s.Rulers.Wrap.Step()
			m := p.Wrap().Across().Near().Length()
			if m != p.Wrap().Across().Far().Length() {
				return "the ends have unlike margins"
			}
			wide := units.Length(0)
			for w := range p.Wrap().Pieces() {
				size, sheet := w.Piece().Size(), paper
				if w.Strip() {
					sheet = strip
				} else {
					wide = max(wide, size.W)
				}
				if !size.FitsIn(sheet) {
					return fmt.Sprintf("%s of %v comes out of no sheet of %v", w.Piece().Name(), size, sheet)
				}
			}
			ideal := onRuler(s.Margin.Ideal, 1, step, units.Up)
			along := p.Wrap().Along()
			for what, m := range map[string]units.Length{"ends": m, "head": along.Near().Length(), "tail": along.Far().Length()} {
				if m < s.Margin.Tolerated || m > ideal+step {
					return fmt.Sprintf("a margin of %v at the %s", m, what)
				}
			}
			// Each axis with less than the usual least is told.
			told, least := 0, 0
			for w := range p.Warnings() {
				if w.Code == folio.WarnMargin {
					told++
				}
			}
			for _, m := range []units.Length{m, along.Smaller()} {
				if m < s.Margin.Least {
					least++
				}
			}
			if told != least {
				return fmt.Sprintf("%d margins are below the usual least, %d are told", least, told)
			}
			if end := p.Wrap().Across(); (end.LimitedBy() == rule.LimitSheet) != (m < ideal) {
				return fmt.Sprintf("margins of %v at the ends, for %v: %v", m, ideal, end.LimitedBy())
			}
			if m < ideal {
				if limited["ends"]++; wide+2*step <= paper.W {
					return fmt.Sprintf("papers %v wide with margins of %v out of sheets of %v", wide, m, paper.W)
				}
			}
			if high := along.Blank().Length(); along.LimitedBy() == rule.LimitSheet {
				if limited["head"]++; high != min(paper.H, strip.H) {
					return fmt.Sprintf("%v high out of sheets of %v and %v", high, paper.H, strip.H)
				}
			}
			return ""
		}, anyUnruled()))
	})
	if limited["ends"] < proptest.Cases(50) || limited["head"] < proptest.Cases(50) {
		t.Errorf("limited too seldom: %v", limited)
	}
}

// Magnets lie within their board by the inset and half of what they are across, not
// less, evenly from head to tail, to the nearest graduation; and no more of them are asked for
// than go one below the other.
func TestMagnetsToTheNanometre(t *testing.T) {
	for n := range units.Length(40) {
		s := unruledCase(int(n))
		flapped(&s)
		s.Cover.H += 1009 * n
		s.Rulers.Board = everyNanometre
		if n%2 > 0 {
			s.Rulers.Main = everyNanometre
		}
		s.Magnets = closing.Magnets{Diameter: 6*mm + n, Thickness: mm, Pairs: 3 + int(n%4), Inset: 5*mm + n/3}
		p := mustBuild(t, s)
		f, ok := p.Magnets()
		if !ok {
			t.Fatal("no magnets")
		}
		high := p.OpenHeight().Length()
		k := units.Length(0)
		for m := range f.Places() {
			at := m.Middle()
			if flap, _ := p.Board(boards.Flap); m.Panel() == boards.Flap {
				if in := min(at.X-flap.Rect().Min.X, flap.Rect().Max.X-at.X) - s.Magnets.Inset; 2*in < s.Magnets.Diameter || 2*in > s.Magnets.Diameter+1 {
					t.Errorf("a magnet %d across lies %d in from its inset", s.Magnets.Diameter, in)
				}
			}
			pairs := units.Length(s.Magnets.Pairs)
			step := s.Rulers.Main.Step() // the nearest graduation, or a hand could not measure it
			if off := 2*pairs*at.Y - (2*(k/2)+1)*high; off.Abs() > pairs*step || at.Y%step != 0 {
				t.Errorf("pair %d of %d at %d of %d", k/2, pairs, at.Y, high)
			}
			k++
		}
		s.Magnets.Diameter = high
		if v, ok := refusal(s, "magnets.diameter", check.TooLarge); !ok || v.Limit*units.Length(s.Magnets.Pairs) > high || (v.Limit+1)*units.Length(s.Magnets.Pairs) <= high {
			t.Errorf("%d magnets one below the other on %d: %v, at most %d", s.Magnets.Pairs, high, ok, v.Limit)
		}
	}
}

// A given length that goes on the ruler is told of by its field, from what and to what;
// what is refused is told as it was given.
func TestGivenSizesAreToldWhenMoved(t *testing.T) {
	mils := func(n units.Length) units.Length { return n * units.Millimetre / 10 }
	s := folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Margin:   rule.Margin{Ideal: mils(204)},
		Fittings: []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: mils(503), H: mils(604)}}}},
	}
	got := map[string][2]units.Length{}
	for w := range mustBuild(t, s).Warnings() {
		if w.Code == folio.WarnRuler {
			got[w.Path] = [2]units.Length{w.Got, w.Want}
		}
	}
	for path, want := range map[string][2]units.Length{
		"margin.ideal":            {mils(204), 21 * mm},
		"fittings[0].kind.size.w": {mils(503), 51 * mm},
		"fittings[0].kind.size.h": {mils(604), 61 * mm},
	} {
		if got[path] != want {
			t.Errorf("%s: moved %v, want %v", path, got[path], want)
		}
	}
	s.Margin, s.Fittings, s.Hinge.Width = rule.Margin{}, nil, units.Inch/64
	_, err := folio.Build(s)
	if bad, ok := err.(*check.Error); !ok || !strings.Contains(bad.Error(), "got 0.396875 mm") {
		t.Errorf("a hinge of 1/64 in: %v", err)
	}
	s.Form, s.Cover, s.Spine.Width, s.Hinge.Width, s.FlapWidth = boards.TwoFlaps, units.Size{W: 187 * mm, H: 148 * mm}, 38*mm, 0, mils(2)
	if _, err = folio.Build(s); err == nil || strings.Contains(err.Error(), "row.") || !strings.Contains(err.Error(), "flapwidth") {
		t.Errorf("two flaps of 0.2 mm: %v", err)
	}
}
