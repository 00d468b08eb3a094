// Package cost works out what the folios of a layout cost and what to ask for
// them.
//
//	laid, err := layout.Lay(ctx, job, layout.Budget{})
//	batch, err := cost.Of(laid, cost.Basis{
//		Minutes: []int{25}, Rate: hour, // what the layout does not know
//		Margin:  3000,                  // 30 % of the price
//	})
//	for f := range batch.Folios() {
//		fmt.Println(f.Name(), f.Each(), f.Price())
//	}
//
// Every amount is a [Charge] that says how it came about and how it was rounded:
// each charge of the batch up to a minor unit, once, and shares so that they add
// up to what is shared.
//
// The rules (cost of a batch by adding up materials, supplies and labour, a fee
// spread over the copies, a price from the margin wanted of it, break-even) are
// common practice, no published source.
package cost
