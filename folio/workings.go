package folio

import "boardwrap.example/units"

// lengthOf returns what a working comes to, 0 for none.
//
//go:noinline
func lengthOf(w *units.Working) units.Length {
	if w == nil {
		return 0
	}
	return w.Length()
}

// of returns what a working says, the zero Working for none.
func of(w *units.Working) units.Working {
	if w == nil {
		return units.Working{}
	}
	return *w
}

// exactly returns the working of a sum that no ruler rounds.
func exactly(g *units.Ledger, label string, n units.Notation, terms ...units.Term) units.Working {
	return g.Sum(label, n.Exact(), units.Nearest, terms...)
}

// times returns n·l; the bounds of a plan keep it in range.
//
//go:noinline
func times(l units.Length, n int) units.Length {
	product, _ := l.Times(int64(n))
	return product
}

// total adds up the terms of a working.
func total(terms []units.Term) units.Length {
	var sum units.Length
	for _, t := range terms {
		sum += times(t.Length, t.Count)
	}
	return sum
}

// used cuts off the unused terms at the end of a fixed list.
func used(terms []units.Term) []units.Term {
	for i := range terms {
		if terms[i].Label == "" {
			return terms[:i]
		}
	}
	return terms
}

// merge appends a term, or counts an equal one once more.
//
//go:noinline
func merge(terms []units.Term, t units.Term) []units.Term {
	for i := range terms {
		if terms[i].Label == t.Label && terms[i].Length == t.Length {
			terms[i].Count += t.Count
			return terms
		}
	}
	return append(terms, t)
}
