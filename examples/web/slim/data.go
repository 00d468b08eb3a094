package slim

import "encoding/binary"

const (
	// widest is how many zeros stand in a segment of data rather than that another
	// begins after them: that takes eight bytes, which zip less well than zeros.
	widest = 16
	// mostData is the most memory that is looked at.
	mostData = 1 << 28
)

// data returns the data section with less in it: nothing that is never read, and few
// zeros between its segments.
func data(section []byte) []byte {
	memory, ok := filled(section)
	if !ok {
		return section
	}
	withoutBuckets(memory)
	var out []byte
	count := uint64(0)
	for at := 0; at < len(memory); at++ {
		if memory[at] == 0 {
			continue
		}
		last := at // the last byte of a segment that is not zero
		for end := at; end < len(memory) && end-last <= widest; end++ {
			if memory[end] != 0 {
				last = end
			}
		}
		out = appendSigned(append(out, 0, opI32Const), int64(at))
		out = append(out, opEnd)
		out = binary.AppendUvarint(out, uint64(last+1-at))
		out = append(out, memory[at:last+1]...)
		count++
		at = last
	}
	return append(binary.AppendUvarint(nil, count), out...)
}

// filled returns the memory that a data section fills; not ok for one that is not of
// segments at constant places.
func filled(section []byte) (memory []byte, ok bool) {
	r := reader{b: section}
	for range r.unsigned() {
		if r.byte() != 0 || r.byte() != opI32Const {
			return nil, false
		}
		at := r.signed()
		if r.byte() != opEnd {
			return nil, false
		}
		b := r.bytes(int(r.unsigned()))
		if r.bad || at < 0 || at > mostData-int64(len(b)) {
			return nil, false
		}
		if end := int(at) + len(b); end > len(memory) {
			memory = append(memory, make([]byte, end-len(memory))...)
		}
		copy(memory[at:], b)
	}
	return memory, r.at == len(section)
}

// withoutBuckets clears what is never read of the table by which the runtime finds a
// function from a program counter. It has a bucket for each 4,096 counters, sixteen a
// function, since the counters of a function begin at its number times 65,536; but a
// function is looked for by its number alone, so that the first of its buckets is
// read (runtime.findfunc of Go 1.26). One that is cleared would still do: what it says
// is where the search for the function begins.
func withoutBuckets(memory []byte) {
	const (
		magic   = 0xfffffff1 // of the table of functions since Go 1.20
		size    = 20         // of a bucket: a number, and sixteen bytes
		each    = 16         // buckets of a function
		header  = 72
		tableAt = 152 // in runtime.moduledata, after a pointer and six slices
	)
	word := func(at int) int { return int(binary.LittleEndian.Uint64(memory[at:])) }
	for h := 0; h+header <= len(memory); h += 8 {
		if binary.LittleEndian.Uint32(memory[h:]) != magic || memory[h+7] != 8 {
			continue
		}
		functions, names := word(h+8), h+word(h+32)
		for m := 0; m+tableAt+8 <= len(memory); m += 8 {
			if word(m) != h || word(m+8) != names {
				continue
			}
			table := word(m + tableAt)
			if functions <= 0 || table <= 0 || table > len(memory) || functions > (len(memory)-table)/(size*each) {
				return
			}
			for i := range functions {
				if binary.LittleEndian.Uint32(memory[table+i*size*each:]) != uint32(i) {
					return // it is another table
				}
			}
			for i := range functions {
				clear(memory[table+(i*each+1)*size : table+(i+1)*each*size])
			}
			return
		}
	}
}
