package main

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// codeFile is where the command under test leaves its exit code for the
// script's command exitcode.
const codeFile = "PINTLE_CODE_FILE"

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"pintle": func() {
			code := run(os.Args[1:], os.Stdout, os.Stderr)
			if err := os.WriteFile(os.Getenv(codeFile), []byte(strconv.Itoa(code)), 0o666); err != nil {
				panic(err)
			}
			os.Exit(code)
		},
	})
}

// Whole commands: exit code, messages, and which files stand afterwards.
func TestScripts(t *testing.T) {
	const dir = "testdata/script"
	if scripts, err := filepath.Glob(dir + "/*.txtar"); err != nil || len(scripts) < 5 {
		t.Fatalf("only %d scripts in %s, %v", len(scripts), dir, err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 dir,
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv(codeFile, filepath.Join(env.WorkDir, ".tmp", "code"))
			demos, err := filepath.Abs("../../testdata")
			env.Setenv("DEMOS", demos)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exitcode": func(ts *testscript.TestScript, neg bool, args []string) {
				if neg || len(args) != 1 {
					ts.Fatalf("usage: exitcode N")
				}
				if got := ts.ReadFile(ts.Getenv(codeFile)); got != args[0] {
					ts.Fatalf("exit code %s, want %s", got, args[0])
				}
			},
		},
	})
}
