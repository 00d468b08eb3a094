package layout_test

import (
	"encoding"
	"errors"
	"fmt"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
)

// Every value of an enumeration reads back from its text, and only those do.
func TestEnumText(t *testing.T) {
	enumText(t, layout.QuarterTurn, layout.HalfTurn, layout.NoTurn)
	enumText(t, layout.Waste, layout.Offcut, layout.PieceUse, layout.Cut)
	enumText(t, layout.Narrower, layout.Lower, layout.SmallerMargin, layout.LinerInPanels, layout.InQuarter, layout.InOnePiece)
}

func enumText[E ~uint8](t *testing.T, values ...E) {
	t.Helper()
	seen := map[string]bool{}
	for _, v := range values {
		text, err := any(v).(encoding.TextMarshaler).MarshalText()
		appended, errA := any(v).(encoding.TextAppender).AppendText([]byte("it is "))
		back := E(77)
		errB := any(&back).(encoding.TextUnmarshaler).UnmarshalText(text)
		if err != nil || errA != nil || errB != nil || back != v || fmt.Sprint(v) != string(text) || string(appended) != "it is "+string(text) || seen[string(text)] {
			t.Errorf("%d is %q and reads back as %d, %v, %v, %v", v, text, back, err, errA, errB)
		}
		seen[string(text)] = true
	}
	none := E(len(values))
	if _, err := any(none).(encoding.TextMarshaler).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%d has a text: %v", none, err)
	}
	if err := any(&none).(encoding.TextUnmarshaler).UnmarshalText([]byte("elsewhere")); !errors.Is(err, units.ErrSyntax) || none != E(len(values)) {
		t.Errorf("elsewhere is read: %v", err)
	}
}
