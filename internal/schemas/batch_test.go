package schemas_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio/wire"
)

// The document of a batch, and what is wrong with it: schema and reader take the
// same and refuse the same, but for texts that only the reader can tell.
func TestBatches(t *testing.T) {
	s := compiled(t, wire.BatchSchema())
	const good = `{"version": 1, "batch": {
		"folios": [{"spec": {"cover": "6 x 8 in", "spine": {"width": "5/8 in"}}, "copies": 12}],
		"materials": [{"name": "covering", "caliper": "0.006 in", "cutter": {"longestCut": "none"},
			"sheets": [{"size": "18 x 24 in", "grain": "along the height", "count": -1, "price": "4.50 USD", "offcut": true, "trim": "1/8 in"}]}],
		"except": ["card"],
		"cutter": {"kerf": "1 mm", "stack": "3 mm"},
		"keep": {"short": "2 in", "long": "5 in"},
		"costs": {"sheets": "less offcuts", "minutes": [25], "rate": "18.00 USD", "fee": "5.00 USD", "margin": 3000, "roundTo": 25, "prices": ["9.00 USD"],
			"supplies": [{"name": "glue", "price": "6.00 USD", "contents": 500, "measure": "g", "amounts": [20]}]}
	}}`
	check := func(doc string, want, schemaToo bool) {
		t.Helper()
		_, err := wire.ReadBatch([]byte(doc))
		if got := err == nil; got != want {
			t.Errorf("the reader takes it: %v: %v\n%s", got, err, doc)
		}
		if got := s.Validate(read(t, []byte(doc))) == nil; schemaToo && got != want {
			t.Errorf("the schema takes it: %v\n%s", got, doc)
		}
	}
	check(good, true, true)
	for old, changes := range map[string][]string{
		`"copies": 12`:                {`"copies": "12"`, `"copies": 1.5`, `"Copies": 12`, `"copies": null`, `"copies": 99999999999`},
		`"except": ["card"]`:          {`"except": "card"`, `"except": [7]`},
		`"grain": "along the height"`: {`"grain": "upwards"`, `"grain": 2`},
		`"price": "4.50 USD"`:         {`"price": 4.5`, `"price": {}`},
		`"offcut": true`:              {`"offcut": "true"`, `"offcut": 1`},
		`"sheets": "less offcuts"`:    {`"sheets": "half"`},
		`"minutes": [25]`:             {`"minutes": 25`, `"minutes": ["25"]`},
		`"roundTo": 25`:               {`"roundTo": "25"`, `"roundTo": 2.5`},
		`"version": 1`:                {`"version": 2`, `"version": "1"`},
		`"folios": [{`:                {`"folios": [7, {`, `"folio": [{`},
	} {
		for _, new := range changes {
			if !strings.Contains(good, old) {
				t.Fatalf("no %s", old)
			}
			check(strings.Replace(good, old, new, 1), false, true)
		}
	}
	// Texts whose form only the reader knows.
	for old, new := range map[string]string{`"18 x 24 in"`: `"18 by 24"`, `"4.50 USD"`: `"much"`, `"1 mm"`: `"a hair"`} {
		check(strings.Replace(good, old, new, 1), false, false)
	}
}
