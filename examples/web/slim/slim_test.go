package slim

import (
	"bytes"
	"encoding/binary"
	"math"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
)

// A written function is written by hand, byte by byte.
type written []byte

func (w *written) op(ops ...byte) { *w = append(*w, ops...) }
func (w *written) with(op byte, n uint64) {
	*w = binary.AppendUvarint(append(*w, op), n)
}
func (w *written) constant(op byte, v int64) { *w = appendSigned(append(*w, op), v) }
func (w *written) load(op byte, offset uint64) {
	*w = binary.AppendUvarint(append(*w, op, 3), offset)
}

const (
	opI64Load  = 0x29
	opI64Store = 0x37
	opI64Mul   = 0x7e
	locals     = 7 // local 0 and 1 of 32 bits, and five of 64
	counting   = 6 // the local that counts blocks, so that every run ends
	frames     = 1024
)

// begin writes the locals.
func (w *written) begin() { w.op(2, 1, 0x7f, locals-2, 0x7e) }

// inFrame writes the address of a place in the frame or below it, with something above
// the 32 bits of an address now and then.
func (w *written) inFrame(by *numbers) {
	w.onStack(int64(8*by.next(40)) - 64 + int64(by.next(4)/3)<<32)
}

// onStack writes an address on the stack as the toolchain does.
func (w *written) onStack(offset int64) {
	w.with(opLocalGet, 1)
	w.op(opExtend)
	w.constant(opI64Const, offset)
	w.op(opI64Add, opWrap)
}

// value writes what leaves a number, as some numbers say.
func (w *written) value(by *numbers, deep int) {
	switch by.next(8) {
	case 7:
		w.value(by, 0)
		w.value(by, 0)
		w.with(opLocalGet, 1)
		w.with(opLocalTee, 1)
		w.op(opSelect)
	case 0:
		w.constant(opI64Const, int64(by.next(1<<30))-1<<29)
	case 1:
		w.with(opLocalGet, uint64(2+by.next(4)))
	case 2:
		w.inFrame(by)
		w.load(opI64Load, uint64(8*by.next(4)))
	case 3:
		w.with(opLocalGet, 1)
		w.op(opExtend)
		w.constant(opI64Const, int64(by.next(1<<20))-1<<19)
		w.op(opI64Add)
	case 4:
		w.value(by, deep)
		w.op(opWrap, opExtend, opI64Eqz, opExtend)
	default:
		if deep == 0 {
			w.constant(opI64Const, 7)
			break
		}
		w.value(by, deep-1)
		w.value(by, deep-1)
		w.op([]byte{opI64Add, opI64Mul}[by.next(2)])
	}
}

// statement writes what a block does, of blocks in a loop that is so deep.
func (w *written) statement(by *numbers, blocks, deep int) {
	jump := func(deep int) {
		w.constant(opI32Const, int64(by.next(blocks)))
		w.with(opLocalSet, 0)
		w.with(opBr, uint64(deep))
	}
	switch by.next(8) {
	case 0:
		w.op(opNop)
	case 6:
		w.onStack(8)
		if by.next(2) == 0 {
			w.op(opDrop)
		} else {
			w.op(opIf, noValue, opEnd)
		}
	case 7:
		// A store whose value is an address, and whose address is another's value.
		w.inFrame(by)
		w.load(opI64Load, 0)
		w.op(opWrap, opExtend)
		w.with(opLocalSet, uint64(2+by.next(4)))
	case 1:
		w.value(by, 2)
		w.with(opLocalSet, uint64(2+by.next(4)))
	case 2:
		w.value(by, 1)
		if by.next(2) == 0 {
			w.op(opI64Eqz, opI32Eqz, opI32Eqz)
		} else {
			w.op(opI64Eqz, opExtend, opI64Eqz)
		}
		w.op(opIf, noValue)
		switch by.next(4) {
		case 0:
			w.op(opNop)
			jump(deep + 1)
		case 1:
			jump(deep + 2) // out of the loop
		case 2:
			w.with(opBr, 0)
		default:
			jump(deep + 1)
		}
		w.op(opEnd)
	case 3:
		// A value first and then an address on the stack, of which neither is the other's.
		w.inFrame(by)
		w.inFrame(by)
		w.load(opI64Load, 0)
		w.load(opI64Store, uint64(8*by.next(4)))
	default:
		w.inFrame(by)
		w.value(by, 2)
		w.load(opI64Store, uint64(8*by.next(4)))
	}
}

// looped writes a function as the toolchain does: blocks one in another in a loop, with
// a table of them all at its beginning.
func looped(by *numbers) (body []byte, blocks int) {
	var w written
	blocks = 1 + by.next(6)
	w.begin()
	w.with(opGlobalGet, 0)
	w.with(opLocalSet, 1)
	w.op(opBlock, noValue, opLoop, noValue)
	for range blocks {
		w.op(opBlock, noValue)
	}
	w.with(opLocalGet, 0)
	w.with(opBrTable, uint64(blocks-1))
	for k := range blocks {
		w = binary.AppendUvarint(w, uint64(k))
	}
	for k := range blocks {
		w.op(opEnd)
		deep := blocks - 1 - k // of the loop from here
		w.with(opLocalGet, counting)
		w.constant(opI64Const, 1)
		w.op(opI64Add)
		w.with(opLocalTee, counting)
		w.constant(opI64Const, 40)
		w.op(0x56)                                // i64.gt_u
		w.with(opBrIf, uint64(deep+1+by.next(2))) // out of the block around the loop, or of the function
		for range by.next(5) {
			w.statement(by, blocks, deep)
		}
		if by.next(2) == 0 {
			w.constant(opI32Const, int64(by.next(blocks)))
			w.with(opLocalSet, 0)
			w.with(opBr, uint64(deep))
		}
	}
	w.op(opEnd, opEnd, opEnd)
	return w, blocks
}

// numbers are drawn one by one, and are zero in the end.
type numbers []int

func (n *numbers) next(below int) int {
	if len(*n) == 0 {
		return 0
	}
	v := (*n)[0] % below
	*n = (*n)[1:]
	return v
}

// A function made smaller leaves the memory and the locals as it did before, from
// whichever of its blocks it is begun.
func TestFunctionsDoTheSame(t *testing.T) {
	jumped, folded := 0, 0
	proptest.Run(t, 400, func(p *gopter.Properties) {
		p.Property("memory and locals are the same", prop.ForAll(func(drawn []int) string {
			by := numbers(drawn)
			body, blocks := looped(&by)
			small := function(slices.Clone(body))
			if len(small) > len(body) {
				return "it has grown"
			}
			for first := range blocks {
				was, is := run(body, first), run(small, first)
				if was.wrong != "" || is.wrong != "" {
					return was.wrong + "; then " + is.wrong
				}
				if !bytes.Equal(was.memory, is.memory) {
					return "another memory"
				}
				if !slices.Equal(was.locals[2:], is.locals[2:]) {
					return "other locals"
				}
			}
			before, _, _ := decode(body)
			after, _, _ := decode(small)
			count := func(code []instruction, op byte) (n int) {
				for _, in := range code {
					if in.op == op {
						n++
					}
				}
				return n
			}
			if count(after, opNop) > 0 {
				return "what does nothing is there still"
			}
			if count(after, opLocalSet) < count(before, opLocalSet) {
				jumped++
			}
			if count(after, opWrap) < count(before, opWrap) {
				folded++
			}
			return ""
		}, proptest.List(0, 120, gen.IntRange(0, 1<<30))))
	})
	if least := proptest.Cases(400) / 3; jumped < least || folded < least {
		t.Errorf("%d functions lost a jump by the table, %d an address in 64 bits, of at least %d", jumped, folded, least)
	}
}

// What the toolchain does not write stays as it is.
func TestFunctionsThatStay(t *testing.T) {
	jump := func(w *written, k int64, deep uint64) {
		w.constant(opI32Const, k)
		w.with(opLocalSet, 0)
		w.with(opBr, deep)
	}
	table := func(w *written) {
		w.op(opLoop, noValue, opBlock, noValue, opBlock, noValue)
		w.with(opLocalGet, 0)
		w.op(opBrTable, 1, 0, 1, opEnd)
	}
	for name, write := range map[string]func(w *written){
		"local 0 is read again": func(w *written) {
			table(w)
			jump(w, 1, 1)
			w.op(opEnd)
			w.with(opLocalGet, 0)
			w.op(opDrop, opEnd)
		},
		"two tables": func(w *written) {
			table(w)
			jump(w, 1, 1)
			w.op(opEnd, opEnd)
			table(w)
			jump(w, 3, 1)
			w.op(opEnd, opEnd)
		},
		"a loop around the loop": func(w *written) {
			w.op(opLoop, noValue)
			table(w)
			jump(w, 1, 1)
			w.op(opEnd, opEnd)
			w.with(opBr, 0)
			w.op(opEnd)
		},
		"the loop begun again with what local 0 has": func(w *written) {
			table(w)
			jump(w, 1, 1)
			w.op(opEnd)
			w.with(opBr, 0)
			w.op(opEnd)
		},
		"the loop begun again if": func(w *written) {
			table(w)
			jump(w, 1, 1)
			w.op(opEnd)
			w.constant(opI32Const, 0)
			w.with(opBrIf, 0)
			w.op(opEnd)
		},
		"the loop begun again by another table": func(w *written) {
			table(w)
			jump(w, 1, 1)
			w.op(opEnd)
			w.constant(opI32Const, 0)
			w.op(opBrTable, 1, 0, 1, opEnd)
		},
		"something before the table": func(w *written) {
			w.op(opLoop, noValue, opBlock, noValue)
			w.constant(opI64Const, 1)
			w.with(opLocalSet, 2)
			w.with(opLocalGet, 0)
			w.op(opBrTable, 0, 0, opEnd)
			jump(w, 0, 0)
			w.op(opEnd)
		},
		"no frame": func(w *written) {
			w.with(opLocalGet, 1)
			w.constant(opI32Const, 8)
			w.op(opI32Add)
			w.load(opI64Load, 0)
			w.op(opDrop)
		},
		"an address that is not on the stack": func(w *written) {
			w.with(opGlobalGet, 0)
			w.with(opLocalSet, 1)
			w.with(opLocalGet, 0)
			w.constant(opI32Const, 8)
			w.op(opI32Add)
			w.load(opI64Load, 0)
			w.op(opDrop)
		},
		"an if that leaves a value": func(w *written) {
			w.op(opBlock, 0x7f)
			w.constant(opI32Const, 1)
			w.constant(opI32Const, 1)
			w.op(opIf, 0x7f)
			w.with(opBr, 1)
			w.op(opEnd, opEnd, opDrop)
		},
		"an unknown instruction": func(w *written) { w.op(opNop, 0x06, opNop) },
		"a block of a type":      func(w *written) { w.op(opNop, opBlock, 3, opEnd) },
		"half an instruction":    func(w *written) { w.op(opNop, opF64Const) },
		"memory.init":            func(w *written) { w.op(opNop, opMore, 8, 0, 0) },
	} {
		var w written
		w.begin()
		write(&w)
		w.op(opEnd)
		if got := function(slices.Clone(w)); !bytes.Equal(got, w) {
			t.Errorf("%s: % x is now % x", name, w, got)
		}
	}
	if got := function([]byte{200}); !bytes.Equal(got, []byte{200}) {
		t.Errorf("no function: % x", got)
	}
}

// Every instruction that the toolchain writes is read and written back.
func TestInstructionsAreKept(t *testing.T) {
	var w written
	w.begin()
	for op := 0; op <= opLastPlain; op++ {
		switch o := byte(op); {
		case o >= opBlock && o <= opIf:
			w.op(o, noValue)
		case o == opBrTable:
			w.op(o, 2, 1, 2, 3)
		case o == opBr || o == opBrIf || o == opCall || o >= opLocalGet && o <= opGlobalSet:
			w.with(o, 300)
		case o == opCallTo:
			w.op(o, 0x80, 1, 0)
		case o >= opFirstLoad && o <= opLastStore:
			w.load(o, 1<<20)
		case o == opMemorySize || o == opMemoryGrow:
			w.op(o, 0)
		case o == opI32Const || o == opI64Const:
			w.constant(o, -1<<31)
		case o == opF32Const:
			w.op(o, 1, 2, 3, 4)
		case o == opF64Const:
			w.op(o, 1, 2, 3, 4, 5, 6, 7, 8)
		case o <= 1 || o == opElse || o == opEnd || o == opReturn || o == opDrop || o == opSelect || o >= opI32Eqz:
			w.op(o)
		}
	}
	w.op(opMore, 10, 0, 0, opMore, 11, 0, opMore, 7, opEnd)
	code, start, ok := decode(w)
	if !ok {
		t.Fatal("an instruction is not read")
	}
	if got := encode(slices.Clone(w[:start]), w, code); !bytes.Equal(got, w) {
		t.Errorf("% x is now % x", []byte(w), got)
	}
}

// Numbers with a sign read back, and are written as the standard's examples and
// those of DWARF (version 5, table 7.8) are.
func TestSignedNumbers(t *testing.T) {
	for v, want := range map[int64][]byte{2: {2}, -2: {0x7e}, 127: {0xff, 0}, -127: {0x81, 0x7f}, 128: {0x80, 1}, -128: {0x80, 0x7f}, 129: {0x81, 1}, -129: {0xff, 0x7e}} {
		if got := appendSigned(nil, v); !bytes.Equal(got, want) {
			t.Errorf("%d is % x, want % x", v, got, want)
		}
	}
	proptest.Run(t, 1000, func(p *gopter.Properties) {
		p.Property("reads back", prop.ForAll(func(v int64, shift uint) bool {
			v >>= shift
			b := appendSigned(nil, v)
			r := reader{b: b}
			return r.signed() == v && !r.bad && r.at == len(b)
		}, gen.Int64(), gen.UIntRange(0, 63)))
	})
	for _, v := range []int64{math.MinInt64, math.MaxInt64} {
		if r := (reader{b: appendSigned(nil, v)}); r.signed() != v {
			t.Errorf("%d does not read back", v)
		}
	}
	if r := (reader{b: bytes.Repeat([]byte{0x80}, 12)}); r.signed() != 0 || !r.bad {
		t.Error("a number without end is read")
	}
}
