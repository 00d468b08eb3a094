package rule

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Rulers are the rulers that sizes are rounded on, by role. A zero ruler is
// Main; a zero Main is 1/16 in, which is what handwork measures to (S. L.
// Reese, Basic Drop-Spine Box). Main also decides whether plans are written in
// inches or in millimetres.
type Rulers struct {
	Main  units.Ruler // of all roles that have none of their own; its notation is the plan's
	Board units.Ruler // boards and spine, rounded up
	Gap   units.Ruler // hinge gaps, rounded up
	Wrap  units.Ruler // wrap up, its margins within the sheet
	Liner units.Ruler // liner, rounded down
	// Fitting is that of fittings. A mat goes up, with a reveal at least as wide as
	// asked for; a frame's opening, foam and film down, and its outside up; pockets
	// as package pocket says; sizes by relation down.
	Fitting units.Ruler
}

// Fill fills in the rulers that are not given.
func (r *Rulers) Fill() {
	if r.Main == 0 {
		r.Main = units.Sixteenths
	}
	for _, role := range [...]*units.Ruler{&r.Board, &r.Gap, &r.Wrap, &r.Liner, &r.Fitting} {
		if *role == 0 {
			*role = r.Main
		}
	}
}

// Check returns what is wrong with them once defaults are filled in, or nil. The
// error is a *check.Error.
func (r Rulers) Check() error {
	var bad check.List
	for i, ruler := range [...]units.Ruler{r.Main, r.Board, r.Gap, r.Wrap, r.Liner, r.Fitting} {
		if i > 0 && ruler == r.Main {
			continue // said there
		}
		if !ruler.Valid() || ruler.Step() > units.Metre {
			path := [...]string{"main", "board", "gap", "wrap", "liner", "fitting"}[i]
			bad.Malformed(path, check.Unknown, "no such ruler", "one of the rulers of package units, or one made by units.NewRuler with a step of up to 1 m")
		}
	}
	return bad.Err()
}
