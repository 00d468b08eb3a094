// Package rooms loads the packages of this repository for the checks on the
// repository itself: which way the imports go (the tests of this package) and
// what the packages promise (the command api below it).
//
// It runs the go command and knows nothing of what the packages do.
package rooms
