package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// An item is one document or row on its way through the filter. Its buffers are
// used again.
type item struct {
	line int
	in   []byte
	out  bytes.Buffer
	bad  bool // out holds an error
	done chan struct{}
}

// A filter reads, works on many items at a time, and writes in the order of
// reading.
type filter struct {
	options
	out     *bufio.Writer
	bad     io.Writer
	shown   meter
	workers int
	table   *table
	done    int // items that were written
	failed  int // of them
}

const (
	ahead = 16      // how many items each worker may be ahead of the slowest one
	keep  = 1 << 17 // bytes of a buffer that is used again
)

// run passes everything through. No more than a fixed number of items is under
// way, and when writing fails, reading stops.
func (f *filter) run(in io.Reader) error {
	s := newSplitter(in, f.rows, f.line)
	if f.rows {
		var err error
		if f.table, err = readHeader(s); err != nil {
			return err
		}
	}
	if f.pieces {
		if _, err := io.WriteString(f.out, pieceHeader); err != nil {
			return err
		}
	}
	n := f.workers * ahead
	free, todo, order := make(chan *item, n), make(chan *item, n), make(chan *item, n)
	for range n {
		free <- &item{done: make(chan struct{}, 1)}
	}
	stop := make(chan struct{})
	defer close(stop) // whoever waits for input ends with the program
	var readErr error // read when order is closed
	var group sync.WaitGroup
	for range f.workers {
		group.Go(func() {
			for it := range todo {
				f.work(it)
				it.done <- struct{}{}
			}
		})
	}
	go func() {
		defer close(order)
		defer close(todo)
		readErr = feed(s, free, todo, order, stop)
	}()
	for {
		it, err := f.next(order)
		switch {
		case err != nil:
			return err
		case it == nil:
			group.Wait()
			return readErr // what came before is out
		}
		<-it.done
		if err := f.write(it); err != nil {
			return err
		}
		free <- it
	}
}

// feed hands items to the workers and to the writer until the input ends.
func feed(s *splitter, free <-chan *item, todo, order chan<- *item, stop <-chan struct{}) error {
	for {
		var it *item
		select {
		case <-stop:
			return nil
		case it = <-free:
		}
		var err error
		if it.in, it.line, err = s.next(it.in[:0]); err != nil {
			if errors.Is(err, io.EOF) {
				return nil
			}
			return fmt.Errorf("line %d: %w", s.line, err)
		}
		todo <- it
		order <- it
	}
}

// write writes what became of an item.
func (f *filter) write(it *item) error {
	f.done++
	f.shown.show(f.done)
	to := io.Writer(f.out)
	if it.bad {
		f.failed++
		if f.pieces {
			to = f.bad
		}
	}
	_, err := to.Write(it.out.Bytes())
	if cap(it.in) > keep || it.out.Cap() > keep {
		it.in, it.out = nil, bytes.Buffer{}
	}
	return err
}

// next waits for the next item; what is written goes out first, if that takes
// waiting for more input.
func (f *filter) next(order <-chan *item) (*item, error) {
	select {
	case it := <-order:
		return it, nil
	default:
	}
	if err := f.out.Flush(); err != nil {
		return nil, err
	}
	return <-order, nil
}

// work makes of an item what goes out for it.
func (f *filter) work(it *item) {
	it.out.Reset()
	it.bad = false
	s, copies, err := f.read(it.in)
	var p *folio.Plan
	if err == nil {
		p, err = folio.Build(s)
	}
	o := f.document
	o.Line = it.line
	var doc []byte
	switch {
	case err != nil:
		it.bad = true
		o.Only = nil
		doc, err = wire.AppendError(it.out.AvailableBuffer(), err, notation(s), o)
	case f.pieces:
		writePieces(&it.out, it.line, copies, p)
		return
	default:
		opening := it.copies(copies, o.Indent)
		doc, err = wire.AppendPlan(it.out.AvailableBuffer(), p, o)
		doc = doc[opening:]
	}
	if err != nil { // of a document that read well: it can be written
		panic(err)
	}
	it.out.Write(doc)
	it.out.WriteByte('\n')
}

// copies begins a document with the number of copies, if there is one, and says
// how many bytes of the document that follows are there already.
func (it *item) copies(n string, indent int) int {
	if n == "" {
		return 0
	}
	it.out.WriteByte('{')
	if indent > 0 {
		it.out.WriteString("\n" + strings.Repeat(" ", indent))
	}
	it.out.WriteString(`"copies":`)
	if indent > 0 {
		it.out.WriteByte(' ')
	}
	it.out.WriteString(n + ",")
	return len("{")
}

// notation is the one that a Spec asks for.
func notation(s folio.Spec) units.Notation {
	if s.Rulers.Main == 0 {
		return units.Sixteenths.Notation()
	}
	return s.Rulers.Main.Notation()
}

// read reads a document or a row.
func (f *filter) read(data []byte) (folio.Spec, string, error) {
	if f.table != nil {
		return f.table.read(data)
	}
	s, err := wire.ReadSpec(data)
	return s, "", err
}
