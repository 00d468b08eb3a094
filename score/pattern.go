package score

import (
	"iter"
	"slices"
	"sort"
	"strconv"
	"strings"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Pattern is a strip with its scores worked out by one of the printers'
// rules, the working of every panel and the order in which it is folded.
type Pattern struct {
	strip    Strip
	workings []units.Working
	order    []motionAt
}

// A motionAt is a score to be folded, and which part of the strip the maker
// turns over it.
type motionAt struct {
	score int
	part  TurnedPart
}

// Strip returns the scored strip.
func (p Pattern) Strip() Strip { return p.strip }

// Turns returns the folds in the order in which they are made, as hands make
// them: the sheet lies face up, and of a roll the end, of a gate both leaves are
// turned in, each over what lies on the table, so that the panels that are
// narrower come to lie inside. The strip alone does not say that: where panels
// are equal, it may fold flat in other layers as well.
func (p Pattern) Turns() []Turn { return turnsOf(p.strip, p.order) }

// Reversed returns the pattern with its panels from right to left, as if the
// sheet had been given half a turn on the table: a letter whose narrow panel is
// the first. The same folds are made in the same order.
func (p Pattern) Reversed() Pattern {
	n := p.strip.Len()
	out := Pattern{strip: p.strip.Reversed(), workings: make([]units.Working, n), order: make([]motionAt, len(p.order))}
	var g units.Ledger
	for i, w := range p.workings {
		var terms []units.Term
		for t := range w.Terms() {
			t.Label = renumbered(t.Label, n)
			terms = append(terms, t)
		}
		r := w.Rounded()
		out.workings[n-1-i] = g.Share(renumbered(w.Label(), n), w.Shares(), r.Ruler, r.Direction, terms...)
	}
	for i, m := range p.order {
		out.order[i] = motionAt{n - 2 - m.score, m.part.Other()}
	}
	return out
}

// renumbered returns the name that a panel or a score has when its strip of n
// panels is counted from the other end; other names stay what they are.
func renumbered(label string, n int) string {
	for _, named := range [...]struct {
		what string
		n    int
	}{{"panel ", n + 1}, {"score ", n}} {
		if digits, is := strings.CutPrefix(label, named.what); is {
			if k, err := strconv.Atoi(digits); err == nil {
				return named.what + strconv.Itoa(named.n-k)
			}
		}
	}
	return label
}

// Equal reports whether two patterns have the same strip, workings and turns.
func (p Pattern) Equal(q Pattern) bool {
	return p.strip.Equal(q.strip) && slices.EqualFunc(p.workings, q.workings, units.Working.Equal) && slices.Equal(p.order, q.order)
}

// Fold returns the strip folded by [Pattern.Turns]. The error is that of
// [Strip.FoldBy] for a strip of too many panels.
func (p Pattern) Fold() (Folding, error) { return p.strip.FoldBy(nil, p.Turns()...) }

// Workings walks the working of each panel.
func (p Pattern) Workings() iter.Seq2[int, units.Working] { return slices.All(p.workings) }

// TuckDefault is how much narrower a panel that folds in is made unless told
// otherwise: 1/16 in, as in the C-fold and gatefold tables of ThoughtCo.
const TuckDefault = units.Inch / 16

// A TuckIn is how a panel that folds in is made to clear the fold that it lies
// in.
type TuckIn struct {
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

func (t TuckIn) check(list *check.List) {
	list.Allowance("tuck.less", t.Less)
	list.Allowance("tuck.caliper", t.Caliper)
	checkRuler(list, "tuck.ruler", t.Ruler)
}

func (t TuckIn) less() units.Length {
	less := t.Less
	if less == 0 {
		less = max(TuckDefault, 2*t.Caliper)
	}
	return t.Ruler.Up(less)
}

// begin checks what all patterns take.
func begin(length units.Length, t TuckIn) (check.List, units.Length) {
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

// A limit is what a rule asks for.
type limit struct {
	least  units.Length // the shortest length that it divides
	most   units.Length // a shorter length that it divides, where no longer one is; 0 if there is none
	tooFar func() tucking
}

// A tucking is where tucks are given that leave nothing of any length, and the
// most that would do there.
type tucking struct {
	path  string
	given units.Length
	most  units.Length // of one tuck; 0 if even a step of the ruler is too much
	first int          // how many of a list would do, −1 if even none; 0 with a most
	ruler string       // the path of the ruler
}

// end checks the panels and returns the pattern.
func (p *pieces) end(length units.Length, l limit, folds []Fold, order ...motionAt) (Pattern, error) {
	for _, w := range p.panels {
		if w < units.Shortest {
			var list check.List
			switch {
			case l.least <= units.Longest:
				list.Short("length", check.TooSmall, p.ruler.Notation(), length, l.least, "for panels that differ so")
			case l.most > 0:
				list.Long("length", check.TooLarge, p.ruler.Notation(), length, l.most, ", or what is spread takes the last panel away")
			default:
				l.tooFar().add(&list, p.ruler)
			}
			return Pattern{}, list.Err()
		}
	}
	s, err := NewStrip(p.panels, folds...)
	if err != nil {
		return Pattern{}, err
	}
	return Pattern{s, p.workings, order}, nil
}

// add says what would do.
func (t tucking) add(list *check.List, r units.Ruler) {
	got := r.Notation().Text(t.given)
	list.In(r.Notation())
	none := "no length up to " + list.Longest() + " would do"
	switch {
	case t.most > 0:
		list.Long(t.path, check.TooLarge, r.Notation(), t.given, t.most, "or "+none)
	case t.first >= 0 && t.path == "tucks":
		list.Impossible(t.path, check.TooLarge, got, atMostTheFirst(t.first)+", or smaller ones: "+none)
	default:
		list.Impossible(t.ruler, check.TooLarge, "a step of "+r.Notation().Text(r.Step()), "a finer ruler: "+none)
	}
}

// CFold divides a length into three for a letter or C-fold: two equal panels
// and a third, narrower by at least the tuck, that folds in between them. The
// equal ones are rounded up on the ruler and the third is what is left, so
// that the panels add up: 11 in on 1/32 in gives 3 11/16, 3 11/16, 3 5/8
// (ThoughtCo, "C-fold"). It is [Roll] with three panels. [Pattern.Reversed] has
// the narrow panel first.
func CFold(length units.Length, t TuckIn) (Pattern, error) { return Roll(length, 3, t) }

// MaxRoll is how many panels a roll fold may have.
const MaxRoll = 64

// Roll divides a length into n panels, 2 to [MaxRoll], for a roll fold: the
// first two are equal and each one after them is narrower than the one before
// it by the tuck. What the length has beyond a sum of such panels on the ruler
// is spread over the outer ones, a step each, so that each panel is within a
// step of its exact share and the last, which also takes what is off the ruler,
// within two. The last panel is folded first and the rest rolled round it, every
// fold a valley.
func Roll(length units.Length, n int, t TuckIn) (Pattern, error) {
	list, less := begin(length, t)
	if n < 2 || n > MaxRoll {
		list.Malformed("panels", check.OutOfRange, strconv.Itoa(n), "2 to "+strconv.Itoa(MaxRoll))
	}
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	alike := func(less units.Length) []units.Length { return slices.Repeat([]units.Length{less}, n-2) }
	return roll(length, alike(less), t.Ruler, func() tucking {
		// The greatest number of steps with which the longest strip would do.
		steps := sort.Search(int(less/t.Ruler.Step()), func(i int) bool {
			return leastOf(alike(times(i+1, t.Ruler.Step())), t.Ruler) > units.Longest
		})
		return tucking{"tuck.less", less, times(steps, t.Ruler.Step()), 0, "tuck.ruler"}
	})
}

// RollBy is [Roll] with a tuck of its own for each panel after the second: how
// much narrower it is than the one before it, rounded up on the ruler, so that
// there are two panels more than tucks. 17 in with tucks of 3/32 and 1/16 in
// gives 4 5/16, 4 5/16, 4 7/32 and 4 5/32 in.
func RollBy(length units.Length, r units.Ruler, tucks ...units.Length) (Pattern, error) {
	var list check.List
	list.Length("length", length)
	checkRuler(&list, "ruler", r)
	if len(tucks) > MaxRoll-2 {
		list.Malformed("tucks", check.TooMany, strconv.Itoa(len(tucks)), "at most "+strconv.Itoa(MaxRoll-2))
	}
	up := make([]units.Length, 0, MaxRoll-2)
	for i, t := range tucks[:min(len(tucks), MaxRoll)] {
		list.Allowance(check.Index("tucks", i), t)
		up = append(up, r.Up(t))
	}
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	return roll(length, up, r, func() tucking {
		n := sort.Search(len(up)+1, func(i int) bool { return leastOf(up[:i], r) > units.Longest }) - 1
		return tucking{"tucks", slices.Max(append(up, 0)), 0, n, "ruler"}
	})
}

// leastOf returns the shortest length that makes a roll with some tucks.
func leastOf(tucks []units.Length, r units.Ruler) units.Length {
	in, all := tucked(tucks)
	return leastRoll(0, in, all, r)
}

// tucked returns how much narrower each panel is than the first, and all of them
// together.
func tucked(tucks []units.Length) (in []units.Length, all units.Length) {
	in = make([]units.Length, len(tucks)+2)
	for i := 2; i < len(in); i++ {
		in[i] = in[i-1] + tucks[i-2]
		all += in[i]
	}
	return in, all
}

// roll divides a length for tucks that lie on the ruler.
func roll(length units.Length, tucks []units.Length, r units.Ruler, tooFar func() tucking) (Pattern, error) {
	n := len(tucks) + 2
	in, all := tucked(tucks)
	p := pieces{ruler: r}
	p.add(n, units.Up, tuckTerms(units.T("length", length), tucks, func(i int) int { return n - 2 - i })...)
	first, step := p.panels[0], r.Step()
	// With the first panel rounded up, all of them would be this much too
	// long: so many of the inner ones are a step narrower.
	over := times(n, first) - all - length
	wide := n - int(over/step)
	if wide == 1 && n > 2 { // the first two are equal
		wide = 2
	}
	for i := 1; i < n-1; i++ {
		sum := tuckTerms(units.T("panel 1", first), tucks[:i-1], func(int) int { return -1 })
		if i >= wide {
			sum = append(sum, units.N(-1, "step", step))
		}
		p.rest(sum...)
	}
	sum := []units.Term{units.T("length", length)}
	for i, w := range p.panels {
		if last := len(sum) - 1; last > 0 && sum[last].Length == w {
			sum[last].Count--
			continue
		}
		sum = append(sum, units.N(-1, "panel "+strconv.Itoa(i+1), w))
	}
	p.rest(sum...)
	return p.end(length, limit{leastRoll(length, in, all, r), shorterRoll(length, in, all, r), tooFar}, Repeat(n-1, Valley), inwards(n-1)...)
}

// tuckTerms returns a first term and the tucks as often as they count, those
// that are equal and in succession together.
func tuckTerms(first units.Term, tucks []units.Length, count func(i int) int) []units.Term {
	terms := []units.Term{first}
	for i, t := range tucks {
		if last := len(terms) - 1; last > 0 && terms[last].Length == t {
			terms[last].Count += count(i)
		} else if t > 0 {
			terms = append(terms, units.N(count(i), "tuck", t))
		}
	}
	return terms
}

// leastRoll returns the shortest length that makes such a roll, or, where that
// is no longer than a length that makes none, the next one beyond it: what is
// spread may take the last panel away.
func leastRoll(length units.Length, in []units.Length, all units.Length, r units.Ruler) units.Length {
	n := len(in)
	first := r.Up(units.Shortest + in[n-1])
	if least := units.Shortest + times(n-1, first) - (all - in[n-1]); least > length {
		return least
	}
	// A sum of panels on the ruler leaves nothing to spread.
	share, _ := (length + all).Scale(1, int64(n), units.Up)
	return times(n, max(r.Up(share), first)) - all
}

// shorterRoll returns a length that makes such a roll and is shorter than one that
// makes none, 0 if there is none.
func shorterRoll(length units.Length, in []units.Length, all units.Length, r units.Ruler) units.Length {
	if least := leastRoll(0, in, all, r); least >= length {
		return 0
	}
	n := len(in)
	share, _ := (length + all).Scale(1, int64(n), units.Down)
	if w := r.Down(share); w >= in[n-1]+units.Shortest { // a sum of panels on the ruler
		return times(n, w) - all
	}
	return leastRoll(0, in, all, r)
}

// inwards returns n scores from the last to the first, what lies beyond each
// turned over it.
func inwards(n int) []motionAt {
	order := make([]motionAt, n)
	for i := range order {
		order[i].score = n - 1 - i
	}
	return order
}

// Gate divides a length into a middle panel and two leaves that fold in to
// meet in its middle, each narrower than half of it by at least the tuck: 17
// in on 1/32 in gives 4 7/32, 8 9/16, 4 7/32 (ThoughtCo, "Double gatefold").
func Gate(length units.Length, t TuckIn) (Pattern, error) {
	list, less := begin(length, t)
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	leaf := p.leaf(length, less)
	p.rest(units.T("length", length), units.N(-2, "panel 1", leaf))
	p.rest(units.T("panel 1", leaf))
	return p.end(length, leastGate(less, t.Ruler), Repeat(2, Valley), motionAt{0, Before}, motionAt{1, Beyond})
}

// leaf adds the leaf of a gate fold: a quarter of the length without two
// tucks, rounded down.
func (p *pieces) leaf(length, less units.Length) units.Length {
	p.add(4, units.Down, units.T("length", length), units.N(-2, "tuck", less))
	return p.panels[len(p.panels)-1]
}

// leastGate is the shortest length that leaves a leaf when it is rounded down.
func leastGate(less units.Length, r units.Ruler) limit {
	leaves := 4 * r.Up(units.Shortest)
	return limit{2*less + leaves, 0, func() tucking {
		return tucking{"tuck.less", less, max(0, r.Down((units.Longest - leaves).Half(units.Down))), 0, "tuck.ruler"}
	}}
}

// DoubleGate is [Gate] folded once more in the middle: two leaves and the two
// halves of the middle panel, each wider than a leaf by at least the tuck.
// 17 in on 1/32 in gives 4 7/32, 4 9/32, 4 9/32, 4 7/32.
func DoubleGate(length units.Length, t TuckIn) (Pattern, error) {
	list, less := begin(length, t)
	if err := list.Err(); err != nil {
		return Pattern{}, err
	}
	p := pieces{ruler: t.Ruler}
	leaf := p.leaf(length, less)
	p.halves(length, leaf)
	p.rest(units.T("panel 1", leaf))
	return p.end(length, leastGate(less, t.Ruler), Repeat(3, Valley), motionAt{0, Before}, motionAt{2, Beyond}, motionAt{1, Beyond})
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
func DoubleParallel(length units.Length, t TuckIn) (Pattern, error) {
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
	return p.end(length, leastGate(less, t.Ruler), []Fold{Valley, Valley, Mountain}, motionAt{1, Beyond}, motionAt{2, Beyond}, motionAt{0, Before})
}

// Accordion divides a length into n panels folded to and fro, all equal: no
// panel lies inside another. The scores are the graduations nearest to i/n of
// the length, as in [Divide].
func Accordion(length units.Length, n int, r units.Ruler, first Fold) (Pattern, error) {
	s, err := Divide(length, n, r, Alternate(n-1, first)...) // of no more folds than a strip may have
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
