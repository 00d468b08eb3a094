package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
)

// A handout says which files the hand-out and its pictures go to.
type handout struct {
	out, svg, paper string
	templates       string
	both            bool
}

func (h *handout) flags(set *flag.FlagSet) {
	set.StringVar(&h.out, "out", "", "write a hand-out to this `file`: .html, .md or .txt")
	set.StringVar(&h.svg, "svg", "", "write the pictures of the hand-out to this `directory`")
	set.StringVar(&h.templates, "templates", "", "write pages to trace corners and score marks from to this `file`, .html")
	set.StringVar(&h.paper, "paper", "any", "what the hand-out is printed on: any, A4 or letter")
	set.BoolVar(&h.both, "both", false, "lengths of the hand-out in inches and in millimetres")
}

func (h *handout) wanted() bool { return h.out != "" || h.svg != "" || h.templates != "" }

// write writes the files and says so.
func (h *handout) write(p *folio.Plan, left []fit.Misfit, say io.Writer) error {
	o, err := h.options(p)
	if err != nil {
		return err
	}
	for _, l := range left {
		o.Notes = append(o.Notes, "Left out, as it does not go in: the "+l.String()+".")
	}
	doc := guide.HandOut(p, o)
	if h.out != "" {
		if err := save(doc, h.out, "hand-out", say); err != nil {
			return err
		}
	}
	if h.templates != "" {
		if kind := strings.ToLower(filepath.Ext(h.templates)); kind != ".html" && kind != ".htm" {
			return fmt.Errorf("%s: what is traced is drawn at full size, so the ending must be .html, not %q", h.templates, kind)
		}
		if err := save(guide.Templates(p, o), h.templates, "templates", say); err != nil {
			return err
		}
	}
	if h.svg == "" {
		return nil
	}
	return h.pictures(doc, say)
}

// save writes a document to a file as the ending of its name asks for.
func save(doc *guide.Document, name, what string, say io.Writer) error {
	var text []byte
	switch kind := strings.ToLower(filepath.Ext(name)); kind {
	case ".html", ".htm":
		text = doc.AppendHTML(nil)
	case ".md":
		text = doc.AppendMarkdown(nil)
	case ".txt":
		text = doc.AppendPlain(nil)
	default:
		return fmt.Errorf("%s: the ending must be .html, .md or .txt, not %q", name, kind)
	}
	if err := os.WriteFile(name, text, 0o644); err != nil {
		return err
	}
	_, err := fmt.Fprintf(say, "wrote the %s to %s\n", what, name)
	return err
}

// pictures writes each picture to a file of its own.
func (h *handout) pictures(doc *guide.Document, say io.Writer) error {
	if err := os.MkdirAll(h.svg, 0o755); err != nil {
		return err
	}
	n := 0
	for pic := range doc.Pictures() {
		n++
		name := filepath.Join(h.svg, fmt.Sprintf("%03d.svg", n))
		if err := os.WriteFile(name, pic.AppendSVG(nil), 0o644); err != nil {
			return err
		}
		if _, err := fmt.Fprintf(say, "%s  %s\n", name, pic.Title()); err != nil {
			return err
		}
	}
	return nil
}

// options reads the paper, and lays the pieces on the sheets that are known.
func (h *handout) options(p *folio.Plan) (guide.PrintOptions, error) {
	var o guide.PrintOptions
	if err := o.Paper.UnmarshalText([]byte(h.paper)); err != nil {
		return o, fmt.Errorf("-paper: %w", err)
	}
	o.Format.Typographic = strings.ToLower(filepath.Ext(h.out)) != ".txt"
	if h.both {
		o.Format.Second = units.TenthMillimetres
		if p.Notation() == units.MetricDecimal {
			o.Format.Second = units.ThirtySeconds
		}
	}
	job, lacking := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}}.Stocked()
	job.Except = lacking
	laid, err := layout.Lay(context.Background(), job, layout.Budget{})
	if err != nil {
		return o, err
	}
	o.Layout = laid
	return o, nil
}
