package post_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// only returns the verdict of a single format.
func only(t *testing.T, f post.ItemFormat, item post.Item) post.Verdict {
	t.Helper()
	r := judge(t, post.Service{Formats: []post.ItemFormat{f}}, item)
	for v := range r.Verdicts() {
		return v
	}
	t.Fatal("no verdict")
	return post.Verdict{}
}

// What is said of a size names the side that is wrong and the limit that it passes; a
// limit of 0 is none, one of a nanometre is one.
func TestSizesInWords(t *testing.T) {
	tray := post.ItemFormat{Most: units.Size{W: 200 * mm, H: 300 * mm}, Least: units.Size{W: 50 * mm, H: 100 * mm}, Thickest: 40 * mm, Thinnest: 2 * mm}
	long := post.ItemFormat{Most: units.Size{W: 300 * mm, H: 200 * mm}}
	for _, c := range []struct {
		format  post.ItemFormat
		w, h, d units.Length
		as      post.Treatment
		want    string
	}{
		{tray, 150 * mm, 250 * mm, 10 * mm, post.Accepted, "250 mm x 150 mm x 10 mm of at most 300 mm x 200 mm x 40 mm"},
		{tray, 150 * mm, 301 * mm, 10 * mm, post.Refused, "its length of 301 mm is more than 300 mm"},
		{tray, 250 * mm, 201 * mm, 10 * mm, post.Refused, "its height of 201 mm is more than 200 mm"},
		{tray, 250 * mm, 150 * mm, 41 * mm, post.Refused, "its thickness of 41 mm is more than 40 mm"},
		{tray, 250 * mm, 301 * mm, mm, post.Refused, "its length of 301 mm is more than 300 mm, its height of 250 mm is more than 200 mm, its thickness of 1 mm is less than 2 mm"},
		{tray, 60 * mm, 99 * mm, 10 * mm, post.Refused, "its length of 99 mm is less than 100 mm"},
		{tray, 49 * mm, 120 * mm, 10 * mm, post.Refused, "its height of 49 mm is less than 50 mm"},
		{tray, 60 * mm, 120 * mm, mm, post.Refused, "its thickness of 1 mm is less than 2 mm"},
		{long, 301 * mm, 100 * mm, mm, post.Refused, "its length of 301 mm is more than 300 mm"},
		{long, 300 * mm, 100 * mm, 500 * mm, post.Accepted, ""},
		{post.ItemFormat{Thickest: 40 * mm}, 900 * mm, 800 * mm, 40 * mm, post.Accepted, ""},
		{post.ItemFormat{Thickest: 40 * mm}, 900 * mm, 800 * mm, 41 * mm, post.Refused, "its thickness of 41 mm is more than 40 mm"},
		{post.ItemFormat{Thickest: 1}, 90 * mm, 80 * mm, 2, post.Refused, "its thickness of 0.000002 mm is more than 0.000001 mm"},
		{post.ItemFormat{}, 900 * mm, 800 * mm, 700 * mm, post.Unstated, "no limit of size in this table"},
	} {
		got := only(t, c.format, post.Item{Size: units.Size{W: c.w, H: c.h}, Thickness: c.d}).Size()
		if got.Treatment() != c.as || c.want != "" && got.Text() != c.want {
			t.Errorf("%v x %v x %v: %v, %q; want %v, %q", c.w, c.h, c.d, got.Treatment(), got.Text(), c.as, c.want)
		}
	}
}

// What a table does with the unusual is said of what is unusual only: what is even,
// bends and is no box is taken everywhere.
func TestTheUnusualInWords(t *testing.T) {
	texts := func(v post.Verdict) (out []string, as []post.Treatment) {
		for _, f := range []post.Finding{v.Mass(), v.Rigidity(), v.Evenness(), v.Box()} {
			out, as = append(out, f.Text()), append(as, f.Treatment())
		}
		return out, as
	}
	const no = "no limit of weight in this table"
	usual := post.Item{Size: units.Size{W: 90 * mm, H: 80 * mm}, Flexible: true}
	for _, unusual := range []post.Treatment{post.Unstated, post.Accepted, post.Surcharge, post.Refused} {
		f := post.ItemFormat{Rigid: unusual, Uneven: unusual, Box: unusual, Even: 2 * mm}
		out, as := texts(only(t, f, usual))
		if !slices.Equal(out, []string{no, "it bends", "it is even", "it is no box"}) ||
			!slices.Equal(as, []post.Treatment{post.Unstated, post.Accepted, post.Accepted, post.Accepted}) {
			t.Errorf("usual, else %v: %q, %v", unusual, out, as)
		}
		odd := usual
		odd.Flexible, odd.Box, odd.Uneven = false, true, 3*mm
		varies := "its thickness varies by 3 mm"
		if unusual == post.Surcharge || unusual == post.Refused {
			varies += ", more than 2 mm"
		}
		out, as = texts(only(t, f, odd))
		if !slices.Equal(out, []string{no, "it is rigid", varies, "it is a box"}) ||
			!slices.Equal(as, []post.Treatment{post.Unstated, unusual, unusual, unusual}) {
			t.Errorf("unusual and %v: %q, %v", unusual, out, as)
		}
		odd.Uneven = 1
		if got := only(t, f, odd).Evenness(); got.Treatment() != post.Accepted || got.Text() != "its thickness varies by 0.000001 mm of at most 2 mm" {
			t.Errorf("uneven by a nanometre: %v, %q", got.Treatment(), got.Text())
		}
	}
}

// Ratios are read in tenths, down to the least; nothing is longer than high by less
// than 1.
func TestRatiosInWords(t *testing.T) {
	for _, c := range []struct {
		low, high int
		want      string
		as        post.Treatment
	}{
		{19, 0, "length over height is at least 1.9", post.Accepted},
		{0, 20, "length over height is at most 2.0", post.Accepted},
		{1, 0, "length over height is at least 0.1", post.Accepted},
		{0, 1, "length over height is more than 0.1", post.Refused},
		{1, 20, "length over height is within 0.1 to 2.0", post.Accepted},
		{21, 1, "length over height is less than 2.1", post.Refused},
	} {
		got := only(t, post.ItemFormat{LowRatio: c.low, HighRatio: c.high, Shape: post.Refused}, post.Item{Size: units.Size{W: 50 * mm, H: 100 * mm}}).Shape()
		if got.Text() != c.want || got.Treatment() != c.as {
			t.Errorf("%d to %d: %v, %q; want %v, %q", c.low, c.high, got.Treatment(), got.Text(), c.as, c.want)
		}
	}
}

// A report keeps the table that was asked, whatever becomes of the one that it was
// given and of the one that it gives.
func TestReportKeepsItsTable(t *testing.T) {
	own := post.Service{Formats: []post.ItemFormat{{Name: "tray"}}}
	r := judge(t, own, post.Item{Size: units.Size{W: 90 * mm, H: 80 * mm}})
	own.Formats[0].Name = "given"
	if got := r.Service().Formats[0].Name; got != "tray" {
		t.Errorf("the one given is that of the report: %s", got)
	}
	r.Service().Formats[0].Name = "got"
	if got := r.Service().Formats[0].Name; got != "tray" {
		t.Errorf("the one got is that of the report: %s", got)
	}
}

// outside is a folio with a pocket on the outside of its cover, and in it something
// so thick, of 60 x 40 mm.
func outside(t *testing.T, thick units.Length) *folio.Plan {
	t.Helper()
	s := foliotest.Weighed()
	s.Rulers.Main = 1 // exact, so that nothing hides in the rounding
	held := pocket.Content{Name: "tag", Size: units.Size{W: 60 * mm, H: 40 * mm}, Thickness: thick}
	s.Fittings = []folio.Fitting{{Name: "pocket", Outside: true, Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: held}}, Stock: "card 300"}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What is in a pocket on the outside travels with the folio: 3 mm more of it is 3 mm
// more of the box and of the item, and 0.06 x 0.04 m² of it at 1400 kg/m³ 10.08 g more,
// with a little card for the larger pocket; and a folio is weighed filled and single, whatever the options say.
func TestWhatIsOutsideTravels(t *testing.T) {
	thin, thick := outside(t, 4*mm), outside(t, 7*mm)
	of := func(p *folio.Plan, padding units.Length) [3]units.Length {
		b, err := post.BoxFor(p, padding)
		if err != nil {
			t.Fatal(err)
		}
		for term := range b.Width().Terms() {
			if term.Length < 0 {
				t.Errorf("padding %d: %v", padding, b.Width())
			}
		}
		return [3]units.Length{b.Width().Length(), b.Height().Length(), b.Depth().Length()}
	}
	a, b := of(thin, units.None), of(thick, units.None)
	if b[0] != a[0] || b[1] != a[1] || b[2] != a[2]+3*mm {
		t.Errorf("boxes %v and %v", a, b)
	}
	// None is none to the nanometre, and one is one on all six sides.
	full, _ := thin.Overall(true)
	if a != [3]units.Length{full.Width().Length(), full.Height().Length(), full.Thickness().Length()} {
		t.Errorf("a close box of %v round %v", a, full)
	}
	if c := of(thin, 1); c != [3]units.Length{a[0] + 2, a[1] + 2, a[2] + 2} {
		t.Errorf("a box of %v with a nanometre round %v", c, a)
	}
	pack := func(p *folio.Plan, k post.Packing) post.Item {
		i, err := post.Pack(p, k)
		if err != nil {
			t.Fatal(err)
		}
		return i
	}
	k := post.Packing{Mass: units.Gram}
	one, more := pack(thin, k), pack(thick, k)
	if more.Thickness != one.Thickness+3*mm || more.Size != one.Size || more.Uneven != one.Uneven+3*mm {
		t.Errorf("packed %+v and %+v", one, more)
	}
	if heavier := more.Mass - one.Mass; heavier < 10_080*units.Milligram || heavier > 10_200*units.Milligram {
		t.Errorf("packed %+v and %+v", one, more)
	}
	k.Weighing = weigh.Options{Copies: 7}
	if got := pack(thin, k); got != one {
		t.Errorf("of seven: %+v, of one: %+v", got, one)
	}
	k.Box = true
	if got := pack(thin, k); !got.Box || got.Uneven != 0 || one.Box {
		t.Errorf("in a box: %+v, else: %+v", got, one)
	}
}

// The most that an item may weigh is reached exactly, and beyond it the mass is no more
// than a lower bound.
func TestMostMassOfAnItem(t *testing.T) {
	s := foliotest.Weighed()
	s.Cover, s.Spine, s.Fittings = units.Size{}, rule.Spine{}, nil
	// A square metre, 38 mm thick, of 25 000 kg/m³ has 950 kg, and the folio some more.
	s.Block = boards.Block{Page: units.Size{W: units.Metre, H: units.Metre}, Thickness: 38 * mm}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	dense := weigh.Options{Filled: true, Density: 25_000}
	w, err := weigh.Of(p, dense)
	if err != nil {
		t.Fatal(err)
	}
	mass, _ := w.Total()
	left := post.MostMass - mass
	for packing, unsure := range map[units.Mass]bool{left - 1: false, left: false, left + 1: true} {
		item, err := post.Pack(p, post.Packing{Mass: packing, Weighing: dense})
		if want := min(mass+packing, 1_000*units.Kilogram); err != nil || item.Mass != want || item.MassUncertain != unsure {
			t.Errorf("with a packing of %v: %v, uncertain %v, %v; want %v, %v", packing, item.Mass, item.MassUncertain, err, want, unsure)
		}
	}
}
