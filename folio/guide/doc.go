// Package guide draws plans and layouts and writes hand-outs, for people who
// would rather look than read.
//
// A [Picture] is a drawing at true scale in SVG: a unit of it is a millimetre on
// paper. [Piece] draws what is cut, [Wrap] the covering with its boards,
// [Inside] and [Outside] the open folio, [Closed] the shut one from the head,
// [Strip] and [Accordion] what folds, [Step] what hands do, [Sheet] how a sheet
// is cut up. What a picture shows is read from the plan or the layout, and how
// pieces lie while they are worked on from package worktop; nothing is worked out
// here but where the words go. Not at true scale are, and say so, the enlarged
// detail of the tightest place; how far apart the layers of what is folded or pressed
// are drawn in section; and how far the pockets of an accordion stand open.
//
// A [Document] is something to print: [HandOut] what a maker takes to the bench,
// [Templates] what is easier traced than measured, [CuttingBook], [ShoppingList]
// and [PriceList] what a batch takes, [FamilySheet] one design in many sizes. It is
// data, sections of blocks, and is written as HTML, as Markdown and as plain text.
//
// # Lines
//
// Kinds of line are told apart without colour, after ISO 128-2 (line types
// 01.2, 01.1, 02.1 and 04.1; from memory): continuous wide is a cut edge or an
// outline that is seen, continuous narrow a dimension, a leader or what lies
// there already, short dashes narrow what is hidden. Long dashes are a valley
// fold, dashes and dots a mountain fold, by the convention of Yoshizawa and
// Randlett (common practice), as one sees the piece. In a step what is new, cut,
// scored or folded now is wider still. A step that folds shows the piece as it lies
// before, with an arrow over the line, dashed where the part turns under, and
// beside it the section as it lies afterwards. What is scored on the back is drawn
// with the back up. What takes adhesive is hatched, rising to the
// right on the side that is seen, falling on the other. Every picture carries a
// legend of the kinds that are in it.
//
// Dimensions follow ISO 129-1 as far as open descriptions of it go (from
// memory): figures stand above their line and are read from below or from the
// right, closed arrowheads end the line, dots where there is no room for them;
// distances from one edge are running dimensions, from a small circle at their
// origin. A figure that has no room stands outside on a leader.
//
// # Words
//
// Words are placed with the widths of Helvetica as Adobe publishes them in the
// metrics of the core 14 fonts, which Arial, Liberation Sans and Arimo share;
// each text is also told how long it must come out, so that another font is
// squeezed to it. No word overlaps another or a line: a name that has no room
// stands outside on a leader, and where none can be drawn in the legend.
//
// # Bytes
//
// A picture is the same bytes every time. It has no script, nothing from
// elsewhere, no colour: it is drawn in the colour of the text around it, and by
// itself light or dark as the reader asks. Elements that belong to a piece
// carry its place in [folio.Plan.Pieces] as data-piece, those of a fitting its
// place in [folio.Plan.Fittings] as data-fitting; the kind of a line is its
// data-line.
package guide
