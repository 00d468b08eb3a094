package folio_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units/check"
)

// wished asks of a row which board stays on the table and what lies over what.
func wished(r *rand.Rand, s folio.Spec) folio.Spec {
	var lying []int
	for i, b := range s.Row.Boards {
		if !b.Role.Spine() {
			lying = append(lying, i)
		}
	}
	if r.IntN(2) == 0 {
		s.Row.Main = s.Row.Boards[lying[r.IntN(len(lying))]].Role
	}
	for range r.IntN(3) {
		a, b := lying[r.IntN(len(lying))], lying[r.IntN(len(lying))]
		if a != b {
			s.Row.Boards[a].Over = s.Row.Boards[b].Role
		}
	}
	return s
}

// asSaid does what a violation of a row that never shuts says would do.
func asSaid(s folio.Spec, v check.Violation) ([]folio.Spec, error) {
	fold := func(s *folio.Spec, joint int, f score.Fold) {
		joints := s.Row.Joints
		joints[joint].Fold = f
		if b := s.Row.Boards; b[joint].Role.Spine() {
			joints[joint-1].Fold = f
		} else if b[joint+1].Role.Spine() {
			joints[joint+1].Fold = f
		}
	}
	s = s.WithDefaults() // with lists of its own
	for i := range s.Row.Joints {
		switch {
		case v.Path != check.Index("row.joints", i)+".fold":
		case v.Want == `"valley" there`:
			fold(&s, i, score.Valley)
			return []folio.Spec{s}, nil
		case v.Want == `"mountain" there`:
			fold(&s, i, score.Mountain)
			return []folio.Spec{s}, nil
		case strings.HasPrefix(v.Want, "valley and mountain in turn, with a valley at the right end, and no board given"):
			next := score.Valley
			for j := len(s.Row.Joints) - 1; j >= 0; j-- {
				if fold(&s, j, next); !s.Row.Boards[j].Role.Spine() {
					next = next.Other()
				}
			}
			s.Row.Main = boards.MainPanel
			for b := range s.Row.Boards {
				s.Row.Boards[b].Over = boards.MainPanel
			}
			return []folio.Spec{s}, nil
		}
	}
	for i := range s.Row.Boards {
		if v.Path == check.Index("row.boards", i)+".over" && strings.HasPrefix(v.Want, "no board to lie over") {
			s.Row.Boards[i].Over = boards.MainPanel
			return []folio.Spec{s}, nil
		}
	}
	if v.Path == "row.main" {
		both := []folio.Spec{s}
		both[0].Row.Main = boards.MainPanel
		for role := boards.LeftCover; role <= boards.Panel9; role++ {
			if v.Want == "none, or the "+role.String() {
				s.Row.Main = role
				return append(both, s), nil
			}
		}
	}
	return nil, fmt.Errorf("nobody can do what it says: %v", v)
}

// What is said of a row that never shuts, done in one go, lets it shut, whatever is
// asked of what lies over what and stays on the table; where boards
// cannot lie over others, that is said of one after another.
func TestNeverShutsIsMended(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 6))
	said := map[string]int{}
	for trial := range proptest.Cases(1500) {
		s := wished(r, ownRow(r, 2+trial%4))
		_, err := folio.Build(s)
		for n := 0; refusedWith(err, "", folio.NeverShuts); n++ {
			var bad *check.Error
			if !errors.As(err, &bad) || bad.Len() != 1 {
				t.Fatalf("trial %d: %v", trial, err)
			}
			for v := range bad.All() {
				mended, bad := asSaid(s, v)
				if bad != nil {
					t.Fatalf("trial %d: %v", trial, bad)
				}
				kind := v.Path[strings.LastIndex(v.Path, "."):]
				said[kind]++
				for _, m := range mended {
					_, err = folio.Build(m)
					if over := kind == ".over" && refusedWith(err, "", folio.NeverShuts); over && n < 8 {
						continue // of another board, or of the one on the table
					}
					if refusedWith(err, "", folio.NeverShuts) {
						t.Fatalf("trial %d: done as %v says, it is %v\n%+v", trial, v, err, s.Row)
					}
				}
				s = mended[len(mended)-1]
			}
		}
	}
	t.Log(said)
	for _, kind := range []string{".fold", ".main", ".over"} {
		if said[kind] < proptest.Cases(1500)/40 {
			t.Errorf("%s is said %d times", kind, said[kind])
		}
	}
}
