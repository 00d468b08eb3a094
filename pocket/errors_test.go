package pocket_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const (
	in = units.Inch
	mm = units.Millimetre
)

func violations(t *testing.T, k pocket.Kind, p pocket.Paper, r units.Ruler) *check.Error {
	t.Helper()
	d, err := k.Design(p, r)
	var list *check.Error
	if !errors.As(err, &list) {
		t.Fatalf("%+v: %v; want a list of violations", k, err)
	}
	if d.Kind() != nil || d.Pockets() != 0 {
		t.Errorf("%s: something partial came with the error", k.Name())
	}
	return list
}

// Each violation is found at its field, with its code and the length that
// would just do.
func TestViolations(t *testing.T) {
	card := pocket.IDCard()
	print4x6, _ := pocket.UsualContent("photo 4 x 6 in")
	small := pocket.Paper{Sheet: units.Size{W: 100 * mm, H: 100 * mm}}
	strip := units.Size{W: 12 * in, H: 6 * in}
	for _, c := range []struct {
		name  string
		kind  pocket.Kind
		paper pocket.Paper
		path  string
		code  check.Code
		limit units.Length
	}{
		{"nothing to design from", pocket.Slip{}, pocket.Paper{}, "content", check.Missing, 0},
		{"a content without height", pocket.Slip{Content: pocket.Content{Size: units.Size{W: in}}}, pocket.Paper{}, "content.size.h", check.NotPositive, 0},
		{"a negative count", pocket.Slip{Content: card, Count: -1}, pocket.Paper{}, "count", check.Negative, 0},
		{"too many", pocket.Slip{Content: card, Count: 100000}, pocket.Paper{}, "count", check.TooMany, 0},
		{"a share beyond all", pocket.Slip{Content: card, Depth: pocket.Share{Part: 4, Of: 3}}, pocket.Paper{}, "depth", check.OutOfRange, 0},
		{"a share of nothing", pocket.Slip{Content: card, Depth: pocket.Share{Of: 3}}, pocket.Paper{}, "depth", check.OutOfRange, 0},
		{"two depths", pocket.Slip{Content: card, Depth: pocket.Share{Part: 1, Of: 2}, StandOut: in}, pocket.Paper{}, "standout", check.Conflict, 0},
		{"a place too narrow", pocket.Slip{Content: card, Place: units.Size{W: 90 * mm, H: 90 * mm}}, pocket.Paper{}, "place.w", check.TooSmall, 101 * mm},
		{"a place too low", pocket.Slip{Content: card, Place: units.Size{W: 120 * mm, H: 50 * mm}}, pocket.Paper{}, "place.h", check.TooSmall, 60 * mm},
		{"all of it stands out", pocket.Slip{Content: card, StandOut: 60 * mm}, pocket.Paper{}, "standout", check.TooLarge, 53980*units.Micrometre - 1*mm},
		{"a notch wider than the mouth", pocket.Slip{Content: card, Notch: pocket.ThumbNotch{Width: 200 * mm}}, pocket.Paper{}, "notch.width", check.TooLarge, 89 * mm},
		{"a notch wider than anything", pocket.FoldedStrip{Content: card, Notch: pocket.ThumbNotch{Width: 11 * units.Metre, Depth: 5 * mm}}, pocket.Paper{}, "notch.width", check.OutOfRange, 0},
		{"a notch deeper than anything", pocket.FoldedStrip{Content: card, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 11 * units.Metre}}, pocket.Paper{}, "notch.depth", check.OutOfRange, 0},
		{"a sheet too small", pocket.Slip{Content: print4x6.Content}, small, "paper.sheet", check.TooSmall, 0},
		{"a paper as thin as nothing", pocket.Slip{Content: card}, pocket.Paper{Caliper: 1}, "paper.caliper", check.OutOfRange, 0},
		{"a ruler that is none", pocket.Slip{Content: card}, pocket.Paper{}, "ruler", check.Unknown, 0},
		{"three corners", pocket.Corners{Content: card, Corners: 3}, pocket.Paper{}, "corners", check.Unknown, 0},
		{"corners that overlap", pocket.Corners{Content: card, Leg: 40 * mm}, pocket.Paper{}, "leg", check.TooLarge, 0},
		{"a mat too large for the leaf", pocket.Flap{Leaf: units.Size{W: 4 * in, H: 6 * in}, Mat: pocket.Mat{Size: units.Size{W: 4 * in, H: 5 * in}}}, pocket.Paper{}, "leaf.w", check.TooSmall, 0},
		{"a mat wider than the flap of a strip", pocket.FoldedStrip{Content: card, Mat: pocket.Mat{Size: units.Size{W: 200 * mm, H: 40 * mm}}}, pocket.Paper{}, "mat.size.w", check.TooLarge, 0},
		{"a content larger than its mat", pocket.Flap{Content: print4x6.Content, Mat: pocket.Mat{Size: units.Size{W: 3 * in, H: 7 * in}}}, pocket.Paper{}, "content.size.w", check.TooLarge, 3 * in},
		{"a tab longer than the leaf", pocket.Flap{Leaf: units.Size{W: in, H: in}, Tab: 2 * in, Hinge: score.Left}, pocket.Paper{}, "tab", check.TooLarge, in},
		{"scores without a strip", pocket.FoldedStrip{Scores: [4]units.Length{in, 2 * in, 3 * in}}, pocket.Paper{}, "strip", check.Missing, 0},
		{"scores that fall back", pocket.FoldedStrip{Strip: strip, Scores: [4]units.Length{4 * in, 3 * in, 5 * in}}, pocket.Paper{}, "scores[1]", check.Conflict, 0},
		{"a score beyond the strip", pocket.FoldedStrip{Strip: strip, Scores: [4]units.Length{4 * in, 8 * in, 12 * in}}, pocket.Paper{}, "scores[2]", check.OutOfRange, 0},
		{"a given base that its ease fills", pocket.FoldedStrip{Ease: pocket.Ease{W: 2 * mm, H: 60 * mm}, Base: 50 * mm, Strip: units.Size{W: 155 * mm, H: 100 * mm}}, pocket.Paper{}, "base", check.TooSmall, 61 * mm},
		{"a base by its scores too narrow", pocket.FoldedStrip{Content: card, Strip: units.Size{W: 230 * mm, H: 100 * mm}, Scores: [4]units.Length{60 * mm, 120 * mm, 180 * mm}}, pocket.Paper{}, "scores", check.TooSmall, 0},
		{"a base that its ease fills", pocket.FoldedStrip{Ease: pocket.Ease{W: 2 * mm, H: 120 * mm}, Strip: units.Size{W: 300 * mm, H: 100 * mm}, Notch: pocket.ThumbNotch{Width: 90 * mm, Depth: 90 * mm}}, pocket.Paper{}, "strip.w", check.TooSmall, 0},
		{"a front wider than the base", pocket.FoldedStrip{Content: card, Front: 200 * mm}, pocket.Paper{}, "front", pocket.DoesNotFold, 92 * mm},
		{"a hem wider than the front", pocket.FoldedStrip{Content: card, Front: 30 * mm, Hem: 31 * mm}, pocket.Paper{}, "hem", pocket.DoesNotFold, 30 * mm},
		{"a flap wider than the base", pocket.FoldedStrip{Content: card, Flap: 100 * mm}, pocket.Paper{}, "flap", pocket.DoesNotFold, 92 * mm},
		{"a strip too short", pocket.FoldedStrip{Content: card, Strip: units.Size{W: 150 * mm, H: 80 * mm}}, pocket.Paper{}, "strip.w", check.TooSmall, 282 * mm},
		{"a strip too low", pocket.FoldedStrip{Content: card, Strip: units.Size{W: 400 * mm, H: 60 * mm}}, pocket.Paper{}, "strip.h", check.TooSmall, 69 * mm},
		{"scores and panels", pocket.FoldedStrip{Strip: strip, Scores: [4]units.Length{4 * in, 8 * in, 11 * in}, Hem: in}, pocket.Paper{}, "scores", check.Conflict, 0},
		{"a spine without its score", pocket.FoldedStrip{Strip: strip, Scores: [4]units.Length{4 * in, 8 * in, 11 * in}, Spine: in}, pocket.Paper{}, "scores", check.Missing, 0},
		{"a gusset too narrow to open", pocket.Gusset{Content: card, Opening: 30 * mm, Half: 10 * mm}, pocket.Paper{}, "half", check.TooSmall, 15 * mm},
		{"an opening too small", pocket.Gusset{Content: card, Count: 10, Opening: 5 * mm}, pocket.Paper{}, "opening", check.TooSmall, 8 * mm},
		{"gussets that meet", pocket.Gusset{Place: units.Size{W: 60 * mm, H: 60 * mm}, Half: 30 * mm}, pocket.Paper{}, "place.w", check.TooSmall, 0},
		{"a negative number of pockets", pocket.GussetRun{Content: card, Pockets: -2}, pocket.Paper{}, "pockets", check.Negative, 0},
		{"a thousand pockets", pocket.GussetRun{Content: card, Pockets: 1000}, pocket.Paper{}, "pockets", check.TooMany, 0},
		{"glue wider than the tab that the last leaf is glued to", pocket.GussetRun{Content: card, Tab: 5 * mm, Glue: 12 * mm}, pocket.Paper{}, "glue", check.TooLarge, 5 * mm},
		{"a joint of the foot alone deeper than the half panel under it", pocket.GussetRun{Place: units.MustParseSize("120 x 90 mm"), Pockets: 5, Half: 8 * mm, Land: 6 * mm, JointTab: 20 * mm},
			pocket.Paper{Sheet: units.MustParseSize("100 x 150 mm")}, "jointtab", check.TooLarge, 8 * mm},
		{"a spine too narrow", pocket.FoldedAccordion{Content: card, Panels: 6, Spine: 5 * mm}, pocket.Paper{}, "spine", check.TooSmall, 8 * mm},
		{"a sheet too short for a panel", pocket.FoldedAccordion{Content: card, Panels: 6}, small, "paper.sheet.w", check.TooSmall, 111 * mm}, // a panel glued at both ends, 85.6 + 3.175 + 12, and its tab
		{"a strip and a panel", pocket.FoldedAccordion{Panel: units.Size{W: in, H: in}, Strip: strip}, pocket.Paper{}, "panel", check.Conflict, 0},
		{"a strip too short for its panels", pocket.FoldedAccordion{Content: card, Strip: units.Size{W: 300 * mm, H: 100 * mm}, Panels: 4}, pocket.Paper{}, "strip.w", check.TooSmall, 0},
		{"a leaf too small", pocket.Concertina{Content: card, Leaf: units.Size{W: 90 * mm, H: 70 * mm}}, pocket.Paper{}, "leaf.w", check.TooSmall, 96 * mm},
		{"a fold deeper than what shows", pocket.Pleat{Content: card, Visible: 20 * mm, Fold: 21 * mm}, pocket.Paper{}, "fold", check.TooLarge, 20 * mm},
		{"a place too low for the pleats", pocket.Pleat{Content: card, Place: units.Size{W: 120 * mm, H: 50 * mm}}, pocket.Paper{}, "place.h", check.TooSmall, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := units.WholeMillimetres
			if c.path == "ruler" {
				r = -1
			}
			list := violations(t, c.kind, c.paper, r)
			v, ok := list.Find(c.path, c.code)
			if !ok {
				t.Fatalf("%v; want %s: %s", list, c.path, c.code)
			}
			if list.Len() != 1 {
				t.Errorf("more is refused than this: %v", list)
			}
			if c.limit != 0 && v.Limit != c.limit {
				t.Errorf("%v: the limit is %v; want %v", v, v.Limit, c.limit)
			}
			if v.Limit != 0 && v.By <= 0 {
				t.Errorf("%v: wrong by %v", v, v.By)
			}
		})
	}
}

// Of what is far off only that is told: not that the blank of a corner that is too long is
// longer than paper can be, nor that a place is too small for pleats with such glue, nor
// what a tab does to a leaf that it is wider than.
func TestFarOffIsToldOnce(t *testing.T) {
	for _, c := range []struct {
		path string
		kind pocket.Kind
	}{
		{"leg", pocket.Corners{Content: pocket.IDCard(), Leg: units.Longest}},
		{"glue", pocket.Pleat{Content: pocket.IDCard(), Glue: -mm, Place: units.Size{W: 10 * mm, H: 10 * mm}}},
		{"visible", pocket.Pleat{Content: pocket.IDCard(), Visible: -mm, Place: units.Size{W: 10 * mm, H: 10 * mm}}},
		{"place.h", pocket.Pleat{Content: pocket.IDCard(), Pleats: 500, Visible: units.Metre, Place: units.Size{W: 120 * mm, H: 10 * mm}}},
		{"place.w", pocket.Pleat{Content: pocket.IDCard(), Place: units.Size{W: 5 * mm, H: 200 * mm}}},
		{"fold", pocket.Pleat{Content: pocket.IDCard(), Visible: 10 * mm, Fold: 40 * mm}},
		{"front", pocket.FoldedStrip{Content: pocket.IDCard(), StandOut: 90 * mm, Hem: 20 * mm}}, // it is wider than the hem, too
		{"panel.h", pocket.FoldedAccordion{Content: pocket.IDCard(), Depth: all, Panel: units.Size{W: 120 * mm, H: mm}}},
		{"tab", pocket.Flap{Leaf: units.Size{W: 50 * mm, H: 60 * mm}, Tab: units.Longest, Hinge: score.Left}},
		{"glue", pocket.GussetRun{Content: pocket.IDCard(), Glue: units.Longest + nm, Tab: 5 * mm}}, // nor that it is wider than the tab
	} {
		list := violations(t, c.kind, pocket.Paper{}, units.WholeMillimetres)
		if _, ok := list.Find(c.path, ""); !ok || list.Len() != 1 {
			t.Error(list)
		}
	}
}

// All violations come at once.
func TestAllAtOnce(t *testing.T) {
	list := violations(t, pocket.Slip{Content: pocket.Content{Size: units.Size{W: -1, H: 0}}, Count: -1, Glue: -1,
		Depth: pocket.Share{Part: 2, Of: 1}, Build: 7}, pocket.Paper{Caliper: -1, Grammage: -1}, 0)
	var got []string
	for v := range list.All() {
		got = append(got, v.Path)
	}
	want := "paper.grammage content.size.w content.size.h count glue build depth"
	if strings.Join(got, " ") != want {
		t.Errorf("violations at %v; want %s", got, want)
	}
}

// A strip that does not fold and is too low for what it holds is both, whatever else it is
// scored for: 200 mm of front beside a base of 92, and 50 mm of height for a card of 54.
func TestStripIsToldAllAtOnce(t *testing.T) {
	list := violations(t, pocket.FoldedStrip{Content: pocket.IDCard(), Front: 200 * mm, Strip: units.Size{W: 500 * mm, H: 50 * mm}}, pocket.Paper{}, units.WholeMillimetres)
	_, front := list.Find("front", pocket.DoesNotFold)
	if _, low := list.Find("strip.h", check.TooSmall); !front || !low || list.Len() != 2 {
		t.Error(list)
	}
}

// Nor do leaves that are too narrow hide that their guard is too wide for its spine.
func TestGuardIsToldAllAtOnce(t *testing.T) {
	for _, standing := range []bool{false, true} {
		list := violations(t, pocket.Concertina{Content: pocket.IDCard(), Leaves: 4, Leaf: units.Size{W: 60 * mm}, Spine: mm, OnSpine: standing}, pocket.Paper{}, units.WholeMillimetres)
		_, narrow := list.Find("leaf.w", check.TooSmall)
		if _, wide := list.Find("spine", check.TooSmall); !narrow || !wide || list.Len() != 2 {
			t.Error(list)
		}
	}
}

// What is put in is checked as what a pocket is designed for is: no length of it is below 0
// or beyond 10 m.
func TestWhatIsPutInIsChecked(t *testing.T) {
	d := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	tried := 0
	c := pocket.Content{Size: units.Size{W: 20 * mm, H: 30 * mm}, Thickness: mm / 10}
	lengthsOf(reflect.ValueOf(&c).Elem(), "", func(path string, f reflect.Value) {
		was := f.Int()
		for l, codes := range map[units.Length][]check.Code{-nm: {check.Negative, check.NotPositive}, units.Longest + nm: {check.OutOfRange}} {
			tried++
			f.SetInt(int64(l))
			var bad *check.Error
			if err := d.Accepts(c); !errors.As(err, &bad) {
				t.Errorf("%v in %s: %v", l, path, err)
			} else if !slices.ContainsFunc(codes, func(code check.Code) bool { _, ok := bad.Find(path, code); return ok }) {
				t.Errorf("%v in %s: %v", l, path, bad)
			}
		}
		f.SetInt(was)
	})
	for _, n := range []int{-1, 0, 1001} {
		var bad *check.Error
		if err := d.AcceptsMany(c, n); !errors.As(err, &bad) {
			t.Errorf("%d of them: %v", n, err)
		} else if _, ok := bad.Find("count", check.OutOfRange); !ok {
			t.Errorf("%d of them: %v", n, bad)
		}
	}
	var bad *check.Error
	if err := design(t, pocket.Flap{Leaf: units.Size{W: 50 * mm, H: 60 * mm}}, pocket.Paper{}, units.WholeMillimetres).Accepts(c); err != nil {
		t.Errorf("what a leaf takes is refused: %v", err)
	}
	if err := (pocket.Design{}).Accepts(c); !errors.As(err, &bad) {
		t.Error("nothing holds something")
	} else if _, ok := bad.Find("content", check.TooLarge); !ok {
		t.Error(bad)
	}
	if tried != 6 || d.Accepts(c) != nil {
		t.Errorf("%d lengths tried", tried)
	}
}

// What an error says would do does: the limit at a field is accepted there.
func TestLimitWouldDo(t *testing.T) {
	card := pocket.IDCard()
	r := units.Sixteenths
	for _, c := range []struct {
		path string
		make func(units.Length) pocket.Kind
	}{
		{"place.w", func(l units.Length) pocket.Kind {
			return pocket.Slip{Content: card, Place: units.Size{W: l, H: 10 * in}}
		}},
		{"place.h", func(l units.Length) pocket.Kind {
			return pocket.Slip{Content: card, Place: units.Size{W: 10 * in, H: l}}
		}},
		{"place.w", func(l units.Length) pocket.Kind {
			return pocket.Gusset{Content: card, Place: units.Size{W: l, H: 10 * in}}
		}},
		{"place.h", func(l units.Length) pocket.Kind {
			return pocket.Gusset{Content: card, At: pocket.FootGusset, Place: units.Size{W: 10 * in, H: l}}
		}},
		{"place.w", func(l units.Length) pocket.Kind { return pocket.Slip{Place: units.Size{W: l, H: 10 * in}} }},
		{"place.h", func(l units.Length) pocket.Kind { return pocket.Slip{Place: units.Size{W: 10 * in, H: l}} }},
		{"place.h", func(l units.Length) pocket.Kind {
			return pocket.Slip{Place: units.Size{W: 10 * in, H: l}, Depth: pocket.Share{Part: 1, Of: 1}}
		}},
		{"place.h", func(l units.Length) pocket.Kind {
			return pocket.Gusset{Place: units.Size{W: 10 * in, H: l}, At: pocket.FootGusset}
		}},
		{"place.h", func(l units.Length) pocket.Kind {
			return pocket.GussetRun{Place: units.Size{W: 10 * in, H: l}, StandOut: in, Tab: in / 8}
		}},
		{"half", func(l units.Length) pocket.Kind { return pocket.Gusset{Content: card, Count: 40, Half: l} }},
		{"opening", func(l units.Length) pocket.Kind { return pocket.GussetRun{Content: card, Count: 20, Opening: l} }},
		{"spine", func(l units.Length) pocket.Kind { return pocket.GussetRun{Content: card, Pockets: 8, Spine: l} }},
		{"base", func(l units.Length) pocket.Kind { return pocket.FoldedStrip{Content: card, Base: l} }},
		{"strip.h", func(l units.Length) pocket.Kind {
			return pocket.FoldedStrip{Content: card, Strip: units.Size{W: 20 * in, H: l}}
		}},
		{"leaf.w", func(l units.Length) pocket.Kind {
			return pocket.Flap{Content: card, Leaf: units.Size{W: l, H: 10 * in}}
		}},
		{"leaf.h", func(l units.Length) pocket.Kind {
			return pocket.Concertina{Content: card, Leaf: units.Size{W: 10 * in, H: l}}
		}},
		{"place.w", func(l units.Length) pocket.Kind {
			return pocket.Pleat{Content: card, Place: units.Size{W: l, H: 10 * in}}
		}},
		{"panel.w", func(l units.Length) pocket.Kind {
			return pocket.FoldedAccordion{Content: card, Panel: units.Size{W: l}}
		}},
		{"place.w", func(l units.Length) pocket.Kind {
			return pocket.Corners{Content: card, Place: units.Size{W: l, H: 10 * in}}
		}},
	} {
		k := c.make(in / 8)
		v, ok := violations(t, k, pocket.Paper{}, r).Find(c.path, check.TooSmall)
		if !ok {
			t.Errorf("%+v: nothing at %s", k, c.path)
			continue
		}
		if _, err := c.make(v.Limit).Design(pocket.Paper{}, r); err != nil {
			t.Errorf("%s: %s of %v was to do: %v", k.Name(), c.path, v.Limit, err)
		}
		if _, err := c.make(v.Limit-r.Step()).Design(pocket.Paper{}, r); err == nil {
			t.Errorf("%s: %s does with a step less than %v, which is not the least", k.Name(), c.path, v.Limit)
		}
	}
}

// The score that an error proposes puts a strip right, at both ends of the
// stretch and nowhere beyond it; and the rules are the same as folding hem,
// front and flap in turn.
func TestStripRules(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(3000))
	p.Property("a strip is accepted if and only if it folds as told and the flap stays on the base", prop.ForAll(
		func(a, b, c, d int64) string {
			k := pocket.FoldedStrip{Strip: units.Size{W: units.Length(a+b+c+d) * in / 8, H: 6 * in}}
			k.Scores = [4]units.Length{units.Length(a) * in / 8, units.Length(a+b) * in / 8, units.Length(a+b+c) * in / 8}
			_, err := k.Design(pocket.Paper{}, units.Eighths)
			strip, _ := score.NewStrip([]units.Length{units.Length(a) * in, units.Length(b) * in, units.Length(c) * in, units.Length(d) * in}, score.Valley, score.Valley, score.Valley)
			_, blocked := strip.FoldBy(context.Background(), score.Turn{Score: 2}, score.Turn{Score: 1}, score.Turn{Score: 0})
			folds := blocked == nil && a <= b
			var list *check.Error
			if !errors.As(err, &list) {
				if !folds {
					return "accepted although it does not fold"
				}
				return ""
			}
			v, refused := list.Find("", pocket.DoesNotFold)
			switch {
			case folds && refused:
				return "refused although it folds: " + v.Error()
			case !folds && !refused:
				return "the reason is another: " + err.Error()
			}
			if !refused || !strings.HasPrefix(v.Path, "scores[") || !strings.HasPrefix(v.Want, "a score") {
				return ""
			}
			i := int(v.Path[len("scores[")] - '0')
			k.Scores[i] = v.Limit
			if _, err := k.Design(pocket.Paper{}, units.Eighths); err != nil {
				if errors.As(err, &list) {
					if _, again := list.Find("", pocket.DoesNotFold); again {
						return "the score that would do does not: " + err.Error()
					}
				}
			}
			return ""
		}, gen.Int64Range(1, 48), gen.Int64Range(1, 48), gen.Int64Range(1, 48), gen.Int64Range(1, 48)))
	p.TestingRun(t)
}

func TestStripWithSpineByScores(t *testing.T) {
	k := pocket.FoldedStrip{Strip: units.Size{W: 12 * in, H: 6 * in}, Scores: [4]units.Length{29 * in / 8, 31 * in / 8, 63 * in / 8, 21 * in / 2}}
	d := design(t, k, pocket.Paper{}, units.Eighths)
	spine, ok := d.Panel("spine")
	if !ok || spine.Size().W != in/4 {
		t.Errorf("the spine is %v; want 1/4 in", spine.Size())
	}
	if want := (units.Size{W: 4 * in, H: 6 * in}); d.Closed() != want {
		t.Errorf("closed %v; want %v", d.Closed(), want)
	}
	if want := (units.Size{W: 63 * in / 8, H: 6 * in}); d.Open() != want {
		t.Errorf("open %v; want %v", d.Open(), want)
	}
	for w := range d.Warnings() {
		t.Errorf("warned of %v although the spine makes room", w)
	}
	k.Scores[2] = 5 * in // a base of 1 1/8 in
	if v, ok := violations(t, k, pocket.Paper{}, units.Eighths).Find("scores[2]", pocket.DoesNotFold); !ok || v.Limit != 15*in/2 {
		t.Errorf("refused with %v; want scores[2] at least 7 1/2 in", v)
	}
}

// The least leg is three times the least length, so that a third of it is one; the
// edge turned under is on the ruler as soon as the ruler shows that much: 10 of a
// third of 50 micrometres on a ruler of 10.
func TestLeastCorner(t *testing.T) {
	r, err := units.NewRuler(units.Shortest, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ leg, side units.Length }{{3 * units.Shortest, 4 * units.Shortest}, {5 * units.Shortest, 6 * units.Shortest}, {6 * units.Shortest, 8 * units.Shortest}} {
		d := design(t, pocket.Corners{Place: units.Size{W: in, H: in}, Leg: c.leg}, pocket.Paper{}, r)
		if got := piece(t, d, "corner").Blank().Size(); got != (units.Size{W: c.side, H: c.side}) {
			t.Errorf("a leg of %v: the blank is %v; want a square of %v", c.leg, got, c.side)
		}
	}
	v, ok := violations(t, pocket.Corners{Place: units.Size{W: in, H: in}, Leg: 3*units.Shortest - 1}, pocket.Paper{}, r).Find("leg", check.TooSmall)
	if !ok || v.Limit != 3*units.Shortest {
		t.Errorf("a leg shorter than that: %v", v)
	}
}

// Half of 1.5 mm is no millimetre, half of 2 mm is: a ticket so high stands in a
// gusset pocket half as deep.
func TestGussetDeepEnough(t *testing.T) {
	k := pocket.Gusset{Content: sized(54*mm, 3*mm/2), Depth: pocket.Share{Part: 1, Of: 2}}
	v, ok := violations(t, k, pocket.Paper{}, units.WholeMillimetres).Find("content.size.h", check.TooSmall)
	if !ok || v.Limit != 2*mm || v.By != mm/2 {
		t.Errorf("1.5 mm high: %v", v)
	}
	k.Content.Size.H = 2 * mm
	design(t, k, pocket.Paper{}, units.WholeMillimetres)
}

// What would do instead of a length below the least is said from the least to the
// greatest, 10 m, in graduations of the ruler that lie between the two.
func TestLengthsBetween(t *testing.T) {
	for _, r := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.SixtyFourths} {
		v, ok := violations(t, pocket.Corners{Content: pocket.IDCard(), Leg: units.Shortest - 1}, pocket.Paper{}, r).Find("leg", check.OutOfRange)
		from, to, two := strings.Cut(strings.TrimPrefix(v.Want, "0 or a length from "), " to ")
		if !ok || !two {
			t.Fatalf("%v: %v", r, v)
		}
		least, err1 := units.Parse(from)
		most, err2 := units.Parse(to)
		if err1 != nil || err2 != nil || least < units.Shortest || least > mm || most > units.Longest || most < units.Longest-in {
			t.Errorf("%v: from %v to %v, of %v to %v", r, least, most, units.Shortest, units.Longest)
		}
	}
}

// Where contents are thicker than two layers of a guard's fold by less than anything
// that can be made, the folds stand as far apart as can be made: no two scores of the
// guard are closer, whatever the ruler.
func TestLeastLand(t *testing.T) {
	for _, over := range []units.Length{1, units.Shortest - 1, units.Shortest, units.Shortest + 1} {
		for _, r := range []units.Ruler{0, units.WholeMillimetres} {
			c := pocket.Concertina{Content: pocket.Content{Name: "print", Size: units.MustParseSize("90 x 60 mm"), Thickness: 600*um + over}, Leaves: 4}
			d := design(t, c, pocket.Paper{Caliper: 300 * um}, r)
			var at units.Length
			for _, l := range piece(t, d, "guard").Blank().Lines() {
				if l.At-at < units.Shortest {
					t.Errorf("%v thicker: a score %v behind another", over, l.At-at)
				}
				at = l.At
			}
		}
	}
}
