package cli

import (
	"context"
	"fmt"

	"fettle/internal/journal"
	"fettle/internal/live"
)

// recordCmd keeps changes.
type recordCmd struct {
	storeFlags
	Build   string `arg:"" help:"Short name of the build."`
	Changes string `arg:"" help:"File with a list of changes, or - for standard input; docs/changes.md describes them."`
	Person  string `help:"Who keeps them." default:"owner"`
	Note    string `help:"A word kept with each of them."`
	Expect  int64  `help:"The journal number you last saw; a newer one refuses the changes." default:"-1"`
	JSON    bool   `name:"json" help:"Print the kept entries as one JSON document."`
}

// Run keeps the changes, all or none.
func (c *recordCmd) Run(ctx context.Context, s streams) error {
	changes, err := readChanges(s, c.Changes)
	if err != nil {
		return err
	}
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	drafts := make([]live.Draft, len(changes))
	for i := range changes {
		drafts[i] = live.Draft{Change: changes[i], Note: c.Note}
	}
	kept, err := shop.Record(ctx, c.Build, c.Expect, live.Who{Person: c.Person, Device: "command line"}, drafts)
	if err != nil {
		return err
	}
	return printKept(s, c.JSON, kept)
}

func printKept(s streams, asJSON bool, kept []journal.Entry) error {
	if asJSON {
		return printJSON(s, kept)
	}
	for _, e := range kept {
		fmt.Fprintf(s.out, "%d\t%s\t%s\n", e.Seq, e.Kind, e.ID)
	}
	return nil
}

// undoCmd takes kept entries back.
type undoCmd struct {
	storeFlags
	Build   string   `arg:"" help:"Short name of the build."`
	Entries []string `arg:"" help:"Journal numbers, a run of them such as 101-114, or entry IDs."`
	Person  string   `help:"Who takes them back." default:"owner"`
	JSON    bool     `name:"json" help:"Print the kept entries as one JSON document."`
}

// Run takes the entries back, all or none.
func (c *undoCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	all, err := shop.Entries(ctx, c.Build)
	if err != nil {
		return err
	}
	var ids []string
	for _, text := range c.Entries {
		more, err := live.Named(all, text)
		if err != nil {
			return err
		}
		ids = append(ids, more...)
	}
	kept, err := shop.Undo(ctx, c.Build, live.Who{Person: c.Person, Device: "command line"}, ids...)
	if err != nil {
		return err
	}
	return printKept(s, c.JSON, kept)
}
