package post_test

import (
	"testing"

	"boardwrap.example/folio/post"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	item := post.Item{Size: units.Size{W: 200 * mm, H: 100 * mm}}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MostFormats": {At: post.MostFormats, Path: "formats", Code: check.TooMany, Try: func(n int64) error {
			_, err := post.Service{Formats: make([]post.ItemFormat, n)}.Judge(item, units.MetricDecimal)
			return err
		}},
		"MostMass": {At: int64(post.MostMass), Path: "item.mass", Code: check.OutOfRange, Try: func(n int64) error {
			heavy := item
			heavy.Mass = units.Mass(n)
			_, err := post.USPS().Judge(heavy, units.MetricDecimal)
			return err
		}},
	})
}
