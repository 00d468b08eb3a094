package pocket_test

import (
	"reflect"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"

	"boardwrap.example/pocket"
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
	return gen.Int64Range(int64(low), int64(high)).Map(func(n int64) units.Length { return units.Length(n) })
}

// genContent generates contents from the size of a stamp to that of a print,
// up to 1.2 mm thick.
func genContent() gopter.Gen {
	return gopter.CombineGens(
		genLength(20*units.Millimetre, 250*units.Millimetre), genLength(20*units.Millimetre, 250*units.Millimetre),
		genLength(0, 1200*units.Micrometre),
	).Map(func(v []any) pocket.Content {
		return pocket.Content{Name: "content", Size: units.Size{W: v[0].(units.Length), H: v[1].(units.Length)}, Thickness: v[2].(units.Length)}
	})
}

func genPaper() gopter.Gen {
	return genLength(50*units.Micrometre, 500*units.Micrometre).Map(func(c units.Length) pocket.Paper { return pocket.Paper{Caliper: c} })
}

// genShare generates depths from a half to all of the content.
func genShare() gopter.Gen {
	return gen.IntRange(0, 6).Map(func(n int) pocket.Share {
		if n == 0 {
			return pocket.Share{}
		}
		return pocket.Share{Part: 5 + n, Of: 11}
	})
}

// genJob generates one kind of design after the other, for contents that it
// takes.
func genJob() gopter.Gen {
	return gopter.CombineGens(
		gen.IntRange(0, 8), genContent(), gen.IntRange(1, 6), genPaper(), gen.IntRange(0, len(rulers)-1),
		gen.IntRange(1, 12), genShare(), gen.IntRange(0, 3), gen.Bool(),
	).Map(func(v []any) job {
		j := job{content: v[1].(pocket.Content), count: v[2].(int), paper: v[3].(pocket.Paper), ruler: rulers[v[4].(int)], n: 1}
		n, depth, option, flag := v[5].(int), v[6].(pocket.Share), v[7].(int), v[8].(bool)
		switch v[0].(int) {
		case 0:
			j.kind = pocket.Slip{Content: j.content, Count: j.count, Depth: depth, Build: pocket.Build(option % 2), Notch: pocket.Notch{None: flag}}
		case 1:
			j.kind = pocket.Corner{Content: j.content, Count: j.count, Corners: []int{0, 1, 2, 4}[option]}
		case 2:
			j.count = 1
			j.kind = pocket.Flap{Content: j.content, Hinge: score.Edge(option), Over: units.Length(n) * 100 * units.Micrometre}
		case 3:
			j.kind = pocket.FoldedStrip{Content: j.content, Count: j.count, Depth: depth, OwnSpine: flag, OpensRight: option > 1}
		case 4:
			j.kind = pocket.Gusset{Content: j.content, Count: j.count, Depth: depth, At: pocket.GussetAt(option % 2)}
		case 5:
			j.n = n
			j.kind = pocket.GussetRun{Content: j.content, Count: j.count, Depth: depth, Pockets: n, OpenFoot: flag, Land: units.Length(option) * units.Millimetre}
		case 6:
			j.n = n
			j.kind = pocket.FoldedAccordion{Content: j.content, Count: j.count, Depth: depth, Panels: n}
		case 7:
			j.n = n
			j.kind = pocket.Concertina{Content: j.content, Count: j.count, Leaves: n}
		default:
			j.n = n
			j.kind = pocket.Pleat{Content: j.content, Count: j.count, Pleats: n}
		}
		return j
	}).WithLabel("design")
}

// genAny generates any length at all, most of them absurd.
func genAny() gopter.Gen {
	return gen.OneGenOf(
		gen.Int64().Map(func(n int64) units.Length { return units.Length(n) }),
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
