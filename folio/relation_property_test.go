package folio_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A likeness is a design by relation in numbers that suit any cover.
type likeness struct {
	Kind          int // of the fitting on the panel
	Role          int
	Outside       bool
	Margin, Less  units.Length
	Shares        int
	Gap, Border   units.Length // Border is the reveal, the lap
	Rail          units.Length
	On            bool // a mat stands on it
	OnMargin      units.Length
	Clearance     units.Length
	Wider, Higher units.Length // by which another cover is larger
	Print         bool
	Proportions   place.Proportions
}

func likenesses() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, 6), gen.IntRange(0, 4), gen.IntRange(0, 4),
		within(0, 9*mm), within(0, 12*mm), gen.IntRange(0, 3), within(0, 5*mm),
		within(mm, 5*mm), within(9*mm, 14*mm), gen.Bool(), within(0, 6*mm), within(0, 2*mm), within(0, 60*mm), within(0, 60*mm), gen.IntRange(0, 2), gen.IntRange(0, 5),
	), func(v []any) likeness {
		l := func(i int) units.Length { return v[i].(units.Length) }
		n := func(i int) int { return v[i].(int) }
		proportions := [6]place.Proportions{{W: 2, H: 3}, {W: 30, H: 20}, {W: 7, H: 7}}[n(15)]
		if k := n(0); k > 2 && k < 6 || n(14) == 0 {
			proportions = place.Proportions{} // for mats, frames and ornaments, and no usual prints
		}
		return likeness{
			Proportions: proportions, Kind: n(0), Role: n(1), Outside: n(2) == 0, Margin: l(3), Less: l(4), Shares: n(5), Gap: l(6),
			Border: l(7), Rail: l(8), On: v[9].(bool), OnMargin: l(10), Clearance: l(11), Wider: l(12), Higher: l(13), Print: n(14) == 0,
		}
	})
}

// relation says a side by relation.
func (d likeness) relation() place.Relation {
	r := place.Relation{Of: place.OfPanel, Margin: d.Margin, Less: d.Less, Shares: d.Shares}
	if d.Shares > 1 {
		r.Gap = d.Gap
	}
	return r
}

// floor and ceiling are a length on a ruler, worked out by whole numbers.
func floor(l, step units.Length) units.Length { return l / step * step }

func ceiling(l, step units.Length) units.Length { return (l + step - 1) / step * step }

// side is what the relation comes to on a side of so much.
func (d likeness) side(panel, step units.Length) units.Length {
	total := panel - 2*d.Clearance - 2*d.Margin - d.Less
	if d.Shares > 1 {
		total = (total - units.Length(d.Shares-1)*d.Gap) / units.Length(d.Shares)
	}
	return floor(total, step)
}

// kind is the fitting on the panel without the sizes that the relation gives.
func (d likeness) kind() folio.Kind {
	card := pocket.IDCard().Turned()
	switch d.Kind {
	case 0:
		return folio.Mat{}
	case 1:
		return folio.Mat{Picture: pocket.Content{Name: "picture"}, Reveal: d.Border}
	case 2:
		return folio.Frame{Picture: pocket.Content{Name: "picture"}, Lap: d.Border, Rail: d.Rail, FoamWidth: 3 * mm, Ease: mm}
	case 3:
		return folio.Folded{Kind: pocket.FoldedStrip{Content: card}}
	case 4:
		return folio.Folded{Kind: pocket.Slip{}}
	case 5:
		return folio.Folded{Kind: pocket.Flap{}}
	}
	return folio.Ornament{Thickness: mm}
}

// largest is the largest picture on a ruler with which something goes into a
// length, found by trying one after the other.
func largest(from, step units.Length, outside func(units.Length) units.Length, room units.Length) units.Length {
	for pic := ceiling(from, step); pic > 0; pic -= step {
		if outside(pic) <= room {
			return pic
		}
	}
	return 0
}

// fixed is the same fitting in sizes of its own.
func (d likeness) fixed(panel units.Size, step units.Length) folio.Kind {
	size := units.Size{W: d.side(panel.W, step), H: d.side(panel.H, step)}
	picture := func(outside func(units.Length) units.Length) units.Size {
		from := 2*d.Border + 3*step
		return units.Size{W: largest(size.W+from, step, outside, size.W), H: largest(size.H+from, step, outside, size.H)}
	}
	proportioned := func(s units.Size) units.Size {
		if d.Proportions == (place.Proportions{}) {
			return s
		}
		p, q := units.Length(d.Proportions.W), units.Length(d.Proportions.H)
		for s.W*q > s.H*p { // one step narrower after the other
			s.W -= step
		}
		s.H = floor(s.W*q/p, step)
		return s
	}
	switch k := d.kind().(type) {
	case folio.Mat:
		if d.Kind == 0 {
			k.Size = proportioned(size)
			return k
		}
		k.Picture.Size = picture(func(pic units.Length) units.Length { return ceiling(pic+2*d.Border, step) })
		k.Picture.Size = proportioned(k.Picture.Size)
		return k
	case folio.Frame:
		k.Picture.Size = picture(func(pic units.Length) units.Length { return ceiling(floor(pic-2*d.Border, step)+2*d.Rail, step) })
		k.Picture.Size = proportioned(k.Picture.Size)
		return k
	case folio.Folded:
		switch in := k.Kind.(type) {
		case pocket.FoldedStrip:
			in.Base, in.Strip.H = size.W, size.H
			k.Kind = in
		case pocket.Slip:
			in.Place = size
			k.Kind = in
		case pocket.Flap:
			in.Leaf = size
			k.Kind = in
		}
		return k
	case folio.Ornament:
		k.Size = proportioned(size)
		return k
	}
	return nil
}

// design puts the likeness on a folio: by relation, or in the sizes that a test worked
// out for panel and ground.
func (d likeness) design(s folio.Spec, kind folio.Kind, size place.Sizing, on folio.Kind, onSize place.Sizing) folio.Spec {
	roles := s.Form.Roles()
	f := folio.Fitting{Name: "a", Kind: kind, Size: size, Panel: roles[d.Role%len(roles)], Outside: d.Outside}
	if d.Shares > 1 {
		f.Place.Across = place.Left
	}
	s.Clearance = d.Clearance
	s.Fittings = []folio.Fitting{f}
	if d.On {
		s.Fittings = append(s.Fittings, folio.Fitting{Name: "b", StandsOn: "a", Kind: on, Size: onSize})
	}
	return s
}

func (d likeness) byRelation(s folio.Spec) folio.Spec {
	size := place.Sizing{W: d.relation(), H: d.relation(), Proportions: d.Proportions}
	if d.Print && (d.Kind == 1 || d.Kind == 2) {
		size.Picture = place.PictureUsual
	}
	return d.design(s, d.kind(), size, folio.Mat{}, place.Filling(place.OfGround, d.OnMargin))
}

// shape is all that a plan says of pieces, places, heights and work, without how
// sizes were worked out.
func shape(p *folio.Plan) string {
	var b strings.Builder
	for x := range p.Pieces() {
		fmt.Fprintln(&b, x.Name(), x.Part(), x.Stock(), x.Size(), x.Quantity(), x.Source(), x.Outline())
	}
	for x := range p.Placed() {
		fmt.Fprintln(&b, x.Rect())
	}
	for x := range p.Heights(true) {
		fmt.Fprintln(&b, x)
	}
	for x := range p.Warnings() {
		fmt.Fprintln(&b, x)
	}
	for x := range p.Steps() {
		fmt.Fprintln(&b, x.Text(units.Format{}))
	}
	return b.String()
}

// A design by relation is at its cover the design in fixed sizes: piece by piece,
// place by place, step by step. The fixed sizes are worked out here, from the
// panel and the rule alone; pictures are found by trying. What cannot be made in
// fixed sizes cannot be made by relation.
func TestRelativeIsFixed(t *testing.T) {
	built, stood := 0, 0
	proptest.Run(t, 2000, func(props *gopter.Properties) {
		props.Property("by relation as in fixed sizes", prop.ForAll(func(s folio.Spec, d likeness) string {
			d.Print = false
			bare := mustPlan(s)
			roles := s.Form.Roles()
			panel, _ := bare.Panel(roles[d.Role%len(roles)], d.Outside)
			step := bare.Spec().Rulers.Fitting.Step()
			alone := d
			alone.On = false
			first, err := folio.Build(alone.design(s, d.fixed(panel.Size(), step), place.Sizing{}, nil, place.Sizing{}))
			byRelation, errBy := folio.Build(alone.byRelation(s))
			if (err == nil) != (errBy == nil) {
				return fmt.Sprintf("fixed: %v\nby relation: %v", err, errBy)
			}
			if err != nil {
				return ""
			}
			built++
			if was, is := shape(first), shape(byRelation); was != is {
				return "another folio by relation:\n" + was + "\n" + is
			}
			if !d.On {
				return ""
			}
			ground := groundOf(first)
			if ground.Empty() {
				return ""
			}
			on := folio.Mat{Size: units.Size{W: floor(ground.W-2*d.OnMargin, step), H: floor(ground.H-2*d.OnMargin, step)}}
			both, err := folio.Build(d.design(s, d.fixed(panel.Size(), step), place.Sizing{}, on, place.Sizing{}))
			byRelation, errBy = folio.Build(d.byRelation(s))
			if (err == nil) != (errBy == nil) {
				return fmt.Sprintf("with a mat on it, fixed: %v\nby relation: %v", err, errBy)
			}
			if err != nil {
				return ""
			}
			stood++
			if was, is := shape(both), shape(byRelation); was != is {
				return "with a mat on it another folio by relation:\n" + was + "\n" + is
			}
			// And fixed as it stands it is the same once more.
			for _, f := range byRelation.Fixed().Fittings {
				if f.Size != (place.Sizing{}) {
					return "fixed it still has a size by relation"
				}
			}
			again, err := folio.Build(byRelation.Fixed())
			if err != nil || shape(again) != shape(byRelation) {
				return fmt.Sprintf("fixed afterwards it is another one: %v", err)
			}
			return ""
		}, anySpec(), likenesses()))
	})
	if built < proptest.Cases(1000) || stood < proptest.Cases(300) {
		t.Errorf("only %d built, %d of them with a mat that stands on something", built, stood)
	}
}

func mustPlan(s folio.Spec) *folio.Plan {
	p, err := folio.Build(s)
	if err != nil {
		panic(err)
	}
	return p
}

// groundOf is what stands ready for others on the first fitting: the flap of a
// strip or of a flap, and the whole of anything else that carries something.
func groundOf(p *folio.Plan) units.Size {
	for f := range p.Fittings() {
		if d, ok := f.Design(); ok {
			for _, panel := range d.Panels() {
				if name := panel.Name(); name == "flap" || name == "leaf" {
					return panel.Closed().Size()
				}
			}
			return units.Size{}
		}
		if _, frame := f.Kind().(folio.Frame); frame {
			return units.Size{} // a mat would hide the picture
		}
		return f.Rect().Size()
	}
	return units.Size{}
}

// On a larger cover no piece is smaller, and what went on the smaller one goes
// on.
func TestLargerCoverNoSmallerPiece(t *testing.T) {
	grown := 0
	proptest.Run(t, 2000, func(props *gopter.Properties) {
		props.Property("a larger cover", prop.ForAll(func(s folio.Spec, d likeness) string {
			s.Covering.Sheets, s.Liner.Sheets, s.Form = nil, nil, boards.SpineBoard
			s.Hinge = rule.Hinge{}
			small, err := folio.Build(d.byRelation(s))
			if err != nil {
				return ""
			}
			s.Cover = s.Cover.Plus(d.Wider, d.Higher)
			large, err := folio.Build(d.byRelation(s))
			if err != nil {
				return "it no longer goes in: " + err.Error()
			}
			grown++
			type key struct{ name, part string }
			was := map[key]units.Size{}
			for q := range small.Pieces() {
				was[key{q.Name(), q.Part()}] = q.Size()
			}
			for q := range large.Pieces() {
				if w, ok := was[key{q.Name(), q.Part()}]; !ok || !w.FitsIn(q.Size()) {
					return fmt.Sprintf("%s of %s: %v, on the smaller cover %v", q.Name(), q.Part(), q.Size(), w)
				}
			}
			return ""
		}, anySpec(), likenesses()))
	})
	if grown < proptest.Cases(800) {
		t.Errorf("only %d designs grew", grown)
	}
}

// A cover that came out a little smaller than planned, with its hinges narrower,
// is as good as one that was planned so: a refit makes of sizes by relation what
// Build makes of them in boards and gaps as measured.
func TestRefitByRelation(t *testing.T) {
	refitted := 0
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("refitted as built", prop.ForAll(func(s folio.Spec, d likeness, steps int, narrower units.Length) string {
			s.Covering.Sheets, s.Liner.Sheets, s.Form, s.Quarter = nil, nil, boards.SpineBoard, rule.Quarter{}
			s.Hinge = rule.Hinge{Width: 9 * mm}
			s.Rulers = rule.Rulers{Main: s.Rulers.Main}
			p, err := folio.Build(d.byRelation(s))
			if err != nil {
				return ""
			}
			full := p.Spec()
			lower := p.OpenHeight().Length() - units.Length(steps)*full.Rulers.Board.Step()
			q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() - 2*narrower, Height: lower})
			if err != nil {
				return ""
			}
			fine, _ := units.NewRuler(units.Nanometre, full.Rulers.Main.Notation())
			full.Rulers.Gap, full.Cover.H, full.Hinge.Width = fine, lower, 0
			for g := range q.Gaps() {
				full.Hinge.Width = g.Rect().Size().W
			}
			built, err := folio.Build(full)
			if err != nil {
				return "" // the hinge no longer closes
			}
			refitted++
			want, got := sizesOf(built), sizesOf(q)
			for name, size := range want {
				if got[name] != size {
					return fmt.Sprintf("%s: %v refitted, %v built", name, got[name], size)
				}
			}
			return ""
		}, anySpec(), likenesses(), gen.IntRange(0, 2), within(0, mm/2)))
	})
	if refitted < proptest.Cases(400) {
		t.Errorf("only %d were refitted", refitted)
	}
}
