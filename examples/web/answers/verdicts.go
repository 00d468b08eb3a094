package answers

import (
	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/folio/wire"
)

// said are the members of the document of how a folio closes that a verdict has.
var said = []string{"shuts", "empty.closes", "empty.eased", "empty.text", "empty.wouldDo.text", "full.closes", "full.eased", "full.text", "full.wouldDo.text",
	"full.overall.width.length", "full.overall.height.length", "full.overall.thickness.length"}

// verdicts answers with what is to be said of a folio: whether it shuts and where
// it is tightest, what it weighs, how it travels.
func verdicts(d *planner.Desk, texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	closes, err := wire.AppendClosing(nil, p, wire.Options{Only: said})
	if err != nil {
		return nil, err
	}
	var weights []any     // empty, and with all that it holds
	var services [][]byte // what each service says to it, filled and unpacked
	for _, filled := range []bool{false, true} {
		w, err := weightOf(p, filled)
		if err != nil {
			return nil, err
		}
		weights = append(weights, w)
	}
	// A folio that does not shut is not packed: its closing says why.
	if item, err := post.Pack(p, post.Packing{Weighing: weigh.Options{Estimate: true}}); err == nil {
		for s := range post.Services() {
			report, err := s.Judge(item, p.Notation())
			if err != nil {
				return nil, err
			}
			doc, err := wire.AppendPosting(nil, report, wire.Options{})
			if err != nil {
				return nil, err
			}
			services = append(services, doc)
		}
	}
	inside := "" // of a box round it, which none goes round that does not shut
	if box, err := post.BoxFor(p, 0); err == nil {
		length := p.Notation().Text
		inside = length(box.Width().Length()) + " x " + length(box.Height().Length()) + ", " + length(box.Depth().Length()) + " deep"
	}
	return wire.AppendAnswer(nil, map[string]any{"verdicts": map[string]any{
		"closing": closes,
		"weight":  weights,
		"post":    services,
		"box":     inside,
		"notice":  post.Notice, // goes with whatever is said about the post
	}})
}

// weightOf weighs a folio, stocks of unknown grammage by their thickness.
func weightOf(p *folio.Plan, filled bool) (map[string]any, error) {
	w, err := weigh.Of(p, weigh.Options{Filled: filled, Estimate: true})
	if err != nil {
		return nil, err
	}
	var unknown []string // parts that are missing from it
	for part := range w.Unknown() {
		name := part.Name()
		// Two medals are told apart by what their fittings are called.
		if of := part.Part(); part.Stock() == "" && of != "" && of != name {
			name = of + " (" + name + ")"
		}
		unknown = append(unknown, name)
	}
	mass, certainty := w.Total()
	return map[string]any{
		"filled":    filled,
		"grams":     mass.Grams(),
		"ounces":    mass.Ounces(),
		"certainty": certainty.String(),
		"unknown":   unknown,
	}, nil
}
