package main

import (
	"encoding/xml"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// Every way to call the program prints lines that go across a sheet, and what
// the maker needs stands in them.
func TestOutput(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		want []string
	}{
		// A liner is the open cover less 1/8 in, or 3 mm, on every side; a frame
		// shows 3/8 in, or 9 mm, round its print.
		"inches":   {nil, []string{"2  cover board                  6 x 8 in", "liner                        12 3/4 x 7 3/4 in", "frame                        5 3/4 x 7 3/4 in", "Slip the photo 5 x 7 in into the frame"}},
		"metric":   {[]string{"-mm"}, []string{"2  cover board                  152 x 204 mm", "liner                        322 x 198 mm", "frame                        145 x 196 mm"}},
		"measured": {[]string{"-measured", "13 1/4 x 8"}, []string{"liner                        13 x 7 3/4 in", "refitted to the cover as measured, 13 1/4 x 8 in"}},
		"smaller":  {[]string{"-cover", "4 5/8 x 7", "-spine", "7/8"}, []string{"2  cover board                  4 5/8 x 7 in", "frame                        4 1/4 x 5 3/4 in"}},
		"larger":   {[]string{"-cover", "9 x 11", "-sheet", "24 x 36", "-liner-sheet", "24 x 18"}, []string{"frame                        8 3/4 x 10 3/4 in"}},
		"tiny":     {[]string{"-cover", "2 x 3"}, []string{"left out, as it does not go in: the strip"}},
		"matchbox": {[]string{"-cover", "1 x 1"}, []string{"wrap                         3 5/8 x 1 5/8 in", "left out, as it does not go in: the badge"}},
		"poster":   {[]string{"-cover", "60 x 80", "-sheet", "5 x 5 m", "-liner-sheet", "5 x 5 m"}, []string{"cover 60 x 80 in"}},
		"thicker":  {[]string{"-board", "3/32", "-workings"}, []string{"hinge gap 3/16 in = 2 x board caliper 3/32 in"}},
		"quarter":  {[]string{"-quarter", "-title", "Lifeboat day"}, []string{"Lifeboat day", "spine strip", "side paper of the left cover"}},
		"all":      {[]string{"-all"}, []string{"score, valley fold, upright at", "WORKINGS"}},
		// Six prints of 101 x 152 mm in one pocket are together 1.56 mm thick.
		"holds": {[]string{"-holds", "6 photo 10 x 15 cm, 1 ID-1 card, 1 note", "-form", "cover, spine, cover"}, []string{", this one: cover, spine, cover; cover", "WHAT LIES WHERE", "gusset pocket for the photo 10 x 15 cm, on the right cover", "is 1/16 in thick in all", "RULED OUT", "ORDER OF WORK"}},
		// A third board beside two covers holds a part of it: they may be smaller.
		"any form":        {[]string{"-holds", "6 photo 10 x 15 cm, 1 ID-1 card, 1 note"}, []string{"smallest, this one: cover, spine, cover, fore-edge flap; cover", "  cover, spine, cover: The cover would be ", "  double-spine gate: The cover would be ", "  Z of four panels: The cover would be "}},
		"holds in a gate": {[]string{"-holds", "2 photo 10 x 15 cm", "-form", "double-spine gate"}, []string{"this one: double-spine gate; cover"}},
		"holds in view":   {[]string{"-mm", "-holds", "2 photo 10 x 15 cm, 1 note tucked away", "-best", "everything in view", "-cover", "300 x 300", "-form", "two covers, soft spine"}, []string{"everything in view, this one: two covers, soft spine; cover", "slip pocket for the note A6", "corner pockets 2 for the photo 10 x 15 cm"}},
	} {
		var out strings.Builder
		if err := run(c.args, &out); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > columns {
				t.Errorf("%s: %d columns in %q", name, n, line)
			}
		}
		for _, w := range c.want {
			if !strings.Contains(out.String(), w) {
				t.Errorf("%s: %q is missing", name, w)
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for name, args := range map[string][]string{
		"too big for the sheet": {"-cover", "16 x 20"},
		"nothing left":          {"-cover", "0.5 x 0.5 mm"},
		"no number":             {"-spine", "one"},
		"left over":             {"4", "x", "6"},
		"both at once":          {"-spine", "0,5", "-board", "-1/16"},
		"nothing of that name":  {"-holds", "1 wombat"},
		"no such aim":           {"-holds", "note", "-best", "prettiest"},
		"no such form":          {"-holds", "note", "-form", "pamphlet"},
		"too much for a cover":  {"-holds", "6 photo 10 x 15 cm", "-cover", "4 x 4"},
		"a spine is searched":   {"-holds", "note", "-spine", "1"},
		"a form of nothing":     {"-form", "double-spine gate"},
		"best of nothing":       {"-best", "thinnest"},
		"paper of nothing":      {"-paper", "A4"},
	} {
		var out strings.Builder
		if err := run(args, &out); err == nil {
			t.Errorf("%s: printed a plan", name)
		} else if strings.Contains(out.String(), "ORDER OF WORK") {
			t.Errorf("%s: printed part of a plan", name)
		}
	}
}

// The hand-out goes to the file that is named, by its ending, and the pictures
// to a directory; what is written is said.
func TestHandOut(t *testing.T) {
	dir := t.TempDir()
	for name, c := range map[string]struct {
		args []string
		want string
	}{
		"a.html": {nil, "<h1>Eastwater Rowing Club"},
		"b.md":   {[]string{"-mm", "-both"}, "# Eastwater Rowing Club"},
		"c.txt":  {[]string{"-paper", "letter"}, "ORDER OF WORK"},
		"d.txt":  {[]string{"-cover", "2 x 3"}, "Left out, as it does not go in: the strip"},
	} {
		file := filepath.Join(dir, name)
		var out strings.Builder
		if err := run(append(c.args, "-out", file, "-svg", filepath.Join(dir, "pictures")), &out); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil || !strings.Contains(string(text), c.want) {
			t.Errorf("%s: %v; %q is missing", name, err, c.want)
		}
		if !strings.Contains(out.String(), "wrote the hand-out to "+file) || strings.Contains(out.String(), "ORDER OF WORK") {
			t.Errorf("%s: said %q", name, out.String())
		}
	}
	pictures, err := filepath.Glob(filepath.Join(dir, "pictures", "*.svg"))
	if err != nil || len(pictures) < 2 {
		t.Errorf("%d pictures, %v", len(pictures), err)
	}
	for _, args := range [][]string{{"-out", filepath.Join(dir, "e.pdf")}, {"-out", filepath.Join(dir, "none", "e.html")}, {"-out", filepath.Join(dir, "f.md"), "-paper", "A5"}} {
		var out strings.Builder
		if err := run(args, &out); err == nil || out.Len() > 0 {
			t.Errorf("%q: %v, said %q", args, err, out.String())
		}
	}
}

// Asked for its flags the program lists them and makes nothing; what is no flag, or
// a size of one length, is refused by its name.
func TestFlags(t *testing.T) {
	var out strings.Builder
	if err := run([]string{"-h"}, &out); !errors.Is(err, flag.ErrHelp) {
		t.Errorf("-h: %v", err)
	}
	for _, name := range []string{"cover", "mm", "holds", "out", "svg", "templates", "measured"} {
		if !strings.Contains(out.String(), "\n  -"+name) {
			t.Errorf("-%s is not listed", name)
		}
	}
	if strings.Contains(out.String(), "ORDER OF WORK") {
		t.Error("-h: printed a plan")
	}
	for name, args := range map[string][]string{
		"-colour": {"-colour", "blue"},
		"-cover":  {"-cover", "6"},
		"-sheet":  {"-sheet", "18 x 24 x 2"},
		"-holds":  {"-holds", "4 photo"},
	} {
		if err := run(args, new(strings.Builder)); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%q: %v does not name %s", args, err, name)
		}
	}
}

// The templates go to a file of their own, without a hand-out and without pictures.
func TestTemplates(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "trace.html")
	var out strings.Builder
	if err := run([]string{"-title", "Lifeboat day", "-templates", file}, &out); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(file)
	if err != nil || !strings.HasPrefix(string(text), "<!DOCTYPE html>") || !strings.Contains(string(text), "<h1>Templates: Lifeboat day") || !strings.Contains(string(text), "<svg") {
		t.Errorf("%v: no templates of the folio", err)
	}
	if out.String() != "wrote the templates to "+file+"\n" {
		t.Errorf("said %q", out.String())
	}
	if list, err := os.ReadDir(dir); err != nil || len(list) != 1 {
		t.Errorf("%d files, %v", len(list), err)
	}
}

// Every picture that is said to be written is a document of SVG that can be read.
// What stands in the way of a file or a directory is an error, and nothing is said
// to be written that is not.
func TestPictures(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "pictures")
	var out strings.Builder
	if err := run([]string{"-svg", dir}, &out); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(out.String()) {
		file, title, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var doc struct {
			XMLName xml.Name `xml:"http://www.w3.org/2000/svg svg"`
			Title   string   `xml:"title"`
		}
		if err := xml.Unmarshal(text, &doc); err != nil || doc.Title != title {
			t.Errorf("%s: %v; its title is %q, not %q", file, err, doc.Title, title)
		}
	}

	taken := filepath.Join(t.TempDir(), "taken")
	if err := os.WriteFile(taken, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	full := t.TempDir()
	if err := os.Mkdir(filepath.Join(full, "001.svg"), 0o700); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"-svg", taken}, {"-svg", full}, {"-templates", filepath.Join(taken, "trace.html")}, {"-templates", filepath.Join(full, "trace.pdf")}, {"-templates", filepath.Join(full, "trace.txt")}} {
		var out strings.Builder
		if err := run(args, &out); err == nil || out.Len() > 0 {
			t.Errorf("%q: %v, said %q", args, err, out.String())
		}
	}
}

// A folio for one aim is none where the covers may not be that large; what is
// printed then says so of it, and of no other.
func TestNoneOfAnAim(t *testing.T) {
	var out strings.Builder
	if err := run([]string{"-holds", "6 photo 10 x 15 cm, 1 note", "-cover", "8 x 8"}, &out); err != nil {
		t.Fatal(err)
	}
	// Six prints of 10 x 15 cm in view are 6 x 23 1/4 = 139 1/2 in² at least, and two
	// covers of 8 x 8 in are 128 in².
	if !strings.Contains(out.String(), "everything in view: none.") || strings.Contains(out.String(), "smallest: none.") {
		t.Errorf("%.900s", out.String())
	}
}

// Whoever prints it has it on two sheets: about a hundred lines.
func TestLinesOfTheDefault(t *testing.T) {
	for _, args := range [][]string{nil, {"-mm"}} {
		var out strings.Builder
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(out.String(), "\n"); n > 110 {
			t.Errorf("%q prints %d lines", args, n)
		}
	}
}
