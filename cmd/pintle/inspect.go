package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"pintle/check"
	"pintle/export"
	"pintle/mesh"
)

func (env *environment) newInspectCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "inspect FILE.stl",
		Short: "Say whether the mesh of an STL file is closed, how large it is and what is wrong where",
		Args:  exactly(1, "the STL file"),
		RunE: func(_ *cobra.Command, args []string) error {
			soup, form, err := readSTL(args[0])
			if err != nil {
				return err
			}
			found := mesh.Inspect(soup)
			sound := found.Sound()
			if form == export.MisleadingSTL {
				found.Faults = append(found.Faults, mesh.Fault{Kind: "misleading header", Text: misleading, Where: found.Low, Count: 1})
			}
			if asJSON {
				env.printJSON(found)
			} else {
				printExamination(&env.out, form, found, sound)
			}
			if found.Sound() {
				return nil
			}
			env.talk.say(fmt.Sprintf("%s is faulty: %s", args[0], found.Faults[0].Text))
			return errFailed
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the findings as JSON instead of text")
	return cmd
}

// misleading describes a fault of the file, not of the mesh in it.
const misleading = `the file is binary, but its header begins with "solid": some readers take it for text and find nothing in it`

// readSTL reads the triangles of a file. A file that opens but is no STL is
// input that cannot be used.
func readSTL(path string) (mesh.Soup, string, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, "", &fileError{fmt.Errorf("reading %q: %w", path, cause(err))}
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, "", &fileError{fmt.Errorf("reading %q: %w", path, cause(err))}
	}
	if info.IsDir() {
		return nil, "", &fileError{fmt.Errorf("reading %q: is a folder", path)}
	}
	soup, form, err := export.ReadSTL(file, info.Size())
	if err != nil {
		return nil, "", usage(fmt.Sprintf("%s: %v", path, err), "check that this is a whole STL file")
	}
	return soup, form, nil
}

// printExamination says in plain words what was found. The mesh may be sound
// while the file is not.
func printExamination(w io.Writer, form string, e mesh.Examination, sound bool) {
	rows := [][]string{
		{"form", form},
		{"triangles", fmt.Sprint(e.Triangles)},
		{"points", fmt.Sprint(e.Points)},
		{"shells", fmt.Sprintf("%d, of which %d bound a hollow", e.Shells, e.Cavities)},
		{"size", dimensions(e.Size) + " mm = " + dimensions(e.SizeInches) + " in"},
		{"if inches", dimensions(e.SizeIfInches) + " mm, if its numbers are inches instead of mm"},
		{"from", dimensions(e.Low) + " mm"},
		{"to", dimensions(e.High) + " mm"},
		{"area", check.Number(e.Area) + " mm²"},
		{"volume", check.Number(e.Volume) + " mm³"},
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, line)
	}
	if e.Unexamined != "" {
		fmt.Fprintln(w, "not examined: "+e.Unexamined)
	}
	for _, fault := range e.Faults {
		at := ""
		if fault.Text != misleading {
			at = ", for one at " + check.Number(fault.Where[0]) + " " + check.Number(fault.Where[1]) + " " + check.Number(fault.Where[2])
		}
		fmt.Fprintf(w, "fault  %s%s\n", fault.Text, at)
	}
	switch {
	case sound && len(e.Faults) > 0:
		fmt.Fprintln(w, "the mesh itself is closed and sound")
	case sound && e.Unexamined == "":
		fmt.Fprintln(w, "the mesh is closed and sound")
	case sound:
		fmt.Fprintln(w, "the mesh is sound as far as it was examined")
	}
}

func dimensions(v [3]float64) string {
	return check.Number(v[0]) + " x " + check.Number(v[1]) + " x " + check.Number(v[2])
}
