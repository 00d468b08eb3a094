package wire

import (
	"reflect"

	"boardwrap.example/folio/cost"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// The members of a document of costs.
type costs struct {
	Total     money.Amount
	Charges   []charge
	Folios    []folioCosts
	Loose     money.Amount
	BreakEven []int64 // one, or none where it is never reached
	Recovers  []int64 // one, or none
}

type charge struct {
	Label       string
	Amount      money.Amount
	Each        money.Amount
	Times, Over int64
	Part, Whole units.Area // both 0 where the whole is charged
	Rounding    string
	Text        string
}

type folioCosts struct {
	Index  int
	Name   string
	Copies int
	Total  money.Amount
	Each   charge
	Price  charge
	Margin int // in hundredths of a per cent of the price
	Shares []charge
}

// AppendCosts appends the document of what a batch costs to dst: the charges with
// their workings, the share, the cost and the price of each folio. Amounts are
// texts with their currency.
func AppendCosts(dst []byte, b *cost.BatchCost, o Options) ([]byte, error) {
	if b == nil {
		return dst, ErrNothing
	}
	m, err := maskOf(shapeCosts, o.Only)
	if err != nil {
		return dst, err
	}
	out := costs{Total: b.Total(), Charges: gather(b.Charges(), chargeOf), Folios: gather(b.Folios(), folioCostsOf), Loose: b.Loose()}
	if n, ok := b.BreakEven(); ok {
		out.BreakEven = []int64{n}
	}
	if n, ok := b.Recovers(); ok {
		out.Recovers = []int64{n}
	}
	return document(drawing(dst, units.InchFraction, m), "costs", &out, (*encoder).writeCosts, Options{Indent: o.Indent})
}

// CostsSchema returns the JSON Schema (2020-12) of the document that
// [AppendCosts] writes whole.
func CostsSchema() []byte {
	return schemaOf("costs", reflect.TypeFor[costs](), true)
}

func chargeOf(c cost.Charge) charge {
	out := charge{Label: c.Label(), Amount: c.Amount(), Rounding: c.Rounding(), Text: c.String()}
	out.Each, out.Times, out.Over = c.Terms()
	out.Part, out.Whole = c.Portion()
	return out
}

func folioCostsOf(f cost.FolioCost) folioCosts {
	return folioCosts{f.Index(), f.Name(), f.Copies(), f.Total(), chargeOf(f.Each()), chargeOf(f.Price()), f.Margin(), gather(f.Shares(), chargeOf)}
}
