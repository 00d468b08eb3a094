package pocket_test

import (
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// jobOf hands a design to a maker who knows nothing of it but its steps, and
// says what is to come out.
func jobOf(d pocket.Design) makertest.Job {
	paper := d.Paper()
	j := makertest.Job{Closed: d.Closed(), Groove: makertest.GrooveOutside, Stocks: []makertest.Stock{
		{Name: paper.Name, Caliper: paper.Caliper, TwoSided: paper.TwoSided}, {Name: "the mat's stock", TwoSided: true},
	}}
	if paper.Groove == pocket.GrooveInside {
		j.Groove = makertest.GrooveInside
	}
	if paper.Sheet.W > 0 && paper.Sheet.H > 0 {
		j.Stocks[0].Sheets = []makertest.Sheet{{Size: paper.Sheet}}
	}
	showsWrong := false
	for w := range d.Warnings() {
		showsWrong = showsWrong || w.Code == pocket.WrongSideShows
	}
	for p := range d.Pieces() {
		q := pieceOf(d, p)
		if showsWrong && p.Stock == pocket.PaperStock {
			j.WrongSides = append(j.WrongSides, len(j.Pieces))
		}
		j.Pieces = append(j.Pieces, q)
	}
	for p := range d.Panels() {
		q := &j.Pieces[p.Piece]
		panel := slices.Index(q.Panels, p.Blank)
		if panel < 0 {
			panel = len(q.Panels)
			q.Panels = append(q.Panels, p.Blank)
		}
		if !p.Closed.Empty() {
			j.Want = append(j.Want, makertest.Placed{Piece: p.Piece, Copy: p.Copy, Panel: panel, Rect: p.Closed, Up: p.Side})
		}
	}
	for i, p := range j.Pieces {
		if p.Name == "mat" {
			on, _ := d.Carry(p.Size)
			j.Want = append(j.Want, makertest.Placed{Piece: i, Panel: work.All, Rect: on})
		}
	}
	if c, ok := d.Content(); ok {
		for p := range d.Places() {
			j.Others = append(j.Others, makertest.Other{Kind: work.Content, Copy: p.Pocket, Size: c.Size, Thickness: c.Thickness, Place: rests(p, c.Size)})
		}
	}
	for s := range d.Steps() {
		j.Steps = append(j.Steps, s)
	}
	switch k := d.Kind().(type) {
	case pocket.Concertina:
		if k.OnSpine {
			standing(d, &j)
			beside(&j, 200*mm)
		}
	case pocket.Flap:
		laidOpen(d, &j, k.Hinge, "leaf")
	case pocket.FoldedStrip:
		hinge := score.Left
		if k.OpensRight {
			hinge = score.Right
		}
		laidOpen(d, &j, hinge, "flap")
	}
	return j
}

// laidOpen says where a flap with a spine and what is on it lie: opened over
// its hinge and the spine, so that it can be glued.
func laidOpen(d pocket.Design, j *makertest.Job, hinge score.Edge, name string) {
	spine, ok := d.Panel("spine")
	if !ok {
		return
	}
	closed, wide := d.Closed(), min(spine.Blank.Size().W, spine.Blank.Size().H)
	turn := func(r units.Rect) units.Rect {
		switch hinge { // mirrored at the middle of the spine
		case score.Left:
			return units.RectAt(units.Point{X: -wide - r.Max.X, Y: r.Min.Y}, r.Size())
		case score.Right:
			return units.RectAt(units.Point{X: 2*closed.W + wide - r.Max.X, Y: r.Min.Y}, r.Size())
		case score.Head:
			return units.RectAt(units.Point{X: r.Min.X, Y: -wide - r.Max.Y}, r.Size())
		}
		return units.RectAt(units.Point{X: r.Min.X, Y: 2*closed.H + wide - r.Max.Y}, r.Size())
	}
	defer beside(j, 400*mm)
	flap, _ := d.Panel(name)
	for i := range j.Want {
		w := &j.Want[i]
		if w.Piece != 0 || w.Rect == flap.Closed && j.Pieces[0].Panels[w.Panel] == flap.Blank {
			w.Rect, w.Up = turn(w.Rect), w.Up.Other()
		}
	}
	for i := range j.Others {
		if name == "leaf" {
			j.Others[i].Place = turn(j.Others[i].Place)
		}
	}
}

// beside gives the base of what reaches beyond the footprint so much more on
// every side.
func beside(j *makertest.Job, by units.Length) {
	j.Closed = j.Closed.Plus(2*by, 2*by)
	to := units.Point{X: by, Y: by}
	for i := range j.Want {
		j.Want[i].Rect = j.Want[i].Rect.Moved(to)
	}
	for i := range j.Others {
		j.Others[i].Place = j.Others[i].Place.Moved(to)
	}
	further := func(a work.At) work.At {
		a.X += by
		a.Y += by
		return a
	}
	for _, s := range j.Steps {
		for k, a := range s.Do {
			switch a := a.(type) {
			case work.MarkPlace:
				a.At = further(a.At)
				s.Do[k] = a
			case work.Lay:
				a.At = further(a.At)
				s.Do[k] = a
			case work.Fix:
				if a.On.Kind == work.Under {
					a.At = further(a.At)
					s.Do[k] = a
				}
			}
		}
	}
}

// standing says where the leaves of a guard on a spine lie when they are turned
// to the right, and the guard with its tabs.
func standing(d pocket.Design, j *makertest.Job) {
	k := d.Kind().(pocket.Concertina)
	leaf, guard := 0, 0
	for i, p := range j.Pieces {
		if p.Name == "leaf" {
			leaf = i
		}
	}
	size := j.Pieces[leaf].Size
	tab := j.Pieces[guard].Panels[0].Size().W
	far := units.Length(d.Pockets()-1) * k.Land
	j.Want = append(j.Want, makertest.Placed{Piece: guard, Panel: work.All, Rect: units.RectAt(units.Point{X: -tab}, units.Size{W: 2*tab + far, H: size.H})})
	for i := range d.Pockets() {
		j.Want = append(j.Want, makertest.Placed{Piece: leaf, Copy: i, Panel: work.All, Rect: units.RectAt(units.Point{X: units.Length(i) * k.Land}, size)})
	}
}

// rests returns where a content comes to rest: in the middle of its place, and
// what is slipped in as far as it goes.
func rests(p pocket.Place, s units.Size) units.Rect {
	x, y := p.Rect.Min.X+(p.Rect.Size().W-s.W).Half(units.Down), p.Rect.Min.Y+(p.Rect.Size().H-s.H).Half(units.Down)
	if !p.Mounted {
		switch p.Mouth {
		case score.Head:
			y = p.Rect.Max.Y - s.H
		case score.Left:
			x = p.Rect.Max.X - s.W
		case score.Right:
			x = p.Rect.Min.X
		}
	}
	return units.RectAt(units.Point{X: x, Y: y}, s)
}

// pieceOf is a piece by its drawing. Its panels are those between its scores,
// where they run one way.
func pieceOf(d pocket.Design, p pocket.Piece) makertest.Piece {
	b := p.Blank
	q := makertest.Piece{Name: p.Name, Quantity: p.Quantity, Size: b.Size(), Caliper: p.Caliper, Stock: d.Paper().Name, Up: d.Paper().Up}
	if p.Stock == pocket.MatStock {
		q.Stock, q.Up = "the mat's stock", work.RightSide
	}
	if axis, ok := p.Grain(); ok {
		q.Grain = work.GrainAlongHeight
		if axis == score.Level {
			q.Grain = work.GrainAlongWidth
		}
	}
	for _, c := range b.CutOuts() {
		q.Openings = append(q.Openings, c)
	}
	for _, n := range b.Notches() {
		q.Notches = append(q.Notches, n)
	}
	slanted := score.Drawing{Size: b.Size()}
	for _, s := range b.Slants() {
		slanted.Slants = append(slanted.Slants, s)
	}
	if len(slanted.Slants) > 0 {
		blank, err := score.NewBlank(slanted)
		if err != nil {
			panic(err)
		}
		edge, _ := blank.Outline()
		for _, c := range edge.Corners() {
			q.Outline = append(q.Outline, c)
		}
	}
	axes := map[score.Axis]bool{}
	at := []units.Length{0}
	for _, l := range b.Lines() {
		q.Lines = append(q.Lines, makertest.Line{Line: l, Scored: true})
		axes[l.Axis] = true
		at = append(at, l.At)
	}
	if len(axes) != 1 {
		return q
	}
	slices.Sort(at)
	size := b.Size()
	for i, from := range at {
		r := units.RectAt(units.Point{X: from}, size)
		if axes[score.Upright] {
			if r.Max.X = size.W; i+1 < len(at) {
				r.Max.X = at[i+1]
			}
		} else {
			r = units.RectAt(units.Point{Y: from}, size)
			if r.Max.Y = size.H; i+1 < len(at) {
				r.Max.Y = at[i+1]
			}
		}
		q.Panels = append(q.Panels, r)
	}
	return q
}

// workbench are kinds of every shape.
func workbench() []pocket.Kind {
	card, print := pocket.IDCard(), pocket.Content{Name: "print", Size: units.MustParseSize("89 x 127 mm"), Thickness: 260 * units.Micrometre}
	mat := pocket.Mat{Size: units.MustParseSize("95 x 133 mm"), Caliper: 1500 * units.Micrometre}
	out := []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Slip{Content: card, Build: pocket.FoldedFoot}, pocket.Slip{Content: card, Place: units.MustParseSize("120 x 150 mm")},
		pocket.Corner{Content: print}, pocket.Corner{Content: print, Corners: 2}, pocket.Corner{Content: print, Corners: 1, Place: units.MustParseSize("120 x 150 mm")},
		pocket.FoldedStrip{Content: card}, pocket.FoldedStrip{Content: card, OpensRight: true},
		pocket.FoldedStrip{Content: print, OwnSpine: true}, pocket.FoldedStrip{Content: print, OwnSpine: true, OpensRight: true},
		pocket.FoldedStrip{Content: print, Notch: pocket.Notch{Width: 20 * mm, Depth: 10 * mm}, Mat: pocket.Mat{Size: units.MustParseSize("60 x 80 mm")}},
		pocket.FoldedStrip{Content: print, OwnSpine: true, OpensRight: true, Mat: pocket.Mat{Size: units.MustParseSize("60 x 80 mm")}},
		pocket.Gusset{Content: card, Count: 5}, pocket.Gusset{Content: card, At: pocket.FootGusset}, pocket.Gusset{Content: pocket.Content{Size: card.Size}},
		pocket.GussetRun{Content: card, Pockets: 1}, pocket.GussetRun{Content: card, Pockets: 4}, pocket.GussetRun{Place: units.MustParseSize("120 x 90 mm"), Pockets: 3, OpenFoot: true},
		pocket.FoldedAccordion{Content: card, Panels: 1}, pocket.FoldedAccordion{Content: card, Panels: 2}, pocket.FoldedAccordion{Content: card, Panels: 5},
		pocket.Concertina{Content: card, Leaves: 1}, pocket.Concertina{Content: print, Leaves: 4}, pocket.Concertina{Content: print, Leaves: 3, Land: 3 * mm},
		pocket.Concertina{Leaf: units.MustParseSize("90 x 120 mm"), Leaves: 3, OnSpine: true}, pocket.Concertina{Leaf: units.MustParseSize("90 x 120 mm"), Leaves: 4, Land: 2 * mm, OnSpine: true},
		pocket.Pleat{Content: card, Pleats: 1}, pocket.Pleat{Content: card, Pleats: 4}, pocket.Pleat{Content: card, Pleats: 3, Fold: 12 * mm},
	}
	for edge := score.Head; edge <= score.Right; edge++ {
		out = append(out, pocket.Flap{Content: print, Hinge: edge}, pocket.Flap{Content: print, Mat: mat, Hinge: edge}, pocket.Flap{Content: print, Mat: mat, Hinge: edge, Over: 3 * mm})
	}
	return out
}

// A maker who reads nothing but the data of the steps makes every kind, from
// the sheet to the pocket with its contents in.
func TestMadeByHand(t *testing.T) {
	for i, k := range workbench() {
		for _, p := range []pocket.Paper{{}, {Caliper: 200 * units.Micrometre, Groove: pocket.GrooveInside}} {
			for _, r := range []units.Ruler{units.WholeMillimetres, units.Sixteenths} {
				t.Run(fmt.Sprintf("%d %s", i, k.Name()), func(t *testing.T) {
					d := design(t, k, p, r)
					if err := makertest.Follow(jobOf(d)); err != nil {
						t.Error(err)
						for s := range d.Steps() {
							t.Log(s.Number, s.After, s.Text(units.Format{}))
						}
					}
				})
			}
		}
	}
}
