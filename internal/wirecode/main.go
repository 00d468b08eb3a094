// Command wirecode writes the Go code of folio/wire that goes through what
// documents hold: a function for each type, made from the fields of the type, so
// that no field can be forgotten and nothing is looked up while a document is
// written.
//
//	go run ./internal/wirecode          # says whether the code is that of the types
//	go run ./internal/wirecode -write   # renews it
//
// Run it at the top of the module.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

func main() {
	write := flag.Bool("write", false, "renew the code")
	flag.Parse()
	stale, err := run(".", *write)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	if len(stale) > 0 {
		fmt.Println(stale, "are not what the types say; renew them: go run ./internal/wirecode -write")
		os.Exit(1)
	}
}

// room is where the code goes, below the top of the module.
const room = "folio/wire"

// run compares the code with what it should be, or writes it, and returns the
// files that differ.
func run(root string, write bool) (stale []string, err error) {
	pkg, err := load(root, filepath.Join(root, room))
	if err != nil {
		return nil, err
	}
	files, err := code(pkg)
	if err != nil {
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		path := filepath.Join(root, room, name)
		if now, err := os.ReadFile(path); err == nil && bytes.Equal(now, files[name]) {
			continue
		}
		if !write {
			stale = append(stale, name)
			continue
		}
		if err := os.WriteFile(path, files[name], 0o666); err != nil {
			return nil, err
		}
	}
	return stale, nil
}
