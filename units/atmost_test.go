package units_test

import (
	"strings"
	"testing"

	"boardwrap.example/units"
)

// What is told as at most so much is no more than there is, and what is told as at least
// so much no less, within a graduation of it, and something where there is something:
// read back, a number of lengths on every kind of ruler.
func TestAppendAtMostAndAtLeast(t *testing.T) {
	told, finer := 0, 0
	for _, r := range []units.Ruler{0, units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres, units.Sixteenths, units.SixtyFourths, units.Thousandths, units.InchDecimal.Exact()} {
		for l := units.Length(1); l < units.Metre; l = l*3/2 + 7 {
			text := string(units.Format{Ruler: r}.AppendAtMost(nil, l))
			bare, rounded := strings.CutPrefix(text, "~")
			got, err := units.Parse(bare)
			switch {
			case err != nil:
				t.Fatal(text, err)
			case got > l, l-got >= r.Step(), rounded != (got != l):
				t.Errorf("%v on a ruler of %v: %s", l, r.Step(), text)
			case got == 0 && l >= r.Finer().Finer().Finer().Step():
				t.Errorf("%v on a ruler of %v is nothing", l, r.Step())
			}
			text = string(units.Format{Ruler: r}.AppendAtLeast(nil, l))
			bare, rounded = strings.CutPrefix(text, "~")
			if up, err := units.Parse(bare); err != nil || up < l || up-l >= r.Step() || rounded != (up != l) || up > got && up-got > r.Finer().Step() && l < r.Step() {
				t.Errorf("%v on a ruler of %v: %s, %v", l, r.Step(), text, err)
			}
			if told++; got > 0 && l < r.Step() {
				finer++
			}
		}
	}
	if finer < told/20 {
		t.Errorf("of %d only %d are less than a graduation", told, finer)
	}
	if got, want := string(units.Format{Ruler: units.WholeMillimetres, Second: units.ThirtySeconds}.AppendAtMost(nil, 158*units.Millimetre/100)), "~1 mm (~1/32 in)"; got != want {
		t.Error(got)
	}
}
