package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A reveal that would do is a length, no less than the shortest: round a picture that is
// narrower than its room by twice that, it is 0.01 mm, and by a nanometre less none is.
func TestRevealOfTheShortest(t *testing.T) {
	for less, does := range map[units.Length]bool{2 * units.Shortest: true, 2*units.Shortest + 1: true, 2*units.Shortest - 1: false} {
		s := unruledCase(0)
		s.Rulers = all(everyNanometre)
		room, _ := mustBuild(t, s).Panel(boards.RightCover, false)
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: content(units.Size{W: room.Size().W - less, H: 30 * mm}), Reveal: 60 * mm}}}
		v, ok := refusal(s, "fittings[0].kind.reveal", folio.TooWide)
		if ok != does || ok && v.Limit != units.Shortest {
			t.Errorf("a picture %v narrower than its room: a reveal would do %v, of %v: %v", less, ok, v.Limit, builds(s))
		}
	}
}

// The reach of a strip is put up on the ruler, and stays on its board: on whole
// millimetres a board of 120.4 mm takes no more than 120, likewise one of 120.7, and
// one of 120 mm a shortest length less.
func TestReachOnTheRuler(t *testing.T) {
	for wide, most := range map[units.Length]units.Length{1204 * mm / 10: 120 * mm, 1207 * mm / 10: 120 * mm, 120 * mm: 120*mm - units.Shortest} {
		s := plainCase()
		s.Rulers.Board, s.Rulers.Wrap, s.Cover.W = everyNanometre, units.WholeMillimetres, wide
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 130 * mm}
		if v, ok := refusal(s, "quarter.reach", folio.TooWide); !ok || v.Limit != most {
			t.Errorf("a board of %v: a reach of at most %v, want %v", wide, v.Limit, most)
		}
	}
}

// A second spine that is given too narrow is told so, with what would do, whatever
// covering and board are: on whole millimetres too, where what it goes round is no
// number of those.
func TestSecondSpineTooNarrow(t *testing.T) {
	for n := range units.Length(60) {
		s := plainCase()
		s.Row = boards.ForeEdgeFlap.Row()
		s.Row.Boards[3].Width = 9*mm + 1
		s.Covering.Caliper, s.Board.Caliper = (10+n*17)*units.Micrometre, 2*mm+n*7919
		v, ok := refusal(s, "row.boards[3].width", check.TooSmall)
		if !ok {
			t.Errorf("a covering of %v, a board of %v: %v", s.Covering.Caliper, s.Board.Caliper, builds(s))
			continue
		}
		for less, does := range map[units.Length]bool{0: true, mm: false} {
			s.Row.Boards[3].Width = v.Limit - less
			if _, refused := refusal(s, "row.boards[3].width", check.TooSmall); refused == does {
				t.Errorf("a covering of %v, a board of %v: %v less than what would do does %v", s.Covering.Caliper, s.Board.Caliper, less, !refused)
			}
		}
	}
}
