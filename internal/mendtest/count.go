package mendtest

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/units/check"
)

// A Tally counts what came of the violations of many values.
type Tally struct {
	values, sound int            // that were refused; of which every violation was mended
	advised       int            // of which the others gave advice
	of            map[string]int // violations, by outcome and code
	first         map[string]string
}

// plain takes the indices out of a path.
var plain = regexp.MustCompile(`\[\d+\]`)

// Value tries all violations of one value that was refused.
func Value[T any](t *Tally, of T, err error, offers []any, again func(T) error) {
	list, ok := err.(*check.Error)
	if !ok {
		return
	}
	if t.of == nil {
		t.of, t.first = map[string]int{}, map[string]string{}
	}
	t.values++
	sound, done := true, true
	for v := range list.All() {
		found := Try(of, v, offers, again)
		if found.Outcome == Mended {
			t.of["mended"]++
			continue
		}
		sound = false
		done = done && found.Outcome == Advice
		key := [...]string{"", "advice", "not done", "astray"}[found.Outcome] + " " + plain.ReplaceAllString(v.Path, "[]") + " " + string(v.Code)
		if t.of[key]++; t.of[key] == 1 {
			t.first[key] = found.Text
		}
	}
	switch {
	case sound:
		t.sound++
	case done:
		t.advised++
	}
}

// Refused is how many values were refused.
func (t *Tally) Refused() int { return t.values }

// Check fails the test where a path led astray, where what would do did not for
// more than one value in a hundred, where more than so many in a hundred had
// only advice for something, or where a code that gives advice is none of those
// that say so.
func (t *Tally) Check(tb testing.TB, most int, advice ...check.Code) {
	tb.Helper()
	var keys []string
	for k := range t.of {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	var b strings.Builder
	for _, k := range keys {
		fmt.Fprintf(&b, "\n%6d %s", t.of[k], k)
		if first := t.first[k]; first != "" {
			b.WriteString("\n       " + strings.ReplaceAll(first, "\n", "\n       "))
		}
		kind, code := k, check.Code(k[strings.LastIndexByte(k, ' ')+1:])
		switch {
		case strings.HasPrefix(kind, "astray"):
			tb.Errorf("%s: %s", k, t.first[k])
		case strings.HasPrefix(kind, "advice") && !slices.Contains(advice, code):
			tb.Errorf("what would do cannot be done, and the code does not say that it is advice: %s", k)
		}
	}
	text := fmt.Sprintf("%d of %d refused values are mended, each violation by what it says would do, %d more but for advice:%s", t.sound, t.values, t.advised, b.String())
	advised := t.values * most / 100
	if t.values < 20_000 { // a share of few cases varies: three standard deviations more
		advised += int(math.Ceil(3 * math.Sqrt(float64(advised))))
	}
	if (t.sound+t.advised)*100 < t.values*99 || t.advised > advised {
		tb.Error(text)
		return
	}
	tb.Log(text)
}
