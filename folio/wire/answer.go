package wire

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// AppendAnswer appends to dst a document of a front end's own, put together of other
// documents, texts and numbers, in little machine code:
//
//	{"version": 1, "list": "<!DOCTYPE html>…", "title": "What to buy"}
//
// Values are texts, true or false, numbers (int and float64, none infinite), []byte,
// which is a document of this package as it stands, lists (of string, []byte or any of
// these) and map[string]any, an object. Its members come in the order of their names,
// in dst after the version. It is an error if there is a value of another type, one
// that is in more than [MostDepth] others, or a member version.
func AppendAnswer(dst []byte, members map[string]any) ([]byte, error) {
	if _, ok := members["version"]; ok {
		return dst, errors.New("wire: the version of an answer is not its own")
	}
	e := newEncoder(dst, units.MetricDecimal)
	e.raw(`{"version":` + strconv.Itoa(Version))
	e.answered(members, 0)
	e.raw("}")
	return e.done(Options{})
}

// answered writes members after others or as the first.
func (e *encoder) answered(members map[string]any, deep int) {
	for _, name := range inorder.Set(slices.Collect(maps.Keys(members))) {
		if e.out[len(e.out)-1] != '{' {
			e.put(',')
		}
		e.string(name)
		e.put(':')
		e.any(members[name], deep+1)
	}
}

// any writes what an answer or a schema is made of.
func (e *encoder) any(v any, deep int) {
	switch {
	case e.err != nil: // a value that holds itself many times would not come to an end
		return
	case deep > MostDepth:
		e.fail(errors.New("wire: values are in more than " + strconv.Itoa(MostDepth) + " others"))
		return
	}
	switch v := v.(type) {
	case string:
		e.string(v)
	case bool:
		e.bool(v)
	case int:
		e.int(int64(v))
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			e.fail(errors.New("wire: a number is infinite or none"))
			return
		}
		e.out = strconv.AppendFloat(e.out, v, 'g', -1, 64)
	case []byte:
		e.out = append(e.out, v...)
	case []string:
		anyOf(e, v, deep)
	case [][]byte:
		anyOf(e, v, deep)
	case []any:
		anyOf(e, v, deep)
	case map[string]any:
		e.put('{')
		e.answered(v, deep)
		e.put('}')
	default:
		e.fail(errors.New("wire: there is a value that is not of the types of answers"))
	}
}

func anyOf[T any](e *encoder, list []T, deep int) {
	e.put('[')
	for i, v := range list {
		if i > 0 {
			e.put(',')
		}
		e.any(v, deep+1)
	}
	e.put(']')
}
