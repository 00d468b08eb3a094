package fit_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// club is a walking club's folio in whole millimetres, liner inset 3 mm: a map pocket of
// one size, a frame and a strip as large as the panels, a mat on the strip's flap, a
// badge beside nothing.
func club(w, h units.Length) folio.Spec {
	return folio.Spec{
		Cover: units.Size{W: w * mm, H: h * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 600 * mm, H: 500 * mm}}}}},
		Fittings: []folio.Fitting{
			{Name: "strip", Panel: boards.LeftCover, Stock: "card", Size: place.Filling(place.OfPanel, 0),
				Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned()}}},
			{Name: "mat", StandsOn: "strip", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, 3*mm)},
			{Name: "sketch", StandsOn: "mat", Kind: folio.Ornament{}, Size: place.Filling(place.OfGround, 5*mm)},
			{Name: "view", Stock: "card", Kind: folio.Frame{Picture: pocket.Content{Name: "view from the ridge", Size: units.Size{W: 100 * mm, H: 150 * mm}}}},
			{Name: "badge", Outside: true, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: mm}},
		},
	}
}

func labels(list []fit.Misfit) string {
	var out []string
	for _, m := range list {
		out = append(out, m.Label())
	}
	return strings.Join(out, ", ")
}

// A frame of 100 - 2·3 + 2·12 = 118 mm goes on panels from 118 mm, on covers from
// 124; the strip goes where its base takes a card of 53.98 mm with 6 mm of
// ease, on panels from 60 mm, covers from 66; its sheet of 600 mm makes strips up
// to what flap, base, front and hem take.
func TestWithout(t *testing.T) {
	for _, c := range []struct {
		w, h      units.Length
		left      string
		first     string // content that goes nowhere
		remaining int
	}{
		{124, 186, "", "", 5},
		{123, 186, "view", "view from the ridge", 4},
		{65, 186, "strip, mat, sketch, view", "ID-1 card", 1},
		{250, 186, "strip, mat, sketch", "ID-1 card", 2}, // no sheet takes it
	} {
		p, left, err := fit.Without(club(c.w, c.h))
		if err != nil {
			t.Errorf("%d x %d: %v", c.w, c.h, err)
			continue
		}
		n := 0
		for range p.Fittings() {
			n++
		}
		if labels(left) != c.left || n != c.remaining {
			t.Errorf("%d x %d: without %q, %d remain; want %q, %d", c.w, c.h, left, n, c.left, c.remaining)
		}
		if c.first == "" {
			continue
		}
		if content, ok := left[0].Content(); !ok || content.Name != c.first || !strings.Contains(left[0].String(), c.first) {
			t.Errorf("%d x %d: %v, for %v", c.w, c.h, left[0], content)
		}
		for v := range left[0].Why() {
			if v.Want == "" || v.Nature != check.Impossible {
				t.Errorf("%d x %d: %v", c.w, c.h, v)
			}
		}
		// What is left out keeps its place in the Spec that was given.
		for _, m := range left {
			if club(c.w, c.h).Fittings[m.Index()].Name != m.Label() {
				t.Errorf("%d x %d: %v at %d", c.w, c.h, m, m.Index())
			}
		}
	}
	// Where the case itself cannot be, leaving out does not help; nor does it
	// where a field cannot be read.
	s := club(124, 186)
	s.Spine.Width = 0
	if _, left, err := fit.Without(s); !refusedWith(err, "spine", check.Missing) || left != nil {
		t.Errorf("no spine: %v, %v", left, err)
	}
	s = club(60, 186)
	s.Fittings[4].Panel = 99
	if _, left, err := fit.Without(s); !refusedWith(err, "fittings[4].panel", check.Unknown) || left != nil {
		t.Errorf("no such panel: %v, %v", left, err)
	}
}

// One design in three sizes: strip, mat and sketch follow the cover, the picture
// that has its own size is named where it goes nowhere.
func TestFamilyByRelation(t *testing.T) {
	s := club(150, 200)
	covers := fit.ScaledCovers(s.Cover, units.WholeMillimetres, 100, 80, 100, 120)
	family, err := fit.FamilyOf(context.Background(), s, covers...)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range family.Rows() {
		var left []fit.Misfit
		for m := range r.Misfits() {
			left = append(left, m)
		}
		if i == 0 {
			row := strings.Join(family.Table()[1], " ")
			if labels(left) != "view" || !strings.Contains(row, "view, for the view from the ridge: too wide") {
				t.Errorf("%v: %v, %q", r.Cover(), left, row)
			}
			continue
		}
		if left != nil || r.Err() != nil {
			t.Fatalf("%v: %v, %v", r.Cover(), left, r.Err())
		}
		for f := range r.Plan().Fittings() {
			want := f.Rect().Size()
			switch cover := r.Cover(); f.Name() {
			case "strip":
				want = cover.Grow(-3 * mm)
			case "mat": // on the flap, 3 mm narrower than the base
				want = cover.Grow(-6*mm).Plus(-3*mm, 0)
			case "sketch":
				want = cover.Grow(-11*mm).Plus(-3*mm, 0)
			case "view":
				want = units.Size{W: 118 * mm, H: 168 * mm}
			}
			if f.Rect().Size() != want {
				t.Errorf("%v: %s %v, want %v", r.Cover(), f.Name(), f.Rect().Size(), want)
			}
		}
	}
}

// Each fitting that is left out is told of once, also one that does not go into the cover
// by itself and stands on one that does not; a row of a family tells of all of them, one
// after the other. Where nothing goes anywhere, no photograph does.
func TestMisfitsAreToldOnce(t *testing.T) {
	s := club(150, 200)
	s.Fittings[1].Size = place.Sizing{}
	s.Fittings[1].Kind = folio.Mat{Size: units.Size{W: 130 * mm, H: 150 * mm}}
	s.Cover = units.Size{W: 65 * mm, H: 186 * mm}
	_, left, err := fit.Without(s)
	if err != nil || labels(left) != "strip, mat, sketch, view" {
		t.Errorf("left out %q: %v", labels(left), err)
	}
	family, err := fit.FamilyOf(context.Background(), s, s.Cover, units.Size{W: 150 * mm, H: 200 * mm})
	if err != nil {
		t.Fatal(err)
	}
	table := family.Table()
	if row := table[1][8]; !strings.Contains(row, "; view, for the view from the ridge: ") || strings.HasPrefix(row, ";") {
		t.Errorf("%q", row)
	}
	bare := folio.Spec{Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	family, err = fit.FamilyOf(context.Background(), bare, units.Size{W: 70 * mm, H: 70 * mm}, units.Size{W: 150 * mm, H: 200 * mm})
	if err != nil {
		t.Fatal(err)
	}
	free := family.Table()
	if free[1][7] != "none" || !strings.HasPrefix(free[2][7], "photo ") {
		t.Errorf("the largest photographs: %q", free)
	}
	// Of two on which the same goes, the first counts: upright beside a bar of 30 mm, turned
	// under one.
	square := bare
	for i, size := range []units.Size{{W: 30 * mm, H: 160 * mm}, {W: 160 * mm, H: 30 * mm}} {
		square.Fittings = append(square.Fittings, folio.Fitting{Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[i],
			Place: place.Place{Across: place.Left, Along: place.Head}, Kind: folio.Ornament{Size: size, Thickness: mm}})
	}
	for turned := range 2 {
		family, err = fit.FamilyOf(context.Background(), square, units.Size{W: 180 * mm, H: 180 * mm})
		if err != nil {
			t.Fatal(err)
		}
		if got := family.Table()[1][7]; !strings.HasPrefix(got, "photo ") || strings.HasSuffix(got, ", turned") != (turned == 1) {
			t.Errorf("upright on the one, turned on the other, from the %d: %q", turned, got)
		}
		one, two := &square.Fittings[0], &square.Fittings[1]
		one.Panel, two.Panel = two.Panel, one.Panel
	}
	// Of two covers, on one of which there is less room, the other counts.
	for _, on := range []boards.Role{boards.LeftCover, boards.RightCover} {
		bare.Fittings = []folio.Fitting{{Panel: on, Place: place.Place{Along: place.Head}, Kind: folio.Ornament{Size: units.Size{W: 130 * mm, H: 30 * mm}, Thickness: mm}}}
		if family, err = fit.FamilyOf(context.Background(), bare, units.Size{W: 150 * mm, H: 200 * mm}); err != nil {
			t.Fatal(err)
		}
		for _, row := range family.Rows() {
			less := 0
			for i := range fit.Of(row.Plan()).Rooms() {
				if way, ok := fit.Of(row.Plan()).Largest(fit.UsualPhotos(), i); ok && way.Content().Name != free[2][7] {
					less++
				}
			}
			if got := family.Table()[1][7]; less != 1 || got != free[2][7] {
				t.Errorf("something on the %v: %q, %d rooms with less", on, got, less)
			}
		}
	}
}

// With what does not go in is left out what is lined up with it across or along, is as
// large as it, or stands on it, and what in turn is with that; nothing else is.
func TestWithoutWhatFollows(t *testing.T) {
	coin := folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: mm}
	of := func(across, along string) place.Place {
		p := place.Place{AcrossOf: across, AlongOf: along}
		if across != "" {
			p.Across = place.Before
		}
		if along != "" {
			p.Along = place.Before
		}
		return p
	}
	at := func(p place.Place, along place.Align) place.Place {
		p.Along = along
		return p
	}
	// The one goes nowhere, and what follows would not by itself; the other has room, and
	// comes out of no sheet.
	wide := folio.Fitting{Name: "big", Kind: folio.Mat{Size: units.Size{W: 300 * mm, H: 300 * mm}}}
	uncut := folio.Fitting{Name: "big", Stock: "offcut", Kind: folio.Mat{Size: units.Size{W: 60 * mm, H: 60 * mm}}}
	free := folio.Fitting{Name: "free", Panel: boards.LeftCover, Kind: coin}
	for name, chain := range map[string][]folio.Fitting{
		"across":      {{Name: "one", Kind: coin, Place: of("big", "")}, {Name: "two", Kind: coin, Place: of("one", "")}},
		"along":       {{Name: "one", Kind: coin, Place: of("", "big")}, {Name: "two", Kind: coin, Place: of("", "one")}},
		"both":        {{Name: "one", Kind: coin, Place: of("", "big")}, {Name: "two", Kind: coin, Place: at(of("one", ""), place.Head)}},
		"by its size": {{Name: "one", Kind: folio.Ornament{Size: units.Size{H: 10 * mm}, Thickness: mm}, Place: at(place.Place{}, place.Head), Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "big"}}}, {Name: "two", Kind: folio.Ornament{Size: units.Size{W: 10 * mm}, Thickness: mm}, Place: at(place.Place{}, place.Tail), Size: place.Sizing{H: place.Relation{Of: place.OfFitting, Fitting: "one"}}}},
		"on it":       {{Name: "one", Kind: coin, StandsOn: "big"}, {Name: "two", Kind: coin, StandsOn: "one"}},
		"on it, and by its size": {
			{Name: "one", StandsOn: "big", Kind: folio.Ornament{Size: units.Size{H: 10 * mm}, Thickness: mm}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "big"}}},
			{Name: "two", StandsOn: "one", Kind: folio.Ornament{Size: units.Size{H: 10 * mm}, Thickness: mm}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "one"}}},
		},
	} {
		s := folio.Spec{Cover: units.Size{W: 120 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4}, {Name: "offcut", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 50 * mm, H: 50 * mm}}}}}}
		for i, fittings := range [][]folio.Fitting{{wide, free, chain[0], chain[1]}, {chain[1], chain[0], free, wide}, {uncut, free, chain[0], chain[1]}, {chain[1], chain[0], free, uncut}} {
			turned := i % 2
			if turned == 1 && name != "by its size" {
				continue // places are of fittings before
			}
			s.Fittings = fittings
			p, left, err := fit.Without(s)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			n := 0
			for f := range p.Fittings() {
				if n++; f.Name() != "free" {
					t.Errorf("%s: %s is left in", name, f.Name())
				}
			}
			if want := [...]string{"big, one, two", "two, one, big"}[turned]; n != 1 || labels(left) != want {
				t.Errorf("%s: %q is left out, want %q", name, labels(left), want)
			}
			for _, m := range left {
				from := map[string]string{"one": ": it follows from big", "two": ": it follows from one"}[m.Label()]
				if why := slices.Collect(m.Why()); i/2 == 1 && ((len(why) > 0) != (from == "") || from != "" && m.String() != m.Label()+from) {
					t.Errorf("%s: %v, for %v", name, m, why)
				}
			}
		}
	}
}

// A cover that came out lower than planned: what is by relation follows, what is
// not is named.
func TestRefitNames(t *testing.T) {
	s := club(124, 175) // panels of 169 mm; the frame is 168 high
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	low := refit.Measured{Width: p.OpenWidth().Length(), Height: p.OpenHeight().Length() - 4*mm}
	_, err = p.Refit(low)
	if left := fit.Misfits(s, err); labels(left) != "view" {
		t.Errorf("refitted lower: %v, %v", left, err)
	}
	s.Fittings = s.Fittings[:3]
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	q, err := p.Refit(low)
	if err != nil {
		t.Fatal(err)
	}
	for f := range q.Fittings() {
		if want := map[string]units.Length{"strip": 165 * mm, "mat": 159 * mm, "sketch": 149 * mm}[f.Name()]; f.Rect().Size().H != want {
			t.Errorf("%s: %v, want %v", f.Name(), f.Rect().Size(), want)
		}
	}
	// What an error says of fittings that a Spec has not got is no misfit of it.
	other := club(250, 186)
	if _, err := folio.Build(other); len(fit.Misfits(other, err)) != 1 {
		t.Errorf("of its own error: %v", fit.Misfits(other, err))
	} else {
		other.Fittings[0].Name, other.Fittings[1].StandsOn = "another strip", "another strip"
		if left := fit.Misfits(other, err); len(left) != 0 {
			t.Errorf("of the error of another Spec: %v", left)
		}
	}
	// Nor is there what stands beyond its last fitting, nor one without a kind that a material
	// without a name would be of.
	more := s
	more.Fittings = append(slices.Clone(s.Fittings), folio.Fitting{Kind: folio.Mat{Size: units.Size{W: 900 * mm, H: mm}}})
	_, err = folio.Build(more)
	if own := fit.Misfits(more, err); len(own) == 0 || own[len(own)-1].Index() != len(s.Fittings) {
		t.Errorf("of its own error: %v", own)
	}
	for _, m := range fit.Misfits(s, err) {
		if m.Index() >= len(s.Fittings) {
			t.Errorf("of a Spec with fewer fittings: %v", m)
		}
	}
	bare := folio.Spec{Cover: s.Cover, Spine: s.Spine, Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: mm, H: mm}}}}, Fittings: []folio.Fitting{{}}}
	if _, err := folio.Build(bare); err == nil || len(fit.Misfits(bare, err)) != 0 {
		t.Errorf("what is no kind is a misfit: %v", fit.Misfits(bare, err))
	}
	if fit.Misfits(s, nil) != nil || fit.Misfits(s, context.Canceled) != nil {
		t.Error("misfits without violations")
	}
}

// More misfits than an error lists are all left out, each in its place and called what the
// Spec that was given calls it; a row of a family tells of those that are listed, and how
// many more there are.
func TestMoreMisfitsThanAreListed(t *testing.T) {
	// Each is too wide: that is 91 violations of 91, and 220 of 220, of which 100 are listed;
	// and some come out of no sheet.
	for _, c := range []struct {
		n, large int
		tells    string
	}{{91, 9, ""}, {91, 10, "1 more"}, {91, 11, "2 more"}, {220, 0, "120 more"}} {
		n, s := c.n, club(150, 200)
		s.Stocks = append(s.Stocks, stock.Stock{Name: "offcut", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 200 * mm, H: 200 * mm}}}})
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: 100 * mm, H: 100 * mm}}}}
		for i := range n {
			f := folio.Fitting{Outside: true, Kind: folio.Mat{Size: units.Size{W: 300 * mm, H: 20 * mm}}}
			if i < c.large {
				f.Stock = "offcut"
			}
			s.Fittings = append(s.Fittings, f)
		}
		p, left, err := fit.Without(s)
		if err != nil || len(left) != n {
			t.Fatalf("%d of %d are left out: %v", len(left), n, err)
		}
		for i, m := range left {
			if m.Index() != 1+i || m.Label() != s.Label(1+i) {
				t.Errorf("of %d, %q at %d; want %q at %d", n, m.Label(), m.Index(), s.Label(1+i), 1+i)
			}
		}
		for f := range p.Fittings() {
			if f.Outside() {
				t.Errorf("%s is left in", f.Label())
			}
		}
		family, err := fit.FamilyOf(context.Background(), s, s.Cover)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range family.Rows() {
			_, more, _ := strings.Cut(r.Why(), "; and ")
			if more != c.tells {
				t.Errorf("of %d, %d of them too large for a sheet, the row says %q, want %q", n, c.large, more, c.tells)
			}
		}
	}
}

// The smallest cover for a design by relation is the one on which its last print
// goes: 3 1/2 x 5 in less two laps of 1/8 in and two rails of 1/2 in more make a frame
// of 4 1/4 x 5 3/4 in, which goes on a panel 1/8 in inside its board. What follows the
// cover is no bound of it, so that it is not said to be proved.
func TestSmallestByRelation(t *testing.T) {
	least, err := fit.Smallest(context.Background(), folio.Spec{Fittings: []folio.Fitting{
		{Name: "frame", Size: place.Sizing{W: place.By(place.OfPanel), H: place.By(place.OfPanel), Picture: place.PictureUsual}, Kind: folio.Frame{}},
		{Name: "mat", Panel: boards.LeftCover, Size: place.Filling(place.OfPanel, units.Inch/4), Kind: folio.Mat{}},
	}}, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	if cover := least.Plan().Spec().Cover; cover != units.MustParseSize("4 1/2 x 6 in") || least.Complete() {
		t.Errorf("cover %v, complete %t", cover, least.Complete())
	}
	narrower, lower, _ := least.Proof()
	for _, err := range []error{narrower, lower} {
		if !refusedWith(err, "fittings[0].size.picture", folio.NoPrint) {
			t.Errorf("proof: %v", err)
		}
	}
}

// A case that cannot be, or for which the sheets are too small, is no fitting's fault: none
// is left out, and what Build says is said.
func TestWhatIsWrongWithTheCaseIsNoMisfit(t *testing.T) {
	small := []stock.Sheet{{Size: units.Size{W: 50 * mm, H: 50 * mm}}}
	for name, change := range map[string]func(*folio.Spec){
		"covering": func(s *folio.Spec) { s.Covering.Sheets = small }, "board": func(s *folio.Spec) { s.Board.Sheets = small },
		"hinge": func(s *folio.Spec) { s.Hinge.Width = mm },
	} {
		s := folio.Spec{Cover: units.Size{W: 100 * mm, H: 100 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{{Name: "crew", Kind: folio.Mat{Size: units.Size{W: 50 * mm, H: 60 * mm}}}}}
		change(&s)
		_, err := folio.Build(s)
		if m := fit.Misfits(s, err); err == nil || len(m) > 0 {
			t.Errorf("%s: %v: %v", name, m, err)
		}
		kindless := s // what is no kind of fitting has no name either
		kindless.Fittings = append(s.Fittings[:1:1], folio.Fitting{})
		if m := fit.Misfits(kindless, err); len(m) > 0 {
			t.Errorf("%s, with a fitting that is none: %v: %v", name, m, err)
		}
		if _, m, again := fit.Without(s); again == nil || len(m) > 0 || again.Error() != err.Error() {
			t.Errorf("%s, without what does not go in: %v: %v, want %v", name, m, again, err)
		}
	}
}

// What is wrong about a fitting follows what it is with a colon, one after the
// other with semicolons.
func TestMisfitReadsAsASentence(t *testing.T) {
	s := folio.Spec{Cover: units.Size{W: 100 * mm, H: 100 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "crew", Kind: folio.Mat{Picture: pocket.Content{Name: "photo", Size: units.Size{W: 150 * mm, H: 160 * mm}}}}}}
	_, err := folio.Build(s)
	left := fit.Misfits(s, err)
	if len(left) != 1 {
		t.Fatalf("%v", err)
	}
	text := left[0].String()
	if !strings.HasPrefix(text, "crew, for the photo: ") || strings.Contains(text, ";:") || strings.Count(text, "; ") < 1 {
		t.Errorf("got %q", text)
	}
}

// Fittings without a name are told apart by their number, also where it is a sheet
// that is too small: of two mats the one of 90 mm does not come out of 80 mm, and is
// called the second one although it is left out.
func TestMisfitsWithoutNames(t *testing.T) {
	s := club(150, 186)
	s.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 80 * mm, H: 80 * mm}}}
	s.Fittings = nil
	for _, side := range []units.Length{40 * mm, 90 * mm} {
		s.Fittings = append(s.Fittings, folio.Fitting{Stock: "card", Kind: folio.Mat{Size: units.Size{W: side, H: side}}, Place: place.Place{Along: place.Head}})
	}
	s.Fittings[1].Place.Along = place.Tail
	_, err := folio.Build(s)
	if got := fit.Misfits(s, err); len(got) != 1 || got[0].Index() != 1 || got[0].Label() != "second mat" {
		t.Errorf("%v of %v", got, err)
	}
	plan, left, err := fit.Without(s)
	if err != nil || len(left) != 1 || left[0].Label() != "second mat" {
		t.Fatalf("without %v: %v", left, err)
	}
	for f := range plan.Fittings() {
		if f.Label() != "mat" || f.Rect().Size().W != 40*mm {
			t.Errorf("what remains is %s of %v", f.Label(), f.Rect())
		}
	}
}
