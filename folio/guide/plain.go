package guide

import (
	"strconv"
	"strings"
)

// columns is the width of the lines of plain text.
const columns = 78

// AppendPlain appends the document as plain text in lines of at most 78 columns,
// but for words that are longer.
func (d *Document) AppendPlain(dst []byte) []byte {
	t := &typist{dst: dst}
	for i, s := range d.sections {
		title := clean(s.Title)
		if i > 0 {
			t.line("")
			title = strings.ToUpper(title)
		}
		t.para("", "", title)
		if i == 0 {
			t.line(strings.Repeat("=", min(width(title), columns)))
		}
		for k, b := range s.Blocks {
			if k > 0 || i == 0 {
				t.line("")
			}
			b.plain(t)
		}
	}
	return t.dst
}

// A typist writes plain text.
type typist struct{ dst []byte }

func (t *typist) line(text string) {
	t.dst = append(t.dst, strings.TrimRight(text, " ")...)
	t.dst = append(t.dst, '\n')
}

// para writes a text in lines, the first after one beginning and the others after
// another.
func (t *typist) para(first, rest, text string) {
	line, fresh := first, true
	for w := range strings.FieldsFuncSeq(bound(text), func(r rune) bool { return r == ' ' }) {
		w = strings.ReplaceAll(w, string(noBreak), " ")
		if !fresh && width(line)+1+width(w) > columns {
			t.line(line)
			line, fresh = rest, true
		}
		if !fresh {
			line += " "
		}
		line += w
		fresh = false
	}
	t.line(line)
}

func (b Para) plain(t *typist) { t.para("", "", string(b)) }

func (l Texts) plain(t *typist) {
	for _, item := range l {
		t.para("  - ", "    ", item)
	}
}

func (b Table) plain(t *typist) {
	wide := b.widths()
	sum := 2 * len(wide)
	for _, w := range wide {
		sum += w
	}
	if b.Boxes {
		sum += 4
	}
	if sum > columns {
		b.stacked(t)
		return
	}
	var line []byte
	for _, row := range b.lines(wide) {
		t.line(string(append(append(line[:0], "  "...), row...)))
	}
}

// stacked writes the table a row after another, each cell with its heading.
func (b Table) stacked(t *typist) {
	for _, row := range b.Rows {
		box := ""
		if b.Boxes {
			box = "[ ] "
		}
		for i, cell := range row {
			switch {
			case i == 0:
				t.para("  "+box, "    ", cell)
			case cell == "":
			case b.Head != nil:
				t.para("      ", "        ", b.Head[i]+": "+cell)
			default:
				t.para("      ", "      ", cell)
			}
		}
	}
}

// widths returns how many columns each column of the table takes.
func (b Table) widths() []int {
	wide := make([]int, len(b.Head))
	for _, row := range append([][]string{b.Head}, b.Rows...) {
		for i, cell := range row {
			if i == len(wide) {
				wide = append(wide, 0)
			}
			wide[i] = max(wide[i], width(clean(cell)))
		}
	}
	return wide
}

// lines returns the table with its columns lined up.
func (b Table) lines(wide []int) []string {
	rows := b.Rows
	if b.Head != nil {
		rows = append([][]string{b.Head}, b.Rows...)
	}
	out := make([]string, 0, len(rows))
	for n, row := range rows {
		var line strings.Builder
		switch {
		case !b.Boxes:
		case b.Head != nil && n == 0:
			line.WriteString("    ")
		default:
			line.WriteString("[ ] ")
		}
		for i, cell := range row {
			cell = clean(cell)
			gap := strings.Repeat(" ", wide[i]-width(cell))
			if i > 0 {
				line.WriteString("  ")
			}
			if i >= len(wide)-b.Figures {
				line.WriteString(gap + cell)
			} else {
				line.WriteString(cell + gap)
			}
		}
		out = append(out, strings.TrimRight(line.String(), " "))
	}
	return out
}

func (c Checklist) plain(t *typist) {
	if c.Part != "" {
		t.para("", "", capital(c.Part))
	}
	for _, k := range c.Ticks {
		number := strconv.Itoa(k.Number) + ". "
		if n := 5 - len(number); n > 0 {
			number = strings.Repeat(" ", n) + number
		}
		t.para("[ ] "+number, "         ", k.Text+cautionMarks(k.Cautions))
		for _, note := range k.Notes {
			t.para("         ", "         ", note)
		}
		for _, f := range k.Fill {
			t.line("         " + clean(f) + ": ____________________")
		}
	}
}

// cautionMarks writes the names of cautions behind a step.
func cautionMarks(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return " [" + strings.Join(names, ", ") + "]"
}

func (f Figures) plain(t *typist) {
	for _, g := range f {
		t.para("", "", "Picture: "+g.Picture.Title()+". "+g.Picture.Description())
	}
}

func (w Drawing) plain(t *typist) { t.para("", "", "Drawing: "+w.Title+". "+w.Description) }

// The bars cannot be drawn.
func (Scale) plain(t *typist) { t.para("", "", noScale) }

// noScale stands for the bars where nothing can be drawn.
const noScale = "Measure with your own ruler: nothing here is drawn to scale."
