package guide_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// wide are plans with every kind of pocket, as it is by itself and in every build,
// and with every mouth of a frame.
func wide() []sample { return slices.Clone(plansOfEveryKind()) }

var plansOfEveryKind = sync.OnceValue(func() []sample {
	start := folio.Spec{
		Cover: units.MustParseSize("220 x 300 mm"), Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.MustParseSize("700 x 500 mm"), Grain: stock.GrainAlongWidth}, {Size: units.MustParseSize("500 x 1000 mm"), Grain: stock.GrainAlongWidth}, {Size: units.MustParseSize("500 x 700 mm"), Grain: stock.GrainAlongWidth}}}, {Name: "film", Caliper: mm / 10}},
	}
	ticket := pocket.Content{Name: "ticket", Size: units.MustParseSize("60 x 90 mm"), Thickness: mm / 3}
	holding := func(k pocket.Kind) pocket.Kind { return pocket.Holding(k, func(c *pocket.Content) { *c = ticket }) }
	var list []sample
	add := func(name string, fittings ...folio.Fitting) {
		s := start
		s.Fittings = fittings
		list = append(list, sampleOf(name, s))
	}
	folded := func(panel boards.Role, k pocket.Kind) folio.Fitting {
		return folio.Fitting{Name: "fitting", Panel: panel, Stock: "card", Kind: folio.Folded{Kind: k}}
	}
	for k := range pocket.Kinds() {
		add(k.Name(), folded(boards.LeftCover, holding(k)))
	}
	add("folded foot", folded(boards.RightCover, pocket.Slip{Content: ticket, Count: 2, Build: pocket.FoldedFoot, Depth: pocket.Share{Part: 1, Of: 1}}))
	add("foot gusset", folded(boards.RightCover, pocket.Gusset{Content: ticket, Count: 4, At: pocket.FootGusset, Opening: 12 * mm}))
	add("open foot", folded(boards.LeftCover, pocket.GussetRun{Content: ticket, Pockets: 2, OpenFoot: true}))
	add("short strips", folded(boards.RightCover, pocket.FoldedAccordion{Content: ticket, Panels: 9}))
	for mouth := score.Head; mouth <= score.Right; mouth++ {
		frame := folio.Frame{Picture: ticket, Mouth: mouth}
		if mouth > score.Tail {
			frame.Film = "film"
		}
		add(fmt.Sprintf("frame open at the %v", mouth), folio.Fitting{Name: "frame", Panel: boards.RightCover, Stock: "card", Kind: frame},
			folio.Fitting{Name: "medal", Panel: boards.LeftCover, Outside: mouth%2 == 0, Kind: folio.Ornament{Size: units.MustParseSize("35 x 25 mm"), Thickness: 2 * mm},
				Place: place.Place{Across: place.Left, Along: place.Tail, Offset: units.Point{X: 12 * mm, Y: 7 * mm}}})
	}
	return list
})

// All pictures of plans of every kind and of every form: their words lie clear of each
// other, and a hash for each plan notices that they change.
func TestPicturesOfEveryKind(t *testing.T) {
	var hashes strings.Builder
	for _, s := range wide() {
		sum := sha256.New()
		s.show(0, 0)
		for i := range s.seen.drawings {
			v := s.show(i, 1+i%3)
			if v.reading == nil {
				continue
			}
			sum.Write(v.svg)
			if bad := v.overlaps(); bad != "" {
				t.Errorf("%s, %s: %s", s.name, v.name, bad)
			}
		}
		for _, paper := range []guide.PaperSize{guide.A4, guide.Letter} {
			sum.Write(guide.Templates(s.plan, guide.PrintOptions{Paper: paper}).AppendHTML(nil))
		}
		hashes.WriteString(hex.EncodeToString(sum.Sum(nil)[:6]) + "  " + s.name + "\n")
	}
	for _, s := range everyForm() {
		sum := sha256.New()
		for v := range s.pictures(0) {
			sum.Write(v.svg)
		}
		hashes.WriteString(hex.EncodeToString(sum.Sum(nil)[:6]) + "  " + s.name + "\n")
	}
	same(t, "pictures/kinds.txt", []byte(hashes.String()))
}
