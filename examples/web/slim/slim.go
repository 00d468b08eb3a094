// Package slim makes WebAssembly programs of the Go toolchain smaller without a change
// to what they do. The toolchain translates instruction by instruction: addresses on
// the stack are computed in 64 bits and cut to 32, every jump goes through a table of
// all blocks, and of the table by which functions are found fifteen parts of sixteen are
// never read. Here each of these is said in less, function by function, by rules that
// hold for every value; what is not as the toolchain writes it stays as it is.
package slim

import (
	"encoding/binary"
	"errors"
)

// Sections of a module, as the WebAssembly Core Specification numbers them (5.5.2).
const (
	codeSection      = 10
	dataSection      = 11
	dataCountSection = 12
)

var errModule = errors.New("slim: no WebAssembly module")

// Program returns a smaller program that does the same.
func Program(program []byte) ([]byte, error) {
	const header = "\x00asm\x01\x00\x00\x00"
	if len(program) < len(header) || string(program[:len(header)]) != header {
		return nil, errModule
	}
	out := append(make([]byte, 0, len(program)), header...)
	counted := false // elsewhere, too: so many segments are to stay
	for r := (reader{b: program, at: len(header)}); r.at < len(program); {
		id := r.byte()
		section := r.bytes(int(r.unsigned()))
		if r.bad {
			return nil, errModule
		}
		switch id {
		case codeSection:
			var ok bool
			if section, ok = bodies(section); !ok {
				return nil, errModule
			}
		case dataCountSection:
			counted = true
		case dataSection:
			if !counted {
				section = data(section)
			}
		}
		out = append(out, id)
		out = binary.AppendUvarint(out, uint64(len(section)))
		out = append(out, section...)
	}
	return out, nil
}

// bodies returns the code section with smaller functions.
func bodies(section []byte) (smaller []byte, ok bool) {
	r := reader{b: section}
	n := r.unsigned()
	out := binary.AppendUvarint(nil, n)
	for range n {
		body := r.bytes(int(r.unsigned()))
		if r.bad {
			return nil, false
		}
		body = function(body)
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, r.at == len(section)
}

// function returns a function's body made smaller, or as it is where it has an
// instruction that the toolchain does not write.
func function(body []byte) []byte {
	code, start, ok := decode(body)
	if !ok {
		return body
	}
	code = withoutTable(code)
	code = shorter(code)
	if framed(code) {
		code = addressed(code)
	}
	return encode(append([]byte(nil), body[:start]...), body, code)
}

// A reader reads the numbers of a module; once it is bad it reads nothing more.
type reader struct {
	b   []byte
	at  int
	bad bool
}

func (r *reader) byte() byte {
	if r.at >= len(r.b) {
		r.bad = true
		return 0
	}
	r.at++
	return r.b[r.at-1]
}

func (r *reader) bytes(n int) []byte {
	if r.bad || n < 0 || n > len(r.b)-r.at {
		r.bad = true
		return nil
	}
	r.at += n
	return r.b[r.at-n : r.at : r.at]
}

// unsigned reads a number without a sign, of at most 32 bits: none here is longer.
func (r *reader) unsigned() uint64 {
	v, n := binary.Uvarint(r.b[r.at:])
	if r.bad || n <= 0 || n > 5 || v>>32 != 0 {
		r.bad = true
		return 0
	}
	r.at += n
	return v
}

// signed reads a number with a sign, of at most 64 bits: seven in each byte, the lowest
// first, in two's complement.
func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 70; shift += 7 {
		c := r.byte()
		v |= int64(c&0x7f) << shift
		if c < 0x80 {
			if c&0x40 != 0 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.bad = true
	return 0
}

func appendSigned(b []byte, v int64) []byte {
	for v < -64 || v > 63 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v)&0x7f)
}
