package quantity

import "strconv"

// An Error says what was read, what is wrong with it and what to write.
type Error struct {
	Kind   Kind
	Read   string // as given
	Reason string // the broken rule, without a full stop
	Remedy string // in the imperative
}

// Error gives what was read and the broken rule.
func (e *Error) Error() string { return strconv.Quote(e.Read) + ": " + e.Reason }
