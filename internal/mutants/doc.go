// Command mutants asks whether the tests would notice: it makes one small wrong
// change after the other in a package, a mutant each, runs the tests that pass
// there, and lists the changes that no test minds.
//
//	go -C internal/mutants run .                    # every package, every mutant
//	go -C internal/mutants run . ./units            # one package
//	go -C internal/mutants run . -n 100 -seed 7     # a sample
//	go -C internal/mutants run . -show 1f0c77ab ./units   # one mutant as a diff
//	go -C internal/mutants run . -judge 1f0c77ab -because "…" ./units   # it is equivalent
//	go -C internal/mutants run . -help
//
// All mutants of a package lie in one test binary, which is built once: every
// statement that has mutants stands there beside its mutated copies, and a
// variable that is read from the environment says which of them runs. Changes
// that do not type-check are no mutants. What lies outside functions, constants
// above all, gets a build of its own for each mutant.
//
// A mutant is run against the tests that cover its line, the quick ones first,
// until one fails. What runs much longer than the tests do without it, or takes
// much more memory, counts as noticed.
//
// Mutants that change nothing anybody can see are listed in equivalent.json,
// each with the reason. They are run too: one that a test notices was misjudged.
package main
