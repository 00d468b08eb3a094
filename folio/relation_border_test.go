package folio_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Where a relation leaves nothing, what would do leaves the least that can be made: round a
// picture or an opening of a step of the ruler the reveals of a mat or the rails of a frame,
// on the ruler or not. With that the folio builds, of a margin, of what is taken off and of
// the gap between shares; a step of the ruler more is too much.
func TestLeastByRelation(t *testing.T) {
	kinds := map[string]folio.Kind{
		"mat": folio.Mat{}, "mat round a picture": folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 3300 * units.Micrometre}, "badge": folio.Ornament{Thickness: mm},
		"frame": folio.Frame{}, "frame on the ruler": folio.Frame{Rail: 16 * mm}, "frame beside the ruler": folio.Frame{Rail: 14210 * units.Micrometre},
	}
	for _, ruler := range []units.Ruler{units.WholeMillimetres, units.TenthMillimetres, units.Sixteenths, everyNanometre} {
		for name, kind := range kinds {
			for shares := range 4 {
				for _, tall := range []bool{false, true} {
					for field, set := range map[string]func(*place.Relation) *units.Length{
						"margin": func(r *place.Relation) *units.Length { return &r.Margin },
						"less":   func(r *place.Relation) *units.Length { return &r.Less },
						"gap":    func(r *place.Relation) *units.Length { return &r.Gap },
					} {
						if field == "gap" && shares < 2 {
							continue
						}
						s, side := plainCase(), place.Relation{Of: place.OfPanel, Shares: shares}
						s.Rulers = rule.Rulers{Main: ruler}
						s.Cover = units.Size{W: 180 * mm, H: 240 * mm}
						with := func(l units.Length) folio.Spec {
							*set(&side) = l
							f := folio.Fitting{Kind: kind, Panel: boards.RightCover, Size: place.Sizing{W: side, H: place.Relation{Of: place.OfPanel}}}
							if tall {
								f.Size.W, f.Size.H = f.Size.H, side
							}
							s.Fittings = []folio.Fitting{f}
							return s
						}
						path, code := "fittings[0].size.w."+field, folio.TooWide
						if tall {
							path, code = "fittings[0].size.h."+field, folio.TooTall
						}
						v, ok := refusal(with(300*mm), path, code)
						if !ok {
							t.Errorf("%s, %s on %v: %v", name, path, ruler, builds(with(300*mm)))
							continue
						}
						if err := builds(with(v.Limit)); err != nil {
							t.Errorf("%s, %s on %v, %d shares: with %v, which would do, %v", name, path, ruler, shares, v.Limit, err)
						}
						if err := builds(with(v.Limit + ruler.Step())); err == nil {
							t.Errorf("%s, %s on %v, %d shares: with more than %v, which would do, it builds", name, path, ruler, shares, v.Limit)
						}
					}
				}
			}
		}
	}
}

// What takes more than there is of a side by relation is told at one field where that does,
// else at each that it takes; obeyed, all of it, the folio builds. Of a panel of 114 x 159 mm
// or so no margin of 30 mm and 60 mm less alone leaves a frame its 54 mm or more.
func TestAllThatIsTakenOffIsTold(t *testing.T) {
	frame := func(width units.Length) folio.Frame {
		return folio.Frame{Rail: 12 * mm, Lap: 3 * mm, FoamWidth: width, Ease: units.None}
	}
	folded := func(k pocket.Kind, w place.Relation) folio.Fitting {
		return folio.Fitting{Stock: "card", Kind: folio.Folded{Kind: k}, Size: place.Sizing{W: w}}
	}
	for name, c := range map[string]struct {
		f     folio.Fitting
		paths []string
	}{
		"leaves, and the guard that reaches past them": {folded(pocket.Concertina{Content: content(units.Size{W: 60 * mm, H: 50 * mm}), Leaves: 3}, place.Relation{Of: place.OfPanel, Less: 110 * mm}),
			[]string{".size.w.less"}},
		"leaves with nothing to carry, likewise": {folded(pocket.Concertina{Leaves: 3, Leaf: units.Size{H: 50 * mm}}, place.Relation{Of: place.OfPanel, Margin: 52 * mm}),
			[]string{".size.w.margin"}},
		"corners that go round what they hold in any room": {folded(pocket.Corners{Content: content(units.Size{W: 118 * mm, H: 30 * mm})}, place.Relation{Of: place.OfPanel, More: 20 * mm}),
			[]string{".kind.kind.content.size.w"}},
		// In inches so much more comes to the next 1/8 in.
		"a strip too short for a base as wide as it must be": {folded(pocket.FoldedStrip{Content: content(units.Size{W: 60 * mm, H: 50 * mm}), Strip: units.Size{W: 70 * mm}}, place.Relation{Of: place.OfFitting, Fitting: "badge"}),
			[]string{".size.w.more", ".kind.kind.strip.w"}},
		"a margin and less": {folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Margin: 35 * mm, Less: 60 * mm}, H: place.By(place.OfPanel)}},
			[]string{".size.w.margin"}},
		"both": {folio.Fitting{Kind: folio.Mat{Reveal: 40 * mm, Picture: pocket.Content{Name: "crew"}}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Margin: 30 * mm, Less: 60 * mm}, H: place.By(place.OfPanel)}},
			[]string{".size.w.margin", ".size.w.less"}},
		"gaps too": {folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Shares: 3, Margin: 30 * mm, Less: 60 * mm, Gap: 80 * mm}, H: place.By(place.OfPanel)}, Place: place.Place{Across: place.Left}},
			[]string{".size.w.margin", ".size.w.less", ".size.w.gap"}},
		"another fitting, to which more is added": {folio.Fitting{Kind: frame(8 * mm), Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "badge"}, H: place.By(place.OfPanel)}},
			[]string{".size.w.more"}},
		"ease that no lap covers which leaves an opening": {folio.Fitting{Kind: folio.Frame{Picture: content(units.Size{W: 20 * mm, H: 20 * mm}), Rail: 12 * mm, Lap: mm / 4, Ease: 20 * mm, FoamWidth: 3 * mm}},
			[]string{".kind.ease"}},
		"foam that no rail covers which leaves an opening": {folio.Fitting{Kind: frame(60 * mm), Size: place.Filling(place.OfPanel, 10*mm)}, []string{".kind.foamwidth"}},
		"foam that a wider rail covers":                    {folio.Fitting{Kind: frame(15 * mm), Size: place.Filling(place.OfPanel, 10*mm)}, []string{".kind.rail"}},
		"too large where it is moved to": {folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, More: 9 * mm}, H: place.By(place.OfPanel)}, Place: place.Place{Across: place.Left, Offset: units.Point{X: 20 * mm}}},
			[]string{".size.w.more", ".size.w.less"}},
		"too large, and moved out": {folio.Fitting{Kind: folio.Mat{Size: units.Size{W: 300 * mm, H: 20 * mm}}, Place: place.Place{Across: place.Left, Offset: units.Point{X: 200 * mm}}},
			[]string{".kind.size.w", ".place.offset.x"}},
		"too large in the middle, moved": {folio.Fitting{Kind: folio.Mat{Size: units.Size{W: 300 * mm, H: 20 * mm}}, Place: place.Place{Offset: units.Point{X: -7 * mm}}}, []string{".kind.size.w"}},
	} {
		s := plainCase()
		s.Cover = units.Size{W: 120 * mm, H: 160 * mm}
		if strings.HasPrefix(name, "a strip") {
			s.Rulers = rule.Rulers{Main: units.Eighths}
		}
		s.Fittings = []folio.Fitting{c.f, {Name: "badge", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}}}
		var bad *check.Error
		if !errors.As(builds(s), &bad) {
			t.Errorf("%s is taken", name)
			continue
		}
		var paths []string
		for v := range bad.All() {
			paths = append(paths, strings.TrimPrefix(v.Path, "fittings[0]"))
		}
		again, ok := obeyed(s, bad)
		slices.Sort(paths)
		slices.Sort(c.paths)
		if err := builds(again); !ok || err != nil || !slices.Equal(paths, c.paths) {
			t.Errorf("%s: %v; and then %v", name, bad, err)
		}
	}
}

// Of what stands on a fitting that is too large itself nothing is told that depends on its
// size: that will be another one.
func TestOnWhatIsTooLarge(t *testing.T) {
	s := plainCase()
	for _, on := range []folio.Fitting{
		{Kind: folio.Mat{Size: units.Size{W: 600 * mm, H: 20 * mm}}},
		{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfGround, More: 40 * mm}, H: place.By(place.OfGround)}},
		{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "under", Less: 600 * mm}, H: place.By(place.OfGround)}},
	} {
		on.StandsOn = "under"
		s.Fittings = []folio.Fitting{{Name: "under", Kind: folio.Mat{Size: units.Size{W: 500 * mm, H: 30 * mm}}}, on}
		if v := only(builds(s)); v.Path != "fittings[0].kind.size.w" {
			t.Errorf("%v", builds(s))
		}
	}
	// Where it is as large as it may be, all is told.
	s.Fittings[0].Kind = folio.Mat{Size: units.Size{W: 50 * mm, H: 30 * mm}}
	if v := only(builds(s)); v.Path != "fittings[1].size.w.less" {
		t.Errorf("%v", builds(s))
	}
}
