package guide_test

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A maker who has the order of work and the pictures, and takes every length
// from the pictures, makes the folio; one whose pictures are wrong cannot.
func TestMakerBuildsFromPictures(t *testing.T) {
	p := build(t, folio.Spec{
		Title: "Log of the four", Cover: units.Size{W: 160 * mm, H: 210 * mm}, Spine: folio.Spine{Width: 22 * mm},
		Stocks: []folio.Stock{{Name: "blue card", Caliper: mm / 4, TwoSided: true}},
		Fittings: []folio.Fitting{
			{Name: "strip", Panel: folio.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard()}}},
			{Name: "mat", Panel: folio.RightCover, Kind: folio.Mat{Picture: pocket.Content{Name: "photo", Size: units.Size{W: 102 * mm, H: 152 * mm}, Thickness: mm / 4}}},
		},
	})
	if err := makertest.Follow(jobOfPictures(t, p)); err != nil {
		t.Fatalf("the maker cannot follow the pictures: %v", err)
	}
	for what, spoil := range map[string]func(*makertest.Job){
		"a board that is too wide": func(j *makertest.Job) { j.Row[0].Laid.Max.X += mm; j.Row[0].Made.Max.X += mm },
		"a fold elsewhere": func(j *makertest.Job) {
			i := slices.IndexFunc(j.Pieces, func(p makertest.Piece) bool { return len(p.Lines) > 0 })
			j.Pieces[i].Lines[0].At += mm
		},
		"a smaller liner": func(j *makertest.Job) {
			i := slices.IndexFunc(j.Pieces, func(p makertest.Piece) bool { return p.Role == makertest.Liner })
			j.Pieces[i].Size.W -= mm
		},
	} {
		j := jobOfPictures(t, p)
		spoil(&j)
		if makertest.Follow(j) == nil {
			t.Errorf("the maker does not mind %s", what)
		}
	}
}

// length is a length that was read.
func length(n int64) units.Length { return units.Length(n) }

// rectOf is a box that was read, from a corner.
func rectOf(b box, x, y int64) units.Rect {
	return units.Rect{Min: units.Point{X: length(b.x0 - x), Y: length(b.y0 - y)}, Max: units.Point{X: length(b.x1 - x), Y: length(b.y1 - y)}}
}

// jobOfPictures makes a maker's job of what is read from pictures. What has no
// length, as the names of materials, is that of the plan.
func jobOfPictures(t *testing.T, p *folio.Plan) makertest.Job {
	t.Helper()
	j := makertest.Job{Groove: makertest.GrooveOutside, Steps: slices.Collect(p.Steps())}
	i := 0
	for piece := range p.Pieces() {
		j.Pieces = append(j.Pieces, pieceOfPicture(t, p, i, piece))
		if !slices.ContainsFunc(j.Stocks, func(s makertest.Stock) bool { return s.Name == piece.Stock() }) {
			s, ok := p.Stock(piece.Stock())
			j.Stocks = append(j.Stocks, makertest.Stock{Name: piece.Stock(), Caliper: s.Caliper, TwoSided: s.TwoSided || !ok})
		}
		i++
	}
	for f := range p.Fittings() {
		for i := range f.Pieces() {
			j.Pieces[i].Fitting, j.Pieces[i].Inside = f.Index(), true
		}
	}
	wrap, bad := readPicture(guide.Wrap(p, guide.Options{}))
	inside, badToo := readPicture(guide.Inside(p, guide.Options{Fit: units.Size{W: 180 * mm}}))
	if bad+badToo != "" {
		t.Fatal(bad, badToo)
	}
	rowOfPicture(&j, p, wrap)
	cover, _ := round(slices.DeleteFunc(inside.kind("outline", "hidden"), func(l readLine) bool { return len(l.of) > 1 }))
	j.Planned = rectOf(cover, cover.x0, cover.y0).Size()
	w, h := p.AsMade()
	j.Expected = units.Size{W: w.Length(), H: h.Length()}
	j.Cover = units.RectAt(units.Point{}, j.Planned)
	// What lies inside: the liner, and the parts of the fittings.
	seen := map[string]bool{}
	for _, l := range inside.lines {
		piece, err := strconv.Atoi(l.of["piece"])
		key := l.of["piece"] + "," + l.of["copy"] + "," + l.of["panel"]
		if err != nil || l.legend || seen[key] || j.Pieces[piece].Role != makertest.Liner && l.of["fitting"] == "" {
			continue
		}
		seen[key] = true
		at, _ := round(inside.of(l.of["piece"], l.of["copy"], l.of["panel"], l.of["fitting"]))
		copied, _ := strconv.Atoi(l.of["copy"])
		want := makertest.Placed{Piece: piece, Copy: copied, Panel: work.All, Rect: rectOf(at, cover.x0, cover.y0)}
		if panel, err := strconv.Atoi(l.of["panel"]); err == nil {
			want.Panel = panel
		}
		for q := range p.Placed() { // which side is up is not drawn
			i, _ := q.Piece()
			k, ok := q.Panel()
			if i == piece && (!ok || k == want.Panel) && q.Up() != j.Pieces[piece].Up {
				want.Up = score.Back
			}
		}
		j.Want = append(j.Want, want)
	}
	for f := range p.Fittings() {
		for i, s := range f.Spots() {
			c, _ := s.Content()
			o := makertest.Other{Kind: work.Content, Index: f.Index(), Copy: i, Thickness: c.Thickness, Size: s.Lies().Size(), Place: s.Lies()}
			if lines := inside.of("", "", "", strconv.Itoa(f.Index())); len(lines) > 0 { // else it is in a closed pocket
				at, _ := round(lines)
				o.Place = rectOf(at, cover.x0, cover.y0)
				o.Size = o.Place.Size()
			}
			j.Others = append(j.Others, o)
		}
	}
	if tight, ok := p.Tightest(true); ok {
		j.Left = tight.Left().Length()
	}
	return j
}

// rowOfPicture reads the boards and the covering from the picture of the wrap.
func rowOfPicture(j *makertest.Job, p *folio.Plan, wrap *reading) {
	x, y := int64(math.MaxInt64), int64(0)
	type laid struct {
		piece, copy int
		at          box
	}
	var boards []laid
	for b := range p.Boards() {
		i, n := b.Piece()
		at, _ := round(wrap.of(strconv.Itoa(i), copyText(n), "", ""))
		boards = append(boards, laid{i, n, at})
		if at.x0 < x {
			x, y = at.x0, at.y0
		}
	}
	for _, b := range boards {
		r := rectOf(b.at, x, y)
		j.Row = append(j.Row, makertest.Board{Piece: b.piece, Copy: b.copy, Laid: r, Made: r})
		j.Want = append(j.Want, makertest.Placed{Piece: b.piece, Copy: b.copy, Panel: work.All, Rect: r})
	}
	for part := range p.Wrap().Pieces() {
		i, n := part.Index()
		at, _ := round(wrap.of(strconv.Itoa(i), copyText(n), "", ""))
		j.Want = append(j.Want, makertest.Placed{Piece: i, Copy: n, Panel: work.All, Rect: rectOf(at, x, y), Outside: true})
	}
}

// pieceOfPicture reads a piece from its picture.
func pieceOfPicture(t *testing.T, p *folio.Plan, i int, piece folio.Piece) makertest.Piece {
	t.Helper()
	r, bad := readPicture(guide.Piece(p, i, guide.Options{}))
	if bad != "" {
		t.Fatal(bad)
	}
	lines := r.of(strconv.Itoa(i), "", "", "")
	around, _ := round(lines)
	out := makertest.Piece{Name: piece.Name(), Quantity: piece.Quantity(), Stock: piece.Stock(), Caliper: piece.Caliper(), Up: piece.Up(), Fitting: -1,
		Size: rectOf(around, around.x0, around.y0).Size()}
	switch piece.Role() {
	case folio.BoardPiece:
		out.Role = makertest.BoardRole
	case folio.CoveringPiece:
		out.Role = makertest.Covering
	case folio.LinerPiece:
		out.Role = makertest.Liner
	}
	if piece.Grain() == folio.GrainParallel {
		out.Grain = work.GrainAlongHeight
	}
	at := []units.Length{0, out.Size.W}
	for _, l := range lines {
		from, to := l.pts[0], l.pts[len(l.pts)-1]
		fold := score.Valley
		switch l.kind {
		case "outline":
			if out.Outline == nil {
				for _, q := range l.pts[:len(l.pts)-1] {
					out.Outline = append(out.Outline, units.Point{X: length(q.x - around.x0), Y: length(q.y - around.y0)})
				}
			}
			continue
		case "mountain":
			fold = score.Mountain
		}
		line := score.Line{Axis: score.Upright, At: length(from.x - around.x0), From: length(from.y - around.y0), To: length(to.y - around.y0), Fold: fold}
		if from.y == to.y {
			line = score.Line{Axis: score.Level, At: length(from.y - around.y0), From: length(from.x - around.x0), To: length(to.x - around.x0), Fold: fold}
		} else {
			at = append(at, line.At)
		}
		out.Lines = append(out.Lines, makertest.Line{Line: line, Scored: true})
	}
	for _, f := range r.fields {
		if !f.legend {
			side := score.Face
			if f.behind {
				side = score.Back
			}
			out.Glue = append(out.Glue, score.Glue{Area: rectOf(f.box, around.x0, around.y0), Side: side})
		}
	}
	slices.Sort(at)
	if len(out.Lines) > 0 {
		for k := 1; k < len(at); k++ {
			out.Panels = append(out.Panels, units.Rect{Min: units.Point{X: at[k-1]}, Max: units.Point{X: at[k], Y: out.Size.H}})
		}
	}
	return out
}
