package units_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"boardwrap.example/units"
)

// addUp checks a working against its own terms, in rational numbers.
func addUp(w units.Working) string {
	sum := new(big.Int)
	for term := range w.Terms() {
		sum.Add(sum, new(big.Int).Mul(big.NewInt(int64(term.Count)), big.NewInt(int64(term.Length))))
	}
	if sum.Cmp(big.NewInt(int64(w.Total()))) != 0 {
		return "the total is not the sum of the terms"
	}
	share := new(big.Rat).SetFrac(sum, big.NewInt(int64(w.Shares())))
	r := w.Rounded()
	if roundRat(share, r.Direction).Cmp(big.NewInt(int64(r.From))) != 0 {
		return "the exact length is not the share of the total"
	}
	step := new(big.Rat).SetInt64(int64(r.Ruler.Step()))
	graduations := new(big.Rat).Quo(share, step)
	if to := roundRat(graduations, r.Direction); to.Mul(to, step.Num()).Cmp(big.NewInt(int64(r.To))) != 0 {
		return "the result is not the share rounded on the ruler, once"
	}
	if r.Exact() != graduations.IsInt() {
		return "it is wrong about being exact"
	}
	if w.Length() != r.To {
		return "two results"
	}
	return ""
}

// printed checks that the line holds the label, the result and every term.
func printed(w units.Working, typographic bool) string {
	line := string(w.AppendLine(nil, typographic))
	n := w.Rounded().Ruler.Notation()
	write := func(l units.Length) string { return string(n.Append(nil, l, typographic)) }
	start := w.Label() + " " + write(w.Length()) + " = "
	if !strings.HasPrefix(line, start) {
		return "the line does not start with the result"
	}
	rest := line[len(start):]
	for term := range w.Terms() {
		i := strings.Index(rest, write(term.Length))
		if i < 0 {
			return "the line lacks a term, or has it in another place"
		}
		if !strings.Contains(rest[:i], term.Label) {
			return "the line lacks a label"
		}
		rest = rest[i+len(write(term.Length)):]
	}
	if w.Rounded().Exact() == strings.Contains(rest, ", "+w.Rounded().Direction.String()+" on "+write(w.Rounded().Ruler.Step())) {
		return "the line is wrong about rounding"
	}
	if strings.ContainsAny(line, "\n\r") {
		return "more than one line"
	}
	return ""
}

func TestWorkingLines(t *testing.T) {
	open := 10*in + 3*in/8
	for _, c := range []struct {
		w           units.Working
		ascii, typo string
	}{
		{
			units.Sum("liner width", units.Sixteenths, units.Down, units.T("open width", open), units.N(-2, "inset", in/8)),
			"liner width 10 1/8 in = open width 10 3/8 in - 2 x inset 1/8 in",
			"liner width 10⅛″ = open width 10⅜″ − 2 × inset ⅛″",
		},
		{
			units.Sum("wrap width", units.Eighths, units.Up, units.T("open width", 10*in+3*in/16), units.N(2, "margin", in)),
			"wrap width 12 1/4 in = open width 10 3/16 in + 2 x margin 1 in = 12 3/16 in, up on 1/8 in",
			"wrap width 12¼″ = open width 10\u00a03⁄16″ + 2 × margin 1″ = 12\u00a03⁄16″, up on ⅛″",
		},
		{
			new(units.Ledger).Share("margin", 2, units.WholeMillimetres, units.Down, units.T("sheet", 305*mm), units.T("less open width", -264*mm)),
			"margin 20 mm = (sheet 305 mm + less open width -264 mm) / 2 = 20.5 mm, down on 1 mm",
			"margin 20\u00a0mm = (sheet 305\u00a0mm + less open width −264\u00a0mm) ÷ 2 = 20.5\u00a0mm, down on 1\u00a0mm",
		},
		{
			new(units.Ledger).Share("panel", 3, 0, units.Nearest, units.T("strip", 10*mm)),
			"panel 3.333333 mm = strip 10 mm / 3 = ~3.333333 mm, nearest on 0.000001 mm",
			"panel 3.333333\u00a0mm = strip 10\u00a0mm ÷ 3 = ≈3.333333\u00a0mm, nearest on 0.000001\u00a0mm",
		},
		{
			new(units.Ledger).Share("panel", 24, units.Eighths, units.Up, units.T("strip", 2*ft)),
			"panel 1 in = strip 24 in / 24",
			"panel 1″ = strip 24″ ÷ 24",
		},
		{
			units.Sum("overhang", units.Thousandths, units.Nearest, units.N(-3, "step", 5*units.Thou), units.T("", in)),
			"overhang 0.985 in = - 3 x step 0.005 in + 1 in",
			"overhang 0.985″ = − 3 × step 0.005″ + 1″",
		},
		{
			units.Sum("board", units.Sixteenths, units.Down, units.T("block", 100*mm)),
			"board 3 7/8 in = block ~3.937 in, down on 1/16 in",
			"board 3⅞″ = block ≈3.937″, down on 1⁄16″",
		},
		{units.Sum("nothing", units.Sixteenths, units.Up), "nothing 0 in = 0 in", "nothing 0″ = 0″"},
	} {
		if got := c.w.String(); got != c.ascii {
			t.Errorf("%q; want %q", got, c.ascii)
		}
		if got := string(c.w.AppendLine([]byte("1. "), true)); got != "1. "+c.typo {
			t.Errorf("%q; want %q", got, "1. "+c.typo)
		}
		if wrong := addUp(c.w); wrong != "" {
			t.Errorf("%v: %s", c.w, wrong)
		}
		for _, typographic := range []bool{false, true} {
			if wrong := printed(c.w, typographic); wrong != "" {
				t.Errorf("%v: %s", c.w, wrong)
			}
		}
	}
}

// A share just below a half must not become a half by being rounded twice.
func TestSharesAreRoundedOnce(t *testing.T) {
	two, err := units.NewRuler(2, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range append(manyRulers(t), two) {
		for _, n := range []int{1, 2, 3, 7, 64} {
			for _, off := range []units.Length{-1, 0, 1} {
				for _, sign := range []int{1, -1} {
					for _, d := range directions {
						// About n times half a step.
						total := (r.Step()*units.Length(n)+off)/2 + off
						w := new(units.Ledger).Share("share", n, r, d, units.N(sign, "total", total))
						if wrong := addUp(w); wrong != "" {
							t.Errorf("%v of %d nm on %d nm: %s", w, total, r.Step(), wrong)
						}
					}
				}
			}
		}
	}
}

func TestLedgerKeepsWorkingsApart(t *testing.T) {
	var g units.Ledger
	var all []units.Working
	for i := range 200 {
		terms := make([]units.Term, i%9)
		for j := range terms {
			terms[j] = units.N(j+1, "term", units.Length(i)*mm)
		}
		all = append(all, g.Sum("sum", units.WholeMillimetres, units.Up, terms...))
		for j := range terms {
			terms[j] = units.T("spoilt", 1) // the ledger has its own copy
		}
	}
	for i, w := range all {
		j := 0
		for term := range w.Terms() {
			if want := units.N(j+1, "term", units.Length(i)*mm); term != want {
				t.Fatalf("term %d of sum %d is %v; want %v", j, i, term, want)
			}
			j++
		}
		if j != i%9 || addUp(w) != "" {
			t.Fatalf("sum %d has %d terms: %s", i, j, addUp(w))
		}
	}
}

func TestWorkingEqual(t *testing.T) {
	make := func(label string, n int, r units.Ruler, d units.Direction, terms ...units.Term) units.Working {
		return new(units.Ledger).Share(label, n, r, d, terms...)
	}
	a := make("a", 2, units.Eighths, units.Up, units.T("x", in), units.T("y", mm))
	if !a.Equal(make("a", 2, units.Eighths, units.Up, units.T("x", in), units.T("y", mm))) {
		t.Error("equal workings differ")
	}
	for i, b := range []units.Working{
		make("b", 2, units.Eighths, units.Up, units.T("x", in), units.T("y", mm)),
		make("a", 3, units.Eighths, units.Up, units.T("x", in), units.T("y", mm)),
		make("a", 2, units.Sixteenths, units.Up, units.T("x", in), units.T("y", mm)),
		make("a", 2, units.Eighths, units.Down, units.T("x", in), units.T("y", mm)),
		make("a", 2, units.Eighths, units.Up, units.T("y", mm), units.T("x", in)),
		make("a", 2, units.Eighths, units.Up, units.T("x", in+mm)),
		make("a", 2, units.Eighths, units.Up, units.T("x", in), units.T("z", mm)),
		{},
	} {
		if a.Equal(b) {
			t.Errorf("%d: %v equals %v", i, a, b)
		}
	}
	var zero units.Working
	if zero.Length() != 0 || zero.Shares() != 1 || zero.Total() != 0 || !zero.Equal(units.Working{}) || zero.String() == "" {
		t.Errorf("the zero working: %v", zero)
	}
	for range a.Terms() {
		break // a loop may end early
	}
}

func TestWorkingOfAbsurdTerms(t *testing.T) {
	for _, n := range []int{math.MinInt, -1, 0, 1, math.MaxInt} {
		for _, l := range interesting {
			for _, r := range append(manyRulers(t), -1) {
				w := new(units.Ledger).Share("absurd", n, r, units.Up, units.N(n, "term", units.Length(l)), units.T("", units.Length(l)))
				if w.String() == "" || w.Shares() < 1 {
					t.Fatal("no line")
				}
			}
		}
	}
}

func TestNotationMarksWhatItRounds(t *testing.T) {
	for n := units.MetricDecimal; n <= units.InchDecimal+1; n++ {
		for _, i := range interesting {
			l := units.Length(i)
			for _, typographic := range []bool{false, true} {
				text := string(n.Append(nil, l, typographic))
				plain, marked := strings.CutPrefix(strings.TrimPrefix(text, "≈"), "~")
				marked = marked || plain != text
				back, err := units.Parse(plain)
				switch {
				case err != nil:
					t.Errorf("%d in notation %d is %q: %v", l, n, text, err)
				case !marked && back != l:
					t.Errorf("%d in notation %d is %q without a mark, read back as %d", l, n, text, back)
				case marked && (n == units.MetricDecimal || 2*(back-l).Abs() > units.Thou/10):
					t.Errorf("%d in notation %d is %q, off by %d", l, n, text, back-l)
				}
			}
			if n.Text(l) != string(n.Append(nil, l, false)) {
				t.Errorf("Text and Append of %d disagree", l)
			}
		}
	}
	for want, l := range map[string]units.Length{"3/64 in": 3 * in / 64, "0.001 in": units.Thou, "~0.0394 in": mm} {
		if got := units.InchFraction.Text(l); got != want {
			t.Errorf("%q; want %q", got, want)
		}
	}
}

// A sum that does not fit becomes the end of the range on its side, whatever the
// terms do on the way; one that fits is exact though its terms run over.
func TestTotalsOfAnySize(t *testing.T) {
	lengths := []int64{math.MaxInt64, math.MinInt64, math.MinInt64 + 1, 1, -1, 0, 1 << 40}
	counts := []int{0, 1, -1, 2, math.MaxInt, math.MinInt}
	for _, a := range lengths {
		for _, m := range counts {
			for _, b := range lengths {
				for _, n := range counts {
					w := units.Sum("sum", 0, units.Nearest, units.N(m, "a", units.Length(a)), units.N(n, "b", units.Length(b)))
					want := new(big.Int).Mul(big.NewInt(a), big.NewInt(int64(m)))
					want.Add(want, new(big.Int).Mul(big.NewInt(b), big.NewInt(int64(n))))
					if want.BitLen() > 126 { // the sum of two such products may not fit 128 bits
						continue
					}
					switch {
					case want.Cmp(big.NewInt(math.MaxInt64)) > 0:
						want.SetInt64(math.MaxInt64)
					case want.Cmp(big.NewInt(math.MinInt64)) < 0:
						want.SetInt64(math.MinInt64 + 1)
					}
					if int64(w.Total()) != want.Int64() {
						t.Fatalf("%d x %d + %d x %d = %d; want %v", m, a, n, b, int64(w.Total()), want)
					}
				}
			}
		}
	}
}
