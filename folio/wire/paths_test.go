package wire_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"math/rand"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units/check"
)

// A branch is a value of a document that is spoilt: members stay in their order and
// may be there twice, which a map cannot hold.
type branch struct {
	leaf    json.RawMessage // nil for an object and a list
	names   []string        // nil for a list
	entries []*branch
}

func grown(t *testing.T, data []byte) *branch {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var value func() *branch
	value = func() *branch {
		token, err := d.Token()
		if err != nil {
			t.Fatal(err)
		}
		b := &branch{}
		switch token {
		case json.Delim('{'):
			b.names = []string{}
			for d.More() {
				name, _ := d.Token()
				b.names = append(b.names, name.(string))
				b.entries = append(b.entries, value())
			}
			_, _ = d.Token()
		case json.Delim('['):
			for d.More() {
				b.entries = append(b.entries, value())
			}
			_, _ = d.Token()
		default:
			if b.leaf, err = json.Marshal(token); err != nil {
				t.Fatal(err)
			}
		}
		return b
	}
	return value()
}

// all lists a value and what is in it.
func (b *branch) all() []*branch {
	out := []*branch{b}
	for _, e := range b.entries {
		out = append(out, e.all()...)
	}
	return out
}

// write writes a value with spaces and line ends here and there.
func (b *branch) write(out *bytes.Buffer, r *rand.Rand) {
	space := func() { out.WriteString([]string{"", "", "", " ", "\n", "\n\t"}[r.Intn(6)]) }
	if b.leaf != nil {
		out.Write(b.leaf)
		return
	}
	ends := "[]"
	if b.names != nil {
		ends = "{}"
	}
	out.WriteByte(ends[0])
	for i, e := range b.entries {
		if i > 0 {
			out.WriteByte(',')
		}
		space()
		if b.names != nil {
			name, _ := json.Marshal(b.names[i])
			out.Write(name)
			out.WriteByte(':')
			space()
		}
		e.write(out, r)
		space()
	}
	out.WriteByte(ends[1])
}

// spoil changes one value of a document: what it is, what it is called, how often it
// is there.
func (b *branch) spoil(r *rand.Rand) {
	all := b.all()
	at := all[r.Intn(len(all))]
	typed := slices.DeleteFunc(all, func(o *branch) bool { return !slices.Contains(o.names, "type") })
	values := []string{"7", "-1", "1e400", "2.5", `"wide"`, `""`, "true", "null", "{}", "[]", `[7]`, `{"wings":1}`, `"4 1/2 in"`, `{"type":"sail"}`, `{"type":"mat"}`, `"6 x 8"`}
	names := []string{"wings", "Cover", "a/b~c", "", "type", "ünï\"code", "~1", "0"}
	n := len(at.entries)
	switch k := r.Intn(6); {
	case k == 0 && n > 0 && at.names != nil:
		at.names[r.Intn(n)] = names[r.Intn(len(names))]
	case k == 1 && at.names != nil:
		i := r.Intn(n + 1)
		at.names = slices.Insert(at.names, i, names[r.Intn(len(names))])
		at.entries = slices.Insert(at.entries, i, &branch{leaf: json.RawMessage(values[r.Intn(len(values))])})
	case k == 2 && n > 0: // once more
		i := r.Intn(n)
		at.entries = append(at.entries, at.entries[i])
		if at.names != nil {
			at.names = append(at.names, at.names[i])
		}
	case k == 3 && n > 0: // taken out
		i := r.Intn(n)
		at.entries = slices.Delete(at.entries, i, i+1)
		if at.names != nil {
			at.names = slices.Delete(at.names, i, i+1)
		}
	case k == 4 && len(typed) > 0: // of no kind that there is
		at = typed[r.Intn(len(typed))]
		at.entries[slices.Index(at.names, "type")] = &branch{leaf: json.RawMessage(`"sail"`)}
	default:
		*at = branch{leaf: json.RawMessage(values[r.Intn(len(values))])}
	}
}

// pointed follows a JSON pointer through a document (RFC 6901) and returns the bytes
// of each value that it may mean: more than one where a member is there twice.
func pointed(data []byte, pointer string) []json.RawMessage {
	found := []json.RawMessage{bytes.TrimSpace(data)}
	if pointer == "" {
		return found
	}
	for _, token := range strings.Split(pointer, "/")[1:] {
		token = strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~")
		var next []json.RawMessage
		for _, v := range found {
			d := json.NewDecoder(bytes.NewReader(v))
			open, _ := d.Token()
			for i := 0; d.More() && (open == json.Delim('{') || open == json.Delim('[')); i++ {
				name := strconv.Itoa(i)
				if open == json.Delim('{') {
					n, _ := d.Token()
					name = n.(string)
				}
				var value json.RawMessage
				if d.Decode(&value) != nil {
					break
				}
				if name == token {
					next = append(next, value)
				}
			}
		}
		found = next
	}
	return found
}

// leads says what is wrong with where a fault says that it is: its pointer leads to a
// value of the document, its line and column to where that begins, or the name of a
// member that is too much, and its path is the pointer's in the words of the Spec.
func leads(data []byte, f wire.Fault) string {
	values := pointed(data, f.Pointer)
	if len(values) == 0 {
		return "the pointer leads nowhere"
	}
	rows := bytes.SplitAfter(data, []byte("\n"))
	if f.Line < 1 || f.Line > len(rows) || f.Column < 1 || f.Column > len(rows[f.Line-1]) {
		return "there is no such line and column"
	}
	rest := append(slices.Clone(rows[f.Line-1][f.Column-1:]), bytes.Join(rows[f.Line:], nil)...)
	var there json.RawMessage
	if json.NewDecoder(bytes.NewReader(rest)).Decode(&there) != nil {
		return "no value begins there"
	}
	last := f.Pointer[strings.LastIndex(f.Pointer, "/")+1:]
	name, _ := json.Marshal(strings.ReplaceAll(strings.ReplaceAll(last, "~1", "/"), "~0", "~"))
	if f.Code == wire.NoMember || f.Code == wire.Twice {
		if !bytes.Equal(there, name) {
			return "another name begins there"
		}
	} else if !slices.ContainsFunc(values, func(v json.RawMessage) bool { return bytes.Equal(v, there) }) {
		return "another value begins there"
	}
	tokens := strings.Split(f.Pointer, "/")[1:]
	if f.Code == wire.NoMember { // there is no such field
		tokens = tokens[:len(tokens)-1]
	}
	path := ""
	for i, token := range tokens {
		switch _, err := strconv.Atoi(token); {
		case i == 0 && slices.Contains([]string{"version", "spec", "batch", "request"}, token): // not of the Spec
		case err == nil:
			path += "[" + token + "]"
		case token == "type": // which says what kind something is
		case path == "":
			path = strings.ToLower(token)
		default:
			path += "." + strings.ToLower(token)
		}
	}
	if f.Path != path {
		return "the path of the pointer is " + path
	}
	return ""
}

// Documents are spoilt at one to three places: whatever is wrong with them is said of
// a value that is there, and in its place.
func TestFaultsLeadToTheirPlaces(t *testing.T) {
	const pictures = `{"version": 1, "names": ["inside", "piece 0"], "fit": "100 x 200 mm", "alone": true, "list": true}`
	const asked = `{"version": 1, "contents": "1 ID-1 card", "anyForm": true}`
	readers := map[string]func([]byte) error{
		pictures:            reads(wire.ReadPicturesWanted),
		asked:               reads(wire.ReadAsked),
		"every-member.json": reads(wire.ReadSpec), "own-row.json": reads(wire.ReadSpec), "walking-club.json": reads(wire.ReadSpec), "batch/regatta.json": reads(wire.ReadBatch), "added/batch-made.json": reads(wire.ReadBatch),
		"request/every-member.json": reads(wire.ReadRequest),
		"made/rowing-crew.json":     func(data []byte) error { _, _, _, err := wire.ReadMade(data); return err },
	}
	r := rand.New(rand.NewSource(proptest.Seed()))
	met := map[check.Code]int{}
	cases := proptest.Cases(150)
	for _, name := range slices.Sorted(maps.Keys(readers)) { // in one order, for one seed
		read := readers[name]
		sound, err := []byte(name), error(nil)
		if name != pictures && name != asked {
			sound, err = os.ReadFile("testdata/v1/" + name)
		}
		if err != nil || read(sound) != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for range cases {
			doc := grown(t, sound)
			for range 1 + r.Intn(3) {
				doc.spoil(r)
			}
			var out bytes.Buffer
			doc.write(&out, r)
			var bad *wire.Error
			if err := read(out.Bytes()); err == nil {
				continue
			} else if !errors.As(err, &bad) {
				t.Fatalf("%v", err)
			}
			for f := range bad.All() {
				met[f.Code]++
				if wrong := leads(out.Bytes(), f); wrong != "" {
					t.Errorf("%s: %v, path %q: %s\n%s", name, f, f.Path, wrong, out.Bytes())
					return
				}
			}
		}
	}
	for _, code := range []check.Code{wire.WrongForm, wire.NoMember, wire.Twice, wire.BadText, check.Missing, check.Unknown} {
		if met[code] < cases/60 {
			t.Errorf("%s is met %d times", code, met[code])
		}
	}
}

func reads[T any](read func([]byte) (T, error)) func([]byte) error {
	return func(data []byte) error { _, err := read(data); return err }
}
