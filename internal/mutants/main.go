package main

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"
)

// options are what the command line asks for.
type options struct {
	root, equivalents string
	patterns          []string
	n                 int
	seed              uint64
	budget            time.Duration
	workers           int
	texts, list       bool
	short             bool
	tests             string
	show, only, ops   string
	judge, because    string
	dependents        bool
	floor, roundings  float64
}

// usual are the packages that are tried if none is named.
var usual = []string{"./units/...", "./score/...", "./pocket/...", "./folio/...", "./internal/packing/..."}

// errFloor says that too few mutants were noticed, or that a list is wrong:
// what it was about is printed.
var errFloor = errors.New("the tests do not notice what they should")

func main() {
	o := options{}
	flag.StringVar(&o.root, "root", "../..", "`directory` of the module that is tried")
	flag.StringVar(&o.equivalents, "equivalents", "equivalent.json", "`file` with the mutants judged equivalent")
	flag.IntVar(&o.n, "n", 0, "try a sample of so `many` mutants")
	flag.Uint64Var(&o.seed, "seed", 1, "`seed` of the sample and of the order in which mutants are tried")
	flag.DurationVar(&o.budget, "time", 0, "try mutants for about this `time`, building not counted, shared among the packages; an interrupt stops at once, with what is known by then")
	flag.IntVar(&o.workers, "j", runtime.GOMAXPROCS(0), "mutants at a time")
	flag.BoolVar(&o.texts, "texts", false, "mutants of String methods too")
	flag.BoolVar(&o.list, "list", false, "list the mutants and the judgements about none of them, and try none")
	flag.BoolVar(&o.short, "short", false, "run the tests with -short")
	flag.StringVar(&o.tests, "run", "", "only tests whose names match this `expression`")
	flag.StringVar(&o.show, "show", "", "print the mutants with these `names`, separated by commas, as diffs")
	flag.StringVar(&o.judge, "judge", "", "write the mutants with these `names`, separated by commas, into the list of equivalents, and take out of it what fits no mutant of these packages")
	flag.StringVar(&o.because, "because", "", "the `reason` why they are equivalent")
	flag.StringVar(&o.only, "only", "", "try the mutants with these `names` only, separated by commas")
	flag.StringVar(&o.ops, "operators", "", "only mutants of these `operators`, separated by commas")
	flag.BoolVar(&o.dependents, "dependents", false, "run the tests of the packages that import the survivors' too")
	flag.Float64Var(&o.floor, "floor", 0, "fail if fewer than so many `percent` are noticed")
	flag.Float64Var(&o.roundings, "rounding-floor", 0, "fail if fewer than so many `percent` of the directions of rounding are noticed")
	flag.Parse()
	o.patterns = flag.Args()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	switch err := o.run(ctx, os.Stdout); {
	case errors.Is(err, errFloor):
		os.Exit(1)
	case err != nil:
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
}

func (o options) run(ctx context.Context, out io.Writer) error {
	root, err := filepath.Abs(o.root)
	if err != nil {
		return err
	}
	if len(o.patterns) == 0 {
		o.patterns = usual
	}
	subjects, err := load(root, o.patterns)
	if err != nil {
		return err
	}
	list, err := judgements(o.equivalents)
	if err != nil {
		return err
	}
	var found []*mutant
	for _, s := range subjects {
		found = append(found, find(s, o.texts)...)
	}
	stale := judge(list, subjects, found)
	chosen, err := o.choose(found)
	if err != nil {
		return err
	}
	switch {
	case o.show != "":
		for _, m := range chosen {
			diff(out, root, m)
		}
		return nil
	case o.judge != "":
		return addJudgements(o.equivalents, list, stale, chosen, o.because)
	case o.list:
		for _, m := range chosen {
			fmt.Fprintln(out, m.describe(root))
		}
		return o.verdict(out, root, nil, stale)
	}
	return o.try(ctx, out, root, subjects, chosen, stale)
}

// choose keeps the mutants that were asked for and type-check, and of those a
// sample.
func (o options) choose(found []*mutant) ([]*mutant, error) {
	names := cmp.Or(o.show, o.judge, o.only)
	found = slices.DeleteFunc(found, func(m *mutant) bool {
		return names != "" && !inList(names, m.id()) || o.ops != "" && !inList(o.ops, string(m.op))
	})
	if names != "" && len(found) == 0 {
		return nil, fmt.Errorf("there is no mutant %s in %s", names, strings.Join(o.patterns, " "))
	}
	for _, group := range bySubject(found) {
		if _, err := instrument(group[0].subject, group); err != nil {
			return nil, fmt.Errorf("%s: %w", group[0].subject.room, err)
		}
	}
	for _, m := range found {
		if m.unit != nil {
			continue
		}
		if err := m.checkAlone(false); err != nil { // as where two elements of a list get one index
			m.outcome, m.by = illegal, err.Error()
		}
	}
	found = slices.DeleteFunc(found, func(m *mutant) bool { return m.outcome == illegal })
	if o.n > 0 && o.n < len(found) {
		chance := rand.New(rand.NewPCG(o.seed, 0))
		chance.Shuffle(len(found), func(i, j int) { found[i], found[j] = found[j], found[i] })
		found = found[:o.n]
	}
	return found, nil
}

func inList(list, name string) bool { return slices.Contains(strings.Split(list, ","), name) }

// bySubject returns the mutants of each package, in the order of the packages.
func bySubject(mutants []*mutant) [][]*mutant {
	var groups [][]*mutant
	at := map[*subject]int{}
	for _, m := range mutants {
		i, ok := at[m.subject]
		if !ok {
			i = len(groups)
			at[m.subject] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], m)
	}
	slices.SortFunc(groups, func(a, b []*mutant) int { return strings.Compare(a[0].subject.path, b[0].subject.path) })
	return groups
}

func (o options) try(ctx context.Context, out io.Writer, root string, subjects []*subject, chosen []*mutant, stale []judgement) error {
	tests, err := regexp.Compile(o.tests)
	if err != nil {
		return err
	}
	tmp, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	start := time.Now()
	w := &workshop{root: root, tmp: tmp, workers: max(o.workers, 1), short: o.short, tests: tests, log: func(format string, args ...any) {
		fmt.Fprintf(os.Stderr, "%5.0f s  %s\n", time.Since(start).Seconds(), fmt.Sprintf(format, args...))
	}}
	fmt.Fprintf(out, "%d mutants, seed %d\n", len(chosen), o.seed)
	var failed []error // packages that could not be tried; the others are
	var left time.Duration
	for _, group := range bySubject(chosen) {
		// Each package has its share of the time, and what the others left.
		left += o.budget * time.Duration(len(group)) / time.Duration(len(chosen))
		if err := o.tryPackage(ctx, out, w, group, &left); err != nil {
			failed = append(failed, err)
		}
		if ctx.Err() != nil {
			failed = append(failed, ctx.Err()) // what is known so far is printed
			break
		}
	}
	slices.SortStableFunc(chosen, func(a, b *mutant) int {
		if c := strings.Compare(a.file.name, b.file.name); c != 0 {
			return c
		}
		return a.start - b.start
	})
	fmt.Fprintln(out)
	table(out, subjects, chosen)
	survivors(out, root, chosen)
	if len(failed) > 0 {
		return errors.Join(failed...)
	}
	return o.verdict(out, root, chosen, stale)
}

// tryPackage tries mutants of one package, in a random order, for as long as
// there is time left, if there is a bound, and takes off what it used. Building
// does not count: it has to be done for one mutant as for all.
func (o options) tryPackage(ctx context.Context, out io.Writer, w *workshop, group []*mutant, left *time.Duration) error {
	s := group[0].subject
	if !s.tested {
		fmt.Fprintf(out, "%s has no tests of its own: %d mutants are not tried\n", s.room, len(group))
		return nil
	}
	b, err := w.prepare(ctx, s, group)
	if err != nil {
		return err
	}
	if len(b.leftOut) > 0 {
		fmt.Fprintf(out, "%s without %s, which cannot pass on an instrumented package\n", s.room, strings.Join(b.leftOut, ", "))
	}
	order := slices.Clone(group)
	rand.New(rand.NewPCG(o.seed, 1)).Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
	start := time.Now()
	defer func() { *left = max(*left-time.Since(start), 0) }()
	w.each(len(order), func(i int) {
		if i > 0 && i%250 == 0 {
			w.log("%s: %d of %d", s.room, i, len(order))
		}
		if ctx.Err() == nil && (o.budget == 0 || time.Since(start) < *left) {
			b.try(ctx, order[i])
			if order[i].isSurvivor() {
				w.log("%s", order[i].describe(w.root))
			}
		}
	})
	w.log("%s: %d mutants tried", s.room, len(group))
	if o.dependents {
		return b.tryDependents(ctx, order)
	}
	return nil
}

// verdict says what is wrong with the outcome or the list of equivalents.
func (o options) verdict(out io.Writer, root string, mutants []*mutant, stale []judgement) error {
	bad := false
	for _, m := range mutants {
		if m.reason != "" && m.wasNoticed() {
			fmt.Fprintf(out, "\nJudged equivalent, but noticed by %s: %s\n", m.by, m.describe(root))
			bad = true
		}
	}
	for _, j := range stale {
		fmt.Fprintf(out, "\nJudged equivalent, but no mutant of this tree: %+v\n", j.identity)
		bad = true
	}
	if p := count(mutants, all).percent(); p < o.floor {
		fmt.Fprintf(out, "\n%.1f %% are noticed; the floor is %.1f\n", p, o.floor)
		bad = true
	}
	if p := count(mutants, isRounding).percent(); p < o.roundings {
		fmt.Fprintf(out, "\n%.1f %% of the directions of rounding are noticed; the floor is %.1f\n", p, o.roundings)
		bad = true
	}
	if bad {
		return errFloor
	}
	return nil
}
