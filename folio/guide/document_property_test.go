package guide_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// asked is what a folio is made of in the properties, all of it small numbers
// and texts, so that it shrinks by itself.
type asked struct {
	Form, Ruler, Kind   int
	Width, Height, Room int64 // nanometres
	Title, Name         string
	Quarter, Second     bool
}

func genAsked() gopter.Gen {
	text := gen.OneGenOf(gen.AnyString(), gen.AlphaString(), gen.OneConstOf("", " ", "|", "<b>", "a\nb", "\u202ex", strings.Repeat("long", 60)))
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 3), gen.IntRange(0, 2), gen.IntRange(0, 5), gen.Int64Range(120_000_000, 900_000_000),
		gen.Int64Range(120_000_000, 900_000_000), gen.Int64Range(10_000_000, 50_000_000), text, text, gen.Bool(), gen.Bool()), func(v []any) asked {
		return asked{v[0].(int), v[1].(int), v[2].(int), v[3].(int64), v[4].(int64), v[5].(int64), v[6].(string), v[7].(string), v[8].(bool), v[9].(bool)}
	})
}

// spec returns the folio that is asked for: cover and fitting in a proportion that
// always goes.
func (a asked) spec() folio.Spec {
	s := folio.Spec{Title: a.Title, Form: boards.Form(a.Form), Cover: units.Size{W: units.Length(a.Width), H: units.Length(a.Height)}}
	s.Rulers.Main = []units.Ruler{units.Sixteenths, units.WholeMillimetres, units.HalfMillimetres}[a.Ruler]
	s.Covering.Name = a.Name + " paper"
	if s.Form == boards.SoftSpine {
		s.Spine.Contents = units.Length(a.Room)
	} else {
		s.Spine.Width = units.Length(a.Room)
	}
	if a.Quarter {
		s.Quarter.Rule = rule.QuarterAlways
	}
	c := pocket.Content{Name: a.Name, Size: units.MustParseSize("40 x 50 mm"), Thickness: mm / 4}
	kind := []folio.Kind{nil, folio.Mat{Picture: c}, folio.Frame{Picture: c}, folio.Folded{Kind: pocket.Slip{Content: c}},
		folio.Folded{Kind: pocket.Corners{Content: c}}, folio.Ornament{Size: c.Size, Thickness: mm}}[a.Kind]
	if kind != nil {
		s.Fittings = []folio.Fitting{{Name: a.Name, Kind: kind, Outside: a.Kind == 5}}
	}
	return s
}

// Whatever a folio is and however it is called, its documents are whole: every
// step with its number once and in order, lines that are not too long, nothing
// in them that cannot be shown, pages that open and close what they must, the
// same bytes twice.
func TestDocumentProperties(t *testing.T) {
	proptest.Run(t, 30, func(p *gopter.Properties) {
		p.Property("documents are whole", prop.ForAll(func(a asked) string {
			plan, err := folio.Build(a.spec())
			if err != nil {
				return err.Error()
			}
			o := guide.PrintOptions{Paper: guide.PaperSize(a.Kind % 3)}
			if a.Second {
				o.Format.Second = units.TenthMillimetres
			}
			n := 0
			for _, k := range ticks(guide.HandOut(plan, o)) {
				if n++; k.Number != n || k.Text == "" {
					return fmt.Sprintf("step %d is numbered %d: %q", n, k.Number, k.Text)
				}
			}
			for range plan.Steps() {
				n--
			}
			if n != 0 {
				return fmt.Sprintf("%d steps too many", n)
			}
			for _, doc := range []*guide.Document{guide.HandOut(plan, o), guide.Templates(plan, o)} {
				if text := whole(doc); text != "" {
					return text
				}
			}
			return ""
		}, genAsked()))
	})
}

// whole says what is wrong with how a document is written.
func whole(doc *guide.Document) string {
	for line := range strings.Lines(string(doc.AppendPlain(nil))) {
		line = strings.TrimSuffix(line, "\n")
		if utf8.RuneCountInString(line) > 78 && strings.Contains(strings.TrimLeft(line, " -[]0123456789."), " ") && len(strings.Fields(line)) > 4 {
			return "too long: " + line
		}
	}
	for _, text := range [][]byte{doc.AppendPlain(nil), doc.AppendMarkdown(nil), doc.AppendHTML(nil)} {
		if !utf8.Valid(text) {
			return "no UTF-8"
		}
		if i := bytes.IndexFunc(text, func(r rune) bool {
			return r != '\n' && unicode.IsControl(r) || r >= '\u202a' && r <= '\u202e'
		}); i >= 0 {
			return fmt.Sprintf("cannot be shown: %q", text[max(i-20, 0):i+4])
		}
	}
	html := string(doc.AppendHTML(nil))
	if html != string(doc.AppendHTML(nil)) {
		return "two pages differ"
	}
	open := []string{}
	for rest := html; ; {
		_, after, ok := strings.Cut(rest, "<")
		if !ok {
			break
		}
		tag, next, _ := strings.Cut(after, ">")
		rest = next
		name, _, _ := strings.Cut(strings.TrimPrefix(tag, "/"), " ")
		switch {
		case name == "!DOCTYPE" || name == "meta" || name == "input" || name == "wbr" || strings.HasSuffix(tag, "/"):
		case tag[0] == '/':
			if len(open) == 0 || open[len(open)-1] != name {
				return fmt.Sprintf("</%s> closes %q", name, open)
			}
			open = open[:len(open)-1]
		default:
			open = append(open, name)
		}
	}
	if len(open) > 0 {
		return fmt.Sprintf("%q stay open", open)
	}
	return ""
}
