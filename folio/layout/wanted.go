package layout

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A Wanted is a piece that has to be cut, all copies of its folio counted.
type Wanted struct {
	name, part, material, path string
	folio                      int // in Job.Folios, −1 for a piece by hand
	size                       units.Size
	quantity                   int
	grain                      stock.GrainRule
	turn                       TurnRule
	at                         int  // in Job.Materials
	piece                      int  // in folio.Plan.Pieces or Job.Pieces
	namesake                   bool // another size of its material has the same name
}

// Name says what the piece is.
func (w Wanted) Name() string { return w.name }

// Part says what it belongs to, as folio.Piece.Part does; it is empty for a
// piece by hand.
func (w Wanted) Part() string { return w.part }

// Material is the name of what it is cut from.
func (w Wanted) Material() string { return w.material }

// Path is where it stands in the Job, as in "folios[0].pieces[3]": the index
// counts as folio.Plan.Pieces does.
func (w Wanted) Path() string { return w.path }

// Folio returns the index of its folio in Job.Folios, and false for a piece by
// hand.
func (w Wanted) Folio() (index int, ok bool) { return w.folio, w.folio >= 0 }

// Piece returns its place in [folio.Plan.Pieces] of its folio; of a piece by
// hand that in Job.Pieces.
func (w Wanted) Piece() int { return w.piece }

// Size is as the piece lies while it is built.
func (w Wanted) Size() units.Size { return w.size }

// Quantity is how many are needed for all copies.
func (w Wanted) Quantity() int { return w.quantity }

// Grain returns how the grain must run in it.
func (w Wanted) Grain() stock.GrainRule { return w.grain }

// Turn returns how it may be turned for the sake of its pattern.
func (w Wanted) Turn() TurnRule { return w.turn }

// gather checks the job and lists what is wanted.
func (j Job) gather(bad *check.List) []Wanted {
	before := bad.Len()
	bad.In(j.notation())
	sheets := 0
	for _, m := range j.Materials {
		sheets += len(m.Sheets)
	}
	for _, list := range [...]struct {
		path    string
		n, most int
	}{{"folios", len(j.Folios), MostKinds}, {"pieces", len(j.Pieces), MostKinds}, {"materials", len(j.Materials), MostKinds},
		{"except", len(j.Except), MostKinds}, {"materials.sheets", sheets, MostSheetKinds}} {
		if list.n > list.most {
			bad.Malformed(list.path, check.TooMany, count(list.n), "at most "+count(list.most))
		}
	}
	if bad.Len() > before {
		return nil
	}
	g := &gatherer{job: &j, bad: bad, byName: j.checkMaterials(bad), except: make(map[string]bool, len(j.Except)), unknown: map[string]bool{}, said: map[string]said{},
		wants: make([]Wanted, 0, len(j.Pieces))}
	checkCutter(bad, "cutter", j.Cutter)
	bad.Allowance("keep.short", j.Keep.Short)
	bad.Allowance("keep.long", j.Keep.Long)
	if !j.Ruler.Valid() {
		bad.Malformed("ruler", check.Unknown, "no such ruler", "one of the rulers of package units, or none")
	}
	for _, name := range j.Except {
		g.except[name] = true
	}
	for i, f := range j.Folios {
		g.folio(i, f)
	}
	for i, p := range j.Pieces {
		g.piece(i, p)
	}
	if g.total > MostPieces {
		bad.Malformed("", check.TooMany, "more than "+count(MostPieces)+" pieces", "at most "+count(MostPieces))
	}
	if len(g.wants) > MostKinds {
		bad.Malformed("", check.TooMany, "more than "+count(MostKinds)+" different pieces", "at most "+count(MostKinds))
	}
	g.tellApart()
	return g.wants
}

// gatherer lists what is wanted.
type gatherer struct {
	job     *Job
	bad     *check.List
	byName  map[string]int
	except  map[string]bool
	unknown map[string]bool // materials that were complained about
	said    map[string]said // what folios say of materials
	wants   []Wanted
	total   int64
}

// tellApart finds the pieces whose name says too little at the cutter: mats of
// a small folio and of a large one out of one card.
func (g *gatherer) tellApart() {
	type called struct {
		at   int
		name string
	}
	size := make(map[called]units.Size, len(g.wants))
	several := map[called]bool{}
	for _, w := range g.wants {
		as := called{w.at, w.name}
		if first, seen := size[as]; seen && first != w.size {
			several[as] = true
		}
		size[as] = w.size
	}
	for i, w := range g.wants {
		g.wants[i].namesake = several[called{w.at, w.name}]
	}
}

func (g *gatherer) folio(i int, f Folio) {
	path := check.Index("folios", i)
	if !copies(g.bad, path+".copies", f.Copies) {
		return
	}
	if f.Plan == nil {
		g.bad.Malformed(path+".plan", check.Missing, "no plan", "a plan made by folio.Build")
		return
	}
	if f.Copies <= 0 {
		return
	}
	g.agree(i, f.Plan)
	wantedOf(f.Plan, path, func(w Wanted) {
		w.folio = i
		g.add(w, int64(w.quantity)*int64(f.Copies))
	})
}

// said is what a folio says of a material that later ones must not gainsay: the first,
// or the first that says all of it.
type said struct {
	folio int
	stock stock.Stock
	known bool // as one of its Spec's stocks
}

// agree checks that a folio says of each material what those before it do: pieces
// are cut from it by its name alone.
func (g *gatherer) agree(i int, p *folio.Plan) {
	told := map[string]bool{}
	for piece := range p.Pieces() {
		name := piece.Stock()
		if told[name] || g.except[name] {
			continue
		}
		told[name] = true
		_, known := p.Stock(name)
		now := said{i, stockOf(p, piece), known}
		first, seen := g.said[name]
		if !seen {
			g.said[name] = now
			continue
		}
		if this, that := first.against(now, g.job.notation()); this != "" {
			g.bad.Malformed(check.Index("folios", i), check.Conflict, "the name "+check.Quote(name)+" of a material that is "+this+", and in "+check.Index("folios", first.folio)+" "+that,
				"a name of its own in the Spec of one of them, or the same material in both")
		} else if known && (!first.known || first.stock.Grammage == 0 && now.stock.Grammage > 0) {
			g.said[name] = now
		}
	}
}

// against returns in what a later folio's material is another, and what that is in
// the first; empty where both can be one.
func (s said) against(later said, n units.Notation) (this, that string) {
	a, b := later.stock, s.stock
	word := func(is bool, yes, no string) string {
		if is {
			return yes
		}
		return no
	}
	switch {
	case a.Caliper != b.Caliper:
		return n.Text(a.Caliper) + " thick", n.Text(b.Caliper)
	case !s.known || !later.known || a.CanBe(&b):
		return "", ""
	case a.OneWay != b.OneWay:
		return word(a.OneWay, "one-way", "not one-way"), word(b.OneWay, "one-way", "not one-way")
	case a.TwoSided != b.TwoSided:
		return word(a.TwoSided, "two-sided", "one-sided"), word(b.TwoSided, "two-sided", "one-sided")
	}
	return a.Grammage.String(), b.Grammage.String()
}

func (g *gatherer) piece(i int, p LoosePiece) {
	path := check.Index("pieces", i)
	sound := g.bad.Size(path+".size", p.Size)
	if p.Grain > stock.GrainAny {
		g.bad.Malformed(path+".grain", check.Unknown, count(int(p.Grain)), stock.GrainParallel.String()+" or "+stock.GrainAny.String())
	}
	if p.Turn >= turnEnd {
		g.bad.Malformed(path+".turn", check.Unknown, count(int(p.Turn)), turns.Want())
	}
	if copies(g.bad, path+".quantity", p.Quantity) && sound {
		g.add(Wanted{name: p.Name, material: p.Material, path: path, folio: -1, piece: i, size: p.Size, grain: p.Grain, turn: p.Turn}, int64(p.Quantity))
	}
}

// add adds n of a piece to what is wanted.
func (g *gatherer) add(w Wanted, n int64) {
	if n <= 0 || g.except[w.material] {
		return
	}
	g.total = min(g.total+n, MostPieces+1)
	at, known := g.byName[w.material]
	switch {
	case !known && !g.unknown[w.material]:
		g.unknown[w.material] = true
		path, want := w.path+".material", "the name of one of the materials, or that material among the materials, or its name in except"
		if w.folio >= 0 || len(g.job.Materials) == 0 { // no field of a Job names what a folio is made of
			path, want = "materials", "a material "+check.Quote(w.material)+" with its sheets, or its name in except"
		}
		g.bad.Malformed(path, check.Missing, "no material "+check.Quote(w.material)+" for the piece "+check.Quote(w.name), want)
	case known && len(g.job.Materials[at].Sheets) == 0 && !g.unknown[w.material]:
		g.unknown[w.material] = true
		g.bad.Malformed(check.Index("materials", at)+".sheets", check.Missing, "no sheets of "+check.Quote(w.material),
			"one sheet there is at least, or its name in except")
	}
	w.at, w.quantity = at, int(min(n, MostPieces+1))
	if len(g.wants) <= MostKinds {
		g.wants = append(g.wants, w)
	}
}

// idle warns of folios and pieces of which none are wanted, though nobody said
// so.
func (j Job) idle() []check.Warning {
	var list []check.Warning
	add := func(path, name string) {
		if name != "" {
			name = check.Quote(name)
		} else {
			name = "these"
		}
		list = append(list, check.Warning{Path: path, Code: WarnNone, Text: "none of " + name + " are made: 0 are wanted"})
	}
	for i, f := range j.Folios {
		if f.Copies == 0 {
			add(check.Index("folios", i)+".copies", f.Name)
		}
	}
	for i, p := range j.Pieces {
		if p.Quantity == 0 {
			add(check.Index("pieces", i)+".quantity", p.Name)
		}
	}
	return list
}

func copies(bad *check.List, path string, n int) bool {
	switch {
	case n < NoCopies:
		bad.Malformed(path, check.Negative, count(n), "0 or more")
	case n > MostPieces:
		bad.Malformed(path, check.TooMany, count(n), "at most "+count(MostPieces))
	default:
		return true
	}
	return false
}

func checkCutter(bad *check.List, path string, c Cutter) {
	bad.Allowance(path+".kerf", c.Kerf)
	bad.Allowance(path+".stack", c.Stack)
	if c.LongestCut != units.None {
		bad.Allowance(path+".longestcut", c.LongestCut)
	}
}

// checkMaterials checks the materials and returns their indices by name.
func (j Job) checkMaterials(bad *check.List) map[string]int {
	byName := make(map[string]int, len(j.Materials))
	currency := money.Currency{}
	for i, m := range j.Materials {
		path := check.Index("materials", i)
		if _, twice := byName[m.Name]; twice {
			bad.Malformed(path+".name", check.Conflict, "the name "+check.Quote(m.Name)+" again", "a name of its own")
		} else {
			byName[m.Name] = i
		}
		checkCutter(bad, path+".cutter", m.Cutter)
		bad.Allowance(path+".caliper", m.Caliper)
		if len(m.Sheets) > MostKinds {
			bad.Malformed(path+".sheets", check.TooMany, count(len(m.Sheets)), "at most "+count(MostKinds))
			continue
		}
		for k, s := range m.Sheets {
			checkSheet(bad, check.Index(path+".sheets", k), s, &currency)
		}
	}
	return byName
}

func checkSheet(bad *check.List, at string, s SheetKind, currency *money.Currency) {
	bad.Size(at+".size", s.Size)
	bad.Allowance(at+".trim", s.Trim)
	if s.Grain > stock.GrainAlongHeight {
		bad.Malformed(at+".grain", check.Unknown, count(int(s.Grain)), stock.GrainUnknown.String()+", "+stock.GrainAlongWidth.String()+" or "+stock.GrainAlongHeight.String())
	}
	if s.Count < Unlimited {
		bad.Malformed(at+".count", check.Negative, count(s.Count), "0 or more, or -1 for as many as needed")
	}
	money.Check(bad, at+".price", s.Price, currency)
}
