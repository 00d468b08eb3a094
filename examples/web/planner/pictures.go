package planner

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/jsontext"
	"boardwrap.example/units"
)

// MostPictures is how many pictures are drawn at a time.
const MostPictures = 200

// Pictures are pictures of a folio besides those of its inside, its outside, its wrap
// and how it lies closed. The zero value has none.
type Pictures struct {
	Names func(p *folio.Plan) []string
	Draw  func(p *folio.Plan, kind string, i int, o guide.Options) (guide.Picture, bool)
}

// A Picture is one picture in an answer.
type Picture struct {
	Name        string  `json:"name"`
	Title       string  `json:"title"`
	Description string  `json:"description"`
	Width       float64 `json:"width"` // in mm, as is Height
	Height      float64 `json:"height"`
	SVG         string  `json:"svg"`
}

// wanted says which pictures are wanted.
type wanted struct {
	version string
	names   []string
	some    bool // names were given
	fit     units.Size
	alone   bool // as documents by themselves, to be kept
	list    bool // with the names of all that there are
}

// pictures answers with the pictures of a folio that the second text names, and
// with the names of all if it asks for a list. What there is nothing to draw of is
// left out; without names all are drawn.
func (d *Desk) pictures(texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	var w wanted
	if texts[1] != "" {
		if w, err = readWanted(texts[1]); err != nil {
			return nil, err
		}
	}
	var all []string
	if w.list || !w.some {
		all = d.names(p)
	}
	if !w.some {
		w.names = all
	}
	if len(w.names) > MostPictures {
		w.names = w.names[:MostPictures]
	}
	s := &sheet{}
	s.raw(`{"version":1,`)
	if len(all) > 0 {
		s.raw(`"names":[`)
		for _, name := range all {
			s.member("").text(name)
		}
		s.raw(`],`)
	}
	s.raw(`"pictures":[`)
	for _, name := range w.names {
		pic, ok := d.Draw(p, name, guide.Options{Fit: w.fit})
		if !ok || pic.Empty() {
			continue
		}
		s.member("")
		s.picture(PictureOf(pic, name, strings.ReplaceAll(name, " ", "-"), w.alone))
	}
	s.raw(`]}`)
	return s.out, nil
}

func (s *sheet) picture(p Picture) {
	s.raw(`{"name":`)
	s.text(p.Name)
	s.raw(`,"title":`)
	s.text(p.Title)
	s.raw(`,"description":`)
	s.text(p.Description)
	s.raw(`,"width":`)
	s.out = jsontext.AppendNumber(s.out, p.Width)
	s.raw(`,"height":`)
	s.out = jsontext.AppendNumber(s.out, p.Height)
	s.raw(`,"svg":`)
	s.text(p.SVG)
	s.raw(`}`)
}

// readWanted reads the document that says which pictures are wanted.
func readWanted(text string) (wanted, error) {
	var w wanted
	r := &jsontext.Reader{Data: []byte(text)}
	if !utf8.ValidString(text) {
		return w, errors.New("a text that is no UTF-8")
	}
	kind, _, err := r.Value()
	if err != nil {
		return w, err
	}
	if kind != jsontext.Object {
		return w, errors.New("pictures are asked for by an object with a version")
	}
	for i := 0; ; i++ {
		name, _, ok, err := r.Member(i)
		if err != nil {
			return w, err
		}
		if !ok {
			break
		}
		if err := w.member(name, r); err != nil {
			return w, err
		}
	}
	if !r.End() {
		return w, errors.New("something stands after the document")
	}
	if w.version != strconv.Itoa(wire.Version) {
		return w, errors.New("pictures are asked for by version 1")
	}
	return w, nil
}

// member reads a member.
func (w *wanted) member(name string, r *jsontext.Reader) error {
	kind, text, err := r.Value()
	if err != nil {
		return err
	}
	truth := kind == jsontext.True || kind == jsontext.False
	switch {
	case name == "version" && kind == jsontext.Number:
		w.version = text
	case name == "alone" && truth:
		w.alone = kind == jsontext.True
	case name == "list" && truth:
		w.list = kind == jsontext.True
	case name == "fit" && kind == jsontext.Text:
		w.fit, err = units.ParseSize(text)
		return err
	case name == "names" && kind == jsontext.Array:
		return w.listed(r)
	default:
		return errors.New("pictures are asked for by a version, names as a list of texts, fit as a size, alone and list as true or false: " + strconv.Quote(name))
	}
	return nil
}

// listed reads the names.
func (w *wanted) listed(r *jsontext.Reader) error {
	w.some = true
	for i := 0; ; i++ {
		ok, err := r.Element(i)
		if !ok {
			return err
		}
		kind, name, err := r.Value()
		if err != nil {
			return err
		}
		if kind != jsontext.Text {
			return errors.New("names of pictures are texts")
		}
		w.names = append(w.names, name)
	}
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

// PictureOf writes a picture, for a page in which names begin with id, or alone.
func PictureOf(pic guide.Picture, name, id string, alone bool) Picture {
	out := Picture{Name: name, Title: pic.Title(), Description: pic.Description(), Width: pic.Printed().W.Millimetres(), Height: pic.Printed().H.Millimetres()}
	if alone {
		out.SVG = string(pic.AppendSVG(nil))
	} else {
		out.SVG = string(pic.AppendEmbedded(nil, id))
	}
	return out
}
