package pocket_test

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An attempt is something that may well be impossible: a kind with some of its
// fields set, none of them absurd by itself.
type attempt struct {
	kind  pocket.Kind
	paper pocket.Paper
	ruler units.Ruler
}

func (a attempt) String() string {
	out := fmt.Sprintf("%T on %v, paper %+v:", a.kind, a.ruler, a.paper)
	v := reflect.ValueOf(a.kind)
	for i := range v.NumField() {
		if !v.Field(i).IsZero() {
			out += fmt.Sprintf(" %s: %v;", v.Type().Field(i).Name, v.Field(i))
		}
	}
	return out
}

// genAttempts generates attempts: each field is left alone, or filled with
// something that might be meant, on the ruler or off it.
func genAttempts() gopter.Gen {
	var kinds []pocket.Kind
	for k := range pocket.Kinds() {
		kinds = append(kinds, k)
	}
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, len(kinds)-1), gen.SliceOfN(30, gen.Int64Range(0, 1<<40)), gen.IntRange(0, len(rulers)-1),
	), func(v []any) attempt {
		numbers := v[1].([]int64)
		a := attempt{ruler: rulers[v[2].(int)]}
		k := reflect.New(reflect.TypeOf(kinds[v[0].(int)])).Elem()
		at := 0
		next := func() int64 {
			at++
			return numbers[at%len(numbers)] ^ int64(at/len(numbers))*0x9E3779B9
		}
		for i := range k.NumField() {
			if next()%3 == 0 || k.Type().Field(i).Name == "Content" && next()%4 > 0 {
				likely(k.Field(i), k.Type().Field(i).Name, next, a.ruler)
			}
		}
		a.kind = k.Interface().(pocket.Kind)
		if next()%3 == 0 {
			a.paper.Caliper = units.Length(50_000 + next()%600_000)
		}
		if next()%3 == 0 {
			a.paper.Sheet = units.Size{W: units.Length(60_000_000 + next()%500_000_000), H: units.Length(60_000_000 + next()%500_000_000)}
		}
		return a
	})
}

// likely fills a field with a value that may be meant.
func likely(v reflect.Value, name string, next func() int64, r units.Ruler) {
	length := func(most int64) units.Length {
		l := units.Length(next() % most)
		if next()%2 == 0 {
			l = r.Nearest(l)
		}
		return l
	}
	small := int64(30 * units.Millimetre)
	switch name {
	case "Place", "Panel", "Strip", "Leaf", "Size", "Content", "Scores":
		small = int64(300 * units.Millimetre)
	}
	switch v.Kind() {
	case reflect.Struct:
		switch t := v.Addr().Interface().(type) {
		case *pocket.Content:
			*t = pocket.Content{Size: units.Size{W: 1 + length(small), H: 1 + length(small)}, Thickness: length(int64(3 * units.Millimetre))}
		case *pocket.Share:
			of := 1 + int(next()%7)
			*t = pocket.Share{Part: 1 + int(next()%int64(of)), Of: of}
		case *pocket.ThumbNotch:
			*t = pocket.ThumbNotch{Width: length(small), Depth: length(small)}
		default:
			for i := range v.NumField() {
				likely(v.Field(i), name, next, r)
			}
		}
	case reflect.Array:
		var at units.Length
		for i := range v.Len() {
			if at += length(small / 2); i == 3 && next()%2 == 0 {
				break
			}
			v.Index(i).SetInt(int64(at))
		}
	case reflect.Int64:
		v.SetInt(int64(length(small)))
	case reflect.Int:
		v.SetInt(next() % 9)
	case reflect.Uint8:
		v.SetUint(uint64(next() % 3))
	case reflect.Bool:
		v.SetBool(next()%2 == 0)
	}
}

// field finds the field of a path as the Go fields are called, in lower case.
func field(root reflect.Value, path string) (reflect.Value, bool) {
	v := root
	for _, part := range strings.Split(path, ".") {
		name, index, indexed := strings.Cut(part, "[")
		if v.Kind() != reflect.Struct {
			return v, false
		}
		found := false
		for i := range v.NumField() {
			if strings.ToLower(v.Type().Field(i).Name) == name {
				v, found = v.Field(i), true
				break
			}
		}
		if !found {
			return v, false
		}
		if indexed {
			i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
			if err != nil || v.Kind() != reflect.Array || i >= v.Len() {
				return v, false
			}
			v = v.Index(i)
		}
	}
	return v, true
}

// at returns an attempt that can be changed, and its field at a path.
func (a *attempt) at(path string) (reflect.Value, func(), bool) {
	if rest, ok := strings.CutPrefix(path, "paper."); ok {
		v, ok := field(reflect.ValueOf(&a.paper).Elem(), rest)
		return v, func() {}, ok
	}
	k := reflect.New(reflect.TypeOf(a.kind)).Elem()
	k.Set(reflect.ValueOf(a.kind))
	v, ok := field(k, path)
	return v, func() { a.kind = k.Interface().(pocket.Kind) }, ok
}

func violationsOf(err error) []check.Violation {
	var list *check.Error
	if !errors.As(err, &list) {
		return nil
	}
	return slices.Collect(list.All())
}

// Whatever a violation says would do, done at its path, mends it in one go.
// Those that are not about one length say so, and leave out the limit.
func TestWhatWouldDoDoes(t *testing.T) {
	tried, wrong, unbound := 0, 0, 0
	var first []string
	per := map[string]int{}
	params := proptest.Parameters(3000)
	params.MaxShrinkCount = 0
	p := gopter.NewProperties(params)
	p.Property("what would do does", prop.ForAll(func(a attempt) string {
		_, err := a.kind.Design(a.paper, a.ruler)
		for _, v := range violationsOf(err) {
			if v.Path != "ruler" {
				f, _, ok := a.at(v.Path)
				if !ok {
					return v.Path + " is no field of " + a.String()
				}
				if v.Bound != check.NoBound && f.Kind() != reflect.Int64 {
					return "a limit of " + v.Path + ", which is no length: " + v.Error()
				}
			}
			if v.Bound == check.NoBound {
				unbound++
				if v.Limit != 0 || v.By != 0 {
					return "a limit without a bound: " + v.Error()
				}
				continue
			}
			tried++
			again := a
			f, done, _ := again.at(v.Path)
			f.SetInt(int64(v.Limit))
			done()
			_, err := again.kind.Design(again.paper, again.ruler)
			for _, w := range violationsOf(err) {
				if w.Path == v.Path && w.Code == v.Code {
					wrong++
					key := a.kind.Name() + " " + v.Path + " " + string(v.Code)
					if per[key]++; per[key] == 1 {
						first = append(first, fmt.Sprintf("%v\n   %v\n   then %v", a, v, w))
					}
					break
				}
			}
		}
		return ""
	}, genAttempts()))
	p.TestingRun(t)
	t.Logf("%d limits applied, %d did not mend; %d violations are not about one length", tried, wrong, unbound)
	if tried < proptest.Cases(500) || wrong > 0 {
		for k, n := range per {
			t.Log(n, k)
		}
		t.Errorf("%d of %d limits do not mend what they are about:\n%s", wrong, tried, strings.Join(first, "\n"))
	}
}

// An asked is an attempt as its errors see it: the fields of the kind, the paper
// and the ruler.
type asked struct {
	pocket.Kind
	Paper pocket.Paper
	Ruler units.Ruler
}

func (a asked) design() error {
	_, err := a.Kind.Design(a.Paper, a.Ruler)
	return err
}

// What violations say to a person does it too, of all kinds, read from the text.
func TestWhatTheTextSaysDoes(t *testing.T) { whatTheTextSaysDoes(t, 3000) }

func whatTheTextSaysDoes(t *testing.T, cases int) *mendtest.Tally {
	t.Helper()
	var tally mendtest.Tally
	params := proptest.Parameters(cases)
	params.MaxShrinkCount = 0
	p := gopter.NewProperties(params)
	p.Property("what is tried is refused or made", prop.ForAll(func(a attempt, from int64) bool {
		if a.kind == nil {
			return true
		}
		of := asked{a.kind, a.paper, a.ruler}
		if from%2 == 0 { // spoilt besides
			of.Paper = mendtest.Spoil(of.Paper, from)
		}
		mendtest.Value(&tally, of, of.design(), nil, asked.design)
		return true
	}, genAttempts(), gen.Int64()))
	p.TestingRun(t)
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../score", "../units/check")...)
	return &tally
}
