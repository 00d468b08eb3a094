package main

import (
	"bufio"
	"bytes"
	"errors"
	"io"

	"boardwrap.example/folio/wire"
)

// A splitter cuts a stream into documents, or into rows, without reading them.
type splitter struct {
	in   *bufio.Reader
	rows bool
	line int // of what is read next

	doc    []byte // what there is of the document
	begins int    // the line where it begins; 0 for none
	depth  int    // of open braces and brackets
	quoted bool   // within a text
	escape bool   // after \ within one
	last   byte   // of the document that is no blank
	plain  bool   // begins with no brace: it ends with its line
	rest   []byte // of the line, not yet looked at
	fresh  bool   // rest begins a line
	err    error  // that comes when rest is through
}

// newSplitter counts lines from the given one.
func newSplitter(in io.Reader, rows bool, line int) *splitter {
	return &splitter{in: bufio.NewReaderSize(in, 1<<16), rows: rows, line: line, fresh: true}
}

// next appends the next document to dst and says at which line it begins. What
// is too long is cut off just beyond what may be read, so that it is refused for
// its length. The error is io.EOF at the end.
func (s *splitter) next(dst []byte) ([]byte, int, error) {
	s.doc = dst
	s.begins = 0
	s.plain = s.rows
	for {
		if len(s.rest) == 0 {
			if s.err != nil {
				return s.ended()
			}
			rest, err := s.in.ReadSlice('\n')
			if s.rest = rest; !errors.Is(err, bufio.ErrBufferFull) {
				s.err = err
			}
			continue
		}
		if s.fresh && s.begins > 0 && s.beginsAnother() {
			return s.finish()
		}
		if s.take() {
			return s.finish()
		}
	}
}

// ended is what there is when the stream is through.
func (s *splitter) ended() ([]byte, int, error) {
	if s.begins > 0 && errors.Is(s.err, io.EOF) {
		return s.finish()
	}
	return s.doc, 0, s.err
}

func (s *splitter) finish() ([]byte, int, error) {
	s.depth, s.quoted, s.escape, s.last = 0, false, false, 0
	return s.doc, s.begins, nil
}

// beginsAnother reports whether a line begins a new document though the one
// before is not through: a brace may stand only behind a comma, a colon or an
// opening bracket, and a version only at the beginning.
func (s *splitter) beginsAnother() bool {
	inside, ok := bytes.CutPrefix(s.rest, []byte("{"))
	return ok && (bytes.IndexByte([]byte(",:["), s.last) < 0 || bytes.HasPrefix(bytes.TrimLeft(inside, " \t"), []byte(`"version"`)))
}

// take moves bytes of the line to the document, and reports whether that is its
// end.
func (s *splitter) take() bool {
	for i, c := range s.rest {
		s.fresh = c == '\n'
		if c == '\n' {
			s.line++
			s.quoted, s.escape = false, false // no text goes on in the next line
			if s.plain && s.begins > 0 {
				s.move(i + 1)
				return true
			}
		}
		blank := c == ' ' || c == '\t' || c == '\r' || c == '\n'
		if s.begins == 0 {
			if blank {
				continue
			}
			s.begins = s.line
			s.plain = s.rows || c != '{'
			s.last = c
			if !s.plain {
				s.step(c)
			}
			s.rest = s.rest[i:]
			s.move(1)
			return false
		}
		if !s.plain && s.step(c) {
			s.move(i + 1)
			return true
		}
		if !blank {
			s.last = c
		}
		if s.fresh { // the next line may begin another
			s.move(i + 1)
			return false
		}
	}
	if s.begins > 0 {
		s.move(len(s.rest))
	} else {
		s.rest = nil
	}
	return false
}

// step follows the braces, and reports whether the last one is closed.
func (s *splitter) step(c byte) bool {
	switch {
	case s.escape:
		s.escape = false
	case s.quoted:
		s.escape, s.quoted = c == '\\', c != '"'
	case c == '"':
		s.quoted = true
	case c == '{', c == '[':
		s.depth++
	case c == '}', c == ']':
		s.depth--
		return s.depth == 0
	}
	return false
}

// move moves n bytes of the line to the document.
func (s *splitter) move(n int) {
	room := max(wire.MostBytes+1-len(s.doc), 0)
	s.doc = append(s.doc, s.rest[:min(n, room)]...)
	s.rest = s.rest[n:]
}
