package folio_test

import (
	"encoding/json"
	"errors"
	"os"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// readJSON reads a file of testdata.
func readJSON(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// byName finds the constant whose text is name.
func byName[T interface {
	~uint8
	String() string
}](t *testing.T, name string) T {
	t.Helper()
	if name == "" {
		return 0
	}
	for v := range 32 {
		if T(v).String() == name {
			return T(v)
		}
	}
	t.Fatalf("no constant reads %q", name)
	return 0
}

type caseVector struct {
	Name, Source                                string
	Form, Hinge, HingeCrease, SpineRule         string
	MarginRule, Mitre, Lining                   string
	Board, Covering, Liner                      units.Length
	Thickness, Square, Setback, Contents, Spine units.Length
	HingeWidth, Margin, DoorGap                 units.Length
	Block, Cover, Sheet, LinerSheet, Measured   string
	Ruler, GapRuler                             units.Ruler
	Want                                        struct {
		Cover, Open, Wrap, Liner                           string
		Spine, Gap, Reach, MarginAcross, MarginAlong, Door units.Length
	}
	Warns, Refused string
}

func size(t *testing.T, s string) units.Size {
	t.Helper()
	if s == "" {
		return units.Size{}
	}
	out, err := units.ParseSize(s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func (c caseVector) spec(t *testing.T) folio.Spec {
	s := folio.Spec{
		Form:     byName[boards.Form](t, c.Form),
		Cover:    size(t, c.Cover),
		Block:    boards.Block{Page: size(t, c.Block), Thickness: c.Thickness, Square: c.Square, Setback: c.Setback},
		Spine:    rule.Spine{Width: c.Spine, Contents: c.Contents, Rule: byName[rule.SpineRule](t, c.SpineRule)},
		Board:    stock.Stock{Caliper: c.Board},
		Covering: stock.Stock{Caliper: c.Covering},
		Hinge:    rule.Hinge{Rule: byName[rule.HingeRule](t, c.Hinge), Width: c.HingeWidth, Crease: byName[rule.CreasePlace](t, c.HingeCrease)},
		Margin:   rule.Margin{Rule: byName[rule.MarginRule](t, c.MarginRule), Ideal: c.Margin},
		Mitre:    rule.Mitre{Rule: byName[rule.MitreRule](t, c.Mitre)},
		DoorGap:  c.DoorGap,
		Rulers:   rule.Rulers{Main: c.Ruler, Gap: c.GapRuler},
	}
	s.Liner.Caliper = c.Liner
	s.Lining.Rule = byName[rule.LiningRule](t, c.Lining)
	if c.Sheet != "" {
		s.Covering.Sheets = []stock.Sheet{{Size: size(t, c.Sheet)}}
	}
	if c.LinerSheet != "" {
		s.Liner.Sheets = []stock.Sheet{{Size: size(t, c.LinerSheet)}}
	}
	return s
}

func TestWholeCases(t *testing.T) {
	var cases []caseVector
	readJSON(t, "cases.json", &cases)
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			if c.Source == "" {
				t.Fatal("a vector without a source")
			}
			plan, err := folio.Build(c.spec(t))
			if c.Refused != "" {
				var bad *check.Error
				if !errors.As(err, &bad) {
					t.Fatalf("%s: got %v, want it refused", c.Source, err)
				}
				if _, ok := bad.Find(c.Refused, ""); !ok || bad.Len() != 1 {
					t.Errorf("refused with %v, want just %s", bad, c.Refused)
				}
				return
			}
			if err == nil && c.Measured != "" {
				m := size(t, c.Measured)
				plan, err = plan.Refit(refit.Measured{Width: m.W, Height: m.H})
			}
			if err != nil {
				t.Fatalf("%s: %v", c.Source, err)
			}
			same := func(what string, got, want units.Length) {
				if want != 0 && got != want {
					t.Errorf("%s is %v, want %v (%s)", what, got, want, c.Source)
				}
			}
			sameSize := func(what string, got units.Size, want string) {
				if w := size(t, want); want != "" && got != w {
					t.Errorf("%s is %v, want %v (%s)", what, got, w, c.Source)
				}
			}
			cover, ok := plan.Board(boards.MainPanel)
			if !ok {
				t.Fatal("no cover board")
			}
			sameSize("cover", cover.Size(), c.Want.Cover)
			if spine, ok := plan.Board(boards.Spine1); ok {
				same("spine", spine.Size().W, c.Want.Spine)
			}
			if door, ok := plan.Board(boards.LeftDoor); ok {
				same("door", door.Size().W, c.Want.Door)
			}
			for g := range plan.Gaps() {
				same("gap", g.Planned().Length(), c.Want.Gap)
			}
			sameSize("open cover", units.Size{W: plan.OpenWidth().Length(), H: plan.OpenHeight().Length()}, c.Want.Open)
			sameSize("wrap", plan.Wrap().Size(), c.Want.Wrap)
			same("margin across", plan.Wrap().Across().Near().Length(), c.Want.MarginAcross)
			same("margin along", plan.Wrap().Along().Near().Length(), c.Want.MarginAlong)
			same("mitre reach", plan.Wrap().Corners()[0].Reach().Length(), c.Want.Reach)
			for l := range plan.Liner() {
				sameSize("liner", l.Size(), c.Want.Liner)
			}
			warned := c.Warns == ""
			for w := range plan.Warnings() {
				warned = warned || w.Code == check.Code(c.Warns)
			}
			if !warned {
				t.Errorf("no warning %s", c.Warns)
			}
		})
	}
}

// What the turn-in leaves under the liner: with board 1/16 in and inset 1/8 in
// a margin of 1/4 leaves 1/16, 1/2 leaves 5/16, 1 leaves 13/16 (derived: margin
// - board - inset, for a covering too thin to count).
func TestTurnInLap(t *testing.T) {
	for margin, want := range map[string]string{"1/4 in": "1/16 in", "1/2 in": "5/16 in", "1 in": "13/16 in"} {
		m := units.MustParse(margin)
		plan, err := folio.Build(folio.Spec{
			Cover:    units.MustParseSize("6 x 9 in"),
			Spine:    rule.Spine{Width: units.Inch},
			Covering: stock.Stock{Caliper: units.Shortest},
			Margin:   rule.Margin{Ideal: m},
		})
		if err != nil {
			t.Fatal(err)
		}
		sides, ends := plan.TurnInLap()
		if w := units.MustParse(want) - units.Shortest; sides.Length() != w || ends.Length() != w {
			t.Errorf("margin %s leaves %v and %v, want %v", margin, sides.Length(), ends.Length(), w)
		}
	}
}

// A picture of about 4 x 5 1/2 in goes on a 4 1/2 x 6 1/4 in cover (common
// practice, no published source).
func TestLargestPicture(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	got := plan.LargestPicture(boards.RightCover, units.Inch/8, 0)
	about := units.MustParseSize("4 x 5 1/2 in")
	if (got.W-about.W).Abs() > units.Inch/4 || (got.H-about.H).Abs() > units.Inch/4 {
		t.Errorf("largest picture %v, want about %v", got, about)
	}
	mat := folio.Fitting{Kind: folio.Mat{Picture: content(got)}}
	spec := plan.Spec()
	spec.Fittings = []folio.Fitting{mat}
	if _, err := folio.Build(spec); err != nil {
		t.Errorf("the largest picture does not go on its panel: %v", err)
	}
	for _, more := range []units.Size{{W: units.Inch / 16}, {H: units.Inch / 16}} {
		spec.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: content(got.Plus(more.W, more.H))}}}
		if _, err := folio.Build(spec); err == nil {
			t.Errorf("a picture larger by %v goes on the panel as well", more)
		}
	}
	if none := plan.LargestPicture(boards.RightCover, 3*units.Inch, 0); none != (units.Size{}) {
		t.Errorf("a reveal of 3 in leaves %v, want nothing", none)
	}
}
