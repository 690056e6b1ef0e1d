package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"pintle/joint"
)

// temporaryPrefix begins the name of the folder a set is made in.
const temporaryPrefix = ".pintle-"

// A set is one build's files on their way into a folder.
//
// All of them are written into a temporary folder within the folder first, so
// that trouble leaves nothing behind, and are then renamed into place. An old
// set is linked or copied into DIR/previous-N as a whole before the first of
// its files is touched: whenever the process ends, the old set is whole in
// one of the two places.
type set struct {
	dir   string // as the user named it
	temp  string
	names []string // in the order to write, the report last
}

// writeSet writes files to dir, which it makes where it is missing. The error is
// a *usageError where files stand there already and force is not set, and a
// *fileError where reading or writing fails.
func writeSet(ctx context.Context, dir string, force bool, files []joint.OutputFile) (err error) {
	s := set{dir: dir}
	for _, file := range files {
		s.names = append(s.names, file.Name)
	}
	mustBePlain(s.names)
	old, err := s.standing(force)
	if err != nil {
		return err
	}
	made, err := makeFolder(dir)
	if err != nil {
		return err
	}
	defer func() {
		_ = os.RemoveAll(s.temp)
		if err != nil {
			removeEmpty(made)
		}
	}()
	s.sweep()
	if s.temp, err = os.MkdirTemp(dir, temporaryPrefix+"*"); err != nil {
		return s.trouble("writing to", "", err)
	}
	for _, file := range files {
		if err := s.write(ctx, file); err != nil {
			return err
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if len(old) == 0 {
		return s.place()
	}
	if err := s.keep(old); err != nil {
		return err
	}
	return s.replace(old)
}

// plainName is what a file of a set may be called: no folders, nothing hidden.
var plainName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// mustBePlain panics at names that could leave the folder or meet each other on
// a file system that ignores case: designs make them from checked names.
func mustBePlain(names []string) {
	seen := map[string]bool{}
	for _, name := range names {
		folded := strings.ToLower(name)
		if !plainName.MatchString(name) || strings.HasPrefix(folded, "previous-") || seen[folded] {
			panic(fmt.Sprintf("pintle: output file name %q", name))
		}
		seen[folded] = true
	}
	if len(names) == 0 || names[len(names)-1] != joint.ReportName {
		panic("pintle: the last output file is not " + joint.ReportName)
	}
}

// standing returns the files of an old set: those that would be overwritten and
// those that the old report names.
func (s *set) standing(force bool) ([]string, error) {
	var old []string
	for _, name := range s.names {
		info, err := os.Lstat(filepath.Join(s.dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return nil, s.trouble("looking for", name, err)
		case info.IsDir():
			return nil, usage(fmt.Sprintf("%q is a folder", filepath.Join(s.dir, name)), "name another folder with --out")
		}
		old = append(old, name)
	}
	if len(old) > 0 && !force {
		return nil, usage(fmt.Sprintf("%q already holds %s", s.dir, listing(old)),
			"name another folder, or add --force to move the old set to previous-"+strconv.Itoa(s.next()))
	}
	for _, name := range s.reported() {
		info, err := os.Lstat(filepath.Join(s.dir, name))
		if err == nil && !info.IsDir() && !slices.Contains(old, name) {
			old = append(old, name)
		}
	}
	return old, nil
}

// listing names the first few files.
func listing(names []string) string {
	const most = 5
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}

// reported returns the files that the old report names. An old report that
// cannot be read names none, and only plain names count.
func (s *set) reported() []string {
	data, err := os.ReadFile(filepath.Join(s.dir, joint.ReportName))
	if err != nil {
		return nil
	}
	var report struct{ Files []string }
	if json.Unmarshal(data, &report) != nil {
		return nil
	}
	var names []string
	for _, name := range report.Files {
		if plainName.MatchString(name) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// write writes one file into the temporary folder.
func (s *set) write(ctx context.Context, file joint.OutputFile) error {
	f, err := os.Create(filepath.Join(s.temp, file.Name))
	if err != nil {
		return s.trouble("writing", file.Name, err)
	}
	buffer := bufio.NewWriterSize(contextWriter{ctx, f}, 1<<16)
	err = file.Write(buffer)
	if err == nil {
		err = buffer.Flush()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return s.trouble("writing", file.Name, err)
	}
	return nil
}

// sweep removes what builds that were killed left behind. Younger folders may
// belong to a build at work.
func (s *set) sweep() {
	entries, err := os.ReadDir(s.dir)
	if err != nil {
		return // the writing tells it
	}
	for _, entry := range entries {
		if !strings.HasPrefix(entry.Name(), temporaryPrefix) {
			continue
		}
		if info, err := entry.Info(); err == nil && info.IsDir() && time.Since(info.ModTime()) > time.Hour {
			_ = os.RemoveAll(filepath.Join(s.dir, entry.Name()))
		}
	}
}

// place renames the files into a folder that holds none of them. Where it
// fails it takes back what it placed.
func (s *set) place() error {
	for i, name := range s.names {
		if err := os.Rename(filepath.Join(s.temp, name), filepath.Join(s.dir, name)); err != nil {
			for _, placed := range s.names[:i] {
				_ = os.Remove(filepath.Join(s.dir, placed))
			}
			return s.trouble("writing", name, err)
		}
	}
	return nil
}

// keep puts the old set into DIR/previous-N, all of it or nothing.
func (s *set) keep(old []string) error {
	kept := filepath.Join(s.temp, "previous")
	if err := os.Mkdir(kept, 0o777); err != nil {
		return s.trouble("keeping the old set in", "", err)
	}
	for _, name := range old {
		from, to := filepath.Join(s.dir, name), filepath.Join(kept, name)
		if os.Link(from, to) == nil {
			continue
		}
		if err := copyFile(from, to); err != nil {
			return s.trouble("keeping", name, err)
		}
	}
	if err := os.Rename(kept, s.previous(s.next())); err != nil {
		return s.trouble("keeping the old set in", "", err)
	}
	return nil
}

// replace puts the files in the place of an old set that keep has kept. The old
// report goes first: a folder with a report holds one whole set.
func (s *set) replace(old []string) error {
	where := s.previous(s.next() - 1)
	slices.SortStableFunc(old, func(a, b string) int {
		switch {
		case a == joint.ReportName:
			return -1
		case b == joint.ReportName:
			return 1
		}
		return 0
	})
	for _, name := range old {
		if err := os.Remove(filepath.Join(s.dir, name)); err != nil {
			return s.trouble("replacing", name, fmt.Errorf("%w; the old set is whole in %q", cause(err), where))
		}
	}
	if err := s.place(); err != nil {
		return &fileError{fmt.Errorf("%w; the old set is whole in %q", err, where)}
	}
	return nil
}

func (s *set) previous(n int) string { return filepath.Join(s.dir, "previous-"+strconv.Itoa(n)) }

// next returns the number after the highest of the kept sets.
func (s *set) next() int {
	entries, err := os.ReadDir(s.dir)
	if err != nil {
		return 1
	}
	highest := 0
	for _, entry := range entries {
		if digits, ok := strings.CutPrefix(entry.Name(), "previous-"); ok {
			if n, err := strconv.Atoi(digits); err == nil {
				highest = max(highest, n)
			}
		}
	}
	return highest + 1
}

// trouble says what was being done to which file, and why it failed.
func (s *set) trouble(doing, name string, err error) error {
	return &fileError{fmt.Errorf("%s %q: %w", doing, filepath.Join(s.dir, name), cause(err))}
}

// cause strips the operation and path that the file system adds to an error:
// temporary names mean nothing to the user.
func cause(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// makeFolder makes dir with the folders above it and returns those it made,
// innermost first.
func makeFolder(dir string) ([]string, error) {
	var made []string
	for path := filepath.Clean(dir); ; path = filepath.Dir(path) {
		if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		made = append(made, path)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		removeEmpty(made)
		return nil, &fileError{fmt.Errorf("making the folder %q: %w", dir, cause(err))}
	}
	return made, nil
}

// removeEmpty removes folders as long as they are empty.
func removeEmpty(folders []string) {
	for _, folder := range folders {
		_ = os.Remove(folder)
	}
}

func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.Create(to)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// A contextWriter stops writing when its context ends.
type contextWriter struct {
	ctx context.Context
	w   io.Writer
}

func (c contextWriter) Write(p []byte) (int, error) {
	if err := c.ctx.Err(); err != nil {
		return 0, err
	}
	return c.w.Write(p)
}
