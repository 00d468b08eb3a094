// Package pocket designs what holds photographs, cards and notes in a folio:
// slip and corner pockets, gusset pockets, accordions, concertina guards,
// hinged leaves, folded strips and pleats. Each is designed from what it must hold or
// from a size at hand, and comes out as blanks with scores, glue areas and
// notches, with its footprint, its thickness, its places for contents and the
// order of work.
//
// # Kinds
//
// A [Kind] is a plain comparable value whose zero fields stand for documented
// defaults:
//
//	card := pocket.IDCard()
//	design, err := pocket.Slip{Content: card}.Design(pocket.Paper{}, units.Sixteenths)
//	design.Closed()          // the footprint, with what stands out of the mouth
//	design.Thickness(true)   // full
//	design.Accepts(card)     // nil, or which dimension fails and by how much
//
// [Slip], [Corners], [Flap], [FoldedStrip], [Gusset], [GussetRun],
// [FoldedAccordion], [Concertina] and [Pleat] are all there are; [Kinds] walks
// them. [Accept] and [Make] take a kind that came from elsewhere, by value or by
// a pointer. Rules on which print disagrees are fields, and [units.None] says
// "none" where zero stands for a default.
//
// # Work
//
// [Design.Steps] walks the order of work as data, from the first cut to the
// contents in their places: see package work. What the pocket lies on is
// called the support there, and places on it are measured from the edges of the
// closed footprint. Every paper that is glued to the support has a place of its
// own there.
//
// A [Panel] says which side of its drawing lies up when the pocket is closed,
// and [Design.Levels] how many layers lie under it. [Paper] says which side is
// cut facing up; where a paper with one good side would show the other one, the
// design has a warning ([WrongSideShows]). Which side of a fold is scored is a
// choice too ([Groove]).
//
// # Sizes
//
// A width is across, a height from head to foot. Places are measured from the
// upper left corner of the closed footprint, X to the right and Y downwards.
// Every size is computed exactly first and put on the ruler once, in the
// direction that keeps its rule: what must take something goes up, what must
// fit into something goes down. Lengths that the caller gives are taken as they
// are, the ease among them: what rounding adds, larger contents may take. Only where
// contents stand out by another length for it than was given off the ruler, or a
// margin is another, is there a warning, from what to what ([MovedToRuler]). A default
// that has an inch and a metric value follows the notation of the ruler and is put on
// it, but for the ease. Every size carries its working ([Design.Workings]).
//
// # Thickness
//
// Thickness is layers times caliper, and what is held on top of that. The
// bulge of folds and the spring of paper are not counted.
//
// # Errors
//
// Bad input and impossible designs give one *[check.Error] that lists every
// violation with its field path in lower case (content.size.w, scores[1]), a
// code, what was given and what would do: where that is a length, setting the
// field to it mends the violation. A violation of no field has an empty path.
package pocket
