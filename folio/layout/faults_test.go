package layout_test

import (
	"errors"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Pieces are cut from a material by its name alone, so what folios say of it must
// agree; what only one of them knows, or has at hand, gainsays nothing.
func TestOneNameOneMaterial(t *testing.T) {
	gram := units.GramPerSquareMetre
	strip := func(caliper units.Length) folio.Kind {
		return folio.Folded{Kind: pocket.FoldedStrip{Strip: inches("8 x 3"), Mat: pocket.Mat{Size: inches("2 x 2"), Caliper: caliper}}}
	}
	for name, c := range map[string]struct {
		change [2]func(*folio.Spec)
		want   string // what the second says, and the first
	}{
		"alike":                               {},
		"other sheets":                        {[2]func(*folio.Spec){nil, func(s *folio.Spec) { s.Liner.Sheets = []stock.Sheet{{Size: inches("19 x 25")}} }}, ""},
		"a mass that the other does not know": {[2]func(*folio.Spec){nil, func(s *folio.Spec) { s.Board.Grammage = 900 * gram }}, ""},
		"boards": {[2]func(*folio.Spec){nil, func(s *folio.Spec) { s.Board.Caliper = units.Inch / 8 }},
			`the name "chipboard" of a material that is 1/8 in thick, and in folios[0] 1/16 in`},
		"masses":            {[2]func(*folio.Spec){func(s *folio.Spec) { s.Board.Grammage = 800 * gram }, func(s *folio.Spec) { s.Board.Grammage = 900 * gram }}, `the name "chipboard" of a material that is 900 g/m², and in folios[0] 800 g/m²`},
		"a pattern":         {[2]func(*folio.Spec){nil, func(s *folio.Spec) { s.Covering.OneWay = true }}, `the name "marbled paper" of a material that is one-way, and in folios[0] not one-way`},
		"one good side":     {[2]func(*folio.Spec){func(s *folio.Spec) { s.Liner.TwoSided = true }, nil}, `the name "cream paper" of a material that is one-sided, and in folios[0] two-sided`},
		"the card":          {[2]func(*folio.Spec){nil, func(s *folio.Spec) { s.Stocks = []stock.Stock{{Name: "card", Caliper: units.Inch / 50}} }}, `the name "card" of a material that is 0.02 in thick, and in folios[0] 0.0091 in`},
		"mats of their own": {[2]func(*folio.Spec){func(s *folio.Spec) { s.Fittings[0].Kind = strip(units.Inch / 8) }, func(s *folio.Spec) { s.Fittings[0].Kind = strip(units.Inch / 16) }}, ""},
		"a mat and a stock of its name": {[2]func(*folio.Spec){func(s *folio.Spec) { s.Fittings[0].Kind = strip(units.Inch / 8) },
			func(s *folio.Spec) {
				s.Fittings[0].Stock, s.Stocks = "mat 1/8 in thick", []stock.Stock{{Name: "mat 1/8 in thick", Caliper: units.Inch / 50}}
			}},
			`the name "mat 1/8 in thick" of a material that is 0.02 in thick, and in folios[0] 1/8 in`},
	} {
		job := layout.Job{}
		for _, change := range c.change {
			s := keepsakeSpec()
			if change != nil {
				change(&s)
			}
			job.Folios = append(job.Folios, layout.Folio{Plan: build(t, s), Copies: 1})
		}
		for _, m := range layout.MaterialsOf(job.Folios[0].Plan, job.Folios[1].Plan) {
			m.Sheets = []layout.SheetKind{sheets("30 x 40", layout.Unlimited, stock.GrainUnknown)}
			job.Materials = append(job.Materials, m)
		}
		_, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1000})
		v, refused := violation(err, "folios[1]", check.Conflict)
		if v.Got != c.want || refused != (c.want != "") || (err != nil) != refused {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if !refused {
			continue
		}
		none := job
		none.Folios = []layout.Folio{job.Folios[0], {Plan: job.Folios[1].Plan}}
		if _, err := layout.Lay(t.Context(), none, layout.Budget{Steps: 1000}); err != nil {
			t.Errorf("%s, of which none are made: %v", name, err)
		}
		for i := range job.Materials { // it is not cut from anything here
			job.Except = append(job.Except, job.Materials[i].Name)
		}
		if _, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1000}); err != nil {
			t.Errorf("%s, bought cut to size: %v", name, err)
		}
	}
}

// What a folio does not know of a material, a later one may say, and those after that
// must not gainsay it.
func TestMaterialsOfOneNameInThreeFolios(t *testing.T) {
	const gram = units.GramPerSquareMetre
	board := func(g units.Grammage) folio.Spec {
		s := keepsakeSpec()
		s.Board.Grammage = g
		return s
	}
	thick := board(0)
	thick.Board.Caliper = units.Inch / 8
	mat := func(known, oneWay bool) folio.Spec {
		s := keepsakeSpec()
		if !known {
			s.Fittings[0].Kind = folio.Folded{Kind: pocket.FoldedStrip{Strip: inches("8 x 3"), Mat: pocket.Mat{Size: inches("2 x 2"), Caliper: units.Inch / 8}}}
		} else {
			s.Fittings[0].Stock, s.Stocks = "mat 1/8 in thick", []stock.Stock{{Name: "mat 1/8 in thick", Caliper: units.Inch / 8, OneWay: oneWay}}
		}
		return s
	}
	for name, c := range map[string]struct {
		specs [3]folio.Spec
		want  string
	}{
		"no mass, and one":          {[3]folio.Spec{board(0), board(900 * gram), board(900 * gram)}, ""},
		"no mass, and two":          {[3]folio.Spec{board(0), board(800 * gram), board(900 * gram)}, `the name "chipboard" of a material that is 900 g/m², and in folios[1] 800 g/m²`},
		"no mass, and next to none": {[3]folio.Spec{board(0), board(1), board(2)}, `the name "chipboard" of a material that is ` + units.Grammage(2).String() + `, and in folios[1] ` + units.Grammage(1).String()},
		"a mass, none, and another": {[3]folio.Spec{board(800 * gram), board(0), board(900 * gram)}, `the name "chipboard" of a material that is 900 g/m², and in folios[0] 800 g/m²`},
		"a mass twice, and another": {[3]folio.Spec{board(800 * gram), board(800 * gram), board(900 * gram)}, `the name "chipboard" of a material that is 900 g/m², and in folios[0] 800 g/m²`},
		"no mass, and thicker":      {[3]folio.Spec{board(0), board(0), thick}, `the name "chipboard" of a material that is 1/8 in thick, and in folios[0] 1/16 in`},
		"a mat, and a stock":        {[3]folio.Spec{mat(false, false), mat(true, true), mat(true, true)}, ""},
		"a mat, and two stocks":     {[3]folio.Spec{mat(false, false), mat(true, true), mat(true, false)}, `the name "mat 1/8 in thick" of a material that is not one-way, and in folios[1] one-way`},
		"a stock, a mat, and another": {[3]folio.Spec{mat(true, true), mat(false, false), mat(true, false)},
			`the name "mat 1/8 in thick" of a material that is not one-way, and in folios[0] one-way`},
	} {
		job := layout.Job{}
		for _, s := range c.specs {
			job.Folios = append(job.Folios, layout.Folio{Plan: build(t, s), Copies: 1})
		}
		for _, m := range layout.MaterialsOf(job.Folios[0].Plan, job.Folios[1].Plan, job.Folios[2].Plan) {
			m.Sheets = []layout.SheetKind{sheets("30 x 40", layout.Unlimited, stock.GrainUnknown)}
			job.Materials = append(job.Materials, m)
		}
		_, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1000})
		if bad, is := errors.AsType[*check.Error](err); is && bad.Len() != 1 {
			t.Errorf("%s, said more than once: %v", name, err)
		}
		if v, refused := violation(err, "folios[2]", check.Conflict); v.Got != c.want || refused != (c.want != "") || (err != nil) != refused {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

// One thing that is wrong with a job is enough for whoever asks about it: all say the
// same of it.
func TestEverybodyRefusesTheSame(t *testing.T) {
	for name, spoil := range map[string]func(j *layout.Job){
		"fewer than none":      func(j *layout.Job) { j.Folios[1].Copies = -2 },
		"no plan":              func(j *layout.Job) { j.Folios[1].Plan = nil },
		"a piece of nothing":   func(j *layout.Job) { j.Pieces[0].Size.W = 0 },
		"a piece without end":  func(j *layout.Job) { j.Pieces[0].Quantity = layout.MostPieces + 1 },
		"a material twice":     func(j *layout.Job) { j.Materials = append(j.Materials, j.Materials[0]) },
		"a material nowhere":   func(j *layout.Job) { j.Pieces[0].Material = "velvet" },
		"sheets of nothing":    func(j *layout.Job) { j.Materials[0].Sheets[0].Size.H = -1 },
		"a trim without end":   func(j *layout.Job) { j.Materials[0].Sheets[0].Trim = 2 * units.Longest },
		"a kerf below nothing": func(j *layout.Job) { j.Cutter.Kerf = -1 },
	} {
		job := keepsakeJob(t, 1)
		job.Folios = append(job.Folios, layout.Folio{Plan: keepsake(t), Copies: 1})
		job.Pieces = []layout.LoosePiece{{Name: "pad", Material: "card", Size: inches("3 x 3"), Quantity: 1, Grain: stock.GrainAny}}
		spoil(&job)
		where := ""
		for asked, err := range map[string]error{
			"layout": second(layout.Lay(t.Context(), job, layout.Budget{Steps: 1})), "how many": second(layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})),
			"one more": second(layout.OneMore(t.Context(), job, 0, layout.Budget{Steps: 1})), "savings": third(layout.Savings(t.Context(), job, layout.Tolerance{}, layout.Budget{Steps: 1})),
		} {
			var bad *check.Error
			if !errors.As(err, &bad) || bad.Len() != 1 {
				t.Errorf("%s, %s: %v", name, asked, err)
				continue
			}
			for v := range bad.All() {
				if at := v.Path + " " + string(v.Code); where != "" && at != where {
					t.Errorf("%s, %s: %s, another one %s", name, asked, at, where)
				} else {
					where = at
				}
			}
		}
	}
}

func second[T any](_ T, err error) error { return err }

func third[T, U any](_ T, _ U, err error) error { return err }
