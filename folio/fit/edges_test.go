package fit_test

import (
	"context"
	"errors"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// edgeSpec has covers of 120 x 170 mm on a spine of 25 mm, all of it on a ruler of
// millimetres.
func edgeSpec() folio.Spec {
	return folio.Spec{
		Cover: units.Size{W: 120 * units.Millimetre, H: 170 * units.Millimetre}, Spine: rule.Spine{Width: 25 * units.Millimetre},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * units.Millimetre},
	}
}

func edges(t *testing.T) []edgetest.Edge {
	const mm, nm = units.Millimetre, units.Nanometre
	ctx := context.Background()
	plan, err := folio.Build(edgeSpec())
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(plan)
	leaf := func(w, h, thick units.Length) pocket.Content {
		return pocket.Content{Name: "leaf", Size: units.Size{W: w, H: h}, Thickness: thick}
	}
	edge := func(name, path string, code check.Code, fine, wrong units.Length, try func(units.Length) error) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(try)}
	}
	all := func(b fit.Budget, c ...pocket.Content) error {
		_, err := survey.All(ctx, b, c...)
		return err
	}
	smallest := func(s folio.Spec, c ...pocket.Content) error {
		_, err := fit.Smallest(ctx, s, fit.Budget{Steps: 20}, c...)
		return err
	}
	largest := func(change func(*folio.Spec), proportions units.Size) error {
		s := edgeSpec()
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 500 * mm, H: 400 * mm}}}
		change(&s)
		_, err := fit.Largest(ctx, s, proportions)
		return err
	}
	as := func(*folio.Spec) {}
	// An inset of 3 mm and a reveal of 3 mm round what lies there.
	size := units.Size{W: 108 * mm, H: 158 * mm}
	return []edgetest.Edge{
		// A leaf lies on the inside of a cover as it is, or turned, up to its size.
		edge("content wider than the inside", "contents", fit.NotHeld, size.W, size.W+nm, func(v units.Length) error { return all(fit.Budget{}, leaf(v, size.H, 0)) }),
		edge("content higher than the inside", "contents", fit.NotHeld, size.H, size.H+nm, func(v units.Length) error { return all(fit.Budget{}, leaf(size.W, v, 0)) }),
		// One on each inside of the two covers.
		edge("more contents than insides", "contents", fit.NotHeld, 2, 3, func(v units.Length) error {
			return all(fit.Budget{}, []pocket.Content{leaf(size.W, size.H, 0), leaf(size.W, size.H, 0), leaf(size.W, size.H, 0)}[:v]...)
		}),
		edge("width of a content", "contents[0].size.w", check.OutOfRange, units.Shortest, units.Shortest-nm, func(v units.Length) error { return all(fit.Budget{}, leaf(v, mm, 0)) }),
		edge("thickness of a content", "contents[0].thickness", check.Negative, 0, -nm, func(v units.Length) error { return smallest(edgeSpec(), leaf(20*mm, 20*mm, v)) }),
		edge("contents", "contents", check.TooMany, 2, 257, func(v units.Length) error {
			return all(fit.Budget{}, slicesOf(leaf(size.W, size.H, 0), int(v))...)
		}),
		edge("steps of laying all", "budget.steps", check.Negative, 2000, -1, func(v units.Length) error {
			return all(fit.Budget{Steps: v.Nanometres()}, leaf(20*mm, 20*mm, 0))
		}),
		edge("steps of laying in fittings", "budget.steps", check.Negative, 2000, -1, func(v units.Length) error {
			_, err := survey.InFittings(ctx, fit.Budget{Steps: v.Nanometres()})
			return err
		}),
		edge("steps of the smallest", "budget.steps", check.Negative, 2000, -1, func(v units.Length) error {
			_, err := fit.Smallest(ctx, edgeSpec(), fit.Budget{Steps: v.Nanometres()}, leaf(20*mm, 20*mm, 0))
			return err
		}),
		edge("a block in the smallest", "block.page", check.Conflict, 0, 100*mm, func(v units.Length) error {
			s := edgeSpec()
			s.Block = boards.Block{Page: units.Size{W: v, H: v}}
			return smallest(s, leaf(20*mm, 20*mm, 0))
		}),
		edge("ruler of more than a metre", "rulers.board", check.Unknown, units.Length(units.WholeMillimetres), -1, func(v units.Length) error {
			return largest(func(s *folio.Spec) { s.Rulers.Board = units.Ruler(v) }, edgeSpec().Cover)
		}),
		edge("no sheets to be the largest of", "covering.sheets", check.Missing, 1, 0, func(v units.Length) error {
			return largest(func(s *folio.Spec) { s.Covering.Sheets = s.Covering.Sheets[:v] }, edgeSpec().Cover)
		}),
		would(edge("proportions", "proportions.w", check.NotPositive, 120*mm, 0, func(v units.Length) error { return largest(as, units.Size{W: v, H: 170 * mm}) }), units.Shortest),
		edge("covers of a family", "covers", check.TooMany, 3, 1001, func(v units.Length) error {
			_, err := fit.FamilyOf(ctx, edgeSpec(), slicesOf(edgeSpec().Cover, int(v))...)
			return err
		}),
		// The spine for two boards of 2 mm is a graduation of a ruler of centimetres,
		// so that a thinner one is none: its proof says so.
		would(edge("thinner than one graduation", "spine.width", check.TooSmall, mm, 10*mm, func(v units.Length) error {
			s := edgeSpec()
			s.Spine, s.Rulers.Board = rule.Spine{}, units.Ruler(v)
			least, err := fit.Smallest(ctx, s, fit.Budget{}, leaf(20*mm, 20*mm, 0))
			if err != nil {
				return err
			}
			_, _, thinner := least.Proof()
			if _, said := errors.AsType[*check.Error](thinner); said && !refusedWith(thinner, "spine.width", check.TooSmall) {
				return nil // refused for what does not fit round it
			}
			return thinner
		}), units.Shortest),
	}
}

func would(e edgetest.Edge, limit units.Length) edgetest.Edge {
	e.Would = limit
	return e
}

func slicesOf[T any](v T, n int) []T {
	out := make([]T, n)
	for i := range out {
		out[i] = v
	}
	return out
}

func TestEdgesOfCodes(t *testing.T) {
	edgetest.Run(t, edges(t))
}

// What no spine goes round: TestSmallestOfWhatNoSpineGoesRound. Searches that end
// before they are finished: TestTogetherWithinABudget.
func TestEveryCodeHasAnEdge(t *testing.T) {
	edgetest.EveryCode(t, edges(t), 8, check.TooLarge, fit.NotFinished)
}
