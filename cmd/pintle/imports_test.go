package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// levels is the table of DEVELOPERS.md: a package imports lower levels only.
var levels = map[string]int{
	"pintle/geom": 0, "pintle/check": 0, "pintle/quantity": 0,
	"pintle/geom/lettering": 1,
	"pintle/mesh":           1, "pintle/fit": 1, "pintle/drive": 1, "pintle/drawing": 1,
	"pintle/drawing/paper": 2,
	"pintle/gear":          2, "pintle/bearing": 2, "pintle/grille": 2, "pintle/linkage": 2, "pintle/export": 2,
	"pintle/coupon":     3,
	"pintle/joint":      4,
	"pintle/cmd/pintle": 5,
}

// export turns meshes into bytes and level 1 packages may read units, so the
// only extra arrow is none: sideways imports fail like upward ones.
func TestImportsGoDown(t *testing.T) {
	const root = "../.."
	seen := 0
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(file))
		if err != nil {
			return err
		}
		from := path.Join("pintle", filepath.ToSlash(rel))
		level, known := levels[from]
		if !known {
			t.Errorf("%s: package %s is not in the table of levels", file, from)
			return nil
		}
		seen++
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range parsed.Imports {
			to, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if strings.HasPrefix(to, "pintle/") && levels[to] >= level {
				t.Errorf("%s: %s (level %d) imports %s (level %d)", file, from, level, to, levels[to])
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Fatal("found no Go files")
	}
}
