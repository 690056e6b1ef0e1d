package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"pintle/check"
	"pintle/joint"
	"pintle/quantity"
)

// A quantityValue is a flag that holds one quantity, with or without a unit.
type quantityValue struct {
	to   *float64
	kind quantity.Kind
}

func quantityVar(flags *pflag.FlagSet, to *float64, kind quantity.Kind, name, help string) {
	flags.Var(&quantityValue{to, kind}, name, help)
}

func (v *quantityValue) Set(text string) (err error) {
	*v.to, err = v.kind.Parse(text)
	return err
}

func (v *quantityValue) Type() string {
	if v.kind == quantity.Number {
		return "NUMBER"
	}
	return v.kind.Unit()
}

func (v *quantityValue) String() string {
	if v.to == nil || *v.to == 0 {
		return ""
	}
	return check.Number(*v.to)
}

// A pairValue is a flag that holds two elements separated by a comma.
type pairValue[T int | float64 | string] struct {
	to   *[2]T
	read func(string) (T, error)
	form string // e.g. "Z1,Z2"
}

func (v *pairValue[T]) Set(text string) error {
	list, err := quantity.List(text, v.read)
	if err != nil {
		return err
	}
	if len(list) != 2 {
		return usage(fmt.Sprintf("%q: must be two values", text), "write "+v.form+" with points for decimals")
	}
	copy(v.to[:], list)
	return nil
}

func (v *pairValue[T]) Type() string   { return v.form }
func (v *pairValue[T]) String() string { return "" }

// A shiftValue is a flag that holds two profile shifts or the rule to choose them.
type shiftValue struct{ to *joint.Shift }

func (v *shiftValue) Set(text string) error {
	if slices.Contains(joint.ShiftRules(), text) {
		*v.to = joint.Shift{Rule: text}
		return nil
	}
	pair := pairValue[float64]{&v.to.X, quantity.Number.Parse, v.Type()}
	if err := pair.Set(text); err != nil {
		return usage(fmt.Sprintf("%q: must be two numbers or one of %s", text, strings.Join(joint.ShiftRules(), ", ")),
			"write "+v.Type()+" with points for decimals")
	}
	v.to.Rule = ""
	return nil
}

func (v *shiftValue) Type() string   { return "X1,X2|" + strings.Join(joint.ShiftRules(), "|") }
func (v *shiftValue) String() string { return "" }

// A wordValue is a flag that holds one of a few words, or what more says.
type wordValue struct {
	to    *string
	words []string
	more  func(string) bool
}

func (v *wordValue) Set(text string) error {
	if !slices.Contains(v.words, text) && (v.more == nil || !v.more(text)) {
		return usage(strconv.Quote(text)+": is not known", "must be one of "+strings.Join(v.words, ", "))
	}
	*v.to = text
	return nil
}

func (v *wordValue) Type() string   { return strings.Join(v.words, "|") }
func (v *wordValue) String() string { return *v.to }

// A nameValue is a flag that holds the name of a design, which becomes part of
// the names of files.
type nameValue struct{ to *string }

func (v *nameValue) Set(text string) error {
	if err := joint.ValidName(text); err != nil {
		return usage(strconv.Quote(text)+": "+err.Error(), joint.NameRemedy(text))
	}
	*v.to = text
	return nil
}

func (v *nameValue) Type() string   { return "NAME" }
func (v *nameValue) String() string { return *v.to }

// An acceptValue is a flag that holds CHECK[@DESIGN]=REASON and may be repeated.
type acceptValue struct{ to *[]joint.Accept }

func (v *acceptValue) Set(text string) error {
	which, reason, _ := strings.Cut(text, "=")
	reason = strings.TrimSpace(reason)
	if which == "" || reason == "" {
		return usage(strconv.Quote(text)+": names no check or no reason", "write "+v.Type())
	}
	accept, err := joint.NewAccept(which, reason)
	if err != nil {
		return err
	}
	*v.to = append(*v.to, accept)
	return nil
}

func (v *acceptValue) Type() string   { return "CHECK[@DESIGN]=REASON" }
func (v *acceptValue) String() string { return "" }

// A bearingValue is a flag that holds a designation or three sizes.
type bearingValue struct{ to *joint.Bearing }

func (v *bearingValue) Set(text string) error {
	parts := strings.Split(strings.ReplaceAll(text, "×", "x"), "x")
	if len(parts) == 1 {
		if strings.TrimSpace(text) == "" {
			return usage(`"": is empty`, "write "+v.Type())
		}
		*v.to = joint.Bearing{Designation: strings.TrimSpace(text)}
		return nil
	}
	if len(parts) != 3 {
		return usage(strconv.Quote(text)+": must be a designation or three sizes", "write 608, or bore, outside and width as 8x22x7")
	}
	for i, to := range []*float64{&v.to.Bore, &v.to.Outside, &v.to.Overall} {
		size, err := quantity.Length.Parse(parts[i])
		if err != nil {
			return err
		}
		*to = size
	}
	return nil
}

func (v *bearingValue) Type() string   { return "608|8x22x7" }
func (v *bearingValue) String() string { return "" }
