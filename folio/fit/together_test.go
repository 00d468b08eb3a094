package fit_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// chest is a rowing club's folio: covers of 120 x 120 mm of 2 mm board, a spine of 12 mm, so
// that closed its covers are 12 - 2·2 = 8 mm apart, and on the left one a pocket
// for three tickets of 40 x 50 x 0.25 mm at the tail.
func chest(t *testing.T) (*folio.Plan, pocket.Content) {
	t.Helper()
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: mm / 4}
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm},
		Fittings: []folio.Fitting{{
			Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: ticket, Count: 3}},
			Place: place.Place{Along: place.Tail},
		}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return p, ticket
}

// Two medals of 70 x 30 x 4.5 mm do not lie one over the other between covers that
// are 8 mm apart, and side by side they are wider than the covers: one above the
// other on their covers, or turned, beside each other they do, and three tickets go into their pocket besides.
func TestTogetherBesideEachOther(t *testing.T) {
	p, ticket := chest(t)
	survey, ctx := fit.Of(p), context.Background()
	medal := pocket.Content{Name: "medal", Size: units.Size{W: 70 * mm, H: 30 * mm}, Thickness: 9 * mm / 2}
	for name, contents := range map[string][]pocket.Content{
		"medals":               {medal, medal},
		"a ticket, medals":     {ticket, medal, medal},
		"tickets, then medals": {ticket, ticket, ticket, medal, medal},
		"medals, then tickets": {medal, medal, ticket, ticket, ticket},
	} {
		ways, err := survey.All(ctx, fit.Budget{}, contents...)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		lie := map[boards.Role]units.Rect{}
		for i, w := range ways {
			switch {
			case w.Content().Name != contents[i].Name:
				t.Errorf("%s: the way of %s is of %s", name, contents[i].Name, w.Content().Name)
			case w.Content().Name == "medal":
				if w.Room().Kind() != fit.OnPanel || !lie[w.Room().Panel()].Empty() {
					t.Errorf("%s: a medal lies %v", name, w.Room())
				}
				lie[w.Room().Panel()] = w.Rect()
			case len(contents) == 5 && w.Room().Kind() != fit.Slipped:
				t.Errorf("%s: a ticket lies %v", name, w.Room())
			}
		}
		left, right := lie[boards.LeftCover], lie[boards.RightCover]
		// Closed, the one cover lies on the other: mirrored about the spine's middle.
		l, _ := p.Panel(boards.LeftCover, false)
		r, _ := p.Panel(boards.RightCover, false)
		mirror := units.Rect{Min: units.Point{X: l.Min.X + r.Max.X - left.Max.X, Y: left.Min.Y}, Max: units.Point{X: l.Min.X + r.Max.X - left.Min.X, Y: left.Max.Y}}
		if left.Empty() || right.Empty() || mirror.Overlaps(right) {
			t.Errorf("%s: closed, the medals lie at %v and at %v of the right cover", name, mirror, right)
		}
	}
	// Beside the pocket is room for what is thicker than there is over it: that lies there at
	// once, while three tickets share the pocket.
	for _, room := range survey.Rooms() {
		if room.Kind() != fit.OnPanel {
			continue
		}
		high := pocket.Content{Name: "high", Size: units.Size{W: 70 * mm, H: 30 * mm}, Thickness: room.Thickness() + 1}
		if ways, err := survey.All(ctx, fit.Budget{Steps: 1}, high, ticket, ticket, ticket); err != nil || len(ways) != 4 || ways[0].Content() != high {
			t.Errorf("%v high, and three tickets: %v", high.Thickness, err)
		}
	}
	// Thicker than a third of what the pocket was made for is no ticket of three.
	thick := ticket
	thick.Thickness = mm / 2
	if _, err := survey.All(ctx, fit.Budget{}, thick, thick, thick, medal, medal); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("three thick tickets and two medals: %v", err)
	}
	// Where a slab of 5.75 mm lies across the cover above the pocket there is no room
	// beside that either: two tickets go in, a thick one beside a ticket does not.
	slab := pocket.Content{Name: "slab", Size: units.Size{W: 100 * mm, H: 36 * mm}, Thickness: 23 * mm / 4}
	thick.Thickness = 3 * mm / 4 // as much as there is in the pocket
	if _, err := survey.All(ctx, fit.Budget{}, ticket, ticket, slab); err != nil {
		t.Errorf("two tickets and a slab: %v", err)
	}
	for _, contents := range [][]pocket.Content{{ticket, thick, slab}, {thick, ticket, slab}} {
		if _, err := survey.All(ctx, fit.Budget{}, contents...); !refusedWith(err, "contents", fit.NotHeld) {
			t.Errorf("a ticket, a thick one and a slab: %v", err)
		}
	}
	// 8.5 mm is more than the covers are apart.
	slab = medal
	slab.Thickness = 17 * mm / 2
	if _, err := survey.All(ctx, fit.Budget{}, slab); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("a slab: %v", err)
	}
}

// However few steps a search may take, it ends with what the whole one finds, or
// says that it is not finished; and a context that ends ends it.
func TestTogetherWithinABudget(t *testing.T) {
	p, ticket := chest(t)
	survey := fit.Of(p)
	medal := pocket.Content{Name: "medal", Size: units.Size{W: 70 * mm, H: 30 * mm}, Thickness: 9 * mm / 2}
	contents := []pocket.Content{ticket, ticket, ticket, medal, medal}
	ended := 0
	for steps := int64(1); steps < 10_000; steps += 1 + steps/8 {
		ways, err := survey.All(context.Background(), fit.Budget{Steps: steps}, contents...)
		switch {
		case err == nil && len(ways) == len(contents):
			if with, err := survey.With(ways...); err != nil || !eased(with) {
				t.Errorf("%d steps: it does not close over what was found: %v", steps, err)
			}
		case refusedWith(err, "budget", fit.NotFinished) && ways == nil:
			ended++
		default:
			t.Errorf("%d steps: %v, %v", steps, ways, err)
		}
	}
	if ended == 0 {
		t.Error("one step was enough")
	}
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	if ways, err := survey.All(gone, fit.Budget{}, contents...); !errors.Is(err, context.Canceled) || ways != nil {
		t.Errorf("cancelled: %v, %v", ways, err)
	}
	for w := range survey.Where(gone, fit.Budget{}, ticket) {
		t.Errorf("cancelled, and goes %v", w.Room())
	}
}

// Walks that are left early go no further; a kind of room appends its words.
func TestWalksOfFitEnd(t *testing.T) {
	p, ticket := chest(t)
	n := 0
	for range fit.UsualPhotos() {
		n++
		break
	}
	for range fit.Of(p).Where(context.Background(), fit.Budget{}, ticket) {
		n++
		break
	}
	if n != 2 {
		t.Errorf("%d steps of two walks", n)
	}
	text, err := fit.Slipped.AppendText([]byte("it is "))
	if err != nil || string(text) != "it is slipped into" {
		t.Errorf("%q, %v", text, err)
	}
	if _, err := fit.RoomKind(9).AppendText(nil); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no kind of room: %v", err)
	}
}

// A spine of 1 m or more is none: what no spine goes round is refused as such.
func TestSmallestOfWhatNoSpineGoesRound(t *testing.T) {
	s := folio.Spec{Fittings: []folio.Fitting{
		{Name: "block", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 2 * units.Metre}},
	}}
	_, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if !refusedWith(err, "", folio.NotClosing) {
		t.Errorf("2 m between the covers: %v", err)
	}
}

// A soft spine of a given width is kept, and no thinner one is tried: a plate of
// 40 x 60 mm and liners 3 mm inside the covers' edges want a cover of 46 x 66 mm.
// One that is thicker than the spine is wide has no cover that does.
func TestSmallestKeepsAGivenSpine(t *testing.T) {
	plate := folio.Ornament{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: 5 * mm}
	s := folio.Spec{
		Form: boards.SoftSpine, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2 * mm}, Lining: rule.Lining{Inset: 3 * mm},
		Hinge:    rule.Hinge{Rule: rule.HingeFixed, Width: 20 * mm},
		Fittings: []folio.Fitting{{Name: "plate", Panel: boards.LeftCover, Kind: plate}},
	}
	least, err := fit.Smallest(context.Background(), s, fit.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	spec := least.Plan().Spec()
	if want := (units.Size{W: 46 * mm, H: 66 * mm}); spec.Cover != want || spec.Hinge.Width != 20*mm || !least.Complete() {
		t.Errorf("a cover of %v with a spine of %v; want %v and 20 mm", spec.Cover, spec.Hinge.Width, want)
	}
	// Six plans of two steps: one with a roomy cover, three with that one, and two with a
	// step less each way.
	if least.Steps() != 6*2 {
		t.Errorf("it took %d steps", least.Steps())
	}
	narrower, lower, thinner := least.Proof()
	if !refusedWith(narrower, "", folio.TooWide) || !refusedWith(lower, "", folio.TooTall) || thinner != nil {
		t.Errorf("narrower: %v; lower: %v; thinner: %v", narrower, lower, thinner)
	}
	plate.Thickness = 21 * mm
	s.Fittings = []folio.Fitting{{Name: "plate", Panel: boards.LeftCover, Kind: plate}}
	if _, err := fit.Smallest(context.Background(), s, fit.Budget{}); !refusedWith(err, "", folio.NotClosing) {
		t.Errorf("21 mm in a spine of 20: %v", err)
	}
}

// Under a slab as large as a panel, thicker and thicker, tickets share the pocket
// where they have no room on a mat: never more than the three that it was made
// for, and none thicker than a third of its room.
func TestTogetherEachHasItsShare(t *testing.T) {
	p, ticket := chest(t)
	survey := fit.Of(p)
	thick := ticket
	thick.Thickness = 3 * mm / 4
	together, refused := 0, 0
	for tall := 3 * mm; tall < 8*mm; tall += 3 * mm / 40 {
		slab := pocket.Content{Name: "slab", Size: units.Size{W: 106 * mm, H: 106 * mm}, Thickness: tall}
		for _, tickets := range [][]pocket.Content{{ticket, ticket}, {thick, thick}, {thick, ticket}, {ticket, ticket, ticket, ticket}} {
			ways, err := survey.All(context.Background(), fit.Budget{}, append([]pocket.Content{slab}, tickets...)...)
			if err != nil {
				if refused++; !refusedWith(err, "contents", fit.NotHeld) {
					t.Errorf("%v: %v", tall, err)
				}
				continue
			}
			var in []units.Length
			var most units.Length
			for _, w := range ways {
				if w.Room().Kind() == fit.Slipped {
					in, most = append(in, w.Content().Thickness), w.Room().Thickness()
				}
			}
			if len(in) > 3 {
				t.Errorf("under %v, %d tickets in a pocket for three", tall, len(in))
			}
			if len(in) > 1 {
				together++
				for _, l := range in {
					if 3*l > most {
						t.Errorf("under %v, a ticket of %v beside others in a pocket for %v", tall, l, most)
					}
				}
			}
		}
	}
	if together == 0 || refused == 0 {
		t.Errorf("%d together, %d refused", together, refused)
	}
}

// Prints in corner pockets on both covers, which face each other: a folio whose
// spine closes over them just with its ease holds them, since nothing is stuck under a
// print in its corners.
func TestWhatLiesInCornersIsNotStuck(t *testing.T) {
	tight := 0
	for thick := mm / 10; thick <= 11*mm/10; thick += mm / 20 {
		print := pocket.Content{Name: "print", Size: units.Size{W: 70 * mm, H: 90 * mm}, Thickness: thick}
		s := folio.Spec{
			Cover: units.Size{W: 120 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Board: stock.Stock{Caliper: 2 * mm},
			Fittings: []folio.Fitting{
				{Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corners{Content: print}}},
				{Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.Corners{Content: print}}},
			},
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		between, _ := p.TightestOf(closing.BetweenCovers, true)
		s.Spine.Width = between.WouldDo().Length()
		if p, err = folio.Build(s); err != nil {
			t.Fatal(err)
		}
		between, _ = p.TightestOf(closing.BetweenCovers, true)
		if between.Left().Length()-p.Spec().Closing.Ease < mm/10 {
			tight++
		}
		if _, err := fit.Of(p).InFittings(context.Background(), fit.Budget{}, print, print); err != nil {
			t.Errorf("prints of %v: %v", thick, err)
		}
	}
	if tight == 0 {
		t.Error("none is tight")
	}
}

// among counts, by trying all of them, how many of the contents can go into pockets at
// once, and how many of the first can: in each one alone, or as many as it was made for,
// none thicker than its share.
func among(rooms []fit.Room, contents []pocket.Content) (most, first int) {
	in := make([][]pocket.Content, len(rooms))
	goes := func(k int, c pocket.Content) bool {
		r := rooms[k]
		if !c.Size.FitsIn(r.Size()) && !c.Turned().Size.FitsIn(r.Size()) || c.Thickness > r.Thickness() {
			return false
		}
		all := append(in[k][:len(in[k]):len(in[k])], c)
		if len(all) > r.Count() {
			return false
		}
		for _, c := range all {
			if part, _ := c.Thickness.Times(int64(r.Count())); len(all) > 1 && part > r.Thickness() {
				return false
			}
		}
		return true
	}
	var give func(i, held int, all bool)
	give = func(i, held int, all bool) {
		if most = max(most, held); all {
			first = max(first, held)
		}
		if i == len(contents) {
			return
		}
		for k := range rooms {
			if goes(k, contents[i]) {
				in[k] = append(in[k], contents[i])
				give(i+1, held+1, all)
				in[k] = in[k][:len(in[k])-1]
			}
		}
		give(i+1, held, false)
	}
	give(0, 0, true)
	return most, first
}

func scan(text, form string, n *int) bool {
	_, err := fmt.Sscanf(text, form, n)
	return err == nil
}

// Tickets, thin and thick, go into pockets for one or several as they do by trying all
// ways: a thick one has a pocket to itself, and what is thinner shares another one. Where
// there is no room for all of them, no more are said to have room than have, as a rule just
// as many.
func TestTogetherInPocketsByTryingAll(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 14))
	held, not, both, exact := 0, 0, 0, 0
	n := proptest.Cases(800)
	for range n {
		s := folio.Spec{Cover: units.Size{W: 320 * mm, H: 250 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		for i := range 1 + r.IntN(3) {
			ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40*mm + 10*mm*units.Length(r.IntN(2)), H: 50 * mm}, Thickness: mm / 4}
			s.Fittings = append(s.Fittings, folio.Fitting{
				Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: ticket, Count: [...]int{1, 2, 3, 9, 9}[r.IntN(5)]}},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10*mm + 95*mm*units.Length(i), Y: 10 * mm}},
			})
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		survey := fit.Of(p)
		var pockets []fit.Room
		for _, room := range survey.Rooms() {
			if room.Kind() == fit.Slipped {
				pockets = append(pockets, room)
			}
		}
		var contents []pocket.Content
		ticket := func(of fit.Room, thick units.Length) {
			c := pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: thick}
			if r.IntN(4) == 0 {
				c.Size.W += 10 * mm
			}
			if r.IntN(3) == 0 {
				c = c.Turned()
			}
			contents = append(contents, c)
		}
		full := r.IntN(2) == 0 // each pocket with one alone, or with as many as go in
		for _, of := range pockets {
			share, _ := of.Thickness().Scale(1, int64(of.Count()), units.Down)
			switch {
			case !full:
				for range r.IntN(3) {
					ticket(of, [...]units.Length{share, share + 1, of.Thickness(), of.Thickness() + 1}[r.IntN(4)])
				}
			case r.IntN(2) == 0:
				ticket(of, of.Thickness())
			default:
				for range of.Count() {
					ticket(of, share)
				}
			}
		}
		r.Shuffle(len(contents), func(i, j int) { contents[i], contents[j] = contents[j], contents[i] })
		contents = contents[:min(len(contents), 6)]
		most, first := among(pockets, contents)
		ways, err := survey.InFittings(context.Background(), fit.Budget{}, contents...)
		if (err == nil) != (most == len(contents)) {
			t.Fatalf("%v in %v: %v; by trying all, %d", contents, s.Fittings, err, most)
		}
		if err != nil {
			not++
			var n, of int
			_, text, _ := strings.Cut(err.Error(), " and room for ")
			if !refusedWith(err, "contents", fit.NotHeld) || !scan(text, "%d of them", &n) || n > most {
				t.Errorf("%v in %v: %v; by trying all, %d", contents, s.Fittings, err, most)
			}
			_, text, _ = strings.Cut(text, "at most the first ")
			if scan(text, "%d,", &of) != (first > 0) || of > first {
				t.Errorf("%v in %v: %v; of the first %d", contents, s.Fittings, err, first)
			}
			if n == most && of == first {
				exact++
			}
			continue
		}
		held++
		in := map[int][]pocket.Content{}
		for i, w := range ways {
			k, _ := w.Room().Fitting()
			if in[k] = append(in[k], w.Content()); w.Content() != contents[i] && w.Content() != contents[i].Turned() {
				t.Errorf("%v lies where %v is to lie", w.Content(), contents[i])
			}
		}
		alone := false
		for k, list := range in {
			if n, _ := among(pockets[k:k+1], list); n != len(list) {
				t.Errorf("%v in %v", list, pockets[k])
			}
			alone = alone || len(list) == 1 && pockets[k].Count() > 1
		}
		if alone && len(ways) > len(in) {
			both++
		}
	}
	if held < n/5 || not < n/5 || both < n/40 || exact < not*3/4 {
		t.Errorf("of %d %d held, %d not, %d with one alone in a pocket for several; of those not held, %d are told exactly", n, held, not, both, exact)
	}
}
