package wire_test

import (
	"context"
	"encoding/json"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

type drawn struct {
	Text string
	MM   float64
}

type drawnSize struct{ W, H drawn }

// Six slips of 4 x 6 in come out of one sheet of 12 x 12 in, by two cuts into
// three strips and three that halve them (or one into two strips, and four): five
// cuts at least, as each cut makes one part more of one.
func TestLayoutDocument(t *testing.T) {
	in := units.Inch
	job := layout.Job{
		Ruler:     units.Sixteenths,
		Pieces:    []layout.LoosePiece{{Name: "slip", Material: "card", Size: units.Size{W: 4 * in, H: 6 * in}, Quantity: 6}},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{{Size: units.Size{W: 12 * in, H: 12 * in}, Grain: stock.GrainAlongHeight, Count: layout.Unlimited}}}},
	}
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 100_000})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendLayout(nil, l, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Version int
		Layout  struct {
			Bought, Bound    int
			Proved, Complete bool
			Cuts             struct{ Number, Least int }
			Materials        []struct {
				Name   string
				Areas  struct{ Sheets, Pieces, Waste string }
				Sheets []struct {
					Number, Times int
					Parts         []struct {
						Rect struct{ Min, Max struct{ X, Y drawn } }
						Use  string
						Cut  []struct {
							Axis          string
							At            drawn
							First, Second int
						}
					}
					Places []struct {
						Turned bool
						Pieces []struct {
							Path, Name string
							Copies     int
						}
					}
				}
			}
			Steps []struct {
				Number, Cuts int
				Takes        bool
				Setting      drawn
				Text         string
			}
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	got := doc.Layout
	if doc.Version != 1 || got.Bought != 1 || got.Bound != 1 || !got.Proved || !got.Complete || got.Cuts.Number != 5 || got.Cuts.Least != 5 {
		t.Errorf("%+v", got)
	}
	if m := got.Materials; len(m) != 1 || m[0].Name != "card" || len(m[0].Sheets) != 1 || m[0].Areas.Sheets != m[0].Areas.Pieces {
		t.Fatalf("%+v", got.Materials)
	}
	sheet := got.Materials[0].Sheets[0]
	pieces, cuts, copies := 0, 0, 0
	for i, p := range sheet.Parts {
		switch {
		case len(p.Cut) == 1:
			cuts++
			if c := p.Cut[0]; c.First <= i || c.Second <= i || c.First >= len(sheet.Parts) || c.Second >= len(sheet.Parts) {
				t.Errorf("part %d is cut into %d and %d", i, c.First, c.Second)
			}
		case p.Use == layout.PieceUse.String():
			pieces++
			if w, h := p.Rect.Max.X.MM-p.Rect.Min.X.MM, p.Rect.Max.Y.MM-p.Rect.Min.Y.MM; w*h < 24*25.4*25.4-1e-6 || w*h > 24*25.4*25.4+1e-6 {
				t.Errorf("a piece of %v x %v mm", w, h)
			}
		}
	}
	for _, p := range sheet.Places {
		for _, n := range p.Pieces {
			copies += n.Copies
			if n.Name != "slip" || n.Path != "pieces[0]" {
				t.Errorf("%+v", n)
			}
		}
	}
	if pieces != 6 || cuts != 5 || copies != 6 {
		t.Errorf("%d pieces, %d cuts, %d copies in the tree", pieces, cuts, copies)
	}
	made := 0
	for i, s := range got.Steps {
		if s.Number != i+1 || s.Text == "" {
			t.Errorf("step %+v", s)
		}
		made += s.Cuts
	}
	if !got.Steps[0].Takes || made == 0 {
		t.Errorf("%d cuts in the steps", made)
	}
	some, err := wire.AppendLayout(nil, l, wire.Options{Only: []string{"bought", "materials.sheets.places.rect.min.x.mm"}})
	if err != nil || len(some) >= len(data)/4 {
		t.Errorf("%v: %s", err, some)
	}
	if _, err := wire.AppendLayout(nil, l, wire.Options{Only: []string{"oars"}}); err == nil {
		t.Error("there are no oars")
	}
}

// A folio with a picture of a millimetre on the inside of each cover closes or not
// as its plan says, holds a card where its survey says, and is judged as its
// service says.
func TestVerdictDocuments(t *testing.T) {
	mm := units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "mat", Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: mm}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendClosing(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var closing struct {
		Closing struct {
			Shuts       bool
			Empty, Full []struct {
				Closes  bool
				Text    string
				Overall struct{ Thickness struct{ Length drawn } }
			}
		}
	}
	if err := json.Unmarshal(data, &closing); err != nil {
		t.Fatal(err)
	}
	c := closing.Closing
	full, _ := p.Tightest(true)
	outside, _ := p.Overall(true)
	if !c.Shuts || len(c.Full) != 1 || len(c.Empty) != 1 || c.Full[0].Closes != full.Closes() || c.Full[0].Text != full.String() ||
		c.Full[0].Overall.Thickness.Length.MM != outside.Thickness().Length().Millimetres() {
		t.Errorf("%+v, want %v", c, full)
	}

	survey := fit.Of(p)
	ways, err := survey.All(t.Context(), fit.Budget{}, pocket.Content{Name: "card", Size: units.Size{W: 80 * mm, H: 50 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	if data, err = wire.AppendHolding(nil, survey, ways, wire.Options{}); err != nil {
		t.Fatal(err)
	}
	var holding struct {
		Holding struct {
			Rooms []struct {
				Kind, Panel string
				Fitting     int
			}
			Ways []struct {
				Name string
				Room int
				Size drawnSize
			}
		}
	}
	if err := json.Unmarshal(data, &holding); err != nil {
		t.Fatal(err)
	}
	if h := holding.Holding; len(h.Ways) != 1 || h.Ways[0].Name != "card" || h.Ways[0].Room < 0 || h.Ways[0].Room >= len(h.Rooms) ||
		h.Rooms[h.Ways[0].Room].Kind != ways[0].Room().Kind().String() || h.Ways[0].Size.W.MM != 80 {
		t.Errorf("%s", data)
	}

	// No letter is a metre thick.
	report, err := post.RoyalMail().Judge(post.Item{Size: units.Size{W: 200 * mm, H: 100 * mm}, Thickness: units.Metre}, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	if data, err = wire.AppendPosting(nil, report, wire.Options{}); err != nil {
		t.Fatal(err)
	}
	var posting struct {
		Posting struct {
			Service, Date, Notice string
			Formats               []struct {
				Format, Overall string
				Size            struct{ Treatment, Text string }
			}
		}
	}
	if err := json.Unmarshal(data, &posting); err != nil {
		t.Fatal(err)
	}
	if got := posting.Posting; got.Service != post.RoyalMail().Name || got.Notice != post.Notice || len(got.Formats) == 0 || got.Formats[0].Overall != "refused" || got.Formats[0].Size.Treatment != "refused" {
		t.Errorf("%s", data)
	}
}
