package folio_test

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/units"
)

var writeForms = flag.Bool("writeforms", false, "write what TestForms compares with, after a change that is meant to change plans")

// everything writes down all that a plan says: told, the order of work, and how
// the folio lies when it is shut.
func everything(p *folio.Plan) string {
	var b strings.Builder
	b.WriteString(told(p))
	for s := range p.Steps() {
		fmt.Fprintln(&b, s.Number, s.Task, s.After, s.Text(units.Format{}))
	}
	b.WriteString(lies(p))
	return b.String()
}

// lies writes down how a folio lies open and shut, and what room it has.
func lies(p *folio.Plan) string {
	var b strings.Builder
	for g := range p.Gaps() {
		left, right := g.Between()
		fmt.Fprintln(&b, left, right, g.Least(), g.Angle(), g.Width())
	}
	for h := range p.Heights(true) {
		at, _ := h.Fitting()
		fmt.Fprintln(&b, at, h.Panel(), h.Outside(), h.Rect(), h.Height())
	}
	shut := func(c folio.Closed) {
		under, flap := c.UnderFlap()
		fmt.Fprintln(&b, c.Bend(), c.Crease(), c.Room(), under, flap, c.Thickness(), c.Width(), c.Height())
	}
	if c, ok := p.Closed(); ok {
		shut(c)
	}
	if least, most, ok := p.ClosedRange(); ok {
		shut(least)
		shut(most)
	}
	c, err := p.ClosedAt(units.Millimetre / 2)
	shut(c)
	fmt.Fprintln(&b, err)
	for _, full := range []bool{false, true} {
		for m := closing.BetweenCovers; m <= closing.AtForeEdge; m++ {
			if t, ok := p.TightestOf(m, full); ok {
				r, panel := t.Place()
				fmt.Fprintln(&b, m, t, r, panel, t.Stack(), t.Room(), t.Left(), t.WouldDo())
			}
		}
		if o, ok := p.Overall(full); ok {
			fmt.Fprintln(&b, o.Width(), o.Height(), o.Thickness(), o.Uneven())
		}
	}
	for x := range p.Boards() {
		area, _ := p.Panel(x.Role(), false)
		fmt.Fprintln(&b, p.Headroom(area, x.Role(), -1), p.LargestPicture(x.Role(), mm, mm))
		for r, room := range p.Beside(x.Role(), true) {
			fmt.Fprintln(&b, r, room)
		}
		onMain, meets := p.Facing(area, x.Role(), boards.MainPanel)
		fmt.Fprintln(&b, onMain, meets)
		heights, room, ok := p.Over(x.Role(), true)
		fmt.Fprintln(&b, room, ok)
		if ok {
			for h := range heights {
				at, _ := h.Fitting()
				fmt.Fprintln(&b, at, h.Rect(), h.Height())
			}
		}
	}
	if f, ok := p.Magnets(); ok {
		for m := range f.Places() {
			fmt.Fprintln(&b, m.Panel(), m.Outside(), m.Middle(), m.Pair())
		}
	}
	return b.String()
}

// formed is a folio of a form: some plain, some built round a block, with hinges
// of every rule and crease, flaps, doors and rooms of their own, some that cannot
// be made.
func formed(r *rand.Rand, form boards.Form) made {
	n := make([]int, 12)
	for i := range n {
		n[i] = r.Intn(1000)
	}
	n[0] = int(form)
	fittings := make([][]any, r.Intn(5))
	for i := range fittings {
		for _, most := range mostOfFitting {
			fittings[i] = append(fittings[i], r.Intn(most))
		}
	}
	m := makeOne(n, fittings)
	s := &m.spec
	wide := s.Cover.W
	length := func(most units.Length) units.Length { return units.Length(r.Int63n(int64(most))) }
	switch r.Intn(4) {
	case 0:
		if s.Hinge.Rule = rule.HingeRule(r.Intn(12)); s.Hinge.Rule == rule.HingeFixed+1 {
			s.Hinge.Rule = 255 // there is no such rule
		}
		s.Hinge.Crease = rule.CreasePlace(r.Intn(6))
		if s.Hinge.Rule == rule.HingeFixed {
			s.Hinge.Width = length(12 * mm)
		}
		if s.Hinge.Crease == rule.CreaseAtOffset {
			s.Hinge.Offset = length(3 * mm)
		}
		if r.Intn(4) == 0 {
			s.Hinge.Angle = 1 + r.Intn(180)
		}
	case 1:
		s.Block = boards.Block{Page: s.Cover, Thickness: mm + length(20*mm), Setback: length(3 * mm)}
		s.Cover = units.Size{}
		if s.Form != boards.SoftSpine {
			s.Spine = rule.Spine{Rule: rule.SpineRule(r.Intn(6))}
		} else {
			s.Spine.Contents = 0
		}
	}
	switch form {
	case boards.ForeEdgeFlap:
		s.Closing.UnderFlap = length(3 * mm)
		if r.Intn(2) == 0 {
			s.FlapWidth = length(2 * wide)
		}
	case boards.DoubleSpineGate:
		s.DoorGap = []units.Length{0, units.None, length(30 * mm)}[r.Intn(3)]
	}
	if r.Intn(3) == 0 {
		s.Covering.Caliper, s.Liner.Caliper = length(mm), length(mm)
	}
	if r.Intn(3) == 0 {
		s.Placing = length(mm)
	}
	return m
}

// The forms of case are rows of boards like any other; what they come to stays
// what it was when each had rules of its own: the very same text of everything
// that thousands of plans say, and of what is wrong with those that cannot be
// made.
func TestForms(t *testing.T) {
	if !proptest.Whole && !*writeForms {
		t.Skip("with the tag whole; TestPlansAreHeld keeps plans of all forms at every change")
	}
	r := rand.New(rand.NewSource(1))
	var got bytes.Buffer
	built, refitted := 0, 0
	for form := boards.SpineBoard; form <= boards.DoubleSpineGate; form++ {
		for part := range 10 {
			sum := sha256.New()
			for range 80 {
				m := formed(r, form)
				_, p, err := m.plans()
				if err != nil {
					fmt.Fprintln(sum, err)
					continue
				}
				if built++; m.measured.Width > 0 {
					refitted++
				}
				fmt.Fprintln(sum, everything(p))
			}
			fmt.Fprintf(&got, "%v %d %x\n", form, part, sum.Sum(nil)[:12])
		}
	}
	t.Logf("%d plans, %d of them refitted", built, refitted)
	if built < 1500 || refitted < 300 {
		t.Errorf("%d plans, %d of them refitted: too few to say much", built, refitted)
	}
	texttest.Kept(t, "testdata/forms.txt", got.String(), *writeForms)
}
