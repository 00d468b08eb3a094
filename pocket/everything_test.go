package pocket_test

import (
	"slices"
	"testing"

	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket"
)

// everything is each function and type of the package.
func everything() []any {
	all := []any{
		pocket.AtHand, pocket.UsualContents, pocket.UsualContent, pocket.Prints, pocket.IDCard, pocket.EnvelopeEase, pocket.ThickEase, pocket.Kinds,
		pocket.Accept, pocket.Holds, pocket.Make, pocket.WithDefaults, pocket.StandIn, pocket.Paper{}, pocket.Groove(0), pocket.Build(0), pocket.GussetAt(0),
		func(k pocket.Kind, c pocket.Content) pocket.Kind {
			return pocket.Holding(k, func(to *pocket.Content) { *to = c })
		},
		fuzztest.Except{Name: "Holding", Because: "called with a function of ours"},
	}
	for k := range pocket.Kinds() {
		all = append(all, k)
	}
	all = append(all, fuzztest.Choices[pocket.Setting](shelf{})...)
	return append(all, fuzztest.Choices(slices.Collect(pocket.Kinds())...)...)
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 3000, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
