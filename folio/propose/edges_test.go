package propose_test

import (
	"context"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// edges are those of a request for a folio that holds one card of 50 x 80 mm.
func edges() []edgetest.Edge {
	const mm, nm = units.Millimetre, units.Nanometre
	edge := func(name, path string, code check.Code, fine, wrong units.Length, set func(*propose.Request, units.Length)) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			r := propose.Request{
				Case:   folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}},
				Things: []propose.Thing{{Content: pocket.Content{Name: "card", Size: units.Size{W: 50 * mm, H: 80 * mm}}}},
			}
			set(&r, v)
			_, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 200})
			return err
		})}
	}
	would := func(e edgetest.Edge, limit units.Length) edgetest.Edge {
		e.Would = limit
		return e
	}
	first := func(r *propose.Request) *propose.Thing { return &r.Things[0] }
	ways := len(allWays())
	return []edgetest.Edge{
		edge("nothing to hold", "things", check.Missing, 1, 0, func(r *propose.Request, v units.Length) { r.Things = r.Things[:v] }),
		edge("different things", "things", check.TooMany, 2, 33, func(r *propose.Request, v units.Length) {
			for len(r.Things) < int(v) {
				r.Things = append(r.Things, r.Things[0])
			}
		}),
		edge("copies in all", "things", check.TooMany, 2, 201, func(r *propose.Request, v units.Length) {
			second := r.Things[0]
			second.Count = int(v) - 1
			r.Things = append(r.Things, second)
		}),
		edge("fewer copies than none", "things[0].count", check.Negative, 0, -1, func(r *propose.Request, v units.Length) { first(r).Count = int(v) }),
		edge("copies of one", "things[0].count", check.TooMany, 2, 201, func(r *propose.Request, v units.Length) { first(r).Count = int(v) }),
		would(edge("width of a thing", "things[0].content.size.w", check.NotPositive, mm, 0, func(r *propose.Request, v units.Length) { first(r).Content.Size.W = v }), units.Shortest),
		edge("thickness of a thing", "things[0].content.thickness", check.Negative, 0, -nm, func(r *propose.Request, v units.Length) { first(r).Content.Thickness = v }),
		edge("sight of a thing", "things[0].sight", check.Unknown, 2, 3, func(r *propose.Request, v units.Length) { first(r).Sight = propose.Sight(v) }),
		edge("keeping of a thing", "things[0].keeping", check.Unknown, 2, 3, func(r *propose.Request, v units.Length) { first(r).Keeping = propose.Keeping(v) }),
		edge("a way that is none", "without[0]", check.Unknown, units.Length(ways-1), units.Length(ways), func(r *propose.Request, v units.Length) { r.Without = []propose.Holder{propose.Holder(v)} }),
		edge("ways again", "without", check.TooMany, 1, units.Length(ways+1), func(r *propose.Request, v units.Length) { r.Without = make([]propose.Holder, v) }),
		edge("padding of a box", "limits.into.padding", check.Negative, 0, -nm, func(r *propose.Request, v units.Length) { r.Limits.Into.Padding = v }),
		edge("margin", "taste.margin", check.Negative, 0, -nm, func(r *propose.Request, v units.Length) { r.Taste.Margin = v }),
		edge("between fittings", "taste.between", check.Negative, 0, -nm, func(r *propose.Request, v units.Length) { r.Taste.Between = v }),
		edge("order", "taste.order", check.Unknown, 1, 2, func(r *propose.Request, v units.Length) { r.Taste.Order = propose.Order(v) }),
		edge("a cover of one's own", "case.cover", check.Conflict, 0, 100*mm, func(r *propose.Request, v units.Length) { r.Case.Cover = units.Size{W: v, H: v} }),
		edge("a spine of one's own", "case.spine", check.Conflict, 0, 20*mm, func(r *propose.Request, v units.Length) { r.Case.Spine = rule.Spine{Width: v} }),
		edge("a block", "case.block", check.Conflict, 0, 100*mm, func(r *propose.Request, v units.Length) { r.Case.Block = boards.Block{Page: units.Size{W: v, H: v}} }),
		edge("magnets", "case.magnets", check.Conflict, 0, 6*mm, func(r *propose.Request, v units.Length) { r.Case.Magnets = closing.Magnets{Diameter: v} }),
		edge("fittings of one's own", "case.fittings", check.TooMany, 0, 57, func(r *propose.Request, v units.Length) { r.Case.Fittings = make([]folio.Fitting, v) }),
		edge("a fitting inside", "case.fittings[0].outside", check.Conflict, 1, 0, func(r *propose.Request, v units.Length) {
			r.Case.Fittings = []folio.Fitting{{Name: "badge", Outside: v == 1, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: mm}}}
		}),
		edge("a form beside forms", "case.form", check.Conflict, 0, units.Length(boards.SoftSpine), func(r *propose.Request, v units.Length) {
			r.Forms, r.Case.Form = []propose.Form{{}}, boards.Form(v)
		}),
		edge("a row beside forms", "case.row", check.Conflict, 0, 1, func(r *propose.Request, v units.Length) {
			r.Forms = []propose.Form{{}}
			if v == 1 {
				r.Case.Row = boards.SpineBoard.Row()
			}
		}),
		edge("forms", "forms", check.TooMany, 1, 17, func(r *propose.Request, v units.Length) { r.Forms = make([]propose.Form, v) }),
		edge("a form that is none", "forms[0].form", check.Unknown, 0, 200, func(r *propose.Request, v units.Length) { r.Forms = []propose.Form{{Form: boards.Form(v)}} }),
		would(edge("largest cover", "limits.cover.w", check.OutOfRange, 0, units.Longest+nm, func(r *propose.Request, v units.Length) { r.Limits.Cover.W = v }), units.Longest),
		would(edge("largest thickness", "limits.thickness", check.NotPositive, 0, -nm, func(r *propose.Request, v units.Length) { r.Limits.Thickness = v }), units.Shortest),
		would(edge("into a box", "limits.into.size.h", check.NotPositive, 200*mm, 0, func(r *propose.Request, v units.Length) { r.Limits.Into.Size = units.Size{W: 200 * mm, H: v} }), units.Shortest),
		edge("a format of no service", "limits.post.service", check.Missing, 1, 0, func(r *propose.Request, v units.Length) {
			r.Limits.Post = propose.Post{Service: []string{"", "Royal Mail"}[v], Format: "small parcel"}
		}),
		edge("a service that is none", "limits.post.service", check.Unknown, 1, 0, func(r *propose.Request, v units.Length) {
			r.Limits.Post = propose.Post{Service: []string{"the club's van", "Royal Mail"}[v], Format: "small parcel"}
		}),
		edge("a format that is none", "limits.post.format", check.Unknown, 1, 0, func(r *propose.Request, v units.Length) {
			r.Limits.Post = propose.Post{Service: "Royal Mail", Format: []string{"tray", "small parcel"}[v]}
		}),
		edge("padding for the post", "limits.post.packing.padding", check.Negative, 0, -nm, func(r *propose.Request, v units.Length) {
			r.Limits.Post = propose.Post{Service: "Royal Mail", Format: "small parcel", Packing: post.Packing{Padding: v}}
		}),
		// A published gap of 3 mm takes a board of 2, a liner of 0.1 and 0.9 of turn-in.
		edge("a hinge that is warned of", "case.hinge.rule", propose.CaseUnwise, 900*units.Micrometre, 900*units.Micrometre+nm, func(r *propose.Request, v units.Length) {
			r.Case.Board.Caliper, r.Case.Liner.Caliper, r.Case.Covering.Caliper = 2*mm, mm/10, v
			r.Case.Hinge.Rule = rule.HingeNarrowGroove
		}),
		edge("materials at hand", "limits.materials", check.TooMany, 0, 101, func(r *propose.Request, v units.Length) { r.Limits.Materials = make([]layout.Material, v) }),
		{Name: "steps of a search", Path: "budget.steps", Code: check.Negative, Fine: 200, Wrong: -1, Try: edgetest.Refused(func(v units.Length) error {
			r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}}
			_, err := propose.Folios(context.Background(), r, propose.Budget{Steps: int64(v)})
			return err
		})},
		edge("a stock that is none", "case.stocks", check.Missing, 1, 0, func(r *propose.Request, v units.Length) { r.Stock = []string{"no such card", ""}[v] }),
		parsed("text of ten thousand bytes", "things", check.TooLarge, 10_000, 10_001, func(v int) string { return "card 50 x 80 mm" + strings.Repeat(" ", v-15) }),
		parsed("nothing between commas", "things[1]", check.Missing, 1, 0, func(v int) string { return "card 50 x 80 mm, " + []string{"", "note 50 x 80 mm"}[v] }),
		edge("a format of no service and of none", "limits.post.service", check.Missing, 1, 0, func(r *propose.Request, v units.Length) {
			r.Limits.Post = propose.Post{Service: []string{"", "Royal Mail"}[v], Format: []string{"tray", "small parcel"}[v]}
		}),
		parsed("a thickness that is none", "things[0]", check.Unknown, 1, 0, func(v int) string { return "ticket 70 x 150 mm " + []string{"0 mm", "2 mm"}[v] + " thick" }),
		parsed("a thing without a size", "things[0]", check.Unknown, 1, 0, func(v int) string { return []string{"gizmo", "gizmo 50 x 80 mm"}[v] }),
	}
}

func parsed(name, path string, code check.Code, fine, wrong units.Length, text func(int) string) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
		_, err := propose.ParseThings(text(int(v)))
		return err
	})}
}

// allWays are the ways that have a text.
func allWays() (ways []propose.Holder) {
	for w := propose.Holder(0); ; w++ {
		if _, err := w.MarshalText(); err != nil {
			return ways
		}
		ways = append(ways, w)
	}
}

func TestEdgesOfCodes(t *testing.T) {
	edgetest.Run(t, edges())
}

func TestEveryCodeHasAnEdge(t *testing.T) { edgetest.EveryCode(t, edges(), 6) }
