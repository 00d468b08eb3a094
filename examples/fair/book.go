package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
)

// bind writes the papers of the batch to one file and says so: what to buy, how
// to cut it up, what to ask for it.
func bind(laid *layout.Layout, name string, say io.Writer) error {
	costs, err := cost.Of(laid, basis())
	if err != nil {
		return err
	}
	var o guide.PrintOptions
	kind := strings.ToLower(filepath.Ext(name))
	o.Format.Typographic = kind != ".txt"
	doc := guide.Bind("Eastwater regatta day", guide.ShoppingList(laid, o), guide.CuttingBook(laid, o), guide.PriceList(costs, o))
	var text []byte
	switch kind {
	case ".html", ".htm":
		text = doc.AppendHTML(nil)
	case ".md":
		text = doc.AppendMarkdown(nil)
	case ".txt":
		text = doc.AppendPlain(nil)
	default:
		return fmt.Errorf("-out: the ending must be .html, .md or .txt, not %q", kind)
	}
	if err := os.WriteFile(name, text, 0o644); err != nil {
		return err
	}
	_, err = fmt.Fprintf(say, "wrote the shopping list, the cutting book and the price list to %s\n", name)
	return err
}
