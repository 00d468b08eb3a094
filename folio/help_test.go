package folio_test

import (
	"errors"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// content is something thin of a size.
func content(s units.Size) pocket.Content { return pocket.Content{Name: "picture", Size: s} }

// refusedWith reports whether err lists a violation at path with the code.
func refusedWith(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}
