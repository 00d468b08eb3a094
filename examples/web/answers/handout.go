package answers

import (
	"encoding/json"
	"errors"

	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/wire"
)

// handout answers with the hand-out of a folio; the second text is its form:
// html, which is the usual one, markdown or plain.
func (d *Desk) handout(texts [2]string) ([]byte, error) {
	p, err := d.build(texts[0])
	if err != nil {
		return nil, err
	}
	doc := guide.HandOut(p, guide.PrintOptions{})
	var text []byte
	switch texts[1] {
	case "", "html":
		text = doc.AppendHTML(nil)
	case "markdown":
		text = doc.AppendMarkdown(nil)
	case "plain":
		text = doc.AppendPlain(nil)
	default:
		return nil, errors.New("a hand-out is html, markdown or plain")
	}
	return json.Marshal(struct {
		Version int    `json:"version"`
		Title   string `json:"title"`
		Handout string `json:"handout"`
	}{wire.Version, doc.Title(), string(text)})
}
