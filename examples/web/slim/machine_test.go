package slim

import "encoding/binary"

// A machine runs a function of the few instructions that the tests write, as the
// WebAssembly Core Specification says (4.4).
type machine struct {
	memory []byte
	locals [locals]uint64
	global [1]uint64
	stack  []uint64
	wrong  string
}

// run begins a function at one of its blocks, with a frame on the stack.
func run(body []byte, first int) *machine {
	m := &machine{memory: make([]byte, 2*frames), global: [1]uint64{frames}}
	for i := range m.memory {
		m.memory[i] = byte(i * 37)
	}
	m.locals[0] = uint64(first)
	code, _, ok := decode(body)
	if !ok {
		m.wrong = "not read"
		return m
	}
	m.body(code)
	return m
}

func (m *machine) pop() uint64 {
	if len(m.stack) == 0 {
		m.wrong = "nothing on the stack"
		return 0
	}
	v := m.stack[len(m.stack)-1]
	m.stack = m.stack[:len(m.stack)-1]
	return v
}

func (m *machine) push(v uint64) { m.stack = append(m.stack, v) }

// body runs instructions; what is open is known by where it began.
func (m *machine) body(code []instruction) {
	ends, open := map[int]int{}, nest{}
	for i, in := range code {
		before := len(open)
		if in.op == opEnd && before > 0 {
			ends[open[before-1]] = i
		}
		open.pass(i, in)
	}
	open = nil
	branch := func(depth int64) int {
		to := open.target(depth)
		if to < 0 {
			return len(code)
		}
		open = open[:len(open)-int(depth)]
		if code[to].op == opLoop {
			return to
		}
		open = open[:len(open)-1]
		return ends[to]
	}
	for i, steps := 0, 0; i < len(code) && m.wrong == ""; i++ {
		if steps++; steps > 100_000 {
			m.wrong = "without end"
		}
		in := code[i]
		open.pass(i, in)
		switch in.op {
		case opIf:
			if uint32(m.pop()) == 0 {
				open = open[:len(open)-1]
				i = ends[i]
			}
		case opBr:
			i = branch(in.number)
		case opBrIf:
			if uint32(m.pop()) != 0 {
				i = branch(in.number)
			}
		case opBrTable:
			i = branch(int64(in.targets[min(m.pop(), uint64(len(in.targets)-1))]))
		case opNop, opBlock, opLoop, opEnd:
		default:
			m.plain(in)
		}
	}
	if len(m.stack) != 0 {
		m.wrong = "something is left on the stack"
	}
}

// plain runs an instruction that the next one follows.
func (m *machine) plain(in instruction) {
	truth := func(is bool) uint64 {
		if is {
			return 1
		}
		return 0
	}
	at := func() []byte {
		a := uint64(uint32(m.pop())) + uint64(in.number)
		if a+8 > uint64(len(m.memory)) {
			m.wrong = "outside of memory"
			return make([]byte, 8)
		}
		return m.memory[a:]
	}
	switch in.op {
	case opLocalGet:
		m.push(m.locals[in.number])
	case opLocalSet:
		m.locals[in.number] = m.pop()
	case opLocalTee:
		m.locals[in.number] = m.stack[len(m.stack)-1]
	case opSelect:
		c, b, a := m.pop(), m.pop(), m.pop()
		if uint32(c) == 0 {
			a = b
		}
		m.push(a)
	case opDrop:
		m.pop()
	case opGlobalGet:
		m.push(m.global[in.number])
	case opI32Const:
		if in.number != int64(int32(in.number)) {
			m.wrong = "a constant of more than 32 bits"
		}
		m.push(uint64(uint32(in.number)))
	case opI64Const:
		m.push(uint64(in.number))
	case opI32Add:
		m.push(uint64(uint32(m.pop() + m.pop())))
	case opI64Add:
		m.push(m.pop() + m.pop())
	case opI64Mul:
		m.push(m.pop() * m.pop())
	case 0x56: // i64.gt_u
		b, a := m.pop(), m.pop()
		m.push(truth(a > b))
	case opI32Eqz, opI64Eqz:
		m.push(truth(m.pop() == 0))
	case opWrap, opExtend:
		m.push(uint64(uint32(m.pop())))
	case opI64Load:
		m.push(binary.LittleEndian.Uint64(at()))
	case opI64Store:
		v := m.pop()
		binary.LittleEndian.PutUint64(at(), v)
	default:
		m.wrong = "an instruction that no test writes"
	}
}
