package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/export"
	"pintle/joint"
)

func (env *environment) newBuildCommand() *cobra.Command {
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "build FILE --out DIR",
		Short: "Check the joint of a joint file and write its parts, drawings and report",
		Long: "Check the joint of a joint file and write its parts, drawings and report. Where a check\n" +
			"fails nothing is written; pintle explain CHECK says what it means.\n\n" +
			"  pintle build hare.toml --out hare\n" +
			"  pintle build hare.toml --out fits --slice       its fits alone, to print first\n" +
			"  pintle build hare.toml --out hare --force       the earlier set goes to hare/previous-1\n" +
			"  pintle build hare.toml --out hare --accept tip-thickness=\"runs two evenings only\"",
		Args: exactly(1, "the joint file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := output.check(); err != nil {
				return err
			}
			file, err := readJoint(args[0])
			if err != nil {
				return err
			}
			return env.build(file, design, output, cmd.Flags())
		},
	}
	cmd.Flags().BoolVar(&design.slice, "slice", false, "write the test slice of the joint: its fits in a few grams, to print first")
	design.add(cmd.Flags())
	output.add(cmd.Flags())
	return cmd
}

func (env *environment) newCheckCommand() *cobra.Command {
	design := designFlags{checkOnly: true}
	cmd := &cobra.Command{
		Use:   "check FILE",
		Short: "Check the joint of a joint file and write nothing",
		Args:  exactly(1, "the joint file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			file, err := readJoint(args[0])
			if err != nil {
				return err
			}
			result, err := env.design(file, design, cmd.Flags())
			if err != nil {
				return err
			}
			return env.tell(result, design.json)
		},
	}
	design.add(cmd.Flags())
	return cmd
}

func readJoint(path string) (*joint.File, error) {
	data, err := readFile("joint file", path)
	if err != nil {
		return nil, err
	}
	return joint.Read(path, data)
}

// design works out a joint from a file or flags.
func (env *environment) design(file *joint.File, design designFlags, flags *pflag.FlagSet) (*joint.Result, error) {
	options, err := design.options(file, flags)
	if err != nil {
		return nil, err
	}
	return joint.Design(file, options)
}

// build is what build, gears and housing share: design, tell, write.
func (env *environment) build(file *joint.File, design designFlags, output outputFlags, flags *pflag.FlagSet) error {
	result, err := env.design(file, design, flags)
	if err != nil {
		return err
	}
	old := set{dir: output.dir}
	kept := old.next()
	if failed := result.Failed(); len(failed) == 0 {
		if err := writeSet(env.ctx, output.dir, output.force, result.Files); err != nil {
			return err
		}
	}
	if err := env.tell(result, design.json); err != nil {
		env.talk.say("no file was written")
		return err
	}
	if !design.json {
		listFiles(&env.out, output.dir, result)
		if old.next() > kept {
			fmt.Fprintf(&env.out, "the old set is in %s\n", old.previous(kept))
		}
	}
	return nil
}

// tell prints the findings, and each failed check to the talker.
func (env *environment) tell(result *joint.Result, json bool) error {
	if json {
		if err := export.WriteJSON(&env.out, result.Report); err != nil {
			return err
		}
	} else {
		printFindings(&env.out, result.Report.Findings)
	}
	failed := result.Failed()
	for _, finding := range failed {
		env.talk.say(failedLine(finding))
	}
	if len(failed) > 0 {
		return errFailed
	}
	return nil
}
