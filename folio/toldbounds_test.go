package folio_test

import (
	"regexp"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

var figure = regexp.MustCompile(`([0-9][0-9.]*) (mm|in)`)

// figures returns the lengths that a text tells of.
func figures(t *testing.T, text string) (all []units.Length) {
	t.Helper()
	for _, m := range figure.FindAllString(text, -1) {
		l, err := units.Parse(m)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	return all
}

// A text that tells in inches, of four decimals, what is exact in millimetres: what is asked for,
// taken or lacking is no less than it is (u), what there is no more (d); what was given is as near
// as it may be (-).
func TestToldInInchesIsNoLess(t *testing.T) {
	inches, err := units.NewRuler(units.Nanometre, units.InchDecimal)
	if err != nil {
		t.Fatal(err)
	}
	warns := func(p *folio.Plan, err error, phrase string) string {
		if err != nil {
			t.Fatal(err)
		}
		for w := range p.Warnings() {
			if strings.Contains(w.Text, phrase) {
				return w.Text
			}
		}
		return ""
	}
	refuses := func(err error) string { v := only(err); return v.Got + "; " + v.Want }
	plain := func(r units.Ruler) folio.Spec {
		s := flat()
		s.Rulers, s.Hinge.Width, s.Mitre.Distance, s.Clearance = all(r), 6*mm, 5*mm, 3*mm
		s.Closing.Ease, s.Closing.Adhesive.Caliper = units.None, units.None
		return s
	}
	asMade := func(r units.Ruler, less units.Length, things ...units.Length) string {
		s := plain(r)
		s.Hinge.Width = 24 * mm / 10
		for i, thick := range things {
			f := badge(boards.RightCover, false, thick)
			f.Name = "badge"
			if i > 0 {
				f.Name, f.Panel, f.Place, f.StandsOn = "plate", boards.MainPanel, place.Place{}, "badge"
			}
			s.Fittings = append(s.Fittings, f)
		}
		p := mustBuild(t, s)
		w, h := p.AsMade()
		_, err := p.Refit(refit.Measured{Width: w.Length() - less, Height: h.Length(), Panels: []units.Length{100 * mm, 20*mm - less, 100 * mm}})
		return refuses(err)
	}
	for _, c := range []struct {
		name, phrase, way string
		told              func(r units.Ruler, x units.Length) string
	}{
		{"a liner round outsides", "the liner takes up to ", "udu", func(r units.Ruler, x units.Length) string {
			s := toAndFro(4)
			s.Rulers, s.Lining = all(r), rule.Lining{Rule: rule.LiningOnePiece, Inset: 5 * mm}
			s.Board.Caliper, s.Covering.Caliper = s.Board.Caliper+x, x/5
			p, err := folio.Build(s)
			text, _, _ := strings.Cut(warns(p, err, "the liner takes up to"), "wider for each")
			_, text, _ = strings.Cut(text, "the liner takes up to")
			return "the liner takes up to " + text
		}},
		{"a sheet that leaves too little to turn in", "goes round the board's edge", "du", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Board.Caliper += x
			s.Margin = rule.Margin{Ideal: 20 * mm, Least: mm, Tolerated: mm}
			open := mustBuild(t, s)
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: open.OpenWidth().Length() + 2*x, H: open.OpenHeight().Length() + 2*x}, Grain: stock.GrainAlongHeight}}
			v, _ := refusal(s, "covering.sheets", folio.TurnInNarrow)
			return v.Got + "; " + v.Want
		}},
		{"past a fold within", "or a second spine of at least", "u", func(r units.Ruler, x units.Length) string {
			least := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
			s := plain(r)
			s.Spine, s.Hinge = rule.Spine{Contents: 7 * mm}, rule.Hinge{}
			s.Row = boards.Row{Main: boards.Panel3,
				Boards: []boards.Board{{Role: boards.Panel1, Width: 53 * mm}, {Role: boards.Spine1, Width: 20 * mm}, {Role: boards.Panel2, Width: 77 * mm}, {Role: boards.Panel3, Width: 77 * mm},
					{Role: boards.Spine2, Width: 26 * mm}, {Role: boards.Panel4, Width: 83 * mm}},
				Joints: []boards.Joint{least, least, least, least, least}}
			s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 9 * mm, H: 60 * mm}, Thickness: 12*mm + x}, Place: place.Place{Across: place.Right, Along: place.Middle}}}
			_, text, _ := strings.Cut(refuses(builds(s)), "or a second spine")
			return "or a second spine" + text
		}},
		{"one thing in a cover as made", "lower by", "u", func(r units.Ruler, x units.Length) string {
			_, text, _ := strings.Cut(asMade(r, x, 154*mm/10), "something there that is")
			return text
		}},
		{"two things in a cover as made", "thinner by", "u", func(r units.Ruler, x units.Length) string {
			_, text, _ := strings.Cut(asMade(r, 4*mm+x, 8*mm, 74*mm/10), "things there that are")
			return text
		}},
		{"a board beside another", "over the edge of", "uu", func(r units.Ruler, x units.Length) string {
			s := besideRow(71*mm + x)
			s.Rulers = all(r)
			return refuses(builds(s))
		}},
		{"a cover that came out wide", "look for bare board", "ud", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 25 * mm, Lap: x}
			p := mustBuild(t, s)
			w, h := p.AsMade()
			made, err := p.Refit(refit.Measured{Width: w.Length() + 2*mm + x, Height: h.Length()})
			return warns(made, err, "look for bare board")
		}},
		{"a frame on a bar", "or no opening is left", "u", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Fittings = []folio.Fitting{{Name: "bar", Kind: folio.Mat{Size: units.Size{W: 12 * mm, H: 80 * mm}}},
				{StandsOn: "bar", Kind: folio.Frame{Picture: content(units.Size{}), Rail: 11*mm + x, Lap: 3 * mm, FoamWidth: 6 * mm, Ease: mm}, Size: place.Sizing{W: place.Relation{Of: place.OfGround}, H: place.Relation{Of: place.OfGround}}}}
			v, _ := refusal(s, "fittings[1].size.w", folio.TooWide)
			return v.Want
		}},
		{"a frame on a spine", "a place with more than", "--u", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Clearance = x
			s.Fittings = []folio.Fitting{{Panel: boards.Spine1, Kind: folio.Frame{Picture: content(units.Size{W: 24 * mm, H: 60 * mm}), Rail: 12 * mm, Lap: 3 * mm, FoamWidth: 6 * mm, Ease: mm}}}
			return refuses(builds(s))
		}},
		{"on the back of a spine", "lower by", "u", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Form, s.Hinge = boards.TwoFlaps, rule.Hinge{Rule: rule.HingeLeast}
			s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine1, Outside: true,
				Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 30 * mm}, Thickness: 9*mm + x}, Place: place.Place{Across: place.Middle}}}
			_, text, _ := strings.Cut(refuses(builds(s)), "something there that is")
			return text
		}},
		{"a cover larger than planned", "of the wrap to turn in", "d-", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			s.Margin = rule.Margin{Ideal: 12 * mm, Least: 12 * mm, Tolerated: 10 * mm}
			p := mustBuild(t, s)
			w, h := p.AsMade()
			made, err := p.Refit(refit.Measured{Width: w.Length() + 4*mm + x, Height: h.Length()})
			return warns(made, err, "of the wrap to turn in")
		}},
		{"beyond an edge", "beyond the", "-du", func(r units.Ruler, x units.Length) string {
			s := plain(r)
			f := badge(boards.RightCover, false, mm)
			f.Place = place.Place{Across: place.Left, Offset: units.Point{X: 79*mm + x}}
			s.Fittings = []folio.Fitting{f}
			return refuses(builds(s))
		}},
		{"a crease nearer to a spine", "creased at most", "d", func(r units.Ruler, x units.Length) string {
			s := creasedRow(true)
			s.Rulers = all(r)
			wide, narrow := boards.Joint{Hinge: rule.Hinge{Width: 6 * mm, Crease: rule.CreaseMidGap}}, boards.Joint{Hinge: rule.Hinge{Width: 44 * mm / 10, Crease: rule.CreaseMidGap}}
			s.Row.Joints = []boards.Joint{wide, wide, narrow, narrow}
			s.Row.Boards[0].Width, s.Row.Boards[3].Width = 120*mm+x, 30*mm
			p, err := folio.Build(s)
			_, text, _ := strings.Cut(warns(p, err, "in the same gap"), "in the same gap, ")
			return text
		}},
	} {
		for _, x := range []units.Length{1234561, 1236561, 1237111} { // a little above, and below, and above the half of a decimal
			exact, text := c.told(nanometres(), x), c.told(inches, x)
			if !strings.Contains(exact, c.phrase) || !strings.Contains(text, c.phrase) {
				t.Errorf("%s: %q, in inches %q", c.name, exact, text)
				continue
			}
			in, mm := figures(t, text), figures(t, exact)
			if len(in) != len(c.way) || len(mm) != len(c.way) {
				t.Errorf("%s: %q, in inches %q", c.name, exact, text)
				continue
			}
			off := false
			for i, way := range c.way {
				off = off || in[i] != mm[i]
				if way == 'u' && in[i] < mm[i] || way == 'd' && in[i] > mm[i] || (in[i]-mm[i]).Abs() >= units.Inch/10_000 {
					t.Errorf("%s: %v is told as %v: %s", c.name, mm[i], in[i], text)
				}
			}
			if !off {
				t.Errorf("%s: all is exact in inches: %s", c.name, text)
			}
		}
	}
}
