// Package money holds amounts of money in whole minor units of a currency.
//
//	usd, _ := money.CurrencyOf("USD")
//	price, err := money.Parse("12.50", usd)
//	three, err := price.Times(3)
//	fmt.Println(three) // 37.50 USD
//
// Amounts are exact. What must be rounded is rounded once, in a direction that
// the caller gives, and what does not fit an int64 is an error. Amounts of two
// currencies do not mix: there are no rates of exchange here.
package money
