package fit_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
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
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// roomOf returns the first room of a kind and its number.
func roomOf(t *testing.T, s *fit.Survey, kind fit.RoomKind) (int, fit.Room) {
	t.Helper()
	for i, r := range s.Rooms() {
		if r.Kind() == kind {
			return i, r
		}
	}
	t.Fatalf("no room %v", kind)
	return 0, fit.Room{}
}

// What lies on a panel keeps clear of the liner's edges: of a cover of 120 x 170 mm an inset
// of 3 mm, a clearance of 2 mm and a reveal of 3 mm on every side leave 104 x 154 mm.
func TestRoomsKeepClear(t *testing.T) {
	for clearance, want := range map[units.Length]units.Size{mm: {W: 106 * mm, H: 156 * mm}, 2 * mm: {W: 104 * mm, H: 154 * mm}} {
		spec := edgeSpec()
		spec.Clearance, spec.Lining.Inset = clearance, 3*mm
		p, err := folio.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		s := fit.Of(p)
		i, r := roomOf(t, s, fit.OnPanel)
		_, fits := s.Takes(i, pocket.Content{Size: want})
		_, more := s.Takes(i, pocket.Content{Size: want.Plus(1, 0)})
		if r.Size() != want || !fits || more {
			t.Errorf("a clearance of %v leaves %v, want %v; it goes in: %v, and more: %v", clearance, r.Size(), want, fits, more)
		}
	}
}

// Nothing is offered where the tabs of a guard lie that stands on the spine beside: of a
// panel of 114 x 164 mm a tab takes what reaches over a hinge of 4 mm and an inset of 3 mm.
func TestRoomsBesideTabs(t *testing.T) {
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Hinge: rule.Hinge{Width: 4 * mm}, Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true}},
		Fittings: []folio.Fitting{{Name: "log", Panel: boards.Spine1, Kind: folio.Folded{Kind: pocket.Concertina{
			Content: pocket.Content{Name: "tide table", Size: units.Size{W: 80 * mm, H: 110 * mm}}, OnSpine: true, Leaves: 1, Tab: 40 * mm}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var tabs units.Rect
	for f := range p.Fittings() {
		tabs = f.Reach()
	}
	s, tried := fit.Of(p), 0
	for i, r := range s.Rooms() {
		if r.Kind() != fit.OnPanel {
			continue
		}
		panel, _ := p.Panel(r.Panel(), false)
		beside := units.WholeMillimetres.Down(max(panel.Max.X-tabs.Max.X, tabs.Min.X-panel.Min.X)) - 6*mm // less a reveal of 3 mm on each side
		for _, c := range []struct {
			w    units.Length
			fits bool
		}{{beside, true}, {beside + mm, false}} {
			w, ok := s.Takes(i, pocket.Content{Size: units.Size{W: c.w, H: 150 * mm}})
			if ok != c.fits || ok && w.Rect().Overlaps(tabs) {
				t.Errorf("on the %v beside tabs over %v: %v wide goes on: %v, at %v", r.Panel(), tabs, c.w, ok, w.Rect())
			}
			tried++
		}
	}
	if tried != 4 {
		t.Errorf("%d were tried", tried)
	}
}

// What is left over a panel is what is left over the highest picture on it, whichever
// that is of three.
func TestRoomsOverTheHighest(t *testing.T) {
	left := func(thick ...units.Length) units.Length {
		s := edgeSpec()
		for i, l := range thick {
			s.Fittings = append(s.Fittings, folio.Fitting{Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: l}},
				Place: place.Place{Along: place.Head, Offset: units.Point{Y: units.Length(30+40*i) * mm}}})
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range fit.Of(p).Rooms() {
			if r.Kind() == fit.OnPanel && r.Panel() == boards.RightCover {
				return r.Thickness()
			}
		}
		t.Fatal("no room on the right cover")
		return 0
	}
	want := left(9 * mm)
	for _, thick := range [][]units.Length{{2 * mm, mm, 9 * mm}, {mm, 9 * mm, 2 * mm}, {9 * mm, 2 * mm, mm}, {9 * mm, mm}, {mm, 9 * mm}} {
		if got := left(thick...); got != want {
			t.Errorf("over %v: %v, over the highest by itself %v", thick, got, want)
		}
	}
	if got := left(mm, 8*mm); got != want+mm {
		t.Errorf("over 8 mm: %v, over 9 mm %v", got, want)
	}
}

func TestWhatFitsTheKeepsake(t *testing.T) {
	p, err := folio.Build(keepsake())
	if err != nil {
		t.Fatal(err)
	}
	photo := func(name string) pocket.Content {
		u, ok := pocket.UsualContent(name)
		if !ok {
			t.Fatalf("no content %q", name)
		}
		return u.Content
	}
	where := func(c pocket.Content) map[fit.RoomKind]bool {
		out := map[fit.RoomKind]bool{}
		for w := range fit.Of(p).Where(context.Background(), fit.Budget{}, c) {
			out[w.Room().Kind()] = true
		}
		return out
	}
	for _, c := range []struct {
		content pocket.Content
		kind    fit.RoomKind
		fits    bool
	}{
		{pocket.IDCard(), fit.Slipped, true},
		{photo("photo 8 x 10 in"), fit.Slipped, false},
		{photo("photo 8 x 10 in"), fit.OnPanel, false},
	} {
		if got := where(c.content)[c.kind]; got != c.fits {
			t.Errorf("%s %v: %v, want %v", c.content.Name, c.kind, got, c.fits)
		}
	}
	if len(where(photo("photo 8 x 10 in"))) != 0 {
		t.Error("8 x 10 in goes nowhere in a cover of 4 1/2 x 6 1/4 in")
	}
}

// Common practice, no published source: a picture of about 4 x 5 1/2 in goes
// on a 4 1/2 x 6 1/4 in cover.
func TestLargestOnABarePanel(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	i, s := roomOf(t, survey, fit.OnPanel)
	// 4 1/2 less two insets and two reveals of 1/8 in.
	if want := units.MustParseSize("4 x 5 3/4 in"); s.Size() != want {
		t.Errorf("room %v, want %v", s.Size(), want)
	}
	if _, ok := survey.Takes(i, content(units.MustParseSize("4 x 5 1/2 in"))); !ok {
		t.Error("4 x 5 1/2 in does not go on")
	}
	if f, ok := survey.Takes(i, content(units.MustParseSize("5 3/4 x 4 in"))); !ok || !f.Turned() {
		t.Error("nor turned")
	}
	if _, ok := survey.Takes(i, content(units.MustParseSize("4 1/64 x 5 1/2 in"))); ok {
		t.Error("1/64 in more goes on")
	}
	// The room between the covers, 1 − 1/8 − 2 × 0.0063 in, less the ease of
	// 1/32 in, a mat of 0.0091 in and two films of 0.1 mm, under it and on it, and
	// of the turn-ins of 0.0063 in in the corners of both covers two of each.
	if want := units.MustParse("0.83115 in") - units.MustParse("0.0091 in") - mm/5 - 4*units.MustParse("0.0063 in"); s.Thickness() != want {
		t.Errorf("thickness %v, want %v", s.Thickness(), want)
	}
	// Without films, and without ease, there is as much more; what goes in is just that.
	for more, set := range map[units.Length]func(*closing.Allowance){
		mm / 5:          func(a *closing.Allowance) { a.Adhesive.Caliper = units.None },
		units.Inch / 32: func(a *closing.Allowance) { a.Ease = units.None },
	} {
		other := p.Spec()
		set(&other.Closing)
		q, err := folio.Build(other)
		if err != nil {
			t.Fatal(err)
		}
		j, r := roomOf(t, fit.Of(q), fit.OnPanel)
		if r.Thickness() != s.Thickness()+more {
			t.Errorf("with %v less in it %v are left of %v", more, r.Thickness(), s.Thickness())
		}
		for over := range units.Length(2) {
			c := content(units.MustParseSize("4 x 5 1/2 in"))
			c.Thickness = r.Thickness() + over
			if _, ok := fit.Of(q).Takes(j, c); ok != (over == 0) {
				t.Errorf("with %v less in it, %v and %d nm: %t", more, r.Thickness(), over, ok)
			}
		}
	}
	card := p.Spec()
	card.Stocks = []stock.Stock{{Name: "card", Caliper: units.MustParse("0.0291 in")}}
	thick, err := folio.Build(card)
	if err != nil {
		t.Fatal(err)
	}
	if _, r := roomOf(t, fit.Of(thick), fit.OnPanel); r.Thickness() != s.Thickness()-units.MustParse("0.02 in") {
		t.Errorf("on a card of 0.0291 in %v are left, and on one of 0.0091 in %v", r.Thickness(), s.Thickness())
	}
	way, ok := survey.Largest(fit.UsualPhotos(), i)
	// 4 x 6 in is too high; 89 x 127 mm is a tenth of a millimetre wider than
	// 3.5 x 5 in.
	if !ok || way.Content().Name != "photo 89 x 127 mm" {
		t.Errorf("the largest usual photograph is %v, %v", way.Content().Name, ok)
	}
	small, flat := content(units.MustParseSize("2 x 3 in")), content(units.MustParseSize("3 x 4 in"))
	high, out := content(units.MustParseSize("4 x 3 in")), content(units.MustParseSize("9 x 9 in"))
	if way, ok := survey.Largest(slices.Values([]pocket.Content{out, small, flat, high, small}), i); !ok || way.Content() != flat {
		t.Errorf("the largest, of equal ones the first: %v", way.Content().Size)
	}
	if _, ok := survey.Largest(nil, i); ok {
		t.Error("of nothing, something is the largest")
	}
	if _, ok := survey.Takes(99, content(units.Size{W: mm, H: mm})); ok {
		t.Error("a room that is none takes something")
	}
}

// A picture in a frame must go between the strips and still cover the opening
// when it has slid to one side.
func TestFrameTakes(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Kind: folio.Frame{
			Picture: pocket.Content{Size: units.Size{W: 80 * mm, H: 120 * mm}, Thickness: mm / 4},
			Lap:     3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm,
		}}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	i, spot := roomOf(t, survey, fit.Slipped)
	// Opening 74 x 114, outside 98 x 138; the mouth is at the head. The side
	// strips are 80 + 2 apart, from 8 to 90; the far one stops the picture of
	// 120 in the middle, at 138 - 9 = 129.
	if spot.Size() != (units.Size{W: 80 * mm, H: 120 * mm}) {
		t.Errorf("room %v", spot.Size())
	}
	// From one strip to the far side of the opening, 86 - 8; from where its
	// ease ends, 129 - 122 = 7, down to the opening's foot at 126.
	if spot.Least() != (units.Size{W: 78 * mm, H: 119 * mm}) {
		t.Errorf("least %v", spot.Least())
	}
	for _, c := range []struct {
		w, h, thick units.Length
		fits        bool
	}{
		{78 * mm, 119 * mm, mm, true},
		{80 * mm, 120 * mm, 2 * mm, true},
		{80*mm + 1, 120 * mm, mm, false},
		{80 * mm, 120*mm + 1, mm, false},
		{78*mm - 1, 119 * mm, mm, false},
		{80 * mm, 120 * mm, 2*mm + 1, false},
		{120 * mm, 80 * mm, mm, true}, // turned
	} {
		_, ok := survey.Takes(i, pocket.Content{Size: units.Size{W: c.w, H: c.h}, Thickness: c.thick})
		if ok != c.fits {
			t.Errorf("%v x %v x %v: %v, want %v", c.w, c.h, c.thick, ok, c.fits)
		}
	}
}

// A frame takes the picture that it was made for, with or without a film, at
// every mouth and with all the ease that it may have.
func TestFrameTakesItsOwn(t *testing.T) {
	picture := pocket.Content{Size: units.Size{W: 80 * mm, H: 120 * mm}, Thickness: mm / 2}
	for _, film := range []string{"", "film"} {
		for mouth := score.Head; mouth <= score.Right; mouth++ {
			for _, ease := range []units.Length{units.None, mm, 5 * mm} {
				p, err := folio.Build(folio.Spec{
					Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
					Stocks: []stock.Stock{{Name: "film", Caliper: mm / 10}},
					Fittings: []folio.Fitting{{Kind: folio.Frame{
						Picture: picture, Lap: 3 * mm, Rail: 15 * mm, Foam: mm, FoamWidth: 6 * mm, Ease: ease, Mouth: mouth, Film: film,
					}}},
				})
				if err != nil {
					t.Fatal(err)
				}
				survey := fit.Of(p)
				i, _ := roomOf(t, survey, fit.Slipped)
				if way, ok := survey.Takes(i, picture); !ok || way.Turned() {
					t.Errorf("mouth %v, ease %v, film %q: not taken", mouth, ease, film)
				}
				thick := picture
				thick.Thickness = mm
				if film != "" {
					thick.Thickness = 9 * mm / 10
				}
				if _, ok := survey.Takes(i, thick); !ok {
					t.Errorf("film %q: as thick as the foam leaves, not taken", film)
				}
				thick.Thickness++
				if _, ok := survey.Takes(i, thick); ok {
					t.Errorf("film %q: thicker than the foam leaves, taken", film)
				}
			}
		}
	}
}

// The free place on a panel is found whenever a fine grid finds one.
func TestFreePlaceByGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 6))
	found, not := 0, 0
	for range 400 {
		s := folio.Spec{
			Cover: units.Size{W: 66 * mm, H: 46 * mm}, Spine: rule.Spine{Width: 60 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Lining: rule.Lining{Inset: 3 * mm}, Margin: rule.Margin{Rule: rule.MarginTenToFifteen},
		}
		for range r.IntN(5) {
			f := folio.Fitting{
				Panel: boards.RightCover,
				Kind:  folio.Ornament{Size: units.Size{W: units.Length(4+r.IntN(20)) * mm, H: units.Length(4+r.IntN(16)) * mm}, Thickness: mm},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(r.IntN(40)) * mm, Y: units.Length(r.IntN(30)) * mm}},
			}
			with := s
			with.Fittings = append(append([]folio.Fitting(nil), s.Fittings...), f)
			if _, err := folio.Build(with); err == nil {
				s = with
			}
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		area, _ := p.Panel(boards.RightCover, false)
		size := units.Size{W: units.Length(10+r.IntN(30)) * mm, H: units.Length(10+r.IntN(20)) * mm}
		c := content(size)
		survey, spot := fit.Of(p), -1
		for i, sp := range survey.Rooms() {
			if sp.Kind() == fit.OnPanel && sp.Panel() == boards.RightCover {
				spot = i
			}
		}
		// Mats are on the ruler: picture and twice 3 mm, rounded up.
		free := func(picture units.Size) bool {
			mat := picture.Grow(3 * mm)
			mat = units.Size{W: units.WholeMillimetres.Up(mat.W), H: units.WholeMillimetres.Up(mat.H)}
			for x := area.Min.X; x+mat.W <= area.Max.X; x += mm {
			rows:
				for y := area.Min.Y; y+mat.H <= area.Max.Y; y += mm {
					at := units.RectAt(units.Point{X: x, Y: y}, mat)
					for f := range p.Fittings() {
						if f.Rect().Overlaps(at) {
							continue rows
						}
					}
					return true
				}
			}
			return false
		}
		want := free(size) || free(size.Turned())
		way, ok := survey.Takes(spot, c)
		if ok != want {
			t.Fatalf("a free place for %v: %v, by the grid %v", size, ok, want)
		}
		if ok {
			found++
			if way.Rect().Size() != way.Content().Size || !way.Rect().In(area) {
				t.Fatalf("it lies at %v", way.Rect())
			}
			for f := range p.Fittings() {
				if f.Rect().Overlaps(way.Rect().Grow(3 * mm)) {
					t.Fatalf("it meets %v", f.Rect())
				}
			}
		} else {
			not++
		}
	}
	if found < 60 || not < 60 {
		t.Errorf("lopsided: %d found, %d not", found, not)
	}
}

// Two photographs need two places: the matching finds them where taking the
// first place at hand would not.
func TestHoldsAll(t *testing.T) {
	big, small := units.Size{W: 90 * mm, H: 130 * mm}, units.Size{W: 60 * mm, H: 90 * mm}
	s := folio.Spec{
		Cover: units.Size{W: 130 * mm, H: 180 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{
			{Kind: folio.Mat{Picture: content(big)}, Panel: boards.LeftCover},
			{Kind: folio.Mat{Picture: content(small)}, Panel: boards.RightCover},
		},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	survey, ctx := fit.Of(p), context.Background()
	ways, err := survey.All(ctx, fit.Budget{}, content(small), content(big))
	if err != nil {
		t.Fatal(err)
	}
	one, _ := ways[0].Room().Fitting()
	two, _ := ways[1].Room().Fitting()
	if one != 1 || two != 0 {
		t.Errorf("they lie on %d and %d", one, two)
	}
	// Seven contents and two mats, which leave nothing of the panels.
	seven := []pocket.Content{content(small), content(small), content(small), content(small), content(small), content(small), content(small)}
	for _, c := range []struct {
		contents []pocket.Content
		says     string
	}{
		{[]pocket.Content{content(big), content(big)}, "2 contents and room for 1 of them; want at most the first 1, "},
		{seven, "7 contents and room for 2 of them"},
	} {
		if _, err := survey.All(ctx, fit.Budget{}, c.contents...); !refusedWith(err, "contents", fit.NotHeld) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("want %q: %v", c.says, err)
		}
	}
	if _, err := survey.All(ctx, fit.Budget{}); err != nil {
		t.Errorf("nothing goes in anywhere: %v", err)
	}
	if _, err := survey.All(ctx, fit.Budget{}, make([]pocket.Content, fit.MostContents+1)...); !refusedWith(err, "contents", check.TooMany) {
		t.Errorf("contents without end: %v", err)
	}
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := survey.All(gone, fit.Budget{}, content(small)); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// A pocket that was designed for three prints takes three, each a third of its
// room thick, and no fourth; a thick one has it for itself. The panel beside it
// is too small for any.
func TestPocketsForSeveral(t *testing.T) {
	print := pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 4}
	s := folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 110 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{
			{Kind: folio.Folded{Kind: pocket.Slip{Content: print, Count: 3}}},
			{Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 80 * mm, H: 100 * mm}, Thickness: mm}},
		},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	survey, ctx := fit.Of(p), context.Background()
	i, room := roomOf(t, survey, fit.Slipped)
	if room.Count() != 3 {
		t.Errorf("room %d is for %d", i, room.Count())
	}
	ways, err := survey.All(ctx, fit.Budget{}, print, print, print)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range ways {
		if n, _ := w.Room().Fitting(); n != 0 {
			t.Errorf("a print lies in fitting %d", n)
		}
	}
	if _, err := survey.All(ctx, fit.Budget{}, print, print, print, print); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("four prints: %v", err)
	}
	if ways, err := survey.InFittings(ctx, fit.Budget{}, print, print, print); err != nil || len(ways) != 3 {
		t.Errorf("in fittings: %v, %v", ways, err)
	}
	small := content(units.Size{W: 5 * mm, H: 5 * mm})
	if _, err := survey.InFittings(ctx, fit.Budget{}, print, print, print, small); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("a small one beside them, in fittings: %v", err)
	}
	thick := print
	thick.Thickness = 3 * mm / 4
	if _, err := survey.All(ctx, fit.Budget{}, thick); err != nil {
		t.Errorf("a thick one: %v", err)
	}
	if _, err := survey.All(ctx, fit.Budget{}, thick, print); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("a thick one and a print: %v", err)
	}
}

// What faces a panel leaves corners that touch nothing that lies on it. A cover
// of 80 x 80 mm with boards of 2 mm and a spine of 10: a medal of 20 x 20 x 4 mm
// lies at the head of the left cover's hinge; a plate of 30 x 30 x 3 goes beside
// what faces it, on the right cover too.
func TestPlacesBesideWhatFacesThem(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 80 * mm, H: 80 * mm}, Spine: rule.Spine{Width: 10 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres},
		Board: stock.Stock{Caliper: 2 * mm},
		Fittings: []folio.Fitting{{
			Name: "medal", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 4 * mm},
			Place: place.Place{Across: place.Right, Along: place.Head},
		}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	plate := pocket.Content{Name: "plate", Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 3 * mm}
	on := map[boards.Role]bool{}
	for w := range fit.Of(p).Where(context.Background(), fit.Budget{}, plate) {
		on[w.Room().Panel()] = true
		// It builds there, and closes with its ease.
		panel, _ := p.Panel(w.Room().Panel(), false)
		mat := units.Size{W: units.TenthMillimetres.Up(36 * mm), H: units.TenthMillimetres.Up(36 * mm)}
		with := s
		with.Fittings = append(append([]folio.Fitting(nil), s.Fittings...), folio.Fitting{
			Name: "plate", Panel: w.Room().Panel(), Kind: folio.Mat{Picture: plate},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{
				X: w.Rect().Min.X - (mat.W-plate.Size.W)/2 - panel.Min.X, Y: w.Rect().Min.Y - (mat.H-plate.Size.H)/2 - panel.Min.Y,
			}},
		})
		q, err := folio.Build(with)
		if err != nil {
			t.Fatalf("on the %v: %v", w.Room().Panel(), err)
		}
		if tight, _ := q.Tightest(true); !tight.Eased() {
			t.Errorf("on the %v: %v", w.Room().Panel(), tight)
		}
	}
	if !on[boards.LeftCover] || !on[boards.RightCover] {
		t.Errorf("the plate goes on %v", on)
	}
}

// Rooms say of which fitting they are and how something gets there.
func TestRooms(t *testing.T) {
	p, err := folio.Build(keepsake())
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range fit.Of(p).Rooms() {
		fitting, spot := r.Fitting()
		got = append(got, fmt.Sprint(r, " ", fitting, " ", spot))
	}
	want := []string{
		"on the panel of the left cover -1 -1", "on the panel of the right cover -1 -1",
		"slipped into the strip 0 0", "mounted on the mat 1 0", "slipped into the frame 2 0",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for _, k := range []fit.RoomKind{fit.OnPanel, fit.Mounted, fit.Slipped} {
		text, err := k.MarshalText()
		var back fit.RoomKind
		if err != nil || back.UnmarshalText(text) != nil || back != k || string(text) != k.String() {
			t.Errorf("%d: %q, %v", k, text, err)
		}
	}
}

// A room takes one content at least: of a flap so narrow that a mat with what shows of it
// is wider, there is none.
func TestRoomsTakeSomething(t *testing.T) {
	for wide, want := range map[units.Length]int{12 * mm: 2, 13 * mm: 3} { // insets and reveals of 3 mm
		p, err := folio.Build(folio.Spec{
			Form: boards.ForeEdgeFlap, FlapWidth: wide, Cover: units.Size{W: 80 * mm, H: 100 * mm}, Spine: rule.Spine{Width: 20 * mm},
			Rulers: rule.Rulers{Main: units.WholeMillimetres}, Lining: rule.Lining{Inset: 3 * mm}, Closing: closing.Allowance{UnderFlap: 5 * mm},
		})
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for i, r := range fit.Of(p).Rooms() {
			n++
			_, ok := fit.Of(p).Takes(i, pocket.Content{Size: r.Size()})
			if r.Count() != 1 || !ok {
				t.Errorf("%v: for %d of %v: %t", r, r.Count(), r.Size(), ok)
			}
			for _, c := range []pocket.Content{{}, {Size: units.Size{W: mm}}, {Size: units.Size{H: mm}}, {Size: units.Size{W: mm, H: mm}, Thickness: -1}} {
				if _, ok := fit.Of(p).Takes(i, c); ok {
					t.Errorf("%v takes %v", r, c)
				}
			}
		}
		if n != want {
			t.Errorf("with a flap of %v: %d rooms, want %d", wide, n, want)
		}
	}
}

// A content without a size, or thinner than nothing, goes nowhere; one of no
// thickness does.
func TestContentsThatAreNone(t *testing.T) {
	p, err := folio.Build(keepsake())
	if err != nil {
		t.Fatal(err)
	}
	size := units.Size{W: 20 * mm, H: 20 * mm}
	for _, c := range []struct {
		content pocket.Content
		goes    bool
	}{
		{pocket.Content{Size: size}, true}, {pocket.Content{Size: size, Thickness: -1}, false}, {pocket.Content{Size: units.Size{W: 20 * mm}}, false},
	} {
		goes := false
		for range fit.Of(p).Where(context.Background(), fit.Budget{}, c.content) {
			goes = true
		}
		if goes != c.goes {
			t.Errorf("%+v goes: %v", c.content, goes)
		}
	}
}

// A walk looks at a room for each step of its budget but the last.
func TestWhereWithinABudget(t *testing.T) {
	p, err := folio.Build(keepsake())
	if err != nil {
		t.Fatal(err)
	}
	survey, small := fit.Of(p), content(units.MustParseSize("1/4 x 1/4 in"))
	rooms := 0
	for i := range survey.Rooms() {
		rooms = i + 1
	}
	for _, none := range []int{-1, rooms} {
		if _, ok := survey.Takes(none, small); ok {
			t.Errorf("there is a room %d", none)
		}
	}
	for steps := 1; steps <= rooms+2; steps++ {
		var want, got []string
		for i, r := range survey.Rooms() {
			if _, ok := survey.Takes(i, small); ok && i < steps-1 {
				want = append(want, r.String())
			}
		}
		for w := range survey.Where(context.Background(), fit.Budget{Steps: int64(steps)}, small) {
			got = append(got, w.Room().String())
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d steps: %q, want %q", steps, got, want)
		}
	}
}

// Three panels in a zigzag: the insides of two face each other, that of the third looks
// out when the row is shut, and takes nothing.
func TestWhatLooksOutTakesNothing(t *testing.T) {
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 80 * mm, H: 100 * mm}, Spine: rule.Spine{Contents: 6 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Row: boards.Row{Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}, {Role: boards.Panel3}}, Joints: []boards.Joint{{}, {Fold: score.Mountain}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var on []boards.Role
	for _, r := range fit.Of(p).Rooms() {
		on = append(on, r.Panel())
	}
	if !slices.Equal(on, []boards.Role{boards.Panel1, boards.Panel2}) {
		t.Errorf("rooms on %v", on)
	}
}

// What is too thick for a pocket does not go into it because there is room beside it.
func TestTooThickIsNotSlippedIn(t *testing.T) {
	p, ticket := chest(t)
	survey := fit.Of(p)
	i, room := roomOf(t, survey, fit.Slipped)
	for _, c := range []struct {
		thick units.Length
		goes  bool
	}{{room.Thickness(), true}, {room.Thickness() + 1, false}} {
		ticket.Thickness = c.thick
		if _, goes := survey.Takes(i, ticket); goes != c.goes {
			t.Errorf("a ticket of %v goes into a pocket for %v: %t", c.thick, room.Thickness(), goes)
		}
	}
}

// What a pocket was made for goes into that one, also turned, though another that comes
// before takes it as well; in fittings there are no panels.
func TestWhatItWasMadeForComesFirst(t *testing.T) {
	card := pocket.Content{Name: "card", Size: units.Size{W: 50 * mm, H: 70 * mm}, Thickness: mm / 4}
	large := pocket.Content{Name: "sheet", Size: units.Size{W: 75 * mm, H: 80 * mm}, Thickness: mm / 2}
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 140 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: large}}}, {Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.Slip{Content: card}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	for _, c := range []struct {
		content pocket.Content
		fitting int
	}{{card, 1}, {card.Turned(), 1}, {large, 0}, {large.Turned(), 0}} {
		ways, err := survey.InFittings(context.Background(), fit.Budget{}, c.content)
		if err != nil {
			t.Fatal(err)
		}
		if n, _ := ways[0].Room().Fitting(); n != c.fitting {
			t.Errorf("%v lies in fitting %d", c.content, n)
		}
	}
	thick := content(units.Size{W: 20 * mm, H: 20 * mm})
	thick.Thickness = 4 * mm
	if _, err := survey.All(context.Background(), fit.Budget{}, thick); err != nil {
		t.Errorf("on a panel: %v", err)
	}
	if _, err := survey.InFittings(context.Background(), fit.Budget{}, thick); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("4 mm in a fitting: %v", err)
	}
}
