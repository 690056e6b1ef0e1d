package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/check"
	"pintle/joint"
	"pintle/quantity"
)

// The exit codes.
const (
	exitPass        = 0
	exitFailed      = 1   // a design fails a check, a mesh is faulty
	exitUnusable    = 2   // input that cannot be used
	exitFile        = 3   // reading or writing fails
	exitDefect      = 4   // a defect of this program
	exitInterrupted = 130 // 128 + SIGINT, as shells have it
)

// A usageError is a command line that cannot be used, with one thing to try.
type usageError struct{ reason, remedy string }

func (e *usageError) Error() string { return e.reason }

func usage(reason, remedy string) error { return &usageError{reason, remedy} }

// A fileError is trouble with reading or writing: doing what, to which file, why.
type fileError struct{ error }

func (e *fileError) Unwrap() error { return e.error }

// errFailed says that a check failed; the findings have been told.
var errFailed = errors.New("a check failed")

// A talker writes to people: every line begins with the program's name.
type talker struct{ w io.Writer }

func (t *talker) say(lines ...string) {
	for _, line := range lines {
		for part := range strings.SplitSeq(line, "\n") {
			if part != "" {
				// Nobody is left to tell where standard error fails.
				_, _ = fmt.Fprintf(t.w, "pintle: %s\n", part)
			}
		}
	}
}

// outcome tells what went wrong and returns the exit code.
func (t *talker) outcome(err error) int {
	var file *fileError
	switch {
	case err == nil:
		return exitPass
	case errors.Is(err, errFailed):
		return exitFailed
	case errors.Is(err, context.Canceled):
		t.say("interrupted, no file was changed")
		return exitInterrupted
	case errors.As(err, &file):
		t.say(err.Error())
		return exitFile
	}
	for _, one := range flatten(err) {
		t.say(one.Error(), remedy(one))
	}
	return exitUnusable
}

// defect tells of a panic, which is always our own fault.
func (t *talker) defect(what any) int {
	text := strings.ReplaceAll(fmt.Sprint(what), "\n", " ")
	t.say(fmt.Sprintf("defect in pintle %s: %s; please report this line with the command and its files", version, text))
	return exitDefect
}

// flatten returns the errors of a joined error.
func flatten(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, one := range joined.Unwrap() {
			all = append(all, flatten(one)...)
		}
		return all
	}
	return []error{err}
}

// remedy returns what an error proposes to do.
func remedy(err error) string {
	var input *joint.InputError
	var field *check.FieldError
	var read *quantity.Error
	var use *usageError
	switch {
	case errors.As(err, &use):
		return use.remedy
	case errors.As(err, &input):
		return input.Remedy
	case errors.As(err, &field):
		return field.Remedy
	case errors.As(err, &read):
		return read.Remedy
	}
	return ""
}

// flagError puts the flag parser's errors into our words.
func flagError(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var empty *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		word := unknown.GetSpecifiedName()
		name := "--" + word
		if short := unknown.GetSpecifiedShortnames(); short != "" {
			word, _, _ = strings.Cut(short, "=") // all that follows the one hyphen
			name = "-" + word
		}
		hint := cmd.CommandPath() + " --help lists the flags"
		if nearest, ok := joint.Nearest(word, flagNames(cmd)); ok {
			hint = "did you mean --" + nearest + "?"
		}
		return usage("unknown flag "+name, hint)
	case errors.As(err, &empty):
		return usage("--"+empty.GetSpecifiedName()+" has no value", "give one: "+plainUsage(empty.GetFlag()))
	case errors.As(err, &invalid):
		return invalidValue(invalid)
	}
	return usage(err.Error(), cmd.CommandPath()+" --help lists the flags")
}

func invalidValue(err *pflag.InvalidValueError) error {
	name := "--" + err.GetFlag().Name
	cause := err.Unwrap()
	switch hint := remedy(cause); {
	case hint != "":
		return usage(name+" "+cause.Error(), hint)
	default:
		return usage(fmt.Sprintf("%s %q: cannot be used", name, err.GetValue()), plainUsage(err.GetFlag()))
	}
}

// plainUsage is what a flag's help says, without the marks around its value.
func plainUsage(f *pflag.Flag) string { return strings.ReplaceAll(f.Usage, "`", "") }
