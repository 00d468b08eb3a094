package weigh_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What is documented is taken, and what lies beyond it is not.
func TestEdgesOfCodes(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	edge := func(name, path string, code check.Code, fine, wrong units.Length, set func(*weigh.Options, int64)) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			var o weigh.Options
			set(&o, int64(v))
			_, err := weigh.Of(p, o)
			return err
		})}
	}
	edges := []edgetest.Edge{
		edge("fewer copies than none", "copies", check.Negative, 0, -1, func(o *weigh.Options, v int64) { o.Copies = int(v) }),
		edge("a million copies", "copies", check.TooMany, 1_000_000, 1_000_001, func(o *weigh.Options, v int64) { o.Copies = int(v) }),
		edge("density below nothing", "density", check.OutOfRange, 0, -1, func(o *weigh.Options, v int64) { o.Density = v }),
		edge("density above a metal's", "density", check.OutOfRange, 25_000, 25_001, func(o *weigh.Options, v int64) { o.Density = v }),
		edge("block of less than nothing", "block", check.OutOfRange, 0, -1, func(o *weigh.Options, v int64) { o.Block = units.Mass(v) }),
		edge("block of 100 kg", "block", check.OutOfRange, units.Length(100*units.Kilogram), units.Length(100*units.Kilogram+1), func(o *weigh.Options, v int64) { o.Block = units.Mass(v) }),
	}
	edges = append(edges, edgetest.Edge{Name: "no plan", Path: "plan", Code: check.Missing, Fine: 1, Wrong: 0, Try: edgetest.Refused(func(v units.Length) error {
		_, err := weigh.Of([]*folio.Plan{nil, p}[v], weigh.Options{})
		return err
	})})
	edgetest.Run(t, edges)
	edgetest.EveryCode(t, edges, 4)
}
