package folio_test

import (
	"math/rand/v2"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func spotOf(t *testing.T, p *folio.Plan, kind folio.RoomKind) folio.Room {
	t.Helper()
	for s := range p.Rooms() {
		if s.Kind == kind {
			return s
		}
	}
	t.Fatalf("no spot %v", kind)
	return folio.Room{}
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
	where := func(c pocket.Content) map[folio.RoomKind]bool {
		out := map[folio.RoomKind]bool{}
		for f := range p.WhereFits(c) {
			out[f.Room.Kind] = true
		}
		return out
	}
	for _, c := range []struct {
		content pocket.Content
		kind    folio.RoomKind
		fits    bool
	}{
		{pocket.IDCard(), folio.InPocket, true},
		{photo("photo 8 x 10 in"), folio.InPocket, false},
		{photo("photo 8 x 10 in"), folio.OnPanel, false},
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
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: folio.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	s := spotOf(t, p, folio.OnPanel)
	// 4 1/2 less two insets and two reveals of 1/8 in.
	if want := units.MustParseSize("4 x 5 3/4 in"); s.Room != want {
		t.Errorf("room %v, want %v", s.Room, want)
	}
	if _, ok := p.Takes(s, content(units.MustParseSize("4 x 5 1/2 in"))); !ok {
		t.Error("4 x 5 1/2 in does not go on")
	}
	if f, ok := p.Takes(s, content(units.MustParseSize("5 3/4 x 4 in"))); !ok || !f.Turned {
		t.Error("nor turned")
	}
	if _, ok := p.Takes(s, content(units.MustParseSize("4 1/64 x 5 1/2 in"))); ok {
		t.Error("1/64 in more goes on")
	}
	// The room between the covers, 1 − 1/8 − 2 × 0.0063 in, less the ease of
	// 1/32 in and a film of 0.1 mm.
	if want := units.MustParse("0.83115 in") - mm/10; s.Thickness != want {
		t.Errorf("thickness %v, want %v", s.Thickness, want)
	}
	fit, ok := p.LargestOf(folio.UsualPhotos(), s)
	// 4 x 6 in is too high; 89 x 127 mm is a tenth of a millimetre wider than
	// 3.5 x 5 in.
	if !ok || fit.Content.Name != "photo 89 x 127 mm" {
		t.Errorf("the largest usual photograph is %v, %v", fit.Content.Name, ok)
	}
}

// A picture in a frame must go between the strips and still cover the opening
// when it has slid to one side.
func TestFrameTakes(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: folio.Spine{Width: 20 * mm}, Rulers: folio.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Kind: folio.Frame{
			Picture: pocket.Content{Size: units.Size{W: 80 * mm, H: 120 * mm}, Thickness: mm / 4},
			Lap:     3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm,
		}}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	spot := spotOf(t, p, folio.InFrame)
	// Opening 74 x 114, outside 98 x 138; the mouth is at the head. The side
	// strips are 80 + 2 apart, from 8 to 90; the far one stops the picture of
	// 120 in the middle, at 138 - 9 = 129.
	if spot.Room != (units.Size{W: 80 * mm, H: 120 * mm}) {
		t.Errorf("room %v", spot.Room)
	}
	// From one strip to the far side of the opening, 86 - 8; from where its
	// ease ends, 129 - 122 = 7, down to the opening's foot at 126.
	if spot.Least != (units.Size{W: 78 * mm, H: 119 * mm}) {
		t.Errorf("least %v", spot.Least)
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
		_, ok := p.Takes(spot, pocket.Content{Size: units.Size{W: c.w, H: c.h}, Thickness: c.thick})
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
					Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: folio.Spine{Width: 20 * mm}, Rulers: folio.Rulers{Main: units.WholeMillimetres},
					Stocks: []folio.Stock{{Name: "film", Caliper: mm / 10}},
					Fittings: []folio.Fitting{{Kind: folio.Frame{
						Picture: picture, Lap: 3 * mm, Rail: 15 * mm, Foam: mm, FoamWidth: 6 * mm, Ease: ease, Mouth: mouth, Film: film,
					}}},
				})
				if err != nil {
					t.Fatal(err)
				}
				spot := spotOf(t, p, folio.InFrame)
				if fit, ok := p.Takes(spot, picture); !ok || fit.Turned {
					t.Errorf("mouth %v, ease %v, film %q: not taken", mouth, ease, film)
				}
				thick := picture
				thick.Thickness = mm
				if film != "" {
					thick.Thickness = 9 * mm / 10
				}
				if _, ok := p.Takes(spot, thick); !ok {
					t.Errorf("film %q: as thick as the foam leaves, not taken", film)
				}
				thick.Thickness++
				if _, ok := p.Takes(spot, thick); ok {
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
			Cover: units.Size{W: 66 * mm, H: 46 * mm}, Spine: folio.Spine{Width: 60 * mm}, Rulers: folio.Rulers{Main: units.WholeMillimetres},
			Lining: folio.Lining{Inset: 3 * mm}, Margin: folio.Margin{Rule: folio.MarginTenToFifteen},
		}
		for range r.IntN(5) {
			f := folio.Fitting{
				Panel: folio.RightCover,
				Kind:  folio.Ornament{Size: units.Size{W: units.Length(4+r.IntN(20)) * mm, H: units.Length(4+r.IntN(16)) * mm}, Thickness: mm},
				Place: folio.Place{Across: folio.AlignLeft, Along: folio.AlignHead, Offset: units.Point{X: units.Length(r.IntN(40)) * mm, Y: units.Length(r.IntN(30)) * mm}},
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
		area, _ := p.Panel(folio.RightCover, false)
		size := units.Size{W: units.Length(10+r.IntN(30)) * mm, H: units.Length(10+r.IntN(20)) * mm}
		c := content(size)
		var spot folio.Room
		for sp := range p.Rooms() {
			if sp.Kind == folio.OnPanel && sp.Panel == folio.RightCover {
				spot = sp
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
		fit, ok := p.Takes(spot, c)
		if ok != want {
			t.Fatalf("a free place for %v: %v, by the grid %v", size, ok, want)
		}
		if ok {
			found++
			if fit.Rect.Size() != fit.Content.Size || !fit.Rect.In(area) {
				t.Fatalf("it lies at %v", fit.Rect)
			}
			for f := range p.Fittings() {
				if f.Rect().Overlaps(fit.Rect.Grow(3 * mm)) {
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
		Cover: units.Size{W: 130 * mm, H: 180 * mm}, Spine: folio.Spine{Width: 20 * mm}, Rulers: folio.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{
			{Kind: folio.Mat{Picture: content(big)}, Panel: folio.LeftCover},
			{Kind: folio.Mat{Picture: content(small)}, Panel: folio.RightCover},
		},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	fits, ok := p.HoldsAll(content(small), content(big))
	if !ok {
		t.Fatal("small and big find no place together")
	}
	if fits[0].Room.Fitting != 1 || fits[1].Room.Fitting != 0 {
		t.Errorf("they lie on %d and %d", fits[0].Room.Fitting, fits[1].Room.Fitting)
	}
	if _, ok := p.HoldsAll(content(big), content(big)); ok {
		t.Error("two big ones have one place")
	}
	if _, ok := p.HoldsAll(); !ok {
		t.Error("nothing goes in anywhere")
	}
}
