// Command pintle designs joints for servo-driven printed figures: it reads a
// joint file or flags, checks the design and writes its parts.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// version goes into reports and the answer to --version.
const version = "0.1"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run carries out one command line and returns the exit code. It is all of
// the program except for the ending of the process.
func run(args []string, stdout, stderr io.Writer) (code int) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// A second interrupt ends the process at once.
	defer context.AfterFunc(ctx, stop)()
	talk := &talker{w: stderr}
	defer func() {
		if defect := recover(); defect != nil {
			code = talk.defect(defect)
		}
	}()
	env := &environment{ctx: ctx, talk: talk}
	err := env.execute(args)
	if err == nil {
		err = env.flush(stdout)
	} else {
		_ = env.flush(stdout) // the first error is the one to tell
	}
	return talk.outcome(err)
}
