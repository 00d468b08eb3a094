package layout

import (
	"boardwrap.example/folio"
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
	grain                      folio.GrainRule
	turn                       Turn
	at                         int // in Job.Materials
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

// Size is as the piece lies while it is built.
func (w Wanted) Size() units.Size { return w.size }

// Quantity is how many are needed for all copies.
func (w Wanted) Quantity() int { return w.quantity }

// Grain returns how the grain must run in it.
func (w Wanted) Grain() folio.GrainRule { return w.grain }

// Turn returns how it may be turned for the sake of its pattern.
func (w Wanted) Turn() Turn { return w.turn }

// gather checks the job and lists what is wanted, material by material. It
// reports whether the job is well formed.
func (j Job) gather(bad *check.List) (wants []Wanted, ok bool) {
	before := bad.Len()
	for _, list := range [...]struct {
		path string
		n    int
	}{{"folios", len(j.Folios)}, {"pieces", len(j.Pieces)}, {"materials", len(j.Materials)}, {"except", len(j.Except)}} {
		if list.n > MostKinds {
			bad.Malformed(list.path, check.TooMany, count(list.n), "at most "+count(MostKinds))
		}
	}
	if bad.Len() > before {
		return nil, false
	}
	byName := j.checkMaterials(bad)
	checkCutter(bad, "cutter", j.Cutter)
	bad.Allowance("keep.short", j.Keep.Short)
	bad.Allowance("keep.long", j.Keep.Long)
	if !j.Ruler.Valid() {
		bad.Malformed("ruler", check.Unknown, "no such ruler", "one of the rulers of package units, or none")
	}
	except := make(map[string]bool, len(j.Except))
	for _, name := range j.Except {
		except[name] = true
	}
	unknown := map[string]bool{}
	total := int64(0)
	add := func(w Wanted, n int64) {
		if n == 0 || except[w.material] {
			return
		}
		total = min(total+n, MostPieces+1)
		at, known := byName[w.material]
		switch {
		case !known && !unknown[w.material]:
			unknown[w.material] = true
			bad.Malformed(w.path+".material", check.Missing, "no material "+check.Quote(w.material)+" for the piece "+check.Quote(w.name),
				"that material in Job.Materials, or its name in Job.Except")
		case known && len(j.Materials[at].Sheets) == 0 && !unknown[w.material]:
			unknown[w.material] = true
			bad.Malformed(check.Index("materials", at)+".sheets", check.Missing, "no sheets of "+check.Quote(w.material),
				"the sheets there are, or its name in Job.Except")
		}
		w.at, w.quantity = at, int(min(n, MostPieces+1))
		if len(wants) <= MostKinds {
			wants = append(wants, w)
		}
	}
	for i, f := range j.Folios {
		path := check.Index("folios", i)
		if !copies(bad, path+".copies", f.Copies) {
			continue
		}
		if f.Plan == nil {
			bad.Malformed(path+".plan", check.Missing, "no plan", "a plan made by folio.Build")
			continue
		}
		if f.Copies == 0 {
			continue
		}
		wantedOf(f.Plan, path, func(w Wanted) {
			w.folio = i
			add(w, int64(w.quantity)*int64(f.Copies))
		})
	}
	for i, p := range j.Pieces {
		path := check.Index("pieces", i)
		sound := bad.Size(path+".size", p.Size)
		if p.Grain > folio.GrainAny {
			bad.Malformed(path+".grain", check.Unknown, count(int(p.Grain)), "GrainParallel or GrainAny")
		}
		if p.Turn >= turnEnd {
			bad.Malformed(path+".turn", check.Unknown, count(int(p.Turn)), "one of the Turn constants")
		}
		if copies(bad, path+".quantity", p.Quantity) && sound {
			add(Wanted{name: p.Name, material: p.Material, path: path, folio: -1, size: p.Size, grain: p.Grain, turn: p.Turn}, int64(p.Quantity))
		}
	}
	if total > MostPieces {
		bad.Malformed("", check.TooMany, "more than "+count(MostPieces)+" pieces", "at most "+count(MostPieces))
	}
	if len(wants) > MostKinds {
		bad.Malformed("", check.TooMany, "more than "+count(MostKinds)+" different pieces", "at most "+count(MostKinds))
	}
	return wants, bad.Len() == before
}

func copies(bad *check.List, path string, n int) bool {
	switch {
	case n < 0:
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
			at := check.Index(path+".sheets", k)
			bad.Size(at+".size", s.Size)
			bad.Allowance(at+".trim", s.Trim)
			if s.Grain > folio.GrainAlongHeight {
				bad.Malformed(at+".grain", check.Unknown, count(int(s.Grain)), "one of the SheetGrain constants")
			}
			if s.Count < Unlimited {
				bad.Malformed(at+".count", check.Negative, count(s.Count), "how many there are, or Unlimited")
			}
			money.Check(bad, at+".price", s.Price, &currency)
		}
	}
	return byName
}
