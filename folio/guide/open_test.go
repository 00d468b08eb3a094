package guide_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

func TestTheFolioIsDrawn(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}})
	for name, draw := range map[string]func(*folio.Plan, guide.Options) (guide.Picture, bool){
		"wrap": guide.Wrap, "inside": guide.Inside, "outside": guide.Outside, "closed": guide.Closed,
	} {
		pic, ok := draw(p, guide.Options{})
		if !ok || pic.Empty() {
			t.Fatalf("%s is not drawn", name)
		}
		wellFormed(t, pic.AppendSVG(nil))
		for _, none := range []*folio.Plan{nil, {}} {
			if _, ok := draw(none, guide.Options{}); ok {
				t.Errorf("%s of no plan is drawn", name)
			}
		}
	}
}
