package score

import (
	"errors"
	"slices"
	"strconv"

	"boardwrap.example/units/check"
)

// ErrNoTurns is returned when no single folds lead to a layer order: some
// layer orders that paper can take need several folds made at once, or panels
// tucked in.
var ErrNoTurns = errors.New("score: no single folds lead to this layer order")

// MaxTurnsTo is how many panels a strip may have for [Strip.TurnsTo].
const MaxTurnsTo = 16

// TurnsTo returns single folds that bring the strip into the layer order of
// want, the first such sequence when scores are tried from left to right, or
// [ErrNoTurns]. The strip of want must be this one, folded at every score. All
// sequences are tried, so the time grows exponentially with the panels, up to
// [MaxTurnsTo]; the search ends with until.
func (s Strip) TurnsTo(until Stopper, want Folding) ([]Turn, error) {
	var list check.List
	if s.Len() > MaxTurnsTo {
		list.Malformed("panels", check.TooMany, strconv.Itoa(s.Len()), "at most "+strconv.Itoa(MaxTurnsTo))
	}
	if !want.strip.Equal(s) {
		list.Malformed("want", check.Conflict, want.strip.String(), "a folding of "+s.String())
	}
	if slices.Contains(want.flat, true) {
		list.Malformed("want", check.Conflict, "scores left flat", "every score folded")
	}
	if err := list.Err(); err != nil {
		return nil, err
	}
	r := route{until: until, want: want, seen: map[string]bool{}}
	if r.from(newTable(s)) {
		return r.turns, nil
	}
	if r.err != nil {
		return nil, r.err
	}
	return nil, ErrNoTurns
}

// A route is a search for the turns to a layer order.
type route struct {
	until Stopper
	want  Folding
	turns []Turn
	seen  map[string]bool // tables that lead nowhere; only looked up
	err   error
}

// from looks for the turns from a table on.
func (r *route) from(t *table) bool {
	if r.err = ended(r.until); r.err != nil {
		return false
	}
	if !slices.Contains(t.flat, true) {
		return t.folded().Equal(r.want)
	}
	state := t.key()
	if r.seen[state] {
		return false
	}
	for s, flat := range t.flat {
		if !flat {
			continue
		}
		next := t.clone()
		if next.fold(Turn{Score: s}) != nil {
			continue
		}
		r.turns = append(r.turns, next.made[len(next.made)-1].Turn)
		if r.from(next) {
			return true
		}
		r.turns = r.turns[:len(r.turns)-1]
		if r.err != nil {
			return false
		}
	}
	r.seen[state] = true
	return false
}

func (t *table) clone() *table {
	c := *t
	c.strip.folds = slices.Clone(t.strip.folds)
	c.flat = slices.Clone(t.flat)
	c.order = slices.Clone(t.order)
	c.rank = slices.Clone(t.rank)
	c.from = slices.Clone(t.from)
	c.up = slices.Clone(t.up)
	c.made = slices.Clone(t.made)
	c.places, c.near = nil, nil
	return &c
}

// key writes down what is folded and in what layers.
func (t *table) key() string {
	k := make([]byte, 0, len(t.flat)+len(t.order)*len(t.order)/2)
	for _, flat := range t.flat {
		k = append(k, bit(flat))
	}
	for a := range t.order {
		for b := range a {
			low := max(t.from[a], t.from[b])
			if low < min(t.from[a]+t.strip.Panel(a), t.from[b]+t.strip.Panel(b)) {
				k = append(k, bit(t.rank[a] > t.rank[b]))
			}
		}
	}
	return string(k)
}

func bit(b bool) byte {
	if b {
		return '1'
	}
	return '0'
}
