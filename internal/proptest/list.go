package proptest

import (
	"reflect"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
)

// List returns a generator of lists of least to most elements, each length as
// likely as the others. They shrink by losing elements, down to least, and then
// element by element. It stands for a FlatMap over SliceOfN, which keeps the
// length that it was found with.
func List(least, most int, element gopter.Gen) gopter.Gen {
	return func(p *gopter.GenParameters) *gopter.GenResult {
		r := gen.SliceOfN(least+p.Rng.Intn(most-least+1), element)(p)
		one := element(p) // for its shrinker and sieve; the list may be empty
		r.Shrinker = gen.SliceShrinker(one.Shrinker)
		r.Sieve = func(v any) bool {
			list := reflect.ValueOf(v)
			if list.Len() < least || list.Len() > most {
				return false
			}
			for i := range list.Len() {
				if one.Sieve != nil && !one.Sieve(list.Index(i).Interface()) {
					return false
				}
			}
			return true
		}
		return r
	}
}
