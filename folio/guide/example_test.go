package guide_test

import (
	"fmt"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A hand-out as a page to print, and the beginning of the same as plain text.
func ExampleHandOut() {
	plan, err := folio.Build(folio.Spec{
		Title: "Log of the lifeboat",
		Cover: units.MustParseSize("6 x 8 in"),
		Spine: rule.Spine{Width: units.MustParse("5/8 in")},
	})
	if err != nil {
		panic(err)
	}
	doc := guide.HandOut(plan, guide.PrintOptions{Paper: guide.A4})
	page := string(doc.AppendHTML(nil))
	fmt.Println(page[:strings.Index(page, "\n")])
	plain := string(doc.AppendPlain(nil))
	fmt.Println(plain[:strings.Index(plain, "\nPicture")])
	// Output:
	// <!DOCTYPE html>
	// Log of the lifeboat
	// ===================
	//
	//   Form                     cover, spine, cover
	//   Left cover board         6 x 8 in
	//   Spine board              5/8 x 8 in
	//   Right cover board        6 x 8 in
	//   Open, before covering    12 7/8 x 8 in
	//   Closed, filled, at most  6 3/16 x 8 1/16 in, 11/16 in thick
}
