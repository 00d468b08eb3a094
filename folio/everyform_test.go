package folio_test

import (
	"errors"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A wider gap or spine that is asked for by its least width does, at once, in every form with
// every hinge: chance seldom puts these together.
func TestWidthsAskedForDoInEveryForm(t *testing.T) {
	var hinges []rule.Hinge
	for c := rule.CreasePlace(0); c.Known(); c++ {
		off := units.Length(0)
		if c == rule.CreaseAtOffset {
			off = mm
		}
		for r := rule.HingeRule(0); r.Known(); r++ {
			if r != rule.HingeFixed {
				hinges = append(hinges, rule.Hinge{Rule: r, Crease: c, Offset: off})
			}
		}
		for _, w := range []units.Length{mm, 3 * mm, 7*mm + 1, 20 * mm} {
			hinges = append(hinges, rule.Hinge{Width: w, Crease: c, Offset: off})
		}
	}
	asked := 0
	for form := boards.Form(0); form < boards.OwnRow; form++ {
		for _, h := range hinges {
			for _, thick := range []units.Length{0, mm, 6 * mm} {
				for _, spine := range []rule.Spine{{Width: 9 * mm}, {Contents: 4 * mm}} {
					s := folio.Spec{Form: form, Cover: units.Size{W: 143 * mm, H: 176 * mm}, Spine: spine, Hinge: h, Rulers: rule.Rulers{Main: units.HalfMillimetres}}
					s.Board = stock.Stock{Caliper: 2*mm + 1}
					if thick > 0 {
						s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: thick}}}}
					}
					for range 6 { // one thing after the other
						_, err := folio.Build(s)
						var bad *check.Error
						if !errors.As(err, &bad) {
							break
						}
						var wide check.Violation
						for v := range bad.All() {
							if v.Code == folio.NotClosing && v.Bound == check.AtLeast {
								wide = v
							}
						}
						if wide.Path == "" {
							break
						}
						asked++
						with := mendtest.Copy(s)
						if err := set(&with, wide); err != nil {
							t.Fatal(err)
						}
						_, err = folio.Build(with)
						if errors.As(err, &bad) {
							if again, ok := bad.Find(wide.Path, folio.NotClosing); ok && again.Bound == check.AtLeast {
								t.Errorf("%v, %+v, %+v, %v thick: %v; then %v", form, h, spine, thick, wide, again)
							}
						}
						s = with
					}
				}
			}
		}
	}
	if asked < 100 {
		t.Errorf("asked for a width only %d times", asked)
	}
}

// set gives the field of a violation what would do.
func set(s *folio.Spec, v check.Violation) error {
	switch v.Path {
	case "hinge.width":
		s.Hinge.Width = v.Limit
	case "spine.width":
		s.Spine.Width = v.Limit
	case "spine.contents":
		s.Spine.Contents = v.Limit
	case "closing.underflap":
		s.Closing.UnderFlap = v.Limit
	default:
		return errors.New("a width is asked for at " + v.Path)
	}
	return nil
}
