package money

import (
	"errors"
	"math"
	"math/bits"
	"strconv"

	"boardwrap.example/units"
)

// A Currency is a code of three capital letters and the number of decimals of
// its minor unit, both as in ISO 4217: USD has 2, JPY none, KWD 3. The zero
// Currency stands for none, and only for amounts of nothing.
type Currency struct {
	// Code is three capital letters.
	Code string
	// Decimals is that of the minor unit, from 0 to 4.
	Decimals uint8
}

// CurrencyOf returns a currency by its code and whether it is among those that
// are known here; any other can be written down. The codes and decimals are
// those of ISO 4217, from memory.
func CurrencyOf(code string) (Currency, bool) {
	switch code {
	case "AUD", "BRL", "CAD", "CHF", "CNY", "CZK", "DKK", "EUR", "GBP", "HKD", "INR", "MXN",
		"NOK", "NZD", "PLN", "SEK", "SGD", "TRY", "USD", "ZAR":
		return Currency{code, 2}, true
	case "JPY", "KRW", "ISK":
		return Currency{code, 0}, true
	case "BHD", "JOD", "KWD", "TND":
		return Currency{code, 3}, true
	}
	return Currency{}, false
}

// Valid reports whether the code is three capital letters and the decimals are
// at most 4, which is the most in ISO 4217.
func (c Currency) Valid() bool {
	if len(c.Code) != 3 || c.Decimals > 4 {
		return false
	}
	for _, r := range []byte(c.Code) {
		if r < 'A' || r > 'Z' {
			return false
		}
	}
	return true
}

// An Amount is so many whole minor units of a currency (cents). It is
// comparable. Nothing of no currency, the zero Amount, can be added to any.
type Amount struct {
	// Minor is how many minor units; below 0 for what is owed.
	Minor int64
	// Currency is what it is an amount of, the zero Currency only where Minor
	// is 0.
	Currency Currency
}

// Errors of money, matched with errors.Is.
var (
	// ErrCurrency is returned where amounts of two currencies meet.
	ErrCurrency = errors.New("money: two currencies")
	// ErrRange is returned for an amount that int64 minor units cannot
	// hold.
	ErrRange = errors.New("money: amount out of range")
	// ErrText is returned for a text that is no amount.
	ErrText = errors.New("money: not an amount such as 12.50 USD")
	// ErrThousands is returned for a text such as 1,234, which is either of two amounts.
	ErrThousands = errors.New("money: three figures after one comma or point may be thousands or decimals; 1234.00 and 1.23 are clear")
	// ErrSign is returned for a sign that several currencies share, where nothing
	// says which one is meant.
	ErrSign = errors.New("money: several currencies have that sign; a code such as USD says which")
)

// Of returns an amount of whole and minor units: in USD Of(12, 50) is 12.50
// USD, Of(-1, 25) is -1.25 USD. The minor part must be from 0 to below one
// whole.
func (c Currency) Of(whole, minor int64) (Amount, error) {
	one := pow10(c.Decimals)
	if !c.Valid() {
		return Amount{}, ErrCurrency
	}
	if minor < 0 || minor >= one {
		return Amount{}, ErrRange
	}
	hi, lo := bits.Mul64(magnitude(whole), uint64(one))
	lo, carry := bits.Add64(lo, uint64(minor), 0)
	if hi+carry != 0 || lo > math.MaxInt64 {
		return Amount{}, ErrRange
	}
	m := Amount{int64(lo), c}
	if whole < 0 {
		m.Minor = -m.Minor
	}
	return m, nil
}

func pow10(n uint8) int64 {
	p := int64(1)
	for ; n > 0 && p < 1_000_000_000_000; n-- {
		p *= 10
	}
	return p
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// join returns the currency of either of two amounts that meet.
func (m Amount) join(n Amount) (Currency, error) {
	switch {
	case m.Currency == n.Currency, n == Amount{}:
		return m.Currency, nil
	case m == Amount{}:
		return n.Currency, nil
	}
	return Currency{}, ErrCurrency
}

// Plus returns m + n. The error is ErrCurrency or ErrRange.
func (m Amount) Plus(n Amount) (Amount, error) {
	c, err := m.join(n)
	if err != nil {
		return Amount{}, err
	}
	sum := m.Minor + n.Minor
	if (m.Minor > 0 && n.Minor > 0 && sum <= 0) || (m.Minor < 0 && n.Minor < 0 && sum >= 0) {
		return Amount{}, ErrRange
	}
	return Amount{sum, c}, nil
}

// Minus returns m − n. The error is ErrCurrency or ErrRange.
func (m Amount) Minus(n Amount) (Amount, error) {
	c, err := m.join(n)
	if err != nil {
		return Amount{}, err
	}
	d := m.Minor - n.Minor
	if (m.Minor >= 0) != (n.Minor >= 0) && (d >= 0) != (m.Minor >= 0) {
		return Amount{}, ErrRange
	}
	return Amount{d, c}, nil
}

// Scale returns m·num/den, rounded to a minor unit in the given direction, the
// product held in 128 bits. The error is ErrRange, also for a den of 0.
func (m Amount) Scale(num, den int64, d units.Direction) (Amount, error) {
	minor, err := mulDiv(m.Minor, num, den, d)
	if err != nil {
		return Amount{}, err
	}
	return Amount{minor, m.Currency}, nil
}

// Times returns n·m. The error is ErrRange.
func (m Amount) Times(n int64) (Amount, error) { return m.Scale(n, 1, units.Down) }

func mulDiv(a, num, den int64, d units.Direction) (int64, error) {
	negative := (a < 0) != (num < 0) != (den < 0)
	hi, lo := bits.Mul64(magnitude(a), magnitude(num))
	b := magnitude(den)
	if hi >= b {
		return 0, ErrRange
	}
	quo, rem := bits.Div64(hi, lo, b)
	if rem != 0 {
		up := rem >= b-rem // halves away from zero
		switch d {
		case units.Up:
			up = !negative
		case units.Down:
			up = negative
		}
		if up && quo == math.MaxUint64 {
			return 0, ErrRange
		}
		if up {
			quo++
		}
	}
	if negative && quo <= 1<<63 {
		return -int64(quo), nil
	}
	if quo > math.MaxInt64 {
		return 0, ErrRange
	}
	return int64(quo), nil
}

// Share returns m·part/whole rounded down to a minor unit, exactly, by long
// division bit by bit, for m not negative and 0 ≤ part ≤ whole; a share of
// nothing, and one that is outside of these bounds, is nothing.
func (m Amount) Share(part, whole units.Area) Amount {
	if m.Minor < 0 || part.Sign() < 0 || part.Compare(whole) > 0 || whole.Sign() == 0 {
		return Amount{Currency: m.Currency}
	}
	var rest units.Area
	q := int64(0)
	for bit := 62; bit >= 0; bit-- {
		rest = rest.Times(2)
		if m.Minor>>bit&1 != 0 {
			rest = rest.Plus(part)
		}
		q *= 2
		for rest.Compare(whole) >= 0 {
			rest = rest.Minus(whole)
			q++
		}
	}
	return Amount{q, m.Currency}
}

// UpTo returns m rounded up to a multiple of step minor units; a step below 2
// changes nothing. The error is ErrRange.
func (m Amount) UpTo(step int64) (Amount, error) {
	if step < 2 {
		return m, nil
	}
	n, err := mulDiv(m.Minor, 1, step, units.Up)
	if err == nil {
		n, err = mulDiv(n, step, 1, units.Up)
	}
	if err != nil {
		return Amount{}, err
	}
	return Amount{n, m.Currency}, nil
}

// String returns the amount as "12.50 USD", "-0.05 USD", "1200 JPY"; nothing of
// no currency is "0".
func (m Amount) String() string { return string(m.Append(make([]byte, 0, 32))) }

// Append appends the text of [Amount.String].
func (m Amount) Append(dst []byte) []byte {
	if m.Minor < 0 {
		dst = append(dst, '-')
	}
	n, one := magnitude(m.Minor), uint64(pow10(m.Currency.Decimals))
	dst = strconv.AppendUint(dst, n/one, 10)
	if one > 1 {
		dst = append(dst, '.')
		for p, r := one/10, n%one; p > 0; p /= 10 {
			dst = append(dst, byte('0'+r/p%10))
		}
	}
	if m.Currency.Code != "" {
		dst = append(dst, ' ')
		dst = append(dst, m.Currency.Code...)
	}
	return dst
}

// AppendText appends the text of [Amount.String]; it never fails.
func (m Amount) AppendText(dst []byte) ([]byte, error) { return m.Append(dst), nil }

// MarshalText returns the text of [Amount.String]; it never fails.
func (m Amount) MarshalText() ([]byte, error) { return m.Append(nil), nil }
