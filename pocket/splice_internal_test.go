package pocket

import (
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Parts of a long strip are cut as one where they are alike in everything that is drawn on
// them, but for where lines and tabs end, which a blank fills in; with any other measure
// changed they are two.
func TestPartsThatAreAlike(t *testing.T) {
	const mm = units.Millimetre
	drawing := func() score.Draft {
		return score.Draft{
			Lines:   []score.Line{{Axis: score.Upright, At: 40 * mm, From: 10 * mm, Fold: score.Valley}},
			CutOuts: []score.CutOut{{Area: rect(50*mm, 60*mm, 9*mm, 8*mm)}},
			Glue:    []score.Glue{{Area: rect(0, 60*mm, 5*mm, 8*mm)}},
			Notches: []score.Notch{{Edge: score.Head, Middle: 20 * mm, Width: 16 * mm, Depth: 8 * mm, Round: true}},
			Tabs:    []score.Tab{{Edge: score.Right, Depth: 10 * mm}},
		}
	}
	for name, change := range map[string]func(*score.Draft){
		"axis of a line":    func(d *score.Draft) { d.Lines[0].Axis = score.Level },
		"place of a line":   func(d *score.Draft) { d.Lines[0].At++ },
		"begin of a line":   func(d *score.Draft) { d.Lines[0].From++ },
		"fold of a line":    func(d *score.Draft) { d.Lines[0].Fold = score.Mountain },
		"one more line":     func(d *score.Draft) { d.Lines = append(d.Lines, d.Lines[0]) },
		"cut-out":           func(d *score.Draft) { d.CutOuts[0].Area.Max.X++ },
		"no cut-out":        func(d *score.Draft) { d.CutOuts = nil },
		"glue":              func(d *score.Draft) { d.Glue[0].Area.Min.Y++ },
		"notch":             func(d *score.Draft) { d.Notches[0].Middle++ },
		"square notch":      func(d *score.Draft) { d.Notches[0].Round = false },
		"edge of a tab":     func(d *score.Draft) { d.Tabs[0].Edge = score.Left },
		"depth of a tab":    func(d *score.Draft) { d.Tabs[0].Depth++ },
		"side of a tab":     func(d *score.Draft) { d.Tabs[0].Side = score.Back },
		"no tab":            func(d *score.Draft) { d.Tabs = nil },
		"":                  func(*score.Draft) {},
		"but end of a line": func(d *score.Draft) { d.Lines[0].To = 70 * mm },
		"but end of a tab":  func(d *score.Draft) { d.Tabs[0].To = 70 * mm },
	} {
		other := drawing()
		change(&other)
		if alike := name == "" || name[:3] == "but"; sameDrawing(drawing(), other) != alike || sameDrawing(other, drawing()) != alike {
			t.Errorf("%s: alike %t", name, !alike)
		}
	}
}

// A strip of one panel is left where a joint is at the fold beside another, or beside an end.
func TestStripsOfOnePanel(t *testing.T) {
	for _, c := range []struct {
		folds  []int
		panels int
		want   bool
	}{
		{nil, 1, true}, {nil, 2, false}, {[]int{1}, 4, true}, {[]int{2}, 4, false}, {[]int{3}, 4, true},
		{[]int{2, 4}, 6, false}, {[]int{2, 3}, 6, true}, {[]int{3, 5}, 6, true}, {[]int{1, 3}, 5, true}, {[]int{4, 6}, 9, false},
	} {
		var cutAt []hiding
		for _, n := range c.folds {
			cutAt = append(cutAt, hiding{n, times(n, units.Centimetre)})
		}
		if got := singles(cutAt, c.panels); got != c.want {
			t.Errorf("joints at the folds %v of %d panels: one panel by itself: %t", c.folds, c.panels, got)
		}
	}
}
