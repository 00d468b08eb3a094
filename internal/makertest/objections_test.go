package makertest_test

import (
	"math/rand"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// without leaves out one step, so that all others rest on what is left.
func without(j makertest.Job, step int) makertest.Job {
	j.Steps = slices.Clone(j.Steps)
	j.Steps = slices.Delete(j.Steps, step-1, step)
	for i := range j.Steps {
		j.Steps[i].Number, j.Steps[i].After = i+1, nil
		if i > 0 {
			j.Steps[i].After = []int{i}
		}
	}
	return j
}

// swapped does one step in the place of another.
func swapped(j makertest.Job, a, b int) makertest.Job {
	j.Steps = slices.Clone(j.Steps)
	j.Steps[a-1].Do, j.Steps[b-1].Do = j.Steps[b-1].Do, j.Steps[a-1].Do
	return j
}

// with does something else in the place of an action.
func with(j makertest.Job, step, action int, a work.Action) makertest.Job {
	j.Steps = slices.Clone(j.Steps)
	j.Steps[step-1].Do = slices.Clone(j.Steps[step-1].Do)
	j.Steps[step-1].Do[action] = a
	return j
}

// action returns an action to be changed.
func action[A work.Action](j makertest.Job, step, k int) A { return j.Steps[step-1].Do[k].(A) }

// A maker says what is wrong, in the words that these mistakes are looked for
// by.
func TestObjections(t *testing.T) {
	plain, slip, folded, strip, corners, raised := plainCase(), slipPocket(), foldedSlip(), foldedStrip(), cornerPockets(), frame()
	turn := action[work.TurnIn](plain, 8, 0)
	turn.Depth--
	lay := action[work.Fix](plain, 5, 1)
	lay.At.X++
	from := action[work.Cut](plain, 3, 0)
	from.From.Turned, from.From.Size = false, from.From.Size.Turned()
	closing := action[work.Close](plain, 18, 0)
	closing.Turns = []work.Turned{{Board: 0, Over: 2, Held: -1}, {Board: 1, Over: -1, Held: -1}}
	holding := action[work.Close](plain, 18, 0)
	holding.Turns = []work.Turned{{Board: 1, Over: -1, Held: -1}, {Board: 0, Over: 2, Held: 2}}
	standing := action[work.Close](plain, 18, 0)
	standing.Turns = []work.Turned{{Board: 1, Over: -1, Held: 0}, {Board: 0, Over: 2, Held: -1}}
	ajar := action[work.Close](plain, 18, 0)
	ajar.Ajar = true
	glue := action[work.Fix](slip, 4, 0)
	glue.Areas = append(slices.Clone(glue.Areas), rect(6, 20, 68, 6))
	off := action[work.Fix](slip, 4, 0)
	off.Areas = []units.Rect{rect(-1, 0, 6, 54)}
	away := action[work.FoldAt](folded, 4, 0)
	away.Way = work.Away
	side := action[work.Stick](folded, 5, 0)
	side.Side = score.Back
	mitre := action[work.Trim](plain, 7, 0)
	mitre.From.X, mitre.To.Y = mitre.From.X+5*mm, mitre.To.Y+5*mm
	over := action[work.Fix](raised, 4, 2)
	over.At.Y = 50 * mm
	quarter := action[work.Fix](corners, 8, 0)
	quarter.Quarters = 1
	unwarned := foldedSlip()
	unwarned.WrongSides = nil
	outside := plainCase()
	outside.Pieces[3].Size.W += 10 * mm
	bare := plainCase()
	bare.Pieces[3].Size = size(190, 144)
	alike := plain
	for k := range 2 {
		board := action[work.Cut](plain, 2, k)
		board.What.Name = "board"
		alike = with(alike, 2, k, board)
	}
	for name, c := range map[string]struct {
		job  makertest.Job
		want string
	}{
		"two of one name":              {alike, "is called as piece 0"},
		"used before it exists":        {swapped(plain, 3, 5), "does not exist yet"},
		"cut twice":                    {with(plain, 3, 0, action[work.Cut](plain, 2, 1)), "comes next"},
		"dried though nothing is wet":  {without(slip, 4), "nothing is wet"},
		"never used":                   {without(without(without(slip, 6), 5), 4), "has not been used"},
		"sheet the wrong way":          {with(plain, 3, 0, from), "does not go into the sheet"},
		"grain not found":              {without(plain, 1), "grain"},
		"no lines":                     {without(plain, 4), "no upright line has been drawn"},
		"off its lines":                {with(plain, 5, 1, lay), "no upright line has been drawn"},
		"turned in wet":                {without(plain, 6), "wet"},
		"not mitred":                   {without(plain, 7), "not mitred"},
		"mitred into the board":        {with(plain, 7, 0, mitre), "into what is to stay"},
		"not tucked in":                {without(plain, 9), "not tucked in"},
		"another depth":                {with(plain, 8, 0, turn), "beyond the boards"},
		"measured wet":                 {without(plain, 11), "wet"},
		"inside cut too early":         {swapped(plain, 12, 14), "has not been measured"},
		"not laid dry":                 {without(plain, 15), "laid dry"},
		"said not to shut":             {with(plain, 18, 0, ajar), "stop short"},
		"closed through another":       {with(plain, 18, 0, closing), "turns before"},
		"held for no later turn":       {with(plain, 18, 0, holding), "turns no more"},
		"held for what stands up":      {with(plain, 18, 0, standing), "nothing turns"},
		"closed while wet":             {without(plain, 17), "wet"},
		"glue over the mouth":          {with(slip, 4, 0, glue), "shut"},
		"glue off the paper":           {with(slip, 4, 0, off), "off the paper"},
		"place not marked":             {without(slip, 3), "marked"},
		"filled while wet":             {without(slip, 5), "wet"},
		"not filled":                   {without(slip, 6), "is not in"},
		"notch missing":                {without(slip, 2), "lacks an opening or a notch"},
		"fold not scored":              {without(folded, 3), "without a score"},
		"folded the other way":         {with(folded, 4, 0, away), "planned a valley"},
		"glue on the other side":       {with(folded, 5, 0, side), "where no paper meets paper"},
		"scored after folding":         {swapped(folded, 3, 4), "without a score"},
		"not folded":                   {without(folded, 4), "no paper meets paper"},
		"folded while wet":             {without(strip, 6), "wet"},
		"wrong side unwarned":          {unwarned, "shows its wrong side"},
		"corner in another's place":    {with(corners, 8, 0, quarter), "over none of its corners"},
		"foam in the way of a content": {with(raised, 4, 2, over), "shut by what is stuck down of far foam"},
		"cut otherwise than planned":   {outside, "planned"},
		"board bare":                   {bare, "planned"},
	} {
		err := makertest.Follow(c.job)
		switch {
		case err == nil:
			t.Errorf("%s: nobody objects", name)
		case !strings.Contains(err.Error(), c.want):
			t.Errorf("%s: %v; want something of %q", name, err, c.want)
		}
	}
}

// A liner that does not reach the turn-ins leaves board bare, also where all
// agree on its size.
func TestBareBoard(t *testing.T) {
	j := plainCase()
	j.Pieces[3].Size = size(190, 144)
	j.Want[1].Rect = rect(21, 3, 190, 144)
	cut := action[work.Cut](j, 14, 0)
	cut.Size = size(190, 144)
	j = with(j, 14, 0, cut)
	j = with(j, 15, 0, work.Lay{What: piece(3, 0), On: onRow, At: at(21, 3), Size: size(190, 144)})
	fix := action[work.Fix](j, 16, 0)
	fix.At, fix.Size = at(21, 3), size(190, 144)
	j = with(j, 16, 0, fix)
	if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), "is bare") {
		t.Errorf("%v; want bare board", err)
	}
}

// Three mistakes at once are no reason to panic.
func TestNeverPanics(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	for _, j := range []makertest.Job{plainCase(), quarterStyle(), slipPocket(), foldedSlip(), foldedStrip(), accordion(), cornerPockets(), frame(), outsidesTogether()} {
		for range proptest.Cases(10) {
			k := j
			for range 3 {
				changes := slices.Collect(makertest.Changes(k.Steps, mm))
				k.Steps = changes[r.Intn(len(changes))].Steps
			}
			_ = makertest.Follow(k)
		}
	}
	_ = makertest.Follow(makertest.Job{})
	_ = makertest.Follow(makertest.Job{Steps: []work.Step{{Number: 1}, {Number: 7, After: []int{9}}}})
}

// As measured, a board lies where the liner does not reach, and its turn-ins with
// it.
func TestBareBoardAsMeasured(t *testing.T) {
	j := plainCase()
	j.Row[2].Made = rect(162, 0, 100, 150)
	j.Cover = rect(0, 0, 262, 150)
	if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), "is bare") {
		t.Errorf("%v; want bare board", err)
	}
	j.Row[2].Made = rect(133, 0, 100, 150)
	j.Cover = rect(0, 0, 233, 150)
	if err := makertest.Follow(j); err != nil {
		t.Errorf("a millimetre further right: %v", err)
	}
}

// A flat pocket with 68 mm between its glued edges takes 66 mm with 2 mm of
// thickness: round that it is 2 x 68 mm. A little more does not go in.
func TestThickContents(t *testing.T) {
	for name, c := range map[string]struct {
		job  makertest.Job
		thin units.Length // goes in
	}{"front glued on": {slipPocket(), 2 * mm}, "folded foot": {foldedSlip(), 2 * mm}, "from the left": {foldedStrip(), 8 * mm}, "frame, raised by 2 mm": {frame(), 4 * mm}} {
		for _, thick := range []units.Length{c.thin, c.thin + mm/10} {
			j := c.job
			j.Others = slices.Clone(j.Others)
			j.Others[0].Thickness = thick
			err := makertest.Follow(j)
			if goes := thick == c.thin; (err == nil) != goes || err != nil && !strings.Contains(err.Error(), "too short") {
				t.Errorf("%s, %v thick: %v", name, thick, err)
			}
		}
	}
}

// A front over a card is a caliper thick and the card; folded over its own back, two. Any
// other thickness that is planned is objected to.
func TestClosedThickness(t *testing.T) {
	card := 760 * units.Micrometre
	for name, c := range map[string]struct {
		job   makertest.Job
		empty units.Length
	}{"front glued on": {slipPocket(), mm / 4}, "folded foot": {foldedSlip(), mm / 2}} {
		j := c.job
		j.Others = slices.Clone(j.Others)
		j.Others[0].Thickness = card
		for _, by := range []units.Length{-1, 0, 1} {
			j.Empty, j.Full = c.empty+by, c.empty+card
			if err := makertest.Follow(j); (err == nil) != (by == 0) || err != nil && !strings.Contains(err.Error(), "closed and empty") {
				t.Errorf("%s, empty, by %d nm: %v", name, by.Nanometres(), err)
			}
			j.Empty, j.Full = c.empty, c.empty+card+by
			if err := makertest.Follow(j); (err == nil) != (by == 0) || err != nil && !strings.Contains(err.Error(), "closed and filled") {
				t.Errorf("%s, filled, by %d nm: %v", name, by.Nanometres(), err)
			}
		}
	}
}
