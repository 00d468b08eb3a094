//go:build long

package guide_test

import (
	"fmt"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
)

func TestLongNoWordOverlapsAnything(t *testing.T) {
	proptest.Run(t, 25, func(ps *gopter.Properties) {
		ps.Property("no word of any picture of a plan overlaps anything", prop.ForAll(func(s folio.Spec, turn int) string {
			p, err := folio.Build(s)
			if err != nil {
				return ""
			}
			for k, d := range drawings(p) {
				pic, ok := d.draw(options[(turn+k)%len(options)])
				if !ok {
					continue
				}
				r, err := read(pic.AppendSVG(nil))
				if err != nil {
					return d.name + ": " + err.Error()
				}
				if bad := r.overlaps(); bad != "" {
					return fmt.Sprintf("%s: %s", d.name, bad)
				}
			}
			return ""
		}, anyPlan(), gen.IntRange(0, 10_000)))
	})
}

func TestLongEveryStepReadsBack(t *testing.T) {
	proptest.Run(t, 5, func(ps *gopter.Properties) {
		ps.Property("every step of a plan shows what it does where the plan has it", prop.ForAll(func(s folio.Spec, turn int) string {
			p, err := folio.Build(s)
			if err != nil {
				return ""
			}
			var before []work.Action
			for st := range p.Steps() {
				if bad := stepReads(p, st, before, looking(p, options[(turn+st.Number)%len(options)])); bad != "" {
					return bad
				}
				before = append(before, st.Do...)
			}
			return ""
		}, anyPlan(), gen.IntRange(0, 10_000)))
	})
}
