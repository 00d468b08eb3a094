package score_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/internal/edgetest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const nm = units.Nanometre

// drawnEdge is an edge of a drawing of 100 x 60 mm, changed by a value.
func drawnEdge(name, path string, code check.Code, fine, wrong units.Length, set func(*score.Draft, units.Length)) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
		d := score.Draft{Size: units.Size{W: 100 * mm, H: 60 * mm}}
		set(&d, v)
		_, err := score.NewBlank(d)
		return err
	})}
}

func edgeOf(name, path string, code check.Code, fine, wrong units.Length, try func(units.Length) error) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(try)}
}

// would is an edge with what would do, where that is not the last that does.
func would(e edgetest.Edge, limit units.Length) edgetest.Edge {
	e.Would = limit
	return e
}

func areaOf(x0, y0, x1, y1 units.Length) units.Rect {
	return units.Rect{Min: units.Point{X: x0, Y: y0}, Max: units.Point{X: x1, Y: y1}}
}

func linesAt(d *score.Draft, first, second score.Line) { d.Lines = []score.Line{first, second} }

// Every edge is worked out by hand, on a blank of 100 x 60 mm.
func drawnEdges() []edgetest.Edge {
	return []edgetest.Edge{
		drawnEdge("blank, width", "size.w", check.OutOfRange, units.Longest, units.Longest+nm, func(d *score.Draft, v units.Length) { d.Size.W = v }),
		would(drawnEdge("blank, height", "size.h", check.NotPositive, units.Shortest, 0, func(d *score.Draft, v units.Length) { d.Size.H = v }), units.Shortest),
		drawnEdge("lines", "lines", check.TooMany, score.MaxParts, score.MaxParts+1, func(d *score.Draft, v units.Length) {
			for i := range v {
				d.Lines = append(d.Lines, score.Line{At: (i + 1) * 10 * units.Micrometre})
			}
		}),
		drawnEdge("axis of a line", "lines[0].axis", check.Unknown, 1, 2, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{Axis: score.Axis(v), At: 10 * mm}}
		}),
		drawnEdge("kind of a line", "lines[0].fold", check.Unknown, 1, 2, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{Fold: score.Fold(v), At: 10 * mm}}
		}),
		drawnEdge("upright line at the right edge", "lines[0].at", score.OffSheet, 100*mm-nm, 100*mm, func(d *score.Draft, v units.Length) { d.Lines = []score.Line{{At: v}} }),
		drawnEdge("level line at the tail", "lines[0].at", score.OffSheet, 60*mm-nm, 60*mm, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{Axis: score.Level, At: v}}
		}),
		drawnEdge("line at the left edge", "lines[0].at", score.OffSheet, nm, 0, func(d *score.Draft, v units.Length) { d.Lines = []score.Line{{At: v}} }),
		drawnEdge("line beyond the tail", "lines[0]", score.OffSheet, 60*mm, 60*mm+nm, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{At: 10 * mm, From: 5 * mm, To: v}}
		}),
		drawnEdge("line above the head", "lines[0]", score.OffSheet, 0, -nm, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{At: 10 * mm, From: v, To: 5 * mm}}
		}),
		drawnEdge("line of no length", "lines[0]", score.OffSheet, 5*mm+nm, 5*mm, func(d *score.Draft, v units.Length) {
			d.Lines = []score.Line{{At: 10 * mm, From: 5 * mm, To: v}}
		}),
		drawnEdge("line on a line", "lines[1]", score.Overlap, 30*mm, 30*mm-nm, func(d *score.Draft, v units.Length) {
			linesAt(d, score.Line{At: 10 * mm, To: 30 * mm}, score.Line{At: 10 * mm, From: v, To: 50 * mm})
		}),
		drawnEdge("line on a line, from above", "lines[1]", score.Overlap, 30*mm, 30*mm+nm, func(d *score.Draft, v units.Length) {
			linesAt(d, score.Line{At: 10 * mm, From: 30 * mm, To: 40 * mm}, score.Line{At: 10 * mm, From: 10 * mm, To: v})
		}),
		drawnEdge("cut-out of no width", "cutouts[0].area", check.NotPositive, 10*mm+nm, 10*mm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, v, 20*mm)}}
		}),
		drawnEdge("cut-out beyond the right edge", "cutouts[0].area", score.OffSheet, 100*mm, 100*mm+nm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, v, 20*mm)}}
		}),
		drawnEdge("cut-out above the head", "cutouts[0].area", score.OffSheet, 0, -nm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, v, 20*mm, 20*mm)}}
		}),
		drawnEdge("nothing left of the blank", "cutouts[0]", score.NoPaper, nm, 0, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(0, v, 100*mm, 60*mm)}}
		}),
		// Half of 9.000001 mm, down to the nanometre.
		drawnEdge("round corners that meet", "cutouts[0].radius", check.OutOfRange, 4500*units.Micrometre, 4500*units.Micrometre+nm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, 40*mm, 19*mm+nm), Radius: v}}
		}),
		drawnEdge("radius below nothing", "cutouts[0].radius", check.OutOfRange, 0, -nm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, 40*mm, 19*mm), Radius: v}}
		}),
		drawnEdge("nothing left by two cut-outs", "cutouts[1]", score.NoPaper, 100*mm-nm, 100*mm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(0, 0, 50*mm, 60*mm)}, {Area: areaOf(50*mm, 0, v, 60*mm)}}
		}),
		drawnEdge("cut apart", "cutouts[0]", score.InPieces, nm, 0, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(40*mm, v, 50*mm, 60*mm)}}
		}),
		drawnEdge("cut apart by two notches", "notches[1]", score.InPieces, 30*mm-nm, 30*mm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Edge: score.Tail, Middle: 50 * mm, Width: 10 * mm, Depth: 30 * mm}, {Middle: 50 * mm, Width: 10 * mm, Depth: v}}
		}),
		drawnEdge("cut-out on a cut-out", "cutouts[1].area", score.Overlap, 20*mm, 20*mm-nm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, 20*mm, 20*mm)}, {Area: areaOf(v, 15*mm, 40*mm, 30*mm)}}
		}),
		// 5 mm of the notch are left of its middle, 5 and the odd nanometre right of it.
		drawnEdge("notch on a notch", "notches[1].middle", score.Overlap, 40*mm, 40*mm-nm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: 30 * mm, Width: 10 * mm, Depth: 5 * mm}, {Middle: v, Width: 10*mm + nm, Depth: 5 * mm}}
		}),
		drawnEdge("edge of a notch", "notches[0].edge", check.Unknown, 3, 4, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Edge: score.Edge(v), Middle: 30 * mm, Width: 10 * mm, Depth: 5 * mm}}
		}),
		drawnEdge("notch through the blank", "notches[0].depth", score.NoPaper, 60*mm-nm, 60*mm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: 30 * mm, Width: 10 * mm, Depth: v}}
		}),
		would(drawnEdge("notch beyond the blank", "notches[0].depth", score.OffSheet, 60*mm-nm, 60*mm+nm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: 30 * mm, Width: 10 * mm, Depth: v}}
		}), 60*mm-nm),
		drawnEdge("notch wider than its edge", "notches[0].width", score.OffSheet, 100*mm, 100*mm+nm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: 50 * mm, Width: v, Depth: 5 * mm}}
		}),
		// The odd nanometre of its width lies right of its middle.
		drawnEdge("notch beyond the left edge", "notches[0].middle", score.OffSheet, 5*mm, 5*mm-nm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: v, Width: 10*mm + nm, Depth: 5 * mm}}
		}),
		drawnEdge("notch beyond the right edge", "notches[0].middle", score.OffSheet, 95*mm-nm, 95*mm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: v, Width: 10*mm + nm, Depth: 5 * mm}}
		}),
		drawnEdge("corner of a slant", "slants[0].corner", check.Unknown, 3, 4, func(d *score.Draft, v units.Length) {
			d.Slants = []score.Slant{{Corner: score.Corner(v), Along: 10 * mm, Down: 10 * mm}}
		}),
		drawnEdge("slant longer than its edge", "slants[0].along", score.OffSheet, 100*mm, 100*mm+nm, func(d *score.Draft, v units.Length) {
			d.Slants = []score.Slant{{Along: v, Down: 10 * mm}}
		}),
		drawnEdge("slant higher than its edge", "slants[0].down", score.OffSheet, 60*mm, 60*mm+nm, func(d *score.Draft, v units.Length) {
			d.Slants = []score.Slant{{Along: 10 * mm, Down: v}}
		}),
		drawnEdge("edge of a tab", "tabs[0].edge", check.Unknown, 3, 4, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{Edge: score.Edge(v), Depth: 5 * mm}}
		}),
		drawnEdge("side of a tab", "tabs[0].side", check.Unknown, 1, 2, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{Side: score.Side(v), Depth: 5 * mm}}
		}),
		drawnEdge("tab beyond its edge", "tabs[0]", score.OffSheet, 100*mm, 100*mm+nm, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{From: 10 * mm, To: v, Depth: 5 * mm}}
		}),
		drawnEdge("tab deeper than the blank", "tabs[0].depth", score.OffSheet, 60*mm, 60*mm+nm, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{Depth: v}}
		}),
		// Two tapers on 20 mm, of which a nanometre is left: half of the rest, rounded down.
		drawnEdge("tapers that meet", "tabs[0].taper", check.TooLarge, 10*mm-nm, 10*mm, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{From: 10 * mm, To: 30 * mm, Depth: 5 * mm, Taper: v}}
		}),
		drawnEdge("tab on a tab", "tabs[1]", score.Overlap, 30*mm, 30*mm-nm, func(d *score.Draft, v units.Length) {
			d.Tabs = []score.Tab{{From: 10 * mm, To: 30 * mm, Depth: 5 * mm}, {From: v, To: 50 * mm, Depth: 5 * mm}}
		}),
		drawnEdge("side of glue", "glue[0].side", check.Unknown, 1, 2, func(d *score.Draft, v units.Length) {
			d.Glue = []score.Glue{{Side: score.Side(v), Area: areaOf(0, 0, mm, mm)}}
		}),
		drawnEdge("glue of no area", "glue[0].area", check.NotPositive, nm, 0, func(d *score.Draft, v units.Length) {
			d.Glue = []score.Glue{{Area: areaOf(0, 0, mm, v)}}
		}),
		drawnEdge("glue beyond the tail", "glue[0].area", score.OffSheet, 60*mm, 60*mm+nm, func(d *score.Draft, v units.Length) {
			d.Glue = []score.Glue{{Area: areaOf(0, 0, mm, v)}}
		}),
		drawnEdge("glue on glue", "glue[1].area", score.Overlap, 10*mm, 10*mm-nm, func(d *score.Draft, v units.Length) {
			d.Glue = []score.Glue{{Area: areaOf(0, 0, 10*mm, 10*mm)}, {Area: areaOf(v, 0, 20*mm, 10*mm)}}
		}),
		drawnEdge("glue in a notch", "glue[0]", score.NoPaper, 35*mm+nm, 35*mm, func(d *score.Draft, v units.Length) {
			d.Notches = []score.Notch{{Middle: 30 * mm, Width: 10 * mm, Depth: 5 * mm}}
			d.Glue = []score.Glue{{Area: areaOf(26*mm, 0, v, 5*mm)}}
		}),
		drawnEdge("glue in a cut-out", "glue[0]", score.NoPaper, 20*mm+nm, 20*mm, func(d *score.Draft, v units.Length) {
			d.CutOuts = []score.CutOut{{Area: areaOf(10*mm, 10*mm, 20*mm, 20*mm)}}
			d.Glue = []score.Glue{{Area: areaOf(12*mm, 12*mm, v, 20*mm)}}
		}),
	}
}

func alike(n units.Length, width units.Length) []units.Length {
	return slices.Repeat([]units.Length{width}, int(n))
}

func stripOf(panels ...units.Length) score.Strip {
	s, err := score.NewStrip(panels, score.Alternate(len(panels)-1, score.Valley)...)
	if err != nil {
		panic(err)
	}
	return s
}

func foldedOf(panels ...units.Length) score.Folding {
	f, err := stripOf(panels...).Fold()
	if err != nil {
		panic(err)
	}
	return f
}

func stepOf(step units.Length) units.Ruler {
	r, err := units.NewRuler(step, units.MetricDecimal)
	if err != nil {
		panic(err)
	}
	return r
}

func stripEdges() []edgetest.Edge {
	const most = score.MaxPanels
	whole := stepOf(mm)
	return []edgetest.Edge{
		edgeOf("no panels", "panels", check.Missing, 1, 0, func(v units.Length) error {
			return second(score.NewStrip(alike(v, mm)))
		}),
		edgeOf("panels", "panels", check.TooMany, most, most+1, func(v units.Length) error {
			return second(score.NewStrip(alike(v, mm), score.Repeat(int(v)-1, score.Valley)...))
		}),
		edgeOf("width of a panel", "panels[1]", check.OutOfRange, units.Shortest, units.Shortest-nm, func(v units.Length) error {
			return second(score.NewStrip([]units.Length{mm, v}, score.Valley))
		}),
		edgeOf("panels in all", "panels", check.OutOfRange, units.Longest-mm, units.Longest-mm+nm, func(v units.Length) error {
			return second(score.NewStrip([]units.Length{mm, v}, score.Valley))
		}),
		edgeOf("folds", "folds", check.Conflict, 1, 2, func(v units.Length) error {
			return second(score.NewStrip(alike(2, mm), score.Repeat(int(v), score.Valley)...))
		}),
		edgeOf("kind of a fold", "folds[0]", check.Unknown, 1, 2, func(v units.Length) error {
			return second(score.NewStrip(alike(2, mm), score.Fold(v)))
		}),
		edgeOf("a letter for a fold", "folds", check.Unknown, 'V', 'W', func(v units.Length) error {
			return second(score.ParseFolds("VM" + string(rune(v))))
		}),
		edgeOf("a score at the right end", "scores[0]", check.OutOfRange, 50*mm-units.Shortest, 50*mm, func(v units.Length) error {
			return second(score.ScoredStrip(50*mm, []units.Length{v}, score.Valley))
		}),
		edgeOf("a score near the right end", "scores[0]", check.Conflict, 50*mm-units.Shortest, 50*mm-units.Shortest+nm, func(v units.Length) error {
			return second(score.ScoredStrip(50*mm, []units.Length{v}, score.Valley))
		}),
		edgeOf("a score near the one before it", "scores[1]", check.Conflict, 20*mm+units.Shortest, 20*mm+units.Shortest-nm, func(v units.Length) error {
			return second(score.ScoredStrip(50*mm, []units.Length{20 * mm, v}, score.Repeat(2, score.Valley)...))
		}),
		edgeOf("parts", "parts", check.NotPositive, 1, 0, func(v units.Length) error {
			return second(score.Divide(50*mm, int(v), whole, score.Repeat(int(v)-1, score.Valley)...))
		}),
		// Each part is a step of the ruler at least: 50 of them.
		edgeOf("parts on a ruler", "parts", check.TooMany, 50, 51, func(v units.Length) error {
			return second(score.Divide(50*mm, int(v), whole, score.Repeat(int(v)-1, score.Valley)...))
		}),
		edgeOf("a ruler coarser than the length", "ruler", check.TooLarge, 50*mm, 50*mm+nm, func(v units.Length) error {
			return second(score.Divide(50*mm, 1, stepOf(v)))
		}),
		edgeOf("no ruler", "ruler", check.Unknown, units.Length(whole), -1, func(v units.Length) error {
			return second(score.Divide(50*mm, 1, units.Ruler(v)))
		}),
		edgeOf("limit of foldings", "limit", check.NotPositive, 1, 0, func(v units.Length) error {
			_, err := stripOf(20*mm, 10*mm).Foldings(context.Background(), int(v))
			return err
		}),
		edgeOf("limit of a count", "limit", check.NotPositive, 1, 0, func(v units.Length) error {
			_, err := stripOf(20*mm, 10*mm).CountFoldings(context.Background(), int(v))
			return err
		}),
		edgeOf("panels whose foldings are listed", "panels", check.TooMany, score.MaxLayers, score.MaxLayers+1, func(v units.Length) error {
			_, err := stripOf(alike(v, mm)...).Foldings(context.Background(), 1)
			return err
		}),
		edgeOf("panels to fold to an order", "panels", check.TooMany, score.MaxTurnsTo, score.MaxTurnsTo+1, func(v units.Length) error {
			panels := alike(v, mm)
			_, err := stripOf(panels...).TurnsTo(context.Background(), foldedOf(panels...))
			return err
		}),
		edgeOf("an order of another strip", "want", check.Conflict, 10*mm, 10*mm+nm, func(v units.Length) error {
			_, err := stripOf(20*mm, 10*mm).TurnsTo(context.Background(), foldedOf(20*mm, v))
			return err
		}),
		edgeOf("an order with scores left flat", "want", check.Conflict, 1, 0, func(v units.Length) error {
			s := stripOf(20*mm, 10*mm)
			want, err := s.FoldBy(context.Background(), slices.Repeat([]score.Turn{{}}, int(v))...)
			if err == nil {
				_, err = s.TurnsTo(context.Background(), want)
			}
			return err
		}),
		edgeOf("score of a turn", "turns[0].score", check.Unknown, 0, 1, func(v units.Length) error {
			return second(stripOf(20*mm, 10*mm).FoldBy(context.Background(), score.Turn{Score: int(v)}))
		}),
		edgeOf("score of a turn below the first", "turns[0].score", check.Unknown, 0, -1, func(v units.Length) error {
			return second(stripOf(20*mm, 10*mm).FoldBy(context.Background(), score.Turn{Score: int(v)}))
		}),
		edgeOf("way of a turn", "turns[0].way", check.Unknown, 2, 3, func(v units.Length) error {
			return second(stripOf(20*mm, 10*mm).FoldBy(context.Background(), score.Turn{Way: score.TurnWay(v)}))
		}),
		edgeOf("part of a turn", "turns[0].part", check.Unknown, 1, 2, func(v units.Length) error {
			return second(stripOf(20*mm, 10*mm).FoldBy(context.Background(), score.Turn{Part: score.TurnedPart(v)}))
		}),
		edgeOf("axis of cross folds", "axis", check.Unknown, 1, 2, func(v units.Length) error {
			return second(score.FoldAcross(score.Axis(v), foldedOf(mm, mm), foldedOf(mm, mm)))
		}),
		// 100 by 200 parts.
		edgeOf("parts of cross folds", "panels", check.TooMany, 200, 201, func(v units.Length) error {
			return second(score.FoldAcross(score.Upright, foldedOf(alike(100, mm)...), foldedOf(alike(v, mm)...)))
		}),
	}
}

func grooveEdges() []edgetest.Edge {
	on := func(change func(*score.Grooves), s score.Strip, keep ...score.NoWider) error {
		g := score.Grooves{Pitch: 5 * mm}
		change(&g)
		return second(g.Snap(s, keep...))
	}
	as := func(*score.Grooves) {}
	two := stripOf(20*mm, 10*mm)
	return []edgetest.Edge{
		edgeOf("pitch of grooves", "grooves.pitch", check.OutOfRange, units.Shortest, units.Shortest-nm, func(v units.Length) error {
			return on(func(g *score.Grooves) { g.Pitch = v }, two)
		}),
		edgeOf("first groove", "grooves.origin", check.Negative, 0, -nm, func(v units.Length) error { return on(func(g *score.Grooves) { g.Origin = v }, two) }),
		edgeOf("last groove", "grooves.reach", check.Negative, 0, -nm, func(v units.Length) error { return on(func(g *score.Grooves) { g.Reach = v }, two) }),
		edgeOf("no strip on grooves", "strip", check.Missing, 1, 0, func(v units.Length) error {
			return on(as, []score.Strip{{}, two}[v])
		}),
		edgeOf("panels on grooves", "strip", check.TooMany, score.MaxSnap, score.MaxSnap+1, func(v units.Length) error {
			return on(as, stripOf(alike(v, 5*mm)...))
		}),
		edgeOf("panel that is no wider", "keep[0].panel", check.Unknown, 1, 2, func(v units.Length) error {
			return on(as, two, score.NoWider{Panel: int(v), Than: 0})
		}),
		edgeOf("panel before the first", "keep[0].panel", check.Unknown, 0, -1, func(v units.Length) error {
			return on(as, two, score.NoWider{Panel: int(v), Than: 0})
		}),
		edgeOf("panel that another is no wider than", "keep[0].than", check.Unknown, 1, 2, func(v units.Length) error {
			return on(as, two, score.NoWider{Panel: 1, Than: int(v)})
		}),
		edgeOf("order that the strip breaks", "keep[0]", check.Conflict, 20*mm, 20*mm+nm, func(v units.Length) error {
			return on(as, stripOf(20*mm, v), score.NoWider{Panel: 1, Than: 0})
		}),
	}
}

func patternEdges() []edgetest.Edge {
	whole := stepOf(mm)
	gate := func(length, less, step units.Length) error {
		return second(score.Gate(length, score.TuckIn{Less: less, Ruler: stepOf(step)}))
	}
	return []edgetest.Edge{
		edgeOf("length of a pattern", "length", check.OutOfRange, units.Longest, units.Longest+nm, func(v units.Length) error { return gate(v, mm, mm) }),
		edgeOf("tuck below nothing", "tuck.less", check.Negative, 0, -nm, func(v units.Length) error { return gate(100*mm, v, mm) }),
		edgeOf("panels of a roll", "panels", check.OutOfRange, 2, 1, func(v units.Length) error {
			return second(score.Roll(100*mm, int(v), score.TuckIn{Less: mm, Ruler: whole}))
		}),
		edgeOf("panels of a long roll", "panels", check.OutOfRange, score.MaxRoll, score.MaxRoll+1, func(v units.Length) error {
			return second(score.Roll(9000*mm, int(v), score.TuckIn{Less: mm, Ruler: whole}))
		}),
		edgeOf("tucks of a roll", "tucks", check.TooMany, score.MaxRoll-2, score.MaxRoll-1, func(v units.Length) error {
			return second(score.RollBy(9000*mm, whole, alike(v, mm)...))
		}),
		edgeOf("a tuck below nothing", "tucks[0]", check.Negative, 0, -nm, func(v units.Length) error { return second(score.RollBy(100*mm, whole, v)) }),
		// Two leaves of 1 mm, two tucks of 3 mm and the two leaves again as the middle: 10 mm.
		edgeOf("length that leaves no leaf", "length", check.TooSmall, 10*mm, 10*mm-nm, func(v units.Length) error { return gate(v, 3*mm, mm) }),
		// A leaf of a step of the ruler, 7 mm, four times; half of the 9972 mm that are
		// left of 10 m is 4986, on the ruler 4984, 712 steps. A tuck beyond it is 4991.
		would(edgeOf("tuck that leaves no leaf of 10 m", "tuck.less", check.TooLarge, 4984*mm, 4984*mm+nm, func(v units.Length) error { return gate(units.Longest, v, 7*mm) }), 4984*mm),
		// Two panels wider by a millimetre than the tuck, rounded up, and 0.01 mm: for
		// 4998 mm 9998.01. Of 9998.01 to 9999 mm something is left for the third panel;
		// longer ones have two of 5000 mm.
		edgeOf("tucks that leave nothing of 10 m", "tucks", check.TooLarge, 4998*mm, 4998*mm+nm, func(v units.Length) error {
			return second(score.RollBy(9998*mm+units.Shortest, whole, v))
		}),
		edgeOf("length of which too much is spread", "length", check.TooLarge, 9999*mm, 9999*mm+nm, func(v units.Length) error {
			return second(score.RollBy(v, whole, 4998*mm))
		}),
		// On a ruler of nanometres panels of S + t, twice, and S: a nanometre more is
		// spread over the first, and the last is less than S = 0.01 mm.
		edgeOf("a nanometre that is spread", "length", check.TooLarge, 9999999998, 9999999999, func(v units.Length) error {
			return second(score.RollBy(v, stepOf(nm), 4999984999))
		}),
		would(edgeOf("length of which far too much is spread", "length", check.TooLarge, 9999*mm, 9999*mm+600*units.Micrometre, func(v units.Length) error {
			return second(score.RollBy(v, whole, 4998*mm))
		}), 9999*mm),
		// Panels of 3334, 3334 and 3330 or 3331 mm: of 9999 mm one of 1 mm is left, of
		// 0.005 mm more, with 3331, those 0.005. The next sum of panels on the ruler is
		// 10001 mm, the one before it is 3333 + 3333 + 3330 + 1.
		would(edgeOf("length of which half a step is spread", "length", check.TooLarge, 9999*mm, 9999*mm+5*units.Micrometre, func(v units.Length) error {
			return second(score.RollBy(v, whole, 3*mm, 3329*mm))
		}), 9997*mm),
		// 64 panels of W on a ruler of 17 nm, the 63rd less by a and the last by a + b: with
		// W = a + b + 10,030 nm they are 10 m and 15 nm. Of 31 nm less nothing is spread, and
		// the last is 9,999 nm; with a step less for each they are 9,999,998,927 nm.
		would(edgeOf("length of which a sum is a little longer", "length", check.TooLarge, units.Longest-15, units.Longest-16, func(v units.Length) error {
			return second(score.RollBy(v, stepOf(17*nm), append(alike(60, 0), 161_279_952, 17)...))
		}), 9_999_998_927),
		// Four leaves and two tucks are six steps of the ruler at least: of a sixth of
		// 10 m, 1666.666666... mm.
		edgeOf("ruler that leaves no leaf of 10 m", "tuck.ruler", check.TooLarge, 1_666_666_666, 1_666_666_667, func(v units.Length) error { return gate(units.Longest, 0, v) }),
		// Panels of 2 and 2 mm on a ruler of millimetres, and the last of what is left,
		// narrower by the tuck of 1 mm or more.
		edgeOf("length of a roll", "length", check.TooSmall, 4*mm+units.Shortest, 4*mm+units.Shortest-nm, func(v units.Length) error {
			return second(score.RollBy(v, whole, mm))
		}),
	}
}

func insertEdges() []edgetest.Edge {
	lies := func(change func(*score.Enclosure)) error {
		c := score.Enclosure{To: 5 * mm, Thickness: mm}
		change(&c)
		_, err := foldedOf(20*mm, 10*mm).Lies(c)
		return err
	}
	thick := func(panels []units.Length, caliper units.Length) error {
		_, err := foldedOf(panels...).Thick(caliper, stepOf(nm))
		return err
	}
	round := func(thickness units.Length, r units.Ruler) error {
		_, err := foldedOf(4999*mm, 4999*mm).Thick(mm/4, r, score.Enclosure{To: 50 * mm, Thickness: thickness})
		return err
	}
	return []edgetest.Edge{
		// Two panels of 4999 mm fold round what is so thick.
		edgeOf("strip that its fold makes longer than 10 m", "", score.TooLong, 2*mm, 2*mm+nm, func(v units.Length) error { return round(v, stepOf(nm)) }),
		// 1/16 in is 1.5875 mm, 1/8 in more than 2; 10 m are 393.70078... in.
		edgeOf("strip in inches that its fold makes longer than 10 m", "", score.TooLong, units.Inch/16, units.Inch/16+nm, func(v units.Length) error { return round(v, units.Sixteenths) }),
		edgeOf("panel of an insert", "insert.panel", check.Unknown, 1, 2, func(v units.Length) error { return lies(func(c *score.Enclosure) { c.Panel = int(v) }) }),
		edgeOf("side of an insert", "insert.side", check.Unknown, 1, 2, func(v units.Length) error { return lies(func(c *score.Enclosure) { c.Side = score.Side(v) }) }),
		edgeOf("insert beyond its panel", "insert", check.OutOfRange, 20*mm, 20*mm+nm, func(v units.Length) error { return lies(func(c *score.Enclosure) { c.To = v }) }),
		edgeOf("insert before its panel", "insert", check.OutOfRange, 0, -nm, func(v units.Length) error { return lies(func(c *score.Enclosure) { c.From = v }) }),
		edgeOf("caliper of a folded strip", "caliper", check.OutOfRange, units.Shortest, units.Shortest-nm, func(v units.Length) error {
			return thick([]units.Length{20 * mm, 10 * mm}, v)
		}),
		edgeOf("caliper of a profile", "caliper", check.Negative, 0, -nm, func(v units.Length) error {
			_, err := foldedOf(20*mm, 10*mm).Profile(v)
			return err
		}),
	}
}

func edges() []edgetest.Edge {
	return slices.Concat(drawnEdges(), stripEdges(), grooveEdges(), patternEdges(), insertEdges())
}

func TestEdgesOfCodes(t *testing.T) {
	edgetest.Run(t, edges())
}

// What stops a fold is no length: TestBlockedText.
func TestEveryCodeHasAnEdge(t *testing.T) {
	edgetest.EveryCode(t, edges(), 17, score.InTheWay, score.HeldBack, score.WrongWay, score.FoldedAlready)
}
