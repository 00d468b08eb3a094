// Package makertest is a maker for tests: it carries out an order of work on a
// model of paper and board and compares what then lies on the table with the
// plan.
//
// A [Job] says what is at hand (sheets, pieces as they are to be cut), what is
// to be done (the steps of package work) and what is to come out. [Follow] does
// the steps one after the other as hands would, knowing nothing but the data of
// the actions, and objects as soon as hands could not go on or would spoil
// something; at the end it compares. It shares no code with the packages that
// write orders of work.
//
// # The model
//
// A piece is a flat polygon with scores. A fold turns the part beyond a line
// over the rest or under it; parts keep their layers from bottom to top. What
// is glued holds together from then on. Boards lie in a row on their covering;
// turning in folds the covering over their edges, the thickness of the board
// counted. Paper has no thickness where it turns, only where it lies in a
// stack: where a flap closes over contents, its wall must be as wide as they are
// thick, and its one fold takes two calipers; a pocket takes contents that its walls
// go round, cut across the way in; round notches and corners count as the rectangles
// round them. Closed, a pocket is as thick as what lies at one place, and what walls of
// several papers keep open there.
//
// [Changes] makes wrong orders of work out of a right one, to see that they are
// objected to.
package makertest
