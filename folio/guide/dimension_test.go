package guide_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// figureOf reads a figure of a dimension: a length in millimetres or in inches.
// What is rounded, and what is no figure, is not read.
func figureOf(s, unit string) (int64, bool) {
	if s == "" || s[0] < '0' || s[0] > '9' {
		return 0, false
	}
	l, err := units.Parse(s + " " + unit)
	return nanos(l), err == nil
}

// A measuredText is a figure with what it must be as long as.
type measuredText struct {
	s     string
	value int64
	could []int64
}

// dimensions reads every figure of a picture with the distances that it may stand
// for: of a figure on a dimension line those between the extension lines at either
// side of it, of one on a leader those at the leader's foot, or how far that is
// from the origin of running dimensions.
func (r *reading) dimensions(unit string) []measuredText {
	var list []measuredText
	em := r.texts[0].height
	for _, t := range r.texts {
		v, ok := figureOf(t.s, unit)
		if !ok {
			continue
		}
		m := measuredText{s: t.s, value: v}
		for _, turned := range [...]bool{false, true} {
			m.could = append(m.could, r.onLine(t.box, em, turned)...)
		}
		m.could = append(m.could, r.onLeader(t.box, em)...)
		list = append(list, m)
	}
	return list
}

// along returns a point's places along and across an axis.
func along(p point, turned bool) (x, y int64) {
	if turned {
		return p.y, p.x
	}
	return p.x, p.y
}

// ticks lists where extension lines cross a dimension line, in order. They end
// right beyond it, as a leader that crosses it does not.
func (r *reading) ticks(from, to, at int64, turned bool) []int64 {
	var list []int64
	em := r.texts[0].height
	for _, l := range r.kind("thin") {
		x0, y0 := along(l.pts[0], turned)
		x1, y1 := along(l.pts[len(l.pts)-1], turned)
		if len(l.pts) == 2 && x0 == x1 && min(y0, y1) <= at && at <= max(y0, y1) && min(at-min(y0, y1), max(y0, y1)-at) < em/2 && from <= x0 && x0 <= to {
			list = append(list, x0)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// gap returns the distance between the ticks round a place.
func gap(ticks []int64, at int64) (int64, bool) {
	for i := 1; i < len(ticks); i++ {
		if ticks[i-1] < at && at < ticks[i] {
			return ticks[i] - ticks[i-1], true
		}
	}
	return 0, false
}

// onLine returns the distances of the dimension lines that a figure stands on.
func (r *reading) onLine(b box, em int64, turned bool) []int64 {
	a0, c0 := along(point{b.x0, b.y0}, turned)
	a1, c1 := along(point{b.x1, b.y1}, turned)
	mid := (a0 + a1) / 2
	var list []int64
	for _, l := range r.kind("thin") {
		x0, y0 := along(l.pts[0], turned)
		x1, y1 := along(l.pts[len(l.pts)-1], turned)
		if len(l.pts) != 2 || y0 != y1 || min(x0, x1) > mid || max(x0, x1) < mid || y0 < c0-em || y0 > c1+em {
			continue
		}
		if d, ok := gap(r.ticks(min(x0, x1), max(x0, x1), y0, turned), mid); ok {
			list = append(list, d)
		}
	}
	return list
}

// onLeader returns what a figure at the end of a leader may stand for.
func (r *reading) onLeader(b box, em int64) []int64 {
	near := box{b.x0 - em/2, b.y0 - em/2, b.x1 + em/2, b.y1 + em/2}
	var list []int64
	for _, l := range r.kind("thin") {
		if len(l.pts) != 3 {
			continue
		}
		if end := l.pts[2]; end.x < near.x0 || end.x > near.x1 || end.y < near.y0 || end.y > near.y1 {
			continue
		}
		turned := l.pts[0].y == l.pts[1].y // it runs straight out to the side
		foot, at := along(l.pts[0], turned)
		for _, c := range r.circles {
			if x, _ := along(c.middle, turned); foot != x {
				list = append(list, max(foot-x, x-foot))
			}
		}
		for _, line := range r.kind("thin") {
			x0, y0 := along(line.pts[0], turned)
			x1, y1 := along(line.pts[len(line.pts)-1], turned)
			if len(line.pts) == 2 && y0 == y1 && y0 == at && min(x0, x1) < foot && foot < max(x0, x1) {
				if d, ok := gap(r.ticks(min(x0, x1), max(x0, x1), at, turned), foot); ok {
					list = append(list, d)
				}
			}
		}
	}
	return list
}

// arrowsEnd names a dimension line that does not end at its extension lines as it should:
// between each two of them with an arrowhead to either, drawn on the line, or, where it
// is short, with a dot on either; empty if all do.
func (r *reading) arrowsEnd() string {
	type arrow struct{ tip, foot point }
	var arrows []arrow
	long := int64(0)
	for _, l := range r.kind("mark") {
		if p := l.pts; len(p) == 4 {
			a := arrow{p[0], point{(p[1].x + p[2].x) / 2, (p[1].y + p[2].y) / 2}}
			wide := max(p[1].x-p[2].x, p[2].x-p[1].x, p[1].y-p[2].y, p[2].y-p[1].y)
			length := max(a.tip.x-a.foot.x, a.foot.x-a.tip.x, a.tip.y-a.foot.y, a.foot.y-a.tip.y)
			if long = max(long, length); wide*4 < length-4000 || wide*4 > length+4000 {
				return fmt.Sprintf("an arrowhead of %d by %d", length, wide)
			}
			arrows = append(arrows, a)
		}
	}
	for _, l := range r.kind("thin") {
		for _, turned := range [...]bool{false, true} {
			x0, y0 := along(l.pts[0], turned)
			x1, y1 := along(l.pts[len(l.pts)-1], turned)
			ticks := r.ticks(min(x0, x1), max(x0, x1), y0, turned)
			if len(l.pts) != 2 || y0 != y1 || len(ticks) < 2 || ticks[0] != min(x0, x1) || ticks[len(ticks)-1] != max(x0, x1) {
				continue
			}
			for _, swing := range r.kind("swing", "swingunder") {
				for i := 1; i < len(swing.pts); i++ {
					if crosses(swing.pts[i-1], swing.pts[i], box{l.pts[0].x - 1, l.pts[0].y - 1, l.pts[1].x + 1, l.pts[1].y + 1}) {
						return fmt.Sprintf("the arrow of a fold crosses the dimension from %v to %v", l.pts[0], l.pts[1])
					}
				}
			}
			for i := 1; i < len(ticks); i++ {
				a, b := ticks[i-1], ticks[i]
				points := func(to int64) bool {
					return slices.ContainsFunc(arrows, func(w arrow) bool {
						x, y := along(w.tip, turned)
						foot, at := along(w.foot, turned)
						return x == to && y == y0 && within(at, y0) && a < foot && foot < b
					})
				}
				dotted := func(on int64) bool {
					return slices.ContainsFunc(r.circles, func(c readCircle) bool {
						x, y := along(c.middle, turned)
						return x == on && y == y0
					})
				}
				if short := !(points(a) && points(b)); short && !(dotted(a) && dotted(b)) || short != (2*(b-a) < 5*long) && long > 0 {
					return fmt.Sprintf("a dimension from %d to %d, turned %t at %d, has no ends", a, b, turned, y0)
				}
			}
		}
	}
	return ""
}

// unmeasured names a corner of what is cut, or an end of a fold, that no dimension is
// taken from along an axis; empty without any.
func (r *reading) unmeasured() string {
	for _, turned := range [...]bool{false, true} {
		from := map[int64]bool{}
		for _, l := range r.kind("thin") {
			x0, y0 := along(l.pts[0], turned)
			if x1, y1 := along(l.pts[1], turned); x0 == x1 && y0 != y1 {
				from[x0] = true
			}
		}
		for _, l := range r.kind("outline", "valley", "mountain") {
			for _, p := range l.pts {
				if x, _ := along(p, turned); !from[x] && len(l.pts) < 20 { // a rounded one is measured round about
					return fmt.Sprintf("nothing measures %v, turned %t", p, turned)
				}
			}
		}
	}
	return ""
}

// explains names a kind of line of which the legend has no sample, or a sample of a kind
// that is not drawn or that has no words right after it; empty without any.
func (r *reading) explains() string {
	drawn, sampled := map[string]bool{}, map[string]bool{}
	for _, l := range r.lines {
		if !l.legend {
			drawn[l.kind] = true
			continue
		}
		end := l.pts[1]
		em := r.texts[0].height
		if sampled[l.kind] || !slices.ContainsFunc(r.texts, func(t readText) bool {
			return t.box.x0 > end.x && t.box.x0 < end.x+em && t.box.y0 < end.y && end.y < t.box.y1
		}) {
			return fmt.Sprintf("a sample of %q without words, or twice", l.kind)
		}
		sampled[l.kind] = true
	}
	for _, none := range []string{"thin", "mark", "swing", "swingunder"} {
		delete(drawn, none)
	}
	if !maps.Equal(drawn, sampled) {
		return fmt.Sprintf("drawn are %v, explained %v", drawn, sampled)
	}
	return ""
}

// Every figure says how long that is which it stands at, whether on its line or
// outside on a leader, in every kind of picture; and every piece has its width
// and its height said.
func TestFiguresAreTrue(t *testing.T) {
	for n, s := range slices.Concat(samples(), everyForm(), wide()) {
		unit := "in"
		if s.plan.Notation() == units.MetricDecimal {
			unit = "mm"
		}
		read := 0
		for v := range s.pictures(n % 2) {
			if bad := v.overlaps(); bad != "" {
				t.Errorf("%s, %s: %s", s.name, v.name, bad)
			}
			if v.name == "closed" || strings.HasPrefix(v.name, "accordion") || strings.Contains(v.desc, "Close the folio") {
				continue // an enlarged detail, lengths along a slant
			}
			if bad := v.arrowsEnd() + v.explains(); bad != "" {
				t.Errorf("%s, %s: %s", s.name, v.name, bad)
			}
			for _, m := range v.dimensions(unit) {
				read++
				if !slices.ContainsFunc(m.could, func(d int64) bool { return within(d, m.value) }) {
					t.Errorf("%s, %s: %q stands at what is %v nm long", s.name, v.name, m.s, m.could)
				}
			}
		}
		if read < 20 {
			t.Errorf("%s: only %d figures", s.name, read)
		}
		i := 0
		for piece := range s.plan.Pieces() {
			r, bad := s.look(n % 2)(fmt.Sprintf("piece %d", i))
			if bad != "" {
				t.Fatal(bad)
			}
			// The tip of a pocket's corner has no dimension of its own.
			if bad := r.unmeasured(); bad != "" && piece.Name() != "corner" && !strings.Contains(fmt.Sprint(r.texts), "written") {
				t.Errorf("%s, %s: %s", s.name, piece.Name(), bad)
			}
			said := func(l units.Length) bool {
				return slices.ContainsFunc(r.dimensions(unit), func(m measuredText) bool { return within(m.value, nanos(l)) })
			}
			exact := !strings.Contains(fmt.Sprint(r.texts), "~")
			if size := piece.Size(); exact && (!said(size.W) || !said(size.H)) {
				t.Errorf("%s: the picture of the %s does not say %v", s.name, piece.Name(), size)
			}
			i++
		}
	}
}

// Where a thing is marked, laid and fixed on a board its place is drawn, with the figures
// that the step tells of the first one: of a guard that stands on a spine, too, of which
// nothing lies flat in the end.
func TestPlacesAreDimensioned(t *testing.T) {
	marks, standing := 0, 0
	for _, s := range slices.Concat(samples(), everyForm(), wide()) {
		unit := "in"
		if s.plan.Notation() == units.MetricDecimal {
			unit = "mm"
		}
		for st := range s.plan.Steps() {
			mark, ok := st.Do[0].(work.MarkPlace)
			if !ok || mark.On.Kind != work.OnBoard || strings.Contains(st.Text(units.Format{}), "~") {
				continue // a rounded figure is not read
			}
			r, bad := s.look(0)(fmt.Sprintf("step %d", st.Number))
			if bad != "" {
				t.Fatal(bad)
			}
			for _, l := range [...]units.Length{mark.At.X.Abs(), mark.At.Y.Abs()} {
				if marks++; l > 0 && !slices.ContainsFunc(r.dimensions(unit), func(m measuredText) bool {
					return within(m.value, nanos(l)) && slices.ContainsFunc(m.could, func(d int64) bool { return within(d, m.value) })
				}) {
					t.Errorf("%s, step %d, %s: no figure for %v", s.name, st.Number, st.Text(units.Format{}), l)
				}
			}
			if mark.What.Name == "guard" {
				standing++
			}
		}
	}
	if marks < 100 || standing < 2 {
		t.Errorf("only %d figures of marks, %d of guards", marks, standing)
	}
}

// The widths by which words are placed are those that the font's maker published.
func TestPublishedWidths(t *testing.T) {
	data, err := os.ReadFile("testdata/helvetica.json")
	if err != nil {
		t.Fatal(err)
	}
	var published struct{ Widths map[string]string }
	if err := json.Unmarshal(data, &published); err != nil {
		t.Fatal(err)
	}
	seen := map[rune]bool{}
	for w, signs := range published.Widths {
		want, _ := strconv.ParseInt(w, 10, 64)
		for _, r := range signs {
			seen[r] = true
			if got := guide.SignWidth(r); got != want {
				t.Errorf("%q is %d wide; published %d", r, got, want)
			}
		}
	}
	for r := ' '; r <= '~'; r++ {
		if !seen[r] {
			t.Errorf("no width of %q", r)
		}
	}
}

// A letter with an accent is as wide as the letter alone, an i with one as that without
// its dot, which is as wide as a space (Helvetica, Adobe's metrics of the core 14 fonts).
func TestAccentsTakeNoWidth(t *testing.T) {
	for plain, accented := range map[rune]string{'A': "ÀÁÂÃÄÅ", 'C': "Ç", 'E': "ÈÉÊË", 'I': "ÌÍÎÏ", 'N': "Ñ", 'O': "ÒÓÔÕÖØ", 'U': "ÙÚÛÜ", 'Y': "Ý",
		'a': "àáâãäå", 'c': "ç", 'e': "èéêë", ' ': "ìíîï\u00a0·", 'n': "ñ", 'o': "òóôõöð", 'u': "ùúûüµ", 'y': "ýÿ"} {
		for _, r := range accented {
			if got, want := guide.SignWidth(r), guide.SignWidth(plain); got != want {
				t.Errorf("%q is %d wide; %q is %d", r, got, plain, want)
			}
		}
	}
}

// Eighths and thirds are as wide as quarters, and no sign is wider than the text is high:
// one whose width nobody published counts as that.
func TestSignsWithoutWidths(t *testing.T) {
	for _, r := range "⅛⅜⅝⅞⅓⅔" {
		if got, want := guide.SignWidth(r), guide.SignWidth('¼'); got != want {
			t.Errorf("%q is %d wide; a quarter is %d", r, got, want)
		}
	}
	unknown := 0
	for r := rune(0); r < 0x2000; r++ {
		w := guide.SignWidth(r)
		if w == 1000 {
			unknown++
		}
		if control := r < ' ' || r > '~' && r < 0xA0; w <= 0 || w > 1015 || control && w != 1000 { // @ is the widest
			t.Errorf("%q is %d wide", r, w)
		}
	}
	if unknown < 0x1E00 {
		t.Errorf("only %d signs are as wide as the text is high", unknown)
	}
}

// What a folio's plan says of the open cover stands at the picture of it too.
func TestOpenFolioSaysItsSize(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	r, bad := readPicture(guide.Inside(p, guide.Options{}))
	if bad != "" {
		t.Fatal(bad)
	}
	var sum int64
	height := false
	for _, m := range r.dimensions("mm") {
		if m.value == nanos(p.OpenHeight().Length()) {
			height = true
		} else {
			sum += m.value
		}
	}
	if !height || sum != nanos(p.OpenWidth().Length()) {
		t.Errorf("the widths that are said sum to %d, height %t; want %v x %v", sum, height, p.OpenWidth().Length(), p.OpenHeight().Length())
	}
}
