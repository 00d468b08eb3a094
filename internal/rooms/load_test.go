package rooms

import (
	"go/token"
	"os"
	"path/filepath"
	"testing"
)

func TestRoom(t *testing.T) {
	for _, c := range []struct {
		path, room string
		ours       bool
	}{
		{Module, "", true},
		{Module + "/folio/guide", "folio/guide", true},
		{"go/token", "go/token", false},
		{Module + "s/folio", Module + "s/folio", false},
	} {
		if room, ours := Room(c.path); room != c.room || ours != c.ours {
			t.Errorf("Room(%q) is %q, %t, want %q, %t", c.path, room, ours, c.room, c.ours)
		}
	}
}

// TestImporter imports a package and one that it imports.
func TestImporter(t *testing.T) {
	imports, err := Importer(token.NewFileSet(), ".", "go/parser")
	if err != nil {
		t.Fatal(err)
	}
	for path, name := range map[string]string{"go/parser": "ParseFile", "go/ast": "Inspect"} {
		pkg, err := imports.Import(path)
		if err != nil {
			t.Fatal(err)
		}
		if pkg.Scope().Lookup(name) == nil {
			t.Errorf("%s has no %s", path, name)
		}
	}
	if _, err := imports.Import("no/such/package"); err == nil {
		t.Error("imported what is not there")
	}
	if _, err := Importer(token.NewFileSet(), ".", "no/such/package"); err == nil {
		t.Error("an importer of what is not there")
	}
}

// TestBrokenPackages says what is wrong with a package instead of checking half of it.
func TestBrokenPackages(t *testing.T) {
	for what, source := range map[string]string{
		"does not parse": "package broken\n\nfunc {\n",
		"has no type":    "package broken\n\nvar X Nothing\n",
	} {
		root := t.TempDir()
		for name, text := range map[string]string{"go.mod": "module broken\n\ngo 1.23\n", "broken.go": source} {
			if err := os.WriteFile(filepath.Join(root, name), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if checked, err := Check(root, "."); err == nil {
			t.Errorf("what %s was checked: %v", what, checked)
		}
	}
}
