// Sizes is a filter: Specs come in as JSON documents, one a line or one after
// the other, or as rows of a table, and plans go out in the same order. A rowing
// club that makes a folio for every crew keeps its crews in a spreadsheet:
//
//	go run ./examples/sizes < crews.jsonl
//	go run ./examples/sizes -fields pieces.name,pieces.size < crews.jsonl
//	go run ./examples/sizes -in csv -csv pieces < crews.csv
//	go run ./examples/sizes -lay -in csv -rate "18 USD" < batch.csv
//	go run ./examples/sizes -schema spec
//
// What cannot be made goes out in its place as the document of an error, with
// the line of the input that it begins at; where a table goes out, such
// documents go to the standard error. The exit status is 1 when one failed, 2
// when the program was called in a way that it does not know. What comes out for
// a line depends on that line alone, so that parts of the input can be worked on
// anywhere and put together again.
//
// With -lay batches come in, as a table of copies and sheets or as documents, and
// each goes out as the document of its layout and that of its costs.
//
// A document ends where its braces do. A line that begins with { in a place
// where the document before cannot go on, or with "version" as its first member,
// begins a new one: a broken line spoils no other. A row is one line. No document
// or row may be longer than wire.MostBytes, and memory does not grow with the
// input.
package main

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, terminal()))
}

// The exit statuses.
const (
	allDone   = 0
	oneFailed = 1
	misuse    = 2
)

// rubbish is how many percent of what is in use may pile up before it is
// collected: little is in use at a time, whatever comes in.
const rubbish = 400

// enough is how many bytes may be in use, rubbish included, before it is collected
// sooner than that. Only documents as long as there may be take more.
const enough = 40 << 20

// schemas are those that can be printed; nothing changes them.
var schemas = map[string]func() []byte{"spec": wire.SpecSchema, "plan": wire.PlanSchema, "error": wire.ErrorSchema, "costs": wire.CostsSchema,
	"batch": wire.BatchSchema, "request": wire.RequestSchema, "proposals": wire.ProposalsSchema, "layout": wire.LayoutSchema, "closing": wire.ClosingSchema,
	"holding": wire.HoldingSchema, "posting": wire.PostingSchema}

// schemaNames lists the schemas.
func schemaNames() string { return strings.Join(slices.Sorted(maps.Keys(schemas)), ", ") }

// options are what the program was called with.
type options struct {
	rows     bool // a table comes in
	pieces   bool // a table of pieces goes out
	line     int  // of the input's beginning
	lay      bool // batches come in, layouts and costs go out
	document wire.Options
}

// run is the program; shown is where progress is shown, nil for nowhere.
func run(args []string, in io.Reader, out, bad, shown io.Writer) int {
	set := flag.NewFlagSet("sizes", flag.ContinueOnError)
	set.SetOutput(bad)
	format := set.String("in", "json", "what comes in: json, a stream of documents; csv, a table with the paths of fields in its header, and copies")
	table := set.String("csv", "", "a table that goes out instead of documents: pieces")
	pretty := set.Bool("pretty", false, "documents with a member on each line")
	fields := set.String("fields", "", "members of the plan that are wanted, as in pieces.name,pieces.size (default all)")
	first := set.Int("line", 1, "number of the first line of the input, where it is a part of a longer one")
	lay := set.Bool("lay", false, "lay out and price: a table of copies and sheets (-in csv), or documents of batches; -fields are then those of the layout and the costs")
	rate := set.String("rate", "", "what an hour of work costs, for the table of -lay: 18 USD")
	fee := set.String("fee", "", "what is paid once, for the table of -lay: 25 USD")
	margin := set.Int("margin", 0, "what is wanted of the price, in per cent, for the table of -lay")
	schema := set.String("schema", "", "print the schema of a document and do nothing else: "+schemaNames())
	if err := set.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return allDone
		}
		return misuse
	}
	o := options{rows: *format == "csv", pieces: *table == "pieces", line: *first, lay: *lay}
	if *pretty {
		o.document.Indent = 2
	}
	for name := range strings.SplitSeq(*fields, ",") {
		if name = strings.TrimSpace(name); name != "" {
			o.document.Only = append(o.document.Only, name)
		}
	}
	err := o.check(*format, *table, set.Args())
	if _, ok := schemas[*schema]; !ok && *schema != "" && err == nil {
		err = fmt.Errorf("-schema is %q; want one of %s", *schema, schemaNames())
	}
	var l *layer
	if *lay && err == nil {
		l, err = newLayer(o, *rate, *fee, *margin)
	} else if err == nil && (*rate != "" || *fee != "" || *margin != 0) {
		err = errors.New("-rate, -fee and -margin are for the table of -lay")
	}
	if err != nil {
		fmt.Fprintln(bad, "sizes:", err)
		return misuse
	}
	if *schema != "" {
		if _, err := out.Write(schemas[*schema]()); err != nil {
			return failed(bad, err)
		}
		return allDone
	}
	if l != nil {
		l.out, l.bad = out, bad
		err = l.run(in)
		return ended(bad, err, l.failed)
	}
	defer debug.SetGCPercent(debug.SetGCPercent(rubbish))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(enough))
	f := &filter{options: o, bad: bad, shown: meter{to: shown}, workers: runtime.GOMAXPROCS(0)}
	f.out = bufio.NewWriterSize(out, 1<<16)
	err = f.run(in)
	if last := f.out.Flush(); err == nil {
		err = last
	}
	f.shown.end(f.done)
	return ended(bad, err, f.failed > 0)
}

// ended is the exit status.
func ended(bad io.Writer, err error, one bool) int {
	var wrong *headerError
	switch {
	case errors.As(err, &wrong):
		fmt.Fprintln(bad, "sizes:", err)
		return misuse
	case err != nil:
		return failed(bad, err)
	case one:
		return oneFailed
	}
	return allDone
}

// check refuses what would only be found out later, or for every document.
func (o options) check(format, table string, rest []string) error {
	switch {
	case len(rest) > 0:
		return fmt.Errorf("%q is left over; documents come from the standard input", rest[0])
	case format != "json" && format != "csv":
		return fmt.Errorf("-in is %q; want json or csv", format)
	case table != "" && table != "pieces":
		return fmt.Errorf("-csv is %q; want pieces", table)
	case o.line < 1:
		return fmt.Errorf("-line is %d; want 1 or more", o.line)
	case o.pieces && o.lay:
		return errors.New("-csv is for plans; want it without -lay")
	case o.pieces && (len(o.document.Only) > 0 || o.document.Indent > 0):
		return errors.New("-fields and -pretty are for documents; want them without -csv")
	}
	if o.lay {
		return nil
	}
	_, err := wire.AppendPlan(nil, sample(), o.document)
	if err != nil {
		return fmt.Errorf("-fields: %w", err)
	}
	return nil
}

// sample is a plan to try the names of members on.
func sample() *folio.Plan {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		panic(err) // a test makes this plan
	}
	return p
}

// failed says what went wrong with reading or writing. That nobody reads on is
// no failure: the program stops, as a filter does.
func failed(bad io.Writer, err error) int {
	if errors.Is(err, syscall.EPIPE) || errors.Is(err, io.ErrClosedPipe) {
		return allDone
	}
	fmt.Fprintln(bad, "sizes:", err)
	return oneFailed
}
