package folio

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A shelf is a kind that only this test knows: a card with an upstand that holds
// a tag, which slips in from the left. All that the library needs of it is this
// type and its line in the list of kinds.
type shelf struct{ Tag pocket.Content }

func init() { kinds = append(kinds, accept[shelf]) }

func (shelf) String() string { return "shelf" }

func (s shelf) fit(f *fitter) bool {
	f.content(".kind.tag", s.Tag)
	if !f.size(".kind.tag.size", s.Tag.Size) {
		return false
	}
	w := f.sum("shelf width", units.Up, units.T("tag", s.Tag.Size.W))
	h := f.sum("shelf height", units.Up, units.T("tag", s.Tag.Size.H))
	f.footprint = units.Size{W: w.Length(), H: h.Length()}
	f.empty, f.full = 2*f.stock.Caliper, 2*f.stock.Caliper+s.Tag.Thickness
	whole := units.RectAt(units.Point{}, f.footprint)
	at := f.piece(Piece{name: "shelf", width: w, height: h, quantity: 2})
	f.lay(at, 0, whole)
	f.lay(at, 1, whole)
	f.layers = append(f.layers,
		Layer{name: "shelf", rect: whole, empty: f.empty + f.film(), full: f.empty + f.film()},
		Layer{name: "tag", rect: whole, full: s.Tag.Thickness, held: true})
	f.spots = append(f.spots, Spot{rect: whole, lies: whole, wayIn: wayIn(whole, f.footprint, score.Left, grip(f.notation())), clear: s.Tag.Size,
		capacity: pocket.Capacity{Size: s.Tag.Size, Thickness: s.Tag.Thickness, Count: 1}, content: s.Tag, mouth: score.Left})
	f.loads = append(f.loads, Load{name: "tag", content: s.Tag, count: 1, held: true})
	f.surfaces = append(f.surfaces, Surface{name: "shelf", rect: whole, height: f.empty, piece: at, panel: -1})
	f.bonds = append(f.bonds, bond{size: f.footprint})
	return true
}

// shelved is a folio with a shelf on its right cover.
func shelved(t *testing.T) (*Plan, pocket.Content) {
	t.Helper()
	const mm = units.Millimetre
	tag := pocket.Content{Name: "locker tag", Size: units.Size{W: 30 * mm, H: 50 * mm}, Thickness: mm}
	p, err := Build(Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: Spine{Width: 20 * mm}, Rulers: Rulers{Main: units.WholeMillimetres},
		Stocks: []Stock{{Name: "grey card", Caliper: mm / 2, Grammage: 300 * units.GramPerSquareMetre}},
		Fittings: []Fitting{
			{Name: "rack", Kind: shelf{tag}, Stock: "grey card", Place: Place{Across: AlignRight}},
			{Name: "badge", Kind: Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: mm}, StandsOn: "rack"},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return p, tag
}

// A kind that nobody else has heard of comes out right everywhere.
func TestANewKindIsOneFileAndOneLine(t *testing.T) {
	const mm = units.Millimetre
	p, tag := shelved(t)
	film := p.spec.Closing.Adhesive.Caliper

	heights := map[bool]units.Length{}
	for _, full := range []bool{false, true} {
		for h := range p.Heights(full) {
			if h.Fitting == 0 {
				heights[full] += h.Height
			}
		}
	}
	if heights[false] != mm+film || heights[true] != 2*mm+film {
		t.Errorf("it stands %v high empty and %v full", heights[false], heights[true])
	}

	found := false
	for fit := range p.WhereFits(tag) {
		found = found || fit.Room.Fitting == 0 && fit.Rect == p.fitted[0].rect
	}
	tag.Thickness++
	for fit := range p.WhereFits(tag) {
		if fit.Room.Fitting == 0 {
			t.Errorf("a thicker tag goes in too")
		}
	}
	if !found {
		t.Error("its tag goes nowhere")
	}

	// 2 x 30 x 50 mm of 300 g/m² are 0.9 g; the tag is 30 x 50 x 1 mm.
	var card, held units.Mass
	for part := range p.Weigh(Weighing{Filled: true, Density: 1000}).Parts() {
		if part.Part == "rack" && part.Stock == "grey card" {
			card += part.Mass
		} else if part.Part == "rack" {
			held += part.Mass
		}
	}
	if card != 900*units.Milligram || held != 1500*units.Milligram {
		t.Errorf("the shelf weighs %v, its tag %v", card, held)
	}

	taped := units.Length(0)
	for tape := range p.Sticking().Tapes() {
		for term := range tape.Length.Terms() {
			if term.Label == "rack, long edges" || term.Label == "rack, between them" {
				taped += units.Length(term.Count) * term.Length
			}
		}
	}
	// Tape runs along all four edges, once round: less four corners.
	if w := p.spec.Closing.Adhesive.TapeWidth; taped != 2*(50*mm)+2*(30*mm-2*w) {
		t.Errorf("it takes %v of tape", taped)
	}

	if s := p.fitted[1]; s.base != 0 || s.rect.Size().W != 10*mm || !s.rect.In(p.fitted[0].rect) {
		t.Errorf("the badge does not stand on it: %v", s.rect)
	}
	placed := 0
	for q := range p.fitted[0].Placed() {
		if i, copy := q.Piece(); q.Rect() != p.fitted[0].rect || p.pieces[i].name != "shelf" || copy != placed {
			t.Errorf("placed %+v", q)
		}
		placed++
	}
	if placed != 2 {
		t.Errorf("%d copies placed", placed)
	}
}
