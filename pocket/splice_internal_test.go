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

// Parts of a strip are told apart by letters, as columns of a table are.
func TestPartsByLetters(t *testing.T) {
	for n, want := range map[int]string{0: "A", 1: "B", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(n); got != want {
			t.Errorf("part %d is %q; want %q", n, got, want)
		}
	}
}

// A strip that is to be folded twice at one line does not lie as told.
func TestWhatIsNotFoldedIsTold(t *testing.T) {
	lines := []score.Line{{At: 20 * mm}, {At: 40 * mm}}
	panels := []units.Length{20 * mm, 20 * mm, 20 * mm}
	var s folding
	if s.foldStrip(panels, lines, []crease{{at: 20 * mm}, {at: 20 * mm}, {at: 40 * mm}}, false); s.bad.Len() == 0 {
		t.Error("it lies folded twice at one line")
	}
	s = folding{}
	if l := s.foldStrip(panels, lines, []crease{{at: 40 * mm, moves: score.Right}, {at: 20 * mm, moves: score.Right}}, false); s.bad.Len() > 0 || l.under(0) != 0 {
		t.Errorf("%v; %d layers under the first panel", s.bad.Err(), l.under(0))
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
