package jsontext_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"boardwrap.example/internal/jsontext"
	"boardwrap.example/internal/proptest"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// read reads a whole text into what package encoding/json makes of it.
func read(data []byte) (any, error) {
	r := &jsontext.Reader{Data: data}
	v, err := value(r, 0)
	if err == nil && !r.End() {
		err = errors.New("more")
	}
	return v, err
}

func value(r *jsontext.Reader, deep int) (any, error) {
	if deep > 1000 {
		return nil, errors.New("too deep")
	}
	kind, text, err := r.Value()
	if err != nil {
		return nil, err
	}
	switch kind {
	case jsontext.False, jsontext.True:
		return kind == jsontext.True, nil
	case jsontext.Number:
		return json.Number(text), nil
	case jsontext.Text:
		return text, nil
	case jsontext.Array:
		list := []any{}
		for {
			ok, err := r.Element(len(list))
			if !ok {
				return list, err
			}
			v, err := value(r, deep+1)
			if err != nil {
				return nil, err
			}
			list = append(list, v)
		}
	case jsontext.Object:
		all := map[string]any{}
		for i := 0; ; i++ {
			name, _, ok, err := r.Member(i)
			if !ok {
				return all, err
			}
			if all[name], err = value(r, deep+1); err != nil {
				return nil, err
			}
		}
	}
	return nil, nil
}

// theirs reads it with package encoding/json.
func theirs(data []byte) (v any, err error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	if err = d.Decode(&v); err == nil {
		if _, more := d.Token(); !errors.Is(more, io.EOF) {
			err = errors.New("more")
		}
	}
	return v, err
}

// texts are good and bad, with everything that RFC 8259 speaks of.
var texts = []string{
	`null`, ` true `, "\t[\r\n]\n", `{}`, `{"a":1,"b":[1,2,{"c":null}],"a":3}`, `"\"\\\/\b\f\n\r\t\u00e9\ud83d\ude00"`,
	`"\ud83d"`, `"\ud83dx"`, `"\ud83d\u0041"`, `"\ude00\ud83d"`, `"\ud83d\ud83d\ude00"`, `"\uD83D\uDE00é"`, `0`, `-0`, `-12.50e+07`, `1E-2`, `9007199254740993`,
	``, ` `, `nul`, `nulll`, `tru e`, `01`, `-`, `-a`, `1.`, `.5`, `+1`, `1e`, `1e+`, `0x10`, `NaN`, `'a'`, `"`, `"\`, `"\x"`, `"\u12"`, `"\u12g4"`, "\"\x01\"", "\"a\nb\"",
	`[`, `[1`, `[1,`, `[1,]`, `[,1]`, `[1 2]`, `]`, `{`, `{"a"`, `{"a":`, `{"a":1`, `{"a":1,`, `{"a":1,}`, `{a:1}`, `{"a" 1}`, `{"a":1 "b":2}`, `{1:2}`, `{,}`, `[1}`, `{"a":1]`, `1 2`, `[] x`, "\ufeff1", "\"\u2028\x7f\"", "\"\\ud83d\\", "\"\\ud83d\\u\"", `"\ud83d\ude0"`,
}

// agree tries that a text is read, refused and indented as package encoding/json does.
func agree(t *testing.T, data []byte) {
	t.Helper()
	want, wrong := theirs(data)
	got, err := read(data)
	if (err == nil) != (wrong == nil) {
		t.Errorf("%q: %v, want %v", data, err, wrong)
		return
	}
	if err == nil && !cmp.Equal(got, want) {
		t.Errorf("%q: %v, want %v", data, got, want)
	}
	var e *jsontext.Error
	if errors.As(err, &e) && (e.At < 0 || e.At > len(data)) {
		t.Errorf("%q: %v", data, err)
	}
	if err != nil {
		return
	}
	var doc, indented bytes.Buffer
	if err := json.Compact(&doc, data); err != nil {
		t.Fatalf("%q: %v", data, err)
	}
	for _, n := range []int{1, 8} {
		indented.Reset()
		if err := json.Indent(&indented, doc.Bytes(), "", "        "[:n]); err != nil {
			t.Fatalf("%q: %v", data, err)
		}
		if got := jsontext.AppendIndented(nil, doc.Bytes(), n); !bytes.Equal(got, indented.Bytes()) {
			t.Errorf("%q: %s, want %s", data, got, &indented)
		}
	}
}

func TestReads(t *testing.T) {
	for _, text := range texts {
		agree(t, []byte(text))
	}
}

// Where it is wrong is said to the byte.
func TestSaysWhere(t *testing.T) {
	for text, want := range map[string]string{
		`[1,x]`: "there is no value at byte 3", `{"a" 1}`: "there is no colon at byte 5", `"a`: "there is no end of the text at byte 2",
		`[1 2]`: "there is no comma or end of the list at byte 3", `{"a":1`: "there is no comma or end of the object at byte 6", `{a}`: "there is no name of a member at byte 1",
		`"\q"`: "there is no character that may follow a backslash at byte 2", `1.x`: "there is no digit at byte 2", "\"\x02\"": "there is no character of a text at byte 1",
		`"\u00g0"`: "there is no number of a character at byte 5",
	} {
		if _, err := read([]byte(text)); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

// A text is written as package encoding/json writes it, and read back as it reads it.
func TestWrites(t *testing.T) {
	proptest.Run(t, 2000, func(p *gopter.Properties) {
		p.Property("as package encoding/json", prop.ForAll(func(s string, b []byte) bool {
			for _, s := range []string{s, string(b), s + "\ufffd" + string(b)} { // what stands for no character is one itself
				want, err := json.Marshal(s)
				if err != nil || string(jsontext.AppendText(nil, s)) != string(want) {
					return false
				}
				back, err := read(want)
				if again, wrong := theirs(want); err != nil || wrong != nil || back != again {
					return false
				}
			}
			return true
		}, gen.AnyString(), gen.SliceOf(gen.UInt8())))
	})
}

// Texts of what JSON is made of, most of them wrong somewhere.
func TestReadsLikewise(t *testing.T) {
	pieces := []any{"{", "}", "[", "]", ",", ":", " ", "\n", `"a"`, `"b":`, `"`, `\`, `\u00e9`, `\ud83d`, `\ude00`, "0", "1", "-", "+", ".", "e", "E", "true", "false", "null", "nul", "é", "\x01"}
	good := 0
	proptest.Run(t, 20000, func(p *gopter.Properties) {
		p.Property("as package encoding/json", prop.ForAll(func(list []string) bool {
			text := []byte(strings.Join(list, ""))
			if json.Valid(text) {
				good++
			}
			agree(t, text)
			return !t.Failed()
		}, proptest.List(1, 9, gen.OneConstOf(pieces...))))
	})
	if good == 0 {
		t.Error("none of them is JSON")
	}
}

func FuzzRead(f *testing.F) {
	for _, text := range texts {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if utf8.Valid(data) {
			agree(t, data)
		}
	})
}
