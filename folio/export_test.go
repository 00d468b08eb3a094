package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Shelf is a kind that only this test knows: a card with an upstand that holds
// a tag, which slips in from the left. All that the library needs of it is this
// type and its line in the list of kinds.
type Shelf struct{ Tag pocket.Content }

func init() { kinds = append(kinds, family{Shelf{}, accept[Shelf]}) }

func (Shelf) String() string { return "shelf" }

func (s Shelf) fit(f *fitter) bool {
	before := f.b.bad.Len()
	if f.content(".kind.tag", s.Tag); f.b.bad.Len() > before {
		return false
	}
	w := f.sum("shelf width", units.Up, units.T("tag", s.Tag.Size.W))
	h := f.sum("shelf height", units.Up, units.T("tag", s.Tag.Size.H))
	f.footprint = units.Size{W: w.Length(), H: h.Length()}
	f.empty, f.full = 2*f.stock.Caliper, 2*f.stock.Caliper+s.Tag.Thickness
	whole := units.RectAt(units.Point{}, f.footprint)
	at := f.piece(&Piece{name: "shelf", width: w, height: h, quantity: 2})
	f.lay(at, 0, whole)
	f.lay(at, 1, whole)
	f.layers = append(f.layers,
		Layer{name: "shelf", rect: whole, height: f.empty + f.film()},
		Layer{name: "tag", rect: whole, height: s.Tag.Thickness, held: true})
	f.spots = append(f.spots, Spot{rect: whole, lies: whole, wayIn: wayIn(whole, f.footprint, score.Left, grip(f.notation())), clear: s.Tag.Size,
		capacity: pocket.Capacity{Size: s.Tag.Size, Thickness: s.Tag.Thickness, Count: 1}, content: s.Tag, mouth: score.Left})
	f.loads = append(f.loads, Load{name: "tag", content: s.Tag, count: 1, held: true})
	f.surfaces = append(f.surfaces, Surface{name: "shelf", rect: whole, height: f.empty, piece: int32(at), panel: -1})
	return true
}
func (Shelf) work(o *order, f *Fitted) {
	lower, upper := o.p.object(int(f.first)), o.p.object(int(f.first))
	upper.Copy = 1
	cut := o.cutFitting(f)
	fixed := o.fix(f, lower, f.rect, o.adhesive(), o.sticky(f.rect.Size()), cut)
	fixed = o.step(work.TaskFix, o.part, o.p.spec.Rulers.Fitting, []int{fixed}, work.Fix{
		What: upper, Panel: work.All, On: onPiece(lower), By: o.adhesive(), Size: f.rect.Size(),
		At: work.At{Across: score.Left, Along: score.Head},
	})
	o.fill([]int{fixed}, work.Insert{What: work.Object{Kind: work.Content, Index: o.part.Index, Name: "tag"}, Into: o.part, From: score.Left})
}

// SoftCreases are how far the creases of a soft joint lie from the boards beside
// it: in a hollow back they fold up where what lies inside comes to an end.
func SoftCreases(g Gap) (left, right units.Length) { return g.crease[0], g.crease[1] }

// Lapped are what of the covering on a board's outside is thicker than the room counts.
func (p *Plan) Lapped(r boards.Role) (all []Height) {
	p.lapped(r, func(h Height) bool { all = append(all, h); return true })
	return all
}
