package guide

import (
	"strconv"

	"boardwrap.example/folio/cost"
)

// PriceList returns what the folios of a batch cost and what to ask for them: a
// price for each on the first page, to lay on the table, and the workings for
// the maker on another.
func PriceList(b *cost.BatchCost, o PrintOptions) *Document {
	d := &Document{title: "Price list", paper: o.Paper, sections: []Section{{Title: "Price list"}}}
	if b == nil {
		d.sections[0].add(Para("There is nothing to price."))
		return d
	}
	prices := Table{Head: []string{"Folio", "Price"}, Figures: 1}
	shares := Table{Head: []string{"Folio", "Copies", "One costs", "Price", "Left over the cost"}, Figures: 4}
	var workings Texts
	for f := range b.Folios() {
		prices.Rows = append(prices.Rows, []string{f.Name(), f.Price().Amount().String()})
		shares.Rows = append(shares.Rows, []string{f.Name(), strconv.Itoa(f.Copies()), f.Each().Amount().String(), f.Price().Amount().String(), percent(f.Margin())})
		for s := range f.Shares() {
			workings = append(workings, f.Name()+": "+s.String())
		}
		workings = append(workings, f.Name()+": "+f.Each().String(), f.Name()+": "+f.Price().String())
	}
	d.sections[0].add(prices)
	charges := Table{Head: []string{"What the batch takes", "Amount"}, Figures: 1}
	var how Texts
	for c := range b.Charges() {
		charges.Rows = append(charges.Rows, []string{c.Label(), c.Amount().String()})
		how = append(how, c.String())
	}
	charges.Rows = append(charges.Rows, []string{"together", b.Total().String()})
	maker := Section{Title: "For the maker", Page: true}
	maker.add(charges, shares)
	if b.Loose().Minor != 0 {
		maker.add(Para("Of this the pieces by hand take " + b.Loose().String() + "."))
	}
	if n, ok := b.BreakEven(); ok && n > 0 { // with 0 there is no fee
		maker.add(Para("The fee has come in when " + count(n, "") + " made and sold."))
	}
	if n, ok := b.Recovers(); ok && n > 0 {
		maker.add(Para("All that the batch costs has come in when " + count(n, " of it") + " sold."))
	}
	d.sections = append(d.sections, maker, Section{Title: "Workings", Blocks: []Element{how, workings}})
	return d
}

// count writes how many of something are there.
func count(n int64, of string) string {
	verb := " are"
	if n == 1 {
		verb = " is"
	}
	return strconv.Itoa(int(n)) + of + verb
}

// percent writes hundredths of a per cent.
func percent(n int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	cents := strconv.Itoa(100 + n%100)
	return sign + strconv.Itoa(n/100) + "." + cents[1:] + " %"
}
