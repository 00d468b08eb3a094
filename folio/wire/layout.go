package wire

import (
	"reflect"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// The members of a document of a layout.
type laidOut struct {
	Bought, Bound             int // sheets, and how many no layout can do without
	Proved, Complete, Stopped bool
	Cuts, Settings, Turns     counted
	Steps                     []cutStep
	Materials                 []laidMaterial
	Pieces                    []wantedPiece
	Warnings                  []warning
}

// counted is a number with the least that is proved.
type counted struct{ Number, Least int }

type wantedPiece struct {
	Path, Name, Part, Material string
	Folio                      int // in the job, −1 for a piece by hand
	Size                       units.Size
	Quantity                   int
	Grain                      stock.GrainRule
	Turn                       layout.TurnRule
}

type laidMaterial struct {
	Name                       string
	Bought, FromOffcuts, Bound int
	Proved                     bool
	Assumed                    []stock.SheetGrain // one, or none where the grain is known
	Price                      money.Amount
	Cuts, Settings, Turns      counted
	Areas                      laidAreas
	Used                       []usedSheets
	Sheets                     []laidSheet
	Offcuts                    []offcut
	Short                      []shortPiece
}

type laidAreas struct{ Sheets, Pieces, Offcuts, Waste units.Area }

type usedSheets struct {
	Kind  sheetKind
	Count int
}

type sheetKind struct {
	Size   units.Size
	Grain  stock.SheetGrain
	Count  int
	Price  money.Amount
	Trim   units.Length
	Offcut bool
}

type laidSheet struct {
	Number, Times int
	Kind          int // in the sheets of its material
	Size          units.Size
	Turned        bool
	// Parts are the tree of cuts: the whole sheet first, each part after the one
	// that it is cut from.
	Parts  []cutPart
	Places []laidPlace
}

type cutPart struct {
	Rect units.Rect
	Use  layout.Use
	Cut  []partCut // one, or none where it is not cut
}

type partCut struct {
	Axis          score.Axis
	At            units.Length
	First, Second int // parts that it makes, −1 for none
}

type laidPlace struct {
	Rect   units.Rect
	Turned bool
	Pieces []pieceCopies
}

// pieceCopies is how many of a piece lie at a place, over all sheets cut alike.
type pieceCopies struct {
	Path, Name string
	Copies     int
}

type offcut struct {
	Sheet, Count int
	Size         units.Size
}

type shortPiece struct {
	Path, Name string
	Copies     int
	Fits       bool
}

type cutStep struct {
	Number        int
	Material      string
	Takes         bool // sheets in hand, without a cut
	Sheets        []int
	On            []cutOn
	Part          units.Size
	Parts, Stack  int
	Turn, Same    bool
	Edge          score.Edge
	Setting       units.Length
	Cuts, Strokes int
	Gives         []given
	Care, Text    string
}

// cutOn are the parts of a sheet that a step cuts.
type cutOn struct {
	Sheet int
	Parts []int
}

type given struct {
	Name   string
	Use    layout.Use
	Size   units.Size
	Turned bool
	Count  int
}

// AppendLayout appends the document of a layout to dst: sheets with their trees of
// cuts and what lies where, the order of cutting, how many sheets no layout can do
// without, and whether that is proved. Lengths are as in a plan's document. The
// error is for [Options].Only naming what there is not.
func AppendLayout(dst []byte, l *layout.Layout, o Options) ([]byte, error) {
	if l == nil {
		return dst, ErrNothing
	}
	out := laidOutOf(l)
	return appendDrawn(dst, "layout", l.Notation(), &out, shapeLaidOut, (*encoder).writeLaidOut, o)
}

// LayoutSchema returns the JSON Schema (2020-12) of the document that
// [AppendLayout] writes whole.
func LayoutSchema() []byte { return schemaOf("layout", reflect.TypeFor[laidOut](), true) }

func laidOutOf(l *layout.Layout) laidOut {
	out := laidOut{
		Bought: l.Bought(), Bound: l.Bound(), Proved: l.Proved(), Complete: l.Complete(), Stopped: l.Stopped(),
		Cuts: countedOf(l.Cuts()), Settings: countedOf(l.Settings()), Turns: countedOf(l.Turns()),
		Steps: gather(l.Steps(), cutStepOf(l.Notation())), Materials: gather(l.Materials(), laidMaterialOf), Pieces: gather(l.Pieces(), wantedPieceOf),
	}
	for w := range l.Warnings() {
		out.Warnings = append(out.Warnings, warning{w.Path, string(w.Code), w.Text, w.Got, w.Want})
	}
	return out
}

func countedOf(n, least int) counted { return counted{n, least} }

func wantedPieceOf(w layout.Wanted) wantedPiece {
	at, ok := w.Folio()
	if !ok {
		at = -1
	}
	return wantedPiece{w.Path(), w.Name(), w.Part(), w.Material(), at, w.Size(), w.Quantity(), w.Grain(), w.Turn()}
}

func laidMaterialOf(m layout.Laid) laidMaterial {
	a := m.Areas()
	out := laidMaterial{
		Name: m.Name(), Bought: m.Bought(), FromOffcuts: m.FromOffcuts(), Bound: m.Bound(), Proved: m.Proved(), Price: m.Price(),
		Cuts: countedOf(m.Cuts()), Settings: countedOf(m.Settings()), Turns: countedOf(m.Turns()),
		Areas: laidAreas{a.Sheets(), a.Pieces(), a.Offcuts(), a.Waste()}, Sheets: gather(m.Sheets(), laidSheetOf),
	}
	if g, ok := m.Assumed(); ok {
		out.Assumed = []stock.SheetGrain{g}
	}
	for k, n := range m.Used() {
		out.Used = append(out.Used, usedSheets{sheetKind{k.Size, k.Grain, k.Count, k.Price, k.Trim, k.Offcut}, n})
	}
	for o := range m.Offcuts() {
		out.Offcuts = append(out.Offcuts, offcut{o.Sheet(), o.Count(), o.Size()})
	}
	for s := range m.Short() {
		out.Short = append(out.Short, shortPiece{s.Piece().Path(), s.Piece().Name(), s.Copies(), s.Fits()})
	}
	return out
}

func laidSheetOf(s layout.LaidSheet) laidSheet {
	_, kind := s.Kind()
	out := laidSheet{Number: s.Number(), Times: s.Times(), Kind: kind, Size: s.Size(), Turned: s.Turned()}
	for _, p := range s.Parts() {
		part := cutPart{Rect: p.Rect(), Use: p.Use()}
		if p.Use() == layout.Cut {
			axis, at := p.CutAt()
			first, second := p.Cuts()
			part.Cut = []partCut{{axis, at, first, second}}
		}
		out.Parts = append(out.Parts, part)
	}
	for p := range s.Places() {
		place := laidPlace{Rect: p.Rect(), Turned: p.Turned()}
		for w, n := range p.Pieces() {
			place.Pieces = append(place.Pieces, pieceCopies{w.Path(), w.Name(), n})
		}
		out.Places = append(out.Places, place)
	}
	return out
}

func cutStepOf(n units.Notation) func(layout.CutStep) cutStep {
	return func(s layout.CutStep) cutStep {
		out := cutStep{
			Number: s.Number(), Material: s.Material(), Takes: s.Takes(), Part: s.Part(), Parts: s.Parts(), Stack: s.Stack(), Turn: s.Turn(), Same: s.Same(),
			Edge: s.Edge(), Setting: s.Setting(), Cuts: s.Cuts(), Strokes: s.Strokes(), Care: s.Care(), Text: s.Text(units.Format{Ruler: n.Exact()}),
		}
		for number := range s.Sheets() {
			out.Sheets = append(out.Sheets, number)
			on := cutOn{Sheet: number}
			for part := range s.CutsOn(number) {
				on.Parts = append(on.Parts, part)
			}
			if len(on.Parts) > 0 {
				out.On = append(out.On, on)
			}
		}
		for y := range s.Gives() {
			out.Gives = append(out.Gives, given{y.Name(), y.Use(), y.Size(), y.Turned(), y.Count()})
		}
		return out
	}
}
