package pocket_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A shelf is a setting of the tests: seven pieces are there before, and what the pocket
// lies on is panel 2 of one of them.
type shelf struct{}

const before = 7

var (
	shelfPart = work.Part{Kind: work.PartFitting, Index: 5, Name: "shelf"}
	shelfBase = work.Base{Kind: work.OnPiece, Index: 3, Copy: 1, Panel: 2, Name: "board of the shelf"}
)

func (shelf) First() int      { return before }
func (shelf) Part() work.Part { return shelfPart }
func (shelf) Cut(i int) work.Cut {
	return work.Cut{What: work.Object{Index: i, Copy: work.All, Name: "cut"}, Count: 9}
}

func (shelf) Under(at work.At, size units.Size) (work.Base, work.At) {
	return shelfBase, work.At{Across: score.Right, X: at.X + size.W, Along: score.Tail, Y: at.Y + size.H}
}

func (shelf) Sticky(size units.Size) (work.Adhesive, []units.Rect) {
	return work.SelfSticky, []units.Rect{units.RectAt(units.Point{X: 1, Y: 2}, size)}
}

func (shelf) Crossed(units.Rect) []int { return nil }

// each changes the fields of one type in an action, in lists too.
func each[T any](v reflect.Value, change func(*T)) {
	switch {
	case v.CanAddr() && v.Type() == reflect.TypeFor[T]():
		change(v.Addr().Interface().(*T))
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			each(v.Field(i), change)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			each(v.Index(i), change)
		}
	}
}

// onShelf says of an action of a pocket by itself what it is on the shelf, or on one with
// tape.
func onShelf(a work.Action, on pocket.Setting) work.Action {
	v := reflect.New(reflect.TypeOf(a)).Elem()
	v.Set(reflect.ValueOf(a))
	each(v, func(t *work.Object) {
		switch t.Kind {
		case work.Piece:
			t.Index += before
		case work.Content:
			t.Index = shelfPart.Index
		}
	})
	under := false
	each(v, func(b *work.Base) {
		if under = under || b.Kind == work.Under; b.Kind == work.Under {
			*b = shelfBase
		} else {
			b.Index += before
		}
	})
	if at, size := v.FieldByName("At"), v.FieldByName("Size"); under && size.IsValid() {
		_, there := shelf{}.Under(at.Interface().(work.At), size.Interface().(units.Size))
		at.Set(reflect.ValueOf(there))
	}
	switch a := v.Interface().(work.Action).(type) {
	case work.Cut:
		return shelf{}.Cut(a.What.Index)
	case work.Dry:
		a.What += " of the shelf"
		return a
	case work.Insert:
		a.Into = shelfPart
		return a
	case work.Stick:
		if under {
			a.By = work.SelfSticky
		}
		return a
	case work.Fix:
		by, areas := on.Sticky(a.Size)
		if under {
			a.Marked = true
		}
		if content := a.What.Kind == work.Content; content || under && len(a.Areas) == 0 {
			a.Areas = areas
		} else if under && len(areas) == 4 && len(a.Areas) == 1 && a.Areas[0].Size() == a.Size && !strings.HasPrefix(a.What.Name, "first tab") { // all of a panel: round it
			for i := range areas {
				areas[i] = areas[i].Moved(a.Areas[0].Min)
			}
			a.Areas = areas
		}
		if under || a.What.Kind == work.Content {
			a.By = by
		}
		return a
	default:
		return a
	}
}

// In a setting a design is made as by itself: of the same steps but the first, which
// finds the grain, told of its pieces among all, of what it lies on there, and of what
// holds it down there.
func TestStepsInASetting(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(400))
	p.Property("as by itself", prop.ForAll(func(j job, taped bool) string {
		d, err := j.design()
		if err != nil {
			return err.Error()
		}
		if taped {
			return asByItself(d, tapedShelf{})
		}
		return asByItself(d, shelf{})
	}, genJob(), gen.Bool()))
	p.TestingRun(t)
	small := pocket.Paper{Sheet: units.MustParseSize("200 x 300 mm")}
	for _, k := range []pocket.Kind{
		pocket.Concertina{Content: pocket.IDCard(), Leaves: 40}, pocket.Concertina{Content: pocket.IDCard(), Leaves: 40, Land: mm, OnSpine: true},
		pocket.GussetRun{Content: pocket.IDCard(), Half: 20 * mm, Tab: 12 * mm, Pockets: 12, Land: 2 * mm}, pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 7},
	} {
		d := design(t, k, small, units.WholeMillimetres)
		joints := 0
		for range d.Splices() {
			joints++
		}
		for _, on := range []pocket.Setting{shelf{}, tapedShelf{}} {
			if diff := asByItself(d, on); diff != "" || joints == 0 {
				t.Errorf("%s, %d joints: %s", k.Name(), joints, diff)
			}
		}
	}
}

// asByItself compares the steps of a design in a setting with those by itself.
func asByItself(d pocket.Design, on pocket.Setting) string {
	var want []work.Step
	found := 0 // steps that find the grain
	for s := range d.Steps() {
		if s.Task == work.TaskPrepare {
			found++
			continue
		}
		s.For, s.Number = shelfPart, s.Number-found
		s.After = slices.DeleteFunc(slices.Clone(s.After), func(n int) bool { return n == found })
		for i := range s.After {
			s.After[i] -= found
		}
		if len(s.After) == 0 {
			s.After = nil
		}
		s.Do = slices.Clone(s.Do)
		for i, a := range s.Do {
			s.Do[i] = onShelf(a, on)
		}
		want = append(want, s)
	}
	if found > 1 {
		return "the grain is found twice"
	}
	return cmp.Diff(want, slices.Collect(d.StepsIn(on)))
}

// A tapedShelf is a shelf on which tape of 6 mm along the four edges holds what lies.
type tapedShelf struct{ shelf }

func (tapedShelf) Sticky(size units.Size) (work.Adhesive, []units.Rect) {
	return work.SelfSticky, work.Edges(size, 6*mm)
}

// Where all of one panel of a sheet would be glued, tape goes along the four edges of that
// panel, wherever it is on the sheet.
func TestTapeGoesRoundThePanel(t *testing.T) {
	d := design(t, pocket.FoldedStrip{Content: pocket.Content{Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: mm / 4}}, pocket.Paper{}, units.WholeMillimetres)
	panels := map[string]units.Rect{}
	for s := range d.Steps() {
		for _, a := range s.Do {
			if f, ok := a.(work.Fix); ok && len(f.Areas) == 1 && f.Areas[0].Size() == f.Size {
				panels[f.What.Name] = f.Areas[0]
			}
		}
	}
	taped := 0
	for s := range d.StepsIn(tapedShelf{}) {
		for _, a := range s.Do {
			f, ok := a.(work.Fix)
			panel, is := panels[f.What.Name]
			if !ok || !is || len(f.Areas) != 4 {
				continue
			}
			if panel.Min != (units.Point{}) {
				taped++
			}
			all := f.Areas[0]
			for _, area := range f.Areas {
				if size := area.Size(); min(size.W, size.H) != 6*mm {
					t.Errorf("tape of %v", size)
				}
				all.Min, all.Max = units.Point{X: min(all.Min.X, area.Min.X), Y: min(all.Min.Y, area.Min.Y)}, units.Point{X: max(all.Max.X, area.Max.X), Y: max(all.Max.Y, area.Max.Y)}
			}
			if all != panel {
				t.Errorf("tape round %v; the panel is %v", all, panel)
			}
		}
	}
	if taped == 0 {
		t.Error("no panel is taped but at the sheet's corner")
	}
}

// A told shelf tells the pieces of a design apart from others of their names.
type told struct {
	shelf
	names         []string // of the pieces by themselves
	ahead, behind string
}

func (s told) Cut(i int) work.Cut {
	c := s.shelf.Cut(i)
	c.What.Name = s.ahead + s.names[i-before] + s.behind
	return c
}

// Where pieces are told apart by what they are of, every sentence says that of every piece
// and of every part of one; where they are told apart by something ahead of the name, every
// sentence says that of a whole piece of which there is one.
func TestPiecesAreToldApart(t *testing.T) {
	small := pocket.Paper{Sheet: units.MustParseSize("300 x 200 mm")}
	for i, k := range workbench() {
		for _, paper := range []pocket.Paper{{}, small} {
			d, err := k.Design(paper, units.WholeMillimetres)
			if err != nil {
				continue
			}
			var s told
			var many []bool
			for _, p := range d.Pieces() {
				s.names, many = append(s.names, p.Name()), append(many, p.Quantity() > 1)
			}
			for _, s.behind = range []string{" of the notes", ""} {
				if s.ahead = ""; s.behind == "" {
					s.ahead = "second "
				}
				for step := range d.StepsIn(s) {
					for _, a := range step.Do {
						if _, ok := a.(work.Cut); ok {
							continue
						}
						v := reflect.New(reflect.TypeOf(a)).Elem()
						v.Set(reflect.ValueOf(a))
						each(v, func(o *work.Object) {
							if o.Kind == work.Piece && !(strings.HasSuffix(o.Name, s.behind) && (many[o.Index-before] || strings.HasPrefix(o.Name, s.ahead) || s.ahead != "" && strings.Contains(o.Name, " of the "))) {
								t.Errorf("%d %s: step %d tells of the %q, which is %q", i, k.Name(), step.Number, o.Name, s.ahead+s.names[o.Index-before]+s.behind)
							}
						})
						each(v, func(b *work.Base) {
							if b.Kind == work.OnPiece && b.Index >= before && !strings.HasSuffix(b.Name, s.behind) {
								t.Errorf("%d %s: step %d puts something on the %q, which is %q", i, k.Name(), step.Number, b.Name, s.names[b.Index-before]+s.behind)
							}
						})
					}
				}
			}
		}
	}
}
