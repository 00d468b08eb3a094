package main

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A workshop is where mutants are built and run.
type workshop struct {
	root, tmp string
	workers   int
	short     bool // run tests with -short
	tests     *regexp.Regexp
	log       func(format string, args ...any)
}

// bench is what a package's mutants are run on.
type bench struct {
	*workshop
	subject *subject
	binary  string
	overlay string
	checks  []*check
	leftOut []string // checks that fail on the instrumented package without a mutant
	blocks  []block  // all that any check runs
}

// prepare sees what the tests cover and builds the instrumented test binary of
// a package.
func (w *workshop) prepare(ctx context.Context, s *subject, mutants []*mutant) (*bench, error) {
	b := &bench{workshop: w, subject: s}
	var err error
	start := time.Now()
	if b.checks, err = w.coverage(ctx, s); err != nil {
		return nil, err
	}
	for _, c := range b.checks {
		b.blocks = append(b.blocks, c.covered...)
	}
	covered := time.Since(start)
	in, err := instrument(s, mutants)
	if err != nil {
		return nil, err
	}
	name := strings.ReplaceAll(s.room, "/", "_")
	b.binary = filepath.Join(w.tmp, name+".test")
	if b.overlay, err = w.writeOverlay(name, s, in.files); err != nil {
		return nil, err
	}
	start = time.Now()
	if err := buildTest(w.root, s, b.binary, "-overlay="+b.overlay); err != nil {
		return nil, err
	}
	w.log("%s: %d checks, covered in %.1f s, built in %.1f s", s.room, len(b.checks), covered.Seconds(), time.Since(start).Seconds())
	return b, b.leaveOut(ctx)
}

func (w *workshop) writeOverlay(name string, s *subject, files map[string]string) (string, error) {
	dir := filepath.Join(w.tmp, name+".overlay")
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	replace := map[string]string{}
	put := func(instead, text string) error {
		to := filepath.Join(dir, filepath.Base(instead))
		replace[instead] = to
		return os.WriteFile(to, []byte(text), 0o666)
	}
	for instead, text := range files {
		if err := put(instead, text); err != nil {
			return "", err
		}
	}
	if err := put(helperName(s), helper(s.types.Name())); err != nil {
		return "", err
	}
	text, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	overlay := filepath.Join(dir, "overlay.json")
	return overlay, os.WriteFile(overlay, text, 0o666)
}

// leaveOut finds the checks that do not pass on the instrumented package with
// no mutant switched on, such as counts of allocations, and does without them.
func (b *bench) leaveOut(ctx context.Context) error {
	for range len(b.checks) {
		r := b.run(ctx, b.binary, b.subject.dir, b.checks, 0, false)
		if r.passed {
			return nil
		}
		if len(r.failed) == 0 {
			return fmt.Errorf("%s: instrumented, but with no mutant, the tests end with: %s", b.subject.room, r.how)
		}
		for _, name := range r.failed {
			b.leftOut = append(b.leftOut, name)
			b.checks = slices.DeleteFunc(b.checks, func(c *check) bool { return c.name == name })
		}
	}
	return nil
}

// A run is how running some checks went.
type run struct {
	passed, hung bool
	failed       []string
	how          string
}

var failure = regexp.MustCompile(`(?m)^--- FAIL: (\S+)`)

// run runs checks with a mutant switched on, 0 for none, which stops at the
// first failure, in at most a multiple of the processor time that they take by
// themselves.
func (b *bench) run(ctx context.Context, binary, dir string, checks []*check, number int, first bool) run {
	var names []string
	var cpu time.Duration
	for _, c := range checks {
		names = append(names, c.name)
		cpu += c.cpu
	}
	seconds := math.Ceil((3*cpu + 1500*time.Millisecond).Seconds())
	// The clock is for what waits and does not work; other work on the machine
	// must not look like that.
	wall := time.Duration(10*seconds+60) * time.Second
	args := []string{"-test.timeout=" + wall.String(), "-test.run=^(" + strings.Join(names, "|") + ")$"}
	if b.short {
		args = append(args, "-test.short")
	}
	if first {
		args = append(args, "-test.failfast")
	}
	ctx, cancel := context.WithTimeout(ctx, wall+10*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, binary, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), switchVariable+"="+strconv.Itoa(number), secondsVar+"="+strconv.Itoa(int(seconds)))
	out := &head{most: 1 << 20}
	cmd.Stdout, cmd.Stderr = out, out
	err := cmd.Run()
	if err == nil {
		return run{passed: true}
	}
	text := string(out.text)
	r := run{how: err.Error()}
	for _, f := range failure.FindAllStringSubmatch(text, -1) {
		r.failed = append(r.failed, f[1])
	}
	for _, sign := range []string{"SIGXCPU", "signal: killed", "signal: CPU", "panic: test timed out", "out of memory", "cannot allocate memory", "stack exceeds"} {
		if len(r.failed) == 0 && (strings.Contains(text, sign) || strings.Contains(r.how, sign)) {
			r.hung, r.how = true, sign
		}
	}
	if len(r.failed) == 0 && !r.hung {
		if i := strings.Index(text, "panic: "); i >= 0 {
			line, _, _ := strings.Cut(text[i:], "\n")
			r.how = short(line, 60)
		}
	}
	return r
}

// head keeps the beginning of what is written.
type head struct {
	text []byte
	most int
}

func (h *head) Write(p []byte) (int, error) {
	if room := h.most - len(h.text); room > 0 {
		h.text = append(h.text, p[:min(room, len(p))]...)
	}
	return len(p), nil
}

// try runs a mutant against the checks that cover it and says what became of
// it.
func (b *bench) try(ctx context.Context, m *mutant) {
	binary := b.binary
	if m.unit == nil {
		var err error
		if binary, err = b.ownBuild(m); err != nil {
			// Either the package does not take it, or what the tests say of the
			// package is no more so.
			if wrong := m.checkAlone(true); wrong != nil {
				m.outcome, m.by = illegal, wrong.Error()
			} else {
				m.outcome, m.by = noticed, err.Error()
			}
			return
		}
		defer os.Remove(binary)
	}
	checks := covering(m, b.checks, b.blocks)
	if len(checks) == 0 {
		m.outcome = uncovered
		return
	}
	for _, batch := range batches(checks) {
		r := b.run(ctx, binary, b.subject.dir, batch, m.number, true)
		if ctx.Err() != nil {
			return
		}
		if !r.passed {
			m.outcome, m.by = noticed, r.how
			if r.hung {
				m.outcome = hung
			} else if len(r.failed) > 0 {
				m.by = r.failed[0]
			}
			return
		}
	}
	m.outcome = survived
}

// batches puts the quick checks before the slow ones.
func batches(checks []*check) [][]*check {
	sorted := slices.Clone(checks)
	slices.SortStableFunc(sorted, func(a, b *check) int { return int(a.cpu - b.cpu) })
	var all [][]*check
	limit, sum := 200*time.Millisecond, time.Duration(0)
	for i, c := range sorted {
		sum += c.cpu
		if i == 0 || sum > limit {
			all = append(all, nil)
			for sum > limit {
				limit *= 6
			}
		}
		all[len(all)-1] = append(all[len(all)-1], c)
	}
	return all
}

// ownBuild builds the test binary with one mutant in the text and none
// switched.
func (b *bench) ownBuild(m *mutant) (string, error) {
	text := apply(m.file.text, 0, len(m.file.text), []edit{{m.start, m.end, m.text}})
	name := strings.ReplaceAll(b.subject.room, "/", "_") + "." + m.id()
	overlay, err := b.writeOverlay(name, b.subject, map[string]string{m.file.name: text})
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(filepath.Dir(overlay))
	binary := filepath.Join(b.tmp, name+".test")
	return binary, buildTest(b.root, b.subject, binary, "-overlay="+overlay)
}
