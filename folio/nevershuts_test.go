package folio_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
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

// wrongWith says what there is at a field that keeps a row from shutting.
func wrongWith(s folio.Spec, path string) string {
	for i, b := range s.Row.Boards {
		if path == check.Index("row.boards", i)+".over" {
			return "the " + b.Role.String() + " over the " + b.Over.String()
		}
	}
	for i, j := range s.Row.Joints {
		if path == check.Index("row.joints", i)+".fold" {
			return "a " + j.Fold.String() + " between the " + s.Row.Boards[i].Role.String() + " and the " + s.Row.Boards[i+1].Role.String()
		}
	}
	return "the " + s.Row.Main.String() + " on the table"
}

// What is said of a row that never shuts, done in one go, lets it shut, whatever is
// asked of what lies over what and stays on the table; where boards
// cannot lie over others, that is said of one after another.
func TestNeverShutsIsMended(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 6))
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
				if want := wrongWith(s, v.Path); !strings.Contains(v.Got, want) {
					t.Fatalf("trial %d: %v does not say that it is %s", trial, v, want)
				}
				said[kind]++
				if kind == ".main" { // that is wrong only where it is, whatever lies over what
					free := s.WithDefaults()
					for i := range free.Row.Boards {
						free.Row.Boards[i].Over = boards.MainPanel
					}
					if !refusedWith(builds(free), "", folio.NeverShuts) {
						t.Fatalf("trial %d: %v, but with no board to lie over it shuts about that one\n%+v", trial, v, s.Row)
					}
				}
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

// The board on the table must be one of the row that lies; and where a board is called
// what none is, or what another one is, the first panel that the row has not is named.
func TestBoardsOfARowAreThere(t *testing.T) {
	for _, main := range []boards.Role{boards.Panel9, boards.LeftCover, boards.Spine1} {
		s := zigzag(3)
		s.Row.Main = main
		if _, ok := refusal(s, "row.main", check.Unknown); !ok {
			t.Errorf("the %v on the table: %v", main, builds(s))
		}
	}
	for n := 2; n <= boards.MaxBoards; n++ {
		for _, role := range []boards.Role{boards.MainPanel, boards.Panel9 + 40, boards.Panel1} {
			s := zigzag(n)
			code := check.Unknown
			if s.Row.Boards[n-1].Role = role; role == boards.Panel1 {
				code = check.Conflict
			}
			want := boards.Panel1 + boards.Role(n-1)
			if v, ok := refusal(s, check.Index("row.boards", n-1)+".role", code); !ok || !strings.HasPrefix(v.Want, want.String()+",") {
				t.Errorf("%d boards, the last of them %v: %v, want the %v to be named", n, role, builds(s), want)
			}
		}
	}
}

// A gap that is too narrow is told what it must go round: in a fold with the insides
// together board and turn-ins, and with the outsides together the covering.
func TestWhatAGapGoesRound(t *testing.T) {
	for n := 3; n <= 6; n++ {
		for bad := range n - 1 {
			s := zigzag(n)
			s.Row.Joints[bad].Hinge = rule.Hinge{Width: mm / 10}
			v, ok := refusal(s, check.Index("row.joints", bad)+".hinge.width", folio.GapNarrow)
			if outside := s.Row.Joints[bad].Fold == score.Mountain; !ok || strings.Contains(v.Want, "for the covering") != outside || strings.Contains(v.Want, "board") == outside {
				t.Errorf("a gap of 0.1 mm in a %v: %v", s.Row.Joints[bad].Fold, builds(s))
			}
		}
	}
}

// A row that shuts, and does not with one board over another, is told that of this board, the
// first one as any other.
func TestOverIsToldOfItsBoard(t *testing.T) {
	refused := map[int]int{}
	for kind := range 4 {
		s := plainCase()
		s.Row = boards.Row{}
		for k := range 3 {
			if k > 0 {
				j := boards.Joint{Fold: score.Fold(kind >> (k - 1) & 1)}
				s.Row.Boards, s.Row.Joints = append(s.Row.Boards, boards.Board{Role: boards.Spine1 + boards.Role(k-1)}), append(s.Row.Joints, j, j)
			}
			s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(k)})
		}
		if err := builds(s); err != nil {
			t.Logf("%d: %v", kind, err)
			continue
		}
		for a := 0; a < 5; a += 2 {
			for b := 0; b < 5; b += 2 {
				if a == b {
					continue
				}
				with := s.WithDefaults()
				with.Row.Boards[a].Over = with.Row.Boards[b].Role
				err := builds(with)
				if err == nil {
					continue
				}
				if refused[a]++; only(err).Path != check.Index("row.boards", a)+".over" {
					t.Errorf("%d: %v", kind, err)
				}
			}
		}
	}
	if len(refused) < 3 {
		t.Errorf("refused are %v", refused)
	}
}
