package layout_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

func inches(text string) units.Size { return units.MustParseSize(text + " in") }

// keepsake is a folio of common practice: two boards 4 1/2 x 6 1/4 in and a
// spine of 1 in, whose wrap comes out of 12 x 12 in.
func keepsake(t testing.TB) *folio.Plan {
	t.Helper()
	return build(t, keepsakeSpec())
}

func keepsakeSpec() folio.Spec {
	return folio.Spec{
		Title:    "Crew folio",
		Cover:    inches("4 1/2 x 6 1/4"),
		Spine:    rule.Spine{Width: units.Inch},
		Board:    stock.Stock{Name: "chipboard", Caliper: units.Inch / 16},
		Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{{Size: inches("12 x 12")}}},
		Liner:    stock.Stock{Name: "cream paper", Sheets: []stock.Sheet{{Size: inches("8 1/2 x 11")}}},
		Fittings: []folio.Fitting{{Name: "mat", Kind: folio.Mat{Size: inches("3 3/4 x 5 1/4")}}},
	}
}

func build(t testing.TB, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func sheets(size string, n int, grain stock.SheetGrain) layout.SheetKind {
	return layout.SheetKind{Size: inches(size), Count: n, Grain: grain}
}

// keepsakeJob lays out some copies of the keepsake from plenty of sheets.
func keepsakeJob(t testing.TB, copies int) layout.Job {
	return layout.Job{
		Folios: []layout.Folio{{Plan: keepsake(t), Copies: copies}},
		Materials: []layout.Material{
			{Name: "chipboard", Sheets: []layout.SheetKind{sheets("20 x 26", layout.Unlimited, stock.GrainAlongHeight)}},
			{Name: "marbled paper", Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight), sheets("19 x 25", layout.Unlimited, stock.GrainAlongWidth)}},
			{Name: "cream paper", Sheets: []layout.SheetKind{sheets("8 1/2 x 11", layout.Unlimited, stock.GrainUnknown)}},
			{Name: "card", Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)}},
		},
		Cutter: layout.Cutter{LongestCut: 24 * units.Inch},
	}
}

func lay(t testing.TB, job layout.Job) *layout.Layout {
	t.Helper()
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 5_000_000})
	if err != nil {
		t.Fatal(err)
	}
	mustHold(t, job, l)
	return l
}

// Of a folio that was refitted to its cover as measured the boards and the wrap are made
// already: only the liner and the mat are cut, of each copy one.
func TestACoverThatWasMeasuredIsNotCutAgain(t *testing.T) {
	job := keepsakeJob(t, 3)
	made, err := job.Folios[0].Plan.Refit(refit.Measured{Width: units.MustParse("10 3/8 in"), Height: units.MustParse("6 1/4 in")})
	if err != nil {
		t.Fatal(err)
	}
	job.Folios[0].Plan = made
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 5_000_000})
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]int{}
	for w := range l.Pieces() {
		got[w.Name()] += w.Quantity()
	}
	if diff := cmp.Diff(map[string]int{"liner": 3, "mat": 3}, got); diff != "" {
		t.Error(diff)
	}
}

// hand is a job of pieces by hand of one material.
func hand(m layout.Material, pieces ...layout.LoosePiece) layout.Job {
	m.Name = "paper"
	for i := range pieces {
		pieces[i].Material = "paper"
		if pieces[i].Name == "" {
			pieces[i].Name = fmt.Sprint("piece ", i+1)
		}
	}
	return layout.Job{Materials: []layout.Material{m}, Pieces: pieces, Ruler: units.Sixteenths}
}

func piece(size string, n int, g stock.GrainRule, turn layout.TurnRule) layout.LoosePiece {
	return layout.LoosePiece{Size: inches(size), Quantity: n, Grain: g, Turn: turn}
}

func TestKeepsakeAlone(t *testing.T) {
	l := lay(t, keepsakeJob(t, 1))
	for m := range l.Materials() {
		// One folio: two boards and a spine, a wrap, a liner and a mat each
		// come out of one sheet, and none out of less.
		if m.Bought() != 1 || m.Bound() != 1 || !m.Proved() {
			t.Errorf("%s: %d bought, bound %d, proved %v", m.Name(), m.Bought(), m.Bound(), m.Proved())
		}
	}
	// The liner 10 x 6 comes out of 8 1/2 x 11 only turned, so the grain must
	// run along the width of the sheet: the warning says so.
	m, ok := l.Material("cream paper")
	if g, known := m.Assumed(); !ok || !known || g != stock.GrainAlongWidth {
		t.Errorf("liner: assumed %v, %v", g, known)
	}
	found := false
	for w := range l.Warnings() {
		if w.Code == layout.WarnGrain {
			found = strings.Contains(w.Text, "along the width") && strings.Contains(w.Text, "no place")
		}
	}
	if !found {
		t.Error("no warning to find the grain of the cream paper")
	}
}

// Sheets that are taken without a cut, and sheets cut to the last square inch.
func TestHandWorkedSheets(t *testing.T) {
	any, quarter := stock.GrainAny, layout.QuarterTurn
	for _, c := range []struct {
		name   string
		m      layout.Material
		pieces []layout.LoosePiece
		want   int
	}{
		{"as large as the sheet", layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", 5, 0)}}, []layout.LoosePiece{piece("9 x 12", 5, any, quarter)}, 5},
		{"four to a sheet", layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, 0)}}, []layout.LoosePiece{piece("6 x 6", 9, any, quarter)}, 3},
		// 6 x 4: 6 to a sheet of 12 x 12; with trim of 1/4 only 4 are left (11 1/2: 1 x 2 upright and 2 turned).
		{"six to a sheet", layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, 0)}}, []layout.LoosePiece{piece("6 x 4", 12, any, quarter)}, 2},
		// Kerf of 1/8: 6 x 6 no longer goes twice into 12, so one a sheet.
		{"kerf", layout.Material{Cutter: layout.Cutter{Kerf: units.Inch / 8}, Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, 0)}}, []layout.LoosePiece{piece("6 x 6", 3, any, quarter)}, 3},
		{"kerf that fits", layout.Material{Cutter: layout.Cutter{Kerf: units.Inch / 8}, Sheets: []layout.SheetKind{sheets("12 1/8 x 12 1/8", layout.Unlimited, 0)}}, []layout.LoosePiece{piece("6 x 6", 4, any, quarter)}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := lay(t, hand(c.m, c.pieces...))
			if l.Bought() != c.want || !l.Proved() {
				t.Errorf("%d sheets, proved %v; want %d", l.Bought(), l.Proved(), c.want)
			}
		})
	}
}

func TestOffcutsGoFirst(t *testing.T) {
	off := sheets("7 x 7", 2, 0)
	off.Offcut = true
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 6", layout.Unlimited, 0), off}}, piece("6 x 6", 4, stock.GrainAny, layout.QuarterTurn))
	l := lay(t, job)
	if m, _ := l.Material("paper"); m.Bought() != 1 || m.FromOffcuts() != 2 || !m.Proved() {
		t.Errorf("%d bought, %d offcuts", m.Bought(), m.FromOffcuts())
	}
	// What is left goes into the next job: nothing of the offcuts, and the
	// strips of 1 x 7 and 1 x 6 that came off them are worth keeping.
	for _, k := range l.Left()[0].Sheets {
		if k.Offcut && k.Size == inches("7 x 7") {
			t.Error("used offcuts are still there")
		}
	}
	next := job
	next.Materials = l.Left()
	if _, err := layout.Lay(context.Background(), next, layout.Budget{Steps: 1}); err != nil {
		t.Errorf("what is left makes no job: %v", err)
	}
}

func TestGrainAndPattern(t *testing.T) {
	parallel, any := stock.GrainParallel, stock.GrainAny
	long, wide, unknown := stock.GrainAlongHeight, stock.GrainAlongWidth, stock.GrainUnknown
	// 8 x 5 pieces on 16 x 10 sheets: four upright, and turned only 2 (5 x 8,
	// three across, one down: 3).
	for _, c := range []struct {
		name  string
		grain stock.SheetGrain
		piece layout.LoosePiece
		want  int // sheets for 12 pieces; 0: impossible
	}{
		{"free", wide, piece("8 x 5", 12, any, layout.QuarterTurn), 3},
		{"grain with the sheet", long, piece("8 x 5", 12, parallel, layout.QuarterTurn), 3},
		{"grain across the sheet", wide, piece("8 x 5", 12, parallel, layout.QuarterTurn), 4},
		{"unknown grain", unknown, piece("8 x 5", 12, parallel, layout.QuarterTurn), 3},
		{"one-way pattern", wide, piece("8 x 5", 12, any, layout.NoTurn), 3},
		{"stripes", wide, piece("5 x 8", 12, any, layout.HalfTurn), 4},
		{"pattern and grain agree", long, piece("8 x 5", 12, parallel, layout.NoTurn), 3},
		{"pattern with unknown grain", unknown, piece("8 x 5", 12, parallel, layout.NoTurn), 3},
		{"pattern and grain contradict", wide, piece("8 x 5", 12, parallel, layout.NoTurn), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("16 x 10", layout.Unlimited, c.grain)}}, c.piece)
			l, err := layout.Lay(context.Background(), job, layout.Budget{})
			if c.want == 0 {
				var bad *check.Error
				if !errors.As(err, &bad) || l == nil {
					t.Fatalf("error %v, layout %v", err, l)
				}
				if v, ok := bad.Find("materials[0].sheets", layout.GrainCross); !ok || v.Nature != check.Impossible {
					t.Errorf("error %v", err)
				}
				mustHold(t, job, l)
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			mustHold(t, job, l)
			if l.Bought() != c.want || !l.Proved() {
				t.Errorf("%d sheets, want %d, proved %v", l.Bought(), c.want, l.Proved())
			}
		})
	}
}

// A sheet on which pattern and grain contradict each other is left out, with a
// warning, where others are there.
func TestSheetLeftOut(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{
		sheets("16 x 10", layout.Unlimited, stock.GrainAlongWidth), sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight),
	}}, piece("8 x 5", 4, stock.GrainParallel, layout.NoTurn))
	l := lay(t, job)
	n := 0
	for w := range l.Warnings() {
		if w.Code == layout.WarnLeftOut && w.Path == "materials[0].sheets[0]" {
			n++
		}
	}
	if n != 1 || l.Bought() != 2 {
		t.Errorf("%d warnings, %d sheets", n, l.Bought())
	}
}

func TestErrorsAllAtOnce(t *testing.T) {
	job := layout.Job{
		Folios: []layout.Folio{{Copies: 2}, {Plan: keepsake(t), Copies: -2}},
		Pieces: []layout.LoosePiece{
			{Name: "a", Material: "gold leaf", Size: inches("1 x 1"), Quantity: 1},
			{Name: "b", Material: "paper", Size: units.Size{W: -1, H: 0}, Quantity: 1, Turn: 9, Grain: 7},
			{Name: "c", Material: "empty", Size: inches("1 x 1"), Quantity: 1},
		},
		Materials: []layout.Material{
			{Name: "paper", Sheets: []layout.SheetKind{{Size: inches("12 x 12"), Count: -7, Grain: 9, Trim: -1, Price: money.Amount{Minor: -5, Currency: money.Currency{Code: "usd", Decimals: 2}}}}},
			{Name: "paper"},
			{Name: "empty"},
		},
		Cutter: layout.Cutter{Kerf: -2, LongestCut: -3},
	}
	l, err := layout.Lay(context.Background(), job, layout.Budget{})
	var bad *check.Error
	if l != nil || !errors.As(err, &bad) {
		t.Fatalf("layout %v, error %v", l, err)
	}
	for _, want := range []struct {
		path string
		code check.Code
	}{
		{"folios[0].plan", check.Missing}, {"folios[1].copies", check.Negative},
		{"pieces[0].material", check.Missing}, {"pieces[1].size.w", check.NotPositive}, {"pieces[1].size.h", check.NotPositive},
		{"pieces[1].turn", check.Unknown}, {"pieces[1].grain", check.Unknown}, {"materials[2].sheets", check.Missing},
		{"materials[0].sheets[0].count", check.Negative}, {"materials[0].sheets[0].grain", check.Unknown},
		{"materials[0].sheets[0].trim", check.Negative}, {"materials[0].sheets[0].price", check.Negative},
		{"materials[0].sheets[0].price.currency", check.Unknown}, {"materials[1].name", check.Conflict},
		{"cutter.kerf", check.Negative}, {"cutter.longestcut", check.Negative},
	} {
		if v, ok := bad.Find(want.path, want.code); !ok || v.Nature != check.Malformed {
			t.Errorf("no %s at %s in\n%v", want.code, want.path, err)
		}
	}
	two := keepsakeJob(t, 1)
	two.Materials[0].Sheets[0].Price = usd(100)
	two.Materials[1].Sheets[0].Price = money.Amount{Minor: 1, Currency: money.Currency{Code: "EUR", Decimals: 2}}
	if _, err := layout.Lay(context.Background(), two, layout.Budget{}); !errors.As(err, &bad) {
		t.Fatal("two currencies pass")
	} else if _, ok := bad.Find("materials[1].sheets[0].price.currency", check.Conflict); !ok {
		t.Error(err)
	}
}

// What cannot be cut is said, all of it, and the rest is laid out.
func TestImpossible(t *testing.T) {
	kind := sheets("12 x 12", 2, stock.GrainAlongHeight)
	kind.Trim = units.Inch / 4
	job := hand(layout.Material{Sheets: []layout.SheetKind{kind, sheets("20 x 26", 1, stock.GrainAlongHeight)}, Cutter: layout.Cutter{LongestCut: 15 * units.Inch}},
		piece("11 x 11", 1, stock.GrainParallel, layout.QuarterTurn), piece("11 x 11", 4, stock.GrainParallel, layout.QuarterTurn),
		piece("30 x 2", 1, stock.GrainAny, layout.QuarterTurn),
		piece("16 x 16", 1, stock.GrainParallel, layout.QuarterTurn))
	l, err := layout.Lay(context.Background(), job, layout.Budget{})
	var bad *check.Error
	if l == nil || !errors.As(err, &bad) {
		t.Fatalf("layout %v, error %v", l, err)
	}
	mustHold(t, job, l)
	// A sheet of 2 x 30 in inside a trim of 1/4 in all round.
	if v, ok := bad.Find("materials[0].sheets", layout.SheetSmall); !ok || !strings.Contains(v.Want, "2 1/2 x 30 1/2 in") {
		t.Errorf("least sheet: %v", err)
	}
	// 16 x 16 out of 20 x 26 takes a first cut along the 20, in rows, then a
	// cut of 16: the longest cut must be 20 in.
	if v, ok := bad.Find("materials[0].cutter.longestcut", layout.CutShort); !ok || v.Limit != 20*units.Inch || v.By != 5*units.Inch {
		t.Errorf("longest cut: %v", err)
	}
	// The sheet of 20 x 26 cannot be cut at all, so two of five are placed.
	v, ok := bad.Find("materials[0].sheets", layout.NotEnough)
	if !ok || !strings.Contains(v.Got, "3 of 5 pieces") || !strings.Contains(v.Want, "3 more of") {
		t.Errorf("too few: %v", err)
	}
	m, _ := l.Material("paper")
	n := 0
	for s := range m.Short() {
		if s.Piece().Name() == "piece 2" && s.Fits() {
			n = s.Copies()
		}
	}
	if n != 3 || l.Complete() || m.Bought() != 2 {
		t.Errorf("%d short, complete %v, bought %d", n, l.Complete(), m.Bought())
	}
	// Who asks for savings is refused in the same words.
	if _, _, refused := layout.Savings(context.Background(), job, layout.Tolerance{}, layout.Budget{}); refused == nil || refused.Error() != err.Error() || !strings.Contains(v.Got, ": 3 x piece 2") {
		t.Errorf("%v; savings: %v", err, refused)
	}
}

// With that longest cut, and no other way to get round it, the piece does come
// out; with a nanometre less it does not.
func TestLeastLongestCut(t *testing.T) {
	for _, c := range []struct {
		sheet, piece string
		turn         stock.GrainRule
		trim         units.Length
		least        string
	}{
		{"20 x 26", "16 x 16", stock.GrainParallel, 0, "20 in"},
		{"20 x 26", "20 x 22", stock.GrainParallel, 0, "20 in"}, // full width: one cut across
		{"20 x 26", "20 x 22", stock.GrainParallel, units.Inch, ""},
		{"26 x 20", "22 x 20", stock.GrainParallel, 0, "20 in"}, // full height: one cut along it
		{"20 x 26", "5 x 23", stock.GrainParallel, 0, "23 in"},
		{"20 x 26", "5 x 23", stock.GrainParallel, units.Inch, "23 in"},
		{"20 x 26", "5 x 19", stock.GrainParallel, 0, "20 in"},
		{"26 x 20", "5 x 23", stock.GrainAny, 0, "23 in"}, // a quarter round, as the next
		{"26 x 20", "23 x 5", stock.GrainAny, 0, "23 in"}, // a column of 23 x 20 is cut off along 20, then cut along 23
	} {
		t.Run(c.sheet+" "+c.piece, func(t *testing.T) {
			kind := sheets(c.sheet, 1, stock.GrainAlongHeight)
			kind.Trim = c.trim
			try := func(cut units.Length) error {
				job := hand(layout.Material{Sheets: []layout.SheetKind{kind}, Cutter: layout.Cutter{LongestCut: cut}}, piece(c.piece, 1, c.turn, layout.QuarterTurn))
				l, err := layout.Lay(context.Background(), job, layout.Budget{})
				if l != nil {
					mustHold(t, job, l)
				}
				return err
			}
			if c.least == "" {
				var bad *check.Error
				if err := try(30 * units.Inch); !errors.As(err, &bad) {
					t.Fatal("does not fit, but no error")
				} else if _, ok := bad.Find("", layout.SheetSmall); !ok {
					t.Error(err)
				}
				return
			}
			least := units.MustParse(c.least)
			var bad *check.Error
			if err := try(units.Inch); !errors.As(err, &bad) {
				t.Fatal("a cut of 1 in is enough")
			} else if v, ok := bad.Find("", layout.CutShort); !ok || v.Limit != least {
				t.Errorf("%v, want a limit of %v", err, least)
			}
			if err := try(least); err != nil {
				t.Error(err)
			}
			if err := try(least - 1); err == nil {
				t.Error("a nanometre less is enough")
			}
		})
	}
}

func TestExceptAndMaterialsOf(t *testing.T) {
	p := keepsake(t)
	list := layout.MaterialsOf(p, nil, p)
	names := ""
	for _, m := range list {
		names += m.Name + " " + fmt.Sprint(len(m.Sheets)) + ", "
	}
	if names != "chipboard 0, marbled paper 1, cream paper 1, card 0, " {
		t.Errorf("materials: %s", names)
	}
	if k := list[1].Sheets[0]; k.Size != inches("12 x 12") || k.Count != layout.Unlimited || k.Offcut {
		t.Errorf("sheet %+v", k)
	}
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 3}}, Materials: list}
	_, err := layout.Lay(context.Background(), job, layout.Budget{})
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 2 {
		t.Fatalf("board and card without sheets: %v", err)
	}
	job.Except = []string{"chipboard", "card"}
	l := lay(t, job)
	for w := range l.Pieces() {
		if w.Material() == "card" || w.Material() == "chipboard" {
			t.Errorf("%s is laid out", w.Name())
		}
	}
	if l.Bought() != 6 {
		t.Errorf("%d sheets for three wraps and three liners", l.Bought())
	}
}

// The same job gives the same bytes; a job is not touched; a done context
// still gives a whole layout.
func TestSameBytesAndStopping(t *testing.T) {
	job := keepsakeJob(t, 17)
	before := fmt.Sprintf("%+v", job.Materials)
	a, b := dump(lay(t, job)), dump(lay(t, job))
	if a != b {
		t.Error("two runs differ")
	}
	if fmt.Sprintf("%+v", job.Materials) != before {
		t.Error("the job was changed")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	l, err := layout.Lay(ctx, job, layout.Budget{Steps: 1 << 50})
	if err != nil || !l.Stopped() || !l.Complete() {
		t.Fatalf("error %v, stopped %v", err, l.Stopped())
	}
	mustHold(t, job, l)
}

// dump writes down all that a layout says.
func dump(l *layout.Layout) string {
	var s strings.Builder
	for m := range l.Materials() {
		fmt.Fprintln(&s, m.Name(), m.Bought(), m.Bound(), m.Proved(), m.Areas(), m.Price())
		for sh := range m.Sheets() {
			for i, p := range sh.Parts() {
				a, b := p.Cuts()
				fmt.Fprintln(&s, i, p.Rect(), p.Use(), a, b)
			}
		}
		for o := range m.Offcuts() {
			fmt.Fprintln(&s, o.Size(), o.Count())
		}
	}
	for st := range l.Steps() {
		fmt.Fprintln(&s, st.Number(), st.Text(units.Format{}), st.Care())
	}
	for w := range l.Warnings() {
		fmt.Fprintln(&s, w)
	}
	return s.String()
}

// The order of work in words, for a sheet whose cuts can be seen at a glance.
func TestStepsInWords(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)}},
		piece("6 x 4", 12, stock.GrainParallel, layout.QuarterTurn))
	l := lay(t, job)
	texts := []string{}
	for s := range l.Steps() {
		texts = append(texts, s.Text(units.Format{Ruler: units.Sixteenths}))
	}
	want := []string{
		"Take 2 sheets of paper, 12 x 12 in.",
		"From the left edge set 6 in, cut each: 4 x part 6 x 12 in.",
		"Turn; 4 parts 6 x 12 in: from the head edge set 4 in, cut 2 times each: 12 x piece 1.",
	}
	if diff := cmp.Diff(want, texts); diff != "" {
		t.Error(diff)
	}
	job.Pieces[0].Quantity = 6 // out of one sheet there are two halves
	if step, want := slices.Collect(lay(t, job).Steps())[1].Text(units.Format{}), "From the left edge set 6 in, cut: 2 x part 6 x 12 in."; step != want {
		t.Errorf("%s\nwant %s", step, want)
	}
	job.Ruler = 0
	if n := lay(t, job).Notation(); n != units.MetricDecimal {
		t.Errorf("a job without plan and ruler writes %v", n)
	}
}

func usd(cents int64) money.Amount {
	return money.Amount{Minor: cents, Currency: money.Currency{Code: "USD", Decimals: 2}}
}

// wraps is a job of which only the wraps are laid out: 12 x 8 1/4 in for the
// first folio (margins 7/8 and 1 in), 11 x 7 1/4 for the second (cover 4 x 5
// 1/4: open 9 1/4, with margins of 7/8 and 1 in).
func wraps(t testing.TB, copies []int, kind layout.SheetKind) layout.Job {
	job := layout.Job{
		Materials: []layout.Material{{Name: "marbled paper", Sheets: []layout.SheetKind{kind}}},
		Except:    []string{"chipboard", "cream paper", "card"},
	}
	for i, n := range copies {
		s := keepsakeSpec()
		s.Fittings = nil
		if i == 1 {
			s.Cover = inches("4 x 5 1/4")
			s.Covering.Sheets = []stock.Sheet{{Size: inches("11 x 12"), Grain: stock.GrainAlongHeight}}
		}
		job.Folios = append(job.Folios, layout.Folio{Plan: build(t, s), Copies: n})
	}
	return job
}

// A thousand strips of 1 mm are cut at one setting of the fence, from four
// sheets of 12 x 12 in, the last of which is not cut up.
func TestOneSetting(t *testing.T) {
	strip := layout.LoosePiece{Name: "strip", Material: "paper", Size: units.Size{W: units.Millimetre, H: 12 * units.Inch}, Quantity: 1000}
	l := lay(t, layout.Job{Pieces: []layout.LoosePiece{strip}, Materials: []layout.Material{{Name: "paper", Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)}}}})
	if n, least := l.Settings(); n != 1 || least != 1 || l.Bought() != 4 {
		t.Errorf("%d settings, at least %d, %d sheets", n, least, l.Bought())
	}
	if n, least := l.Cuts(); n != 1000 || least != 1000 {
		t.Errorf("%d cuts, at least %d", n, least)
	}
}

// Paper of 0.2 mm under a cutter that takes 1 mm is cut five at a time, with the
// caution for stacks; 24 sheets make five stacks, each cut once for a mat of half
// the sheet.
func TestStacks(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)}, Caliper: units.Millimetre / 5},
		piece("6 x 12", 48, stock.GrainParallel, layout.QuarterTurn))
	single := lay(t, job)
	job.Cutter = layout.Cutter{LongestCut: 18 * units.Inch, Stack: units.Millimetre}
	stacked := lay(t, job)
	fewer := job
	fewer.Pieces = []layout.LoosePiece{job.Pieces[0]}
	fewer.Pieces[0].Quantity = 42 // four stacks of five sheets and one sheet
	fifth := lay(t, fewer)
	for _, c := range []struct {
		l       *layout.Layout
		strokes int
		stack   int
		care    string
		text    string
	}{
		{single, 24, 1, work.CareBlade.Text(), "From the left edge set 6 in, cut each: 48 x piece 1."},
		{fifth, 5, 5, layout.CareStack, "From the left edge set 6 in, cut in stacks of up to 5: 42 x piece 1."},
		{stacked, 5, 5, layout.CareStack, "From the left edge set 6 in, cut in stacks of up to 5: 48 x piece 1."},
	} {
		n, least := c.l.Cuts()
		if n != c.strokes || least != c.strokes {
			t.Errorf("%d cuts, at least %d; want %d", n, least, c.strokes)
		}
		for s := range c.l.Steps() {
			if !s.Takes() && (s.Stack() != c.stack || s.Care() != c.care || s.Text(units.Format{}) != c.text) {
				t.Errorf("stack of %d, %q, %q", s.Stack(), s.Care(), s.Text(units.Format{}))
			}
		}
	}
	// Paper of which nobody knows how thick it is does not go into a stack.
	job.Materials[0].Caliper = 0
	if n, _ := lay(t, job).Cuts(); n != 24 {
		t.Errorf("%d cuts of paper of unknown thickness", n)
	}
	job.Materials[0].Caliper, job.Cutter.Stack = -1, -1
	_, err := layout.Lay(t.Context(), job, layout.Budget{})
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal("a negative stack")
	}
	for _, path := range []string{"cutter.stack", "materials[0].caliper"} {
		if _, ok := bad.Find(path, check.Negative); !ok {
			t.Errorf("nothing at %s: %v", path, err)
		}
	}
}

// The sheets of a material are cut up together where that spares settings, and
// one after the other where it does not: mats of 4 x 6 and 5 x 6 in.
func TestPasses(t *testing.T) {
	for _, c := range []struct {
		first, second string
		settings      int
		want          []string
	}{
		// Without waste: what is left beside the mats of 4 in is one of 5 in.
		{"13 x 6", "9 x 6", 1, []string{
			"Sheet 1: take 1 sheet of paper, 13 x 6 in.",
			"Sheet 1: from the left edge set 4 in, cut 2 times: 2 x piece 1; 1 x piece 2.",
			"Sheet 2: take 1 sheet of paper, 9 x 6 in.",
			"Sheet 2: same setting, 4 in from the left edge, cut: 1 x piece 1; 1 x piece 2.",
		}},
		{"13 1/4 x 6", "9 1/4 x 6", 2, []string{
			"Sheet 1: take 1 sheet of paper, 13 1/4 x 6 in.",
			"Sheet 2: take 1 sheet of paper, 9 1/4 x 6 in.",
			"Sheet 1: from the left edge set 5 in, cut: 1 x piece 2; part 8 1/4 x 6 in.",
			"Sheet 2: same setting, 5 in from the left edge, cut: 1 x piece 2; part 4 1/4 x 6 in.",
			"1 part 8 1/4 x 6 in of sheet 1: from the left edge set 4 in, cut 2 times: 2 x piece 1.",
			"1 part 4 1/4 x 6 in of sheet 2: same setting, 4 in from the left edge, cut: 1 x piece 1.",
		}},
	} {
		job := hand(layout.Material{Sheets: []layout.SheetKind{sheets(c.first, 1, stock.GrainAlongHeight), sheets(c.second, 1, stock.GrainAlongHeight)}},
			piece("4 x 6", 3, stock.GrainParallel, layout.QuarterTurn), piece("5 x 6", 2, stock.GrainParallel, layout.QuarterTurn))
		l := lay(t, job)
		if n, least := l.Settings(); n != c.settings || least != c.settings || l.Bought() != 2 {
			t.Errorf("%d settings, at least %d, %d sheets", n, least, l.Bought())
		}
		var texts []string
		for s := range l.Steps() {
			texts = append(texts, s.Text(units.Format{}))
		}
		if diff := cmp.Diff(c.want, texts); diff != "" {
			t.Error(diff)
		}
	}
}

// What a job needs and has sheets of is added with them, what there are no sheets of is
// lacking, and what the job lists or excepts itself is neither.
func TestStocked(t *testing.T) {
	const mm = units.Millimetre
	s := folio.Spec{Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	s.Covering.Name, s.Covering.Sheets = "marbled", []stock.Sheet{{Size: units.Size{W: 500 * mm, H: 700 * mm}}}
	s.Board.Name, s.Liner.Name = "greyboard", "plain"
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		listed, excepted string
		stocked, lacking []string
	}{
		{"", "", []string{"marbled"}, []string{"greyboard", "plain"}},
		{"greyboard", "", []string{"greyboard", "marbled"}, []string{"plain"}},
		{"", "plain", []string{"marbled"}, []string{"greyboard"}},
		{"marbled", "greyboard", []string{"marbled"}, []string{"plain"}},
	} {
		j := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}}
		if c.listed != "" {
			j.Materials = []layout.Material{{Name: c.listed}}
		}
		if c.excepted != "" {
			j.Except = []string{c.excepted}
		}
		got, lacking := j.Stocked()
		var names []string
		for _, m := range got.Materials {
			if names = append(names, m.Name); m.Name != c.listed && len(m.Sheets) == 0 {
				t.Errorf("%+v: there are no sheets of %s", c, m.Name)
			}
		}
		if !slices.Equal(names, c.stocked) || !slices.Equal(lacking, c.lacking) {
			t.Errorf("%+v: stocked %q, lacking %q", c, names, lacking)
		}
	}
}
