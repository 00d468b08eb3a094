//go:build long

package fit_test

import "testing"

// many is how many plans are tried: ten minutes of them, with -short half a minute.
func many() int {
	if testing.Short() {
		return 100
	}
	return 2000
}

func TestEveryPlaceByGridLong(t *testing.T) { placesByGrid(t, many()) }

func TestPairsByGridLong(t *testing.T) { pairsByGrid(t, many()) }

func TestSmallestForContentsByExhaustionLong(t *testing.T) { smallestByExhaustion(t, many()) }
