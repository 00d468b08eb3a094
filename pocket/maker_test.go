package pocket_test

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/foliotest"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// jobOf tells a maker what a design is to become.
func jobOf(d pocket.Design) makertest.Job {
	paper := d.Paper()
	j := makertest.Job{
		Closed: d.Closed(), Empty: d.Thickness(false),
		Stocks: []makertest.Stock{
			{Name: paper.Name, Caliper: paper.Caliper, TwoSided: paper.TwoSided, Largest: paper.Sheet},
			{Name: "the mat's stock", TwoSided: true},
		},
		Groove: makertest.GrooveOutside,
	}
	if paper.Groove == pocket.GrooveInside {
		j.Groove = makertest.GrooveInside
	}
	for s := range d.Steps() {
		j.Steps = append(j.Steps, s)
	}
	for _, p := range d.Pieces() {
		j.Pieces = append(j.Pieces, pieceOf(p, paper))
	}
	for _, p := range d.Panels() {
		piece := &j.Pieces[p.Piece()]
		w := makertest.Placed{Piece: p.Piece(), Copy: p.Copy(), Panel: len(piece.Panels), Rect: p.Closed(), Up: p.Side()}
		piece.Panels = append(piece.Panels, p.Blank())
		if !p.Closed().Empty() {
			j.Want = append(j.Want, w)
		}
	}
	if c, ok := d.Content(); ok {
		j.Full = d.Thickness(true)
		for i, p := range d.Spots() {
			o := makertest.Other{Kind: work.Content, Copy: i, Size: c.Size, Thickness: c.Thickness, Place: rests(p, c.Size), Room: p.Turned()}
			if _, ok := d.Kind().(pocket.Concertina); ok { // all of it is taped on as one
				o.Thickness *= units.Length(p.Capacity().Count)
			}
			if g, ok := d.Kind().(pocket.GussetRun); ok && g.OpenFoot {
				o.Open = []score.Edge{score.Tail}
			}
			j.Others = append(j.Others, o)
		}
	}
	for i, p := range j.Pieces {
		if p.Name == "mat" {
			on, _ := d.Carry(p.Size)
			j.Want = append(j.Want, makertest.Placed{Piece: i, Panel: work.All, Rect: on})
		}
	}
	if k, ok := d.Kind().(pocket.Concertina); ok && k.OnSpine {
		foliotest.Standing(k, d, &j, 0, units.Point{})
		j.Around, j.Upright = units.Metre, true
	}
	for w := range d.Warnings() {
		for i := range j.Pieces {
			switch w.Code {
			case pocket.WrongSideShows:
				j.WrongSides = append(j.WrongSides, i)
			case pocket.NeedsTwoScores:
				j.Strained = append(j.Strained, i)
			}
		}
	}
	return j
}

// pieceOf tells what a piece is to be cut like.
func pieceOf(p pocket.Piece, paper pocket.Paper) makertest.Piece {
	out := makertest.Piece{Name: p.Name(), Quantity: p.Quantity(), Size: p.Blank().Size(), Stock: paper.Name, Caliper: p.Caliper(), Up: paper.Up}
	if p.StockKind() == pocket.MatStock {
		out.Stock, out.Up = "the mat's stock", work.RightSide
	}
	if axis, ok := p.Grain(); ok {
		out.Grain = work.GrainAlongHeight
		if axis == score.Level {
			out.Grain = work.GrainAlongWidth
		}
	}
	draw := p.Blank().Draft()
	for _, l := range draw.Lines {
		out.Lines = append(out.Lines, makertest.Line{Line: l, Scored: true})
	}
	out.Openings, out.Notches, out.Glue = draw.CutOuts, draw.Notches, draw.Glue
	for _, t := range draw.Tabs {
		out.Glue = append(out.Glue, score.Glue{Area: t.Area(draw.Size), Side: t.Side})
	}
	if len(draw.Slants) > 0 {
		blank, err := score.NewBlank(score.Draft{Size: draw.Size, Slants: draw.Slants})
		if err != nil {
			panic(err)
		}
		edge, _ := blank.Outline()
		for _, c := range edge.Corners() {
			out.Outline = append(out.Outline, c)
		}
	}
	return out
}

// rests returns where a content comes to rest: in the middle of its place, and
// what is slipped in as far as it goes.
func rests(p pocket.Spot, s units.Size) units.Rect {
	x, y := p.Turned().Min.X+(p.Turned().Size().W-s.W).Half(units.Down), p.Turned().Min.Y+(p.Turned().Size().H-s.H).Half(units.Down)
	if !p.Mounted() {
		switch p.Mouth() {
		case score.Head:
			y = p.Turned().Max.Y - s.H
		case score.Left:
			x = p.Turned().Max.X - s.W
		case score.Right:
			x = p.Turned().Min.X
		}
	}
	return units.RectAt(units.Point{X: x, Y: y}, s)
}

// workbench are kinds of every shape.
func workbench() []pocket.Kind {
	card, print := pocket.IDCard(), pocket.Content{Name: "print", Size: units.MustParseSize("89 x 127 mm"), Thickness: 260 * units.Micrometre}
	mat := pocket.Mat{Size: units.MustParseSize("95 x 133 mm"), Caliper: 1500 * units.Micrometre}
	out := []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Slip{Content: card, Build: pocket.FoldedFoot}, pocket.Slip{Content: card, Place: units.MustParseSize("120 x 150 mm")},
		pocket.Corners{Content: print}, pocket.Corners{Content: print, Corners: 2}, pocket.Corners{Content: print, Corners: 1, Place: units.MustParseSize("120 x 150 mm")},
		pocket.FoldedStrip{Content: card}, pocket.FoldedStrip{Content: card, OpensRight: true},
		pocket.FoldedStrip{Content: print, OwnSpine: true}, pocket.FoldedStrip{Content: print, OwnSpine: true, OpensRight: true},
		pocket.FoldedStrip{Content: print, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 10 * mm}, Mat: pocket.Mat{Size: units.MustParseSize("60 x 80 mm")}},
		pocket.FoldedStrip{Content: print, OwnSpine: true, OpensRight: true, Mat: pocket.Mat{Size: units.MustParseSize("60 x 80 mm")}},
		pocket.Gusset{Content: card, Count: 5}, pocket.Gusset{Content: card, At: pocket.FootGusset}, pocket.Gusset{Content: pocket.Content{Size: card.Size}},
		pocket.GussetRun{Content: card, Pockets: 1}, pocket.GussetRun{Content: card, Pockets: 4}, pocket.GussetRun{Place: units.MustParseSize("120 x 90 mm"), Pockets: 3, OpenFoot: true},
		pocket.GussetRun{Content: card, Pockets: 2, Depth: pocket.Share{Part: 1, Of: 6}, Glue: 12 * mm}, // a notch would reach into the glue at the foot
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

// The same for contents, papers and rulers of all sorts.
func TestMadeByHandAtRandom(t *testing.T) {
	proptest.Run(t, 100, func(p *gopter.Properties) {
		p.Property("the order of work makes the design", prop.ForAll(func(j job) string {
			d, err := j.design()
			if err == nil {
				err = makertest.Follow(jobOf(d))
			}
			if err != nil {
				return err.Error()
			}
			return ""
		}, genJob()))
	})
}

// What a step rests on is enough: done as soon as that is, before all others,
// it can be done, and so can the others after it.
func TestRestsOnEnough(t *testing.T) {
	proptest.Run(t, 15, func(p *gopter.Properties) {
		p.Property("any step can be done as soon as what it rests on is", prop.ForAll(func(j job, n int) string {
			d, err := j.design()
			if err != nil {
				return err.Error()
			}
			m := jobOf(d)
			for i := range 4 {
				k := (n + i*len(m.Steps)/4) % len(m.Steps)
				if err := makertest.FollowEarly(m, k); err != nil {
					return fmt.Sprintf("step %d early: %v", k+1, err)
				}
			}
			return ""
		}, genJob(), gen.IntRange(0, 1000)))
	})
}

// Of orders of work with one mistake, a maker objects to at least 98 of 100.
func TestMistakesAreNoticed(t *testing.T) {
	var of [3]int
	var missed []string
	jobs, params := genJob(), gopter.DefaultGenParameters()
	r := rand.New(rand.NewSource(proptest.Seed()))
	params.Rng = r
	for range proptest.Cases(30) {
		made, ok := jobs(params).Retrieve()
		if !ok {
			continue
		}
		j := made.(job)
		d, err := j.design()
		if err != nil {
			t.Fatal(err)
		}
		m := jobOf(d)
		judge, err := makertest.NewJudge(m)
		if err != nil {
			t.Fatal(err)
		}
		step := d.Ruler().Step()
		changes := slices.Collect(makertest.Changes(m.Steps, max(step, 10*units.Micrometre)))
		for range 30 {
			c := changes[r.Intn(len(changes))]
			v := judge.Of(c.Steps)
			if of[v]++; v == makertest.Unnoticed {
				missed = append(missed, fmt.Sprintf("%s: %s", j.kind.Name(), c.What))
			}
		}
	}
	if 100*of[makertest.Unnoticed] > 2*(of[makertest.Unnoticed]+of[makertest.Objected]) {
		t.Errorf("of %d mistakes %d were not noticed:\n%s", of[makertest.Unnoticed]+of[makertest.Objected], of[makertest.Unnoticed], strings.Join(missed, "\n"))
	}
}

// Strips that no sheet takes in one are joined from several, and what is made of
// them is what one strip would have made.
func TestJoinedStripsAreMade(t *testing.T) {
	paper := pocket.Paper{Caliper: mm / 4, TwoSided: true, Sheet: units.MustParseSize("297 x 210 mm")}
	joined := 0
	for n := 1; n < 8; n++ {
		for w := units.Length(30); w < 200; w += 17 {
			card := pocket.Content{Name: "card", Size: units.Size{W: w * mm, H: 60 * mm}, Thickness: mm / 3}
			for _, k := range []pocket.Kind{
				pocket.FoldedAccordion{Content: card, Panels: n}, pocket.GussetRun{Content: card, Pockets: n, Half: w / 4 * mm}, pocket.Concertina{Content: card, Leaves: n, Fold: w / 4 * mm},
			} {
				d, err := k.Design(paper, units.WholeMillimetres)
				if err != nil {
					continue
				}
				for range d.Splices() {
					joined++
				}
				if err := makertest.Follow(jobOf(d)); err != nil {
					t.Errorf("%s for %d of %d mm: %v", k.Name(), n, w, err)
				}
			}
		}
	}
	if joined < 100 {
		t.Errorf("only %d joints", joined)
	}
}

// A flap over a spine of its own goes round what it was made for, and a maker sees
// when that is thicker.
func TestFlapGoesRoundItsContents(t *testing.T) {
	for _, k := range []pocket.FoldedStrip{
		{Content: pocket.IDCard(), Count: 4, OwnSpine: true}, {Content: pocket.IDCard(), OwnSpine: true, OpensRight: true},
	} {
		j := jobOf(design(t, k, pocket.Paper{Caliper: 200 * units.Micrometre}, units.TenthMillimetres))
		if err := makertest.Follow(j); err != nil {
			t.Errorf("%v", err)
		}
		j.Others[0].Thickness += 150 * units.Micrometre
		if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), "there is room for") {
			t.Errorf("with cards that are thicker: %v", err)
		}
	}
}

// The maker sets the pile that has been made against the closed thickness of every
// kind, empty and filled, and minds a nanometre.
func TestThicknessIsMinded(t *testing.T) {
	minded := map[string]int{}
	for i, k := range workbench() {
		j := jobOf(design(t, k, pocket.Paper{Caliper: 200 * units.Micrometre}, units.WholeMillimetres))
		for _, by := range []units.Length{-1, 1} {
			for what, at := range map[string]*units.Length{"empty": &j.Empty, "filled": &j.Full} {
				if *at == 0 {
					continue // nothing is put in
				}
				was := *at
				*at += by
				if err := makertest.Follow(j); err != nil && strings.Contains(err.Error(), "closed and "+what) {
					minded[k.Name()+" "+what]++
				} else if by > 0 || what == "empty" { // where it lies decides whether less is too little
					t.Errorf("%d %s, %s, by %d nm: %v", i, k.Name(), what, by.Nanometres(), err)
				}
				*at = was
			}
		}
	}
	if len(minded) != 2*9 {
		t.Errorf("minded are only %v", minded)
	}
}
