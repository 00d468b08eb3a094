// Package schemas checks the JSON Schema of folio/wire with a validator that
// others keep: that it takes what the reader takes, and that what is wrong with
// a document is refused by one or the other. It is a module of its own, so that
// the library does not require the validator.
//
//	go -C internal/schemas test .
package schemas
