package guide_test

import (
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

var write = flag.Bool("write", false, "write the texts and pictures of testdata, to be read and looked at before they are kept")

var pictures = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// same compares bytes with what is kept of them.
func same(t *testing.T, name string, got []byte) {
	t.Helper()
	name = filepath.Join("testdata", name)
	if *write {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	texttest.Kept(t, name, string(got), *write)
}

// The hand-outs of ten plans, as they are read: each as plain text, of some the
// Markdown too, and of every page a hash, without its pictures, which have tests
// of their own.
func TestHandOuts(t *testing.T) {
	var hashes strings.Builder
	for _, s := range samples() {
		doc := s.handOut(t)
		same(t, "handout/"+s.name+".txt", doc.AppendPlain(nil))
		if s.name == "quarter" || s.name == "tiny" {
			o := guide.PrintOptions{Layout: s.laid(t), Format: units.Format{Second: units.TenthMillimetres, Typographic: true}}
			same(t, "handout/"+s.name+".md", guide.HandOut(s.plan, o).AppendMarkdown(nil))
		}
		sum := sha256.Sum256(pictures.ReplaceAll(doc.AppendHTML(nil), nil))
		hashes.WriteString(hex.EncodeToString(sum[:8]) + "  " + s.name + "\n")
	}
	same(t, "handout/pages.txt", []byte(hashes.String()))
}

// The documents of a batch, of a family and the templates, as they are read, and of each
// page a hash with its drawings.
func TestDocumentsAreKept(t *testing.T) {
	l, _ := regatta(t)
	s := folio.Spec{Title: "Race cards", Form: boards.ForeEdgeFlap, Cover: units.MustParseSize("150 x 200 mm"), Spine: rule.Spine{Width: 18 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	s.Fittings = []folio.Fitting{{Name: "crest", Kind: folio.Mat{Picture: pocket.Content{Name: "crest", Size: units.MustParseSize("90 x 90 mm")}}}}
	family, err := fit.FamilyOf(t.Context(), s, units.MustParseSize("120 x 160 mm"), s.Cover, units.MustParseSize("60 x 80 mm"), units.MustParseSize("210 x 297 mm"))
	if err != nil {
		t.Fatal(err)
	}
	both := units.Format{Ruler: units.WholeMillimetres, Second: units.Sixteenths}
	var hashes strings.Builder
	keep := func(name string, doc *guide.Document) {
		sum := sha256.Sum256(doc.AppendHTML(nil))
		hashes.WriteString(hex.EncodeToString(sum[:8]) + "  " + name + "\n")
		same(t, "batch/"+name+".txt", doc.AppendPlain(nil))
	}
	keep("cutting book", guide.CuttingBook(l, guide.PrintOptions{Paper: guide.A4}))
	keep("shopping list", guide.ShoppingList(l, guide.PrintOptions{Format: both}))
	keep("price list", guide.PriceList(priced(t), guide.PrintOptions{}))
	keep("family", guide.FamilySheet(family, guide.PrintOptions{Paper: guide.A4}))
	for i, s := range samples() {
		doc := guide.Templates(s.plan, guide.PrintOptions{Paper: guide.PaperSize(i % 3)})
		if i < 2 {
			keep("templates of "+s.name, doc)
			continue
		}
		sum := sha256.Sum256(doc.AppendHTML(nil))
		hashes.WriteString(hex.EncodeToString(sum[:8]) + "  templates of " + s.name + "\n")
	}
	same(t, "batch/pages.txt", []byte(hashes.String()))
}

// The pictures that the README shows are those of the crew's folio.
func TestReadmePictures(t *testing.T) {
	p := build(t, crewSpec())
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	fit := guide.Options{Fit: units.MustParseSize("170 x 120 mm")}
	inside, ok := guide.Inside(p, fit)
	closed, okToo := guide.Closed(p, fit)
	if !ok || !okToo {
		t.Fatal("no picture")
	}
	for name, pic := range map[string]guide.Picture{"inside.svg": inside, "closed.svg": closed} {
		svg := pic.AppendSVG(nil)
		same(t, name, svg)
		if len(svg) > 20_000 {
			t.Errorf("%s takes %d bytes", name, len(svg))
		}
		if !strings.Contains(string(readme), "](folio/guide/testdata/"+name+")") {
			t.Errorf("the README does not show %s", name)
		}
	}
}
