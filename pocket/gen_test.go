package pocket_test

import (
	"reflect"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A job is a kind that must succeed, and what it is designed for.
type job struct {
	kind    pocket.Kind
	content pocket.Content
	count   int
	paper   pocket.Paper
	ruler   units.Ruler
	n       int // pockets
}

func (j job) design() (pocket.Design, error) { return j.kind.Design(j.paper, j.ruler) }

var rulers = []units.Ruler{
	0, units.Sixteenths, units.ThirtySeconds, units.SixtyFourths, units.Thousandths,
	units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres,
}

// genLength generates lengths between two bounds that lie on no ruler in
// particular, shrinking downwards.
func genLength(low, high units.Length) gopter.Gen {
	return proptest.Map(gen.Int64Range(int64(low), int64(high)), func(n int64) units.Length { return units.Length(n) })
}

// genContent generates contents from the size of a stamp to that of a print,
// up to 1.2 mm thick.
func genContent() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		genLength(20*units.Millimetre, 250*units.Millimetre), genLength(20*units.Millimetre, 250*units.Millimetre),
		genLength(0, 1200*units.Micrometre),
	), func(v []any) pocket.Content {
		return pocket.Content{Name: "content", Size: units.Size{W: v[0].(units.Length), H: v[1].(units.Length)}, Thickness: v[2].(units.Length)}
	})
}

// genPaper generates papers from the thinnest to board.
func genPaper() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 4), genLength(50*units.Micrometre, 500*units.Micrometre), gen.IntRange(0, 7), gen.IntRange(0, 5)), func(v []any) pocket.Paper {
		p := pocket.Paper{Caliper: v[1].(units.Length)}
		if v[0].(int) == 0 {
			p.Caliper *= 4
		}
		switch v[3].(int) { // off a roll, as long as need be
		case 0:
			p.Sheet.W = 1100*units.Millimetre + 1
		case 1:
			p.Sheet.H = 1100 * units.Millimetre
		}
		option := v[2].(int)
		p.TwoSided, p.Groove, p.Up = option&1 > 0, pocket.Groove(option>>1&1), work.PaperSide(option>>2&1)
		return p
	})
}

// genShare generates depths from a half to all of the content.
func genShare() gopter.Gen {
	return proptest.Map(gen.IntRange(0, 6), func(n int) pocket.Share {
		if n == 0 {
			return pocket.Share{}
		}
		return pocket.Share{Part: 5 + n, Of: 11}
	})
}

// genJob generates one kind of design after the other, for contents that it
// takes: by itself, in something at hand that is as large or larger, on the
// ruler or off it, and with its optional fields set or not.
func genJob() gopter.Gen {
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, 8), genContent(), gen.IntRange(1, 6), genPaper(), gen.IntRange(0, len(rulers)-1),
		gen.IntRange(1, 12), genShare(), gen.IntRange(0, 3), gen.Bool(), gen.IntRange(0, 3), gen.SliceOfN(4, genLength(0, 5*units.Millimetre)),
	), func(v []any) job {
		j := job{content: v[1].(pocket.Content), count: v[2].(int), paper: v[3].(pocket.Paper), ruler: rulers[v[4].(int)], n: 1}
		n, depth, option, flag := v[5].(int), v[6].(pocket.Share), v[7].(int), v[8].(bool)
		none := pocket.ThumbNotch{}
		if flag {
			none = pocket.ThumbNotch{Width: units.None, Depth: units.None}
		}
		switch v[0].(int) {
		case 0:
			j.kind = pocket.Slip{Content: j.content, Count: j.count, Depth: depth, Build: pocket.Build(option % 2), Notch: none}
		case 1:
			// No corner reaches over what is thick for its size.
			size := j.content.Size
			j.content.Thickness = min(j.content.Thickness, min(size.W, size.H)/units.Length(4*j.count))
			j.kind = pocket.Corners{Content: j.content, Count: j.count, Corners: []int{0, 1, 2, 4}[option]}
		case 2:
			j.count = 1
			j.kind = pocket.Flap{Content: j.content, Hinge: score.Edge(option), Over: units.Length(n) * 100 * units.Micrometre}
		case 3:
			j.kind = pocket.FoldedStrip{Content: j.content, Count: j.count, Depth: depth, OwnSpine: flag, OpensRight: option > 1}
		case 4:
			j.kind = pocket.Gusset{Content: j.content, Count: j.count, Depth: depth, At: pocket.GussetAt(option % 2)}
		case 5:
			j.n = n
			j.kind = pocket.GussetRun{Content: j.content, Count: j.count, Depth: depth, Pockets: n, OpenFoot: flag, Notch: none, Land: units.Length(option) * units.Millimetre}
		case 6:
			j.n = n
			j.kind = pocket.FoldedAccordion{Content: j.content, Count: j.count, Depth: depth, Panels: n, Notch: []pocket.ThumbNotch{{}, {}, none, {Width: 8 * units.Millimetre}}[option]}
		case 7:
			j.n = n
			j.kind = pocket.Concertina{Content: j.content, Count: j.count, Leaves: n, OnSpine: flag && option > 1, Land: units.Length(option%2) * (units.Millimetre + 1)}
		default:
			j.n = n
			j.kind = pocket.Pleat{Content: j.content, Count: j.count, Pleats: n}
		}
		more := v[10].([]units.Length)
		switch mode := v[9].(int); mode {
		case 1, 3:
			j.kind = atHand(j, more)
			fallthrough
		case 2:
			if mode > 1 {
				j.kind = withOptions(j.kind, more[2])
			}
		}
		return j
	}).WithLabel("design")
}

// atHand gives a kind that can be designed a place, a panel, a leaf or a strip
// at hand which is larger by so much.
func atHand(j job, more []units.Length) pocket.Kind {
	d, err := j.design()
	if err != nil {
		return j.kind
	}
	place := d.Closed().Plus(more[0], more[1])
	switch k := j.kind.(type) {
	case pocket.Slip:
		k.Place = place
		return k
	case pocket.Corners:
		k.Place = place
		return k
	case pocket.Flap:
		k.Leaf = place
		return k
	case pocket.FoldedStrip:
		for _, p := range d.Pieces() {
			k.Strip = p.Blank().Size().Plus(more[0], more[1])
		}
		return k
	case pocket.Gusset:
		k.Place = place
		return k
	case pocket.GussetRun:
		k.Place = place
		return k
	case pocket.FoldedAccordion:
		if k.Depth == (pocket.Share{}) { // in one piece, with a foot as deep as goes with it
			k.Strip = units.Size{W: units.Length(j.n)*(d.Closed().W+units.Inch) + 10*units.Millimetre + more[0], H: 2*d.Closed().H + more[1]}
		} else {
			k.Panel = place
		}
		return k
	case pocket.Concertina:
		for _, p := range d.Pieces() {
			if p.Name() == "leaf" {
				k.Leaf = p.Blank().Size().Plus(more[0], more[1])
			}
		}
		return k
	case pocket.Pleat:
		k.Place = place
		return k
	}
	return j.kind
}

// withOptions sets optional fields, from 0.1 mm to 5.1 mm.
func withOptions(k pocket.Kind, by units.Length) pocket.Kind {
	by += 100 * units.Micrometre
	switch k := k.(type) {
	case pocket.Slip:
		if k.Place == (units.Size{}) {
			k.Glue = by
		}
		k.Ease.H = units.None
		return k
	case pocket.Corners:
		k.Turn = by / 4
		return k
	case pocket.Flap:
		k.Tab = by
		if k.Leaf == (units.Size{}) {
			k.Margin = units.None
		}
		return k
	case pocket.FoldedStrip:
		if k.Strip == (units.Size{}) {
			k.Glue, k.Overhang = by, by
		}
		return k
	case pocket.Gusset:
		k.Tab = by / 2
		return k
	case pocket.GussetRun:
		k.Glue, k.JointTab = by/2, by/2
		return k
	case pocket.FoldedAccordion:
		k.JointTab, k.Tab = by, by
		return k
	case pocket.Concertina:
		k.Tab = by
		if k.Leaf == (units.Size{}) {
			k.Fold, k.Margin = 4*units.Millimetre, by
		}
		return k
	case pocket.Pleat:
		if k.Place == (units.Size{}) {
			k.Glue, k.Visible = by, 10*units.Millimetre+by
		}
		return k
	}
	return k
}

// genAny generates any length at all, most of them absurd.
func genAny() gopter.Gen {
	return gen.OneGenOf(
		proptest.Map(gen.Int64(), func(n int64) units.Length { return units.Length(n) }),
		gen.OneConstOf(units.Length(0), units.Length(1), units.Length(-1), units.Shortest, units.Longest, units.Longest+1,
			units.Length(-1<<63), units.Length(1<<63-1), units.Inch),
		genLength(0, 300*units.Millimetre),
	)
}

// fill sets every field of a kind from a list of lengths, so that no field is
// left out when one is added.
func fill(v reflect.Value, lengths []units.Length, at *int) {
	next := func() units.Length {
		*at++
		return lengths[*at%len(lengths)]
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), lengths, at)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), lengths, at)
		}
	case reflect.Int64:
		v.SetInt(int64(next()))
	case reflect.Int:
		if n := int64(next()); n%2 == 0 { // a count that may do as well as one that cannot
			v.SetInt(n % 7)
		} else {
			v.SetInt(int64(int32(n)))
		}
	case reflect.Uint8:
		v.SetUint(uint64(uint8(next())) % 6)
	case reflect.Bool:
		v.SetBool(next()%2 == 0)
	case reflect.String:
		v.SetString("x")
	default:
		panic(v.Kind().String())
	}
}
