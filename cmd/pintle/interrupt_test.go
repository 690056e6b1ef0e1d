package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// manyHoles is a joint file of a grille of about 4500 holes: its files take some
// tenths of a second to write, so that a signal meets the build at work.
const manyHoles = `format = "pintle-joint/1"
printer = { material = "PETG" }
[grille.panel]
outline = { kind = "rectangle", length = 204, width = 204 }
pattern = "round-staggered"
hole = 2
pitch = 3.1
thickness = 2
`

// A build that is interrupted or killed while it writes leaves the set that
// stood there whole, and the next build is none the worse for it.
func TestSignals(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no signals between processes")
	}
	program := filepath.Join(t.TempDir(), "pintle")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, test := range []struct {
		signal syscall.Signal
		code   int // -1 where the process could not choose it
		says   string
		left   int // temporary folders that nobody was there to take away
	}{
		{syscall.SIGINT, exitInterrupted, "pintle: interrupted, no file was changed\n", 0},
		{syscall.SIGTERM, exitInterrupted, "pintle: interrupted, no file was changed\n", 0},
		{syscall.SIGKILL, -1, "", 1},
	} {
		t.Run(test.signal.String(), func(t *testing.T) {
			var s standingSet
			var exit *exec.ExitError
			var talk string
			for attempt := 1; exit == nil; attempt++ {
				if attempt > 3 {
					t.Fatal("the build ended well each time, whatever it was sent")
				}
				s = newStandingSet(t)
				exit, talk = s.disturb(t, program, test.signal)
			}
			if exit.ExitCode() != test.code || talk != test.says {
				t.Errorf("exit code %d and %q, want %d and %q", exit.ExitCode(), talk, test.code, test.says)
			}
			left := temporary(t, s.dir)
			if len(left) != test.left {
				t.Errorf("temporary folders %v, want %d", left, test.left)
			}
			dayOld := time.Now().Add(-24 * time.Hour)
			for _, folder := range left {
				if err := os.Chtimes(folder, dayOld, dayOld); err != nil {
					t.Fatal(err)
				}
			}
			s.isWhole(t, "")
			if code := run([]string{"build", s.joint, "--out", s.dir, "--force"}, io.Discard, io.Discard); code != exitPass {
				t.Fatalf("the next build: exit code %d", code)
			}
			s.isWhole(t, "previous-1/")
			if left := temporary(t, s.dir); len(left) > 0 {
				t.Errorf("the next build left %v", left)
			}
		})
	}
}

// A standingSet is a folder with the set of an earlier build, and the joint file
// of the next.
type standingSet struct {
	dir, joint string
	files      map[string]string
}

func newStandingSet(t *testing.T) standingSet {
	t.Helper()
	base := t.TempDir()
	s := standingSet{dir: filepath.Join(base, "set"), joint: filepath.Join(base, "panel.toml")}
	if err := os.WriteFile(s.joint, []byte(manyHoles), 0o666); err != nil {
		t.Fatal(err)
	}
	earlier := []string{"grille", "--outline", "disc:40", "--hole", "3", "--pitch", "4.2", "--name", "panel", "--out", s.dir}
	if code := run(earlier, io.Discard, io.Discard); code != exitPass {
		t.Fatalf("exit code %d", code)
	}
	s.files = tree(t, s.dir)
	return s
}

// isWhole compares the earlier set with what stands below a place in the folder.
func (s standingSet) isWhole(t *testing.T, place string) {
	t.Helper()
	stands := map[string]string{}
	for name, content := range tree(t, s.dir) {
		if rest, ok := strings.CutPrefix(name, place); ok && !strings.HasPrefix(name, temporaryPrefix) {
			stands[rest] = content
		}
	}
	if diff := cmp.Diff(s.files, stands); diff != "" {
		t.Errorf("below %q: %s", place, diff)
	}
}

// disturb starts a build and sends it a signal once it writes. It returns how
// the build ended, nil where it was through before the signal came, and what it
// said.
func (s standingSet) disturb(t *testing.T, program string, signal os.Signal) (*exec.ExitError, string) {
	t.Helper()
	var talk bytes.Buffer
	cmd := exec.Command(program, "build", s.joint, "--out", s.dir, "--force")
	cmd.Stderr = &talk
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for deadline := time.Now().Add(time.Minute); !s.writing(t); time.Sleep(time.Millisecond) {
		if time.Now().After(deadline) {
			_ = cmd.Process.Kill()
			t.Fatal("the build never began to write")
		}
	}
	if err := cmd.Process.Signal(signal); err != nil {
		t.Fatal(err)
	}
	err := cmd.Wait()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return exit, talk.String()
}

// writing says whether a temporary folder holds a file that is begun.
func (s standingSet) writing(t *testing.T) bool {
	t.Helper()
	for _, folder := range temporary(t, s.dir) {
		files, _ := os.ReadDir(folder) // it may be gone by now
		for _, file := range files {
			if info, err := file.Info(); err == nil && info.Size() > 0 {
				return true
			}
		}
	}
	return false
}

// temporary lists the temporary folders of builds in a folder.
func temporary(t *testing.T, dir string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, temporaryPrefix+"*"))
	if err != nil {
		t.Fatal(err)
	}
	return found
}
