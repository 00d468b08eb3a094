package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units/check"
)

// mostCopies bounds the column that is passed through.
const mostCopies = 1_000_000

// A table is the columns of what comes in.
type table struct {
	columns *wire.Columns
	copies  int // the column that is passed through, −1 for none
}

// A headerError is a header that names what there is not.
type headerError struct{ error }

// headerCells reads the first row, which may begin with the mark of byte order
// that spreadsheets write.
func headerCells(s *splitter) ([]string, error) {
	line, _, err := s.next(nil)
	if errors.Is(err, io.EOF) {
		return nil, &headerError{errors.New("the table has no header")}
	}
	if err != nil {
		return nil, err
	}
	names, err := cells(bytes.TrimPrefix(line, []byte("\xef\xbb\xbf")))
	if err != nil {
		return nil, &headerError{fmt.Errorf("header: %w", err)}
	}
	return names, nil
}

// readHeader reads the columns.
func readHeader(s *splitter) (*table, error) {
	names, err := headerCells(s)
	if err != nil {
		return nil, err
	}
	t := &table{copies: -1}
	for i, name := range names {
		if t.copies < 0 && strings.EqualFold(strings.TrimSpace(name), "copies") {
			t.copies = i
		}
	}
	_, names = t.without(names)
	if t.columns, err = wire.NewColumns(names); err != nil {
		return nil, &headerError{err}
	}
	return t, nil
}

// without takes the copies out of a row.
func (t *table) without(row []string) (copies string, rest []string) {
	if t.copies < 0 || t.copies >= len(row) {
		return "", row
	}
	return strings.TrimSpace(row[t.copies]), append(row[:t.copies:t.copies], row[t.copies+1:]...)
}

// read reads a row, and how many copies of it are wanted.
func (t *table) read(line []byte) (folio.Spec, string, error) {
	row, err := cells(line)
	if err != nil {
		return folio.Spec{}, "", err
	}
	copies, row := t.without(row)
	s, err := t.columns.Read(row)
	if n, bad := strconv.Atoi(copies); copies != "" && (bad != nil || n < 1 || n > mostCopies) {
		return folio.Spec{}, "", errors.Join(fmt.Errorf("copies: got %q; want a whole number from 1 to %d", copies, mostCopies), err)
	} else if copies != "" {
		copies = strconv.Itoa(n)
	}
	return s, copies, err
}

// cells are the cells of one row.
func cells(line []byte) ([]string, error) {
	if len(bytes.TrimSuffix(line, []byte("\n"))) > wire.MostBytes {
		return nil, fmt.Errorf("more than %d bytes in a row", wire.MostBytes)
	}
	r := csv.NewReader(bytes.NewReader(line))
	r.FieldsPerRecord = -1
	row, err := r.Read()
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		if bad.StartLine != bad.Line || errors.Is(bad.Err, csv.ErrQuote) && bytes.Count(line, []byte(`"`))%2 == 1 {
			return nil, fmt.Errorf("byte %d of the row: a cell in quotation marks does not end on its line; want a row on each line", bad.Column)
		}
		return nil, fmt.Errorf("byte %d of the row: %w", bad.Column, bad.Err)
	}
	return row, err
}

// pieceHeader is the header of the table of pieces.
const pieceHeader = "line,title,copies,name,part,stock,fitting,quantity,width,height,width mm,height mm\n"

// writePieces writes a row for each piece of a plan; quantities are those of one
// copy.
func writePieces(to *bytes.Buffer, line int, copies string, p *folio.Plan) {
	w := csv.NewWriter(to)
	for q := range p.Pieces() {
		size, fitting := q.Size(), ""
		if i, ok := q.Fitting(); ok {
			fitting = check.Index("fittings", i)
		}
		row := [...]string{
			strconv.Itoa(line), p.Spec().Title, copies, q.Name(), q.Part(), q.Stock(), fitting, strconv.Itoa(q.Quantity()),
			p.Notation().Text(size.W), p.Notation().Text(size.H), millimetres(size.W.Millimetres()), millimetres(size.H.Millimetres()),
		}
		_ = w.Write(row[:]) // into memory, which takes everything
	}
	w.Flush()
}

func millimetres(mm float64) string { return strconv.FormatFloat(mm, 'f', -1, 64) }
