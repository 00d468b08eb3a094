package pocket_test

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"io"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Designs of every kind, with every field of each set in turn: a line each with
// what a person can judge, and a sum over all else that a design says. The lines
// are no proof that they are right: the maker, the vectors and the properties
// are. They are kept so that no result changes without being looked at: a change
// that is meant is written with -write, and its lines are read.
func TestDesignsAreHeld(t *testing.T) {
	var got bytes.Buffer
	print := pocket.Content{Name: "print", Size: units.MustParseSize("89 x 127 mm"), Thickness: 260 * units.Micrometre}
	for k := range pocket.Kinds() {
		base := reflect.New(reflect.TypeOf(k)).Elem()
		base.FieldByName("Content").Set(reflect.ValueOf(print))
		hold(&got, base, "as usual")
		for i := range base.NumField() {
			for _, v := range variants(base.Field(i)) {
				next := reflect.New(base.Type()).Elem()
				next.Set(base)
				next.Field(i).Set(v)
				hold(&got, next, fmt.Sprintf("%s %v", base.Type().Field(i).Name, v.Interface()))
				if f := next.FieldByName("Content"); i > 0 && reflect.TypeOf(k).Field(i).Type == reflect.TypeFor[units.Size]() {
					f.SetZero() // made from what is at hand, for whatever goes in
					hold(&got, next, fmt.Sprintf("%s %v, nothing given to hold", base.Type().Field(i).Name, v.Interface()))
				}
			}
		}
	}
	const name = "testdata/designs.txt"
	if *write {
		if err := os.WriteFile(name, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got.String(), "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// variants returns values for a field, some of which are refused.
func variants(f reflect.Value) (all []reflect.Value) {
	add := func(list ...any) {
		for _, v := range list {
			all = append(all, reflect.ValueOf(v).Convert(f.Type()))
		}
	}
	size := units.MustParseSize
	switch f.Interface().(type) {
	case units.Length:
		add(units.None, 7*mm, 23*mm+1, 61*mm)
	case units.Size:
		add(size("140 x 180 mm"), size("301 x 95 mm"), size("620.3 x 150 mm"))
	case int:
		add(2, 3, 7)
	case bool:
		add(true)
	case pocket.Content:
		add(pocket.IDCard(), pocket.Content{Name: "notes", Size: size("100 x 62.3 mm"), Thickness: 2*mm + 3})
	case pocket.Ease:
		add(pocket.Ease{W: 4 * mm, H: 9 * mm})
	case pocket.Share:
		add(pocket.Share{Part: 1, Of: 3}, pocket.Share{Part: 6, Of: 7})
	case pocket.Notch:
		add(pocket.Notch{Width: 24 * mm, Depth: 11 * mm})
	case pocket.Mat:
		add(pocket.Mat{Size: size("62 x 81 mm"), Caliper: mm / 2})
	case pocket.Build:
		add(pocket.FoldedFoot)
	case pocket.GussetAt:
		add(pocket.FootGusset)
	case score.Edge:
		add(score.Left, score.Right, score.Head, score.Tail)
	case [4]units.Length:
		add([4]units.Length{60 * mm, 130 * mm, 190 * mm, 230 * mm}, [4]units.Length{70 * mm, 75 * mm, 150 * mm, 170 * mm})
	}
	return all
}

// hold writes a line for a kind on each of two papers.
func hold(w io.Writer, k reflect.Value, what string) {
	for i, paper := range []pocket.Paper{
		{Name: "ingres paper", Caliper: 250 * units.Micrometre, Sheet: units.MustParseSize("500 x 650 mm")},
		{Name: "heavy card", Caliper: 530 * units.Micrometre, Grammage: 400, TwoSided: true, MatCaliper: mm},
	} {
		r := [...]units.Ruler{units.WholeMillimetres, units.Sixteenths}[i]
		kind := k.Interface().(pocket.Kind)
		d, err := kind.Design(paper, r)
		fmt.Fprintf(w, "%s, %s, %s: ", kind.Name(), paper.Name, what)
		if err != nil {
			fmt.Fprintf(w, "refused: %s\n", strings.ReplaceAll(err.Error(), "\n", "; "))
			continue
		}
		f := units.Format{Ruler: r}
		fmt.Fprintf(w, "closed %s, open %s, %s thick, %s full", f.Size(d.Closed()), f.Size(d.Open()), f.Text(d.Thickness(false)), f.Text(d.Thickness(true)))
		for _, p := range d.Pieces() {
			fmt.Fprintf(w, "; %d %s %s", p.Quantity(), p.Name(), f.Size(units.Size{W: p.Width().Length(), H: p.Height().Length()}))
		}
		for _, p := range d.Places() {
			c := p.Capacity()
			fmt.Fprintf(w, "; %d of %s, %s", c.Count, f.Size(c.Size), f.Text(c.Thickness))
			break // of several pockets the first, the rest in the sum
		}
		sum := fnv.New64a()
		rest(sum, d)
		fmt.Fprintf(w, "; %016x\n", sum.Sum64())
	}
}

// rest writes all else that a design says.
func rest(w io.Writer, d pocket.Design) {
	fmt.Fprintln(w, d.Gusset(), d.Opening(), d.Pockets(), d.Levels())
	for _, p := range d.Pieces() {
		a, ok := p.Grain()
		fmt.Fprintln(w, p.Name(), p.Caliper(), p.Stock(), a, ok, p.Blank(), p.Width(), p.Height())
	}
	for i, p := range d.Panels() {
		fmt.Fprintln(w, i, p.Name(), p.Piece(), p.Copy(), p.Side(), p.Blank(), p.Closed(), d.Up(p))
	}
	for i, p := range d.Places() {
		fmt.Fprintln(w, i, p.Capacity(), p.Clear(), p.Hidden(), p.Mounted(), p.Mouth(), p.Rect(), d.WayIn(p))
	}
	for _, full := range [...]bool{false, true} {
		fmt.Fprintln(w, d.Thickness(full))
		for h := range d.Heights(full) {
			fmt.Fprintln(w, h.Rect(), h.Height(), h.Layers())
		}
	}
	for h := range d.Filling() {
		fmt.Fprintln(w, h.Rect(), h.Height(), h.Layers())
	}
	for j := range d.Joints() {
		fmt.Fprintln(w, j.At(), j.Fold(), j.Tab())
	}
	for working := range d.Workings() {
		fmt.Fprintln(w, working)
	}
	for warning := range d.Warnings() {
		fmt.Fprintln(w, warning)
	}
	for s := range d.Steps() {
		fmt.Fprintln(w, s.Number, s.Task, s.After, s.Care(), s.Text(units.Format{}))
	}
	// Less room than it has when it stands open.
	stand, err := d.StandIn(d.Opening() / 3)
	fmt.Fprintln(w, stand, err)
}
