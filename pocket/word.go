package pocket

import (
	"strconv"

	"boardwrap.example/internal/word"
)

//go:noinline
func itoa(n int) string { return strconv.Itoa(n) }

var gussets = word.List{What: "gusset", Words: []string{SideGussets: "sides", FootGusset: "foot"}}

// String returns "sides" or "foot".
func (g GussetAt) String() string { return gussets.String(uint8(g)) }

// AppendText appends the text of [GussetAt.String]. The error matches
// units.ErrUnknown.
func (g GussetAt) AppendText(dst []byte) ([]byte, error) { return gussets.Append(dst, uint8(g)) }

// MarshalText returns the text of [GussetAt.String], with the error of
// [GussetAt.AppendText].
func (g GussetAt) MarshalText() ([]byte, error) { return gussets.Marshal(uint8(g)) }

// UnmarshalText reads what [GussetAt.String] writes. The error matches
// units.ErrSyntax.
func (g *GussetAt) UnmarshalText(text []byte) error { return word.Unmarshal(gussets, g, text) }

var builds = word.List{What: "build", Words: []string{ThreeGlued: "three glued edges", FoldedFoot: "folded foot"}}

// String returns "three glued edges" or "folded foot".
func (b Build) String() string { return builds.String(uint8(b)) }

// AppendText appends the text of [Build.String]. The error matches
// units.ErrUnknown.
func (b Build) AppendText(dst []byte) ([]byte, error) { return builds.Append(dst, uint8(b)) }

// MarshalText returns the text of [Build.String], with the error of
// [Build.AppendText].
func (b Build) MarshalText() ([]byte, error) { return builds.Marshal(uint8(b)) }

// UnmarshalText reads what [Build.String] writes. The error matches
// units.ErrSyntax.
func (b *Build) UnmarshalText(text []byte) error { return word.Unmarshal(builds, b, text) }

var stocks = word.List{What: "stock", Words: []string{PaperStock: "paper", MatStock: "mat"}}

// String returns "paper" or "mat".
func (s StockKind) String() string { return stocks.String(uint8(s)) }

// AppendText appends the text of [StockKind.String]. The error matches
// units.ErrUnknown.
func (s StockKind) AppendText(dst []byte) ([]byte, error) { return stocks.Append(dst, uint8(s)) }

// MarshalText returns the text of [StockKind.String], with the error of
// [StockKind.AppendText].
func (s StockKind) MarshalText() ([]byte, error) { return stocks.Marshal(uint8(s)) }

// UnmarshalText reads what [StockKind.String] writes. The error matches
// units.ErrSyntax.
func (s *StockKind) UnmarshalText(text []byte) error { return word.Unmarshal(stocks, s, text) }
