package folio_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// obeyed is a Spec with all done that its violations say would do, and whether all of it
// can be done. Of two bounds of one field the nearer is kept to.
func obeyed(s folio.Spec, bad *check.Error) (folio.Spec, bool) {
	offers := offersOf(s)
	s = mendtest.Copy(s)
	ok, bounds := true, map[string]check.Violation{}
	var out []check.Violation // what is to be left out, the last first
	for v := range bad.All() {
		if strings.HasPrefix(v.Want, "it left out") {
			out = append(out, v)
			continue
		}
		if was := bounds[v.Path]; was.Bound == v.Bound && (v.Bound == check.AtLeast && was.Limit > v.Limit || v.Bound == check.AtMost && was.Limit < v.Limit) {
			continue
		}
		bounds[v.Path] = v
		ok = mendtest.Do(&s, v, offers) == mendtest.Mended && ok
	}
	for _, v := range slices.Backward(out) {
		ok = mendtest.Do(&s, v, nil) == mendtest.Mended && ok
	}
	return s, ok
}

// chance gives one value that a generator makes.
func chance[T any](g gopter.Gen, p *gopter.GenParameters) T {
	for {
		if v, ok := g(p).Retrieve(); ok {
			return v.(T)
		}
	}
}

// relatives is a folio with a fitting in a size by relation and another that stands on it,
// both by chance.
func relatives(p *gopter.GenParameters) folio.Spec {
	s, v := good(), chance[[]any](trials(), p)
	s.Rulers.Fitting, s.Spine.Width = trialRulers()[v[11].(int)], 60*mm
	s.Stocks = []stock.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}, {Name: "card stock", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 300 * mm, H: 210 * mm}}}}}
	by := func(f folio.Fitting) folio.Fitting {
		f.Size = place.Sizing{W: chance[place.Relation](relations(), p), H: chance[place.Relation](relations(), p)}
		switch p.Rng.Intn(9) {
		case 0, 1, 2:
			f.Kind, f.Stock = folio.Folded{Kind: pocketTrial(chance[[]any](pocketTrials(), p))}, "card stock"
		case 3:
			f.Size.Picture = place.PictureUsual
		case 4:
			f.Size.Proportions = place.Proportions{W: 2, H: 3}
		}
		f.Kind, _ = ownSizes(f.Kind, f.Size)
		return f
	}
	s.Fittings = []folio.Fitting{by(trial(v)), {Name: "tag", Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 45 * mm}}}}
	if p.Rng.Intn(2) == 0 {
		upper := by(trial(chance[[]any](trials(), p)))
		upper.Name, upper.StandsOn = "upper", "crew"
		s.Fittings = append(s.Fittings, upper)
	}
	return s
}

// everyForm is a folio of any form with any hinge and up to three things on any side.
func everyForm(rng *rand.Rand) folio.Spec {
	s := folio.Spec{Form: boards.Form(rng.IntN(int(boards.OwnRow))), Cover: units.Size{W: 143 * mm, H: 176 * mm}, Spine: rule.Spine{Width: 9 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres}}
	if s.Form == boards.SoftSpine || rng.IntN(2) == 0 {
		s.Spine = rule.Spine{Contents: 4 * mm}
	}
	s.Hinge = rule.Hinge{Rule: rule.HingeRule(rng.IntN(6)), Crease: rule.CreasePlace(rng.IntN(5))}
	if s.Hinge.Crease == rule.CreaseAtOffset {
		s.Hinge.Offset = mm
	}
	if s.Hinge.Rule == rule.HingeFixed {
		s.Hinge.Width = units.Length(1+rng.IntN(20)) * mm
	}
	s.Board.Caliper = 2*mm + 1
	roles := s.Form.Roles()
	for i := range 1 + rng.IntN(3) {
		s.Fittings = append(s.Fittings, folio.Fitting{Panel: roles[rng.IntN(len(roles))], Outside: rng.IntN(3) == 0, Place: place.Place{Offset: units.Point{X: units.Length(i*rng.IntN(60)) * mm}},
			Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: units.Length(rng.IntN(8)) * mm}}})
	}
	return s
}

// row is a row by chance with things on it.
func row(rng *rand.Rand) folio.Spec {
	for {
		if s, ok := crowdedRow(rng); ok {
			return s
		}
	}
}

// What is refused and then mended as it says is not refused for the same once more, up to
// three times, whatever else is found then: of folios of every form, with sizes by relation
// and fittings that stand on such, of rows, and of what is spoilt.
func TestWhatIsObeyedIsNotToldAgain(t *testing.T) {
	twistedBy := func(s folio.Spec, p *gopter.GenParameters) folio.Spec {
		return twisted(s, chance[[]twist](twists(), p))
	}
	for name, c := range map[string]struct {
		cases, most int // told again, of a thousand that are refused
		one         func(rng *rand.Rand, p *gopter.GenParameters) folio.Spec
	}{
		"sizes by relation": {1600, 2, func(_ *rand.Rand, p *gopter.GenParameters) folio.Spec { return relatives(p) }},
		"a fitting": {800, 8, func(_ *rand.Rand, p *gopter.GenParameters) folio.Spec {
			s, v := good(), chance[[]any](trials(), p)
			s.Rulers.Fitting, s.Spine.Width = trialRulers()[v[11].(int)], 60*mm
			s.Stocks = []stock.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}}
			s.Fittings = []folio.Fitting{trial(v)}
			return s
		}},
		"something folded": {800, 8, func(_ *rand.Rand, p *gopter.GenParameters) folio.Spec {
			return foldedTrial(chance[[]any](pocketTrials(), p))
		}},
		"every form": {400, 25, func(rng *rand.Rand, _ *gopter.GenParameters) folio.Spec { return everyForm(rng) }},
		"a folio": {400, 20, func(_ *rand.Rand, p *gopter.GenParameters) folio.Spec {
			s, list := chance[folio.Spec](folios(), p), chance[[]twist](twists(), p)
			if s = twisted(s, list); list[0].By%2 == 0 {
				s = pointed(s, list[0])
			}
			return s
		}},
		"a row": {300, 10, func(rng *rand.Rand, p *gopter.GenParameters) folio.Spec {
			switch rng.IntN(4) {
			case 0:
				return rolledUp(rng)
			case 1:
				return twistedBy(row(rng), p)
			case 2:
				return mendtest.Spoil(row(rng), rng.Int64())
			}
			return row(rng)
		}},
	} {
		rng, p := rand.New(rand.NewPCG(uint64(proptest.Seed()), 8)), gopter.DefaultGenParameters()
		p.Rng.Seed(proptest.Seed())
		refused, again := 0, 0
		first := map[string]string{}
		for tried := 0; refused < proptest.Cases(c.cases) && tried < 40*proptest.Cases(c.cases); tried++ {
			s := c.one(rng, p)
			var bad *check.Error
			if !errors.As(builds(s), &bad) {
				continue
			}
			refused++
			if text := toldAgain(s, bad); text != "" {
				again++
				path, _, _ := strings.Cut(text, " ")
				first[path] = text
			}
		}
		most := float64(proptest.Cases(c.cases)*c.most) / 1000
		if refused < proptest.Cases(c.cases) || float64(again) > most+3*math.Sqrt(most) {
			t.Errorf("%s: %d refused, %d of them for the same again: %q", name, refused, again, first)
		}
	}
}

// toldAgain obeys up to three times and returns what is told again then. What is left
// unread for something malformed is told later, and so may be told in another way.
func toldAgain(s folio.Spec, bad *check.Error) string {
	for range 3 {
		next, ok := obeyed(s, bad)
		var now *check.Error
		if !ok || !errors.As(builds(next), &now) {
			return ""
		}
		malformed := false
		for v := range bad.All() {
			malformed = malformed || v.Nature == check.Malformed
		}
		for v := range bad.All() {
			if there, ok := now.Find(v.Path, v.Code); ok && !malformed {
				return v.Error() + "; and then " + there.Error()
			}
		}
		s, bad = next, now
	}
	return ""
}

// A sheet is bought once: what it must at least be is told when the case has the size that
// it will have, however much else is wrong.
func TestSheetsAreToldOnce(t *testing.T) {
	small := sheetOf(200*mm, 100*mm)
	for name, c := range map[string]struct {
		path   string
		change func(*folio.Spec)
	}{
		"a gap too narrow": {"covering.sheets", func(s *folio.Spec) { s.Hinge.Width, s.Covering.Sheets = mm, small }},
		"a spine too narrow for what lies inside": {"covering.sheets", func(s *folio.Spec) {
			s.Covering.Sheets = small
			stood(s, 30*mm)
		}},
		"a liner that laps nothing": {"liner.sheets", func(s *folio.Spec) { s.Lining.Inset, s.Liner.Sheets = 24*mm, sheetOf(90*mm, 100*mm) }},
	} {
		s := plainCase()
		c.change(&s)
		told := 0
		var bad *check.Error
		for n := 0; n < 4 && errors.As(builds(s), &bad); n++ {
			if _, ok := bad.Find(c.path, folio.SheetSmall); ok {
				told++
			}
			var ok bool
			if s, ok = obeyed(s, bad); !ok {
				t.Errorf("%s: %v", name, bad)
			}
		}
		if err := builds(s); told != 1 || err != nil {
			t.Errorf("%s: told %d times, and in the end %v", name, told, err)
		}
	}
}
