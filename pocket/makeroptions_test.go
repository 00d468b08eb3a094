package pocket_test

import (
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// optioned sets some fields of a kind that are not set: most lengths to a few
// millimetres, on and off the ruler.
func optioned(r *rand.Rand, k pocket.Kind) pocket.Kind {
	v := reflect.New(reflect.TypeOf(k)).Elem()
	v.Set(reflect.ValueOf(k))
	some := func() units.Length {
		return []units.Length{mm, 2 * mm, 3 * mm, 5 * mm, 6 * mm, 8 * mm, 12 * mm, 20 * mm, 4321 * units.Micrometre}[r.Intn(9)]
	}
	for i := range v.NumField() {
		f := v.Field(i)
		if !f.IsZero() || r.Intn(3) > 0 {
			continue
		}
		switch f.Interface().(type) {
		case units.Length:
			l := some()
			switch v.Type().Field(i).Name {
			case "Base", "Flap", "Front": // some as wide as a content
				l += units.Length(r.Intn(2)) * 90 * mm
			case "Leg":
				l += units.Length(r.Intn(3)) * 30 * mm
			}
			f.Set(reflect.ValueOf(l))
		case int: // of contents
			f.SetInt(1 + r.Int63n(4))
		case pocket.Share:
			f.Set(reflect.ValueOf(pocket.Share{Part: 1 + r.Intn(3), Of: 4 + r.Intn(3)}))
		case units.Size: // of the place, a panel, a leaf
			size := units.Size{W: 85*mm + 3*some(), H: 50*mm + units.Length(r.Intn(3))*40*mm + 3*some()}
			if v.Type().Field(i).Name == "Strip" { // of so many panels
				size.W += units.Length(r.Intn(5)) * 95 * mm
			}
			f.Set(reflect.ValueOf(size))
		case pocket.Ease:
			f.Set(reflect.ValueOf(pocket.Ease{W: some() / 2, H: some() / 2}))
		case pocket.ThumbNotch:
			f.Set(reflect.ValueOf(pocket.ThumbNotch{Width: 10*mm + some(), Depth: 2*mm + some()/2}))
		case pocket.Mat:
			f.Set(reflect.ValueOf(pocket.Mat{Size: units.MustParseSize("60 x 80 mm"), Caliper: some() / 4}))
		}
	}
	return v.Interface().(pocket.Kind)
}

// scoredAlready makes a folded strip of one that lies there with its scores.
func scoredAlready(t *testing.T, s pocket.FoldedStrip) pocket.FoldedStrip {
	for _, p := range design(t, s, pocket.Paper{}, units.WholeMillimetres).Pieces() {
		strip := pocket.FoldedStrip{Strip: p.Blank().Size(), OpensRight: s.OpensRight, Content: s.Content}
		n := 0
		for _, l := range p.Blank().Lines() {
			strip.Scores[n] = l.At
			if n++; s.OpensRight { // they are told from the flap's end
				strip.Scores[n-1] = strip.Strip.W - l.At
			}
		}
		slices.Sort(strip.Scores[:n])
		return strip
	}
	return s
}

// What a kind leaves to its maker, every field of it, is set by itself and with others,
// on sheets that need joints too: a maker makes that.
func TestMadeWithOptions(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	made := map[string]int{}
	papers := []pocket.Paper{
		{}, {Caliper: 200 * units.Micrometre, Groove: pocket.GrooveInside}, {MatCaliper: mm},
		{Sheet: units.MustParseSize("300 x 420 mm")}, {Caliper: mm / 10, Sheet: units.MustParseSize("8 1/2 x 11 in"), TwoSided: true},
		{Sheet: units.MustParseSize("100 x 150 mm")}, {Sheet: units.MustParseSize("150 x 210 mm"), TwoSided: true},
	}
	kinds, cases := workbench(), proptest.Cases(1000)
	for n := range cases {
		plain := kinds[n%len(kinds)]
		k := optioned(r, plain)
		if s, ok := plain.(pocket.FoldedStrip); ok && r.Intn(4) == 0 {
			k = scoredAlready(t, s)
		}
		ruler := []units.Ruler{units.WholeMillimetres, units.HalfMillimetres, units.Sixteenths}[r.Intn(3)]
		d, err := k.Design(papers[r.Intn(len(papers))], ruler)
		if err != nil {
			continue // not all options go together, which other tests look at
		}
		if err := makertest.Follow(jobOf(d)); err != nil {
			t.Fatalf("%T%+v on %v in %+v: %v", k, k, ruler, d.Paper(), err)
		}
		v := reflect.ValueOf(k)
		for i := range v.NumField() {
			if !v.Field(i).IsZero() {
				made[v.Type().Name()+"."+v.Type().Field(i).Name]++
			}
		}
	}
	var never []string
	for _, k := range kinds {
		all := reflect.TypeOf(k)
		for i := range all.NumField() {
			if name := all.Name() + "." + all.Field(i).Name; made[name] == 0 {
				made[name]++ // told once
				never = append(never, name)
			}
		}
	}
	if len(never) > 2 && cases >= 1000 || len(never) > 0 && proptest.Long {
		t.Errorf("never made: %v", never)
	}
}
