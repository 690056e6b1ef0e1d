package joint

import (
	"errors"
	"fmt"
	"strings"

	"pintle/check"
)

// An InputError says where in a joint file, or by which flag, an input was
// given that cannot be used.
type InputError struct {
	File   string // as given to Read, or "" for a flag
	Line   int    // from 1, or 0 where there is no place
	Column int    // in characters from 1
	Key    string // "gears.lamp.module", or the flag "--module"
	Err    error  // a *check.FieldError or a text
	Remedy string // one thing to try, or ""
}

// Error gives the place, the key and what is wrong with it.
func (e *InputError) Error() string {
	place := e.File
	if e.Line > 0 {
		place = fmt.Sprintf("%s:%d:%d", e.File, e.Line, e.Column)
	}
	if place != "" {
		place += ": "
	}
	if e.Key == "" {
		return place + e.Err.Error()
	}
	if field, ok := e.Err.(*check.FieldError); ok && names(e.Key, field.Field) {
		return place + e.Key + " " + field.Given() + ": " + field.Reason
	}
	return place + e.Key + ": " + e.Err.Error()
}

// Unwrap returns the error without its place.
func (e *InputError) Unwrap() error { return e.Err }

// names says whether a key or flag is the quantity's own, so that the quantity
// need not be named again.
func names(key, quantity string) bool {
	word := strings.TrimLeft(key[strings.LastIndex(key, ".")+1:], "-")
	word = strings.NewReplacer("_", " ", "-", " ").Replace(word)
	word, _, _ = strings.Cut(word, "[")
	return strings.Contains(strings.ReplaceAll(quantity, "-", " "), word)
}

// reasonOf returns an error's reason with its quantity and value, without place.
func reasonOf(err error) string {
	var field *check.FieldError
	if errors.As(err, &field) {
		return field.Error()
	}
	return err.Error()
}

// remedyOfInput returns what an error proposes to do.
func remedyOfInput(err error) string {
	var field *check.FieldError
	if errors.As(err, &field) {
		return field.Remedy
	}
	return ""
}
