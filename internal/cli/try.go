package cli

import (
	"context"
	"fmt"
	"text/tabwriter"

	"fettle/internal/live"
	"fettle/plan"
)

// tryCmd prints what changes would do.
type tryCmd struct {
	storeFlags
	Build   string `arg:"" help:"Short name of the build."`
	Changes string `arg:"" help:"File with a list of changes, or - for standard input; docs/changes.md describes them."`
	JSON    bool   `name:"json" help:"Print one JSON document."`
}

// trial is what try prints as JSON.
type trial struct {
	KnockOn plan.KnockOn `json:"knock_on"`
	Before  *plan.Plan   `json:"before"`
	After   *plan.Plan   `json:"after"`
}

// Run works out the knock-on. Nothing is kept.
func (c *tryCmd) Run(ctx context.Context, s streams) error {
	changes, err := readChanges(s, c.Changes)
	if err != nil {
		return err
	}
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	t, err := shop.Try(ctx, c.Build, changes)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s, trial{t.KnockOn, t.Before, t.After})
	}
	return printTrial(s, t)
}

func printTrial(s streams, t live.Trial) error {
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, "\tbefore\tafter\tchange")
	for _, r := range t.KnockOn.Rows {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", r.Name, r.Before, r.After, r.Change)
	}
	for _, o := range t.KnockOn.Order {
		fmt.Fprintf(w, "order today: %s %s\t\tby %s\t%s\n", o.Part, o.Name, o.OrderBy.Short(), plan.WorkingDays(o.Lead))
	}
	for _, d := range t.KnockOn.Decide {
		fmt.Fprintf(w, "decide: %s\n", d.Says)
	}
	return w.Flush()
}
