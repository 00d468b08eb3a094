package money_test

import (
	"errors"
	"math"
	"math/big"
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
		{"12.5", 0, money.ErrText}, {"12.505", 0, money.ErrText}, {"", 0, money.ErrText}, {".50", 0, money.ErrText},
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
	for _, text := range []string{"", "12.50", "12.50 usd", "12.123456 USD", "USD", " USD", "1,5 USD", "0.0", "12. USD", ".5 USD", "1.2.3 USD", "3 $US"} {
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
