//go:build long && linux

package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"syscall"
	"testing"
)

// crews gives so many lines, each with sizes of its own.
type crews struct {
	total, n int
	rest     []byte
}

func (c *crews) Read(p []byte) (int, error) {
	if len(c.rest) == 0 {
		if c.n == c.total {
			return 0, io.EOF
		}
		c.rest = fmt.Appendf(c.rest[:0], "{\"version\":1,\"spec\":{\"title\":\"Crew %d\",\"cover\":\"%d/16 x %d/16 in\",\"spine\":{\"width\":\"%d/16 in\"}}}\n", c.n, 80+c.n%79, 100+c.n%97, 8+c.n%11)
		c.n++
	}
	n := copy(p, c.rest)
	c.rest = c.rest[n:]
	return n, nil
}

// A million Specs take no more memory than a thousand: 64 MiB would be too much.
// What is measured is the most that the program had in memory at a time, its own
// code included (getrusage(2): ru_maxrss, in KiB on Linux).
func TestMemoryIsFlatLong(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Skip("no executable to start:", err)
	}
	for _, c := range []struct {
		n    int
		args []string
	}{
		{1_000, nil}, {100_000, nil}, {1_000_000, []string{"-fields", "title,pieces.name,pieces.size"}}, {1_000_000, []string{"-csv", "pieces"}},
	} {
		cmd := exec.Command(self, c.args...)
		cmd.Env = append(os.Environ(), "SIZES_IS_THE_PROGRAM=1")
		cmd.Stdin = &crews{total: c.n}
		cmd.Stderr = os.Stderr
		if err := cmd.Run(); err != nil {
			t.Fatal(err)
		}
		usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
		if !ok {
			t.Skip("this system does not tell how much memory a program takes")
		}
		t.Logf("%d Specs %q: at most %.1f MiB, %.1f s of the processors", c.n, c.args, float64(usage.Maxrss)/1024, cmd.ProcessState.UserTime().Seconds())
		if usage.Maxrss > 64*1024 {
			t.Errorf("%d Specs %q: %d KiB in memory at a time", c.n, c.args, usage.Maxrss)
		}
	}
}
