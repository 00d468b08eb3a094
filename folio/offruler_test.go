package folio_test

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lengthsIn calls visit with the path of every length that a value of a type may hold,
// of fittings with the name of the kind behind a colon. What the kinds of pockets hold
// package pocket looks after.
func lengthsIn(t reflect.Type, path string, visit func(path string)) {
	switch {
	case t == reflect.TypeFor[units.Length]():
		visit(path)
	case t == reflect.TypeFor[folio.Kind]():
		for k := range folio.Kinds() {
			lengthsIn(reflect.TypeOf(k), path+":"+reflect.TypeOf(k).Name(), visit)
		}
	case t.Kind() == reflect.Struct:
		for i := range t.NumField() {
			if f := t.Field(i); f.IsExported() {
				lengthsIn(f.Type, strings.TrimPrefix(path+"."+strings.ToLower(f.Name), "."), visit)
			}
		}
	case t.Kind() == reflect.Slice, t.Kind() == reflect.Array:
		lengthsIn(t.Elem(), path+"[0]", visit)
	}
}

// A measure is how a folio shows a given length: in which folio, and what there is of it
// in the plan, by its pieces and where they lie.
type measure struct {
	in   func(*folio.Spec)
	is   units.Length // on the ruler
	of   func(*folio.Plan) []units.Length
	kept bool // it is used as it is, on the ruler or off it
}

const in = units.Inch

// inchCase is a folio all of whose lengths are on a ruler of sixteenths.
func inchCase() folio.Spec {
	s := folio.Spec{Cover: units.Size{W: 5 * in, H: 7 * in}, Spine: rule.Spine{Width: in}, Hinge: rule.Hinge{Width: 3 * in / 8}, Mitre: rule.Mitre{Distance: in / 4}}
	s.Board.Caliper, s.Covering.Caliper, s.Liner.Caliper = in/16, in/128, in/256
	s.Stocks = []stock.Stock{{Name: "card", Caliper: in / 64}, {Name: "felt", Caliper: in / 16}}
	return s
}

// holding puts a fitting of a kind on the right cover, at its left and head.
func holding(k folio.Kind) func(*folio.Spec) {
	return func(s *folio.Spec) {
		s.Fittings = []folio.Fitting{{Name: "crew", Stock: "card", Kind: k, Place: place.Place{Across: place.Left, Along: place.Head}}}
	}
}

func pieceCalled(p *folio.Plan, name string) units.Size {
	for piece := range p.Pieces() {
		if strings.HasSuffix(piece.Name(), name) {
			return piece.Size()
		}
	}
	return units.Size{}
}

func fittedFirst(p *folio.Plan) folio.Fitted {
	for f := range p.Fittings() {
		return f
	}
	return folio.Fitted{}
}

// picture is 2 x 3 in.
var picture = pocket.Content{Name: "picture", Size: units.Size{W: 2 * in, H: 3 * in}, Thickness: in / 64}

func frameOf(change func(*folio.Frame)) func(*folio.Spec) {
	f := folio.Frame{Picture: picture, Lap: in / 8, Rail: in / 2, Ease: in / 8, FoamWidth: in / 4, Foam: in / 16}
	if change != nil {
		change(&f)
	}
	return holding(f)
}

// opening returns a frame's opening on the frame, and where its picture lies there.
func opening(p *folio.Plan) (o, lies units.Rect, frame units.Size) {
	f := fittedFirst(p)
	for _, piece := range f.Pieces() {
		for o = range piece.Openings() {
			frame = piece.Size()
		}
	}
	for _, s := range f.Spots() {
		lies = s.Lies().Moved(units.Point{X: -f.Rect().Min.X, Y: -f.Rect().Min.Y})
	}
	return o, lies, frame
}

func board(r boards.Role) func(*folio.Plan) []units.Length {
	return func(p *folio.Plan) []units.Length {
		b, _ := p.Board(r)
		return []units.Length{b.Size().W}
	}
}

func gaps(p *folio.Plan) (all []units.Length) {
	for g := range p.Gaps() {
		all = append(all, g.Width())
	}
	return all
}

func cornerOf(p *folio.Plan) []units.Length {
	panel, _ := p.Panel(boards.RightCover, false)
	at := fittedFirst(p).Rect().Min
	return []units.Length{at.X - panel.Min.X, at.Y - panel.Min.Y}
}

func zRow(s *folio.Spec) {
	s.Form, s.Row, s.Spine, s.Hinge = boards.OwnRow, boards.FourPanelZ.Row(), rule.Spine{Contents: in / 2}, rule.Hinge{}
}

func quarterCase(s *folio.Spec) {
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: in, Lap: in / 8}
	s.SpineCovering = stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper}
}

// lapsOfPapers returns how far the side papers lie over the spine strips.
func lapsOfPapers(p *folio.Plan) (laps []units.Length) {
	for strip := range p.Wrap().Pieces() {
		for paper := range p.Wrap().Pieces() {
			if !strip.Strip() || paper.Strip() {
				continue
			}
			from, to := max(strip.X(), paper.X()), min(strip.X()+strip.Piece().Size().W, paper.X()+paper.Piece().Size().W)
			if to > from {
				laps = append(laps, to-from)
			}
		}
	}
	return laps
}

func blocked(s *folio.Spec) {
	s.Cover, s.Spine = units.Size{}, rule.Spine{}
	s.Block = boards.Block{Page: units.Size{W: 5 * in, H: 7 * in}, Thickness: in / 2, Square: in / 8, Setback: in / 4}
}

func byRelation(change func(*place.Relation)) func(*folio.Spec) {
	return func(s *folio.Spec) {
		holding(folio.Mat{})(s)
		r := place.Relation{Of: place.OfPanel}
		change(&r)
		s.Fittings[0].Size.W, s.Fittings[0].Size.H = r, r
		s.Fittings[0].Place = place.Place{}
	}
}

// measures are of the lengths that a folio shows as lengths of its own.
func measures() map[string]measure {
	side := func(name string) func(*folio.Plan) []units.Length {
		return func(p *folio.Plan) []units.Length {
			s := pieceCalled(p, name)
			return []units.Length{s.W, s.H}
		}
	}
	w := func(of func(*folio.Plan) []units.Length) func(*folio.Plan) []units.Length {
		return func(p *folio.Plan) []units.Length { return of(p)[:1] }
	}
	h := func(of func(*folio.Plan) []units.Length) func(*folio.Plan) []units.Length {
		return func(p *folio.Plan) []units.Length { return of(p)[1:] }
	}
	plain := func(*folio.Spec) {}
	ornament := func(p *folio.Plan) []units.Length {
		s := fittedFirst(p).Rect().Size()
		return []units.Length{s.W, s.H}
	}
	return map[string]measure{
		"cover.w": {plain, 5 * in, w(side("cover board")), false},
		"cover.h": {plain, 7 * in, h(side("cover board")), false},
		"block.square": {blocked, in / 8, func(p *folio.Plan) []units.Length {
			s, block := pieceCalled(p, "cover board"), p.Spec().Block
			return []units.Length{s.W - block.Page.W + block.Setback, (s.H - block.Page.H) / 2}
		}, false},
		"spine.width": {plain, in, board(boards.Spine1), false},
		"flapwidth":   {func(s *folio.Spec) { s.Form = boards.ForeEdgeFlap }, 2 * in, board(boards.Flap), false},
		"doorgap": {func(s *folio.Spec) { s.Form = boards.DoubleSpineGate }, in / 8, func(p *folio.Plan) []units.Length {
			back, _ := p.Board(boards.Back)
			left, _ := p.Board(boards.LeftDoor)
			right, _ := p.Board(boards.RightDoor)
			return []units.Length{back.Size().W - left.Size().W - right.Size().W}
		}, false},
		"hinge.width": {plain, 3 * in / 8, gaps, false},
		"margin.ideal": {plain, in, func(p *folio.Plan) []units.Length {
			return []units.Length{p.Wrap().Across().Smaller(), p.Wrap().Along().Smaller()}
		}, false},
		"quarter.reach": {quarterCase, in, func(p *folio.Plan) []units.Length {
			open := p.OpenWidth().Length() - 10*in
			return []units.Length{(pieceCalled(p, "spine strip").W - open) / 2}
		}, false},
		"quarter.lap": {quarterCase, in / 8, lapsOfPapers, false},
		"lining.inset": {plain, in / 8, func(p *folio.Plan) []units.Length {
			s := pieceCalled(p, "liner")
			return []units.Length{(p.OpenWidth().Length() - s.W) / 2, (p.OpenHeight().Length() - s.H) / 2}
		}, false},
		"lining.lap": {zRow, in / 8, func(p *folio.Plan) (laps []units.Length) {
			for _, l := range edgeStrips(p) {
				laps = append(laps, l.laps[0], l.laps[1])
			}
			return laps
		}, false},
		"row.boards[0].width": {func(s *folio.Spec) {
			zRow(s)
			s.Row.Boards[0].Rule, s.Row.Boards[0].Width = boards.WidthFixed, 5*in
		}, 5 * in, board(boards.Panel1), false},
		"row.joints[0].hinge.width": {func(s *folio.Spec) {
			zRow(s)
			s.Row.Joints[0].Hinge = rule.Hinge{Rule: rule.HingeFixed, Width: 3 * in / 4}
		}, 3 * in / 4, func(p *folio.Plan) []units.Length { return gaps(p)[:1] }, false},
		"fittings[0].kind:Mat.size.w": {holding(folio.Mat{Size: units.Size{W: 2 * in, H: 3 * in}}), 2 * in, w(side("mat")), false},
		"fittings[0].kind:Mat.size.h": {holding(folio.Mat{Size: units.Size{W: 2 * in, H: 3 * in}}), 3 * in, h(side("mat")), false},
		"fittings[0].kind:Mat.reveal": {holding(folio.Mat{Picture: picture, Reveal: in / 8}), in / 8, func(p *folio.Plan) []units.Length {
			s := pieceCalled(p, "mat")
			return []units.Length{(s.W - 2*in) / 2, (s.H - 3*in) / 2}
		}, false},
		"fittings[0].kind:Frame.lap": {frameOf(nil), in / 8, func(p *folio.Plan) []units.Length {
			o, lies, _ := opening(p)
			return []units.Length{o.Min.X - lies.Min.X, lies.Max.X - o.Max.X, o.Min.Y - lies.Min.Y, lies.Max.Y - o.Max.Y}
		}, false},
		"fittings[0].kind:Frame.rail": {frameOf(nil), in / 2, func(p *folio.Plan) []units.Length {
			o, _, frame := opening(p)
			return []units.Length{o.Min.X, frame.W - o.Max.X, o.Min.Y, frame.H - o.Max.Y}
		}, false},
		"fittings[0].kind:Frame.ease": {frameOf(nil), in / 8, func(p *folio.Plan) []units.Length {
			var between []units.Length
			for placed := range fittedFirst(p).Placed() {
				if piece, _ := placed.Piece(); strings.HasPrefix(pieceAt(p, piece).Name(), "side foam") {
					between = append(between, placed.Rect().Min.X, placed.Rect().Max.X)
				}
			}
			slices.Sort(between)
			return []units.Length{between[2] - between[1] - 2*in}
		}, false},
		"fittings[0].kind:Frame.foamwidth": {frameOf(nil), in / 4, w(side("side foam strip")), true},
		"fittings[0].kind:Ornament.size.w": {holding(folio.Ornament{Size: units.Size{W: in, H: 2 * in}}), in, w(ornament), true},
		"fittings[0].kind:Ornament.size.h": {holding(folio.Ornament{Size: units.Size{W: in, H: 2 * in}}), 2 * in, h(ornament), true},
		"fittings[0].place.offset.x":       {holding(folio.Ornament{Size: units.Size{W: in, H: 2 * in}}), in, w(cornerOf), true},
		"fittings[0].place.offset.y":       {holding(folio.Ornament{Size: units.Size{W: in, H: 2 * in}}), in, h(cornerOf), true},
		"clearance":                        {holding(folio.Ornament{Size: units.Size{W: in, H: 2 * in}}), in / 4, cornerOf, true},
		"magnets.inset": {func(s *folio.Spec) {
			s.Form = boards.ForeEdgeFlap
			s.Magnets = closing.Magnets{Diameter: in / 4, Thickness: in / 32, Pairs: 2, Inset: in / 4}
		}, in / 4, func(p *folio.Plan) []units.Length {
			fastening, _ := p.Magnets()
			flap, _ := p.Board(boards.Flap)
			var all []units.Length
			for m := range fastening.Places() {
				if m.Panel() == boards.Flap {
					x := m.Middle().X
					all = append(all, min(x-flap.Rect().Min.X, flap.Rect().Max.X-x)-p.Spec().Magnets.Diameter/2)
				}
			}
			return all
		}, true},
	}
}

func pieceAt(p *folio.Plan, index int) folio.Piece {
	for piece := range p.Pieces() {
		if index == 0 {
			return piece
		}
		index--
	}
	return folio.Piece{}
}

// elsewhere are the lengths that a folio does not show as lengths of its own, and why:
// they are used as they are, and no ruler moves them.
var elsewhere = []struct{ path, why string }{
	{`^(board|covering|liner|spinecovering|stocks\[0\])\.caliper$|\.foam$|adhesive\.caliper$|thickness$`, "a thickness, which nobody measures off"},
	{`sheets\[0\]\.size\.[wh]$|^closing\.adhesive\.tapewidth$|^magnets\.diameter$`, "something at hand, as large as it is"},
	{`^block\.page\.[wh]$|^spine\.contents$|\.(picture|tag)\.size\.[wh]$`, "something that is held, as large as it is"},
	{`^margin\.(least|tolerated)$|^placing$|^closing\.(ease|underflap)$`, "a bound, which sizes keep"},
	{`^mitre\.distance$`, "the least, of which the cut is farther off by the root of 2"},
	{`^block\.setback$`, "taken off the width, of which the square takes what is rounded"},
	{`hinge\.offset$`, "where the covering bends by itself"},
	{`^fittings\[0\]\.size\.[wh]\.(margin|less|more|gap)$`, "part of a size by relation, which goes down with its working"},
}

// A given length that is no graduation of the ruler is told of where the folio has
// another one for it, from what and to what, once, by the path of its field; where the
// folio has just that length nothing is said. No length that a Spec can hold is left
// out. Nor is a length said to be put on the ruler that ends between its steps.
func TestEveryLengthOffTheRuler(t *testing.T) {
	known := measures()
	met := map[string]bool{}
	lengthsIn(reflect.TypeFor[folio.Spec](), "", func(path string) {
		m, ok := known[path]
		why := 0
		for _, e := range elsewhere {
			if regexp.MustCompile(e.path).MatchString(path) {
				why++
			}
		}
		if ok && why > 0 || why > 1 || !ok && why == 0 {
			t.Errorf("%s: it is measured: %v, and %d times said why not", path, ok, why)
		}
		if met[path] = true; !ok {
			return
		}
		field := regexp.MustCompile(`:[A-Z][A-Za-z]*`).ReplaceAllString(path, "")
		moved := 0
		for _, off := range []units.Length{0, in / 64, 3 * in / 64, 137 * units.Micrometre, 1009 * units.Micrometre} {
			s := inchCase()
			m.in(&s)
			given := m.is + off
			if err := mendtest.At(reflect.ValueOf(&s).Elem(), field, func(v reflect.Value) { v.SetInt(int64(given)) }); err != nil {
				t.Fatal(path, err)
			}
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%s of %v: %v", path, given, err)
				continue
			}
			var told []check.Warning
			for w := range p.Warnings() {
				if w.Code == folio.WarnRuler {
					told = append(told, w)
				}
			}
			made := m.of(p)
			if len(made) == 0 {
				t.Fatalf("%s: nothing to measure", path)
			}
			far := slices.Max(made)
			switch {
			case far == given && slices.Min(made) == given:
				if len(told) > 0 {
					t.Errorf("%s of %v is that long; told is %v", path, given, told)
				}
			case off == 0 || m.kept:
				t.Errorf("%s of %v is %v", path, given, made)
			case len(told) != 1 || told[0].Path != field || told[0].Got != given || told[0].Want != far:
				t.Errorf("%s of %v is %v; told is %v", path, given, made, told)
			default:
				moved++
				n := units.InchFraction
				for _, l := range []units.Length{given, slices.Min(made), far} {
					if !strings.Contains(told[0].Text, n.Text(l)) {
						t.Errorf("%s of %v is %v: %s", path, given, made, told[0].Text)
					}
					// What goes on the ruler itself ends on it; what follows from that may lie
					// between its steps.
					if l != given && !units.Sixteenths.Has(l) && !strings.Contains(told[0].Text, " on the ruler, which has ") {
						t.Errorf("%s of %v is %v, which is on no ruler: %s", path, given, l, told[0].Text)
					}
				}
			}
		}
		if !m.kept && moved < 2 {
			t.Errorf("%s was moved %d times", path, moved)
		}
	})
	for path := range known {
		if !met[path] {
			t.Errorf("there is no %s", path)
		}
	}
}

// Where what is shared by two sides is an odd number of nanometres, as an odd number of 64ths of
// an inch is, the greater of what a length is moved to is no less than half of it, nor more than a
// nanometre more.
func TestHalvesOfAnOddRest(t *testing.T) {
	half := in / 128 // between two graduations
	for path, c := range map[string]struct {
		in func(*folio.Spec)
		of func(*folio.Plan) units.Length // twice what it comes to
	}{
		"block.square": {func(s *folio.Spec) {
			blocked(s)
			s.Block.Square, s.Block.Setback = in/8+half, in/4+half // as wide as given
		}, func(p *folio.Plan) units.Length {
			return pieceCalled(p, "cover board").H - p.Spec().Block.Page.H
		}},
		"fittings[0].kind.reveal": {holding(folio.Mat{Picture: picture, Reveal: in/8 + half}), func(p *folio.Plan) units.Length {
			s := pieceCalled(p, "mat")
			return max(s.W-2*in, s.H-3*in)
		}},
		"fittings[0].kind.reveal ": {holding(folio.Mat{Picture: content(units.Size{W: 2*in - 198436, H: 3 * in}), Reveal: in/8 + half}), func(p *folio.Plan) units.Length {
			return pieceCalled(p, "mat").W - 2*in + 198436
		}},
		"fittings[0].kind.reveal  ": {holding(folio.Mat{Picture: content(units.Size{W: 2 * in, H: 3*in - 198436}), Reveal: in/8 + half}), func(p *folio.Plan) units.Length {
			return pieceCalled(p, "mat").H - 3*in + 198436
		}},
		"fittings[0].kind.lap ": {frameOf(func(f *folio.Frame) { f.Lap, f.Picture.Size.W = f.Lap+half, 2*in+198436 }), func(p *folio.Plan) units.Length {
			o, _, _ := opening(p)
			return 2*in + 198436 - o.Size().W
		}},
		"fittings[0].kind.rail": {frameOf(func(f *folio.Frame) { f.Rail += half }), func(p *folio.Plan) units.Length {
			o, _, frame := opening(p)
			return max(frame.W-o.Size().W, frame.H-o.Size().H)
		}},
		"fittings[0].kind.lap": {frameOf(func(f *folio.Frame) { f.Lap += half }), func(p *folio.Plan) units.Length {
			o, _, _ := opening(p)
			return 2*in - o.Size().W
		}},
	} {
		s := inchCase()
		s.Rulers = all(units.SixtyFourths)
		c.in(&s)
		p := mustBuild(t, s)
		both := c.of(p)
		told := false
		for w := range p.Warnings() {
			if w.Code == folio.WarnRuler && w.Path == strings.TrimSpace(path) {
				if told = true; 2*w.Want-both < 0 || 2*w.Want-both > 1 {
					t.Errorf("%s: of %d between both: %v", path, both, w)
				}
			}
		}
		if !told || both%2 == 0 {
			t.Errorf("%s: %d between both, told %v: %v", path, both, told, warnings(p))
		}
	}
}

// What is used as it is leaves no word of a ruler behind.
func TestWhatIsNotMovedIsNotTold(t *testing.T) {
	for field, of := range map[string]func(*folio.Spec){
		"block.page.w": blocked, "block.page.h": blocked, "block.setback": blocked, "block.thickness": blocked,
		"spine.contents": func(s *folio.Spec) { s.Spine = rule.Spine{Contents: in / 2} },
		"board.caliper":  func(*folio.Spec) {}, "covering.caliper": func(*folio.Spec) {},
		"mitre.distance":                  func(*folio.Spec) {},
		"fittings[0].kind.picture.size.w": holding(folio.Mat{Picture: picture}),
		"fittings[0].kind.picture.size.h": frameOf(nil),
		"fittings[0].kind.foam":           frameOf(nil),
		"fittings[0].size.w.margin":       byRelation(func(r *place.Relation) { r.Margin = in / 2 }),
		"fittings[0].size.w.less":         byRelation(func(r *place.Relation) { r.Less = in / 2 }),
		"fittings[0].size.h.gap":          byRelation(func(r *place.Relation) { r.Shares, r.Gap = 2, in/4 }),
	} {
		s := inchCase()
		of(&s)
		var given units.Length
		if err := mendtest.At(reflect.ValueOf(&s).Elem(), field, func(v reflect.Value) {
			given = units.Length(v.Int()) + 137*units.Micrometre
			v.SetInt(int64(given))
		}); err != nil {
			t.Fatal(field, err)
		}
		p := mustBuild(t, s)
		used := false
		for w := range p.Workings() {
			for term := range w.Terms() {
				used = used || term.Length == given
			}
		}
		if strings.HasPrefix(field, "mitre") || strings.HasSuffix(field, "foam") {
			used = true // in a diagonal, in a height
		}
		if !used {
			t.Errorf("%s of %v is in no working", field, given)
		}
		for w := range p.Warnings() {
			if w.Code == folio.WarnRuler {
				t.Errorf("%s of %v: %v", field, given, w)
			}
		}
	}
}
