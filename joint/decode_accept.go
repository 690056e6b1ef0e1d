package joint

import (
	"strings"

	"pintle/check"
)

// NewAccept reads CHECK or CHECK@DESIGN and checks that such a failure exists
// and may be let through. The error is a *check.FieldError.
func NewAccept(which, reason string) (Accept, error) {
	a := parseAccept(which, reason)
	rule, err := RuleNamed(a.Check)
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
		if err := adjustable(name); err != nil {
			t.refuseKey(name, err)
		}
		in.need("caution", "fail")
		limits[name] = check.Limit{Caution: in.threshold("caution"), Fail: in.threshold("fail")}
		in.finish()
	}
	return limits
}

// adjustable returns a *check.FieldError for a check that has no limits to set.
func adjustable(name string) error {
	rule, err := RuleNamed(name)
	reason := ""
	switch {
	case err != nil:
		return err
	case rule.Final:
		reason = "has limits that cannot be changed"
	case rule.Sense == check.Informs:
		reason = "only informs and has no limits"
	default:
		return nil
	}
	return &check.FieldError{Field: "check", Text: name, Reason: reason, Remedy: "leave it out"}
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
