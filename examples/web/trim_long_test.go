//go:build long

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// busy is a program that leans on all that the tables are for: panics of the language
// and its own, who may recover from them, stacks that grow and move, what is alive on
// them while memory is cleared, and the names of functions in a trace.
const busy = `package main

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"sync"
)

type node struct{ left, right *node }

type teller interface{ tell() string }

type word string

func (w word) tell() string { return string(w) }

// catcher recovers, called as it is or by what the compiler makes of it.
type catcher struct{}

func (catcher) tell() string { return fmt.Sprint("caught ", recover()) }

// caller has no more to do than to call one that recovers, and is copied into what the
// compiler makes of it for pointers.
type caller struct{ c catcher }

func (c caller) tell() string { return c.c.tell() }

type holder struct{ teller }

//go:noinline
func tree(depth int) *node {
	if depth == 0 {
		return &node{}
	}
	return &node{tree(depth - 1), tree(depth - 1)}
}

func (n *node) count() int {
	if n == nil {
		return 0
	}
	return 1 + n.left.count() + n.right.count()
}

//go:noinline
func deep(n int, kept []*int) int {
	v := n
	var room [40]int
	room[n%40] = n
	if n == 0 {
		runtime.GC()
		return *kept[0]
	}
	return deep(n-1, append(kept, &v)) + room[n%40] - *kept[len(kept)-1] + v - n + *kept[len(kept)/2]
}

func try(what string, f func()) {
	defer func() {
		r := recover()
		err, _ := r.(error)
		var of runtime.Error
		fmt.Println(what, r, errors.As(err, &of))
	}()
	f()
}

//go:noinline
func helper() any { return recover() }

// A helper recovers as little where what calls it is copied.
func between() any { return helper() }

type promoted struct{ *holder }

func main() {
	none, some, zero := []int{}, map[string]int(nil), 0
	var nobody *node
	var nothing teller
	var odd any = "text"
	var at *word
	try("index", func() { fmt.Println(none[zero]) })
	try("slice", func() { fmt.Println(none[zero+1:]) })
	try("map", func() { some["a"] = 1 })
	try("divide", func() { fmt.Println(1 / zero) })
	try("pointer", func() { fmt.Println(nobody.left) })
	try("no interface", func() { fmt.Println(nothing.tell()) })
	try("assertion", func() { fmt.Println(odd.(int)) })
	try("nil receiver", func() { nothing = at; fmt.Println(nothing.tell()) })
	try("promoted", func() { fmt.Println(holder{}.tell()) })
	try("own", func() { panic("as said") })
	try("in a deferred call", func() { defer func() { panic("second") }(); panic("first") })
	try("not recovered by a helper", func() { defer func() { fmt.Println("helper:", helper()) }(); panic("through") })
	try("not recovered by a helper of what is copied", func() { defer func() { fmt.Println("copied:", between()) }(); panic("through") })
	try("not recovered by what a deferred one calls", func() { defer between(); panic("through") })
	try("recovered by itself", func() { defer func() { fmt.Println(len(none), recover()) }(); panic("caught") })
	try("recovered by a deferred function", func() { defer helper(); panic("caught") })
	try("recovered by a promoted method", func() { defer teller(promoted{&holder{catcher{}}}).tell(); panic("caught") })
	try("not recovered by what a promoted method calls", func() { defer teller(promoted{&holder{caller{}}}).tell(); panic("through") })
	try("not recovered by what a method calls", func() { defer teller(&caller{}).tell(); panic("through") })
	try("recovered by a deferred method", func() { defer holder{word("x")}.tell(); panic("after") })
	try("deep", func() { fmt.Println(deep(20000, []*int{new(int)})) })
	var all sync.WaitGroup
	sums := make([]int, 20)
	for i := range sums {
		all.Go(func() {
			for range 5 {
				sums[i] += tree(10).count() + deep(300, []*int{new(int)})
				runtime.Gosched()
			}
		})
	}
	all.Wait()
	fmt.Println(sums)
	pcs := make([]uintptr, 10)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(0, pcs)])
	for {
		f, more := frames.Next()
		if f.Function != "runtime.Callers" { // which is copied into main
			fmt.Println(f.Function)
		}
		if !more {
			break
		}
	}
	trace := make([]byte, 4096)
	fmt.Println(strings.Contains(string(trace[:runtime.Stack(trace, false)]), "main.main()"))
	fmt.Println(strings.Repeat("=", 10))
}
`

func TestLongTrimmedProgramsRun(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node: ", err)
	}
	root, err := output(t.Context(), nil, "go", "env", "GOROOT")
	if err != nil {
		t.Fatal(err)
	}
	starter := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js")
	program := compiled(t, "busy.example", busy)
	trimmed, err := trim(program)
	if err != nil {
		t.Fatal(err)
	}
	sameButPositions(t, program, trimmed)
	var said [2]string
	for i, p := range [][]byte{program, trimmed} {
		name := filepath.Join(t.TempDir(), "program.wasm")
		if err := os.WriteFile(name, p, 0o644); err != nil {
			t.Fatal(err)
		}
		b, err := output(t.Context(), nil, node, "--stack-size=8192", starter, name)
		if err != nil {
			t.Fatal(err)
		}
		said[i] = string(b)
	}
	if said[0] != said[1] || !strings.HasSuffix(said[0], "==========\n") {
		t.Errorf("it says\n%s, and trimmed\n%s", said[0], said[1])
	}
	if strings.Count(said[0], "runtime error") < 6 {
		t.Errorf("too few things went wrong:\n%s", said[0])
	}
}

// Of the programs of the page every function is found as before.
func TestLongTrimmedTables(t *testing.T) {
	for name, tags := range programTags {
		program, err := compile(t.Context(), t.TempDir(), tags)
		if err != nil {
			t.Fatal(err)
		}
		trimmed, err := trim(program)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s has %d bytes, trimmed %d", name, len(program), len(trimmed))
		sameButPositions(t, program, trimmed)
	}
}
