package wire_test

import (
	"encoding/json"
	"math"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// crew is a folio with every kind of fitting.
func crew() folio.Spec {
	photo, _ := pocket.UsualContent("photo 4 x 6 in")
	return folio.Spec{
		Title: "Eastwater crew", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch},
		Magnets: closing.Magnets{Diameter: 8 * units.Millimetre, Thickness: units.Millimetre},
		Fittings: []folio.Fitting{
			{Name: "strip", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned()}}},
			{Name: "frame", Kind: folio.Frame{Picture: photo.Content}},
			{Name: "badge", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: units.Millimetre}},
		},
	}
}

// The document says what the plan says: a reader of the JSON, who knows nothing
// of the library, finds sizes, places and steps.
func TestPlanDocument(t *testing.T) {
	p, err := folio.Build(crew())
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	type length struct {
		Text string
		MM   float64
	}
	type rect struct{ Min, Max struct{ X, Y length } }
	var doc struct {
		Version int
		Plan    struct {
			Title, Form, Notation string
			Boards                []struct {
				Role string
				Rect rect
			}
			Pieces []struct {
				Name     string
				Quantity int
				Size     struct{ W, H length }
				Outline  []struct{ X, Y length }
				Blank    []struct{ Lines []struct{ At length } }
			}
			Placed []struct {
				Piece int
				Rect  rect
			}
			Fittings []struct {
				Label string
				Kind  map[string]any
				Rect  rect
			}
			Steps []struct {
				Number     int
				Task, Text string
				Care       []string
				Do         []map[string]any
			}
			Closed   []struct{ Thickness struct{ Length length } }
			Magnets  []any
			Workings []struct {
				Text   string
				Length length
			}
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	d := doc.Plan
	if doc.Version != 1 || d.Title != "Eastwater crew" || d.Form != "cover, spine, cover" {
		t.Errorf("%d %q %q", doc.Version, d.Title, d.Form)
	}
	// Cover 6, spine 1, cover 6 with gaps of 1/8 in between: from 7 1/4 in on.
	if r := d.Boards[2]; r.Role != "right cover" || r.Rect.Min.X.Text != "7 1/4 in" || math.Abs(r.Rect.Min.X.MM-184.15) > 1e-9 || r.Rect.Max.Y.Text != "8 in" {
		t.Errorf("%+v", r)
	}
	i := 0
	for q := range p.Pieces() {
		if g := d.Pieces[i]; g.Name != q.Name() || g.Quantity != q.Quantity() || math.Abs(g.Size.W.MM-q.Size().W.Millimetres()) > 1e-9 || len(g.Outline) != q.Outline().Len() {
			t.Errorf("%+v is not %s", g, q.Name())
		}
		i++
	}
	if i != len(d.Pieces) || len(d.Fittings) != 3 || d.Fittings[0].Kind["type"] != "folded" {
		t.Errorf("%d pieces of %d, %d fittings, %v", len(d.Pieces), i, len(d.Fittings), d.Fittings[0].Kind["type"])
	}
	n := 0
	for s := range p.Steps() {
		g := d.Steps[n]
		n++
		if g.Number != n || g.Text != s.Text(units.Format{}) || g.Task != s.Task.String() || len(g.Do) != len(s.Do) || g.Do[0]["type"] == "" {
			t.Errorf("step %d: %+v", n, g)
		}
	}
	if n != len(d.Steps) || len(d.Closed) != 1 || len(d.Magnets) != 4 || len(d.Workings) < 10 {
		t.Errorf("%d steps, closed %d, %d magnets, %d workings", n, len(d.Closed), len(d.Magnets), len(d.Workings))
	}
	again, _ := wire.AppendPlan(nil, p, wire.Options{})
	if string(again) != string(data) {
		t.Error("another time it is another document")
	}
}
