package post_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
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
	item := func(name, path string, code check.Code, fine, wrong units.Length, set func(*post.Item, units.Length)) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			i := post.Item{Size: units.Size{W: 200 * mm, H: 100 * mm}, Thickness: 5 * mm, Mass: 100 * units.Gram}
			set(&i, v)
			_, err := post.RoyalMail().Judge(i, units.MetricDecimal)
			return err
		})}
	}
	packed := func(name, path string, code check.Code, fine, wrong units.Length, set func(*post.Packing, units.Length)) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			var k post.Packing
			set(&k, v)
			_, err := post.Pack(p, k)
			return err
		})}
	}
	const nm = units.Nanometre
	most := units.Length(1000 * units.Kilogram)
	edges := []edgetest.Edge{
		item("width of an item", "item.size.w", check.OutOfRange, units.Shortest, units.Shortest-nm, func(i *post.Item, v units.Length) { i.Size.W = v }),
		item("thickness of an item", "item.thickness", check.Negative, 0, -nm, func(i *post.Item, v units.Length) { i.Thickness = v }),
		item("how uneven it is", "item.uneven", check.Negative, 0, -nm, func(i *post.Item, v units.Length) { i.Uneven = v }),
		item("mass below nothing", "item.mass", check.Negative, 0, -1, func(i *post.Item, v units.Length) { i.Mass = units.Mass(v) }),
		item("a tonne", "item.mass", check.OutOfRange, most, most+1, func(i *post.Item, v units.Length) { i.Mass = units.Mass(v) }),
		{Name: "formats of a service", Path: "formats", Code: check.TooMany, Fine: 1000, Wrong: 1001, Try: edgetest.Refused(func(v units.Length) error {
			_, err := post.Service{Formats: make([]post.ItemFormat, v)}.Judge(post.Item{Size: units.Size{W: mm, H: mm}}, units.MetricDecimal)
			return err
		})},
		packed("padding", "padding", check.Negative, 0, -nm, func(k *post.Packing, v units.Length) { k.Padding = v }),
		packed("wall", "wall", check.OutOfRange, units.Longest, units.Longest+nm, func(k *post.Packing, v units.Length) { k.Wall = v }),
		packed("mass of a packing", "mass", check.OutOfRange, most/10, most/10+1, func(k *post.Packing, v units.Length) { k.Mass = units.Mass(v) }),
		packed("how it is weighed", "weighing.density", check.OutOfRange, 0, -1, func(k *post.Packing, v units.Length) { k.Weighing.Density = int64(v) }),
		{Name: "padding in a box", Path: "padding", Code: check.Negative, Fine: 0, Wrong: -nm, Try: edgetest.Refused(func(v units.Length) error {
			_, err := post.BoxFor(p, v)
			return err
		})},
	}
	noPlan := func(name string, ask func(*folio.Plan) error) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: "plan", Code: check.Missing, Fine: 1, Wrong: 0, Try: edgetest.Refused(func(v units.Length) error {
			return ask([]*folio.Plan{nil, p}[v])
		})}
	}
	edges = append(edges,
		noPlan("no plan to pack", func(p *folio.Plan) error { _, err := post.Pack(p, post.Packing{}); return err }),
		noPlan("no plan to box", func(p *folio.Plan) error { _, err := post.BoxFor(p, 0); return err }),
	)
	edgetest.Run(t, edges)
	edgetest.EveryCode(t, edges, 4)
}
