package layout_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A wrap of 12 x 8 1/4 in and pieces by hand that are cut out of one sheet of 40 x 30
// in without waste, all with the grain along their height: that one copy comes out of
// a sheet is certain, however the sheet is listed and whether the search finds it or
// not. What is not found is not said to be impossible.
func TestNotFoundIsNotImpossible(t *testing.T) {
	missed := 0
	for _, kind := range []layout.SheetKind{sheets("40 x 30", 1, stock.GrainUnknown), sheets("30 x 40", 1, stock.GrainUnknown), sheets("40 x 30", 1, stock.GrainAlongHeight)} {
		for seed := range int64(3) {
			r := rand.New(rand.NewSource(seed))
			job := wraps(t, []int{1}, kind)
			// Of boards there are enough for any number that is asked about.
			job.Except = job.Except[1:]
			job.Materials = append(job.Materials, layout.Material{Name: "chipboard", Sheets: []layout.SheetKind{sheets("20 x 26", 9, stock.GrainAlongHeight)}})
			for i, s := range append(cutUp(r, inches("12 x 21 3/4"), 8), cutUp(r, inches("28 x 30"), 20)...) {
				job.Pieces = append(job.Pieces, layout.LoosePiece{Name: fmt.Sprint("piece ", i), Material: "marbled paper", Size: s, Quantity: 1})
			}
			if seed == 1 { // a kind that is of no use, of which there is no end
				job.Materials[0].Sheets = append(job.Materials[0].Sheets, sheets("1/4 x 1/4", layout.Unlimited, stock.GrainAlongHeight))
			}
			y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})
			if err != nil || y.Copies() == 0 && y.Most() || y.Copies() > 1 {
				t.Errorf("%v, %d: %d copies, most %t, %v", kind, seed, y.Copies(), y.Most(), err)
			}
			for _, looks := range []int{1, 2, 6}[:3*min(seed, 1)] { // nor is it found when the search is ended
				if y, err := layout.HowMany(&clock{Context: t.Context(), left: looks}, job, 0, layout.Budget{Steps: 1}); err != nil || y.Copies() == 0 && y.Most() || y.Copies() > 1 {
					t.Errorf("%v, %d, %d looks: %d copies, most %t, %v", kind, seed, looks, y.Copies(), y.Most(), err)
				}
			}
			if y.Copies() == 0 {
				missed++
			}
		}
	}
	if missed == 0 {
		t.Error("all were found: larger ones are needed")
	}
}

// A sheet of 50 x 30 in is cut up into a wrap, two labels of 19 x 26 in and small pieces.
// With its grain the other way it takes two such sheets, as the labels do not go beside
// each other; that does not prove that it takes two where the search finds it with neither.
func TestNotFoundEitherWay(t *testing.T) {
	missed := 0
	for seed := range int64(6) {
		r := rand.New(rand.NewSource(seed))
		job := wraps(t, []int{1}, sheets([...]string{"50 x 30", "30 x 50"}[seed%2], 1, stock.GrainUnknown))
		small := slices.Concat(cutUp(r, inches("12 x 21 3/4"), 12), cutUp(r, inches("19 x 4"), 8), cutUp(r, inches("19 x 4"), 8))
		for i, s := range append(small, inches("19 x 26"), inches("19 x 26")) {
			job.Pieces = append(job.Pieces, layout.LoosePiece{Name: fmt.Sprint("piece ", i), Material: "marbled paper", Size: s, Quantity: 1})
		}
		y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})
		if err != nil || y.Copies() == 0 && y.Most() || y.Copies() > 1 {
			t.Errorf("%d: %d copies, most %t, %v", seed, y.Copies(), y.Most(), err)
		}
		if y.Copies() == 0 {
			missed++
		}
		for looks := 1; looks < 18 && seed < 2; looks++ { // nor is it proved when the search is ended
			if y, err := layout.HowMany(&clock{Context: t.Context(), left: looks}, job, 0, layout.Budget{Steps: 1}); err != nil || y.Copies() == 0 && y.Most() || y.Copies() > 1 {
				t.Errorf("%d, %d looks: %d copies, most %t, %v", seed, looks, y.Copies(), y.Most(), err)
			}
		}
	}
	if missed == 0 {
		t.Error("all were found: larger ones are needed")
	}
}

// Two wraps of 12 x 8 1/4 in come out of an offcut of 12 x 17 in.
func TestHowManyOfOffcuts(t *testing.T) {
	for _, grain := range []stock.SheetGrain{stock.GrainUnknown, stock.GrainAlongHeight} {
		kind := sheets("12 x 17", 2, grain)
		kind.Offcut = true
		y, err := layout.HowMany(t.Context(), wraps(t, []int{1}, kind), 0, layout.Budget{Steps: 1})
		if err != nil || y.Copies() != 4 || y.Unlimited() || y.Limit() != "marbled paper" {
			t.Errorf("grain %v: %+v, %v", grain, y, err)
		}
	}
}

// A wrap whose grain runs along its 8 1/4 in does not come out of a sheet of 9 x 12 in,
// though it does turned: of such sheets as many as are wanted are of no use.
func TestUnlimitedTheOtherWay(t *testing.T) {
	job := wraps(t, []int{1}, sheets("9 x 12", layout.Unlimited, stock.GrainAlongHeight))
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, sheets("12 x 9", 3, stock.GrainAlongHeight))
	y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})
	if err != nil || y.Copies() != 3 || y.Unlimited() {
		t.Errorf("%+v, %v", y, err)
	}
	// Where the grain of the sheets is not known, it does come out of them one way, as is known
	// without a search.
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	for _, size := range []string{"9 x 12", "12 x 9"} {
		if y, err := layout.HowMany(gone, wraps(t, []int{1}, sheets(size, layout.Unlimited, stock.GrainUnknown)), 0, layout.Budget{Steps: 1}); err != nil || !y.Unlimited() {
			t.Errorf("out of %s: %+v, %v", size, y, err)
		}
	}
}

// A job holds no more than so many pieces: beside all of them but two no more than two
// copies of a folio of one piece are made, though the sheets give eighteen.
func TestHowManyAJobHolds(t *testing.T) {
	job := wraps(t, []int{1}, sheets("12 x 17", 9, stock.GrainAlongHeight))
	job.Materials = append(job.Materials, layout.Material{Name: "tin", Sheets: []layout.SheetKind{sheets("40 x 40", layout.Unlimited, 0)}})
	for left := range 3 {
		job.Pieces = []layout.LoosePiece{{Name: "tag", Material: "tin", Size: inches("1 x 1"), Quantity: layout.MostPieces - left, Grain: stock.GrainAny}}
		y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})
		if left == 0 {
			// With one copy of its own it is more than a job may hold.
			if !refusedWith(err, check.TooMany) {
				t.Errorf("beside all pieces there may be: %+v, %v", y, err)
			}
			continue
		}
		if err != nil || y.Copies() != left || !y.Unlimited() {
			t.Errorf("%d left: %+v, %v", left, y, err)
		}
	}
}

// What was found stays found when the search is ended: once sixteen sheets are laid
// out, of two wraps each, sixteen copies have been found.
func TestFoundStaysFound(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	y, err := layout.HowMany(ctx, wraps(t, []int{1}, sheets("12 x 17", 40, stock.GrainAlongHeight)), 0, layout.Budget{Report: func(p layout.Progress) {
		if n, ok := p.Best(); ok && n >= 16 {
			cancel()
		}
	}})
	if err != nil || !y.Stopped() || y.Copies() < 16 {
		t.Errorf("%+v, %v", y, err)
	}
}

// One copy more than the sheets give is an error that says so.
func TestOneMoreThanThereIs(t *testing.T) {
	d, err := layout.OneMore(t.Context(), wraps(t, []int{2}, sheets("12 x 17", 1, stock.GrainAlongHeight)), 0, layout.Budget{})
	if !refusedWith(err, layout.NotEnough) || d != (layout.Difference{}) {
		t.Errorf("%+v, %v", d, err)
	}
}

// What a folio takes alone leaves out what is cut beside it.
func TestOneAlone(t *testing.T) {
	job := keepsakeJob(t, 5)
	job.Pieces = []layout.LoosePiece{{Name: "bookmark", Material: "card", Size: inches("2 x 6"), Quantity: 3}}
	pieces := 0
	for w := range lay(t, job.One(0)).Pieces() {
		pieces++
		if i, ok := w.Folio(); !ok || i != 0 {
			t.Errorf("%s is no piece of the folio", w.Name())
		}
	}
	if pieces == 0 {
		t.Error("nothing is cut for it")
	}
	if len(job.Pieces) != 1 || job.Folios[0].Copies != 5 {
		t.Error("the job itself was changed")
	}
	two := wraps(t, []int{3, 2}, sheets("12 x 17", 4, stock.GrainAlongHeight))
	for alone, want := range map[int][2]int{-1: {layout.NoCopies, layout.NoCopies}, 0: {1, layout.NoCopies}, 1: {layout.NoCopies, 1}, 2: {layout.NoCopies, layout.NoCopies}} {
		one := two.One(alone)
		if got := [2]int{one.Folios[0].Copies, one.Folios[1].Copies}; got != want || one.Materials[0].Sheets[0].Count != layout.Unlimited {
			t.Errorf("folio %d alone: %d copies of %+v", alone, got, one.Materials[0].Sheets)
		}
	}
}

// The pieces of a one-way paper lie upright, and the step that takes the sheet says
// so; those of the other materials may lie either way.
func TestOneWayPlan(t *testing.T) {
	s := keepsakeSpec()
	s.Covering.OneWay = true
	job := keepsakeJob(t, 1)
	job.Folios[0].Plan = build(t, s)
	l := lay(t, job)
	seen := 0
	for w := range l.Pieces() {
		want := layout.QuarterTurn
		if w.Material() == "marbled paper" {
			want = layout.NoTurn
			seen++
		}
		if w.Turn() != want {
			t.Errorf("%s of %s: %v", w.Name(), w.Material(), w.Turn())
		}
	}
	for step := range l.Steps() {
		if step.Takes() && strings.Contains(step.Text(units.Format{}), "the pattern upright") != (step.Material() == "marbled paper") {
			t.Error(step.Text(units.Format{}))
		}
	}
	if seen == 0 {
		t.Error("no wrap")
	}
}

// A piece without a name is a piece.
func TestNoName(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", 1, stock.GrainAlongHeight)}}, piece("6 x 12", 2, stock.GrainParallel, layout.QuarterTurn))
	job.Pieces[0].Name = ""
	l, err := layout.Lay(t.Context(), job, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	if got := texts(l); len(got) != 2 || got[1] != "From the left edge set 6 in, cut: 2 x piece." {
		t.Errorf("%q", got)
	}
}

// Where nothing is cut there is no grain to be found first.
func TestNothingToBeFoundFirst(t *testing.T) {
	l, err := layout.Lay(t.Context(), hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", 2, stock.GrainUnknown)}}, piece("13 x 13", 1, stock.GrainParallel, layout.QuarterTurn)), layout.Budget{})
	if !refusedWith(err, layout.SheetSmall) {
		t.Fatal(err)
	}
	for w := range l.Warnings() {
		t.Errorf("warned: %v", w)
	}
	for m := range l.Materials() {
		for s := range m.Short() {
			if s.Fits() || s.Copies() != 1 {
				t.Errorf("%d of %s find no place, though it fits: %t", s.Copies(), s.Piece().Name(), s.Fits())
			}
		}
	}
}

// A search tells in between how far it is.
func TestShareOfTheBudget(t *testing.T) {
	var seen []float64
	l, err := layout.Lay(t.Context(), big(300, 60, 1), layout.Budget{Steps: 4_000_000, Report: func(p layout.Progress) { seen = append(seen, p.Share()) }})
	if err != nil || len(seen) < 4 || seen[0] > 0.5 {
		t.Fatalf("%v, %v", seen, err)
	}
	between := map[float64]bool{}
	for _, s := range seen {
		if s > 0.1 && s < 0.9 {
			between[s] = true
		}
	}
	if len(between) < 4 {
		t.Errorf("%d steps: %v", l.Work(), seen)
	}
}

// Of two plans with boards of one name the thicker one says how thick a board is.
func TestMaterialsOfTwoPlans(t *testing.T) {
	thin, thick := keepsakeSpec(), keepsakeSpec()
	thick.Board.Caliper = units.Inch / 8
	for _, plans := range [][]*folio.Plan{{build(t, thin), build(t, thick)}, {build(t, thick), build(t, thin)}} {
		for _, m := range layout.MaterialsOf(plans...) {
			if m.Name == "chipboard" && m.Caliper != units.Inch/8 {
				t.Errorf("board of %v", m.Caliper)
			}
		}
	}
}

// Who waits no longer is told what would do without a search: a sheet for each of the first
// kind that takes it and can be bought.
func TestNoSearchAfterTheEnd(t *testing.T) {
	scraps := sheets("12 x 12", 0, stock.GrainAlongHeight)
	scraps.Offcut = true
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("6 x 12", 5, stock.GrainAlongHeight), scraps, sheets("12 x 12", 1, stock.GrainAlongHeight)}}, piece("12 x 12", 3, stock.GrainParallel, layout.QuarterTurn),
		piece("20 x 20", 1, stock.GrainParallel, layout.QuarterTurn)) // which comes out of none is another matter
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	for _, want := range []string{"2 more of 12 x 12 in, which will do, or fewer pieces", "2 more of 12 x 12 in, a sheet for each, which will do, or fewer pieces"} {
		_, err := layout.Lay(ctx, job, layout.Budget{})
		if v, ok := violation(err, "materials[0].sheets", layout.NotEnough); !ok || v.Want != want {
			t.Errorf("%v; want %s", err, want)
		}
		cancel()
	}
}

func violation(err error, path string, code check.Code) (check.Violation, bool) {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return check.Violation{}, false
	}
	return bad.Find(path, code)
}
