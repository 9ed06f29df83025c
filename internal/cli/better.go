package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"text/tabwriter"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

// betterFlags ask for a better order of the shop's list.
type betterFlags struct {
	Better    bool   `help:"Look for a better order of the shop's list, and print the finding instead of the plan."`
	Schedules int    `help:"With --better: how many schedules the search makes; 0 is what a page spends." default:"0"`
	Write     string `help:"With --better: write the changes of the finding into a file that try and record read." placeholder:"FILE"`
}

// found is what plan --better prints as JSON.
type found struct {
	*plan.BetterOrder
	Changes []json.RawMessage `json:"changes"`
}

func (c *planCmd) better(ctx context.Context, s streams, shop *shop) error {
	b, view, err := shop.Better(ctx, c.Build, c.Schedules)
	if err != nil {
		return err
	}
	changes, err := named(b.Changes)
	if err != nil {
		return err
	}
	if c.Write != "" {
		if err := writeChanges(c.Write, changes); err != nil {
			return err
		}
	}
	if c.JSON {
		return printJSON(s, found{b, changes})
	}
	return printBetter(s, b, &view.Build)
}

// named writes changes as a list of them holds them.
func named(changes []build.Change) ([]json.RawMessage, error) {
	list := make([]json.RawMessage, len(changes))
	for i, c := range changes {
		data, err := build.EncodeNamed(c)
		if err != nil {
			return nil, err
		}
		list[i] = data
	}
	return list, nil
}

func writeChanges(name string, changes []json.RawMessage) error {
	parts := make([][]byte, len(changes))
	for i, c := range changes {
		parts[i] = c
	}
	file, err := create(name)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(file, "[\n  %s\n]\n", bytes.Join(parts, []byte(",\n  ")))
	return errors.Join(err, file.Close())
}

func printBetter(s streams, b *plan.BetterOrder, facts *build.Build) error {
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, b.Says)
	fmt.Fprintf(w, "the list as it stands\t%s\tno order before %s\n", b.Status, orNone(b.Bound))
	if !b.Found {
		return w.Flush()
	}
	fmt.Fprintln(w, "\tas it stands\tthen")
	day := func(name string, x, y unit.Date) { fmt.Fprintf(w, "%s\t%s\t%s\n", name, orNone(x), orNone(y)) }
	day("if nothing runs over", b.Before.Plain, b.After.Plain)
	day("half are finished by", b.Before.P50, b.After.P50)
	day("four in five by", b.Before.P80, b.After.P80)
	fmt.Fprintf(w, "odds of %s\t%.0f %%, %s\t%.0f %%, %s\n", facts.Promise.Ready.Long(),
		100*b.Before.Ready, b.Before.Word, 100*b.After.Ready, b.After.Word)
	fmt.Fprintf(w, "cash\t\t%s more\n", facts.Currency.Format(b.Cash))
	fmt.Fprintf(w, "starts of the next %d working days that move\t\t%d\n", plan.NearDays, b.Near)
	for _, c := range b.Changes {
		fmt.Fprintf(w, "change: %s\n", c.Say(facts))
	}
	for _, m := range b.Shifts {
		fmt.Fprintf(w, "%s %s\t%s to %s\t%s to %s\t%+d, %+d days\t%s\n", m.Task, m.Name,
			m.Before.First.Short(), m.Before.Last.Short(), m.After.First.Short(), m.After.Last.Short(), m.Start, m.Finish, m.Why)
	}
	return w.Flush()
}
