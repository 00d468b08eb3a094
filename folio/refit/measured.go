// Package refit holds what goes into a refit and what comes of it: the cover as it
// was measured, and what can change. The refit itself is that of a plan in package
// folio.
package refit

import "boardwrap.example/units"

// Measured is the cover as it really came out, covered and lying open. A made
// cover measures more than its boards and gaps: the covering goes round its
// edges, and no board is laid quite in its place.
type Measured struct {
	// Width and Height are those of the open cover, over the covering; both above 0.
	Width, Height units.Length
	// Panels are the widths of the boards as made, left to right, one for
	// each; those at the ends are measured over the covering at the outer edge.
	// Leave the list empty to keep the widths of the plan.
	Panels []units.Length
}
