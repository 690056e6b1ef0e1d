package main

import (
	"encoding/json"
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
			if asJSON {
				encoder := json.NewEncoder(&env.out)
				encoder.SetIndent("", "  ")
				if err := encoder.Encode(found); err != nil {
					panic("pintle: " + err.Error())
				}
			} else {
				printExamination(&env.out, form, found)
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

// printExamination says in plain words what was found.
func printExamination(w io.Writer, form string, e mesh.Examination) {
	rows := [][]string{
		{"form", form},
		{"triangles", fmt.Sprint(e.Triangles)},
		{"points", fmt.Sprint(e.Points)},
		{"shells", fmt.Sprintf("%d, of which %d bound a hollow", e.Shells, e.Cavities)},
		{"size", dimensions(e.Size) + " mm (" + dimensions(e.SizeIfInches) + " mm if its numbers are inches)"},
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
	if e.Sound() {
		fmt.Fprintln(w, "the mesh is closed and sound")
		return
	}
	for _, fault := range e.Faults {
		at := fault.Where
		fmt.Fprintf(w, "fault  %s, for one at %s %s %s\n", fault.Text,
			check.Number(at[0]), check.Number(at[1]), check.Number(at[2]))
	}
}

func dimensions(v [3]float64) string {
	return check.Number(v[0]) + " x " + check.Number(v[1]) + " x " + check.Number(v[2])
}
