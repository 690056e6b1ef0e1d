package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pintle/joint"
)

// text makes an output file of a fixed text.
func text(name, content string) joint.OutputFile {
	return joint.OutputFile{Name: name, Write: func(w io.Writer) error {
		_, err := io.WriteString(w, content)
		return err
	}}
}

// tree reads all files below a folder.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(rel)] = string(data)
		return err
	})
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return all
}

func fill(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, content := range files {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

const oldReport = `{"files": ["a.stl", "gone.stl", "../outside", "sub/x", "report.json"]}`

// oldSet stands in a folder: a set with its report, and a foreign file.
func oldSet() map[string]string {
	return map[string]string{
		"a.stl": "old a", "gone.stl": "old gone", "report.json": oldReport, "own.txt": "mine", "previous-3/a.stl": "older",
	}
}

func newSet() []joint.OutputFile {
	return []joint.OutputFile{text("a.stl", "new a"), text("b.stl", "new b"), text("report.json", "{}")}
}

func TestWriteSet(t *testing.T) {
	base := t.TempDir()
	fill(t, base, map[string]string{"outside": "not of the set"})
	dir := filepath.Join(base, "set")
	fill(t, dir, oldSet())
	if err := writeSet(context.Background(), dir, true, newSet()); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"outside":   "not of the set",
		"set/a.stl": "new a", "set/b.stl": "new b", "set/report.json": "{}", "set/own.txt": "mine",
		"set/previous-3/a.stl": "older",
		"set/previous-4/a.stl": "old a", "set/previous-4/gone.stl": "old gone", "set/previous-4/report.json": oldReport,
	}
	if diff := cmp.Diff(want, tree(t, base)); diff != "" {
		t.Error(diff)
	}
}

// Whatever goes wrong while files are made, the folder stays as it was.
func TestWriteSetLeavesNothingBehind(t *testing.T) {
	failing := errors.New("no more paper")
	for _, test := range []struct {
		why   string
		force bool
		files func(cancel func()) []joint.OutputFile
		want  func(error) bool
	}{
		{"files stand there", false, func(func()) []joint.OutputFile { return newSet() }, func(err error) bool {
			var use *usageError
			return errors.As(err, &use) && strings.Contains(use.reason, "a.stl, report.json") && strings.Contains(use.remedy, "--force")
		}},
		{"the last file fails", true, func(func()) []joint.OutputFile {
			return append(newSet()[:2], joint.OutputFile{Name: "report.json", Write: func(io.Writer) error { return failing }})
		}, func(err error) bool {
			var file *fileError
			return errors.As(err, &file) && errors.Is(err, failing) && strings.Contains(err.Error(), "report.json")
		}},
		{"interrupted", true, func(cancel func()) []joint.OutputFile {
			return []joint.OutputFile{text("a.stl", "new a"), {Name: "report.json", Write: func(w io.Writer) error {
				cancel()
				_, err := w.Write(make([]byte, 1<<20))
				return err
			}}}
		}, func(err error) bool { return errors.Is(err, context.Canceled) }},
		{"interrupted after the last byte", true, func(cancel func()) []joint.OutputFile {
			return []joint.OutputFile{{Name: "report.json", Write: func(io.Writer) error { cancel(); return nil }}}
		}, func(err error) bool { return errors.Is(err, context.Canceled) }},
	} {
		t.Run(test.why, func(t *testing.T) {
			dir := t.TempDir()
			fill(t, dir, oldSet())
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			if err := writeSet(ctx, dir, test.force, test.files(cancel)); !test.want(err) {
				t.Errorf("error %v", err)
			}
			if diff := cmp.Diff(oldSet(), tree(t, dir)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// What a killed build left is taken away; what may belong to a build at work is
// not, nor anything of another name.
func TestWriteSetSweeps(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, map[string]string{".pintle-1/a.stl": "old", ".pintle-2/a.stl": "young", ".pintle": "a file", "pintle-3/a.stl": "mine"})
	dayOld := time.Now().Add(-24 * time.Hour)
	for _, name := range []string{".pintle-1", ".pintle", "pintle-3"} {
		if err := os.Chtimes(filepath.Join(dir, name), dayOld, dayOld); err != nil {
			t.Fatal(err)
		}
	}
	if err := writeSet(context.Background(), dir, false, newSet()); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		".pintle-2/a.stl": "young", ".pintle": "a file", "pintle-3/a.stl": "mine",
		"a.stl": "new a", "b.stl": "new b", "report.json": "{}",
	}
	if diff := cmp.Diff(want, tree(t, dir)); diff != "" {
		t.Error(diff)
	}
}

// A folder that was made for the set goes again when the set fails; one that
// was there stays.
func TestWriteSetRemovesItsFolders(t *testing.T) {
	base := t.TempDir()
	files := []joint.OutputFile{{Name: "report.json", Write: func(io.Writer) error { return errors.New("no") }}}
	if err := writeSet(context.Background(), filepath.Join(base, "x", "y"), false, files); err == nil {
		t.Fatal("no error")
	}
	if _, err := os.Stat(filepath.Join(base, "x")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("x still stands: %v", err)
	}
	if _, err := os.Stat(base); err != nil {
		t.Error(err)
	}
}

// A program that dies between keeping and replacing leaves the old set whole
// twice; one that dies while replacing leaves it whole in previous-N, and no
// report that speaks for a mixed set.
func TestOldSetIsKeptBeforeItIsTouched(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, oldSet())
	s := set{dir: dir, temp: filepath.Join(dir, ".temp"), names: []string{"a.stl", "b.stl", "report.json"}}
	if err := os.Mkdir(s.temp, 0o777); err != nil {
		t.Fatal(err)
	}
	old, err := s.standing(true)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.keep(old); err != nil {
		t.Fatal(err)
	}
	want := oldSet()
	want["previous-4/a.stl"], want["previous-4/gone.stl"], want["previous-4/report.json"] = "old a", "old gone", oldReport
	if diff := cmp.Diff(want, tree(t, dir)); diff != "" {
		t.Errorf("after keeping: %s", diff)
	}
	// The temporary folder holds none of the new files: placing must fail.
	err = s.replace(old)
	var file *fileError
	if !errors.As(err, &file) || !strings.Contains(err.Error(), "previous-4") {
		t.Errorf("error %v, want one that says where the old set is", err)
	}
	delete(want, "a.stl")
	delete(want, "gone.stl")
	delete(want, "report.json")
	if diff := cmp.Diff(want, tree(t, dir)); diff != "" {
		t.Errorf("after a failed replacement: %s", diff)
	}
}

func TestWriteSetToUnwritableFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write everywhere")
	}
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	err := writeSet(context.Background(), dir, false, newSet())
	var file *fileError
	if !errors.As(err, &file) || !strings.Contains(err.Error(), "permission denied") {
		t.Errorf("error %v", err)
	}
}

// Names come from designs; one that could leave the folder is a defect.
func TestOutputNamesArePlain(t *testing.T) {
	for _, names := range [][]string{
		{"../a.stl", "report.json"},
		{"a/b.stl", "report.json"},
		{".hidden", "report.json"},
		{"", "report.json"},
		{"a.stl", "A.stl", "report.json"},
		{"previous-1", "report.json"},
		{"report.json", "a.stl"},
		{},
	} {
		t.Run(strings.Join(names, " "), func(t *testing.T) {
			defer func() {
				if what, ok := recover().(string); !ok || !strings.HasPrefix(what, "pintle: ") {
					t.Errorf("no panic for %q", names)
				}
			}()
			mustBePlain(names)
		})
	}
	mustBePlain([]string{"lamp-pinion.stl", "report.json"})
}
