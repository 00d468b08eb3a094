package guide_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

const mm = units.Millimetre

// wellFormed fails if a document is no XML.
func wellFormed(t *testing.T, doc []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(doc))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Fatalf("%v in\n%s", err, doc)
		}
	}
}

func build(t testing.TB, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPieceIsDrawnOrNot(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}})
	n := 0
	for range p.Pieces() {
		pic, ok := guide.Piece(p, n, guide.Options{})
		if !ok || pic.Empty() || pic.Title() == "" || pic.Description() == "" {
			t.Fatalf("piece %d is not drawn", n)
		}
		wellFormed(t, pic.AppendSVG(nil))
		n++
	}
	for _, i := range []int{-1, n} {
		if pic, ok := guide.Piece(p, i, guide.Options{}); ok || !pic.Empty() {
			t.Errorf("there is a picture of piece %d", i)
		}
	}
	for _, none := range []*folio.Plan{nil, {}} {
		if _, ok := guide.Piece(none, 0, guide.Options{}); ok {
			t.Error("there is a picture of no plan")
		}
	}
}

// The arrow of the grain runs along it, within the piece, and has a head at either end
// that points away from the other.
func TestGrainRunsAlong(t *testing.T) {
	ways := map[work.Grain]int{}
	for _, s := range samples() {
		for step := range s.plan.Steps() {
			for _, a := range step.Do {
				cut, ok := a.(work.Cut)
				if !ok || cut.What.Kind != work.Piece {
					continue
				}
				r, bad := s.look(0)(fmt.Sprintf("piece %d", cut.What.Index))
				if bad != "" {
					t.Fatal(bad)
				}
				lines := r.kind("along")
				if len(lines) > 1 || len(lines) > 0 && cut.Grain == work.GrainEither {
					t.Errorf("%s, piece %d: %d arrows for grain %v", s.name, cut.What.Index, len(lines), cut.Grain)
				}
				whole, _ := round(r.kind("outline"))
				if len(lines) != 1 {
					if cut.Grain != work.GrainEither && min(whole.x1-whole.x0, whole.y1-whole.y0) > 100_000_000 {
						t.Errorf("%s, piece %d: no arrow for grain %v", s.name, cut.What.Index, cut.Grain)
					}
					continue
				}
				ways[cut.Grain]++
				turned := cut.Grain != work.GrainAlongWidth
				at, _ := round(lines)
				from, across := along(point{at.x0, at.y0}, turned)
				to, over := along(point{at.x1, at.y1}, turned)
				if from >= to || across != over || at.x0 < whole.x0 || at.x1 > whole.x1 || at.y0 < whole.y0 || at.y1 > whole.y1 {
					t.Errorf("%s, piece %d: grain %v runs along %v in %v", s.name, cut.What.Index, cut.Grain, at, whole)
				}
				heads := map[int64]bool{}
				for _, l := range r.kind("mark") {
					x, y := along(l.pts[0], turned)
					foot, _ := along(l.pts[1], turned)
					if y == across && (x == from && foot > from || x == to && foot < to) {
						heads[x] = true
					}
				}
				if len(heads) != 2 {
					t.Errorf("%s, piece %d: heads at %v of an arrow from %d to %d", s.name, cut.What.Index, heads, from, to)
				}
			}
		}
	}
	if ways[work.GrainAlongHeight] < 10 {
		t.Errorf("arrows of the grain: %v", ways)
	}
}

// A front end lights what is marked as of a piece: the figures of dimensions, which
// measure one thing or several, and the words of a legend are of none.
func TestFiguresAreOfNoPiece(t *testing.T) {
	p := build(t, folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm},
		Fittings: []folio.Fitting{{Name: "map", Kind: folio.Mat{Size: units.Size{W: 80 * mm, H: 100 * mm}}}},
	})
	texts := regexp.MustCompile(`<text([^>]*)>([^<]*)</text>`)
	figures, names := 0, 0
	for _, draw := range []func(*folio.Plan, guide.Options) (guide.Picture, bool){guide.Inside, guide.Outside, guide.Wrap, guide.Closed} {
		pic, ok := draw(p, guide.Options{})
		if !ok {
			t.Fatal("no picture")
		}
		before, rest, _ := bytes.Cut(pic.AppendSVG(nil), []byte("data-legend"))
		legend, after, _ := bytes.Cut(rest, []byte("</g>"))
		for _, m := range texts.FindAllSubmatch(append(before, after...), -1) {
			of := bytes.Contains(m[1], []byte("data-piece")) || bytes.Contains(m[1], []byte("data-fitting"))
			switch figure := regexp.MustCompile(`^[\d. ]+$`).Match(m[2]); {
			case figure && of:
				t.Errorf("%s: the figure %s is of a piece", pic.Title(), m[2])
			case figure:
				figures++
			case of:
				names++
			}
		}
		if bytes.Contains(legend, []byte("data-piece")) {
			t.Errorf("%s: words of the legend are of a piece", pic.Title())
		}
	}
	if figures < 8 || names < 3 {
		t.Errorf("%d figures, %d names", figures, names)
	}
}
