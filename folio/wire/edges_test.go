package wire_test

import (
	"errors"
	"os"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// found is an error about a document as one about fields, for edgetest: what is said
// at a JSON pointer.
func found(t *testing.T, err error) error {
	t.Helper()
	var bad *wire.Error
	if !errors.As(err, &bad) {
		if err != nil {
			t.Fatal(err)
		}
		return nil
	}
	var list check.List
	for f := range bad.All() {
		list.Malformed(f.Pointer, f.Code, f.Got, f.Want)
	}
	return list.Err()
}

// What a document may hold is taken, and what is one beyond it is told as what it is.
func TestEdgesOfCodes(t *testing.T) {
	edge := func(name, pointer string, code check.Code, fine, wrong units.Length, document func(v units.Length) string) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: pointer, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			_, err := wire.ReadSpec([]byte(document(v)))
			return found(t, err)
		})}
	}
	spec := func(name, pointer string, code check.Code, fine, wrong units.Length, members func(v units.Length) string) edgetest.Edge {
		return edge(name, "/spec"+pointer, code, fine, wrong, func(v units.Length) string { return `{"version":1,"spec":{` + members(v) + `}}` })
	}
	kind := func(members string) string {
		return `"fittings":[{"name":"a","kind":{"type":"folded","kind":{` + members + `}}}]`
	}
	number := func(v units.Length) string { return strconv.FormatInt(int64(v), 10) }
	times := func(text string) func(n units.Length) string {
		return func(n units.Length) string { return strings.TrimSuffix(strings.Repeat(text+",", int(n)), ",") }
	}
	drawn, err := os.ReadFile("testdata/v1/proposals/rowing-crew.json")
	if err != nil {
		t.Fatal(err)
	}
	const empty = `{"version":1,"spec":{}}`
	edges := []edgetest.Edge{
		edge("braces that end a document", "", wire.NotJSON, 1, 2, func(v units.Length) string { return empty[:len(empty)-1] + strings.Repeat("}", int(v)) }),
		edge("braces that end a document, too few", "", wire.NotJSON, 1, 0, func(v units.Length) string { return empty[:len(empty)-1] + strings.Repeat("}", int(v)) }),
		edge("bytes by themselves in a text", "", wire.NotJSON, 0x7f, 0x80, func(v units.Length) string { return `{"version":1,"spec":{"title":"` + string([]byte{byte(v)}) + `"}}` }),
		spec("a character in a text (RFC 8259: from U+0020 on)", "/title", wire.NotJSON, 0x20, 0x1f, func(v units.Length) string { return `"title":"` + string(rune(v)) + `"` }),
		spec("zeros before a number", "/fittings/0/kind/kind", wire.NotJSON, 0, 1, func(v units.Length) string {
			return kind(`"type":"folded strip","count":` + strings.Repeat("0", int(v)) + "7")
		}),
		spec("a count of 32 bits", "/fittings/0/kind/kind/count", wire.WrongForm, 1<<31-1, 1<<31, func(v units.Length) string { return kind(`"type":"folded strip","count":` + number(v)) }),
		spec("a count of 32 bits below nothing", "/fittings/0/kind/kind/count", wire.WrongForm, -1<<31, -1<<31-1, func(v units.Length) string { return kind(`"type":"folded strip","count":` + number(v)) }),
		spec("quotes around a length", "/spine/width", wire.WrongForm, 1, 0, func(v units.Length) string {
			return `"spine":{"width":` + strings.Repeat(`"`, int(v)) + "9" + strings.Repeat(` mm"`, int(v)) + `}`
		}),
		spec("the first letter of a member, a small one", "/Title", wire.NoMember, 't', 'T', func(v units.Length) string { return `"` + string(rune(v)) + `itle":"a"` }),
		edge("a member beside the Spec", "/spec2", wire.NoMember, 0, 1, func(v units.Length) string {
			return `{"version":1,` + strings.Repeat(`"spec2":{},`, int(v)) + `"spec":{}}`
		}),
		spec("a member again", "/title", wire.Twice, 1, 2, times(`"title":"a"`)),
		spec("a type again", "/fittings/0/kind/kind/type", wire.Twice, 1, 2, func(v units.Length) string { return kind(times(`"type":"folded strip"`)(v)) }),
		spec("the denominator of a fraction", "/spine/width", wire.BadText, 1, 0, func(v units.Length) string { return `"spine":{"width":"1/` + number(v) + ` in"}` }),
		spec("units of a length", "/spine/width", wire.BadText, 1, 2, func(v units.Length) string { return `"spine":{"width":"1` + strings.Repeat(" mm", int(v)) + `"}` }),
		edge("version", "/version", wire.BadVersion, wire.Version, wire.Version+1, func(v units.Length) string { return `{"version":` + number(v) + `,"spec":{}}` }),
		edge("version below the first", "/version", wire.BadVersion, 1, 0, func(v units.Length) string { return `{"version":` + number(v) + `,"spec":{}}` }),
		edge("a version at all", "", wire.BadVersion, 1, 0, func(v units.Length) string { return "{" + strings.Repeat(`"version":1,`, int(v)) + `"spec":{}}` }),
		edge("a Spec at all", "", check.Missing, 1, 0, func(v units.Length) string { return `{"version":1` + strings.Repeat(`,"spec":{}`, int(v)) + "}" }),
		spec("a type at all", "/fittings/0/kind/kind", check.Missing, 1, 0, func(v units.Length) string { return kind(times(`"type":"folded strip"`)(v)) }),
		spec("words of a type", "/fittings/0/kind/kind/type", check.Unknown, 1, 2, func(v units.Length) string {
			return kind(`"type":"folded strip` + strings.Repeat(" strip", int(v-1)) + `"`)
		}),
		spec("scores of a strip", "/fittings/0/kind/kind/scores", check.TooMany, 4, 5, func(v units.Length) string {
			return kind(`"type":"folded strip","scores":[` + times(`"4 in"`)(v) + "]")
		}),
		edge("bytes of a document", "", check.TooLarge, wire.MostBytes, wire.MostBytes+1, func(v units.Length) string { return empty + strings.Repeat(" ", int(v)-len(empty)) }),
		{Name: "millimetres beside the text of a length", Path: "/proposals/proposals/0/cover/w/mm", Code: check.Conflict, Fine: 252, Wrong: 253, Try: edgetest.Refused(func(v units.Length) error {
			_, err := wire.ReadProposed([]byte(strings.Replace(string(drawn), `"text":"252 mm","mm":252`, `"text":"252 mm","mm":`+number(v), 1)))
			return found(t, err)
		})},
	}
	edgetest.Run(t, edges)
	edgetest.EveryCode(t, edges, 11)
}
