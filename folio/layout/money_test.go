package layout_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
)

func money(cents int64) layout.Money {
	return layout.Money{Minor: cents, Currency: layout.Currency{Code: "USD", Decimals: 2}}
}

func TestMoneyText(t *testing.T) {
	usd, ok := layout.CurrencyOf("USD")
	jpy, ok2 := layout.CurrencyOf("JPY")
	kwd, ok3 := layout.CurrencyOf("KWD")
	if _, known := layout.CurrencyOf("XXA"); known || !ok || !ok2 || !ok3 {
		t.Fatal("currencies")
	}
	for _, c := range []struct {
		m    layout.Money
		want string
	}{
		{layout.Money{}, "0"},
		{layout.Money{Currency: usd}, "0.00 USD"},
		{layout.Money{Minor: 1250, Currency: usd}, "12.50 USD"},
		{layout.Money{Minor: -5, Currency: usd}, "-0.05 USD"},
		{layout.Money{Minor: 1200, Currency: jpy}, "1200 JPY"},
		{layout.Money{Minor: 1005, Currency: kwd}, "1.005 KWD"},
		{layout.Money{Minor: math.MinInt64, Currency: usd}, "-92233720368547758.08 USD"},
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
		{"12.5", 0, layout.ErrMoneyText}, {"12.505", 0, layout.ErrMoneyText}, {"", 0, layout.ErrMoneyText}, {".50", 0, layout.ErrMoneyText},
		{"12. USD", 0, layout.ErrMoneyText}, {"1e3", 0, layout.ErrMoneyText}, {"12.50 EUR", 0, layout.ErrCurrency}, {"--1", 0, layout.ErrMoneyText},
		{"99999999999999999999", 0, layout.ErrMoneyRange}, {"92233720368547758.07", math.MaxInt64, nil}, {"92233720368547758.08", 0, layout.ErrMoneyRange},
	} {
		got, err := layout.ParseMoney(c.text, usd)
		if !errors.Is(err, c.err) || got.Minor != c.want {
			t.Errorf("%q: %v, %v; want %d, %v", c.text, got, err, c.want, c.err)
		}
	}
	if m, err := usd.Of(-1, 25); err != nil || m.Minor != -125 {
		t.Errorf("Of: %v, %v", m, err)
	}
	if _, err := usd.Of(1, 100); !errors.Is(err, layout.ErrMoneyRange) {
		t.Errorf("Of with 100 cents: %v", err)
	}
	if _, err := usd.Of(math.MaxInt64, 0); !errors.Is(err, layout.ErrMoneyRange) {
		t.Errorf("Of too much: %v", err)
	}
}

func FuzzParseMoney(f *testing.F) {
	for _, s := range []string{"12.50 USD", "-0.05", "", "9", "12.5", "1 000.00", "00.00"} {
		f.Add(s, uint8(2))
	}
	f.Fuzz(func(t *testing.T, s string, decimals uint8) {
		c := layout.Currency{Code: "USD", Decimals: decimals}
		m, err := layout.ParseMoney(s, c)
		if err != nil {
			return
		}
		back, err := layout.ParseMoney(m.String(), c)
		if err != nil || back != m {
			t.Fatalf("%q gives %v, which reads back as %v, %v", s, m, back, err)
		}
	})
}

// Scale against exact rational numbers, with corners of int64.
func TestMoneyScale(t *testing.T) {
	values := []int64{0, 1, -1, 2, 3, -7, 100, 999, math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, 1 << 40, -(1 << 62)}
	for _, a := range values {
		for _, num := range values {
			for _, den := range values {
				for _, d := range []units.Direction{units.Up, units.Down, units.Nearest} {
					got, err := money(a).Scale(num, den, d)
					want, ok := scaled(a, num, den, d)
					if ok != (err == nil) || ok && got != money(want) {
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

func TestMoneySums(t *testing.T) {
	eur := layout.Money{Minor: 1, Currency: layout.Currency{Code: "EUR", Decimals: 2}}
	if _, err := money(1).Plus(eur); !errors.Is(err, layout.ErrCurrency) {
		t.Error("dollars and euros add up")
	}
	if m, err := (layout.Money{}).Plus(eur); err != nil || m != eur {
		t.Error("nothing and a euro")
	}
	if _, err := money(math.MaxInt64).Plus(money(1)); !errors.Is(err, layout.ErrMoneyRange) {
		t.Error("sum wraps")
	}
	if _, err := money(math.MinInt64).Minus(money(1)); !errors.Is(err, layout.ErrMoneyRange) {
		t.Error("difference wraps")
	}
	if _, err := money(0).Minus(money(math.MinInt64)); !errors.Is(err, layout.ErrMoneyRange) {
		t.Error("0 - least wraps")
	}
	if m, err := money(-1).Minus(money(math.MinInt64)); err != nil || m.Minor != math.MaxInt64 {
		t.Errorf("-1 - least: %v, %v", m, err)
	}
	if m, err := money(746).UpTo(50); err != nil || m.Minor != 750 {
		t.Errorf("7.46 up on 0.50: %v", m)
	}
	if m, err := money(-746).UpTo(50); err != nil || m.Minor != -700 {
		t.Errorf("-7.46 up on 0.50: %v", m)
	}
}
