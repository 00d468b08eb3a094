package answers

import (
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

// batch answers with the layout and the costs of a batch. The second text may ask for
// less room for the picture of a sheet, or for more.
func batch(_ *planner.Desk, texts [3]string) ([]byte, error) {
	b, err := wire.ReadBatch([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	w := wire.PicturesWanted{Fit: units.Size{W: sheetRoom, H: sheetRoom}}
	if texts[1] != "" {
		if w, err = wire.ReadPicturesWanted([]byte(texts[1])); err != nil {
			return nil, err
		}
	}
	job, apart, err := jobOf(b)
	if err != nil {
		return nil, err
	}
	l, err := layout.Lay(nil, job, layout.Budget{Steps: searchSteps})
	if l == nil {
		return nil, under("batch", err)
	}
	var fault string // of what has no place, or of the costs
	if err != nil {
		fault = planner.Fault(under("batch", err), l.Notation())
	}
	doc, err := wire.AppendLayout(nil, l, wire.Options{})
	if err != nil {
		return nil, err
	}
	var sheets []any // how they are cut
	for one := range l.Sheets() {
		if len(sheets) == planner.MostPictures {
			break
		}
		name := "sheet " + strconv.Itoa(one.Number())
		pic, _ := guide.Sheet(l, one.Number(), guide.Options{Fit: w.Fit})
		sheets = append(sheets, map[string]any{
			"name":  name,
			"title": pic.Title(),
			"svg":   string(pic.AppendEmbedded(nil, strings.ReplaceAll(name, " ", "-"))),
		})
	}
	// Materials without sheets are to be bought cut to size.
	laid := map[string]any{"apart": apart, "layout": doc}
	if c, err := cost.Of(l, b.Costs); err != nil {
		fault = planner.Fault(under("batch.costs", err), l.Notation())
	} else if doc, err = wire.AppendCosts(nil, c, wire.Options{}); err != nil {
		return nil, err
	} else {
		laid["costs"] = doc
	}
	if fault != "" {
		laid["error"] = []byte(fault)
	}
	if len(sheets) > 0 {
		laid["sheets"] = sheets
	}
	return wire.AppendAnswer(nil, map[string]any{"laid": laid})
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
