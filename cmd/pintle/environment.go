package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
)

// An environment is what all commands share: results gather in out, so that
// nothing is printed by halves.
type environment struct {
	ctx      context.Context
	out      bytes.Buffer
	talk     *talker
	commands []*cobra.Command // in the order of the help
}

func (env *environment) execute(args []string) error {
	root := env.newRoot()
	isCommand := func(c *cobra.Command) bool { return c.Name() == args[0] }
	hidden := []string{"-", "__"} // flags, and what completion scripts call
	if len(args) > 0 && !slices.ContainsFunc(root.Commands(), isCommand) &&
		!slices.ContainsFunc(hidden, func(p string) bool { return strings.HasPrefix(args[0], p) }) {
		return unknownCommand(root, args) // before its flags are called unknown
	}
	root.SetArgs(args)
	root.SetOut(&env.out)
	root.SetErr(io.Discard) // what goes wrong is returned
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
		Use:               "pintle",
		Version:           version,
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	root.SetVersionTemplate("pintle {{.Version}}\n")
	root.SetFlagErrorFunc(flagError)
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { env.writeHelp(cmd) })
	help := env.newHelpCommand()
	root.SetHelpCommand(help)
	env.commands = []*cobra.Command{
		env.newBuildCommand(), env.newCheckCommand(), env.newNewCommand(),
		env.newGearsCommand(), env.newHousingCommand(), env.newGrilleCommand(), env.newLinkageCommand(),
		env.newCouponCommand(), env.newDriveCommand(),
		env.newBearingsCommand(), env.newExplainCommand(), env.newInspectCommand(),
		help, env.newCompletionCommand(),
	}
	root.AddCommand(env.commands...)
	root.Flags().Bool("version", false, "print the version")
	for _, cmd := range append(env.commands, root) {
		cmd.DisableFlagsInUseLine = true
		cmd.Flags().BoolP("help", "h", false, "show this help; also -h")
		completeWords(cmd)
	}
	root.Args = func(_ *cobra.Command, args []string) error { return unknownCommand(root, args) }
	root.RunE = func(*cobra.Command, []string) error {
		env.writeHelp(root)
		return nil
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

// atMost is cobra's check for commands whose arguments may be left out.
func atMost(n int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > n {
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
