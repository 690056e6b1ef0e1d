package export

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"pintle/check"
)

// A namedText is one value in words under its name.
type namedText struct{ Name, Text string }

// flatten lists the values of nested maps by their joined names, sorted.
func flatten(v any) ([]namedText, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		return nil, err
	}
	return flattenTree(nil, "", tree), nil
}

func flattenTree(pairs []namedText, name string, v any) []namedText {
	switch v := v.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			pairs = flattenTree(pairs, strings.TrimPrefix(name+"."+key, "."), v[key])
		}
		return pairs
	case []any:
		var items []string
		for _, item := range v {
			var words []string
			for _, p := range flattenTree(nil, "", item) {
				words = append(words, strings.TrimPrefix(p.Name+" "+p.Text, " "))
			}
			text := strings.Join(words, ", ")
			if _, nested := item.([]any); nested {
				text = "(" + text + ")"
			}
			items = append(items, text)
		}
		return append(pairs, namedText{name, strings.Join(items, ", ")})
	case float64:
		return append(pairs, namedText{name, check.Number(v)})
	case nil:
		return append(pairs, namedText{name, "none"})
	}
	return append(pairs, namedText{name, fmt.Sprint(v)})
}
