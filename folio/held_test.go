package folio_test

import (
	"bytes"
	"encoding"
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"io"
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

var writePlans = flag.Bool("writeplans", false, "write what TestPlansAreHeld compares with, to be read before it is kept")

// Plans of a few folios with every field of the Spec, of a fitting and of each
// kind of fitting set in turn: a line each with what a person can judge, and a
// sum over all else that a plan says. The lines are no proof that they are right:
// the maker, the published values and the properties are. They are kept so that
// no result changes without being looked at: a change that is meant is written
// with -writeplans, and its lines are read.
func TestPlansAreHeld(t *testing.T) {
	var got bytes.Buffer
	for _, base := range heldFolios() {
		holdPlan(&got, base, base.Title+", as it is")
		eachField(reflect.ValueOf(base), "", func(path string, set func(reflect.Value, reflect.Value), v reflect.Value) {
			next := base
			next.Fittings = append([]folio.Fitting(nil), base.Fittings...)
			set(reflect.ValueOf(&next).Elem(), v)
			holdPlan(&got, next, fmt.Sprintf("%s, %s %v", base.Title, path, v.Interface()))
		})
	}
	holdKinds(&got)
	texttest.Kept(t, "testdata/plans.txt", got.String(), *writePlans)
}

// heldFolios are the folios whose fields are changed: in inches and in
// millimetres, of every form, with sheets that rule, in quarter style.
func heldFolios() []folio.Spec {
	size := units.MustParseSize
	paper := stock.Stock{Name: "paste paper", Caliper: 180 * units.Micrometre, Grammage: 120, Sheets: []stock.Sheet{{Size: size("350 x 500 mm"), Grain: stock.GrainAlongHeight}, {Size: size("300 x 290 mm")}}}
	mats := []folio.Fitting{
		{Name: "crew", Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: size("89 x 127 mm"), Thickness: mm / 4}, Reveal: 6 * mm}, Panel: boards.RightCover},
		{Name: "draw", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}, Panel: boards.LeftCover},
	}
	gate := folio.Spec{Title: "gate", Form: boards.DoubleSpineGate, Cover: size("210 x 160 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 13 * mm}}
	return []folio.Spec{
		{Title: "inches", Cover: size("6 5/64 x 8 3/32 in"), Spine: rule.Spine{Width: units.MustParse("5/8 in")}, Fittings: mats},
		{Title: "sheets", Cover: size("151.3 x 208.7 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Contents: 9 * mm}, Covering: paper, Fittings: mats},
		{Title: "quarter", Cover: size("151 x 208 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 14 * mm}, Covering: paper, Quarter: rule.Quarter{Rule: rule.QuarterAlways}},
		{Title: "soft", Form: boards.SoftSpine, Cover: size("148.5 x 201 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Contents: 4 * mm}, Covering: stock.Stock{OneWay: true}},
		{Title: "flap", Form: boards.ForeEdgeFlap, Cover: size("170 x 121 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 11 * mm}, Magnets: closing.Magnets{Diameter: 6 * mm, Thickness: mm}},
		gate,
	}
}

// eachField walks values for the fields of a struct, structs in it too, with a
// function that sets the field in another of its kind.
func eachField(v reflect.Value, path string, do func(path string, set func(to, v reflect.Value), v reflect.Value)) {
	for i := range v.NumField() {
		f, at := v.Field(i), path+v.Type().Field(i).Name
		set := func(to, v reflect.Value) { to.Field(i).Set(v) }
		for _, v := range heldValues(f) {
			do(at, set, v)
		}
		if f.Kind() == reflect.Struct && f.Type() != reflect.TypeFor[units.Size]() {
			eachField(f, at+".", func(path string, inner func(to, v reflect.Value), v reflect.Value) {
				do(path, func(to, v reflect.Value) { inner(to.Field(i), v) }, v)
			})
		}
	}
}

// heldValues returns values for a field, some of which are refused.
func heldValues(f reflect.Value) (all []reflect.Value) {
	add := func(list ...any) {
		for _, v := range list {
			all = append(all, reflect.ValueOf(v).Convert(f.Type()))
		}
	}
	size := units.MustParseSize
	switch f.Interface().(type) {
	case units.Length:
		add(units.None, 700*units.Micrometre, 8*mm+1, 97*mm)
	case units.Size:
		add(units.Size{}, size("54.1 x 85.7 mm"), size("131.7 x 93 mm"))
	case units.Point:
		add(units.Point{X: 4*mm + 1}, units.Point{Y: -3 * mm}, units.Point{X: -90 * mm, Y: 7 * mm})
	case units.Ruler:
		add(units.Sixteenths, units.WholeMillimetres, units.ThirtySeconds)
	case units.Mass:
		add(5*units.Gram, -1)
	case units.Grammage:
		add(90)
	case string:
		add("no such name")
	case bool:
		add(true)
	case int:
		add(1, 3, 90, 181)
	case pocket.Content:
		add(pocket.Content{Name: "long", Size: size("210 x 40.3 mm")})
	case []stock.Sheet:
		add([]stock.Sheet{{Size: size("420 x 297 mm"), Grain: stock.GrainAlongWidth}}, []stock.Sheet{{Size: size("60 x 70 mm")}, {Size: size("500 x 700 mm")}})
	default:
		if f.Kind() == reflect.Uint8 {
			for n := range 12 { // up to the first that there is not
				add(n)
				if _, err := all[n].Interface().(encoding.TextMarshaler).MarshalText(); err != nil {
					break
				}
			}
		}
	}
	return all
}

// holdKinds holds each kind of fitting with each of its fields, and of the
// fitting's, set in turn.
func holdKinds(w io.Writer) {
	size := units.MustParseSize
	print := pocket.Content{Name: "print", Size: size("89.2 x 127.1 mm"), Thickness: mm / 4}
	base := folio.Spec{Title: "kinds", Cover: size("161 x 208 mm"), Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 16 * mm}}
	for _, k := range []folio.Kind{
		folio.Mat{Picture: print, Reveal: 5 * mm}, folio.Frame{Picture: print}, folio.Ornament{Size: size("40 x 30 mm"), Thickness: 2 * mm, Mass: 3 * units.Gram},
		folio.Folded{Kind: pocket.FoldedStrip{Content: print}}, folio.Folded{Kind: pocket.Gusset{Content: print, Count: 2}},
		folio.Folded{Kind: pocket.Corners{Content: print}}, folio.Folded{Kind: pocket.Flap{Content: print, Mat: pocket.Mat{Size: size("99 x 137 mm")}}},
	} {
		hold := func(f folio.Fitting, what string) {
			next := base
			next.Fittings = []folio.Fitting{f}
			holdPlan(w, next, k.String()+", "+what)
			f.Panel, f.StandsOn = boards.MainPanel, "under"
			next.Fittings = []folio.Fitting{{Name: "under", Kind: folio.Mat{Size: size("140 x 190 mm")}, Panel: boards.RightCover}, f}
			holdPlan(w, next, k.String()+" on a mat, "+what)
		}
		fitting := folio.Fitting{Name: "held", Kind: k, Panel: boards.RightCover}
		hold(fitting, "as it is")
		eachField(reflect.ValueOf(fitting), "", func(path string, set func(to, v reflect.Value), v reflect.Value) {
			next := fitting
			set(reflect.ValueOf(&next).Elem(), v)
			hold(next, fmt.Sprintf("%s %v", path, v.Interface()))
		})
		eachField(reflect.ValueOf(k), "", func(path string, set func(to, v reflect.Value), v reflect.Value) {
			next := reflect.New(reflect.TypeOf(k)).Elem()
			next.Set(reflect.ValueOf(k))
			set(next, v)
			f := fitting
			f.Kind = next.Interface().(folio.Kind)
			hold(f, fmt.Sprintf("%s %v", path, v.Interface()))
		})
	}
}

// holdPlan writes a line for a plan.
func holdPlan(w io.Writer, s folio.Spec, what string) {
	fmt.Fprint(w, what, ": ")
	p, err := folio.Build(s)
	var all *check.Error
	if errors.As(err, &all) {
		fmt.Fprint(w, "refused")
		for v := range all.All() {
			fmt.Fprintf(w, "; %v (%v)", v, v.Nature)
			if v.Bound != check.NoBound {
				fmt.Fprintf(w, " %v %v", v.Bound, v.Limit)
			}
		}
		fmt.Fprintln(w)
		return
	}
	n := p.Notation()
	open, tall := p.OpenWidth(), p.OpenHeight()
	fmt.Fprintf(w, "open %s x %s, wrap %s x %s", n.Text(open.Length()), n.Text(tall.Length()), n.Text(p.Wrap().Size().W), n.Text(p.Wrap().Size().H))
	if c, ok := p.Closed(); ok {
		fmt.Fprintf(w, ", closed %s x %s, %s thick", n.Text(c.Size().W), n.Text(c.Size().H), n.Text(c.Thickness().Length()))
	}
	sum := fnv.New64a()
	fmt.Fprintln(sum, everything(p))
	allElse(sum, p)
	// As it came out, a little larger than expected.
	width, height := p.AsMade()
	q, err := p.Refit(refit.Measured{Width: width.Length() + mm/2, Height: height.Length() + mm/4})
	fmt.Fprintln(sum, err)
	if err == nil {
		fmt.Fprintln(sum, everything(q))
		for c := range q.Changes() {
			fmt.Fprintln(sum, c)
		}
	}
	fmt.Fprintf(w, "; %016x\n", sum.Sum64())
}

// allElse writes what everything leaves out.
func allElse(w io.Writer, p *folio.Plan) {
	for x := range p.Pieces() {
		owner := ""
		if i, ok := x.Fitting(); ok {
			owner = check.Index("fittings", i)
		}
		fmt.Fprintln(w, x.Role(), x.Stock(), owner, x.Caliper(), x.Grain(), x.OneWay(), x.Up(), x.Area())
		for c := range x.CornerCuts() {
			fmt.Fprintln(w, c.Corner(), c.Cut(), c.Edge(), c.Leg(), c.Overlap(), c.Reach())
		}
		for o := range x.Openings() {
			fmt.Fprintln(w, o)
		}
		blank, ok := x.Blank()
		fmt.Fprintln(w, struct{ drawing score.Draft }{blank.Draft()}, ok)
	}
	for x := range p.Placed() {
		first, last := x.Boards()
		fmt.Fprintln(w, first, last, x.Outline(), x.Outside(), x.Up())
	}
	for f := range p.Fittings() {
		on, ok := f.StandsOn()
		fmt.Fprintln(w, f.Label(), f.Panel(), f.Outside(), f.Height(false), f.Height(true), on, ok)
		for l := range f.Layers() {
			fmt.Fprintln(w, l.Name(), l.Rect(), l.Height(false), l.Height(true), l.Held())
		}
		for l := range f.Loads() {
			fmt.Fprintln(w, l.Name(), l.Count(), l.Mass(), l.Content(), l.Held())
		}
		for s := range f.Surfaces() {
			fmt.Fprintln(w, s.Name(), s.Panel(), s.Piece(), s.Rect(), s.Height())
		}
		for _, s := range f.Spots() {
			mouth, ok := s.Mouth()
			content, given := s.Content()
			fmt.Fprintln(w, s.Capacity(), s.Clear(), content, given, s.Hidden(), s.Least(), s.Lies(), mouth, ok, s.Rect(), s.WayIn())
		}
	}
	for x := range p.Boards() {
		for _, outside := range [...]bool{false, true} {
			area, ok := p.Panel(x.Role(), outside)
			fmt.Fprintln(w, area, ok)
		}
		for i := range 2 {
			fmt.Fprintln(w, p.Headroom(x.Rect(), x.Role(), i))
		}
		fmt.Fprintln(w, p.LargestPicture(x.Role(), 2*mm, 0), p.LargestPicture(x.Role(), units.Longest, 0))
	}
	for v := view.Inside; v <= view.Cover; v++ {
		fmt.Fprintln(w, p.View(v).Rect(units.RectAt(units.Point{X: 3, Y: 5}, units.Size{W: 70, H: 20})))
	}
	if section, ok := p.Section(); ok {
		for s := range section {
			fmt.Fprintln(w, s.Board(), s.Rect(), s.Upright())
		}
	}
	for l := range p.Placement() {
		fmt.Fprintln(w, l.Upright(), l.At(), l.Board(), l.Edge())
	}
	for s := range p.Steps() {
		fmt.Fprintln(w, s.Number, s.Task, s.Care(), s.Text(units.Format{}))
	}
	stock, ok := p.Stock("")
	fmt.Fprintln(w, stock, ok, p.LiningStyle(), p.Shuts())
}
