package guide

import (
	"strconv"

	"boardwrap.example/internal/quote"
)

// AppendHTML appends the document as one page of HTML that stands by itself:
// nothing in it comes from elsewhere, and a policy in its head forbids scripts
// and references. It prints in pages that break between things, light on any
// screen.
func (d *Document) AppendHTML(dst []byte) []byte {
	p := &page{dst: dst}
	p.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
	p.put("<meta http-equiv=\"Content-Security-Policy\" content=\"", policy, "\">\n")
	p.put("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
	p.put("<meta name=\"color-scheme\" content=\"light dark\">\n<title>")
	p.text(d.title).put("</title>\n<style>\n", pageStyle, "@page{margin:15mm")
	switch d.paper {
	case A4:
		p.put(";size:210mm 297mm")
	case Letter:
		p.put(";size:8.5in 11in")
	}
	p.put("}\n</style>\n</head>\n<body>\n")
	for i, s := range d.sections {
		p.section(i, s)
	}
	p.put("</body>\n</html>\n")
	return p.dst
}

// policy allows the style in the page and nothing else.
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

// A page writes HTML.
type page struct {
	dst []byte
	ids int // pictures so far, for the names of their parts
}

//go:noinline
func (p *page) put(parts ...string) *page {
	for _, s := range parts {
		p.dst = append(p.dst, s...)
	}
	return p
}

func (p *page) number(n int) *page {
	p.dst = strconv.AppendInt(p.dst, int64(n), 10)
	return p
}

// text writes a text so that nothing in it is read as anything else.
func (p *page) text(text string) *page {
	for _, r := range bound(text) {
		switch r {
		case '&':
			p.put("&amp;")
		case '<':
			p.put("&lt;")
		case '>':
			p.put("&gt;")
		case '"':
			p.put("&quot;")
		default:
			p.dst = append(p.dst, string(r)...)
		}
	}
	return p
}

// longWord is how many characters may stand without a place to break a line at,
// so that no name is wider than a page.
const longWord = 24

// flow writes a text of the page, with places to break lines at in words that
// are too long.
func (p *page) flow(text string) *page {
	run, from := 0, 0
	for i, r := range text {
		switch {
		case quote.Shown(r) == ' ' || r == noBreak:
			run = 0
			continue
		case run == longWord:
			p.text(text[from:i]).put("<wbr>")
			run, from = 0, i
		}
		run++
	}
	return p.text(text[from:])
}

func (p *page) section(i int, s Section) {
	name := "s" + strconv.Itoa(i+1)
	switch {
	case i == 0:
		p.put("<header>\n<h1>").flow(s.Title).put("</h1>\n")
	case s.Page:
		p.put("<section class=\"page\" aria-labelledby=\"", name, "\">\n<h2 id=\"", name, "\">").flow(s.Title).put("</h2>\n")
	default:
		p.put("<section aria-labelledby=\"", name, "\">\n<h2 id=\"", name, "\">").flow(s.Title).put("</h2>\n")
	}
	for _, b := range s.Blocks {
		b.html(p)
	}
	if i == 0 {
		p.put("</header>\n")
	} else {
		p.put("</section>\n")
	}
}

func (b Para) html(p *page) { p.put("<p>").flow(string(b)).put("</p>\n") }

func (l Texts) html(p *page) {
	if len(l) == 0 {
		return
	}
	p.put("<ul>\n")
	for _, item := range l {
		p.put("<li>").flow(item).put("</li>\n")
	}
	p.put("</ul>\n")
}

const box = "<input type=\"checkbox\"> "

func (b Table) html(p *page) {
	if len(b.Rows) == 0 {
		return
	}
	columns := len(b.Rows[0])
	right := func(i int) bool { return i >= columns-b.Figures }
	p.put("<table>\n")
	if b.Head != nil {
		p.put("<thead><tr>")
		for i, h := range b.Head {
			if right(i) {
				p.put("<th scope=\"col\" class=\"n\">")
			} else {
				p.put("<th scope=\"col\">")
			}
			p.flow(h).put("</th>")
		}
		p.put("</tr></thead>\n")
	}
	p.put("<tbody>\n")
	for _, row := range b.Rows {
		p.put("<tr><th scope=\"row\">")
		for i, cell := range row {
			switch {
			case i == 0 && b.Boxes:
				p.put("<label>", box)
			case i > 0 && right(i):
				p.put("<td class=\"n\">")
			case i > 0:
				p.put("<td>")
			}
			p.flow(cell)
			switch {
			case i > 0:
				p.put("</td>")
			case b.Boxes:
				p.put("</label></th>")
			default:
				p.put("</th>")
			}
		}
		p.put("</tr>\n")
	}
	p.put("</tbody>\n</table>\n")
}

func (c Checklist) html(p *page) {
	if len(c.Ticks) == 0 {
		return
	}
	if c.Part != "" {
		p.put("<h3>").flow(capital(c.Part)).put("</h3>\n")
	}
	p.put("<ol class=\"work\">\n")
	for _, t := range c.Ticks {
		p.tick(t)
	}
	p.put("</ol>\n")
}

// tick writes one thing to do, its picture beside the words where there is room.
func (p *page) tick(t Tick) {
	p.put("<li value=\"").number(t.Number).put("\">")
	if t.Figure != nil {
		p.put("<div class=\"step\"><div>")
	}
	p.put("<label>", box).flow(t.Text).put("</label>")
	for _, name := range t.Cautions {
		p.put(" <strong>").flow(name).put("</strong>")
	}
	for _, note := range t.Notes {
		p.put("\n<p class=\"note\">").flow(note).put("</p>")
	}
	for _, f := range t.Fill {
		p.fill(f)
	}
	if t.Figure != nil {
		p.put("</div>\n")
		p.picture(*t.Figure)
		if t.Figure.Caption != "" {
			p.put("<figcaption>").flow(t.Figure.Caption).put("</figcaption>")
		}
		p.put("</figure></div>")
	}
	p.put("</li>\n")
}

// fill writes a line to write on.
func (p *page) fill(what string) {
	p.put("\n<p class=\"fill\">").flow(what).put(" <span></span></p>")
}

func (f Figures) html(p *page) {
	if len(f) == 0 {
		return
	}
	p.put("<div class=\"figures\">\n")
	for _, g := range f {
		p.figure(g)
	}
	p.put("</div>\n")
}

// picture begins a figure with its picture.
func (p *page) picture(f Figure) {
	p.ids++
	p.put("<figure>")
	p.dst = f.Picture.AppendEmbedded(p.dst, "p"+strconv.Itoa(p.ids))
}

func (p *page) figure(f Figure) {
	p.picture(f)
	p.put("<figcaption>").flow(f.caption()).put("</figcaption></figure>\n")
}

func (w Drawing) html(p *page) {
	if w.Full {
		p.put("<figure class=\"tile\">")
	} else {
		p.put("<figure class=\"beside\">")
	}
	p.dst = append(p.dst, w.svg...)
	p.put("<figcaption>").flow(w.caption()).put("</figcaption></figure>\n")
}

func (w Drawing) caption() string {
	if w.Caption == "" {
		return w.Title
	}
	return w.Caption
}

func (Scale) html(p *page) {
	p.put("<figure class=\"scale\">")
	p.dst = appendScale(p.dst)
	p.put("<figcaption>").flow(scaleText).put("</figcaption></figure>\n")
}
