package answers

import (
	"context"
	"encoding/json"
	"strconv"
	"strings"

	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// searchSteps bound a search in the browser, where a step takes some times as
// long as on the machine itself: seconds, not minutes.
const searchSteps = 10_000_000

// sheetRoom is how wide and high a sheet is drawn at most.
const sheetRoom = 100 * units.Millimetre

// laid is the member of the answer about a layout.
type laid struct {
	Apart  []string        `json:"apart"`            // materials without sheets: to be bought cut to size
	Layout json.RawMessage `json:"layout"`           // a document of folio/wire, as are Costs and Error
	Costs  json.RawMessage `json:"costs,omitempty"`  // none where they are wrong
	Error  json.RawMessage `json:"error,omitempty"`  // of what has no place, or of the costs
	Sheets []sheet         `json:"sheets,omitempty"` // how they are cut
}

// sheet is the picture of a sheet.
type sheet struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	SVG   string `json:"svg"`
}

// batch answers with the layout and the costs of a batch.
func batch(_ *planner.Desk, texts [3]string) ([]byte, error) {
	b, err := wire.ReadBatch([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	job, apart, err := jobOf(b)
	if err != nil {
		return nil, err
	}
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: searchSteps})
	if l == nil {
		return nil, under("batch", err)
	}
	out := laid{Apart: apart}
	if err != nil {
		out.Error = json.RawMessage(planner.Fault(under("batch", err), l.Notation()))
	}
	if out.Layout, err = wire.AppendLayout(nil, l, wire.Options{}); err != nil {
		return nil, err
	}
	for one := range l.Sheets() {
		if len(out.Sheets) == planner.MostPictures {
			break
		}
		name := "sheet " + strconv.Itoa(one.Number())
		pic, _ := guide.Sheet(l, one.Number(), guide.Options{Fit: units.Size{W: sheetRoom, H: sheetRoom}})
		out.Sheets = append(out.Sheets, sheet{name, pic.Title(), string(pic.AppendEmbedded(nil, strings.ReplaceAll(name, " ", "-")))})
	}
	if c, err := cost.Of(l, b.Costs); err != nil {
		out.Error = json.RawMessage(planner.Fault(under("batch.costs", err), l.Notation()))
	} else if out.Costs, err = wire.AppendCosts(nil, c, wire.Options{}); err != nil {
		return nil, err
	}
	return json.Marshal(struct {
		Version int  `json:"version"`
		Laid    laid `json:"laid"`
	}{wire.Version, out})
}

// jobOf makes a job of a batch: its materials, and those that its folios name
// besides. Materials without sheets are left out of it and returned.
func jobOf(b wire.Batch) (layout.Job, []string, error) {
	job, lacking, err := b.Job()
	job.Except = append(job.Except, lacking...)
	return job, append([]string{}, lacking...), under("batch", err)
}

// under is an error with the way to what it is about.
func under(prefix string, err error) error {
	var l check.List
	l.Under(prefix, err)
	return l.Err()
}
