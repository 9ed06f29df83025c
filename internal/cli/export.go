package cli

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"

	"fettle/engine/schedule/shopfile"
	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/plan"
)

// exportCmd writes a build as a file that new reads, or its network as a file
// that solve schedule reads.
type exportCmd struct {
	storeFlags
	Build   string `arg:"" help:"Short name of the build."`
	Out     string `short:"o" help:"File to write; standard output by default." type:"path" placeholder:"FILE"`
	Facts   bool   `xor:"what" help:"Only the facts as they stand, without the days that led to them."`
	Network bool   `xor:"what" help:"The tasks, people and places to plan, as a file that solve schedule --format fettle reads."`
	JSON    bool   `name:"json" help:"The export is one JSON document; said for symmetry."`
}

// Run writes the file.
func (c *exportCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	write := c.whole
	if c.Network {
		write = c.network
	}
	return write(ctx, shop, s)
}

// whole writes the scenario file.
func (c *exportCmd) whole(ctx context.Context, shop *shop, s streams) error {
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
	return c.to(s, func(w io.Writer) error { return scenario.Write(w, file) })
}

// network writes the problem that the build's plan is made of.
func (c *exportCmd) network(ctx context.Context, shop *shop, s streams) error {
	view, err := shop.View(ctx, c.Build)
	if err != nil {
		return err
	}
	problem, origin := plan.Network(&view.Build, shop.Rates(view), view.Now)
	return c.to(s, func(w io.Writer) error { return shopfile.Write(w, shopfile.File{Origin: origin, Problem: problem}) })
}

// to writes to a new file, or to standard output.
func (c *exportCmd) to(s streams, write func(io.Writer) error) error {
	if c.Out == "" {
		return write(s.out)
	}
	f, err := create(c.Out)
	if err != nil {
		return err
	}
	if err := write(f); err != nil {
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
