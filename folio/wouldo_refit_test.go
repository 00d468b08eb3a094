package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
)

// A measure is spoilt: paths lead to its fields or to those of the Spec, and what
// violations say would do does.
func TestWhatWouldDoOfMeasures(t *testing.T) {
	type asked struct{ Measured refit.Measured }
	s := good()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	sound := asked{refit.Measured{Width: p.OpenWidth().Length() + mm/2, Height: p.OpenHeight().Length() + mm/2}}
	var rest units.Length
	for b := range p.Boards() {
		sound.Measured.Panels = append(sound.Measured.Panels, b.Size().W)
		rest += b.Size().W
	}
	again := func(a asked) error {
		_, err := p.Refit(a.Measured)
		return err
	}
	if err := again(sound); err != nil || rest >= sound.Measured.Width {
		t.Fatal(rest, err)
	}
	mendtest.Many(t, 400, 1, mendtest.AdviceOf(t, ".", "../units/check"), func(tally *mendtest.Tally, from int64) {
		a := mendtest.Spoil(sound, from)
		mendtest.Value(tally, a, again(a), nil, again)
	})
}
