package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What is slipped in lies at the end away from the mouth and in the middle between the
// sides, what is mounted in the middle of its place; corners alone hold it by its corners;
// and of each place the fitting knows what it weighs when it is full: what it was made for,
// or the most that goes in.
func TestSpotsOfEveryKind(t *testing.T) {
	print := pocket.Content{Name: "print", Size: units.Size{W: 60*mm + 3, H: 80*mm + 5}, Thickness: mm / 4}
	all := slices.DeleteFunc(everyKind(print), func(k folio.Kind) bool { return k == folio.Kind(folio.Mat{Size: print.Size}) }) // which is for nothing
	for _, mouth := range [...]score.Edge{score.Tail, score.Left, score.Right} {
		all = append(all, folio.Frame{Picture: print, Mouth: mouth})
	}
	folded := func(k pocket.Kind) folio.Kind { return folio.Folded{Kind: k} }
	all = append(all, folded(pocket.Concertina{Leaf: units.Size{W: 60 * mm, H: 90 * mm}, Leaves: 2}), folded(pocket.FoldedStrip{Strip: units.Size{W: 200 * mm, H: 90 * mm}}),
		folded(pocket.FoldedStrip{Content: print, OpensRight: true}))
	s := plainCase()
	s.Cover, s.Spine.Width, s.Stocks = units.Size{W: 220 * mm, H: 260 * mm}, 60*mm, arranged().Stocks
	mouths := map[score.Edge]int{}
	for _, kind := range all {
		s.Fittings = []folio.Fitting{{Name: "it", Kind: kind, Panel: boards.LeftCover}}
		for f := range mustBuild(t, s).Fittings() {
			var held []folio.Load
			for l := range f.Loads() {
				if l.Held() {
					held = append(held, l)
				}
			}
			var spots []folio.Spot
			for _, spot := range f.Spots() {
				spots = append(spots, spot)
			}
			if len(held) != len(spots) {
				t.Errorf("%v: %d places, and what %d weigh", kind, len(spots), len(held))
				continue
			}
			for i, spot := range spots {
				content, made := spot.Content()
				name, size := content.Name, content.Size
				if !made {
					name, size = "most that goes in", spot.Capacity().Size
				}
				if held[i].Name() != name || held[i].Content().Size != size {
					t.Errorf("%v: place %d weighs with %s of %v, want %s of %v", kind, i, held[i].Name(), held[i].Content().Size, name, size)
				}
				if _, corners := kind.(folio.Folded); spot.ByCorners() != (corners && kind.String() == "corner pocket") {
					t.Errorf("%v: place %d holds by corners: %t", kind, i, spot.ByCorners())
				}
				mouth, slipped := spot.Mouth()
				in, at := spot.Rect(), spot.Lies()
				if !made || f.Panel() != boards.LeftCover || in.Intersect(at) != at {
					continue
				}
				if at.Size() != size {
					t.Errorf("%v: %v lies in place %d as %v", kind, size, i, at)
				}
				left, right, head, tail := at.Min.X-in.Min.X, in.Max.X-at.Max.X, at.Min.Y-in.Min.Y, in.Max.Y-at.Max.Y
				if _, frame := kind.(folio.Frame); frame {
					continue // the strips stop it where it is seen
				}
				wrong := right-left < 0 || right-left > 1 || tail-head < 0 || tail-head > 1
				if slipped {
					mouths[mouth]++
					switch mouth {
					case score.Head:
						wrong = right-left < 0 || right-left > 1 || tail != 0
					case score.Tail:
						wrong = right-left < 0 || right-left > 1 || head != 0
					case score.Left:
						wrong = tail-head < 0 || tail-head > 1 || right != 0
					case score.Right:
						wrong = tail-head < 0 || tail-head > 1 || left != 0
					}
				}
				if wrong {
					t.Errorf("%v: mouth %v, %t: in place %d, %v, it lies at %v", kind, mouth, slipped, i, in, at)
				}
			}
		}
	}
	if mouths[score.Head] == 0 || mouths[score.Left] == 0 || mouths[score.Right] == 0 {
		t.Errorf("mouths met: %v", mouths)
	}
}

// What is wrong with a fitting is told once, at the fitting, also where its size is by
// relation; and nothing is told of what stands on it, or beside it, for that.
func TestWhatIsWrongWithAFittingIsToldOnce(t *testing.T) {
	pic := content(units.Size{W: 40 * mm, H: 60 * mm})
	byPanel := place.Filling(place.OfPanel, 10*mm)
	proportioned, pictured := byPanel, byPanel
	proportioned.Proportions = place.Proportions{W: 2, H: 3}
	pictured.Picture = place.PictureUsual
	for name, f := range map[string]folio.Fitting{
		"a slip for a content below nothing":          {Kind: folio.Folded{Kind: pocket.Slip{Content: content(units.Size{W: -mm, H: 60 * mm})}}},
		"a strip with a hem below nothing":            {Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pic, Hem: -2}}},
		"of a strip by relation":                      {Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pic, Hem: -2}}, Size: byPanel},
		"a slip with proportions":                     {Kind: folio.Folded{Kind: pocket.Slip{Content: pic}}, Size: proportioned},
		"a slip for usual prints":                     {Kind: folio.Folded{Kind: pocket.Slip{Content: pic}}, Size: pictured},
		"a slip for no content with proportions":      {Kind: folio.Folded{Kind: pocket.Slip{}}, Size: proportioned},
		"a slip for no content, but for usual prints": {Kind: folio.Folded{Kind: pocket.Slip{}}, Size: pictured},
		"a mat's stock":                               {Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pic}, MatStock: "slate"}},
		"a mat's stock by relation":                   {Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pic}, MatStock: "slate"}, Size: byPanel},
		"corners by relation":                         {Kind: folio.Folded{Kind: pocket.Corners{Content: pic, Leg: -2}}, Size: byPanel},
		"a frame's foam":                              {Kind: folio.Frame{Picture: pic, FoamStock: "slate"}},
		"a frame's lap":                               {Kind: folio.Frame{Picture: pic, Lap: 40 * mm}},
		"a frame's lap below nothing":                 {Kind: folio.Frame{Picture: pic, Lap: -2}},
		"a frame's rail":                              {Kind: folio.Frame{Picture: pic, Rail: mm}},
		"a frame's rail by relation":                  {Kind: folio.Frame{Rail: 50 * mm}, Size: byPanel},
		"a frame's lap by relation":                   {Kind: folio.Frame{Lap: -2}, Size: byPanel},
		"a mat's reveal":                              {Kind: folio.Mat{Picture: pic, Reveal: -2}},
		"a mat's reveal by relation":                  {Kind: folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 50 * mm}, Size: byPanel},
		"an ornament's thickness":                     {Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: -2}},
		"an ornament's thickness, by relation":        {Kind: folio.Ornament{Thickness: -2}, Size: byPanel},
	} {
		s := plainCase()
		f.Name = "it"
		s.Fittings = []folio.Fitting{f, {Name: "on", StandsOn: "it", Kind: folio.Mat{Size: units.Size{W: mm, H: mm}}}}
		err := builds(s)
		var all []check.Violation
		if bad, ok := err.(*check.Error); ok {
			all = slices.Collect(bad.All())
		}
		if len(all) != 1 {
			t.Errorf("%s: want one violation: %v", name, err)
		}
	}
}
