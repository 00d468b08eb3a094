package propose

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An area in square micrometres is no less than the area: each side of a cover that is a
// little larger than so many micrometres counts one more.
func TestAreasAreRoundedUp(t *testing.T) {
	const um = units.Micrometre
	for c, want := range map[units.Size]int64{
		{W: 3 * um / 2, H: 5 * um / 2}:                        2 * 3,
		{W: 100_000*um + 1, H: 150_000*um + 999}:              15_000_250_001, // 100 001 x 150 001
		{W: 150_000*um + 999, H: 100_000*um + 1}:              15_000_250_001,
		{W: 10_000_000*um - 1, H: 10_000_000*um - 1}:          100_000_000_000_000,
		{W: 9_999_999*um + um/2, H: 9_999_998*um + 2*um/3}:    10_000_000 * 9_999_999,
		{W: 9_999_998*um + um/1000, H: 9_999_999*um + um/900}: 9_999_999 * 10_000_000,
	} {
		if got := microArea(c); got != want {
			t.Errorf("%d x %d nm: %d µm², want %d", c.W, c.H, got, want)
		}
	}
}

// A cover is limited in width, in height, and by what the closed folio must go into: of a
// box of 500 x 400 mm with 20 mm of padding its longer side counts, less what the closed
// folio is larger than its cover.
func TestMostCoverIsThatOfTheLimits(t *testing.T) {
	const mm = units.Millimetre
	box := Space{Size: units.Size{W: 400 * mm, H: 500 * mm}, Padding: 20 * mm}
	for _, c := range []struct {
		limits Limits
		want   units.Size
	}{
		{Limits{}, units.Size{W: 2000 * mm, H: 2000 * mm}},
		{Limits{Cover: units.Size{W: 300 * mm}}, units.Size{W: 300 * mm, H: 2000 * mm}},
		{Limits{Cover: units.Size{H: 200 * mm}}, units.Size{W: 2000 * mm, H: 200 * mm}},
		{Limits{Into: box}, units.Size{W: 456 * mm, H: 457 * mm}},
		{Limits{Into: box, Cover: units.Size{W: 460 * mm, H: 450 * mm}}, units.Size{W: 456 * mm, H: 450 * mm}},
	} {
		s := &searcher{roomy: 2000 * mm, follows: true, closed: units.Size{W: 4 * mm, H: 3 * mm}}
		s.request.Limits = c.limits
		if got := s.mostCover(); got != c.want {
			t.Errorf("%+v: %v, want %v", c.limits, got, c.want)
		}
		s.follows = false
		if got := s.mostCover(); (c.limits.Into != Space{}) && got.W < 460*mm {
			t.Errorf("%+v: %v, though the closed folio says nothing of its cover", c.limits, got)
		}
		s.anyCover = true
		if got := s.mostCover(); got != (units.Size{W: 2000 * mm, H: 2000 * mm}) {
			t.Errorf("%+v: %v of any", c.limits, got)
		}
	}
}

// A folio that turns out thicker than what counts is told to be that, with both
// thicknesses, and one that cannot be made to be that; neither proves anything of others.
func TestWhyACandidateIsNone(t *testing.T) {
	q, opts, one := searched(t, Smallest)
	// Two boards of 1/16 in, 1.5 mm where it is metric, lie on each other.
	if f, why, sure := q.verify(opts, &one, units.Nanometre); f != nil || sure || why.Cause != OverThick || why.ThanThick != units.Nanometre || why.Thick < 3*units.Millimetre {
		t.Errorf("no thicker than a nanometre: %v, %+v, sure %v", f, why, sure)
	}
	if f, why, sure := q.verifyLoose(opts, &one, units.Nanometre); f != nil || sure || why.Cause != OverThick || why.ThanThick != units.Nanometre || why.Thick < 3*units.Millimetre {
		t.Errorf("with a liner on its ruler, no thicker than a nanometre: %v, %+v, sure %v", f, why, sure)
	}
	one.cover.W = 2 * units.Longest
	if f, why, sure := q.verify(opts, &one, units.Longest); f != nil || sure || why.Cause != CannotBe || why.Detail == "" {
		t.Errorf("20 m wide: %v, %+v, sure %v", f, why, sure)
	}
}

// A Spec that is given away is its receiver's: whatever becomes of its lists, that of the
// proposal stays as it was.
func TestSpecIsGivenAway(t *testing.T) {
	sheets := func() []stock.Sheet { return []stock.Sheet{{Size: units.Size{W: units.Metre, H: 2 * units.Metre}}} }
	s := folio.Spec{Fittings: []folio.Fitting{{Name: "mat"}}, Stocks: []stock.Stock{{Name: "card", Sheets: sheets()}}}
	lists := func(s *folio.Spec) []*stock.Stock {
		return []*stock.Stock{&s.Board, &s.Covering, &s.SpineCovering, &s.Liner, &s.Stocks[0]}
	}
	for _, k := range lists(&s) {
		k.Sheets = sheets()
	}
	row := Form{Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}}, Joints: []boards.Joint{{}}}}
	own := row.owned()
	own.Row.Boards[0].Role, own.Row.Joints[0].Fold = boards.Flap, score.Mountain
	if row.Row.Boards[0].Role != boards.LeftCover || row.Row.Joints[0].Fold == score.Mountain {
		t.Errorf("%+v", row)
	}
	given := owned(s)
	for _, k := range lists(&given) {
		k.Sheets[0].Size.W = units.Millimetre
	}
	given.Fittings[0].Name, given.Stocks[0].Name = "changed", "changed"
	for i, k := range lists(&s) {
		if k.Sheets[0].Size.W != units.Metre {
			t.Errorf("%d: %v", i, k.Sheets[0])
		}
	}
	if s.Fittings[0].Name != "mat" || s.Stocks[0].Name != "card" {
		t.Errorf("%v, %v", s.Fittings[0].Name, s.Stocks[0].Name)
	}
}

// A case may bring fittings on its outside as long as there is room in a folio for what
// is searched for.
func TestFittingsOfACase(t *testing.T) {
	for n, taken := range map[int]bool{folio.MaxFittings - MostCopies: true, folio.MaxFittings - MostCopies + 1: false} {
		r := Request{Case: folio.Spec{Fittings: slices.Repeat([]folio.Fitting{{Outside: true}}, n)}}
		var bad check.List
		if r.checkCase(&bad); (bad.Len() == 0) != taken {
			t.Errorf("%d fittings: %v", n, bad.Err())
		}
	}
}

// A closed folio is as thick as the limits allow, in a box of 50 mm with 5 mm of padding
// on either side 40 mm; without limits no thinner than with a spine wider than any, on
// a ruler of which that is no graduation too.
func TestThickestIsThatOfTheLimits(t *testing.T) {
	const mm = units.Millimetre
	const step = 9 * mm // of which 2 m are 222 and a bit
	coarse, err := units.NewRuler(step, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	s := begin(t, folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: coarse}})
	if s.roomy%step == 0 {
		t.Errorf("%v is a graduation", s.roomy)
	}
	if got, least := s.thickest(), s.thickOf(s.roomy, s.roomy); got < least || got > least+2*step {
		t.Errorf("without limits %v, with the widest spine %v", got, least)
	}
	box := Space{Depth: 50 * mm, Padding: 5 * mm}
	for _, c := range []struct {
		limits Limits
		want   units.Length
	}{{Limits{Thickness: 30 * mm}, 30 * mm}, {Limits{Into: box}, 40 * mm}, {Limits{Thickness: 41 * mm, Into: box}, 40 * mm}, {Limits{Thickness: 39 * mm, Into: box}, 39 * mm}} {
		s.request.Limits = c.limits
		if got := s.thickest(); got != c.want {
			t.Errorf("%+v: %v, want %v", c.limits, got, c.want)
		}
	}
}

// What fittings are made of where nobody says is card as it is bought where the folio is
// made: index of 110 lb, 0.0091 in (US Government Paper Specification Standards No. 11,
// 1999), in inches, which are usual, and 0.23 mm else.
func TestPlainCardIsOfTheRulers(t *testing.T) {
	for _, c := range []struct {
		main units.Ruler
		want units.Length
	}{{0, 91 * units.Inch / 10_000}, {units.WholeMillimetres, 23 * units.Millimetre / 100}} {
		s := begin(t, folio.Spec{Rulers: rule.Rulers{Main: c.main}})
		i := slices.IndexFunc(s.full.Stocks, func(k stock.Stock) bool { return k.Name == plainCard })
		if i < 0 || s.full.Stocks[i].Caliper != c.want || s.full.Stocks[i].Grammage != 200*units.GramPerSquareMetre {
			t.Errorf("%v: %+v", c.main, s.full.Stocks)
		}
	}
}
