package fit_test

import (
	"context"
	"encoding/csv"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// By hand: the strip of 4 x 6 in wants a cover of 4 1/4 x 6 1/4 in, and so
// does the frame of 4 1/4 in outside want 4 1/2; their heights are 6 and 5 3/4
// in. Closed, rails and strip meet.
func TestSmallestKeepsake(t *testing.T) {
	least, err := fit.Smallest(context.Background(), keepsake(), fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	p := least.Plan()
	cover := p.Spec().Cover
	if want := units.MustParseSize("4 1/2 x 6 1/4 in"); cover != want {
		t.Errorf("cover %v, want %v", cover, want)
	}
	if !least.Complete() {
		t.Error("the search was cut short")
	}
	narrower, lower, thinner := least.Proof()
	for name, c := range map[string]struct {
		err  error
		code check.Code
	}{"narrower": {narrower, folio.TooWide}, "lower": {lower, folio.TooTall}} {
		if !refusedWith(c.err, "", c.code) {
			t.Errorf("%s: %v", name, c.err)
		}
	}
	if !refusedWith(thinner, "", folio.WarnEase) && !refusedWith(thinner, "", folio.NotClosing) {
		t.Errorf("thinner: %v", thinner)
	}
	for _, err := range []error{narrower, lower, thinner} {
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		for v := range bad.All() {
			if v.Nature != check.Impossible {
				t.Errorf("%v can be read: %v", v, v.Nature)
			}
		}
	}
	tight, _ := p.Tightest(true)
	if !tight.Eased() {
		t.Errorf("it closes without ease: %v", tight)
	}
	// It is what Build makes of the Spec with its cover and spine, sheets and all.
	s := p.Spec()
	given := keepsake()
	given.Cover, given.Spine = s.Cover, s.Spine
	if same, err := folio.Build(given); err != nil || tells(same) != tells(p) || len(s.Covering.Sheets) != len(given.Covering.Sheets) {
		t.Errorf("another plan than that of its Spec: %v", err)
	}
	// What is too small by a step is refused as Build refuses it, of that cover alone.
	for size, proof := range map[units.Size]error{cover.Plus(-units.Inch/16, 0): narrower, cover.Plus(0, -units.Inch/16): lower} {
		given.Cover = size
		if _, err := folio.Build(given); err == nil || err.Error() != proof.Error() {
			t.Errorf("a cover of %v: %v\nproof: %v", size, err, proof)
		}
	}
	// The spine is the narrowest on the ruler for this stack.
	need := tight.Stack().Length() + s.Closing.Ease + 2*s.Board.Caliper + 2*s.Liner.Caliper
	if want := units.Sixteenths.Up(need); s.Spine.Width != want {
		t.Errorf("spine %v, want %v", s.Spine.Width, want)
	}
	// Forty plans of five steps each.
	if least.Steps() > 200 {
		t.Errorf("it took %d steps", least.Steps())
	}
}

func fiveMillimetres(t *testing.T) units.Ruler {
	t.Helper()
	r, err := units.NewRuler(5*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// fulfils reports whether a Spec can be made and closes with its ease.
func fulfils(s folio.Spec) bool {
	p, err := folio.Build(s)
	if err != nil {
		return false
	}
	tight, ok := p.Tightest(true)
	return !ok || tight.Eased()
}

// A liner in one piece goes on beyond a cover that is narrower than both its insets
// together: the turn-ins of 10 to 15 mm meet at a spine of 10 mm, and not at one of 15.
func TestSmallestNarrowerThanItsInsets(t *testing.T) {
	s := folio.Spec{
		Form: boards.SpineBoard, Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: fiveMillimetres(t)},
		Lining: rule.Lining{Inset: 3 * mm}, Margin: rule.Margin{Rule: rule.MarginTenToFifteen}, Hinge: rule.Hinge{Crease: rule.CreaseTwo},
		Fittings: []folio.Fitting{{Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 2 * mm, H: 10 * mm}}}},
	}
	for _, c := range []struct {
		rule rule.LiningRule
		w    units.Length
	}{{rule.LiningAuto, 5 * mm}, {rule.LiningOnePiece, 5 * mm}, {rule.LiningPanels, 10 * mm}} {
		s.Lining.Rule = c.rule
		l, err := fit.Smallest(context.Background(), s, fit.Budget{})
		if err != nil || !l.Complete() || l.Plan().Spec().Cover.W != c.w {
			t.Errorf("%v: %v, %v", c.rule, l.Plan().Spec().Cover, err)
		}
	}
}

// The search agrees with trying every cover and every spine of a small grid.
func TestSmallestByExhaustion(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 7))
	ruler := fiveMillimetres(t)
	forms := []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.DoubleSpineGate}
	tried := 0
	trials := proptest.Cases(90)
	for trial := range trials {
		s := folio.Spec{
			Form: forms[trial%3], Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: ruler},
			Lining: rule.Lining{Inset: 3 * mm}, Margin: rule.Margin{Rule: rule.MarginTenToFifteen},
			Hinge: rule.Hinge{Crease: rule.CreaseTwo},
		}
		panels := []boards.Role{boards.LeftCover, boards.RightCover}
		switch s.Form {
		case boards.DoubleSpineGate:
			panels = []boards.Role{boards.LeftDoor, boards.Back, boards.RightDoor, boards.Spine1}
		case boards.SpineBoard:
			panels = append(panels, boards.Spine1)
		}
		aligns := [...]place.Align{place.Middle, place.Left, place.Right}
		levels := [...]place.Align{place.Middle, place.Head, place.Tail}
		for range 1 + r.IntN(5) {
			f := folio.Fitting{
				Panel: panels[r.IntN(len(panels))],
				Kind:  folio.Ornament{Size: units.Size{W: units.Length(3+r.IntN(25)) * mm, H: units.Length(3+r.IntN(40)) * mm}, Thickness: units.Length(r.IntN(4000)) * units.Micrometre},
				Place: place.Place{Across: aligns[r.IntN(3)], Along: levels[r.IntN(3)], Offset: units.Point{X: units.Length(r.IntN(8)) * mm, Y: units.Length(r.IntN(8)) * mm}},
			}
			if f.Panel == boards.Spine1 {
				f.Kind = folio.Ornament{Size: units.Size{W: units.Length(2+r.IntN(8)) * mm, H: 10 * mm}, Thickness: units.Length(r.IntN(2000)) * units.Micrometre}
				f.Place.Across, f.Place.Offset.X = place.Middle, 0
			}
			s.Fittings = append(s.Fittings, f)
		}
		with := func(w, h, spine int) folio.Spec {
			out := s
			out.Cover = units.Size{W: 5 * mm * units.Length(w), H: 5 * mm * units.Length(h)}
			if s.Form == boards.SoftSpine {
				out.Spine.Contents = 5 * mm * units.Length(spine)
			} else {
				out.Spine.Width = 5 * mm * units.Length(spine)
			}
			return out
		}
		const most, roomy = 30, 40
		least, err := fit.Smallest(context.Background(), s, fit.Budget{})
		// Every cover, with a spine that is wide enough for anything here.
		bestW, bestH := 0, 0
		for w := 1; w <= most; w++ {
			for h := 1; h <= most; h++ {
				if bestW > 0 && (w*h > bestW*bestH || w*h == bestW*bestH && w >= bestW) {
					continue
				}
				if _, err := folio.Build(with(w, h, roomy)); err == nil {
					bestW, bestH = w, h
				}
			}
		}
		if bestW == 0 {
			// Nothing of this size: then a larger one was found, if any.
			if err == nil {
				if c := least.Plan().Spec().Cover; c.W <= 5*mm*most && c.H <= 5*mm*most {
					t.Fatalf("trial %d: %v was found, which does not do", trial, c)
				}
			}
			continue
		}
		if err != nil {
			t.Fatalf("trial %d: %v, but %d x %d does", trial, err, bestW, bestH)
		}
		spec, want := least.Plan().Spec(), with(bestW, bestH, 0).Cover
		if c := spec.Cover; max(c.W, c.H) > 5*mm*most && c.Area().Compare(want.Area()) < 0 {
			continue // smaller, and larger one way than what was tried
		}
		if spec.Cover != want {
			t.Fatalf("trial %d: cover %v, want %v\n%+v", trial, spec.Cover, want, s.Fittings)
		}
		spine, got := 1, spec.Spine.Width
		if s.Form == boards.SoftSpine {
			got = spec.Spine.Contents
		}
		for ; spine <= roomy; spine++ {
			c := with(bestW, bestH, spine)
			if s.Form == boards.SoftSpine {
				// The contents are what is looked for; they count as none.
				if p, err := folio.Build(c); err == nil {
					if tight, _ := p.TightestOf(closing.BetweenCovers, true); tight.Eased() {
						break
					}
				}
				continue
			}
			if fulfils(c) {
				break
			}
		}
		if want := 5 * mm * units.Length(spine); got != want {
			t.Fatalf("trial %d, %v: spine %v, want %v\n%+v", trial, s.Form, got, want, s.Fittings)
		}
		tried++
		narrower, lower, thinner := least.Proof()
		if narrower == nil || lower == nil || thinner == nil {
			t.Fatalf("trial %d: no proof: %v, %v, %v", trial, narrower, lower, thinner)
		}
	}
	if tried < trials*2/3 {
		t.Errorf("only %d of %d trials came to anything", tried, trials)
	}
}

// A cover for photographs alone: each lies on a mat, on a panel of its own.
func TestSmallestForPhotographs(t *testing.T) {
	u, _ := pocket.UsualContent("photo 4 x 6 in")
	s := folio.Spec{Title: "the club's spring walk"}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{}, u.Content, u.Content)
	if err != nil {
		t.Fatal(err)
	}
	// 4 x 6 in, reveals and insets of 1/8 in each.
	if got, want := least.Plan().Spec().Cover, units.MustParseSize("4 1/2 x 6 1/2 in"); got != want {
		t.Errorf("cover %v, want %v", got, want)
	}
	n := 0
	for f := range least.Plan().Fittings() {
		if _, ok := f.Kind().(folio.Mat); !ok {
			t.Errorf("%v is no mat", f.Kind())
		}
		n++
	}
	if n != 2 || len(least.Ways()) != 2 {
		t.Errorf("%d mats, %d fits", n, len(least.Ways()))
	}
	narrower, _, _ := least.Proof()
	if !refusedWith(narrower, "contents", fit.NotHeld) || !strings.Contains(narrower.Error(), "in a cover of 4 7/16 in x 6 1/2 in") {
		t.Errorf("narrower: %v", narrower)
	}
	// From a cover of 5/16 in, just over two insets, up to 29 1/4 in² / 5/16 in, 1,493
	// widths are looked at, and no more than 20 plans of four steps are made: none of a
	// cover in which a photograph by itself has no room.
	if n := least.Steps(); n < 1493+40 || n > 1493+80 {
		t.Errorf("it took %d steps", n)
	}
	// A third one finds no panel in any cover.
	if _, err := fit.Smallest(context.Background(), s, fit.Budget{}, u.Content, u.Content, u.Content); !refusedWith(err, "contents", fit.NotHeld) || strings.Contains(err.Error(), "in a cover of") {
		t.Errorf("three photographs: %v", err)
	}
	// Sheets limit the result.
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("8 x 8 in")}}
	if _, err := fit.Smallest(context.Background(), s, fit.Budget{}, u.Content); !refusedWith(err, "covering.sheets", folio.SheetSmall) {
		t.Errorf("a sheet too small: %v", err)
	}
}

func TestSmallestRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spec     folio.Spec
		contents []pocket.Content
		path     string
		code     check.Code
	}{
		"block":    {folio.Spec{Block: boards.Block{Page: units.Size{W: 100 * mm, H: 100 * mm}, Thickness: mm}}, nil, "block.page", check.Conflict},
		"content":  {folio.Spec{}, []pocket.Content{{Size: units.Size{W: -mm, H: mm}}}, "contents[0].size.w", check.NotPositive},
		"fitting":  {folio.Spec{Fittings: []folio.Fitting{{}}}, nil, "fittings[0].kind", check.Missing},
		"material": {folio.Spec{Board: stock.Stock{Caliper: -1}}, nil, "board.caliper", check.NotPositive},
	} {
		_, err := fit.Smallest(context.Background(), c.spec, fit.Budget{}, c.contents...)
		if !refusedWith(err, c.path, c.code) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestLargestFromSheets(t *testing.T) {
	s := folio.Spec{
		Spine:    rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Name: "decorated paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}},
	}
	most, err := fit.Largest(context.Background(), s, units.MustParseSize("4 1/2 x 6 1/4 in"))
	if err != nil {
		t.Fatal(err)
	}
	// Two covers, a spine of 1 and two gaps of 1/8 in leave 12 − 2 × 1/4
	// tolerated margins: 2 w ≤ 10 1/4.
	cover := most.Plan().Spec().Cover
	if want := units.MustParse("5 1/8 in"); cover.W != want {
		t.Errorf("width %v, want %v", cover.W, want)
	}
	// 5 1/8 × 6 1/4 ÷ 4 1/2 = 7.118 in, to the nearest sixteenth.
	if want := units.MustParse("7 1/8 in"); cover.H != want {
		t.Errorf("height %v, want %v", cover.H, want)
	}
	if !refusedWith(most.Proof(), "covering.sheets", folio.SheetSmall) {
		t.Errorf("one step more: %v", most.Proof())
	}
	// Trying every width agrees.
	for n := 1; n < 200; n++ {
		c := s
		c.Cover.W = units.Inch / 16 * units.Length(n)
		c.Cover.H = units.Sixteenths.Nearest(c.Cover.W * 25 / 18)
		if _, err := folio.Build(c); err == nil && c.Cover.W > cover.W {
			t.Errorf("%v comes out as well", c.Cover)
		}
	}
	if _, err := fit.Largest(context.Background(), folio.Spec{Spine: s.Spine}, cover); !refusedWith(err, "covering.sheets", check.Missing) {
		t.Errorf("without sheets: %v", err)
	}
	if _, err := fit.Largest(context.Background(), s, units.Size{W: mm}); !refusedWith(err, "proportions.h", check.NotPositive) {
		t.Errorf("without proportions: %v", err)
	}
	block := s
	block.Block = boards.Block{Page: cover, Thickness: mm}
	if _, err := fit.Largest(context.Background(), block, cover); !refusedWith(err, "block.page", check.Conflict) || strings.Contains(err.Error(), "a cover and") {
		t.Errorf("round a block, without a cover: %v", err)
	}
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.MustParseSize("6 x 6 in")}}}
	if _, err := fit.Largest(context.Background(), s, cover); !refusedWith(err, "", folio.TooWide) {
		t.Errorf("a mat too large for the largest: %v", err)
	}
	// A mat that comes out of no sheet is so in every folio: nothing else is wrong with the
	// largest.
	s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.MustParseSize("2 x 2 in")}}}}
	s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Mat{Size: units.MustParseSize("3 x 3 in")}}}
	_, err = fit.Largest(context.Background(), s, cover)
	var bad *check.Error
	if !refusedWith(err, "", folio.SheetSmall) || !errors.As(err, &bad) || bad.Len() != 1 {
		t.Errorf("a mat out of too small a sheet: %v", err)
	}
}

// On a ruler as coarse as the cover itself, of a few steps or of one, the largest is the one
// that trying all of them finds; where not even one step comes out, the error says so.
func TestLargestByTryingAll(t *testing.T) {
	ruler, err := units.NewRuler(50*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	largest := map[int]int{}
	for side := 80 * mm; side < 700*mm; side += 30 * mm {
		s := folio.Spec{
			Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: ruler}, Spine: rule.Spine{Width: 10 * mm},
			Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: side, H: side}}}},
		}
		want := 0
		for n := 1; n < 10; n++ {
			s.Cover = units.Size{W: 50 * mm * units.Length(n), H: 50 * mm * units.Length(n)}
			if _, err := folio.Build(s); err == nil {
				want = n
			}
		}
		largest[want]++
		most, err := fit.Largest(context.Background(), s, units.Size{W: mm, H: mm})
		switch {
		case want == 0:
			if !refusedWith(err, "covering.sheets", folio.SheetSmall) {
				t.Errorf("none comes out of %v: %v", side, err)
			}
		case err != nil || most.Plan().Spec().Cover.W != 50*mm*units.Length(want):
			t.Errorf("out of %v: %+v, want %d steps; %v", side, most, want, err)
		}
	}
	if largest[0] == 0 || largest[1] == 0 || largest[2] == 0 || largest[3] == 0 {
		t.Errorf("how often each is the largest: %v", largest)
	}
}

// Out of sheets as large as can be, the largest folio is bounded by the longest length
// that there may be, of its width or of its height: a step more of the width, and of the
// height with it, is refused for that side.
func TestLargestAsLongAsCanBe(t *testing.T) {
	s := folio.Spec{
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 30 * mm},
		Board: stock.Stock{Caliper: mm, Sheets: []stock.Sheet{{Size: units.Size{W: units.Longest, H: units.Longest}}}},
	}
	for _, c := range []struct {
		proportions units.Size
		side        string
	}{{units.Size{W: mm, H: mm}, "cover.w"}, {units.Size{W: mm, H: 5 * mm}, "cover.h"}, {units.Size{W: 5 * mm, H: mm}, "cover.w"}, {units.Size{W: 8 * mm, H: 20 * mm}, "cover.h"}} {
		most, err := fit.Largest(context.Background(), s, c.proportions)
		if err != nil {
			t.Errorf("%v: %v", c.proportions, err)
			continue
		}
		more := s
		more.Cover = most.Plan().Spec().Cover.Plus(mm, 0)
		more.Cover.H = units.WholeMillimetres.Nearest(more.Cover.W * c.proportions.H / c.proportions.W)
		if _, err := folio.Build(more); !refusedWith(err, c.side, check.TooLarge) || !refusedWith(most.Proof(), c.side, check.TooLarge) {
			t.Errorf("%v: a cover of %v, and %v with a step more; proof: %v", c.proportions, most.Plan().Spec().Cover, err, most.Proof())
		}
	}
}

func TestFamily(t *testing.T) {
	s := keepsake()
	covers := fit.ScaledCovers(units.MustParseSize("4 1/2 x 6 1/4 in"), units.Sixteenths, 100, 50, 100, 110)
	want := []units.Size{units.MustParseSize("2 1/4 x 3 1/8 in"), units.MustParseSize("4 1/2 x 6 1/4 in"), units.MustParseSize("4 15/16 x 6 7/8 in")}
	for i := range want {
		if covers[i] != want[i] {
			t.Errorf("scaled cover %d is %v, want %v", i, covers[i], want[i])
		}
	}
	f, err := fit.FamilyOf(context.Background(), s, covers...)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range f.Rows() {
		alone := s
		alone.Cover = covers[i]
		p, err := folio.Build(alone)
		if (err == nil) != (row.Err() == nil) || (p == nil) != (row.Plan() == nil) {
			t.Errorf("row %d: %v, alone %v", i, row.Err(), err)
		}
		if p != nil && tells(p) != tells(row.Plan()) {
			t.Errorf("row %d differs from the folio built alone", i)
		}
	}
	var bad *check.Error
	table := f.Table()
	if len(table) != 4 || !strings.Contains(table[1][8], "too wide") || table[2][0] != "4 1/2 in x 6 1/4 in" {
		t.Errorf("table: %q", table)
	}
	for _, row := range f.Rows() {
		if row.Plan() == nil && !errors.As(row.Err(), &bad) {
			t.Errorf("%v is no list of violations", row.Err())
		}
	}
	// A reader of CSV takes the table, whose rows must be equally long (RFC 4180), and
	// all that must be changed stands in one line, what is wrong with the case too.
	s.Margin.Ideal = units.Inch // as wide on a small cover, too
	if f, err = fit.FamilyOf(context.Background(), s, append(covers, units.Size{W: units.Inch, H: units.Inch}, units.Size{})...); err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := csv.NewWriter(&text).WriteAll(f.Table()); err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(strings.NewReader(text.String())).ReadAll()
	if err != nil || len(records) != 6 {
		t.Fatalf("%d records: %v", len(records), err)
	}
	cases := 0
	for i, row := range f.Rows() {
		why := records[i+1][len(records[i+1])-1]
		if why != row.Why() || (why == "") != (row.Plan() != nil) || strings.ContainsAny(why, "\n\r") {
			t.Errorf("%v: %q, %q", row.Cover(), why, row.Why())
		}
		if errors.As(row.Err(), &bad) {
			for v := range bad.All() {
				if !strings.HasPrefix(v.Path, "fittings[") {
					cases++
				}
				if !strings.Contains(why, v.Want) {
					t.Errorf("%v: %s is not in %q", row.Cover(), v, why)
				}
			}
		}
	}
	if cases < 3 {
		t.Errorf("%d things are wrong with a case", cases)
	}
	if lines := strings.Count(f.String(), "\n"); lines < 4 {
		t.Errorf("the text has %d lines:\n%s", lines, f)
	}
}

// The spine in the table is that between the covers, also where there is one further left.
func TestFamilySpine(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.TwoFlaps} {
		s := folio.Spec{Form: form, Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 40 * mm}}
		f, err := fit.FamilyOf(context.Background(), s, s.Cover)
		if err != nil {
			t.Fatal(err)
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		row := slices.Collect(p.Boards())
		left := slices.IndexFunc(row, func(b folio.Board) bool { return b.Role() == boards.LeftCover })
		if got, want := f.Table()[1][1], p.Notation().Text(row[left+1].Width().Length()); row[left+2].Role() != boards.RightCover || got != want {
			t.Errorf("%v: a spine of %s, between the covers are %s", form, got, want)
		}
	}
	// Where none stands on the left of the board on the table it is the first, if any.
	for want, s := range map[string]folio.Spec{
		"none": {Form: boards.SoftSpine, Spine: rule.Spine{Contents: 10 * mm}},
		"40 mm": {Spine: rule.Spine{Width: 40 * mm}, Row: boards.Row{Main: boards.LeftCover, Joints: make([]boards.Joint, 2), Boards: []boards.Board{
			{Role: boards.LeftCover, Rule: boards.WidthCover}, {Role: boards.Spine1}, {Role: boards.RightCover, Rule: boards.WidthCover},
		}}},
	} {
		s.Cover, s.Rulers = units.Size{W: 150 * mm, H: 200 * mm}, rule.Rulers{Main: units.WholeMillimetres}
		f, err := fit.FamilyOf(context.Background(), s, s.Cover, units.Size{W: 150 * mm, H: mm})
		if err != nil {
			t.Fatal(err)
		}
		table := f.Table()
		if got := table[1][1]; got != want {
			t.Errorf("a spine of %s, want %s: %q", got, want, table)
		}
		if table[1][0] != "150 mm x 200 mm" || table[2][0] != "150 mm x 1 mm" || table[2][1] != "" || table[2][len(table[2])-1] == "" {
			t.Errorf("of one that is made and one that is not: %q", table)
		}
	}
}

func BenchmarkSmallestKeepsake(b *testing.B) {
	s := keepsake()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := fit.Smallest(context.Background(), s, fit.Budget{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A budget that ends early leaves a folio that holds everything all the same, and
// says that it may not be the smallest.
func TestSmallestWithinABudget(t *testing.T) {
	u, _ := pocket.UsualContent("photo 4 x 6 in")
	c, _ := pocket.UsualContent("ID-1 card")
	best, err := fit.Smallest(context.Background(), folio.Spec{}, fit.Budget{}, u.Content, c.Content)
	if err != nil {
		t.Fatal(err)
	}
	area := best.Plan().Spec().Cover.Area()
	for _, steps := range []int64{1, 10, 40, 160, 1000, 1_000_000} {
		least, err := fit.Smallest(context.Background(), folio.Spec{}, fit.Budget{Steps: steps}, u.Content, c.Content)
		if err != nil {
			t.Fatalf("%d steps: %v", steps, err)
		}
		got := least.Plan().Spec().Cover.Area()
		if got.Compare(area) < 0 || least.Complete() && got != area {
			t.Errorf("%d steps: a cover of %v, complete %v", steps, least.Plan().Spec().Cover, least.Complete())
		}
		if len(least.Ways()) != 2 {
			t.Errorf("%d steps: %d ways", steps, len(least.Ways()))
		}
		if c := least.Plan().Spec().Cover; units.Sixteenths.Down(c.W) != c.W || units.Sixteenths.Down(c.H) != c.H {
			t.Errorf("%d steps: a cover of %v is not on the ruler", steps, c)
		}
		if tight, _ := least.Plan().Tightest(true); !tight.Eased() {
			t.Errorf("%d steps: %v", steps, tight)
		}
		// It ends soon after: settling takes some dozens of plans of six steps.
		if least.Steps() > steps+1200 {
			t.Errorf("%d steps: it took %d", steps, least.Steps())
		}
	}
	// Where it ends before the proof, it was not complete: with a label alone, at each of
	// the steps of eight plans.
	label := folio.Spec{Fittings: []folio.Fitting{{Kind: folio.Ornament{Size: units.MustParseSize("2 x 3 in"), Thickness: mm}}}}
	whole := 0
	for steps := int64(1); steps <= 20; steps++ {
		least, err := fit.Smallest(context.Background(), label, fit.Budget{Steps: steps})
		if err != nil {
			t.Fatalf("%d steps: %v", steps, err)
		}
		narrower, lower, _ := least.Proof()
		if least.Complete() {
			whole++
		}
		if least.Complete() && (narrower == nil || lower == nil) {
			t.Errorf("%d steps: complete, without a proof: %v, %v", steps, narrower, lower)
		}
		// However large the cover is, the spine is the narrowest for it.
		thinner := least.Plan().Spec()
		if thinner.Spine.Width -= units.Inch / 16; fulfils(thinner) {
			t.Errorf("%d steps: a cover of %v with a spine of %v", steps, thinner.Cover, least.Plan().Spec().Spine.Width)
		}
	}
	if whole == 0 || whole == 20 {
		t.Errorf("complete with %d of 20 budgets", whole)
	}
	// A context that has ended before there is anything is an error.
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := fit.Smallest(ctx, folio.Spec{}, fit.Budget{}, u.Content); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	sheets := folio.Spec{Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}}}
	if m, err := fit.Largest(ctx, sheets, best.Plan().Spec().Cover); !errors.Is(err, context.Canceled) || m != (fit.Most{}) {
		t.Errorf("cancelled: %v", err)
	}
	if f, err := fit.FamilyOf(ctx, folio.Spec{Spine: rule.Spine{Width: units.Inch}}, best.Plan().Spec().Cover); !errors.Is(err, context.Canceled) || f.String() == "" {
		t.Errorf("cancelled: %v", err)
	}
}

// On a ruler as fine as can be there are too many covers to try, but a spine that
// does is found.
func TestSmallestOnAFineRuler(t *testing.T) {
	nano, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for name, rulers := range map[string]rule.Rulers{
		"all of them": {Main: nano}, "the boards alone": {Main: units.WholeMillimetres, Board: nano},
	} {
		s := folio.Spec{
			Rulers: rulers,
			Fittings: []folio.Fitting{
				{Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: 9 * mm}},
				{Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: 8 * mm}, Panel: boards.LeftCover},
			},
		}
		least, err := fit.Smallest(context.Background(), s, fit.Budget{Steps: 5000}, pocket.Content{Size: units.Size{W: 10 * mm, H: 10 * mm}})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		tight, _ := least.Plan().Tightest(true)
		spec := least.Plan().Spec()
		// The spine goes round the stack with its ease; with a liner on whole
		// millimetres it may be a millimetre more.
		want := tight.Stack().Length() + spec.Closing.Ease + 2*spec.Board.Caliper + 2*spec.Liner.Caliper
		if more := spec.Spine.Width - want; more < 0 || more > 2*mm || name == "all of them" && more != 0 {
			t.Errorf("%s: spine %v, want %v", name, spec.Spine.Width, want)
		}
		if inset := spec.Lining.Inset; spec.Cover.W < 60*mm+2*inset || spec.Cover.W > 100*mm {
			t.Errorf("%s: cover %v", name, spec.Cover)
		}
	}
}

func BenchmarkSmallestTwoPhotographs(b *testing.B) {
	u, _ := pocket.UsualContent("photo 4 x 6 in")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := fit.Smallest(context.Background(), folio.Spec{}, fit.Budget{}, u.Content, u.Content); err != nil {
			b.Fatal(err)
		}
	}
}

// A cover full of mats, and a content that goes nowhere.
func BenchmarkWhereAmong255(b *testing.B) {
	s := folio.Spec{Cover: units.Size{W: 900 * mm, H: 900 * mm}, Spine: rule.Spine{Width: 200 * mm}}
	for i := range units.Length(255) {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Kind:  folio.Mat{Size: units.Size{W: 40 * mm, H: 40 * mm}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: i % 16 * 50 * mm, Y: i / 16 * 50 * mm}},
		})
	}
	p, err := folio.Build(s)
	if err != nil {
		b.Fatal(err)
	}
	thick := pocket.Content{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 300 * mm}
	b.ReportAllocs()
	for b.Loop() {
		for range fit.Of(p).Where(context.Background(), fit.Budget{}, thick) {
			b.Fatal("it goes in")
		}
	}
}

// Two doors share the width of the back with the gap between them: a medal of 40
// mm on each wants a back of two medals, four insets and the gap.
func TestSmallestGate(t *testing.T) {
	medal := folio.Ornament{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm}
	s := folio.Spec{
		Form: boards.DoubleSpineGate, Rulers: rule.Rulers{Main: units.WholeMillimetres}, DoorGap: 6 * mm, Lining: rule.Lining{Inset: 3 * mm},
		Fittings: []folio.Fitting{{Panel: boards.LeftDoor, Kind: medal}, {Panel: boards.RightDoor, Kind: medal}},
	}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	cover := least.Plan().Spec().Cover
	if want := (units.Size{W: (2*(40+2*3) + 6) * mm, H: 66 * mm}); cover.W < want.W || cover.W > want.W+4*mm || cover.H != want.H {
		t.Errorf("a back of %v, want about %v", cover, want)
	}
	if narrower, _, _ := least.Proof(); narrower == nil || !least.Complete() {
		t.Errorf("no proof: %v", narrower)
	}
}

// Whatever is wrong with what is asked for is told at once, steps in the usual numbers.
func TestSmallestTellsEverythingAtOnce(t *testing.T) {
	long, err := units.NewRuler(2*units.Metre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, ruler := range []units.Ruler{-3, long} {
		s := folio.Spec{Rulers: rule.Rulers{Board: ruler}, Block: boards.Block{Page: units.Size{W: 90 * mm, H: 90 * mm}, Thickness: mm}}
		_, err := fit.Smallest(context.Background(), s, fit.Budget{Steps: -1234}, pocket.Content{Size: units.Size{W: mm, H: mm}, Thickness: -mm})
		for path, code := range map[string]check.Code{"block.page": check.Conflict, "rulers.board": check.Unknown, "budget.steps": check.Negative, "contents[0].thickness": check.Negative} {
			if !refusedWith(err, path, code) {
				t.Errorf("no word of %s: %v", path, err)
			}
		}
		if err == nil || !strings.Contains(err.Error(), "-1234") {
			t.Errorf("less than no steps: %v", err)
		}
	}
}

// Every smaller cover was ruled out where nothing follows the cover, whatever follows what
// stands on something else; where one thing does, that is not said, though the cover may be
// the smallest: here it is that for a plate, with which the other goes.
func TestSmallestIsCompleteWhereNothingFollows(t *testing.T) {
	plate := folio.Fitting{Name: "plate", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm}}
	label := folio.Fitting{StandsOn: "plate", Kind: folio.Ornament{Thickness: mm}, Size: place.Filling(place.OfGround, 5*mm)}
	mat := folio.Fitting{Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, 5*mm)}
	for _, c := range []struct {
		fittings []folio.Fitting
		complete bool
	}{{[]folio.Fitting{plate}, true}, {[]folio.Fitting{plate, label}, true}, {[]folio.Fitting{plate, mat}, false}, {[]folio.Fitting{plate, label, mat}, false}} {
		s := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Lining: rule.Lining{Inset: 3 * mm}, Fittings: c.fittings}
		least, err := fit.Smallest(context.Background(), s, fit.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		if cover := least.Plan().Spec().Cover; cover != (units.Size{W: 46 * mm, H: 66 * mm}) || least.Complete() != c.complete {
			t.Errorf("%d fittings: a cover of %v, complete %t", len(c.fittings), cover, least.Complete())
		}
	}
}

// A ruler that nobody can step along is refused by every search.
func TestSearchesRefuseARuler(t *testing.T) {
	ctx, err := context.Background(), error(nil)
	s := folio.Spec{Rulers: rule.Rulers{Board: -3}, Spine: rule.Spine{Width: 20 * mm}, Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: 300 * mm, H: 300 * mm}}}}}
	if _, err := fit.Smallest(ctx, s, fit.Budget{}); !refusedWith(err, "rulers.board", check.Unknown) {
		t.Errorf("smallest: %v", err)
	}
	long := s
	if long.Rulers.Board, err = units.NewRuler(2*units.Metre, units.MetricDecimal); err != nil {
		t.Fatal(err)
	}
	if _, err := fit.Smallest(ctx, long, fit.Budget{}); !refusedWith(err, "rulers.board", check.Unknown) {
		t.Errorf("smallest, in steps of 2 m: %v", err)
	}
	if _, err := fit.Largest(ctx, s, units.Size{W: 2 * mm, H: 3 * mm}); !refusedWith(err, "rulers.board", check.Unknown) {
		t.Errorf("largest: %v", err)
	}
	if _, err := fit.Largest(ctx, long, units.Size{W: 2 * mm, H: 3 * mm}); !refusedWith(err, "rulers.board", check.Unknown) {
		t.Errorf("largest, in steps of 2 m: %v", err)
	}
	// Steps of a metre are as long as they may be.
	if long.Rulers.Board, err = units.NewRuler(units.Metre, units.MetricDecimal); err != nil {
		t.Fatal(err)
	}
	long.Spine, long.Covering = rule.Spine{}, stock.Stock{}
	if least, err := fit.Smallest(ctx, long, fit.Budget{}); err != nil || least.Plan().Spec().Cover.W != units.Metre {
		t.Errorf("smallest, in steps of 1 m: %v", err)
	}
	long.Spine, long.Board = s.Spine, stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: 1500 * mm, H: 1500 * mm}}}}
	if most, err := fit.Largest(ctx, long, units.Size{W: mm, H: mm}); err != nil || most.Plan().Spec().Cover.W != units.Metre {
		t.Errorf("largest, in steps of 1 m: %v", err)
	}
	if _, err := fit.Smallest(ctx, folio.Spec{}, fit.Budget{}, make([]pocket.Content, fit.MostContents+1)...); !refusedWith(err, "contents", check.TooMany) {
		t.Errorf("contents without end: %v", err)
	}
	if _, err := fit.FamilyOf(ctx, folio.Spec{}, make([]units.Size, fit.MostCovers+1)...); !refusedWith(err, "covers", check.TooMany) {
		t.Errorf("covers without end: %v", err)
	}
}

// A label that fills the spine, and a title as wide as that, or as high as that is wide: what follows the spine is as
// small as it lets it be, though it is larger than any cover in a folio that is roomy. It
// is not said that all was tried; but a step less of anything does not do.
func TestSmallestWhereSomethingFollowsTheSpine(t *testing.T) {
	followsTheSpine(t, place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "label"}})
	followsTheSpine(t, place.Sizing{H: place.Relation{Of: place.OfFitting, Fitting: "label", Turned: true}})
}

func followsTheSpine(t *testing.T, size place.Sizing) {
	t.Helper()
	title := folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}
	if size.W.Of != place.OfNothing {
		title.Size.W = 0
	} else {
		title.Size.H = 0
	}
	s := folio.Spec{
		Rulers: rule.Rulers{Main: fiveMillimetres(t)},
		Fittings: []folio.Fitting{
			{Name: "label", Panel: boards.Spine1, Kind: folio.Ornament{Thickness: mm}, Size: place.Filling(place.OfPanel, 0)},
			{Name: "plate", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 40 * mm}, Thickness: 9 * mm}},
			{Name: "title", Kind: title, Size: size},
		},
	}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	found := least.Plan().Spec()
	if !fulfils(found) || found.Cover.W > 60*mm || found.Spine.Width > 40*mm || least.Complete() {
		t.Errorf("a cover of %v, a spine of %v, complete %t", found.Cover, found.Spine.Width, least.Complete())
	}
	// A search that ends before shows what it has tried of just that, or nothing.
	nothing := 0
	for steps := int64(1); steps <= 2*least.Steps(); steps += 1 + steps/40 {
		least, err := fit.Smallest(context.Background(), s, fit.Budget{Steps: steps})
		if err != nil {
			t.Fatalf("%d steps: %v", steps, err)
		}
		found := least.Plan().Spec()
		narrower, lower, thinner := least.Proof()
		for i, err := range []error{narrower, lower, thinner} {
			with := s
			with.Cover, with.Spine = found.Cover, found.Spine
			*[...]*units.Length{&with.Cover.W, &with.Cover.H, &with.Spine.Width}[i] -= 5 * mm
			switch {
			case err == nil:
				if nothing++; steps > least.Steps() {
					t.Errorf("%d steps, of %d that were to be done: nothing of the %s", least.Steps(), steps, [...]string{"width", "height", "spine"}[i])
				}
			case fulfils(with):
				t.Errorf("%d steps: a step less of the %s: %v", steps, [...]string{"width", "height", "spine"}[i], err)
			}
		}
	}
	if nothing == 0 {
		t.Error("every search shows everything")
	}
}

// ending is a context that ends when it has been asked so often.
type ending struct {
	context.Context
	left *int
}

func (e ending) Err() error {
	if *e.left--; *e.left < 0 {
		return context.Canceled
	}
	return nil
}

// Whenever the context ends, there is an error, or a folio that holds everything: the
// smallest one only where it ended after all was tried.
func TestSmallestWhenTheContextEnds(t *testing.T) {
	print := pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}}
	s := folio.Spec{Rulers: rule.Rulers{Main: fiveMillimetres(t)}}
	whole, err := fit.Smallest(context.Background(), s, fit.Budget{}, print, print)
	if err != nil {
		t.Fatal(err)
	}
	gone, some, all := 0, 0, 0
	for n := 0; n < 600; n += 1 + n/8 {
		left := n
		least, err := fit.Smallest(ending{context.Background(), &left}, s, fit.Budget{}, print, print)
		switch {
		case errors.Is(err, context.Canceled):
			gone++
		case err != nil || len(least.Ways()) != 2 || !fulfils(least.Plan().Spec()):
			t.Errorf("ended when asked %d times: %v", n, err)
		case !least.Complete():
			some++
		default:
			all++
			if least.Plan().Spec().Cover != whole.Plan().Spec().Cover {
				t.Errorf("ended when asked %d times, complete with a cover of %v", n, least.Plan().Spec().Cover)
			}
		}
	}
	if gone == 0 || some == 0 || all == 0 {
		t.Errorf("%d errors, %d folios, %d smallest ones", gone, some, all)
	}
}

// What goes into a pocket asks for nothing: the smallest folio with it is the one for
// the pocket, and its ticket may also lie turned.
func TestSmallestWithAContentInItsPocket(t *testing.T) {
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 5}
	s := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: []folio.Fitting{{Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}}}}}
	bare, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	smaller := ticket
	smaller.Size = smaller.Size.Plus(-mm, -mm)
	for _, c := range []pocket.Content{ticket, smaller, smaller.Turned()} {
		least, err := fit.Smallest(context.Background(), s, fit.Budget{}, c)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := least.Plan().Spec(), bare.Plan().Spec(); got.Cover != want.Cover || got.Spine.Width != want.Spine.Width || !least.Complete() {
			t.Errorf("with a ticket of %v a cover of %v and a spine of %v, without %v and %v", c.Size, got.Cover, got.Spine.Width, want.Cover, want.Spine.Width)
		}
	}
}
