package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// terminal returns where progress may be shown, nil where nobody would see it.
func terminal() io.Writer {
	if info, err := os.Stderr.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return os.Stderr
}

// A meter shows on one line of a terminal how many are done.
type meter struct {
	to    io.Writer
	began time.Time
	last  time.Time
}

// show shows a number, a few times a second; the clock is only looked at now and
// then.
func (m *meter) show(done int) {
	if m.to == nil || done%64 != 1 {
		return
	}
	now := time.Now()
	if m.began.IsZero() {
		m.began = now
	}
	if now.Sub(m.last) >= time.Second/4 {
		m.last = now
		m.line(done)
	}
}

// end shows the last number and ends the line.
func (m *meter) end(done int) {
	if m.to == nil || m.last.IsZero() {
		return
	}
	m.line(done)
	fmt.Fprintln(m.to)
}

func (m *meter) line(done int) {
	fmt.Fprintf(m.to, "\r%d done, %.0f a second", done, float64(done)/max(time.Since(m.began).Seconds(), 0.001))
}
