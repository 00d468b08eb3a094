package pocket

import (
	"iter"
	"strconv"

	"boardwrap.example/units"
)

// A Task is a kind of work.
type Task uint8

// Tasks.
const (
	Cut Task = iota
	Score
	Fold
	Glue
	Fit
)

// String returns the task as a verb.
func (t Task) String() string {
	switch t {
	case Cut:
		return "cut"
	case Score:
		return "score"
	case Fold:
		return "fold"
	case Glue:
		return "glue"
	case Fit:
		return "fit"
	}
	return "unknown task"
}

// A Step is one thing to do, with the sizes in its text. Care is the caution
// where a blade or glue is used, empty elsewhere.
type Step struct {
	Task Task
	Text string
	Care string
}

// Cautions. That for knives follows HSE, Information sheet PPS12; the maker's
// own judgement, the tools' manuals and local rules come first.
const (
	bladeCare = "Cut along a metal straightedge with a sharp blade in several light passes, away from the hand that holds; keep a trimmer's guard in place; put the blade away when idle. The tool's manual and local rules come first."
	glueCare  = "Follow the adhesive's label; use spray glue only with good ventilation. Local rules come first."
)

// Steps walks the order of work, with every size written by the format.
func (d Design) Steps(f units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		if d.kind == nil {
			return
		}
		d.kind.steps(&d, &teller{format: f, yield: yield})
	}
}

// A teller puts the text of a step together and hands it on.
type teller struct {
	format  units.Format
	yield   func(Step) bool
	text    []byte
	stopped bool
}

func (t *teller) say(s string) *teller { t.text = append(t.text, s...); return t }

func (t *teller) len(l units.Length) *teller {
	t.text = t.format.Append(t.text, l)
	return t
}

func (t *teller) size(s units.Size) *teller {
	t.text = t.format.AppendSize(t.text, s)
	return t
}

func (t *teller) count(n int) *teller {
	t.text = strconv.AppendInt(t.text, int64(n), 10)
	return t
}

// list writes lengths with commas and an "and" between.
func (t *teller) list(at []units.Length) *teller {
	for i, l := range at {
		switch {
		case i > 0 && i == len(at)-1:
			t.say(" and ")
		case i > 0:
			t.say(", ")
		}
		t.len(l)
	}
	return t
}

func (t *teller) done(task Task) {
	care := ""
	switch task {
	case Cut:
		care = bladeCare
	case Glue:
		care = glueCare
	}
	if !t.stopped {
		t.stopped = !t.yield(Step{task, string(t.text), care})
	}
	t.text = t.text[:0]
}
