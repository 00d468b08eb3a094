package propose_test

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// Things as one says them. The ID-1 card is that of ISO/IEC 7810, 85.60 x 53.98 x
// 0.76 mm; A5 that of ISO 216, 148 x 210 mm, B5 176 x 250 mm.
func TestParseThings(t *testing.T) {
	card := units.Size{W: 8560 * mm / 100, H: 5398 * mm / 100}
	for _, c := range []struct {
		text string
		want propose.Thing
	}{
		{"6 photo 10 x 15 cm", propose.Thing{Count: 6, Content: pocket.Content{Name: "photo 10 x 15 cm", Size: units.Size{W: 101 * mm, H: 152 * mm}, Thickness: 260 * units.Micrometre}}},
		{"1 ID-1 card", propose.Thing{Count: 1, Content: pocket.Content{Name: "ID-1 card", Size: card, Thickness: 760 * units.Micrometre}}},
		{" ID-1  card ", propose.Thing{Content: pocket.Content{Name: "ID-1 card", Size: card, Thickness: 760 * units.Micrometre}}},
		{"note 0.3mm thick", propose.Thing{Content: pocket.Content{Name: "note A6", Size: units.Size{W: 105 * mm, H: 148 * mm}, Thickness: 3 * mm / 10}}},
		{"note", propose.Thing{Content: pocket.Content{Name: "note A6", Size: units.Size{W: 105 * mm, H: 148 * mm}, Thickness: 63 * units.Thou / 10}}},
		{"2 menu A5", propose.Thing{Count: 2, Content: pocket.Content{Name: "menu A5", Size: units.Size{W: 148 * mm, H: 210 * mm}}}},
		{"map B5 0.2 mm thick", propose.Thing{Content: pocket.Content{Name: "map B5", Size: units.Size{W: 176 * mm, H: 250 * mm}, Thickness: mm / 5}}},
		{"12 ticket 70 x 150 mm 1/64 in thick apart tucked away", propose.Thing{Count: 12, Keeping: propose.Apart, Sight: propose.TuckedAway,
			Content: pocket.Content{Name: "ticket 70 x 150 mm", Size: units.Size{W: 70 * mm, H: 150 * mm}, Thickness: units.Inch / 64}}},
		{"photo 4 1/2 x 6 in in view upright may be stuck together", propose.Thing{Sight: propose.InView, Keeping: propose.Together, Upright: true, Sticks: true,
			Content: pocket.Content{Name: "photo 4 1/2 x 6 in", Size: units.Size{W: 9 * units.Inch / 2, H: 6 * units.Inch}, Thickness: 260 * units.Micrometre}}},
		{"8 photographs 10x15cm", propose.Thing{Count: 8, Content: pocket.Content{Name: "photo 10 x 15 cm", Size: units.Size{W: 101 * mm, H: 152 * mm}, Thickness: 260 * units.Micrometre}}},
		{"eight Photos 10 ×15 cm in view", propose.Thing{Count: 8, Sight: propose.InView, Content: pocket.Content{Name: "photo 10 x 15 cm", Size: units.Size{W: 101 * mm, H: 152 * mm}, Thickness: 260 * units.Micrometre}}},
		{"Two ID-1 cards", propose.Thing{Count: 2, Content: pocket.Content{Name: "ID-1 card", Size: card, Thickness: 760 * units.Micrometre}}},
		{"3 prints 20 x 20cm", propose.Thing{Count: 3, Content: pocket.Content{Name: "print 20 x 20 cm", Size: units.Size{W: 200 * mm, H: 200 * mm}, Thickness: 260 * units.Micrometre}}},
		{"club badge 30 x 30 mm", propose.Thing{Content: pocket.Content{Name: "club badge 30 x 30 mm", Size: units.Size{W: 30 * mm, H: 30 * mm}}}},
		{"booklet 148 x 210 x 4 mm", propose.Thing{Content: pocket.Content{Name: "booklet 148 x 210 x 4 mm", Size: units.Size{W: 148 * mm, H: 210 * mm}, Thickness: 4 * mm}}},
		{"2 fern press 60x90x6mm in view", propose.Thing{Count: 2, Sight: propose.InView, Content: pocket.Content{Name: "fern press 60 x 90 x 6 mm", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: 6 * mm}}},
		{"tin 3 1/2 x 5 x 3/8 in", propose.Thing{Content: pocket.Content{Name: "tin 3 1/2 x 5 x 3/8 in", Size: units.Size{W: 7 * units.Inch / 2, H: 5 * units.Inch}, Thickness: 3 * units.Inch / 8}}},
		{"print 9 x 13 cm x 2 mm", propose.Thing{Content: pocket.Content{Name: "print 9 x 13 cm x 2 mm", Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: 2 * mm}}},
		{"2 x menu A5", propose.Thing{Count: 2, Content: pocket.Content{Name: "menu A5", Size: units.Size{W: 148 * mm, H: 210 * mm}}}},
		{"12x map B5", propose.Thing{Count: 12, Content: pocket.Content{Name: "map B5", Size: units.Size{W: 176 * mm, H: 250 * mm}}}},
		{"3 × map B5", propose.Thing{Count: 3, Content: pocket.Content{Name: "map B5", Size: units.Size{W: 176 * mm, H: 250 * mm}}}},
		{"A map B5", propose.Thing{Count: 1, Content: pocket.Content{Name: "map B5", Size: units.Size{W: 176 * mm, H: 250 * mm}}}},
		{"3 membership card ID-1", propose.Thing{Count: 3, Content: pocket.Content{Name: "membership card ID-1", Size: card, Thickness: 760 * units.Micrometre}}},
	} {
		got, err := propose.ParseThings(c.text)
		if err != nil || len(got) != 1 || got[0] != c.want {
			t.Errorf("%q: %+v, %v; want %+v", c.text, got, err, c.want)
		}
	}
	if got, err := propose.ParseThings("6 photo 10 x 15 cm, 1 ID-1 card, 1 note"); err != nil || len(got) != 3 {
		t.Errorf("%v, %v", got, err)
	}
}

// Where a unit is missing that is said: photographs go by centimetres and by inches.
func TestAThingWithoutAUnit(t *testing.T) {
	_, err := propose.ParseThings("8 photos 10x15")
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	if v, ok := bad.Find("things[0]", check.Unknown); !ok || v.Want != `a unit after the size, as in "photo 10 x 15 cm"` {
		t.Errorf("%v", err)
	}
}

// What could be read as something else than is meant is refused: four lengths, two
// thicknesses, and numbers in words that are not read, which would be part of a name.
func TestAThingMisread(t *testing.T) {
	for text, want := range map[string]string{
		"box 2 x 148 x 210 x 4 mm":                "a name with a size",
		"photo 10 x 15 cm x 2":                    "a unit after the size",
		"x 10 x 15 cm":                            "a name with a size",
		"booklet 148 x 210 x 4 mm 0.5 mm thick":   "one thickness",
		"note 148 x 210 x 0.000001 mm 1 mm thick": "one thickness",
		"booklet 148 x 210 x 0 mm":                "a name with a size",
		"thirteen map A5":                         "in figures",
		"half a dozen map A5":                     "in figures",
		"two dozen map A5":                        "in figures",
		"0x map A5":                               "in figures",
		"Some map A5":                             "in figures",
	} {
		_, err := propose.ParseThings(text)
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%q is read", text)
			continue
		}
		if v, ok := bad.Find("things[0]", check.Unknown); !ok || !strings.Contains(v.Want, want) {
			t.Errorf("%q: %v; want %q", text, err, want)
		}
	}
}

// Every usual content is read by its name.
func TestParseUsual(t *testing.T) {
	for u := range pocket.UsualContents() {
		name := u.Content.Name
		if strings.Contains(name, ",") {
			continue // a comma parts things
		}
		got, err := propose.ParseThings("3 " + name)
		if err != nil || len(got) != 1 || got[0].Content != u.Content {
			t.Errorf("%q: %v, %v", name, got, err)
		}
	}
}

// A comma of decimals parts nothing, and one between a figure and a count does.
func TestParseDecimalCommas(t *testing.T) {
	for text, same := range map[string]string{
		"2 fern press 10,5 x 15,25 x 4,5 mm,3 note": "2 fern press 10.5 x 15.25 x 4.5 mm, 3 note",
		"tag 4,5x6,5cm 0,3 mm thick, note":          "tag 4.5 x 6.5 cm 0.3 mm thick, note",
		"1 ID-1,2 menu A5,4 menu A6":                "1 ID-1, 2 menu A5, 4 menu A6",
		"1 menu A5,2 x note":                        "1 menu A5, 2 x note",
		"1 menu A5,12 tag 40 x 80 mm":               "1 menu A5, 12 tag 40 x 80 mm",
		`2 badge 2,5" x 3"`:                         `2 badge 2.5" x 3"`,
		"badge 2,5×3,5in,4 note":                    "badge 2.5 x 3.5 in, 4 note",
	} {
		got, err := propose.ParseThings(text)
		want, err2 := propose.ParseThings(same)
		if err != nil || err2 != nil || len(got) != len(want) {
			t.Errorf("%q: %v, %v; want %v, %v", text, got, err, want, err2)
			continue
		}
		for i := range got {
			if g, w := got[i], want[i]; g.Count != w.Count || g.Content.Size != w.Content.Size || g.Content.Thickness != w.Content.Thickness {
				t.Errorf("%q: thing %d is %v; want %v", text, i, g, w)
			}
		}
	}
	// Without its unit a size is not read together with the count of what follows.
	var bad *check.Error
	if _, err := propose.ParseThings("2 photo 4 x 6,12 tag 40 x 80 mm"); !errors.As(err, &bad) || bad.Len() != 1 {
		t.Error(err)
	} else if v, ok := bad.Find("things[0]", ""); !ok || !strings.HasPrefix(v.Want, "a unit after the size") {
		t.Error(v)
	}
}

// What cannot be read is said for each thing, with what would do.
func TestParseRefused(t *testing.T) {
	_, err := propose.ParseThings("6 photo, 0 note, 1000000 note, , wombat, sheet C9, A5, thick 3 mm thick, 99999999999999999999 note, x 0 x 0 mm, ticket 70 x 150 mm very thick, menu A-1, menu A+5, menu A11, menu C5, A")
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	if bad.Len() != 16 {
		t.Errorf("%d violations of 16 things", bad.Len())
	}
	for i, code := range []check.Code{check.Unknown, check.Unknown, check.Unknown, check.Missing, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown, check.Unknown} {
		if v, ok := bad.Find(check.Index("things", i), code); !ok || v.Want == "" {
			t.Errorf("thing %d: %v", i, v)
		}
	}
	if v, _ := bad.Find("things[0]", ""); !strings.Contains(v.Want, "photo 4 x 6 in") {
		t.Errorf("it does not say what would do: %v", v)
	}
	if _, err := propose.ParseThings(strings.Repeat("note, ", 100_000)); !errors.As(err, &bad) {
		t.Errorf("a text without end: %v", err)
	}
}

// FuzzParseThings: no text makes the reader panic, and what it reads has a size.
func FuzzParseThings(f *testing.F) {
	f.Add("6 photo 10 x 15 cm, 1 ID-1 card, 1 note")
	f.Add("12 ticket 70 x 150 mm 0.2 mm thick apart in view, map B5")
	f.Add("x 0 x 0 mm, thick, 3 thick in view")
	f.Fuzz(func(t *testing.T, text string) {
		things, err := propose.ParseThings(text)
		for _, x := range things {
			if err != nil || x.Content.Size.Empty() || x.Count < 0 || x.Count > propose.MostCopies {
				t.Fatalf("%q: %+v, %v", text, x, err)
			}
		}
	})
}

// The sheets of ISO 216:2007, their sizes from memory: each thing of them is as large
// as its name says.
func TestSheetsOfISO216(t *testing.T) {
	for letter, sides := range map[string][]units.Length{
		"A": {1189, 841, 594, 420, 297, 210, 148, 105, 74, 52, 37, 26},
		"B": {1414, 1000, 707, 500, 353, 250, 176, 125, 88, 62, 44, 31},
	} {
		for n := range len(sides) - 1 {
			name := "map " + letter + strconv.Itoa(n)
			things, err := propose.ParseThings(name)
			if want := (units.Size{W: sides[n+1] * mm, H: sides[n] * mm}); err != nil || len(things) != 1 || things[0].Content.Size != want {
				t.Errorf("%s: %v, %v; want %v", name, things, err, want)
			}
		}
	}
}

// A told is a thing as one says it, with what is meant.
type told struct {
	text  string
	thing propose.Thing
}

// anyTold generates things as one says them, put together of their parts.
func anyTold() gopter.Gen {
	parts := make([]gopter.Gen, 10)
	for i := range parts {
		parts[i] = gen.IntRange(0, 719)
	}
	return proptest.Map(gopter.CombineGens(parts...), func(v []any) told {
		n := func(i, many int) int { return v[i].(int) % many }
		var t told
		counts := []struct {
			text string
			n    int
		}{{"", 0}, {"1 ", 1}, {"one ", 1}, {"a ", 1}, {"an ", 1}, {"3x ", 3}, {"3 x ", 3}, {"3× ", 3}, {"4 × ", 4}, {"Twelve ", 12}, {"12 ", 12}, {"200 ", 200}, {"five ", 5}}
		count := counts[n(0, len(counts))]
		t.thing.Count = count.n
		names := [][2]string{{"ticket", "ticket"}, {"club badge", "club badge"}, {"fern press", "fern press"}, {"tags", "tag"}, {"Notes", "note"}, {"x-ray", "x-ray"}, {"race 4 badge", "race 4 badge"}, {"heat:x4 badge", "heat:x4 badge"}, {"heat/x4 badge", "heat/x4 badge"}}
		name := names[n(1, len(names))]
		size := units.Size{W: units.Length(1+n(2, 300)) * mm, H: units.Length(1+n(3, 300)) * mm}
		w, h := fmt.Sprint(int64(size.W/mm)), fmt.Sprint(int64(size.H/mm))
		if n(2, 7) == 0 { // in inches, with a fraction
			size, w, h = units.Size{W: 5 * units.Inch / 2, H: units.Inch * units.Length(1+n(3, 9))}, "2 1/2", fmt.Sprint(1+n(3, 9))
		}
		unit := "mm"
		if size.W == 5*units.Inch/2 {
			unit = "in"
		}
		third, thick := "", units.Length(0)
		if n(4, 3) == 0 {
			thick = units.Length(1 + n(4, 9))
			if third = fmt.Sprint(int64(thick)); unit == "mm" {
				thick *= mm
			} else {
				thick *= units.Inch
			}
		}
		lengths := []string{w, h}
		if third != "" {
			lengths = append(lengths, third)
		}
		said, plain := "", strings.Join(lengths, " x ")+" "+unit // as it is said, and as it becomes part of the name
		switch n(5, 4) {
		case 0:
			said = strings.Join(lengths, " x ") + " " + unit
		case 1:
			said = strings.Join(lengths, "x") + unit
		case 2:
			said = strings.Join(lengths, " × ") + " " + unit
		case 3:
			said = strings.Join(lengths, " "+unit+" x ") + " " + unit
			plain = said
		}
		thickness := ""
		if third == "" && n(6, 2) == 0 {
			thick = units.Length(1+n(6, 40)) * mm / 10
			thickness = fmt.Sprintf(" %d.%d mm thick", thick/mm, thick%mm/(mm/10))
			if n(6, 5) == 0 {
				thick, thickness = 3*units.Inch/2, " 1 1/2 in thick"
			} else if n(6, 3) == 0 {
				thickness = strings.Replace(thickness, " mm", "mm", 1)
			}
		}
		wishes := []struct {
			text string
			set  func(*propose.Thing)
		}{
			{" in view", func(t *propose.Thing) { t.Sight = propose.InView }}, {" together", func(t *propose.Thing) { t.Keeping = propose.Together }},
			{" may be stuck", func(t *propose.Thing) { t.Sticks = true }}, {" upright", func(t *propose.Thing) { t.Upright = true }},
		}
		if n(8, 2) == 0 {
			wishes[0].text, wishes[0].set = " tucked away", func(t *propose.Thing) { t.Sight = propose.TuckedAway }
			wishes[1].text, wishes[1].set = " apart", func(t *propose.Thing) { t.Keeping = propose.Apart }
		}
		tail := ""
		for i := range n(7, 5) {
			wish := wishes[(i+n(9, 4))%4]
			wish.set(&t.thing)
			tail += wish.text
		}
		t.text = count.text + name[0] + " " + said + thickness + tail
		t.thing.Content = pocket.Content{Name: name[1] + " " + plain, Size: size, Thickness: thick}
		return t
	})
}

// What is put together of a count, a name, a size, a thickness and wishes is read as
// that, by itself and in a list, with as many spaces as one likes.
func TestParsePutTogether(t *testing.T) {
	proptest.Run(t, 1000, func(ps *gopter.Properties) {
		ps.Property("what is said is read", prop.ForAll(func(list []told, loose bool) string {
			var texts []string
			for _, one := range list {
				texts = append(texts, one.text)
			}
			text := strings.Join(texts, ",")
			if loose {
				text = " " + strings.ReplaceAll(strings.Join(texts, " , "), " ", "  ")
			}
			got, err := propose.ParseThings(text)
			if err != nil || len(got) != len(list) {
				return fmt.Sprintf("%q: %d things, %v", text, len(got), err)
			}
			for i, one := range list {
				if got[i] != one.thing {
					return fmt.Sprintf("%q: %+v, want %+v", one.text, got[i], one.thing)
				}
			}
			return ""
		}, proptest.List(1, 4, anyTold()), gen.Bool()))
	})
}
