package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// A routine is what the runtime finds out about a function by the program's tables.
type routine struct {
	name           string
	file, line     string // what it says of each place: values, and up to where they hold
	frame          string
	more           []string // pointers that are alive and the like
	copied         string   // of which functions that were copied in its places are
	from, to       int      // where in memory these are told
	args, returnAt uint32
	kind           byte
	rest           []byte // more of what it is, and where more of it is
}

// routines reads the tables as Go's runtime does: findfunc, pcvalue and funcname in
// runtime/symtab.go, with the header and the description of the program where
// moduledata in that file says that they are. first is the address of the first function.
func routines(t *testing.T, memory []byte, header, described int) []routine {
	t.Helper()
	u32 := func(at int) int { return int(binary.LittleEndian.Uint32(memory[at:])) }
	u64 := func(at int) int { return int(binary.LittleEndian.Uint64(memory[at:])) }
	names, places, funcs := header+u64(header+32), header+u64(header+56), header+u64(header+64)
	index, lowest := u64(described+19*8), u64(described+20*8)
	told := func(table int) string {
		if table == 0 {
			return "nothing"
		}
		var s strings.Builder
		value, at := int64(-1), uint64(0)
		for b := memory[places+table:]; ; {
			v, n := binary.Uvarint(b)
			if v == 0 && at > 0 {
				return s.String()
			}
			value += int64(v>>1) ^ -int64(v&1)
			d, m := binary.Uvarint(b[n:])
			at += d
			b = b[n+m:]
			fmt.Fprintf(&s, "%d until %d, ", value, at)
		}
	}
	var all []routine
	for n := range u64(header + 8) {
		// A place in the function: its address, and which of its blocks.
		pc := lowest + n<<16 + 3
		entry := index + (pc>>16<<16-lowest)/4096*20
		k := u32(entry) + int(memory[entry+4])
		for u32(funcs+(k+1)*8) <= pc>>16 {
			k++
		}
		r := funcs + u32(funcs+k*8+4)
		name, _, _ := bytes.Cut(memory[names+u32(r+4):], []byte{0})
		f := routine{name: string(name), args: uint32(u32(r + 8)), returnAt: uint32(u32(r + 12)),
			frame: told(u32(r + 16)), file: told(u32(r + 20)), line: told(u32(r + 24))}
		end := r + 44
		for range u32(r + 28) {
			f.more = append(f.more, told(u32(end)))
			end += 4
		}
		f.kind = memory[r+40]
		more := memory[end : end+4*int(memory[r+43])]
		f.rest = slices.Concat(memory[r+41:r+44], more)
		// Table 2 says which of what lies at 3 each place is of: names, and where each was copied to.
		if len(f.more) > 2 && len(more) > 3*4 {
			if at := u32(end - len(f.more)*4 + 2*4); at != 0 && uint32(u32(end+3*4)) != math.MaxUint32 {
				f.copied = f.more[2]
				f.from = u64(described+40*8) + u32(end+3*4)
				f.to = f.from + 16*copies(f.copied)
				for at := f.from; at < f.to; at += 16 {
					name, _, _ := bytes.Cut(memory[names+u32(at+4):], []byte{0})
					f.copied += fmt.Sprintf("%d %s at %d, ", memory[at], name, u32(at+8))
				}
			}
			f.more[2] = ""
			clear(f.rest[3+3*4:][:4])
		}
		all = append(all, f)
	}
	return all
}

// copies is how many copied functions the places of a table are of.
func copies(told string) int {
	most := -1
	for one := range strings.SplitSeq(told, ", ") {
		var n int
		if _, err := fmt.Sscanf(one, "%d until", &n); err == nil {
			most = max(most, n)
		}
	}
	return most + 1
}

// described finds the header of the tables and what describes a program.
func described(t *testing.T, memory []byte) (header, description int) {
	t.Helper()
	for {
		i := bytes.Index(memory[header+1:], []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8})
		if i < 0 {
			t.Fatal("no header")
		}
		header += 1 + i
		// It begins with where the header is and where the names are.
		start := binary.LittleEndian.AppendUint64(nil, uint64(header))
		start = binary.LittleEndian.AppendUint64(start, uint64(header)+binary.LittleEndian.Uint64(memory[header+32:]))
		if description = bytes.Index(memory, start); description >= 0 {
			return header, description
		}
	}
}

// sameButPositions says that a trimmed program finds the same functions with the same
// frames and pointers, and knows of no place in which line it is. Which function was
// copied there it knows only of what is of a kind of its own.
func sameButPositions(t *testing.T, whole, trimmed []byte) {
	t.Helper()
	memories := [2][]byte{}
	for i, program := range [][]byte{whole, trimmed} {
		parts, err := sections(program)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range parts {
			if p.id == dataSection {
				if memories[i], err = contents(p.body); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	header, description := described(t, memories[0])
	before := routines(t, memories[0], header, description)
	after := routines(t, memories[1], header, description)
	if len(before) == 0 || len(before) != len(after) {
		t.Fatalf("%d functions, then %d", len(before), len(after))
	}
	lines, left := 0, 0
	told := make([]bool, len(memories[0]))
	for i, b := range before {
		if b.line != "nothing" {
			lines++
		}
		b.file, b.line = "nothing", "nothing"
		if b.copied != "" && b.kind == 0 {
			left++
			for at := range told[b.from:b.to] {
				told[b.from+at] = true
			}
			b.copied, b.from, b.to = "", 0, 0
		}
		if !reflect.DeepEqual(after[i], b) {
			t.Fatalf("function %d is\n%q, and was\n%q", i, fmt.Sprint(after[i]), fmt.Sprint(b))
		}
	}
	if lines == 0 || left == 0 {
		t.Errorf("%d functions had lines; what was copied into %d is left out", lines, left)
	}
	// All else is as it was.
	read := func(at int) int { return int(binary.LittleEndian.Uint64(memories[0][at:])) }
	names, from, to := header+read(header+32), header+read(header+40), header+read(header+64)+read(description+15*8)
	index := read(description + 19*8)
	for i, b := range memories[0] {
		var now byte
		if i < len(memories[1]) {
			now = memories[1][i]
		}
		if now == b || i >= from && i < to || i >= index && i < index+320*(len(before)-1) || now == 0 && (told[i] || i >= names && i < from) {
			continue
		}
		t.Fatalf("byte %d is %d and was %d", i, now, b)
	}
}

// tinyProgram has five functions, whose tables are those that Go 1.26 writes; others were
// copied into two of them, of which the compiler made one by itself. Its data are in two pieces, far from
// each other.
func tinyProgram(version string) []byte {
	const header, describedAt, indexAt, dataAt, most = 64, 2048, 2400, 4600, 5120
	memory := make([]byte, most)
	put32 := func(at int, v ...int) {
		for i, v := range v {
			binary.LittleEndian.PutUint32(memory[at+4*i:], uint32(v))
		}
	}
	put64 := func(at int, v ...int) {
		for i, v := range v {
			binary.LittleEndian.PutUint64(memory[at+8*i:], uint64(v))
		}
	}
	const names, units, filesAt, places, funcs = 72, 168, 176, 192, 400
	copy(memory[header:], "\xf1\xff\xff\xff\x00\x00\x01\x08")
	put64(header+8, 5, 1, 0, names, units, filesAt, places, funcs)
	copy(memory[header+names:], "main.one\x00main.two\x00main.three\x00main.middle.extra\x00main.four\x00main.copied\x00main.kept\x00")
	put32(header+units, 0)
	copy(memory[header+filesAt:], "a.go\x00")
	// A value a place: by how much it changes, doubled, and after how many places.
	tables := "\x00" + "\x12\x03\x09\x02\x00" + "\x02\x05\x00" + "\x80\x02\x02\x08\x03\x00" + "\x04\x05\x00" + "\x02\x01\x02\x01\x03\x02\x00"
	copy(memory[header+places:], tables)
	put32(header+funcs, 4096, 48, 4097, 120, 4098, 200, 4099, 260, 4100, 320, 4101)
	// Entry, name, arguments, return, frame, file, line, number of tables, unit, first line.
	put32(header+funcs+48, 4096, 0, 16, 0, 1, 6, 9, 2, 0, 12, 0, 0, 15)
	memory[header+funcs+48+43] = 1
	put32(header+funcs+48+52, 77)
	// The same table says what the frame is and what line; two functions are copied in.
	put32(header+funcs+120, 4097, 9, 8, 2, 6, 6, 6, 3, 0, 40, 0, 15, 0, 18)
	memory[header+funcs+120+43] = 4
	put32(header+funcs+120+56, 77, -1, -1, 16)
	put32(dataAt+16, 0, 57, 2, 7, 0, 69, 3, 9)
	put32(header+funcs+200, 4098, 18, 0, 0, 15, 6, 9, 0, 0, 70, 0)
	put32(header+funcs+260, 4099, 29, 0, 0, 15, 6, 9, 0, 0, 70, 0)
	put32(header+funcs+320, 4100, 47, 0, 0, 15, 6, 9, 3, 0, 70, 0, 0, 0, 15)
	memory[header+funcs+320+40] = 23 // FuncIDWrapper in internal/abi/symtab.go
	memory[header+funcs+320+43] = 4
	put32(header+funcs+320+56, 77, -1, -1, 48)
	put32(dataAt+48, 0, 69, 2, 7, 0, 69, 3, 9)
	put64(describedAt, header, header+names)
	put64(describedAt+15*8, 400)
	put64(describedAt+19*8, indexAt, 4096<<16, 4100<<16+5)
	put64(describedAt+40*8, dataAt)
	for n := range 4*16 + 1 {
		put32(indexAt+20*n, n/16)
	}
	// The index ends with the first of the last function's blocks.
	copy(memory[indexAt+20*64+5:], "what comes after the index")
	copy(memory[most-4:], "last")
	named := func(s string) []byte { return append([]byte{byte(len(s))}, s...) }
	producers := bytes.Join([][]byte{named("producers"), {2}, named("language"), {1}, named("Go"), named(version), named("processed-by"), {1}, named("Go cmd/compile"), named(version)}, nil)
	data := []byte{2}
	for _, part := range [][2]int{{header, 4000}, {4500, most}} {
		data = append(data, 0, 0x41)
		// A number that may be negative: 0x40 of its last byte is its sign.
		for v := part[0]; ; v >>= 7 {
			if v < 64 {
				data = append(data, byte(v))
				break
			}
			data = append(data, byte(v)|0x80)
		}
		data = append(data, 0x0b)
		data = binary.AppendUvarint(data, uint64(part[1]-part[0]))
		data = append(data, memory[part[0]:part[1]]...)
	}
	program := []byte("\x00asm\x01\x00\x00\x00")
	for _, s := range []section{{1, []byte{0}}, {dataSection, data}, {0, producers}} {
		program = append(program, s.id)
		program = binary.AppendUvarint(program, uint64(len(s.body)))
		program = append(program, s.body...)
	}
	return program
}

func TestTrim(t *testing.T) {
	program := tinyProgram("go1.26.8")
	trimmed, err := trim(program)
	if err != nil {
		t.Fatal(err)
	}
	sameButPositions(t, program, trimmed)
	if bytes.Contains(trimmed, []byte("main.copied")) || !bytes.Contains(trimmed, []byte("main.kept")) {
		t.Errorf("names that are nowhere else, and those that are")
	}
	if len(trimmed) > 800 {
		t.Errorf("of %d bytes %d are left", len(program), len(trimmed))
	}
	again, err := trim(tinyProgram("go1.26"))
	if err != nil || len(again) > 800 {
		t.Errorf("of Go 1.26 itself: %d bytes, %v", len(again), err)
	}
}

// What is not a program of the Go whose tables are known stays as it is, and nothing
// that is read makes the step fail in another way.
func TestTrimRefuses(t *testing.T) {
	for _, version := range []string{"", "go1.25.3", "go1.260", "go1.27", "devel go1.27-abc"} {
		if _, err := trim(tinyProgram(version)); err == nil || !strings.Contains(err.Error(), "go1.26") {
			t.Errorf("of %q: %v", version, err)
		}
	}
	program := tinyProgram("go1.26.8")
	for n := range program {
		// Its version comes last.
		if _, err := trim(program[:n]); err == nil {
			t.Fatalf("the first %d bytes are taken for a program", n)
		}
	}
	refused := 0
	for i := range program {
		for _, b := range []byte{0x01, 0x80, 0xff} {
			bad := bytes.Clone(program)
			bad[i] ^= b
			if _, err := trim(bad); err == nil {
				continue
			} else if !errors.Is(err, errNoProgram) && !errors.Is(err, errOtherTables) && !strings.Contains(err.Error(), "only the tables") && !strings.Contains(err.Error(), "take more than") {
				t.Fatal(err)
			}
			refused++
		}
	}
	if refused == 0 {
		t.Error("nothing is refused")
	}
}

// The memory that data fill is bounded.
func TestMostMemory(t *testing.T) {
	for _, over := range []int{0, 1, 6, 1 << 30} {
		start := mostMemory - 5 + over
		body := append(appendConstant([]byte{1, 0, 0x41}, uint64(start)), 0x0b, 5, 'a', 'b', 'c', 'd', 'e')
		memory, err := contents(body)
		if over == 0 && (err != nil || len(memory) != mostMemory || string(memory[start:]) != "abcde") {
			t.Errorf("to the end: %d bytes, %v", len(memory), err)
		}
		if over > 0 && (err == nil || !strings.Contains(err.Error(), "33554432")) {
			t.Errorf("beyond it: %d bytes, %v", len(memory), err)
		}
	}
}
