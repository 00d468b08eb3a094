package guide

import (
	"strconv"
	"strings"
)

// AppendMarkdown appends the document as Markdown, as CommonMark 0.31 has it and
// without HTML. Tables are fenced blocks of code with their columns lined up. Whatever
// things are called stays text.
func (d *Document) AppendMarkdown(dst []byte) []byte {
	m := &marker{dst: dst}
	for i, s := range d.sections {
		if i == 0 {
			m.block("# ", s.Title)
		} else {
			m.block("## ", s.Title)
		}
		for _, b := range s.Blocks {
			b.markdown(m)
		}
	}
	return m.dst
}

// A marker writes Markdown.
type marker struct{ dst []byte }

// block writes one block of a line, with an empty line before it.
func (m *marker) block(mark, text string) {
	m.gap()
	m.line(mark, text)
}

func (m *marker) gap() {
	if len(m.dst) > 0 {
		m.dst = append(m.dst, '\n')
	}
}

func (m *marker) line(mark, text string) {
	m.dst = append(m.dst, mark...)
	m.text(text)
	m.dst = append(m.dst, '\n')
}

// text writes a text with everything escaped that could mean something, in
// CommonMark or in the extensions to it that are in use.
func (m *marker) text(text string) {
	text = strings.Join(strings.Fields(clean(text)), " ")
	for i := 0; i < len(text); i++ {
		c := text[i]
		special := strings.IndexByte("\\`*_[]<>&|~#$@", c) >= 0
		switch {
		case i == 0 && (c == '+' || c == '-' || c == '='):
			special = true
		case (c == '.' || c == ')') && numeral(text[:i]):
			special = true
		case c == '.' && strings.HasSuffix(strings.ToLower(text[:i]), "www"):
			special = true
		case c == ':' && i+1 < len(text) && text[i+1] == '/':
			special = true
		}
		if special {
			m.dst = append(m.dst, '\\')
		}
		m.dst = append(m.dst, c)
	}
}

// numeral reports whether a text is digits only.
func numeral(text string) bool {
	for i := range len(text) {
		if !digit(text[i]) {
			return false
		}
	}
	return true
}

func (b Para) markdown(m *marker) { m.block("", string(b)) }

func (l Texts) markdown(m *marker) {
	m.gap()
	for _, item := range l {
		m.line("- ", item)
	}
}

func (b Table) markdown(m *marker) {
	m.gap()
	if b.Head == nil {
		for _, row := range b.Rows {
			m.dst = append(m.dst, "- "...)
			if b.Boxes {
				m.dst = append(m.dst, "[ ] "...)
			}
			m.text(strings.Join(row, ": "))
			m.dst = append(m.dst, '\n')
		}
		return
	}
	lines := b.lines(b.widths())
	fence := fenceFor(lines)
	m.dst = append(append(m.dst, fence...), '\n')
	for _, line := range lines {
		m.dst = append(append(m.dst, line...), '\n')
	}
	m.dst = append(append(m.dst, fence...), '\n')
}

// fenceFor returns a fence for a block of code that no line of it can close.
func fenceFor(lines []string) string {
	fence := "```"
	for _, line := range lines {
		for strings.Contains(line, fence) {
			fence += "`"
		}
	}
	return fence
}

func (c Checklist) markdown(m *marker) {
	if c.Part != "" {
		m.block("### ", capital(c.Part))
	}
	m.gap()
	for _, k := range c.Ticks {
		m.dst = append(m.dst, "- [ ] **"...)
		m.dst = strconv.AppendInt(m.dst, int64(k.Number), 10)
		m.line(".** ", k.Text)
		if len(k.Cautions) > 0 {
			m.more(strings.Join(k.Cautions, ", "), "*")
		}
		for _, note := range k.Notes {
			m.more(note, "")
		}
		for _, f := range k.Fill {
			m.more(f+": ____________________", "")
		}
	}
}

// more goes on with the item of a list on a line of its own, between two marks.
func (m *marker) more(text, mark string) {
	m.dst = append(append(m.dst[:len(m.dst)-1], "\\\n  "...), mark...)
	m.text(text)
	m.dst = append(append(m.dst, mark...), '\n')
}

func (f Figures) markdown(m *marker) {
	for _, g := range f {
		m.block("", "Picture: "+g.Picture.Title()+". "+g.Picture.Description())
	}
}

func (w Drawing) markdown(m *marker) { m.block("", "Drawing: "+w.Title+". "+w.Description) }

// The bars cannot be drawn.
func (Scale) markdown(m *marker) { m.block("", noScale) }
