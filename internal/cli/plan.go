package cli

import (
	"context"
	"fmt"
	"text/tabwriter"

	"fettle/internal/live"
	"fettle/plan"
	"fettle/unit"
)

// planCmd prints a build's plan.
type planCmd struct {
	storeFlags
	Build string `arg:"" help:"Short name of the build."`
	JSON  bool   `name:"json" help:"Print one JSON document, as docs/cli.md describes it."`
	Gains bool   `help:"Print what the tasks that move the date most would win back if they went well, instead of the plan."`
	betterFlags
}

// Run prints the plan.
func (c *planCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	if c.Better {
		return c.better(ctx, s, shop)
	}
	if c.Gains {
		return c.gains(ctx, s, shop)
	}
	p, view, err := shop.Plan(ctx, c.Build)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s, p)
	}
	return printPlan(s, p, view)
}

// gains prints what going well would win back.
func (c *planCmd) gains(ctx context.Context, s streams, shop *shop) error {
	list, _, err := shop.Gains(ctx, c.Build)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s, list)
	}
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	if len(list) == 0 {
		fmt.Fprintln(w, "no open task can win anything back")
	}
	for _, g := range list {
		fmt.Fprintf(w, "%s %s\tif it goes well, 4 in 5 by %s instead of %s, %s\tsets the date in %.0f of 100 builds\n",
			g.Task, g.Name, g.After.Short(), g.Before.Short(), plan.WorkingDays(g.Won), 100*g.Critical)
	}
	return w.Flush()
}

func printPlan(s streams, p *plan.Plan, v live.View) error {
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	money := v.Build.Currency.Format
	fmt.Fprintf(w, "%s, %s\n", v.Build.Title, p.Now.Date().Long())
	fmt.Fprintf(w, "if nothing runs over\t%s\n", orNone(p.Dates.Plain))
	fmt.Fprintf(w, "half are finished by\t%s\n", orNone(p.Dates.P50))
	fmt.Fprintf(w, "four in five by\t%s\n", orNone(p.Dates.P80))
	fmt.Fprintf(w, "nine in ten by\t%s\n", orNone(p.Dates.P90))
	fmt.Fprintf(w, "odds of %s\t%.0f %% ± %.1f, %s\n", p.Promise.Ready.Long(), 100*p.Odds.Ready, 100*p.Odds.StdErr, p.Odds.Word)
	fmt.Fprintf(w, "cash\t%s of %s agreed\n", money(p.Money.Cash), money(p.Money.Budget))
	fmt.Fprintf(w, "reaches %s\t%s (%s to %s)\n", v.Build.Cause.Name, money(p.Money.Net.Expected), money(p.Money.Net.Low), money(p.Money.Net.High))
	for _, who := range p.People {
		fmt.Fprintf(w, "%s\t%s booked, %s left\n", who.Name, who.Booked, who.Left)
	}
	for _, o := range p.Orders {
		if o.When == "late" || o.When == "due" {
			fmt.Fprintf(w, "order today: %s %s\tby %s, %s, %s\n", o.Part, o.Name, o.OrderBy.Short(), plan.WorkingDays(o.Lead), money(o.Cost))
		}
	}
	return w.Flush()
}

// orNone writes a day, or that there is none.
func orNone(d unit.Date) string {
	if d == 0 {
		return "no day that the calendars hold"
	}
	return d.Long()
}
