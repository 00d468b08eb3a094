package wire

import (
	"slices"
	"strconv"

	"boardwrap.example/units"
)

// PicturesWanted says which pictures a front end wants of a folio.
type PicturesWanted struct {
	// Names are what the pictures are called; nil is all that there are.
	Names []string
	// Fit is the room that a picture may take; a zero side is not bounded.
	Fit units.Size
	// Alone asks for documents by themselves, to be kept, and not for parts of a
	// page.
	Alone bool
	// List asks for the names of all pictures that there are.
	List bool
}

// ReadPicturesWanted reads the document that asks for pictures:
//
//	{"version": 1, "names": ["inside", "piece 0"], "fit": "100 x 200 mm", "alone": true, "list": true}
//
// Every member but the version may be left out. The error is an *[Error].
func ReadPicturesWanted(data []byte) (PicturesWanted, error) {
	var w PicturesWanted
	err := read(data,
		body{name: "names", path: "names", mayLack: true, read: func(d *decoder, n *node) {
			readList(d, n, &w.Names, (*decoder).string)
			if w.Names == nil {
				w.Names = []string{}
			}
		}},
		body{name: "fit", path: "fit", mayLack: true, read: into(&w.Fit, (*decoder).size)},
		body{name: "alone", path: "alone", mayLack: true, read: into(&w.Alone, (*decoder).bool)},
		body{name: "list", path: "list", mayLack: true, read: into(&w.List, (*decoder).bool)},
	)
	if err != nil {
		return PicturesWanted{}, err
	}
	return w, nil
}

// Drawn is a picture that goes out. It is plain data.
type Drawn struct {
	Name, Title, Description string     // what it is asked for by, and what its title and description say
	Size                     units.Size // as it is to be printed
	SVG                      []byte     // the picture
}

// AppendDrawn appends to dst the document of pictures, with the names of all that
// there are if there are any:
//
//	{"version": 1, "names": ["inside", …], "pictures": [{"name": "inside", "title": "…",
//		"description": "…", "width": 90.5, "height": 64.2, "svg": "<svg …"}, …]}
//
// Width and height are in mm.
func AppendDrawn(dst []byte, names []string, all []Drawn) []byte {
	long := 0
	for i := range all {
		long += 2 * len(all[i].SVG) // < and > take six there
	}
	e := newEncoder(slices.Grow(dst, long), units.MetricDecimal)
	e.raw(`{"version":` + strconv.Itoa(Version) + `,`)
	if len(names) > 0 {
		e.raw(`"names":[`)
		for _, name := range names {
			e.element()
			e.string(name)
		}
		e.raw(`],`)
	}
	e.raw(`"pictures":[`)
	for i := range all {
		e.element()
		e.drawn(&all[i])
	}
	e.raw(`]}`)
	return e.out
}

func (e *encoder) drawn(d *Drawn) {
	e.raw(`{"name":`)
	e.string(d.Name)
	e.raw(`,"title":`)
	e.string(d.Title)
	e.raw(`,"description":`)
	e.string(d.Description)
	e.raw(`,"width":`)
	e.millimetres(d.Size.W)
	e.raw(`,"height":`)
	e.millimetres(d.Size.H)
	e.raw(`,"svg":`)
	e.string(string(d.SVG))
	e.raw(`}`)
}
