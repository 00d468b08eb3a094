package pocket_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lengthsIn calls visit with the path of every length in a value.
func lengthsIn(v reflect.Value, path string, visit func(path string)) {
	switch {
	case v.Type() == reflect.TypeFor[units.Length]():
		visit(path)
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			lengthsIn(v.Field(i), strings.TrimPrefix(path+"."+strings.ToLower(v.Type().Field(i).Name), "."), visit)
		}
	case v.Kind() == reflect.Array:
		for i := range v.Len() {
			lengthsIn(v.Index(i), path+"["+string(rune('0'+i))+"]", visit)
		}
	}
}

// uses reports whether a design has a length as it is: in a working, as a side of glue,
// as the depth of a tab, as a side of a notch, between scores, or as a side of what it
// takes or of the room for that.
func uses(d pocket.Design, l units.Length) bool {
	has := func(all ...units.Length) bool { return slices.Contains(all, l) }
	for w := range d.Workings() {
		for t := range w.Terms() {
			if has(t.Length) {
				return true
			}
		}
	}
	for _, p := range d.Pieces() {
		at := map[score.Axis][]units.Length{score.Level: {0}, score.Upright: {0}}
		for _, line := range p.Blank().Lines() {
			at[line.Axis] = append(at[line.Axis], line.At)
		}
		for _, places := range at {
			for _, a := range places {
				for _, b := range places {
					if has(a - b) {
						return true
					}
				}
			}
		}
		for _, g := range p.Blank().Glue() {
			if s := g.Area.Size(); has(s.W, s.H) {
				return true
			}
		}
		for _, t := range p.Blank().Tabs() {
			if has(t.Depth) {
				return true
			}
		}
		for _, n := range p.Blank().Notches() {
			if has(n.Width, n.Depth) {
				return true
			}
		}
		for _, c := range p.Blank().CutOuts() {
			if s := c.Area.Size(); has(s.W/2, s.H/2) { // a notch over a fold
				return true
			}
		}
		if s := p.Blank().Size(); has(s.W, s.H, p.Caliper()) {
			return true
		}
	}
	for _, p := range d.Spots() {
		s, c := p.Rect().Size(), p.Capacity()
		if has(s.W, s.H, c.Size.W, c.Size.H, c.Thickness, p.Clear().W-s.W, p.Clear().H-s.H) {
			return true
		}
	}
	holds := d.Thickness(true) - d.Thickness(false) // of one, or of the usual three pockets
	return has(d.Closed().W, d.Closed().H, holds, holds/3)
}

// Every length that a kind can be given is used as it is, on the ruler or off it; but
// where a size with it is put on the ruler and contents then stand out by another length,
// or another one shows round them, that is told, from what and to what, once.
func TestEveryLengthOffTheRuler(t *testing.T) {
	const in = units.Inch
	card := pocket.Content{Name: "card", Size: units.Size{W: 2 * in, H: 3 * in}, Thickness: in / 64}
	type given struct {
		kind pocket.Kind
		is   units.Length
	}
	// What a field needs beside it, and how long it is on the ruler.
	beside := map[string]given{
		"Slip.standout": {pocket.Slip{Content: card}, in}, "Slip.ease.h": {pocket.Slip{Content: card, Depth: all}, in / 4},
		"Slip.place.w":            {pocket.Slip{Place: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Slip.place.h":            {pocket.Slip{Place: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"Slip.notch.width":        {pocket.Slip{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in},
		"Slip.notch.depth":        {pocket.Slip{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in / 2},
		"Corners.leg":             {pocket.Corners{Content: card}, in},
		"Corners.turn":            {pocket.Corners{Content: card, Leg: in}, in / 8},
		"Corners.place.w":         {pocket.Corners{Place: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Corners.place.h":         {pocket.Corners{Place: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"Flap.mat.size.w":         {pocket.Flap{Mat: pocket.Mat{Size: units.Size{W: 3 * in, H: 4 * in}}}, 3 * in},
		"Flap.mat.size.h":         {pocket.Flap{Mat: pocket.Mat{Size: units.Size{W: 3 * in, H: 4 * in}}}, 4 * in},
		"Flap.mat.caliper":        {pocket.Flap{Mat: pocket.Mat{Size: units.Size{W: 3 * in, H: 4 * in}}}, in / 16},
		"Flap.margin":             {pocket.Flap{Content: card}, in / 4},
		"Flap.leaf.w":             {pocket.Flap{Leaf: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Flap.leaf.h":             {pocket.Flap{Leaf: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"Flap.spine":              {pocket.Flap{Content: card}, in / 2},
		"FoldedStrip.strip.w":     {pocket.FoldedStrip{Strip: units.Size{W: 9 * in, H: 4 * in}, Glue: in / 4}, 9 * in},
		"FoldedStrip.strip.h":     {pocket.FoldedStrip{Strip: units.Size{W: 9 * in, H: 4 * in}, Glue: in / 4}, 4 * in},
		"FoldedStrip.base":        {pocket.FoldedStrip{Content: card}, 3 * in},
		"FoldedStrip.flap":        {pocket.FoldedStrip{Content: card}, 2 * in},
		"FoldedStrip.standout":    {pocket.FoldedStrip{Content: card}, in / 2},
		"FoldedStrip.front":       {pocket.FoldedStrip{Content: card}, in},
		"FoldedStrip.notch.width": {pocket.FoldedStrip{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 4}}, in},
		"FoldedStrip.notch.depth": {pocket.FoldedStrip{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 4}}, in / 4},
		"FoldedStrip.mat.size.w":  {pocket.FoldedStrip{Content: card, Mat: pocket.Mat{Size: units.Size{W: in, H: 2 * in}}}, in},
		"FoldedStrip.mat.size.h":  {pocket.FoldedStrip{Content: card, Mat: pocket.Mat{Size: units.Size{W: in, H: 2 * in}}}, 2 * in},
		"FoldedStrip.mat.caliper": {pocket.FoldedStrip{Content: card, Mat: pocket.Mat{Size: units.Size{W: in, H: 2 * in}}}, in / 16},
		"Gusset.standout":         {pocket.Gusset{Content: card}, in}, "Gusset.ease.h": {pocket.Gusset{Content: card, Depth: all}, in / 4},
		"Gusset.place.w":              {pocket.Gusset{Place: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Gusset.place.h":              {pocket.Gusset{Place: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"Gusset.notch.width":          {pocket.Gusset{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in},
		"Gusset.notch.depth":          {pocket.Gusset{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in / 2},
		"Gusset.tab":                  {pocket.Gusset{Content: card, Half: in / 2}, in / 4},
		"GussetRun.standout":          {pocket.GussetRun{Content: card}, in},
		"GussetRun.ease.h":            {pocket.GussetRun{Content: card, Depth: all}, in / 4},
		"GussetRun.place.w":           {pocket.GussetRun{Place: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"GussetRun.place.h":           {pocket.GussetRun{Place: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"GussetRun.notch.width":       {pocket.GussetRun{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in},
		"GussetRun.notch.depth":       {pocket.GussetRun{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in / 2},
		"GussetRun.glue":              {pocket.GussetRun{Content: card, Tab: in / 4}, in / 8},
		"GussetRun.tab":               {pocket.GussetRun{Content: card, Half: in / 2}, in / 4},
		"FoldedAccordion.standout":    {pocket.FoldedAccordion{Content: card}, in},
		"FoldedAccordion.ease.h":      {pocket.FoldedAccordion{Content: card, Depth: all}, in / 4},
		"FoldedAccordion.panel.w":     {pocket.FoldedAccordion{Panel: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"FoldedAccordion.panel.h":     {pocket.FoldedAccordion{Panel: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"FoldedAccordion.strip.w":     {pocket.FoldedAccordion{Strip: units.Size{W: 12 * in, H: 5 * in}}, 12 * in},
		"FoldedAccordion.strip.h":     {pocket.FoldedAccordion{Strip: units.Size{W: 12 * in, H: 5 * in}}, 5 * in},
		"FoldedAccordion.notch.width": {pocket.FoldedAccordion{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in},
		"FoldedAccordion.notch.depth": {pocket.FoldedAccordion{Content: card, Notch: pocket.ThumbNotch{Width: in, Depth: in / 2}}, in / 2},
		"Concertina.margin":           {pocket.Concertina{Content: card}, in / 4},
		"Concertina.leaf.w":           {pocket.Concertina{Content: card, Leaf: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Concertina.leaf.h":           {pocket.Concertina{Content: card, Leaf: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
		"Pleat.fold":                  {pocket.Pleat{Content: card, Visible: in}, in / 2},
		"Pleat.place.w":               {pocket.Pleat{Place: units.Size{W: 4 * in, H: 5 * in}}, 4 * in},
		"Pleat.place.h":               {pocket.Pleat{Place: units.Size{W: 4 * in, H: 5 * in}}, 5 * in},
	}
	for i, at := range []units.Length{2 * in, 5 * in, 7 * in} {
		path := "FoldedStrip.scores[" + string(rune('0'+i)) + "]"
		beside[path] = given{pocket.FoldedStrip{Strip: units.Size{W: 8 * in, H: 4 * in}, Scores: [4]units.Length{2 * in, 5 * in, 7 * in}}, at}
	}
	beside["FoldedStrip.scores[3]"] = given{pocket.FoldedStrip{Spine: in / 2, Strip: units.Size{W: 9 * in, H: 4 * in}, Scores: [4]units.Length{2 * in, 5 * in / 2, 6 * in, 8 * in}}, 8 * in}
	// What the pocket keeps without showing it: how much room there is for it on a spine,
	// how far a flap may reach, how far a pocket must open, what it closes over; a mat's
	// least margin; the tab of a joint, where strips are joined; what is not asked for.
	bounds := []string{"Corners.ease.h", "Pleat.ease.h", "FoldedStrip.overhang", "FoldedStrip.margin", "Gusset.opening", "GussetRun.opening", "GussetRun.spine",
		"FoldedAccordion.spine", "Concertina.spine", "FoldedAccordion.jointtab", "GussetRun.jointtab", "Concertina.jointtab"}
	shows := map[string]func(pocket.Design, pocket.Content) []units.Length{
		"standout": func(d pocket.Design, c pocket.Content) []units.Length {
			for _, p := range d.Panels() {
				if p.Name() == "front" || p.Name() == "pocket front" || p.Name() == "back leaf" || p.Name() == "foot" {
					for _, place := range d.Spots() {
						if d.Kind().Name() == "folded strip" { // into which it goes sideways
							return []units.Length{c.Size.W - p.Closed().Size().W}
						}
						return []units.Length{c.Size.H - (place.Rect().Max.Y - p.Closed().Min.Y)}
					}
				}
			}
			return nil
		},
		"margin": func(d pocket.Design, c pocket.Content) []units.Length {
			for _, p := range d.Panels() {
				if p.Name() != "leaf" {
					continue
				}
				s := p.Blank().Size()
				for _, piece := range d.Pieces() {
					for _, g := range piece.Blank().Glue() { // a concertina's leaf, by which it is hinged
						s.W -= g.Area.Size().W
					}
				}
				return []units.Length{(s.W - c.Size.W) / 2, (s.H - c.Size.H) / 2}
			}
			return nil
		},
	}
	seen := 0
	for k := range pocket.Kinds() {
		kind := reflect.TypeOf(k).Name()
		lengthsIn(reflect.ValueOf(k), "", func(field string) {
			path := kind + "." + field
			g, ok := beside[path]
			if !ok {
				usual := reflect.New(reflect.TypeOf(k)).Elem()
				usual.FieldByName("Content").Set(reflect.ValueOf(card))
				g = given{usual.Interface().(pocket.Kind), in / 4}
				switch field {
				case "content.size.w":
					g.is = 2 * in
				case "content.size.h":
					g.is = 3 * in
				case "content.thickness":
					g.is = in / 64
				}
			}
			seen++
			for _, off := range []units.Length{0, in / 64, 137 * um, 1009 * um} {
				if strings.HasSuffix(field, "thickness") {
					off /= 10
				}
				length := g.is + off
				v := reflect.New(reflect.TypeOf(k)).Elem()
				v.Set(reflect.ValueOf(g.kind))
				if err := mendtest.At(v, field, func(f reflect.Value) { f.SetInt(int64(length)) }); err != nil {
					t.Fatal(path, err)
				}
				d, err := pocket.Make(v.Interface().(pocket.Kind), pocket.Paper{Caliper: in / 128}, units.Sixteenths)
				if err != nil {
					t.Errorf("%s of %v: %v", path, length, err)
					continue
				}
				var told []check.Warning
				for w := range d.Warnings() {
					if w.Code == pocket.MovedToRuler {
						told = append(told, w)
					}
				}
				if !slices.Contains(bounds, path) && !uses(d, length) {
					t.Errorf("%s of %v is nowhere", path, length)
				}
				made := []units.Length{length}
				if of := shows[field]; of != nil && !slices.Contains(bounds, path) {
					made = of(d, card)
				}
				if len(made) == 0 {
					t.Fatalf("%s: nothing to measure", path)
				}
				switch far := slices.Max(made); {
				case slices.Min(made) == length && far == length:
					if len(told) > 0 {
						t.Errorf("%s of %v is that long; told is %v", path, length, told)
					}
				case off == 0 || len(told) != 1 || told[0].Path != field || told[0].Got != length || told[0].Want != far:
					t.Errorf("%s of %v is %v; told is %v", path, length, made, told)
				default:
					n := units.InchFraction
					if text := told[0].Text; !strings.Contains(text, n.Text(length)) || !strings.Contains(text, n.Text(far)) {
						t.Errorf("%s of %v is %v: %s", path, length, made, text)
					}
				}
			}
		})
	}
	if seen < len(beside) {
		t.Errorf("%d lengths, of which %d have something beside them", seen, len(beside))
	}
}

// Where one side of a leaf is at hand, what shows round a content is told of the other one,
// which is made: 50.2 mm and twice 3.3 are 56.8, and 80.6 mm and that 87.2.
func TestMarginOfTheSideThatIsMade(t *testing.T) {
	content := sized(50200*um, 80600*um)
	for _, c := range []struct {
		leaf units.Size
		want units.Length
	}{
		{units.Size{}, 3700 * um}, // 57 and 88 mm: 0.1 and 0.4 mm more
		{units.Size{W: 90 * mm}, 3700 * um},
		{units.Size{H: 120 * mm}, 3400 * um},
		{units.Size{W: 90 * mm, H: 120 * mm}, 0}, // nothing is made
	} {
		k := pocket.Concertina{Content: content, Margin: 3300 * um, Fold: 4 * mm, Leaf: c.leaf}
		var told []units.Length
		for w := range design(t, k, pocket.Paper{}, units.WholeMillimetres).Warnings() {
			if w.Code == pocket.MovedToRuler {
				told = append(told, w.Want)
			}
		}
		if c.want == 0 && len(told) > 0 || c.want != 0 && (len(told) != 1 || told[0] != c.want) {
			t.Errorf("%v at hand: %v; want %v", c.leaf, told, c.want)
		}
	}
}
