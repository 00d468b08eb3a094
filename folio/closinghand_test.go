package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Thick covering by hand: covering 1 mm, a room of 10 mm, a plate of 100 × 140 ×
// 9 mm in the middle of covers of 110 × 150. It lies on the turn-ins of both
// covers, two of each at the corners: 9 + 0.1 of film + 4 in 10.
func TestTurnInsUnderAPlate(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 110 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 10*mm + 4*mm + mm/5},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm}, Liner: stock.Stock{Caliper: mm / 10},
		Rulers: rule.Rulers{Main: units.TenthMillimetres}, Margin: rule.Margin{Ideal: 20 * mm},
		Lining: rule.Lining{Inset: 3 * mm}, Hinge: rule.Hinge{Width: 31 * mm / 10}, Mitre: rule.Mitre{Distance: 4 * mm},
		Fittings: []folio.Fitting{{Name: "plate", Kind: folio.Ornament{Size: units.Size{W: 100 * mm, H: 140 * mm}, Thickness: 9 * mm}}},
	}
	if _, err := folio.Build(s); !refusedWith(err, "spine.width", folio.NotClosing) {
		t.Fatalf("13.1 mm in 10: %v", err)
	}
	s.Spine.Width += 4 * mm
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if tight, _ := p.Tightest(true); tight.Stack().Length() != 131*mm/10 || tight.Left().Length() != 9*mm/10 {
		t.Errorf("%v", tight)
	}
	// Beside the turn-ins it needs no more than its own.
	s.Spine.Width -= 4 * mm
	s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: 9 * mm}
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	if tight, _ := p.Tightest(true); tight.Left().Length() != 9*mm/10 {
		t.Errorf("%v", tight)
	}
}

// A fore-edge flap by hand: board 3 mm, covering 0.5, liner 0.1, French joint of
// 1/8 in on a ruler of 1/32 in. The front cover reaches 1/8 in past the back of
// the spine, its covering 0.5 further; the second spine board stands 3.1 mm in
// from there, and its turn-ins 0.5 more.
func TestForeEdgeOfTheFrontCover(t *testing.T) {
	s := folio.Spec{
		Form: boards.ForeEdgeFlap, Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm},
		Board: stock.Stock{Caliper: 3 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 10},
		Rulers: rule.Rulers{Main: units.ThirtySeconds}, Hinge: rule.Hinge{Rule: rule.HingeFrenchJoint},
	}
	if _, err := folio.Build(s); !refusedWith(err, "hinge.rule", folio.NotClosing) {
		t.Fatalf("0.925 mm into the second spine: %v", err)
	}
	// 3 + 0.1 + 0.5 + 0.5 = 4.1 mm goes into 3/16 in and not into 5/32.
	for gap, closes := range map[units.Length]bool{5 * units.Inch / 32: false, 6 * units.Inch / 32: true} {
		s.Hinge = rule.Hinge{Width: gap}
		p, err := folio.Build(s)
		if (err == nil) != closes {
			t.Errorf("%v: %v", gap, err)
		}
		if err != nil {
			continue
		}
		tight, ok := p.TightestOf(closing.AtForeEdge, true)
		if want := gap - 41*mm/10; !ok || tight.Left().Length() != want || tight.String() != "the fore edge of the front cover 0.026 in from the second spine board" { // 0.6625 mm are 0.02608 in
			t.Errorf("%v, want %v left", tight, want)
		}
	}
	// Creased away from the spine boards it does not close, and says where to.
	s.Hinge.Crease, s.Hinge.Width = rule.CreaseMidGap, 10*units.Inch/32
	p, err := folio.Build(s)
	if err != nil || !warned(p, folio.WarnCrease) {
		t.Errorf("at mid-gap: %v", err)
	}
}

// A published gap of one caliper lets the boards close where the liner keeps off
// the hinge, but for the turn-ins at head and tail, which is said.
func TestOneCaliperAtHeadAndTail(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm}, Board: stock.Stock{Caliper: 2 * mm},
		Rulers: rule.Rulers{Main: units.HalfMillimetres}, Hinge: rule.Hinge{Rule: rule.HingeOneCaliper}, Lining: rule.Lining{Rule: rule.LiningPanels},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if _, shuts := p.Closed(); !shuts || !warned(p, folio.WarnHingeEnds) || warned(p, folio.WarnOpen) {
		t.Errorf("shuts %v, said so %v", shuts, warned(p, folio.WarnHingeEnds))
	}
	s.Hinge = rule.Hinge{Width: 2 * mm}
	if _, err := folio.Build(s); !refusedWith(err, "hinge.width", folio.GapNarrow) {
		t.Errorf("a width of one's own: %v", err)
	}
}

// Quarter style by hand: paper 0.2 mm over cloth 0.5. Closed, the cloth goes round
// the back and the paper round the fore edges; over the laps both lie on both
// covers, and round head and tail.
func TestClosedInQuarterStyle(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Board: stock.Stock{Caliper: 2 * mm},
		Covering: stock.Stock{Name: "paper", Caliper: mm / 5}, SpineCovering: stock.Stock{Name: "cloth", Caliper: mm / 2},
		Quarter: rule.Quarter{Rule: rule.QuarterAlways}, Rulers: rule.Rulers{Main: units.HalfMillimetres},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	c, _ := p.Closed()
	if got := c.Thickness().Length(); got != 20*mm+2*(mm/5+mm/2) {
		t.Errorf("thickness %v", got)
	}
	if got := c.Width().Length(); got != 100*mm+4*mm+mm/5+mm/2 {
		t.Errorf("width %v", got)
	}
	if got := c.Height().Length(); got != 150*mm+2*(mm/5+mm/2) {
		t.Errorf("height %v", got)
	}
}

// One place that closes, with another crease or nearer than the ease, hides no other one
// that does not. By hand, creased at the edges, 20 − 2 · 2.2 mm between the liners: 18 mm
// take a crease further out, a bar 1 mm from the edge of the spine board stands 1.2 mm deep
// in the cover and its liner, and contents of 22 mm go in with no crease, since mid-gap gives
// 6 mm more, whatever a badge leaves of an ease of 8.
func TestOnePlaceHidesNoOther(t *testing.T) {
	on := func(panel boards.Role, wide, thick, from units.Length) folio.Fitting {
		return folio.Fitting{Panel: panel, Kind: folio.Ornament{Size: units.Size{W: wide, H: 60 * mm}, Thickness: thick},
			Place: place.Place{Across: place.Left, Along: place.Middle, Offset: units.Point{X: from}}}
	}
	badge, bar := on(boards.RightCover, 30*mm, 18*mm, 40*mm), on(boards.Spine1, 2*mm, 4*mm, mm/2)
	thin := on(boards.RightCover, 30*mm, 154*mm/10, 40*mm)
	for name, c := range map[string]struct {
		fittings  []folio.Fitting
		contents  units.Length
		warned    check.Code
		refusedAt string
	}{
		"the badge":          {[]folio.Fitting{badge}, 0, folio.WarnCrease, ""},
		"the bar":            {[]folio.Fitting{bar}, 0, "", "fittings"},
		"the badge, the bar": {[]folio.Fitting{badge, bar}, 0, "", "fittings"},
		"thin":               {[]folio.Fitting{thin}, 0, folio.WarnEase, ""},
		"contents":           {nil, 22 * mm, "", "spine.width"},
		"contents with thin": {[]folio.Fitting{thin}, 22 * mm, "", "spine.width"},
	} {
		s := flat()
		s.Hinge, s.Lining.Inset = rule.Hinge{Width: 6 * mm, Crease: rule.CreaseAtEdge}, mm/2
		s.Closing = closing.Allowance{Ease: 8 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None}}
		s.Fittings, s.Spine.Contents = c.fittings, c.contents
		p, err := folio.Build(s)
		switch {
		case c.refusedAt != "":
			if !refusedWith(err, c.refusedAt, folio.NotClosing) {
				t.Errorf("%s: %v", name, err)
			}
		case err != nil:
			t.Errorf("%s: %v", name, err)
		default:
			var got []check.Code
			for w := range p.Warnings() {
				if w.Code == folio.WarnCrease || w.Code == folio.WarnEase {
					got = append(got, w.Code)
				}
			}
			if !slices.Equal(got, []check.Code{c.warned}) {
				t.Errorf("%s is warned of as %v, want %v", name, got, c.warned)
			}
		}
	}
}
