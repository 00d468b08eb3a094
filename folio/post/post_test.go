package post_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

// judge asks a service about a sound item.
func judge(t *testing.T, s post.Service, item post.Item) post.Report {
	t.Helper()
	r, err := s.Judge(item, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Limits at, just under and just over the edge. USPS Domestic Mail Manual 101,
// archive 2021-01-24; Royal Mail, format sizes.
func TestPostAtTheEdge(t *testing.T) {
	in, g, nm := units.Inch, units.Gram, units.Nanometre
	letter := post.Item{Size: units.Size{W: 23 * in / 2, H: 49 * in / 8}, Thickness: in / 4, Mass: 7 * units.Ounce / 2, Flexible: true}
	small := post.Item{Size: units.Size{W: 5 * in, H: 7 * in / 2}, Thickness: 7 * units.Thou, Mass: g, Flexible: true}
	flat := post.Item{Size: units.Size{W: 15 * in, H: 12 * in}, Thickness: 3 * in / 4, Mass: 300 * g, Flexible: true}
	square := post.Item{Size: units.Size{W: 65 * in / 10, H: 5 * in}, Thickness: in / 10, Mass: g, Flexible: true}
	long := post.Item{Size: units.Size{W: 10 * in, H: 4 * in}, Thickness: in / 10, Mass: g, Flexible: true}
	ukLetter := post.Item{Size: units.Size{W: 240 * mm, H: 165 * mm}, Thickness: 5 * mm, Mass: 100 * g, Flexible: true}
	ukLarge := post.Item{Size: units.Size{W: 353 * mm, H: 250 * mm}, Thickness: 25 * mm, Mass: 750 * g}
	ukParcel := post.Item{Size: units.Size{W: 450 * mm, H: 350 * mm}, Thickness: 160 * mm, Mass: 2000 * g}
	change := func(item post.Item, f func(*post.Item)) post.Item {
		f(&item)
		return item
	}
	wider := func(d units.Length) func(*post.Item) { return func(i *post.Item) { i.Size.W += d } }
	higher := func(d units.Length) func(*post.Item) { return func(i *post.Item) { i.Size.H += d } }
	thicker := func(d units.Length) func(*post.Item) { return func(i *post.Item) { i.Thickness += d } }
	heavier := func(d units.Mass) func(*post.Item) { return func(i *post.Item) { i.Mass += d } }
	usps, mail := post.USPS(), post.RoyalMail()
	for _, c := range []struct {
		name    string
		service post.Service
		item    post.Item
		format  string // the first that does not refuse it
		finding string // "surcharge" if it is not plain
	}{
		{"letter at the limit", usps, letter, "letter", ""},
		{"letter just under", usps, change(change(letter, wider(-nm)), thicker(-nm)), "letter", ""},
		{"letter just too long", usps, change(letter, wider(nm)), "flat", ""},
		{"letter just too high", usps, change(letter, higher(nm)), "flat", ""},
		{"letter just too thick", usps, change(letter, thicker(nm)), "flat", ""},
		{"letter just too heavy", usps, change(letter, heavier(1)), "flat", ""},
		{"letter upright", usps, change(letter, func(i *post.Item) { i.Size = i.Size.Turned() }), "letter", ""},
		{"smallest letter", usps, small, "letter", ""},
		{"just too short", usps, change(small, wider(-nm)), "flat", ""},
		{"just too low", usps, change(small, higher(-nm)), "flat", ""},
		{"just too thin", usps, change(small, thicker(-nm)), "flat", ""},
		{"flat at the limit", usps, flat, "flat", ""},
		{"flat just too long", usps, change(flat, wider(nm)), "parcel", ""},
		{"flat just too high", usps, change(flat, higher(nm)), "parcel", ""},
		{"flat just too thick", usps, change(flat, thicker(nm)), "parcel", ""},
		{"a rigid letter costs more", usps, change(letter, func(i *post.Item) { i.Flexible = false }), "letter", "surcharge"},
		{"a rigid flat is a parcel", usps, change(flat, func(i *post.Item) { i.Flexible = false }), "parcel", ""},
		{"an uneven letter costs more", usps, change(letter, func(i *post.Item) { i.Uneven = nm }), "letter", "surcharge"},
		{"a flat even enough", usps, change(flat, func(i *post.Item) { i.Uneven = in / 4 }), "flat", ""},
		{"a flat too uneven", usps, change(flat, func(i *post.Item) { i.Uneven = in/4 + nm }), "parcel", ""},
		{"a box is a parcel", usps, change(letter, func(i *post.Item) { i.Box = true }), "parcel", ""},
		{"ratio 1.3", usps, square, "letter", ""},
		{"ratio just under 1.3", usps, change(square, wider(-nm)), "letter", "surcharge"},
		{"ratio 2.5", usps, long, "letter", ""},
		{"ratio just over 2.5", usps, change(long, wider(nm)), "letter", "surcharge"},
		{"UK letter", mail, ukLetter, "letter", ""},
		{"UK letter just too long", mail, change(ukLetter, wider(nm)), "large letter", ""},
		{"UK letter just too high", mail, change(ukLetter, higher(nm)), "large letter", ""},
		{"UK letter just too thick", mail, change(ukLetter, thicker(nm)), "large letter", ""},
		{"UK letter just too heavy", mail, change(ukLetter, heavier(1)), "large letter", ""},
		{"UK large letter", mail, ukLarge, "large letter", ""},
		{"UK large letter just too thick", mail, change(ukLarge, thicker(nm)), "small parcel", ""},
		{"UK large letter just too heavy", mail, change(ukLarge, heavier(1)), "small parcel", ""},
		{"UK small parcel", mail, ukParcel, "small parcel", ""},
		{"UK small parcel just too long", mail, change(ukParcel, wider(nm)), "", ""},
		{"UK small parcel just too heavy", mail, change(ukParcel, heavier(1)), "", ""},
	} {
		r := judge(t, c.service, c.item)
		v, ok := r.Smallest()
		got := ""
		if ok {
			got = v.Format().Name
		}
		if got != c.format {
			t.Errorf("%s: goes as %q, want %q", c.name, got, c.format)
			for v := range r.Verdicts() {
				for f := range v.All() {
					t.Log(v.Format().Name, f.Treatment(), f.Text())
				}
			}
			continue
		}
		if surcharge := ok && v.Overall() == post.Surcharge; surcharge != (c.finding == "surcharge") {
			t.Errorf("%s: %v", c.name, v.Overall())
		}
		if r.Notice() == "" || !strings.Contains(r.Notice(), "current rules") {
			t.Error("the notice is missing")
		}
		if r.Service().Source == "" || r.Service().Date == "" {
			t.Error("a table without source or date")
		}
	}
}

// Rigidity and size are verdicts of their own: a thin folio is a flat by size
// and refused by its boards.
func TestPostOfAFolio(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	item, err := post.Pack(p, post.Packing{Padding: 2 * mm, Wall: mm, Mass: 20 * units.Gram})
	if err != nil {
		t.Fatal(err)
	}
	o, _ := p.Overall(true)
	if item.Flexible || item.MassUncertain {
		t.Errorf("flexible %v, uncertain %v", item.Flexible, item.MassUncertain)
	}
	if item.Thickness != o.Thickness().Length()+6*mm || item.Size != o.Size().Grow(3*mm) {
		t.Errorf("packed: %v x %v", item.Size, item.Thickness)
	}
	if item.Uneven != 11*mm/10 {
		t.Errorf("uneven by %v, the badge and its film are 1.1 mm", item.Uneven)
	}
	r := judge(t, post.USPS(), item)
	for v := range r.Verdicts() {
		if v.Format().Name != "flat" {
			continue
		}
		if v.Size().Treatment() != post.Refused {
			// 20 + 0.2 + 1.1 + 6 mm is more than 3/4 in.
			t.Errorf("size: %v", v.Size())
		}
		if v.Rigidity().Treatment() != post.Refused || v.Evenness().Treatment() != post.Accepted {
			t.Errorf("rigidity %v, evenness %v", v.Rigidity(), v.Evenness())
		}
	}
	s := foliotest.Weighed()
	s.Board.Grammage = 0
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	item, _ = post.Pack(p, post.Packing{Mass: units.Gram})
	if !item.MassUncertain {
		t.Error("the mass of boards of unknown grammage is not known")
	}
	v, _ := judge(t, post.RoyalMail(), item).Smallest()
	if v.Mass().Treatment() != post.Unstated || !strings.HasPrefix(v.Mass().Text(), "it weighs at least ") {
		t.Errorf("mass: %v, %q", v.Mass(), v.Mass().Text())
	}
	boxed, _ := post.Pack(p, post.Packing{Box: true})
	if v, _ := judge(t, post.USPS(), boxed).Smallest(); v.Format().Name != "parcel" {
		t.Errorf("a box goes as %s", v.Format().Name)
	}
}

// A table is data: another one, with limits of its own.
func TestPostTableOfOnesOwn(t *testing.T) {
	own := post.Service{Name: "the club's van", Source: "its driver", Date: "today", Formats: []post.ItemFormat{
		{Name: "tray", Most: units.Size{W: 300 * mm, H: 200 * mm}, Thickest: 50 * mm},
	}}
	r := judge(t, own, post.Item{Size: units.Size{W: 200 * mm, H: 300 * mm}, Thickness: 50 * mm, Mass: units.Gram})
	v, ok := r.Smallest()
	if !ok || v.Size().Treatment() != post.Accepted || v.Mass().Treatment() != post.Unstated {
		t.Errorf("%v, %v, %v", ok, v.Size(), v.Mass())
	}
	own.Formats[0].Thickest = mm
	for v := range r.Verdicts() {
		if v.Format().Thickest != 50*mm {
			t.Error("the report changed with the table")
		}
	}
}

// By hand: closed the folio is 104.2 x 150.2 mm, and 21.3 mm thick with its badge
// and the film of adhesive under it.
func TestBoxByHand(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ padding, w, h, d units.Length }{
		{10 * mm, 125 * mm, 171 * mm, 42 * mm}, {units.None, 105 * mm, 151 * mm, 22 * mm}, {0, 129 * mm, 175 * mm, 46 * mm},
	} {
		box, err := post.BoxFor(p, c.padding)
		if err != nil || box.Width().Length() != c.w || box.Height().Length() != c.h || box.Depth().Length() != c.d {
			t.Errorf("padding %v: box %v, %v, %v, %v", c.padding, box.Width(), box.Height(), box.Depth(), err)
		}
	}
	if _, err := post.BoxFor(p, -5); !refused(err, "padding", check.Negative) {
		t.Errorf("a padding of less than nothing: %v", err)
	}
}

func refused(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}

// A folio that stays open goes into no box and no envelope, and says why.
func TestWhatStaysOpen(t *testing.T) {
	s := foliotest.Weighed()
	s.Hinge = rule.Hinge{Angle: 30, Width: 15 * mm / 10} // less than a board
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := post.BoxFor(p, 0); !refused(err, "hinge.angle", folio.WarnOpen) {
		t.Errorf("a box: %v", err)
	}
	if _, err := post.Pack(p, post.Packing{}); !refused(err, "hinge.angle", folio.WarnOpen) {
		t.Errorf("packed: %v", err)
	}
}

// Less than nothing is refused, and no sum of masses goes round to it.
func TestPackingAndItemsRefused(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	for path, k := range map[string]post.Packing{
		"padding": {Padding: -1}, "wall": {Wall: -mm}, "mass": {Mass: -units.Gram}, "weighing.density": {Weighing: weigh.Options{Density: -1}},
	} {
		if _, err := post.Pack(p, k); !refused(err, path, "") {
			t.Errorf("%+v: %v", k, err)
		}
	}
	if _, err := post.Pack(p, post.Packing{Mass: math.MaxInt64}); !refused(err, "mass", check.OutOfRange) {
		t.Errorf("a packing as heavy as can be: %v", err)
	}
	// An ornament and a packing of the most that is allowed each.
	s := foliotest.Weighed()
	s.Fittings = append(s.Fittings, folio.Fitting{Kind: folio.Ornament{Size: units.Size{W: mm, H: mm}, Mass: folio.MostMass}, Outside: true})
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	item, err := post.Pack(p, post.Packing{Mass: folio.MostMass})
	if err != nil || item.Mass < 2*folio.MostMass {
		t.Fatalf("%v, %v", item.Mass, err)
	}
	v, ok := judge(t, post.RoyalMail(), item).Smallest()
	if ok {
		t.Errorf("it goes as a %v", v.Format().Name)
	}
	good := post.Item{Size: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: mm, Mass: units.Gram}
	for path, change := range map[string]func(*post.Item){
		"item.size.w":    func(i *post.Item) { i.Size.W = 0 },
		"item.thickness": func(i *post.Item) { i.Thickness = -1 },
		"item.mass":      func(i *post.Item) { i.Mass = -units.Gram },
		"item.uneven":    func(i *post.Item) { i.Uneven = math.MinInt64 },
	} {
		item := good
		change(&item)
		if _, err := post.USPS().Judge(item, units.InchFraction); !refused(err, path, "") {
			t.Errorf("%s: %v", path, err)
		}
	}
	if _, err := (post.Service{Formats: make([]post.ItemFormat, post.MostFormats+1)}).Judge(good, units.InchFraction); !refused(err, "formats", check.TooMany) {
		t.Errorf("formats without end: %v", err)
	}
	// Ratios as large as can be neither turn round nor panic.
	wild := post.Service{Formats: []post.ItemFormat{{Name: "wild", LowRatio: math.MaxInt, HighRatio: math.MinInt, Shape: post.Refused}}}
	if v, ok := judge(t, wild, good).Smallest(); ok {
		t.Errorf("taken as %v", v.Format().Name)
	}
}

// Treatments have texts that read back.
func TestTreatmentTexts(t *testing.T) {
	for _, v := range []post.Treatment{post.Unstated, post.Accepted, post.Surcharge, post.Refused} {
		text, err := v.MarshalText()
		var back post.Treatment
		if err != nil || back.UnmarshalText(text) != nil || back != v || string(text) != v.String() {
			t.Errorf("%v: %q, %v, back %v", uint8(v), text, err, back)
		}
	}
}

// Size and rigidity are two verdicts: small enough for a flat, a folio of
// boards is still refused as one.
func ExampleService_Judge() {
	item := post.Item{Size: units.MustParseSize("5 x 7 in"), Thickness: units.Inch / 2, Mass: 200 * units.Gram}
	report, err := post.USPS().Judge(item, units.InchFraction)
	if err != nil {
		fmt.Println(err)
		return
	}
	for v := range report.Verdicts() {
		fmt.Println(v.Format().Name+":", v.Size().Treatment(), "by size,", v.Rigidity().Treatment(), "by rigidity")
	}
	smallest, _ := report.Smallest()
	fmt.Println("so it is a", smallest.Format().Name)
	fmt.Println(report.Service().Source)
	// Output:
	// letter: refused by size, accepted with a surcharge by rigidity
	// flat: accepted by size, refused by rigidity
	// parcel: not stated by size, accepted by rigidity
	// so it is a parcel
	// USPS Domestic Mail Manual 101, archive 2021-01-24
}

// The services that the package brings have names of their own, and so have the
// formats of each.
func TestServices(t *testing.T) {
	names := map[string]bool{}
	for s := range post.Services() {
		formats := map[string]bool{}
		for _, f := range s.Formats {
			if f.Name == "" || formats[f.Name] {
				t.Errorf("%s: the name %q again, or none", s.Name, f.Name)
			}
			formats[f.Name] = true
		}
		if s.Name == "" || names[s.Name] || len(formats) == 0 {
			t.Errorf("the service %q again, or without formats", s.Name)
		}
		names[s.Name] = true
	}
	if !names["Royal Mail"] || len(names) != 2 {
		t.Errorf("services %v", names)
	}
	for range post.Services() {
		break
	}
}

// As the Domestic Mail Manual has it, section 101 (archive of 24 January 2021): a
// flat is at most 15 in long, 12 in high and 3/4 in thick, a letter at most 11 1/2
// in long, 6 1/8 in high and 1/4 in thick.
func TestTableAsPrinted(t *testing.T) {
	f := post.USPS().Formats
	if f[0].Most != units.MustParseSize("11 1/2 x 6 1/8 in") || f[0].Thickest != units.Inch/4 {
		t.Errorf("a letter of %v x %v", f[0].Most, f[0].Thickest)
	}
	// And not less than 5 in long, 3 1/2 in high and 0.007 in thick.
	if f[0].Least != units.MustParseSize("5 x 3 1/2 in") || f[0].Thinnest != 7*units.Inch/1000 {
		t.Errorf("a letter of at least %v x %v", f[0].Least, f[0].Thinnest)
	}
	if f[1].Most != units.MustParseSize("15 x 12 in") || f[1].Thickest != 3*units.Inch/4 {
		t.Errorf("a flat of %v x %v", f[1].Most, f[1].Thickest)
	}
	// Royal Mail, format sizes: a letter is at most 24 x 16.5 x 0.5 cm and 100 g, a large
	// letter 35.3 x 25 x 2.5 cm and 750 g, a small parcel 45 x 35 x 16 cm and 2 kg.
	r := post.RoyalMail().Formats
	if r[0].Most != (units.Size{W: 240 * mm, H: 165 * mm}) || r[0].Thickest != 5*mm || r[0].Heaviest != 100*units.Gram {
		t.Errorf("a letter of %v x %v, %v", r[0].Most, r[0].Thickest, r[0].Heaviest)
	}
	if r[1].Most != (units.Size{W: 353 * mm, H: 250 * mm}) || r[1].Thickest != 25*mm || r[1].Heaviest != 750*units.Gram {
		t.Errorf("a large letter of %v x %v, %v", r[1].Most, r[1].Thickest, r[1].Heaviest)
	}
	if r[2].Most != (units.Size{W: 450 * mm, H: 350 * mm}) || r[2].Thickest != 160*mm || r[2].Heaviest != 2000*units.Gram {
		t.Errorf("a small parcel of %v x %v, %v", r[2].Most, r[2].Thickest, r[2].Heaviest)
	}
}

// What length over height has to be is said, and held.
func TestShapesInWords(t *testing.T) {
	for _, c := range []struct {
		low, high int
		h         units.Length // of an item 200 mm long
		want      string
		as        post.Treatment
	}{
		{0, 0, 100 * mm, "any shape", post.Accepted},
		{13, 0, 100 * mm, "length over height is at least 1.3", post.Accepted},
		{13, 0, 180 * mm, "length over height is less than 1.3", post.Surcharge},
		{0, 25, 80 * mm, "length over height is at most 2.5", post.Accepted},
		{0, 25, 79 * mm, "length over height is more than 2.5", post.Surcharge},
		{13, 25, 100 * mm, "length over height is within 1.3 to 2.5", post.Accepted},
	} {
		// Nothing is said of what bends, so the whole is unstated, or what is worse.
		f := post.ItemFormat{Name: "tray", Most: units.Size{W: 300 * mm, H: 200 * mm}, LowRatio: c.low, HighRatio: c.high, Shape: post.Surcharge}
		r := judge(t, post.Service{Formats: []post.ItemFormat{f}}, post.Item{Size: units.Size{W: 200 * mm, H: c.h}, Mass: units.Gram})
		for v := range r.Verdicts() {
			if got := v.Shape(); got.Treatment() != c.as || got.Text() != c.want {
				t.Errorf("%d to %d, %v: %v, %q; want %v, %q", c.low, c.high, c.h, got.Treatment(), got.Text(), c.as, c.want)
			}
			overall := post.Unstated
			if c.as == post.Surcharge {
				overall = post.Surcharge
			}
			if v.Overall() != overall {
				t.Errorf("%d to %d, %v: %v in all, want %v", c.low, c.high, c.h, v.Overall(), overall)
			}
		}
	}
}

// Without its packing's mass an item's is not known, with a microgram it is.
func TestMassOfPacking(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	for mass, unsure := range map[units.Mass]bool{0: true, 1: false} {
		if item, err := post.Pack(p, post.Packing{Mass: mass}); err != nil || item.MassUncertain != unsure {
			t.Errorf("a packing of %v: uncertain %v, %v", mass, item.MassUncertain, err)
		}
	}
}

// What is wrong is told as the plan, or the report, writes lengths.
func TestWrongInInches(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	const want = "got -1/4 in; want 0 or a length up to 393.7 in"
	if _, err := post.BoxFor(plan, -units.Inch/4); err == nil || err.Error() != "padding: negative: "+want {
		t.Errorf("a box: %v", err)
	}
	if _, err := post.Pack(plan, post.Packing{Wall: -units.Inch / 4}); err == nil || err.Error() != "wall: negative: "+want {
		t.Errorf("a packing: %v", err)
	}
	item := post.Item{Size: units.MustParseSize("6 x 8 in"), Uneven: -units.Inch / 4}
	if _, err := post.USPS().Judge(item, units.InchFraction); err == nil || err.Error() != "item.uneven: negative: "+want {
		t.Errorf("an item: %v", err)
	}
}

// In inches half an inch of padding lies on all six sides.
func TestBoxInInches(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 x 6 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	box, err := post.BoxFor(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	o, _ := p.Overall(true)
	for what, pair := range map[string][2]units.Length{
		"width":  {box.Width().Length(), o.Width().Length()},
		"height": {box.Height().Length(), o.Height().Length()},
		"depth":  {box.Depth().Length(), o.Thickness().Length()},
	} {
		if more := pair[0] - pair[1]; more < units.Inch || more >= units.Inch+p.Spec().Rulers.Main.Step() {
			t.Errorf("%s: %v more than the folio", what, more)
		}
	}
}

// Masses are read in tenths of a gram, and never say the opposite of the verdict: 3.5
// oz (Domestic Mail Manual 101.1.2) are 99.2233 g, as an ounce is 28.349523125 g
// (NIST Handbook 44, appendix C).
func TestMassForReading(t *testing.T) {
	letter := post.Service{Formats: []post.ItemFormat{{Name: "letter", Heaviest: 99_223_330 * units.Gram / 1_000_000}}}
	for _, c := range []struct {
		micrograms int64
		unsure     bool
		want       string
	}{
		{90_386_681, false, "90.3 g of at most 99.2 g"}, {99_223_330, false, "99.2 g of at most 99.2 g"}, {99_223_331, false, "99.3 g is more than 99.2 g"},
		{99_300_000, false, "99.3 g is more than 99.2 g"}, {90_386_681, true, "it weighs at least 90.3 g; at most 99.2 g are taken: weigh it"}, {0, false, "0 g of at most 99.2 g"},
	} {
		item := post.Item{Size: units.Size{W: 100 * units.Millimetre, H: 100 * units.Millimetre}, Mass: units.Mass(c.micrograms) * units.Gram / 1_000_000, MassUncertain: c.unsure}
		r, err := letter.Judge(item, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		for v := range r.Verdicts() {
			if got := v.Mass().Text(); got != c.want {
				t.Errorf("%d µg: %s; want %s", c.micrograms, got, c.want)
			}
		}
	}
}
