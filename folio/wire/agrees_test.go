package wire_test

import (
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// An agreement holds a document, read by encoding/json, to what it is about: each
// member is what the method or the field of its name says, or the one that it is
// listed with here, with which of its results.
type agreement struct {
	t     *testing.T
	named map[string]call
	met   map[string]bool // members by the type that has them
}

type call struct {
	method string
	args   []any
	result int
}

func (a agreement) object(path string, doc map[string]any, of reflect.Value) {
	for name, d := range doc {
		at := path + "." + name
		a.met[of.Type().String()+"."+name] = true
		c, listed := a.named[of.Type().String()+"."+name]
		if !listed {
			c = call{method: strings.ToUpper(name[:1]) + name[1:]}
		}
		if c.method == "" {
			continue
		}
		if m := of.MethodByName(c.method); m.IsValid() {
			var in []reflect.Value
			for _, v := range c.args {
				in = append(in, reflect.ValueOf(v))
			}
			out := m.Call(in)
			// A second result that is false says that there is none.
			if n := len(out); !listed && n == 2 && out[1].Kind() == reflect.Bool && !out[1].Bool() {
				if l, ok := d.([]any); d != -1.0 && (!ok || len(l) > 0) && d != "" {
					a.t.Errorf("%s is %v, and there is none", at, d)
				}
				continue
			}
			if counts, ok := d.(map[string]any); ok && len(out) == 2 && counts["least"] != nil {
				a.value(at+".number", counts["number"], out[0])
				a.value(at+".least", counts["least"], out[1])
				continue
			}
			a.value(at, d, out[c.result])
			continue
		}
		if of.Kind() == reflect.Struct {
			if f := of.FieldByName(c.method); f.IsValid() {
				a.value(at, d, f)
				continue
			}
		}
		a.t.Errorf("%s: %v says nothing of %q", at, of.Type(), c.method)
	}
}

// walked collects what an iterator gives, its last value where it gives two.
func walked(seq reflect.Value) (all []reflect.Value) {
	yield := reflect.MakeFunc(seq.Type().In(0), func(in []reflect.Value) []reflect.Value {
		all = append(all, in[len(in)-1])
		return []reflect.Value{reflect.ValueOf(true)}
	})
	seq.Call([]reflect.Value{yield})
	return all
}

func (a agreement) value(at string, d any, of reflect.Value) {
	if of.Kind() == reflect.Interface {
		of = of.Elem()
	}
	want := any(nil)
	switch v := of.Interface().(type) {
	case units.Length:
		got, _ := d.(map[string]any)
		mm, _ := got["mm"].(float64)
		text, _ := got["text"].(string)
		if l, err := units.Parse(text); err != nil || l != v || math.Abs(mm-v.Millimetres()) > 1e-12 {
			a.t.Errorf("%s is %v, not %v", at, d, v)
		}
		return
	case units.Working:
		got, _ := d.(map[string]any)
		if got["text"] != v.String() || got["label"] != v.Label() {
			a.t.Errorf("%s is %v, not %v", at, got["text"], v)
		}
		return
	case folio.Kind:
		if got, _ := d.(map[string]any); got["type"] == "" {
			a.t.Errorf("%s is no kind", at)
		}
		return
	case units.Polygon:
		of = reflect.ValueOf(v.Corners())
	case encoding.TextMarshaler:
		text, err := v.MarshalText()
		if err != nil {
			a.t.Fatal(err)
		}
		want = string(text)
	case fmt.Stringer:
		if _, isText := d.(string); isText {
			want = v.String()
		}
	}
	if want == nil {
		switch {
		case of.Kind() == reflect.Func:
			a.list(at, d, walked(of))
			return
		case of.Kind() == reflect.Slice:
			var all []reflect.Value
			for i := range of.Len() {
				all = append(all, of.Index(i))
			}
			a.list(at, d, all)
			return
		case of.CanInt():
			want = float64(of.Int())
			// A piece tells whose it is by a path into the Spec.
			if _, isText := d.(string); isText && strings.HasSuffix(at, ".fitting") {
				want = fmt.Sprintf("fittings[%d]", of.Int())
			}
		case of.Kind() == reflect.Bool:
			want = of.Bool()
		case of.Kind() == reflect.String:
			want = of.String()
		}
	}
	switch got := d.(type) {
	case map[string]any:
		a.object(at, got, of)
	case []any: // one, or none
		if len(got) != 1 {
			a.t.Errorf("%s: %d of one", at, len(got))
			return
		}
		a.value(at, got[0], of)
	default:
		if d != want {
			a.t.Errorf("%s is %v, not %v", at, d, want)
		}
	}
}

func (a agreement) list(at string, d any, of []reflect.Value) {
	got, _ := d.([]any)
	if len(got) != len(of) {
		a.t.Errorf("%s: %d of %d", at, len(got), len(of))
		return
	}
	for i := range got {
		a.value(fmt.Sprintf("%s[%d]", at, i), got[i], of[i])
	}
}

// holds reads a document and holds its body to what it is about.
func (a agreement) holds(name string, data []byte, err error, of any) {
	a.t.Helper()
	var doc map[string]any
	if err == nil {
		err = json.Unmarshal(data, &doc)
	}
	if err != nil {
		a.t.Fatal(err)
	}
	body, _ := doc[name].(map[string]any)
	a.object(name, body, reflect.ValueOf(of))
}

// plansToAgree are plans that have between them whatever a plan can have.
func plansToAgree(t *testing.T) []*folio.Plan {
	t.Helper()
	walkers := crew()
	walkers.Magnets = closing.Magnets{}
	walkers.Quarter.Rule = rule.QuarterAlways
	walkers.Rulers.Main = units.WholeMillimetres
	walkers.Fittings = append(walkers.Fittings, folio.Fitting{Name: "print", StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize("20 x 30 mm")}})
	shut := crew()
	shut.Fittings = []folio.Fitting{{Name: "print", Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.MustParseSize("3 x 4 in"), Thickness: 2 * units.Millimetre}}}}
	small := folio.Spec{Cover: units.MustParseSize("90 x 130 mm"), Spine: rule.Spine{Width: 20 * units.Millimetre}, Form: boards.ForeEdgeFlap,
		Fittings: []folio.Fitting{{Name: "tickets", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}}}}
	var all []*folio.Plan
	open := small // hinges just wide enough for 20 degrees do not shut it
	open.Hinge.Rule, open.Hinge.Angle = rule.HingeLeast, 20
	for _, s := range []folio.Spec{crew(), walkers, shut, small, open} {
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	w, h := all[0].AsMade()
	made, err := all[0].Refit(refit.Measured{Width: w.Length() - units.Inch/8, Height: h.Length() + units.Inch/16})
	if err != nil {
		t.Fatal(err)
	}
	var panels []units.Length
	for b := range all[0].Boards() {
		panels = append(panels, b.Width().Length()+units.Inch/16)
	}
	each, err := all[0].Refit(refit.Measured{Width: w.Length() + units.Inch/4, Height: h.Length(), Panels: panels})
	if err != nil {
		t.Fatal(err)
	}
	return append(all, made, each)
}

// Documents of plans, of how they close and of what they hold say what the plans say.
func TestDocumentsAgree(t *testing.T) {
	none := call{}
	a := agreement{t, map[string]call{
		"*folio.Plan.title": none, "*folio.Plan.form": none, "*folio.Plan.open": none, "*folio.Plan.asMade": none, "*folio.Plan.closed": none,
		"*folio.Plan.magnets": none, "*folio.Plan.lines": {method: "Placement"},
		"folio.Board.copy": {method: "Piece", result: 1}, "folio.Board.piece": {method: "Piece"},
		"folio.Gap.left": {method: "Between"}, "folio.Gap.right": {method: "Between", result: 1},
		"folio.Piece.blank": none, "folio.Piece.sheet": none,
		"folio.WrapPiece.piece": {method: "Index"}, "folio.WrapPiece.copy": {method: "Index", result: 1},
		"folio.WrapPiece.first": {method: "Boards"}, "folio.WrapPiece.last": {method: "Boards", result: 1},
		"folio.Placed.piece": {method: "Piece"}, "folio.Placed.copy": {method: "Piece", result: 1},
		"folio.Placed.first": {method: "Boards"}, "folio.Placed.last": {method: "Boards", result: 1},
		"folio.TurnedEdge.piece": {method: "Piece"}, "folio.TurnedEdge.copy": {method: "Piece", result: 1},
		"folio.Fitted.empty": {method: "Height", args: []any{false}}, "folio.Fitted.full": {method: "Height", args: []any{true}}, "folio.Fitted.pieces": none,
		"folio.Layer.empty": {method: "Height", args: []any{false}}, "folio.Layer.full": {method: "Height", args: []any{true}},
		"folio.Spot.capacity": none,
		"work.Step.do":        none, "work.Step.for": none, "work.Step.text": {method: "Text", args: []any{units.Format{}}},
		"folio.Tight.panel": {method: "Place", result: 1}, "folio.Tight.place": {method: "Place"}, "folio.Tight.text": {method: "String"},
		"folio.Thing.fitting": {method: "Fitting"}, "folio.Closed.tightest": none,
	}, map[string]bool{}}
	opened := false
	for _, p := range plansToAgree(t) {
		data, err := wire.AppendPlan(nil, p, wire.Options{})
		a.holds("plan", data, err, p)
		var doc struct {
			Plan struct {
				Title, Form  string
				Open, AsMade map[string]any
				Closed       []map[string]any
				Magnets      []any
				Measured     []any
				Fittings     []struct{ Pieces []int }
			}
			Closing struct {
				Shuts                            bool
				Closed, Least, Most, Empty, Full []map[string]any
			}
		}
		if data, err = wire.AppendClosing(data[:0:0], p, wire.Options{}); err != nil {
			t.Fatal(err)
		}
		plan, _ := wire.AppendPlan(nil, p, wire.Options{})
		if err := json.Unmarshal(plan, &doc); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, &doc); err != nil {
			t.Fatal(err)
		}
		d, of := doc.Plan, reflect.ValueOf
		if d.Title != p.Spec().Title || d.Form != p.Spec().Form.String() {
			t.Errorf("%q, %q", d.Title, d.Form)
		}
		w, h := p.AsMade()
		a.value("open.width", d.Open["width"], of(p.OpenWidth()))
		a.value("open.height", d.Open["height"], of(p.OpenHeight()))
		a.value("asMade.width", d.AsMade["width"], of(w))
		a.value("asMade.height", d.AsMade["height"], of(h))
		// Of a refit it is said what the cover measured.
		if _, made := p.Measured(); made != (len(d.Measured) == 1) {
			t.Errorf("refitted: %v, measured: %v", made, d.Measured)
		}
		i := 0
		for f := range p.Fittings() {
			if n := 0; true {
				for k := range f.Pieces() {
					if d.Fittings[i].Pieces[n] != k {
						t.Errorf("fitting %d: pieces %v", i, d.Fittings[i].Pieces)
					}
					n++
				}
			}
			i++
		}
		if m, ok := p.Magnets(); ok {
			a.list("magnets", d.Magnets, walked(of(m.Places())))
		} else if len(d.Magnets) > 0 {
			t.Error("there are no magnets")
		}
		c, shuts := p.Closed()
		opened = opened || !shuts
		if doc.Closing.Shuts != shuts || (len(d.Closed) == 1) != shuts {
			t.Errorf("shuts: %v, %d", doc.Closing.Shuts, len(d.Closed))
		}
		if shuts {
			least, most, ranged := p.ClosedRange()
			for _, v := range []struct {
				at   string
				docs []map[string]any
				of   folio.Closed
				none bool
			}{{"plan.closed", d.Closed, c, false}, {"closing.closed", doc.Closing.Closed, c, false}, {"closing.least", doc.Closing.Least, least, !ranged}, {"closing.most", doc.Closing.Most, most, !ranged}} {
				if (len(v.docs) == 1) == v.none {
					t.Errorf("%s: %d", v.at, len(v.docs))
					continue
				}
				for _, one := range v.docs {
					a.object(v.at, one, of(v.of))
					if tightest, ok := p.Tightest(true); ok {
						a.value(v.at+".tightest", one["tightest"], of(tightest))
					}
				}
			}
		}
		for full, docs := range map[bool][]map[string]any{false: doc.Closing.Empty, true: doc.Closing.Full} {
			tightest, ok := p.Tightest(full)
			all, ok2 := p.Overall(full)
			if (len(docs) == 1) != (ok && ok2) {
				t.Errorf("full %v: %d", full, len(docs))
				continue
			}
			for _, one := range docs {
				a.value("closing.overall", one["overall"], of(all))
				delete(one, "overall")
				a.object("closing.tight", one, of(tightest))
			}
		}
	}
	if !opened {
		t.Error("all plans shut")
	}
	for _, name := range []string{"folio.Fitted.standsOn", "folio.Change.from", "folio.Spot.mouth", "folio.Surface.piece", "work.Step.care", "folio.TurnedEdge.depth", "folio.Closed.bend", "*folio.Plan.warnings", "*folio.Plan.steps"} {
		if !a.met[name] {
			t.Errorf("no document has %s: %v", name, slices.Sorted(mapsKeys(a.met)))
		}
	}
}

func mapsKeys(m map[string]bool) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// So do those of layouts, costs and what goes where.
func TestLayoutsAgree(t *testing.T) {
	none := call{}
	a := agreement{t, map[string]call{
		"layout.Wanted.folio": none, "layout.Laid.used": none, "layout.Laid.offcuts": none, "layout.Laid.short": none, "layout.Laid.assumed": none,
		"layout.LaidSheet.kind": {method: "Kind", result: 1}, "layout.CutPart.cut": none, "layout.LaidPiece.pieces": none,
		"layout.CutStep.on": none, "layout.CutStep.text": {method: "Text", args: []any{units.Format{Ruler: units.InchFraction.Exact()}}},
		"cost.Charge.each": {method: "Terms"}, "cost.Charge.times": {method: "Terms", result: 1}, "cost.Charge.over": {method: "Terms", result: 2},
		"cost.Charge.part": {method: "Portion"}, "cost.Charge.whole": {method: "Portion", result: 1}, "cost.Charge.text": {method: "String"},
		"fit.Room.fitting": {method: "Fitting"}, "fit.Room.spot": {method: "Fitting", result: 1}, "fit.Room.text": {method: "String"},
	}, map[string]bool{}}
	in := units.Inch
	usd, _ := money.CurrencyOf("USD")
	offcut := layout.SheetKind{Size: units.Size{W: 6 * in, H: 6 * in}, Count: 1, Offcut: true}
	job := layout.Job{
		Ruler: units.Sixteenths,
		Pieces: []layout.LoosePiece{
			{Name: "slip", Material: "card", Size: units.Size{W: 4 * in, H: 6 * in}, Quantity: 7},
			{Name: "tag", Material: "card", Size: units.Size{W: 5 * in, H: 2 * in}, Quantity: 4, Grain: stock.GrainAny},
			{Name: "label", Material: "paper", Size: units.Size{W: 5 * in, H: 8 * in}, Quantity: 2, Turn: layout.NoTurn},
			{Name: "poster", Material: "paper", Size: units.Size{W: 25 * in, H: 8 * in}, Quantity: 1},
		},
		Materials: []layout.Material{
			{Name: "card", Caliper: in / 50, Sheets: []layout.SheetKind{{Size: units.Size{W: 12 * in, H: 9 * in}, Grain: stock.GrainAlongWidth, Count: layout.Unlimited, Price: money.Amount{Minor: 120, Currency: usd}}, offcut}},
			{Name: "paper", Sheets: []layout.SheetKind{{Size: units.Size{W: 11 * in, H: 9 * in}, Count: 1, Price: money.Amount{Minor: 80, Currency: usd}, Trim: in / 8}}},
		},
		Cutter: layout.Cutter{LongestCut: 18 * in, Stack: in / 4},
	}
	p := plansToAgree(t)[3]
	job.Folios = []layout.Folio{{Plan: p, Copies: 2}, {Plan: p}}
	for q := range p.Pieces() {
		if q.Stock() != "liner" {
			job.Except = append(job.Except, q.Stock())
		}
	}
	job.Except = slices.DeleteFunc(job.Except, func(s string) bool { return s == "card" })
	job.Materials = append(job.Materials, layout.Material{Name: "liner", Sheets: []layout.SheetKind{{Size: units.Size{W: 20 * in, H: 30 * in}, Count: layout.Unlimited}}})
	l, _ := layout.Lay(t.Context(), job, layout.Budget{Steps: 500_000})
	data, err := wire.AppendLayout(nil, l, wire.Options{})
	a.holds("layout", data, err, l)
	var doc struct {
		Layout struct {
			Pieces    []struct{ Folio int }
			Materials []struct {
				Assumed []string
				Used    []struct {
					Kind struct {
						Count        int
						Offcut       bool
						Price, Grain string
						Size, Trim   map[string]any
					}
					Count int
				}
				Offcuts []struct {
					Sheet, Count int
					Size         map[string]any
				}
				Short []struct {
					Path, Name string
					Copies     int
					Fits       bool
				}
				Sheets []struct {
					Number int
					Places []struct {
						Pieces []struct {
							Path, Name string
							Copies     int
						}
					}
				}
			}
			Steps []struct {
				On []struct {
					Sheet int
					Parts []int
				}
			}
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	i, short := 0, 0
	for w := range l.Pieces() {
		at, ok := w.Folio()
		if !ok {
			at = -1
		}
		if got := doc.Layout.Pieces[i].Folio; got != at {
			t.Errorf("piece %d of folio %d is of %d", i, at, got)
		}
		i++
	}
	i = 0
	for m := range l.Materials() {
		d := doc.Layout.Materials[i]
		if g, ok := m.Assumed(); ok != (len(d.Assumed) == 1) || ok && d.Assumed[0] != g.String() {
			t.Errorf("%s: assumed %v", m.Name(), d.Assumed)
		}
		n := 0
		for k, used := range m.Used() {
			got := d.Used[n]
			a.value("used.size", got.Kind.Size, reflect.ValueOf(k.Size))
			a.value("used.trim", got.Kind.Trim, reflect.ValueOf(k.Trim))
			price, _ := k.Price.MarshalText()
			if got.Count != used || got.Kind.Count != k.Count || got.Kind.Offcut != k.Offcut || got.Kind.Grain != k.Grain.String() || got.Kind.Price != string(price) {
				t.Errorf("%+v, want %+v", got, k)
			}
			n++
		}
		n = 0
		for o := range m.Offcuts() {
			a.value("offcut.size", d.Offcuts[n].Size, reflect.ValueOf(o.Size()))
			if got := d.Offcuts[n]; got.Sheet != o.Sheet() || got.Count != o.Count() {
				t.Errorf("%+v", got)
			}
			n++
		}
		n = 0
		for s := range m.Short() {
			if got := d.Short[n]; got.Name != s.Piece().Name() || got.Path != s.Piece().Path() || got.Copies != s.Copies() || got.Fits != s.Fits() {
				t.Errorf("%+v", got)
			}
			n++
			short++
		}
		n = 0
		for s := range m.Sheets() {
			place := 0
			for p := range s.Places() {
				k := 0
				for w, copies := range p.Pieces() {
					if got := d.Sheets[n].Places[place].Pieces[k]; got.Name != w.Name() || got.Path != w.Path() || got.Copies != copies {
						t.Errorf("%+v", got)
					}
					k++
				}
				place++
			}
			n++
		}
		i++
	}
	i = 0
	for s := range l.Steps() {
		on := doc.Layout.Steps[i].On
		for number := range s.Sheets() {
			parts := slices.Collect(s.CutsOn(number))
			if len(parts) == 0 {
				continue
			}
			if len(on) == 0 || on[0].Sheet != number || !slices.Equal(on[0].Parts, parts) {
				t.Errorf("step %d is made on %v, not on %v of %d", i+1, on, parts, number)
				break
			}
			on = on[1:]
		}
		i++
	}
	for _, name := range []string{"layout.CutStep.sheets", "layout.CutStep.gives", "*layout.Layout.warnings", "layout.Laid.short", "layout.Wanted.folio"} {
		if !a.met[name] {
			t.Errorf("no document has %s", name)
		}
	}
	if short == 0 {
		t.Error("all find a place")
	}

	b, err := cost.Of(l, cost.Basis{Fee: money.Amount{Minor: 1000, Currency: usd}, Sheets: cost.LessOffcuts})
	if err != nil {
		t.Fatal(err)
	}
	data, err = wire.AppendCosts(nil, b, wire.Options{})
	a.holds("costs", data, err, b)

	survey := fit.Of(p)
	ways, err := survey.All(t.Context(), fit.Budget{}, pocket.Content{Name: "card", Size: units.MustParseSize("50 x 80 mm"), Thickness: units.Millimetre}, pocket.Content{Name: "pass", Size: units.MustParseSize("80 x 50 mm")})
	if err != nil {
		t.Fatal(err)
	}
	data, err = wire.AppendHolding(nil, survey, ways, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var holding struct {
		Holding struct {
			Rooms []map[string]any
			Ways  []struct {
				Name            string
				Size, Thickness any
				Room            int
				Turned          bool
				Rect            any
			}
		}
	}
	if err := json.Unmarshal(data, &holding); err != nil {
		t.Fatal(err)
	}
	var rooms []fit.Room
	for _, r := range survey.Rooms() {
		rooms = append(rooms, r)
	}
	for i, r := range holding.Holding.Rooms {
		a.object("room", r, reflect.ValueOf(rooms[i]))
	}
	turned := 0
	for i, w := range holding.Holding.Ways {
		of := ways[i]
		a.value("way.size", w.Size, reflect.ValueOf(of.Content().Size))
		a.value("way.thickness", w.Thickness, reflect.ValueOf(of.Content().Thickness))
		a.value("way.rect", w.Rect, reflect.ValueOf(of.Rect()))
		if w.Name != of.Content().Name || w.Turned != of.Turned() || rooms[w.Room] != of.Room() {
			t.Errorf("%+v", w)
		}
		if w.Turned {
			turned++
		}
	}
	if turned == 0 || turned == len(ways) {
		t.Errorf("%d of %d ways are turned", turned, len(ways))
	}
}
