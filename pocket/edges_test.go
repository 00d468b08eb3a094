package pocket_test

import (
	"slices"
	"testing"

	"boardwrap.example/internal/edgetest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const (
	nm = units.Nanometre
	um = units.Micrometre
)

// sized is a content of 50 x 80 mm without a thickness; with loose it is given
// an ease of 2 mm.
func sized(w, h units.Length) pocket.Content {
	return pocket.Content{Name: "card", Size: units.Size{W: w, H: h}}
}

var (
	loose   = pocket.Ease{W: 2 * mm, H: 2 * mm}
	all     = pocket.Share{Part: 1, Of: 1}
	half    = pocket.Share{Part: 1, Of: 2}
	noNotch = pocket.ThumbNotch{Width: units.None, Depth: units.None}
)

// onPaper is an edge of a kind on a paper of 0.25 mm, on a ruler of nanometres.
func onPaper(name, path string, code check.Code, fine, wrong units.Length, kind func(units.Length) pocket.Kind) edgetest.Edge {
	return withPaper(name, path, code, fine, wrong, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
		return kind(v), pocket.Paper{Caliper: mm / 4, TwoSided: true}, nm
	})
}

// inMillimetres is such an edge on a ruler of millimetres, with what would do.
func inMillimetres(name, path string, code check.Code, fine, wrong, would units.Length, kind func(units.Length) pocket.Kind) edgetest.Edge {
	e := withPaper(name, path, code, fine, wrong, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
		return kind(v), pocket.Paper{Caliper: mm / 4, TwoSided: true}, mm
	})
	e.Would = would
	return e
}

// withPaper is an edge of a kind, its paper or its ruler.
func withPaper(name, path string, code check.Code, fine, wrong units.Length, try func(units.Length) (pocket.Kind, pocket.Paper, units.Length)) edgetest.Edge {
	return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Built(func(v units.Length) (pocket.Design, error) {
		kind, paper, step := try(v)
		r, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			r = units.Ruler(step)
		}
		return kind.Design(paper, r)
	})}
}

func warned(e edgetest.Edge, got, want units.Length) edgetest.Edge {
	e.Got, e.Want = got, want
	return e
}

func beside(e edgetest.Edge) edgetest.Edge {
	e.Also = true
	return e
}

func would(e edgetest.Edge, limit units.Length) edgetest.Edge {
	e.Would = limit
	return e
}

// What all kinds share, of slip pockets: of a card of 50 x 80 mm with an ease of
// 2 mm the clear width is 52 mm, and with glued edges of 6 mm the front is 64 mm
// wide.
func sharedEdges() []edgetest.Edge {
	slip := changed(pocket.Slip{Content: sized(50*mm, 80*mm), Ease: loose, Depth: half})
	plain := pocket.Slip{Content: sized(50*mm, 80*mm), Ease: loose, Depth: half}
	return []edgetest.Edge{
		onPaper("width of a content", "content.size.w", check.OutOfRange, units.Shortest, units.Shortest-nm, slip(func(s *pocket.Slip, v units.Length) { s.Content.Size.W = v })),
		onPaper("no width of a content", "content.size.w", check.NotPositive, units.Shortest, 0, slip(func(s *pocket.Slip, v units.Length) { s.Content.Size.W = v })),
		onPaper("thickness of a content", "content.thickness", check.Negative, 0, -nm, slip(func(s *pocket.Slip, v units.Length) { s.Content.Thickness = v })),
		onPaper("fewer than none", "count", check.Negative, 0, -1, slip(func(s *pocket.Slip, v units.Length) { s.Count = int(v) })),
		onPaper("a thousand and one", "count", check.TooMany, 1000, 1001, slip(func(s *pocket.Slip, v units.Length) { s.Count = int(v) })),
		onPaper("so many of nothing", "content", check.Missing, 0, 1, func(v units.Length) pocket.Kind {
			return pocket.Slip{Place: units.Size{W: 100 * mm, H: 100 * mm}, Count: int(v)}
		}),
		onPaper("ease across", "ease.w", check.Negative, 0, -nm, slip(func(s *pocket.Slip, v units.Length) { s.Ease.W = v })),
		onPaper("ease upwards", "ease.h", check.OutOfRange, units.Longest, units.Longest+nm, slip(func(s *pocket.Slip, v units.Length) { s.Ease.H = v })),
		onPaper("glue narrower than can be made", "glue", check.OutOfRange, units.Shortest, units.Shortest-nm, slip(func(s *pocket.Slip, v units.Length) { s.Glue = v })),
		onPaper("more than all of it", "depth", check.OutOfRange, 2, 3, slip(func(s *pocket.Slip, v units.Length) { s.Depth.Part = int(v) })),
		onPaper("two depths", "standout", check.Conflict, 0, mm, slip(func(s *pocket.Slip, v units.Length) { s.StandOut = v })),
		onPaper("all of it stands out", "standout", check.TooLarge, 80*mm-units.Shortest, 80*mm-units.Shortest+nm, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.StandOut = pocket.Share{}, v
		})),
		// A thousandth of it must be 0.01 mm.
		onPaper("a thousandth of it is nothing", "content.size.h", check.TooSmall, 10*mm, 10*mm-nm, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.Content.Size.H = pocket.Share{Part: 1, Of: 1000}, v
		})),
		// Three thousandths of it: 0.01 mm of 3.3333333... mm, and a graduation of 333.33.
		onPaper("three thousandths of it are nothing", "content.size.h", check.TooSmall, 3333334, 3333333, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.Content.Size.H = pocket.Share{Part: 3, Of: 1000}, v
		})),
		inMillimetres("three thousandths of it are no graduation", "content.size.h", check.TooSmall, 333333334, 333333333, 334*mm, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.Content.Size.H = pocket.Share{Part: 3, Of: 1000}, v
		})),
		warned(inMillimetres("standing out off the ruler", "standout", pocket.MovedToRuler, 20*mm, 20*mm+nm, 0, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.StandOut = pocket.Share{}, v
		})), 20*mm+nm, 21*mm),
		onPaper("a build that is none", "build", check.Unknown, 1, 2, slip(func(s *pocket.Slip, v units.Length) { s.Build = pocket.Build(v) })),
		onPaper("a notch as wide as the mouth", "notch.width", check.TooLarge, 52*mm, 52*mm+nm, slip(func(s *pocket.Slip, v units.Length) { s.Notch = pocket.ThumbNotch{Width: v, Depth: 5 * mm} })),
		// Of 80.000002 mm half is 40.000001, and half of that 20.0000005.
		onPaper("a notch as deep as half the pocket", "notch.depth", check.TooLarge, 20*mm, 20*mm+nm, slip(func(s *pocket.Slip, v units.Length) {
			s.Content.Size.H, s.Notch = 80*mm+2*nm, pocket.ThumbNotch{Width: 10 * mm, Depth: v}
		})),
		onPaper("half a notch", "notch", check.Conflict, 5*mm, units.None, slip(func(s *pocket.Slip, v units.Length) { s.Notch = pocket.ThumbNotch{Width: 10 * mm, Depth: v} })),
		onPaper("place too narrow", "place.w", check.TooSmall, 64*mm, 64*mm-nm, slip(func(s *pocket.Slip, v units.Length) { s.Place = units.Size{W: v, H: 100 * mm} })),
		inMillimetres("place too narrow by a part of a millimetre", "place.w", check.TooSmall, 64300*um, 64300*um-nm, 65*mm, slip(func(s *pocket.Slip, v units.Length) {
			s.Content.Size.W, s.Place = 50300*um, units.Size{W: v, H: 100 * mm}
		})),
		onPaper("place too low", "place.h", check.TooSmall, 88*mm, 88*mm-nm, slip(func(s *pocket.Slip, v units.Length) { s.Depth, s.Place = all, units.Size{W: 100 * mm, H: v} })),
		inMillimetres("place too low by a part of a millimetre", "place.h", check.TooSmall, 88300*um, 88300*um-nm, 89*mm, slip(func(s *pocket.Slip, v units.Length) {
			s.Content.Size.H, s.Depth, s.Place = 80300*um, all, units.Size{W: 100 * mm, H: v}
		})),
		onPaper("place for nothing, across", "place.w", check.TooSmall, 14*mm+units.Shortest, 14*mm+units.Shortest-nm, func(v units.Length) pocket.Kind {
			return pocket.Slip{Place: units.Size{W: v, H: 100 * mm}, Ease: loose}
		}),
		onPaper("place for nothing, upwards", "place.h", check.TooSmall, 8*mm+units.Shortest, 8*mm+units.Shortest-nm, func(v units.Length) pocket.Kind {
			return pocket.Slip{Place: units.Size{W: 100 * mm, H: v}, Ease: loose, Depth: all}
		}),
		onPaper("front longer than 10 m", "", pocket.TooLong, 9986*mm, 9986*mm+nm, slip(func(s *pocket.Slip, v units.Length) { s.Content.Size.W = v })),
		// 10 m are 393.70078... in.
		edgetest.Edge{Name: "front longer than 10 m, in inches", Path: "", Code: pocket.TooLong, Fine: 50 * mm, Wrong: units.Longest, Try: edgetest.Built(func(v units.Length) (pocket.Design, error) {
			return pocket.Slip{Content: sized(v, 80*mm), Ease: loose, Depth: half}.Design(pocket.Paper{}, units.Sixteenths)
		})},
		warned(onPaper("contents too thick for a flat pocket", "content.thickness", pocket.TooThick, pocket.FlatLimit, pocket.FlatLimit+nm, slip(func(s *pocket.Slip, v units.Length) { s.Content.Thickness = v })),
			pocket.FlatLimit+nm, pocket.FlatLimit),
		onPaper("nothing to grip", "notch", pocket.NoGrip, 1, 2, slip(func(s *pocket.Slip, v units.Length) { s.Depth, s.Notch = pocket.Share{Part: int(v), Of: 2}, noNotch })),
		onPaper("nothing to grip, without ease", "notch", pocket.NoGrip, 1, 2, slip(func(s *pocket.Slip, v units.Length) {
			s.Ease.H, s.Depth, s.Notch = units.None, pocket.Share{Part: int(v), Of: 2}, noNotch
		})),
		// In a place of 100 x 120 mm the card's 80 are behind 82 mm of front.
		onPaper("nothing to grip where there is more room", "notch", pocket.NoGrip, 1, 2, slip(func(s *pocket.Slip, v units.Length) {
			s.Depth, s.Notch, s.Place = pocket.Share{Part: int(v), Of: 2}, noNotch, units.Size{W: 100 * mm, H: 120 * mm}
		})),
		onPaper("nothing to grip in a gusset pocket", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.Gusset{Content: sized(50*mm, 80*mm), Depth: pocket.Share{Part: int(v), Of: 2}, Notch: noNotch, Place: units.Size{W: 100 * mm, H: 120 * mm}}
		}),
		onPaper("nothing to grip in a gusset run", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.GussetRun{Content: sized(50*mm, 80*mm), Depth: pocket.Share{Part: int(v), Of: 2}, Notch: noNotch}
		}),
		onPaper("nothing to grip in an accordion", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Content: sized(50*mm, 80*mm), Depth: pocket.Share{Part: int(v), Of: 2}}
		}),
		// Whatever goes into 100 x 60 mm goes in all the way, and is wider than high.
		onPaper("nothing to grip of whatever a slip pocket takes", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.Slip{Place: units.Size{W: 100 * mm, H: 60 * mm}, Depth: pocket.Share{Part: int(v), Of: 2}, Notch: noNotch}
		}),
		onPaper("nothing to grip of whatever a gusset pocket takes", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.Gusset{Place: units.Size{W: 100 * mm, H: 60 * mm}, Depth: pocket.Share{Part: int(v), Of: 2}, Notch: noNotch}
		}),
		onPaper("nothing to grip of whatever a gusset run takes", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.GussetRun{Place: units.Size{W: 120 * mm, H: 60 * mm}, Depth: pocket.Share{Part: int(v), Of: 2}, Notch: noNotch}
		}),
		onPaper("nothing to grip of whatever an accordion takes", "notch", pocket.NoGrip, 1, 2, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Panel: units.Size{W: 100 * mm, H: 60 * mm}, Depth: pocket.Share{Part: int(v), Of: 2}}
		}),
		withPaper("caliper of a paper", "paper.caliper", check.OutOfRange, units.Shortest, units.Shortest-nm, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Caliper: v}, nm
		}),
		withPaper("grammage of a paper", "paper.grammage", check.OutOfRange, units.Length(10_000*units.GramPerSquareMetre), units.Length(10_000*units.GramPerSquareMetre+1), func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Grammage: units.Grammage(v)}, nm
		}),
		// 0.01 mm of 0.0091 in, which is 0.23114 mm, at 200 g/m²: 8.6527... g/m².
		withPaper("grammage of a paper thinner than can be", "paper.grammage", check.OutOfRange, 8653, 8652, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Grammage: units.Grammage(v)}, nm
		}),
		withPaper("grammage of a paper, below nothing", "paper.grammage", check.Negative, 0, -1, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Grammage: units.Grammage(v)}, nm
		}),
		// The front is 64 mm wide and 40 + 6 high.
		withPaper("sheet too small", "paper.sheet", check.TooSmall, 46*mm, 46*mm-nm, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Sheet: units.Size{W: 200 * mm, H: v}}, nm
		}),
		withPaper("sheet too small, turned", "paper.sheet", check.TooSmall, 64*mm, 64*mm-nm, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return plain, pocket.Paper{Sheet: units.Size{W: 46 * mm, H: v}}, nm
		}),
		withPaper("no ruler", "ruler", check.Unknown, nm, -1, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) { return plain, pocket.Paper{}, v }),
		withPaper("the wrong side shows", "", pocket.WrongSideShows, 1, 0, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			folded := plain
			folded.Build = pocket.FoldedFoot
			return folded, pocket.Paper{Caliper: mm / 4, TwoSided: v == 1}, nm
		}),
	}
}

// changed makes kinds of which one thing is changed by a value.
func changed[K pocket.Kind](as K) func(change func(*K, units.Length)) func(units.Length) pocket.Kind {
	return func(change func(*K, units.Length)) func(units.Length) pocket.Kind {
		return func(v units.Length) pocket.Kind {
			k := as
			change(&k, v)
			return k
		}
	}
}

func cornerAndFlapEdges() []edgetest.Edge {
	corner := changed(pocket.Corners{Content: sized(50*mm, 80*mm), Ease: loose})
	flap := changed(pocket.Flap{Leaf: units.Size{W: 60 * mm, H: 90 * mm}})
	matted := func(f *pocket.Flap, w, h units.Length) {
		f.Mat, f.Content = pocket.Mat{Size: units.Size{W: 40 * mm, H: 60 * mm}}, sized(w, h)
	}
	return []edgetest.Edge{
		onPaper("three corners", "corners", check.Unknown, 2, 3, corner(func(c *pocket.Corners, v units.Length) { c.Corners = int(v) })),
		onPaper("corners' place too narrow", "place.w", check.TooSmall, 52*mm, 52*mm-nm, corner(func(c *pocket.Corners, v units.Length) { c.Place = units.Size{W: v, H: 90 * mm} })),
		onPaper("corners' place too low", "place.h", check.TooSmall, 82*mm, 82*mm-nm, corner(func(c *pocket.Corners, v units.Length) { c.Place = units.Size{W: 90 * mm, H: v} })),
		// Round 82 x 32 mm the height is less than half the width.
		onPaper("two corners higher than the place", "leg", check.TooLarge, 32*mm, 32*mm+nm, corner(func(c *pocket.Corners, v units.Length) {
			c.Corners, c.Content, c.Leg = 2, sized(80*mm, 30*mm), v
		})),
		// They go round 52.000001 x 82 mm: half of that is 26.0000005.
		onPaper("four corners that meet", "leg", check.TooLarge, 26*mm, 26*mm+nm, corner(func(c *pocket.Corners, v units.Length) { c.Content.Size.W, c.Leg = 50*mm+nm, v })),
		// Round 82.000001 x 52 mm two corners have room side by side up to 41.0000005.
		onPaper("two corners that meet", "leg", check.TooLarge, 41*mm, 41*mm+nm, corner(func(c *pocket.Corners, v units.Length) {
			c.Corners, c.Content, c.Leg = 2, sized(80*mm+nm, 50*mm), v
		})),
		onPaper("one corner beyond the place", "leg", check.TooLarge, 52*mm, 52*mm+nm, corner(func(c *pocket.Corners, v units.Length) { c.Corners, c.Leg = 1, v })),
		// The content's corner lies 1.0000005 mm from each side of the place, so the
		// slant has to be 2.000002 mm away at least, and 0.01 mm more.
		onPaper("corner beside the content", "leg", check.TooSmall, 2010002, 2010001, corner(func(c *pocket.Corners, v units.Length) { c.Ease.W, c.Leg = 2*mm+nm, v })),
		// A third of 9.000002 mm.
		onPaper("turned edges that meet", "turn", check.TooLarge, 3*mm, 3*mm+nm, corner(func(c *pocket.Corners, v units.Length) { c.Leg, c.Turn = 9*mm+2*nm, v })),
		warned(onPaper("turned edges too narrow for glue", "turn", pocket.NarrowEdge, 3*mm, 3*mm-nm, corner(func(c *pocket.Corners, v units.Length) { c.Turn = v })),
			3*mm-nm, 3*mm),
		// With an ease of e the place is 50 + e wide, a corner reaches half of that,
		// and the content's corner is e from it: 25 + e/2 less e is 0.01 for 49.98.
		onPaper("no corner reaches", "content", pocket.NoCorner, 49980*um, 49980*um+nm, corner(func(c *pocket.Corners, v units.Length) { c.Ease.W = v })),
		onPaper("edge of a hinge", "hinge", check.Unknown, 3, 4, flap(func(f *pocket.Flap, v units.Length) { f.Hinge = score.Edge(v) })),
		onPaper("leaf of nothing", "leaf", check.Missing, mm, 0, func(v units.Length) pocket.Kind {
			return pocket.Flap{Leaf: units.Size{W: 60 * v, H: 90 * v}}
		}),
		onPaper("margin that leaves nothing", "margin", check.Negative, 0, -2*nm, flap(func(f *pocket.Flap, v units.Length) { f.Margin = v })),
		onPaper("tab wider than the leaf", "tab", check.TooLarge, 60*mm, 60*mm+nm, flap(func(f *pocket.Flap, v units.Length) { f.Hinge, f.Tab = score.Left, v })),
		onPaper("tab higher than the leaf", "tab", check.TooLarge, 90*mm, 90*mm+nm, flap(func(f *pocket.Flap, v units.Length) { f.Tab = v })),
		onPaper("content wider than its mat", "content.size.w", check.TooLarge, 40*mm, 40*mm+nm, flap(func(f *pocket.Flap, v units.Length) { matted(f, v, 60*mm) })),
		onPaper("content higher than its mat", "content.size.h", check.TooLarge, 60*mm, 60*mm+nm, flap(func(f *pocket.Flap, v units.Length) { matted(f, 40*mm, v) })),
		onPaper("leaf too narrow", "leaf.w", check.TooSmall, 60*mm, 60*mm-nm, flap(func(f *pocket.Flap, v units.Length) {
			f.Content, f.Margin, f.Leaf.W = sized(50*mm, 80*mm), 5*mm, v
		})),
		onPaper("leaf too low", "leaf.h", check.TooSmall, 90*mm, 90*mm-nm, flap(func(f *pocket.Flap, v units.Length) {
			f.Content, f.Margin, f.Leaf.H = sized(50*mm, 80*mm), 5*mm, v
		})),
		inMillimetres("leaf too narrow by a part of a millimetre", "leaf.w", check.TooSmall, 60300*um, 60300*um-nm, 61*mm, flap(func(f *pocket.Flap, v units.Length) {
			f.Content, f.Margin, f.Leaf.W = sized(50300*um, 80*mm), 5*mm, v
		})),
		warned(onPaper("spine narrower than what it closes over", "spine", pocket.NeedsTwoScores, 3*mm, 3*mm-nm, flap(func(f *pocket.Flap, v units.Length) { f.Over, f.Spine = 3*mm, v })),
			3*mm-nm, 3*mm),
		would(onPaper("size of a mat", "mat.size.w", check.NotPositive, 40*mm, 0, flap(func(f *pocket.Flap, v units.Length) { f.Mat = pocket.Mat{Size: units.Size{W: v, H: 40 * mm}} })), units.Shortest),
		onPaper("caliper of a mat", "mat.caliper", check.OutOfRange, units.Shortest, units.Shortest-nm, flap(func(f *pocket.Flap, v units.Length) {
			f.Mat = pocket.Mat{Size: units.Size{W: 40 * mm, H: 40 * mm}, Caliper: v}
		})),
	}
}

func pleatAndGussetEdges() []edgetest.Edge {
	pleat := changed(pocket.Pleat{Content: sized(50*mm, 80*mm), Ease: loose})
	gusset := changed(pocket.Gusset{Content: sized(50*mm, 80*mm), Ease: loose})
	return []edgetest.Edge{
		onPaper("fewer pleats than none", "pleats", check.Negative, 0, -1, pleat(func(p *pocket.Pleat, v units.Length) { p.Pleats = int(v) })),
		onPaper("five hundred pleats", "pleats", check.TooMany, 500, 501, pleat(func(p *pocket.Pleat, v units.Length) { p.Pleats, p.Visible = int(v), mm })),
		// Each takes 20 mm that show and 40 under them.
		onPaper("pleats of more than 10 m of sheet", "pleats", check.OutOfRange, 166, 167, pleat(func(p *pocket.Pleat, v units.Length) { p.Pleats = int(v) })),
		onPaper("pleats' place too narrow", "place.w", check.TooSmall, 64*mm, 64*mm-nm, pleat(func(p *pocket.Pleat, v units.Length) { p.Place = units.Size{W: v, H: 200 * mm} })),
		onPaper("pleats' place for nothing", "place.w", check.TooSmall, 14*mm+units.Shortest, 14*mm+units.Shortest-nm, func(v units.Length) pocket.Kind {
			return pocket.Pleat{Place: units.Size{W: v, H: 200 * mm}, Ease: loose}
		}),
		// Three visible parts of 20 mm, and 60 mm that stand out of the first.
		onPaper("pleats' place too low", "place.h", check.TooSmall, 120*mm, 120*mm-nm, pleat(func(p *pocket.Pleat, v units.Length) { p.Visible, p.Place = 20*mm, units.Size{W: 100 * mm, H: v} })),
		// Three visible parts of 30 mm, and nothing of 20 mm stands out of the first.
		onPaper("pleats' place too low for pleats deeper than the content", "place.h", check.TooSmall, 90*mm, 90*mm-nm, pleat(func(p *pocket.Pleat, v units.Length) {
			p.Content.Size.H, p.Visible, p.Place = 20*mm, 30*mm, units.Size{W: 100 * mm, H: v}
		})),
		// A content of 20 mm is as high as three visible parts, and a place as five.
		onPaper("pleats' place too low for a share", "place.h", check.TooSmall, 33333334, 33333333, pleat(func(p *pocket.Pleat, v units.Length) {
			p.Content.Size.H, p.Place = 20*mm, units.Size{W: 100 * mm, H: v}
		})),
		// Of a content of 20.000001 mm 15.000001 stand out of the first pleat, as much
		// as two visible parts.
		onPaper("pleats' place too low for a share and a fold", "place.h", check.TooSmall, 37500003, 37500002, pleat(func(p *pocket.Pleat, v units.Length) {
			p.Content.Size.H, p.Fold, p.Place = 20*mm+nm, 5*mm, units.Size{W: 100 * mm, H: v}
		})),
		// Two visible parts of 14.9 mm, five of them 37.25: on the ruler 38.
		inMillimetres("pleats' place too low for shares on the ruler", "place.h", check.TooSmall, 38*mm, 38*mm-nm, 38*mm, pleat(func(p *pocket.Pleat, v units.Length) {
			p.Content.Size.H, p.Fold, p.Place = 20*mm, 5100*um, units.Size{W: 100 * mm, H: v}
		})),
		// Five pleats: seven thirds of 48.857143 mm are 114 mm and a third of a nanometre.
		inMillimetres("five pleats' place too low for a share", "place.h", check.TooSmall, 115*mm, 115*mm-nm, 115*mm, pleat(func(p *pocket.Pleat, v units.Length) {
			p.Content.Size.H, p.Pleats, p.Place = 48_857_143, 5, units.Size{W: 100 * mm, H: v}
		})),
		// Two pleats of which 20 mm are folded under, twice.
		onPaper("pleats of 10 m of sheet", "pleats", check.OutOfRange, 4960*mm, 4960*mm+nm, pleat(func(p *pocket.Pleat, v units.Length) { p.Pleats, p.Visible, p.Fold = 2, v, 20*mm })),
		onPaper("folded strip longer than 10 m", "", pocket.TooLong, 800*mm, 800*mm+nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Content: sized(50*mm, 80*mm), Flap: 3000 * mm, Base: 3200 * mm, Front: 3000 * mm, Hem: v}
		}),
		// What stands out of the first, 20 mm less than the content, and 60 mm that show.
		onPaper("pleats longer than 10 m when closed", "", pocket.TooLong, 9960*mm, 9960*mm+nm, pleat(func(p *pocket.Pleat, v units.Length) { p.Content.Size.H, p.Visible = v, 20*mm })),
		edgetest.Edge{Name: "pleats longer than 10 m when closed, in inches", Path: "", Code: pocket.TooLong, Fine: 50 * mm, Wrong: units.Longest, Try: edgetest.Built(func(v units.Length) (pocket.Design, error) {
			return pocket.Pleat{Content: sized(50*mm, v), Ease: loose, Visible: in}.Design(pocket.Paper{}, units.Sixteenths)
		})},
		onPaper("pleats deeper than what shows", "fold", check.TooLarge, 20*mm, 20*mm+nm, pleat(func(p *pocket.Pleat, v units.Length) { p.Visible, p.Fold = 20*mm, v })),
		onPaper("gussets that are nowhere", "at", check.Unknown, 1, 2, gusset(func(g *pocket.Gusset, v units.Length) { g.At = pocket.GussetAt(v) })),
		onPaper("opening less than the contents", "opening", check.TooSmall, 10*mm, 10*mm-nm, gusset(func(g *pocket.Gusset, v units.Length) {
			g.Content.Thickness, g.Count, g.Opening = 2*mm, 5, v
		})),
		// Both half panels stand out, 30.000001 mm together.
		onPaper("half panels that do not open so far", "half", check.TooSmall, 15*mm+nm, 15*mm, gusset(func(g *pocket.Gusset, v units.Length) { g.Opening, g.Half = 30*mm+nm, v })),
		onPaper("tab wider than a half panel", "tab", check.TooLarge, 15*mm, 15*mm+nm, gusset(func(g *pocket.Gusset, v units.Length) { g.Half, g.Tab = 15*mm, v })),
		onPaper("gussets' place too narrow", "place.w", check.TooSmall, 72*mm, 72*mm-nm, gusset(func(g *pocket.Gusset, v units.Length) {
			g.Half, g.Place = 10*mm, units.Size{W: v, H: 100 * mm}
		})),
		// The foot opens as far as the sides, 3 mm, so half of that stands up from it.
		onPaper("gussets' place too low", "place.h", check.TooSmall, 81500*um, 81500*um-nm, gusset(func(g *pocket.Gusset, v units.Length) { g.Place = units.Size{W: 100 * mm, H: v} })),
	}
}

func runEdges() []edgetest.Edge {
	folded := changed(pocket.FoldedAccordion{Content: sized(50*mm, 80*mm), Ease: loose, Panels: 4})
	guard := changed(pocket.Concertina{Content: sized(50*mm, 80*mm), Margin: 5 * mm, Fold: 4 * mm, Leaves: 3})
	joined := func(change func(*pocket.FoldedAccordion, units.Length)) func(units.Length) (pocket.Kind, pocket.Paper, units.Length) {
		return func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return folded(change)(v), pocket.Paper{Caliper: mm / 4, TwoSided: true, Sheet: units.Size{W: 300 * mm, H: 300 * mm}}, nm
		}
	}
	return []edgetest.Edge{
		onPaper("a panel and a strip", "panel", check.Conflict, 0, 100*mm, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Strip, a.Panel = units.Size{W: 400 * mm, H: 200 * mm}, units.Size{W: v, H: v}
		})),
		// On a ruler of millimetres two thirds of 118.5 mm are 79, and of a nanometre more
		// 80; of those on the ruler 119 is the next.
		inMillimetres("strip too low on the ruler", "strip.h", check.TooSmall, 118500*um+nm, 118500*um, 119*mm, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Depth, a.Strip = half, units.Size{W: 400 * mm, H: v}
		})),
		// The panel is two thirds of the strip, up to the nanometre: of 119.999999 mm
		// 79.9999993.
		onPaper("strip too low for panel and foot", "strip.h", check.TooSmall, 119999999, 119999998, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Depth, a.Strip = half, units.Size{W: 400 * mm, H: v}
		})),
		// Panel and foot, which is 20 mm less: 80 and 60.
		onPaper("strip too low for what stands out", "strip.h", check.TooSmall, 139999999, 139999998, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.StandOut, a.Strip = 20*mm, units.Size{W: 400 * mm, H: v}
		})),
		// Half of it is the panel, for 80 mm and an ease of 2.
		onPaper("strip too low for all of it", "strip.h", check.TooSmall, 163999999, 163999998, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Depth, a.Strip = all, units.Size{W: 400 * mm, H: v}
		})),
		onPaper("panel too low for all of it", "panel.h", check.TooSmall, 82*mm, 82*mm-nm, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Depth, a.Panel = all, units.Size{W: 70 * mm, H: v}
		})),
		// A round notch has 25 corners, and a blank no more than a polygon, 10,000.
		onPaper("notches with too many corners for a blank", "", check.TooMany, 399, 400, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Panel: units.Size{W: 20 * mm, H: 80 * mm}, Panels: int(v), Glue: mm, Notch: pocket.ThumbNotch{Width: 10 * mm, Depth: 5 * mm}}
		}),
		onPaper("panel too low for anything at all", "panel.h", check.TooSmall, 2*mm+units.Shortest, 2*mm+units.Shortest-nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Ease: loose, Depth: all, Panels: 3, Panel: units.Size{W: 60 * mm, H: v}}
		}),
		// On a ruler of millimetres half of 220.000001 mm is 111, of which 89 are the foot.
		warned(inMillimetres("standing out of a strip off the ruler", "standout", pocket.MovedToRuler, 20*mm, 20*mm+nm, 0, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Strip: units.Size{W: 400 * mm, H: 200 * mm}, StandOut: v}
		}), 20*mm+nm, 22*mm),
		onPaper("panel too low", "panel.h", check.TooSmall, 80*mm, 80*mm-nm, folded(func(a *pocket.FoldedAccordion, v units.Length) { a.Panel = units.Size{W: 70 * mm, H: v} })),
		// The end panels are glued at one side: 50 + 2 + 6, four of them and a tab of 10.
		onPaper("strip too short for its panels", "strip.w", check.TooSmall, 242*mm, 242*mm-nm, folded(func(a *pocket.FoldedAccordion, v units.Length) { a.Strip = units.Size{W: v, H: 200 * mm} })),
		onPaper("panel too narrow", "panel.w", check.TooSmall, 58*mm, 58*mm-nm, folded(func(a *pocket.FoldedAccordion, v units.Length) { a.Panel = units.Size{W: v, H: 100 * mm} })),
		// Four panels of 6 mm of glue, 2 of ease and 0.01, and a tab of 8.
		onPaper("strip too short for panels with nothing in them", "strip.w", check.TooSmall, 40_040_000, 40_040_000-nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Ease: loose, Panels: 4, Tab: 8 * mm, Strip: units.Size{W: v, H: 200 * mm}}
		}),
		onPaper("tab wider than a panel", "tab", check.TooLarge, 70*mm, 70*mm+nm, folded(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Panel, a.Tab = units.Size{W: 70 * mm, H: 100 * mm}, v
		})),
		withPaper("joint wider than a panel", "jointtab", check.TooLarge, 70*mm, 70*mm+nm, joined(func(a *pocket.FoldedAccordion, v units.Length) {
			a.Panels, a.Panel, a.JointTab = 6, units.Size{W: 70 * mm, H: 100 * mm}, v
		})),
		warned(onPaper("folds round what the pockets hold", "", pocket.NeedsTwoScores, 0, nm, folded(func(a *pocket.FoldedAccordion, v units.Length) { a.Content.Thickness = v })),
			0, mm/2+2*nm),
		onPaper("leaves of nothing", "leaf", check.Missing, 60*mm, 0, func(v units.Length) pocket.Kind {
			return pocket.Concertina{Leaf: units.Size{W: v, H: 90 * mm}}
		}),
		onPaper("leaves too narrow", "leaf.w", check.TooSmall, 64*mm, 64*mm-nm, guard(func(c *pocket.Concertina, v units.Length) { c.Leaf.W = v })),
		onPaper("leaves too low", "leaf.h", check.TooSmall, 90*mm, 90*mm-nm, guard(func(c *pocket.Concertina, v units.Length) { c.Leaf.H = v })),
		onPaper("leaves for nothing, across", "leaf.w", check.TooSmall, 14*mm+units.Shortest, 14*mm+units.Shortest-nm, guard(func(c *pocket.Concertina, v units.Length) {
			c.Content, c.Leaf = pocket.Content{}, units.Size{W: v, H: 90 * mm}
		})),
		onPaper("leaves for nothing, upwards", "leaf.h", check.TooSmall, 10*mm+units.Shortest, 10*mm+units.Shortest-nm, guard(func(c *pocket.Concertina, v units.Length) {
			c.Content, c.Leaf = pocket.Content{}, units.Size{W: 60 * mm, H: v}
		})),
		// Half of 30 mm, though the tabs are 20 deep: nothing is glued at an open foot.
		onPaper("notch of a run with an open foot", "notch.depth", check.TooLarge, 15*mm, 15*mm+nm, func(v units.Length) pocket.Kind {
			return pocket.GussetRun{Content: sized(50*mm, 45*mm), Half: 20 * mm, Tab: 20 * mm, OpenFoot: true, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: v}}
		}),
		// With a foot of 20 mm below them the leaves are 50 deep.
		onPaper("notch of a run with a foot", "notch.depth", check.TooLarge, 25*mm, 25*mm+nm, func(v units.Length) pocket.Kind {
			return pocket.GussetRun{Content: sized(50*mm, 45*mm), Half: 20 * mm, Tab: 20 * mm, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: v}}
		}),
		// A joint at the first fold that a leaf lies over: a tab of 10 mm, two folds of 4, and
		// a joint tab of 4.
		withPaper("sheet too short for a guard", "paper.sheet.w", check.TooSmall, 22*mm, 22*mm-nm, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return pocket.Concertina{Content: sized(10*mm, 80*mm), Margin: mm, Fold: 4 * mm, Leaves: 30}, pocket.Paper{Caliper: mm / 4, Sheet: units.Size{W: v, H: 82 * mm}}, nm
		}),
		withPaper("sheet too low for a guard that lies across it", "paper.sheet.h", check.TooSmall, 22*mm, 22*mm-nm, func(v units.Length) (pocket.Kind, pocket.Paper, units.Length) {
			return pocket.Concertina{Content: sized(10*mm, 80*mm), Margin: mm, Fold: 4 * mm, Leaves: 30}, pocket.Paper{Caliper: mm / 4, Sheet: units.Size{W: 82 * mm, H: v}}, nm
		}),
		// 3/16 in.
		warned(onPaper("folds deeper than print has them", "fold", pocket.Unusual, 4762500, 4762501, guard(func(c *pocket.Concertina, v units.Length) { c.Fold = v })), 4762501, 4762500),
		// Three folds and three leaves' edges of 0.25 mm.
		onPaper("guard too wide for its spine", "spine", check.TooSmall, 2250*um, 2250*um-nm, guard(func(c *pocket.Concertina, v units.Length) { c.OnSpine, c.Spine = true, v })),
	}
}

func stripEdges() []edgetest.Edge {
	strip := changed(pocket.FoldedStrip{Content: sized(50*mm, 80*mm), Ease: loose})
	scored := changed(pocket.FoldedStrip{Strip: units.Size{W: 250 * mm, H: 100 * mm}, Scores: [4]units.Length{97 * mm, 197 * mm, 230 * mm}})
	// The base takes 50 + 2 mm, the front two thirds of that, 34.666666 mm.
	return []edgetest.Edge{
		onPaper("base too narrow", "base", check.TooSmall, 52*mm, 52*mm-nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Base = v })),
		onPaper("front wider than the base", "front", pocket.DoesNotFold, 52*mm, 52*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Front = v })),
		onPaper("hem wider than the front", "hem", pocket.DoesNotFold, 30*mm, 30*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Front, s.Hem = 30*mm, v })),
		onPaper("flap wider than the base", "flap", pocket.DoesNotFold, 52*mm, 52*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Flap = v })),
		// 54 mm are 2.12598... in.
		edgetest.Edge{Name: "front wider than the base, in inches", Path: "front", Code: pocket.DoesNotFold, Fine: 54 * mm, Wrong: 54*mm + nm, Try: edgetest.Built(func(v units.Length) (pocket.Design, error) {
			return pocket.FoldedStrip{Content: sized(52*mm, 80*mm), Ease: loose, Front: v}.Design(pocket.Paper{}, units.InchDecimal.Exact())
		})},
		onPaper("front and depth", "front", check.Conflict, 0, 30*mm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Depth, s.Front = half, v })),
		// Content, ease and glue at both edges: 80 + 2 + 12.
		onPaper("folded strip too low", "strip.h", check.TooSmall, 94*mm, 94*mm-nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Strip = units.Size{W: 400 * mm, H: v} })),
		// 49 + 52 + 30 + 20.
		onPaper("folded strip too short", "strip.w", check.TooSmall, 151*mm, 151*mm-nm, strip(func(s *pocket.FoldedStrip, v units.Length) {
			s.Front, s.Hem, s.Strip = 30*mm, 20*mm, units.Size{W: v, H: 100 * mm}
		})),
		// In millimetres of a content of 50.3: a flap of 50 and a base of 53.
		inMillimetres("folded strip too short by a part of a millimetre", "strip.w", check.TooSmall, 152500*um, 152500*um-nm, 153*mm, strip(func(s *pocket.FoldedStrip, v units.Length) {
			s.Content.Size.W, s.Front, s.Hem, s.Strip = 50300*um, 30*mm, 19500*um, units.Size{W: v, H: 100 * mm}
		})),
		// Without a hem an eighth of the strip is one, and three eighths of the rest and 3 mm the
		// base, of which 60 mm are ease.
		onPaper("folded strip too short for its ease", "strip.w", check.TooSmall, 179_459_046, 179_459_046-nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Ease: pocket.Ease{W: 2 * mm, H: 60 * mm}, Strip: units.Size{W: v, H: 100 * mm}}
		}),
		// A strip at hand with its flap, base and hem, and two thirds of the base for the front:
		// 49 + 54 + 36 + 20.
		onPaper("folded strip at hand too short", "strip.w", check.TooSmall, 159*mm, 159*mm-nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Ease: loose, Flap: 49 * mm, Base: 54 * mm, Hem: 20 * mm, Strip: units.Size{W: v, H: 100 * mm}}
		}),
		// Flap, base and front, and a hem of 0.01 mm.
		onPaper("folded strip too short for a hem", "strip.w", check.TooSmall, 139*mm+units.Shortest, 139*mm+units.Shortest-nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Ease: loose, Flap: 49 * mm, Base: 54 * mm, Front: 36 * mm, Strip: units.Size{W: v, H: 100 * mm}}
		}),
		// Between the first two scores there are 5 mm.
		onPaper("another spine than is scored", "spine", check.Conflict, 5*mm, 5*mm+nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Spine: v, Strip: units.Size{W: 250 * mm, H: 100 * mm}, Scores: [4]units.Length{90 * mm, 95 * mm, 195 * mm, 230 * mm}}
		}),
		onPaper("notch wider than the folded strip's mouth", "notch.width", check.TooLarge, 82*mm, 82*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Notch = pocket.ThumbNotch{Width: v, Depth: 5 * mm} })),
		onPaper("notch deeper than half the folded strip's pocket", "notch.depth", check.TooLarge, 17333333, 17333334, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Notch = pocket.ThumbNotch{Width: 50 * mm, Depth: v} })),
		onPaper("notch deeper than half an odd pocket", "notch.depth", check.TooLarge, 15*mm, 15*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) {
			s.Front, s.Notch = 30*mm+nm, pocket.ThumbNotch{Width: 50 * mm, Depth: v}
		})),
		onPaper("notch deeper than the hem", "notch.depth", check.TooLarge, 9*mm, 9*mm+nm, strip(func(s *pocket.FoldedStrip, v units.Length) {
			s.Hem, s.Notch = 9*mm, pocket.ThumbNotch{Width: 50 * mm, Depth: v}
		})),
		onPaper("standing out of no content", "standout", check.Conflict, 0, mm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Strip: units.Size{W: 250 * mm, H: 100 * mm}, StandOut: v}
		}),
		onPaper("scores without a strip", "strip", check.Missing, mm, 0, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Strip = units.Size{W: 250 * v, H: 100 * v} })),
		onPaper("scores and a panel", "scores", check.Conflict, 0, 100*mm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Base = v })),
		onPaper("three scores and a spine", "scores", check.Missing, 0, mm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Spine = v })),
		beside(onPaper("no score before another", "scores[1]", check.Missing, nm, 0, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[1] = v }))),
		beside(onPaper("a score before the strip", "scores[1]", check.OutOfRange, nm, -nm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[1] = v }))),
		beside(onPaper("a score at the one before it", "scores[1]", check.Conflict, 97*mm+units.Shortest, 97*mm+units.Shortest-nm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[1] = v }))),
		// A flap of v beside a base of 197 mm less v.
		onPaper("a score that makes the flap too wide", "scores[0]", pocket.DoesNotFold, 98500*um, 98500*um+nm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[0] = v })),
		// The same beside a hem as wide as its front, which is no fault.
		onPaper("a score that makes the flap too wide beside a hem as wide as its front", "scores[0]", pocket.DoesNotFold, 98500*um, 98500*um+nm, scored(func(s *pocket.FoldedStrip, v units.Length) {
			s.Scores[0], s.Scores[2] = v, 223500*um
		})),
		// A pocket front of v less 120 mm beside a base of 60: either score would do.
		would(onPaper("a score that makes the front wider by a nanometre", "scores[0]", pocket.DoesNotFold, 180*mm, 180*mm+nm, func(v units.Length) pocket.Kind {
			return pocket.FoldedStrip{Strip: units.Size{W: 230 * mm, H: 100 * mm}, Scores: [4]units.Length{60 * mm, 120 * mm, v}}
		}), 60*mm-nm),
		onPaper("a score at the end of the strip", "scores[2]", check.Conflict, 250*mm-units.Shortest, 250*mm-units.Shortest+nm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[2] = v })),
		onPaper("a score beyond the strip", "scores[2]", check.OutOfRange, 250*mm-units.Shortest, 250*mm, scored(func(s *pocket.FoldedStrip, v units.Length) { s.Scores[2] = v })),
		// The flap turns round front and hem, 0.25 mm each, and 3 mm between them.
		warned(onPaper("spine narrower than the stack", "spine", pocket.NeedsTwoScores, 3500*um, 3500*um-nm, strip(func(s *pocket.FoldedStrip, v units.Length) { s.Content.Thickness, s.Spine = 3*mm, v })),
			3500*um-nm, 3500*um),
	}
}

func codeEdges() []edgetest.Edge {
	return slices.Concat(sharedEdges(), cornerAndFlapEdges(), pleatAndGussetEdges(), runEdges(), stripEdges())
}

func TestEdgesOfCodes(t *testing.T) {
	edgetest.Run(t, codeEdges())
}

func TestEveryCodeHasAnEdge(t *testing.T) { edgetest.EveryCode(t, codeEdges(), 17) }
