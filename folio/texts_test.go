package folio_test

import (
	"encoding"
	"errors"
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"

	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// texted is an enumeration that writes and reads its values.
type texted interface {
	~uint8
	String() string
	encoding.TextMarshaler
	encoding.TextAppender
}

// readsBack tries every value up to the last: what it writes it reads, no two
// write the same, and the next value has no text.
func readsBack[E texted, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, last E) {
	t.Helper()
	seen := map[string]bool{}
	for v := E(0); v <= last; v++ {
		text, err := v.MarshalText()
		var back E
		if err != nil || string(text) != v.String() || seen[string(text)] || P(&back).UnmarshalText(text) != nil || back != v {
			t.Errorf("%T %d: %q, %v, back %d", v, v, text, err, back)
		}
		if appended, err := v.AppendText([]byte("x")); err != nil || string(appended) != "x"+string(text) {
			t.Errorf("%T %d: appended %q, %v", v, v, appended, err)
		}
		seen[string(text)] = true
	}
	if _, err := (last + 1).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%T %d: %v", last, last+1, err)
	}
	back := last
	if err := P(&back).UnmarshalText([]byte("no such word")); !errors.Is(err, units.ErrSyntax) || back != last {
		t.Errorf("%T: %v, became %d", last, err, back)
	}
}

func TestTextsOfEnumerations(t *testing.T) {
	readsBack(t, place.Even)
	readsBack(t, place.OfFitting)
	readsBack(t, place.PictureUsualLying)
	readsBack(t, view.Cover)
	readsBack(t, folio.ChangedFitting)
	readsBack(t, folio.BetweenOutsides)
	readsBack(t, folio.StiffenerPiece)
	readsBack(t, boards.OwnRow)
	readsBack(t, boards.Panel9)
	readsBack(t, boards.WidthFixed)
	readsBack(t, rule.HingeLeast)
	readsBack(t, rule.CreaseRound)
	readsBack(t, rule.MitreFixed)
	readsBack(t, rule.MarginSeventeen)
	readsBack(t, rule.LiningPanels)
	readsBack(t, rule.SidesFirst)
	readsBack(t, rule.QuarterAlways)
	readsBack(t, rule.SpineBlock)
	readsBack(t, stock.GrainAlongHeight)
	readsBack(t, stock.GrainAny)
	readsBack(t, folio.LimitSheet)
}
