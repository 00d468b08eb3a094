package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// named returns the first fitting with a name, −1 for none.
func (b *builder) named(name string) int {
	for i := range b.spec.Fittings {
		if b.spec.Fittings[i].Name == name && name != "" {
			return i
		}
	}
	return -1
}

// under returns the fitting before this one that it says it stands on, −1 for
// none.
//
//go:noinline
func (b *builder) under(i int) int {
	name := b.spec.Fittings[i].StandsOn
	if at := b.named(name); at < i {
		return at
	}
	return -1
}

// roomOf returns how large that is on which a fitting lies, its panel without the
// clearance or what it stands on, and false where that is not known.
func (b *builder) roomOf(i int) (units.Size, bool) {
	if b.spec.Fittings[i].StandsOn == "" {
		role, outside, ok := b.seatOf(i)
		if !ok {
			return units.Size{}, false
		}
		return b.plan.panelArea(role, outside).Grow(-b.spec.Clearance).Size(), true
	}
	j := b.under(i)
	if j >= 0 && b.footings != nil {
		at := &b.footings[j]
		return at.carrier, at.state == footingFound
	}
	for k := range b.plan.fitted {
		if f := &b.plan.fitted[k]; f.index == j {
			return f.ground().Size(), true
		}
	}
	return units.Size{}, false
}

// seatOf returns the board on which a fitting is, itself or by what it stands on,
// and false where it stands on what there is not.
func (b *builder) seatOf(i int) (role boards.Role, outside, ok bool) {
	for b.spec.Fittings[i].StandsOn != "" {
		j := b.under(i)
		if j < 0 {
			return 0, false, false
		}
		i = j
	}
	f := &b.spec.Fittings[i]
	if role = f.Panel; role == boards.MainPanel {
		role = b.plan.shape.Main
	}
	return role, f.Outside, b.plan.index(role) >= 0
}
