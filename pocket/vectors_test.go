package pocket_test

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// vectors are values from outside, each with its source or derivation.
type vectors struct {
	StandIn []struct {
		Half, Opening, StandIn units.Length
		Source                 string
	}
	Runs []struct {
		Half, Tab, Land, Length units.Length
		Pockets, Scores         int
		Source                  string
	}
	Accordions []struct {
		Panel, Tab, Sheet, Length units.Length
		Panels, Strips, PerStrip  int
		Source                    string
	}
	Pleats []struct {
		Pleats                        int
		Visible, Fold, Length, Covers units.Length
		Source                        string
	}
	Concertinas []struct {
		Fold   units.Length
		Warned bool
		Source string
	}
	Envelopes []struct{ Content, Clear, Source string }
	Contents  []struct {
		Name, Size string
		Thickness  units.Length
		Source     string
	}
	Strips []struct {
		Strip, Closed, Mat, Refused, Panel, Source string
		Scores, Panels                             []units.Length
		From, To                                   string
	}
}

func readVectors(t testing.TB) vectors {
	t.Helper()
	data, err := os.ReadFile("testdata/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var v vectors
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// rulerFor returns the ruler of a maker who works in the vector's unit.
func rulerFor(source units.Length) units.Ruler {
	if units.SixtyFourths.Has(source) {
		return units.SixtyFourths
	}
	return units.WholeMillimetres
}

func design(t testing.TB, k pocket.Kind, p pocket.Paper, r units.Ruler) pocket.Design {
	t.Helper()
	d, err := k.Design(p, r)
	if err != nil {
		t.Fatalf("%s: %v", k.Name(), err)
	}
	return d
}

func piece(t testing.TB, d pocket.Design, name string) pocket.Piece {
	t.Helper()
	for _, p := range d.Pieces() {
		if p.Name() == name {
			return p
		}
	}
	t.Fatalf("%s has no piece %q", d.Kind().Name(), name)
	return pocket.Piece{}
}

func TestStandIn(t *testing.T) {
	for _, v := range readVectors(t).StandIn {
		for _, d := range []units.Direction{units.Up, units.Down, units.Nearest} {
			if got, ok := pocket.StandIn(v.Half, v.Opening, d); !ok || got != v.StandIn {
				t.Errorf("StandIn(%v, %v, %v) = %v, %v; want %v (%s)", v.Half, v.Opening, d, got, ok, v.StandIn, v.Source)
			}
		}
		if _, ok := pocket.StandIn(v.Half, 2*v.Half+1, units.Up); ok {
			t.Errorf("a gusset of %v opens beyond twice that", v.Half)
		}
	}
}

func TestGussetRunLength(t *testing.T) {
	card := pocket.IDCard()
	for _, v := range readVectors(t).Runs {
		d := design(t, pocket.GussetRun{Content: card, Half: v.Half, Pockets: v.Pockets, Tab: v.Tab, Land: v.Land}, pocket.Paper{}, rulerFor(v.Half))
		p := piece(t, d, "side gusset run")
		n := 0
		for range p.Blank().Lines() {
			n++
		}
		if got := p.Blank().Size().W; got != v.Length || n != v.Scores {
			t.Errorf("run of %d: %v long with %d scores; want %v, %d (%s)", v.Pockets, got, n, v.Length, v.Scores, v.Source)
		}
		if p.Quantity() != 2 || d.Pockets() != v.Pockets || d.Gusset() != v.Half {
			t.Errorf("run of %d: %d strips, %d pockets, half panel %v", v.Pockets, p.Quantity(), d.Pockets(), d.Gusset())
		}
		leaves := 0
		for _, p := range d.Pieces() {
			if strings.Contains(p.Name(), "leaf") {
				leaves += p.Quantity()
			}
		}
		if leaves != v.Pockets+1 {
			t.Errorf("run of %d has %d leaves; want one more", v.Pockets, leaves)
		}
	}
}

// In the zone of the gussets, away from tabs, a closed run has 2n layers of
// gusset and n + 1 of leaf (derived).
func TestGussetRunLayers(t *testing.T) {
	for n := 1; n <= 9; n++ {
		d := design(t, pocket.GussetRun{Content: pocket.IDCard(), Pockets: n, Half: 20 * units.Millimetre, Tab: 5 * units.Millimetre, OpenFoot: true},
			pocket.Paper{}, units.WholeMillimetres)
		at := units.Point{X: 15 * units.Millimetre, Y: d.Closed().H - units.Millimetre} // past the tab, before the fold
		if got := layersAt(d, at); got != 2*n+n+1 {
			t.Errorf("%d pockets: %d layers beside the tab; want 2n + n + 1 = %d", n, got, 3*n+1)
		}
		at.X = units.Millimetre
		if got := layersAt(d, at); got != 3*n+3 {
			t.Errorf("%d pockets: %d layers at the tab; want two more, %d", n, got, 3*n+3)
		}
		at.X = d.Closed().W.Half(units.Down)
		if got := layersAt(d, at); got != n+1 {
			t.Errorf("%d pockets: %d layers in the middle; want the leaves, %d", n, got, n+1)
		}
	}
}

func layersAt(d pocket.Design, at units.Point) int {
	for h := range d.Heights(false) {
		if h.Rect().Min.X <= at.X && at.X < h.Rect().Max.X && h.Rect().Min.Y <= at.Y && at.Y < h.Rect().Max.Y {
			return h.Layers()
		}
	}
	return 0
}

func TestFoldedAccordionLength(t *testing.T) {
	for _, v := range readVectors(t).Accordions {
		r := rulerFor(v.Panel)
		k := pocket.FoldedAccordion{Panel: units.Size{W: v.Panel, H: v.Panel}, Panels: v.Panels, Tab: v.Tab, JointTab: v.Tab}
		d := design(t, k, pocket.Paper{Sheet: units.Size{W: v.Sheet, H: v.Sheet}}, r)
		var total units.Length
		for w := range d.Workings() {
			if w.Label() == "strip" {
				total = w.Length()
			}
		}
		if total != v.Length {
			t.Errorf("%d panels: the strip is %v long; want %v (%s)", v.Panels, total, v.Length, v.Source)
		}
		joints, strips := 0, 0
		for j := range d.Splices() {
			joints++
			if j.Fold() != joints*v.PerStrip || j.At() != units.Length(j.Fold())*v.Panel || j.Tab() != v.Tab {
				t.Errorf("joint %d: fold %d at %v, tab %v; want fold %d, tab %v", joints, j.Fold(), j.At(), j.Tab(), joints*v.PerStrip, v.Tab)
			}
		}
		length := units.Length(0)
		for _, p := range d.Pieces() {
			strips += p.Quantity()
			length += units.Length(p.Quantity()) * p.Blank().Size().W
			if !p.Blank().Size().FitsTurned(units.Size{W: v.Sheet, H: v.Sheet}) {
				t.Errorf("%s is larger than the sheet", p.Name())
			}
		}
		if strips != v.Strips || joints != v.Strips-1 || length != v.Length+units.Length(joints)*v.Tab {
			t.Errorf("%d panels: %d strips, %d joints, %v in all; want %d strips (%s)", v.Panels, strips, joints, length, v.Strips, v.Source)
		}
	}
}

func TestPleatLength(t *testing.T) {
	for _, v := range readVectors(t).Pleats {
		k := pocket.Pleat{Content: pocket.IDCard(), Pleats: v.Pleats, Visible: v.Visible, Fold: v.Fold}
		d := design(t, k, pocket.Paper{}, rulerFor(v.Visible))
		p := piece(t, d, "pleats")
		if got := p.Blank().Size().H; got != v.Length {
			t.Errorf("%d pleats take %v; want %v (%s)", v.Pleats, got, v.Length, v.Source)
		}
		strip, err := p.Blank().Strip(score.Level)
		if err != nil {
			t.Fatal(err)
		}
		folded, err := strip.Fold()
		if err != nil {
			t.Fatalf("the pleats do not fold: %v", err)
		}
		// Pleats cover n visible parts; the inmost fold reaches up to the first mouth.
		if folded.Width() != v.Covers {
			t.Errorf("folded the pleats cover %v; want %v", folded.Width(), v.Covers)
		}
		if most := folded.MostLayers(); d.Thickness(false) != units.Length(most)*d.Paper().Caliper || most != 3 {
			t.Errorf("%v thick with %d layers; want 3 layers", d.Thickness(false), most)
		}
	}
}

func TestConcertinaDepth(t *testing.T) {
	for _, v := range readVectors(t).Concertinas {
		d := design(t, pocket.Concertina{Content: pocket.IDCard(), Fold: v.Fold}, pocket.Paper{}, units.SixtyFourths)
		warned := false
		for w := range d.Warnings() {
			warned = warned || w.Path == "fold" && w.Code == pocket.Unusual
		}
		if warned != v.Warned {
			t.Errorf("a fold %v deep: warned %v; want %v (%s)", v.Fold, warned, v.Warned, v.Source)
		}
	}
}

func TestEnvelopePractice(t *testing.T) {
	for _, v := range readVectors(t).Envelopes {
		content := pocket.Content{Name: "envelope's content", Size: units.MustParseSize(v.Content)}
		for _, build := range []pocket.Build{pocket.ThreeGlued, pocket.FoldedFoot} {
			d := design(t, pocket.Slip{Content: content, Depth: pocket.Share{Part: 1, Of: 1}, Build: build}, pocket.Paper{}, units.SixtyFourths)
			for _, p := range d.Spots() {
				if p.Clear() != units.MustParseSize(v.Clear) {
					t.Errorf("clear %v for %s; want %s (%s)", p.Clear(), v.Content, v.Clear, v.Source)
				}
			}
		}
	}
}

func TestUsualContents(t *testing.T) {
	for _, v := range readVectors(t).Contents {
		u, ok := pocket.UsualContent(v.Name)
		if !ok || u.Content.Size != units.MustParseSize(v.Size) || u.Content.Thickness != v.Thickness {
			t.Errorf("%s: %v, %v; want %s, %v (%s)", v.Name, u.Content, ok, v.Size, v.Thickness, v.Source)
		}
	}
	seen := map[string]bool{}
	for u := range pocket.UsualContents() {
		if seen[u.Content.Name] || u.Source == "" || u.Content.Size.Empty() || u.Content.Thickness <= 0 || u.Content.Thickness > pocket.FlatLimit {
			t.Errorf("%+v is twice in the table or incomplete", u)
		}
		seen[u.Content.Name] = true
		if again, ok := pocket.UsualContent(u.Content.Name); !ok || again != u {
			t.Errorf("%s is not found by its name", u.Content.Name)
		}
	}
	if _, ok := pocket.UsualContent("grand piano"); ok {
		t.Error("a content that is not in the table is found")
	}
}

func TestStripByScores(t *testing.T) {
	for _, v := range readVectors(t).Strips {
		k := pocket.FoldedStrip{Strip: units.MustParseSize(v.Strip)}
		copy(k.Scores[:], v.Scores)
		if v.Mat != "" {
			k.Mat.Size = units.MustParseSize(v.Mat)
		}
		for _, right := range []bool{false, true} {
			k.OpensRight = right
			d, err := k.Design(pocket.Paper{}, units.Eighths)
			if v.Refused != "" {
				var list *check.Error
				if !errors.As(err, &list) || list.Len() != 1 {
					t.Fatalf("%v: %v; want one violation", v.Scores, err)
				}
				got, ok := list.Find(v.Refused, pocket.DoesNotFold)
				if !ok || !strings.Contains(got.Got, v.Panel) || !strings.Contains(got.Want, "from "+v.From+" to "+v.To) {
					t.Errorf("refused with %v; want %s, %s, from %s to %s (%s)", got, v.Refused, v.Panel, v.From, v.To, v.Source)
				}
				if limit := units.MustParse(v.From); got.Limit != limit || got.By != limit-v.Scores[1] {
					t.Errorf("limit %v by %v; want %v", got.Limit, got.By, limit)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			for i, name := range []string{"flap", "base", "pocket front", "hem"} {
				p, ok := d.Panel(name)
				if want := (units.Size{W: v.Panels[i], H: k.Strip.H}); !ok || p.Size() != want {
					t.Errorf("%s is %v; want %v (%s)", name, p.Size(), want, v.Source)
				}
			}
			if d.Closed() != units.MustParseSize(v.Closed) {
				t.Errorf("closed %v; want %s", d.Closed(), v.Closed)
			}
			card := pocket.IDCard()
			if err := d.Accepts(card); err != nil {
				t.Errorf("the pocket does not take an ID-1 card: %v", err)
			}
			if err := d.Accepts(card.Turned()); err != nil {
				t.Errorf("the pocket does not take an ID-1 card upright: %v", err)
			}
			on, err := d.Carry(units.MustParseSize(v.Mat))
			flap, _ := d.Panel("flap")
			if err != nil || !on.In(flap.Closed()) {
				t.Errorf("the mat lies at %v on the flap %v: %v", on, flap.Closed(), err)
			}
			if _, err := d.Carry(k.Mat.Size.Plus(0, units.Inch)); err == nil {
				t.Error("a mat higher than the strip sits on the flap")
			}
		}
	}
}

// The strip of common practice comes out again when its parts are left to the
// defaults: from the sheet, and from what the pocket holds.
func TestStripByDefaults(t *testing.T) {
	want := []units.Length{31 * units.Inch / 8, 4 * units.Inch, 21 * units.Inch / 8, 3 * units.Inch / 2}
	content := pocket.Content{Name: "note", Size: units.MustParseSize("3 3/4 x 5 3/8 in")}
	for _, k := range []pocket.FoldedStrip{
		{Strip: units.MustParseSize("12 x 6 in")},
		{Content: content},
		{Content: content, OpensRight: true},
	} {
		d := design(t, k, pocket.Paper{}, units.Eighths)
		for i, name := range []string{"flap", "base", "pocket front", "hem"} {
			if p, _ := d.Panel(name); p.Size().W != want[i] || p.Size().H != 6*units.Inch {
				t.Errorf("%s is %v; want %v", name, p.Size(), want[i])
			}
		}
	}
}
