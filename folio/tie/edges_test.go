package tie_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/tie"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Every edge is worked out by hand, of a folio of 104.2 x 150.2 mm.
func TestEdgesOfCodes(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	band := func(set func(*tie.Band, units.Length)) func(v units.Length) error {
		return func(v units.Length) error {
			var b tie.Band
			set(&b, v)
			_, err := b.Round(p)
			return err
		}
	}
	const nm = units.Nanometre
	edges := []edgetest.Edge{
		{Name: "band broader than the folio is high", Path: "breadth", Code: check.TooLarge, Fine: 1502 * mm / 10, Wrong: 1502*mm/10 + nm, Try: edgetest.Refused(band(func(b *tie.Band, v units.Length) { b.Breadth = v }))},
		{Name: "band broader than the folio is wide", Path: "breadth", Code: check.TooLarge, Fine: 1042 * mm / 10, Wrong: 1042*mm/10 + nm, Try: edgetest.Refused(band(func(b *tie.Band, v units.Length) { b.Breadth, b.Along = v, true }))},
		{Name: "breadth of a band", Path: "breadth", Code: check.Negative, Wrong: -nm, Try: edgetest.Refused(band(func(b *tie.Band, v units.Length) { b.Breadth = v }))},
		{Name: "lap of a band", Path: "lap", Code: check.Negative, Wrong: -nm, Try: edgetest.Refused(band(func(b *tie.Band, v units.Length) { b.Lap = v }))},
		{Name: "caliper of a band", Path: "caliper", Code: check.OutOfRange, Fine: units.Longest, Wrong: units.Longest + nm, Try: edgetest.Refused(band(func(b *tie.Band, v units.Length) { b.Caliper = v }))},
		{Name: "tail of a ribbon", Path: "tail", Code: check.OutOfRange, Fine: units.Longest, Wrong: units.Longest + nm, Try: edgetest.Refused(func(v units.Length) error {
			_, err := tie.Ribbon{Tail: v}.Round(p)
			return err
		})},
	}
	edgetest.Run(t, edges)
	edgetest.EveryCode(t, edges, 1)
}
