package pocket

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A band is a strip laid over a content and glued at its two ends: a kind that
// only this file knows.
type band struct {
	Content Content
	Glue    units.Length
}

func (b band) Name() string { return "band" }

func (b band) filled(u defaults) band {
	b.Glue = u.edge(b.Glue)
	return b
}

func (b *band) held() *Content { return &Content{} }

func (b band) Design(p Paper, r units.Ruler) (Design, error) { return b.designed(b, p, r) }

func (b band) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, p, r)
	h := m.hold(b.Content, 0, Ease{})
	m.place(h, units.Size{})
	glue := m.edge(b.Glue)
	if m.Len() > 0 {
		return m.finish()
	}
	long := m.sum("band", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.W), units.N(2, "glued end", glue))
	wide := m.sum("width", units.Down, units.T("content", h.content.Size.H.Half(units.Down)))
	size := units.Size{W: long.Length(), H: wide.Length()}
	m.d.closed, m.d.open = units.Size{W: size.W, H: h.content.Size.H}, units.Size{W: size.W, H: h.content.Size.H}
	on := units.RectAt(units.Point{Y: h.content.Size.H - size.H}, size)
	at := m.piece("band", 1, long, wide, score.Draft{Glue: []score.Glue{
		{Area: rect(0, 0, glue, size.H), Side: score.Back}, {Area: rect(size.W-glue, 0, glue, size.H), Side: score.Back},
	}})
	m.panel("band", at, 0, units.RectAt(units.Point{}, size), on)
	m.lay(on, 1)
	place := rect((size.W - h.content.Size.W).Half(units.Down), 0, h.content.Size.W, h.content.Size.H)
	m.hasPlace(place, place.Size(), place.Size(), h.capacity(), 1)
	m.fill(place, h.filling())
	return m.finish()
}

func (b band) at(units.Size, *check.List) (Kind, [2]string) { return b, [2]string{} }

func (b band) holds() Content { return b.Content }

func (b band) seen(p panels, all []seen) []seen { return p.sees(all, "band", "band", false) }

func (b band) steps(d *design, o *order) {
	p := o.one(0, 0)
	o.base(whole(work.Fix{What: p, At: work.At{Across: score.Left, Along: score.Tail}, Areas: glueOf(d.pieces[0].blank), Size: d.pieces[0].blank.Size()}))
	o.dry("the band", p)
	o.insert()
}

// A kind in a file of its own, and a line in the list, is all that it takes:
// everything that reads a design reads it.
func TestANewKind(t *testing.T) {
	list := append(kinds[:], kindOf[band]())
	if _, err := accepted(band{}, kinds[:]); err == nil {
		t.Fatal("taken without its line")
	}
	for _, given := range []Kind{band{Content: IDCard()}, &band{Content: IDCard()}} {
		k, err := accepted(given, list)
		if err != nil || k != (band{Content: IDCard()}) {
			t.Fatalf("%v, %v", k, err)
		}
		d, err := k.Design(Paper{Caliper: 200 * units.Micrometre, Up: work.WrongSide}, units.WholeMillimetres)
		if err != nil {
			t.Fatal(err)
		}
		// 85.6 + 3.175 + 2 x 6, up; half of 53.98, down.
		for _, p := range d.Pieces() {
			if p.blank.Size() != (units.Size{W: 101 * mm, H: 26 * mm}) {
				t.Errorf("the band is %v", p.blank.Size())
			}
		}
		if d.Thickness(false) != 200*units.Micrometre || d.Thickness(true) != 960*units.Micrometre {
			t.Errorf("%v thick, %v full", d.Thickness(false), d.Thickness(true))
		}
		if c, ok := d.Content(); !ok || c != IDCard() || d.Accepts(IDCard()) != nil {
			t.Errorf("its content is %v, %v", c, ok)
		}
		var tasks []work.Task
		for s := range d.Steps() {
			tasks = append(tasks, s.Task)
		}
		want := []work.Task{work.TaskCut, work.TaskMark, work.TaskLay, work.TaskFix, work.TaskDry, work.TaskFill}
		if !slices.Equal(tasks, want) {
			t.Errorf("its steps are %v; want %v", tasks, want)
		}
		warned := false
		for w := range d.Warnings() {
			warned = warned || w.Code == WrongSideShows
		}
		if !warned || !slices.Equal(d.Levels(), []int{0}) {
			t.Errorf("cut wrong side up: warned %v; levels %v", warned, d.Levels())
		}
	}
}

// What is none of the kinds is one violation, and nothing panics.
func TestAccept(t *testing.T) {
	type embeds struct{ Slip }
	type around struct{ Kind }
	for name, k := range map[string]Kind{
		"nil": nil, "a nil pointer": (*Slip)(nil), "a type that embeds one": embeds{}, "one that embeds the interface": around{},
		"a pointer to what embeds one": &embeds{}, "a pointer to a nil pointer's embedder": &around{(*Slip)(nil)}, "a test's kind": band{},
	} {
		got, err := Accept(k)
		var list *check.Error
		if !errors.As(err, &list) || list.Len() != 1 || got != nil {
			t.Errorf("%s: %v, %v; want one violation", name, got, err)
		}
		for v := range list.All() {
			if want := map[bool]check.Code{true: check.Missing, false: check.Unknown}[k == nil]; v.Code != want {
				t.Errorf("%s: %v; want %s", name, v, want)
			}
			if (v.Got == "no kind") != (k == nil) {
				t.Errorf("%s: got %s", name, v.Got)
			}
			for k := range Kinds() {
				if !strings.Contains(v.Want, k.Name()) {
					t.Errorf("%s: want %s, and not %s", name, v.Want, k.Name())
				}
			}
		}
		if d, err := Make(k, Paper{}, 0); !errors.As(err, &list) || d.Kind() != nil {
			t.Errorf("%s is made: %v", name, err)
		}
	}
	for k := range Kinds() {
		if got, err := Accept(k); err != nil || got != k {
			t.Errorf("%s: %v, %v", k.Name(), got, err)
		}
	}
	// A kind given by a pointer is its value: later changes do not reach it.
	s := Slip{Content: IDCard()}
	d, err := Make(&s, Paper{}, units.WholeMillimetres)
	s.Glue = 20 * mm
	if err != nil || d.Kind() != (Slip{Content: IDCard()}) {
		t.Errorf("%v, %v", d.Kind(), err)
	}
}
