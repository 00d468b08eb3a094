package pocket_test

import (
	"bytes"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Designs of every kind, with every field of each set in turn: a line each with
// what a person can judge, and a sum over all else that a design says. The lines
// are no proof that they are right: the maker, the vectors and the properties
// are. They are kept so that no result changes without being looked at: a change
// that is meant is written with -write, and its lines are read.
func TestDesignsAreHeld(t *testing.T) {
	var got bytes.Buffer
	walkVariants(func(k reflect.Value, what string) { hold(&got, k, what) })
	texttest.Kept(t, "testdata/designs.txt", got.String(), *write)
}

// walkVariants walks kinds of all sorts, and what is set in them.
func walkVariants(visit func(k reflect.Value, what string)) {
	print := pocket.Content{Name: "print", Size: units.MustParseSize("89 x 127 mm"), Thickness: 260 * units.Micrometre}
	for k := range pocket.Kinds() {
		base := reflect.New(reflect.TypeOf(k)).Elem()
		base.FieldByName("Content").Set(reflect.ValueOf(print))
		visit(base, "as usual")
		for i := range base.NumField() {
			for _, v := range variants(base.Field(i)) {
				next := reflect.New(base.Type()).Elem()
				next.Set(base)
				next.Field(i).Set(v)
				visit(next, fmt.Sprintf("%s %v", base.Type().Field(i).Name, v.Interface()))
				if f := next.FieldByName("Content"); i > 0 && reflect.TypeOf(k).Field(i).Type == reflect.TypeFor[units.Size]() {
					f.SetZero() // made from what is at hand, for whatever goes in
					visit(next, fmt.Sprintf("%s %v, nothing given to hold", base.Type().Field(i).Name, v.Interface()))
				}
			}
		}
		several(visit, base)
	}
}

// several visits kinds with two to four fields set at once.
func several(visit func(k reflect.Value, what string), base reflect.Value) {
	random := rand.New(rand.NewPCG(29, uint64(base.NumField())))
	for n := range 24 {
		next := reflect.New(base.Type()).Elem()
		next.Set(base)
		if n%4 == 0 {
			next.FieldByName("Content").SetZero()
		}
		var what strings.Builder
		fmt.Fprintf(&what, "set %d", n)
		for range 2 + n%3 {
			i := random.IntN(base.NumField())
			all := slices.DeleteFunc(variants(base.Field(i)), func(v reflect.Value) bool { return v.Interface() == units.None })
			v := all[random.IntN(len(all))]
			next.Field(i).Set(v)
			fmt.Fprintf(&what, " %s", base.Type().Field(i).Name)
		}
		visit(next, what.String())
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
		add(units.None, 2*mm, 7*mm, 23*mm+1, 61*mm)
	case units.Size:
		add(size("140 x 180 mm"), size("301 x 95 mm"), size("620.3 x 150 mm"))
	case int:
		add(2, 3, 7)
	case bool:
		add(true)
	case pocket.Content:
		add(pocket.IDCard(), pocket.Content{Name: "notes", Size: size("100 x 62.3 mm"), Thickness: 2*mm + 3}, pocket.Content{Name: "letter", Size: size("110.1 x 220.2 mm")})
	case pocket.Ease:
		add(pocket.Ease{W: 4 * mm, H: 9 * mm})
	case pocket.Share:
		add(pocket.Share{Part: 1, Of: 3}, pocket.Share{Part: 6, Of: 7})
	case pocket.ThumbNotch:
		add(pocket.ThumbNotch{Width: 24 * mm, Depth: 11 * mm})
	case pocket.Mat:
		add(pocket.Mat{Size: size("62 x 81 mm"), Caliper: mm / 2})
	case pocket.Build:
		add(pocket.FoldedFoot, 7)
	case pocket.GussetAt:
		add(pocket.FootGusset, 7)
	case score.Edge:
		add(score.Left, score.Right, score.Head, score.Tail, 9)
	case [4]units.Length:
		add([4]units.Length{60 * mm, 130 * mm, 190 * mm, 230 * mm}, [4]units.Length{70 * mm, 75 * mm, 150 * mm, 170 * mm})
	}
	return all
}

// heldOn are the two papers and rulers that designs are held on.
var heldOn = [...]struct {
	paper pocket.Paper
	ruler units.Ruler
}{
	{pocket.Paper{Name: "ingres paper", Caliper: 250 * units.Micrometre, Sheet: units.MustParseSize("500 x 650 mm")}, units.WholeMillimetres},
	{pocket.Paper{Name: "heavy card", Caliper: 530 * units.Micrometre, Grammage: 400, TwoSided: true, MatCaliper: mm}, units.Sixteenths},
}

// hold writes a line for a kind on each of two papers.
func hold(w io.Writer, k reflect.Value, what string) { holdAs(w, k, what, as) }

func as(k pocket.Kind, _ units.Ruler) pocket.Kind { return k }

// holdAs is hold of a kind with something done to it.
func holdAs(w io.Writer, k reflect.Value, what string, change func(pocket.Kind, units.Ruler) pocket.Kind) {
	for _, on := range heldOn {
		paper, r := on.paper, on.ruler
		kind := change(k.Interface().(pocket.Kind), r)
		d, err := kind.Design(paper, r)
		fmt.Fprintf(w, "%s, %s, %s: ", kind.Name(), paper.Name, what)
		if err != nil {
			fmt.Fprint(w, "refused")
			var all *check.Error
			if !errors.As(err, &all) {
				fmt.Fprintf(w, ": %v\n", err)
				continue
			}
			for v := range all.All() {
				fmt.Fprintf(w, "; %v (%v)", v, v.Nature)
				if v.Bound != check.NoBound {
					fmt.Fprintf(w, " %v %v by %v", v.Bound, v.Limit, v.By)
				}
			}
			fmt.Fprintln(w)
			continue
		}
		f := units.Format{Ruler: r}
		fmt.Fprintf(w, "closed %s, open %s, %s thick, %s full", f.Size(d.Closed()), f.Size(d.Open()), f.Text(d.Thickness(false)), f.Text(d.Thickness(true)))
		for _, p := range d.Pieces() {
			fmt.Fprintf(w, "; %d %s %s", p.Quantity(), p.Name(), f.Size(units.Size{W: p.Width().Length(), H: p.Height().Length()}))
		}
		for _, p := range d.Spots() {
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
		fmt.Fprintln(w, p.Name(), p.Caliper(), p.StockKind(), a, ok, struct{ drawing score.Draft }{p.Blank().Draft()}, p.Width(), p.Height())
	}
	for i, p := range d.Panels() {
		fmt.Fprintln(w, i, p.Name(), p.Piece(), p.Copy(), p.Side(), p.Blank(), p.Closed(), d.Up(p))
	}
	for i, p := range d.Spots() {
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
	for j := range d.Splices() {
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
	for _, side := range [...]work.PaperSide{work.RightSide, work.WrongSide} {
		shown := d.Showing(side)
		fmt.Fprintln(w, side, shown.Paper().Up)
		for warning := range shown.Warnings() {
			fmt.Fprintln(w, warning)
		}
	}
	// Less room than it has when it stands open.
	stand, err := d.StandIn(d.Opening() / 3)
	fmt.Fprintln(w, stand, err)
}
