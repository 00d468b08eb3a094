package guide_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A maker who has the order of work and the pictures, and takes every length
// from the pictures, makes the folio; one whose pictures are wrong cannot. The
// folios are of every form, and hold every kind of fitting and pocket.
func TestMakerBuildsFromPictures(t *testing.T) {
	for _, s := range slices.Concat(samples(), everyForm(), wide()) {
		if _, measured := s.plan.Measured(); measured {
			continue // its pictures are those of the cover that was made
		}
		if err := makertest.Follow(jobOfPictures(t, s.plan, s.look(0))); err != nil {
			t.Errorf("%s: the maker cannot follow the pictures: %v", s.name, err)
		}
	}
}

// everyForm is a folio of each form of row, and with each kind of fitting.
func everyForm() []sample { return slices.Clone(plansOfEveryForm()) }

var plansOfEveryForm = sync.OnceValue(func() []sample {
	var list []sample
	c := pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 40 * mm}, Thickness: mm / 4}
	for form := boards.SpineBoard; form <= boards.OwnRow; form++ {
		s := folio.Spec{Title: "Log of the four", Form: form, Cover: units.Size{W: 160 * mm, H: 210 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		rowOf(&s, 40*mm)
		s.Fittings = []folio.Fitting{{Name: "mat", Kind: folio.Mat{Picture: c}}}
		list = append(list, sampleOf(form.String(), s))
	}
	fitted := func(name string, k folio.Kind) {
		s := folio.Spec{Title: "Cards of the four", Cover: units.Size{W: 200 * mm, H: 220 * mm}, Spine: rule.Spine{Width: 50 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		s.Stocks = []stock.Stock{{Name: "blue card", Caliper: mm / 4, TwoSided: true}}
		s.Fittings = []folio.Fitting{{Name: "fitting", Stock: "blue card", Kind: k}}
		list = append(list, sampleOf(name, s))
	}
	for k := range kinds {
		fitted(fmt.Sprintf("kind %d", k), anyKind(k, c))
	}
	fitted("strip with walls", folio.Folded{Kind: pocket.FoldedStrip{Content: c, Spine: 6 * mm}})
	fitted("flap with walls", folio.Folded{Kind: pocket.Flap{Content: c, Spine: 6 * mm}})
	fitted("lands", folio.Folded{Kind: pocket.GussetRun{Content: c, Pockets: 2, Land: 6 * mm}})
	return append(list, rarer()...)
})

// rarer are folios with what few have: magnets, side papers over a covered spine that
// came out otherwise, papers with the sides turned in first, a liner on each panel,
// fittings that stand on others, on the outside and in corners, notches in mouths, hinges
// creased otherwise, or so stiff that the folio does not shut.
func rarer() []sample {
	cover, card := units.Size{W: 170 * mm, H: 220 * mm}, pocket.Content{Name: "pass", Size: units.Size{W: 85 * mm, H: 54 * mm}, Thickness: mm / 2}
	start := folio.Spec{Title: "Log of the pair", Cover: cover, Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres}}
	start.Stocks = []stock.Stock{{Name: "blue card", Caliper: mm / 4, TwoSided: true}, {Name: "film", Caliper: mm / 10}}
	held := start
	held.Form, held.Magnets = boards.ForeEdgeFlap, closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 2}
	doors := start
	doors.Form, doors.Magnets, doors.Lining.Rule = boards.TwoFlaps, closing.Magnets{Diameter: 10 * mm, Thickness: 3 * mm / 2, Pairs: 1}, rule.LiningPanels
	sides := start
	sides.Turning, sides.Lining.Rule = rule.SidesFirst, rule.LiningPanels
	quarter := start
	quarter.Quarter.Rule, quarter.SpineCovering = rule.QuarterAlways, stock.Stock{Name: "book cloth", Caliper: mm / 3}
	stacked := start
	stacked.Fittings = []folio.Fitting{
		{Name: "crest", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 24 * mm}, Thickness: 2 * mm},
			Place: place.Place{Across: place.Right, Along: place.Head, Offset: units.Point{X: 14 * mm, Y: 19 * mm}}},
		{Name: "strip", Panel: boards.RightCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 8 * mm}}}},
		{Name: "note", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.Slip{Content: card, Notch: pocket.ThumbNotch{Width: 24 * mm, Depth: 9 * mm}}},
			Place: place.Place{Across: place.Right, Along: place.Tail, Offset: units.Point{X: 9 * mm, Y: 11 * mm}}},
		{Name: "view", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Frame{Picture: card, Mouth: score.Left, Film: "film"},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10 * mm, Y: 8 * mm}}},
		{Name: "label", Panel: boards.RightCover, Outside: true, Stock: "blue card", Kind: folio.Mat{Size: units.Size{W: 60 * mm, H: 30 * mm}}},
		{Name: "plate", StandsOn: "label", Stock: "blue card", Kind: folio.Mat{Size: units.Size{W: 40 * mm, H: 30 * mm}}},
		{Name: "motto", StandsOn: "crest", Stock: "blue card", Kind: folio.Mat{Size: units.Size{W: 20 * mm, H: 10 * mm}}},
	}
	made := func(name string, s folio.Spec, m refit.Measured) sample {
		p := sampleOf(name, s)
		q, err := p.plan.Refit(m)
		if err != nil {
			panic(name + ": " + err.Error())
		}
		p.plan = q
		return p
	}
	glued := start // all that is stuck dries
	glued.Closing.Adhesive.Glue, glued.Groove = true, pocket.GrooveInside
	glued.Fittings = []folio.Fitting{{Name: "leaves", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.Concertina{Content: card.Turned(), Leaves: 2}}},
		{Name: "hinged", Panel: boards.RightCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.Flap{Content: card, Hinge: score.Tail, Mat: pocket.Mat{Size: units.Size{W: 95 * mm, H: 64 * mm}}}}}}
	block := start // the covers are as large as what they are built around asks
	block.Cover, block.Spine, block.Block = units.Size{}, rule.Spine{}, boards.Block{Page: units.Size{W: 140 * mm, H: 190 * mm}, Thickness: 14 * mm, Setback: 2 * mm}
	narrow := start // its folds lie less than the arrows reach from the edges
	narrow.Fittings = []folio.Fitting{{Name: "leaves", Stock: "blue card", Kind: folio.Folded{Kind: pocket.Concertina{Content: card, Leaves: 3, Fold: 5 * mm, Tab: mm}}}}
	hinged := func(name string, form boards.Form, h rule.Hinge) sample {
		s := start
		s.Form, s.Hinge, s.Title = form, h, "Tide tables"
		if form == boards.SoftSpine {
			s.Spine = rule.Spine{Contents: 12 * mm}
		}
		return sampleOf(name, s)
	}
	standing := folio.Spec{
		Cover: units.Size{W: 149 * mm, H: 182 * mm}, Spine: rule.Spine{Width: 44 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "log", Panel: boards.Spine1, Kind: folio.Folded{Kind: pocket.Concertina{
			Content: pocket.Content{Name: "page", Size: units.Size{W: 107 * mm, H: 137 * mm}, Thickness: mm / 4}, Leaves: 6, OnSpine: true}}}},
	}
	return []sample{hinged("two creases", boards.SpineBoard, rule.Hinge{Crease: rule.CreaseTwo}), hinged("round hinges", boards.SpineBoard, rule.Hinge{Crease: rule.CreaseRound}),
		hinged("round soft spine", boards.SoftSpine, rule.Hinge{Crease: rule.CreaseRound, Width: 20 * mm}), hinged("does not shut", boards.SpineBoard, rule.Hinge{Rule: rule.HingeFixed, Width: mm, Angle: 20}), sampleOf("magnets in a flap", held), sampleOf("magnets in two flaps", doors), sampleOf("sides first", sides), sampleOf("quarter in millimetres", quarter), sampleOf("stacked", stacked),
		sampleOf("narrow guard", narrow), sampleOf("guard on a spine", standing), sampleOf("glued", glued), sampleOf("round a block", block), made("quarter, as it came out", quarter, refit.Measured{Width: 384 * mm, Height: 221 * mm}),
		made("stacked, as it came out", stacked, refit.Measured{Width: 387 * mm, Height: 221 * mm})}
}

// A picture that is wrong makes a folio that is wrong, and the maker minds.
func TestMakerMindsWrongPictures(t *testing.T) {
	p := build(t, folio.Spec{
		Title: "Log of the four", Cover: units.Size{W: 160 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 22 * mm},
		Stocks: []stock.Stock{{Name: "blue card", Caliper: mm / 4, TwoSided: true}},
		Fittings: []folio.Fitting{
			{Name: "strip", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard()}}},
			{Name: "mat", Panel: boards.RightCover, Kind: folio.Mat{Picture: pocket.Content{Name: "photo", Size: units.Size{W: 102 * mm, H: 152 * mm}, Thickness: mm / 4}}},
		},
	})
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
		j := jobOfPictures(t, p, looking(p, guide.Options{}))
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
// length, as the names of materials, is that of the plan, and so is the place of
// what nobody sees: a content in a closed pocket, a magnet.
func jobOfPictures(t *testing.T, p *folio.Plan, look eye) makertest.Job {
	t.Helper()
	groove := map[pocket.Groove]makertest.Groove{pocket.GrooveOutside: makertest.GrooveOutside, pocket.GrooveInside: makertest.GrooveInside}[p.Spec().Groove]
	j := makertest.Job{Groove: groove, Steps: slices.Collect(p.Steps())}
	i := 0
	for piece := range p.Pieces() {
		j.Pieces = append(j.Pieces, pieceOfPicture(t, look, i, piece))
		if !slices.ContainsFunc(j.Stocks, func(s makertest.Stock) bool { return s.Name == piece.Stock() }) {
			j.Stocks = append(j.Stocks, foliotest.MakerStock(p, piece.Stock()))
		}
		i++
	}
	for f := range p.Fittings() {
		for i := range f.Pieces() {
			j.Pieces[i].Fitting, j.Pieces[i].Inside = f.Index(), !f.Outside()
		}
	}
	wrap, bad := look("wrap")
	if bad != "" {
		t.Fatal(bad)
	}
	rowOfPicture(&j, p, wrap)
	w, h := p.AsMade()
	j.Expected = units.Size{W: w.Length(), H: h.Length()}
	j.Unlined = warned(p, folio.WarnPanels, "lining")
	j.Lap, j.Bare = p.Spec().Lining.Lap, p.Spec().Lining.Lap == units.None
	for i, piece := range j.Pieces {
		if piece.Fitting >= 0 && warned(p, pocket.WrongSideShows, check.Index("fittings", piece.Fitting)) {
			j.WrongSides = append(j.WrongSides, i)
		}
		if piece.Fitting >= 0 && warned(p, pocket.NeedsTwoScores, check.Index("fittings", piece.Fitting)) {
			j.Strained = append(j.Strained, i)
		}
	}
	for f := range p.Fittings() {
		if warned(p, folio.WarnTabs, check.Index("fittings", f.Index())) {
			j.Tabbed = append(j.Tabbed, f.Index())
		}
		d, _ := f.Design()
		if k, ok := d.Kind().(pocket.Concertina); ok && k.OnSpine {
			for first := range f.Pieces() {
				foliotest.Standing(k, d, &j, first, f.Rect().Min)
				break
			}
		}
	}
	sideOfPicture(t, &j, p, look, false)
	sideOfPicture(t, &j, p, look, true)
	if b := p.Spec().Block; b.Thickness > 0 { // set back from the hinge of its board, and a square within the head
		board, _ := p.Board(boards.RightCover)
		at := units.Point{X: board.Rect().Min.X - b.Setback, Y: b.Square}
		j.Others = append(j.Others, makertest.Other{Kind: work.Block, Size: b.Page, Thickness: b.Thickness, Place: units.RectAt(at, b.Page)})
	}
	if m, ok := p.Magnets(); ok {
		i, d := 0, p.Spec().Magnets.Diameter
		for at := range m.Places() {
			j.Others = append(j.Others, makertest.Other{Kind: work.Magnet, Index: i, Size: units.Size{W: d, H: d}, Thickness: p.Spec().Magnets.Thickness,
				Place: units.RectAt(at.Middle().Plus(units.Point{X: -d / 2, Y: -d / 2}), units.Size{W: d, H: d}), Outside: at.Outside()})
			i++
		}
	}
	if tight, ok := p.Tightest(true); ok {
		j.Left = tight.Left().Length()
	}
	j.Ajar = p.Shuts() != nil
	return j
}

// warned reports whether a plan warns of something at a path or below it.
func warned(p *folio.Plan, code check.Code, path string) bool {
	for w := range p.Warnings() {
		if w.Code == code && len(w.Path) >= len(path) && w.Path[:len(path)] == path {
			return true
		}
	}
	return false
}

// sideOfPicture reads from a picture of the open folio what lies on a side: the
// liner, the parts of the fittings, what they hold.
func sideOfPicture(t *testing.T, j *makertest.Job, p *folio.Plan, look eye, outside bool) {
	t.Helper()
	name := "inside"
	if outside {
		name = "outside"
	}
	r, bad := look(name)
	if bad != "" {
		t.Fatal(bad)
	}
	cover, _ := round(slices.DeleteFunc(r.kind("outline", "hidden"), func(l readLine) bool { return len(l.of) > 1 }))
	j.Planned = rectOf(cover, cover.x0, cover.y0).Size()
	j.Cover = units.RectAt(units.Point{}, j.Planned)
	place := func(b box) units.Rect { // on the row
		if outside {
			b.x0, b.x1 = cover.x1-(b.x1-cover.x0), cover.x1-(b.x0-cover.x0)
		}
		return rectOf(b, cover.x0, cover.y0)
	}
	for q := range p.Placed() {
		i, n := q.Piece()
		fitting, fitted := q.Fitting()
		piece := &j.Pieces[i]
		if q.Outside() != outside || q.Rect().Empty() || !fitted && piece.Role != makertest.Liner && piece.Role != makertest.Edging {
			continue
		}
		panel, of := "", ""
		k, folds := q.Panel()
		if folds {
			panel = strconv.Itoa(k)
		}
		if fitted {
			of = strconv.Itoa(fitting)
		}
		at, _ := round(r.of(strconv.Itoa(i), copyText(n), panel, of))
		want := makertest.Placed{Piece: i, Copy: n, Panel: work.All, Rect: place(at), Outside: outside}
		if folds {
			want.Panel = panelIn(t, piece, p, fitting, k, want.Rect.Size())
		}
		if q.Up() != piece.Up { // which side is up is not drawn
			want.Up = score.Back
		}
		if fitted && outside {
			want.Up = want.Up.Other()
		}
		j.Want = append(j.Want, want)
	}
	for f := range p.Fittings() {
		if f.Outside() != outside {
			continue
		}
		lines := r.of("", "", "", strconv.Itoa(f.Index()))
		if _, ok := f.Kind().(folio.Ornament); ok {
			at, _ := round(lines)
			j.Others = append(j.Others, makertest.Other{Kind: work.Bought, Index: f.Index(), Size: place(at).Size(), Thickness: f.Height(true), Place: place(at), Outside: outside})
			continue
		}
		shown := 0
		for _, s := range f.Spots() {
			if _, ok := s.Content(); ok && !s.Hidden() {
				shown++
			}
		}
		for i, s := range f.Spots() {
			c, ok := s.Content()
			if !ok {
				continue
			}
			o := makertest.Other{Kind: work.Content, Index: f.Index(), Copy: i, Thickness: c.Thickness, Size: s.Lies().Size(), Place: s.Lies(), Outside: outside}
			if k, ok := f.Kind().(folio.Folded); ok {
				if g, ok := k.Kind.(pocket.GussetRun); ok && g.OpenFoot { // which no picture of the folio shows
					o.Open = []score.Edge{score.Tail}
				}
			}
			if !s.Hidden() && shown == 1 {
				at, _ := round(lines)
				o.Place = place(at)
				o.Size = o.Place.Size()
			}
			j.Others = append(j.Others, o)
		}
	}
}

// panelIn returns the panel of a piece in which the middle of a panel of the design
// lies; its edges are the lines that were read nearest to that. A part that shows
// ends where another one lies over it, as far as is seen.
func panelIn(t *testing.T, piece *makertest.Piece, p *folio.Plan, fitting, panel int, seen units.Size) int {
	t.Helper()
	for f := range p.Fittings() {
		d, ok := f.Design()
		if f.Index() != fitting || !ok {
			continue
		}
		for i, q := range d.Panels() {
			if i != panel {
				continue
			}
			b := q.Blank()
			mid := units.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
			r := units.RectAt(units.Point{}, piece.Size)
			for _, l := range piece.Lines {
				low, high, at := &r.Min.X, &r.Max.X, mid.X
				if l.Axis == score.Level {
					low, high, at = &r.Min.Y, &r.Max.Y, mid.Y
				}
				if l.At <= at {
					*low = max(*low, l.At)
				} else {
					*high = min(*high, l.At)
				}
			}
			// A tab beside a cut-out ends there.
			for _, o := range piece.Openings {
				if o.Area.Min.X <= r.Min.X && o.Area.Max.X >= r.Max.X && o.Area.Overlaps(r) {
					r.Max.Y = min(r.Max.Y, o.Area.Min.Y)
				}
			}
			if q.Name() == "visible part" {
				r.Max.Y = r.Min.Y + seen.H
			}
			if r != b {
				t.Errorf("panel %d of %s is %v as it is read; want %v", panel, piece.Name, r, b)
			}
			if n := slices.Index(piece.Panels, r); n >= 0 {
				return n
			}
			piece.Panels = append(piece.Panels, r)
			return len(piece.Panels) - 1
		}
	}
	t.Errorf("no panel %d of %s", panel, piece.Name)
	return work.All
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
	i := 0
	for piece := range p.Pieces() {
		if piece.Role() == stock.StiffenerPiece {
			at, _ := round(wrap.of(strconv.Itoa(i), copyText(0), "", ""))
			j.Want = append(j.Want, makertest.Placed{Piece: i, Panel: work.All, Rect: rectOf(at, x, y)})
		}
		i++
	}
	for part := range p.Wrap().Pieces() {
		i, n := part.Index()
		at, _ := round(wrap.of(strconv.Itoa(i), copyText(n), "", ""))
		j.Want = append(j.Want, makertest.Placed{Piece: i, Copy: n, Panel: work.All, Rect: rectOf(at, x, y), Outside: true})
	}
}

// pieceOfPicture reads a piece from its picture.
func pieceOfPicture(t *testing.T, look eye, i int, piece folio.Piece) makertest.Piece {
	t.Helper()
	r, bad := look(fmt.Sprintf("piece %d", i))
	if bad != "" {
		t.Fatal(bad)
	}
	lines := r.of(strconv.Itoa(i), "", "", "")
	around, _ := round(lines)
	out := makertest.Piece{Name: piece.Name(), Quantity: piece.Quantity(), Stock: piece.Stock(), Caliper: piece.Caliper(), Up: piece.Up(), Upright: piece.OneWay(), Fitting: -1,
		Size: rectOf(around, around.x0, around.y0).Size()}
	switch piece.Role() {
	case stock.BoardPiece, stock.StiffenerPiece:
		out.Role = makertest.BoardRole
	case stock.CoveringPiece:
		out.Role = makertest.Covering
	case stock.StripPiece:
		out.Role = makertest.Strip
	case stock.LinerPiece:
		out.Role = makertest.Liner
	case stock.EdgeStripPiece:
		out.Role = makertest.Edging
	}
	if piece.Grain() == stock.GrainParallel && piece.Role() != stock.FoamPiece && piece.Role() != stock.FilmPiece {
		out.Grain = work.GrainAlongHeight
	}
	_, folds := piece.Blank()
	for _, l := range lines {
		from, to := l.pts[0], l.pts[len(l.pts)-1]
		fold := score.Valley
		switch l.kind {
		case "outline":
			pts := make([]units.Point, 0, len(l.pts))
			for _, q := range l.pts[:len(l.pts)-1] {
				pts = append(pts, units.Point{X: length(q.x - around.x0), Y: length(q.y - around.y0)})
			}
			switch b, _ := round([]readLine{l}); {
			case out.Outline != nil:
				cut := score.CutOut{Area: rectOf(b, around.x0, around.y0), Radius: length(b.x1 - b.x0)}
				for _, q := range l.pts { // along its head it is straight from where its corners end
					if q.y == b.y0 {
						cut.Radius = min(cut.Radius, length(q.x-b.x0))
					}
				}
				out.Openings = append(out.Openings, cut)
			case folds:
				notched(&out, pts)
			default:
				out.Outline = pts
			}
			continue
		case "mountain":
			fold = score.Mountain
		}
		line := score.Line{Axis: score.Upright, At: length(from.x - around.x0), From: length(from.y - around.y0), To: length(to.y - around.y0), Fold: fold}
		if from.y == to.y {
			line = score.Line{Axis: score.Level, At: length(from.y - around.y0), From: length(from.x - around.x0), To: length(to.x - around.x0), Fold: fold}
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
	return out
}

// notched takes what leaves an edge of an outline and comes back to it for a notch,
// what leads from one edge to another over a corner's square for a cut-out, and what
// is left for the outline.
func notched(out *makertest.Piece, pts []units.Point) {
	w, h := out.Size.W, out.Size.H
	edges := func(q units.Point) (on []score.Edge) {
		for e, is := range map[score.Edge]bool{score.Head: q.Y == 0, score.Tail: q.Y == h, score.Left: q.X == 0, score.Right: q.X == w} {
			if is {
				on = append(on, e)
			}
		}
		return on
	}
	first := slices.IndexFunc(pts, func(q units.Point) bool { return len(edges(q)) > 0 })
	pts = append(slices.Clone(pts[first:]), pts[:first+1]...)
	for i := 0; i+1 < len(pts); {
		end := i + 1
		for len(edges(pts[end])) == 0 {
			end++
		}
		a, b := pts[i], pts[end]
		out.Outline = append(out.Outline, a)
		var same score.Edge
		shared := false
		for _, e := range edges(a) {
			if slices.Contains(edges(b), e) {
				same, shared = e, true
			}
		}
		switch inner := pts[i+1 : end]; {
		case len(inner) == 0: // along an edge, or a slant over a corner
		case shared:
			n := score.Notch{Edge: same, Round: len(inner) > 2}
			for _, q := range inner {
				deep := map[score.Edge]units.Length{score.Head: q.Y, score.Tail: h - q.Y, score.Left: q.X, score.Right: w - q.X}[same]
				n.Depth = max(n.Depth, deep)
			}
			if same == score.Head || same == score.Tail {
				n.Middle, n.Width = (a.X+b.X)/2, (b.X - a.X).Abs()
			} else {
				n.Middle, n.Width = (a.Y+b.Y)/2, (b.Y - a.Y).Abs()
			}
			out.Notches = append(out.Notches, n)
		case len(inner) == 1: // a rectangle out of a corner
			q := inner[0]
			corner := units.Point{X: a.X + b.X - q.X, Y: a.Y + b.Y - q.Y}
			out.Openings = append(out.Openings, score.CutOut{Area: units.Rect{
				Min: units.Point{X: min(q.X, corner.X), Y: min(q.Y, corner.Y)}, Max: units.Point{X: max(q.X, corner.X), Y: max(q.Y, corner.Y)}}})
			out.Outline = append(out.Outline, corner)
		}
		i = end
	}
	out.Outline = slices.Compact(out.Outline)
	if n := len(out.Outline); n > 1 && out.Outline[0] == out.Outline[n-1] {
		out.Outline = out.Outline[:n-1]
	}
}
