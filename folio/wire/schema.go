package wire

import (
	"encoding"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/internal/jsontext"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// kindsOf are the types of a family with their names, none where a type is no
// family.
func kindsOf(t reflect.Type) (kinds []reflect.Type, names []string) {
	switch t {
	case reflect.TypeFor[folio.Kind]():
		for k := range folio.Kinds() {
			kinds = append(kinds, reflect.TypeOf(k))
		}
		return kinds, fittings.names
	case reflect.TypeFor[pocket.Kind]():
		for k := range pocket.Kinds() {
			kinds = append(kinds, reflect.TypeOf(k))
		}
		return kinds, pockets.names
	}
	return nil, nil
}

// memberName is the name of a field's member.
func memberName(field string) string {
	r, size := utf8.DecodeRuneInString(field)
	return string(unicode.ToLower(r)) + field[size:]
}

// isTextType reports whether values of a type are texts.
func isTextType(t reflect.Type) bool {
	return t.Kind() == reflect.String || t.Implements(reflect.TypeFor[encoding.TextAppender]())
}

// SpecSchema returns the JSON Schema (2020-12) of a Spec's document, made from
// the types that read it, so that it cannot fall behind. Whatever [ReadSpec]
// takes the schema takes; that a text is a length only ReadSpec can tell.
func SpecSchema() []byte {
	return schemaOf("spec", reflect.TypeFor[folio.Spec](), false)
}

// PlanSchema returns the JSON Schema (2020-12) of a plan's document as
// [AppendPlan] writes it whole, without [Options].Only.
func PlanSchema() []byte {
	return schemaOf("plan", reflect.TypeFor[plan](), true)
}

// ErrorSchema returns the JSON Schema (2020-12) of the document that
// [AppendError] writes.
func ErrorSchema() []byte {
	return schemaOf("error", reflect.TypeFor[problems](), true, "line")
}

// schemaOf is the schema of a document with a body of a type; numbers are
// further members that may be there.
func schemaOf(name string, body reflect.Type, drawn bool, numbers ...string) []byte {
	s := schemer{defs: map[string]any{}, drawn: drawn}
	properties := map[string]any{"version": map[string]any{"const": Version}, name: s.of(body)}
	for _, line := range numbers {
		properties[line] = map[string]any{"type": "integer", "minimum": 1}
	}
	e := newEncoder(nil, units.MetricDecimal)
	e.any(map[string]any{
		"$schema":              "https://json-schema.org/draft/2020-12/schema",
		"title":                "boardwrap " + name + ", version " + strconv.Itoa(Version),
		"type":                 "object",
		"additionalProperties": false,
		"required":             []string{"version", name},
		"properties":           properties,
		"$defs":                s.defs,
	}, 0)
	return append(jsontext.AppendIndented(nil, e.out, 1), '\n')
}

// A schemer gathers the definitions of named types.
type schemer struct {
	defs  map[string]any
	drawn bool // of what goes out for drawing: lengths with millimetres, nothing left out
	// within says that it is of a Spec within such a document: its types have
	// names of their own.
	within bool
}

func (s *schemer) of(t reflect.Type) any {
	switch {
	case s.drawn && t == reflect.TypeFor[folio.Spec]():
		s.drawn, s.within = false, true
		defer func() { s.drawn, s.within = true, false }()
		return s.of(t)
	case t == reflect.TypeFor[folio.Kind](), t == reflect.TypeFor[pocket.Kind]():
		return s.named(t, func() any {
			var one []any
			kinds, names := kindsOf(t)
			for i, k := range kinds {
				one = append(one, s.object(k, names[i]))
			}
			return map[string]any{"type": "object", "oneOf": one}
		})
	case t == reflect.TypeFor[work.Action]():
		return s.named(t, func() any {
			var one []any
			for a := range work.Actions() {
				k := reflect.TypeOf(a)
				one = append(one, s.object(k, memberName(k.Name())))
			}
			return map[string]any{"type": "object", "oneOf": one}
		})
	case t == reflect.TypeFor[units.Working]():
		return s.of(reflect.TypeFor[working]())
	case s.drawn && t == reflect.TypeFor[units.Length]():
		return s.named(t, func() any {
			return map[string]any{
				"type": "object", "additionalProperties": false, "required": []string{"text", "mm"},
				"properties": map[string]any{"text": map[string]any{"type": "string"}, "mm": map[string]any{"type": "number"}},
			}
		})
	case isTextType(t) && !(s.drawn && t == reflect.TypeFor[units.Size]()):
		return s.text(t)
	case t.Kind() == reflect.Bool:
		return map[string]any{"type": "boolean"}
	case t.Kind() == reflect.Int:
		return map[string]any{"type": "integer", "minimum": -1 << 31, "maximum": 1<<31 - 1}
	case t.Kind() == reflect.Int64:
		return map[string]any{"type": "integer"}
	case t.Kind() == reflect.Slice:
		return map[string]any{"type": "array", "items": s.of(t.Elem())}
	case t.Kind() == reflect.Array:
		return map[string]any{"type": "array", "items": s.of(t.Elem()), "maxItems": t.Len()}
	}
	return s.named(t, func() any { return s.object(t, "") })
}

// named refers to the definition of a type, and makes it first: no type holds itself.
func (s *schemer) named(t reflect.Type, make func() any) any {
	name := defName(t)
	if s.within {
		name = "spec." + name
	}
	if _, ok := s.defs[name]; !ok {
		s.defs[name] = make()
	}
	return map[string]any{"$ref": "#/$defs/" + name}
}

// defName is what the schemas of version 1 call a type, whatever it is called in Go
// and in whatever room it lies by now.
func defName(t reflect.Type) string {
	name := t.String()
	switch name {
	case "work.Object":
		return "work.Thing"
	case "work.Source":
		return "work.Sheet"
	case "score.Draft":
		return "score.Drawing"
	case "pocket.ThumbNotch":
		return "pocket.Notch"
	case "boards.Board":
		return "folio.RowBoard"
	case "closing.AdhesiveFilm":
		return "folio.Adhesive"
	case "closing.Allowance":
		return "folio.Closing"
	case "wire.closingVerdict":
		return "wire.closing"
	}
	room, within, _ := strings.Cut(name, ".")
	switch room { // what a Spec says was all in one
	case "boards", "closing", "place", "refit", "rule", "stock":
		return "folio." + within
	}
	return name
}

// object is the schema of a struct; kind is what its type must be, if anything.
func (s *schemer) object(t reflect.Type, kind string) any {
	members := map[string]any{}
	var required []string
	for i := range t.NumField() {
		f, name := t.Field(i).Type, memberName(t.Field(i).Name)
		members[name] = s.of(f)
		if s.drawn && f.Kind() != reflect.Slice { // empty lists are left out
			required = append(required, name)
		}
	}
	out := map[string]any{"type": "object", "additionalProperties": false, "properties": members}
	if kind != "" {
		members[tag] = map[string]any{"const": kind}
		required = append(required, tag)
	}
	if required != nil {
		out["required"] = required
	}
	return out
}

// text is the schema of a text: the words of an enumeration, or any.
func (s *schemer) text(t reflect.Type) any {
	what := map[string]any{"type": "string"}
	switch {
	case t == reflect.TypeFor[units.Length]():
		what["description"] = `a length with its unit, as in "4 1/2 in" or "114 mm"; "none" is explicitly nothing`
	case t == reflect.TypeFor[units.Size]():
		what["description"] = `a width and a height with their unit, as in "6 x 8 in"`
	case t.Kind() == reflect.Uint8:
		var words []string
		for i := range 256 {
			v := reflect.New(t).Elem()
			v.SetUint(uint64(i))
			if text, err := v.Interface().(encoding.TextMarshaler).MarshalText(); err == nil {
				words = append(words, string(text))
			}
		}
		what["enum"] = words
	}
	return what
}
