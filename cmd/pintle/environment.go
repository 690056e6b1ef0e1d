package main

import (
	"bytes"
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
)

// An environment is what all commands share: results gather in out, so that
// nothing is printed by halves.
type environment struct {
	ctx  context.Context
	out  bytes.Buffer
	talk *talker
}

func (env *environment) execute(args []string) error {
	root := env.newRoot()
	root.SetArgs(args)
	root.SetOut(&env.out)
	root.SetErr(&env.out)
	return root.ExecuteContext(env.ctx)
}

func (env *environment) flush(stdout io.Writer) error {
	if _, err := stdout.Write(env.out.Bytes()); err != nil {
		return &fileError{fmt.Errorf("writing the results: %w", err)}
	}
	return nil
}

func (env *environment) newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "pintle",
		Short: "Design joints for servo-driven printed figures",
		Long: "pintle designs gear pairs, bearing housings and plates for servo-driven\n" +
			"printed figures, checks them and writes their parts, drawings and a report.",
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetVersionTemplate("pintle {{.Version}}\n")
	root.SetFlagErrorFunc(flagError)
	root.AddCommand(
		env.newBuildCommand(), env.newCheckCommand(), env.newGearsCommand(),
		env.newHousingCommand(), env.newInspectCommand(),
	)
	root.Args = func(_ *cobra.Command, args []string) error { return unknownCommand(root, args) }
	root.RunE = func(*cobra.Command, []string) error {
		return usage("no command given", "pintle help lists the commands")
	}
	return root
}

// unknownCommand refuses words that are no command, with the nearest that is.
func unknownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var known []string
	for _, command := range root.Commands() {
		known = append(known, command.Name())
	}
	remedy := "pintle help lists the commands"
	if nearest, ok := joint.Nearest(args[0], known); ok {
		remedy = fmt.Sprintf("did you mean %q?", nearest)
	}
	return usage(fmt.Sprintf("unknown command %q", args[0]), remedy)
}

// exactly is cobra's check for the number of arguments, in our words.
func exactly(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < n:
			return usage(fmt.Sprintf("%s: %s is missing", cmd.Name(), what), "usage: "+cmd.UseLine())
		case len(args) > n:
			return usage(fmt.Sprintf("%s: unexpected argument %q", cmd.Name(), args[n]), "usage: "+cmd.UseLine())
		}
		return nil
	}
}

// flagNames lists the flags of a command for the search of the nearest.
func flagNames(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}
