// Package folio computes every piece of a board-covered paper folio: two
// covers and a spine of board, wrapped in decorated paper, lined inside and
// fitted with what holds photographs, cards and notes.
//
// A [Spec] says what the maker wants; [Build] checks it and works out a
// [Plan]: boards and the gaps between them, the wrap and where the boards lie
// on it, the mitre cuts, the liner, every fitting, the order of work. The cover
// as it really came out goes back in through [Plan.Refit], which derives the
// inside again and leaves boards and wrap alone.
//
//	plan, err := folio.Build(folio.Spec{
//		Cover: units.MustParseSize("6 x 8 in"),
//		Spine: rule.Spine{Width: units.MustParse("5/8 in")},
//	})
//	if err != nil {
//		return err // every violation at once, see package check
//	}
//	for piece := range plan.Pieces() {
//		fmt.Println(piece.Name(), piece.Size())
//	}
//
// # Zero values
//
// A Spec is plain data. A field left at zero means the default that its
// documentation names; [units.None] stands for an explicit nothing where zero would
// mean a default. Rules that disagree in print are options, each with its
// source.
//
// # Coordinates
//
// Everything is seen as it lies before the maker while it is built: the case
// open and flat, inside up, the head away from the maker. X grows to the
// right, Y downwards from the head. Width is across, height is along the
// spine. On the wrap the origin is the sheet's upper left corner.
//
// # Fittings
//
// What is put on the panels is a [Mat], a [Frame], an [Ornament] or something
// [Folded]. Each tells everything about itself once, as a [Fitted]: its pieces and
// where they lie, the heights it adds, the spots where contents go, what it
// weighs besides, the surfaces on which others may stand. The rooms below this
// package read a plan: fit searches, weigh weighs, post sends, tie ties.
//
// # Sizes and places by relation
//
// A fitting's size may be given by what is there already ([place.Sizing]): as large as
// its panel, with a margin on what it stands on, a quarter inch less than, as wide as
// another fitting, an equal share; so one design serves every cover, and a refit
// scales what follows from it. A picture is then as large as goes, in the
// proportions that it keeps, or the largest usual print. A [place.Place] may be in line with another fitting, beside it, or even
// among others. [Plan.Fixed] turns all sizes into lengths.
//
// # Exactness and rounding
//
// Sizes are added up exactly and put on the ruler last, in the direction that
// keeps the rule true: boards, spine, gaps and wrap up; liner down, and what
// must share a width: doors, and a flap of half the cover; mats and the outside
// of frames up, their openings down; sizes by relation down, and up where they
// are to be more than something. Every size carries its [units.Working]. A given
// length that is no graduation of its ruler, and for which the folio has another one,
// is warned of, from what to what: a board, a gap, an inset, a lap, a reveal, a rail.
// Others are used as they are: what is held or at hand, thicknesses, places, bounds. The same
// Spec always gives the same plan.
package folio
