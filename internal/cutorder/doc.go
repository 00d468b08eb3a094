// Package cutorder finds the order in which the sheets of a layout are cut up:
// with few settings of the fence, few turns, and no more cuts than the layout
// has.
//
// A sheet is a tree of series: a part is cut in one direction into strips, these
// in the other direction, and so on. A series may be cut in any order and in
// any grouping (strips of 5 and 3 may come off as one of 8 that is cut later,
// if the fence stands at 8), because that moves parts about and changes no size.
// A cut is made at a setting of the fence: the size of what comes off, which is
// one or more of the strips and never waste. What is left of a series lies at
// its end; sheets with trimmed edges keep the trim at the edges. Strips, and
// the leftovers worth keeping, stay as the layout has them; leftovers of one
// series become one.
//
// The fence is set anew when it stands elsewhere, whichever way the part lies
// and whichever sheet it comes from. The least number of settings over all
// orders is the length of a shortest common supersequence over trees, a hard
// problem: small jobs are searched in full (best first, with a bound), others by
// a beam, and the largest setting by setting. [Order.LeastSettings] is what is
// proved in either case.
//
// The package works on integers and knows nothing of paper.
package cutorder
