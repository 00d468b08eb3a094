package score_test

import (
	"context"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// longStrip folds to and fro with its shortest panel in the middle, so that the
// first crimp is found there and every one after it lies a panel back.
func longStrip(b *testing.B, n int) score.Strip {
	b.Helper()
	panels := make([]units.Length, n)
	folds := make([]score.Fold, n-1)
	for i := range panels {
		// Shortest in the middle, growing outwards.
		d := i - n/2
		panels[i] = 100*units.Micrometre + units.Micrometre*units.Length(max(d, -d))/32
		if i < n-1 && i%2 == 0 {
			folds[i] = score.Mountain
		}
	}
	s, err := score.NewStrip(panels, folds...)
	if err != nil {
		b.Fatal(err)
	}
	return s
}

func BenchmarkFoldsFlat(b *testing.B) {
	for _, n := range []int{10, 100, score.MaxPanels} {
		s := longStrip(b, n)
		if !s.FoldsFlat() {
			b.Fatal("it does not fold")
		}
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.FoldsFlat()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/panel")
		})
	}
}

func BenchmarkFold(b *testing.B) {
	for _, n := range []int{10, 100, score.MaxPanels} {
		s := longStrip(b, n)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Fold(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/panel")
		})
	}
}

// BenchmarkFoldings lists all layer orders of 8 equal panels, all assignments
// together: 1392 of them.
func BenchmarkFoldings(b *testing.B) {
	var strips []score.Strip
	assignments(7, func(folds []score.Fold) {
		panels := make([]units.Length, 8)
		for i := range panels {
			panels[i] = units.Inch
		}
		s, err := score.NewStrip(panels, folds...)
		if err != nil {
			b.Fatal(err)
		}
		strips = append(strips, s)
	})
	b.ReportAllocs()
	for b.Loop() {
		total := 0
		for _, s := range strips {
			all, err := s.Foldings(context.Background(), plenty)
			if err != nil {
				b.Fatal(err)
			}
			total += len(all)
		}
		if total != 1392 {
			b.Fatal(total)
		}
	}
}

func BenchmarkCountFoldings(b *testing.B) {
	s := mustStripB(b, 16)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.CountFoldings(context.Background(), plenty); err != nil {
			b.Fatal(err)
		}
	}
}

func mustStripB(b *testing.B, n int) score.Strip {
	panels := make([]units.Length, n)
	for i := range panels {
		panels[i] = units.Inch
	}
	return mustStrip(b, panels, score.Repeat(n-1, score.Valley)...)
}

func BenchmarkFoldBy(b *testing.B) {
	for _, n := range []int{4, 16, 64, 256, 1024, score.MaxPanels} {
		s := longStrip(b, n)
		turns, err := s.Turns()
		if err != nil {
			b.Fatal(err)
		}
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.FoldBy(context.Background(), turns...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSnap(b *testing.B) {
	for _, n := range []int{4, 16, 64} {
		s := longStripWide(b, n)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := (score.Grooves{Pitch: units.Inch / 8}).Snap(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func longStripWide(b *testing.B, n int) score.Strip {
	panels := make([]units.Length, n)
	for i := range panels {
		panels[i] = 30*units.Millimetre + units.Micrometre*units.Length(i*7919%4000)
	}
	return mustStrip(b, panels, score.Alternate(n-1, score.Valley)...)
}

func BenchmarkCFold(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := score.CFold(11*units.Inch, score.TuckIn{Ruler: units.ThirtySeconds}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTurns(b *testing.B) {
	for _, n := range []int{10, 100, score.MaxPanels} {
		s := longStrip(b, n)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Turns(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/panel")
		})
	}
}

// BenchmarkFolded asks everything of the longest strips there may be: an
// accordion, a roll of falling widths, and panels of every width.
func BenchmarkFolded(b *testing.B) {
	n := score.MaxPanels
	falling, mixed := make([]units.Length, n), make([]units.Length, n)
	for i := range n {
		falling[i] = units.Length(n+4-i) * units.Micrometre * 4
		mixed[i] = units.Micrometre * units.Length(1000+i*7919%4000)
	}
	for name, s := range map[string]score.Strip{
		"accordion": mustStrip(b, slices.Repeat([]units.Length{4 * units.Millimetre}, n), score.Alternate(n-1, score.Valley)...),
		"roll":      mustStrip(b, falling, score.Repeat(n-1, score.Valley)...),
		"mixed":     mustStrip(b, mixed, score.Alternate(n-1, score.Valley)...),
	} {
		f, err := s.Fold()
		if err != nil {
			b.Fatal(err)
		}
		turns, err := s.Turns()
		if err != nil {
			b.Fatal(err)
		}
		for what, ask := range map[string]func(){
			"Fold":   func() { _, _ = s.Fold() },
			"FoldBy": func() { _, _ = s.FoldBy(context.Background(), turns...) },
			"Equal":  func() { _ = f.Equal(f) },
			"Top":    func() { _ = f.Top() },
			"Rooms":  func() { _ = f.Bays() },
			"Around": func() { _, _ = f.Around(units.Millimetre/10, 0) },
			"Profile": func() {
				_, _ = f.Profile(units.Millimetre / 10)
			},
			"Creases": func() { _ = f.Creases() },
			"Stacks": func() {
				for range f.Stacks() {
				}
			},
		} {
			b.Run(name+"/"+what, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					ask()
				}
			})
		}
	}
}
