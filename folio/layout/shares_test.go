package layout_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// undecided is a job of two materials, of the second of which only wraps are cut. No
// search decides on the first, so that it takes all the steps that it is given.
func undecided(t *testing.T) layout.Job {
	job := wraps(t, []int{6}, sheets("12 x 16", layout.Unlimited, stock.GrainAlongHeight))
	hard := big(80, 40, 2)
	job.Pieces = hard.Pieces
	job.Materials = append(hard.Materials, job.Materials...)
	return job
}

// How much of a budget is used when the other material is laid out: of a job of two each
// has a half, less a thirty-second for the order of cutting. One more copy gives half to
// the job as it is, which orders no cuts, and what is left to the larger one; savings give
// a quarter to the job as it is.
func TestSharesOfABudget(t *testing.T) {
	job := undecided(t)
	for name, c := range map[string]struct {
		search func(layout.Budget) error
		want   []float64
	}{
		"lay":      {func(b layout.Budget) error { _, err := layout.Lay(t.Context(), job, b); return err }, []float64{1. / 2}},
		"one more": {func(b layout.Budget) error { _, err := layout.OneMore(t.Context(), job, 0, b); return err }, []float64{1. / 4, 1. / 4, 1./4 + 3./8}},
		"savings": {func(b layout.Budget) error {
			_, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Margin: true}, b)
			return err
		}, []float64{1. / 8}},
	} {
		var got []float64
		last, end := "", layout.Progress{}
		err := c.search(layout.Budget{Steps: 2_000_000, Report: func(p layout.Progress) {
			if p.Material() != last && last != "" && p.Material() != "" {
				got = append(got, p.Share())
			}
			last, end = p.Material(), p
		}})
		if _, found := end.Best(); end.Share() != 1 || last != "" || found || end.Bound() != 0 {
			t.Errorf("%s ends with %+v", name, end)
		}
		if err != nil || len(got) != len(c.want) {
			t.Fatalf("%s: %v, want %v: %v", name, got, c.want, err)
		}
		for i, share := range got {
			if share < c.want[i]*15/16 || share > c.want[i]*17/16 {
				t.Errorf("%s: used up to %v, want about %v", name, got, c.want)
			}
		}
	}
}

// What a job has of a folio can be anything up to the limit; beyond it nothing changes.
func TestMoreUpToTheLimit(t *testing.T) {
	job := wraps(t, []int{1}, sheets("12 x 17", 1, 0))
	for n, want := range map[int]int{0: 1, 1: 2, layout.MostPieces - 2: layout.MostPieces - 1, layout.MostPieces - 1: layout.MostPieces, layout.MostPieces: 1, -1: layout.NoCopies, -9: layout.NoCopies} {
		if got := job.More(0, n).Folios[0].Copies; got != want {
			t.Errorf("%d more than 1 are %d, want %d", n, got, want)
		}
	}
}

// A folio alone is made of as many sheets as it takes, of each kind of which there is one
// at least, and of no offcuts.
func TestSheetsOfOneAlone(t *testing.T) {
	job := wraps(t, []int{7}, sheets("12 x 17", 1, 0))
	off := sheets("9 x 9", 1, 0)
	off.Offcut = true
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, sheets("20 x 20", 0, 0), sheets("21 x 21", 2, 0), off)
	var got []int
	for _, k := range job.One(0).Materials[0].Sheets {
		got = append(got, k.Count)
	}
	if diff := cmp.Diff([]int{layout.Unlimited, 0, layout.Unlimited}, got); diff != "" || job.Materials[0].Sheets[0].Count != 1 {
		t.Error(diff)
	}
}

// What is asked about a folio that is not in the job is refused, and says what is in it.
func TestNoSuchFolio(t *testing.T) {
	job := wraps(t, []int{1, 1}, sheets("12 x 17", 3, 0))
	none := job
	none.Folios = nil
	for _, c := range []struct {
		job   layout.Job
		index int
		want  string
	}{
		{job, -1, `folio: out-of-range: got -1; want from 0 to 1, an index of the folios`},
		{job, 2, `folio: out-of-range: got 2; want from 0 to 1, an index of the folios`},
		{none, 0, `folios: missing: got no folio 0 in the job; want the folio that is asked about`},
	} {
		_, one := layout.OneMore(t.Context(), c.job, c.index, layout.Budget{})
		_, many := layout.HowMany(t.Context(), c.job, c.index, layout.Budget{})
		for _, err := range []error{one, many} {
			if err == nil || err.Error() != c.want {
				t.Errorf("folio %d: %v, want %s", c.index, err, c.want)
			}
		}
	}
}

// A piece that goes on a kind of sheet of which there is none left lacks sheets, one that
// goes on none lacks a larger one; a cut that is just long enough is no fault of either.
func TestNoneLeftOfItsSheet(t *testing.T) {
	gone := sheets("12 x 12", 0, stock.GrainAlongHeight)
	for _, c := range []struct {
		piece string
		cut   units.Length
		code  check.Code
	}{{"6 x 6", 0, layout.NotEnough}, {"6 x 6", 12 * units.Inch, layout.NotEnough}, {"6 x 6", 12*units.Inch - 1, layout.CutShort}, {"13 x 6", 0, layout.SheetSmall}} {
		job := hand(layout.Material{Sheets: []layout.SheetKind{gone}, Cutter: layout.Cutter{LongestCut: c.cut}}, piece(c.piece, 2, stock.GrainAny, 0))
		l, err := layout.Lay(t.Context(), job, layout.Budget{})
		if l == nil || !refusedWith(err, c.code) {
			t.Fatalf("%s with a cut of %v: %v", c.piece, c.cut, err)
		}
		m, _ := l.Material("paper")
		for s := range m.Short() {
			if s.Fits() != (c.code == layout.NotEnough) || s.Copies() != 2 {
				t.Errorf("%s with a cut of %v: %d short, fits %v", c.piece, c.cut, s.Copies(), s.Fits())
			}
		}
	}
}

// Of several kinds of sheet the one that takes the shortest cuts is told, wherever it
// stands: a piece of 11 in out of 12 in, or of 20 or 26.
func TestLeastLongestCutOfSeveral(t *testing.T) {
	kinds := []layout.SheetKind{sheets("20 x 20", 1, stock.GrainAlongHeight), sheets("12 x 12", 1, stock.GrainAlongHeight), sheets("26 x 26", 1, stock.GrainAlongHeight)}
	for range kinds {
		kinds = append(kinds[1:], kinds[0])
		job := hand(layout.Material{Sheets: kinds, Cutter: layout.Cutter{LongestCut: 5 * units.Inch}}, piece("11 x 11", 1, stock.GrainAny, 0))
		_, err := layout.Lay(t.Context(), job, layout.Budget{})
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal("a cut of 5 in is enough")
		}
		if v, ok := bad.Find("", layout.CutShort); !ok || v.Limit != 12*units.Inch {
			t.Errorf("%v", err)
		}
	}
}

// What cannot be placed is no saving: in quarter style two papers come out of one sheet
// where a wrap took it whole, but of the cloth for the spine there is none left. With it
// that saves sheets of paper.
func TestNoSavingWithoutItsSheets(t *testing.T) {
	s := keepsakeSpec()
	s.Fittings, s.SpineCovering = nil, stock.Stock{Name: "book cloth"}
	for left, saves := range map[int]bool{-1: false, 0: false, 9: true} { // -1: nothing is said of cloth
		job := wraps(t, []int{6}, sheets("14 1/2 x 8 1/4", layout.Unlimited, stock.GrainAlongHeight))
		job.Folios[0].Plan = build(t, s)
		cloth := sheets("9 x 9", left, stock.GrainAlongHeight)
		cloth.Offcut = true
		if left >= 0 {
			job.Materials = append(job.Materials, layout.Material{Name: "book cloth", Sheets: []layout.SheetKind{cloth}})
		}
		list, whole, err := layout.Savings(t.Context(), job, layout.Tolerance{Quarter: true}, layout.Budget{})
		if err != nil || !whole || (len(list) == 1) != saves {
			t.Errorf("%d sheets of cloth: %q, %v, %v", left, said(list), whole, err)
		}
		for _, found := range list {
			if got := found.Plan().Spec().Quarter.Rule; got != rule.QuarterAlways {
				t.Errorf("it is built %v", got)
			}
		}
	}
	// And the other way round: in one piece no cloth is bought.
	s.Quarter.Rule = rule.QuarterAlways
	job := wraps(t, []int{1}, sheets("12 x 10", layout.Unlimited, stock.GrainAlongHeight))
	job.Folios[0].Plan = build(t, s)
	job.Materials = append(job.Materials, layout.Material{Name: "book cloth", Sheets: []layout.SheetKind{sheets("9 x 9", layout.Unlimited, stock.GrainAlongHeight)}})
	list, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Quarter: true}, layout.Budget{})
	if err != nil || len(list) != 1 || list[0].Plan().Spec().Quarter.Rule != rule.QuarterNever {
		t.Errorf("in one piece: %q, %v", said(list), err)
	}
}

// A paper of a nanometre is one whose thickness is known, and a job without a name for
// its folio tells what none are made of.
func TestThinPaperAndNoName(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", 9, 0)}, Caliper: 1, Cutter: layout.Cutter{Stack: 3}}, piece("6 x 12", 6, stock.GrainAny, 0), piece("6 x 6", 0, stock.GrainAny, 0))
	job.Pieces[1].Name = ""
	l := lay(t, job)
	if n, _ := l.Cuts(); n != 1 {
		t.Errorf("three sheets of a nanometre are cut %d times in stacks of 3", n)
	}
	for w := range l.Warnings() {
		if w.Code == layout.WarnNone && w.Text != "none of these are made: 0 are wanted" {
			t.Error(w.Text)
		}
	}
}

// Signs of print are set between the two sides of a size, and each side is its own.
func TestTypographicSizes(t *testing.T) {
	l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", 1, 0)}}, piece("7 x 5", 1, stock.GrainAny, layout.NoTurn)))
	for s := range l.Steps() {
		if text := s.Text(units.Format{Typographic: true}); s.Takes() != strings.Contains(text, "12″ × 9″") {
			t.Error(text)
		}
	}
}

// What is done to a list of a job that was given is not done to the layout's.
func TestExceptIsACopy(t *testing.T) {
	job := wraps(t, []int{1}, sheets("12 x 17", 3, 0))
	l := lay(t, job)
	job.Except[0] = "tin"
	if l.Job().Except[0] != "chipboard" {
		t.Error("the layout's job was changed")
	}
	l.Job().Except[0] = "tin"
	if l.Job().Except[0] != "chipboard" {
		t.Error("the layout's job was changed by a copy")
	}
}

// One wrap comes out of a sheet of 12 x 9 in, two out of one of 12 x 17: one more than one
// takes no further sheet, but a dearer one.
func TestOneMoreOutOfADearerSheet(t *testing.T) {
	small, large := sheets("12 x 9", layout.Unlimited, stock.GrainAlongHeight), sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight)
	small.Price, large.Price = usd(100), usd(180)
	job := wraps(t, []int{1}, small)
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, large)
	d, err := layout.OneMore(t.Context(), job, 0, layout.Budget{})
	if err != nil || d.Bought() != 0 || d.Price() != usd(80) || !d.Certain() {
		t.Errorf("%+v, %v", d, err)
	}
}

// As many pieces as a job may hold are all wanted.
func TestMostPiecesAreWanted(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	l, err := layout.Lay(ctx, hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, 0)}}, piece("12 x 12", layout.MostPieces, stock.GrainAny, 0)), layout.Budget{Steps: 1})
	if err != nil || l.Bought() != layout.MostPieces {
		t.Fatalf("%v", err)
	}
	for w := range l.Pieces() {
		if w.Quantity() != layout.MostPieces {
			t.Errorf("%d are wanted", w.Quantity())
		}
	}
}
