package wire_test

import (
	"testing"

	"boardwrap.example/folio/wire"
)

// FuzzReadBatch: no document makes the reader panic, and what it takes is written as
// bytes that are read and written as the same again.
func FuzzReadBatch(f *testing.F) {
	f.Add([]byte(`{"version":1,"batch":{"folios":[{"spec":{"cover":"6 x 8 in"},"copies":3}],"costs":{"rate":"18 USD","prices":["9.50 USD","0"]}}}`))
	f.Add([]byte(`{"version":1,"batch":{"materials":[{"name":"board","cutter":{"longestCut":"none"},"sheets":[{"size":"1 x 1 m","count":-1,"price":"7 XYZ"}]}]}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := wire.ReadBatch(data)
		if err != nil {
			return
		}
		once, err := wire.AppendBatch(nil, b, wire.Options{})
		if err != nil {
			t.Fatalf("%q was read and cannot be written: %v", data, err)
		}
		back, err := wire.ReadBatch(once)
		if err != nil {
			t.Fatalf("%q is written as %q: %v", data, once, err)
		}
		if again, err := wire.AppendBatch(nil, back, wire.Options{}); err != nil || string(again) != string(once) {
			t.Fatalf("%q, then %q: %v", once, again, err)
		}
	})
}

// FuzzReadDesigns: no document makes the reader panic, and each design that it takes
// can be written as a Spec.
func FuzzReadDesigns(f *testing.F) {
	f.Add([]byte(`{"version":1,"proposals":{"steps":7}}`))
	f.Add([]byte(`{"version":1,"proposals":{"lacking":[{"aim":"smallest"}],"steps":7,"proposals":[{"spec":{"cover":"6 x 8 in"},"spine":{"mm":1e400,"text":"none"}}]}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		designs, err := wire.ReadProposed(data)
		if err != nil && designs != nil {
			t.Fatalf("%q is half taken", data)
		}
		for _, d := range designs {
			if _, err := wire.AppendSpec(nil, d.Spec, wire.Options{}); err != nil {
				t.Fatalf("%q: %v", data, err)
			}
		}
	})
}
