package cost

import (
	"strconv"

	"boardwrap.example/folio/layout"
	"boardwrap.example/internal/word"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// SheetRule says what of a sheet is paid for.
type SheetRule uint8

// Sheet rules.
const (
	// WholeSheets charges every sheet that is used whole: an offcut that is
	// kept is a gift to the next job.
	WholeSheets SheetRule = iota
	// LessOffcuts charges a sheet less the share, by area, of its offcuts that
	// are worth keeping. Waste is paid for.
	LessOffcuts
)

var sheetRules = word.List{What: "sheet rule", Words: []string{WholeSheets: "whole sheets", LessOffcuts: "less offcuts"}}

// String returns "whole sheets" or "less offcuts".
func (r SheetRule) String() string { return sheetRules.String(uint8(r)) }

// AppendText appends the text of [SheetRule.String]. The error matches
// units.ErrUnknown.
func (r SheetRule) AppendText(dst []byte) ([]byte, error) { return sheetRules.Append(dst, uint8(r)) }

// MarshalText returns the text of [SheetRule.String], with the error of
// [SheetRule.AppendText].
func (r SheetRule) MarshalText() ([]byte, error) { return sheetRules.Marshal(uint8(r)) }

// UnmarshalText reads what [SheetRule.String] writes. The error matches
// units.ErrSyntax.
func (r *SheetRule) UnmarshalText(text []byte) error { return word.Unmarshal(sheetRules, r, text) }

// A Basis is what a layout does not know and costs rest on. Amounts must be in one currency,
// that of the sheets' prices. Lists with one entry for each folio follow the
// order of Job.Folios; a list of one entry goes for all of them, an empty one
// stands for zero.
type Basis struct {
	// Sheets says what of a sheet is paid for.
	Sheets SheetRule
	// Supplies are adhesive, ribbon and whatever else is used up.
	Supplies []Supply
	// Minutes of work on one folio; 0 is none.
	Minutes []int
	// Rate is what an hour of work costs; 0 leaves work out.
	Rate money.Amount
	// Fee is paid once for the batch, as for a booth, and spread over all
	// folios alike; 0 is none.
	Fee money.Amount
	// Margin is what is wanted of the price, in hundredths of a per cent: 4000
	// is 40 % of the price, so that the price is cost ÷ 0.6. From 0 to 9999.
	Margin int
	// RoundTo rounds prices up to a multiple of so many minor units; 0 and 1
	// round to whole ones.
	RoundTo int64
	// Prices are asked for the folios, in place of those from Margin; zero leaves
	// a folio to Margin.
	Prices []money.Amount
}

// A Supply is something used up that is no sheet: glue by weight, tape by
// length.
type Supply struct {
	// Name tells it apart in print.
	Name string
	// Price is that of one pack; 0 is one that costs nothing.
	Price money.Amount
	// Contents is how much is in a pack, in whole numbers of any measure; above
	// 0.
	Contents int64
	// Measure names that measure in print.
	Measure string
	// Amounts is how much one folio takes, in the same measure; 0 is none.
	Amounts []int64
}

// Limits of a Basis.
const (
	mostSupplies = 1000
	mostAmount   = 1_000_000_000_000
	mostMinutes  = 1_000_000
)

// check adds what is wrong with the basis for so many folios, whose sheets have
// prices in the common currency.
func (c Basis) check(bad *check.List, folios int, common money.Currency) {
	per := func(path string, n int) {
		if n > 1 && n != folios {
			bad.Malformed(path, check.OutOfRange, number(int64(n))+" entries", "none, one, or one for each of the "+number(int64(folios))+" folios")
		}
	}
	if c.Sheets > LessOffcuts {
		bad.Malformed("sheets", check.Unknown, number(int64(c.Sheets)), sheetRules.Want())
	}
	if len(c.Supplies) > mostSupplies {
		bad.Malformed("supplies", check.TooMany, number(int64(len(c.Supplies))), "at most "+number(mostSupplies))
		return
	}
	for i, s := range c.Supplies {
		at := check.Index("supplies", i)
		money.Check(bad, at+".price", s.Price, &common)
		amount(bad, at+".contents", s.Contents, 1, mostAmount)
		per(at+".amounts", len(s.Amounts))
		for k, a := range s.Amounts {
			amount(bad, check.Index(at+".amounts", k), a, 0, mostAmount)
		}
	}
	per("minutes", len(c.Minutes))
	for k, m := range c.Minutes {
		amount(bad, check.Index("minutes", k), int64(m), 0, mostMinutes)
	}
	money.Check(bad, "rate", c.Rate, &common)
	money.Check(bad, "fee", c.Fee, &common)
	amount(bad, "margin", int64(c.Margin), 0, 9999)
	amount(bad, "roundto", c.RoundTo, 0, money.Most)
	per("prices", len(c.Prices))
	for k, p := range c.Prices {
		money.Check(bad, check.Index("prices", k), p, &common)
	}
}

// currency is that of the sheets' prices.
func currency(job layout.Job) money.Currency {
	for _, m := range job.Materials {
		for _, k := range m.Sheets {
			if k.Price.Currency != (money.Currency{}) {
				return k.Price.Currency
			}
		}
	}
	return money.Currency{}
}

// amount checks a number that counts something.
func amount(bad *check.List, path string, n, low, high int64) {
	switch {
	case n < 0:
		bad.Malformed(path, check.Negative, number(n), "from "+number(low)+" to "+number(high))
	case n < low || n > high:
		bad.Malformed(path, check.OutOfRange, number(n), "from "+number(low)+" to "+number(high))
	}
}

func number(n int64) string { return strconv.FormatInt(n, 10) }
