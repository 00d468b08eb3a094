package pages

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

const jar = "node_modules/vnu-jar/build/dist/vnu.jar"

// Every page is valid HTML by the Nu Html Checker, without an error and without
// a warning.
func TestValid(t *testing.T) {
	if _, err := exec.LookPath("java"); err != nil {
		t.Skip("no Java here to validate HTML with")
	}
	if _, err := os.Stat(jar); err != nil {
		t.Skip("no validator here: run npm ci --ignore-scripts in internal/pages")
	}
	dir := t.TempDir()
	args := []string{"-jar", jar, "--format", "json", "--exit-zero-always", "--stdout"}
	for i, d := range documents(t) {
		name := filepath.Join(dir, strconv.Itoa(i)+".html")
		if err := os.WriteFile(name, d.AppendHTML(nil), 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	// The validator must also be able to say no.
	wrong := filepath.Join(dir, "wrong.html")
	if err := os.WriteFile(wrong, []byte("<!DOCTYPE html><html lang=en><title>t</title><h1>a<h3>b</h1><img src=x>"), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), "java", append(args, wrong)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var report struct {
		Messages []struct {
			Type, URL, Message, Extract string
			LastLine                    int
		}
	}
	if err := json.NewDecoder(bytes.NewReader(out)).Decode(&report); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	noes := 0
	for _, m := range report.Messages {
		if filepath.Base(m.URL) == "wrong.html" {
			noes++
			continue
		}
		t.Errorf("%s of %s, line %d: %s: %s", m.Type, filepath.Base(m.URL), m.LastLine, m.Message, m.Extract)
	}
	if noes < 2 {
		t.Error("the validator finds nothing wrong with a page that is")
	}
}
