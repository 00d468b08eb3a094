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
