package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"pintle/joint"
)

func (env *environment) newNewCommand() *cobra.Command {
	kind := joint.Kinds()[0]
	var out string
	var force bool
	cmd := &cobra.Command{
		Use:   "new NAME",
		Short: "Write a commented joint file to start from",
		Long: "Write a commented joint file to start from:\n\n" +
			"  pintle new owl                    owl.toml: a part turned through a pair of gears\n" +
			"  pintle new jaw --kind lever       jaw.toml: a part on a lever, moved by a pushrod\n" +
			"  pintle new voice --kind grille    voice.toml: a panel before a loudspeaker",
		Args: exactly(1, "the name of the joint"),
		RunE: func(_ *cobra.Command, args []string) error {
			var name string
			if err := (&nameValue{&name}).Set(args[0]); err != nil {
				return err
			}
			text, err := joint.Starter(kind, name)
			if err != nil {
				return err
			}
			if out == "-" {
				env.out.WriteString(text)
				return nil
			}
			if out == "" {
				out = name + ".toml"
			}
			kept, err := writeNew(out, []byte(text), force)
			if err != nil {
				return err
			}
			if kept != "" {
				fmt.Fprintf(&env.out, "kept the old file as %s\n", kept)
			}
			fmt.Fprintf(&env.out, "wrote %s\nnext: put your readings in, then pintle build %s --out %s\n", out, out, name)
			return nil
		},
	}
	flags := cmd.Flags()
	flags.Var(&wordValue{to: &kind, words: joint.Kinds()}, "kind", "what the file describes: a part turned through a pair of gears, a part on a lever moved by a pushrod (a nod, a jaw, an arm), or a panel with holes")
	flags.StringVar(&out, "out", "", "`FILE` to write, - for standard output; without it NAME.toml")
	flags.BoolVar(&force, "force", false, "keep a file that stands there under another name and write the new one")
	return cmd
}

// writeNew writes a file that appears whole. One that stands there already is an
// error, or is kept under the name that it returns.
func writeNew(path string, data []byte, force bool) (kept string, err error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return "", &fileError{fmt.Errorf("looking for %q: %w", path, cause(err))}
	case info.IsDir():
		return "", usage(strconv.Quote(path)+" is a folder", "name a file with --out")
	case !force:
		return "", usage(strconv.Quote(path)+" stands there already", "name another file with --out, or add --force to keep the old one beside it")
	default:
		kept = freeName(path)
	}
	if err := replaceFile(path, kept, data); err != nil {
		return "", &fileError{fmt.Errorf("writing %q: %w", path, cause(err))}
	}
	return kept, nil
}

// replaceFile writes a file beside path, moves what stands at path to kept where
// there is a kept, and moves the file into place.
func replaceFile(path, kept string, data []byte) error {
	temp, err := os.MkdirTemp(filepath.Dir(path), temporaryPrefix+"*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	whole := filepath.Join(temp, filepath.Base(path))
	if err := os.WriteFile(whole, data, 0o666); err != nil {
		return err
	}
	if kept != "" {
		if err := os.Rename(path, kept); err != nil {
			return err
		}
	}
	return os.Rename(whole, path)
}

// freeName returns the first name beside path that nothing has.
func freeName(path string) string {
	ending := filepath.Ext(path)
	stem := strings.TrimSuffix(path, ending)
	for n := 1; ; n++ {
		name := fmt.Sprintf("%s-previous-%d%s", stem, n, ending)
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return name
		}
	}
}
