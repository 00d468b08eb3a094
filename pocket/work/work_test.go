package work_test

import (
	"encoding"
	"errors"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A word is an enumeration that writes and reads itself.
type word[E any] interface {
	*E
	encoding.TextUnmarshaler
}

// reads checks that every value up to the last one is written as its String and
// read back, that no two are alike, and that nothing else is taken.
func reads[E interface {
	~uint8
	encoding.TextMarshaler
	encoding.TextAppender
	String() string
}, P word[E]](t *testing.T, last E) {
	t.Helper()
	seen := map[string]bool{}
	for v := E(0); v <= last; v++ {
		text, err := v.MarshalText()
		var back E
		if err != nil || string(text) != v.String() || P(&back).UnmarshalText(text) != nil || back != v || seen[string(text)] {
			t.Errorf("%T %d: %q, %v, read back as %d", v, v, text, err, back)
		}
		seen[string(text)] = true
		if more, err := v.AppendText([]byte("a ")); err != nil || string(more) != "a "+string(text) {
			t.Errorf("%T %d is appended as %q, %v", v, v, more, err)
		}
	}
	if _, err := (last + 1).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%T %d is written: %v", last, last+1, err)
	}
	if more, err := (last + 1).AppendText([]byte("a ")); !errors.Is(err, units.ErrUnknown) || string(more) != "a " {
		t.Errorf("%T %d is appended: %q, %v", last, last+1, more, err)
	}
	if err := P(&last).UnmarshalText([]byte("no such word")); !errors.Is(err, units.ErrSyntax) {
		t.Errorf("%T reads nonsense: %v", last, err)
	}
}

func TestWords(t *testing.T) {
	reads(t, work.TaskCheck)
	reads(t, work.PartMagnets)
	reads(t, work.CareMagnet)
	reads(t, work.Magnet)
	reads(t, work.OnBought)
	reads(t, work.GrainAlongWidth)
	reads(t, work.WrongSide)
	reads(t, work.SelfSticky)
	reads(t, score.TailLeft)
	reads(t, work.Away)
}

// Whatever is cut, glued or held together by magnets carries its caution, alone
// or among other actions.
func TestCareCannotBeLost(t *testing.T) {
	for _, c := range []struct {
		do   work.Action
		want []work.Care
	}{
		{work.Cut{}, []work.Care{work.CareBlade}},
		{work.Open{}, []work.Care{work.CareBlade}},
		{work.NotchOut{}, []work.Care{work.CareBlade}},
		{work.Trim{}, []work.Care{work.CareBlade}},
		{work.Sink{}, []work.Care{work.CareBlade}},
		{work.TurnIn{}, []work.Care{work.CareGlue}},
		{work.Fix{By: work.Glue}, []work.Care{work.CareGlue}},
		{work.Fix{By: work.Tape}, nil},
		{work.Fix{By: work.Glue, What: work.Object{Kind: work.Magnet}}, []work.Care{work.CareGlue, work.CareMagnet}},
		{work.Stick{By: work.Glue}, []work.Care{work.CareGlue}},
		{work.TryPair{}, []work.Care{work.CareMagnet}},
		{work.FoldAt{}, nil}, {work.ScoreAt{}, nil}, {work.FindGrain{}, nil}, {work.Draw{}, nil}, {work.MarkPlace{}, nil}, {work.TurnOver{}, nil}, {work.Lay{}, nil}, {work.Put{}, nil}, {work.Tuck{}, nil}, {work.Rub{}, nil}, {work.Insert{}, nil},
	} {
		for _, do := range [][]work.Action{{c.do}, {work.Dry{What: "it"}, c.do}, {c.do, work.Measure{}}, {c.do, c.do}, {nil, c.do, nil}} {
			if got := (work.Step{Do: do}).Care(); !slices.Equal(got, c.want) {
				t.Errorf("%T among %d: %v, want %v", c.do, len(do), got, c.want)
			}
		}
	}
	dry := work.Dry{What: "the wrap"}
	if got, want := (work.Step{Do: []work.Action{nil, dry, nil, dry}}).Text(units.Format{}), (work.Step{Do: []work.Action{dry, dry}}).Text(units.Format{}); got != want {
		t.Errorf("nothing to do is told: %q, want %q", got, want)
	}
	for c := range work.CareMagnet + 1 {
		if c.Text() == "" {
			t.Errorf("%v says nothing", c)
		}
	}
}

// A place is measured from an edge of the base to the same edge of the thing.
func TestAt(t *testing.T) {
	thing, base := units.Size{W: 30 * mm, H: 20 * mm}, units.Size{W: 100 * mm, H: 80 * mm}
	for _, c := range []struct {
		at   work.At
		x, y units.Length // of the thing's upper left corner
	}{
		{work.At{Across: score.Left, X: 5 * mm, Along: score.Head, Y: 7 * mm}, 5 * mm, 7 * mm},
		{work.At{Across: score.Right, X: 5 * mm, Along: score.Head, Y: 7 * mm}, 65 * mm, 7 * mm},
		{work.At{Across: score.Left, X: -5 * mm, Along: score.Tail, Y: 7 * mm}, -5 * mm, 53 * mm},
	} {
		if got := c.at.Rect(thing, base); got.Min != (units.Point{X: c.x, Y: c.y}) || got.Size() != thing {
			t.Errorf("%+v lies at %v", c.at, got)
		}
	}
}

// What no ruler shows is more than nothing: the finest that inches are told on has
// sixty-fourths.
func TestLittleToSpare(t *testing.T) {
	for _, c := range []struct {
		left units.Length
		want string
	}{
		{units.Inch / 320, "with less than 1/64 in to spare"}, {units.Inch / 65, "with less than 1/64 in to spare"}, {units.Inch / 64, "with 1/64 in to spare"}, {0, "with 0 in to spare"},
	} {
		if got := (work.Step{Do: []work.Action{work.Close{Left: c.left}}}).Text(units.Format{Ruler: units.Sixteenths}); !strings.Contains(got, c.want) {
			t.Errorf("%v: %s", c.left, got)
		}
	}
}

// What is lacking is told by the next graduation, so that who gains as much has enough,
// and what is less than one by a finer one.
func TestLittleIsLacking(t *testing.T) {
	const um = units.Micrometre
	for lacks, want := range map[units.Length]string{200 * um: "is 0.2 mm too tight", 340 * um: "is ~0.4 mm too tight", 700 * um: "is ~1 mm too tight", 1400 * um: "is ~2 mm too tight", 2000 * um: "is 2 mm too tight"} {
		if got := (work.Step{Do: []work.Action{work.Close{Left: -lacks}}}).Text(units.Format{Ruler: units.WholeMillimetres}); !strings.Contains(got, want) {
			t.Errorf("%v: %s, want %s", lacks, got, want)
		}
	}
}

// What a person reads, action by action: each sentence was read before it was
// put down here.
func TestSentences(t *testing.T) {
	f := units.Format{Ruler: units.WholeMillimetres}
	told := map[reflect.Type]bool{}
	for _, c := range sentences() {
		if got := (work.Step{Do: c.do}).Text(f); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
		step := work.Step{Do: c.do}
		if says := strings.Contains(c.want, "the face") || strings.Contains(c.want, "back of") || strings.Contains(c.want, "back up"); step.Sided() != (says && !strings.HasPrefix(c.want, "Hold")) {
			t.Errorf("speaks of sides: %t; %s", step.Sided(), c.want)
		}
		for _, a := range c.do {
			told[reflect.TypeOf(a)] = true
		}
	}
	for a := range work.Actions() {
		if !told[reflect.TypeOf(a)] {
			t.Errorf("%T is not told", a)
		}
	}
}

// Tape all round is told as a band only where it runs all round.
func TestBands(t *testing.T) {
	band := []units.Rect{area(0, 0, 30, 6), area(0, 34, 30, 6), area(0, 6, 6, 28), area(24, 6, 6, 28)}
	fix := work.Fix{What: work.Object{Name: "mat"}, On: work.Base{Kind: work.Under}, By: work.Tape, Size: size(30, 40), Marked: true, Areas: band}
	const round = "Tape the mat on the support, in the marked place; double-sided tape 6 mm wide along all four edges."
	if got := (work.Step{Do: []work.Action{fix}, Ruler: units.WholeMillimetres}).Text(units.Format{}); got != round {
		t.Errorf("got  %s\nwant %s", got, round)
	}
	for i := range band {
		for _, by := range [...]units.Point{{X: mm}, {Y: mm}} {
			areas := slices.Clone(band)
			areas[i] = areas[i].Moved(by)
			fix.Areas = areas
			if got := (work.Step{Do: []work.Action{fix}, Ruler: units.WholeMillimetres}).Text(units.Format{}); strings.Contains(got, "all four") {
				t.Errorf("area %d moved by %v: %s", i, by, got)
			}
		}
	}
}

// Every type of the package that says what is done is in the list.
func TestActionsAreListed(t *testing.T) {
	text, err := os.ReadFile("tell.go")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for a := range work.Actions() {
		if name := reflect.TypeOf(a).Name(); listed[name] {
			t.Errorf("%s comes twice", name)
		} else {
			listed[name] = true
		}
	}
	found := regexp.MustCompile(`(?m)^func \((?:\w )?(\w+)\) append\(w \*writer\)`).FindAllSubmatch(text, -1)
	for _, m := range found {
		if !listed[string(m[1])] {
			t.Errorf("%s is not listed", m[1])
		}
	}
	if len(found) != len(listed) || len(found) < 20 {
		t.Errorf("%d listed, %d found", len(listed), len(found))
	}
}

// Without a ruler a cover is told as closely as a hand measures, to a tenth of a
// millimetre.
func TestExpectedAsMeasured(t *testing.T) {
	m := work.Measure{Planned: units.MustParseSize("250 x 180 mm"), Expected: units.Size{W: 252*units.Millimetre + 347*units.Micrometre, H: 182*units.Millimetre + 51*units.Micrometre}}
	want := "Measure the open cover: planned 250 x 180 mm, expected as made about 252.3 x 182.1 mm."
	if got := (work.Step{Do: []work.Action{m}}).Text(units.Format{}); got != want {
		t.Errorf("%s; want %s", got, want)
	}
}

// A step says once whose a piece is that others have, too, and then by its own name, each
// time that it is read; whose another is, always.
func TestOwnersAreSaidOnce(t *testing.T) {
	const mm = units.Millimetre
	part := work.Part{Kind: work.PartFitting, Index: 1, Name: "second accordion"}
	strip := work.Object{Kind: work.Piece, Name: "strip 1 of the second accordion"}
	other := work.Object{Kind: work.Piece, Name: "strip of the first accordion"}
	step := work.Step{For: part, Do: []work.Action{
		work.Cut{What: strip, Count: 1, Size: units.Size{W: 90 * mm, H: 40 * mm}, From: work.Source{Stock: "card", Index: -1}},
		work.TurnOver{What: strip}, work.TurnOver{What: other},
		work.Cut{What: strip, Count: 1, Size: units.Size{W: 8 * mm, H: 40 * mm}, From: work.Source{Stock: "card", Index: -1}},
	}}
	const want = "From card cut strip 1 of the second accordion 90 x 40 mm. Turn strip 1 over, left to right; the left edge lies at the right from now on. " +
		"Turn the strip of the first accordion over, left to right; the left edge lies at the right from now on. From card cut strip 1, 8 x 40 mm."
	for range 2 {
		if got := step.Text(units.Format{Ruler: units.WholeMillimetres}); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
	step.For = work.Part{}
	if got := step.Text(units.Format{Ruler: units.WholeMillimetres}); strings.Count(got, "of the second accordion") != 3 {
		t.Errorf("of no part, %s", got)
	}
}
