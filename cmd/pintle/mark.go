package main

import (
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
)

// needFlags refuses a command line that lacks one of the flags.
func needFlags(cmd *cobra.Command, names ...string) error {
	for _, name := range names {
		if f := cmd.Flags().Lookup(name); !f.Changed {
			return usage(cmd.Name()+" needs --"+name, "give it: "+plainUsage(f))
		}
	}
	return nil
}

// markFlags tells the file which flag gave which value.
func markFlags(file *joint.File, flags *pflag.FlagSet, table string, keys map[string][]string) {
	for name, paths := range keys {
		if f := flags.Lookup(name); f.Changed || f.DefValue != "" {
			for _, path := range paths {
				file.Mark(table+"."+path, "--"+name)
			}
		}
	}
}

// markBearing tells the file which flag named the bearing.
func markBearing(file *joint.File, name, flag string, b joint.Bearing) {
	for key, given := range map[string]bool{
		"designation": b.Designation != "", "bore": b.Designation == "", "outside": b.Designation == "", "overall": b.Designation == "",
	} {
		if given {
			file.Mark("bearing."+name+"."+key, flag)
		}
	}
}
