package pocket_test

import (
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lengthsOf walks the lengths of a value, at every depth, with their paths.
func lengthsOf(v reflect.Value, path string, yield func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			name := strings.ToLower(v.Type().Field(i).Name)
			if path != "" {
				name = path + "." + name
			}
			lengthsOf(v.Field(i), name, yield)
		}
	case reflect.Array:
		for i := range v.Len() {
			lengthsOf(v.Index(i), check.Index(path, i), yield)
		}
	case reflect.Int64:
		if v.Type() == reflect.TypeFor[units.Length]() {
			yield(path, v)
		}
	}
}

// No length of any kind or paper may be negative or beyond 10 m, and each is named where
// it is, and once; nor may a choice be none of those that there are. What would follow from
// it is not told.
func TestNoFieldIsOutOfBounds(t *testing.T) {
	lengths, choices := 0, 0
	for k := range pocket.Kinds() {
		v := reflect.New(reflect.TypeOf(k)).Elem()
		v.Set(reflect.ValueOf(pocket.Holding(k, func(c *pocket.Content) { *c = pocket.IDCard() })))
		var paper pocket.Paper
		refused := func(path string, what any, codes ...check.Code) {
			bad := violations(t, v.Interface().(pocket.Kind), paper, units.WholeMillimetres)
			if !slices.ContainsFunc(codes, func(c check.Code) bool { _, ok := bad.Find(path, c); return ok }) {
				t.Errorf("%s: %v in %s gives %v", k.Name(), what, path, bad)
			}
			told := 0
			for v := range bad.All() {
				if v.Path == path {
					told++
				}
				if beside := v.Code == check.NotPositive && v.Got == "0 mm"; v.Path != path && !beside { // the other sides are not there
					t.Errorf("%s: of %v in %s it is told too: %v", k.Name(), what, path, v)
				}
			}
			if told != 1 {
				t.Errorf("%s: of %v in %s it is told %d times: %v", k.Name(), what, path, told, bad)
			}
		}
		one := func(path string, f reflect.Value) {
			if strings.HasPrefix(path, "scores") || strings.HasPrefix(path, "mat.size") { // with the other sides there
				return
			}
			was := f.Int()
			defer f.SetInt(was)
			for _, l := range []units.Length{-3 * mm, -nm} {
				lengths++
				f.SetInt(int64(l))
				refused(path, l, check.Negative, check.NotPositive)
			}
			f.SetInt(int64(units.Longest + nm))
			refused(path, units.Longest+nm, check.OutOfRange)
		}
		lengthsOf(v, "", one)
		lengthsOf(reflect.ValueOf(&paper).Elem(), "paper", one)
		for _, of := range []struct {
			fields reflect.Value
			under  string
		}{{v, ""}, {reflect.ValueOf(&paper).Elem(), "paper."}} {
			for i := range of.fields.NumField() {
				if f := of.fields.Field(i); f.Kind() == reflect.Uint8 {
					choices++
					was := f.Uint()
					f.SetUint(200)
					refused(of.under+strings.ToLower(of.fields.Type().Field(i).Name), 200, check.Unknown)
					f.SetUint(was)
				}
			}
		}
	}
	if lengths < 120 || choices < 3+2*9 {
		t.Errorf("only %d lengths and %d choices tried", lengths, choices)
	}
}

// The names of usual contents say their sizes: cards lie, all else stands.
func TestUsualContentsAreAsTheyAreCalled(t *testing.T) {
	sized := 0
	for u := range pocket.UsualContents() {
		_, text, ok := strings.Cut(u.Content.Name, " ")
		for ok && (text[0] < '0' || text[0] > '9') {
			_, text, ok = strings.Cut(text, " ")
		}
		size, err := units.ParseSize(text)
		if !ok || err != nil || u.Content.Name == "photo 10 x 15 cm" {
			continue
		}
		sized++
		if strings.HasPrefix(u.Content.Name, "note card") {
			size = units.Size{W: max(size.W, size.H), H: min(size.W, size.H)}
		}
		if u.Content.Size != size {
			t.Errorf("%s is %v", u.Content.Name, u.Content.Size)
		}
		// Resin-coated paper is about 0.26 mm thick (common practice, no
		// published source).
		if strings.HasPrefix(u.Content.Name, "photo") && u.Content.Thickness != 260*units.Micrometre {
			t.Errorf("%s is %v thick", u.Content.Name, u.Content.Thickness)
		}
	}
	if sized < 14 {
		t.Errorf("only %d of them say their size", sized)
	}
	for n, want := range map[units.Notation][2]string{
		units.MetricDecimal: {"photo 10 x 15 cm", "photo 4 x 6 in"}, units.InchFraction: {"photo 4 x 6 in", "photo 10 x 15 cm"}, units.InchDecimal: {"photo 8 x 10 in", "photo 203 x 254 mm"},
	} {
		var names []string
		for c := range pocket.Prints(n) {
			names = append(names, c.Name)
		}
		if !slices.Contains(names, want[0]) || slices.Contains(names, want[1]) || slices.ContainsFunc(names, func(s string) bool { return !strings.HasPrefix(s, "photo") }) {
			t.Errorf("notation %d: prints %v", n, names)
		}
	}
}

// A gusset's fold stands in by the nearest whole nanometre, up or down as asked:
// in whole numbers, with 4 s² = 4 w² − h².
func TestStandInIsTheRoundedRoot(t *testing.T) {
	for w := units.Length(1); w <= 40; w++ {
		for h := units.Length(0); h <= 2*w; h++ {
			goal := 4*w*w - h*h // 4 s²
			floor := units.Length(new(big.Int).Sqrt(big.NewInt(int64(goal / 4))).Int64())
			for floor > 0 && 4*floor*floor > goal {
				floor--
			}
			up, near := floor, floor
			if 4*floor*floor < goal {
				up++
			}
			if (2*floor+1)*(2*floor+1) <= goal {
				near++
			}
			for d, want := range map[units.Direction]units.Length{units.Down: floor, units.Up: up, units.Nearest: near} {
				if got, ok := pocket.StandIn(w, h, d); got != want || !ok {
					t.Errorf("w %d, h %d, %v: %d, %t; want %d", w, h, d, got, ok, want)
				}
			}
		}
	}
	if _, ok := pocket.StandIn(5, 11, units.Down); ok {
		t.Error("a gusset opens beyond twice its half panel")
	}
}

// Rooms are what they are called: a corner's place, less ease on both sides, a
// slip without ease.
func TestClearRooms(t *testing.T) {
	d := design(t, pocket.Corners{Place: units.MustParseSize("100 x 150 mm"), Ease: pocket.Ease{W: 4 * mm}}, pocket.Paper{}, units.WholeMillimetres)
	for _, p := range d.Spots() {
		if p.Capacity().Size != units.MustParseSize("96 x 146 mm") {
			t.Errorf("corners round 100 x 150 mm with 4 mm of ease take %v", p.Capacity().Size)
		}
	}
	bad := violations(t, pocket.Corners{Place: units.MustParseSize("100 x 2 mm"), Ease: pocket.Ease{W: 4 * mm}}, pocket.Paper{}, units.WholeMillimetres)
	if v, ok := bad.Find("place.h", check.TooSmall); !ok || v.Got != "2 mm" || v.Limit != 5*mm {
		t.Errorf("%v", bad)
	}
	if _, ok := bad.Find("place.w", ""); ok {
		t.Errorf("the width is enough: %v", bad)
	}
	bad = violations(t, pocket.Corners{Place: units.MustParseSize("2 x 100 mm"), Ease: pocket.Ease{W: 4 * mm}}, pocket.Paper{}, units.WholeMillimetres)
	if v, ok := bad.Find("place.w", check.TooSmall); !ok || v.Got != "2 mm" || v.Limit != 5*mm {
		t.Errorf("%v", bad)
	}
	// A pocket gusset that takes all of its content, in a place too low.
	bad = violations(t, pocket.Gusset{Place: units.MustParseSize("100 x 3 mm"), Depth: pocket.Share{Part: 1, Of: 1}}, pocket.Paper{}, units.WholeMillimetres)
	if v, ok := bad.Find("place.h", check.TooSmall); !ok || v.Got != "3 mm" || bad.Len() != 1 {
		t.Errorf("%v", bad)
	}
	note := pocket.Content{Size: units.MustParseSize("70 x 90 mm")}
	d = design(t, pocket.Slip{Content: note, Ease: pocket.Ease{W: units.None, H: units.None}}, pocket.Paper{}, 0)
	for _, p := range d.Spots() {
		if p.Clear().W != 70*mm || p.Capacity().Size != note.Size {
			t.Errorf("without ease: clear %v, takes %v", p.Clear(), p.Capacity().Size)
		}
	}
	for _, c := range []pocket.Content{{}, {Size: units.Size{W: 50 * mm, H: -mm}}, {Size: units.Size{W: -mm, H: 50 * mm}}} {
		if err := d.Accepts(c); err == nil {
			t.Errorf("a content of %v is accepted", c.Size)
		}
	}
}

// What cannot be worked out without it is asked for: a panel or a leaf of which
// one side is known.
func TestOneSideIsNotEnough(t *testing.T) {
	for _, side := range []units.Size{{W: 96 * mm}, {H: 96 * mm}} {
		if _, ok := violations(t, pocket.FoldedAccordion{Panel: side}, pocket.Paper{}, 0).Find("content", check.Missing); !ok {
			t.Errorf("an accordion with a panel of %v asks for nothing", side)
		}
		path := map[bool]string{true: "strip.w", false: "strip.h"}[side.W == 0]
		if _, ok := violations(t, pocket.FoldedStrip{Strip: side}, pocket.Paper{}, 0).Find(path, check.NotPositive); !ok {
			t.Errorf("a strip of %v asks for nothing", side)
		}
		if _, ok := violations(t, pocket.Concertina{Leaf: side}, pocket.Paper{}, 0).Find("leaf", check.Missing); !ok {
			t.Errorf("a guard with a leaf of %v asks for nothing", side)
		}
	}
}

// A panel that ends a strip is glued at one end, one that is a strip by itself at
// both.
func TestAccordionPanelsByTheSheet(t *testing.T) {
	for sheet, want := range map[string]units.Length{
		"40 x 40 in": 4*in + in/8 + in/4, "12 x 12 in": 4*in + in/8 + in/4, "6 x 12 in": 4*in + in/8 + in/2,
	} {
		k := pocket.FoldedAccordion{Content: pocket.Content{Size: units.MustParseSize("4 x 6 in")}, Panels: 6}
		d := design(t, k, pocket.Paper{Sheet: units.MustParseSize(sheet)}, units.Sixteenths)
		if p, _ := d.Panel("panel"); p.Size().W != want {
			t.Errorf("from sheets of %s the panels are %v wide; want %v", sheet, p.Size().W, want)
		}
	}
	// A panel too narrow and a sheet too small are said at once.
	bad := violations(t, pocket.FoldedAccordion{Content: pocket.IDCard(), Panel: units.MustParseSize("50 x 60 mm"), Panels: 4}, pocket.Paper{Sheet: units.MustParseSize("40 x 200 mm")}, units.WholeMillimetres)
	for _, path := range []string{"panel.w", "paper.sheet.w"} {
		if _, ok := bad.Find(path, ""); !ok {
			t.Errorf("%v; want %s too", bad, path)
		}
	}
	// On whole millimetres, standing out by what lies between two of them.
	k := pocket.FoldedAccordion{Strip: units.MustParseSize("400 x 5 mm"), StandOut: 10300 * units.Micrometre, Panels: 3}
	v, ok := violations(t, k, pocket.Paper{}, units.WholeMillimetres).Find("strip.h", check.TooSmall)
	if !ok {
		t.Fatal("a foot of nothing")
	}
	k.Strip.H = v.Limit
	if _, err := k.Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
		t.Errorf("with %v: %v", v.Limit, err)
	}
}

// The least spine or place that an error asks for does, also where what is needed
// lies just above a graduation, and a graduation less does not.
func TestLeastThatDoes(t *testing.T) {
	r := units.WholeMillimetres
	for n := 1; n <= 40; n++ {
		k := pocket.Concertina{Content: pocket.IDCard(), Leaves: n, OnSpine: true, Spine: units.Shortest}
		v, ok := violations(t, k, pocket.Paper{}, r).Find("spine", check.TooSmall)
		if !ok {
			t.Fatalf("%d leaves stand on a hundredth of a millimetre", n)
		}
		k.Spine = v.Limit
		if _, err := k.Design(pocket.Paper{}, r); err != nil {
			t.Errorf("%d leaves on %v: %v", n, v.Limit, err)
		}
		if k.Spine -= mm; k.Spine > 0 {
			if _, err := k.Design(pocket.Paper{}, r); err == nil {
				t.Errorf("%d leaves stand on %v too", n, k.Spine)
			}
		}
	}
	for n := 1; n <= 6; n++ {
		for fold := units.Length(0); fold <= 40*mm; fold += 2*mm + 1 {
			content := pocket.Content{Size: units.MustParseSize("60 x 83.3 mm")}
			k := pocket.Pleat{Content: content, Pleats: n, Fold: fold, Place: units.MustParseSize("100 x 1 mm")}
			v, ok := violations(t, k, pocket.Paper{}, r).Find("place.h", check.TooSmall)
			if !ok {
				t.Fatalf("%d pleats, folds of %v: fit into 1 mm", n, fold)
			}
			k.Place.H = v.Limit
			if _, err := k.Design(pocket.Paper{}, r); err != nil {
				t.Errorf("%d pleats, folds of %v, in %v: %v", n, fold, v.Limit, err)
			}
			k.Place.H -= mm
			if _, err := k.Design(pocket.Paper{}, r); err == nil {
				t.Errorf("%d pleats, folds of %v, fit into %v too", n, fold, k.Place.H)
			}
			k.Place.H = mm
			v, _ = violations(t, k, pocket.Paper{}, 0).Find("place.h", check.TooSmall)
			k.Place.H = v.Limit
			if _, err := k.Design(pocket.Paper{}, 0); err != nil {
				t.Errorf("%d pleats, folds of %v, in %v on no ruler: %v", n, fold, v.Limit, err)
			}
		}
	}
}

// A score that breaks a rule of a folded strip can be anywhere from the first to
// the last place that an error names, and nowhere else.
func TestScoreThatDoes(t *testing.T) {
	for r, step := range map[units.Ruler]units.Length{units.WholeMillimetres: mm, 0: 1} {
		scoreThatDoes(t, r, step)
	}
}

func scoreThatDoes(t *testing.T, r units.Ruler, step units.Length) {
	t.Helper()
	tried := 0
	for _, at := range [][4]units.Length{
		{40 * mm, 110 * mm, 130 * mm, 180 * mm},                  // the hem too wide: 50 mm in a front of 20
		{30 * mm, 80 * mm, 150 * mm, 180 * mm},                   // the front wider than the base
		{70500 * units.Micrometre, 130 * mm, 160 * mm, 180 * mm}, // the flap wider than the base
		{60 * mm, 120 * mm, 150 * mm, 180*mm + 1},                // the hem a nanometre wider than the front
		{40300 * units.Micrometre, 110700 * units.Micrometre, 130100 * units.Micrometre, 180 * mm},
		{30 * mm, 80 * mm, 150*mm + 1, 180 * mm},
	} {
		k := pocket.FoldedStrip{Strip: units.Size{W: at[3], H: 90 * mm}, Scores: [4]units.Length{at[0], at[1], at[2]}}
		bad := violations(t, k, pocket.Paper{}, r)
		for v := range bad.All() {
			low, high, ok := placesOf(v.Want)
			if v.Code != pocket.DoesNotFold || !ok {
				continue
			}
			var i int
			for j := range at[:3] {
				if v.Path == check.Index("scores", j) {
					i = j
				}
			}
			for x, want := range map[units.Length]bool{low: true, high: true, low - step: false, high + step: false} {
				k := k
				if k.Scores[i] = x; i > 0 && x <= k.Scores[i-1] || i < 2 && x >= k.Scores[i+1] {
					continue
				}
				if _, err := k.Design(pocket.Paper{}, r); (err == nil) != want {
					t.Errorf("%v: with %v: %v", v, x, err)
				}
			}
			tried++
		}
	}
	if tried < 4 {
		t.Errorf("only %d scores could be moved", tried)
	}
}

// placesOf reads "a score from 12 mm to 30 mm; …".
func placesOf(want string) (low, high units.Length, ok bool) {
	want, ok = strings.CutPrefix(want, "a score from ")
	want, _, _ = strings.Cut(want, ";")
	a, b, both := strings.Cut(want, " to ")
	low, err := units.Parse(a)
	high, err2 := units.Parse(b)
	return low, high, ok && both && err == nil && err2 == nil
}

// One score at the foot takes two calipers, more takes a foot of its own that
// opens as far.
func TestFootFromTwoCalipersOn(t *testing.T) {
	for opening, scores := range map[units.Length]int{2 * mm: 1, 2*mm + 1: 3, 2500 * units.Micrometre: 3, 3 * mm: 3} {
		d := design(t, pocket.Gusset{Place: units.MustParseSize("100 x 100 mm"), Opening: opening}, pocket.Paper{Caliper: mm}, units.WholeMillimetres)
		n := 0
		for range piece(t, d, "back and front").Blank().Lines() {
			n++
		}
		if n != scores {
			t.Errorf("open to %v with card of 1 mm: %d scores at the foot; want %d", opening, n, scores)
		}
	}
}

// What is too long for any plan is said once; bounds in inches lie within those
// in millimetres.
func TestBeyondPlans(t *testing.T) {
	bad := violations(t, pocket.Flap{Leaf: units.MustParseSize("100 x 9995 mm")}, pocket.Paper{}, units.WholeMillimetres)
	if v, ok := bad.Find("", pocket.TooLong); !ok || !strings.Contains(v.Got, "10005 mm") || !strings.Contains(v.Want, "10000 mm") {
		t.Errorf("%v", bad)
	}
	v, ok := violations(t, pocket.Slip{Content: pocket.IDCard(), Glue: 1}, pocket.Paper{}, units.Sixteenths).Find("glue", check.OutOfRange)
	text, from := strings.CutPrefix(v.Want, "0 or a length from ")
	low, high, both := strings.Cut(text, " to ")
	if !ok || !from || !both || units.MustParse(low) < units.Shortest || units.MustParse(high) > units.Longest {
		t.Errorf("%+v", v)
	}
	// One violation names the sheet that takes every piece that is too large, and
	// what the sheet has takes already.
	v, ok = violations(t, pocket.Slip{Content: pocket.Content{Size: units.MustParseSize("300 x 50 mm")}}, pocket.Paper{Sheet: units.MustParseSize("200 x 250 mm")}, units.WholeMillimetres).Find("paper.sheet", "")
	if need, err := units.ParseSize(strings.TrimPrefix(strings.SplitN(v.Want, " for ", 2)[0], "a sheet of at least ")); !ok || err != nil || need != (units.Size{W: 200 * mm, H: 315 * mm}) && need != (units.Size{W: 315 * mm, H: 200 * mm}) {
		t.Errorf("%+v", v)
	}
}

// A piece that a sheet does not take needs one that takes what the sheet takes as
// well: 212 x 220 mm and all of 200 x 250.
func TestSheetThatDoes(t *testing.T) {
	k := pocket.Slip{Place: units.MustParseSize("212 x 320 mm"), Depth: pocket.Share{Part: 2, Of: 3}}
	v, ok := violations(t, k, pocket.Paper{Sheet: units.MustParseSize("250 x 200 mm")}, units.WholeMillimetres).Find("paper.sheet", "")
	size, err := units.ParseSize(strings.TrimPrefix(strings.SplitN(v.Want, " for ", 2)[0], "a sheet of at least "))
	if !ok || err != nil || size.W+size.H != 212*mm+250*mm {
		t.Errorf("%+v", v)
	}
	k.Place = units.MustParseSize("100 x 100 mm")
	if _, err := k.Design(pocket.Paper{Sheet: size}, units.WholeMillimetres); err != nil {
		t.Error(err)
	}
}

// Of all pieces that a sheet does not take one violation tells: by their names, with a sheet
// that takes each of them, and what the sheet takes that there is.
func TestSheetForAllPieces(t *testing.T) {
	tried, several := 0, 0
	for _, k := range workbench() {
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		sheet := units.Size{W: 20 * mm, H: 35 * mm}
		need, names := sheet, ""
		for _, p := range d.Pieces() {
			size := p.Blank().Size()
			if p.StockKind() == pocket.MatStock || size.FitsTurned(sheet) {
				continue
			}
			need = need.Max(units.Size{W: min(size.W, size.H), H: max(size.W, size.H)})
			if names != "" {
				names += " and the "
				several++
			}
			names += p.Name()
		}
		switch k.(type) {
		case pocket.GussetRun, pocket.FoldedAccordion, pocket.Concertina: // which may be joined
			continue
		}
		tried++
		want := "a sheet of at least " + units.MetricDecimal.BoundSize(need, units.Up) + " for the " + names
		if v, ok := violations(t, k, pocket.Paper{Sheet: sheet}, units.WholeMillimetres).Find("paper.sheet", check.TooSmall); !ok || v.Want != want {
			t.Errorf("%s: %v; want %s", k.Name(), v, want)
		}
	}
	if tried < 20 || several < 2 {
		t.Errorf("%d kinds tried, %d with several pieces", tried, several)
	}
}

// Defaults lie on the ruler, the nearest graduation to what is usual, and what
// must not be too wide goes down.
func TestDefaultsOnCoarseRulers(t *testing.T) {
	four, err := units.NewRuler(4*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for r, want := range map[units.Ruler]units.Length{four: 8 * mm, units.WholeMillimetres: 6 * mm} { // halves go up
		d := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, r)
		for _, g := range piece(t, d, "pocket front").Blank().Glue() {
			if got := min(g.Area.Size().W, g.Area.Size().H); got != want {
				t.Errorf("on %v glued edges of %v; want %v", r, got, want)
			}
		}
	}
	// The flap of a strip ends at least 3 mm before its base, wherever that ends.
	for off := units.Length(0); off < mm; off += 90001 {
		d := design(t, pocket.FoldedStrip{Content: pocket.IDCard(), Base: 92*mm + off}, pocket.Paper{}, units.WholeMillimetres)
		flap, _ := d.Panel("flap")
		if w := flap.Size().W; w > 92*mm+off-3*mm || w <= 92*mm+off-4*mm {
			t.Errorf("a base of %v has a flap of %v", 92*mm+off, w)
		}
	}
	// A third of a content's side is a corner's leg, no more.
	for side := 60 * mm; side < 63*mm; side += 170003 {
		k := pocket.Corners{Content: pocket.Content{Size: units.Size{W: side, H: 2 * side}}, Ease: pocket.Ease{W: units.None}}
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		leg, _ := d.Panel("corner")
		if w := leg.Size().W; 3*w > side+mm || 3*(w+mm) <= side || w%mm != 0 {
			t.Errorf("a content %v wide has legs of %v", side, w)
		}
	}
}

// A bound in words is never beyond the bound: in inches, which have no exact text
// for it, it is written a little within.
func TestBoundsInWords(t *testing.T) {
	for w := 100 * mm; w < 140*mm; w += 1370003 {
		k := pocket.FoldedStrip{Strip: units.Size{W: w, H: 90 * mm}, Scores: [4]units.Length{20 * mm, 0, 150 * mm}}
		n := 0
		for v := range violations(t, k, pocket.Paper{}, units.Sixteenths).All() {
			if text, ok := strings.CutPrefix(v.Want, "a place above 0 and below "); ok {
				if n++; units.MustParse(text) > w || units.MustParse(text) < w-units.Thou {
					t.Errorf("a strip %v long: %v", w, v)
				}
			}
		}
		if n != 2 {
			t.Errorf("%d scores are named", n)
		}
	}
	d := design(t, pocket.Gusset{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	for opening := d.Opening() + 1; opening < d.Opening()+4*mm; opening += 330001 {
		_, err := d.StandIn(opening)
		if err == nil {
			t.Fatalf("opens to %v", opening)
		}
		_, text, ok := strings.Cut(err.Error(), "half panels of ")
		text, _, _ = strings.Cut(text, " would do")
		if half := units.MustParse(text); !ok || 2*half < opening || 2*(half-mm) >= opening || half%mm != 0 {
			t.Errorf("to open to %v: %v", opening, err)
		}
	}
}

// What lies in the middle of something of which half is no whole nanometre lies
// the half of one nearer to the left and the head, and nothing stands out.
func TestMiddles(t *testing.T) {
	leaf := units.Size{W: 90*mm + 1, H: 120*mm + 1}
	d := design(t, pocket.Flap{Leaf: leaf, Content: pocket.Content{Size: units.MustParseSize("60 x 80 mm")}, Mat: pocket.Mat{Size: units.MustParseSize("70 x 90 mm")}}, pocket.Paper{}, 0)
	on, err := d.Carry(units.MustParseSize("70 x 90 mm"))
	for _, r := range []units.Rect{on, placeOf(d)} {
		if want := (units.Point{X: 10 * mm, Y: 15 * mm}); err != nil || r.Min != want || !r.In(units.RectAt(units.Point{}, leaf)) {
			t.Errorf("%v, %v; want it at %v", r, err, want)
		}
	}
	slip := design(t, pocket.Slip{Place: units.Size{W: 101*mm + 1, H: 60 * mm}, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 5 * mm}}, pocket.Paper{}, 0)
	for _, n := range piece(t, slip, "pocket front").Blank().Notches() {
		if n.Middle != 50500*units.Micrometre {
			t.Errorf("the notch's middle lies at %v of %v", n.Middle, 101*mm+1)
		}
	}
}

func placeOf(d pocket.Design) units.Rect {
	for _, p := range d.Spots() {
		return p.Rect()
	}
	return units.Rect{}
}

// Half of a mouth or of a depth is no more than half, a pocket for all of its
// content covers it, and a leg has room beside another one.
func TestHalves(t *testing.T) {
	for off := units.Length(1); off < 2*mm; off += 130003 {
		for _, r := range []units.Ruler{0, units.WholeMillimetres} {
			place := units.Size{W: 33*mm + off, H: 20*mm + off}
			d := design(t, pocket.Slip{Place: place}, pocket.Paper{}, r)
			b := piece(t, d, "pocket front").Blank()
			mouth, deep := b.Size().W-12*mm, b.Size().H-6*mm
			n := 0
			for _, cut := range b.Notches() {
				if n++; 2*cut.Width > mouth || 2*cut.Depth > deep || r == 0 && (mouth-2*cut.Width > 1 && cut.Width < 20*mm) {
					t.Errorf("on %v a mouth of %v and %v deep has a notch %v by %v", r, mouth, deep, cut.Width, cut.Depth)
				}
			}
			if n != 1 {
				t.Errorf("on %v, %v: %d notches", r, place, n)
			}
			// With much ease half of the mouth is more than the content that must not drop out.
			eased := pocket.Content{Size: units.Size{W: 20*mm + off, H: 30 * mm}}
			d = design(t, pocket.Slip{Content: eased, Ease: pocket.Ease{W: 24 * mm}}, pocket.Paper{}, r)
			for _, cut := range piece(t, d, "pocket front").Blank().Notches() {
				if least := 2*eased.Size.W/3 - max(r.Step(), 3); 3*cut.Width > 2*eased.Size.W || cut.Width < least {
					t.Errorf("on %v a notch %v wide over a content of %v", r, cut.Width, eased.Size)
				}
			}
			tall := 50*mm + off
			d = design(t, pocket.Slip{Content: pocket.Content{Size: units.Size{W: 40 * mm, H: tall}}, Depth: pocket.Share{Part: 1, Of: 1}}, pocket.Paper{}, r)
			if deep := piece(t, d, "pocket front").Blank().Size().H - 6*mm; deep < tall+6*mm || deep > tall+6*mm+max(r.Step()-1, 0) {
				t.Errorf("on %v a content %v high goes %v deep", r, tall, deep)
			}
		}
		for corners, most := range map[int]units.Length{2: 60*mm + off, 4: 50*mm + off} {
			k := pocket.Corners{Place: units.Size{W: 60*mm + off, H: 50*mm + off}, Corners: corners, Leg: 100 * mm}
			v, ok := violations(t, k, pocket.Paper{}, 0).Find("leg", "")
			if !ok || 2*v.Limit > most || 2*v.Limit < most-1 {
				t.Errorf("%d corners of %v: %+v", corners, k.Place, v)
			}
		}
		// Strips that are divided, with a hem of their own, add up to no more than
		// there is.
		strip := units.Size{W: 150*mm + off, H: 90 * mm}
		for _, r := range []units.Ruler{0, units.WholeMillimetres, units.Sixteenths} {
			if _, err := (pocket.FoldedStrip{Strip: strip, Hem: 20 * mm}).Design(pocket.Paper{}, r); err != nil {
				t.Errorf("%v on %v: %v", strip, r, err)
			}
		}
	}
}

// What is asked for in words is enough: written in inches it is rounded up.
func TestWordsAreEnough(t *testing.T) {
	for off := units.Length(0); off < 2*mm; off += 170003 {
		need := 312*mm + off
		v, ok := violations(t, pocket.Slip{Place: units.Size{W: need, H: 60 * mm}}, pocket.Paper{Sheet: units.MustParseSize("8 x 10 in")}, units.Sixteenths).Find("paper.sheet", "")
		size, err := units.ParseSize(strings.TrimPrefix(strings.SplitN(v.Want, " for ", 2)[0], "a sheet of at least "))
		if !ok || err != nil || max(size.W, size.H) < need || max(size.W, size.H) > need+units.Thou {
			t.Errorf("for %v: %+v", need, v)
		}
		d := design(t, pocket.Flap{Leaf: units.MustParseSize("100 x 100 mm"), Over: 3*mm + off, Spine: mm}, pocket.Paper{}, units.WholeMillimetres)
		found := false
		for w := range d.Warnings() {
			if w.Code == pocket.NeedsTwoScores {
				found = true
				if w.Want < 3*mm+off || w.Want >= 4*mm+off {
					t.Errorf("over %v: %v", 3*mm+off, w)
				}
			}
		}
		if !found {
			t.Errorf("a spine of 1 mm over %v is not warned of", 3*mm+off)
		}
		wide := pocket.Content{Size: units.Size{W: 60*mm + off, H: 50 * mm}}
		k := pocket.FoldedStrip{Content: wide, Strip: units.MustParseSize("150 x 90 mm"), Scores: [4]units.Length{50 * mm, 100 * mm, 130 * mm}}
		for v := range violations(t, k, pocket.Paper{}, units.WholeMillimetres).All() {
			text, ok := strings.CutPrefix(v.Want, "a base of at least ")
			text, _, _ = strings.Cut(text, " for ")
			if base, err := units.Parse(text); !ok || err != nil || base < wide.Size.W+6*mm || base >= wide.Size.W+6*mm+mm {
				t.Errorf("for %v: %v", wide.Size.W, v)
			}
		}
		b := pocket.FoldedStrip{Content: wide, Base: 70*mm + off, Strip: units.Size{W: 10 * mm}}
		long, ok := violations(t, b, pocket.Paper{}, units.WholeMillimetres).Find("strip.w", "")
		if b.Strip.W = long.Limit; ok {
			_, err = b.Design(pocket.Paper{}, units.WholeMillimetres)
		}
		if !ok || err != nil {
			t.Errorf("%v: %+v", err, long)
		}
		g := design(t, pocket.Gusset{Place: units.Size{W: 100*mm + off, H: 60 * mm}}, pocket.Paper{}, 0)
		if at := placeOf(g); at.Min.X > g.Closed().W-at.Max.X {
			t.Errorf("in %v the place lies at %v", g.Closed(), at)
		}
	}
}

func second(_ pocket.Design, err error) error { return err }

// The strip that an error asks for does, whatever share of it is the foot or the
// front, and of an accordion's nothing less on the ruler does.
func TestStripThatDoes(t *testing.T) {
	for of := 2; of <= 9; of++ {
		for part := 1; part <= of; part++ {
			for _, r := range []units.Ruler{0, units.WholeMillimetres, units.Sixteenths} {
				for _, k := range []pocket.Kind{
					pocket.FoldedAccordion{Strip: units.Size{W: 400 * mm, H: units.Shortest}, Depth: pocket.Share{Part: part, Of: of}, Panels: 3},
					pocket.FoldedStrip{Strip: units.Size{W: units.Shortest, H: 90 * mm}, Depth: pocket.Share{Part: part, Of: of}},
				} {
					path, set := "strip.h", func(l units.Length) pocket.Kind { k := k.(pocket.FoldedAccordion); k.Strip.H = l; return k }
					if s, ok := k.(pocket.FoldedStrip); ok {
						path, set = "strip.w", func(l units.Length) pocket.Kind { s.Strip.W = l; return s }
					}
					v, ok := violations(t, k, pocket.Paper{}, r).Find(path, check.TooSmall)
					if !ok {
						t.Fatalf("%s: a strip of nothing", k.Name())
					}
					list, _ := second(set(v.Limit).Design(pocket.Paper{}, r)).(*check.Error)
					if list != nil {
						if again, ok := list.Find(path, check.TooSmall); ok {
							t.Errorf("%s, %d/%d on %v: with %v: %v", k.Name(), part, of, r, v.Limit, again)
						}
					}
					if path == "strip.w" { // its hem goes by the length, in steps
						continue
					}
					if _, ok := violations(t, set(v.Limit-r.Step()), pocket.Paper{}, r).Find(path, check.TooSmall); !ok {
						t.Errorf("%s, %d/%d on %v: %v would do too", k.Name(), part, of, r, v.Limit-r.Step())
					}
				}
			}
		}
	}
}

// Strips that are longer than their sheets are joined by hand, tab by tab, and the
// pocket is filled all the same.
func TestJoinedByHand(t *testing.T) {
	for _, c := range []struct {
		kind  pocket.Kind
		sheet string
	}{
		{pocket.Concertina{Content: pocket.IDCard(), Leaves: 12}, "100 x 60 mm"}, {pocket.Concertina{Content: pocket.IDCard(), Leaves: 9, Land: 2 * mm}, "100 x 70 mm"},
		{pocket.GussetRun{Content: pocket.IDCard(), Pockets: 12}, "110 x 95 mm"}, {pocket.GussetRun{Content: pocket.IDCard(), Pockets: 11, OpenFoot: true}, "110 x 60 mm"},
		{pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 5}, "220 x 120 mm"}, {pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 4}, "120 x 120 mm"},
	} {
		d := design(t, c.kind, pocket.Paper{Sheet: units.MustParseSize(c.sheet)}, units.WholeMillimetres)
		n := 0
		for range d.Splices() {
			n++
		}
		if n == 0 {
			t.Errorf("%s from sheets of %s is in one piece", c.kind.Name(), c.sheet)
		}
		if err := makertest.Follow(jobOf(d)); err != nil {
			t.Errorf("%s from sheets of %s: %v", c.kind.Name(), c.sheet, err)
		}
	}
}

// What a thin gusset, a low strip, a base of little and too much of everything
// come to.
func TestLittleAndMuch(t *testing.T) {
	thin := design(t, pocket.Gusset{Place: units.MustParseSize("100 x 100 mm"), Opening: 400 * units.Micrometre}, pocket.Paper{}, units.WholeMillimetres)
	if got := thin.Opening(); got != 400*units.Micrometre {
		t.Errorf("a gusset that is to open to 0.4 mm opens to %v", got)
	}
	if _, ok := violations(t, pocket.FoldedStrip{Strip: units.MustParseSize("180 x 5 mm")}, pocket.Paper{}, units.WholeMillimetres).Find("strip.h", check.TooSmall); !ok {
		t.Error("a strip 5 mm high has room for glue and contents")
	}
	// 1/4 in of ease and something to hold is more than 1/4 in.
	little := pocket.FoldedStrip{Strip: units.MustParseSize("18 x 90 mm"), Scores: [4]units.Length{5 * mm, 10 * mm, 14 * mm}}
	if v, ok := violations(t, little, pocket.Paper{}, units.Sixteenths).Find("scores", check.TooSmall); !ok || !strings.HasPrefix(v.Want, "a base of at least 5/16 in ") {
		t.Errorf("%+v", v)
	}
	if v, ok := violations(t, pocket.Concertina{Leaf: units.MustParseSize("9995 x 100 mm")}, pocket.Paper{}, units.WholeMillimetres).Find("", pocket.TooLong); !ok || !strings.HasSuffix(v.Got, " when closed") {
		t.Errorf("%+v", v)
	}
	many := pocket.Pleat{Content: pocket.IDCard(), Pleats: 500, Visible: 20 * mm}
	v, ok := violations(t, many, pocket.Paper{}, units.WholeMillimetres).Find("pleats", check.OutOfRange)
	if n, _, _ := strings.Cut(strings.TrimPrefix(v.Want, "at most "), ","); !ok || n != "166" { // of 60 mm each
		t.Errorf("%+v", v)
	}
	many.Pleats = 166
	if _, err := many.Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
		t.Error(err)
	}
	// Of pleats of which one is too long no fewer do, but shallower ones do.
	for path, k := range map[string]pocket.Pleat{"visible": {Content: pocket.IDCard(), Visible: 4 * units.Metre}, "fold": {Content: pocket.IDCard(), Visible: 4 * units.Metre, Fold: 3001 * mm}} {
		k.Pleats = 1
		if list := violations(t, k, pocket.Paper{}, units.WholeMillimetres); k.Fold == 0 && list.Len() != 1 {
			t.Error(list)
		} else if v, ok := list.Find(path, check.OutOfRange); !ok || v.Want != "less, so that pleats take up no more than 10 m of it" {
			t.Error(list)
		}
		if k.Fold = min(k.Fold, 3*units.Metre); k.Fold == 0 {
			k.Visible = 3 * units.Metre
		}
		if _, err := k.Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
			t.Error(err)
		}
	}
	for w := range design(t, pocket.FoldedStrip{Content: pocket.IDCard()}, pocket.Paper{Caliper: mm / 5}, units.WholeMillimetres).Warnings() {
		if w.Code == pocket.WrongSideShows && !strings.HasPrefix(w.Text, "only one side of the paper is good, and cut with the right side up it shows its wrong side at: ") {
			t.Errorf("%q", w.Text)
		}
	}
}
