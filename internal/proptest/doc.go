// Package proptest is what the property tests of every room share: where their
// chance comes from, how many cases they try, and a Map whose counterexamples
// shrink.
//
// Seeds are fixed, so that a test says today what it said yesterday, and are
// printed when a property fails. The flag -seed of a test that uses this
// package takes another one, and -seed 0 one from the clock:
//
//	go test ./score -seed 7
//	go test ./score -tags long -seed 0
//
// It is for tests only and knows nothing of the rooms.
package proptest
