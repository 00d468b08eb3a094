package wire_test

import (
	"encoding/json"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// By hand: a row of two covers of 120 mm, gaps of 4 mm and a spine of 25 is 273 mm
// wide. A sheet of 302 mm leaves 29, of which the left margin has 14 on a ruler of
// millimetres and the right one 15, or the other way round, which the document tells
// as the plan does. The boards lie on themselves, wrap and liner on all of them, the
// badge stands on the mat.
func TestPlacesAndMarginsInADocument(t *testing.T) {
	const mm = units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: 302 * mm, H: 300 * mm}}}},
		Fittings: []folio.Fitting{
			{Name: "mat", Kind: folio.Mat{Size: units.Size{W: 60 * mm, H: 60 * mm}}},
			{Name: "badge", StandsOn: "mat", Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	type length struct{ Length struct{ Text string } }
	var doc struct {
		Plan struct {
			Wrap   struct{ Across, Along struct{ Near, Far length } }
			Placed []struct{ Piece, Copy, First, Last, Fitting int }
			Pieces []struct{ Role string }

			Fittings []struct {
				Name     string
				StandsOn int
			}
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	near, far := p.Wrap().Across().Near().Length(), p.Wrap().Across().Far().Length()
	if near == far || near+far != 29*mm || doc.Plan.Wrap.Across.Near.Length.Text != near.String() || doc.Plan.Wrap.Across.Far.Length.Text != far.String() {
		t.Errorf("margins of %v and %v are written %+v", near, far, doc.Plan.Wrap.Across)
	}
	got := map[[2]int]int{}
	whole := 0
	for i, placed := range slices.Collect(p.Placed()) {
		d := doc.Plan.Placed[i]
		piece, copy := placed.Piece()
		first, last := placed.Boards()
		if d.Piece != piece || d.Copy != copy || d.First != first || d.Last != last {
			t.Errorf("place %d is written %+v", i, d)
		}
		switch {
		case d.First == 0 && d.Last == 2:
			whole++
		case d.Fitting < 0:
			got[[2]int{d.First, d.Last}]++
		case d.First != 2 || d.Last != 2:
			t.Errorf("a fitting on the right cover is written %+v", d)
		}
	}
	if len(got) != 3 || got[[2]int{0, 0}] != 1 || got[[2]int{1, 1}] != 1 || got[[2]int{2, 2}] != 1 || whole != 2 {
		t.Errorf("places of the case: %v, and %d on all boards", got, whole)
	}
	if f := doc.Plan.Fittings; len(f) != 2 || f[0].StandsOn != -1 || f[1].StandsOn != 0 {
		t.Errorf("the fittings stand on %+v", f)
	}
	if b, ok := p.Board(boards.RightCover); !ok || b.Rect().Min.X != 153*mm {
		t.Errorf("the right cover begins at %v", b.Rect().Min.X)
	}
}

// What has another form than its field is refused where it stands, and told what
// would do.
func TestOtherForms(t *testing.T) {
	for _, c := range []struct {
		fittings, pointer, want string
		code                    check.Code
	}{
		{`{}`, "/spec/fittings", "a list", wire.WrongForm},
		{`"none"`, "/spec/fittings", "a list", wire.WrongForm},
		{`[{"name": "a", "kind": {"type": "folded", "kind": {"type": "folded strip", "opensRight": 1}}}]`, "", "true or false", wire.WrongForm},
		{`[{"name": "a", "kind": {"type": "folded", "kind": {"type": "folded strip", "scores": {}}}}]`, "", "a list", wire.WrongForm},
		{`[{"name": "a", "kind": {"type": "folded", "kind": {"type": "folded strip", "count": 2147483648}}}]`, "", "a whole number, up to 2147483647", wire.WrongForm},
		{`[{"name": "a", "kind": {"type": "folded", "kind": {"type": "folded strip", "count": 1.5}}}]`, "", "a whole number, up to 2147483647", wire.WrongForm},
		{`[{"name": "a", "kind": {"type": "folded", "kind": {"type": "folded strip", "scores": ["1 in", "2 in", "3 in", "4 in", "5 in"]}}}]`, "", "at most 4", check.TooMany},
	} {
		_, err := wire.ReadSpec([]byte(`{"version": 1, "spec": {"fittings": ` + c.fittings + `}}`))
		bad, ok := errors.AsType[*wire.Error](err)
		if !ok {
			t.Errorf("%s: %v", c.fittings, err)
			continue
		}
		met := false
		for f := range bad.All() {
			met = met || f.Code == c.code && f.Want == c.want && (c.pointer == "" || f.Pointer == c.pointer)
		}
		if !met {
			t.Errorf("%s: %v; want %s, %s", c.fittings, err, c.code, c.want)
		}
	}
}
