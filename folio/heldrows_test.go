package folio_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"io"
	"math/rand"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

var writeRows = flag.Bool("writerows", false, "write what TestRowsAreHeld compares with, to be read before it is kept")

// anyRow is a row of boards by chance, with and without spine boards, with hinges
// of every rule and crease and something on its boards, inside and outside.
func anyRow(r *rand.Rand) folio.Spec {
	length := func(low, high units.Length) units.Length { return low + units.Length(r.Int63n(int64(high-low))) }
	rulers := [...]units.Ruler{units.WholeMillimetres, units.TenthMillimetres, units.SixtyFourths, everyNanometre}
	s := folio.Spec{
		Cover:    units.Size{W: length(60*mm, 150*mm), H: length(80*mm, 200*mm)},
		Rulers:   rule.Rulers{Main: rulers[r.Intn(len(rulers))]},
		Board:    stock.Stock{Caliper: length(mm, 3*mm)},
		Covering: stock.Stock{Caliper: length(mm/20, mm/2)}, Liner: stock.Stock{Caliper: length(mm/20, mm/2)},
		Spine:   rule.Spine{Contents: length(mm, 12*mm)},
		Closing: closing.Allowance{Ease: [...]units.Length{0, units.None, mm / 2}[r.Intn(3)]},
		Hinge:   rule.Hinge{Rule: rule.HingeLeast},
	}
	soft := [...]rule.Hinge{{}, {Rule: rule.HingeLeast}, {Rule: rule.HingeLeast, Crease: rule.CreaseRound}, {Rule: rule.HingeRoundContents}, {Width: length(9*mm, 40*mm)}}
	hinges := [...]rule.Hinge{{}, {}, {Rule: rule.HingeLeast}, {Rule: rule.HingeLeast, Crease: rule.CreaseMidGap}, {Rule: rule.HingeLeast, Crease: rule.CreaseRound},
		{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}, {Rule: rule.HingeLeast, Crease: rule.CreaseAtOffset, Offset: mm}, {Rule: rule.HingeFlatBackGroove},
		{Rule: rule.HingeRoundContents}, {Width: length(3*mm, 12*mm)}}
	spined := r.Intn(3) > 0
	lying, spines := 2+r.Intn(3), 0
	if !spined {
		lying += r.Intn(3)
	}
	if spined && r.Intn(3) == 0 {
		s.Spine = rule.Spine{Width: length(12*mm, 30*mm)}
	}
	turn := r.Intn(2) // of most rows, in zigzag
	for k := range lying {
		if k > 0 {
			j := boards.Joint{Fold: score.Fold((k + turn) % 2), Hinge: soft[r.Intn(len(soft))]}
			if r.Intn(9) == 0 {
				j.Fold = score.Valley
			}
			if spined && spines < 2 {
				j.Hinge = hinges[r.Intn(len(hinges))]
			}
			s.Row.Joints = append(s.Row.Joints, j)
			if spined && spines < 2 {
				s.Row.Boards = append(s.Row.Boards, boards.Board{Role: [...]boards.Role{boards.Spine1, boards.Spine2}[spines]})
				s.Row.Joints = append(s.Row.Joints, boards.Joint{Fold: j.Fold, Hinge: hinges[r.Intn(len(hinges))]})
				spines++
			}
		}
		b := boards.Board{Role: boards.Panel1 + boards.Role(k)}
		switch r.Intn(5) {
		case 0:
			b.Width = length(40*mm, s.Cover.W)
		case 1:
			b.Rule = boards.WidthHalf
		}
		s.Row.Boards = append(s.Row.Boards, b)
	}
	if r.Intn(5) == 0 {
		s.Row.Main = boards.Panel1 + boards.Role(r.Intn(lying))
	}
	if spines == 2 && s.Row.Joints[0].Fold == s.Row.Joints[2].Fold {
		s.Closing.UnderFlap = length(0, 3*mm)
	}
	for i := range r.Intn(4) {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Name: string(rune('a' + i)), Panel: boards.Panel1 + boards.Role(r.Intn(lying)), Outside: r.Intn(3) == 0,
			Kind: [...]folio.Kind{
				folio.Mat{Size: units.Size{W: length(10*mm, 30*mm), H: length(10*mm, 60*mm)}},
				folio.Mat{Picture: pocket.Content{Name: "print", Size: units.Size{W: 25 * mm, H: 40 * mm}, Thickness: mm / 4}},
				folio.Ornament{Size: units.Size{W: length(5*mm, 20*mm), H: length(5*mm, 20*mm)}, Thickness: length(mm/2, 9*mm)},
				folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Size: units.Size{W: 20 * mm, H: 30 * mm}, Thickness: mm}}},
			}[r.Intn(4)],
			Place: place.Place{
				Across: [...]place.Align{place.Middle, place.Left, place.Right}[r.Intn(3)],
				Along:  [...]place.Align{place.Middle, place.Head, place.Tail}[r.Intn(3)],
			},
		})
	}
	return s
}

// holdRow writes a line on a row: how it is refused, or how it shuts, with a sum over
// where everything lies, what room there is and what is warned about, as planned
// and as it comes out a little larger.
func holdRow(w io.Writer, s folio.Spec, what string) {
	p, err := folio.Build(s)
	var all *check.Error
	if errors.As(err, &all) {
		fmt.Fprint(w, what, ": refused")
		for v := range all.All() {
			fmt.Fprintf(w, "; %v (%v) %v %v by %v", v, v.Nature, v.Bound, v.Limit, v.By)
		}
		fmt.Fprintln(w)
		return
	}
	n := p.Notation()
	fmt.Fprintf(w, "%s: open %s x %s", what, n.Text(p.OpenWidth().Length()), n.Text(p.OpenHeight().Length()))
	if c, ok := p.Closed(); ok {
		fmt.Fprintf(w, ", closed %s x %s, %s thick", n.Text(c.Size().W), n.Text(c.Size().H), n.Text(c.Thickness().Length()))
	}
	sum := fnv.New64a()
	width, height := p.AsMade()
	made, err := p.Refit(refit.Measured{Width: width.Length() + mm/2, Height: height.Length() + mm/4})
	fmt.Fprintln(sum, err)
	for _, p := range []*folio.Plan{p, made} {
		if p == nil {
			continue
		}
		fmt.Fprintln(sum, lies(p))
		for b := range p.Boards() {
			fmt.Fprintln(sum, b.Role(), b.Rect())
		}
		for f := range p.Fittings() {
			fmt.Fprintln(sum, f.Index(), f.Rect())
		}
		for w := range p.Warnings() {
			fmt.Fprintln(sum, w, w.Got, w.Want)
		}
		for working := range p.Workings() {
			fmt.Fprintln(sum, working)
			if bad := addUp(working); bad != "" {
				fmt.Fprint(w, "; ", bad)
			}
		}
	}
	fmt.Fprintf(w, "; %016x\n", sum.Sum64())
}

// Rows by chance, a line each, as TestPlansAreHeld keeps folios: that they shut as
// they must is proved by brute force, by motion and by the grid; this keeps what
// is said of them.
func TestRowsAreHeld(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	var got bytes.Buffer
	refused := 0
	const rows = 600
	for i := range rows {
		before := got.Len()
		holdRow(&got, anyRow(r), fmt.Sprint("row ", i))
		if bytes.Contains(got.Bytes()[before:], []byte("refused")) {
			refused++
		}
	}
	if refused < rows/10 || refused > rows*3/4 {
		t.Errorf("%d of %d rows were refused", refused, rows)
	}
	texttest.Kept(t, "testdata/rows.txt", got.String(), *writeRows)
}

// A place where something is too thick is told as hands measure it: what reaches beyond a
// board from one that is folded over it, by how far it does, and never by less than nothing.
func TestPlacesBeyondABoard(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	beyond := 0
	for range 600 {
		_, err := folio.Build(anyRow(r))
		if err == nil {
			continue
		}
		text := err.Error()
		if strings.Contains(text, "at -") || strings.Contains(text, "to -") {
			t.Errorf("%s", text)
		}
		for _, edge := range []string{"left", "head"} {
			beyond += strings.Count(text, " beyond the "+edge+" edge")
		}
	}
	if beyond == 0 {
		t.Error("nothing reached beyond a board")
	}
}
