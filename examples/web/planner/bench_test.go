package planner_test

import (
	"fmt"
	"strings"
	"testing"

	"boardwrap.example/examples/web/planner"
)

// crowded is the document of a folio with thirty fittings of six kinds, in five rows of
// three on each cover, for covers of a width.
func crowded(width string) string {
	kinds := [...]string{
		`{"type":"mat","picture":{"size":"60 x 40 mm"}}`,
		`{"type":"folded","kind":{"type":"gusset pocket","content":{"name":"race card","size":"60 x 40 mm"}}}`,
		`{"type":"frame","picture":{"size":"50 x 40 mm"}}`,
		`{"type":"folded","kind":{"type":"slip pocket","content":{"size":"60 x 40 mm"}}}`,
		`{"type":"ornament","size":"30 x 30 mm"}`,
		`{"type":"folded","kind":{"type":"corner pocket","content":{"size":"60 x 40 mm"}}}`,
	}
	var list []string
	for i := range 30 {
		panel := [...]string{"left cover", "right cover"}[i/15]
		list = append(list, fmt.Sprintf(`{"name":"crew %d","panel":%q,"kind":%s,"place":{"across":"left","along":"head","offset":{"x":"%d mm","y":"%d mm"}}}`,
			i+1, panel, kinds[i%len(kinds)], 6+i%3*102, 6+i/3%5*92))
	}
	return `{"version":1,"spec":{"rulers":{"main":"1 mm"},"cover":"` + width + ` x 480 mm","spine":{"width":"40 mm"},"fittings":[` + strings.Join(list, ",") + `]}}`
}

// What the page asks at a keystroke, of a folio as people make them and of a crowded
// one: no plan is at hand.
func BenchmarkKeystroke(b *testing.B) {
	for _, c := range [...]struct {
		name  string
		texts [2]string
	}{
		{"usual", [2]string{metric, strings.Replace(metric, "150 x", "151 x", 1)}},
		{"crowded", [2]string{crowded("320"), crowded("321")}},
	} {
		b.Run(c.name, func(b *testing.B) {
			d := planner.New(planner.Pictures{})
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				text := c.texts[i%2]
				if got := d.Ask("summary", text); strings.HasPrefix(got, `{"version":1,"error"`) {
					b.Fatal(got)
				}
				d.Ask("pictures", text, `{"version":1,"names":["inside","closed"],"list":false,"fit":"180.0 x 216.0 mm"}`)
				d.Ask("pictures", text, `{"version":1,"names":[]}`)
			}
		})
	}
}
