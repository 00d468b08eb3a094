package score

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Strip is a length of paper with scores across it, each folded as a valley
// or a mountain. It is at most 10 m long and its panels are at least 10 µm
// wide. Strips cannot be changed; the zero Strip has no panels.
type Strip struct {
	edges []units.Length // the left end, the scores, the right end
	folds []Fold
}

// A Score is a place and the kind of fold made there.
type Score struct {
	At   units.Length // from the left end of the strip, above 0
	Fold Fold         // made there, seen from the face
}

// MaxPanels is how many panels a strip may have: a pleat every 5 mm over 10 m.
// With so many every question about a folded strip is answered in well under a
// second.
const MaxPanels = 2000

// NewStrip returns the strip whose panels have the given widths from left to
// right, with one fold between each two. The error lists everything that is
// wrong with panels[i], folds and length.
func NewStrip(panels []units.Length, folds ...Fold) (Strip, error) {
	var list check.List
	if len(panels) == 0 {
		list.Malformed("panels", check.Missing, "none", "at least one panel")
	}
	if !checkPanels(&list, "panels", len(panels)) {
		return Strip{}, list.Err()
	}
	edges := make([]units.Length, 1, len(panels)+1)
	var at units.Length
	sound, within := true, 0 // how many of them are no longer than a strip may be
	for i, p := range panels {
		if !check.InBounds(p) { // a path only for what is wrong: panels may be many
			list.Length(check.Index("panels", i), p)
			sound = false
			continue
		}
		if at > units.Longest { // said once, below
			continue
		}
		if at += p; at > units.Longest {
			within = i
		}
		edges = append(edges, at)
	}
	if sound && at > units.Longest {
		list.Malformed("panels", check.OutOfRange, "more than "+units.Longest.String()+" in all", atMostTheFirst(within)+", or narrower ones")
	}
	checkFolds(&list, folds, len(panels)-1)
	if err := list.Err(); err != nil {
		return Strip{}, err
	}
	return Strip{edges, slices.Clone(folds)}, nil
}

// checkPanels checks a number of panels before anything is made of it.
func checkPanels(list *check.List, path string, n int) bool {
	if n > MaxPanels {
		list.Malformed(path, check.TooMany, strconv.Itoa(n), "at most "+strconv.Itoa(MaxPanels))
	}
	return n <= MaxPanels
}

func checkFolds(list *check.List, folds []Fold, want int) {
	if len(folds) != max(want, 0) {
		list.Malformed("folds", check.Conflict, count(len(folds), "fold"), count(max(want, 0), "fold")+", one between each two panels")
	}
	for i, f := range folds {
		if f > Mountain {
			list.Malformed(check.Index("folds", i), check.Unknown, strconv.Itoa(int(f)), "valley or mountain")
		}
	}
}

// upTo says which numbers there are of so many things, counted from 0.
func upTo(n int, what string) string {
	if n == 0 {
		return "none, where there is no " + what
	}
	return "0 to " + strconv.Itoa(n-1) + ", since there " + be(n) + " " + count(n, what)
}

func be(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

//go:noinline
func count(n int, what string) string {
	s := strconv.Itoa(n) + " " + what
	if n != 1 {
		s += "s"
	}
	return s
}

// ScoredStrip returns the strip of the given length with scores at the given
// places, measured from the left end in rising order.
func ScoredStrip(length units.Length, at []units.Length, folds ...Fold) (Strip, error) {
	var list check.List
	if !list.Length("length", length) || !checkPanels(&list, "scores", len(at)+1) {
		return Strip{}, list.Err()
	}
	panels := make([]units.Length, 0, len(at)+1)
	var last units.Length
	for i, x := range at {
		path := check.Index("scores", i)
		switch {
		case x <= 0 || x >= length:
			list.Malformed(path, check.OutOfRange, x.String(), "a place above 0 and below "+length.String())
		case x-last < units.Shortest:
			list.Short(path, check.Conflict, units.MetricDecimal, x, last+units.Shortest, "beyond the score before it")
		default:
			panels = append(panels, x-last)
			last = x
		}
	}
	if list.Len() == 0 && length-last < units.Shortest {
		list.Long(check.Index("scores", len(at)-1), check.Conflict, units.MetricDecimal, last, length-units.Shortest, "before the right end")
	}
	checkFolds(&list, folds, len(at))
	if err := list.Err(); err != nil {
		return Strip{}, err
	}
	return NewStrip(append(panels, length-last), folds...)
}

// Divide returns the strip of the given length divided into n panels on a
// ruler, exactly: the scores are the graduations nearest to i/n of the length,
// so no score is off by more than half a step and the panels add up
// ([units.Ruler.Split]). The last panel carries what a length that is not on
// the ruler leaves over.
func Divide(length units.Length, n int, r units.Ruler, folds ...Fold) (Strip, error) {
	var list check.List
	list.Length("length", length)
	checkRuler(&list, "ruler", r)
	if n < 1 {
		list.Malformed("parts", check.NotPositive, strconv.Itoa(n), "at least 1")
	}
	sound := list.Len() == 0
	steps := int64(length / r.Step()) // a part is a step of the ruler at least
	switch {
	case sound && length < r.Step():
		list.Impossible("ruler", check.TooLarge, "a step of "+r.Step().String(), "a finer ruler, of "+length.String()+" at most")
	case sound && n > MaxPanels && steps < MaxPanels:
		addParts(&list, n, steps, r)
	default:
		checkPanels(&list, "parts", n)
	}
	if err := list.Err(); err != nil {
		return Strip{}, err
	}
	panels, err := r.Split(length, n)
	if err != nil {
		addParts(&list, n, steps, r)
		return Strip{}, list.Err()
	}
	return NewStrip(panels, folds...)
}

// addParts reports more parts than a length has steps of the ruler.
func addParts(list *check.List, n int, steps int64, r units.Ruler) {
	list.Impossible("parts", check.TooMany, strconv.Itoa(n), "at most "+strconv.FormatInt(steps, 10)+", each of them a step of the ruler, "+r.Step().String()+", or more")
}

func checkRuler(list *check.List, path string, r units.Ruler) {
	if !r.Valid() {
		list.Malformed(path, check.Unknown, strconv.FormatInt(int64(r), 10), "one of the rulers of package units")
	}
}

// Length returns the length of the flat strip: the sum of its panels.
func (s Strip) Length() units.Length {
	if len(s.edges) == 0 {
		return 0
	}
	return s.edges[len(s.edges)-1]
}

// Len returns the number of panels. The number of scores is one less.
func (s Strip) Len() int { return max(len(s.edges)-1, 0) }

// Panel returns the width of panel i, 0 if there is no such panel.
//
//go:noinline
func (s Strip) Panel(i int) units.Length {
	if i < 0 || i >= s.Len() {
		return 0
	}
	return s.edges[i+1] - s.edges[i]
}

// Score returns score i and whether there is one.
func (s Strip) Score(i int) (Score, bool) {
	if i < 0 || i >= len(s.folds) {
		return Score{}, false
	}
	return Score{s.edges[i+1], s.folds[i]}, true
}

// Panels walks the panels from left to right.
func (s Strip) Panels() iter.Seq2[int, units.Length] {
	return func(yield func(int, units.Length) bool) {
		for i := range s.Len() {
			if !yield(i, s.Panel(i)) {
				return
			}
		}
	}
}

// Scores walks the scores from left to right.
func (s Strip) Scores() iter.Seq2[int, Score] {
	return func(yield func(int, Score) bool) {
		for i, f := range s.folds {
			if !yield(i, Score{s.edges[i+1], f}) {
				return
			}
		}
	}
}

// Widest returns the width of the widest panel.
func (s Strip) Widest() units.Length {
	var w units.Length
	for _, p := range s.Panels() {
		w = max(w, p)
	}
	return w
}

// Working returns the length of the strip as the sum of its panels; panels
// next to each other that are equal make one term.
func (s Strip) Working(label string) units.Working {
	var terms []units.Term
	for i, p := range s.Panels() {
		if n := len(terms); n > 0 && terms[n-1].Length == p {
			terms[n-1].Count++
			terms[n-1].Label = "panel"
			continue
		}
		terms = append(terms, units.T("panel "+strconv.Itoa(i+1), p))
	}
	return units.Sum(label, 0, units.Nearest, terms...)
}

// Reversed returns the strip after a half turn on the table: the right end
// becomes the left one, the face stays up, and every fold keeps its kind.
func (s Strip) Reversed() Strip {
	length := s.Length()
	edges := make([]units.Length, len(s.edges))
	for i, e := range s.edges {
		edges[len(edges)-1-i] = length - e
	}
	folds := slices.Clone(s.folds)
	slices.Reverse(folds)
	return Strip{edges, folds}
}

// Over returns the strip turned over like a page: its back is now the face,
// the right end is the left one, and valleys are mountains.
func (s Strip) Over() Strip {
	out := s.Reversed()
	for i, f := range out.folds {
		out.folds[i] = f.Other()
	}
	return out
}

// With returns the strip with other folds at the same scores.
func (s Strip) With(folds ...Fold) (Strip, error) {
	var list check.List
	checkFolds(&list, folds, s.Len()-1)
	if err := list.Err(); err != nil {
		return Strip{}, err
	}
	return Strip{s.edges, slices.Clone(folds)}, nil
}

// Equal reports whether two strips have the same panels and folds.
func (s Strip) Equal(t Strip) bool {
	return slices.Equal(s.edges, t.edges) && slices.Equal(s.folds, t.folds)
}

// String returns the panels in millimetres with the folds between them:
// "98.425 v 101.6 v 66.675 mm".
func (s Strip) String() string {
	var dst []byte
	for i, p := range s.Panels() {
		if i > 0 {
			dst = append(dst, ' ', s.folds[i-1].String()[0], ' ')
		}
		dst = units.Format{Bare: true}.Append(dst, p)
	}
	if len(dst) == 0 {
		return "no panels"
	}
	return string(append(dst, " mm"...))
}

// atMostTheFirst says how many of a list would do.
func atMostTheFirst(n int) string {
	switch n {
	case 0:
		return "none of them"
	case 1:
		return "only the first of them"
	}
	return "at most the first " + strconv.Itoa(n) + " of them"
}
