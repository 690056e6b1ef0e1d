package joint

import (
	"fmt"
	"strings"

	"pintle/check"
)

// NewAccept reads CHECK or CHECK@DESIGN and checks that such a failure exists
// and may be let through. The error is a *check.FieldError.
func NewAccept(which, reason string) (Accept, error) {
	a := parseAccept(which, reason)
	rule, err := ruleNamed(a.Check)
	if err == nil && rule.Final {
		err = &check.FieldError{
			Field: "check", Text: a.Check, Reason: "can never be accepted", Remedy: rule.Change,
		}
	}
	return a, err
}

func parseAccept(which, reason string) Accept {
	name, design, _ := strings.Cut(which, "@")
	return Accept{Check: name, Design: design, Reason: reason}
}

// ruleNamed returns the rule of a name, or a *check.FieldError.
func ruleNamed(name string) (check.Rule, error) {
	var known []string
	for _, rule := range Rules() {
		if rule.Name == name {
			return rule, nil
		}
		known = append(known, rule.Name)
	}
	remedy := "the findings of pintle check name the checks"
	if nearest, ok := Nearest(name, known); ok {
		remedy = fmt.Sprintf("did you mean %q?", nearest)
	}
	return check.Rule{}, &check.FieldError{
		Field: "check", Text: name, Reason: "is not the name of a check", Remedy: remedy,
	}
}

// limits reads the user's own thresholds by check.
func (t *table) limits() check.Limits {
	limits := check.Limits{}
	if t == nil {
		return limits
	}
	for name := range t.values {
		in := t.table(name)
		if in == nil {
			continue
		}
		if _, err := ruleNamed(name); err != nil {
			t.refuseKey(name, err)
		}
		in.need("caution", "fail")
		limits[name] = check.Limit{Caution: in.threshold("caution"), Fail: in.threshold("fail")}
		in.finish()
	}
	return limits
}

// threshold reads a number or "none".
func (t *table) threshold(key string) float64 {
	if v, ok := t.value(key); ok && v != any("none") {
		return t.plain(key)
	}
	return check.None
}

// accept reads the failures to let through, with the reasons.
func (t *table) accept() map[string]string {
	accept := map[string]string{}
	if t == nil {
		return accept
	}
	for name := range t.values {
		accept[name] = t.text(name)
		if _, err := NewAccept(name, accept[name]); err != nil {
			t.refuseKey(name, err)
		}
		if strings.TrimSpace(accept[name]) == "" {
			t.refuse(name, "has no reason", "say in a few words why this is accepted")
		}
	}
	return accept
}

// refuseKey notes an error of the key itself.
func (t *table) refuseKey(key string, err error) {
	path := join(t.at, key)
	reason, remedy := err.Error(), ""
	if field, ok := err.(*check.FieldError); ok {
		reason, remedy = field.Reason, field.Remedy
	}
	t.reader.refuse(path, t.source.keys[path], reason, remedy)
}
