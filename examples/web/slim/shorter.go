package slim

// shorter says in fewer instructions what stands side by side.
func shorter(code []instruction) []instruction {
	out := code[:0]
	for _, in := range code {
		var done bool
		if out, done = joined(out, in); !done {
			out = append(out, in)
		}
	}
	return out
}

// joined joins an instruction with those before it, if that is shorter.
func joined(out []instruction, in instruction) ([]instruction, bool) {
	switch in.op {
	case opNop:
		return out, true
	case opWrap:
		return wrapped(out)
	case opI64Eqz:
		if ends(out, opExtend) {
			out[len(out)-1] = instruction{op: opI32Eqz}
			return out, true
		}
	case opBrIf, opIf:
		if ends(out, opI32Eqz, opI32Eqz) {
			out = out[:len(out)-2]
		}
	case opEnd:
		if n := len(out); ends(out, opIf, opBr) && out[n-2].kind == noValue && out[n-1].number > 0 {
			return append(out[:n-2], instruction{op: opBrIf, number: out[n-1].number - 1}), true
		}
	}
	return out, false
}

// wrapped cuts what was computed in 64 bits to the 32 of an address: sums are the same
// modulo 2^32 whatever is above.
func wrapped(out []instruction) ([]instruction, bool) {
	n := len(out)
	switch {
	case ends(out, opExtend, opI64Const, opI64Add):
		c := int64(int32(out[n-2].number))
		return append(out[:n-3], instruction{op: opI32Const, number: c}, instruction{op: opI32Add}), true
	case ends(out, opI64Const):
		out[n-1] = instruction{op: opI32Const, number: int64(int32(out[n-1].number))}
		return out, true
	case ends(out, opExtend):
		return out[:n-1], true
	}
	return out, false
}

// ends reports whether the last instructions are these.
func ends(code []instruction, ops ...byte) bool {
	return len(code) >= len(ops) && is(code[len(code)-len(ops):], ops...)
}

// is reports whether the first instructions are these.
func is(code []instruction, ops ...byte) bool {
	if len(code) < len(ops) {
		return false
	}
	for i, op := range ops {
		if code[i].op != op {
			return false
		}
	}
	return true
}
