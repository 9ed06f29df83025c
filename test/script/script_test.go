// Package script runs the command line as a person types it: each file of
// testdata is one story in commands, run in a folder of its own that holds the
// two demo builds and the sheet of the morning after the blast.
package script

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"fettle/internal/cli"
	"fettle/internal/demo"
	"fettle/internal/scenario"
)

// TestMain lets the test binary stand in for the program.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"fettle": func() { os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                "testdata",
		Setup:              lay,
		Cmds:               commands(),
		RequireUniqueNames: true,
		Condition:          func(name string) (bool, error) { return name == "root" && os.Geteuid() == 0, nil },
	})
}

// lay puts the demo's files into a story's folder.
func lay(e *testscript.Env) error {
	for name, read := range map[string]func() (scenario.File, error){"pedlar.json": demo.Pedlar, "bjelke.json": demo.Second} {
		file, err := read()
		if err != nil {
			return err
		}
		out, err := os.Create(filepath.Join(e.WorkDir, name))
		if err != nil {
			return err
		}
		if err := scenario.Write(out, file); err != nil {
			return err
		}
		if err := out.Close(); err != nil {
			return err
		}
	}
	e.Setenv("FETTLE_DATA", filepath.Join(e.WorkDir, "data"))
	e.Setenv("HOME", e.WorkDir)
	if err := os.WriteFile(filepath.Join(e.WorkDir, "blast.csv"), demo.BlastList(), 0o600); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(e.WorkDir, "blast.json"), demo.BlastSheet(), 0o600)
}
