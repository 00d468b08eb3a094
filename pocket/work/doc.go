// Package work says what hands do, as data: cut this from that sheet, score it
// there, fold it, glue it, let it dry, fix it here. A pocket and a folio say
// their order of work with it.
//
// A [Step] is one thing to do at a time. It holds [Action]s with the pieces,
// edges, lines and lengths they are about as typed values; its sentence is
// written from them and from nothing else ([Step.Append]). What a step rests
// on ([Step.After]) tells a front end what can be done while something dries.
//
// # Coordinates
//
// Lengths on a piece are measured as on its drawing: X from the left edge to
// the right, Y from the head edge down, with the face of the drawing towards
// the maker. A quarter turn or a turned side is said in the action that lays
// the piece down.
//
// A place is given by edges, as hands measure it: so far from this edge of what
// it lies on to the same edge of the object ([At]).
package work
