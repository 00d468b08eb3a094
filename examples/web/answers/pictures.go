package answers

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

// wanted are the members of the document that says which pictures are wanted.
type wanted struct {
	Version int        `json:"version"`
	Names   []string   `json:"names"`
	Fit     units.Size `json:"fit"`
	Alone   bool       `json:"alone"` // as documents by themselves, to be kept
	List    bool       `json:"list"`  // with the names of all that there are
}

// mostPictures is how many pictures are drawn at a time.
const mostPictures = 200

// A picture is one picture in the answer.
type picture struct {
	Name        string  `json:"name"`
	Title       string  `json:"title"`
	Description string  `json:"description"`
	Width       float64 `json:"width"` // in mm, as is Height
	Height      float64 `json:"height"`
	SVG         string  `json:"svg"`
}

// pictures answers with the pictures of a folio that the second text names, and
// with the names of all if it asks for a list. What there is nothing to draw of is
// left out; without names all are drawn.
func (d *Desk) pictures(texts [3]string) ([]byte, error) {
	p, err := d.build(texts[0])
	if err != nil {
		return nil, err
	}
	var w wanted
	if texts[1] != "" {
		dec := json.NewDecoder(bytes.NewReader([]byte(texts[1])))
		dec.DisallowUnknownFields()
		if err := dec.Decode(&w); err != nil {
			return nil, err
		}
		if w.Version != 1 {
			return nil, errors.New("pictures are asked for by version 1")
		}
	}
	var all []string
	if w.List || w.Names == nil {
		all = d.pictureNames(p)
	}
	if w.Names == nil {
		w.Names = all
	}
	if len(w.Names) > mostPictures {
		w.Names = w.Names[:mostPictures]
	}
	out := []picture{}
	for _, name := range w.Names {
		pic, ok := d.draw(p, name, guide.Options{Fit: w.Fit})
		if !ok || pic.Empty() {
			continue
		}
		out = append(out, pictureOf(pic, name, strings.ReplaceAll(name, " ", "-"), w.Alone))
	}
	return json.Marshal(struct {
		Version  int       `json:"version"`
		Names    []string  `json:"names,omitempty"`
		Pictures []picture `json:"pictures"`
	}{1, all, out})
}

// pictureNames are the names of all pictures of a plan, as a maker looks at them.
func (d *Desk) pictureNames(p *folio.Plan) []string {
	names := []string{"inside", "closed", "outside", "wrap"}
	for f := range p.Fittings() {
		for _, kind := range [...]string{"strip ", "accordion "} {
			name := kind + strconv.Itoa(f.Index())
			if _, ok := d.draw(p, name, guide.Options{}); ok {
				names = append(names, name)
			}
		}
	}
	i := 0
	for range p.Pieces() {
		names = append(names, "piece "+strconv.Itoa(i))
		i++
	}
	return names
}

// draw draws the picture of a name.
func (d *Desk) draw(p *folio.Plan, name string, o guide.Options) (guide.Picture, bool) {
	kind, number, _ := strings.Cut(name, " ")
	i, err := strconv.Atoi(number)
	if number != "" && err != nil {
		return guide.Picture{}, false
	}
	switch kind {
	case "inside":
		return guide.Inside(p, o)
	case "outside":
		return guide.Outside(p, o)
	case "wrap":
		return guide.Wrap(p, o)
	case "closed":
		return guide.Closed(p, o)
	case "strip":
		return guide.Strip(p, i, o)
	case "accordion":
		return guide.Accordion(p, i, o)
	case "step":
		if d.step != nil {
			return d.step(p, i, o)
		}
	case "piece":
		return guide.Piece(p, i, o)
	}
	return guide.Picture{}, false
}

// pictureOf writes a picture, for a page in which names begin with id, or alone.
func pictureOf(pic guide.Picture, name, id string, alone bool) picture {
	out := picture{Name: name, Title: pic.Title(), Description: pic.Description(), Width: pic.Printed().W.Millimetres(), Height: pic.Printed().H.Millimetres()}
	if alone {
		out.SVG = string(pic.AppendSVG(nil))
	} else {
		out.SVG = string(pic.AppendEmbedded(nil, id))
	}
	return out
}
