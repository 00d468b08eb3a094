package guide

import (
	"strconv"

	"boardwrap.example/units"
)

// Measures of a page to trace from.
const (
	lap       = 10 * units.Millimetre // by which pages lap each other
	tileEdge  = 12 * units.Millimetre // left free round a template, for crosses too
	scaleHigh = 24 * units.Millimetre // of the bars below
	headHigh  = 40 * units.Millimetre // of the heading above and the words below
)

// tileSize is the room for a template on a page.
func tileSize(p PaperSize) units.Size {
	s := p.Size()
	return units.Size{W: s.W - 2*margin, H: s.H - 2*margin - headHigh - scaleHigh}
}

// tiles returns the sections of a template: parts that fill a page on a page of
// their own, what is lower below what came before.
func tiles(t template, paper PaperSize) []Section {
	room := tileSize(paper)
	whole := t.size.Grow(tileEdge)
	columns, rows := partsFor(whole.W, room.W), partsFor(whole.H, room.H)
	if rows == 1 {
		room.H = whole.H // no higher than it has to be
	}
	band := Section{Title: t.name}
	var out []Section
	for row := range rows {
		for column := range columns {
			x, _ := (room.W - lap).Times(int64(column))
			y, _ := (room.H - lap).Times(int64(row))
			part := units.RectAt(units.Point{X: x - tileEdge, Y: y - tileEdge}, room)
			if !t.meets(part) {
				continue
			}
			name := partName(t.name, column, row, columns, rows)
			d := Drawing{
				Title: name, Description: t.note + " It is drawn at full size.", Caption: t.note,
				Full: true, svg: t.draw(part, columns*rows > 1, name),
			}
			if rows == 1 {
				d.Caption = name + ". " + t.note
				band.add(d)
				continue
			}
			out = append(out, Section{Title: name, Page: true, Blocks: []Element{d}})
		}
	}
	if rows == 1 {
		return []Section{band}
	}
	return out
}

// partsFor returns how many parts a length takes.
func partsFor(l, room units.Length) int {
	n := 1
	for reach := room; reach < l; reach += room - lap {
		n++
	}
	return n
}

// meets reports whether anything is drawn on a part of a template.
func (t *template) meets(part units.Rect) bool {
	for _, l := range t.lines {
		n := len(l.points)
		for i := range n {
			if i == n-1 && !l.shut {
				break
			}
			a, b := l.points[i], l.points[(i+1)%n]
			if min(a.X, b.X) < part.Max.X && max(a.X, b.X) >= part.Min.X && min(a.Y, b.Y) < part.Max.Y && max(a.Y, b.Y) >= part.Min.Y {
				return true
			}
		}
	}
	return false
}

// draw draws a part of a template with the bars to check below it.
func (t *template) draw(part units.Rect, several bool, name string) []byte {
	room := part.Size()
	v := vectors{}
	v.open(units.Size{W: room.W, H: room.H + scaleHigh}, name)
	v.say(`<svg width="`).mm(room.W).say(`" height="`).mm(room.H).say(`" viewBox="`).mm(part.Min.X, part.Min.Y, room.W, room.H).say(`">`)
	for _, l := range t.lines {
		v.way(l.points, l.shut, l.stroke)
	}
	for _, n := range t.texts {
		if n.upright {
			v.upright(n.at, n.text)
		} else {
			v.text(n.at, "start", n.text)
		}
	}
	if several {
		v.crosses(part)
	}
	v.say("</svg>")
	v.say(`<g transform="translate(1 `).mm(room.H).say(`)">`)
	v.dst = appendBars(v.dst)
	v.say("</g>")
	return v.close()
}

// crosses draws the crosses at which pages are laid together, in the corners of a
// page: those of its neighbours are at the same places of the template.
func (v *vectors) crosses(part units.Rect) {
	const half = lap / 2
	for _, x := range [...]units.Length{part.Min.X + half, part.Max.X - half} {
		for _, y := range [...]units.Length{part.Min.Y + half, part.Max.Y - half} {
			const arm = 3 * units.Millimetre
			v.line(units.Point{X: x - arm, Y: y}, units.Point{X: x + arm, Y: y})
			v.line(units.Point{X: x, Y: y - arm}, units.Point{X: x, Y: y + arm})
			v.say(`<circle cx="`).mm(x).say(`" cy="`).mm(y).say(`" r="1.5" `, narrowLine, `/>`)
		}
	}
}

// partName says which of several parts of a template one is.
func partName(name string, column, row, columns, rows int) string {
	count := func(what string, i, n int) string {
		return what + " " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n)
	}
	switch {
	case columns*rows == 1:
		return name
	case rows == 1:
		return name + ": " + count("part", column, columns)
	case columns == 1:
		return name + ": " + count("part", row, rows)
	}
	return name + ": " + count("column", column, columns) + ", " + count("row", row, rows)
}
