package main

import (
	"context"
	"encoding"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A layer lays out and prices batches: each document of one that comes in, or the
// table of copies and sheets.
type layer struct {
	options
	out, bad io.Writer
	basis    cost.Basis // of a table
	only     [2][]string
	failed   bool
}

// The documents that go out, by what the names of their members begin with.
const (
	ofLayout = iota
	ofCosts
)

var prefixes = [2]string{"layout.", "costs."}

// newLayer makes a layer with what the flags say of costs.
func newLayer(o options, rate, fee string, margin int) (*layer, error) {
	l := &layer{options: o}
	for i, text := range [...]string{rate, fee} {
		if err := read([...]encoding.TextUnmarshaler{&l.basis.Rate, &l.basis.Fee}[i], text); err != nil {
			return nil, fmt.Errorf("-%s: %w", [...]string{"rate", "fee"}[i], err)
		}
	}
	if margin < 0 || margin > 99 {
		return nil, fmt.Errorf("-margin is %d; want a whole number of per cent from 0 to 99", margin)
	}
	l.basis.Margin = margin * 100
	if !o.rows && (rate != "" || fee != "" || margin != 0) {
		return nil, errors.New("-rate, -fee and -margin are for tables; a document has its costs")
	}
	for _, name := range o.document.Only {
		i := slices.IndexFunc(prefixes[:], func(of string) bool { return strings.HasPrefix(name, of) })
		if i < 0 {
			return nil, fmt.Errorf("-fields: %q is neither of the layout nor of the costs; want a name like layout.bought or costs.total", name)
		}
		l.only[i] = append(l.only[i], strings.TrimPrefix(name, prefixes[i]))
	}
	if len(o.document.Only) > 0 {
		laid, priced := sampleBatch()
		_, err := wire.AppendLayout(nil, laid, wire.Options{Only: l.only[ofLayout]})
		_, err2 := wire.AppendCosts(nil, priced, wire.Options{Only: l.only[ofCosts]})
		if err := errors.Join(err, err2); err != nil {
			return nil, fmt.Errorf("-fields: %w", err)
		}
	}
	return l, nil
}

// sampleBatch is a batch to try the names of members on.
func sampleBatch() (*layout.Layout, *cost.BatchCost) {
	laid, err := layout.Lay(context.Background(), layout.Job{}, layout.Budget{Steps: 1})
	if err != nil {
		panic(err) // a test makes this layout
	}
	priced, err := cost.Of(laid, cost.Basis{})
	if err != nil {
		panic(err)
	}
	return laid, priced
}

// read reads a text, if there is one.
func read(to encoding.TextUnmarshaler, text string) error {
	if text == "" {
		return nil
	}
	return to.UnmarshalText([]byte(text))
}

// run lays out everything. A table is one batch, and nothing of it is laid out
// where a row is wrong.
func (l *layer) run(in io.Reader) error {
	s := newSplitter(in, l.rows, l.line)
	if l.rows {
		return l.table(s)
	}
	for {
		doc, line, err := s.next(nil)
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("line %d: %w", s.line, err)
		}
		if err := l.batch(doc, line); err != nil {
			return err
		}
	}
}

// batch lays out the batch of a document.
func (l *layer) batch(doc []byte, line int) error {
	b, err := wire.ReadBatch(doc)
	if err != nil {
		return l.wrong(err, line)
	}
	job, _, err := b.Job()
	if err != nil {
		return l.wrong(err, line)
	}
	return l.lay(job, b.Costs, line)
}

// lay lays out and prices a job. Materials that its folios name and of which there
// are no sheets are left out of it, which is said.
func (l *layer) lay(job layout.Job, basis cost.Basis, line int) error {
	job, lacking := job.Stocked()
	for _, name := range lacking {
		fmt.Fprintf(l.bad, "sizes: there are no sheets of %s: it is left out\n", check.Quote(name))
	}
	job.Except = append(job.Except, lacking...)
	laid, err := layout.Lay(context.Background(), job, layout.Budget{})
	if err != nil {
		if err := l.wrong(err, line); err != nil || laid == nil {
			return err
		}
	}
	if err := l.write(ofLayout, func(o wire.Options) ([]byte, error) { return wire.AppendLayout(nil, laid, o) }); err != nil {
		return err
	}
	priced, err := cost.Of(laid, basis)
	if err != nil {
		return l.wrong(err, line)
	}
	return l.write(ofCosts, func(o wire.Options) ([]byte, error) { return wire.AppendCosts(nil, priced, o) })
}

// write writes one of the two documents, unless only members of the other are
// wanted.
func (l *layer) write(which int, document func(wire.Options) ([]byte, error)) error {
	if len(l.document.Only) > 0 && len(l.only[which]) == 0 {
		return nil
	}
	doc, err := document(wire.Options{Indent: l.document.Indent, Only: l.only[which]})
	if err != nil {
		return err
	}
	_, err = l.out.Write(append(doc, '\n'))
	return err
}

// wrong writes the document of an error.
func (l *layer) wrong(err error, line int) error {
	l.failed = true
	doc, err := wire.AppendError(nil, err, units.InchFraction, wire.Options{Indent: l.document.Indent, Line: line})
	if err != nil {
		return err
	}
	_, err = l.out.Write(append(doc, '\n'))
	return err
}

// mostRows bounds a table that is laid out: it is all held at once.
const mostRows = layout.MostKinds

// The columns of a table besides those of a Spec.
var extras = [...]string{"copies", "minutes", "sheet.material", "sheet.size", "sheet.grain", "sheet.count", "sheet.price", "sheet.trim", "sheet.offcut"}

// A batchTable is the columns of a table of copies and sheets.
type batchTable struct {
	specs   *wire.Columns
	own     [len(extras)]int // where they stand, -1 for nowhere
	columns int
}

// newBatchTable reads a header.
func newBatchTable(names []string) (*batchTable, error) {
	t := &batchTable{columns: len(names)}
	var specs []string
	for i := range t.own {
		t.own[i] = -1
	}
	for i, name := range names {
		k := slices.Index(extras[:], strings.ToLower(strings.TrimSpace(name)))
		switch {
		case k < 0:
			specs = append(specs, name)
		case t.own[k] >= 0:
			return nil, fmt.Errorf("column %d, %s: there is such a column already", i+1, check.Quote(name))
		default:
			t.own[k] = i
		}
	}
	var err error
	t.specs, err = wire.NewColumns(specs)
	return t, err
}

// split returns the cells of a row that are of a Spec, and the others in their
// order.
func (t *batchTable) split(row []string) (spec []string, own [len(extras)]string, err error) {
	if len(row) != t.columns {
		return nil, own, fmt.Errorf("%d cells; want %d, as in the header", len(row), t.columns)
	}
	for i, cell := range row {
		if k := slices.Index(t.own[:], i); k >= 0 {
			own[k] = strings.TrimSpace(cell)
		} else {
			spec = append(spec, cell)
		}
	}
	return spec, own, nil
}

// table lays out a table.
func (l *layer) table(s *splitter) error {
	header, err := headerCells(s)
	if err != nil {
		return err
	}
	t, err := newBatchTable(header)
	if err != nil {
		return &headerError{err}
	}
	job, basis := layout.Job{}, l.basis
	for rows := 0; ; rows++ {
		line, at, err := s.next(nil)
		switch {
		case errors.Is(err, io.EOF):
			if l.failed {
				return nil
			}
			return l.lay(job, basis, 0)
		case err != nil:
			return fmt.Errorf("line %d: %w", s.line, err)
		case rows == mostRows:
			return fmt.Errorf("line %d: a table that is laid out has at most %d rows", at, mostRows)
		}
		if err := t.row(line, &job, &basis); err != nil {
			if err := l.wrong(err, at); err != nil {
				return err
			}
		}
	}
}

// row takes what a row says into the job: a folio, or a kind of sheet.
func (t *batchTable) row(line []byte, job *layout.Job, basis *cost.Basis) error {
	row, err := cells(line)
	if err != nil {
		return err
	}
	spec, own, err := t.split(row)
	if err != nil {
		return err
	}
	isSheet := !empty(own[2:])
	if isSheet && (!empty(spec) || !empty(own[:2])) {
		return errors.New("a row is a folio or a kind of sheet; this is both")
	}
	if isSheet {
		return addSheet(own, job)
	}
	s, err := t.specs.Read(spec)
	copies, minutes := 1, 0
	bad := errors.Join(whole(own[:], 0, 1, mostCopies, &copies), whole(own[:], 1, 0, mostCopies, &minutes), err)
	if bad != nil {
		return bad
	}
	p, err := folio.Build(s)
	if err != nil {
		return err
	}
	job.Folios = append(job.Folios, layout.Folio{Plan: p, Copies: copies})
	basis.Minutes = append(basis.Minutes, minutes)
	return nil
}

// addSheet takes a kind of sheet into a job: as many as are needed, where no
// number says how many there are.
func addSheet(own [len(extras)]string, job *layout.Job) error {
	kind := layout.SheetKind{Count: layout.Unlimited}
	var price money.Amount
	var bad []error
	for i, to := range map[int]encoding.TextUnmarshaler{3: &kind.Size, 4: &kind.Grain, 6: &price, 7: &kind.Trim} {
		if err := read(to, own[i]); err != nil {
			bad = append(bad, fmt.Errorf("%s: got %s; %w", extras[i], check.Quote(own[i]), err))
		}
	}
	slices.SortFunc(bad, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
	kind.Price = price
	bad = append(bad, whole(own[:], 5, 1, mostCopies, &kind.Count))
	if yes := own[8]; yes != "" && yes != "true" && yes != "false" {
		bad = append(bad, fmt.Errorf("%s: got %s; want true or false", extras[8], check.Quote(yes)))
	}
	kind.Offcut = own[8] == "true"
	for _, i := range [...]int{2, 3} {
		if own[i] == "" {
			bad = append(bad, fmt.Errorf("%s: nothing is there; a kind of sheet needs it", extras[i]))
		}
	}
	if err := errors.Join(bad...); err != nil {
		return err
	}
	at := slices.IndexFunc(job.Materials, func(m layout.Material) bool { return m.Name == own[2] })
	if at < 0 {
		at = len(job.Materials)
		job.Materials = append(job.Materials, layout.Material{Name: own[2]})
	}
	job.Materials[at].Sheets = append(job.Materials[at].Sheets, kind)
	return nil
}

func empty(cells []string) bool {
	return !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" })
}

// whole reads a whole number, if there is one.
func whole(own []string, i, least, most int, to *int) error {
	if own[i] == "" {
		return nil
	}
	n, err := strconv.Atoi(own[i])
	if err != nil || n < least || n > most {
		return fmt.Errorf("%s: got %s; want a whole number from %d to %d", extras[i], check.Quote(own[i]), least, most)
	}
	*to = n
	return nil
}
