package propose

import "boardwrap.example/internal/word"

// An Aim is what a proposal is best at. Of folios with covers of one area that of less work
// is taken, which has fewer fittings, or such as come first among [Holder]s, then the
// narrower, and then the thinner.
type Aim uint8

// Aims.
const (
	Smallest     Aim = iota // the least area of a cover
	Thinnest                // the least closed thickness, of equal ones the smallest
	FewestSheets            // the fewest bought sheets, of equal ones the smallest
	AllInView               // the smallest in which nothing is tucked away that was not asked to be
	aims         = 4
)

var aimWords = word.List{What: "aim", Words: []string{Smallest: "smallest", Thinnest: "thinnest", FewestSheets: "fewest sheets", AllInView: "everything in view"}}

// String returns the aim in words.
func (a Aim) String() string { return aimWords.String(uint8(a)) }

// AppendText appends the text of [Aim.String]. The error matches
// units.ErrUnknown.
func (a Aim) AppendText(dst []byte) ([]byte, error) { return aimWords.Append(dst, uint8(a)) }

// MarshalText returns the text of [Aim.String], with the error of
// [Aim.AppendText].
func (a Aim) MarshalText() ([]byte, error) { return aimWords.Marshal(uint8(a)) }

// UnmarshalText reads what [Aim.String] writes. The error matches
// units.ErrSyntax.
func (a *Aim) UnmarshalText(text []byte) error { return word.Unmarshal(aimWords, a, text) }

// A Sight says whether a thing is seen when the folio is open.
type Sight uint8

// Sights.
const (
	EitherSight Sight = iota // as suits the aim
	InView                   // all of it, in a frame, in corners, on a mat
	TuckedAway               // in a pocket
)

var sightWords = word.List{What: "sight", Words: []string{EitherSight: "either", InView: "in view", TuckedAway: "tucked away"}}

// String returns the sight in words.
func (s Sight) String() string { return sightWords.String(uint8(s)) }

// AppendText appends the text of [Sight.String]. The error matches
// units.ErrUnknown.
func (s Sight) AppendText(dst []byte) ([]byte, error) { return sightWords.Append(dst, uint8(s)) }

// MarshalText returns the text of [Sight.String], with the error of
// [Sight.AppendText].
func (s Sight) MarshalText() ([]byte, error) { return sightWords.Marshal(uint8(s)) }

// UnmarshalText reads what [Sight.String] writes. The error matches
// units.ErrSyntax.
func (s *Sight) UnmarshalText(text []byte) error { return word.Unmarshal(sightWords, s, text) }

// A Keeping says whether the copies of a thing are kept together.
type Keeping uint8

// Keepings.
const (
	EitherKeeping Keeping = iota // as suits the aim
	Together                     // all in one fitting
	Apart                        // each in a place of its own
)

var keepingWords = word.List{What: "keeping", Words: []string{EitherKeeping: "either", Together: "together", Apart: "apart"}}

// String returns the keeping in words.
func (k Keeping) String() string { return keepingWords.String(uint8(k)) }

// AppendText appends the text of [Keeping.String]. The error matches
// units.ErrUnknown.
func (k Keeping) AppendText(dst []byte) ([]byte, error) { return keepingWords.Append(dst, uint8(k)) }

// MarshalText returns the text of [Keeping.String], with the error of
// [Keeping.AppendText].
func (k Keeping) MarshalText() ([]byte, error) { return keepingWords.Marshal(uint8(k)) }

// UnmarshalText reads what [Keeping.String] writes. The error matches
// units.ErrSyntax.
func (k *Keeping) UnmarshalText(text []byte) error { return word.Unmarshal(keepingWords, k, text) }

// A Holder is how a thing is held: the fitting that it goes into.
type Holder uint8

// Holders, plain ones first: of two that are as good the first is taken. Gussets are for
// what is thick: where a slip pocket takes the same copies, a gusset pocket is made only if
// there is no folio without, and never to save a few millimetres of a cover. That is common
// practice, no published source.
const (
	Corners    Holder = iota // corner pockets: in view, comes out again
	Frame                    // slipped into a frame: in view, comes out again
	Mat                      // stuck on a mat: in view, for good
	Slip                     // a slip pocket: tucked away, a third stands out
	Gusset                   // a gusset pocket, for what a slip pocket does not take
	GussetRun                // an accordion of gusset pockets, one for each copy
	Accordion                // a folded-up accordion, a pocket for each copy
	FoldedFlap               // a folded strip: a pocket under a flap
	ways       = 8
)

var wayWords = word.List{What: "way", Words: []string{Corners: "corner pockets", Frame: "frame", Mat: "mat", Slip: "slip pocket",
	Gusset: "gusset pocket", GussetRun: "gusset run", Accordion: "folded-up accordion", FoldedFlap: "folded strip"}}

// String returns the fitting in words of the trade.
func (w Holder) String() string { return wayWords.String(uint8(w)) }

// AppendText appends the text of [Holder.String]. The error matches
// units.ErrUnknown.
func (w Holder) AppendText(dst []byte) ([]byte, error) { return wayWords.Append(dst, uint8(w)) }

// MarshalText returns the text of [Holder.String], with the error of
// [Holder.AppendText].
func (w Holder) MarshalText() ([]byte, error) { return wayWords.Marshal(uint8(w)) }

// UnmarshalText reads what [Holder.String] writes. The error matches
// units.ErrSyntax.
func (w *Holder) UnmarshalText(text []byte) error { return word.Unmarshal(wayWords, w, text) }

// InView reports whether what is held so is seen, all of it, when the folio is
// open.
func (w Holder) InView() bool { return w <= Mat }

// An Order is how the parts of a cover lie to each other.
type Order uint8

// Orders.
const (
	Centred Order = iota // each in the middle of its part
	LinedUp              // at the head and at the spine of its part
)

var orderWords = word.List{What: "order", Words: []string{Centred: "centred", LinedUp: "lined up"}}

// String returns the order in words.
func (o Order) String() string { return orderWords.String(uint8(o)) }

// AppendText appends the text of [Order.String]. The error matches
// units.ErrUnknown.
func (o Order) AppendText(dst []byte) ([]byte, error) { return orderWords.Append(dst, uint8(o)) }

// MarshalText returns the text of [Order.String], with the error of
// [Order.AppendText].
func (o Order) MarshalText() ([]byte, error) { return orderWords.Marshal(uint8(o)) }

// UnmarshalText reads what [Order.String] writes. The error matches
// units.ErrSyntax.
func (o *Order) UnmarshalText(text []byte) error { return word.Unmarshal(orderWords, o, text) }
