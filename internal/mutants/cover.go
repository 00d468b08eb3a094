package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A check is a test, an example, or a fuzz target on its corpus.
type check struct {
	name    string
	cpu     time.Duration // how much processor time it took
	covered []block
}

// A block is a stretch of a file that a test ran, from line and column to line
// and column.
type block struct {
	file                   string // the last part of its name
	line, col, toLine, toC int
}

func (b block) holds(file string, line, col int) bool {
	after := line > b.line || line == b.line && col >= b.col
	before := line < b.toLine || line == b.toLine && col < b.toC
	return b.file == file && after && before
}

func goCommand(root string, args ...string) *exec.Cmd {
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOWORK=off")
	return cmd
}

func buildTest(root string, s *subject, binary string, flags ...string) error {
	// More cases than at every change: a mutant that few of them meet is noticed.
	args := append([]string{"test", "-c", "-vet=off", "-tags=half", "-o", binary}, flags...)
	if out, err := goCommand(root, append(args, s.path)...).CombinedOutput(); err != nil {
		return fmt.Errorf("go %s: %w\n%s", strings.Join(append(args, s.path), " "), err, out)
	}
	return nil
}

// coverage runs every check of a package by itself and sees what it covers and
// how long it takes. All of them must pass.
func (w *workshop) coverage(ctx context.Context, s *subject) ([]*check, error) {
	binary := filepath.Join(w.tmp, strings.ReplaceAll(s.room, "/", "_")+".cover")
	if err := buildTest(w.root, s, binary, "-cover", "-covermode=set", "-coverpkg="+s.path); err != nil {
		return nil, err
	}
	defer os.Remove(binary)
	list := exec.CommandContext(ctx, binary, "-test.list=.")
	list.Dir = s.dir
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: the tests cannot be listed: %w", s.room, err)
	}
	var checks []*check
	for name := range strings.FieldsSeq(string(out)) {
		if !strings.HasPrefix(name, "Benchmark") && w.tests.MatchString(name) {
			checks = append(checks, &check{name: name})
		}
	}
	errs := make([]error, len(checks))
	w.each(len(checks), func(i int) { errs[i] = w.coverOne(ctx, s, binary, checks[i]) })
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return checks, nil
}

func (w *workshop) coverOne(ctx context.Context, s *subject, binary string, c *check) error {
	profile := filepath.Join(w.tmp, strings.ReplaceAll(s.room, "/", "_")+"."+c.name+".out")
	defer os.Remove(profile)
	cmd := exec.CommandContext(ctx, binary, "-test.run=^"+c.name+"$", "-test.coverprofile="+profile, "-test.timeout=20m")
	cmd.Dir = s.dir
	if w.short {
		cmd.Args = append(cmd.Args, "-test.short")
	}
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %s fails as it is: %w\n%s", s.room, c.name, err, out)
	}
	c.cpu = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	text, err := os.ReadFile(profile)
	if err != nil {
		return err
	}
	c.covered, err = readProfile(text)
	return err
}

// readProfile returns the blocks of a coverage profile that were run.
func readProfile(text []byte) ([]block, error) {
	var blocks []block
	for sc := bufio.NewScanner(bytes.NewReader(text)); sc.Scan(); {
		line := sc.Text()
		if strings.HasPrefix(line, "mode:") || strings.HasSuffix(line, " 0") {
			continue
		}
		name, rest, ok := strings.Cut(line, ".go:")
		var b block
		if ok {
			b.file = name[strings.LastIndexByte(name, '/')+1:] + ".go"
			_, err := fmt.Sscanf(rest, "%d.%d,%d.%d", &b.line, &b.col, &b.toLine, &b.toC)
			ok = err == nil
		}
		if !ok {
			return nil, fmt.Errorf("a coverage profile holds the line %s", strconv.Quote(line))
		}
		blocks = append(blocks, b)
	}
	return blocks, nil
}

// covering returns the checks that run the place where a mutant is. Places that
// belong to no block, as the values of a case, are run by who runs any part of
// the function; what lies outside functions by all.
func covering(m *mutant, checks []*check, blocks []block) []*check {
	name := filepath.Base(m.file.name)
	pick := func(in func(block) bool) []*check {
		var some []*check
		for _, c := range checks {
			for _, b := range c.covered {
				if in(b) {
					some = append(some, c)
					break
				}
			}
		}
		return some
	}
	if m.unit == nil {
		return checks
	}
	here := func(b block) bool { return b.holds(name, m.line(), m.column()) }
	for _, b := range blocks {
		if here(b) {
			return pick(here)
		}
	}
	from, to := m.file.tok.Line(m.declaration.Pos()), m.file.tok.Line(m.declaration.End())
	return pick(func(b block) bool { return b.file == name && b.line >= from && b.toLine <= to })
}

// each does n things, as many at a time as there are workers.
func (w *workshop) each(n int, do func(i int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(w.workers, n) {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
