// Package score knows what paper does when it is scored and folded: whether a
// strip folds flat as told, in what layers, how thick where, in which order
// the folds can be made, and what the caliper asks for.
//
// # Strips
//
// A [Strip] is a length of paper with scores across it. The panels between the
// scores add up to the strip exactly. Each score is folded as a [Valley] or a
// [Mountain]; the strip lies before the maker, its face up.
//
//	letter, err := score.NewStrip([]units.Length{wide, wide, narrow}, score.Valley, score.Valley)
//	folded, err := letter.Fold()   // a layer order, or the scores that cannot be folded
//	folded.Width()                 // how wide it lies
//	folded.Thickness(caliper)      // most layers x caliper
//
// [Strip.Fold] decides by crimps and end folds (Arkin, Bender, Demaine,
// Demaine, Mitchell, Sethia and Skiena, "When Can You Fold a Map?", CGTA 29,
// 2004) in time that grows with the number of panels. [Strip.Foldings] lists
// every layer order of a short strip, [Strip.FoldBy] makes the folds one after
// the other as a maker does, [Strip.Turns] finds an order in which that
// succeeds, and [Strip.TurnsTo] one that leads to a given layer order.
//
// A [Folding] says what lies where: the stacks of layers, which side shows, the
// bays between layers and what is held in them, how thick it all is, and what
// each fold goes round. A [CrossFolded] is a sheet folded along one axis and then
// along the other.
//
// # Blanks
//
// A [Blank] is a cut sheet with score lines along both axes, some of them
// partial, with cut-outs, notches, slants, glue areas and tabs. It says what is
// left of the sheet: its outline, its openings and its area.
//
// # What caliper asks for
//
// [CFold], [Roll], [RollBy], [Gate], [DoubleGate], [DoubleParallel] and
// [Accordion] divide a length so that a panel that folds in is narrower than the
// one it folds into. [Folding.Thick] gives a fold that goes round something two
// scores where one will not do. [Creep], [NestedLeaf], [DoubleScore], [Bend],
// [Channel] and [Advise] are the allowances of the fold itself. [Grooves] is a
// scoring board on which scores can stand only at grooves.
//
// # Counting
//
// Panels and scores are counted from 0 from the left end, as Go does; score i
// lies between panel i and panel i+1. Texts made for people ([Turn.String],
// error messages) count from 1. Places on the flat strip are measured from its
// left end, places on the folded one from the left edge of what it covers.
//
// # Errors
//
// What is malformed, or cannot be made, is one *[check.Error] with every violation
// and its path: a field of the [Draft], or what was given in lower case
// (panels[1], length, tuck.less). A strip that does not fold flat as told is an
// *[Unfoldable], a turn that cannot be made a *[Blocked]; a search that was ended
// returns the error of its [Stopper], one with more answers than asked for
// [ErrLimit], and one without an answer [ErrNoTurns].
//
// # What is neglected
//
// Flat folding takes paper without thickness: every panel keeps its place
// after folding, and thickness is layers times caliper. The bulge of a fold,
// the springing of the layers and the shift of panels round a thick stack are
// left out; the allowances above are there to make room for them.
package score
