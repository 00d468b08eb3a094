// Package propose works out folios from what they must hold: from contents,
// papers and limits to complete Specs, each with what its fittings are, where
// they sit, why, and what ruled the others out.
//
//	things, err := propose.ParseThings("6 photo 10 x 15 cm, 1 ID-1 card, 1 note")
//	answer, err := propose.Folios(ctx, propose.Request{Things: things}, propose.Budget{})
//	if p, ok := answer.Of(propose.Smallest); ok {
//		plan := p.Plan() // every piece, place and step
//	}
//
// # What is proposed
//
// For each [Aim] the best folio of a design space: the smallest, the thinnest,
// the one of fewest sheets, the smallest with everything in view. Each builds,
// closes with its ease, has a spot for every content and no warning but those of
// the paper at hand.
//
// # Forms
//
// [Request].Forms lists forms of case and rows of boards of your own, [AnyForm] all
// forms there are. Each is searched by itself, with an equal share of the budget, and
// for each aim the form with the best folio is taken: by the aim's own measure, then the
// smaller, the one of less work, the narrower, the thinner, the one of fewer boards.
// [Proposal.OtherForms] gives the best folio of each other form and says what is worse
// about it, or why that form cannot be.
//
//	answer, err := propose.Folios(ctx, propose.Request{Things: things, Forms: propose.AnyForm()}, propose.Budget{})
//
// # The design space
//
// A row of boards of any form, or one of your own. Each thing is held in one of
// the [Holder]s, every copy in a fitting of its own or all copies in one; as it lies
// or a quarter turn round, all copies alike. A gusset pocket is for what a slip pocket
// does not take, or where there is no folio without. A fitting lies on a board that lies
// when the folio is shut, and not on one whose inside looks out then. The spines go round
// what lies between, and Closing.UnderFlap makes room for what lies on an outside.
// A board is divided by straight lines from edge to edge, a part again and
// so on, until each part holds one fitting: that is every way to lay up to three
// rectangles beside each other, and of more leaves out those that interlock round
// a middle. Along each line, and round all of it, at least what [Taste] says stays
// free.
//
// # What is proved
//
// [Proposal.Complete] reports that nothing in that space is better by the aim's
// own measure: no smaller cover; no thinner folio; no fewer sheets. The measures that
// settle a tie are those of the best that was found. What another way to hold a thing
// would come to, in [Proposal.RuledOut], is the least that it can with all else held as it
// is; [Reason.AtLeast] says where no folio of just that size or thickness was built.
//
// Where the liner is cut on a ruler that the boards' is no multiple of, or its sheets
// decide whether it is one piece or one for each board, what may be covered of a board
// follows the cover and the spine. Then every cover from the smallest that may take a
// layout is built with the spines that make a difference, and what is complete is so
// there too; a spine may be wider than what lies there needs, where that leaves the
// margins on a smaller cover. Where they would be too many, or something lies over an
// outside, the search counts with the least that may be covered, and nothing is said
// to be complete.
//
// Things that are smaller than a case can be whose turn-ins have a given width get a
// cover on which neither these nor their mitres meet, with wider margins; no smaller
// cover was found then, which is not said to be complete.
//
// # Other covers
//
// What is proposed is a design: contents are as large as they are, and so are the
// fittings round them, but their places are relations. Rows and columns share their
// board evenly, what is in a row lies in line with the largest in it, and what
// follows from nothing else is so far from the middle. So the Spec with a larger
// cover builds, and its margins are wider; with a smaller one, fit.FamilyOf names
// what goes in no longer.
//
// # Taste
//
// What is put on a cover is centred in it, or lined up; what is thick lies at the
// spine and towards the tail; pockets open to the head, strips to the spine, away
// from the fore edge that opens first; nothing is stuck down unless
// [Thing].Sticks says that it may be. All that is common practice, no published
// source.
package propose
