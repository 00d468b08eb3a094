package folio_test

import (
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Warnings are read one under the other, without their paths: one about a fitting names
// it, and of several the right one.
func TestWarningsNameTheirFitting(t *testing.T) {
	about := 0
	proptest.Run(t, 400, func(p *gopter.Properties) {
		p.Property("a warning names its fitting", prop.ForAll(func(m made) string {
			_, plan, err := m.plans()
			if err != nil {
				return ""
			}
			for w := range plan.Warnings() {
				for f := range plan.Fittings() {
					at := check.Index("fittings", f.Index())
					if w.Path != at && !strings.HasPrefix(w.Path, at+".") {
						continue
					}
					about++
					if !strings.Contains(w.Text, f.Label()) {
						return w.String() + " does not name the " + f.Label()
					}
				}
			}
			return ""
		}, anyMade()))
	})
	if about == 0 {
		t.Error("no warning was about a fitting")
	}
}

// A name is not said by a word that has its letters, and is said once.
func TestWarningsNameAShortName(t *testing.T) {
	s := plainCase()
	for _, name := range []string{"pap", "the ticket"} {
		s.Fittings = append(s.Fittings, folio.Fitting{Name: name, Kind: folio.Folded{Kind: pocket.Gusset{Content: pocket.Content{Size: units.Size{W: 40 * mm, H: 30 * mm}, Thickness: mm}}}})
	}
	s.Fittings[1].Outside = true
	told := 0
	for w := range mustBuild(t, s).Warnings() {
		if w.Code != pocket.WrongSideShows {
			continue
		}
		if want := s.Fittings[told].Name + ": only one side of the paper"; !strings.HasPrefix(w.Text, want) {
			t.Errorf("%q, want %q first", w.Text, want)
		}
		told++
	}
	if told != 2 {
		t.Errorf("told %d times", told)
	}
}
