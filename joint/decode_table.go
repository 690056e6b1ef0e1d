package joint

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"

	"pintle/quantity"
)

// A table reads the keys of one TOML table and remembers which it was asked
// for. Methods of the nil table, which was not given, return zeros.
type table struct {
	*reader
	at     string // path
	values map[string]any
	known  []string
}

// value returns what stands at a key and notes the key as known.
func (t *table) value(key string) (any, bool) {
	if t == nil {
		return nil, false
	}
	if !slices.Contains(t.known, key) {
		t.known = append(t.known, key)
	}
	v, ok := t.values[key]
	return v, ok
}

func (t *table) has(key string) bool {
	if t == nil {
		return false
	}
	_, ok := t.values[key]
	return ok
}

// refuse notes an error at the value of a key.
func (t *table) refuse(key, reason, remedy string) {
	at, _ := t.source.find(t.at, key)
	t.reader.refuse(join(t.at, key), at, reason, remedy)
}

// need refuses the table for each key that it lacks.
func (t *table) need(keys ...string) {
	if t == nil {
		return
	}
	for _, key := range keys {
		if !t.has(key) {
			at, _ := t.source.find(t.at, "")
			t.reader.refuse(t.at, at, fmt.Sprintf("the key %q is missing", key), "add a line: "+key+" = ...")
		}
	}
}

// finish refuses the keys that nothing asked for.
func (t *table) finish() {
	if t == nil {
		return
	}
	for _, key := range slices.Sorted(maps.Keys(t.values)) {
		if slices.Contains(t.known, key) {
			continue
		}
		remedy := "known here: " + strings.Join(slices.Sorted(slices.Values(t.known)), ", ")
		if nearest, ok := Nearest(key, t.known); ok {
			remedy = fmt.Sprintf("did you mean %q?", nearest)
		}
		path := join(t.at, key)
		t.reader.refuse(path, t.source.keys[path], "is not a known key", remedy)
	}
}

// quantity reads a number, or a text with a unit.
func (t *table) quantity(key string, kind quantity.Kind) float64 {
	v, ok := t.value(key)
	if !ok {
		return 0
	}
	return t.number(key, v, kind)
}

// length, plain and number of teeth are the commonest quantities.
func (t *table) length(key string) float64 { return t.quantity(key, quantity.Length) }
func (t *table) plain(key string) float64  { return t.quantity(key, quantity.Number) }

func (t *table) number(key string, v any, kind quantity.Kind) float64 {
	switch v := v.(type) {
	case int64:
		return float64(v)
	case float64:
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			return v + 0 // + 0 turns -0 into 0
		}
		t.refuse(key, fmt.Sprintf("%v is not a finite number", v), "write a number")
	case string:
		if kind == quantity.Number {
			t.refuse(key, "must be a number, not a text", "write it without quotes")
			return 0
		}
		value, err := kind.Parse(v)
		if err != nil {
			t.refuse(key, err.Error(), remedyOf(err))
		}
		return value
	default:
		t.refuse(key, "must be a "+kind.Name()+", not "+describe(v), example(kind))
	}
	return 0
}

func example(kind quantity.Kind) string {
	if kind == quantity.Number {
		return "write a number"
	}
	return fmt.Sprintf("write a number in %s, or a text with a unit: %s", kind.Unit(), kind.Units())
}

// count reads a whole number.
func (t *table) count(key string) int {
	v, ok := t.value(key)
	if !ok {
		return 0
	}
	return t.whole(key, v)
}

func (t *table) whole(key string, v any) int {
	n, ok := v.(int64)
	if !ok || n > math.MaxInt32 || n < math.MinInt32 {
		t.refuse(key, "must be a whole number, not "+describe(v), "write digits only")
		return 0
	}
	return int(n)
}

// text reads a text without control characters.
func (t *table) text(key string) string {
	v, ok := t.value(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		t.refuse(key, "must be a text, not "+describe(v), "write it in quotes")
		return ""
	}
	if strings.ContainsFunc(s, unicode.IsControl) {
		t.refuse(key, "has a control character", "write it in one line")
		return ""
	}
	return s
}

// word reads one of the words.
func (t *table) word(key string, words []string) string {
	s := t.text(key)
	if !t.has(key) || slices.Contains(words, s) {
		return s
	}
	if _, ok := t.values[key].(string); ok {
		remedy := "must be one of " + strings.Join(words, ", ")
		t.refuse(key, fmt.Sprintf("%q is not known: %s", s, remedy), nearestWord(s, words))
	}
	return ""
}

func nearestWord(s string, words []string) string {
	if nearest, ok := Nearest(s, words); ok {
		return fmt.Sprintf("did you mean %q?", nearest)
	}
	return "choose one of these"
}

// yes reads true or false.
func (t *table) yes(key string) bool {
	v, ok := t.value(key)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		t.refuse(key, "must be true or false, not "+describe(v), "write true or false without quotes")
	}
	return b
}

// list reads the elements of an array of n elements; of two or more where n is 0.
func (t *table) list(key string, n int) []any {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	switch {
	case !ok:
		t.refuse(key, fmt.Sprintf("must be %s, not %s", listOf(n), describe(v)), "write it in square brackets")
	case n > 0 && len(list) != n, len(list) < 2:
		t.refuse(key, fmt.Sprintf("must be %s, has %d", listOf(n), len(list)), "write it in square brackets")
	default:
		return list
	}
	return nil
}

func listOf(n int) string {
	if n == 0 {
		return "a list of two or more values"
	}
	return fmt.Sprintf("a list of %d values", n)
}

// lengths reads a fixed number of lengths into to.
func (t *table) lengths(key string, to []float64) {
	for i, v := range t.list(key, len(to)) {
		to[i] = t.number(element(key, i), v, quantity.Length)
	}
}

// table reads a table within this one; nil where it was not given.
func (t *table) table(key string) *table {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	values, ok := v.(map[string]any)
	if !ok {
		t.refuse(key, "must be a table, not "+describe(v), "write { key = value, ... }")
		return nil
	}
	return &table{reader: t.reader, at: join(t.at, key), values: values}
}

// named reads each table within t under its name.
func named[T any](t *table, check func(string) string, read func(*table) T) map[string]T {
	all := map[string]T{}
	if t == nil {
		return all
	}
	for _, name := range slices.Sorted(maps.Keys(t.values)) {
		if reason := check(name); reason != "" {
			path := join(t.at, name)
			t.reader.refuse(path, t.source.keys[path], reason, "rename it")
			continue
		}
		one := t.table(name)
		if one == nil {
			continue
		}
		all[name] = read(one)
		one.finish()
	}
	return all
}
