package score

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Pattern is a strip with its scores worked out by one of the printers'
// rules, the working of every panel and the order in which it is folded.
type Pattern struct {
	strip    Strip
	workings []units.Working
	order    []int // scores
}

// Strip returns the scored strip.
func (p Pattern) Strip() Strip { return p.strip }

// Turns returns the folds in the order in which they are made, each with the way
// it turns, so that the panels that are narrower come to lie inside. The strip alone does not say
// that: where panels are equal, it may fold flat in other layers as well.
func (p Pattern) Turns() []Turn { return turnsOf(p.strip, p.order) }

// Fold returns the strip folded by [Pattern.Turns]. The error is that of
// [Strip.FoldBy] for a strip of too many panels.
func (p Pattern) Fold() (Folded, error) { return p.strip.FoldBy(p.Turns()...) }

// Workings walks the working of each panel.
func (p Pattern) Workings() iter.Seq2[int, units.Working] { return slices.All(p.workings) }

// TuckDefault is how much narrower a panel that folds in is made unless told
// otherwise: 1/16 in, as in the C-fold and gatefold tables of ThoughtCo.
const TuckDefault = units.Inch / 16

// A Tuck is how a panel that folds in is made to clear the fold that it lies
// in.
type Tuck struct {
	// Less is how much narrower the panel is than the one it folds on to, at
	// the least. 0 means TuckDefault or two calipers, whichever is more: the
	// fold lines at its two ends take up about a caliper each (derived; no
	// published source).
	Less units.Length
	// Caliper of the sheet; 0 if it is too thin to matter.
	Caliper units.Length
	// Ruler on which the scores are to lie. Less is rounded up on it.
	Ruler units.Ruler
}

func (t Tuck) check(list *check.List) {
	list.Allowance("tuck.less", t.Less)
	list.Allowance("tuck.caliper", t.Caliper)
	checkRuler(list, "tuck.ruler", t.Ruler)
}

func (t Tuck) less() units.Length {
	less := t.Less
	if less == 0 {
		less = max(TuckDefault, 2*t.Caliper)
	}
	return t.Ruler.Up(less)
}

// begin checks what all patterns take.
func begin(length units.Length, t Tuck) (check.List, units.Length) {
	var list check.List
	list.Length("length", length)
	t.check(&list)
	if list.Len() > 0 {
		return list, 0
	}
	return list, t.less()
}

// pieces collects the panels of a pattern with their workings.
type pieces struct {
	ledger   units.Ledger
	ruler    units.Ruler
	panels   []units.Length
	workings []units.Working
}

func (p *pieces) label() string { return "panel " + strconv.Itoa(len(p.panels)+1) }

// add adds a panel that is a share of a sum, rounded on the ruler.
func (p *pieces) add(shares int, d units.Direction, terms ...units.Term) {
	w := p.ledger.Share(p.label(), shares, p.ruler, d, terms...)
	p.panels = append(p.panels, w.Length())
	p.workings = append(p.workings, w)
}

// rest adds a panel that is exactly a sum, on the ruler or not.
func (p *pieces) rest(terms ...units.Term) {
	w := p.ledger.Sum(p.label(), p.ruler, units.Nearest, terms...)
	if !w.Rounded().Exact() {
		w = p.ledger.Sum(p.label(), p.ruler.Notation().Exact(), units.Nearest, terms...)
	}
	p.panels = append(p.panels, w.Length())
	p.workings = append(p.workings, w)
}

// end checks the panels and returns the pattern. Least is the shortest length
// that the rule divides, less is the tuck.
func (p *pieces) end(length, least, less units.Length, folds []Fold, order ...int) (Pattern, error) {
	for _, w := range p.panels {
		if w < units.Shortest {
			var list check.List
			if least > units.Longest {
				list.Impossible("tuck.less", check.TooLarge, p.ruler.Notation().Text(less), "a smaller tuck, a finer ruler or fewer panels: no length up to 10 m would do")
				return Pattern{}, list.Err()
			}
			list.Short("length", check.TooSmall, p.ruler.Notation(), length, least, "for panels that differ so")
			return Pattern{}, list.Err()
		}
	}
	s, err := NewStrip(p.panels, folds...)
	if err != nil {
		return Pattern{}, err
	}
	return Pattern{s, p.workings, order}, nil
}

// CFold divides a length into three for a letter or C-fold: two equal panels
// and a third, narrower by at least the tuck, that folds in between them. The
// equal ones are rounded up on the ruler and the third is what is left, so
// that the panels add up: 11 in on 1/32 in gives 3 11/16, 3 11/16, 3 5/8
// (ThoughtCo, "C-fold"). It is [Roll] with three panels.
func CFold(length units.Length, t Tuck) (Pattern, error) { return Roll(length, 3, t) }

// MaxRoll is how many panels a roll fold may have.
const MaxRoll = 64

// Roll divides a length into n panels, 2 to [MaxRoll], for a roll fold: the
// first two are equal and each one after them is narrower than the one before
// it by the tuck, the last by at least that. The last panel is folded first
// and the rest rolled round it, every fold a valley.
func Roll(length units.Length, n int, t Tuck) (Pattern, error) {
	list, less := begin(length, t)
	if n < 2 || n > MaxRoll {
		list.Malformed("panels", check.OutOfRange, strconv.Itoa(n), "2 to "+strconv.Itoa(MaxRoll))
	}
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	p.add(n, units.Up, terms(units.T("length", length), units.N((n-2)*(n-1)/2, "tuck", less))...)
	wide := p.panels[0]
	for i := 1; i < n-1; i++ {
		p.rest(terms(units.T("panel 1", wide), units.N(-(i-1), "tuck", less))...)
	}
	p.rest(terms(units.T("length", length), units.N(-(n-1), "panel 1", wide), units.N((n-3)*(n-2)/2, "tuck", less))...)
	// The least equal panel that can leave the last one some width, and the
	// length with which it just does.
	least := t.Ruler.Up(units.Shortest + times(n-2, less))
	least = units.Shortest + times(n-1, least) - times((n-3)*(n-2)/2, less)
	return p.end(length, least, less, Repeat(n-1, Valley), inwards(n-1)...)
}

// inwards returns n scores from the last to the first.
func inwards(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = n - 1 - i
	}
	return order
}

// terms leaves out the terms that count nothing.
func terms(all ...units.Term) []units.Term {
	return slices.DeleteFunc(all, func(t units.Term) bool { return t.Count == 0 })
}

// Gate divides a length into a middle panel and two leaves that fold in to
// meet in its middle, each narrower than half of it by at least the tuck: 17
// in on 1/32 in gives 4 7/32, 8 9/16, 4 7/32 (ThoughtCo, "Double gatefold").
func Gate(length units.Length, t Tuck) (Pattern, error) {
	list, less := begin(length, t)
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	leaf := p.leaf(length, less)
	p.rest(units.T("length", length), units.N(-2, "panel 1", leaf))
	p.rest(units.T("panel 1", leaf))
	return p.end(length, leastGate(less, t.Ruler), less, Repeat(2, Valley), 0, 1)
}

// leaf adds the leaf of a gate fold: a quarter of the length without two
// tucks, rounded down.
func (p *pieces) leaf(length, less units.Length) units.Length {
	p.add(4, units.Down, units.T("length", length), units.N(-2, "tuck", less))
	return p.panels[len(p.panels)-1]
}

// leastGate is the shortest length that leaves a leaf when it is rounded down.
func leastGate(less units.Length, r units.Ruler) units.Length {
	return 2*less + 4*r.Up(units.Shortest)
}

// DoubleGate is [Gate] folded once more in the middle: two leaves and the two
// halves of the middle panel, each wider than a leaf by at least the tuck.
// 17 in on 1/32 in gives 4 7/32, 4 9/32, 4 9/32, 4 7/32.
func DoubleGate(length units.Length, t Tuck) (Pattern, error) {
	list, less := begin(length, t)
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	leaf := p.leaf(length, less)
	p.halves(length, leaf)
	p.rest(units.T("panel 1", leaf))
	return p.end(length, leastGate(less, t.Ruler), less, Repeat(3, Valley), 0, 2, 1)
}

// halves adds two panels for what a length leaves beside two narrow ones.
func (p *pieces) halves(length, narrow units.Length) {
	p.add(2, units.Down, units.T("length", length), units.N(-2, "narrow panel", narrow))
	half := p.panels[len(p.panels)-1]
	p.rest(units.T("length", length), units.N(-2, "narrow panel", narrow), units.N(-1, "other half", half))
}

// DoubleParallel divides a length into four for folding in half and in half
// again: two panels outside, and two inside that are narrower by at least the
// tuck. With the caliper counted the two scores of the second fold do not lie
// quite over each other. They are folded together all the same; [Pattern.Turns]
// makes them one after the other, with the same layers.
func DoubleParallel(length units.Length, t Tuck) (Pattern, error) {
	list, less := begin(length, t)
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	narrow := p.ledger.Share("panel 3", 4, t.Ruler, units.Down, units.T("length", length), units.N(-2, "tuck", less))
	p.halves(length, narrow.Length())
	p.panels = append(p.panels, narrow.Length())
	p.workings = append(p.workings, narrow)
	p.rest(units.T("panel 3", narrow.Length()))
	return p.end(length, leastGate(less, t.Ruler), less, []Fold{Valley, Valley, Mountain}, 1, 2, 0)
}

// Accordion divides a length into n panels folded to and fro, all equal: no
// panel lies inside another. The scores are the graduations nearest to i/n of
// the length, as in [Divide].
func Accordion(length units.Length, n int, r units.Ruler, first Fold) (Pattern, error) {
	s, err := Divide(length, n, r, Alternate(n-1, first)...)
	if err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: r}
	for i := range s.Len() {
		var terms []units.Term
		if i+1 < n {
			terms = append(terms, units.T("score "+strconv.Itoa(i+1), s.edges[i+1]))
		} else {
			terms = append(terms, units.T("length", length))
		}
		if i > 0 {
			terms = append(terms, units.N(-1, "score "+strconv.Itoa(i), s.edges[i]))
		}
		p.rest(terms...)
	}
	order := inwards(n - 1)
	slices.Reverse(order)
	return Pattern{s, p.workings, order}, nil
}
