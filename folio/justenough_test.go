package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/view"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// By hand: a print of 89 x 127 mm that is lapped by 3 has an opening of 83 x 121, and
// with rails of 12 it takes a frame of 107 x 145 mm; in one that is a nanometre less it
// does not go, and of usual prints there is none that is smaller.
func TestPrintInAFrameToTheNanometre(t *testing.T) {
	for _, less := range []units.Length{0, 1} {
		s := plainCase()
		s.Rulers = all(everyNanometre)
		s.Cover = units.Size{W: 130 * mm, H: 180 * mm}
		panel, _ := mustBuild(t, s).Panel(boards.RightCover, false)
		by := place.Sizing{Picture: place.PictureUsual, W: place.Relation{Of: place.OfPanel}, H: place.Relation{Of: place.OfPanel}}
		by.W.Less, by.H.Less = panel.Size().W-107*mm+less, panel.Size().H-145*mm
		s.Fittings = []folio.Fitting{{Kind: folio.Frame{Lap: 3 * mm, Rail: 12 * mm}, Size: by}}
		p, err := folio.Build(s)
		if (less == 0) != (err == nil) || less > 0 && !refusedWith(err, "fittings[0].size.picture", folio.NoPrint) {
			t.Errorf("%v less than the frame of a print: %v", less, err)
		}
		if err == nil {
			for f := range p.Fittings() {
				if got := f.Rect().Size(); got != (units.Size{W: 107 * mm, H: 145 * mm}) {
					t.Errorf("a frame of %v", got)
				}
			}
		}
	}
}

// Where no margin is more than is tolerated a row that came out longer by a nanometre
// leaves less; one that came out as planned, or shorter, does not.
func TestTurnedInByANanometre(t *testing.T) {
	s := plainCase()
	s.Rulers, s.Margin = all(everyNanometre), rule.Margin{Ideal: 10 * mm, Least: 10 * mm, Tolerated: 10 * mm}
	p := mustBuild(t, s)
	w, h := p.AsMade()
	for _, more := range []units.Length{-2, 0, 1, 2} { // of one less it is not known on which side it is lacking
		for path, m := range map[string]refit.Measured{
			"measured.width": {Width: w.Length() + more, Height: h.Length()}, "measured.height": {Width: w.Length(), Height: h.Length() + more},
		} {
			q, err := p.Refit(m)
			if err != nil {
				t.Fatal(err)
			}
			told := false
			for w := range q.Warnings() {
				told = told || w.Code == folio.MarginSmall && w.Path == path
			}
			if told != (more > 0) {
				t.Errorf("%v more in %s: told %v", more, path, told)
			}
		}
	}
}

// A spine that is block and boards less half a millimetre is none for a block of 0.1 mm
// between boards of 0.2: a hundredth is left of 0.11 mm. It is told of what gives the
// thickness.
func TestSpineOfAThinBlock(t *testing.T) {
	for path, set := range map[string]func(*folio.Spec, units.Length){
		"spine.contents": func(s *folio.Spec, l units.Length) { s.Spine.Contents = l },
		"block.thickness": func(s *folio.Spec, l units.Length) {
			s.Cover, s.Block = units.Size{}, boards.Block{Page: units.Size{W: 120 * mm, H: 170 * mm}, Thickness: l}
		},
	} {
		s := plainCase()
		s.Rulers, s.Board.Caliper, s.Spine = all(everyNanometre), mm/5, rule.Spine{Rule: rule.SpineBlockAndBoardsLess}
		set(&s, mm/10)
		v, ok := refusal(s, path, check.TooSmall)
		if !ok || v.Limit != mm/10+units.Shortest {
			t.Errorf("%s: %v: %v", path, v, builds(s))
		}
	}
}

// Which boards face each other, inside to inside, when each form is shut: two doors
// lie side by side on the back, and each takes part in what faces the other.
func TestFacingByForm(t *testing.T) {
	l, r, back, flap := boards.LeftCover, boards.RightCover, boards.Back, boards.Flap
	for form, faces := range map[boards.Form]map[boards.Role][]boards.Role{
		boards.SpineBoard: {l: {r}, r: {l}}, boards.SoftSpine: {l: {r}, r: {l}},
		boards.ForeEdgeFlap:    {l: {r}, r: {l}, flap: nil},
		boards.DoubleSpineGate: {boards.LeftDoor: {back, boards.RightDoor}, boards.RightDoor: {boards.LeftDoor, back}, back: {boards.LeftDoor, boards.RightDoor}},
	} {
		for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
			s := plainCase()
			s.Form, s.Hinge.Crease, s.Hinge.Width = form, crease, 9*mm+7
			if s.Rulers.Gap = everyNanometre; form == boards.SoftSpine {
				s.Spine, s.Hinge = rule.Spine{Contents: 5 * mm}, rule.Hinge{}
			}
			p := mustBuild(t, s)
			for role, want := range faces {
				var got []boards.Role
				for o := range p.Overheads(role, false) {
					got = append(got, o.Facing()...)
				}
				slices.Sort(got)
				if slices.Sort(want); !slices.Equal(got, want) {
					t.Errorf("%v, creased %v: the %v faces %v, want %v", form, crease, role, got, want)
				}
				for other := range faces {
					r, _ := p.Panel(other, false)
					if _, ok := p.Facing(r, other, role); other != role && ok != slices.Contains(want, other) {
						t.Errorf("%v, creased %v: the %v comes to face the %v: %t", form, crease, other, role, ok)
					}
				}
			}
		}
	}
}

// A made-up cover is measured as finely as a hand can; what is worked out again from that
// is on no ruler.
func TestRulersOfMeasuring(t *testing.T) {
	for fine, r := range map[units.Ruler]units.Ruler{units.TenthMillimetres: units.WholeMillimetres, units.SixtyFourths: units.Sixteenths} {
		s := plainCase()
		s.Rulers = rule.Rulers{Main: r}
		p := mustBuild(t, s)
		for step := range p.Steps() {
			if want, named := map[work.Task]units.Ruler{work.TaskMeasure: fine, work.TaskRefit: p.Notation().Exact()}[step.Task]; named && step.Ruler != want {
				t.Errorf("%v on %v", step.Task, step.Ruler)
			}
		}
	}
}

// The whole covering begins at 0 as it lies before it is glued on, of one piece or of
// several, and its upper left corner is that of the piece at the left.
func TestCoveringBeginsAtZero(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		for _, style := range []rule.QuarterRule{rule.QuarterNever, rule.QuarterAlways} {
			s := plainCase()
			s.Form, s.Quarter.Rule = form, style
			p := mustBuild(t, s)
			to := p.View(view.Wrap)
			var names []string
			for pc := range p.Pieces() {
				names = append(names, pc.Part())
			}
			corner, n := units.Point{X: units.Longest, Y: units.Longest}, 0
			for x := range p.Placed() {
				if i, _ := x.Piece(); names[i] == "wrap" {
					at := to.Rect(x.Rect()).Min
					corner.X, corner.Y, n = min(corner.X, at.X), min(corner.Y, at.Y), n+1
				}
			}
			if corner != (units.Point{}) || n == 0 {
				t.Errorf("%v, %v: %d pieces begin at %v", form, style, n, corner)
			}
		}
	}
}

// A concertina by relation stands past its panel by a tab, which is on no ruler here: it
// keeps to its room all the same, and a step of the ruler more would not.
func TestConcertinaKeepsToItsRoom(t *testing.T) {
	for n := range units.Length(10) {
		s := plainCase()
		s.Rulers.Fitting = units.WholeMillimetres
		by := place.Relation{Of: place.OfPanel, Less: 20 * mm}
		s.Fittings = []folio.Fitting{{Stock: "card", Size: place.Sizing{W: by}, Kind: folio.Folded{Kind: pocket.Concertina{Content: pocket.IDCard().Turned(), Tab: 12*mm + n*mm/10}}}}
		p := mustBuild(t, s)
		panel, _ := p.Panel(boards.RightCover, false)
		most := floor(panel.Size().W-20*mm, mm)
		for f := range p.Fittings() {
			if got := f.Rect().Size().W; got > most || got+mm <= most {
				t.Errorf("a tab of %v: %v wide in %v", 12*mm+n*mm/10, got, most)
			}
		}
	}
}

// A reveal that leaves no room for a picture is told how much less would do: half of what
// the panel is wider than the picture, put down where that is odd. Where not even the
// shortest length is left at both sides no reveal would do, and none is asked for.
func TestRevealThatWouldDo(t *testing.T) {
	for _, over := range []units.Length{2*units.Shortest - 1, 2 * units.Shortest, 2*units.Shortest + 1, 5*mm + 1} {
		s := plainCase()
		s.Rulers = all(everyNanometre)
		panel, _ := mustBuild(t, s).Panel(boards.RightCover, false)
		mat := folio.Mat{Picture: content(units.Size{W: panel.Size().W - over, H: 60 * mm}), Reveal: 90 * mm}
		s.Fittings = []folio.Fitting{{Kind: mat}}
		v, ok := refusal(s, "fittings[0].kind.reveal", folio.TooWide)
		if ok != (over >= 2*units.Shortest) {
			t.Errorf("%v over: a reveal would do: %v: %v", over, ok, builds(s))
			continue
		}
		if !ok {
			continue
		}
		for more, does := range map[units.Length]bool{0: true, 1: false} {
			mat.Reveal = v.Limit + more
			s.Fittings[0].Kind = mat
			if err := builds(s); (err == nil) != does {
				t.Errorf("%v over: a reveal of %v: %v", over, mat.Reveal, err)
			}
		}
	}
}

// Of three fittings of one name the second and the third are refused, each once.
func TestNamesAreRefusedOnce(t *testing.T) {
	s := plainCase()
	for range 3 {
		s.Fittings = append(s.Fittings, folio.Fitting{Name: "mat", Kind: folio.Mat{Size: units.Size{W: 9 * mm, H: 9 * mm}}, Place: place.Place{Along: place.Head}})
	}
	var got []string
	if bad, ok := builds(s).(*check.Error); ok {
		for v := range bad.All() {
			if v.Code == check.Conflict {
				got = append(got, v.Path)
			}
		}
	}
	if !slices.Equal(got, []string{"fittings[1].name", "fittings[2].name"}) {
		t.Errorf("refused are %q", got)
	}
}
