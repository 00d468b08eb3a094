package fit_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// rowsOfAll are a folio of each form and some rows as data, without a size.
func rowsOfAll() []folio.Spec {
	var out []folio.Spec
	for f := boards.SpineBoard; f < boards.OwnRow; f++ {
		out = append(out, folio.Spec{Form: f})
	}
	soft := folio.Spec{}
	for i := range 6 {
		soft.Row.Boards = append(soft.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i)})
		if i > 0 {
			soft.Row.Joints = append(soft.Row.Joints, boards.Joint{Fold: score.Fold((6 - i + 1) % 2)})
		}
	}
	nine := folio.Spec{Row: boards.Row{Boards: []boards.Board{
		{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2}, {Role: boards.Panel3}, {Role: boards.Spine3}, {Role: boards.Panel4}, {Role: boards.Spine4}, {Role: boards.Panel5},
	}, Joints: []boards.Joint{{}, {}, {Fold: score.Mountain}, {Fold: score.Mountain}, {}, {}, {Fold: score.Mountain}, {Fold: score.Mountain}}}}
	return append(out, soft, nine)
}

// For a plate of 40 x 60 x 2 mm the smallest folio of any row is one whose least
// board takes it with the liner's inset of 3 mm on either side: no cover a step
// smaller does, no spine a step narrower, and it closes with its ease.
func TestSmallestOfEveryRow(t *testing.T) {
	plate := pocket.Content{Name: "plate", Size: units.Size{W: 34 * mm, H: 54 * mm}, Thickness: 2 * mm}
	for i, s := range rowsOfAll() {
		s.Rulers.Main = units.WholeMillimetres
		least, err := fit.Smallest(context.Background(), s, fit.Budget{}, plate)
		if err != nil {
			t.Errorf("row %d, %v: %v", i, s.Form, err)
			continue
		}
		p := least.Plan()
		cover := p.Spec().Cover
		if want := (units.Size{W: 46 * mm, H: 66 * mm}); cover != want && cover != want.Turned() {
			t.Errorf("row %d, %v: a cover of %v", i, s.Form, cover)
		}
		narrower, lower, thinner := least.Proof()
		if !least.Complete() || narrower == nil || lower == nil || thinner == nil || !eased(p) {
			t.Errorf("row %d, %v: complete %v, narrower %v, lower %v, thinner %v", i, s.Form, least.Complete(), narrower, lower, thinner)
		}
	}
}

// What lies outside, or between outsides that meet, or beside nothing, lets the folio
// close with its ease as well, and no spine a step narrower does.
func TestSmallestWithAnythingAnywhere(t *testing.T) {
	found, outsides := 0, 0
	for i, s := range rowsOfAll() {
		s.Rulers.Main, s.Board, s.Lining = units.TenthMillimetres, stock.Stock{Caliper: mm}, rule.Lining{Inset: 2 * mm}
		row := s.Row
		if !row.Given() {
			row = s.Form.Row()
		}
		for k, b := range row.Boards {
			on := b.Role
			if on.Spine() {
				continue
			}
			s.Fittings = []folio.Fitting{{Panel: on, Outside: k%2 == 0, Kind: folio.Ornament{Size: units.Size{W: 50*mm + 1, H: 60 * mm}, Thickness: 2 * mm}}}
			if k%4 == 1 {
				s.Fittings[0].Kind = folio.Mat{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: 2 * mm}}
			}
			least, err := fit.Smallest(context.Background(), s, fit.Budget{})
			if err != nil { // between outsides no spine makes room, nor under a flap
				if !refusedWith(err, "", folio.NotClosing) && !refusedWith(err, "", folio.WarnEase) {
					t.Errorf("row %d, %v, on the %v: %v", i, s.Form, on, err)
				}
				continue
			}
			found++
			p := least.Plan()
			if _, ok := p.TightestOf(closing.BetweenOutsides, true); ok {
				outsides++
			}
			if narrower, lower, thinner := least.Proof(); !eased(p) || narrower == nil || lower == nil || thinner == nil {
				t.Errorf("row %d, %v, on the %v: eased %t, narrower %v, lower %v, thinner %v", i, s.Form, on, eased(p), narrower, lower, thinner)
			}
		}
	}
	if found < 20 || outsides == 0 {
		t.Errorf("%d folios, %d with outsides that meet", found, outsides)
	}
}

// A row of as many boards as may be is longer than any that may be made, where each is a
// metre wide: its smallest folio is found all the same.
func TestSmallestOfALongRow(t *testing.T) {
	s := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: mm}, Lining: rule.Lining{Inset: 3 * mm}}
	for i := range boards.MaxBoards {
		s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i)})
		if i > 0 {
			s.Row.Joints = append(s.Row.Joints, boards.Joint{Fold: [...]score.Fold{score.Mountain, score.Valley}[i%2]})
		}
	}
	s.Fittings = []folio.Fitting{{Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: 80 * mm}, Thickness: mm}}}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	if c := least.Plan().Spec().Cover; c != (units.Size{W: 66 * mm, H: 86 * mm}) || !least.Complete() {
		t.Errorf("a cover of %v, complete %t", c, least.Complete())
	}
	// What is too long whatever the cover is said to be so.
	s.Row.Boards[3].Rule, s.Row.Boards[3].Width = boards.WidthFixed, units.Longest
	if _, err := fit.Smallest(context.Background(), s, fit.Budget{}); !refusedWith(err, "", check.TooLarge) {
		t.Errorf("a board of 10 m in the row: %v", err)
	}
}

// Under a flap in a gap of 4 mm (3 mm and two coverings of 0.16 mm, up to the ruler) two
// turn-ins and something of 2.5 mm on 0.1 mm of film are not eased by 1 mm, however wide
// the spine and large the cover, nor something of 0.25 mm on 0.1 mm of film between outsides that a gap of
// 1 mm less two coverings of 0.16 mm keeps apart: that is why there is no folio. With
// the ease that is said to be left there is one, and with more there is none.
func TestSmallestOfWhatASpineDoesNotEase(t *testing.T) {
	flap := folio.Spec{
		Form: boards.ForeEdgeFlap, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: 160_000}, Closing: closing.Allowance{UnderFlap: 3 * mm},
		Fittings: []folio.Fitting{{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: 60 * mm}, Thickness: 5 * mm / 2}}},
	}
	toAndFro := folio.Spec{
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: 160_000}, Closing: closing.Allowance{Ease: mm},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Panel1}},
			Joints: []boards.Joint{{}, {}, {Fold: score.Mountain}},
		},
		Fittings: []folio.Fitting{{Panel: boards.Panel1, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 40 * mm}, Thickness: mm / 4}}},
	}
	// A nanometre of ease is left, and none at all.
	hair, none := toAndFro, toAndFro
	for by, s := range map[units.Length]*folio.Spec{329_999: &hair, 330_000: &none} {
		s.Fittings = slices.Clone(s.Fittings)
		s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 30 * mm, H: 40 * mm}, Thickness: mm/4 + by}
	}
	if _, err := fit.Smallest(context.Background(), none, fit.Budget{}); !refusedWith(err, "closing.ease", folio.WarnEase) || !strings.Contains(err.Error(), "want no ease") {
		t.Errorf("with nothing left: %v", err)
	}
	inches := flap // of which what is left is no whole ten-thousandth of an inch
	inches.Rulers.Main, inches.Closing.Ease = units.Sixteenths, 2*mm
	inches.Fittings = slices.Clone(flap.Fittings)
	inches.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 60 * mm, H: 60 * mm}, Thickness: 2_501_000}
	one := inches
	one.Cover, one.Spine.Width = units.Size{W: 100 * mm, H: 100 * mm}, 20*mm
	p, err := folio.Build(one)
	if err != nil {
		t.Fatal(err)
	}
	tight, _ := p.TightestOf(closing.UnderFlap, true)
	for name, c := range map[string]struct {
		spec folio.Spec
		left units.Length
	}{
		"under a flap": {flap, 4*mm - 4*160_000 - 2_600_000}, "in inches": {inches, tight.Left().Length()},
		"between outsides": {toAndFro, mm - 2*160_000 - 350_000}, "a nanometre between outsides": {hair, 1},
	} {
		_, err := fit.Smallest(context.Background(), c.spec, fit.Budget{})
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		ease := c.spec.WithDefaults().Closing.Ease
		if v, ok := bad.Find("closing.ease", folio.WarnEase); !ok || v.Bound != check.AtMost || v.Limit != c.left || v.By != ease-c.left {
			t.Errorf("%s: %+v, want at most %v", name, v, c.left)
		}
		told, _, _ := strings.Cut(strings.TrimPrefix(bad.Error(), "closing.ease: closing-ease: got "), " of ease")
		ease, err = units.Parse(told[strings.LastIndex(told, "at most ")+len("at most "):])
		if err != nil || ease > c.left || ease < c.left-10*units.Micrometre {
			t.Errorf("%s: %v are told of %v", name, ease, c.left)
		}
		for more, ok := range map[units.Length]bool{0: true, 1: false} {
			c.spec.Closing.Ease = c.left + more
			if _, err := fit.Smallest(context.Background(), c.spec, fit.Budget{}); (err == nil) != ok {
				t.Errorf("%s, an ease of %v: %v", name, c.spec.Closing.Ease, err)
			}
		}
	}
}

// On a ruler of 600 mm what is 700 mm wide takes a cover of two graduations, which is
// more than a metre.
func TestSmallestOnAVeryCoarseRuler(t *testing.T) {
	coarse, err := units.NewRuler(600*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	s := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: coarse}, Board: stock.Stock{Caliper: 2 * mm}}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{}, pocket.Content{Size: units.Size{W: 700 * mm, H: 650 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	if c := least.Plan().Spec().Cover; c != (units.Size{W: 1200 * mm, H: 1200 * mm}) {
		t.Errorf("a cover of %v", c)
	}
}
