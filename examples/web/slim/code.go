package slim

import "encoding/binary"

// Opcodes, as the WebAssembly Core Specification has them (5.4).
const (
	opNop        = 0x01
	opBlock      = 0x02
	opLoop       = 0x03
	opIf         = 0x04
	opElse       = 0x05
	opEnd        = 0x0b
	opBr         = 0x0c
	opBrIf       = 0x0d
	opBrTable    = 0x0e
	opReturn     = 0x0f
	opCall       = 0x10
	opCallTo     = 0x11 // call_indirect
	opDrop       = 0x1a
	opSelect     = 0x1b
	opLocalGet   = 0x20
	opLocalSet   = 0x21
	opLocalTee   = 0x22
	opGlobalGet  = 0x23
	opGlobalSet  = 0x24
	opFirstLoad  = 0x28
	opLastLoad   = 0x35
	opFirstStore = 0x36
	opLastStore  = 0x3e
	opMemorySize = 0x3f
	opMemoryGrow = 0x40
	opI32Const   = 0x41
	opI64Const   = 0x42
	opF32Const   = 0x43
	opF64Const   = 0x44
	opI32Eqz     = 0x45
	opI64Eqz     = 0x50
	opI32Add     = 0x6a
	opI64Add     = 0x7c
	opWrap       = 0xa7 // i32.wrap_i64
	opExtend     = 0xad // i64.extend_i32_u
	opLastPlain  = 0xc4
	opMore       = 0xfc

	noValue = 0x40 // the type of a block that leaves no value
)

// An instruction of a function. What its number means depends on it: the depth of a
// branch, the index of a local, a constant, the offset of a load or store. Those that
// come from the function are written as they stand there.
type instruction struct {
	op     byte
	kind   byte // of a block; the alignment of a load or store; which of the instructions after opMore
	number int64
	targets
	from, to int // where it stands in the body; nowhere if it is a new one
}

// targets are the depths of a table of branches, the last one the default.
type targets []uint32

// decode returns the instructions of a body, and where the first begins.
func decode(body []byte) (code []instruction, start int, ok bool) {
	r := reader{b: body}
	for range r.unsigned() { // the locals, a count and a type each
		r.unsigned()
		r.byte()
		if r.bad {
			return nil, 0, false
		}
	}
	start = r.at
	code = make([]instruction, 0, len(body)/2)
	for r.at < len(body) && !r.bad {
		in := instruction{from: r.at}
		in.op = r.byte()
		if !in.operands(&r) {
			return nil, 0, false
		}
		in.to = r.at
		code = append(code, in)
	}
	return code, start, !r.bad
}

// operands reads what follows the opcode.
func (in *instruction) operands(r *reader) bool {
	switch op := in.op; {
	case op == opBlock || op == opLoop || op == opIf:
		if in.kind = r.byte(); in.kind < noValue || in.kind >= 0x80 {
			return false // a type by its number
		}
	case op == opBr || op == opBrIf || op == opCall || op >= opLocalGet && op <= opGlobalSet:
		in.number = int64(r.unsigned())
	case op == opBrTable:
		for range min(r.unsigned(), uint64(len(r.b))) + 1 {
			in.targets = append(in.targets, uint32(r.unsigned()))
		}
	case op == opCallTo:
		r.unsigned()
		r.unsigned()
	case op >= opFirstLoad && op <= opLastStore:
		in.kind = byte(r.unsigned())
		in.number = int64(r.unsigned())
	case op == opMemorySize || op == opMemoryGrow:
		r.byte()
	case op == opI32Const || op == opI64Const:
		in.number = r.signed()
	case op == opF32Const:
		r.bytes(4)
	case op == opF64Const:
		r.bytes(8)
	case op == opMore:
		in.kind = r.byte()
		switch {
		case in.kind == 10: // memory.copy
			r.bytes(2)
		case in.kind == 11: // memory.fill
			r.bytes(1)
		case in.kind > 7:
			return false
		}
	case op <= opNop || op == opElse || op == opEnd || op == opReturn || op == opDrop || op == opSelect || op >= opI32Eqz && op <= opLastPlain:
	default:
		return false
	}
	return !r.bad
}

// encode writes instructions, those of the body as they are there.
func encode(out, body []byte, code []instruction) []byte {
	for _, in := range code {
		if in.to > 0 {
			out = append(out, body[in.from:in.to]...)
			continue
		}
		out = append(out, in.op)
		switch op := in.op; {
		case op == opBr || op == opBrIf:
			out = binary.AppendUvarint(out, uint64(in.number))
		case op == opI32Const:
			out = appendSigned(out, in.number)
		case op >= opFirstLoad && op <= opLastStore:
			out = append(out, in.kind)
			out = binary.AppendUvarint(out, uint64(in.number))
		}
	}
	return out
}

// effect is how many values an instruction takes from the stack and leaves on it; not
// ok for what can be left by another way than to the next instruction.
func (in instruction) effect() (takes, leaves int, ok bool) {
	switch op := in.op; {
	case op == opLocalGet || op == opGlobalGet || op >= opI32Const && op <= opF64Const:
		return 0, 1, true
	case op == opLocalSet || op == opGlobalSet || op == opDrop:
		return 1, 0, true
	case op == opLocalTee || op >= opFirstLoad && op <= opLastLoad || op == opMore && in.kind <= 7:
		return 1, 1, true
	case op >= opFirstStore && op <= opLastStore:
		return 2, 0, true
	case op == opSelect:
		return 3, 1, true
	case op == opI32Eqz || op == opI64Eqz || op >= 0x67 && op <= 0x69 || op >= 0x79 && op <= 0x7b ||
		op >= 0x8b && op <= 0x91 || op >= 0x99 && op <= 0x9f || op >= opWrap && op <= opLastPlain:
		return 1, 1, true
	case op > opI32Eqz && op < opWrap:
		return 2, 1, true
	}
	return 0, 0, false
}
