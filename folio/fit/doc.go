// Package fit finds out what goes into a folio, and which folio something goes
// into: where a content fits, the smallest folio for what it must hold, the
// largest one from the sheets at hand, one design in several sizes.
//
//	survey := fit.Of(plan)
//	for way := range survey.Where(ctx, fit.Budget{}, card) {
//		fmt.Println(way.Room(), way.Rect())
//	}
//	least, err := fit.Smallest(ctx, spec, fit.Budget{}, photo, photo)
//
// Searches take a Stopper and a budget. When either ends they return the best
// they have, and say that it is not proved to be the best. A nil Stopper never ends.
//
// All of them look at the folio as it lies shut. What touches something while it is
// folded past that ([folio.WarnPassing]) rules nothing out here: the plan of a [Least]
// or a [Most] has the warning, and for a [Berth] the plan that [Survey.With] builds with
// something there. What package propose proposes has none.
package fit
