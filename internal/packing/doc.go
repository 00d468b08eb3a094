// Package packing lays rectangles on sheets in straight-through cuts.
//
// A straight-through (guillotine) cut runs from edge to edge of the part in
// hand, as a trimmer makes it. Every sheet in a [Result] is a tree of such
// cuts, any number of stages deep; each leaf is a piece, an offcut worth
// keeping, or waste. The package works on integers (one unit for all lengths,
// whatever it stands for) and knows nothing of paper, money or wording.
//
//	res, err := packing.Solve(until, packing.Problem{
//		Items: []packing.Item{{W: 60, H: 40, Copies: 7, Turn: true}},
//		Stock: []packing.Stock{{W: 120, H: 100, Count: packing.Unlimited}},
//	}, packing.Budget{})
//
// # What is best
//
// Answers are compared in this order:
//
//  1. fewest pieces left without a place, counted in pieces ([Result.Short]);
//  2. fewest ordinary sheets; stock marked First (offcuts at hand) is not
//     counted, so it is used up where that saves a sheet;
//  3. least cost of all sheets used, First or not;
//  4. fewest First sheets touched;
//  5. the larger whole offcut;
//  6. fewer different settings of the fence.
//
// # What is proved
//
// [Result.Bound] is a proven lower bound on the number of ordinary sheets that
// any layout needs which places as many pieces. It is derived and certified in
// integer arithmetic: dual feasible functions (Fekete & Schepers, Mathematical
// Programming 91, 2001; Carlier, Clautiaux & Moukrim, Computers & Operations
// Research 34, 2007) and dual prices found by column generation (Gilmore &
// Gomory, Operations Research 13, 1965), where floating point only suggests
// prices and an exact dynamic program over normal patterns (Cintra, Miyazawa,
// Wakabayashi & Xavier, EJOR 191, 2008) proves what they are worth. Where a piece
// that is there once would pay on a sheet twice, that program counts its copies,
// and goes over the sets of them too (in the manner of decremental state spaces,
// Righini & Salani, Networks 51, 2008).
// [Result.Proved] says that the number of sheets equals the bound. With
// [MaxExact] pieces or fewer and enough steps the number of sheets and their
// cost are exact: every split into sheets and every tree of cuts is covered.
// The largest offcut and the fewest settings are sought, not proved. What proves
// a bound comes with it as data, a [Proof], which package cutcheck checks.
//
// # How it searches
//
// A handful of pieces: dynamic programming over subsets; up to 20 pieces of which few
// go on a sheet: all sets that one holds, and a search for the fewest of them. Many
// copies of few kinds: column generation, rounding down, and a search on what is left.
// All else, and what is left: removing and re-inserting pieces with one sheet fewer as
// the goal (ruin and recreate, Gardeyn & Wauters, EJOR 2022), where what stays without
// a place counts for more the longer it does; now and then the best of all swaps of two
// pieces for a sheet; and, in long runs, new starts put together from all that sheets
// have held so far, by a set covering program over it (Monaci & Toth, INFORMS J. on
// Computing 18, 2006): by dives that take what it is sure about and make more for the
// rest, and by others that decide first what it is least sure about. With plenty of
// budget dives lay sheet by sheet, and work the program out anew for what is left with
// the sets of pieces, each no more often than it is there, that a dynamic program puts
// together rectangle by rectangle, a few for each. Where many pieces go on few sheets
// such sets fill all sheets but the last to the brim, and a search lays the rest on that;
// other runs begin from the ends of a beam search, which lays piece by piece in strips,
// rows and pieces (in the manner of Libralesso & Fontan, EJOR 291, 2021). On many
// sheets, where none of this comes to its end, a stage goes on from what the search of
// the one before had come to.
//
// The search goes through stages, each twice as long as all before it, and what
// a stage does depends on the problem and the stage alone. So a run does all
// that a run with a smaller budget does, and then more: more budget never gives
// a worse layout. Where pieces may turn, a second run lays the same pieces as
// they lie, until a bound shows that nothing better can come of it: leave to
// turn never gives a worse layout either. Both are so by the way it is built, in
// all that is compared before the offcut, unless the Stopper ends a run.
//
// # Budget
//
// Work is counted in steps, not in time: the same Problem and the same steps
// give the same Result, byte for byte, on every machine. Only cancelling the
// Stopper can cut a run short; the best layout so far comes back with
// [Result.Stopped] set. A step is roughly ten nanoseconds of work on a desk
// machine of the 2020s. Each run first makes a plain layout, whatever budget
// and Stopper say, in a time that grows with the number of pieces, so a budget
// of one step, and a Stopper that has ended already, still give a complete
// answer. Whatever loops charges steps: a run ends within what [Budget] says.
package packing
