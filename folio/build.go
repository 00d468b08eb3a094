package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Build works out the plan of a folio. The error is an *[check.Error] that
// lists every violation of the Spec at once, with field paths, codes and what
// would do; the plan is then nil. Build never panics, whatever the Spec holds.
func Build(s Spec) (*Plan, error) { return build(&s, nil) }

func build(s *Spec, last *Plan) (*Plan, error) {
	p := roomFor(s)
	p.spec, p.spineGiven = *s, !s.SpineCovering.Empty()
	b := newBuilder(len(s.Fittings))
	b.spec, b.plan, b.before = &p.spec, p, last
	b.prepare()

	// Materials and rules first: what is malformed there makes every size
	// that rests on it meaningless.
	sound := b.checkMaterials()
	if !b.soundAt("rulers", b.spec.Rulers.Check()) {
		sound, b.spec.Rulers.Fitting = false, b.notation().Fine() // by which fittings are checked all the same
	}
	sound = b.soundAt("hinge", b.spec.Hinge.Check(b.notation())) && sound
	sound = b.soundAt("margin", b.spec.Margin.Check(b.notation())) && sound
	sound = b.soundAt("mitre", b.spec.Mitre.Check(b.notation())) && sound
	sound = b.soundAt("quarter", b.spec.Quarter.Check(b.notation())) && sound
	sound = b.soundAt("lining", b.spec.Lining.Check(b.notation())) && sound
	sound = b.checkRow() && sound
	sound = b.checkClosing() && sound
	sound = b.soundAt("magnets", b.spec.Magnets.Check(b.notation())) && sound
	if !b.spec.Turning.Known() {
		b.bad.Malformed("turning", check.Unknown, count(int(b.spec.Turning)), word.OneOf[rule.Turning]())
	}
	if b.spec.Groove > pocket.GrooveInside {
		b.bad.Malformed("groove", check.Unknown, count(int(b.spec.Groove)), "outside or inside")
		sound = false
	}
	before := b.bad.Len()
	b.spec.checkCover(&p.shape, &b.bad)
	if !sound || b.bad.Len() > before {
		// The fittings are still checked as far as they stand by themselves.
		for i := range b.spec.Fittings[:min(len(b.spec.Fittings), MaxFittings)] {
			b.fitOne(i)
		}
		return nil, b.wrong()
	}

	if b.row() {
		b.open()
		b.stiffen()
		b.cover()
		if b.made() {
			p.ofCase = made{int32(len(p.pieces)), int32(len(p.workings)), int32(len(p.warnings))}
			b.fill()
		}
		if b.bad.Len() == 0 {
			b.closes()
			b.magnets()
		}
	}
	if err := b.wrong(); err != nil {
		return nil, err
	}
	return p, nil
}

// fill works out what lies inside the case, as planned or as measured.
func (b *builder) fill() {
	before := b.bad.Len()
	b.line()
	if len(b.plan.wrap.parts) > 0 {
		b.turnIns(b.bad.Len() == before)
	}
	b.fittings()
}

// few3 is a plan with room for the parts of a case with up to three boards, kept
// together to take one allocation.
type few3 struct {
	Plan
	boards [3]Board
	gaps   [2]Gap
	liner  [1]lined
	parts  [1]wrapPart
}

// roomFor returns an empty plan, with room for its case if that has few boards.
func roomFor(s *Spec) *Plan {
	if max(len(s.Row.Boards), len(ofForm[min(s.Form, boards.OwnRow)].Boards)) > 3 {
		return new(Plan)
	}
	few := new(few3)
	p := &few.Plan
	p.boards, p.gaps, p.liner, p.wrap.parts = few.boards[:0], few.gaps[:0], few.liner[:0], few.parts[:0]
	return p
}

// prepare fills the Spec of the plan in and makes room for what is worked out.
func (b *builder) prepare() {
	p, s := b.plan, b.spec
	s.own()
	b.margin = s.Margin
	p.shape = s.fill()
	if !p.spineGiven {
		s.SpineCovering = s.Covering
	}
	b.bad.In(s.Rulers.Main.Notation())
	for i, l := range s.nones() {
		if *l == units.None {
			*l = 0
			p.nones |= 1 << i
		}
	}
	// What a case takes by its form and style, and what fittings usually take.
	fittings, boards := min(len(s.Fittings), MaxFittings), max(len(p.shape.Boards), 2)
	workings, pieces, terms := 18+boards, boards+1, 38+3*boards
	if s.Quarter.Rule == rule.QuarterAlways {
		workings, pieces, terms = workings+2+boards, pieces+boards-1, terms+3+3*boards
	}
	if s.Lining.Rule == rule.LiningPanels {
		workings, pieces, terms = workings+boards, pieces+boards-1, terms+2*boards
	}
	if boards > cap(p.boards) {
		p.boards, p.gaps = make([]Board, 0, boards), make([]Gap, 0, max(boards-1, 0))
	}
	workings, pieces, terms = workings+4*fittings-fittings/4, pieces+fittings+fittings/4, terms+termsOfOne*fittings
	if room := (*ofFew)(nil); isFew(fittings) && workings <= len(room.workings) && pieces <= len(room.pieces) && terms <= len(room.terms) {
		room = new(ofFew)
		p.workings, p.pieces, p.fitted = room.workings[:0], room.pieces[:0], room.fitted[:0]
		b.ledger.Within(room.terms[:0])
		b.records = room.records.store()
		return
	}
	p.workings, p.pieces = make([]units.Working, 0, workings), make([]Piece, 0, pieces)
	b.ledger.Reserve(terms)
}

// ofFew has room for what becomes of a case with up to three boards, covered and lined
// in one piece, with three or four fittings, kept together to take one allocation.
type ofFew struct {
	workings [36]units.Working
	terms    [66]units.Term
	pieces   [9]Piece
	fitted   [4]Fitted
	records  few4
}

// termsOfOne is how many terms the workings of a fitting usually have.
const termsOfOne = 4

func (b *builder) checkMaterials() bool {
	s, ok := b.spec, true
	all := [...]struct {
		path  string
		stock *stock.Stock
	}{{"board", &s.Board}, {"covering", &s.Covering}, {"liner", &s.Liner}, {"spinecovering", &s.SpineCovering}}
	inCase := all[:]
	if !b.plan.spineGiven {
		inCase = all[:3]
	}
	for i, c := range inCase {
		ok = b.soundAt(c.path, c.stock.Check(b.notation())) && ok
		for _, d := range inCase[:i] {
			if d.stock.Name == c.stock.Name && !d.stock.Same(c.stock) {
				b.bad.Malformed(c.path+".name", check.Conflict, "the name "+check.Quote(c.stock.Name)+" of another material, "+d.path, "a name of its own")
				ok = false
			}
		}
	}
	if len(s.Stocks) > MaxStocks {
		b.bad.Malformed("stocks", check.TooMany, count(len(s.Stocks)), "at most "+count(MaxStocks))
		return false
	}
	for i := range s.Stocks {
		path := func(field string) string { return check.Index("stocks", i) + field }
		if err := s.Stocks[i].Check(b.notation()); err != nil { // else the path is not put together
			ok = b.soundAt(path(""), err)
		}
		if s.Stocks[i].Name == "" {
			b.bad.Malformed(path(".name"), check.Missing, "no name", "a name for fittings to use")
			ok = false
		}
		for _, c := range inCase {
			if c.stock.Name == s.Stocks[i].Name && !c.stock.Same(&s.Stocks[i]) {
				b.bad.Malformed(path(".name"), check.Conflict, "the name "+check.Quote(c.stock.Name)+" of another material, "+c.path, "a name of its own")
				ok = false
			}
		}
		if name := s.Stocks[i].Name; name != "" && s.stock(name) != &s.Stocks[i] {
			b.bad.Malformed(path(".name"), check.Conflict, "the name "+check.Quote(name)+" again", "a name of its own")
			ok = false
		}
	}
	return ok
}
