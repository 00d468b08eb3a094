package sharetest_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// Whatever is worked out may be shared: asked by several at once, each in an order of
// their own, plans, layouts, pictures, designs and proposals answer what they answer to
// one alone. It is here that the race detector looks, since nothing in the library
// starts a goroutine.
func TestResultsAreShared(t *testing.T) {
	questions := map[string]func() string{}
	for _, name := range []string{"rowing-crew", "walking-club", "own-row"} {
		text, err := os.ReadFile(filepath.Join("../../folio/wire/testdata/v1", name+".json"))
		if err != nil {
			t.Fatal(err)
		}
		spec, err := wire.ReadSpec(text)
		if err != nil {
			t.Fatal(err)
		}
		askAbout(t, questions, name, spec)
	}
	names := make([]string, 0, len(questions))
	alone := map[string]string{}
	for name, ask := range questions {
		names = append(names, name)
		alone[name] = ask()
		if len(alone[name]) < 20 {
			t.Errorf("%s says only %q", name, alone[name])
		}
	}
	slices.Sort(names)
	const several = 4
	var all sync.WaitGroup
	for k := range several {
		all.Go(func() {
			for i := range names {
				// Half of them go through the list backwards.
				at := (i + k*len(names)/several) % len(names)
				if k%2 == 1 {
					at = len(names) - 1 - at
				}
				if got := questions[names[at]](); got != alone[names[at]] {
					t.Errorf("%s answers several at once otherwise than one alone", names[at])
				}
			}
		})
	}
	all.Wait()
}

// askAbout adds what can be asked about a folio and what is worked out from it.
func askAbout(t *testing.T, questions map[string]func() string, name string, spec folio.Spec) {
	ask := func(what string, f func() string) { questions[name+": "+what] = f }
	plan, err := folio.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	w, h := plan.AsMade()
	made, err := plan.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
	if err != nil {
		t.Fatal(err)
	}
	job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 3}}, Materials: layout.MaterialsOf(plan)}
	for i := range job.Materials {
		job.Materials[i].Sheets = []layout.SheetKind{{Size: units.MustParseSize("39 x 55 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited,
			Price: money.Amount{Minor: 120, Currency: money.Currency{Code: "USD", Decimals: 2}}}}
	}
	budget := layout.Budget{Steps: 20_000}
	laid, err := layout.Lay(t.Context(), job, budget)
	if err != nil {
		t.Fatal(err)
	}
	request := propose.Request{Things: []propose.Thing{{Content: slices.Collect(fit.UsualPhotos())[0], Count: 2}}}
	proposals, err := propose.Folios(t.Context(), request, propose.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	priced, err := cost.Of(laid, cost.Basis{})
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(plan)
	ask("build", func() string { p, err := folio.Build(spec); return fmt.Sprint(told(p, 2), err) })
	// A refit goes out from the plan that others read.
	ask("refitting", func() string {
		p, err := plan.Refit(refit.Measured{Width: w.Length() + units.Millimetre, Height: h.Length()})
		return fmt.Sprint(told(p, 2), err)
	})
	for what, of := range map[string]any{"plan": plan, "refit": made, "layout": laid, "survey": survey, "proposals": proposals, "priced": priced} {
		ask("every method of the "+what, func() string { return told(of, 4) })
	}
	ask("weight, glue, box", func() string {
		w, err := weigh.Of(plan, weigh.Options{})
		b, err2 := post.BoxFor(plan, units.Inch)
		return told(w, 3) + fmt.Sprint(err) + told(stick.Of(plan), 3) + told(b, 2) + fmt.Sprint(err2)
	})
	ask("laying out", func() string {
		l, err := layout.Lay(context.Background(), job, budget)
		return told(l, 4) + fmt.Sprint(err)
	})
	ask("documents", func() string {
		all, err := wire.AppendPlan(nil, plan, wire.Options{})
		lay, err2 := wire.AppendLayout(nil, laid, wire.Options{})
		prop, err3 := wire.AppendProposals(nil, proposals, wire.Options{})
		return fmt.Sprint(string(all), string(lay), string(prop), err, err2, err3)
	})
	print := guide.PrintOptions{}
	book, list, hand := guide.CuttingBook(laid, print), guide.ShoppingList(laid, print), guide.HandOut(made, print)
	ask("hand-outs", func() string {
		return string(book.AppendHTML(nil)) + string(list.AppendPlain(nil)) + string(hand.AppendMarkdown(nil)) + string(guide.Templates(plan, print).AppendHTML(nil))
	})
}

// told writes what every method of a value says that needs nothing to be asked, to a
// depth.
func told(of any, deep int) string {
	w := &teller{}
	w.tell(reflect.ValueOf(of), deep)
	return w.String()
}

type teller struct{ strings.Builder }

const mostTold = 40 // elements of a list, and again of a sequence

func (w *teller) tell(v reflect.Value, deep int) {
	if v.IsValid() && v.Kind() == reflect.Interface {
		v = v.Elem()
	}
	if !v.IsValid() || deep < 0 || w.Len() > 1<<18 || v.Kind() == reflect.Pointer && v.IsNil() {
		return
	}
	t := v.Type()
	if v.CanInt() || v.CanUint() || v.Kind() == reflect.String || v.Kind() == reflect.Bool {
		fmt.Fprint(w, v.Interface(), " ")
		return
	}
	for i := range t.NumMethod() {
		m := v.Method(i)
		if m.Type().NumIn() == 0 && m.Type().NumOut() > 0 {
			fmt.Fprint(w, "\n", t.Method(i).Name, ": ")
			for _, out := range m.Call(nil) {
				w.tell(out, deep-1)
			}
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() {
				w.tell(v.Field(i), deep-1)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range min(v.Len(), mostTold) {
			w.tell(v.Index(i), deep-1)
		}
	case reflect.Func:
		n := 0
		if t.CanSeq2() {
			for a, b := range v.Seq2() {
				w.tell(a, deep-1)
				w.tell(b, deep-1)
				if n++; n == mostTold {
					break
				}
			}
		} else if t.CanSeq() {
			for a := range v.Seq() {
				w.tell(a, deep-1)
				if n++; n == mostTold {
					break
				}
			}
		}
	}
}
