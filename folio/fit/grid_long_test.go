//go:build long

package fit_test

import "testing"

func TestEveryPlaceByGridLong(t *testing.T) { placesByGrid(t, 2000) }

func TestPairsByGridLong(t *testing.T) { pairsByGrid(t, 2000) }

func TestSmallestForContentsByExhaustionLong(t *testing.T) { smallestByExhaustion(t, 2000) }
