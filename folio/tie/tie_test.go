package tie_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/tie"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

func refused(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}

// By hand: closed the folio is 104.2 x 150.2 mm, and 21.3 mm thick with its badge
// and the film of adhesive under it.
func TestStrapsByHand(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	const tenth = mm / 10
	// 2 × (104.2 + 21.3) + 0.4 + 20 = 271.4, up to whole millimetres; a third of
	// 150.2 down.
	band, err := tie.Band{Lap: 20 * mm, Caliper: tenth}.Round(p)
	if err != nil || band.Length().Length() != 272*mm || band.Breadth().Length() != 50*mm {
		t.Errorf("band %v, %v, %v", band.Length(), band.Breadth(), err)
	}
	along, err := tie.Band{Lap: 20 * mm, Caliper: tenth, Along: true, Breadth: 60 * mm}.Round(p)
	if err != nil || along.Length().Length() != 364*mm || along.Breadth().Length() != 60*mm {
		t.Errorf("band along %v, %v, %v", along.Length(), along.Breadth(), err)
	}
	// 251.4 mm of covering all the same, and 25 mm of lap.
	usual, err := tie.Band{}.Round(p)
	if err != nil || usual.Length().Length() != 277*mm {
		t.Errorf("the usual band %v, %v", usual.Length(), err)
	}
	flush, err := tie.Band{Lap: units.None}.Round(p)
	if err != nil || flush.Length().Length() != 252*mm {
		t.Errorf("a band whose ends meet %v, %v", flush.Length(), err)
	}
	ribbon, err := tie.Ribbon{Tail: 200 * mm}.Round(p)
	if err != nil || ribbon.Length().Length() != 651*mm {
		t.Errorf("ribbon %v, %v", ribbon.Length(), err)
	}
	// 251 + 4 × 0.25 = 252, and nothing more where its ends meet.
	close, err := tie.Band{Lap: units.None, Caliper: mm / 4}.Round(p)
	if err != nil || close.Length().Length() != 252*mm {
		t.Errorf("a close band %v, %v", close.Length(), err)
	}
	// 251 + 2 × 200.1 = 651.2, up.
	long, err := tie.Ribbon{Tail: 200*mm + mm/10}.Round(p)
	if err != nil || long.Length().Length() != 652*mm {
		t.Errorf("a longer ribbon %v, %v", long.Length(), err)
	}
	// 2 × (150.2 + 21.3) = 343, and 200 mm for each end of the bow.
	usualAlong, err := tie.Ribbon{Along: true}.Round(p)
	if err != nil || usualAlong.Length().Length() != 743*mm {
		t.Errorf("the usual ribbon along %v, %v", usualAlong.Length(), err)
	}
	// A third of 104.2 is 34.7, down.
	high, err := tie.Band{Along: true}.Round(p)
	if err != nil || high.Breadth().Length() != 34*mm {
		t.Errorf("a band along %v, %v", high.Breadth(), err)
	}
	if _, err := (tie.Band{Breadth: 151 * mm}).Round(p); !refused(err, "breadth", check.TooLarge) {
		t.Errorf("a band broader than the folio: %v", err)
	}
	if _, err := (tie.Ribbon{Tail: -5}).Round(p); !refused(err, "tail", check.Negative) {
		t.Errorf("a tail of less than nothing: %v", err)
	}
}

// What is wrong is said in the notation of the plan, as 400 in are more than 10 m.
func TestStrapsSpeakAsThePlan(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	_, band := tie.Band{Lap: 400 * units.Inch}.Round(p)
	_, ribbon := tie.Ribbon{Tail: 400 * units.Inch}.Round(p)
	for _, err := range []error{band, ribbon} {
		if err == nil || !strings.Contains(err.Error(), "got 400 in; want 0 or a length up to 393.7 in") {
			t.Error(err)
		}
	}
}

// A band never has no breadth, however coarse the ruler.
func TestBandHasABreadth(t *testing.T) {
	coarse, err := units.NewRuler(60*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	s := p.Spec()
	s.Rulers.Main = coarse
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	for _, b := range []tie.Band{{}, {Breadth: 7 * mm}} {
		strap, err := b.Round(p)
		if want := max(b.Breadth, 0); err != nil || strap.Breadth().Length() <= 0 || want > 0 && strap.Breadth().Length() != want {
			t.Errorf("%+v: %v, %v", b, strap.Breadth(), err)
		}
	}
}

// What stays open has nothing tied round it.
func TestWhatStaysOpen(t *testing.T) {
	s := foliotest.Weighed()
	s.Hinge = rule.Hinge{Angle: 30, Width: 15 * mm / 10} // less than a board
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := (tie.Band{}).Round(p); !refused(err, "hinge.angle", folio.WarnOpen) {
		t.Errorf("a band: %v", err)
	}
	if _, err := (tie.Ribbon{}).Round(p); !refused(err, "hinge.angle", folio.WarnOpen) {
		t.Errorf("a ribbon: %v", err)
	}
}

// The band, wrapped round at its middle, is not too short: four quarter bends
// take π of its calipers, and four are given.
func TestBandReachesRound(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	o, _ := p.Overall(true)
	for _, caliper := range []units.Length{mm / 10, mm, 3 * mm} {
		band, err := tie.Band{Lap: 10 * mm, Caliper: caliper}.Round(p)
		if err != nil {
			t.Fatal(err)
		}
		girth := 2*(o.Width().Length()+o.Thickness().Length()).Millimetres() + math.Pi*caliper.Millimetres()
		if lap := band.Length().Length().Millimetres() - girth; lap < 10 {
			t.Errorf("a band of %v laps by %v mm", caliper, lap)
		}
	}
}
