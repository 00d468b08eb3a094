package main

import (
	"fmt"
	"io"
	"os"

	"boardwrap.example/folio/layout"
)

// terminal returns where progress may be shown, nil where nobody would see it.
func terminal() io.Writer {
	if info, err := os.Stderr.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return os.Stderr
}

// shower shows on one line of a terminal how far a search is.
type shower struct {
	to   io.Writer
	last string
}

// reporter returns what a budget reports to, nil without a terminal.
func reporter(to io.Writer) func(layout.Progress) {
	if to == nil {
		return nil
	}
	s := &shower{to: to}
	return s.show
}

func (s *shower) show(p layout.Progress) {
	text := ""
	if p.Material() != "" {
		text = fmt.Sprintf("%3.0f %% of the budget; %s", 100*p.Share(), p.Material())
		if n, ok := p.Best(); ok {
			text += fmt.Sprintf(": %d to buy, never fewer than %d", n, p.Bound())
		}
	}
	if len(text) > columns-1 {
		text = text[:columns-1]
	}
	if text != s.last {
		// The line is written over; blanks wipe out what was longer.
		fmt.Fprintf(s.to, "\r%-*s", len(s.last), text)
		s.last = text
	}
	if text == "" {
		fmt.Fprint(s.to, "\r")
	}
}
