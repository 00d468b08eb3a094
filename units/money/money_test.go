package money_test

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

func usd(cents int64) money.Amount {
	return money.Amount{Minor: cents, Currency: money.Currency{Code: "USD", Decimals: 2}}
}

func TestText(t *testing.T) {
	usd, ok := money.CurrencyOf("USD")
	jpy, ok2 := money.CurrencyOf("JPY")
	kwd, ok3 := money.CurrencyOf("KWD")
	if _, known := money.CurrencyOf("XXA"); known || !ok || !ok2 || !ok3 {
		t.Fatal("currencies")
	}
	for _, c := range []struct {
		m    money.Amount
		want string
	}{
		{money.Amount{}, "0"},
		{money.Amount{Currency: usd}, "0.00 USD"},
		{money.Amount{Minor: 1250, Currency: usd}, "12.50 USD"},
		{money.Amount{Minor: -5, Currency: usd}, "-0.05 USD"},
		{money.Amount{Minor: 1200, Currency: jpy}, "1200 JPY"},
		{money.Amount{Minor: 1005, Currency: kwd}, "1.005 KWD"},
		{money.Amount{Minor: math.MinInt64, Currency: usd}, "-92233720368547758.08 USD"},
	} {
		if got := c.m.String(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.m, got, c.want)
		}
	}
	for _, c := range []struct {
		text string
		want int64
		err  error
	}{
		{"12.50", 1250, nil}, {"12.50 USD", 1250, nil}, {"12", 1200, nil}, {"-0.05 USD", -5, nil}, {"0", 0, nil},
		{"12.5", 1250, nil}, {"12.505", 0, money.ErrThousands}, {"12.5051", 0, money.ErrText}, {"", 0, money.ErrText}, {".50", 0, money.ErrText},
		{"12. USD", 0, money.ErrText}, {"1e3", 0, money.ErrText}, {"12.50 EUR", 0, money.ErrCurrency}, {"--1", 0, money.ErrText},
		{"99999999999999999999", 0, money.ErrRange}, {"92233720368547758.07", math.MaxInt64, nil}, {"92233720368547758.08", 0, money.ErrRange},
		// 2 to the 65th is a multiple of what 64 bits hold.
		{"368934881474191032.32", 0, money.ErrRange},
	} {
		got, err := money.Parse(c.text, usd)
		if !errors.Is(err, c.err) || got.Minor != c.want {
			t.Errorf("%q: %v, %v; want %d, %v", c.text, got, err, c.want, c.err)
		}
	}
	if m, err := usd.Of(-1, 25); err != nil || m.Minor != -125 {
		t.Errorf("Of: %v, %v", m, err)
	}
	if _, err := usd.Of(1, 100); !errors.Is(err, money.ErrRange) {
		t.Errorf("Of with 100 cents: %v", err)
	}
	if _, err := usd.Of(math.MaxInt64, 0); !errors.Is(err, money.ErrRange) {
		t.Errorf("Of too much: %v", err)
	}
}

// What people write: the marks are those of Unicode CLDR's number patterns of English,
// German, French and Swiss German, the signs those of Unicode's block of currency
// symbols, both from memory.
func TestWritten(t *testing.T) {
	eur, _ := money.CurrencyOf("EUR")
	for text, cents := range map[string]int64{
		"4.50": 450, "4,50": 450, "4,5": 450, "4": 400, "4,50 €": 450, "4,50€": 450, "€4.50": 450, "€ 4,50": 450, "EUR 4.50": 450, "eur 4,50": 450,
		"4,50\u00a0€": 450, "-4,50 €": -450, "−4,50 €": -450, "€ -4,50": -450, "-€4.50": -450, "  4.50 EUR ": 450, "€4.50 EUR": 450,
		"1,234.50 €": 123450, "1.234,50 €": 123450, "1 234,50 €": 123450, "1\u202f234,50 €": 123450, "1'234.50 EUR": 123450, "1’234.50 EUR": 123450,
		"1,234,567 €": 123456700, "1.234.567,8 €": 123456780, "1 234 €": 123400, "12 345 678": 1234567800, "1234": 123400, "0,05": 5, "1234,5": 123450,
	} {
		got, err := money.Parse(text, eur)
		if err != nil || got.Minor != cents || got.Currency != eur {
			t.Errorf("%q: %v, %v; want %d cents", text, got, err, cents)
		}
		var read money.Amount
		if err := read.UnmarshalText([]byte(text)); strings.ContainsAny(text, "€Ee") && (err != nil || read != got) {
			t.Errorf("%q in a document: %v, %v", text, read, err)
		}
	}
	for text, want := range map[string]error{
		"1,234": money.ErrThousands, "1.234": money.ErrThousands, "€ 1,234": money.ErrThousands, "12,345 €": money.ErrThousands, "999.999 €": money.ErrThousands,
		"0,123": money.ErrText, "1,2345": money.ErrText, "1,23,456.00": money.ErrText, "1234,567.00": money.ErrText, "1.234.56": money.ErrText, "1,234 567": money.ErrText,
		"1 234'567": money.ErrText, "4 50": money.ErrText, "4..50": money.ErrText, "4.50-": money.ErrText, "- - 4": money.ErrText, "4.50 euros": money.ErrText, "4€50": money.ErrText, "١٢": money.ErrText,
		"$4.50": money.ErrCurrency, "4.50 USD": money.ErrCurrency, "€4.50 USD": money.ErrCurrency,
	} {
		if got, err := money.Parse(text, eur); !errors.Is(err, want) || got != (money.Amount{}) {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	// A sign that several currencies share is that of the one that is said, and of none alone.
	cad, _ := money.CurrencyOf("CAD")
	if got, err := money.Parse("$4.50", cad); err != nil || got != (money.Amount{Minor: 450, Currency: cad}) {
		t.Errorf("in Canada: %v, %v", got, err)
	}
	for text, want := range map[string]error{"$4.50": money.ErrSign, "¥ 1200": money.ErrSign, "120 kr": money.ErrSign, "$4.50 EUR": money.ErrCurrency, "US$ 4.50 CAD": money.ErrCurrency, "4,505 USD": money.ErrThousands, "USD 4.505": money.ErrThousands} {
		m := usd(7)
		if err := m.UnmarshalText([]byte(text)); !errors.Is(err, want) || m != usd(7) {
			t.Errorf("%q in a document: %v, %v; want %v", text, m, err, want)
		}
	}
	for text, want := range map[string]string{"$4.50 CAD": "4.50 CAD", "CAD $4.50": "4.50 CAD", "US$ 4.50": "4.50 USD", "¥1200 JPY": "1200 JPY", "120 kr SEK": "120.00 SEK", "12,50 zł": "12.50 PLN", "£3": "3.00 GBP", "Fr. 2.50": "2.50 CHF"} {
		var m money.Amount
		if err := m.UnmarshalText([]byte(text)); err != nil || m.String() != want {
			t.Errorf("%q in a document: %v, %v; want %s", text, m, err, want)
		}
	}
}

// However an amount is written out, by the marks of any country, it reads back as it
// was or is refused as unclear, which it is where one mark stands before three figures.
func TestWrittenComesBack(t *testing.T) {
	proptest.Run(t, 1000, func(p *gopter.Properties) {
		p.Property("it is read or unclear", prop.ForAll(func(minor int64, decimals uint8, form int) bool {
			c := money.Currency{Code: "ABC", Decimals: decimals}
			m := money.Amount{Minor: minor, Currency: c}
			number := strings.TrimSuffix(m.String(), " ABC")
			whole, decimal, _ := strings.Cut(strings.TrimPrefix(number, "-"), ".")
			marks := [][2]string{{"", "."}, {"", ","}, {",", "."}, {".", ","}, {" ", ","}, {"'", "."}, {"\u202f", ","}}[form]
			text := ""
			for i, r := range whole {
				if i > 0 && (len(whole)-i)%3 == 0 {
					text += marks[0]
				}
				text += string(r)
			}
			parted := len(whole) > 3 && marks[0] != ""
			if decimal != "" {
				text += marks[1] + decimal
			}
			unclear := len(whole) <= 3 && whole[0] != '0' && len(decimal) == 3 && marks[1] == "," ||
				decimal == "" && parted && len(whole) <= 6 && (marks[0] == "," || marks[0] == ".")
			if minor < 0 {
				text = "-" + text
			}
			got, err := money.Parse(text+" ABC", c)
			if unclear {
				return errors.Is(err, money.ErrThousands)
			}
			return err == nil && got == m
		}, gen.OneGenOf(gen.Int64Range(-2_000_000, 2_000_000), gen.Int64Range(-1<<63+1, 1<<63-1)), gen.UInt8Range(0, 4), gen.IntRange(0, 6)))
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"12.50 USD", "-0.05", "", "9", "12.5", "1 000.00", "00.00"} {
		f.Add(s, uint8(2))
	}
	f.Fuzz(func(t *testing.T, s string, decimals uint8) {
		c := money.Currency{Code: "USD", Decimals: decimals}
		m, err := money.Parse(s, c)
		if err != nil {
			return
		}
		back, err := money.Parse(m.String(), c)
		if err != nil || back != m {
			t.Fatalf("%q gives %v, which reads back as %v, %v", s, m, back, err)
		}
	})
}

// Scale against exact rational numbers, with corners of int64.
func TestScale(t *testing.T) {
	values := []int64{0, 1, -1, 2, 3, -7, 100, 999, math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, 1 << 40, -(1 << 62)}
	for _, a := range values {
		for _, num := range values {
			for _, den := range values {
				for _, d := range []units.Direction{units.Up, units.Down, units.Nearest} {
					got, err := usd(a).Scale(num, den, d)
					want, ok := scaled(a, num, den, d)
					if ok != (err == nil) || ok && got != usd(want) {
						t.Errorf("%d x %d / %d %v: %v, %v; want %d, %v", a, num, den, d, got.Minor, err, want, ok)
					}
				}
			}
		}
	}
}

func scaled(a, num, den int64, d units.Direction) (int64, bool) {
	if den == 0 {
		return 0, false
	}
	r := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(a), big.NewInt(num)), big.NewInt(den))
	floor := new(big.Int).Div(r.Num(), r.Denom()) // Euclidean: denominators are positive
	q := new(big.Int).Set(floor)
	frac := new(big.Rat).Sub(r, new(big.Rat).SetInt(floor))
	half := big.NewRat(1, 2)
	switch {
	case frac.Sign() == 0:
	case d == units.Up, d == units.Nearest && (frac.Cmp(half) > 0 || frac.Cmp(half) == 0 && r.Sign() > 0):
		q.Add(q, big.NewInt(1))
	}
	return q.Int64(), q.IsInt64()
}

func TestSums(t *testing.T) {
	eur := money.Amount{Minor: 1, Currency: money.Currency{Code: "EUR", Decimals: 2}}
	if _, err := usd(1).Plus(eur); !errors.Is(err, money.ErrCurrency) {
		t.Error("dollars and euros add up")
	}
	if m, err := (money.Amount{}).Plus(eur); err != nil || m != eur {
		t.Error("nothing and a euro")
	}
	if _, err := usd(math.MaxInt64).Plus(usd(1)); !errors.Is(err, money.ErrRange) {
		t.Error("sum wraps")
	}
	if _, err := usd(math.MinInt64).Minus(usd(1)); !errors.Is(err, money.ErrRange) {
		t.Error("difference wraps")
	}
	if _, err := usd(0).Minus(usd(math.MinInt64)); !errors.Is(err, money.ErrRange) {
		t.Error("0 - least wraps")
	}
	if m, err := usd(-1).Minus(usd(math.MinInt64)); err != nil || m.Minor != math.MaxInt64 {
		t.Errorf("-1 - least: %v, %v", m, err)
	}
	if m, err := usd(-125).Times(3); err != nil || m != usd(-375) {
		t.Errorf("three times -1.25: %v, %v", m, err)
	}
	if m, err := usd(746).UpTo(50); err != nil || m.Minor != 750 {
		t.Errorf("7.46 up on 0.50: %v", m)
	}
	if m, err := usd(-746).UpTo(50); err != nil || m.Minor != -700 {
		t.Errorf("-7.46 up on 0.50: %v", m)
	}
}

func TestProperties(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(1000))
	p.Property("an amount reads back as it was written", prop.ForAll(func(minor int64, decimals uint8) bool {
		c := money.Currency{Code: "ABC", Decimals: decimals}
		m := money.Amount{Minor: minor, Currency: c}
		back, err := money.Parse(m.String(), c)
		return err == nil && back == m
	}, gen.Int64Range(-1<<63+1, 1<<63-1), gen.UInt8Range(0, 4)))
	p.Property("an amount marshals and comes back", prop.ForAll(func(minor int64, decimals uint8) bool {
		m := money.Amount{Minor: minor, Currency: money.Currency{Code: "ABC", Decimals: decimals}}
		text, err := m.MarshalText()
		var back money.Amount
		return err == nil && string(text) == m.String() && back.UnmarshalText(text) == nil && back == m
	}, gen.Int64Range(-1<<63+1, 1<<63-1), gen.UInt8Range(0, 4)))
	p.Property("a share is the exact share, rounded down", prop.ForAll(func(minor, part, whole int64) bool {
		if part > whole {
			part, whole = whole, part
		}
		area := func(n int64) units.Area { return units.Nanometre.By(units.Nanometre).Times(n) }
		got := usd(minor).Share(area(part), area(whole))
		want := new(big.Int).Mul(big.NewInt(minor), big.NewInt(part))
		return want.Div(want, big.NewInt(whole)).Int64() == got.Minor && got.Currency == usd(0).Currency
	}, gen.Int64Range(0, 1<<63-1), gen.Int64Range(1, 1<<63-1), gen.Int64Range(1, 1<<63-1)))
	p.TestingRun(t)
}

// What is not the text of an amount is refused, and nothing is written.
func TestUnmarshalText(t *testing.T) {
	for _, text := range []string{"", "12.50", "12.50 usds", "12.123456 USD", "USD", " USD", "1,5,5 USD", "0.0", "12. USD", ".5 USD", "1.2.3 USD", "3 $US"} {
		m := usd(7)
		if err := m.UnmarshalText([]byte(text)); !errors.Is(err, money.ErrText) || m != usd(7) {
			t.Errorf("%q: %v, %v", text, m, err)
		}
	}
	// Without a point it is whole dollars (ISO 4217: two decimals) and whole yen (none),
	// and a tenth of a dollar is ten cents; of what is not in the list nobody knows more
	// than what is written.
	for text, want := range map[string]money.Amount{
		"18 USD": usd(1800), "-3 USD": usd(-300), "18.5 USD": usd(1850), "-0.5 USD": usd(-50), "1.0 KWD": {Minor: 1000, Currency: money.Currency{Code: "KWD", Decimals: 3}},
		"0.125 USD": {Minor: 125, Currency: money.Currency{Code: "USD", Decimals: 3}}, "2.5 XYZ": {Minor: 25, Currency: money.Currency{Code: "XYZ", Decimals: 1}},
		"1200 JPY": {Minor: 1200, Currency: money.Currency{Code: "JPY"}}, "7 XYZ": {Minor: 7, Currency: money.Currency{Code: "XYZ"}},
	} {
		var m money.Amount
		if err := m.UnmarshalText([]byte(text)); err != nil || m != want {
			t.Errorf("%q: %v, %v; want %v", text, m, err, want)
		}
	}
	m := usd(7)
	if err := m.UnmarshalText([]byte("0")); err != nil || m != (money.Amount{}) {
		t.Errorf("0: %v, %v", m, err)
	}
}

func TestCheck(t *testing.T) {
	eur := money.Currency{Code: "EUR", Decimals: 2}
	for _, c := range []struct {
		amounts []money.Amount
		path    string
		code    check.Code
	}{
		{[]money.Amount{{}, usd(0), usd(money.Most)}, "", ""},
		{[]money.Amount{usd(-1)}, "p", check.Negative},
		{[]money.Amount{usd(money.Most + 1)}, "p", check.OutOfRange},
		{[]money.Amount{usd(math.MaxInt64)}, "p", check.OutOfRange},
		{[]money.Amount{{Minor: 1}}, "p.currency", check.Unknown},
		{[]money.Amount{{Minor: money.Most + 1}}, "p.minor", check.OutOfRange},
		{[]money.Amount{usd(1), {Minor: 1, Currency: eur}}, "p.currency", check.Conflict},
		{[]money.Amount{{Minor: 1, Currency: money.Currency{Code: "USD", Decimals: 5}}, {Minor: 1, Currency: eur}}, "p.currency", check.Unknown},
	} {
		var bad check.List
		var common money.Currency
		right := true
		for _, m := range c.amounts {
			right = money.Check(&bad, "p", m, &common) && right
		}
		var e *check.Error
		if errors.As(bad.Err(), &e) == right || right != (c.code == "") {
			t.Errorf("%v: %v", c.amounts, bad.Err())
			continue
		}
		if e != nil {
			n := 1
			if c.path == "p.minor" { // its currency is none, too
				n = 2
			}
			if _, ok := e.Find(c.path, c.code); !ok || e.Len() != n {
				t.Errorf("%v: %v", c.amounts, e)
			}
		}
	}
}
