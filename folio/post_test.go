package folio_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// Limits at, just under and just over the edge. USPS Domestic Mail Manual 101,
// archive 2021-01-24; Royal Mail, format sizes.
func TestPostAtTheEdge(t *testing.T) {
	in, g, nm := units.Inch, units.Gram, units.Nanometre
	letter := folio.PostItem{Size: units.Size{W: 23 * in / 2, H: 49 * in / 8}, Thickness: in / 4, Mass: 7 * units.Ounce / 2, Flexible: true}
	small := folio.PostItem{Size: units.Size{W: 5 * in, H: 7 * in / 2}, Thickness: 7 * units.Thou, Mass: g, Flexible: true}
	flat := folio.PostItem{Size: units.Size{W: 15 * in, H: 12 * in}, Thickness: 3 * in / 4, Mass: 300 * g, Flexible: true}
	square := folio.PostItem{Size: units.Size{W: 65 * in / 10, H: 5 * in}, Thickness: in / 10, Mass: g, Flexible: true}
	long := folio.PostItem{Size: units.Size{W: 10 * in, H: 4 * in}, Thickness: in / 10, Mass: g, Flexible: true}
	ukLetter := folio.PostItem{Size: units.Size{W: 240 * mm, H: 165 * mm}, Thickness: 5 * mm, Mass: 100 * g, Flexible: true}
	ukLarge := folio.PostItem{Size: units.Size{W: 353 * mm, H: 250 * mm}, Thickness: 25 * mm, Mass: 750 * g}
	ukParcel := folio.PostItem{Size: units.Size{W: 450 * mm, H: 350 * mm}, Thickness: 160 * mm, Mass: 2000 * g}
	change := func(item folio.PostItem, f func(*folio.PostItem)) folio.PostItem {
		f(&item)
		return item
	}
	wider := func(d units.Length) func(*folio.PostItem) { return func(i *folio.PostItem) { i.Size.W += d } }
	higher := func(d units.Length) func(*folio.PostItem) { return func(i *folio.PostItem) { i.Size.H += d } }
	thicker := func(d units.Length) func(*folio.PostItem) { return func(i *folio.PostItem) { i.Thickness += d } }
	heavier := func(d units.Mass) func(*folio.PostItem) { return func(i *folio.PostItem) { i.Mass += d } }
	usps, mail := folio.USPS(), folio.RoyalMail()
	for _, c := range []struct {
		name    string
		service folio.PostService
		item    folio.PostItem
		format  string // the first that does not refuse it
		finding string // "surcharge" if it is not plain
	}{
		{"letter at the limit", usps, letter, "letter", ""},
		{"letter just under", usps, change(change(letter, wider(-nm)), thicker(-nm)), "letter", ""},
		{"letter just too long", usps, change(letter, wider(nm)), "flat", ""},
		{"letter just too high", usps, change(letter, higher(nm)), "flat", ""},
		{"letter just too thick", usps, change(letter, thicker(nm)), "flat", ""},
		{"letter just too heavy", usps, change(letter, heavier(1)), "flat", ""},
		{"letter upright", usps, change(letter, func(i *folio.PostItem) { i.Size = i.Size.Turned() }), "letter", ""},
		{"smallest letter", usps, small, "letter", ""},
		{"just too short", usps, change(small, wider(-nm)), "flat", ""},
		{"just too low", usps, change(small, higher(-nm)), "flat", ""},
		{"just too thin", usps, change(small, thicker(-nm)), "flat", ""},
		{"flat at the limit", usps, flat, "flat", ""},
		{"flat just too long", usps, change(flat, wider(nm)), "parcel", ""},
		{"flat just too high", usps, change(flat, higher(nm)), "parcel", ""},
		{"flat just too thick", usps, change(flat, thicker(nm)), "parcel", ""},
		{"a rigid letter costs more", usps, change(letter, func(i *folio.PostItem) { i.Flexible = false }), "letter", "surcharge"},
		{"a rigid flat is a parcel", usps, change(flat, func(i *folio.PostItem) { i.Flexible = false }), "parcel", ""},
		{"an uneven letter costs more", usps, change(letter, func(i *folio.PostItem) { i.Uneven = nm }), "letter", "surcharge"},
		{"a flat even enough", usps, change(flat, func(i *folio.PostItem) { i.Uneven = in / 4 }), "flat", ""},
		{"a flat too uneven", usps, change(flat, func(i *folio.PostItem) { i.Uneven = in/4 + nm }), "parcel", ""},
		{"a box is a parcel", usps, change(letter, func(i *folio.PostItem) { i.Box = true }), "parcel", ""},
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
		r := c.service.Judge(c.item, units.InchFraction)
		v, ok := r.Smallest()
		got := ""
		if ok {
			got = v.Format().Name
		}
		if got != c.format {
			t.Errorf("%s: goes as %q, want %q", c.name, got, c.format)
			for v := range r.Verdicts() {
				for f := range v.All() {
					t.Log(v.Format().Name, f.Treatment, f.Text)
				}
			}
			continue
		}
		if surcharge := ok && v.Overall() == folio.Surcharge; surcharge != (c.finding == "surcharge") {
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
	p, err := folio.Build(weighed())
	if err != nil {
		t.Fatal(err)
	}
	item, ok := p.PostItem(folio.Packing{Padding: 2 * mm, Wall: mm, Mass: 20 * units.Gram})
	if !ok {
		t.Fatal("does not shut")
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
	r := folio.USPS().Judge(item, units.MetricDecimal)
	for v := range r.Verdicts() {
		if v.Format().Name != "flat" {
			continue
		}
		if v.Size().Treatment != folio.Refused {
			// 20 + 0.2 + 1.1 + 6 mm is more than 3/4 in.
			t.Errorf("size: %v", v.Size())
		}
		if v.Rigidity().Treatment != folio.Refused || v.Evenness().Treatment != folio.Accepted {
			t.Errorf("rigidity %v, evenness %v", v.Rigidity(), v.Evenness())
		}
	}
	s := weighed()
	s.Board.Grammage = 0
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	item, _ = p.PostItem(folio.Packing{Mass: units.Gram})
	if !item.MassUncertain {
		t.Error("the mass of boards of unknown grammage is not known")
	}
	v, _ := folio.RoyalMail().Judge(item, units.MetricDecimal).Smallest()
	if v.Mass().Treatment != folio.Unstated {
		t.Errorf("mass: %v", v.Mass())
	}
	boxed, _ := p.PostItem(folio.Packing{Box: true})
	if v, _ := folio.USPS().Judge(boxed, units.MetricDecimal).Smallest(); v.Format().Name != "parcel" {
		t.Errorf("a box goes as %s", v.Format().Name)
	}
}

// A table is data: another one, with limits of its own.
func TestPostTableOfOnesOwn(t *testing.T) {
	own := folio.PostService{Name: "the club's van", Source: "its driver", Date: "today", Formats: []folio.PostFormat{
		{Name: "tray", Most: units.Size{W: 300 * mm, H: 200 * mm}, Thickest: 50 * mm},
	}}
	r := own.Judge(folio.PostItem{Size: units.Size{W: 200 * mm, H: 300 * mm}, Thickness: 50 * mm, Mass: units.Gram}, units.MetricDecimal)
	v, ok := r.Smallest()
	if !ok || v.Size().Treatment != folio.Accepted || v.Mass().Treatment != folio.Unstated {
		t.Errorf("%v, %v, %v", ok, v.Size(), v.Mass())
	}
	own.Formats[0].Thickest = mm
	for v := range r.Verdicts() {
		if v.Format().Thickest != 50*mm {
			t.Error("the report changed with the table")
		}
	}
}
