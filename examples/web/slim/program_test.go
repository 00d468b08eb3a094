package slim

import (
	"bytes"
	"encoding/binary"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
)

// module writes sections, each a number and bytes.
func module(sections ...[]byte) []byte {
	b := []byte("\x00asm\x01\x00\x00\x00")
	for _, s := range sections {
		b = append(b, s[0])
		b = binary.AppendUvarint(b, uint64(len(s)-1))
		b = append(b, s[1:]...)
	}
	return b
}

// segmentsOf writes a data section with a segment wherever a byte is not zero.
func segmentsOf(memory []byte) []byte {
	var b []byte
	n := uint64(0)
	for at, c := range memory {
		if c != 0 {
			b = appendSigned(append(b, 0, opI32Const), int64(at))
			b = append(b, opEnd, 1, c)
			n++
		}
	}
	return append(binary.AppendUvarint([]byte{dataSection}, n), b...)
}

// Memory is filled with the same bytes, by a section that is not larger than one with
// all of them in one segment.
func TestMemoryIsTheSame(t *testing.T) {
	proptest.Run(t, 300, func(p *gopter.Properties) {
		p.Property("memory", prop.ForAll(func(gaps []int) bool {
			var memory []byte
			for i, gap := range gaps {
				memory = append(append(memory, make([]byte, gap)...), byte(1+i%255))
			}
			section := segmentsOf(memory)[1:]
			got := data(section)
			again, ok := filled(got)
			return ok && bytes.Equal(again, memory) && len(got) <= len(memory)+16
		}, proptest.List(0, 60, gen.IntRange(0, 3*widest))))
	})
}

// Of a table of functions what is never read is cleared, and nothing else: it is laid
// out here as the runtime of Go 1.26 declares its types.
func TestUnreadBuckets(t *testing.T) {
	const (
		functions = 5
		header    = 64
		names     = 200
		module    = 512
		table     = 1024
		bucket    = 20
	)
	whole := func() []byte {
		m := make([]byte, table+functions*16*bucket+40)
		for i := range m {
			m[i] = byte(1 + i%250)
		}
		word := func(at int, v uint64) { binary.LittleEndian.PutUint64(m[at:], v) }
		copy(m[header:], []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}) // runtime.pcHeader
		word(header+8, functions)
		word(header+32, names-header) // funcnameOffset
		word(module, header)          // runtime.moduledata: pcHeader
		word(module+8, names)         // funcnametab
		word(module+8+6*24, table)    // findfunctab, after six slices
		for i := range functions * 16 {
			binary.LittleEndian.PutUint32(m[table+i*bucket:], uint32(i/16))
		}
		return m
	}
	got, was := whole(), whole()
	withoutBuckets(got)
	for at := range was {
		in := at - table
		unread := in >= 0 && in < functions*16*bucket && in/bucket%16 != 0
		if want := was[at]; unread && got[at] != 0 || !unread && got[at] != want {
			t.Fatalf("byte %d of the table is %d, was %d", in, got[at], want)
		}
	}
	for name, change := range map[string]func(m []byte){
		"another magic":           func(m []byte) { m[header] = 0xf0 },
		"pointers of four bytes":  func(m []byte) { m[header+7] = 4 },
		"no functions":            func(m []byte) { binary.LittleEndian.PutUint64(m[header+8:], 0) },
		"too many functions":      func(m []byte) { binary.LittleEndian.PutUint64(m[header+8:], functions+1) },
		"functions below nothing": func(m []byte) { m[header+15] = 0xff },
		"a table outside":         func(m []byte) { m[module+8+6*24+3] = 1 },
		"a table below nothing":   func(m []byte) { m[module+8+6*24+7] = 0xff },
		"names elsewhere":         func(m []byte) { m[module+8]++ },
		"another numbering":       func(m []byte) { m[table+3*16*bucket]++ },
	} {
		got, was := whole(), whole()
		change(got)
		change(was)
		withoutBuckets(got)
		if !bytes.Equal(got, was) {
			t.Errorf("%s: something is cleared", name)
		}
	}
}

// Sections that are not known stay, those that are known are smaller, and a module
// made smaller twice is as small as once.
func TestSections(t *testing.T) {
	other := []byte{0, 3, 'a', 'b', 'c', 1, 2}
	body := []byte{0, opNop, opNop, opEnd}
	code := append([]byte{codeSection, 2, byte(len(body))}, body...)
	code = append(append(code, byte(len(body))), body...)
	segments := []byte{dataSection, 2, 0, opI32Const, 1, opEnd, 1, 'x', 0, opI32Const, 4, opEnd, 1, 'y'}
	small := []byte{codeSection, 2, 2, 0, opEnd, 2, 0, opEnd}
	joined := []byte{dataSection, 1, 0, opI32Const, 1, opEnd, 4, 'x', 0, 0, 'y'}
	counted := []byte{dataCountSection, 2}
	for _, c := range []struct{ was, want []byte }{
		{module(), module()},
		{module(other, code, other, segments), module(other, small, other, joined)},
		{module(counted, code, segments), module(counted, small, segments)},
		{module([]byte{dataSection, 1, 1, 1, 'x'}), module([]byte{dataSection, 1, 1, 1, 'x'})}, // a passive one
	} {
		got, err := Program(c.was)
		if err != nil || !bytes.Equal(got, c.want) {
			t.Errorf("% x is now % x, want % x (%v)", c.was, got, c.want, err)
		}
		if again, err := Program(got); err != nil || !bytes.Equal(again, got) {
			t.Errorf("% x is % x the second time (%v)", got, again, err)
		}
	}
}

// What is no module is refused; nothing panics, whatever bytes there are.
func TestNoModules(t *testing.T) {
	good := module([]byte{codeSection, 1, 4, 0, opNop, opNop, opEnd}, []byte{dataSection, 1, 0, opI32Const, 1, opEnd, 1, 'x'})
	if _, err := Program(good); err != nil {
		t.Fatal(err)
	}
	for n := range len(good) {
		if n == 8 || n == 16 { // where a section ends
			continue
		}
		if _, err := Program(good[:n]); err == nil {
			t.Errorf("the first %d bytes of a module are one", n)
		}
	}
	for _, bad := range [][]byte{nil, []byte("\x00asm\x02\x00\x00\x00"), module([]byte{codeSection, 1}), module([]byte{codeSection, 0, 0}), module([]byte{codeSection, 0x80, 0x80, 0x80, 0x80, 0x80, 0})} {
		if _, err := Program(bad); err == nil {
			t.Errorf("% x is a module", bad)
		}
	}
	proptest.Run(t, 2000, func(p *gopter.Properties) {
		p.Property("answers", prop.ForAll(func(at []int, to []byte) bool {
			bytes := slices.Clone(good)
			for i, k := range at {
				bytes[8+k%(len(bytes)-8)] = to[i%len(to)]
			}
			_, err := Program(bytes)
			return err == nil || err == errModule
		}, proptest.List(1, 4, gen.IntRange(0, 1<<20)), proptest.List(1, 4, gen.UInt8())))
	})
}
