package folio_test

import (
	"errors"
	"maps"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// asRow gives the row of the Spec's form as data instead of the form.
func asRow(s folio.Spec) folio.Spec {
	s.Row, s.Form = s.Form.Row(), boards.SpineBoard
	return s
}

var ownHinge = regexp.MustCompile(`row\.joints\[\d\]\.hinge`)

// A form is nothing but its row: given as data, it makes the very same plan.
func TestFormIsItsRow(t *testing.T) {
	built := 0
	proptest.Run(t, 300, func(p *gopter.Properties) {
		p.Property("the row of a form as data says the same", prop.ForAll(func(m made) string {
			_, form, err := m.plans()
			if err != nil || m.spec.Form == boards.OwnRow {
				return ""
			}
			n := m
			n.spec = asRow(m.spec)
			_, row, err := n.plans()
			if err != nil {
				return err.Error()
			}
			built++
			// A row as data has hinges of its own, and what is warned about is there.
			same := ownHinge.ReplaceAllString(everything(row), "hinge")
			return cmp.Diff(everything(form), same)
		}, anyMade()))
	})
	if built < proptest.Cases(200) {
		t.Errorf("only %d plans", built)
	}
}

// newRows are the rows beside those of the forms with rules of their own: with
// pictures on every board that lies.
func newRows() []folio.Spec {
	var out []folio.Spec
	for f := boards.SoftGate; f < boards.OwnRow; f++ {
		s := folio.Spec{
			Form: f, Cover: units.Size{W: 140 * mm, H: 190 * mm}, Spine: rule.Spine{Contents: 6 * mm},
			Board: stock.Stock{Caliper: 2 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres},
			Closing: closing.Allowance{UnderFlap: 2 * mm, Ease: units.None},
		}
		if f == boards.SoftGate {
			s.Closing.UnderFlap = 0
		}
		for i, b := range f.Row().Boards {
			if b.Role.Spine() {
				continue
			}
			s.Fittings = append(s.Fittings, folio.Fitting{
				Name: string(rune('a' + i)), Panel: b.Role,
				Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.Size{W: 35 * mm, H: 60 * mm}, Thickness: mm / 4}},
			})
		}
		out = append(out, s)
	}
	return out
}

// A maker makes the new rows from their steps, as planned and as measured; they
// close, go through a document and back, are laid on sheets and weighed.
func TestNewRows(t *testing.T) {
	for _, s := range newRows() {
		for _, s := range []folio.Spec{s, asRow(s)} {
			t.Run(s.Form.String(), func(t *testing.T) {
				p, err := folio.Build(s)
				if err != nil {
					t.Fatal(err)
				}
				if _, ok := p.Closed(); !ok {
					t.Error("it does not shut")
				}
				if tight, ok := p.Tightest(true); !ok || !tight.Closes() {
					t.Error(tight)
				}
				w, h := p.AsMade()
				q, err := p.Refit(refit.Measured{Width: w.Length() + mm/2, Height: h.Length()})
				if err != nil {
					t.Fatal(err)
				}
				for _, r := range []*folio.Plan{p, q} {
					if err := makertest.Follow(makerJob(r, p)); err != nil {
						t.Error(err)
					}
				}
				for w := range q.Workings() {
					if bad := addUp(w); bad != "" {
						t.Error(bad)
					}
				}
				data, err := wire.AppendSpec(nil, s, wire.Options{})
				if err != nil {
					t.Fatal(err)
				}
				back, err := wire.ReadSpec(data)
				if d := cmp.Diff(s, back); err != nil || d != "" {
					t.Error(err, d)
				}
				if _, err := wire.AppendPlan(nil, p, wire.Options{}); err != nil {
					t.Error(err)
				}
				job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 2}}, Materials: layout.MaterialsOf(p)}
				for i := range job.Materials {
					job.Materials[i].Sheets = []layout.SheetKind{{Size: units.Size{W: 1000 * mm, H: 1400 * mm}, Grain: stock.GrainAlongHeight, Count: layout.Unlimited}}
				}
				if _, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 100_000}); err != nil {
					t.Error(err)
				}
				if mass, _ := massOf(p, weigh.Options{Estimate: true}); mass <= 0 {
					t.Error("it weighs nothing")
				}
			})
		}
	}
}

// zigzag is a Spec of soft-jointed panels, folded to and fro.
func zigzag(n int) folio.Spec {
	s := folio.Spec{Cover: units.Size{W: 60 * mm, H: 90 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres}}
	for i := range n {
		s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i%9)})
		if i > 0 {
			s.Row.Joints = append(s.Row.Joints, boards.Joint{Fold: score.Fold((n - i + 1) % 2)})
		}
	}
	return s
}

// Of two boards the one that is to lie over the other does so, whichever it is and whether or
// not it is said which one stays on the table.
func TestOneOfTwoLiesOver(t *testing.T) {
	for over := range 2 {
		for _, said := range []bool{false, true} {
			s := plainCase()
			s.Row = boards.Row{Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}}}
			under := 2 - 2*over
			if s.Row.Boards[2*over].Over = s.Row.Boards[under].Role; said {
				s.Row.Main = s.Row.Boards[under].Role
			}
			high := map[int]units.Length{}
			section, _ := mustBuild(t, s).Section()
			for slab := range section {
				high[slab.Board()] = slab.Rect().Min.Y
			}
			if high[under] != 0 || high[2*over] <= 0 {
				t.Errorf("board %d over the other one, said which stays %v: they lie at %v", 2*over, said, high)
			}
		}
	}
}

// A row takes up to so many boards, and says so of more.
func TestMostBoards(t *testing.T) {
	for n := 2; n <= boards.MaxBoards; n++ {
		p, err := folio.Build(zigzag(n))
		if err != nil {
			t.Fatal(n, err)
		}
		if _, ok := p.Closed(); !ok {
			t.Error(n, "does not shut")
		}
	}
	for _, n := range []int{boards.MaxBoards + 1, 1000 * boards.MaxBoards} {
		if _, err := folio.Build(zigzag(n)); !refusedWith(err, "row.boards", check.TooMany) {
			t.Errorf("%d boards: %.200v", n, err)
		}
	}
}

// What cannot shut is refused at one joint, and doing what is said there lets it.
func TestNeverShuts(t *testing.T) {
	s := zigzag(4)
	for i := range s.Row.Joints {
		s.Row.Joints[i].Fold = score.Valley
	}
	for i, w := range []units.Length{40 * mm, 80 * mm, 40 * mm, 80 * mm} { // four, of which the inner ones lock
		s.Row.Boards[i].Width = w
	}
	_, err := folio.Build(s)
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatal(err)
	}
	for v := range bad.All() {
		if v.Code != folio.NeverShuts {
			t.Fatal(v)
		}
		for i := range s.Row.Joints {
			if v.Path == check.Index("row.joints", i)+".fold" {
				s.Row.Joints[i].Fold = score.Mountain
			}
		}
	}
	if _, err := folio.Build(s); err != nil {
		t.Error(err)
	}
}

// Where one joint alone cannot mend it, it is told at one that blocks another, whichever
// board is asked for on the table: of seven the third and the sixth are narrower than those
// beside them, and lock their joints, the first joint folds by itself.
func TestNeverShutsAtWhatBlocks(t *testing.T) {
	s := zigzag(7)
	for i := range s.Row.Joints {
		s.Row.Joints[i].Fold = score.Valley
	}
	s.Row.Joints[3].Fold = score.Mountain
	for i, w := range []units.Length{60 * mm, 100 * mm, 40 * mm, 100 * mm, 100 * mm, 40 * mm, 100 * mm} {
		s.Row.Boards[i].Width = w
	}
	for _, s.Row.Main = range []boards.Role{boards.MainPanel, boards.Panel2, boards.Panel5} {
		v := only(builds(s))
		if v.Code != folio.NeverShuts || v.Path == "row.joints[0].fold" || v.Path == "row.joints[3].fold" || !strings.HasPrefix(v.Path, "row.joints[") {
			t.Errorf("about the %v: %v", s.Row.Main, v)
		}
	}
}

// A row with a spine board may have a joint without one: what is too thick there is
// refused, and what would do does.
func TestSoftJointBesideASpine(t *testing.T) {
	refused := 0
	for _, width := range []units.Length{0, 20 * mm} {
		for _, by := range []rule.HingeRule{rule.HingeLeast, rule.HingeRoundContents} {
			for _, thick := range []units.Length{7 * mm, 30 * mm, 302 * mm / 10, 304 * mm / 10, 306 * mm / 10, 308 * mm / 10} {
				s := folio.Spec{
					Cover: units.Size{W: 100 * mm, H: 150 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: width, Contents: 3 * mm},
					Row: boards.Row{
						Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3, Rule: boards.WidthHalf}},
						Joints: []boards.Joint{{Fold: score.Mountain}, {Fold: score.Mountain}, {Fold: score.Valley, Hinge: rule.Hinge{Rule: by}}},
					},
					Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Panel3, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: thick}}},
				}
				_, err := folio.Build(s)
				if err == nil {
					continue
				}
				refused++
				var bad *check.Error
				if !errors.As(err, &bad) {
					t.Fatal(err)
				}
				path, of := "spine.contents", &s.Spine.Contents
				if width > 0 {
					path, of = "spine.width", &s.Spine.Width
				}
				v, ok := bad.Find(path, folio.NotClosing)
				if !ok || !strings.Contains(v.Want, "which makes the gap") {
					t.Errorf("%v, %v, %v: %v", width, by, thick, err)
					continue
				}
				if *of = v.Limit; v.Bound != check.AtLeast || v.By <= 0 {
					t.Errorf("%v: %v by %v", v, v.Bound, v.By)
				}
				if p, err := folio.Build(s); err != nil || width > 0 && warned(p, folio.WarnEase) {
					t.Errorf("%v, %v, %v: with %v it does not leave the ease: %v", width, by, thick, v.Limit, err)
				}
				*of -= mm
				if p, err := folio.Build(s); width > 0 && err == nil && !warned(p, folio.WarnEase) {
					t.Errorf("%v, %v, %v: with %v, less than would do, it closes with ease too", width, by, thick, *of)
				}
			}
		}
	}
	if refused < 4 {
		t.Errorf("only %d were refused", refused)
	}
}

// The spine board round a panel that is folded in is wider than the spine asked for. Where the two
// panels that it joins meet beside that one, it decides: so much more of a spine would do as is
// lacking there, and no less.
func TestSpineThatWouldDoRoundAPanel(t *testing.T) {
	hinge := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	s := folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 9 * mm}, Rulers: rule.Rulers{Main: everyNanometre},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
		Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		Row: boards.Row{
			Main:   boards.Panel1,
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2}, {Role: boards.Panel3, Width: 40 * mm}},
			Joints: []boards.Joint{hinge, hinge, hinge, hinge},
		},
	}
	p := mustBuild(t, s)
	first, _ := p.Board(boards.Spine1)
	second, _ := p.Board(boards.Spine2)
	if first.Width().Length() <= second.Width().Length() || second.Width().Length() != s.Spine.Width {
		t.Fatalf("spines of %v and %v", first.Width(), second.Width())
	}
	room := first.Width().Length() - 2*(2*mm+mm/4) // creased at the boards' edges
	s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: room},
		Place: place.Place{Across: place.Right, Along: place.Middle}}}
	mustBuild(t, s)
	s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: room + mm/3}
	v := only(builds(s))
	if v.Path != "spine.width" || v.Bound != check.AtLeast || v.Limit != s.Spine.Width+mm/3 {
		t.Fatal(v)
	}
	if s.Spine.Width = v.Limit; builds(s) != nil {
		t.Errorf("with %v: %v", v.Limit, builds(s))
	}
	if s.Spine.Width--; builds(s) == nil {
		t.Errorf("less than %v does", v.Limit)
	}
}

// A spine round a panel that is rolled up inside, at a soft joint of a given width
// that bends round, is as wide as it must be and no wider: by hand, half a circle as
// long as the gap is 2/π of that across, and over it lie the one board with its liner,
// its turn-ins, two of them at a mitred corner, and the covering of the other.
func TestSpineRoundARoundBack(t *testing.T) {
	for n := range 40 {
		k := units.Length(n)
		board, liner, covering := 2*mm+7919*k, mm/5+401*k, mm/4+211*k
		ruler := []units.Ruler{units.TenthMillimetres, everyNanometre}[n%2]
		hinge := rule.Hinge{Rule: rule.HingeLeast}
		s := folio.Spec{
			Cover: units.Size{W: 120 * mm, H: 170 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres, Board: ruler}, Spine: rule.Spine{Contents: 4 * mm},
			Board: stock.Stock{Caliper: board}, Liner: stock.Stock{Caliper: liner}, Covering: stock.Stock{Caliper: covering},
			Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
			Row: boards.Row{
				Main:   boards.Panel1,
				Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3, Width: 80 * mm}},
				Joints: []boards.Joint{{Hinge: hinge}, {Hinge: hinge}, {Hinge: rule.Hinge{Width: 18*mm + k*mm/3, Crease: rule.CreaseRound}}},
			},
		}
		p := mustBuild(t, s)
		var g units.Length
		for gap := range p.Gaps() {
			g = gap.Width() // the last of them
		}
		spine, _ := p.Board(boards.Spine1)
		least := float64(g)*2/math.Pi + float64(board+liner+3*covering)
		step := ruler.Step()
		if over := float64(spine.Width().Length()) - least; over < -1e-3 || over > float64(step)+1e-3 {
			t.Errorf("gap %v: a spine of %v, %.0f nm more than it goes round", g, spine.Width().Length(), over)
		}
		if left, ok := p.TightestOf(closing.UnderFlap, false); !ok || left.Left().Length() < 0 || left.Left().Length() > step {
			t.Errorf("gap %v, spine %v: %v", g, spine.Width().Length(), left)
		}
		if bad := collides(t, p, atHead(p, 2e-3), 24); bad != "" {
			t.Errorf("gap %v: %s", g, bad)
		}
		s.Row.Boards[1].Width = spine.Width().Length() - step // too narrow by one step
		if v, ok := refusal(s, "row.boards[1].width", check.TooSmall); !ok || v.Bound != check.AtLeast || v.Limit != spine.Width().Length() || v.By != step {
			t.Errorf("a spine of %v: %v, at least %v by %v", s.Row.Boards[1].Width, builds(s), v.Limit, v.By)
		}
	}
}

// Where the way from one board up to another rises at two folds, the one that has more
// inside makes room, be the other as narrow as it was asked to be: the row shuts, and
// nothing runs into anything on the way.
func TestRowsThatRiseAtTwoFolds(t *testing.T) {
	um := func(n units.Length) units.Length { return n * units.Micrometre }
	valley, mountain := boards.Joint{Fold: score.Valley, Hinge: rule.Hinge{Rule: rule.HingeLeast}}, boards.Joint{Fold: score.Mountain, Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	round := func(fold score.Fold, h rule.Hinge) boards.Joint {
		h.Crease = rule.CreaseRound
		return boards.Joint{Fold: fold, Hinge: h}
	}
	for name, s := range map[string]folio.Spec{
		"a joint of its own width between the spines": {
			Cover: units.Size{W: um(119_976), H: um(171_213)}, Rulers: rule.Rulers{Main: units.TenthMillimetres}, Spine: rule.Spine{Contents: um(4324)},
			Board: stock.Stock{Caliper: um(1949)}, Covering: stock.Stock{Caliper: um(127)}, Liner: stock.Stock{Caliper: um(403)},
			Row: boards.Row{
				Main: boards.Panel2,
				Boards: []boards.Board{
					{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: um(118_727)}, {Role: boards.Panel3, Width: um(39_685)},
					{Role: boards.Spine2}, {Role: boards.Panel4, Width: um(58_038)}, {Role: boards.Panel5},
				},
				Joints: []boards.Joint{valley, valley, round(score.Valley, rule.Hinge{Width: um(41_577)}), mountain, mountain, {Fold: score.Valley}},
			},
		},
		"a joint of its own width at the end": {
			Cover: units.Size{W: um(93_594), H: um(102_165)}, Rulers: rule.Rulers{Main: everyNanometre}, Spine: rule.Spine{Contents: um(8090)},
			Board: stock.Stock{Caliper: um(2446)}, Covering: stock.Stock{Caliper: um(70)}, Liner: stock.Stock{Caliper: um(291)},
			Row: boards.Row{
				Boards: []boards.Board{
					{Role: boards.Panel1, Width: um(92_108)}, {Role: boards.Panel2, Width: um(77_657)}, {Role: boards.Panel3, Rule: boards.WidthHalf}, {Role: boards.Panel4},
					{Role: boards.Spine1}, {Role: boards.Panel5}, {Role: boards.Panel6, Width: um(38_862)},
				},
				Joints: []boards.Joint{
					{Fold: score.Mountain}, round(score.Mountain, mountain.Hinge), {Fold: score.Valley, Hinge: rule.Hinge{Width: um(39_931)}}, mountain, mountain, round(score.Valley, rule.Hinge{Width: um(41_882)}),
				},
			},
		},
	} {
		for _, s := range []folio.Spec{s, inMirror(s)} {
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if bad := collides(t, p, atHead(p, 2e-3), 24); bad != "" {
				t.Errorf("%s: %s", name, bad)
			}
		}
	}
}

// Outsides that come to lie together have no turn-ins between them: a published gap that
// is too narrow there for what lies inside is refused, not warned of as too narrow at
// head and tail only. The width that would do is not too narrow, and a step less is.
func TestPublishedGapBetweenOutsides(t *testing.T) {
	um := func(n units.Length) units.Length { return n * units.Micrometre }
	least := rule.Hinge{Rule: rule.HingeLeast}
	s := folio.Spec{
		Cover: units.Size{W: um(90605), H: um(107037)}, Rulers: rule.Rulers{Main: units.TenthMillimetres}, Spine: rule.Spine{Contents: um(11333)},
		Board: stock.Stock{Caliper: um(2541)}, Covering: stock.Stock{Caliper: um(243)}, Liner: stock.Stock{Caliper: um(402)},
		Row: boards.Row{
			Boards: []boards.Board{
				{Role: boards.Panel1, Rule: boards.WidthHalf}, {Role: boards.Panel2}, {Role: boards.Spine1}, {Role: boards.Panel3, Rule: boards.WidthHalf},
				{Role: boards.Panel4}, {Role: boards.Spine2}, {Role: boards.Panel5}, {Role: boards.Panel6},
			},
			Joints: []boards.Joint{
				{Fold: score.Valley, Hinge: rule.Hinge{Width: 30 * mm, Crease: rule.CreaseRound}}, {Fold: score.Valley, Hinge: least}, {Fold: score.Valley, Hinge: least},
				{Fold: score.Mountain, Hinge: rule.Hinge{Rule: rule.HingeFlatBackGroove, Crease: rule.CreaseRound}},
				{Fold: score.Mountain, Hinge: least}, {Fold: score.Mountain, Hinge: least}, {Fold: score.Mountain},
			},
		},
	}
	if v, ok := refusal(s, "row.joints[3].hinge.rule", folio.GapNarrow); !ok || !strings.Contains(v.Want, "at least 9.3 mm") {
		t.Errorf("a groove of 9 mm: %v", builds(s))
	}
	h := &s.Row.Joints[3].Hinge
	h.Rule = rule.HingeFixed
	for _, width := range []units.Length{92 * mm / 10, 93 * mm / 10} {
		h.Width = width
		if _, narrow := refusal(s, "row.joints[3].hinge.width", folio.GapNarrow); narrow != (width < 93*mm/10) {
			t.Errorf("a gap of %v: %v", width, builds(s))
		}
	}
}

// A row that is longer than a folio may be is told to be that, however narrow one of its boards
// is, and not that it does not shut. One of a metre each shuts.
func TestRowTooLong(t *testing.T) {
	least := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}
	for _, narrow := range []units.Length{mm / 10, mm, 100 * mm} {
		for _, wide := range []units.Length{units.Metre, 9 * units.Metre} {
			s := plainCase()
			s.Spine, s.Closing.UnderFlap = rule.Spine{Contents: 10 * mm}, 12*mm
			s.Rulers.Board, s.Rulers.Gap = everyNanometre, everyNanometre
			s.Row = boards.Row{
				Boards: []boards.Board{{Role: boards.Panel1, Width: narrow}, {Role: boards.Panel2, Width: wide}, {Role: boards.Panel3, Width: wide}, {Role: boards.Panel4, Width: wide}},
				Joints: []boards.Joint{least, least, least},
			}
			err := builds(s)
			if long := only(err).Code == check.TooLarge; long != (wide > units.Metre) || !long && narrow == 100*mm && err != nil {
				t.Errorf("%v beside %v: %v", narrow, wide, err)
			}
		}
	}
}

// Boards of one kind but of unequal width are told apart by their names, each with those that
// are as wide, and a spine as wide as they are by its own.
func TestBoardsAreNamedApart(t *testing.T) {
	s := plainCase()
	s.Form, s.Spine, s.Lining.Rule = boards.OwnRow, rule.Spine{Width: 40 * mm}, rule.LiningPanels
	s.Row = boards.Row{Joints: make([]boards.Joint, 4), Boards: []boards.Board{
		{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: 40 * mm}, {Role: boards.Spine2, Width: 40 * mm}, {Role: boards.Panel3},
	}}
	s.Row.Joints[2].Fold, s.Row.Joints[3].Fold = score.Mountain, score.Mountain
	got := map[string]int{}
	for p := range mustPlan(s).Pieces() {
		if p.Role() == stock.BoardPiece {
			got[p.Name()] = p.Quantity()
		}
	}
	if want := map[string]int{"first panel and third panel board": 2, "second panel board": 1, "spine board": 2}; !maps.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
