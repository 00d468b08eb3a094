package fit_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// facing is a folio with a mat on each cover, both with a picture of 40 x 60 mm,
// which face each other when it is closed.
func facing(one, two units.Length) folio.Spec {
	mat := func(thick units.Length) folio.Kind {
		return folio.Mat{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: thick}}
	}
	return folio.Spec{
		Cover: units.Size{W: 52 * mm, H: 72 * mm}, Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: mm},
		Lining: rule.Lining{Inset: 3 * mm}, Fittings: []folio.Fitting{{Panel: boards.LeftCover, Kind: mat(one)}, {Panel: boards.RightCover, Kind: mat(two)}},
	}
}

// Other pictures go in the place of those that two facing mats were made for just
// where the folio made with them closes with its ease.
func TestOtherPicturesOnFacingMats(t *testing.T) {
	p, err := folio.Build(facing(mm, mm))
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	held, not := 0, 0
	try := func(one, two units.Length) bool {
		size := units.Size{W: 40 * mm, H: 60 * mm}
		_, err := survey.InFittings(context.Background(), fit.Budget{}, pocket.Content{Name: "a", Size: size, Thickness: one}, pocket.Content{Name: "b", Size: size, Thickness: two})
		if err != nil && !refusedWith(err, "contents", fit.NotHeld) {
			t.Fatal(err)
		}
		return err == nil
	}
	closes := func(one, two units.Length) bool {
		p, err := folio.Build(facing(one, two))
		return err == nil && eased(p)
	}
	for one := units.Length(0); one < 7*mm; one += 900 * units.Micrometre {
		for two := one; two < 7*mm; two += 700 * units.Micrometre {
			// Each has to do beside what the other mat was made for, which is how
			// thick its room is.
			want := closes(one, two) && (closes(one, mm) && closes(mm, two) || closes(two, mm) && closes(mm, one))
			if got := try(one, two); got != want {
				t.Errorf("pictures of %v and %v: %t, made with them %t", one, two, got, want)
			}
			if want {
				held++
			} else {
				not++
			}
		}
	}
	if held < 10 || not < 10 {
		t.Errorf("%d held, %d not", held, not)
	}
}

// Two mats for pictures of 60 x 60 mm face each other so that the middle of the one lies
// 24 mm beside that of the other, in a room for pictures of a little more than 7 mm: two
// strips of 60 x 10 mm and 5 mm meet where either lies across, which reaches 30 mm to
// either side, and not where both are turned upright, with 14 mm between them.
func TestStripsOnFacingMatsAreBothTurned(t *testing.T) {
	s := facing(0, 0)
	s.Cover.W = 96 * mm // of which 90 mm are lined, and 66 taken by a mat
	for i := range s.Fittings {
		s.Fittings[i].Kind = folio.Mat{Picture: pocket.Content{Size: units.Size{W: 60 * mm, H: 60 * mm}}}
		s.Fittings[i].Place.Across = place.Left
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	strip := pocket.Content{Name: "strip", Size: units.Size{W: 60 * mm, H: 10 * mm}, Thickness: 5 * mm}
	ways, err := fit.Of(p).InFittings(context.Background(), fit.Budget{}, strip, strip)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range ways {
		if !w.Turned() {
			t.Errorf("%v lies across, at %v", w.Room(), w.Rect())
		}
	}
}

// Three mats, of which two face each other in a room for pictures of a little more than
// 7 mm and were made for thin ones, and the third for one of 4.9: one of 5 mm goes on the
// third, in the place of that, where the others take 3.5 mm each, whichever come first.
func TestAThickPictureGoesWhereNothingFacesIt(t *testing.T) {
	s := facing(mm, mm)
	s.Cover.W = 110 * mm
	s.Fittings[0].Place.Across, s.Fittings[1].Place.Across = place.Right, place.Left
	third := facing(49*mm/10, 0).Fittings[0]
	third.Place.Across = place.Left
	s.Fittings = append(s.Fittings, third)
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	thin := pocket.Content{Name: "thin", Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: 7 * mm / 2}
	thick := thin
	thick.Name, thick.Thickness = "thick", 5*mm
	for _, contents := range [][]pocket.Content{{thick, thin, thin}, {thin, thick, thin}, {thin, thin, thick}} {
		ways, err := fit.Of(p).InFittings(context.Background(), fit.Budget{}, contents...)
		if err != nil {
			t.Error(err)
			continue
		}
		for i, w := range ways {
			if n, _ := w.Room().Fitting(); (n == 2) != (contents[i] == thick) {
				t.Errorf("the %s picture lies on mat %d", contents[i].Name, n)
			}
		}
	}
	thick.Thickness = 10 * mm
	if _, err := fit.Of(p).InFittings(context.Background(), fit.Budget{}, thick, thin, thin); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("10 mm: %v", err)
	}
}

// What has room side by side is found without a search, each where it goes by
// itself: one on each cover of an empty folio, in a single step.
func TestTogetherAsByThemselves(t *testing.T) {
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}, Place: place.Place{Across: place.Left, Along: place.Head}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	one, two := content(units.Size{W: 50 * mm, H: 70 * mm}), content(units.Size{W: 60 * mm, H: 100 * mm})
	ways, err := survey.All(context.Background(), fit.Budget{Steps: 1}, one, two)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []pocket.Content{one, two} {
		var alone []units.Rect
		for w := range survey.Where(context.Background(), fit.Budget{}, c) {
			alone = append(alone, w.Rect())
		}
		if !slices.Contains(alone, ways[i].Rect()) {
			t.Errorf("%v at %v; by itself at %v", c.Size, ways[i].Rect(), alone)
		}
	}
}

// So is a picture as thick as the one that a mat was made for, which lies in its place:
// both together are more than the 7 mm between two mats that face each other.
func TestMountedInThePlaceOfItsOwn(t *testing.T) {
	p, err := folio.Build(facing(4*mm, 0))
	if err != nil {
		t.Fatal(err)
	}
	picture := pocket.Content{Name: "picture", Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: 4 * mm}
	ways, err := fit.Of(p).InFittings(context.Background(), fit.Budget{Steps: 1}, picture)
	if err != nil {
		t.Fatal(err)
	}
	if n, _ := ways[0].Room().Fitting(); n != 0 {
		t.Errorf("it lies on mat %d", n)
	}
}

// Where a cover is filled up to the one that faces it, there is room for
// nothing, not for less.
func TestNoRoomIsNothing(t *testing.T) {
	none := 0
	for thick := 5 * mm; thick < 12*mm; thick += 60 * units.Micrometre {
		p, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 90 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: mm},
			Fittings: []folio.Fitting{{Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 80 * mm, H: 110 * mm}, Thickness: thick}}},
		})
		if err != nil {
			break // it does not close
		}
		for _, r := range fit.Of(p).Rooms() {
			if r.Thickness() < 0 {
				t.Errorf("over %v a room of %v", thick, r.Thickness())
			}
			if r.Thickness() == 0 {
				none++
			}
		}
	}
	if none == 0 {
		t.Error("there is always room")
	}
}

// A flap is half as wide as the cover: what lies on it wants a cover twice as wide
// as itself and its two insets.
func TestSmallestWithSomethingOnTheFlap(t *testing.T) {
	medal := folio.Ornament{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm}
	least, err := fit.Smallest(context.Background(), folio.Spec{
		Form: boards.ForeEdgeFlap, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * mm}, Lining: rule.Lining{Inset: 3 * mm},
		Closing: closing.Allowance{UnderFlap: 3 * mm}, Fittings: []folio.Fitting{{Panel: boards.Flap, Kind: medal}},
	}, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := least.Plan().Spec().Cover, (units.Size{W: 2 * (40 + 2*3) * mm, H: 66 * mm}); got != want {
		t.Errorf("a cover of %v, want %v", got, want)
	}
}

// The table of a family says what the plans say: the liner ends 1/8 in inside covers that
// are 10 1/4 x 6 1/4 in open, or is cut for each panel.
func TestFamilyTable(t *testing.T) {
	s := keepsake()
	f, err := fit.FamilyOf(context.Background(), s, s.Cover)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range f.Rows() {
		closed, ok := r.Plan().Closed()
		if !ok {
			t.Fatal("the keepsake stays open")
		}
		row := f.Table()[i+1]
		want := []string{
			"4 1/2 in x 6 1/4 in", "1 in", sized(r.Plan().OpenWidth().Length(), r.Plan().OpenHeight().Length()), sized(r.Plan().Wrap().Size().W, r.Plan().Wrap().Size().H),
			"10 in x 6 in", units.InchFraction.Text(closed.Thickness().Length()), units.InchFraction.Text(closed.Room().Length()),
		}
		for k, w := range want {
			if w != "" && row[k] != w {
				t.Errorf("column %d: %q, want %q", k, row[k], w)
			}
		}
		if !strings.HasPrefix(row[7], "photo ") {
			t.Errorf("the largest photograph: %q", row[7])
		}
	}
	// What is no short number of inches is told so that it is thicker than the folio, and
	// less room than it has.
	for k := range units.Length(8) {
		s.Covering.Caliper = 160_007 + 311*k
		if f, err = fit.FamilyOf(context.Background(), s, s.Cover); err != nil {
			t.Fatal(err)
		}
		for i, r := range f.Rows() {
			closed, _ := r.Plan().Closed()
			thick, err1 := units.Parse(f.Table()[i+1][5])
			room, err2 := units.Parse(f.Table()[i+1][6])
			over, under := thick-closed.Thickness().Length(), closed.Room().Length()-room
			if err1 != nil || err2 != nil || over < 0 || over > units.Thou/10 || under < 0 || under > units.Thou/10 {
				t.Errorf("%q, where it is %v thick with room for %v", f.Table()[i+1], closed.Thickness(), closed.Room())
			}
		}
	}
	s.Lining.Rule = rule.LiningPanels
	if f, err = fit.FamilyOf(context.Background(), s, s.Cover); err != nil || f.Table()[1][4] != "in panels" {
		t.Errorf("%v: %q", err, f.Table())
	}
}

func sized(w, h units.Length) string {
	return units.InchFraction.Text(w) + " x " + units.InchFraction.Text(h)
}
