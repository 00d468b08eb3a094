// Package layout lays the pieces of folios on sheets of paper and board, in
// edge-to-edge cuts as a trimmer makes them, with as few sheets as it can find,
// and says how few there could be.
//
//	job := layout.Job{
//		Folios:    []layout.Folio{{Plan: plan, Copies: 24}},
//		Materials: layout.MaterialsOf(plan), // then: prices, counts, offcuts
//	}
//	laid, err := layout.Lay(ctx, job, layout.Budget{})
//	for m := range laid.Materials() {
//		fmt.Println(m.Name(), m.Bought(), "sheets; never fewer than", m.Bound())
//	}
//	for step := range laid.Steps() {
//		fmt.Println(step.Number(), step.Text(units.Format{}))
//	}
//
// # What is best
//
// Of two layouts that place as many pieces, the better one takes fewer bought
// sheets (offcuts at hand do not count, so they are used where that saves a
// sheet); then cheaper sheets, fewer offcuts touched, the larger whole offcut
// left. The sheets are then cut up with as few settings of the fence as can be
// found, which changes none of that.
//
// # What is proved
//
// For each material [Laid.Bound] is a number of bought sheets that no layout
// in edge-to-edge cuts can do without, and [Laid.Proved] says that the layout
// reaches it. Both are about the job as given: its pieces, sheets, trims, kerf
// and longest cut, and the grain as known or as [Laid.Assumed]. The search and
// the proof are in integers; internal/packing lists the published methods.
//
// # The order of cutting
//
// Setting the fence takes longer than a cut, so the order of work is that with
// the fewest settings: what is cut at one setting follows each other, whichever
// way the parts lie and whichever sheet of the material they come from; sheets
// with the same pieces are laid alike; waste is left to the end of a row. Small
// jobs are searched in full. [Layout.Settings], [Layout.Turns] and [Layout.Cuts]
// come with numbers that are proved: no order of work for the same sheets, cut
// into the same strips, takes fewer. With [Cutter].Stack parts that are cut
// alike lie under the blade together.
//
// # Grain and pattern
//
// A piece whose grain is stock.GrainParallel lies so that its height runs along
// the grain of the sheet, so a sheet with its grain along the width is laid a
// quarter turn round. Where the grain of a sheet is not known, both directions
// are tried, the better one is kept, and a warning says to find the grain
// before cutting and what the other direction would take. All sheets of a
// material whose grain is unknown are taken to be alike. Pieces of a pattern
// that has an up and a down stay upright on the sheet as it is listed; where
// such a pattern and the grain contradict each other on a sheet, that sheet is
// left out, with a warning, and it is an error when none is left.
//
// # Coordinates
//
// X grows to the right from the left edge and Y downwards from the head of the
// sheet as it lies on the table, which [LaidSheet.Turned] tells. Settings of a
// fence are counted from an edge of the part in hand.
//
// # Errors
//
// Everything wrong is reported at once in a *[check.Error]. What is malformed
// leaves no layout. What is only impossible (a piece that fits no sheet, too
// few sheets) comes with a layout of all that can be placed.
//
// # Budget
//
// Work is counted in steps, not in time, so the same job and budget give the
// same bytes on every machine. Only a Stopper that has ended cuts a search short;
// the best layout so far is then returned, and [Layout.Stopped] says so; a nil
// Stopper never ends. A plain layout of all pieces is made in any case, in a
// time that grows with their number. [Budget].Report tells how far a search is.
package layout
