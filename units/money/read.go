package money

import (
	"math"
	"math/bits"
	"strings"
)

// A comma is the decimal mark of one half of the world and parts the thousands in the
// other, as the point does: what could be either is refused, and nothing is guessed
// from where somebody seems to live.

// signs are those that stand for currencies of [CurrencyOf], with the codes of these;
// from memory.
var signs = [...]struct{ sign, codes string }{
	{"€", "EUR"}, {"£", "GBP"}, {"₹", "INR"}, {"₺", "TRY"}, {"₩", "KRW"}, {"¥", "JPYCNY"},
	{"$", "USDAUDCADHKDMXNNZDSGD"}, {"US$", "USD"}, {"R$", "BRL"}, {"R", "ZAR"},
	{"kr", "DKKISKNOKSEK"}, {"kr.", "DKKISKNOKSEK"}, {"Fr.", "CHF"}, {"zł", "PLN"}, {"Kč", "CZK"},
}

// UnmarshalText reads what [Amount.MarshalText] writes, and what else [Parse] reads
// with a code or a sign that says which currency it is; "0" is the zero Amount. A
// currency has at least the decimals that [CurrencyOf] knows of it, so that "18 USD"
// and "18.0 USD" are "18.00 USD". In the form of MarshalText a point is always that of
// decimals, and further ones belong to the currency, as all do of one that is not
// known. The error is ErrText, ErrThousands, ErrSign, ErrCurrency or ErrRange.
func (m *Amount) UnmarshalText(text []byte) error {
	s := string(text)
	if s == "0" {
		*m = Amount{}
		return nil
	}
	w, code, err := split(s, "")
	if err != nil {
		return err
	}
	own := w.own(code)
	whole, decimals, err := w.number(own)
	if err != nil {
		return err
	}
	c, known := CurrencyOf(code)
	c.Code = code
	if own || !known {
		c.Decimals = max(c.Decimals, uint8(min(len(decimals), 255)))
	}
	if !c.Valid() {
		return ErrText
	}
	read, err := w.amount(whole, decimals, c)
	if err == nil {
		*m = read
	}
	return err
}

// Parse reads an amount of a currency as [Amount.String] writes it, and as people do:
// "4.50", "4,50", "4.5", "1,234.50", "1.234,50", "1 234" or "1'234", with the code of
// the currency or its sign before or after it, or both, or neither: "€ 4,50", "$4.50
// USD". A minus stands before the number or all of it. Decimals are as many as the
// currency has or fewer: digits are never lost. What may be thousands or decimals, as
// "1,234", is refused; a point before the three decimals of a currency that has three
// is what String writes. The error is ErrText, ErrThousands, ErrCurrency or ErrRange.
func Parse(text string, c Currency) (Amount, error) {
	if !c.Valid() {
		return Amount{}, ErrCurrency
	}
	w, _, err := split(text, c.Code)
	if err != nil {
		return Amount{}, err
	}
	whole, decimals, err := w.number(c.Decimals == 3 && w.own(c.Code))
	if err != nil {
		return Amount{}, err
	}
	return w.amount(whole, decimals, c)
}

// written is an amount as somebody wrote it.
type written struct {
	text     string
	figures  string // from the first digit to the last
	negative bool
}

// split takes a text apart, and returns the code of its currency, which is the given
// one if that is not empty.
func split(text, code string) (w written, _ string, err error) {
	first, last := len(text), 0
	for i, r := range []byte(text) {
		if '0' <= r && r <= '9' {
			first, last = min(first, i), i
		}
	}
	if first == len(text) {
		return w, "", ErrText
	}
	w.text, w.figures = text, text[first:last+1]
	before := strings.TrimSpace(text[:first])
	for _, minus := range [...]string{"-", "−"} {
		rest, leading := strings.CutPrefix(before, minus)
		if !leading {
			rest, leading = strings.CutSuffix(before, minus)
		}
		if leading {
			before, w.negative = strings.TrimSpace(rest), true
			break
		}
	}
	for _, name := range strings.Fields(before + " " + text[last+1:]) {
		codes := codesOf(name)
		if codes == "" {
			return w, "", ErrText
		}
		if code != "" {
			if codes = common(code, codes); codes == "" {
				return w, "", ErrCurrency
			}
		}
		code = codes
	}
	switch len(code) {
	case 0:
		return w, "", ErrText
	case 3:
		return w, code, nil
	}
	return w, "", ErrSign
}

// codesOf returns the codes that a code or a sign may stand for, one after the other.
func codesOf(name string) string {
	for _, s := range signs {
		if s.sign == name {
			return s.codes
		}
	}
	if len(name) != 3 {
		return ""
	}
	code := []byte(name)
	for i, r := range code {
		if 'a' <= r && r <= 'z' {
			code[i] = r - 'a' + 'A'
		}
	}
	if c := (Currency{Code: string(code)}); c.Valid() {
		return c.Code
	}
	return ""
}

// common returns those of some codes that are among others.
func common(codes, others string) string {
	both := ""
	for ; len(codes) > 0; codes = codes[3:] {
		for i := 0; i < len(others); i += 3 {
			if others[i:i+3] == codes[:3] {
				both += codes[:3]
			}
		}
	}
	return both
}

// own reports whether it is written as [Amount.String] does, but for how many decimals
// there are, with the code or without.
func (w written) own(code string) bool {
	return strings.TrimSuffix(strings.TrimPrefix(w.text, "-"), " "+code) == w.figures
}

// plain returns the one of several spaces and apostrophes that is meant.
func plain(r rune) rune {
	switch r {
	case '\u00a0', '\u2009', '\u202f':
		return ' '
	case '’':
		return '\''
	}
	return r
}

// number returns the digits before and after the decimal mark; pointed says that a
// point is one.
func (w written) number(pointed bool) (whole, decimals string, err error) {
	const parting = ".,' "
	whole = strings.Map(plain, w.figures)
	if i := max(strings.LastIndexByte(whole, '.'), strings.LastIndexByte(whole, ',')); i >= 0 && strings.Count(whole, whole[i:i+1]) == 1 {
		several := strings.ContainsAny(whole[:i], parting)
		if len(whole)-i-1 == 3 && i <= 3 && whole[0] != '0' && !several && !(pointed && whole[i] == '.') {
			return "", "", ErrThousands
		}
		whole, decimals = whole[:i], whole[i+1:]
	}
	if i := strings.IndexAny(whole, parting); i >= 0 {
		mark := whole[i : i+1]
		for n, part := range strings.Split(whole, mark) {
			if len(part) != 3 && (n > 0 || len(part) > 3) {
				return "", "", ErrText
			}
		}
		whole = strings.ReplaceAll(whole, mark, "")
	}
	return whole, decimals, nil
}

func (w written) amount(whole, decimals string, c Currency) (Amount, error) {
	if len(decimals) > int(c.Decimals) {
		return Amount{}, ErrText
	}
	n := uint64(0)
	for _, r := range []byte(whole + decimals + "0000"[:int(c.Decimals)-len(decimals)]) {
		if r < '0' || r > '9' {
			return Amount{}, ErrText
		}
		hi, lo := bits.Mul64(n, 10)
		lo, carry := bits.Add64(lo, uint64(r-'0'), 0)
		if hi+carry != 0 || lo > math.MaxInt64 {
			return Amount{}, ErrRange
		}
		n = lo
	}
	m := Amount{int64(n), c}
	if w.negative {
		m.Minor = -m.Minor
	}
	return m, nil
}
