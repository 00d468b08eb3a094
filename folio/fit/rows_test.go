package fit_test

import (
	"context"
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

// Under a flap of 3 mm something of 3 mm is not eased, however wide the spine and large
// the cover: that is why there is no folio.
func TestSmallestOfWhatASpineDoesNotEase(t *testing.T) {
	s := folio.Spec{
		Form: boards.ForeEdgeFlap, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * mm}, Closing: closing.Allowance{UnderFlap: 3 * mm},
		Fittings: []folio.Fitting{{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: 60 * mm}, Thickness: 5 * mm / 2}}},
	}
	if _, err := fit.Smallest(context.Background(), s, fit.Budget{}); !refusedWith(err, "closing.ease", folio.WarnEase) {
		t.Error(err)
	}
}
