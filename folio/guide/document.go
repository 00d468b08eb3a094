package guide

import (
	"iter"
	"slices"
)

// A Document is something to print: sections of blocks, as data. It is written
// as a page for a browser ([Document.AppendHTML]), as Markdown
// ([Document.AppendMarkdown]) and as plain text ([Document.AppendPlain]), the same
// bytes each time. It cannot be changed and may be shared between goroutines.
type Document struct {
	title    string
	paper    PaperSize
	sections []Section
}

// Title returns what the document is called; it is never empty.
func (d *Document) Title() string { return d.title }

// Paper returns the paper that it is laid out for.
func (d *Document) Paper() PaperSize { return d.paper }

// Sections walks the sections in their order. What is walked is the caller's to
// keep.
func (d *Document) Sections() iter.Seq[Section] {
	return func(yield func(Section) bool) {
		for _, s := range d.sections {
			s.Blocks = slices.Clone(s.Blocks)
			for i, b := range s.Blocks {
				s.Blocks[i] = b.own()
			}
			if !yield(s) {
				return
			}
		}
	}
}

// Pictures walks the pictures of the document in their order.
func (d *Document) Pictures() iter.Seq[Picture] {
	return func(yield func(Picture) bool) {
		for _, s := range d.sections {
			for _, b := range s.Blocks {
				switch b := b.(type) {
				case Figures:
					for _, f := range b {
						if !yield(f.Picture) {
							return
						}
					}
				case Checklist:
					for _, t := range b.Ticks {
						if t.Figure != nil && !yield(t.Figure.Picture) {
							return
						}
					}
				}
			}
		}
	}
}

// A Section is a part of a document with a heading of its own.
type Section struct {
	// Title is the heading; that of the first section is the document's.
	Title string
	// Page says that it begins on a page of its own.
	Page bool
	// Blocks are what it says, in order.
	Blocks []Element
}

//go:noinline
func (s *Section) add(b ...Element) { s.Blocks = append(s.Blocks, b...) }

// An Element is one of the types of this package that say something in a section:
// [Para], [Texts], [Table], [Checklist], [Figures], [Drawing], [Scale].
// They are plain data, but for what a drawing holds.
type Element interface {
	own() Element // a copy that shares nothing that can be changed
	html(*page)
	markdown(*marker)
	plain(*typist)
}

// A Para is a paragraph.
type Para string

// Texts is a list of texts of equal weight.
type Texts []string

// A Table has a row of headings and rows of as many cells. A table with empty
// headings is a list of pairs: what each row is about stands in its first cell.
type Table struct {
	// Head are the headings; nil for a list of pairs.
	Head []string
	Rows [][]string // as many cells in each as there are headings, two in a list of pairs
	// Figures is how many columns from the right hold lengths and numbers;
	// 0 is none.
	Figures int
	// Boxes puts a box to tick before each row.
	Boxes bool
}

// A Checklist is work to do, each thing with a box to tick and a number.
type Checklist struct {
	// Part is a heading for it; empty for none.
	Part  string
	Ticks []Tick // one after the other
}

// A Tick is one thing to do.
type Tick struct {
	// Number is the number of the step, above 0.
	Number int
	// Text is what is done.
	Text string
	// Cautions are the names of the cautions that belong to it.
	Cautions []string
	// Notes are what else is good to know, each a sentence.
	Notes []string
	// Fill are the lengths to write down, as measured: a blank line for each.
	Fill []string
	// Figure is a picture of it, nil for none.
	Figure *Figure
}

// Figures are pictures that belong together.
type Figures []Figure

// add adds a picture with its caption, if there is one.
func (f Figures) add(p Picture, ok bool, caption string) Figures {
	if !ok {
		return f
	}
	return append(f, Figure{p, caption})
}

// A Figure is a picture with what is said under it.
type Figure struct {
	Picture Picture // what is shown
	// Caption is a short text; empty for the picture's title, or in a Tick for
	// none.
	Caption string
}

// caption returns what stands under the picture.
func (f Figure) caption() string {
	if f.Caption == "" {
		return f.Picture.Title()
	}
	return f.Caption
}

// A Drawing is drawn for the document itself: a lettered one, or a page to trace
// from.
type Drawing struct {
	// Title says what it shows, and Description tells what can be seen.
	Title, Description string
	// Caption stands under it; empty for the title.
	Caption string
	// Full says that it is at full size and must be printed so.
	Full bool
	svg  []byte
}

// A Scale is a bar of 100 mm and one of 4 in to hold a ruler against: a printer
// that fits pages to its paper changes every length on them.
type Scale struct{}

// scaleText says what the bars are for.
const scaleText = "Print at 100 %, or actual size. Hold a ruler against these bars: 100 mm and 4 in. If they measure anything else, what is drawn at full size is not, and nothing may be traced from it."

// Bind returns one document of several, each from a page of its own on, on the
// paper of the first. Documents that are nil are passed over.
func Bind(title string, docs ...*Document) *Document {
	out := &Document{title: clean(title), sections: []Section{{Title: title}}}
	for _, d := range docs {
		if d == nil {
			continue
		}
		if len(out.sections) == 1 {
			out.paper = d.paper
		}
		for i, s := range d.sections {
			s.Page = s.Page || i == 0 && len(out.sections) > 1
			out.sections = append(out.sections, s)
		}
	}
	return out
}
