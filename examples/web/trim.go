package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// A program that Go compiled to WebAssembly carries tables by which its runtime finds
// the function, the frame and the live pointers of a place in the code. Three parts of
// them are ballast in a page, a seventh of the program and more when it is zipped:
//
//   - Which line of which file a place stands for. Only a trace of the stack says that;
//     without it a trace names the functions, and their lines are 0. What a panic says
//     of itself, and what recovers from it, has no part in that.
//   - Of which function a place is that was copied into another, and the names of those
//     that are nowhere else. A trace names the function that they were copied into, and
//     what counts the callers of something counts these alone; nothing here does.
//     Whether the deferred function itself recovers is counted by it, too (gorecover in
//     runtime/panic.go). What recovers is never copied (cmd/compile/internal/inline), so
//     it is missed only in what the compiler makes by itself, which does not count;
//     there, and in all that the runtime knows by name, it stays.
//   - The index by which a function is found has 16 entries for each, since it expects
//     the code of a function in 64 KiB of addresses. On WebAssembly a function is one
//     address, and the runtime reads only the first entry of the 16 (findfunc in
//     runtime/symtab.go).
//
// Both become zeros, and zeros are not stored. Nothing else is changed: no code, no
// check, no address.
//
// These tables are Go's own affair and may change with its next version, so trim
// touches only programs of the version that it knows, and asks of everything that it
// reads whether it is what it expects.

// knownGo is the version of Go whose tables trim knows: internal/abi/symtab.go,
// cmd/link/internal/ld/pcln.go, runtime/symtab.go and runtime2.go there.
const knownGo = "go1.26"

// trim returns the program without what only a trace of its stack would miss.
func trim(program []byte) ([]byte, error) {
	parts, err := sections(program)
	if err != nil {
		return nil, err
	}
	if v := goVersion(parts); v != knownGo && !strings.HasPrefix(v, knownGo+".") {
		return nil, fmt.Errorf("the program is of Go %q, and only the tables of %s are known", v, knownGo)
	}
	trimmed := bytes.Clone(program[:8])
	for _, p := range parts {
		body := p.body
		if p.id == dataSection {
			memory, err := contents(body)
			if err != nil {
				return nil, err
			}
			t, err := findTables(memory)
			if err != nil {
				return nil, err
			}
			if err := t.leaveOutCopied(); err != nil {
				return nil, err
			}
			if err := t.leaveOutPositions(); err != nil {
				return nil, err
			}
			if err := t.leaveOutUnread(); err != nil {
				return nil, err
			}
			body = segments(memory)
		}
		trimmed = append(trimmed, p.id)
		trimmed = binary.AppendUvarint(trimmed, uint64(len(body)))
		trimmed = append(trimmed, body...)
	}
	return trimmed, nil
}

const (
	customSection = 0
	dataSection   = 11
)

// A section is a part of a WebAssembly program.
type section struct {
	id   byte
	body []byte
}

var errNoProgram = errors.New("this is not a WebAssembly program")

func sections(program []byte) ([]section, error) {
	rest, ok := bytes.CutPrefix(program, []byte("\x00asm\x01\x00\x00\x00"))
	if !ok {
		return nil, errNoProgram
	}
	var all []section
	for len(rest) > 0 {
		id := rest[0]
		body, after, ok := counted(rest[1:])
		if !ok {
			return nil, errNoProgram
		}
		all = append(all, section{id, body})
		rest = after
	}
	return all, nil
}

// counted splits off bytes that follow their number.
func counted(b []byte) (got, rest []byte, ok bool) {
	n, used := binary.Uvarint(b)
	if used <= 0 || n > uint64(len(b)-used) {
		return nil, nil, false
	}
	return b[used:][:n], b[used:][n:], true
}

// goVersion is the version of Go that a program says it was compiled by, or "".
func goVersion(parts []section) string {
	for _, p := range parts {
		if p.id != customSection {
			continue
		}
		if name, rest, ok := counted(p.body); ok && string(name) == "producers" {
			if _, after, ok := bytes.Cut(rest, []byte("\x0eGo cmd/compile")); ok {
				v, _, _ := counted(after)
				return string(v)
			}
		}
	}
	return ""
}

// mostMemory is several times what the data of the larger program take.
const mostMemory = 1 << 25

// contents are the memory of a program as its data section fills it.
func contents(body []byte) ([]byte, error) {
	count, used := binary.Uvarint(body)
	if used <= 0 {
		return nil, errNoProgram
	}
	rest := body[used:]
	var memory []byte
	for range count {
		// Of memory 0, at a constant.
		at, ok := bytes.CutPrefix(rest, []byte{0, 0x41})
		start, used := binary.Uvarint(at)
		if !ok || used <= 0 {
			return nil, errNoProgram
		}
		end, ok := bytes.CutPrefix(at[used:], []byte{0x0b})
		if !ok {
			return nil, errNoProgram
		}
		var data []byte
		if data, rest, ok = counted(end); !ok {
			return nil, errNoProgram
		}
		if start > mostMemory || len(data) > mostMemory-int(start) {
			return nil, fmt.Errorf("the data of the program take more than %d bytes", mostMemory)
		}
		if more := int(start) + len(data) - len(memory); more > 0 {
			memory = append(memory, make([]byte, more)...)
		}
		copy(memory[start:], data)
	}
	return memory, nil
}

// leastGap is the number of zeros that are not stored. A segment of its own costs
// about eight bytes, but these are hard to zip and zeros are not.
const leastGap = 14

// segments are the data section that fills the memory so.
func segments(memory []byte) []byte {
	var count uint64
	var all []byte
	gap := make([]byte, leastGap)
	for at := 0; at < len(memory); {
		if memory[at] == 0 {
			at++
			continue
		}
		end := len(memory)
		if i := bytes.Index(memory[at:], gap); i >= 0 {
			end = at + i
		}
		data := bytes.TrimRight(memory[at:end], "\x00")
		count++
		all = append(all, 0, 0x41)
		all = appendConstant(all, uint64(at))
		all = append(all, 0x0b)
		all = binary.AppendUvarint(all, uint64(len(data)))
		all = append(all, data...)
		at = end
	}
	return append(binary.AppendUvarint(nil, count), all...)
}

// appendConstant appends a number as WebAssembly writes one that may be negative.
func appendConstant(b []byte, v uint64) []byte {
	b = binary.AppendUvarint(b, v)
	if last := len(b) - 1; b[last]&0x40 != 0 {
		b[last] |= 0x80
		b = append(b, 0)
	}
	return b
}

// tables are where the runtime looks places in the code up.
type tables struct {
	names  []byte // of functions, each with a 0 at its end
	files  []byte // numbers of files, and their names
	places []byte // what changes from place to place in a function, each function's own tables
	funcs  []byte // the records of functions, after a list of them
	index  []byte // of the list of functions but the last
	data   []byte // more of functions, from where their records count
	count  int    // functions
}

// Go keeps all in little-endian numbers: pointers of eight bytes, others of four.
const (
	word       = 8
	record     = 44 // of a function, before its lists of tables
	perEntry   = 20 // the index's entries: a number of four bytes and 16 bytes to add
	perFunc    = 16 // entries of the index for each function
	atName     = 4  // in a record: where the function's name is,
	atFrame    = 16 // which table says how large the frame is,
	atFile     = 20 // in which file
	atLine     = 24 // and line,
	atCount    = 28 // how many more tables there are,
	atUnit     = 32 // where the file's number is found,
	atStart    = 36 // the first line,
	atKind     = 40 // what it is to the runtime,
	ordinary   = 0  // or that it is as any other,
	atData     = 43 // and how much more of it there is, after the tables
	copiedIn   = 2  // among those tables: which of the functions that were copied in a place is of
	copiedFrom = 3  // among what there is more: these functions,
	perCopy    = 16 // of so many bytes each
	indexWord  = 19 // of the words that describe the program: where the index is,
	dataWord   = 40 // and where there is more of functions
	headerSize = 9 * word
)

var errOtherTables = errors.New("the tables of the program are not as they are known")

// findTables finds them in the memory, in which they can be changed.
func findTables(memory []byte) (*tables, error) {
	// A header that says where each begins after it: names, units, files, places, functions.
	magic := []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, word}
	for from := 0; ; {
		i := bytes.Index(memory[from:], magic)
		if i < 0 || from+i+headerSize > len(memory) {
			return nil, errOtherTables
		}
		header := from + i
		from = header + 1
		var at [5]uint64
		for k := range at {
			at[k] = binary.LittleEndian.Uint64(memory[header+(4+k)*word:])
		}
		names, units, filesAt, places, funcs := at[0], at[1], at[2], at[3], at[4]
		if !(headerSize <= names && names < units && units <= filesAt && filesAt < places && places < funcs && funcs < uint64(len(memory)-header)) {
			continue
		}
		// What describes the program begins with pointers to the header and to the names.
		start := binary.LittleEndian.AppendUint64(nil, uint64(header))
		start = binary.LittleEndian.AppendUint64(start, uint64(header)+names)
		described := bytes.Index(memory, start)
		if described < 0 || described+(dataWord+1)*word > len(memory) {
			continue
		}
		count := binary.LittleEndian.Uint64(memory[header+word:])
		index := binary.LittleEndian.Uint64(memory[described+indexWord*word:])
		data := binary.LittleEndian.Uint64(memory[described+dataWord*word:])
		if data > uint64(len(memory)) || index > uint64(len(memory)) || count == 0 || count-1 > (uint64(len(memory))-index)/(perFunc*perEntry) {
			return nil, errOtherTables
		}
		all := memory[header:]
		return &tables{
			names:  all[names:units],
			files:  all[units:places],
			places: all[places:funcs],
			funcs:  all[funcs:],
			index:  memory[index:][:(count-1)*perFunc*perEntry],
			data:   memory[data:],
			count:  int(count),
		}, nil
	}
}

// each calls f with the record of each function, with its lists of tables and of more.
func (t *tables) each(f func(record []byte) error) error {
	for n := range t.count {
		if (n+1)*8 > len(t.funcs) {
			return errOtherTables
		}
		at := uint64(binary.LittleEndian.Uint32(t.funcs[n*8+4:]))
		if at+record > uint64(len(t.funcs)) {
			return errOtherTables
		}
		r := t.funcs[at:]
		more := uint64(binary.LittleEndian.Uint32(r[atCount:]))
		if more > 16 || record+4*(more+uint64(r[atData])) > uint64(len(r)) {
			return errOtherTables
		}
		if err := f(r[:record+4*(more+uint64(r[atData]))]); err != nil {
			return err
		}
	}
	return nil
}

// lists are those at the end of a function's record.
func lists(r []byte) (tables, more []byte) {
	count := binary.LittleEndian.Uint32(r[atCount:])
	return r[record:][:4*count], r[record+4*count:]
}

// leaveOutCopied leaves out of which function a place is that was copied into another.
func (t *tables) leaveOutCopied() error {
	named := map[uint32]bool{}
	err := t.each(func(r []byte) error {
		named[binary.LittleEndian.Uint32(r[atName:])] = true
		tables, more := lists(r)
		if len(tables) <= copiedIn*4 || len(more) <= copiedFrom*4 {
			return nil
		}
		which, from := tables[copiedIn*4:][:4], more[copiedFrom*4:][:4]
		number := binary.LittleEndian.Uint32(which)
		if number == 0 {
			return nil
		}
		table, err := t.table(number)
		if err != nil {
			return err
		}
		at, count, room := uint64(binary.LittleEndian.Uint32(from)), greatest(table), uint64(len(t.data))
		if at > room || count > (room-at)/perCopy {
			return errOtherTables
		}
		copies := t.data[at:][:count*perCopy]
		if r[atKind] != ordinary {
			for c := range slices.Chunk(copies, perCopy) {
				named[binary.LittleEndian.Uint32(c[4:])] = true
			}
			return nil
		}
		clear(copies)
		clear(which)
		binary.LittleEndian.PutUint32(from, math.MaxUint32) // there is none
		return nil
	})
	if err != nil {
		return err
	}
	at, found := uint32(0), 0
	for name := range bytes.SplitAfterSeq(t.names, []byte{0}) {
		if named[at] {
			found++
		} else {
			clear(name)
		}
		at += uint32(len(name))
	}
	if found != len(named) {
		return errOtherTables
	}
	return nil
}

// leaveOutPositions keeps of the tables of places those that say something other than
// a file or a line, one after the other.
func (t *tables) leaveOutPositions() error {
	kept := []byte{0} // a table at 0 is none
	moved := map[uint32]uint32{0: 0}
	keep := func(number []byte) error {
		was := binary.LittleEndian.Uint32(number)
		to, ok := moved[was]
		if !ok {
			table, err := t.table(was)
			if err != nil {
				return err
			}
			to = uint32(len(kept))
			moved[was] = to
			kept = append(kept, table...)
		}
		binary.LittleEndian.PutUint32(number, to)
		return nil
	}
	err := t.each(func(r []byte) error {
		clear(r[atFile : atLine+4])
		clear(r[atUnit : atStart+4])
		tables, _ := lists(r)
		for number := range slices.Chunk(tables, 4) {
			if err := keep(number); err != nil {
				return err
			}
		}
		return keep(r[atFrame:])
	})
	if err != nil {
		return err
	}
	if len(kept) > len(t.places) {
		return errOtherTables
	}
	clear(t.places)
	copy(t.places, kept)
	clear(t.files)
	return nil
}

// table is the table of places that begins there: by how much a value changes, and
// after how many places, until it changes by nothing.
func (t *tables) table(at uint32) ([]byte, error) {
	if uint64(at) >= uint64(len(t.places)) {
		return nil, errOtherTables
	}
	b := t.places[at:]
	for used := 0; ; {
		change, n := binary.Uvarint(b[used:])
		if n <= 0 {
			return nil, errOtherTables
		}
		if change == 0 && used > 0 {
			return b[:used+n], nil
		}
		used += n
		if _, n = binary.Uvarint(b[used:]); n <= 0 {
			return nil, errOtherTables
		}
		used += n
	}
}

// greatest is how many values from 0 on a table of places goes up to.
func greatest(table []byte) (most uint64) {
	value := int64(-1)
	for len(table) > 1 {
		change, n := binary.Uvarint(table)
		value += int64(change>>1) ^ -int64(change&1)
		most = max(most, uint64(value+1))
		_, m := binary.Uvarint(table[n:])
		table = table[n+m:]
	}
	return most
}

// leaveOutUnread leaves of the index the one entry of each function that is read. The
// last function has but one, and that may be cut short.
func (t *tables) leaveOutUnread() error {
	entries := slices.Collect(slices.Chunk(t.index, perEntry))
	first := binary.LittleEndian.Uint32(t.funcs)
	for k, e := range entries {
		n := uint32(k / perFunc)
		// Functions have addresses in a row, and each entry names its function by itself.
		if binary.LittleEndian.Uint32(t.funcs[n*8:]) != first+n || binary.LittleEndian.Uint32(e) != n || bytes.Count(e[4:], []byte{0}) < perEntry-4 {
			return errOtherTables
		}
		if k%perFunc != 0 {
			clear(e)
		}
	}
	return nil
}
