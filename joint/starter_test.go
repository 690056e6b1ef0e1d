package joint_test

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pintle/check"
	"pintle/joint"
)

// design reads and designs a joint file of a test.
func design(t *testing.T, text string) *joint.Result {
	t.Helper()
	file, err := joint.Read("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// A file to start from builds as it stands, whatever its name, and leaves
// nothing to worry about but what every first print does.
func TestStarterBuilds(t *testing.T) {
	expected := map[string]bool{"fit-unmeasured": true, "guide-bearing": true}
	for _, kind := range joint.Kinds() {
		for _, name := range []string{"a", "grey-hare-2", strings.Repeat("x", 40)} {
			t.Run(fmt.Sprintf("%s %s", kind, name), func(t *testing.T) {
				text, err := joint.Starter(kind, name)
				if err != nil {
					t.Fatal(err)
				}
				result := design(t, text)
				for _, f := range result.Report.Findings {
					if f.Verdict == check.Fail || f.Verdict == check.Caution && !expected[f.Check] {
						t.Errorf("%s %s: %s %g %s, %s", f.Verdict, f.Check, f.Part, f.Value, f.Unit, f.Remedy)
					}
				}
				if len(result.Report.Parts) == 0 || !strings.HasPrefix(result.Report.Parts[0].Name, name+"-") {
					t.Errorf("parts %+v", result.Report.Parts)
				}
			})
		}
	}
}

// Each key says what it is in a comment of its own line, and with a unit where
// its value has one.
func TestStarterExplainsEachKey(t *testing.T) {
	key := regexp.MustCompile(`^(\w+) = ([^#]+?) *(#.*)?$`)
	// Names of other tables are explained by the first of them.
	bare := map[string]bool{"load": true, "motion": true, "gears": true}
	for _, kind := range joint.Kinds() {
		text, err := joint.Starter(kind, "x")
		if err != nil {
			t.Fatal(err)
		}
		keys := 0
		for number, line := range strings.Split(text, "\n") {
			found := key.FindStringSubmatch(line)
			if found == nil {
				continue
			}
			keys++
			if found[3] == "" && !bare[found[1]] {
				t.Errorf("%s line %d: %s is not explained", kind, number+1, found[1])
			}
			units := regexp.MustCompile(`mm|°C|degrees|kg|\bs\b|µs|number|count|share|leaflet|profile shift|pinion and wheel`)
			if strings.ContainsAny(found[2], "0123456789") && !strings.HasPrefix(found[2], `"`) && !units.MatchString(found[3]) {
				t.Errorf("%s line %d: %s has no unit: %s", kind, number+1, found[1], found[3])
			}
		}
		if keys < 20 {
			t.Errorf("%s: only %d keys", kind, keys)
		}
	}
}

func TestStarterRefuses(t *testing.T) {
	for _, test := range []struct{ kind, name, field string }{
		{"turn", "Hare", "name"},
		{"turn", "../hare", "name"},
		{"turn", "", "name"},
		{"chair", "hare", "kind"},
	} {
		_, err := joint.Starter(test.kind, test.name)
		var e *check.FieldError
		if !errors.As(err, &e) || e.Field != test.field || e.Remedy == "" {
			t.Errorf("Starter(%q, %q): %v", test.kind, test.name, err)
		}
	}
}
