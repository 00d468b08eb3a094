package makertest

import (
	"fmt"
	"iter"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Change is an order of work with one thing wrong in it.
type Change struct {
	What  string // what has been changed, from what to what
	Steps []work.Step
	// Of are the actions that have been changed or left out: one, or those of the
	// step. Two neighbours exchanged have none.
	Of []work.Action
}

// Changes walks all orders of work that differ from a right one in one thing:
// a length by one step of the ruler more or less; another edge, corner, side,
// axis, fold, way, grain or base; an index, copy, panel or count by one; yes for
// no, unless it is only more care than is needed; one action left out, or one element of a list; a step left out; two
// neighbours exchanged of which the second rests on the first. Where the step
// has no ruler of its own, the given one counts.
func Changes(steps []work.Step, ruler units.Length) iter.Seq[Change] {
	return func(yield func(Change) bool) {
		c := &changer{steps: steps, yield: yield}
		for i := range steps {
			c.at, c.by = i, ruler
			if r := steps[i].Ruler; r != 0 {
				c.by = r.Step()
			}
			if !c.actions() || !c.left() || !c.exchanged() {
				return
			}
		}
	}
}

type changer struct {
	steps []work.Step
	yield func(Change) bool
	at    int          // the step being changed
	by    units.Length // a step of its ruler
}

// with yields the steps with another action in one place.
func (c *changer) with(k int, a work.Action, what string) bool {
	steps := slices.Clone(c.steps)
	was := steps[c.at].Do[k]
	steps[c.at].Do = slices.Clone(steps[c.at].Do)
	steps[c.at].Do[k] = a
	return c.yield(Change{fmt.Sprintf("step %d, %T: %s", c.at+1, a, what), steps, []work.Action{was}})
}

func (c *changer) actions() bool {
	do := c.steps[c.at].Do
	for k, a := range do {
		v := reflect.ValueOf(a)
		ok := true
		c.walk(v, "", func(path string, old, now reflect.Value) bool {
			ok = c.with(k, replaced(v, path, now).Interface().(work.Action), fmt.Sprintf("%s from %v to %v", path, old, now))
			return ok
		})
		if !ok {
			return false
		}
		if len(do) > 1 {
			steps := slices.Clone(c.steps)
			steps[c.at].Do = slices.Delete(slices.Clone(do), k, k+1)
			if !c.yield(Change{fmt.Sprintf("step %d: without %T %d", c.at+1, a, k), steps, []work.Action{a}}) {
				return false
			}
		}
	}
	return true
}

// walk calls visit with every other value that a part of v could have, and the
// path to it. It stops when visit says so.
func (c *changer) walk(v reflect.Value, path string, visit func(path string, old, now reflect.Value) bool) bool {
	for _, w := range c.others(v) {
		if !visit(path, v, w) {
			return false
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if name := v.Type().Field(i).Name; name == "Apart" || name == "Weight" && !v.Field(i).Bool() {
				continue
			}
			if !c.walk(v.Field(i), path+"."+v.Type().Field(i).Name, visit) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !c.walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit) {
				return false
			}
			without := reflect.AppendSlice(reflect.MakeSlice(v.Type(), 0, v.Len()), v.Slice(0, i))
			if !visit(path, v, reflect.AppendSlice(without, v.Slice(i+1, v.Len()))) {
				return false
			}
		}
	}
	return true
}

// others returns what else a value could be. Names, kinds of things and
// adhesives have no wrong neighbours that hands would notice.
func (c *changer) others(v reflect.Value) []reflect.Value {
	count := 0
	switch x := v.Interface().(type) {
	case units.Length:
		return []reflect.Value{reflect.ValueOf(x + c.by), reflect.ValueOf(x - c.by)}
	case int:
		return []reflect.Value{reflect.ValueOf(x + 1), reflect.ValueOf(x - 1)}
	case bool:
		return []reflect.Value{reflect.ValueOf(!x)}
	case score.Edge, score.Corner:
		count = 4
	case score.Axis, score.Side, score.Fold, work.Way, work.PaperSide:
		count = 2
	case work.Grain:
		count = 3
	case work.BaseKind:
		count = int(work.Under) + 1
	}
	var all []reflect.Value
	for i := range count {
		w := reflect.New(v.Type()).Elem()
		w.SetUint(uint64(i))
		if w.Uint() != v.Uint() {
			all = append(all, w)
		}
	}
	return all
}

// replaced returns a copy of v with another value at a path.
func replaced(v reflect.Value, path string, now reflect.Value) reflect.Value {
	if path == "" {
		return now
	}
	w := reflect.New(v.Type()).Elem()
	w.Set(v)
	if v.Kind() == reflect.Slice {
		w.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		reflect.Copy(w, v)
	}
	if v.Kind() == reflect.Slice {
		index, rest, _ := strings.Cut(path[1:], "]")
		i, err := strconv.Atoi(index)
		if err == nil {
			w.Index(i).Set(replaced(v.Index(i), rest, now))
		}
		return w
	}
	for i := range v.NumField() {
		head := "." + v.Type().Field(i).Name
		if rest, ok := after(path, head); ok {
			w.Field(i).Set(replaced(v.Field(i), rest, now))
		}
	}
	return w
}

// after returns the rest of a path that goes through a field.
func after(path, head string) (string, bool) {
	if len(path) < len(head) || path[:len(head)] != head {
		return "", false
	}
	rest := path[len(head):]
	return rest, rest == "" || rest[0] == '.' || rest[0] == '['
}

// left leaves the step out.
func (c *changer) left() bool {
	steps := make([]work.Step, 0, len(c.steps)-1)
	for i, s := range c.steps {
		if i != c.at {
			steps = append(steps, s)
		}
	}
	gone := c.at + 1
	return c.yield(Change{fmt.Sprintf("without step %d", gone), renumbered(steps, func(n int) int {
		switch {
		case n == gone:
			return 0
		case n > gone:
			return n - 1
		}
		return n
	}, c.steps[c.at].After), c.steps[c.at].Do})
}

// renumbered numbers steps anew. What rested on a step that is gone rests on
// what that one rested on.
func renumbered(steps []work.Step, to func(int) int, instead []int) []work.Step {
	for i := range steps {
		steps[i].Number = i + 1
		var rests []int
		for _, n := range steps[i].After {
			if k := to(n); k > 0 {
				rests = append(rests, k)
				continue
			}
			for _, n := range instead {
				rests = append(rests, to(n))
			}
		}
		slices.Sort(rests)
		rests = slices.Compact(rests)
		steps[i].After = slices.DeleteFunc(rests, func(n int) bool { return n > i })
	}
	return steps
}

// exchanged does the next step first, if it rests on this one, as if it did not.
func (c *changer) exchanged() bool {
	i := c.at
	if i+1 >= len(c.steps) || !slices.Contains(c.steps[i+1].After, i+1) {
		return true
	}
	steps := slices.Clone(c.steps)
	steps[i], steps[i+1] = steps[i+1], steps[i]
	// What came between rests on both.
	steps[i].After = slices.Concat(steps[i].After, steps[i+1].After)
	return c.yield(Change{fmt.Sprintf("step %d before step %d", i+2, i+1), renumbered(steps, func(n int) int {
		switch n {
		case i + 1:
			return i + 2
		case i + 2:
			return i + 1
		}
		return n
	}, nil), nil})
}
