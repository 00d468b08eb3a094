package slim

// Where the toolchain keeps the stack pointer, in a function that has a frame on it.
const (
	stackLocal  = 1
	stackGlobal = 0
)

// framed reports whether a function begins as those do that keep the stack pointer in
// local 1.
func framed(code []instruction) bool {
	return is(code, opGlobalGet, opLocalSet) && code[0].number == stackGlobal && code[1].number == stackLocal
}

// addressed adds constants to the offset of the load or store whose address they are
// part of. An address computed in 32 bits begins again at 0 past the end, one with an
// offset does not; but the stack pointer and less than 2^31 give an address in a frame,
// which is in memory.
func addressed(code []instruction) []instruction {
	out := code[:0]
	for i := 0; i < len(code); i++ {
		out = append(out, code[i])
		if code[i].op != opLocalGet || code[i].number != stackLocal || !is(code[i+1:], opI32Const, opI32Add) || code[i+1].number < 0 {
			continue
		}
		to := taker(code[i+3:])
		if to == nil || to.number+code[i+1].number >= 1<<31 {
			continue
		}
		*to = instruction{op: to.op, kind: to.kind, number: to.number + code[i+1].number}
		i += 2
	}
	return out
}

// taker is the load or store that takes the value on the stack as its address.
func taker(code []instruction) *instruction {
	above := 0
	for i := range code {
		in := &code[i]
		takes, leaves, ok := in.effect()
		if !ok {
			return nil
		}
		if takes > above {
			load := in.op >= opFirstLoad && in.op <= opLastLoad
			store := in.op >= opFirstStore && in.op <= opLastStore && above == 1
			if !load && !store {
				return nil
			}
			return in
		}
		above += leaves - takes
	}
	return nil
}
