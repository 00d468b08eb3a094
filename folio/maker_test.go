package folio_test

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// makerJob tells a maker what a plan is to become. Boards are laid as the plan
// before measuring says.
func makerJob(p, planned *folio.Plan) makertest.Job {
	j := makertest.Job{Groove: makertest.GrooveOutside, Steps: slices.Collect(p.Steps())}
	if p.Spec().Groove == pocket.GrooveInside {
		j.Groove = makertest.GrooveInside
	}
	for piece := range p.Pieces() {
		j.Pieces = append(j.Pieces, makerPiece(piece))
		if !slices.ContainsFunc(j.Stocks, func(s makertest.Stock) bool { return s.Name == piece.Stock() }) {
			j.Stocks = append(j.Stocks, foliotest.MakerStock(p, piece.Stock()))
		}
	}
	makerRow(&j, p, planned)
	for f := range p.Fittings() {
		makerFitting(&j, p, f)
		if warnedOf(p, folio.WarnCovered, check.Index("fittings", f.Index())) {
			j.Covering = append(j.Covering, f.Index())
		}
		if warnedOf(p, folio.WarnTabs, check.Index("fittings", f.Index())) {
			j.Tabbed = append(j.Tabbed, f.Index())
		}
	}
	makerPlaces(&j, p, planned)
	makerOthers(&j, p)
	j.Unlined = warnedOf(p, folio.WarnPanels, "lining")
	j.Lap, j.Bare = p.Spec().Lining.Lap, p.Spec().Lining.Lap == units.None
	if t, ok := p.Tightest(true); ok {
		j.Left = t.Left().Length()
	}
	for w := range p.Warnings() {
		j.Ajar = j.Ajar || w.Code == folio.WarnOpen
	}
	for i, piece := range j.Pieces {
		if piece.Fitting >= 0 && warnedOf(p, pocket.WrongSideShows, check.Index("fittings", piece.Fitting)) {
			j.WrongSides = append(j.WrongSides, i)
		}
		if piece.Fitting >= 0 && warnedOf(p, pocket.NeedsTwoScores, check.Index("fittings", piece.Fitting)) {
			j.Strained = append(j.Strained, i)
		}
		if (piece.Role == makertest.Edging || piece.Role == makertest.Liner) && (warnedOf(p, folio.WarnStrained, "row") || warnedOf(p, folio.WarnStrained, "hinge") || warnedOf(p, folio.WarnStrained, "measured")) {
			j.Strained = append(j.Strained, i)
		}
	}
	return j
}

func makerPiece(piece folio.Piece) makertest.Piece {
	out := makertest.Piece{
		Name: piece.Name(), Quantity: piece.Quantity(), Size: piece.Size(), Stock: piece.Stock(), Caliper: piece.Caliper(),
		Up: piece.Up(), Upright: piece.OneWay(), Fitting: -1,
	}
	switch piece.Role() {
	case stock.BoardPiece, stock.StiffenerPiece:
		out.Role = makertest.BoardRole
	case stock.CoveringPiece:
		out.Role = makertest.Covering
	case stock.StripPiece:
		out.Role = makertest.Strip
	case stock.LinerPiece:
		out.Role, out.Inside = makertest.Liner, true
	case stock.EdgeStripPiece:
		out.Role, out.Inside = makertest.Edging, true
	}
	if piece.Grain() == stock.GrainParallel && piece.Role() != stock.FoamPiece && piece.Role() != stock.FilmPiece {
		out.Grain = work.GrainAlongHeight
	}
	for _, p := range piece.Outline().Corners() {
		out.Outline = append(out.Outline, p)
	}
	for o := range piece.Openings() {
		out.Openings = append(out.Openings, score.CutOut{Area: o})
	}
	if b, ok := piece.Blank(); ok {
		d := b.Draft()
		for _, l := range d.Lines {
			out.Lines = append(out.Lines, makertest.Line{Line: l, Scored: true})
		}
		out.Openings, out.Notches = append(out.Openings, d.CutOuts...), d.Notches
		out.Glue = d.Glue
		for _, t := range d.Tabs {
			out.Glue = append(out.Glue, score.Glue{Area: t.Area(d.Size), Side: t.Side})
		}
		out.Outline = slantedOutline(d)
	}
	return out
}

// slantedOutline is the rectangle of a drawing less its slants.
func slantedOutline(d score.Draft) []units.Point {
	var cut [4]score.Slant
	for _, s := range d.Slants {
		cut[s.Corner] = s
	}
	w, h := d.Size.W, d.Size.H
	return slices.Compact([]units.Point{
		{X: 0, Y: cut[score.HeadLeft].Down}, {X: cut[score.HeadLeft].Along, Y: 0},
		{X: w - cut[score.HeadRight].Along, Y: 0}, {X: w, Y: cut[score.HeadRight].Down},
		{X: w, Y: h - cut[score.TailRight].Down}, {X: w - cut[score.TailRight].Along, Y: h},
		{X: cut[score.TailLeft].Along, Y: h}, {X: 0, Y: h - cut[score.TailLeft].Down},
	})
}

// makerRow says where the boards lie and how the cover measures.
func makerRow(j *makertest.Job, p, planned *folio.Plan) {
	var row units.Rect
	for b := range planned.Boards() {
		i, copy := b.Piece()
		j.Row = append(j.Row, makertest.Board{Piece: i, Copy: copy, Laid: b.Rect()})
		row = row.Union(b.Rect())
	}
	j.Planned = row.Size()
	w, h := planned.AsMade()
	j.Expected = units.Size{W: w.Length(), H: h.Length()}
	var made units.Rect
	i := 0
	for b := range p.Boards() {
		j.Row[i].Made = b.Rect()
		made = made.Union(b.Rect())
		i++
	}
	j.Cover = made
	m, ok := p.Measured()
	if !ok {
		return
	}
	// The covering lies round the outer edges as far as the cover measures
	// more than its boards.
	j.Measured = units.Size{W: m.Width, H: m.Height}
	more := units.Size{W: m.Width, H: m.Height}.Plus(-made.Size().W, -made.Size().H)
	left := more.W / 2
	if len(m.Panels) > 0 {
		left = m.Panels[0] - j.Row[0].Made.Size().W
	}
	at := made.Min.Plus(units.Point{X: -left, Y: -more.H / 2})
	j.Cover = units.RectAt(at, j.Measured)
}

// makerFitting tells the pieces of a fitting and what it holds.
func makerFitting(j *makertest.Job, p *folio.Plan, f folio.Fitted) {
	for i := range f.Pieces() {
		j.Pieces[i].Fitting, j.Pieces[i].Inside = f.Index(), !f.Outside()
	}
	if _, ok := f.Kind().(folio.Ornament); ok {
		j.Others = append(j.Others, makertest.Other{Kind: work.Bought, Index: f.Index(), Size: f.Rect().Size(), Thickness: f.Height(true), Place: f.Rect(), Outside: f.Outside()})
	}
	for i, s := range f.Spots() {
		c, ok := s.Content()
		if !ok {
			continue
		}
		o := makertest.Other{Kind: work.Content, Index: f.Index(), Copy: i, Size: s.Lies().Size(), Thickness: c.Thickness, Place: s.Lies(), Outside: f.Outside()}
		if _, slips := s.Mouth(); slips && !warnedOf(p, folio.WarnMouth, check.Index("fittings", f.Index())) {
			o.Way = s.WayIn()
		}
		if k, ok := f.Kind().(folio.Folded); ok {
			if g, ok := k.Kind.(pocket.GussetRun); ok && g.OpenFoot {
				o.Open = []score.Edge{score.Tail}
			}
		}
		j.Others = append(j.Others, o)
	}
}

// warnedOf reports whether a plan warns of something at a path or below it.
func warnedOf(p *folio.Plan, code check.Code, path string) bool {
	for w := range p.Warnings() {
		if w.Code == code && strings.HasPrefix(w.Path, path) {
			return true
		}
	}
	return false
}

// makerPlaces says what lies where on the row.
func makerPlaces(j *makertest.Job, p, planned *folio.Plan) {
	designs := map[int][]pocket.Panel{}
	for f := range p.Fittings() {
		if d, ok := f.Design(); ok {
			for _, panel := range d.Panels() {
				designs[f.Index()] = append(designs[f.Index()], panel)
			}
		}
	}
	makerStanding(j, p)
	for l := range p.Placed() {
		w := makertest.Placed{Panel: work.All, Rect: l.Rect(), Outside: l.Outside()}
		w.Piece, w.Copy = l.Piece()
		piece := &j.Pieces[w.Piece]
		if i, ok := l.Panel(); ok {
			fitting, _ := l.Fitting()
			blank := designs[fitting][i].Blank()
			if w.Panel = slices.Index(piece.Panels, blank); w.Panel < 0 {
				w.Panel = len(piece.Panels)
				piece.Panels = append(piece.Panels, blank)
			}
		}
		if l.Up() != piece.Up {
			w.Up = score.Back
		}
		if strings.HasPrefix(piece.Name, "corner") { // square or not, it holds at its own corner
			for _, p := range l.Outline().Corners() {
				w.Polygon = append(w.Polygon, p)
			}
		}
		if _, ok := l.Fitting(); ok && l.Outside() {
			w.Up = w.Up.Other() // told is the side away from the board
		}
		if !l.Rect().Empty() && !madeBefore(*piece, *j) {
			j.Want = append(j.Want, w)
		}
	}
	for l := range planned.Placed() {
		w := makertest.Placed{Panel: work.All, Rect: l.Rect(), Outside: true}
		w.Piece, w.Copy = l.Piece()
		if piece := j.Pieces[w.Piece]; madeBefore(piece, *j) {
			w.Outside = piece.Role != makertest.BoardRole
			j.Want = append(j.Want, w)
		}
	}
}

// makerStanding says where a guard on a spine lies with its leaves turned to the right, and
// what is on them.
func makerStanding(j *makertest.Job, p *folio.Plan) {
	for f := range p.Fittings() {
		d, _ := f.Design()
		k, ok := d.Kind().(pocket.Concertina)
		if !ok || !k.OnSpine {
			continue
		}
		from := len(j.Want)
		for i := range f.Pieces() {
			foliotest.Standing(k, d, j, i, f.Rect().Min)
			break
		}
		if r := f.Rect(); f.Outside() { // seen with the folio turned over
			for i := range j.Want[from:] {
				w := &j.Want[from+i]
				w.Outside, w.Rect.Min.X, w.Rect.Max.X = true, r.Min.X+r.Max.X-w.Rect.Max.X, r.Min.X+r.Max.X-w.Rect.Min.X
				if j.Pieces[w.Piece].Name == "leaf" {
					w.Up = score.Back
				}
			}
		}
	}
}

// madeBefore reports whether the place of a piece is compared as planned, before
// anything is measured: the covering, and the stiffener of a soft spine.
func madeBefore(p makertest.Piece, j makertest.Job) bool {
	switch p.Role {
	case makertest.Covering, makertest.Strip:
		return true
	case makertest.BoardRole:
		return !slices.ContainsFunc(j.Row, func(b makertest.Board) bool { return j.Pieces[b.Piece].Name == p.Name })
	}
	return false
}

// makerOthers tells the block and the magnets.
func makerOthers(j *makertest.Job, p *folio.Plan) {
	spec := p.Spec()
	if b := spec.Block; b.Page != (units.Size{}) && b.Thickness > 0 {
		// Set back from the hinge of its board, and a square within the head.
		for board := range p.Boards() {
			if board.Role() == boards.MainPanel || board.Role() == boards.RightCover {
				at := units.Point{X: board.Rect().Min.X - b.Setback, Y: max(b.Square, 0)}
				j.Others = append(j.Others, makertest.Other{Kind: work.Block, Size: b.Page, Thickness: b.Thickness, Place: units.RectAt(at, b.Page)})
			}
		}
	}
	if m, ok := p.Magnets(); ok {
		i, d := 0, spec.Magnets.Diameter
		for place := range m.Places() {
			at := place.Middle().Plus(units.Point{X: -d / 2, Y: -d / 2})
			j.Others = append(j.Others, makertest.Other{Kind: work.Magnet, Index: i, Size: units.Size{W: d, H: d}, Thickness: spec.Magnets.Thickness,
				Place: units.RectAt(at, units.Size{W: d, H: d}), Outside: place.Outside()})
			i++
		}
	}
}

// A made is a folio that can be built, and how it measured.
type made struct {
	spec     folio.Spec
	measured refit.Measured // zero: not measured
}

// plans builds it: as planned, and as it is followed.
func (m made) plans() (planned, p *folio.Plan, err error) {
	if planned, err = folio.Build(m.spec); err != nil {
		return nil, nil, err
	}
	if m.measured.Width == 0 {
		return planned, planned, nil
	}
	p, err = planned.Refit(m.measured)
	return planned, p, err
}

// anyMade generates folios of all forms, with fittings of all kinds that fit
// them, in one material or quarter style, as planned or as measured.
func anyMade() gopter.Gen {
	number := func(n int) gopter.Gen { return gen.IntRange(0, n-1) }
	var fields []gopter.Gen
	for _, most := range mostOfFitting {
		fields = append(fields, number(most))
	}
	fitting := gopter.CombineGens(fields...)
	return proptest.Map(gopter.CombineGens(
		gen.SliceOfN(15, number(1000)), proptest.List(0, 16, fitting),
	), func(v []any) made {
		return makeOne(v[0].([]int), v[1].([][]any))
	})
}

// makeOne makes a folio of numbers. Fittings that do not go where they would
// be put are left out.
func makeOne(n []int, fittings [][]any) made {
	share := func(i int, low, high units.Length) units.Length { return low + (high-low)/1000*units.Length(n[i]) }
	rulers := [...]units.Ruler{units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres, units.Sixteenths, units.ThirtySeconds, units.SixtyFourths, 0}
	s := folio.Spec{
		Form:   boards.Form(n[0] % 4),
		Cover:  units.Size{W: share(1, 110*mm, 260*mm), H: share(2, 110*mm, 260*mm)},
		Spine:  rule.Spine{Width: share(3, 25*mm, 60*mm)},
		Board:  stock.Stock{Caliper: share(4, mm, 3*mm)},
		Rulers: rule.Rulers{Main: rulers[n[5]%len(rulers)]},
		Stocks: []stock.Stock{
			{Name: "thin", Caliper: mm / 8, TwoSided: n[6]%2 == 0}, {Name: "thick", Caliper: mm / 3},
			{Name: "film", Caliper: mm / 10, TwoSided: true}, {Name: "foam", Caliper: 2 * mm, TwoSided: true},
			{Name: "sheets", Caliper: mm / 5, TwoSided: true, Sheets: []stock.Sheet{
				{Size: units.Size{W: 210 * mm, H: 297 * mm}, Grain: stock.GrainAlongHeight}, {Size: units.Size{W: 700 * mm, H: 500 * mm}, Grain: stock.GrainAlongWidth},
			}},
		},
		Groove:  pocket.Groove(n[6] / 2 % 2),
		Turning: rule.Turning(n[6] / 4 % 2),
		Lining:  rule.Lining{Rule: [...]rule.LiningRule{rule.LiningAuto, rule.LiningPanels}[n[6]/8%2]},
		Closing: closing.Allowance{Adhesive: closing.AdhesiveFilm{Glue: n[6]/16%2 == 0}},
	}
	if n[6]/32%4 == 0 && s.Lining.Rule == rule.LiningAuto {
		s.Lining.Rule = [...]rule.LiningRule{rule.LiningOnePiece, rule.LiningRuns}[n[6]/128%2]
	}
	if n[7]%3 == 0 {
		s.Quarter.Rule = rule.QuarterAlways
	}
	if n[8]%3 == 0 {
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 700 * mm, H: 1000 * mm}, Grain: stock.GrainAlongHeight}}
	}
	if s.Form == boards.SoftSpine {
		s.Spine = rule.Spine{Contents: s.Spine.Width}
		if n[9]%3 == 0 {
			s.Spine.Stiffener = "thick"
		}
	}
	if n[9]%4 == 1 {
		s.Magnets = closing.Magnets{Diameter: 6 * mm, Thickness: s.Board.Caliper * 3 / 4}
	}
	if len(n) > 12 {
		s = odder(s, n[12:])
	}
	try := func(with folio.Spec) {
		if _, err := folio.Build(with); err == nil {
			s = with
		}
	}
	if _, err := folio.Build(s); err != nil {
		s.Magnets, s.Covering.Sheets = closing.Magnets{}, nil
	}
	for i, f := range fittings {
		with := s
		if with.Fittings = append(slices.Clone(s.Fittings), oneFitting(i, f, s)); !underLeaves(with.Fittings) {
			try(with)
		}
	}
	m := made{spec: s}
	if n[10]%3 == 0 {
		p, err := folio.Build(s)
		if err != nil {
			return m
		}
		w, h := p.AsMade()
		m.measured = refit.Measured{Width: w.Length() + share(11, -mm/2, mm/2), Height: h.Length()}
		if len(n) > 12 && n[14]%2 == 0 {
			m.measured.Panels = panelsOf(p, share(14, -mm/2, mm/2))
		}
		if _, err := p.Refit(m.measured); err != nil {
			m.measured = refit.Measured{}
		}
	}
	return m
}

// underLeaves reports whether leaves of a guard on a spine, which lie to its right, lie over
// something: hands turn them over, which the model of paper cannot.
func underLeaves(fittings []folio.Fitting) bool {
	guards, right := 0, 0
	for _, f := range fittings {
		folded, _ := f.Kind.(folio.Folded)
		if k, ok := folded.Kind.(pocket.Concertina); ok && k.OnSpine {
			guards++
		} else if !f.Outside && f.Panel != boards.LeftCover && f.StandsOn == "" {
			right++
		}
	}
	return guards > 1 || guards > 0 && right > 0
}

// odder makes a folio of another form, built around a block, or of sheets so small
// that strips are joined from several.
func odder(s folio.Spec, n []int) folio.Spec {
	switch n[0] % 9 {
	case 4, 5, 6, 7:
		s.Form = [...]boards.Form{boards.SoftGate, boards.ThreePanels, boards.TwoFlaps, boards.FourPanelZ}[n[0]%9-4]
		s.Spine = rule.Spine{Width: s.Spine.Width + s.Spine.Contents}
		if s.Form == boards.SoftGate || s.Form == boards.FourPanelZ {
			s.Spine = rule.Spine{Contents: 3 * mm}
		}
	case 8:
		wide := s.Cover.W
		s.Form, s.Spine = boards.OwnRow, rule.Spine{Width: s.Spine.Width + s.Spine.Contents}
		s.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: wide}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: wide}}}
	}
	if s.Form == boards.SpineBoard && n[1]%3 == 0 {
		s.Block = boards.Block{Page: s.Cover, Thickness: s.Spine.Width / 3}
		s.Cover, s.Spine = units.Size{}, rule.Spine{}
	}
	if n[1]%2 == 0 {
		s.Stocks[4].Sheets = s.Stocks[4].Sheets[:1]
	}
	return s
}

// panelsOf returns what the boards of a cover measure that is made as expected, but
// for one of them.
func panelsOf(p *folio.Plan, off units.Length) []units.Length {
	var panels []units.Length
	for b := range p.Boards() {
		panels = append(panels, b.Rect().Size().W)
	}
	covering := p.Spec().Covering.Caliper
	panels[0] += covering
	panels[len(panels)-1] += covering
	panels[len(panels)/2] += off
	return panels
}

// mostOfFitting says below what the numbers are of which a fitting is made.
var mostOfFitting = [...]int{12, 4, 3, 3, 100, 100, 16, 5, 12}

// oneFitting makes a fitting of numbers: its kind, its panel, how it is
// aligned, the size of what it holds, options, its stock, and what it stands on: in
// half of all cases one that is there already.
func oneFitting(i int, v []any, s folio.Spec) folio.Fitting {
	n := make([]int, len(v))
	for k := range v {
		n[k] = v[k].(int)
	}
	panels := map[boards.Form][]boards.Role{
		boards.SpineBoard: {boards.LeftCover, boards.RightCover, boards.Spine1}, boards.SoftSpine: {boards.LeftCover, boards.RightCover},
		boards.ForeEdgeFlap: {boards.LeftCover, boards.RightCover, boards.Flap}, boards.DoubleSpineGate: {boards.LeftDoor, boards.Back, boards.RightDoor},
	}[s.Form]
	if panels == nil {
		panels = s.Form.Roles()
	}
	if len(panels) == 0 {
		panels = []boards.Role{boards.LeftCover, boards.RightCover, boards.Spine1}
	}
	f := folio.Fitting{
		Name: string(rune('a' + i)), Panel: panels[n[1]%len(panels)],
		Outside: n[6]%8 == 7,
		Stock:   [...]string{"", "thin", "thick", "sheets", ""}[n[7]],
		Place: place.Place{
			Across: [...]place.Align{place.Middle, place.Left, place.Right}[n[2]],
			Along:  [...]place.Align{place.Middle, place.Head, place.Tail}[n[3]],
		},
	}
	cover := s.Cover
	if cover == (units.Size{}) {
		cover = s.Block.Page
	}
	content := pocket.Content{Name: "card", Thickness: mm/4 + mm/2*units.Length(n[5]%8), Size: units.Size{
		W: 15*mm + (cover.W*3/4-15*mm)/100*units.Length(n[4]), H: 15*mm + (cover.H*3/4-15*mm)/100*units.Length(n[5]),
	}}
	if on := n[8] - 6; on >= 0 && len(s.Fittings) > 0 {
		// Small, and mostly on the last, so that they stand on one another.
		f.StandsOn = s.Fittings[max(len(s.Fittings)-1-on/2, 0)].Name
		f.Panel, f.Outside = boards.MainPanel, false // it is where that one is
		content.Size = units.Size{W: content.Size.W/2 - 2*mm, H: content.Size.H/2 - 2*mm}
	}
	option := n[6]
	switch n[0] {
	case 0:
		f.Kind = folio.Mat{Picture: content}
	case 1:
		f.Kind = folio.Frame{Picture: content, Mouth: score.Edge(option % 4), Film: [...]string{"", "film"}[option/4%2], FoamStock: [...]string{"", "foam"}[option/8%2]}
	case 2:
		f.Kind = folio.Ornament{Size: content.Size, Thickness: mm}
	case 3:
		f.Kind = folio.Folded{Kind: pocket.Slip{Content: content, Count: option / 2 % 3, Build: pocket.Build(option % 2)}}
	case 4:
		f.Kind = folio.Folded{Kind: pocket.Corners{Content: content, Corners: [...]int{0, 1, 2, 4}[option%4]}}
	case 5:
		f.Kind = folio.Folded{Kind: pocket.Flap{Content: content, Hinge: score.Edge(option % 4), Over: mm / 5 * units.Length(option/4)}}
	case 6:
		f.Kind = folio.Folded{Kind: pocket.FoldedStrip{Content: content, OwnSpine: option%2 == 0, OpensRight: option/2%2 == 0}}
	case 7:
		f.Kind = folio.Folded{Kind: pocket.Gusset{Content: content, Count: option / 2 % 3, At: pocket.GussetAt(option % 2)}}
	case 8:
		f.Kind = folio.Folded{Kind: pocket.GussetRun{Content: content, Pockets: 1 + option%3, OpenFoot: option/4%2 == 0}}
	case 9:
		f.Kind = folio.Folded{Kind: pocket.FoldedAccordion{Content: content, Panels: 1 + option%4}}
	case 10:
		f.Kind = folio.Folded{Kind: pocket.Pleat{Content: content, Pleats: 1 + option%4}}
	default:
		k := pocket.Concertina{Content: content, Leaves: 1 + option%3}
		row := slices.Contains([]boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.ThreePanels, boards.OwnRow}, s.Form) // nothing lies to the left of its leaves but the left cover
		if k.OnSpine = option >= 4 && row && f.StandsOn == "" && slices.Contains(panels, boards.Spine1); k.OnSpine {
			f.Panel, f.Outside, f.Place.Across = boards.Spine1, false, place.Middle
			// From half its width on they reach over the hinges.
			k.Tab = s.Spine.Width / 4 * units.Length(option%4)
		}
		f.Kind = folio.Folded{Kind: k}
	}
	return f
}

// A maker who reads nothing but the data of the steps, the sheets and the list
// of pieces makes the folio: of any form, with fittings of any kind, in one
// material or in quarter style, as planned or as measured.
func TestMadeByHand(t *testing.T) { madeByHand(t) }

func madeByHand(t *testing.T) {
	proptest.Run(t, 100, func(p *gopter.Properties) {
		p.Property("the order of work makes the plan", prop.ForAll(func(m made) string {
			planned, plan, err := m.plans()
			if err == nil {
				err = makertest.Follow(makerJob(plan, planned))
			}
			if err != nil {
				return err.Error()
			}
			return ""
		}, anyMade()))
	})
}

// What a step rests on is enough: done as soon as that is, before all others,
// it can be done, and so can the others after it.
func TestRestsOnEnough(t *testing.T) {
	proptest.Run(t, 12, func(p *gopter.Properties) {
		p.Property("any step can be done as soon as what it rests on is", prop.ForAll(func(m made, n int) string {
			planned, plan, err := m.plans()
			if err != nil {
				return err.Error()
			}
			j := makerJob(plan, planned)
			for i := range 4 {
				k := (n + i*len(j.Steps)/4) % len(j.Steps)
				if err := makertest.FollowEarly(j, k); err != nil {
					return fmt.Sprintf("step %d early: %v", k+1, err)
				}
			}
			return ""
		}, anyMade(), gen.IntRange(0, 1000)))
	})
}

// onCase reports whether a place on a board is marked.
func onCase(a work.Action) bool {
	m, ok := a.(work.MarkPlace)
	return ok && (m.On.Kind == work.OnBoard || m.On.Kind == work.OnOutside)
}

// While something dries hands do what rests neither on it nor on what lies under the
// weight: no place is marked on a case whose lining dries, and none on the other side of a
// board on which something dries.
func TestMeanwhile(t *testing.T) {
	while := 0
	proptest.Run(t, 40, func(p *gopter.Properties) {
		p.Property("what does not rest on the drying can be done meanwhile", prop.ForAll(func(m made, n int) string {
			planned, plan, err := m.plans()
			if err != nil {
				return err.Error()
			}
			j := makerJob(plan, planned)
			// Where hands get at the case, and what they do not wait for.
			var pairs [][2]int
			for dry, s := range j.Steps {
				if s.Task != work.TaskDry {
					continue
				}
				waits := map[int]bool{s.Number: true}
				for k := dry + 1; k < len(j.Steps); k++ {
					later := j.Steps[k]
					if slices.ContainsFunc(later.After, func(n int) bool { return waits[n] }) {
						waits[later.Number] = true
					} else if slices.ContainsFunc(later.Do, onCase) {
						pairs = append(pairs, [2]int{dry, k})
					}
				}
			}
			for i := range min(4, len(pairs)) {
				dry, k := pairs[(n+i*len(pairs)/4)%len(pairs)][0], pairs[(n+i*len(pairs)/4)%len(pairs)][1]
				if err := makertest.FollowMeanwhile(j, dry, k); err != nil {
					return fmt.Sprintf("step %d while that of step %d dries: %v", k+1, dry+1, err)
				}
				while++
			}
			return ""
		}, anyMade(), gen.IntRange(0, 1000)))
	})
	if while == 0 {
		t.Error("nothing dries")
	}
}

// Of orders of work with one mistake, a maker objects to at least 98 of 100, and of
// the rest to all but what makes no difference.
func TestMistakesAreNoticed(t *testing.T) { mistakesAreNoticed(t) }

func mistakesAreNoticed(t *testing.T) {
	var of [3]int
	missed := map[string]int{}
	all, params := anyMade(), gopter.DefaultGenParameters()
	r := rand.New(rand.NewSource(proptest.Seed()))
	params.Rng, params.MaxSize = r, 5
	// Two in a hundred are of a sample that is large enough, also where fewer are tried.
	for range max(proptest.Cases(25), 12) {
		m, ok := all(params).Retrieve()
		if !ok {
			continue
		}
		planned, plan, err := m.(made).plans()
		if err != nil {
			t.Fatal(err)
		}
		j := makerJob(plan, planned)
		judge, err := makertest.NewJudge(j)
		if err != nil {
			t.Fatal(err)
		}
		changes := slices.Collect(makertest.Changes(j.Steps, 100*units.Micrometre))
		for range 16 {
			c := changes[r.Intn(len(changes))]
			v := judge.Of(c.Steps)
			if of[v]++; v != makertest.Unnoticed {
				continue
			}
			why := noDifference(c)
			if missed[why]++; why == "" {
				t.Errorf("nobody notices, with -seed %d: %s", proptest.Seed(), c.What)
			}
		}
	}
	tried := of[makertest.Unnoticed] + of[makertest.Objected]
	for why, n := range missed {
		t.Logf("%d of %d: %s", n, tried, why)
	}
	if 100*of[makertest.Unnoticed] > 2*tried {
		t.Errorf("of %d mistakes %d were not noticed", tried, of[makertest.Unnoticed])
	}
}

// noDifference says why a change need not be noticed, or nothing. Each of them has
// been carried out to the end, and what has been made is the plan.
func noDifference(c makertest.Change) string {
	if len(c.Of) == 0 {
		return "two steps that do as well in the other order, though the first makes the second easier"
	}
	reasons := map[string]bool{}
	for _, a := range c.Of {
		switch a := a.(type) {
		case work.FoldAt:
			if !a.Open {
				return ""
			}
			reasons["a fold that is only creased and made again later: how sharply, how often, or which of two equal pieces first is care"] = true
		case work.Insert:
			switch {
			case strings.HasSuffix(c.What, ".From from head to tail"):
				reasons["a pocket that is open at its foot too takes what goes in from there"] = true
			case strings.HasSuffix(c.What, ".Corners from true to false"):
				reasons["what one corner holds, or two along an edge, slides in under them as well"] = true
			default:
				return ""
			}
		case work.Fix:
			// Between two panels it opens as far with its folds along the other edges.
			if !strings.Contains(c.What, ".Quarters from ") || a.Size.W != a.Size.H || a.On.Kind != work.OnPiece || !strings.Contains(a.What.Name, "gusset") {
				return ""
			}
			reasons["a gusset that is square when folded does as well a quarter further"] = true
		case work.Dry:
			reasons["it dries later, with what is glued next, before anything pulls at it"] = true
		default:
			return ""
		}
	}
	for why := range reasons {
		if len(reasons) == 1 {
			return why
		}
	}
	return ""
}

// What goes on another fitting has its place marked there, and is laid dry, as on a board:
// without either a maker objects.
func TestPlacesOnFittingsAreMarked(t *testing.T) {
	mat := folio.Mat{Size: units.Size{W: 60 * mm, H: 80 * mm}}
	medal := folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}
	p := mustBuild(t, folio.Spec{
		Cover: units.Size{W: 110 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "mat", Kind: mat}, {Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 40 * mm}}, StandsOn: "mat"}, {Kind: medal, Panel: boards.LeftCover}, {Kind: medal, StandsOn: "mat", Place: place.Place{Along: place.Tail}}},
	})
	j := makerJob(p, p)
	judge, err := makertest.NewJudge(j)
	if err != nil {
		t.Fatal(err)
	}
	on := map[work.BaseKind]int{}
	for i, step := range j.Steps {
		for k, a := range step.Do {
			var base work.Base
			switch a := a.(type) {
			case work.MarkPlace:
				base = a.On
			case work.Lay:
				base = a.On
			}
			if base.Name == "" {
				continue
			}
			on[base.Kind]++
			without := slices.Clone(j.Steps)
			without[i].Do = slices.Delete(slices.Clone(step.Do), k, k+1)
			if v := judge.Of(without); v != makertest.Objected {
				t.Errorf("without action %d of step %d, on %s, nobody objects", k+1, i+1, base.Name)
			}
		}
	}
	if on[work.OnPiece] < 4 || on[work.OnBoard] < 4 {
		t.Errorf("marked or laid on: %v", on)
	}
}

// At the outside a fitting lies as one sees it with the folio turned over: seen
// from inside, on the row, its left is at the right.
func TestOutsideLiesTurnedOver(t *testing.T) {
	rects := func(outside bool) (row units.Rect, panels []units.Rect, spot folio.Spot) {
		p, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{{Panel: boards.LeftCover, Outside: outside, Kind: folio.Folded{Kind: pocket.FoldedStrip{
				Content: pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 80 * mm}}, OpensRight: true}}}},
		})
		if err != nil {
			t.Fatal(err)
		}
		for f := range p.Fittings() {
			row = f.Rect()
			for l := range f.Placed() {
				panels = append(panels, l.Rect())
			}
			for _, s := range f.Spots() {
				spot = s
			}
		}
		return row, panels, spot
	}
	over := func(r, within units.Rect) units.Rect {
		r.Min.X, r.Max.X = within.Min.X+within.Max.X-r.Max.X, within.Min.X+within.Max.X-r.Min.X
		return r
	}
	inRow, in, inSpot := rects(false)
	outRow, out, outSpot := rects(true)
	shift := units.Point{X: outRow.Min.X - inRow.Min.X, Y: outRow.Min.Y - inRow.Min.Y}
	if len(in) < 4 || len(in) != len(out) {
		t.Fatalf("%d panels inside, %d outside", len(in), len(out))
	}
	for i, r := range in {
		if want := over(r.Moved(shift), outRow); out[i] != want {
			t.Errorf("panel %d lies at %v; want %v", i, out[i], want)
		}
	}
	if want := over(inSpot.Rect().Moved(shift), outRow); outSpot.Rect() != want {
		t.Errorf("the content lies at %v; want %v", outSpot.Rect(), want)
	}
	a, _ := inSpot.Mouth()
	if b, _ := outSpot.Mouth(); a != score.Right || b != score.Left {
		t.Errorf("it opens to the %v inside and to the %v outside", a, b)
	}
}
