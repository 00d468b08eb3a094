package guide_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"testing"

	"boardwrap.example/folio/rule"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

const mm = units.Millimetre

// wellFormed fails if a document is no XML.
func wellFormed(t *testing.T, doc []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(doc))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Fatalf("%v in\n%s", err, doc)
		}
	}
}

func build(t testing.TB, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPieceIsDrawnOrNot(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}})
	n := 0
	for range p.Pieces() {
		pic, ok := guide.Piece(p, n, guide.Options{})
		if !ok || pic.Empty() || pic.Title() == "" || pic.Description() == "" {
			t.Fatalf("piece %d is not drawn", n)
		}
		wellFormed(t, pic.AppendSVG(nil))
		n++
	}
	for _, i := range []int{-1, n} {
		if pic, ok := guide.Piece(p, i, guide.Options{}); ok || !pic.Empty() {
			t.Errorf("there is a picture of piece %d", i)
		}
	}
	for _, none := range []*folio.Plan{nil, {}} {
		if _, ok := guide.Piece(none, 0, guide.Options{}); ok {
			t.Error("there is a picture of no plan")
		}
	}
}
