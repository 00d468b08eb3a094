package answers

import (
	"encoding/json"

	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/folio/wire"
)

// verdict are the members of the answer about a plan.
type verdict struct {
	Closing json.RawMessage   `json:"closing"` // a document of folio/wire, as are those in Post
	Weight  []weighed         `json:"weight"`  // empty, and with all that it holds
	Post    []json.RawMessage `json:"post"`    // what each service says to it, filled and unpacked
	Box     string            `json:"box"`     // the inside of a box round it; empty where it does not shut
	Notice  string            `json:"notice"`  // goes with whatever is said about the post
}

// said are the members of the document of how a folio closes that a verdict has.
var said = []string{"shuts", "empty.closes", "empty.eased", "empty.text", "empty.wouldDo.text", "full.closes", "full.eased", "full.text", "full.wouldDo.text",
	"full.overall.width.length", "full.overall.height.length", "full.overall.thickness.length"}

// weighed is what a folio weighs.
type weighed struct {
	Filled    bool            `json:"filled"`
	Grams     float64         `json:"grams"`
	Ounces    float64         `json:"ounces"`
	Certainty weigh.Certainty `json:"certainty"`
	Unknown   []string        `json:"unknown"` // parts that are missing from it
}

// verdicts answers with what is to be said of a folio: whether it shuts and where
// it is tightest, what it weighs, how it travels.
func verdicts(d *planner.Desk, texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	out := verdict{Post: []json.RawMessage{}, Notice: post.Notice}
	if out.Closing, err = wire.AppendClosing(nil, p, wire.Options{Only: said}); err != nil {
		return nil, err
	}
	for _, filled := range []bool{false, true} {
		w, err := weightOf(p, filled)
		if err != nil {
			return nil, err
		}
		out.Weight = append(out.Weight, w)
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
			out.Post = append(out.Post, doc)
		}
	}
	if box, err := post.BoxFor(p, 0); err == nil {
		text := p.Notation().Text
		out.Box = text(box.Width().Length()) + " x " + text(box.Height().Length()) + ", " + text(box.Depth().Length()) + " deep"
	}
	return json.Marshal(struct {
		Version  int     `json:"version"`
		Verdicts verdict `json:"verdicts"`
	}{wire.Version, out})
}

// weightOf weighs a folio, stocks of unknown grammage by their thickness.
func weightOf(p *folio.Plan, filled bool) (weighed, error) {
	w, err := weigh.Of(p, weigh.Options{Filled: filled, Estimate: true})
	if err != nil {
		return weighed{}, err
	}
	mass, certainty := w.Total()
	out := weighed{Filled: filled, Grams: mass.Grams(), Ounces: mass.Ounces(), Certainty: certainty, Unknown: []string{}}
	for part := range w.Unknown() {
		name := part.Name()
		// Two medals are told apart by what their fittings are called.
		if of := part.Part(); part.Stock() == "" && of != "" && of != name {
			name = of + " (" + name + ")"
		}
		out.Unknown = append(out.Unknown, name)
	}
	return out, nil
}
