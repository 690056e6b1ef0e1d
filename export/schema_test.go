package export_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pintle/export"
)

// A schema is the part of JSON Schema 2020-12 that report.schema.json uses.
type schema struct {
	Type                 string            `json:"type"`
	Const                any               `json:"const"`
	Enum                 []any             `json:"enum"`
	Required             []string          `json:"required"`
	Properties           map[string]schema `json:"properties"`
	AdditionalProperties json.RawMessage   `json:"additionalProperties"`
	Items                *schema           `json:"items"`
	MinItems             *int              `json:"minItems"`
	MaxItems             *int              `json:"maxItems"`
	Minimum              *float64          `json:"minimum"`
	Schema               string            `json:"$schema"`
	Title                string            `json:"title"`
	Description          string            `json:"description"`
}

// validate returns what the schema finds wrong with a decoded JSON value.
func (s schema) validate(at string, v any) []string {
	var wrong []string
	say := func(format string, args ...any) { wrong = append(wrong, at+": "+fmt.Sprintf(format, args...)) }
	if s.Const != nil && v != s.Const {
		say("%v is not %v", v, s.Const)
	}
	if s.Enum != nil && !slices.Contains(s.Enum, v) {
		say("%v is not one of %v", v, s.Enum)
	}
	kind := "null"
	switch v := v.(type) {
	case map[string]any:
		kind = "object"
		wrong = append(wrong, s.validateObject(at, v)...)
	case []any:
		kind = "array"
		if s.MinItems != nil && len(v) < *s.MinItems || s.MaxItems != nil && len(v) > *s.MaxItems {
			say("%d items", len(v))
		}
		for i, item := range v {
			if s.Items != nil {
				wrong = append(wrong, s.Items.validate(fmt.Sprintf("%s[%d]", at, i), item)...)
			}
		}
	case string:
		kind = "string"
	case bool:
		kind = "boolean"
	case float64:
		kind = "number"
		if s.Type == "integer" && v == math.Trunc(v) {
			kind = "integer"
		}
		if s.Minimum != nil && v < *s.Minimum {
			say("%g is below %g", v, *s.Minimum)
		}
	}
	if s.Type != "" && s.Type != kind {
		say("is of type %s, not %s", kind, s.Type)
	}
	return wrong
}

func (s schema) validateObject(at string, v map[string]any) []string {
	var wrong []string
	for _, key := range s.Required {
		if _, ok := v[key]; !ok {
			wrong = append(wrong, at+": "+key+" is missing")
		}
	}
	for key, value := range v {
		property, known := s.Properties[key]
		switch {
		case known:
			wrong = append(wrong, property.validate(at+"."+key, value)...)
		case string(s.AdditionalProperties) == "false":
			wrong = append(wrong, at+": "+key+" is unknown")
		case len(s.AdditionalProperties) > 0:
			var other schema
			if err := json.Unmarshal(s.AdditionalProperties, &other); err != nil {
				return append(wrong, err.Error())
			}
			wrong = append(wrong, other.validate(at+"."+key, value)...)
		}
	}
	return wrong
}

func reportSchema(t *testing.T) schema {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "report.schema.json"))
	if err != nil {
		t.Fatal(err)
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields() // a keyword that validate does not know would pass unseen
	var s schema
	if err := d.Decode(&s); err != nil {
		t.Fatal(err)
	}
	return s
}

func decoded(t *testing.T, r export.Report) map[string]any {
	t.Helper()
	var out bytes.Buffer
	if err := export.WriteJSON(&out, r); err != nil {
		t.Fatal(err)
	}
	var v map[string]any
	if err := json.Unmarshal(out.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// Full and empty reports obey the published schema.
func TestReportObeysItsSchema(t *testing.T) {
	s := reportSchema(t)
	for name, r := range map[string]export.Report{"full": lampReport(), "empty": {}, "part without files": {Parts: []export.Part{{}}}} {
		for _, wrong := range s.validate(name, decoded(t, r)) {
			t.Error(wrong)
		}
	}
}

// The validator must see what is wrong: each change breaks one rule.
func TestSchemaRefusesWrongReports(t *testing.T) {
	s := reportSchema(t)
	for want, spoil := range map[string]func(map[string]any){
		"pintle-report/1":      func(v map[string]any) { v["schema"] = "pintle-report/2" },
		"title is missing":     func(v map[string]any) { delete(v, "title") },
		"colour is unknown":    func(v map[string]any) { v["colour"] = "red" },
		"verdict":              func(v map[string]any) { v["verdict"] = "good" },
		"not array":            func(v map[string]any) { v["placed"] = nil },
		"designs.gears.lamp":   func(v map[string]any) { v["designs"].(map[string]any)["gears.lamp"] = 1.0 },
		"parts[0].size_mm":     func(v map[string]any) { v["parts"].([]any)[0].(map[string]any)["size_mm"] = []any{1.0, 2.0} },
		"is below 0":           func(v map[string]any) { v["parts"].([]any)[0].(map[string]any)["mass_g"] = -1.0 },
		"not integer":          func(v map[string]any) { v["parts"].([]any)[0].(map[string]any)["triangles"] = 1.5 },
		"findings[0].accepted": func(v map[string]any) { v["findings"].([]any)[0].(map[string]any)["accepted"] = false },
	} {
		v := decoded(t, lampReport())
		spoil(v)
		if wrong := s.validate("report", v); len(wrong) != 1 || !strings.Contains(wrong[0], want) {
			t.Errorf("want %q, got %v", want, wrong)
		}
	}
}
