package guide_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Every picture of ten plans, by a hash each, and some as they are, to be looked
// at.
func TestPictures(t *testing.T) {
	fit := guide.Options{Fit: units.Size{W: 170 * mm, H: 120 * mm}}
	var hashes strings.Builder
	for _, s := range samples() {
		list := drawings(s.plan)
		if l := s.laid(t); l != nil {
			for sheet := range l.Sheets() {
				list = append(list, drawing{fmt.Sprintf("sheet %d", sheet.Number()), func(o guide.Options) (guide.Picture, bool) { return guide.Sheet(l, sheet.Number(), o) }})
			}
		}
		for _, d := range list {
			pic, ok := d.draw(fit)
			if !ok {
				continue
			}
			svg := pic.AppendSVG(nil)
			sum := sha256.Sum256(svg)
			hashes.WriteString(hex.EncodeToString(sum[:6]) + "  " + s.name + ", " + d.name + "\n")
			switch s.name + ", " + d.name {
			case "crew, wrap", "crew, strip 1", "crew, step 7", "crew, sheet 1", "pockets, accordion 0":
				same(t, "pictures/"+strings.ReplaceAll(d.name, " ", "")+".svg", svg)
			}
		}
	}
	same(t, "pictures/hashes.txt", []byte(hashes.String()))
}

// Drawn again, and by several at once, a picture is the same bytes.
func TestPicturesAreTheSameEachTime(t *testing.T) {
	p := build(t, crewSpec())
	for _, d := range drawings(p) {
		first, ok := d.draw(options[1])
		again, _ := d.draw(options[1])
		done := make(chan []byte)
		go func() { done <- first.AppendEmbedded(nil, "a") }()
		one := again.AppendEmbedded(nil, "a")
		if two := <-done; ok && !bytes.Equal(one, two) {
			t.Errorf("%s differs from time to time", d.name)
		}
	}
}

// What a stranger calls things is text and nothing else; what XML cannot hold is
// replaced.
func TestNamesAreEscaped(t *testing.T) {
	evil := `</text><script>alert("1")</script>&amp;` + "\x00\x1b\uFFFF"
	p := build(t, folio.Spec{Title: evil, Cover: units.Size{W: 300 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 30 * mm}, Covering: stock.Stock{Name: evil},
		Fittings: []folio.Fitting{{Name: evil, Kind: folio.Mat{Picture: pocket.Content{Name: evil, Size: units.Size{W: 200 * mm, H: 200 * mm}}}}}})
	found := false
	for _, d := range drawings(p) {
		pic, ok := d.draw(guide.Options{})
		if !ok {
			continue
		}
		r, err := read(pic.AppendSVG(nil))
		if err != nil {
			t.Fatalf("%s: %v", d.name, err)
		}
		for _, text := range r.texts {
			found = found || text.s == `</text><script>alert("1")</script>&amp;…` // of 42 signs the first 39
		}
	}
	if !found {
		t.Error("the name is nowhere to be read")
	}
}

// Many pictures go on one page: every id begins with that of the picture, and
// every reference leads to one of its own.
func TestEmbedded(t *testing.T) {
	p := build(t, crewSpec())
	for _, d := range drawings(p) {
		pic, ok := d.draw(options[1])
		if !ok {
			continue
		}
		page := string(pic.AppendEmbedded(nil, "fig1"))
		r, err := read([]byte(page))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(page, "<style") || strings.Contains(page, "<?xml") {
			t.Errorf("%s brings a style or a prolog into the page", d.name)
		}
		known := map[string]bool{}
		for _, id := range r.ids {
			if known[id] || !strings.HasPrefix(id, "fig1-") {
				t.Errorf("%s has the id %q", d.name, id)
			}
			known[id] = true
		}
		for _, part := range strings.Split(page, "url(#")[1:] {
			if id, _, _ := strings.Cut(part, ")"); !known[id] {
				t.Errorf("%s refers to %q", d.name, id)
			}
		}
		// Its name is its title and its description what describes it, so that
		// neither is heard twice.
		for _, by := range []string{`aria-labelledby="fig1-title"`, `aria-describedby="fig1-desc"`} {
			if strings.Count(page, by) != 1 {
				t.Errorf("%s is not told with %s", d.name, by)
			}
		}
		if !known["fig1-title"] || !known["fig1-desc"] {
			t.Errorf("%s has the ids %q", d.name, r.ids)
		}
		if r.title != pic.Title() || r.desc != pic.Description() || r.title == "" || r.desc == "" {
			t.Errorf("%s is called %q, %q", d.name, r.title, r.desc)
		}
	}
}

// Of the id that it is given a picture keeps letters, digits, - and _, which a name in a
// page and in a reference may hold anywhere; nothing else of it comes through.
func TestIdsAreNames(t *testing.T) {
	pic, _ := guide.Wrap(build(t, crewSpec()), guide.Options{})
	for id, want := range map[string]string{"a_z-A9Z0": "a_z-A9Z0-", "": "", "x\"><b>&é.y\u00a0[`{@/:": "xby-"} {
		r, err := read(pic.AppendEmbedded(nil, id))
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(r.ids, want+"title") {
			t.Errorf("of %q come %q; want them to begin with %q", id, r.ids, want)
		}
	}
}

// The document is as large as it says, in millimetres, a unit of its viewBox each;
// embedded it is as large as it is printed.
func TestSizes(t *testing.T) {
	p := build(t, crewSpec())
	for _, o := range options {
		pic, ok := guide.Inside(p, o)
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		size := pic.Size()
		if r.view != (box{0, 0, nanos(size.W), nanos(size.H)}) || nm(strings.TrimSuffix(r.width, "mm")) != r.view.x1 || nm(strings.TrimSuffix(r.height, "mm")) != r.view.y1 {
			t.Errorf("%s x %s, viewBox %v; want %v", r.width, r.height, r.view, size)
		}
		r, err := read(pic.AppendEmbedded(nil, "x"))
		if err != nil {
			t.Fatal(err)
		}
		if p := pic.Printed(); nm(strings.TrimSuffix(r.width, "mm")) != nanos(p.W) || o.Fit.W > 0 && p.W > o.Fit.W {
			t.Errorf("printed %v in %v", p, o.Fit)
		}
		// Words come out at the same size on paper, whatever the scale.
		if printed := float64(r.texts[0].height) * float64(pic.Printed().W) / float64(pic.Size().W); printed < 3.49e6 || printed > 3.51e6 {
			t.Errorf("text of %.3f mm on paper", printed/1e6)
		}
	}
}

// Alone, a picture is ink on white, and light on dark where the reader asks for
// it on a screen; on paper always ink on white. It has no colour but that.
func TestLightAndDark(t *testing.T) {
	pic, _ := guide.Wrap(build(t, crewSpec()), guide.Options{})
	svg := string(pic.AppendSVG(nil))
	_, style, _ := strings.Cut(svg, "<style>")
	style, _, _ = strings.Cut(style, "</style>")
	for _, want := range []string{":root{color:#000;background:#fff}", "@media screen and (prefers-color-scheme:dark)", "{color:#fff;background:#000}"} {
		if !strings.Contains(style, want) {
			t.Errorf("the style lacks %s", want)
		}
	}
	for _, part := range strings.FieldsFunc(svg, func(r rune) bool { return r == ' ' || r == '>' || r == '/' }) {
		if v, ok := strings.CutPrefix(part, `fill="`); ok && v != `none"` && v != `currentColor"` && !strings.HasPrefix(v, "url(#") {
			t.Errorf("fill %s", v)
		}
		if v, ok := strings.CutPrefix(part, `stroke="`); ok && v != `none"` && v != `currentColor"` {
			t.Errorf("stroke %s", v)
		}
	}
}

// The widths are those of the fonts that share Helvetica's, where one of them is
// at hand.
func TestWidths(t *testing.T) {
	var data []byte
	for _, name := range []string{
		"/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf", "/usr/share/fonts/truetype/liberation2/LiberationSans-Regular.ttf",
		"/usr/share/fonts/liberation-sans/LiberationSans-Regular.ttf", "/usr/share/fonts/TTF/LiberationSans-Regular.ttf",
	} {
		if b, err := os.ReadFile(name); err == nil {
			data = b
			break
		}
	}
	if data == nil {
		t.Skip("no Liberation Sans on this machine to compare the widths with")
	}
	f := readFont(t, data)
	for r := ' '; r < 0x3000; r++ {
		w, ok := f.width(r)
		got := guide.SignWidth(r)
		if known := r <= '~' || r >= 0xA0 && r <= 0xFF; !ok || !known && got == 1000 {
			continue
		}
		// Rounded to thousandths of the size. Of these four Adobe's metrics and the
		// fonts that share the others differ.
		if d := got - w; (d < -1 || d > 1) && !strings.ContainsRune("¯±µ÷", r) {
			t.Errorf("%q is %d wide; %d in Liberation Sans", r, got, w)
		}
	}
	// Adobe's core 14 fonts have no double prime: it is as wide as the straight double quote.
	if prime, quote := guide.SignWidth('″'), guide.SignWidth('"'); prime != quote {
		t.Errorf("a double prime is %d wide, a double quote %d", prime, quote)
	}
}
