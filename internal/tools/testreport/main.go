// Command testreport reads what go test -json -cover prints and prints it as go
// test would: a line a package, and all that a test that fails has to say.
//
//	go test -json -cover ./... | testreport -floors coverage.txt -skipped skipped.txt
//
// It names the tests that were skipped, with the reason that they give, and
// compares how many of the statements of each package are covered with the
// committed floors. It fails if a test does, if a package has fallen below its
// floor, or one with a floor was not covered at all. With -write it writes the
// floors instead: what is covered now, rounded down to a half.
package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

func main() {
	floors := flag.String("floors", "", "`file` with the floors of coverage")
	skipped := flag.String("skipped", "", "`file` that gets a line for each test that was skipped")
	write := flag.Bool("write", false, "write the floors")
	flag.Parse()
	if err := run(os.Stdin, os.Stdout, *floors, *skipped, *write); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// An event is a line of go test -json (cmd/test2json).
type event struct {
	Action, Package, ImportPath, Test, Output string
}

var statements = regexp.MustCompile(`coverage: ([0-9.]+)% of statements`)

// results is what the events come to.
type results struct {
	failed  bool
	percent map[string]float64
	skipped []string
}

func run(in io.Reader, out io.Writer, floors, skipped string, write bool) error {
	r, err := read(in, out)
	if err != nil {
		return err
	}
	if skipped != "" {
		if err := os.WriteFile(skipped, []byte(strings.Join(r.skipped, "")), 0o666); err != nil {
			return err
		}
	}
	if r.failed {
		return errors.New("tests fail")
	}
	if floors == "" {
		return nil
	}
	if write {
		return os.WriteFile(floors, []byte(r.floors()), 0o666)
	}
	text, err := os.ReadFile(floors)
	if err != nil {
		return err
	}
	return r.compare(string(text))
}

func read(in io.Reader, out io.Writer) (*results, error) {
	r := &results{percent: map[string]float64{}}
	said := map[[2]string][]string{} // by package and test
	sc := bufio.NewScanner(in)
	sc.Buffer(nil, 1<<26)
	for sc.Scan() {
		var e event
		if err := json.Unmarshal(sc.Bytes(), &e); err != nil {
			return nil, fmt.Errorf("this is not from go test -json: %s", sc.Text())
		}
		key := [2]string{e.Package, e.Test}
		switch e.Action {
		case "build-output":
			fmt.Fprint(out, e.Output)
		case "output":
			said[key] = append(said[key], e.Output)
			if m := statements.FindStringSubmatch(e.Output); m != nil && e.Test == "" {
				r.percent[e.Package], _ = strconv.ParseFloat(m[1], 64)
			}
		case "pass", "skip", "fail":
			r.ended(out, e, said[key])
			delete(said, key)
		}
	}
	return r, sc.Err()
}

// ended prints what a test or package has said if it failed, and the line of a
// package that passed.
func (r *results) ended(out io.Writer, e event, said []string) {
	switch {
	case e.Action == "fail":
		r.failed = true
		fmt.Fprint(out, strings.Join(said, ""))
	case e.Test != "" && e.Action == "skip":
		why := ""
		for _, line := range said {
			if !strings.HasPrefix(strings.TrimSpace(line), "--- SKIP") && !strings.HasPrefix(line, "=== ") {
				why += " " + strings.TrimSpace(line)
			}
		}
		r.skipped = append(r.skipped, e.Package+"."+e.Test+":"+why+"\n")
	case e.Test == "" && len(said) > 0: // the line with ok, or that there are no tests
		fmt.Fprint(out, said[len(said)-1])
	}
}

// floors returns the text of the file of floors.
func (r *results) floors() string {
	var b strings.Builder
	b.WriteString("# How many percent of its statements the tests of a package cover at least.\n")
	for _, p := range slices.Sorted(maps.Keys(r.percent)) {
		if r.percent[p] > 0 {
			fmt.Fprintf(&b, "%s %.1f\n", p, math.Floor(2*r.percent[p])/2)
		}
	}
	return b.String()
}

func (r *results) compare(floors string) error {
	var errs []error
	for n, line := range strings.Split(floors, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		name, number, _ := strings.Cut(line, " ")
		floor, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return fmt.Errorf("line %d of the floors: %s", n+1, line)
		}
		switch got, ok := r.percent[name]; {
		case !ok:
			errs = append(errs, fmt.Errorf("%s has a floor of %.1f %% and was not covered", name, floor))
		case got < floor:
			errs = append(errs, fmt.Errorf("%s is covered to %.1f %%; the floor is %.1f", name, got, floor))
		}
	}
	return errors.Join(errs...)
}
