package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
)

const about = `pintle designs gear pairs, racks, linkages, bearing housings, plates and grilles for
servo-driven printed figures, checks them and writes their parts, drawings and a report.

  pintle new hare                      write a commented hare.toml to start from
  pintle check hare.toml               check it and write nothing
  pintle build hare.toml --out hare    make the joint that hare.toml describes
`

// writeHelp writes the page of one command, or of all of them for the root.
func (env *environment) writeHelp(cmd *cobra.Command) {
	w := &env.out
	if cmd.HasParent() {
		text := cmd.Long
		if text == "" {
			text = cmd.Short
		}
		fmt.Fprintf(w, "%s\n\nusage: %s\n\nflags\n", text, cmd.UseLine())
	} else {
		fmt.Fprintf(w, "%s\ncommands\n", about)
		env.listCommands(w)
		fmt.Fprint(w, "\nflags\n")
	}
	writeFlags(w, cmd.LocalFlags())
	if !cmd.HasParent() {
		fmt.Fprint(w, "\npintle help COMMAND shows examples and flags of a command\n")
	}
}

// listCommands gives each command a line, the main job first.
func (env *environment) listCommands(w io.Writer) {
	rows := make([][]string, len(env.commands))
	for i, cmd := range env.commands {
		rows[i] = []string{"  " + cmd.Name(), cmd.Short}
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, line)
	}
}

// writeFlags writes each flag with what it takes, what it does and its default.
func writeFlags(w io.Writer, flags *pflag.FlagSet) {
	const column = 30
	flags.VisitAll(func(f *pflag.Flag) {
		kind, text := pflag.UnquoteUsage(f)
		if f.Value.Type() == "bool" {
			kind = ""
		} else if f.DefValue != "" && f.DefValue != "0" {
			text += "; without it " + f.DefValue
		}
		head := strings.TrimRight("  --"+f.Name+" "+kind, " ") + "  "
		if len(head) > column {
			fmt.Fprintln(w, strings.TrimRight(head, " "))
			head = ""
		}
		fmt.Fprint(w, wrapped(fmt.Sprintf("%-*s", column, head), text))
	})
}

func (env *environment) newHelpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Show the commands, or the flags of one",
		Args:  atMost(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			target := cmd.Root()
			if len(args) == 1 {
				found, rest, err := target.Find(args)
				if err != nil || len(rest) > 0 {
					return unknownCommand(target, args)
				}
				target = found
			}
			env.writeHelp(target)
			return nil
		},
	}
}

func (env *environment) newCompletionCommand() *cobra.Command {
	shells := []string{"bash", "zsh", "fish", "powershell"}
	return &cobra.Command{
		Use:       "completion bash|zsh|fish|powershell",
		Short:     "Print the script that makes a shell complete commands and flags",
		Args:      exactly(1, "the shell"),
		ValidArgs: shells,
		RunE: func(cmd *cobra.Command, args []string) error {
			var shell string
			if err := (&wordValue{to: &shell, words: shells}).Set(args[0]); err != nil {
				return err
			}
			root := cmd.Root()
			switch shell {
			case "bash":
				return root.GenBashCompletionV2(&env.out, true)
			case "zsh":
				return root.GenZshCompletion(&env.out)
			case "fish":
				return root.GenFishCompletion(&env.out, true)
			}
			return root.GenPowerShellCompletionWithDesc(&env.out)
		},
	}
}

// completeWords tells the shells the words that a flag of words takes.
func completeWords(cmd *cobra.Command) {
	for _, name := range flagNames(cmd) {
		if words, ok := cmd.Flags().Lookup(name).Value.(*wordValue); ok {
			// The flag exists: its name comes from the command.
			_ = cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(words.words, cobra.ShellCompDirectiveNoFileComp))
		}
	}
}

// checkNames lists the checks for the shells.
func checkNames(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var names []string
	for _, rule := range joint.Rules() {
		names = append(names, rule.Name)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
