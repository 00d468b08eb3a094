package guide_test

import (
	"context"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// atBench is a folio whose corners, frame and strip go in one after the other.
func atBench() folio.Spec {
	card := pocket.Content{Name: "race card", Size: units.MustParseSize("2 x 3 in")}
	return folio.Spec{
		Cover: units.MustParseSize("4 1/2 x 6 in"), Spine: rule.Spine{Width: units.Inch / 2},
		Fittings: []folio.Fitting{
			{Name: "holders", Panel: boards.LeftCover, Outside: true, Kind: folio.Folded{Kind: pocket.Corners{Content: card}}},
			{Name: "strip", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card}}},
			{Name: "frame", Kind: folio.Frame{Picture: card}},
		},
	}
}

// Who reads a hand-out knows fittings by their names, not by their places in a Spec;
// and where no sheets are laid out, nothing is said of sheets that are.
func TestReadersAreToldWhatTheyKnow(t *testing.T) {
	p := build(t, atBench())
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}}
	for _, m := range layout.MaterialsOf(p) {
		job.Except = append(job.Except, m.Name)
	}
	laid, err := layout.Lay(context.Background(), job, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	doc := guide.HandOut(p, guide.PrintOptions{Layout: laid})
	text := string(doc.AppendPlain(nil))
	for _, wrong := range []string{"fittings[", "Sheets for one folio", "CUTTING"} {
		if strings.Contains(text, wrong) {
			t.Errorf("the hand-out says %q", wrong)
		}
	}
	for pic := range doc.Pictures() {
		if strings.Contains(pic.Title(), "[") {
			t.Errorf("a picture is called %q", pic.Title())
		}
	}
	if squeezed([]byte(work.Sides)) == "" || !strings.Contains(squeezed([]byte(text)), squeezed([]byte(work.Sides))) {
		t.Error("nothing says which side is the face")
	}
}

// Corners are fixed one by one: the picture of each step has one that is new, and those
// of the steps that mark all say where each goes.
func TestCornersComeOneByOne(t *testing.T) {
	p := build(t, atBench())
	fixed, marked := 0, 0
	for st := range p.Steps() {
		var corners []work.Object
		apart := map[units.Length]bool{}
		for _, a := range st.Do {
			switch a := a.(type) {
			case work.Fix:
				if strings.HasPrefix(a.What.Name, "corner ") {
					corners = append(corners, a.What)
				}
			case work.MarkPlace:
				if strings.HasPrefix(a.What.Name, "corner ") {
					apart[a.At.X], apart[a.At.Y] = true, true
				}
			}
		}
		pic, ok := guide.Step(p, st.Number, guide.Options{})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		if len(corners) == 1 {
			fixed++
			for _, l := range r.kind("new") {
				if l.of["copy"] != copyText(corners[0].Copy) {
					t.Errorf("step %d fixes %s; new is copy %q too", st.Number, corners[0].Name, l.of["copy"])
				}
			}
			if len(r.kind("new")) == 0 {
				t.Errorf("step %d shows nothing new", st.Number)
			}
		}
		for at := range apart {
			marked++
			if !slices.ContainsFunc(r.texts, func(x readText) bool { return x.s+" in" == units.Sixteenths.Text(at) }) {
				t.Errorf("the picture of step %d does not say %s", st.Number, units.Sixteenths.Text(at))
			}
		}
	}
	if fixed != 4 || marked < 3 {
		t.Errorf("%d corners are fixed, %d distances marked", fixed, marked)
	}
}

// Beside a drawing there is room for the names of a few things; only where they would
// be many are they left to the notes.
func TestNamesStandAtWhatTheyName(t *testing.T) {
	s := atBench()
	s.Form, s.FlapWidth = boards.ForeEdgeFlap, 2*units.Inch
	p := build(t, s)
	drawn := 0
	for st := range p.Steps() {
		pic, ok := guide.Step(p, st.Number, guide.Options{Fit: units.MustParseSize("88 x 62 mm")})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		drawn++
		for _, x := range r.texts {
			if strings.HasPrefix(x.s, "no room") {
				t.Errorf("step %d: %s", st.Number, x.s)
			}
		}
	}
	if drawn < 30 {
		t.Errorf("%d steps", drawn)
	}
}

// What slips in, even where nothing of it is seen then, has an arrow that shows the way.
func TestWhatSlipsInIsShown(t *testing.T) {
	p := build(t, atBench())
	slipped := 0
	for st := range p.Steps() {
		for _, a := range st.Do {
			in, ok := a.(work.Insert)
			if !ok {
				continue
			}
			pic, ok := guide.Step(p, st.Number, guide.Options{})
			r, bad := readPicture(pic, ok)
			if bad != "" {
				t.Fatal(bad)
			}
			if arrows := len(r.kind("slide")); in.Corners == (arrows == 1) {
				t.Errorf("step %d: %d arrows", st.Number, arrows)
			} else if !in.Corners {
				slipped++
			}
		}
	}
	if slipped != 2 {
		t.Errorf("%d are slipped in", slipped)
	}
	// What goes into pockets that lie over each other goes one way, and arrows that cover
	// each other show none.
	accordion := sampleOf("accordion", folio.Spec{
		Cover: units.MustParseSize("150 x 210 mm"), Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: pocket.Content{Size: units.MustParseSize("100 x 140 mm")}, Panels: 5}}}},
	})
	for _, s := range append(wide(), accordion) {
		for st := range s.plan.Steps() {
			if _, ok := st.Do[0].(work.Insert); !ok {
				continue
			}
			pic, ok := guide.Step(s.plan, st.Number, guide.Options{Fit: units.MustParseSize("88 x 62 mm")})
			r, bad := readPicture(pic, ok)
			if bad != "" {
				t.Fatal(bad)
			}
			arrows := r.kind("slide")
			for i, a := range arrows {
				for _, b := range arrows[:i] {
					apart := func(p, q point) float64 { return math.Hypot(float64(p.x-q.x), float64(p.y-q.y)) }
					if 3*apart(a.pts[0], b.pts[0]) < apart(a.pts[0], a.pts[1]) {
						t.Errorf("%s, step %d: arrows from %v and %v", s.name, st.Number, a.pts[0], b.pts[0])
					}
				}
			}
		}
	}
}

var decimal = regexp.MustCompile(`\d\.\d`)

// In millimetres they are told in halves, or on the finest of the rulers that are the
// folio's own: none is a place that the maker cannot find on it.
func TestRefittedPlacesOnOwnRulers(t *testing.T) {
	for _, own := range []units.Ruler{units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres} {
		s := folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres, Fitting: own},
			Fittings: []folio.Fitting{{Name: "crest", Kind: folio.Mat{Size: units.Size{W: 61 * mm, H: 40 * mm}}}}}
		p := build(t, s)
		w, h := p.AsMade()
		made, err := p.Refit(refit.Measured{Width: w.Length() + 37*mm/100, Height: h.Length() + 21*mm/100})
		if err != nil {
			t.Fatal(err)
		}
		finest := own.Step()
		if finest > mm/2 {
			finest = mm / 2
		}
		between := 0
		for st := range made.Steps() {
			if st.Task != work.TaskMark && st.Task != work.TaskLay && st.Task != work.TaskFix {
				continue
			}
			r, bad := readPicture(guide.Step(made, st.Number, guide.Options{}))
			if bad != "" {
				t.Fatal(bad)
			}
			for _, x := range r.texts {
				v, ok := figureOf(strings.TrimPrefix(x.s, "~"), "mm")
				if ok && v%nanos(finest) != 0 {
					t.Errorf("%v: the picture of step %d says %s", own, st.Number, x.s)
				}
				if ok && v%nanos(mm/2) != 0 {
					between++
				}
			}
		}
		if (between > 0) != (own == units.TenthMillimetres) {
			t.Errorf("%v: %d places between the half millimetres", own, between)
		}
	}
}

// A cover as made measures some hundredths more than planned. Nobody lays by those:
// places on it are told in fractions of an inch, in words and pictures.
func TestRefittedPlacesCanBeMeasured(t *testing.T) {
	p := build(t, atBench())
	w, h := p.AsMade()
	made, err := p.Refit(refit.Measured{Width: w.Length() + units.Inch/16, Height: h.Length() + units.Inch/16})
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	sheet := squeezed(guide.HandOut(made, guide.PrintOptions{}).AppendPlain(nil))
	for st := range made.Steps() {
		if st.Task != work.TaskMark && st.Task != work.TaskLay && st.Task != work.TaskFix && st.Task != work.TaskFill {
			continue
		}
		pic, ok := guide.Step(made, st.Number, guide.Options{})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		checked++
		for _, x := range r.texts {
			if strings.Contains(x.s, ".") {
				t.Errorf("the picture of step %d says %s", st.Number, x.s)
			}
		}
		if words := pic.Description(); decimal.MatchString(words) || !strings.Contains(sheet, squeezed([]byte(words))) {
			t.Errorf("step %d is told as %q", st.Number, words)
		}
	}
	if checked < 10 {
		t.Errorf("%d steps looked at", checked)
	}
}
