package guide_test

import (
	"encoding/binary"
	"testing"
)

// A font is a TrueType font, as far as widths go: the tables head, hhea, hmtx
// and the cmap of the Basic Multilingual Plane (ISO/IEC 14496-22, Open Font
// Format).
type font struct {
	cmap, hmtx    []byte
	perEm, widths int
}

func readFont(t *testing.T, data []byte) font {
	t.Helper()
	u16 := func(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
	u32 := func(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }
	table := map[string][]byte{}
	for i := range u16(data, 4) {
		entry := data[12+16*i:]
		table[string(entry[:4])] = data[u32(entry, 8):][:u32(entry, 12)]
	}
	f := font{hmtx: table["hmtx"], perEm: u16(table["head"], 18), widths: u16(table["hhea"], 34)}
	cmap := table["cmap"]
	for i := range u16(cmap, 2) {
		sub := cmap[u32(cmap, 8+8*i):]
		if u16(sub, 0) == 4 {
			f.cmap = sub
		}
	}
	if f.cmap == nil || f.perEm == 0 {
		t.Fatal("no font that can be read")
	}
	return f
}

// width returns the width of a sign in thousandths of the size.
func (f font) width(r rune) (int64, bool) {
	u16 := func(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
	n := u16(f.cmap, 6) / 2
	for i := range n {
		if int(r) > u16(f.cmap, 14+2*i) {
			continue
		}
		from := u16(f.cmap, 16+2*n+2*i)
		if int(r) < from {
			return 0, false
		}
		delta, offset := u16(f.cmap, 16+4*n+2*i), u16(f.cmap, 16+6*n+2*i)
		glyph := (int(r) + delta) & 0xFFFF
		if offset != 0 {
			if glyph = u16(f.cmap, 16+6*n+2*i+offset+2*(int(r)-from)); glyph != 0 {
				glyph = (glyph + delta) & 0xFFFF
			}
		}
		if glyph == 0 {
			return 0, false
		}
		return int64(u16(f.hmtx, 4*min(glyph, f.widths-1))*1000+f.perEm/2) / int64(f.perEm), true
	}
	return 0, false
}
