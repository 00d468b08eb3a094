package planner

import (
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/wire"
)

// MostPictures is how many pictures are drawn at a time.
const MostPictures = 200

// Pictures are pictures of a folio besides those of its inside, its outside, its wrap
// and how it lies closed. The zero value has none.
type Pictures struct {
	Names func(p *folio.Plan) []string
	Draw  func(p *folio.Plan, kind string, i int, o guide.Options) (guide.Picture, bool)
}

// pictures answers with the pictures of a folio that the second text names, and
// with the names of all if it asks for a list. What there is nothing to draw of is
// left out; without names all are drawn.
func (d *Desk) pictures(texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	var w wire.PicturesWanted
	if texts[1] != "" {
		if w, err = wire.ReadPicturesWanted([]byte(texts[1])); err != nil {
			return nil, err
		}
	}
	var all []string
	if w.List || w.Names == nil {
		all = d.names(p)
	}
	if w.Names == nil {
		w.Names = all
	}
	var drawn []wire.Drawn
	for _, name := range w.Names[:min(len(w.Names), MostPictures)] {
		if pic, ok := d.Draw(p, name, guide.Options{Fit: w.Fit}); ok {
			drawn = append(drawn, DrawnOf(pic, name, strings.ReplaceAll(name, " ", "-"), w.Alone))
		}
	}
	return wire.AppendDrawn(nil, all, drawn), nil
}

// names are the names of all pictures of a plan, as a maker looks at them.
func (d *Desk) names(p *folio.Plan) []string {
	names := []string{"inside", "closed", "outside", "wrap"}
	if d.more.Names != nil {
		names = append(names, d.more.Names(p)...)
	}
	return names
}

// Draw draws the picture of a name.
func (d *Desk) Draw(p *folio.Plan, name string, o guide.Options) (guide.Picture, bool) {
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
	}
	if d.more.Draw == nil {
		return guide.Picture{}, false
	}
	return d.more.Draw(p, kind, i, o)
}

// DrawnOf writes a picture, for a page in which names begin with id, or alone.
func DrawnOf(pic guide.Picture, name, id string, alone bool) wire.Drawn {
	out := wire.Drawn{Name: name, Title: pic.Title(), Description: pic.Description(), Size: pic.Printed()}
	if alone {
		out.SVG = pic.AppendSVG(nil)
	} else {
		out.SVG = pic.AppendEmbedded(make([]byte, 0, 1<<13), id)
	}
	return out
}
