package guide_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func TestTheFolioIsDrawn(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}})
	for name, draw := range map[string]func(*folio.Plan, guide.Options) (guide.Picture, bool){
		"wrap": guide.Wrap, "inside": guide.Inside, "outside": guide.Outside, "closed": guide.Closed,
	} {
		pic, ok := draw(p, guide.Options{})
		if !ok || pic.Empty() {
			t.Fatalf("%s is not drawn", name)
		}
		wellFormed(t, pic.AppendSVG(nil))
		for _, none := range []*folio.Plan{nil, {}} {
			if _, ok := draw(none, guide.Options{}); ok {
				t.Errorf("%s of no plan is drawn", name)
			}
		}
	}
}

// On a telephone long names leave the folio its room: a letter stands for each, in every
// drawing of the picture the same, and the legend has the name.
func TestLongNamesOnATelephone(t *testing.T) {
	shrunk := func(name string, draw func(*folio.Plan, guide.Options) (guide.Picture, bool)) (by float64, svg string) {
		p := build(t, folio.Spec{
			Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{
				{Name: name + "1", Kind: folio.Mat{Size: units.Size{W: 120 * mm, H: 60 * mm}}, Place: place.Place{Along: place.Head, Offset: units.Point{Y: 10 * mm}}},
				{Name: name + "2", Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: 60 * mm, H: 40 * mm}}},
				{Name: name + "3", Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: mm}, Place: place.Place{Along: place.Tail, Offset: units.Point{Y: 20 * mm}}},
			},
		})
		pic, ok := draw(p, guide.Options{Fit: units.Size{W: 90 * mm, H: 120 * mm}})
		if !ok {
			t.Fatal("no picture")
		}
		return pic.Size().W.Millimetres() / pic.Printed().W.Millimetres(), string(pic.AppendSVG(nil))
	}
	const long = "heron on the pier of the boathouse no "
	for what, draw := range map[string]func(*folio.Plan, guide.Options) (guide.Picture, bool){"inside": guide.Inside, "closed": guide.Closed} {
		short, _ := shrunk("", draw)
		by, svg := shrunk(long, draw)
		if by > short*5/4 {
			t.Errorf("%s: with long names it is drawn %.1f times smaller, with short ones %.1f", what, by, short)
		}
		for _, key := range []string{"1", "2", "3"} {
			named := strings.Count(svg, long+key+"<")
			if what == "inside" && named != 1 || named > 1 {
				t.Errorf("%s: %d times %q", what, named, long+key)
			}
		}
		for _, letter := range []string{"A", "B", "C"} {
			if in := strings.Contains(svg, ">"+letter+": "+long); in != strings.Contains(svg, ">"+letter+"<") {
				t.Errorf("%s: %s in the legend %t", what, letter, in)
			}
		}
	}
}

// A frame shows its window where it was cut, as one looks at its face, on the inside of a
// cover as on the outside.
func TestWindowsOfFrames(t *testing.T) {
	for mouth := score.Head; mouth <= score.Right; mouth++ {
		for _, outside := range []bool{false, true} {
			p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
				Fittings: []folio.Fitting{{Name: "portrait", Panel: boards.LeftCover, Outside: outside, Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 12 * mm, Y: 31 * mm}},
					Kind: folio.Frame{Mouth: mouth, Picture: pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 4}}}}})
			if bad := openReads(p, outside, looking(p, guide.Options{})); bad != "" {
				t.Errorf("open at the %v, outside %t: %s", mouth, outside, bad)
			}
		}
	}
}
