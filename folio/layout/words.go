package layout

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Text writes the step as sentences. Lengths are written exactly, or on the
// ruler of the format if it has one, and are marked there if they are not exact.
func (s CutStep) Text(f units.Format) string {
	w := &writer{s: s.made(), f: f}
	if s.take >= 0 {
		return w.takes()
	}
	return w.cuts()
}

// writer writes the text of a step.
type writer struct {
	s CutStep
	f units.Format
}

func (w *writer) len(l units.Length) string {
	if w.f.Ruler != 0 {
		return w.f.Text(l)
	}
	return string(w.s.l.Notation().Append(nil, l, w.f.Typographic))
}

func (w *writer) size(s units.Size) string {
	if w.f.Ruler != 0 {
		return w.f.Size(s)
	}
	if w.f.Typographic {
		return w.len(s.W) + " × " + w.len(s.H)
	}
	return sizeText(w.s.l.Notation(), s)
}

// takes is the text of a step that takes sheets in hand.
func (w *writer) takes() string {
	sheet := &w.s.m.sheets[w.s.take]
	text := "take "
	if len(w.s.m.sheets) > 1 {
		text = "sheet " + count(sheet.number) + ": take "
	}
	what := "sheet"
	if sheet.kind.Offcut {
		what = "offcut"
	}
	text += plural(sheet.times, what) + " of " + check.Clip(w.s.Material()) + ", " + w.size(sheet.Size())
	switch {
	case sheet.turned && sheet.kind.Size.W == sheet.kind.Size.H:
		text += ", turned a quarter so that the grain runs away from you"
	case sheet.turned:
		text += ", turned so that the grain and the second of these run away from you"
	case sheet.oneWay == NoTurn:
		text += ", the pattern upright; every piece keeps its head at the top"
	case sheet.oneWay == HalfTurn:
		text += ", the pattern up and down; pieces may be upside down"
	}
	if n := w.s.m.stack; n > 1 && sheet.times > 1 {
		text += ", in stacks of up to " + count(n)
	}
	text += "."
	if gives := w.gives(); gives != "" {
		text += " It needs no cut: " + gives + "."
	}
	return upper(text)
}

// cuts is the text of a step that cuts.
func (w *writer) cuts() string {
	s := w.s
	text := ""
	if s.turn {
		text = "turn; "
	}
	n := s.Parts()
	whole := true
	for _, r := range s.refs {
		whole = whole && r.Node == 0
	}
	if !whole || len(s.m.sheets) > 1 {
		switch {
		case whole:
			text += w.sheets()
		case len(s.m.sheets) > 1:
			text += plural(n, "part") + " " + w.size(s.Part()) + " of " + w.sheets()
		default:
			text += plural(n, "part") + " " + w.size(s.Part())
		}
		text += ": "
	}
	switch edge := s.Edge().String(); {
	case s.at <= 0:
		text += "from the " + edge + " edge take off " + w.len(s.at+s.l.job.cutter(s.m.material).Kerf)
	case s.same:
		text += "same setting, " + w.len(s.at) + " from the " + edge + " edge, cut"
	default:
		text += "from the " + edge + " edge set " + w.len(s.at) + ", cut"
	}
	if s.cuts > 1 {
		text += " " + count(s.cuts) + " times"
	}
	switch stack := s.Stack(); {
	case stack > 1 && stack == n:
		text += " all in one stack"
	case stack > 1:
		text += " in stacks of up to " + count(stack)
	case n > 1:
		text += " each"
	}
	text += ": " + w.gives() + "."
	return upper(text)
}

// sheets names the sheets that the parts come from.
func (w *writer) sheets() string {
	list := w.s.sheets()
	text := "sheet "
	if len(list) > 1 {
		text = "sheets "
	}
	const most = 12
	for i := 0; i < len(list); {
		n := i
		for n+1 < len(list) && list[n+1] == list[n]+1 {
			n++
		}
		switch {
		case i > most:
			return text + " and others"
		case i > 0 && n == len(list)-1:
			text += " and "
		case i > 0:
			text += ", "
		}
		text += count(list[i])
		if n > i+1 {
			text += " to " + count(list[n])
		} else {
			n = i
		}
		i = n + 1
	}
	return text
}

// gives lists what becomes of parts, pieces first.
func (w *writer) gives() string {
	out := ""
	for _, y := range w.s.gives() {
		text := ""
		switch y.use {
		case PieceUse:
			text = count(y.count) + " x " + check.Clip(y.name)
			if y.name == "" {
				text += "piece"
			}
			if y.sized {
				text += " " + w.size(y.size)
			}
			if y.turned {
				text += " (turned)"
			}
		case Cut:
			text = w.many(y) + "part " + w.size(y.size)
		case Offcut:
			text = w.many(y) + "offcut " + w.size(y.size) + " to keep"
		case Waste:
			if out != "" {
				continue
			}
			text = "waste"
		}
		if out != "" {
			out += "; "
		}
		out += text
	}
	return out
}

func (w *writer) many(y Yielded) string {
	if y.count > 1 {
		return count(y.count) + " x "
	}
	return ""
}

func upper(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}
