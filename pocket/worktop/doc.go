// Package worktop follows how pieces lie on the table while an order of work is
// carried out: what is folded over what, what is turned over, what is stuck to
// what. It takes the blanks of package score and the actions of package work, and
// tells for each part between folds where it lies, which of its sides is up, and
// what lies under it.
//
// Paper has no thickness here, and a fold is a line: package score and package
// pocket say how much room a fold takes. What they work out for a finished piece is
// what is found here after its last fold; tests hold the two to each other.
package worktop
