package folio_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func good() folio.Spec {
	return folio.Spec{Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: units.Inch}}
}

// Every bad field is refused at its own path, with what would do, without a plan, and
// what is not bad is not.
func TestRefused(t *testing.T) {
	// What is wrong with a folio besides, and what is told of each of two pieces or sides.
	also := map[string]string{
		"covering as thick as a house": "mitre.rule", "boards as thick as a house": "mitre.rule", "margin below caliper": "mitre.rule", "turn-ins meet": "margin.ideal",
		"empty sheet": "covering.sheets[0].size.h", "mat without size": "fittings[0].kind.size.h", "content too large": "fittings[0].kind.picture.size.h",
	}
	twice := map[string]int{"covering as thick as a house": 2, "no sheet for the liner": 2, "no sheet for the board": 2}
	const in, mm = units.Inch, units.Millimetre
	sheet := func(s string) []stock.Sheet { return []stock.Sheet{{Size: units.MustParseSize(s)}} }
	mat := folio.Mat{Size: units.Size{W: in, H: in}}
	fit := func(f folio.Fitting) func(*folio.Spec) {
		return func(s *folio.Spec) { s.Fittings = []folio.Fitting{f} }
	}
	for name, c := range map[string]struct {
		change func(*folio.Spec)
		path   string
		code   check.Code
	}{
		"no cover":              {func(s *folio.Spec) { s.Cover = units.Size{} }, "cover", check.Missing},
		"zero width":            {func(s *folio.Spec) { s.Cover.W = 0 }, "cover.w", check.NotPositive},
		"negative height":       {func(s *folio.Spec) { s.Cover.H = -in }, "cover.h", check.NotPositive},
		"huge height":           {func(s *folio.Spec) { s.Cover.H = 11 * units.Metre }, "cover.h", check.OutOfRange},
		"the largest int64":     {func(s *folio.Spec) { s.Cover.W = math.MaxInt64 }, "cover.w", check.OutOfRange},
		"the smallest int64":    {func(s *folio.Spec) { s.Spine.Width = math.MinInt64 }, "spine.width", check.NotPositive},
		"no spine":              {func(s *folio.Spec) { s.Spine.Width = 0 }, "spine", check.Missing},
		"spine twice":           {func(s *folio.Spec) { s.Spine.Rule = rule.SpineBlock }, "spine.width", check.Conflict},
		"cover and block":       {func(s *folio.Spec) { s.Block.Page = units.Size{W: in, H: in} }, "block.page", check.Conflict},
		"soft spine with board": {func(s *folio.Spec) { s.Form = boards.SoftSpine }, "spine.width", check.Conflict},
		"unknown form":          {func(s *folio.Spec) { s.Form = 99 }, "form", check.Unknown},
		"flap without form":     {func(s *folio.Spec) { s.FlapWidth = in }, "flapwidth", check.Conflict},
		"door gap without form": {func(s *folio.Spec) { s.DoorGap = in }, "doorgap", check.Conflict},
		"setback eats the board": {func(s *folio.Spec) {
			s.Cover = units.Size{}
			s.Block = boards.Block{Page: units.Size{W: in, H: in}, Setback: 2 * in}
		}, "block.setback", folio.TooNarrow},
		"negative board":  {func(s *folio.Spec) { s.Board.Caliper = -1 }, "board.caliper", check.NotPositive},
		"absurd grammage": {func(s *folio.Spec) { s.Covering.Grammage = -5 }, "covering.grammage", check.OutOfRange},
		"empty sheet":     {func(s *folio.Spec) { s.Covering.Sheets = []stock.Sheet{{}} }, "covering.sheets[0].size.w", check.NotPositive},
		"unknown grain": {func(s *folio.Spec) {
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 12 * in, H: 12 * in}, Grain: 9}}
		}, "covering.sheets[0].grain", check.Unknown},
		"nameless stock":         {func(s *folio.Spec) { s.Stocks = []stock.Stock{{Caliper: mm}} }, "stocks[0].name", check.Missing},
		"two stocks, one name":   {func(s *folio.Spec) { s.Stocks = []stock.Stock{{Name: "a", Caliper: mm}, {Name: "a", Caliper: mm}} }, "stocks[1].name", check.Conflict},
		"hinge rule":             {func(s *folio.Spec) { s.Hinge.Rule = 200 }, "hinge.rule", check.Unknown},
		"hinge width and rule":   {func(s *folio.Spec) { s.Hinge = rule.Hinge{Rule: rule.HingeOneCaliper, Width: mm} }, "hinge.width", check.Conflict},
		"hinge too narrow":       {func(s *folio.Spec) { s.Hinge.Width = mm }, "hinge.width", folio.GapNarrow},
		"hinge mid-gap":          {func(s *folio.Spec) { s.Hinge = rule.Hinge{Crease: rule.CreaseMidGap} }, "hinge.rule", folio.GapNarrow},
		"one crease at 180":      {func(s *folio.Spec) { s.Hinge.Angle = 180 }, "hinge.angle", folio.NeverCloses},
		"angle of 181":           {func(s *folio.Spec) { s.Hinge.Angle = 181 }, "hinge.angle", check.OutOfRange},
		"crease":                 {func(s *folio.Spec) { s.Hinge.Crease = 17 }, "hinge.crease", check.Unknown},
		"offset without crease":  {func(s *folio.Spec) { s.Hinge.Offset = mm }, "hinge.offset", check.Conflict},
		"offset beyond the gap":  {func(s *folio.Spec) { s.Hinge = rule.Hinge{Crease: rule.CreaseAtOffset, Offset: in} }, "hinge.offset", check.TooLarge},
		"margin order":           {func(s *folio.Spec) { s.Margin = rule.Margin{Ideal: mm, Least: 2 * mm} }, "margin.least", check.TooLarge},
		"tolerated above least":  {func(s *folio.Spec) { s.Margin = rule.Margin{Least: 5 * mm, Tolerated: 6 * mm} }, "margin.tolerated", check.TooLarge},
		"margin below caliper":   {func(s *folio.Spec) { s.Margin.Ideal = mm }, "margin.ideal", folio.TurnInNarrow},
		"liner short of turn-in": {func(s *folio.Spec) { s.Lining.Inset = 24 * mm }, "lining.inset", folio.LapNone},
		"turn-ins meet":          {func(s *folio.Spec) { s.Margin.Ideal = 4 * in }, "margin.ideal", folio.TurnInsMeet},
		"mitre too close":        {func(s *folio.Spec) { s.Mitre.Distance = mm / 2 }, "mitre.distance", folio.MitreClose},
		"mitre rule":             {func(s *folio.Spec) { s.Mitre.Rule = 77 }, "mitre.rule", check.Unknown},
		"mitre beyond the wrap":  {func(s *folio.Spec) { s.Mitre.Distance = 3 * in }, "mitre.distance", check.TooLarge},
		"clearance of most of a panel": {func(s *folio.Spec) {
			s.Clearance = 3 * in
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: in, H: in}}}, {Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: in, H: 3 * in}}}}
		}, "clearance", check.TooLarge},
		"boards as thick as a house":    {func(s *folio.Spec) { s.Board.Caliper = 4 * units.Metre }, "cover.w", check.TooLarge},
		"covering as thick as a house":  {func(s *folio.Spec) { s.Covering.Caliper = 6 * units.Metre }, "covering.caliper", check.TooLarge},
		"boards laid metres from where": {func(s *folio.Spec) { s.Placing = 6 * units.Metre }, "placing", check.TooLarge},
		"inset beyond the cover":        {func(s *folio.Spec) { s.Lining.Inset = 4 * in }, "lining.inset", folio.LinerNone},
		"lining rule":                   {func(s *folio.Spec) { s.Lining.Rule = 12 }, "lining.rule", check.Unknown},
		"no sheet for the wrap":         {func(s *folio.Spec) { s.Covering.Sheets = sheet("8 x 8 in") }, "covering.sheets", folio.SheetSmall},
		"spine eats the sheet":          {func(s *folio.Spec) { s.Spine.Width = 5 * in; s.Covering.Sheets = sheet("12 x 12 in") }, "covering.sheets", folio.SheetSmall},
		"grain across": {func(s *folio.Spec) {
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 20 * in, H: 7 * in}, Grain: stock.GrainAlongWidth}}
		}, "covering.sheets", folio.SheetSmall},
		"no sheet for the liner": {func(s *folio.Spec) { s.Liner.Sheets = sheet("4 x 6 in") }, "liner.sheets", folio.SheetSmall},
		"liner in one piece":     {func(s *folio.Spec) { s.Lining.Rule = rule.LiningOnePiece; s.Liner.Sheets = sheet("5 x 6 in") }, "liner.sheets", folio.SheetSmall},
		"no sheet for the board": {func(s *folio.Spec) { s.Board.Sheets = sheet("4 x 4 in") }, "board.sheets", folio.SheetSmall},
		"quarter rule":           {func(s *folio.Spec) { s.Quarter.Rule = 5 }, "quarter.rule", check.Unknown},
		"quarter reach":          {func(s *folio.Spec) { s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 5 * in} }, "quarter.reach", folio.TooWide},
		"turning":                {func(s *folio.Spec) { s.Turning = 9 }, "turning", check.Unknown},
		"ruler":                  {func(s *folio.Spec) { s.Rulers.Gap = -3 }, "rulers.gap", check.Unknown},
		"clearance":              {func(s *folio.Spec) { s.Clearance = -1 }, "clearance", check.Negative},
		"too many fittings":      {func(s *folio.Spec) { s.Fittings = make([]folio.Fitting, 300) }, "fittings", check.TooMany},
		"no kind":                {fit(folio.Fitting{}), "fittings[0].kind", check.Missing},
		"no folded kind":         {fit(folio.Fitting{Kind: folio.Folded{}}), "fittings[0].kind.kind", check.Missing},
		"two fittings, one name": {func(s *folio.Spec) {
			m := folio.Mat{Size: units.Size{W: in, H: in}}
			s.Fittings = []folio.Fitting{{Name: "a", Kind: m}, {Name: "a", Kind: m, Panel: boards.LeftCover}}
		}, "fittings[1].name", check.Conflict},
		"one name, two materials": {func(s *folio.Spec) { s.Covering.Name = "paper"; s.Liner = stock.Stock{Name: "paper", Caliper: mm} }, "liner.name", check.Conflict},
		"stands on and has a panel": {func(s *folio.Spec) {
			m := folio.Mat{Size: units.Size{W: in, H: in}}
			s.Fittings = []folio.Fitting{{Name: "a", Kind: m}, {Kind: m, StandsOn: "a", Outside: true}}
		}, "fittings[1].standson", check.Conflict},
		"setback beside a cover": {func(s *folio.Spec) { s.Block.Setback = mm }, "block.setback", check.Conflict},
		"spine rule of a soft spine": {func(s *folio.Spec) {
			s.Form = boards.SoftSpine
			s.Spine = rule.Spine{Contents: 5 * mm, Rule: rule.SpineBlock}
		}, "spine.rule", check.Conflict},
		"a stiffener where there is no hinge": {func(s *folio.Spec) {
			s.Form, s.Hinge = boards.SoftSpine, rule.Hinge{Crease: rule.CreaseAtOffset, Offset: units.Metre}
			s.Spine = rule.Spine{Contents: 20 * mm, Stiffener: "card"}
		}, "hinge.offset", check.TooLarge},
		"frame's ease beyond its laps": {fit(folio.Fitting{Kind: folio.Frame{Picture: content(units.MustParseSize("2 x 3 in")), Ease: in / 4}}), "fittings[0].kind.ease", folio.TooWide},
		"no such panel":                {fit(folio.Fitting{Kind: mat, Panel: boards.Flap}), "fittings[0].panel", check.Unknown},
		"unknown stock":                {fit(folio.Fitting{Kind: mat, Stock: "vellum"}), "fittings[0].stock", check.Unknown},
		"wrong side":                   {fit(folio.Fitting{Kind: mat, WrongSide: true}), "fittings[0].wrongside", check.Conflict},
		"stands on nothing":            {fit(folio.Fitting{Kind: folio.Mat{Size: units.Size{W: in, H: in}}, StandsOn: "table"}), "fittings[0].standson", check.Unknown},
		"mat without size":             {fit(folio.Fitting{Kind: folio.Mat{}}), "fittings[0].kind.size.w", check.NotPositive},
		"content too large":            {fit(folio.Fitting{Kind: folio.Mat{Picture: content(units.MustParseSize("8 x 10 in"))}}), "fittings[0].kind.picture.size.w", folio.TooWide},
		"mat off its panel":            {fit(folio.Fitting{Kind: folio.Mat{Size: units.Size{W: in, H: in}}, Place: place.Place{Across: place.Left, Offset: units.Point{X: 4 * in}}}), "fittings[0].place.offset.x", folio.OffPanel},
		"frame film":                   {fit(folio.Fitting{Kind: folio.Frame{Picture: content(units.MustParseSize("3 x 4 in")), Film: "acetate"}}), "fittings[0].kind.film", check.Unknown},
		"foam wider than rail":         {fit(folio.Fitting{Kind: folio.Frame{Picture: content(units.MustParseSize("2 x 3 in")), FoamWidth: 3 * in / 4}}), "fittings[0].kind.rail", folio.TooNarrow},
		"foam thinner than card":       {fit(folio.Fitting{Kind: folio.Frame{Picture: pocket.Content{Size: units.MustParseSize("2 x 3 in"), Thickness: 4 * mm}}}), "fittings[0].kind.foam", folio.TooThin},
		"frame without opening":        {fit(folio.Fitting{Kind: folio.Frame{Picture: content(units.MustParseSize("2 x 3 in")), Lap: in}}), "fittings[0].kind.lap", folio.TooWide},
		"strips leave no ease":         {fit(folio.Fitting{Kind: folio.Frame{Picture: content(units.MustParseSize("2 x 3 in")), Rail: in / 4, FoamWidth: in / 4}}), "fittings[0].kind.rail", folio.TooNarrow},
	} {
		s := good()
		c.change(&s)
		plan, err := folio.Build(s)
		var bad *check.Error
		switch {
		case err == nil:
			t.Errorf("%s: was taken", name)
		case plan != nil:
			t.Errorf("%s: a plan comes with the error", name)
		case !errors.As(err, &bad):
			t.Errorf("%s: %T is not a check.Error", name, err)
		default:
			v, ok := bad.Find(c.path, c.code)
			if !ok {
				t.Errorf("%s: want %s at %s, got: %v", name, c.code, c.path, err)
			} else if v.Got == "" || v.Want == "" || v.Nature != natureOf(v.Code) {
				t.Errorf("%s: the violation does not say what was got and what would do, or is no %v one: %v", name, natureOf(v.Code), v)
			}
			var others []string
			for o := range bad.All() {
				if o.Path != c.path || o.Code != c.code {
					others = append(others, o.Path)
				}
			}
			if got := strings.Join(others, " "); got != also[name] || bad.Len() != len(others)+max(1, twice[name]) {
				t.Errorf("%s: besides %q is refused, want %q: %v", name, got, also[name], err)
			}
		}
	}
}

// Where materials or the row itself are wrong nothing is said that rests on them, as that no
// sheet takes the wrap.
func TestNothingRestsOnWhatIsWrong(t *testing.T) {
	card := stock.Stock{Name: "card", Caliper: units.Millimetre}
	other := stock.Stock{Name: "card", Caliper: 2 * units.Millimetre}
	for path, change := range map[string]func(*folio.Spec){
		"board.caliper":                func(s *folio.Spec) { s.Board.Caliper = -1 },
		"liner.name":                   func(s *folio.Spec) { s.Board, s.Liner = card, other },
		"spinecovering.name":           func(s *folio.Spec) { s.Board, s.SpineCovering = card, other },
		"stocks":                       func(s *folio.Spec) { s.Stocks = make([]stock.Stock, folio.MaxStocks+1) },
		"stocks[0].name":               func(s *folio.Spec) { s.Stocks = []stock.Stock{{Caliper: units.Millimetre}} },
		"stocks[0].caliper":            func(s *folio.Spec) { s.Stocks = []stock.Stock{{Name: "card", Caliper: -1}} },
		"stocks[1].name":               func(s *folio.Spec) { s.Stocks = []stock.Stock{card, other} },
		"stocks[0].name, of the board": func(s *folio.Spec) { s.Board, s.Stocks = card, []stock.Stock{other} },
		"rulers.wrap":                  func(s *folio.Spec) { s.Rulers.Wrap = -3 },
		"hinge.angle":                  func(s *folio.Spec) { s.Hinge.Angle = -1 },
		"margin.least":                 func(s *folio.Spec) { s.Margin.Least = -1 },
		"mitre.rule":                   func(s *folio.Spec) { s.Mitre.Rule = 77 },
		"quarter.rule":                 func(s *folio.Spec) { s.Quarter.Rule = 77 },
		"lining.rule":                  func(s *folio.Spec) { s.Lining.Rule = 77 },
		"closing.ease":                 func(s *folio.Spec) { s.Closing.Ease = -2 },
		"magnets.pairs":                func(s *folio.Spec) { s.Magnets.Pairs = -1 },
		"groove":                       func(s *folio.Spec) { s.Groove = 9 },
		"cover.w":                      func(s *folio.Spec) { s.Cover.W = -1 },
		"block.setback": func(s *folio.Spec) {
			s.Cover, s.Block = units.Size{}, boards.Block{Page: units.Size{W: units.Inch, H: units.Inch}, Setback: 2 * units.Inch}
		},
		"spine.contents": func(s *folio.Spec) {
			s.Board.Caliper, s.Spine = units.Millimetre/5, rule.Spine{Contents: units.Millimetre / 20, Rule: rule.SpineBlockAndBoardsLess}
		},
	} {
		s := good()
		s.Covering.Sheets, s.Liner.Sheets = sheetOf(units.Inch, units.Inch), sheetOf(units.Inch, units.Inch)
		change(&s)
		want, _, _ := strings.Cut(path, ",")
		if err := builds(s); !refusedWith(err, want, "") || refusedWith(err, "covering.sheets", "") || refusedWith(err, "liner.sheets", "") {
			t.Errorf("%s: want it refused, and not the sheets: %v", path, err)
		}
	}
}

// All violations come at once: malformed ones, impossible ones, and those of
// every fitting.
func TestAllAtOnce(t *testing.T) {
	s := good()
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("8 x 8 in")}}
	s.Liner.Sheets = []stock.Sheet{{Size: units.MustParseSize("4 x 4 in")}}
	s.Hinge.Width = units.Millimetre
	s.Fittings = []folio.Fitting{
		{Kind: folio.Mat{Size: units.MustParseSize("9 x 9 in")}},
		{Kind: folio.Mat{Size: units.MustParseSize("1 x 1 in")}, Stock: "slate"},
		{},
	}
	_, err := folio.Build(s)
	for _, want := range [][2]string{
		{"covering.sheets", string(folio.SheetSmall)}, {"liner.sheets", string(folio.SheetSmall)},
		{"hinge.width", string(folio.GapNarrow)}, {"fittings[0].kind.size.w", string(folio.TooWide)},
		{"fittings[0].kind.size.h", string(folio.TooTall)}, {"fittings[1].stock", string(check.Unknown)},
		{"fittings[2].kind", string(check.Missing)},
	} {
		if !refusedWith(err, want[0], check.Code(want[1])) {
			t.Errorf("%s at %s is missing from: %v", want[1], want[0], err)
		}
	}
}

// A case that is wrong does not hide what is wrong with its fittings.
func TestAllAtOnceWithAWrongCase(t *testing.T) {
	s := good()
	s.Spine.Width = 0
	s.Fittings = []folio.Fitting{
		{Kind: folio.Frame{Lap: -3, Mouth: 77}},
		{Kind: folio.Mat{Picture: content(units.MustParseSize("1 x 1 in")), Size: units.MustParseSize("2 x 2 in")}, Stock: "slate"},
		{Kind: folio.Folded{Kind: pocket.FoldedStrip{Hem: -1}}},
	}
	_, err := folio.Build(s)
	for _, want := range []string{"spine", "fittings[0].kind.lap", "fittings[0].kind.mouth", "fittings[0].kind.picture.size.w", "fittings[1].kind.size", "fittings[1].stock", "fittings[2].kind.kind.hem"} {
		if !refusedWith(err, want, "") {
			t.Errorf("%s is missing from: %v", want, err)
		}
	}
}

// A cover as measured that leaves less to turn in than is tolerated is made, so
// it is warned about and not refused: boards of 10 1/4 x 6 1/4 in on a wrap with
// 1/4 in all round; a row 1/8 in longer leaves 3/16. The covering of 63/10000 in
// at each edge is part of what is measured.
func TestRefitBeyondTheWrap(t *testing.T) {
	s := good()
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("10 3/4 x 6 3/4 in")}}
	s.Lining.Inset = units.Inch / 16
	plan, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	edges := 2 * 63 * units.Inch / 10000
	made, err := plan.Refit(refit.Measured{Width: units.MustParse("10 3/8 in") + edges, Height: units.MustParse("6 1/4 in") + edges})
	if err != nil {
		t.Fatal(err)
	}
	warned := 0
	for w := range made.Warnings() {
		if w.Code == folio.MarginSmall {
			warned++
			if w.Path != "measured.width" || w.Got != 3*units.Inch/16 || w.Want != units.Inch/4 {
				t.Errorf("want the width warned about, 3/16 in of 1/4: %+v", w)
			}
		}
	}
	if warned != 1 {
		t.Errorf("%d warnings about the margin, want 1", warned)
	}
}

// A sheet that is refused names the smallest that would do: the boards with
// the tolerated margin all round. That sheet is then taken.
func TestSmallestSheet(t *testing.T) {
	s := good()
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("10 x 8 in")}}
	_, err := folio.Build(s)
	if err == nil || !strings.Contains(err.Error(), "10 3/4 x 6 3/4 in") || !strings.Contains(err.Error(), "quarter style") {
		t.Errorf("want the sheet 10 3/4 x 6 3/4 in and quarter style named, got %v", err)
	}
	s.Covering.Sheets[0].Size = units.MustParseSize("10 3/4 x 6 3/4 in")
	if _, err := folio.Build(s); err != nil {
		t.Errorf("the sheet named is not taken: %v", err)
	}
}

// The gap that a refusal names closes, and one step of the ruler less does
// not.
func TestLeastGapNamed(t *testing.T) {
	s := good()
	s.Hinge.Width = units.Millimetre
	_, err := folio.Build(s)
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatalf("got %v", err)
	}
	v, _ := bad.Find("hinge.width", folio.GapNarrow)
	s.Hinge.Width = v.Limit
	if _, err := folio.Build(s); err != nil {
		t.Errorf("the gap named, %v, does not close: %v", v.Limit, err)
	}
	s.Hinge.Width = v.Limit - units.Sixteenths.Step()
	if _, err := folio.Build(s); err == nil {
		t.Errorf("a step less than the gap named, %v, closes as well", v.Limit)
	}
}

// Two fittings on one place are refused; one standing on the other is not, nor
// one on the outside.
func TestOverlap(t *testing.T) {
	s := good()
	mat := folio.Mat{Size: units.MustParseSize("2 x 2 in")}
	s.Fittings = []folio.Fitting{{Name: "a", Kind: mat}, {Name: "b", Kind: mat}}
	if _, err := folio.Build(s); !refusedWith(err, "fittings[1].place", folio.Overlaps) {
		t.Errorf("two mats on one place: %v", err)
	}
	s.Fittings[1].StandsOn = "a"
	if _, err := folio.Build(s); err != nil {
		t.Errorf("one mat on another: %v", err)
	}
	s.Fittings[1].StandsOn, s.Fittings[1].Outside = "", true
	if _, err := folio.Build(s); err != nil {
		t.Errorf("one mat inside, one outside: %v", err)
	}
}

// What no longer fits after refitting is an error that says by how much.
func TestRefitThatDoesNotFit(t *testing.T) {
	plan, err := folio.Build(withStrip(folio.Fitting{Name: "strip", Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")}))
	if err != nil {
		t.Fatal(err)
	}
	_, err = plan.Refit(refit.Measured{Width: units.MustParse("10 1/4 in"), Height: units.MustParse("6 1/8 in")})
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatalf("a strip of 6 in in a cover of 6 1/8 in: %v", err)
	}
	if v, ok := bad.Find("fittings[0].kind.kind", folio.TooTall); !ok || v.Of != "strip" || !strings.Contains(v.Got, "6 in") || !strings.Contains(v.Want, "5 7/8 in") {
		t.Errorf("want the strip of 6 in too tall for 5 7/8 in: %v", err)
	}
	for _, m := range []refit.Measured{{}, {Width: -1, Height: 1}, {Width: math.MaxInt64, Height: math.MaxInt64}, {Width: units.Inch, Height: units.Inch},
		{Width: units.MustParse("10 1/4 in"), Height: units.MustParse("6 1/4 in"), Panels: []units.Length{1}}} {
		if p, err := plan.Refit(m); err == nil || p != nil {
			t.Errorf("refitted to %v", m)
		}
	}
}

// Float constructors keep what is not a number out of a Spec.
func TestNotANumber(t *testing.T) {
	for _, f := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		if l, err := units.Inches(f); err == nil {
			t.Errorf("%v in became %v", f, l)
		}
	}
}

// Where a fitting must name one before it and names none, it is said whether there is one
// to name.
func TestNameOfAFittingBefore(t *testing.T) {
	for _, c := range []struct {
		names   []string
		related bool
		could   bool
	}{{[]string{"", ""}, false, false}, {[]string{"", "mat"}, false, false}, {[]string{"mat", ""}, false, true}, {[]string{"", "mat", ""}, false, true}, {[]string{"mat", ""}, true, true}} {
		s := plainCase()
		for i, name := range c.names {
			f := mat(20*mm, 20*mm)
			f.Name, f.Place.Offset.X = name, units.Length(i)*25*mm
			s.Fittings = append(s.Fittings, f)
		}
		last := &s.Fittings[len(c.names)-1]
		if last.StandsOn = "shelf"; c.related {
			last.Kind, last.Size = folio.Mat{}, place.Sizing{W: place.Relation{Of: place.OfGround}, H: place.Relation{Of: place.OfGround}}
		}
		v := only(builds(s))
		if could := !strings.Contains(v.Want, "no name"); could != c.could || v.Code != check.Unknown {
			t.Errorf("%q: %+v", c.names, v)
		}
	}
}

// A sheet that lacks as much either way round is named as it was given.
func TestSheetIsNamedAsGiven(t *testing.T) {
	s := metric()
	s.Cover = units.Size{W: 120 * mm, H: 277 * mm}
	s.Hinge.Width = 6 * mm // so that the open cover is as wide as it is high
	for _, sheet := range []units.Size{{W: 200 * mm, H: 150 * mm}, {W: 150 * mm, H: 200 * mm}} {
		s.Covering.Sheets = []stock.Sheet{{Size: sheet}}
		v, ok := refusal(s, "covering.sheets", folio.SheetSmall)
		if want := "at most " + units.MetricDecimal.Text(sheet.W) + " x " + units.MetricDecimal.Text(sheet.H); !ok || v.Got != want {
			t.Errorf("%v: %v", sheet, builds(s))
		}
	}
}

// Of sheets that are all too small the one is named that lacks least of the 289 x 182 mm that
// a wrap with the tolerated margins needs, in the direction in which it lacks most.
func TestNearestSheetIsNamed(t *testing.T) {
	for _, c := range []struct {
		sheets []units.Size
		named  units.Size
	}{
		{[]units.Size{{W: 285 * mm, H: 150 * mm}, {W: 270 * mm, H: 170 * mm}}, units.Size{W: 270 * mm, H: 170 * mm}},
		{[]units.Size{{W: 270 * mm, H: 170 * mm}, {W: 285 * mm, H: 150 * mm}}, units.Size{W: 270 * mm, H: 170 * mm}},
		{[]units.Size{{W: 230 * mm, H: 220 * mm}, {W: 500 * mm, H: 160 * mm}}, units.Size{W: 500 * mm, H: 160 * mm}},
		{[]units.Size{{W: 280 * mm, H: 260 * mm}, {W: 500 * mm, H: 160 * mm}}, units.Size{W: 280 * mm, H: 260 * mm}},
	} {
		s := plainCase()
		s.Covering.Sheets = nil
		for _, sheet := range c.sheets {
			s.Covering.Sheets = append(s.Covering.Sheets, stock.Sheet{Size: sheet, Grain: stock.GrainAlongHeight})
		}
		v, ok := refusal(s, "covering.sheets", folio.SheetSmall)
		if want := "at most " + units.MetricDecimal.Text(c.named.W) + " x " + units.MetricDecimal.Text(c.named.H); !ok || v.Got != want {
			t.Errorf("%v: %v, want %s", c.sheets, builds(s), want)
		}
	}
}

// A sheet that is too small for what is folded of it is named with the side that it lacks,
// and the sheet named is taken.
func TestSheetForAFold(t *testing.T) {
	for _, sheet := range []units.Size{{W: 70 * mm, H: 400 * mm}, {W: 400 * mm, H: 70 * mm}} {
		s := plainCase()
		s.Stocks[0].Sheets = []stock.Sheet{{Size: sheet}}
		s.Cover.W, s.Spine.Width = 200*mm, 50*mm
		s.Fittings = []folio.Fitting{{Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: content(units.Size{W: 80 * mm, H: 80 * mm}), Panels: 4}}}}
		err := builds(s)
		v := only(err)
		named := asks(t, v.Want)
		if v.Code != folio.SheetSmall || len(named) < 2 {
			t.Errorf("%v: %v, names %v", sheet, err, named)
			continue
		}
		s.Stocks[0].Sheets[0].Size = units.Size{W: named[0], H: named[1]}
		if err := builds(s); err != nil {
			t.Errorf("%v: the sheet named, %v, is not taken: %v", sheet, named, err)
		}
		if (named[0] == sheet.W) == (named[1] == sheet.H) || max(named[0], named[1]) != 400*mm {
			t.Errorf("%v: a sheet of %v is asked for", sheet, named)
		}
	}
}

// What is left under a flap that the form has not is told beside what is wrong with the hinge
// and with a fitting on its panel.
func TestNoFlapIsToldWithTheRest(t *testing.T) {
	s := good()
	s.Closing.UnderFlap, s.Closing.Ease = units.Millimetre, -1
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: 9 * units.Inch, H: units.Inch}}}}
	_, err := folio.Build(s)
	if !refusedWith(err, "closing.underflap", check.Conflict) || !refusedWith(err, "closing.ease", check.Negative) {
		t.Errorf("%v", err)
	}
	s.Closing.Ease = 0
	if _, err := folio.Build(s); !refusedWith(err, "closing.underflap", check.Conflict) || !refusedWith(err, "fittings[0].kind.size.w", folio.TooWide) {
		t.Errorf("%v", err)
	}
}
