package pocket_test

import (
	"encoding"
	"errors"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// An explicit none is nothing, where zero is a default.
func TestNone(t *testing.T) {
	card, r := pocket.IDCard(), units.WholeMillimetres
	slip := pocket.Slip{Content: card, Depth: pocket.Share{Part: 1, Of: 1}}
	eased := design(t, slip, pocket.Paper{}, r)
	slip.Ease, slip.Notch = pocket.Ease{W: units.None, H: units.None}, pocket.ThumbNotch{Width: units.None, Depth: units.None}
	bare := design(t, slip, pocket.Paper{}, r)
	for i, p := range bare.Spots() {
		// 85.6 x 53.98 x 0.76 mm, and the thickness that the ease would have taken.
		if want := units.MustParseSize("87 x 54 mm"); i > 0 || p.Clear() != want {
			t.Errorf("without ease %v are clear; want %v", p.Clear(), want)
		}
	}
	if eased.Closed() == bare.Closed() {
		t.Error("an ease of none is the default")
	}
	for range piece(t, bare, "pocket front").Blank().Notches() {
		t.Error("a notch although there is to be none")
	}
	flap := design(t, pocket.Flap{Content: card, Margin: units.None}, pocket.Paper{}, r)
	if want := units.MustParseSize("86 x 54 mm"); flap.Closed() != want {
		t.Errorf("a leaf without a margin is %v; want %v", flap.Closed(), want)
	}
	guard := design(t, pocket.Concertina{Content: card, Leaves: 3, Land: units.None, Margin: units.None}, pocket.Paper{}, r)
	if got, want := piece(t, guard, "guard").Blank().Size().W, 6*4*mm+2*10*mm; got != want {
		t.Errorf("a guard without lands is %v long; want %v", got, want)
	}
	slip.Notch = pocket.ThumbNotch{Width: units.None, Depth: 5 * mm}
	if _, ok := violations(t, slip, pocket.Paper{}, r).Find("notch", ""); !ok {
		t.Error("half a notch is taken")
	}
}

type textual interface {
	encoding.TextMarshaler
	encoding.TextUnmarshaler
}

// Every enumeration reads back what it writes.
func TestTexts(t *testing.T) {
	for n := range uint8(3) {
		for _, c := range []struct {
			from encoding.TextMarshaler
			to   textual
			most uint8
		}{
			{pocket.Build(n), new(pocket.Build), 1}, {pocket.GussetAt(n), new(pocket.GussetAt), 1},
			{pocket.StockKind(n), new(pocket.StockKind), 1}, {pocket.Groove(n), new(pocket.Groove), 1},
		} {
			text, err := c.from.MarshalText()
			if n > c.most {
				if !errors.Is(err, units.ErrUnknown) {
					t.Errorf("%T %d writes %q, %v", c.from, n, text, err)
				}
				continue
			}
			if err := c.to.UnmarshalText(text); err != nil {
				t.Errorf("%q: %v", text, err)
			}
			if again, err := c.to.MarshalText(); err != nil || string(again) != string(text) {
				t.Errorf("%q reads back as %q, %v", text, again, err)
			}
			if err := c.to.UnmarshalText([]byte("papyrus")); !errors.Is(err, units.ErrSyntax) {
				t.Errorf("%T reads papyrus: %v", c.to, err)
			}
		}
	}
}
