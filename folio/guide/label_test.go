package guide_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

// leaders lists the lines from a dot to a name, which stands right of their end.
func (r *reading) leaders() []readLine {
	return slices.DeleteFunc(slices.Clone(r.lines), func(l readLine) bool {
		if l.legend || l.kind != "thin" || len(l.pts) != 2 || !slices.ContainsFunc(r.circles, func(c readCircle) bool { return c.middle == l.pts[0] }) {
			return true
		}
		end := l.pts[1]
		return !slices.ContainsFunc(r.texts, func(t readText) bool {
			return t.box.x0 > end.x && t.box.x0-end.x < t.height && t.box.y0-t.height < end.y && end.y < t.box.y1
		})
	})
}

// tangled names two leaders that cross, or one that runs through the dot of another;
// empty if none does.
func (r *reading) tangled() string {
	list := r.leaders()
	for i, l := range list {
		a, b := l.pts[0], l.pts[1]
		for k, m := range list {
			c, d := m.pts[0], m.pts[1]
			if k < i && side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
				return fmt.Sprintf("leaders from %v to %v and from %v to %v cross", a, b, c, d)
			}
			for _, o := range r.circles {
				if o.middle == c && k != i && c != a && crosses(a, b, box{c.x - o.radius, c.y - o.radius, c.x + o.radius, c.y + o.radius}) {
					return fmt.Sprintf("the leader from %v to %v runs through the dot at %v", a, b, c)
				}
			}
		}
	}
	return ""
}

// side tells on which side of the line from a to b a point lies.
func side(a, b, c point) int {
	var x, y big.Int
	x.Mul(big.NewInt(b.x-a.x), big.NewInt(c.y-a.y))
	y.Mul(big.NewInt(b.y-a.y), big.NewInt(c.x-a.x))
	return x.Cmp(&y)
}

// A reader finds from every name to what it names: no two leaders cross, and none runs
// through the dot of another.
func TestLeadersDoNotTangle(t *testing.T) {
	leaders := 0
	for _, s := range slices.Concat(samples(), everyForm()) {
		for i := range drawings(s.plan) {
			for option := range options[:2] {
				if v := s.show(i, option); v.reading != nil {
					leaders += len(v.leaders())
					if bad := v.tangled(); bad != "" {
						t.Errorf("%s, %s, %v: %s", s.name, v.drawing.name, options[option].Fit, bad)
					}
				}
			}
		}
		r, bad := readPicture(guide.Wrap(s.plan, guide.Options{Fit: units.Size{W: 120 * mm}})) // many boards, and little room
		if bad == "" {
			bad = r.tangled()
		}
		if bad != "" {
			t.Errorf("%s, wrap: %s", s.name, bad)
		}
	}
	if leaders < 1000 {
		t.Errorf("%d leaders", leaders)
	}
}
