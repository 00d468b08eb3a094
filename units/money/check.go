package money

import (
	"strconv"

	"boardwrap.example/units/check"
)

// Most is the greatest amount, in minor units, that [Check] takes, so that sums
// of a hundred thousand of them still fit.
const Most = 1 << 40

// Check adds to a list what is wrong with an amount that somebody gave as a
// price, and reports whether nothing is: it must be from 0 to [Most], in a valid
// currency, and in the common one. While common is the zero Currency, the first
// valid currency that comes along becomes it. The zero Amount is always right. What is
// wrong is said at the path, of its currency at path.currency, and of an amount that
// cannot be written for that, or will have to be in another currency, at path.minor.
func Check(bad *check.List, path string, m Amount, common *Currency) bool {
	before := bad.Len()
	switch {
	case m == Amount{}:
		return true
	case m.Minor < 0:
		bad.Malformed(path, check.Negative, m.String(), "0 or more")
	case m.Minor > Most && (!m.Currency.Valid() || *common != Currency{} && *common != m.Currency): // in that currency it will not stay
		bad.Malformed(path+".minor", check.OutOfRange, strconv.FormatInt(m.Minor, 10), "at most "+strconv.FormatInt(Most, 10))
	case m.Minor > Most:
		bad.Malformed(path, check.OutOfRange, m.String(), "at most "+Amount{Most, m.Currency}.String())
	}
	switch {
	case !m.Currency.Valid():
		bad.Malformed(path+".currency", check.Unknown, m.Currency.describe(), "three capital letters and up to 4 decimals")
	case *common == Currency{}:
		*common = m.Currency
	case *common != m.Currency:
		bad.Malformed(path+".currency", check.Conflict, m.Currency.describe(), "the currency of the other amounts, "+common.describe())
	}
	return bad.Len() == before
}

func (c Currency) describe() string {
	return check.Quote(c.Code) + " with " + strconv.Itoa(int(c.Decimals)) + " decimals"
}
