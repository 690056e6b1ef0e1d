package joint

import (
	"bytes"
	"maps"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// A Position is where a value was given: line and column from 1, counted in
// characters, or the flag in Origin.
type Position struct {
	Line, Column int
	Origin       string
}

// A source knows the position of every key and value of one joint file by
// path. Elements of arrays have paths such as "gears.lamp.teeth[1]".
type source struct {
	keys   map[string]Position
	values map[string]Position
}

func (s *source) has(path string) bool {
	_, ok := s.values[path]
	return ok
}

func (s *source) mark(path string, at Position) {
	if s.values == nil {
		s.values = map[string]Position{}
	}
	s.values[path] = at
}

// without returns the source as if the values at some paths had not been given.
func (s source) without(paths ...string) source {
	s.values = maps.Clone(s.values)
	for _, path := range paths {
		delete(s.values, path)
	}
	return s
}

// find returns the position of a key's value, else of the nearest table around
// it, and the path that was found.
func (s *source) find(table, key string) (Position, string) {
	path := join(table, key)
	for path != "" {
		if p, ok := s.values[path]; ok {
			return p, path
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return Position{}, ""
}

// index reads the positions of a document that is known to be valid TOML.
func index(data []byte) source {
	x := indexer{data: data, line: lineStarts(data)}
	x.keys, x.values = map[string]Position{}, map[string]Position{}
	x.parser.Reset(data)
	table := ""
	for x.parser.NextExpression() {
		switch node := x.parser.Expression(); node.Kind {
		case unstable.Table, unstable.ArrayTable:
			table = x.names("", node.Key())
			x.values[table] = x.keys[table]
		case unstable.KeyValue:
			x.keyValue(table, node)
		}
	}
	return x.source
}

type indexer struct {
	source
	data   []byte
	line   []int // offset of each line's first byte
	parser unstable.Parser
}

// names notes the key parts below a table and returns the full path.
func (x *indexer) names(path string, parts unstable.Iterator) string {
	for parts.Next() {
		node := parts.Node()
		path = join(path, string(node.Data))
		at := x.position(int(node.Raw.Offset))
		for _, index := range []map[string]Position{x.keys, x.values} {
			if _, ok := index[path]; !ok {
				index[path] = at
			}
		}
	}
	return path
}

func (x *indexer) keyValue(table string, node *unstable.Node) {
	path := x.names(table, node.Key())
	end := 0
	for parts := node.Key(); parts.Next(); {
		raw := parts.Node().Raw
		end = int(raw.Offset + raw.Length)
	}
	rest := bytes.TrimLeft(x.data[end:], " \t")
	rest = bytes.TrimLeft(bytes.TrimPrefix(rest, []byte("=")), " \t")
	x.value(path, node.Value(), len(x.data)-len(rest))
}

func (x *indexer) value(path string, node *unstable.Node, offset int) {
	x.values[path] = x.position(offset)
	switch node.Kind {
	case unstable.InlineTable:
		for children := node.Children(); children.Next(); {
			x.keyValue(path, children.Node())
		}
	case unstable.Array:
		i := 0
		for children := node.Children(); children.Next(); i++ {
			child := children.Node()
			x.value(element(path, i), child, start(child, offset))
		}
	}
}

// start returns the offset of a value, of its first element for an array within
// an array, since the parser keeps no place for brackets.
func start(node *unstable.Node, otherwise int) int {
	for node.Kind == unstable.Array && node.Child().Valid() {
		node = node.Child()
	}
	if node.Raw.Length == 0 {
		return otherwise
	}
	return int(node.Raw.Offset)
}

// position turns a byte offset into a line and a column in characters.
func (x *indexer) position(offset int) Position {
	lo, hi := 0, len(x.line)
	for hi-lo > 1 {
		if middle := (lo + hi) / 2; x.line[middle] <= offset {
			lo = middle
		} else {
			hi = middle
		}
	}
	return Position{Line: lo + 1, Column: 1 + utf8.RuneCount(x.data[x.line[lo]:offset])}
}

func lineStarts(data []byte) []int {
	starts := []int{0}
	for i, b := range data {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

func join(table, key string) string {
	switch {
	case table == "":
		return key
	case key == "":
		return table
	}
	return table + "." + key
}

func element(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }
