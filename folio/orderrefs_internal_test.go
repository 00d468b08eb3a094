package folio

import (
	"fmt"
	"strings"
	"testing"
)

// Ordinals as English has them: words up to the ninth, and beyond that a number ends in
// st, nd or rd as its last word does, first, second or third, which those that end in a teen
// do not.
func TestOrdinals(t *testing.T) {
	words := strings.Fields("first second third fourth fifth sixth seventh eighth ninth")
	for n := 1; n <= 1230; n++ {
		want := fmt.Sprint(n, "th")
		switch last := fmt.Sprintf("%02d", n); {
		case n <= len(words):
			want = words[n-1]
		case last[len(last)-2] == '1': // a teen, or ten
		case last[len(last)-1] >= '1' && last[len(last)-1] <= '3':
			want = fmt.Sprint(n, map[byte]string{'1': "st", '2': "nd", '3': "rd"}[last[len(last)-1]])
		}
		if got := ordinal(n - 1); got != want {
			t.Errorf("%d is the %s, want %s", n, got, want)
		}
	}
}
