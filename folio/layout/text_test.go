package layout_test

import (
	"encoding"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// One of a thing is never written as many, and many never as one: in warnings,
// in what is wrong, and in the steps.
func TestOneAndMany(t *testing.T) {
	slip := regexp.MustCompile(`\b1 (?:bought )?(?:sheets|offcuts|pieces|parts|times)\b|\b(?:[2-9]|[1-9][0-9]+) (?:bought )?(?:sheet|offcut|piece|part|time)\b`)
	unknown := func(n int) layout.Material {
		return layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", n, stock.GrainUnknown)}}
	}
	along := stock.GrainParallel
	for _, c := range []struct {
		want string
		job  layout.Job
	}{
		{"take as many bought sheets", hand(unknown(9), piece("8 x 8", 1, along, layout.QuarterTurn))},
		{"take 2 bought sheets instead of 1", hand(unknown(9), piece("5 x 8", 2, along, layout.QuarterTurn), piece("2 x 8", 1, along, layout.QuarterTurn))},
		{"1 piece finds no place", hand(unknown(9), piece("4 x 12", 1, along, layout.QuarterTurn))},
		{"2 pieces find no place", hand(unknown(9), piece("4 x 12", 2, along, layout.QuarterTurn))},
		{"no place for 1 of 2 pieces:", hand(unknown(1), piece("8 x 8", 2, along, layout.QuarterTurn))},
		{"sheet of paper", hand(unknown(9), piece("3 x 3", 30, stock.GrainAny, layout.QuarterTurn))},
	} {
		l, err := layout.Lay(t.Context(), c.job, layout.Budget{})
		var texts []string
		for w := range l.Warnings() {
			texts = append(texts, w.Text)
		}
		var bad *check.Error
		if errors.As(err, &bad) {
			texts = append(texts, bad.Error())
		}
		for s := range l.Steps() {
			texts = append(texts, s.Text(units.Format{}))
		}
		all := strings.Join(texts, "\n")
		if !strings.Contains(all, c.want) {
			t.Errorf("%q is not in\n%s", c.want, all)
		}
		if s := slip.FindString(all); s != "" {
			t.Errorf("%q is in\n%s", s, all)
		}
	}
}

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
