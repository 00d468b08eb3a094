package layout_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// texts are the steps of a layout in words.
func texts(l *layout.Layout) []string {
	var list []string
	for s := range l.Steps() {
		list = append(list, s.Text(units.Format{}))
	}
	return list
}

// What is taken in hand is told with how it lies, and how pieces may lie on it.
func TestTakenInWords(t *testing.T) {
	along, any := stock.GrainAlongWidth, stock.GrainAny
	for _, c := range []struct {
		sheet string
		grain stock.SheetGrain
		piece layout.LoosePiece
		want  string
	}{
		{"12 x 9", along, piece("9 x 8", 2, stock.GrainParallel, layout.QuarterTurn), "Take 2 sheets of paper, 9 x 12 in, turned so that the grain and the second of these run away from you."},
		{"9 x 9", along, piece("9 x 8", 2, stock.GrainParallel, layout.QuarterTurn), "Take 2 sheets of paper, 9 x 9 in, turned a quarter so that the grain runs away from you."},
		{"12 x 9", along, piece("12 x 9", 1, any, layout.NoTurn), "Take 1 sheet of paper, 12 x 9 in, the pattern upright; every piece keeps its head at the top. It needs no cut: 1 x piece 1."},
		{"12 x 9", along, piece("12 x 9", 2, any, layout.HalfTurn), "Take 2 sheets of paper, 12 x 9 in, the pattern up and down; pieces may be upside down. It needs no cut: 2 x piece 1."},
		{"12 x 9", along, piece("9 x 12", 1, any, layout.QuarterTurn), "Take 1 sheet of paper, 12 x 9 in. It needs no cut: 1 x piece 1 (turned)."},
	} {
		l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{sheets(c.sheet, 2, c.grain)}}, c.piece))
		if got := texts(l); got[0] != c.want {
			t.Errorf("%s\nwant %s", got[0], c.want)
		}
	}
	// An offcut is called so, and one of several sheets by its number.
	off := sheets("6 x 6", 1, along)
	off.Offcut = true
	l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{off, sheets("8 x 8", 1, along)}}, piece("6 x 6", 1, any, layout.NoTurn), piece("8 x 8", 1, any, layout.NoTurn)))
	for _, want := range []string{"take 1 offcut of paper, 6 x 6 in, the pattern upright; every", "take 1 sheet of paper, 8 x 8 in, the pattern upright; every"} {
		if n := len(slices.DeleteFunc(texts(l), func(s string) bool { return !strings.HasPrefix(s, "Sheet ") || !strings.Contains(s, want) })); n != 1 {
			t.Errorf("%d of %q in %q", n, want, texts(l))
		}
	}
}

// A column of 7 x 12 in beside one of 5 x 12 in on each of two sheets, or two of 6 x 12 in
// on each of three: there is no other way. What is cut on two sheets names both, what is
// cut on three in a row the first and the last.
func TestSheetsInWords(t *testing.T) {
	along, q := stock.GrainParallel, layout.QuarterTurn
	m := layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)}}
	for want, job := range map[string]layout.Job{
		"heets 1 and 2": hand(m, piece("7 x 4", 3, along, q), piece("7 x 3", 4, along, q), piece("5 x 12", 2, along, q)),
		"heets 1 to 3":  hand(m, piece("6 x 4", 6, along, q), piece("6 x 3", 8, along, q), piece("6 x 2", 12, along, q)),
	} {
		l := lay(t, job)
		all := strings.Join(texts(l), "\n")
		if !strings.Contains(all, want+":") || strings.Contains(all, "1 to 2") || strings.Contains(all, "1, 2") {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
}

// The fence may stand where the material before left it, if the cutter is the same:
// halves of 12 x 6 in of two materials, then strips of 5 in; one is not cut.
func TestFenceBetweenMaterials(t *testing.T) {
	job := layout.Job{Ruler: units.Sixteenths}
	for _, m := range []struct{ name, piece string }{{"paper", "6 x 6"}, {"card", "6 x 6"}, {"felt", "12 x 6"}, {"tin", "5 x 6"}} {
		job.Materials = append(job.Materials, layout.Material{Name: m.name, Sheets: []layout.SheetKind{sheets("12 x 6", layout.Unlimited, 0)}})
		job.Pieces = append(job.Pieces, layout.LoosePiece{Name: m.name, Material: m.name, Size: inches(m.piece), Quantity: 2, Turn: layout.NoTurn, Grain: stock.GrainAny})
	}
	l := lay(t, job)
	upright := ", the pattern upright; every piece keeps its head at the top."
	want := []string{
		"Take 1 sheet of paper, 12 x 6 in" + upright,
		"From the left edge set 6 in, cut: 2 x paper.",
		"Take 1 sheet of card, 12 x 6 in" + upright,
		"Same setting, 6 in from the left edge, cut: 2 x card.",
		"Take 2 sheets of felt, 12 x 6 in" + upright + " It needs no cut: 2 x felt.",
		"Take 1 sheet of tin, 12 x 6 in" + upright,
		"From the left edge set 5 in, cut 2 times: 2 x tin; offcut 2 x 6 in to keep.",
	}
	if diff := cmp.Diff(want, texts(l)); diff != "" {
		t.Error(diff)
	}
	// Each of the three could go on where the one before left the fence.
	if n, least := l.Settings(); n != 2 || least != 1 {
		t.Errorf("%d settings, at least %d", n, least)
	}
	if n, least := l.Cuts(); n != 4 || least != 4 {
		t.Errorf("%d cuts, at least %d", n, least)
	}
	// A walk may be left anywhere.
	for n := range want {
		k := 0
		for range l.Steps() {
			if k++; k > n {
				break
			}
		}
	}
	// Another cutter has a fence of its own.
	job.Materials[1].Cutter.LongestCut = 20 * units.Inch
	l = lay(t, job)
	if n, _ := l.Settings(); n != 3 || !slices.Contains(texts(l), "From the left edge set 6 in, cut: 2 x card.") {
		t.Errorf("%d settings: %q", n, texts(l))
	}
}

// What is wrong in words, every word of it worked out by hand.
func TestWrongInWords(t *testing.T) {
	along, q, any := stock.GrainParallel, layout.QuarterTurn, stock.GrainAny
	trimmed, plain := sheets("20 x 20", 1, stock.GrainAlongHeight), sheets("9 x 20", 1, stock.GrainAlongHeight)
	trimmed.Trim = units.Inch / 2
	both := layout.Material{Sheets: []layout.SheetKind{trimmed, plain}}
	// Of mats more than half as wide and high as the sheet one comes out of each.
	many := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", 1, stock.GrainAlongHeight)}})
	for i := range 10 {
		many.Pieces = append(many.Pieces, layout.LoosePiece{Name: fmt.Sprint("mat ", i+1), Material: "paper", Size: inches("7 x 7"), Quantity: i + 1, Grain: along})
		many.Pieces[i].Size.W += units.Length(i) * units.Inch / 16
	}
	small := func(sheet, high units.Length) layout.Job {
		kind := layout.SheetKind{Size: units.Size{W: 11 * units.Millimetre, H: sheet}, Count: 1, Trim: 5 * units.Millimetre}
		wide := 2 * units.Millimetre
		if high == units.Longest {
			wide = 12 * units.Millimetre
		}
		return hand(layout.Material{Sheets: []layout.SheetKind{kind}}, layout.LoosePiece{Size: units.Size{W: wide, H: high}, Quantity: 1, Grain: any})
	}
	short := hand(layout.Material{Sheets: []layout.SheetKind{trimmed}}, piece("16 x 17", 1, along, layout.NoTurn))
	short.Cutter.LongestCut = 15 * units.Inch
	own := hand(layout.Material{Sheets: []layout.SheetKind{trimmed}, Cutter: layout.Cutter{LongestCut: 15 * units.Inch}}, piece("16 x 17", 1, along, layout.NoTurn))
	gold := hand(both, piece("6 x 4", 0, along, q), piece("6 x 4", 1, along, q), piece("6 x 4", 1, along, q), piece("6 x 4", 1, along, q), piece("6 x 4", 1, along, q))
	gold.Materials = append(gold.Materials, layout.Material{Name: "tin"})
	gold.Pieces[1].Material, gold.Pieces[2].Material, gold.Pieces[3].Material, gold.Pieces[4].Material = "tin", "tin", "gold", "gold"
	none := gold
	none.Materials = nil
	for _, c := range []struct {
		job  layout.Job
		want []string
	}{
		{many, []string{`materials[0].sheets: not-enough: got too few sheets of "paper": no place for 54 of 55 pieces: 1 x mat 1, 2 x mat 2, 3 x mat 3, 4 x mat 4, 5 x mat 5, 6 x mat 6, 7 x mat 7, 8 x mat 8 and others; want 54 more of 12 x 12 in, which will do, or fewer pieces`}},
		// Two strips of 7 x 19 go on a sheet of 19 x 19, of 9 x 20 only one of 9 x 20.
		{hand(both, piece("7 x 19", 7, along, q), piece("9 x 20", 2, along, q)),
			[]string{`materials[0].sheets: not-enough: got too few sheets of "paper": no place for 6 of 9 pieces: 5 x piece 1, 1 x piece 2; want 3 more of 20 x 20 in and 1 more of 9 x 20 in, which will do, or fewer pieces`}},
		// 12 mm are 0.47244... in, and up 0.4725; with a trim no sheet may be longer than 10 m.
		{small(11*units.Millimetre, 2*units.Millimetre), []string{`materials[0].sheets: sheet-small: got "piece 1" ~0.0787 x ~0.0787 in out of "paper"; want a sheet of at least 0.4725 x 0.4725 in with its trim of ~0.1969 in, or the other way round`}},
		{small(units.Longest, units.Longest), []string{`materials[0].sheets: sheet-small: got "piece 1" ~0.4724 x ~393.7008 in out of "paper"; want a sheet of at least 0.4725 x 393.7008 in without trim, or the other way round`}},
		// An offcut that is used up is none of what more would do.
		{hand(layout.Material{Sheets: []layout.SheetKind{{Size: inches("20 x 20"), Count: 1, Offcut: true}, sheets("12 x 12", 1, 0)}}, piece("12 x 12", 5, any, q)),
			[]string{`materials[0].sheets: not-enough: got too few sheets of "paper": no place for 3 of 5 pieces: 3 x piece 1; want 3 more of 12 x 12 in, which will do, or fewer pieces`}},
		{hand(both, piece("25 x 7", 1, any, q), piece("25 x 8", 1, along, q), piece("25 x 9", 1, any, layout.NoTurn)), []string{
			`materials[0].sheets: sheet-small: got "piece 1" 25 x 7 in out of "paper"; want a sheet of at least 8 x 26 in with its trim of 1/2 in, or the other way round`,
			`materials[0].sheets: sheet-small: got "piece 2" 25 x 8 in out of "paper"; want a sheet of at least 26 x 9 in with its trim of 1/2 in, grain along the height`,
			`materials[0].sheets: sheet-small: got "piece 3" 25 x 9 in out of "paper"; want a sheet of at least 26 x 10 in with its trim of 1/2 in`,
		}},
		{hand(layout.Material{Sheets: []layout.SheetKind{sheets("20 x 20", 1, stock.GrainAlongWidth)}}, piece("7 x 9", 1, along, layout.NoTurn)),
			[]string{`materials[0].sheets: grain-cross: got "piece 1" 7 x 9 in out of "paper", grain and pattern crosswise on every sheet; want a sheet of at least 7 x 9 in, grain along the height of the pattern, or a piece with the grain either way`}},
		{short, []string{`cutter.longestcut: cut-short: got "piece 1" 16 x 17 in out of "paper" with a longest cut of 15 in; want at least 20 in`}},
		{own, []string{`materials[0].cutter.longestcut: cut-short: got "piece 1" 16 x 17 in out of "paper" with a longest cut of 15 in; want at least 20 in`}},
		// Each material is missed once.
		{gold, []string{
			`materials[1].sheets: missing: got no sheets of "tin"; want one sheet there is at least, or its name in except`,
			`pieces[3].material: missing: got no material "gold" for the piece "piece 4"; want the name of one of the materials, or that material among the materials, or its name in except`,
		}},
		{none, []string{
			`materials: missing: got no material "tin" for the piece "piece 2"; want a material "tin" with its sheets, or its name in except`,
			`materials: missing: got no material "gold" for the piece "piece 4"; want a material "gold" with its sheets, or its name in except`,
		}},
	} {
		_, err := layout.Lay(t.Context(), c.job, layout.Budget{Steps: 5_000_000})
		var bad *check.Error
		var got []string
		if errors.As(err, &bad) {
			for v := range bad.All() {
				got = append(got, v.Error())
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Error(diff)
		}
	}
}

// Of several folios it is said whose piece comes out of no sheet: by the folio's
// name, or else the title of its plan. A folio by itself is meant anyway.
func TestWhoseIsTooLarge(t *testing.T) {
	job := wraps(t, []int{1, 1, 1}, sheets("8 x 8", 1, stock.GrainAlongHeight))
	titled := job.Folios[1].Plan.Spec()
	titled.Title = "stern pair"
	job.Folios[0].Name, job.Folios[1].Plan = "bow pair", build(t, titled)
	said := func(job layout.Job) (got []string) {
		_, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1})
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		for v := range bad.All() {
			got = append(got, v.Got)
		}
		return got
	}
	got := said(job)
	for _, want := range []string{`"wrap" of "bow pair" `, `"wrap" of "stern pair" `} {
		if !slices.ContainsFunc(got, func(s string) bool { return strings.HasPrefix(s, want) }) {
			t.Errorf("%q; want %s", got, want)
		}
	}
	few := job // the sheet takes one of three
	few.Materials = []layout.Material{{Name: "marbled paper", Sheets: []layout.SheetKind{sheets("14 x 12", 1, stock.GrainAlongHeight)}}}
	if got := said(few); len(got) != 1 || !strings.HasSuffix(got[0], `: 1 x wrap of "Crew folio", 1 x wrap of "stern pair"`) {
		t.Errorf("%q of too few sheets", got)
	}
	job.Folios = job.Folios[:1]
	if got := said(job); len(got) != 1 || strings.Contains(got[0], "bow pair") {
		t.Errorf("%q of a folio by itself", got)
	}
}

// A material may be cut by what has no longest cut, though the others are cut by a
// trimmer of 12 in.
func TestNoLongestCut(t *testing.T) {
	m := layout.Material{Sheets: []layout.SheetKind{sheets("20 x 26", 1, stock.GrainAlongHeight)}, Cutter: layout.Cutter{LongestCut: units.None}}
	job := hand(m, piece("16 x 17", 1, stock.GrainParallel, layout.NoTurn))
	job.Cutter.LongestCut = 12 * units.Inch
	for s := range lay(t, job).Steps() {
		if !s.Takes() && s.Care() != work.CareBlade.Text() {
			t.Errorf("%s: %s", s.Text(units.Format{}), s.Care())
		}
	}
}

// Of what none is wanted is no piece of the layout.
func TestNoneIsNoPiece(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", 1, 0)}}, piece("6 x 4", 0, stock.GrainAny, 0), piece("6 x 4", 1, stock.GrainAny, 0), piece("6 x 4", layout.NoCopies, stock.GrainAny, 0))
	n := 0
	for w := range lay(t, job).Pieces() {
		if n++; w.Name() != "piece 2" || w.Quantity() != 1 {
			t.Errorf("%d of %s", w.Quantity(), w.Name())
		}
	}
	if n != 1 {
		t.Errorf("%d pieces", n)
	}
}

// A budget of 0 is the default, and of a grain that is not known both directions are
// searched.
func TestStepsTaken(t *testing.T) {
	work := func(job layout.Job, steps int64) int64 {
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: steps})
		if err != nil {
			t.Fatal(err)
		}
		return l.Work()
	}
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("17 x 17", layout.Unlimited, stock.GrainUnknown)}},
		piece("7 x 5", 7, stock.GrainParallel, layout.QuarterTurn), piece("6 x 3", 9, stock.GrainParallel, layout.QuarterTurn), piece("4 x 4", 8, stock.GrainParallel, layout.QuarterTurn))
	usual, one, set := work(job, 0), work(job, 1), work(job, 100_000_000)
	if usual != set || one >= usual || one < 1 {
		t.Errorf("%d steps by default, %d of a hundred million, %d of one", usual, set, one)
	}
	job.Materials[0].Sheets[0].Grain = stock.GrainAlongHeight
	if known := work(job, 0); known >= usual {
		t.Errorf("%d steps where the grain is known, %d where it is not", known, usual)
	}
}

// How many come out of so many sheets: a wrap of 12 x 8 1/4 in out of each of 12 x 12,
// two out of 12 x 17 and, where the grain is not known, out of that in the better
// direction; boards 4 1/2 + 1 + 4 1/2 in wide and 6 1/4 high eight times out of 20 x
// 26, mats of 3 3/4 x 5 1/4 six times out of 12 x 12.
func TestHowManyByHand(t *testing.T) {
	of := func(kinds ...layout.SheetKind) layout.Job {
		job := wraps(t, []int{1}, kinds[0])
		job.Materials[0].Sheets = kinds
		return job
	}
	offcut := sheets("12 x 17", 1, stock.GrainAlongHeight)
	offcut.Offcut = true
	whole := func(boards, card, wraps int) layout.Job {
		job := keepsakeJob(t, 1)
		job.Materials[0].Sheets[0].Count, job.Materials[3].Sheets[0].Count = boards, card
		job.Materials[1].Sheets = job.Materials[1].Sheets[:1]
		job.Materials[1].Sheets[0].Count = wraps
		return job
	}
	beside := func(others, tags int) layout.Job {
		job := wraps(t, []int{1, others}, sheets("12 x 17", 3, stock.GrainAlongHeight))
		job.Materials = append(job.Materials, layout.Material{Name: "tin", Sheets: []layout.SheetKind{sheets("5 x 5", 1, 0)}})
		job.Pieces = []layout.LoosePiece{{Name: "tag", Material: "tin", Size: inches("4 x 4"), Quantity: tags, Grain: stock.GrainAny}}
		return job
	}
	// Two rows of 8 1/4 in are cut off along 12 in.
	longest := func(cut units.Length) layout.Job {
		job := of(sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight))
		job.Cutter.LongestCut = cut
		return job
	}
	if _, err := layout.HowMany(t.Context(), longest(12*units.Inch-1), 0, layout.Budget{Steps: 1}); !refusedWith(err, layout.CutShort) {
		t.Errorf("a cut that is too short: %v", err)
	}
	unlimited := layout.Unlimited
	for _, c := range []struct {
		name   string
		job    layout.Job
		copies int
		limit  string // none: unlimited
	}{
		{"grain not known", of(sheets("12 x 17", 3, stock.GrainUnknown)), 6, "marbled paper"},
		{"grain not known, square", of(sheets("17 x 17", 3, stock.GrainUnknown)), 6, "marbled paper"},
		{"as many as wanted", of(sheets("12 x 17", unlimited, stock.GrainAlongHeight)), layout.MostPieces, ""},
		{"as many as wanted, in one direction of the grain", of(sheets("17 x 8 1/2", unlimited, stock.GrainUnknown)), layout.MostPieces, ""},
		{"as many as wanted, in the other direction of the grain", of(sheets("8 1/2 x 17", unlimited, stock.GrainUnknown)), layout.MostPieces, ""},
		{"as many as wanted, with the longest cut that it takes", longest(12 * units.Inch), layout.MostPieces, ""},
		{"no sheets left", of(sheets("12 x 17", 0, stock.GrainAlongHeight)), 0, "marbled paper"},
		{"one sheet", of(sheets("12 x 17", 1, stock.GrainAlongHeight)), 2, "marbled paper"},
		{"an offcut too", of(sheets("12 x 17", 3, stock.GrainAlongHeight), offcut), 8, "marbled paper"},
		{"plenty of all", whole(unlimited, unlimited, unlimited), layout.MostPieces / 6, ""},
		{"two boards", whole(2, unlimited, unlimited), 16, "chipboard"},
		{"two boards, one card", whole(2, 1, unlimited), 6, "card"},
		{"two boards, one card, three wraps", whole(2, 1, 3), 3, "marbled paper"},
		{"one board, eight wraps", whole(1, unlimited, 8), 8, "chipboard"},
		{"beside four others", beside(4, 1), 2, "marbled paper"},
		{"beside six others", beside(6, 1), 0, "marbled paper"},
		{"beside more tags than come out", beside(4, 2), 0, "tin"},
	} {
		// The least budget is enough for each.
		y, err := layout.HowMany(t.Context(), c.job, 0, layout.Budget{Steps: 1})
		if err != nil || y.Copies() != c.copies || y.Limit() != c.limit || y.Unlimited() != (c.limit == "") || y.Most() != (c.limit != "") || y.Stopped() {
			t.Errorf("%s: %+v, %v; want %d for %q", c.name, y, err, c.copies, c.limit)
		}
	}
}

// Four folios, a wrap out of each sheet of 12 x 16 in and a liner of 10 x 6 out of each
// of 13 1/2 x 6. With a margin of 7/8 in two wraps come out of a sheet; in panels of 4
// 1/4, 3/4 and 4 1/4 in the liners come out of three sheets.
func TestSavingsOfTwoMaterials(t *testing.T) {
	kind, paper := sheets("12 x 16", layout.Unlimited, stock.GrainAlongHeight), sheets("13 1/2 x 6", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price, paper.Price = usd(150), usd(70)
	job := wraps(t, []int{4}, kind)
	job.Except = []string{"chipboard"}
	job.Materials = append(job.Materials, layout.Material{Name: "cream paper", Sheets: []layout.SheetKind{paper}})
	found := func(job layout.Job, within layout.Tolerance) (out []string) {
		list, whole, err := layout.Savings(t.Context(), job, within, layout.Budget{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for i, text := range said(list) {
			for name, n := range list[i].Materials() {
				text += fmt.Sprintf("; %d of %s", n, name)
			}
			out = append(out, text+"; "+list[i].Price().String())
		}
		return out
	}
	want := []string{
		"a smaller margin (ideal margin 7/8 in = as it is 1 in - 1/8 in): 2, certain; 2 of marbled paper; 3.00 USD",
		"the liner a piece a board: 1, certain; 1 of cream paper; 0.70 USD",
		"a smaller margin (ideal margin 7/8 in = as it is 1 in - 1/8 in) and the liner a piece a board: 3, certain; 2 of marbled paper; 1 of cream paper; 3.70 USD",
	}
	if diff := cmp.Diff(want, found(job, layout.Tolerance{Margin: true, Panels: true})); diff != "" {
		t.Error(diff)
	}
	// A cover stays as high as its mat: below 5 3/4 in nothing can be built.
	s := keepsakeSpec()
	s.Fittings = []folio.Fitting{{Name: "mat", Kind: folio.Mat{Size: inches("3 3/4 x 5 3/4")}}}
	job = wraps(t, []int{10}, kind)
	job.Folios[0].Plan = build(t, s)
	want = []string{"lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 5, certain; 5 of marbled paper; 7.50 USD"}
	if diff := cmp.Diff(want, found(job, layout.Tolerance{Height: 10 * units.Inch})); diff != "" {
		t.Error(diff)
	}
	// In quarter style a strip of book cloth covers the spine; in one piece it is spared.
	s.Fittings, s.Quarter.Rule, s.SpineCovering = nil, rule.QuarterAlways, stock.Stock{Name: "book cloth"}
	cloth := sheets("9 x 9", layout.Unlimited, stock.GrainAlongHeight)
	cloth.Price = usd(400)
	job = wraps(t, []int{1}, kind)
	job.Folios[0].Plan = build(t, s)
	job.Materials = append(job.Materials, layout.Material{Name: "book cloth", Sheets: []layout.SheetKind{cloth}})
	want = []string{"a wrap in one piece: 1, certain; 1 of book cloth; 4.00 USD"}
	if diff := cmp.Diff(want, found(job, layout.Tolerance{Quarter: true})); diff != "" {
		t.Error(diff)
	}
	// The other way round the strips need a cloth: they come out of an offcut, and of
	// nothing where the job has none.
	s.Quarter.Rule = rule.QuarterNever
	job = wraps(t, []int{10}, sheets("16 x 8 1/2", layout.Unlimited, stock.GrainUnknown))
	job.Folios[0].Plan = build(t, s)
	if diff := cmp.Diff([]string(nil), found(job, layout.Tolerance{Quarter: true})); diff != "" {
		t.Error("without cloth:", diff)
	}
	cloth = sheets("40 x 40", 1, stock.GrainAlongHeight)
	cloth.Offcut = true
	job.Materials = append(job.Materials, layout.Material{Name: "book cloth", Sheets: []layout.SheetKind{cloth}})
	if got := found(job, layout.Tolerance{Quarter: true}); len(got) != 1 || !strings.HasPrefix(got[0], "quarter style: ") {
		t.Errorf("with an offcut of cloth: %q", got)
	}
	if _, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Height: -1}, layout.Budget{}); !refusedWith(err, check.Negative) || !strings.Contains(err.Error(), "tolerance.height") {
		t.Errorf("a height of -1: %v", err)
	}
}

// A piece whose name another size of the same material has too is told by its
// size as well; one that is alone with its name in its material is not.
func TestNamesakesAreTold(t *testing.T) {
	one := func(name, material, size string) layout.LoosePiece {
		return layout.LoosePiece{Name: name, Material: material, Size: units.MustParseSize(size), Quantity: 1}
	}
	sheet := []layout.SheetKind{sheets("12 x 12", 1, stock.GrainAlongHeight)}
	laid, err := layout.Lay(t.Context(), layout.Job{
		Materials: []layout.Material{{Name: "card", Sheets: sheet}, {Name: "foam", Sheets: sheet}},
		Pieces: []layout.LoosePiece{one("mat", "card", "3 x 5 in"), one("mat", "card", "4 x 6 in"),
			one("mat", "foam", "2 x 2 in"), one("tag", "card", "1 x 2 in")},
	}, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for s := range laid.Steps() {
		text += s.Text(units.Format{Ruler: units.Sixteenths}) + "\n"
	}
	for _, want := range []string{"1 x mat 3 x 5 in", "1 x mat 4 x 6 in", "1 x mat;", "1 x tag"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "mat 2 x 2 in") || strings.Contains(text, "tag 1 x 2 in") {
		t.Errorf("told by their sizes needlessly:\n%s", text)
	}
}

// What is wrong with a job is told in the notation in which it is laid out: that of
// its ruler, or of its plans, which are in inches here.
func TestWrongInItsNotation(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 1}}, Cutter: layout.Cutter{Kerf: -units.Inch / 8}}
	for ruler, want := range map[units.Ruler]string{
		0:                      "cutter.kerf: negative: got -1/8 in; want 0 or a length up to 393.7 in",
		units.WholeMillimetres: "cutter.kerf: negative: got -3.175 mm; want 0 or a length up to 10 m",
	} {
		job.Ruler = ruler
		if _, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
	job.Ruler, job.Cutter = 0, layout.Cutter{}
	if _, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Width: -units.Inch / 8}, layout.Budget{Steps: 1}); err == nil ||
		!strings.Contains(err.Error(), "tolerance.width: negative: got -1/8 in; want 0 or a length up to 393.7 in") {
		t.Errorf("a tolerance: %v", err)
	}
}

// An edge of which less is to go than the blade takes, or just as much, is taken off: how
// much goes is told, since no setting of what stays is.
func TestTakenOff(t *testing.T) {
	for trim, want := range map[units.Length]string{units.Inch / 8: "take off 1/8 in", units.Inch / 16: "take off 1/16 in"} {
		sheet := sheets("12 x 12", 1, stock.GrainAlongHeight)
		sheet.Trim = trim
		job := layout.Job{
			Ruler: units.Sixteenths, Materials: []layout.Material{{Name: "board", Cutter: layout.Cutter{Kerf: units.Inch / 8}, Sheets: []layout.SheetKind{sheet}}},
			Pieces: []layout.LoosePiece{{Name: "label", Material: "board", Size: inches("6 x 6"), Quantity: 1}},
		}
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for s := range l.Steps() {
			if text := s.Text(units.Format{Ruler: units.Sixteenths}); strings.Contains(text, "take off") {
				if told++; !strings.Contains(text, want) {
					t.Errorf("an edge of %v is to go: %s", trim, text)
				}
			}
		}
		if told == 0 {
			t.Errorf("an edge of %v is to go, and nothing is told of it", trim)
		}
	}
}
