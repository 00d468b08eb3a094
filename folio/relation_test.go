package folio_test

import (
	"errors"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// related is the flat folio, panels 90 x 140, with fittings.
func related(fittings ...folio.Fitting) folio.Spec {
	s := flat()
	s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4}}
	s.Fittings = fittings
	return s
}

func by(m place.Yardstick, change func(*place.Relation)) place.Relation {
	r := place.By(m)
	change(&r)
	return r
}

// sizesOf are the footprints of a plan's fittings, by name.
func sizesOf(p *folio.Plan) map[string]units.Size {
	out := map[string]units.Size{}
	for f := range p.Fittings() {
		out[f.Name()] = f.Rect().Size()
	}
	return out
}

// Every way to say a size by another one, worked in the head on panels of 90 x
// 140 mm: whole, with margins, less, shared out, by another fitting's side.
func TestRelations(t *testing.T) {
	fixed := folio.Fitting{Name: "tag", Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 41 * mm}}}
	for name, c := range map[string]struct {
		w, h place.Relation
		want units.Size
		said string // working of the width
	}{
		"fills the panel":      {place.By(place.OfPanel), place.By(place.OfPanel), units.Size{W: 90 * mm, H: 140 * mm}, "width for the x 90 mm = panel 90 mm"},
		"leaves a margin":      {place.Filling(place.OfPanel, 5*mm).W, place.Filling(place.OfPanel, 5*mm).H, units.Size{W: 80 * mm, H: 130 * mm}, "width for the x 80 mm = panel 90 mm - 2 x margin 5 mm"},
		"ground without one":   {place.By(place.OfGround), place.By(place.OfGround), units.Size{W: 90 * mm, H: 140 * mm}, "width for the x 90 mm = panel 90 mm"},
		"a quarter inch less":  {by(place.OfPanel, func(r *place.Relation) { r.Less = units.Inch / 4 }), place.By(place.OfPanel), units.Size{W: 83 * mm, H: 140 * mm}, "width for the x 83 mm = panel 90 mm - less 6.35 mm = 83.65 mm, down on 1 mm"},
		"a third between gaps": {by(place.OfPanel, func(r *place.Relation) { r.Shares, r.Gap, r.Margin = 3, 4*mm, 5*mm }), place.By(place.OfPanel), units.Size{W: 24 * mm, H: 140 * mm}, "width for the x 24 mm = (panel 90 mm - 2 x margin 5 mm - 2 x gap 4 mm) / 3"},
		"as wide as the tag":   {by(place.OfFitting, func(r *place.Relation) { r.Fitting = "tag" }), by(place.OfFitting, func(r *place.Relation) { r.Fitting = "tag" }), units.Size{W: 30 * mm, H: 41 * mm}, "width for the x 30 mm = tag 30 mm"},
		"the tag, turned":      {by(place.OfFitting, func(r *place.Relation) { r.Fitting, r.Turned = "tag", true }), by(place.OfFitting, func(r *place.Relation) { r.Fitting, r.Turned = "tag", true }), units.Size{W: 41 * mm, H: 30 * mm}, "width for the x 41 mm = tag 41 mm"},
		"past the tag":         {by(place.OfFitting, func(r *place.Relation) { r.Fitting, r.More = "tag", 5*mm/2 }), by(place.OfFitting, func(r *place.Relation) { r.Fitting = "tag" }), units.Size{W: 33 * mm, H: 41 * mm}, "width for the x 33 mm = tag 30 mm + more 2.5 mm = 32.5 mm, up on 1 mm"},
	} {
		p := mustBuild(t, related(fixed, folio.Fitting{Name: "x", Kind: folio.Mat{}, Size: place.Sizing{W: c.w, H: c.h}}))
		if got := sizesOf(p)["x"]; got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		for q := range p.Pieces() {
			if q.Part() == "x" && q.Width().String() != c.said {
				t.Errorf("%s: %q, want %q", name, q.Width(), c.said)
			}
		}
	}
}

// A mat on the flap of a strip on a panel of 90 x 140 mm: the base is 90 wide,
// the flap 3 narrower, the mat leaves 4 a side. The panels of a cover 10 mm wider
// and 20 higher are so much larger, and everything on them grows as much; what
// the pocket holds stays what it is.
func TestAChain(t *testing.T) {
	chain := func() folio.Spec {
		return related(
			folio.Fitting{Name: "strip", Panel: boards.LeftCover, Stock: "card", Size: place.Filling(place.OfPanel, 0),
				Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned()}}},
			folio.Fitting{Name: "mat", StandsOn: "strip", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, 4*mm)},
			folio.Fitting{Name: "frame", Stock: "card", Size: place.Filling(place.OfPanel, 0),
				Kind: folio.Frame{Picture: pocket.Content{Name: "the boat"}, Rail: 12 * mm, Lap: 3 * mm}},
		)
	}
	want := map[string]units.Size{"strip": {W: 90 * mm, H: 140 * mm}, "mat": {W: 79 * mm, H: 132 * mm}, "frame": {W: 90 * mm, H: 140 * mm}}
	small := chain()
	large := chain()
	large.Cover = large.Cover.Plus(10*mm, 20*mm)
	for i, s := range []folio.Spec{small, large} {
		more := units.Length(10*i) * mm
		p := mustBuild(t, s)
		for name, size := range sizesOf(p) {
			if w := want[name].Plus(more, 2*more); size != w {
				t.Errorf("%s: %v, want %v", name, size, w)
			}
		}
		for f := range p.Fittings() {
			switch k := f.Kind().(type) {
			case folio.Frame: // 90 - 2 x 12 + 2 x 3
				if w := (units.Size{W: 72*mm + more, H: 122*mm + 2*more}); k.Picture.Size != w {
					t.Errorf("picture %v, want %v", k.Picture.Size, w)
				}
			case folio.Folded:
				if d, _ := f.Design(); d.Closed().W != 90*mm+more {
					t.Errorf("strip %v", d.Closed())
				} else if c, _ := d.Content(); c != pocket.IDCard().Turned() {
					t.Errorf("for %v", c)
				}
			}
		}
	}
}

// What is measured by a fitting that comes later is what it would be by one that
// came before.
func TestInAnyOrder(t *testing.T) {
	a := folio.Fitting{Name: "a", Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, 30*mm)}
	b := folio.Fitting{Name: "b", Panel: boards.LeftCover, Kind: folio.Mat{}, Size: place.Sizing{
		W: by(place.OfFitting, func(r *place.Relation) { r.Fitting, r.Margin = "a", 2*mm }),
		H: by(place.OfFitting, func(r *place.Relation) { r.Fitting, r.Turned = "a", true }),
	}}
	want := map[string]units.Size{"a": {W: 30 * mm, H: 80 * mm}, "b": {W: 26 * mm, H: 30 * mm}}
	for _, s := range []folio.Spec{related(a, b), related(b, a)} {
		p := mustBuild(t, s)
		for name, size := range sizesOf(p) {
			if size != want[name] {
				t.Errorf("%s: %v, want %v", name, size, want[name])
			}
		}
		// Each working stands in the plan once.
		seen := map[string]int{}
		for w := range p.Workings() {
			seen[w.Label()]++
		}
		if seen["width for the a"] != 1 || seen["width for the b"] != 1 {
			t.Errorf("workings: %v", seen)
		}
	}
}

// A chain may be as long as there are fittings, whichever end of it comes first.
func TestTheLongestChain(t *testing.T) {
	for _, last := range []bool{false, true} {
		var list []folio.Fitting
		for i := range folio.MaxFittings {
			f := folio.Fitting{
				Name: "m" + strconv.Itoa(i), Kind: folio.Mat{Size: units.Size{H: mm}},
				Size:  place.Sizing{W: by(place.OfFitting, func(r *place.Relation) { r.Fitting = "m" + strconv.Itoa(i+1) })},
				Place: place.Place{Along: place.Head, Offset: units.Point{Y: units.Length(i) * mm}},
			}
			if i == folio.MaxFittings-1 {
				f.Size.W = by(place.OfPanel, func(r *place.Relation) { r.Margin = 10 * mm })
			}
			list = append(list, f)
		}
		if last {
			for i, j := 0, len(list)-1; i < j; i, j = i+1, j-1 {
				list[i], list[j] = list[j], list[i]
			}
		}
		s := related(list...)
		s.Cover.H = 300 * mm
		for name, size := range sizesOf(mustBuild(t, s)) {
			if size.W != 70*mm {
				t.Fatalf("%s: %v", name, size)
			}
		}
	}
}

// A print gives a picture both its sides, also where a width by relation alone says which
// print it is: with a reveal or a rail below nothing that is wrong, and no side.
func TestPrintGivesBothSides(t *testing.T) {
	print := pocket.Content{Name: "print"}
	for path, kind := range map[string]folio.Kind{
		"fittings[0].kind.reveal": folio.Mat{Picture: print, Reveal: -1}, "fittings[0].kind.rail": folio.Frame{Picture: print, Rail: -1},
	} {
		err := builds(related(folio.Fitting{Name: "a", Kind: kind, Size: place.Sizing{W: place.By(place.OfPanel), Picture: place.PictureUsual}}))
		if bad, ok := err.(*check.Error); !ok || bad.Len() != 1 || !strings.HasPrefix(err.Error(), path) {
			t.Errorf("%v, want %s alone", err, path)
		}
	}
}

// What is wrong with a relation is one violation at its field, and doing what
// would do mends it.
func TestRelationsRefused(t *testing.T) {
	mat := func(name string, w place.Relation) folio.Fitting {
		return folio.Fitting{Name: name, Kind: folio.Mat{Size: units.Size{H: 20 * mm}}, Size: place.Sizing{W: w}}
	}
	of := func(name string) place.Relation {
		return by(place.OfFitting, func(r *place.Relation) { r.Fitting = name })
	}
	panel := func(change func(*place.Relation)) place.Relation { return by(place.OfPanel, change) }
	frame := folio.Frame{Rail: 12 * mm, Lap: 3 * mm, Picture: pocket.Content{Name: "print"}}
	for name, c := range map[string]struct {
		fittings []folio.Fitting
		path     string
		code     check.Code
	}{
		"by itself":                 {[]folio.Fitting{mat("a", of("a"))}, "fittings[0].size.w.of", folio.Circular},
		"by each other":             {[]folio.Fitting{mat("a", of("b")), mat("b", of("a"))}, "fittings[0].size.w.of", folio.Circular},
		"in a ring, and one more":   {[]folio.Fitting{mat("d", of("a")), mat("b", of("c")), mat("c", of("a")), mat("a", of("b"))}, "fittings[1].size.w.of", folio.Circular},
		"in a ring, and one behind": {[]folio.Fitting{mat("b", of("c")), mat("c", of("a")), mat("a", of("b")), mat("d", of("a"))}, "fittings[0].size.w.of", folio.Circular},
		"by what stands on it in width, and is as high as another": {[]folio.Fitting{mat("b", of("a")),
			{Name: "a", StandsOn: "b", Kind: folio.Mat{}, Size: place.Sizing{W: place.By(place.OfGround), H: of("c")}},
			{Name: "c", Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: 9 * mm, H: 9 * mm}}}}, "fittings[0].size.w.of", folio.Circular},
		"by what stands on it": {[]folio.Fitting{mat("a", of("b")),
			{Name: "b", StandsOn: "a", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, mm)}}, "fittings[0].size.w.of", folio.Circular},
		"by nothing there is":       {[]folio.Fitting{mat("a", of("sail"))}, "fittings[0].size.w.fitting", check.Unknown},
		"by a fitting without name": {[]folio.Fitting{mat("a", of(""))}, "fittings[0].size.w.fitting", check.Missing},
		"a name with a panel":       {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Fitting = "a" }))}, "fittings[0].size.w.fitting", check.Conflict},
		"less than nothing":         {[]folio.Fitting{mat("a", place.Relation{Less: mm})}, "fittings[0].size.w.of", check.Missing},
		"no such measure":           {[]folio.Fitting{mat("a", place.Relation{Of: 99})}, "fittings[0].size.w.of", check.Unknown},
		"less and more":             {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Less, r.More = mm, mm }))}, "fittings[0].size.w.more", check.Conflict},
		"a margin below nothing":    {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Margin = -mm }))}, "fittings[0].size.w.margin", check.Negative},
		"shares below nothing":      {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Shares = -1 }))}, "fittings[0].size.w.shares", check.Negative},
		"too many shares":           {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Shares = folio.MaxFittings + 1 }))}, "fittings[0].size.w.shares", check.TooMany},
		"a gap and no shares":       {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Gap = mm }))}, "fittings[0].size.w.gap", check.Conflict},
		"margins that leave none":   {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Margin = 45 * mm }))}, "fittings[0].size.w.margin", folio.TooWide},
		"less than there is":        {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Less = 300 * mm }))}, "fittings[0].size.w.less", folio.TooWide},
		"gaps that leave none":      {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.Shares, r.Gap = 4, 30*mm }))}, "fittings[0].size.w.gap", folio.TooWide},
		"more than any plan":        {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.More = units.Longest }))}, "fittings[0].size.w.more", check.TooLarge},
		"more than the panel":       {[]folio.Fitting{mat("a", panel(func(r *place.Relation) { r.More = mm }))}, "fittings[0].size.w.more", folio.TooWide},
		"a width of its own too":    {[]folio.Fitting{{Name: "a", Kind: folio.Mat{Size: units.Size{W: mm, H: mm}}, Size: place.Sizing{W: place.By(place.OfPanel)}}}, "fittings[0].kind.size.w", check.Conflict},
		"a reveal that takes all":   {[]folio.Fitting{{Name: "a", Kind: folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 60 * mm}, Size: place.Filling(place.OfPanel, 0)}}, "fittings[0].kind.reveal", folio.TooWide},
		"rails that take all":       {[]folio.Fitting{{Name: "a", Kind: folio.Frame{Rail: 45 * mm}, Size: place.Filling(place.OfPanel, 0)}}, "fittings[0].kind.rail", folio.TooWide},
		"no print is so small":      {[]folio.Fitting{{Name: "a", Kind: frame, Size: place.Sizing{W: place.By(place.OfPanel), H: place.By(place.OfPanel), Picture: place.PictureUsual}}}, "fittings[0].size.picture", folio.NoPrint},
		"a print for a medal":       {[]folio.Fitting{{Name: "a", Kind: folio.Ornament{}, Size: place.Sizing{W: place.By(place.OfPanel), H: place.By(place.OfPanel), Picture: place.PictureUsual}}}, "fittings[0].size.picture", check.Conflict},
		"a print by nothing":        {[]folio.Fitting{{Name: "a", Kind: frame, Size: place.Sizing{Picture: place.PictureUsual}}}, "fittings[0].size.picture", check.Conflict},
		"no such rule":              {[]folio.Fitting{{Name: "a", Kind: frame, Size: place.Sizing{W: place.By(place.OfPanel), Picture: 99}}}, "fittings[0].size.picture", check.Unknown},
		"a card that does not go":   {[]folio.Fitting{{Name: "a", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}, Size: place.Filling(place.OfPanel, 2*mm)}}, "fittings[0].size.w", folio.RoomSmall},
		"on what is not there":      {[]folio.Fitting{{Name: "a", StandsOn: "sail", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, mm)}}, "fittings[0].standson", check.Unknown},
		"on one on what is not":     {[]folio.Fitting{{Name: "b", StandsOn: "sail", Kind: folio.Mat{Size: units.Size{W: mm, H: mm}}}, {Name: "a", StandsOn: "b", Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, mm)}}, "fittings[0].standson", check.Unknown},
		"on what comes later":       {[]folio.Fitting{{Name: "a", StandsOn: "b", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, mm)}, {Name: "b", Kind: folio.Mat{Size: units.Size{W: 9 * mm, H: 9 * mm}}}}, "fittings[0].standson", check.Unknown},
		"a print of its own size":   {[]folio.Fitting{{Name: "a", Kind: folio.Mat{Picture: content(units.Size{W: 9 * mm, H: 9 * mm})}, Size: place.Sizing{W: place.By(place.OfPanel), Picture: place.PictureUsual}}}, "fittings[0].kind.picture.size", check.Conflict},
		"no print is so narrow":     {[]folio.Fitting{{Name: "a", Kind: frame, Size: place.Sizing{W: place.By(place.OfPanel), Picture: place.PictureUsual}}}, "fittings[0].size.picture", folio.NoPrint},
		"no print is so low":        {[]folio.Fitting{{Name: "a", Kind: frame, Size: place.Sizing{H: place.Filling(place.OfPanel, 20*mm).H, Picture: place.PictureUsual}}}, "fittings[0].size.picture", folio.NoPrint},
		"heights of each other":     {[]folio.Fitting{{Name: "a", Kind: folio.Mat{Size: units.Size{W: mm}}, Size: place.Sizing{H: of("b")}}, {Name: "b", Kind: folio.Mat{Size: units.Size{W: mm}}, Size: place.Sizing{H: of("a")}}}, "fittings[0].size.h.of", folio.Circular},
		"a kind that has none":      {[]folio.Fitting{{Name: "a", Kind: folio.Shelf{Tag: content(units.Size{W: 9 * mm, H: 9 * mm})}, Size: place.Filling(place.OfPanel, 0)}}, "fittings[0].size", check.Conflict},
		"a place of its own too":    {[]folio.Fitting{{Name: "a", Kind: folio.Folded{Kind: pocket.Slip{Place: units.Size{W: 80 * mm, H: 80 * mm}}}, Size: place.Filling(place.OfPanel, 0)}}, "fittings[0].kind.kind.place.w", check.Conflict},
	} {
		_, err := folio.Build(related(c.fittings...))
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		v, ok := bad.Find(c.path, c.code)
		if !ok || v.Want == "" || v.Of == "" {
			t.Errorf("%s: %v, want %s %s", name, err, c.path, c.code)
			continue
		}
		if c.code == folio.Circular && (bad.Len() != 1 || !strings.Contains(v.Got, "which follows from")) {
			t.Errorf("%s: %v", name, err)
		}
		if v.Bound == check.NoBound {
			continue
		}
		f := &c.fittings[len(c.fittings)-1]
		switch field := v.Path[strings.LastIndex(v.Path, ".")+1:]; field {
		case "margin":
			f.Size.W.Margin = v.Limit
		case "more":
			f.Size.W.More = v.Limit
		case "less":
			f.Size.W.Less = v.Limit
		case "gap":
			f.Size.W.Gap = v.Limit
		case "reveal":
			f.Kind = folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: v.Limit}
		case "rail":
			f.Kind = folio.Frame{Rail: v.Limit, FoamWidth: mm}
		}
		if p, err := folio.Build(related(c.fittings...)); err != nil {
			t.Errorf("%s, mended: %v", name, err)
		} else if size := sizesOf(p)["a"]; size.W < mm {
			t.Errorf("%s, mended: %v", name, size)
		}
	}
}

// A usual print is the largest that goes: by the table, 89 x 127 mm in a frame
// with rails 3 mm past it on a panel of 98 x 138 mm, and lying in one of 138 x 98.
func TestUsualPrints(t *testing.T) {
	frame := folio.Frame{Rail: 9 * mm, Lap: 3 * mm, FoamWidth: 4 * mm, Mouth: score.Head}
	for _, c := range []struct {
		cover units.Size
		rule  place.PictureRule
		want  string
		size  units.Size
	}{
		{units.Size{W: 112 * mm, H: 160 * mm}, place.PictureUsual, "photo 89 x 127 mm", units.Size{W: 101 * mm, H: 139 * mm}},
		{units.Size{W: 123 * mm, H: 174 * mm}, place.PictureUsual, "photo 10 x 15 cm", units.Size{W: 113 * mm, H: 164 * mm}},
		{units.Size{W: 124 * mm, H: 174 * mm}, place.PictureUsual, "photo 102 x 152 mm", units.Size{W: 114 * mm, H: 164 * mm}},
		{units.Size{W: 160 * mm, H: 112 * mm}, place.PictureUsualLying, "photo 89 x 127 mm", units.Size{W: 139 * mm, H: 101 * mm}},
	} {
		s := related(folio.Fitting{Name: "x", Kind: frame, Size: place.Sizing{W: place.By(place.OfPanel), H: place.By(place.OfPanel), Picture: c.rule}})
		s.Cover = c.cover
		p := mustBuild(t, s)
		for f := range p.Fittings() {
			k := f.Kind().(folio.Frame)
			if k.Picture.Name != c.want || f.Rect().Size() != c.size || k.Picture.Thickness != 260*units.Micrometre {
				t.Errorf("%v: %v, %v; want %s, %v", c.cover, k.Picture, f.Rect().Size(), c.want, c.size)
			}
		}
	}
}

// Every kind of pocket goes into the room at hand, whichever of its sides is given
// by relation, and fills it.
func TestEveryPocketAtHand(t *testing.T) {
	card := pocket.IDCard()
	for k := range pocket.Kinds() {
		with := map[string]pocket.Kind{
			"slip pocket": pocket.Slip{Content: card}, "corner pocket": pocket.Corners{Content: card}, "hinged leaf": pocket.Flap{Content: card},
			"folded strip": pocket.FoldedStrip{Content: card}, "gusset pocket": pocket.Gusset{Content: card}, "gusset run": pocket.GussetRun{Content: card, Pockets: 2},
			"folded-up accordion": pocket.FoldedAccordion{Content: card, Panels: 3}, "concertina guard": pocket.Concertina{Content: card, Leaves: 2}, "pleats": pocket.Pleat{Content: card},
		}[k.Name()]
		if with == nil {
			t.Errorf("no %s to try", k.Name())
			continue
		}
		for name, size := range map[string]place.Sizing{
			"both": place.Filling(place.OfPanel, 4*mm), "width": {W: place.By(place.OfPanel)}, "height": {H: place.By(place.OfPanel)},
		} {
			s := related(folio.Fitting{Name: "x", Stock: "card", Kind: folio.Folded{Kind: with}, Size: size})
			s.Cover = units.Size{W: 160 * mm, H: 170 * mm}
			s.Spine.Width = 40 * mm
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%s, %s: %v", k.Name(), name, err)
				continue
			}
			want := units.Size{W: 150 * mm, H: 160 * mm}
			if name == "both" {
				want = units.Size{W: 142 * mm, H: 152 * mm}
			}
			got := sizesOf(p)["x"]
			if k.Name() == "corner pocket" { // it goes round its card wherever there is more room
				if !got.FitsIn(want) || !card.Size.FitsIn(got) {
					t.Errorf("%s, %s: %v", k.Name(), name, got)
				}
				continue
			}
			if size.W.Of != place.OfNothing && got.W != want.W || size.H.Of != place.OfNothing && got.H != want.H {
				t.Errorf("%s, %s: %v, want %v", k.Name(), name, got, want)
			}
			for f := range p.Fittings() {
				held, _ := pocket.Holds(f.Kind().(folio.Folded).Kind)
				if held != card {
					t.Errorf("%s, %s: for %v", k.Name(), name, held)
				}
			}
		}
	}
}

// Where the case itself cannot be, or a relation, what is wrong with the fields of
// the kind is still said, and nothing about the size that it has not got.
func TestFormIsCheckedWithoutASize(t *testing.T) {
	frame := folio.Frame{Lap: -mm, Rail: 12 * mm, Film: "glass"}
	s := related(
		folio.Fitting{Name: "a", Kind: frame, Size: place.Filling(place.OfPanel, 0)},
		folio.Fitting{Name: "b", Kind: folio.Mat{Size: units.Size{H: mm}}, Size: place.Filling(place.OfPanel, 0)},
		folio.Fitting{Name: "c", Kind: folio.Folded{Kind: pocket.Slip{Count: -1}}, Size: place.Filling(place.OfGround, 0)},
		folio.Fitting{Name: "d", Kind: folio.Frame{Film: "glass"}, Size: place.Sizing{W: place.By(place.OfFitting)}},
	)
	s.Cover.W = -mm
	_, err := folio.Build(s)
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	var got []string
	for v := range bad.All() {
		got = append(got, v.Path+" "+string(v.Code))
	}
	want := []string{
		"cover.w not-positive", "fittings[0].kind.lap not-positive", "fittings[0].kind.film unknown", "fittings[1].kind.size.h conflict",
		"fittings[2].kind.kind.count negative", "fittings[3].size.w.fitting missing", "fittings[3].kind.picture.size.h not-positive", "fittings[3].kind.film unknown",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// A strip of three panels of 90 mm and a tab of 10 just comes out of a sheet of
// 280 mm. The cover came out 3 mm wider: the panels follow, the strip must be
// joined, and the changes name the piece that was not planned; the other way round
// they name the one that is no longer wanted.
func TestRefitTakesMorePieces(t *testing.T) {
	s := related(folio.Fitting{Name: "x", Stock: "card", Size: place.Filling(place.OfPanel, 0), Kind: folio.Folded{Kind: pocket.FoldedAccordion{Panels: 3}}})
	s.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 280 * mm, H: 240 * mm}}}
	wider := refit.Measured{Width: 231 * mm, Height: 150 * mm, Panels: []units.Length{100 * mm, 20 * mm, 103 * mm}}
	count := func(p *folio.Plan) (n int) {
		for f := range p.Fittings() {
			for range f.Pieces() {
				n++
			}
		}
		return n
	}
	p := mustBuild(t, s)
	q, err := p.Refit(wider)
	if err != nil {
		t.Fatal(err)
	}
	if count(p) != 1 || count(q) != 2 {
		t.Fatalf("%d pieces planned, %d refitted", count(p), count(q))
	}
	added := 0
	for c := range q.Changes() {
		if c.What() == refit.ChangedPiece && c.From().Empty() {
			added++
			if i := c.Index(); i < 0 || c.To().Empty() || !strings.Contains(c.String(), "instead of none") {
				t.Errorf("%v at %d", c, i)
			}
		}
	}
	if added != 1 {
		t.Errorf("%d pieces were added", added)
	}
	s.Cover.W = 103 * mm
	p = mustBuild(t, s)
	narrower := refit.Measured{Width: 228 * mm, Height: 150 * mm, Panels: []units.Length{103 * mm, 20 * mm, 97 * mm}}
	if q, err = p.Refit(narrower); err != nil {
		t.Fatal(err)
	}
	if count(p) != 2 || count(q) != 1 {
		t.Fatalf("%d pieces planned, %d refitted", count(p), count(q))
	}
	lost := 0
	for c := range q.Changes() {
		if c.What() == refit.ChangedPiece && c.To().Empty() && c.Index() == -1 {
			lost++
		}
	}
	if lost != 1 {
		t.Errorf("%d pieces were lost", lost)
	}
}

// A picture that keeps its proportions, on panels of 90 x 140 mm: 2 to 3 on a mat
// with a reveal of 3 mm are 84 x 126; lying, 3 to 2, in a frame with 12 mm of rail of
// which 3 lap it, 72 x 48; by its width alone as high as it then is. Of a mat of 5 to
// 3 the height is cut to a whole millimetre.
func TestProportions(t *testing.T) {
	both, wide := place.Filling(place.OfPanel, 0), place.Sizing{W: place.By(place.OfPanel)}
	tall := place.Sizing{H: by(place.OfPanel, func(r *place.Relation) { r.Less = 20 * mm })}
	print := pocket.Content{Name: "ridge"}
	for _, c := range []struct {
		kind          folio.Kind
		size          place.Sizing
		w, h          int
		outside       units.Size
		picture       units.Size
		width, height string // workings
	}{
		{folio.Mat{Picture: print, Reveal: 3 * mm}, both, 2, 3, units.Size{W: 90 * mm, H: 132 * mm}, units.Size{W: 84 * mm, H: 126 * mm},
			"", "picture height in proportion 126 mm = 3 x width 84 mm / 2"},
		{folio.Frame{Picture: print, Rail: 12 * mm, Lap: 3 * mm}, both, 3, 2, units.Size{W: 90 * mm, H: 66 * mm}, units.Size{W: 72 * mm, H: 48 * mm},
			"", "picture height in proportion 48 mm = 2 x width 72 mm / 3"},
		{folio.Mat{Picture: print, Reveal: 3 * mm}, wide, 100, 150, units.Size{W: 90 * mm, H: 132 * mm}, units.Size{W: 84 * mm, H: 126 * mm},
			"", "picture height in proportion 126 mm = 3 x width 84 mm / 2"},
		{folio.Mat{}, tall, 2, 3, units.Size{W: 80 * mm, H: 120 * mm}, units.Size{},
			"mat width in proportion 80 mm = 2 x height there is 120 mm / 3", "mat height in proportion 120 mm = 3 x width 80 mm / 2"},
		{folio.Mat{}, tall, 5, 13, units.Size{W: 46 * mm, H: 119 * mm}, units.Size{},
			"mat width in proportion 46 mm = 5 x height there is 120 mm / 13 = ~46.153846 mm, down on 1 mm", "mat height in proportion 119 mm = 13 x width 46 mm / 5 = 119.6 mm, down on 1 mm"},
		{folio.Ornament{}, both, 1, 1, units.Size{W: 90 * mm, H: 90 * mm}, units.Size{}, "", "ornament height in proportion 90 mm = width 90 mm"},
	} {
		c.size.Proportions = place.Proportions{W: c.w, H: c.h}
		p := mustBuild(t, related(folio.Fitting{Name: "x", Kind: c.kind, Size: c.size}))
		for f := range p.Fittings() {
			var picture units.Size
			switch k := f.Kind().(type) {
			case folio.Mat:
				picture = k.Picture.Size
			case folio.Frame:
				picture = k.Picture.Size
			}
			if f.Rect().Size() != c.outside || picture != c.picture {
				t.Errorf("%v %d:%d: %v round %v, want %v round %v", c.kind, c.w, c.h, f.Rect().Size(), picture, c.outside, c.picture)
			}
		}
		for w := range p.Workings() {
			if !strings.HasSuffix(w.Label(), "in proportion") {
				continue
			}
			if want := c.height; w.String() != want && w.String() != c.width {
				t.Errorf("%v: %q, want %q or %q", c.kind, w, c.width, want)
			}
		}
	}
	for name, c := range map[string]struct {
		kind folio.Kind
		size place.Sizing
		path string
		code check.Code
	}{
		"of nothing":      {folio.Mat{}, place.Sizing{Proportions: place.Proportions{W: 2, H: 3}}, "fittings[0].size.w.of", check.Missing},
		"none across":     {folio.Mat{}, place.Sizing{W: wide.W, Proportions: place.Proportions{H: 3}}, "fittings[0].size.proportions.w", check.NotPositive},
		"above the limit": {folio.Mat{}, place.Sizing{W: wide.W, Proportions: place.Proportions{W: 1, H: place.MaxProportion + 1}}, "fittings[0].size.proportions.h", check.TooMany},
		"and a print":     {folio.Mat{}, place.Sizing{W: wide.W, Proportions: place.Proportions{W: 2, H: 3}, Picture: place.PictureUsual}, "fittings[0].size.picture", check.Conflict},
		"of a pocket":     {folio.Folded{Kind: pocket.Slip{}}, place.Sizing{W: wide.W, H: wide.W, Proportions: place.Proportions{W: 2, H: 3}}, "fittings[0].size.proportions", check.Conflict},
		"a height too":    {folio.Mat{Size: units.Size{H: mm}}, place.Sizing{W: wide.W, Proportions: place.Proportions{W: 2, H: 3}}, "fittings[0].kind.size.h", check.Conflict},
		"like a thread":   {folio.Frame{Picture: print}, place.Sizing{W: wide.W, H: both.H, Proportions: place.Proportions{W: 1, H: 1000}}, "fittings[0].size.proportions", check.OutOfRange},
		"like a ribbon":   {folio.Frame{Picture: print}, place.Sizing{W: wide.W, H: both.H, Proportions: place.Proportions{W: 1, H: 20}}, "fittings[0].size.proportions", folio.TooNarrow},
		"past the panel":  {folio.Mat{}, place.Sizing{W: wide.W, Proportions: place.Proportions{W: 2, H: 9}}, "fittings[0].size.h", folio.TooTall},
	} {
		_, err := folio.Build(related(folio.Fitting{Name: "x", Kind: c.kind, Size: c.size}))
		if !refusedWith(err, c.path, c.code) {
			t.Errorf("%s: %v, want %s %s", name, err, c.path, c.code)
		}
	}
}

// A flap of 6 mm whose lining keeps 5 mm from either edge has no room, not a room of less
// than nothing: no refusal names a length below it.
func TestNoPanelIsLessThanNothing(t *testing.T) {
	s := related(folio.Fitting{Name: "x", Kind: folio.Mat{}, Size: place.Sizing{W: place.By(place.OfPanel)}, Panel: boards.Flap})
	s.Form, s.FlapWidth = boards.ForeEdgeFlap, 6*mm
	_, err := folio.Build(s)
	if err == nil || strings.Contains(err.Error(), "got -") || !strings.Contains(err.Error(), "got nothing of the panel; want at least ") {
		t.Errorf("%v", err)
	}
}

// A usual print by one side alone is as wide as there is room for, or as high, and as long
// the other way as it is: of 10 x 15 cm, which is 102 x 152 mm (4 x 6 in).
func TestPrintByOneSide(t *testing.T) {
	for _, c := range []struct {
		size  place.Sizing
		print units.Size
	}{
		{place.Sizing{W: place.Relation{Of: place.OfPanel}}, units.Size{W: 102 * mm, H: 152 * mm}},
		{place.Sizing{H: place.Relation{Of: place.OfPanel}}, units.Size{W: 102 * mm, H: 152 * mm}},
	} {
		s := plainCase()
		c.size.Picture = place.PictureUsual
		s.Fittings = []folio.Fitting{{Size: c.size, Kind: folio.Mat{}}}
		for f := range mustBuild(t, s).Fittings() {
			for _, spot := range f.Spots() {
				if got, _ := spot.Content(); got.Size != c.print {
					t.Errorf("%+v: a print of %v, want %v", c.size, got.Size, c.print)
				}
			}
		}
	}
}

// Where no usual print goes it is said how large one could be, in the sides that are
// wanted. A frame with rails of 12 mm and laps of 3 is 18 mm larger than its picture: 90 mm
// wide it takes 72 mm, and 140 - 2 x 20 high 82 mm.
func TestRoomForAPrintInASide(t *testing.T) {
	w, h := place.By(place.OfPanel), place.Filling(place.OfPanel, 20*mm).H
	for want, size := range map[string]place.Sizing{
		"room for a picture of 72 mm in width":  {W: w, Picture: place.PictureUsual},
		"room for a picture of 82 mm in height": {H: h, Picture: place.PictureUsual},
		"room for a picture of 72 mm x 82 mm":   {W: w, H: h, Picture: place.PictureUsual},
	} {
		v := only(builds(related(folio.Fitting{Kind: folio.Frame{Rail: 12 * mm, Lap: 3 * mm}, Size: size})))
		if v.Code != folio.NoPrint || v.Got != want {
			t.Errorf("%v, want %s", v, want)
		}
	}
}

// Where nothing is left of a side by relation it is told what leaves the picture something
// too, inside the reveal of a mat or the rails of a frame: what would do does at once.
func TestAtOncePastTheBorder(t *testing.T) {
	for name, kind := range map[string]folio.Kind{
		"mat":       folio.Mat{Reveal: 7 * mm, Picture: pocket.Content{Name: "print"}},
		"frame":     folio.Frame{Rail: 12 * mm},
		"empty mat": folio.Mat{},
		"no reveal": folio.Mat{Reveal: units.None, Picture: pocket.Content{Name: "print"}},
		"bare":      folio.Mat{Reveal: 7 * mm},
	} {
		for what, w := range map[string]place.Relation{
			"margin": by(place.OfPanel, func(r *place.Relation) { r.Margin = 300 * mm }),
			"less":   by(place.OfPanel, func(r *place.Relation) { r.Less = 300 * mm }),
			"gap":    by(place.OfPanel, func(r *place.Relation) { r.Shares, r.Gap = 2, 300*mm }),
		} {
			s := related(folio.Fitting{Name: "x", Kind: kind, Size: place.Sizing{W: w, H: place.Filling(place.OfPanel, 10*mm).H}})
			if w.Shares > 1 {
				s.Fittings[0].Place.Across = place.Left
			}
			v := only(builds(s))
			if found := mendtest.Try(s, v, nil, builds); v.Path != "fittings[0].size.w."+what || found.Outcome != mendtest.Mended {
				t.Errorf("%s, %s: %v, %+v", name, what, v, found)
			}
			if err := mendtest.At(reflect.ValueOf(&s).Elem(), v.Path, func(f reflect.Value) { f.SetInt(int64(v.Limit)) }); err != nil {
				t.Fatal(err)
			}
			if err := builds(s); err != nil {
				t.Errorf("%s, %s: %v, and then %v", name, what, v, err)
			}
		}
	}
}

// What follows from a fitting of which something is wrong is not told of, and what is wrong
// there is told once, whether that fitting comes before or after.
func TestFollowsFromWhatIsWrong(t *testing.T) {
	for _, first := range []bool{false, true} {
		s := plainCase()
		wrong := folio.Fitting{Name: "wrong", Kind: folio.Mat{Size: units.Size{W: -mm, H: 40 * mm}}}
		after := folio.Fitting{Name: "after", Panel: boards.LeftCover, Kind: folio.Mat{}, Size: place.Sizing{
			W: place.Relation{Of: place.OfFitting, Fitting: "wrong"}, H: place.Relation{Of: place.OfPanel},
		}}
		s.Fittings = []folio.Fitting{after, wrong}
		if first {
			s.Fittings = []folio.Fitting{wrong, after}
		}
		var bad *check.Error
		if !errors.As(builds(s), &bad) || bad.Len() != 1 {
			t.Fatalf("first %v: %v", first, bad)
		}
		for v := range bad.All() {
			if v.Code != check.NotPositive || v.Of != "wrong" {
				t.Errorf("first %v: %v", first, bad)
			}
		}
	}
}
