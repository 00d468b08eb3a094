package layout

import "testing"

// A sentence begins with a capital where its first letter is one of a to z, whatever
// follows it.
func TestSentencesBeginWithACapital(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "a": "A", "z": "Z", "A": "A", "`": "`", "{": "{", "cut": "Cut", "zéro": "Zéro", "eé": "Eé", "éa": "éa", "a{": "A{", "z`": "Z`", "7 cuts": "7 cuts",
	} {
		if got := upper(text); got != want {
			t.Errorf("%q: %q; want %q", text, got, want)
		}
	}
}
