package layout

import (
	"iter"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Use says what becomes of a part of a sheet.
type Use uint8

// Uses of a part.
const (
	Waste    Use = iota // thrown away
	Offcut              // a leftover worth keeping
	PieceUse            // one of the pieces
	Cut                 // cut in two
)

var uses = word.List{What: "use", Words: []string{Waste: "waste", Offcut: "offcut", PieceUse: "piece", Cut: "cut"}}

// String returns "waste", "offcut", "piece" or "cut".
func (u Use) String() string { return uses.String(uint8(u)) }

// AppendText appends the text of [Use.String]. The error matches
// units.ErrUnknown.
func (u Use) AppendText(dst []byte) ([]byte, error) { return uses.Append(dst, uint8(u)) }

// MarshalText returns the text of [Use.String], with the error of
// [Use.AppendText].
func (u Use) MarshalText() ([]byte, error) { return uses.Marshal(uint8(u)) }

// UnmarshalText reads what [Use.String] writes. The error matches
// units.ErrSyntax.
func (u *Use) UnmarshalText(text []byte) error { return word.Unmarshal(uses, u, text) }

// A LaidSheet is one sheet, or several that are cut alike, with the cuts to make.
type LaidSheet struct {
	number, times int
	material      string
	kind          SheetKind
	kindIndex     int
	turned        bool
	oneWay        TurnRule       // the strictest of the pieces on it
	nodes         []packing.Node // its parts, which are put into words when they are asked for
	shares        []portion
	from          []int32 // by part, and then of all: where its shares begin
	wants         []Wanted
}

// portion is how many of a piece lie at a place, over all sheets cut alike.
type portion struct{ want, copies int }

// Number counts the sheets of a layout from 1; sheets that are cut alike share
// a number.
func (s LaidSheet) Number() int { return s.number }

// Times is how many sheets are cut like this.
func (s LaidSheet) Times() int { return s.times }

// Material is the name of the material.
func (s LaidSheet) Material() string { return s.material }

// Kind returns the kind of sheet as the Job lists it, and its index in
// Material.Sheets.
func (s LaidSheet) Kind() (k SheetKind, index int) { return s.kind, s.kindIndex }

// Turned reports whether it lies a quarter turn from how it is listed, so that
// its grain runs along its height.
func (s LaidSheet) Turned() bool { return s.turned }

// Size is the size of the sheet as it lies.
func (s LaidSheet) Size() units.Size {
	if s.turned {
		return s.kind.Size.Turned()
	}
	return s.kind.Size
}

// Parts walks the tree of cuts: the whole sheet first, every part after the
// part that it is cut from, with its index.
func (s LaidSheet) Parts() iter.Seq2[int, CutPart] {
	return func(yield func(int, CutPart) bool) {
		for i := range s.nodes {
			if !yield(i, s.part(i)) {
				return
			}
		}
	}
}

// Places walks where the pieces lie.
func (s LaidSheet) Places() iter.Seq[LaidPiece] {
	return func(yield func(LaidPiece) bool) {
		for i := range s.nodes {
			if s.nodes[i].Use != packing.Piece {
				continue
			}
			p := s.part(i)
			if !yield(LaidPiece{sheet: s.number, rect: p.rect, turned: p.turned, shares: s.sharesOf(i), wants: s.wants}) {
				return
			}
		}
	}
}

// A CutPart is a part of a sheet as it is cut up.
type CutPart struct {
	rect   units.Rect
	use    Use
	axis   score.Axis
	at     units.Length
	a, b   int
	turned bool
}

// Rect is where the part lies on its sheet.
func (p CutPart) Rect() units.Rect { return p.rect }

// Use says what becomes of it.
func (p CutPart) Use() Use { return p.use }

// CutAt returns the cut of a part whose Use is [Cut]: an upright one counts
// from the part's left edge, a level one from its head edge. What the cut
// takes away lies beyond it. Where the cut only takes off the edge that it
// counts from, it may stand at 0 or, by less than the kerf, outside the part.
func (p CutPart) CutAt() (axis score.Axis, at units.Length) { return p.axis, p.at }

// Cuts returns the indices of the two parts that a cut leaves, −1 where
// nothing is left.
func (p CutPart) Cuts() (first, second int) { return p.a, p.b }

// A LaidPiece is where a piece lies: on one sheet, or on all that are cut alike.
type LaidPiece struct {
	sheet  int
	rect   units.Rect
	turned bool
	shares []portion
	wants  []Wanted
}

// Sheet is the number of the sheet.
func (p LaidPiece) Sheet() int { return p.sheet }

// Rect is where the piece lies on the sheet as the sheet lies.
func (p LaidPiece) Rect() units.Rect { return p.rect }

// Turned reports whether the piece lies a quarter turn round.
func (p LaidPiece) Turned() bool { return p.turned }

// Pieces walks what is cut at this place and how many of each over all the
// sheets that are cut alike: pieces of one size may have several names.
func (p LaidPiece) Pieces() iter.Seq2[Wanted, int] {
	return func(yield func(Wanted, int) bool) {
		for _, s := range p.shares {
			if !yield(p.wants[s.want], s.copies) {
				return
			}
		}
	}
}

// dealer hands out the pieces of each size in the order in which they are
// wanted.
type dealer struct {
	p     *problem
	wants []Wanted
	many  []int // by wanted piece: its quantity, and nothing else that lies between
	at    []int // by item: index into problem.wants
	used  []int // by item: copies handed out of that one
}

func newDealer(p *problem, wants []Wanted) *dealer {
	d := &dealer{p, wants, make([]int, len(wants)), make([]int, len(p.Items)), make([]int, len(p.Items))}
	for i := range wants {
		d.many[i] = wants[i].quantity
	}
	return d
}

func (d *dealer) deal(to []portion, item, n int) []portion {
	for n > 0 && d.at[item] < len(d.p.wants[item]) {
		w := d.p.wants[item][d.at[item]]
		take := min(n, d.many[w]-d.used[item])
		if take > 0 {
			to = append(to, portion{w, take})
		}
		n -= take
		d.used[item] += take
		if d.used[item] == d.many[w] {
			d.at[item]++
			d.used[item] = 0
		}
	}
	return to
}

// newSheet puts an engine's sheet into the words of the trade.
func newSheet(p *problem, s packing.Sheet, number int, d *dealer) LaidSheet {
	k := p.kinds[s.Stock]
	out := LaidSheet{number: number, times: s.Times, material: p.material.Name, kind: p.material.Sheets[k.index],
		kindIndex: k.index, turned: k.turned, wants: d.wants, nodes: s.Nodes,
		from: make([]int32, len(s.Nodes)+1), shares: make([]portion, 0, len(s.Nodes)/2+1)} // of at most half of the parts, a share each, or more where it is cut several times
	for i := range s.Nodes {
		if n := &s.Nodes[i]; n.Use == packing.Piece {
			out.shares = d.deal(out.shares, n.Item, s.Times)
			for _, sh := range out.shares[out.from[i]:] {
				out.oneWay = max(out.oneWay, d.wants[sh.want].turn)
			}
		}
		out.from[i+1] = int32(len(out.shares))
	}
	return out
}

// sharesOf is who has a share in a part.
func (s *LaidSheet) sharesOf(i int) []portion { return s.shares[s.from[i]:s.from[i+1]] }

// part puts a part into the words of the trade.
func (s *LaidSheet) part(i int) CutPart {
	n := &s.nodes[i]
	q := CutPart{a: -1, b: -1, rect: units.RectAt(units.Point{X: length(n.X), Y: length(n.Y)}, units.Size{W: length(n.W), H: length(n.H)})}
	switch n.Use {
	case packing.Offcut:
		q.use = Offcut
	case packing.Piece:
		q.use, q.turned = PieceUse, n.Turned
	case packing.CutX, packing.CutY:
		q.use, q.at, q.a, q.b = Cut, length(n.At), n.A, n.B
		if n.Use == packing.CutY {
			q.axis = score.Level
		}
	}
	return q
}
