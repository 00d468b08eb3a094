package slim

import "slices"

// withoutTable lets jumps go to where they lead. The toolchain writes the blocks of a
// function one in another, all in a loop that begins with a table of branches: a jump
// sets local 0 to the number of a block and begins the loop again. To a block further
// on a branch leads at once, and local 0, which nothing but the table reads, may keep
// what it had.
func withoutTable(code []instruction) []instruction {
	loop, blocks := dispatch(code)
	if len(blocks) == 0 || !again(code, loop) {
		return code
	}
	out := code[:0]
	var open nest
	for i := 0; i < len(code); i++ {
		in := code[i]
		open.pass(i, in)
		if in.op == opI32Const && jumps(code[i:]) && open.target(code[i+2].number) == loop {
			block := blocks[min(uint64(uint32(in.number)), uint64(len(blocks)-1))]
			if depth := slices.Index(open.inside(), block); depth >= 0 && block >= 0 {
				out = append(out, instruction{op: opBr, number: int64(depth)})
				i += 2
				continue
			}
		}
		out = append(out, in)
	}
	return out
}

// jumps reports whether code begins with a jump: a number is put into local 0, and then
// a branch taken.
func jumps(code []instruction) bool {
	return is(code, opI32Const, opLocalSet, opBr) && code[1].number == 0
}

// dispatch returns the loop that begins with a table of branches by local 0, and what
// opens the blocks that these leave; none unless the table is all that reads it and
// the loop is begun from before it once only.
func dispatch(code []instruction) (loop int, blocks []int) {
	var open nest
	for i, in := range code {
		open.pass(i, in)
		if in.op != opLocalGet || in.number != 0 {
			continue
		}
		// A loop, blocks, and the table: nothing is done between.
		loop = i - 1
		for loop >= 0 && code[loop].op == opBlock && code[loop].kind == noValue {
			loop--
		}
		if blocks != nil || loop < 0 || code[loop].op != opLoop || code[loop].kind != noValue || !is(code[i:], opLocalGet, opBrTable) {
			return -1, nil
		}
		for _, around := range open {
			if around != loop && code[around].op == opLoop {
				return -1, nil
			}
		}
		for _, depth := range code[i+1].targets {
			blocks = append(blocks, open.target(int64(depth)))
		}
	}
	return loop, blocks
}

// again reports whether nothing but jumps begins the loop again.
func again(code []instruction, loop int) bool {
	var open nest
	for i, in := range code {
		open.pass(i, in)
		switch in.op {
		case opBr:
			if open.target(in.number) == loop && (i < 2 || !jumps(code[i-2:])) {
				return false
			}
		case opBrIf:
			if open.target(in.number) == loop {
				return false
			}
		case opBrTable:
			for _, depth := range in.targets {
				if open.target(int64(depth)) == loop {
					return false
				}
			}
		}
	}
	return true
}

// A nest is the instructions that opened what is open, the outermost first.
type nest []int

// pass opens or ends what an instruction opens or ends.
func (n *nest) pass(i int, in instruction) {
	switch in.op {
	case opBlock, opLoop, opIf:
		*n = append(*n, i)
	case opEnd:
		*n = (*n)[:max(len(*n)-1, 0)]
	}
}

// target is what a branch of this depth leaves or begins again, -1 for the function
// itself.
func (n nest) target(depth int64) int {
	if depth >= int64(len(n)) {
		return -1
	}
	return n[len(n)-1-int(depth)]
}

// inside is what is open, by the depth of a branch to it.
func (n nest) inside() []int {
	all := slices.Clone(n)
	slices.Reverse(all)
	return all
}
