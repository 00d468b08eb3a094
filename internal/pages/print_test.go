package pages

import (
	"cmp"
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

// A printed page as pdftotext -bbox reads it; lengths are in points.
type printedPage struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []struct {
		XMin float64 `xml:"xMin,attr"`
		YMin float64 `xml:"yMin,attr"`
		XMax float64 `xml:"xMax,attr"`
		YMax float64 `xml:"yMax,attr"`
		Text string  `xml:",chardata"`
	} `xml:"word"`
}

const millimetre = 72 / 25.4 // in points

// Printed by a browser every document has the pages that its sections ask for
// and not many more; its paper is the one that was asked for; every letter that
// it says is there, inside the margins.
func TestPrinted(t *testing.T) {
	browser := browser(t)
	for _, d := range documents(t) {
		t.Run(d.name, func(t *testing.T) {
			pages := printed(t, browser, d.Document)
			least := 1
			for s := range d.Sections() {
				if s.Page {
					least++
				}
			}
			pictures := 0
			for range d.Pictures() {
				pictures++
			}
			if n := len(pages); n < least || n > 2*least+4+pictures/2 {
				t.Errorf("%d pages; %d sections begin on one of their own, and there are %d pictures", n, least-1, pictures)
			}
			t.Logf("%d pages", len(pages))
			bars := 0
			letters := map[rune]int{}
			for i, p := range pages {
				checkPaper(t, d.Paper(), p)
				bars += checkBars(t, p)
				if len(p.Words) < 3 && d.Title() != "No folio" {
					t.Errorf("page %d is all but empty", i+1)
				}
				for _, w := range p.Words {
					count(letters, w.Text, 1)
					const edge = 15*millimetre - 1
					bottom := p.Height - edge
					if w.YMin > bottom { // the number of the page
						bottom = p.Height - 2*millimetre
					}
					if w.XMin < edge || w.YMin < edge || w.XMax > p.Width-edge || w.YMax > bottom {
						t.Errorf("page %d: %q lies at %.0f to %.0f, %.0f to %.0f of %.0f x %.0f points", i+1, w.Text, w.XMin, w.XMax, w.YMin, w.YMax, p.Width, p.Height)
					}
				}
			}
			if want := scales(d.Document); bars != want {
				t.Errorf("%d bars to hold a ruler against are printed; want %d", bars, want)
			}
			count(letters, said(d.Document), -1)
			for r, n := range letters {
				if n < 0 {
					t.Errorf("the letter %q is printed %d times too few", r, -n)
				}
			}
		})
	}
}

func checkPaper(t *testing.T, want guide.PaperSize, p printedPage) {
	t.Helper()
	size := want.Size()
	if want == guide.AnyPaper {
		return
	}
	points := func(l units.Length) float64 { return l.Inches() * 72 }
	if dw, dh := p.Width-points(size.W), p.Height-points(size.H); dw*dw+dh*dh > 1 {
		t.Errorf("a page of %.1f x %.1f points for %v", p.Width, p.Height, size)
	}
}

// checkBars returns how many pairs of bars are on a page, and fails where they are
// not as long as they say: "100 mm" and "4 in" end where their bars do, and all
// bars begin 1 mm inside the margin.
func checkBars(t *testing.T, p printedPage) int {
	t.Helper()
	const from, near = 16 * millimetre, 0.5 * millimetre
	n := 0
	for i, w := range p.Words[min(1, len(p.Words)):] {
		var want float64
		switch before := p.Words[i].Text; {
		case i > 0 && p.Words[i-1].Text == "bars:": // the words below the bars
			continue
		case before == "100" && w.Text == "mm" && w.XMax < 120*millimetre && w.XMax > 110*millimetre:
			want = from + 100*millimetre
			n++
		case before == "4" && w.Text == "in" && w.XMax < 120*millimetre && w.XMax > 110*millimetre:
			want = from + 4*72
		default:
			continue
		}
		if d := w.XMax - want; d < -near || d > near {
			t.Errorf("the bar of %s %s ends at %.1f mm; want %.1f", p.Words[i].Text, w.Text, w.XMax/millimetre, want/millimetre)
		}
	}
	return n
}

// scales returns how many pairs of bars a document has.
func scales(d *guide.Document) int {
	n := 0
	for s := range d.Sections() {
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case guide.Scale:
				n++
			case guide.Drawing:
				if b.Full {
					n++
				}
			}
		}
	}
	return n
}

// count counts letters and digits of ASCII, in lower case.
func count(letters map[rune]int, text string, n int) {
	for _, r := range strings.ToLower(text) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			letters[r] += n
		}
	}
}

// said returns what a document says outside its pictures.
func said(d *guide.Document) string {
	var b strings.Builder
	for s := range d.Sections() {
		b.WriteString(s.Title)
		for _, block := range s.Blocks {
			switch block := block.(type) {
			case guide.Para:
				b.WriteString(string(block))
			case guide.Texts:
				b.WriteString(strings.Join(block, " "))
			case guide.Table:
				b.WriteString(strings.Join(block.Head, " "))
				for _, row := range block.Rows {
					b.WriteString(strings.Join(row, " "))
				}
			case guide.Figures:
				for _, f := range block {
					b.WriteString(cmp.Or(f.Caption, f.Picture.Title()))
				}
			case guide.Checklist:
				b.WriteString(block.Part)
				for _, k := range block.Ticks {
					b.WriteString(k.Text + strings.Join(k.Cautions, " ") + strings.Join(k.Notes, " ") + strings.Join(k.Fill, " "))
				}
			}
		}
	}
	return b.String()
}

// browser returns the browser, or skips the test.
func browser(t *testing.T) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here to read what is printed")
	}
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); name != "" && err == nil {
			return path
		}
	}
	t.Skip("no Chromium here to print with")
	return ""
}

// printed prints a document and reads its pages.
func printed(t *testing.T, browser string, d *guide.Document) []printedPage {
	t.Helper()
	dir := t.TempDir()
	page, pdf := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(page, d.AppendHTML(nil), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--user-data-dir="+filepath.Join(dir, "user"),
		"--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+page)
	cmd.WaitDelay = time.Minute
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, err := exec.CommandContext(t.Context(), "pdftotext", "-bbox", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Pages []printedPage `xml:"body>doc>page"`
	}
	dec := xml.NewDecoder(strings.NewReader(string(out)))
	dec.Strict, dec.Entity = false, xml.HTMLEntity
	if err := dec.Decode(&read); err != nil {
		t.Fatal(err)
	}
	if keep := os.Getenv("PRINTED"); keep != "" { // to be looked at
		if text, err := os.ReadFile(pdf); err == nil {
			_ = os.WriteFile(filepath.Join(keep, strings.NewReplacer(" ", "-", ",", "").Replace(d.Title()[:min(len(d.Title()), 20)])+"-"+d.Paper().String()+".pdf"), text, 0o600)
		}
	}
	return read.Pages
}
