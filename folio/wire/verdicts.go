package wire

import (
	"reflect"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/post"
	"boardwrap.example/units"
)

// The members of a document of how a folio closes: with its fittings empty and
// with all that they hold.
type closingVerdict struct {
	Shuts  bool
	Closed []closed // one, or none where it does not shut
	Empty  []verdictOnClosing
	Full   []verdictOnClosing
	// Least and Most are the folio shut in the two ways between which a hinge
	// made by hand lies.
	Least, Most []closed
}

type verdictOnClosing struct {
	Closes, Eased              bool
	Overall                    closedSize
	Room, Stack, Left, WouldDo units.Working
	Text                       string
}

type closedSize struct {
	Width, Height, Thickness units.Working
	Uneven                   units.Length
}

// AppendClosing appends the document of how a plan closes to dst: whether it
// shuts, the tightest place and what would do there, and what it measures on the
// outside. The error is that of [AppendPlan].
func AppendClosing(dst []byte, p *folio.Plan, o Options) ([]byte, error) {
	if p == nil {
		return dst, ErrNothing
	}
	out := closingOf(p)
	return appendDrawn(dst, "closing", p.Notation(), &out, shapeClosingVerdict, (*encoder).writeClosingVerdict, o)
}

// ClosingSchema returns the JSON Schema (2020-12) of the document that
// [AppendClosing] writes whole.
func ClosingSchema() []byte { return schemaOf("closing", reflect.TypeFor[closingVerdict](), true) }

// appendDrawn appends a document whose lengths come with their millimetres.
func appendDrawn[T any](dst []byte, name string, n units.Notation, body *T, of shape, write func(*encoder, *T), o Options) ([]byte, error) {
	m, err := maskOf(of, o.Only)
	if err != nil {
		return dst, err
	}
	return document(drawing(dst, n, m), name, body, write, Options{Indent: o.Indent})
}

func closingOf(p *folio.Plan) closingVerdict {
	var out closingVerdict
	if c, ok := p.Closed(); ok {
		out.Shuts, out.Closed = true, []closed{closedOf(p, c)}
	}
	for _, v := range [...]struct {
		full bool
		to   *[]verdictOnClosing
	}{{false, &out.Empty}, {true, &out.Full}} {
		t, ok := p.Tightest(v.full)
		all, ok2 := p.Overall(v.full)
		if ok && ok2 {
			*v.to = []verdictOnClosing{{
				t.Closes(), t.Eased(), closedSize{all.Width(), all.Height(), all.Thickness(), all.Uneven()},
				t.Room(), t.Stack(), t.Left(), t.WouldDo(), t.String(),
			}}
		}
	}
	if least, most, ok := p.ClosedRange(); ok {
		out.Least, out.Most = []closed{closedOf(p, least)}, []closed{closedOf(p, most)}
	}
	return out
}

// The members of a document of what goes where.
type holding struct {
	Rooms []room
	Ways  []way
}

type room struct {
	Kind          fit.RoomKind
	Panel         boards.Role
	Fitting, Spot int // −1 for a panel
	Size, Least   units.Size
	Rect          units.Rect
	Thickness     units.Length
	Count         int
	Text          string
}

type way struct {
	Name      string // of the content
	Size      units.Size
	Thickness units.Length
	Room      int // in Rooms
	Turned    bool
	Rect      units.Rect
}

// AppendHolding appends the document of a survey to dst: the rooms of a plan, and
// the ways in which contents go into them, as the survey found them. The error is
// that of [AppendPlan].
func AppendHolding(dst []byte, s *fit.Survey, ways []fit.Berth, o Options) ([]byte, error) {
	if s == nil {
		return dst, ErrNothing
	}
	var out holding
	at := map[fit.Room]int{}
	for i, r := range s.Rooms() {
		at[r] = i
		fitting, spot := r.Fitting()
		out.Rooms = append(out.Rooms, room{r.Kind(), r.Panel(), fitting, spot, r.Size(), r.Least(), r.Rect(), r.Thickness(), r.Count(), r.String()})
	}
	for _, w := range ways {
		i, ok := at[w.Room()]
		if !ok {
			i = -1
		}
		c := w.Content()
		out.Ways = append(out.Ways, way{c.Name, c.Size, c.Thickness, i, w.Turned(), w.Rect()})
	}
	return appendDrawn(dst, "holding", s.Plan().Notation(), &out, shapeHolding, (*encoder).writeHolding, o)
}

// HoldingSchema returns the JSON Schema (2020-12) of the document that
// [AppendHolding] writes whole.
func HoldingSchema() []byte { return schemaOf("holding", reflect.TypeFor[holding](), true) }

// The members of a document of what a postal service says.
type posting struct {
	Service, Source, Date string
	Formats               []postalVerdict
	Smallest              string // format that does not refuse the item; empty for none
	Notice                string
}

type postalVerdict struct {
	Format                                     string
	Overall                                    post.Treatment
	Size, Mass, Shape, Rigidity, Evenness, Box finding
}

type finding struct {
	Treatment post.Treatment
	Text      string
}

// AppendPosting appends the document of a report to dst: what each format of a
// postal service says to an item. The error is that of [AppendPlan].
func AppendPosting(dst []byte, r post.Report, o Options) ([]byte, error) {
	s := r.Service()
	out := posting{Service: s.Name, Source: s.Source, Date: s.Date, Notice: r.Notice()}
	for v := range r.Verdicts() {
		out.Formats = append(out.Formats, postalVerdict{
			v.Format().Name, v.Overall(), findingOf(v.Size()), findingOf(v.Mass()), findingOf(v.Shape()), findingOf(v.Rigidity()), findingOf(v.Evenness()), findingOf(v.Box()),
		})
	}
	if v, ok := r.Smallest(); ok {
		out.Smallest = v.Format().Name
	}
	return appendDrawn(dst, "posting", units.MetricDecimal, &out, shapePosting, (*encoder).writePosting, o)
}

// PostingSchema returns the JSON Schema (2020-12) of the document that
// [AppendPosting] writes whole.
func PostingSchema() []byte { return schemaOf("posting", reflect.TypeFor[posting](), true) }

func findingOf(f post.Finding) finding { return finding{f.Treatment(), f.Text()} }
