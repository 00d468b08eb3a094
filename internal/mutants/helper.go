package main

import (
	"fmt"
	"path/filepath"
	"runtime"
)

// Environment variables of an instrumented test binary.
const (
	switchVariable = "MUTANT_SWITCHED_ON"
	secondsVar     = "MUTANT_CPU_SECONDS"
)

// memoryLimit is how much address space a mutant may take: enough for what Go
// reserves and far more than any test here needs.
const memoryLimit = 6 << 30

func helperName(s *subject) string { return filepath.Join(s.dir, "mutant_switch.go") }

// helper returns a file that is added to an instrumented package. The switch is
// set before the package's other variables, since what they are initialised
// with reads it. On Linux the process also gets its limits there: processor
// time, which the load of the machine does not change, memory and the depth of
// the stack.
func helper(name string) string {
	set, imports := "", ""
	if runtime.GOOS == "linux" {
		imports = "\t\"runtime/debug\"\n\t\"syscall\"\n"
		set = fmt.Sprintf(`
	debug.SetMaxStack(64 << 20)
	if seconds, err := strconv.ParseUint(os.Getenv(%q), 10, 32); err == nil && seconds > 0 {
		_ = syscall.Setrlimit(syscall.RLIMIT_CPU, &syscall.Rlimit{Cur: seconds, Max: seconds + 1})
		_ = syscall.Setrlimit(syscall.RLIMIT_AS, &syscall.Rlimit{Cur: %d, Max: %d})
		_ = syscall.Setrlimit(syscall.RLIMIT_CORE, &syscall.Rlimit{})
	}`, secondsVar, uint64(memoryLimit), uint64(memoryLimit))
	}
	return fmt.Sprintf(`package %s

import (
	"os"
	"strconv"
%s)

var %s = func() uint64 {%s
	n, _ := strconv.ParseUint(os.Getenv(%q), 10, 64)
	return n
}()
`, name, imports, switchName, set, switchVariable)
}
