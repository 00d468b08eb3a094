package pages

import (
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"boardwrap.example/folio/guide"
)

// Read as CommonMark, and with the extensions that are in use besides, the
// Markdown holds headings, lists, paragraphs, blocks of code and emphasis, and
// what is read in it is what the plain text says: no name has become a link, a
// picture, HTML or a heading.
func TestMarkdown(t *testing.T) {
	for name, md := range map[string]goldmark.Markdown{
		"CommonMark": goldmark.New(), "with extensions": goldmark.New(goldmark.WithExtensions(extension.GFM)),
	} {
		for _, d := range documents(t) {
			source := d.AppendMarkdown(nil)
			root := md.Parser().Parse(text.NewReader(source))
			headings := 0
			var read strings.Builder
			err := ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
				if !entering {
					return ast.WalkContinue, nil
				}
				switch n := n.(type) {
				case *ast.Heading:
					headings++
				case *ast.Text:
					read.Write(n.Segment.Value(source))
				case *ast.String:
					read.Write(n.Value)
				case *ast.FencedCodeBlock:
					for i := range n.Lines().Len() {
						line := n.Lines().At(i)
						read.Write(line.Value(source))
					}
				case *ast.Document, *ast.Paragraph, *ast.TextBlock, *ast.List, *ast.ListItem, *ast.Emphasis:
				default:
					if k := n.Kind().String(); k != "TaskCheckBox" {
						t.Errorf("%s, %s: there is a %s", name, d.name, k)
					}
				}
				return ast.WalkContinue, nil
			})
			if err != nil {
				t.Error(err)
			}
			want := 0
			for s := range d.Sections() {
				want++
				for _, b := range s.Blocks {
					if c, ok := b.(guide.Checklist); ok && c.Part != "" {
						want++
					}
				}
			}
			if headings != want {
				t.Errorf("%s, %s: %d headings; want %d", name, d.name, headings, want)
			}
			if read.Len() < len(source)/2 {
				t.Errorf("%s, %s: only %d of %d bytes are text", name, d.name, read.Len(), len(source))
			}
		}
	}
}
