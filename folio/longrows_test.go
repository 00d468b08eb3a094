package folio_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// anySize generates lengths of every magnitude between two.
func anySize(low, high units.Length) gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 30), gen.Float64Range(1, 2)), func(v []any) units.Length {
		l := low
		for range v[0].(int) {
			if l < high/2 {
				l *= 2
			}
		}
		return min(high, units.Length(float64(l)*v[1].(float64)))
	})
}

func anyHinge() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 4), gen.IntRange(0, 2), anySize(mm/50, units.Metre), gen.IntRange(1, 179)), func(v []any) rule.Hinge {
		h := rule.Hinge{Crease: rule.CreasePlace(v[0].(int))}
		if h.Crease == rule.CreaseAtOffset {
			h.Offset = mm / 100
		}
		switch v[1].(int) {
		case 0:
			h.Width = v[2].(units.Length)
		case 1:
			h.Rule = rule.HingeLeast
		}
		if v[3].(int) > 120 {
			h.Angle = v[3].(int)
		}
		return h
	})
}

// anyLongRow generates folios of boards and hinges of any size that lengths may have, of every
// form and of rows as data, in which hinges may be much longer than boards.
func anyLongRow() gopter.Gen {
	board := proptest.Map(gopter.CombineGens(anySize(mm/50, units.Metre), anySize(mm/50, units.Metre), anyHinge(), anyHinge(), gen.IntRange(0, 59)), func(v []any) []any { return v })
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, 2*int(boards.OwnRow)), anySize(mm/50, 9*units.Metre), anySize(mm/50, 200*mm), anySize(mm/50, 10*mm), anySize(mm/50, units.Metre),
		gen.Bool(), anySize(mm/50, 9*units.Metre), anyHinge(), proptest.List(2, 5, board),
	), func(v []any) folio.Spec {
		s := folio.Spec{
			Form: min(boards.Form(v[0].(int)), boards.OwnRow), Cover: units.Size{W: v[1].(units.Length), H: 3 * units.Metre},
			Board: stock.Stock{Caliper: v[2].(units.Length)}, Covering: stock.Stock{Caliper: v[3].(units.Length)}, Liner: stock.Stock{Caliper: mm / 50},
			Rulers: all(everyNanometre), Margin: rule.Margin{Ideal: 600 * mm, Least: mm, Tolerated: mm}, Mitre: rule.Mitre{Distance: 290 * mm},
			Lining: rule.Lining{Inset: mm / 100}, Hinge: v[7].(rule.Hinge),
		}
		soft := !slices.ContainsFunc(s.Form.Row().Boards, func(b boards.Board) bool { return b.Role.Spine() })
		if s.Spine.Width = v[4].(units.Length); v[5].(bool) || soft {
			s.Spine = rule.Spine{Contents: v[4].(units.Length)}
		}
		if s.Form < boards.OwnRow {
			if flap := v[6].(units.Length); flap > mm && (s.Form == boards.ForeEdgeFlap || s.Form == boards.TwoFlaps) {
				s.FlapWidth = flap
			}
			return s
		}
		for i, v := range v[8].([][]any) {
			chance := v[4].(int)
			j := boards.Joint{Hinge: v[2].(rule.Hinge), Fold: score.Fold(chance % 5 / 4)}
			if i > 0 {
				s.Row.Joints = append(s.Row.Joints, j)
			}
			if i > 0 && chance%2 == 0 {
				spine := boards.Board{Role: boards.Spine1 + boards.Role(i) - 1}
				if chance%3 == 0 {
					spine.Width = v[1].(units.Length)
				}
				j.Hinge = v[3].(rule.Hinge)
				s.Row.Boards, s.Row.Joints = append(s.Row.Boards, spine), append(s.Row.Joints, j)
			}
			lies := boards.Board{Role: boards.Panel1 + boards.Role(i)}
			if chance%4 > 0 {
				lies.Width = v[0].(units.Length)
			}
			s.Row.Boards = append(s.Row.Boards, lies)
		}
		return s
	})
}

// Folios of any sizes build or are refused: hinges may reach further than the boards beside
// them, so that those do not lie over each other, and a row that is too long for anything is
// folded all the same. What is built is no longer than a length may be. A form that does not
// shut as it is asked for, with flaps that are wider than what they are to lie over, is refused
// with the name of one that shuts, and has the spine that is asked for.
func TestRowsOfAnySize(t *testing.T) {
	built, long, never := 0, 0, 0
	proptest.Run(t, 3000, func(props *gopter.Properties) {
		props.Property("builds or is refused", prop.ForAll(func(s folio.Spec) string {
			p, err := folio.Build(s)
			if err == nil {
				built++
				if w := p.OpenWidth().Length(); w > units.Longest {
					return "an open cover of " + w.String()
				}
				return ""
			}
			bad, ok := errors.AsType[*check.Error](err)
			if !ok {
				return err.Error()
			}
			for v := range bad.All() {
				if strings.Contains(v.Got, " of open width") {
					long++
				}
				if v.Code != folio.NeverShuts || v.Path != "form" {
					continue
				}
				never++
				other := s
				for form := range boards.OwnRow {
					if strings.HasPrefix(v.Want, `"`+form.String()+`"`) {
						other.Form, other.FlapWidth = form, 0
					}
				}
				if err := builds(other); other.Form == s.Form || refusedWith(err, "", folio.NeverShuts) || refusedWith(err, "spine.width", check.Conflict) {
					return v.Want + ", and then: " + fmt.Sprint(err)
				}
			}
			return ""
		}, anyLongRow()))
	})
	if built < proptest.Cases(150) || long < proptest.Cases(300) || never < proptest.Cases(40) {
		t.Errorf("only %d built, %d too long, %d forms that do not shut", built, long, never)
	}
}
