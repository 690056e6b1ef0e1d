package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The README shows lines of the demo's table of findings: each must be what the
// demo prints today, whatever the width of its columns.
func TestReadmeShowsTheDemo(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var out, talk bytes.Buffer
	dir := filepath.Join(t.TempDir(), "lighthouse")
	if code := run([]string{"build", "../../testdata/lighthouse.toml", "--out", dir}, &out, &talk); code != 0 {
		t.Fatalf("the demo exits %d: %s", code, &talk)
	}
	printed := map[string]bool{}
	for line := range strings.Lines(out.String()) {
		printed[strings.Join(strings.Fields(line), " ")] = true
	}
	shown := 0
	for line := range strings.Lines(string(readme)) {
		if !strings.HasPrefix(line, "    pass ") {
			continue
		}
		shown++
		if words := strings.Join(strings.Fields(line), " "); !printed[words] {
			t.Errorf("the README shows a line that the demo does not print: %s", words)
		}
	}
	if shown == 0 {
		t.Error("the README shows no findings")
	}
}

// A newcomer finds every command and every figure to start from in the README,
// and no figure that is not there.
func TestReadmeNamesCommandsAndFigures(t *testing.T) {
	file, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(file)
	env := &environment{}
	env.newRoot()
	for _, cmd := range env.commands {
		if !strings.Contains(readme, "pintle "+cmd.Name()+" ") {
			t.Errorf("the README does not name pintle %s", cmd.Name())
		}
	}
	figures, err := filepath.Glob("../../testdata/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	row := func(path string) string { return "\n| `" + filepath.Base(path) + "` | " }
	for _, path := range figures {
		if !strings.Contains(readme, row(path)) {
			t.Errorf("the README's table lacks %s", filepath.Base(path))
		}
	}
	if rows := strings.Count(readme, ".toml` | "); len(figures) == 0 || rows != len(figures) {
		t.Errorf("%d figures in the README, %d in testdata", rows, len(figures))
	}
}
