package cli

import (
	"context"
	"errors"
	"io/fs"
	"os"

	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/scenario"
)

// exportCmd writes a build as a file that new reads.
type exportCmd struct {
	storeFlags
	Build string `arg:"" help:"Short name of the build."`
	Out   string `short:"o" help:"File to write; standard output by default." type:"path" placeholder:"FILE"`
	Facts bool   `help:"Only the facts as they stand, without the days that led to them."`
	JSON  bool   `name:"json" help:"The export is one JSON document; said for symmetry."`
}

// Run writes the file.
func (c *exportCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	entries, err := shop.Entries(ctx, c.Build)
	if err != nil {
		return err
	}
	file, err := scenario.FromEntries(entries, live.Undone(entries))
	if err != nil {
		return err
	}
	if c.Facts {
		view, err := shop.View(ctx, c.Build)
		if err != nil {
			return err
		}
		file.Build, file.Days = view.Build, []scenario.Day{}
	}
	if c.Out == "" {
		return scenario.Write(s.out, file)
	}
	f, err := create(c.Out)
	if err != nil {
		return err
	}
	if err := scenario.Write(f, file); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// create makes a file that is not there yet.
func create(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil, fault.New(fault.Conflict, "%s is there already", name).WithHint("name a file that is not there yet")
	}
	if err != nil {
		return nil, fault.New(fault.NotFound, "%s cannot be written: %v", name, err).WithHint("make its folder first, or name another")
	}
	return f, nil
}
