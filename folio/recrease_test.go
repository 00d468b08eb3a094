package folio_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

var toldCrease = regexp.MustCompile(`creased at (?:least|most) (.+) from the edges of the (.+) board, it closes$`)

// creasedAsTold does to a row what the warnings of its plan say of creases, in gaps as
// wide as planned, and returns the names of the spine boards whose hinges they name.
func creasedAsTold(t *testing.T, s folio.Spec, p *folio.Plan) (folio.Spec, []string) {
	t.Helper()
	s.Row.Joints = slices.Clone(s.Row.Joints)
	i := 0
	for g := range p.Gaps() {
		s.Row.Joints[i].Hinge.Rule, s.Row.Joints[i].Hinge.Width = rule.HingeFixed, g.Width()
		i++
	}
	var names []string
	for w := range p.Warnings() {
		if w.Code != folio.WarnCrease {
			continue
		}
		said := toldCrease.FindStringSubmatch(w.Text)
		if said == nil {
			t.Fatalf("what is to be creased where? %v", w)
		}
		names = append(names, said[2])
		for i, b := range p.Spec().Row.Boards {
			if name := b.Role.String(); name != said[2] && "first "+name != said[2] {
				continue
			}
			for _, joint := range []int{i - 1, i} {
				h := &s.Row.Joints[joint].Hinge
				if h.Crease, h.Offset = rule.CreaseAtEdge, units.MustParse(said[1]); h.Offset > 0 {
					h.Crease = rule.CreaseAtOffset
				}
			}
		}
	}
	return s, names
}

// crease is what a plan warns of creases.
func crease(p *folio.Plan) string {
	for w := range p.Warnings() {
		if w.Code == folio.WarnCrease {
			return w.String()
		}
	}
	return ""
}

// creasedRow is a gate or a roll of two spine boards of 16 mm, of 2 mm board and thin
// papers, with gaps of 6 mm.
func creasedRow(roll bool) folio.Spec {
	gap := boards.Joint{Hinge: rule.Hinge{Width: 6 * mm}}
	s := folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 16 * mm}, Rulers: rule.Rulers{Main: everyNanometre},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 10}, Liner: stock.Stock{Caliper: mm / 10},
		Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		Row: boards.Row{Main: boards.Panel2, Joints: []boards.Joint{gap, gap, gap, gap}, Boards: []boards.Board{
			{Role: boards.Panel1, Width: 58 * mm}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2}, {Role: boards.Panel3, Width: 58 * mm}}},
	}
	if roll {
		s.Row.Boards[0].Width, s.Row.Boards[4].Width, s.Row.Boards[4].Over = 0, 0, boards.Panel1
	}
	return s
}

func badge(on boards.Role, outside bool, thick units.Length) folio.Fitting {
	return folio.Fitting{Panel: on, Outside: outside, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 30 * mm}, Thickness: thick}, Place: place.Place{Across: place.Middle}}
}

// Where creases further out decide at two spines of a gate, both are told, each with as
// little as does, whichever is the more. By hand, between the liners of a door and the back
// 16 − 2 · 2.1 mm, for a badge and the turn-ins under it of 0.1 mm.
func TestEveryCreaseIsTold(t *testing.T) {
	for _, thick := range [][2]units.Length{{124, 130}, {130, 124}, {119, 130}, {130, 119}} {
		s := creasedRow(false)
		for i := range s.Row.Joints {
			s.Row.Joints[i].Hinge.Width = 8 * mm
		}
		s.Fittings = []folio.Fitting{badge(boards.Panel1, false, thick[0]*mm/10), badge(boards.Panel3, false, thick[1]*mm/10)}
		p := mustBuild(t, s)
		var said, want []string
		for w := range p.Warnings() {
			if w.Code == folio.WarnCrease {
				said = append(said, w.Path+w.Text[strings.LastIndex(w.Text, "; "):])
			}
		}
		for i, spine := range []string{"first", "second"} {
			half := (thick[i] + 1 - (160 - 2*21)) * mm / 20 // on each side of the spine
			want = append(want, fmt.Sprintf("row.joints[%d].hinge.crease; in the same gap, creased at least %v from the edges of the %s spine board, it closes", 2*i, half, spine))
		}
		if !slices.Equal(said, want) {
			t.Errorf("%v: %q, want %q", thick, said, want)
		}
	}
}

// An edge that comes so far past the board under it that it does not clear the fold there. Creased
// at x from the spine board in a gap of 4.4 mm that lies 4.4 mm less x past the boards, with board and
// liner of the spine and a turn-in inside it and the covering at the edge, by hand 2.3 mm: creased
// in the middle of the gap, 0.1 mm is lacking, at the spine board's edge 2.1 mm are free. That the edge
// lies in another fold too, where it is clear, changes nothing, nor which of the two is the first, nor
// contents that are as thick as only the place between the board on the table and what lies on it takes.
func TestEdgeNearAFold(t *testing.T) {
	mid := func(gap units.Length) boards.Joint {
		return boards.Joint{Hinge: rule.Hinge{Width: gap, Crease: rule.CreaseMidGap}}
	}
	wide, narrow := mid(6*mm), mid(44*mm/10)
	roll := creasedRow(true)
	roll.Row.Joints = []boards.Joint{wide, wide, narrow, narrow}
	roll.Row.Boards[0].Width, roll.Row.Boards[3].Width = 120*mm, 30*mm
	four := creasedRow(true)
	four.Spine = rule.Spine{Contents: 178 * mm / 10}
	four.Row.Joints = []boards.Joint{wide, wide, narrow, narrow, mid(16 * mm), mid(16 * mm)}
	four.Row.Main, four.Row.Boards = boards.Panel3, []boards.Board{
		{Role: boards.Panel1, Width: 120 * mm}, {Role: boards.Spine1, Width: 16 * mm}, {Role: boards.Panel2, Width: 120 * mm},
		{Role: boards.Spine2, Width: 45 * mm}, {Role: boards.Panel3, Width: 120 * mm}, {Role: boards.Spine3, Width: 60 * mm}, {Role: boards.Panel4, Width: 120 * mm, Over: boards.Panel2}}
	for n := range 4 {
		for past, most := range map[units.Length]units.Length{-mm: 22 * mm / 10, -mm / 10: 22 * mm / 10, nm - mm/10: 22*mm/10 - nm, 0: 21 * mm / 10, mm: 11 * mm / 10, 21 * mm / 10: 0, 21*mm/10 + nm: -nm, 22 * mm / 10: -mm / 10} {
			s, spines := roll, []string{"first", "second"}
			if n >= 2 {
				s, spines = four, []string{"first", "second", "third"}
			}
			s.Row.Boards = slices.Clone(s.Row.Boards)
			s.Row.Boards[0].Width += past
			if n%2 == 1 {
				s = inMirror(s)
			}
			p, err := folio.Build(s)
			if most < 0 {
				v := only(err)
				if would := asks(t, v.Want); v.Code != folio.NotClosing || !strings.HasPrefix(v.Path, "row.joints[") || len(would) != 1 || would[0] != 2*(past+23*mm/10) {
					t.Errorf("%d, %v past: %v", n, past, err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%d, %v past: %v", n, past, err)
				continue
			}
			var said []string
			for w := range p.Warnings() {
				if w.Code == folio.WarnCrease {
					said = append(said, w.Text[strings.LastIndex(w.Text, "; "):])
				} else if w.Code == folio.WarnSpine {
					t.Errorf("%d, %v past: %v", n, past, w)
				}
			}
			for k, spine := range spines {
				spines[k] = fmt.Sprintf("; in the same gap, creased at most %v from the edges of the %s spine board, it closes", most, spine)
			}
			if most == 22*mm/10 {
				spines = nil
			}
			if slices.Sort(said); !slices.Equal(said, spines) {
				t.Errorf("%d, %v past: %q, want %q", n, past, said, spines)
			}
		}
	}
}

// What the warnings say of creases, all of it done, closes the folio, and no crease that
// they name is to lie nearer than at the board.
func TestCreasesAsTold(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2))
	length := func(low, high units.Length) units.Length { return low + units.Length(r.Int64N(int64(high-low))) }
	far, near, two := 0, 0, 0
	for n := range 300 {
		s := creasedRow(n%2 == 0)
		for i := range s.Row.Joints {
			s.Row.Joints[i].Hinge.Width = length(5*mm, 10*mm)
			if r.IntN(4) == 0 {
				s.Row.Joints[i].Hinge.Crease = []rule.CreasePlace{rule.CreaseMidGap, rule.CreaseTwo, rule.CreaseRound}[r.IntN(3)]
			}
		}
		s.Row.Boards[3].Width = length(16*mm, 28*mm)
		low, high := 9*mm, 15*mm
		if n%4 == 0 { // a roll in which the first panel's edge comes near the fold of the third
			low, high = mm, 3*mm
			for i := range s.Row.Joints {
				s.Row.Joints[i].Hinge.Crease = rule.CreaseMidGap
			}
			s.Row.Boards[0].Width, s.Row.Boards[3].Width = length(119*mm, 124*mm), length(19*mm, 28*mm)
		}
		for k := range 2 {
			s.Fittings = append(s.Fittings, badge(boards.Panel1+boards.Role(2*k), r.IntN(6) == 0, length(low, high)))
		}
		p, err := folio.Build(s)
		if err != nil || !warned(p, folio.WarnCrease) {
			continue
		}
		done, names := creasedAsTold(t, s, p)
		switch q, err := folio.Build(done); {
		case err != nil:
			t.Errorf("%d: %v, and then %v", n, slices.Collect(p.Warnings()), err)
		case warned(q, folio.WarnCrease):
			t.Errorf("%d: %v, and then %v", n, slices.Collect(p.Warnings()), slices.Collect(q.Warnings()))
		case len(names) > 1:
			two++
		default: // and a nanometre less does not
			for i := range done.Row.Joints {
				if h := &done.Row.Joints[i].Hinge; h.Offset > 0 && h.Offset != s.Row.Joints[i].Hinge.Offset {
					h.Offset--
				}
			}
			if q, err := folio.Build(done); strings.Contains(crease(p), "at least") && err == nil && !warned(q, folio.WarnCrease) {
				t.Errorf("%d: a nanometre less than %v does", n, crease(p))
			}
		}
		for w := range p.Warnings() {
			if w.Code == folio.WarnCrease && strings.Contains(w.Text, "at least") {
				far++
			} else if w.Code == folio.WarnCrease {
				near++
			}
		}
	}
	if far < 20 || near < 5 || two < 1 {
		t.Errorf("%d further out, %d nearer, %d times two", far, near, two)
	}
}
