package cli

import (
	"context"
	"fmt"
	"os"
	"strings"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/scenario"
	"fettle/unit"
)

// newCmd makes a build from a scenario file.
type newCmd struct {
	storeFlags
	Name  string `arg:"" help:"Short name of the build: a-z, 0-9 and hyphens."`
	From  string `required:"" help:"Scenario file; docs/scenario.md describes it." type:"path" placeholder:"FILE"`
	Until string `help:"Take the file's days up to the morning of this day; all of them by default." placeholder:"DATE"`
}

// scenarioLimit is the most a scenario file may hold.
const scenarioLimit = 64 << 20

// Run reads the file and keeps its entries.
func (c *newCmd) Run(ctx context.Context, s streams) error {
	file, err := readScenario(c.From)
	if err != nil {
		return err
	}
	until := unit.DateOf(time.Now().AddDate(1000, 0, 0))
	if c.Until != "" {
		if until, err = unit.ParseDate(c.Until); err != nil {
			return fault.New(fault.Invalid, "%v", err).At("--until")
		}
	}
	file.Build.Name = c.Name
	if err := file.Build.Validate(); err != nil {
		return err
	}
	entries, err := scenario.Entries(file, until)
	if err != nil {
		return err
	}
	shop, err := c.open(ctx, true)
	if err != nil {
		return err
	}
	defer shop.Close()
	if err := shop.Create(ctx, entries); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "fettle: %s opened with %d entries in %s\n", c.Name, len(entries), c.Data)
	return nil
}

func readScenario(path string) (scenario.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return scenario.File{}, fault.New(fault.NotFound, "%s cannot be opened: %v", path, err)
	}
	defer f.Close()
	file, err := scenario.Read(f, scenarioLimit)
	return file, within(err, path)
}

// readChanges reads a list of changes from a file, or from standard input
// where the name is a hyphen.
func readChanges(s streams, path string) ([]build.Change, error) {
	var data []byte
	var err error
	if path == "-" {
		data, err = readAtMost(s.in, scenarioLimit)
	} else {
		var f *os.File
		if f, err = os.Open(path); err != nil {
			return nil, fault.New(fault.NotFound, "%s cannot be opened: %v", path, err)
		}
		defer f.Close()
		data, err = readAtMost(f, scenarioLimit)
	}
	if err != nil {
		return nil, within(err, path)
	}
	changes, err := build.DecodeList(data)
	if err == nil && len(changes) == 0 {
		err = fault.New(fault.Invalid, "the list of changes is empty")
	}
	return changes, within(err, path)
}

// within says in which file the trouble is.
func within(err error, path string) error {
	if err == nil {
		return nil
	}
	if f, ok := asFault(err); ok && !strings.Contains(f.Where, path) {
		return f.At(path)
	}
	return err
}
