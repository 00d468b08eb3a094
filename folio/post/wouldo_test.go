package post_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
)

// What is asked of a service is spoilt, and what is packed: paths lead to their
// fields, and what violations say would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	type asked struct {
		Item    post.Item
		Formats []post.ItemFormat
	}
	judged := func(a asked) error {
		_, err := post.Service{Formats: a.Formats}.Judge(a.Item, units.InchFraction)
		return err
	}
	plan, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	packed := func(k post.Packing) error {
		_, err := post.Pack(plan, k)
		return err
	}
	sound := asked{post.Item{Size: units.Size{W: 200 * mm, H: 100 * mm}, Thickness: 20 * mm, Mass: 300 * units.Gram, Uneven: mm}, post.RoyalMail().Formats}
	pack := post.Packing{Padding: 10 * mm, Wall: 3 * mm, Mass: 100 * units.Gram, Weighing: weigh.Options{Copies: 2, Density: 1400, Block: 50 * units.Gram}}
	if judged(sound) != nil || packed(pack) != nil {
		t.Fatal(judged(sound), packed(pack))
	}
	type boxed struct{ Padding units.Length }
	box := func(b boxed) error {
		_, err := post.BoxFor(plan, b.Padding)
		return err
	}
	mendtest.Many(t, 1000, 1, mendtest.AdviceOf(t, ".", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		a, k := mendtest.Spoil(sound, from), mendtest.Spoil(pack, from)
		mendtest.Value(tally, a, judged(a), nil, judged)
		mendtest.Value(tally, k, packed(k), nil, packed)
		b := mendtest.Spoil(boxed{12 * mm}, from)
		mendtest.Value(tally, b, box(b), nil, box)
	})
}
