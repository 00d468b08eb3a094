package folio_test

import (
	"errors"
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// unruledCase is plainCase with every length off the ruler: odd numbers of
// nanometres or primes of micrometres.
func unruledCase(n int) folio.Spec {
	s := plainCase()
	odd := func(l *units.Length, by ...units.Length) { *l += by[n%len(by)] }
	odd(&s.Cover.W, 7919, 104_729, 3)
	odd(&s.Cover.H, 15_485_863%1_000_000, 1, 611_953)
	odd(&s.Spine.Width, 1, 350_377, 99_991)
	odd(&s.Board.Caliper, 1, 2, 17_389)
	odd(&s.Covering.Caliper, 2, 1, 1009)
	odd(&s.Liner.Caliper, 1, 4001, 2)
	odd(&s.Hinge.Width, 48_611, 1, 2)
	odd(&s.Margin.Ideal, 1, 27_644_437%1_000_000, 2)
	odd(&s.Lining.Inset, 1, 2, 86_028_121%1_000_000)
	return s
}

// looseLimits says how far beyond what would do is wrong again, where that is more
// than a nanometre, and why.
var looseLimits = map[string]units.Length{
	"nothing to turn in":                units.Shortest,             // what is turned in is a length
	"set back":                          units.Shortest,             // and so is a board's width
	"bare corner":                       2 * nm,                     // half of an odd edge
	"nothing to mitre":                  2 * nm,                     // half of odd margins
	"liner short of the turn-in":        2 * nm,                     // half of a step, and a nanometre that is lapped
	"does not close":                    9 * mm,                     // an ease, a step of the ruler, and gaps of 7 mm creased further out
	"picture too low for an opening":    5980*units.Micrometre + nm, // another lap would do for a lower one
	"picture too narrow for an opening": 5980*units.Micrometre + nm, // likewise
	"too wide by another's height":      mm,                         // on the ruler
	"edge shows in the window":          mm,                         // on the ruler
}

// What a violation says would do does, to the nanometre, with every length off the
// ruler; and a nanometre beyond that does not.
func TestLimitsAtTheEdge(t *testing.T) {
	met := map[string]bool{}
	for _, e := range append(edges(), fittingEdges()...) {
		if max(e.fine.Abs(), e.wrong.Abs()) < 1000 {
			continue // a number, no length
		}
		for n := range 3 {
			for _, far := range [...]units.Length{1, 999_983, 7_368_787} {
				if e.wrong < e.fine {
					far = -far
				}
				s := unruledCase(n)
				e.set(&s, e.wrong+far)
				met[e.name] = atTheEdge(t, e, s) || met[e.name]
			}
		}
	}
	limits := 0
	for _, e := range append(edges(), fittingEdges()...) {
		if met[e.name] {
			limits++
		}
		if _, loose := looseLimits[e.name]; loose && !met[e.name] {
			t.Errorf("%s has no limit", e.name)
		}
	}
	if limits < 40 {
		t.Errorf("only %d limits were tried", limits)
	}
}

// atTheEdge reports whether what is wrong has a limit.
func atTheEdge(t *testing.T, e edge, s folio.Spec) bool {
	t.Helper()
	v, refused := refusal(s, e.path, e.code)
	if !refused || v.Bound == check.NoBound {
		return false
	}
	at := func(l units.Length) bool {
		s := mendtest.Copy(s)
		if err := mendtest.At(reflect.ValueOf(&s).Elem(), v.Path, func(f reflect.Value) { f.SetInt(int64(l)) }); err != nil {
			t.Fatal(err)
		}
		_, refused := refusal(s, e.path, e.code)
		return refused
	}
	beyond := max(looseLimits[e.name], nm)
	if v.Bound == check.AtLeast {
		beyond = -beyond
	}
	if at(v.Limit) {
		t.Errorf("%s: what would do does not: %v", e.name, v)
	}
	if !at(v.Limit + beyond) {
		t.Errorf("%s: what is %v beyond what would do does too: %v", e.name, beyond.Abs(), v)
	}
	return true
}

// refusal returns the violation of a code at a path.
func refusal(s folio.Spec, path string, code check.Code) (check.Violation, bool) {
	_, err := folio.Build(s)
	var bad *check.Error
	if !errors.As(err, &bad) {
		return check.Violation{}, false
	}
	return bad.Find(path, code)
}
