// Package wire writes and reads documents: a Spec, with or without the cover as it
// was measured, a request for proposals, also in words, a batch or a wish for pictures in; a Spec, a
// request, a plan or a summary of it, proposals, a layout, what a batch costs, verdicts
// on closing, holding and post, pictures, and what is wrong out. They are JSON, strict
// and complete.
//
// # A document
//
//	{"version": 1, "spec": {
//		"cover": "6 x 8 in",
//		"spine": {"width": "5/8 in"},
//		"fittings": [{"name": "crew", "kind": {"type": "mat",
//			"picture": {"name": "print", "size": "4 x 6 in"}}}]
//	}}
//
// A member is a field of the Spec with a small first letter. Lengths, sizes,
// masses and grammages are texts with their unit; values of an enumeration are
// words of the trade; what stands for an explicit nothing is "none". A fitting
// or a pocket says by its type which kind it is. What is left out is the
// default. [SpecSchema], [RequestSchema], [BatchSchema], [PlanSchema], [ProposalsSchema],
// [LayoutSchema], [CostsSchema], [ClosingSchema], [HoldingSchema], [PostingSchema]
// and [ErrorSchema] describe the documents; those of [AppendSummary], [ReadPicturesWanted],
// [ReadAsked], [AppendDrawn] and [AppendAnswer], which a front end and its program tell each other, are described
// there. [Columns] reads a Spec from a row of a table.
//
// # What is refused
//
// Everything that is wrong is said at once, each with its JSON pointer (RFC
// 6901), the field of the Spec, line and column: members that there are not, also
// those that differ in case only, members that come twice, numbers where a
// length is meant, anything after the document, another version, invalid UTF-8,
// and more than [MostBytes], [MostDepth] and [MostMembers] allow. Nothing is half
// taken.
//
// # Versions
//
// Version 1 may get new members that can be left out, new words and new types;
// a document that is valid stays so and keeps its meaning. Whatever else changes
// is a new version, and this package goes on reading the old one.
package wire
