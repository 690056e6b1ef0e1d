// Package quantity reads what people write for a length, a torque or an angle:
// a number with or without a unit.
//
// Results are in the units that joint files and flags use: mm, N·m, degrees, kg,
// s, deg/s, N, °C. A number without a unit is already in that unit. The decimal
// sign is a point; a comma separates the elements of a list.
//
// The inch is 25.4 mm and the pound 0.45359237 kg by the international yard and
// pound agreement of 1959; the kilogram-force takes g = 9.80665 m/s², the
// standard acceleration of the 3rd CGPM (1901). All three are exact.
//
// The package judges no value: a negative length is read as one.
package quantity

import (
	"math"
	"strconv"
	"strings"
)

// A Kind is a kind of quantity.
type Kind int

// The kinds, with the unit of their values.
const (
	Number      Kind = iota // a bare number without unit
	Length                  // mm
	Torque                  // N·m
	Angle                   // deg
	Mass                    // kg
	Time                    // s
	Speed                   // deg/s; also the time a servo needs for an angle, "0.17 s/60deg"
	Force                   // N
	Temperature             // °C
	Current                 // A
	Voltage                 // V
)

// Name returns the trade's word for the kind, such as "torque".
func (k Kind) Name() string { return k.table().name }

// Unit returns the unit of the kind's values, such as "N·m".
func (k Kind) Unit() string { return k.table().unit }

// Units lists the units that Parse knows for the kind, in one line.
func (k Kind) Units() string { return k.table().known }

// Parse reads one quantity such as "12", "0.5in" or "20 kgf.cm" and returns it
// in the kind's unit, correct to 1e-15 of its value. The error is an *Error.
func (k Kind) Parse(text string) (float64, error) {
	refuse := func(reason, remedy string) (float64, error) {
		return 0, &Error{Kind: k, Read: text, Reason: reason, Remedy: remedy}
	}
	trimmed := strings.TrimSpace(text)
	if trimmed == "" {
		return refuse("is empty", "write a number"+k.unitHint())
	}
	if strings.ContainsRune(trimmed, ',') {
		return refuse("has a comma", "use a point: "+strings.ReplaceAll(trimmed, ",", "."))
	}
	end := numberEnd(trimmed)
	unit := strings.TrimSpace(trimmed[end:])
	if end == 0 || strings.HasPrefix(unit, "_") || isHex(trimmed) {
		return refuse("is not a number", "write digits with a decimal point"+k.unitHint())
	}
	value, err := strconv.ParseFloat(trimmed[:end], 64)
	if err != nil {
		return refuse("is too large", "write a number below 1e300")
	}
	if unit != "" {
		convert, ok := k.find(unit)
		if !ok {
			return refuse("the unit "+strconv.Quote(unit)+" is not known", k.remedyForUnit(unit))
		}
		value = convert(value)
	}
	if math.IsInf(value, 0) || math.IsNaN(value) {
		return refuse("is not a finite "+k.Name(), "write a number that is not 0 and below 1e300")
	}
	return value + 0, nil // + 0 turns -0 into 0
}

// Count reads a whole number such as a number of teeth; it may be negative.
func Count(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0, &Error{Kind: Number, Read: text, Reason: "is not a whole number", Remedy: "write digits only, with a comma between several numbers"}
	}
	return n, nil
}

// List reads elements separated by commas with the given reader, such as
// Length.Parse or Count.
func List[T any](text string, read func(string) (T, error)) ([]T, error) {
	var list []T
	for element := range strings.SplitSeq(text, ",") {
		value, err := read(element)
		if err != nil {
			return nil, err
		}
		list = append(list, value)
	}
	return list, nil
}

// numberEnd returns the length of the decimal number that text starts with:
// sign, digits with at most one point, exponent; 0 where there is none.
func numberEnd(text string) int {
	digits := func(i int) int {
		for i < len(text) && text[i] >= '0' && text[i] <= '9' {
			i++
		}
		return i
	}
	start := 0
	if text[0] == '+' || text[0] == '-' {
		start = 1
	}
	end := digits(start)
	count := end - start
	if end < len(text) && text[end] == '.' {
		fraction := digits(end + 1)
		count += fraction - end - 1
		end = fraction
	}
	if count == 0 {
		return 0
	}
	if end < len(text) && (text[end] == 'e' || text[end] == 'E') {
		exponent := end + 1
		if exponent < len(text) && (text[exponent] == '+' || text[exponent] == '-') {
			exponent++
		}
		if last := digits(exponent); last > exponent {
			return last
		}
	}
	return end
}

func isHex(text string) bool {
	text = strings.ToLower(strings.TrimLeft(text, "+-"))
	return strings.HasPrefix(text, "0x") || strings.HasPrefix(text, "0b") || strings.HasPrefix(text, "0o")
}
