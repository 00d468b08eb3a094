package layout_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const (
	mm = units.Millimetre
	nm = units.Nanometre
)

// jobEdge is an edge of a job of one piece of 50 x 80 mm out of sheets of 200 x
// 200 mm, changed by a value.
func jobEdge(name, path string, code check.Code, fine, wrong units.Length, set func(*layout.Job, units.Length)) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Built(func(v units.Length) (*layout.Layout, error) {
		j := layout.Job{
			Pieces: []layout.LoosePiece{{Name: "slip", Material: "paper", Size: units.Size{W: 50 * mm, H: 80 * mm}, Quantity: 1, Turn: layout.NoTurn}},
			Materials: []layout.Material{{Name: "paper", Sheets: []layout.SheetKind{{
				Size: units.Size{W: 200 * mm, H: 200 * mm}, Grain: stock.GrainAlongHeight, Count: layout.Unlimited,
			}}}},
		}
		set(&j, v)
		return layout.Lay(context.Background(), j, layout.Budget{})
	})}
}

func sized(j *layout.Job, w, h units.Length) { j.Materials[0].Sheets[0].Size = units.Size{W: w, H: h} }

// Every edge is worked out by hand.
func edges() []edgetest.Edge {
	sheet := func(j *layout.Job) *layout.SheetKind { return &j.Materials[0].Sheets[0] }
	inches := func(j *layout.Job) { j.Ruler = units.Sixteenths }
	cut := jobEdge("a cut longer than the cutter's", "cutter.longestcut", layout.CutShort, 80*mm, 80*mm-nm, func(j *layout.Job, v units.Length) {
		j.Cutter.LongestCut = v
		sized(j, 200*mm, 80*mm)
	})
	// 12 mm are 0.47244... in, and up 0.4725.
	short := jobEdge("a cut longer than the cutter's, in inches", "materials[0].cutter.longestcut", layout.CutShort, 12*mm, 12*mm-nm, func(j *layout.Job, v units.Length) {
		inches(j)
		j.Pieces[0].Size = units.Size{W: 11 * mm, H: 12 * mm}
		j.Materials[0].Cutter.LongestCut = v
		sized(j, 100*mm, 12*mm)
	})
	return []edgetest.Edge{
		jobEdge("sheet too narrow", "materials[0].sheets", layout.SheetSmall, 50*mm, 50*mm-nm, func(j *layout.Job, v units.Length) { sized(j, v, 200*mm) }),
		jobEdge("sheet too low", "materials[0].sheets", layout.SheetSmall, 80*mm, 80*mm-nm, func(j *layout.Job, v units.Length) { sized(j, 200*mm, v) }),
		jobEdge("sheet too narrow inside its trim", "materials[0].sheets", layout.SheetSmall, 60*mm, 60*mm-nm, func(j *layout.Job, v units.Length) {
			sized(j, v, 200*mm)
			sheet(j).Trim = 5 * mm
		}),
		// A trim of 1 nm each side takes a sheet of 10 m and 2 nm, which may not be.
		jobEdge("trim of a sheet as long as may be", "materials[0].sheets", layout.SheetSmall, 0, nm, func(j *layout.Job, v units.Length) {
			sized(j, 200*mm, units.Longest)
			j.Pieces[0].Size.H = units.Longest
			sheet(j).Trim = v
		}),
		jobEdge("sheet too low in inches", "materials[0].sheets", layout.SheetSmall, 12400*units.Micrometre, 12400*units.Micrometre-nm, func(j *layout.Job, v units.Length) {
			inches(j)
			j.Pieces[0].Size.H = 12400 * units.Micrometre
			sized(j, 200*mm, v)
		}),
		cut, short,
		jobEdge("grain across the pattern", "materials[0].sheets", layout.GrainCross, units.Length(stock.GrainAlongHeight), units.Length(stock.GrainAlongWidth), func(j *layout.Job, v units.Length) {
			sheet(j).Grain = stock.SheetGrain(v)
		}),
		// Four pieces of 50 mm stand beside each other, and two of 80 mm on each other.
		jobEdge("more than one sheet holds", "materials[0].sheets", layout.NotEnough, 8, 9, func(j *layout.Job, v units.Length) {
			j.Pieces[0].Quantity = int(v)
			sheet(j).Count = 1
		}),
		jobEdge("no sheets", "materials[0].sheets", check.Missing, 1, 0, func(j *layout.Job, v units.Length) {
			j.Materials[0].Sheets = j.Materials[0].Sheets[:v]
		}),
		jobEdge("no such material", "pieces[0].material", check.Missing, 1, 0, func(j *layout.Job, v units.Length) {
			j.Pieces[0].Material = map[units.Length]string{1: "paper"}[v]
		}),
		jobEdge("size of a piece", "pieces[0].size.w", check.OutOfRange, units.Shortest, units.Shortest-nm, func(j *layout.Job, v units.Length) { j.Pieces[0].Size.W = v }),
		jobEdge("number of a piece", "pieces[0].quantity", check.Negative, -1, -2, func(j *layout.Job, v units.Length) { j.Pieces[0].Quantity = int(v) }),
		jobEdge("too many of a piece", "pieces[0].quantity", check.TooMany, 1000, layout.MostPieces+1, func(j *layout.Job, v units.Length) { j.Pieces[0].Quantity = int(v) }),
		jobEdge("grain of a piece", "pieces[0].grain", check.Unknown, 1, 2, func(j *layout.Job, v units.Length) { j.Pieces[0].Grain = stock.GrainRule(v) }),
		jobEdge("turn of a piece", "pieces[0].turn", check.Unknown, 2, 3, func(j *layout.Job, v units.Length) { j.Pieces[0].Turn = layout.TurnRule(v) }),
		jobEdge("grain of a sheet", "materials[0].sheets[0].grain", check.Unknown, 2, 3, func(j *layout.Job, v units.Length) { sheet(j).Grain = stock.SheetGrain(v) }),
		jobEdge("number of sheets", "materials[0].sheets[0].count", check.Negative, -1, -2, func(j *layout.Job, v units.Length) { sheet(j).Count = int(v) }),
		jobEdge("trim of a sheet", "materials[0].sheets[0].trim", check.Negative, 0, -nm, func(j *layout.Job, v units.Length) { sheet(j).Trim = v }),
		jobEdge("caliper of a material", "materials[0].caliper", check.Negative, 0, -nm, func(j *layout.Job, v units.Length) { j.Materials[0].Caliper = v }),
		jobEdge("the same name again", "materials[1].name", check.Conflict, 1, 0, func(j *layout.Job, v units.Length) {
			j.Materials = append(j.Materials, layout.Material{Name: []string{"paper", "cloth"}[v]})
		}),
		jobEdge("kerf", "cutter.kerf", check.Negative, 0, -nm, func(j *layout.Job, v units.Length) { j.Cutter.Kerf = v }),
		jobEdge("stack", "cutter.stack", check.OutOfRange, units.Longest, units.Longest+nm, func(j *layout.Job, v units.Length) { j.Cutter.Stack = v }),
		jobEdge("leftover worth keeping", "keep.short", check.Negative, 0, -nm, func(j *layout.Job, v units.Length) { j.Keep.Short = v }),
		jobEdge("no ruler", "ruler", check.Unknown, 0, -1, func(j *layout.Job, v units.Length) { j.Ruler = units.Ruler(v) }),
		jobEdge("none of a piece", "pieces[0].quantity", layout.WarnNone, 1, 0, func(j *layout.Job, v units.Length) { j.Pieces[0].Quantity = int(v) }),
		jobEdge("grain not known", "materials[0].sheets", layout.WarnGrain, 1, 0, func(j *layout.Job, v units.Length) {
			j.Pieces[0].Turn, sheet(j).Grain = layout.QuarterTurn, []stock.SheetGrain{stock.GrainUnknown, stock.GrainAlongHeight}[v]
		}),
		jobEdge("a sheet left out", "materials[0].sheets[1]", layout.WarnLeftOut, 1, 0, func(j *layout.Job, v units.Length) {
			second := *sheet(j)
			second.Grain = []stock.SheetGrain{stock.GrainAlongWidth, stock.GrainAlongHeight}[v]
			j.Materials[0].Sheets = append(j.Materials[0].Sheets, second)
		}),
		budgetEdge("steps of a search", "budget.steps", check.Negative, 0, -1),
		{Name: "folio of one more", Path: "folio", Code: check.OutOfRange, Fine: 0, Wrong: 1, Try: edgetest.Refused(func(v units.Length) error {
			_, err := layout.OneMore(context.Background(), oneFolio(), int(v), layout.Budget{})
			return err
		})},
		{Name: "folio below the first", Path: "folio", Code: check.OutOfRange, Fine: 0, Wrong: -1, Try: edgetest.Refused(func(v units.Length) error {
			_, err := layout.HowMany(context.Background(), oneFolio(), int(v), layout.Budget{})
			return err
		})},
		{Name: "tolerance", Path: "tolerance.width", Code: check.Negative, Fine: 0, Wrong: -nm, Try: edgetest.Refused(func(v units.Length) error {
			_, _, err := layout.Savings(context.Background(), oneFolio(), layout.Tolerance{Width: v}, layout.Budget{})
			return err
		})},
	}
}

func budgetEdge(name, path string, code check.Code, fine, wrong units.Length) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
		_, err := layout.Lay(context.Background(), oneFolio(), layout.Budget{Steps: int64(v)})
		return err
	})}
}

// oneFolio is a job of one folio without pieces: of a material that is not cut.
func oneFolio() layout.Job {
	plan, err := folio.Build(keepsakeSpec())
	if err != nil {
		panic(err)
	}
	j := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 1}}}
	for p := range plan.Pieces() {
		if name := p.Stock(); !slices.Contains(j.Except, name) {
			j.Except = append(j.Except, name)
		}
	}
	return j
}

func TestEdgesOfCodes(t *testing.T) {
	edgetest.Run(t, edges())
}

// When a search is cut short is held by TestSameBytesAndStopping.
func TestEveryCodeHasAnEdge(t *testing.T) {
	edgetest.EveryCode(t, edges(), 14, layout.WarnStopped)
}
