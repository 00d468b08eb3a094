package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A clearance that leaves no room for a mat of its own size is told how much would do:
// that does, and a nanometre more does not, also where the mat leaves an odd number of them,
// across or along.
func TestClearanceThatWouldDo(t *testing.T) {
	for i, over := range []units.Length{5*mm + 1, 5*mm + 2, 7_000_003, 5*mm + 1, 5*mm + 2} {
		s := plainCase()
		s.Rulers = all(everyNanometre)
		panel, _ := mustBuild(t, s).Panel(boards.RightCover, false)
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: panel.Size().W - over, H: 60 * mm}}}}
		if i >= 3 {
			s.Fittings[0].Kind = folio.Mat{Size: units.Size{W: 60 * mm, H: panel.Size().H - over}}
		}
		s.Clearance = panel.Size().W
		v, ok := refusal(s, "clearance", check.TooLarge)
		if !ok {
			t.Errorf("%v over: %v", over, builds(s))
			continue
		}
		for more, does := range map[units.Length]bool{0: true, 1: false} {
			s.Clearance = v.Limit + more
			if err := builds(s); (err == nil) != does {
				t.Errorf("%v over: a clearance of %v: %v", over, s.Clearance, err)
			}
		}
	}
}
