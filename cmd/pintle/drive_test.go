package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
)

// obeys returns what a JSON value has against its schema: kinds, constants,
// required and unknown keys.
func obeys(at string, schema map[string]any, v any) []string {
	if want, ok := schema["const"]; ok && v != want {
		return []string{fmt.Sprintf("%s is %v, not %v", at, v, want)}
	}
	kind := "null"
	var wrong []string
	switch v := v.(type) {
	case map[string]any:
		kind = "object"
		properties, _ := schema["properties"].(map[string]any)
		required, _ := schema["required"].([]any)
		for _, key := range required {
			if _, ok := v[key.(string)]; !ok {
				wrong = append(wrong, fmt.Sprintf("%s lacks %v", at, key))
			}
		}
		for key, value := range v {
			if p, ok := properties[key].(map[string]any); ok {
				wrong = append(wrong, obeys(at+"."+key, p, value)...)
			} else if schema["additionalProperties"] == false {
				wrong = append(wrong, at+" has the unknown key "+key)
			}
		}
	case []any:
		kind = "array"
		items, _ := schema["items"].(map[string]any)
		if least, ok := schema["minItems"].(float64); ok && len(v) != int(least) {
			wrong = append(wrong, fmt.Sprintf("%s has %d items", at, len(v)))
		}
		for i, value := range v {
			wrong = append(wrong, obeys(fmt.Sprintf("%s[%d]", at, i), items, value)...)
		}
	case string:
		kind = "string"
	case bool:
		kind = "boolean"
	case float64:
		kind = "number"
		if v == float64(int(v)) && schema["type"] == "integer" {
			kind = "integer"
		}
	}
	switch want := schema["type"].(type) {
	case string:
		if kind != want {
			wrong = append(wrong, fmt.Sprintf("%s is a %s, not a %s", at, kind, want))
		}
	case []any:
		if !slices.Contains(want, any(kind)) {
			wrong = append(wrong, fmt.Sprintf("%s is a %s, not one of %v", at, kind, want))
		}
	}
	return wrong
}

// What --json prints obeys its schema, whether or not pairs are found.
func TestDriveObeysItsSchema(t *testing.T) {
	data, err := os.ReadFile("../../testdata/drive.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args string
		code int
		list string
	}{
		{"../../testdata/lighthouse.toml", exitPass, "candidates"},
		{"--ratio 14 --largest-wheel 60", exitFailed, "trains"},
		{"--ratio 1.5 --largest-wheel 8", exitFailed, "obstacles"},
		{"--servo-torque 20 --servo-speed 300 --travel 180 --mass 190 --swing 60 --time 4", exitPass, "findings"},
	} {
		var out, talk bytes.Buffer
		if code := run(append([]string{"drive", "--json"}, strings.Fields(test.args)...), &out, &talk); code != test.code {
			t.Fatalf("%s: exit %d, %s", test.args, code, &talk)
		}
		var v map[string]any
		if err := json.Unmarshal(out.Bytes(), &v); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range obeys("", schema, v) {
			t.Errorf("%s: %s", test.args, wrong)
		}
		if list, _ := v[test.list].([]any); len(list) == 0 {
			t.Errorf("%s: no %s", test.args, test.list)
		}
		delete(v, "asked")
		v["extra"] = 1.0
		if len(obeys("", schema, v)) != 2 {
			t.Error("the schema lets anything pass")
		}
	}
}

// Whatever is typed, drive ends with pairs, with a reason, or with what to do; it
// never panics.
func FuzzDriveFlags(f *testing.F) {
	for _, seed := range []string{
		"--ratio 1.5 --module 1.5",
		"--servo-torque 20kgf.cm --servo-speed 0.17s/60deg --travel 180 --mass 1.9 --swing 130 --time 4 --module 2",
		"--points 500:-90,2500:90 --servo-torque 2 --servo-speed 300 --mass 60g --offset 120 --axis horizontal --swing 50 --time 0.2 --module 1.5",
		"--ratio 2 --centre-distance 60 --module 1.5 --bearing 608 --horn 20 --bolt-circle 40",
		"--ratio 1e-300 --largest-wheel 0 --module 1",
		"--solid disc:1e9 --ratio 3 --module 1 --backlash -1",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, line string) {
		if len(line) > 300 || strings.Contains(line, "--printer") {
			t.Skip("reads files")
		}
		for _, word := range strings.Fields(line) {
			if !strings.HasPrefix(word, "-") {
				if _, err := os.Stat(word); err == nil {
					t.Skip("reads files")
				}
			}
		}
		var out, talk bytes.Buffer
		switch code := run(append([]string{"drive"}, strings.Fields(line)...), &out, &talk); code {
		case exitPass:
			if out.Len() == 0 {
				t.Errorf("%q says nothing", line)
			}
		case exitFailed, exitUnusable, exitFile:
			if talk.Len() == 0 {
				t.Errorf("%q gives no reason", line)
			}
		default:
			t.Errorf("%q ends with %d: %s", line, code, &talk)
		}
	})
}
