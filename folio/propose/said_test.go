package propose_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// missaid says which reason in an answer is not one of its kind, or is not true of the
// request and of the proposal that it is said about.
func missaid(r propose.Request, a *propose.Proposals) string {
	for p := range a.All() {
		s := saying{r, p.Aim(), &p}
		for h := range p.Held() {
			for why := range h.Why() {
				if bad := s.wrong(why, ofHeld); bad != "" || why.Thing != h.Thing || why.Way != h.Way {
					return fmt.Sprintf("%v: of what is held, %+v: %s", p.Aim(), why, bad)
				}
			}
		}
		for o := range p.RuledOut() {
			if bad := s.wrong(o.Why, ofWay); bad != "" || o.Why.Thing != o.Thing || o.Why.Way != o.Way {
				return fmt.Sprintf("%v: ruled out, %+v: %s", p.Aim(), o.Why, bad)
			}
		}
		for o := range p.OtherForms() {
			kind := ofNone
			q, is := o.Proposal()
			if is {
				kind = ofForm
			}
			for why := range o.Why() {
				// The thinnest loses by its thickness if it can, any other by its cover.
				if cause := why.Cause; is && cause != propose.MoreSheets {
					thicker := q.Closed().Thickness().Length() > p.Closed().Thickness().Length()
					larger := q.Cover().Area().Compare(p.Cover().Area()) > 0
					if thicker && (p.Aim() == propose.Thinnest || !larger) && cause != propose.Thicker || larger && (p.Aim() != propose.Thinnest || !thicker) && cause != propose.Larger {
						return fmt.Sprintf("%v: of the form %v, thicker %t, larger %t, %+v", p.Aim(), o.Form(), thicker, larger, why)
					}
				}
				if bad := s.wrong(why, kind); bad != "" {
					return fmt.Sprintf("%v: of the form %v, %+v: %s", p.Aim(), o.Form(), why, bad)
				}
			}
		}
	}
	for l := range a.Unmet() {
		for why := range l.Why() {
			if bad := (saying{r, l.Aim(), nil}).wrong(why, ofNone); bad != "" {
				return fmt.Sprintf("lacking %v, %+v: %s", l.Aim(), why, bad)
			}
		}
	}
	return ""
}

// A saying is what reasons are given about: an aim of a request, and the folio that
// was taken, if there is one.
type saying struct {
	r   propose.Request
	aim propose.Aim
	p   *propose.Proposal
}

// What a reason is given for.
type given int

const (
	ofHeld given = iota // something is held as it is
	ofWay               // a way to hold something was not taken
	ofForm              // nor was a form, of which there is a folio
	ofNone              // there is no folio
)

// kinds are the causes of what reasons are given for.
var kinds = map[given][]propose.Cause{
	ofHeld: {propose.Shown, propose.Hidden, propose.ComesOut, propose.MayStick, propose.TakesThick, propose.InOne, propose.EachItsOwn,
		propose.AtSpine, propose.InMiddle, propose.AtHead, propose.OpensToHead, propose.OpensToBack},
	ofWay: {propose.Unwanted, propose.WouldStick, propose.WouldHide, propose.WouldShow, propose.WouldPart, propose.WouldPool, propose.OneIsNoRow, propose.LessWork,
		propose.CannotBe, propose.Unwise, propose.Larger, propose.Thicker, propose.NoBetter, propose.MoreSheets, propose.NotTried},
	ofForm: {propose.Larger, propose.Thicker, propose.NoBetter, propose.MoreSheets},
	ofNone: {propose.CannotBe, propose.Unwise, propose.NotTried, propose.OverCover, propose.OverThick, propose.OverSpace, propose.OverDepth,
		propose.OverPost, propose.OverSheets, propose.NoSheets, propose.NothingHolds,
		propose.Unwanted, propose.WouldStick, propose.WouldHide, propose.WouldShow, propose.WouldPart, propose.WouldPool, propose.OneIsNoRow},
}

// wrong says what is wrong with a reason.
func (s saying) wrong(why propose.Reason, kind given) string {
	text := why.Text(units.InchFraction)
	switch {
	case !slices.Contains(kinds[kind], why.Cause):
		return "it is no reason for that"
	case text == "" || strings.ContainsAny(text, "%\n") || !strings.HasSuffix(text, ".") || strings.HasSuffix(text, ".."):
		return fmt.Sprintf("it says %q", text)
	case why.Thing < -1 || why.Thing >= len(s.r.Things) || (kind == ofHeld || kind == ofWay) != (why.Thing >= 0) && kind != ofNone:
		return "it is about no thing, or about one"
	case why.Thing < 0 && (why.Name != "" || why.Way != 0 || why.Count != 0):
		return "it is about no thing"
	case why.Thing >= 0 && (why.Name != s.r.Things[why.Thing].Content.Name || why.Count < 1 || why.Count > max(s.r.Things[why.Thing].Count, 1)):
		return "it names another thing, or counts more than there are"
	}
	detail := slices.Contains([]propose.Cause{propose.CannotBe, propose.Unwise, propose.OverPost, propose.OverSheets}, why.Cause)
	sizes := slices.Contains([]propose.Cause{propose.Larger, propose.OverCover, propose.OverSpace}, why.Cause)
	thick := slices.Contains([]propose.Cause{propose.Thicker, propose.OverThick, propose.OverDepth}, why.Cause)
	switch {
	case detail != (why.Detail != ""):
		return "a detail is missing, or there is one"
	case sizes != (why.Size != units.Size{}) || sizes != (why.Than != units.Size{}):
		return "a size is missing, or there is one"
	case thick != (why.ThanThick != 0) || (thick || why.Cause == propose.TakesThick) != (why.Thick != 0):
		return "a thickness is missing, or there is one"
	case why.AtLeast && !sizes && !thick:
		return "it is no bound of anything"
	case (why.Cause == propose.MoreSheets) != (why.Sheets != 0 || why.ThanSheets != 0):
		return "sheets are missing, or there are some"
	}
	return s.untrue(why)
}

// untrue says what is not true of a reason that says enough.
func (s saying) untrue(why propose.Reason) string {
	l := s.r.Limits
	larger := why.Size.Area().Compare(why.Than.Area()) > 0
	switch why.Cause {
	case propose.LessWork:
		if slices.Contains(s.r.Without, propose.Slip) || why.Way != propose.Gusset || s.r.Things[why.Thing].Sight == propose.InView {
			return "no slip pocket is wanted, or it is none that takes as much"
		}
	case propose.Larger:
		if !larger || why.Than != s.p.Cover() {
			return fmt.Sprintf("the cover is %v", s.p.Cover())
		}
	case propose.Thicker:
		if is := s.p.Closed().Thickness().Length(); why.Thick <= why.ThanThick || why.ThanThick != is {
			return fmt.Sprintf("the folio is %v thick", is)
		}
	case propose.MoreSheets:
		if n, _ := s.p.Sheets(); s.aim != propose.FewestSheets || why.Sheets <= why.ThanSheets || why.ThanSheets != n {
			return fmt.Sprintf("it takes %d sheets", n)
		}
	case propose.OverCover:
		over := l.Cover.W > 0 && why.Size.W > l.Cover.W || l.Cover.H > 0 && why.Size.H > l.Cover.H
		than := units.Size{W: cmp.Or(l.Cover.W, why.Size.W), H: cmp.Or(l.Cover.H, why.Size.H)}
		if !over || why.Than != than {
			return fmt.Sprintf("the limit is %v", l.Cover)
		}
	case propose.OverSpace:
		if why.Than != l.Into.Size || why.Size.Grow(l.Into.Padding).FitsTurned(l.Into.Size) {
			return fmt.Sprintf("there is room for %v", l.Into)
		}
	case propose.OverThick, propose.OverDepth:
		most := l.Thickness
		if room := l.Into.Depth - 2*l.Into.Padding; l.Into.Depth > 0 && (most == 0 || room < most) {
			most = room
		}
		if most == 0 || why.ThanThick != most || why.Thick <= most {
			return fmt.Sprintf("the limit is %v", most)
		}
	case propose.OverPost:
		if l.Post.Service == "" {
			return "nobody sends it"
		}
	case propose.NoSheets: // of what the folio is made of
		c := s.r.Case
		for _, k := range [...]stock.Stock{c.Board, c.Covering, c.Liner} {
			if len(k.Sheets) > 0 {
				return "there are some of " + k.Name
			}
		}
		if s.aim != propose.FewestSheets {
			return "nobody counts them"
		}
	}
	return ""
}
