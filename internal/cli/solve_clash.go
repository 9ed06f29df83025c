package cli

import (
	"context"
	"fmt"
	"io"
	"slices"

	"fettle/engine/schedule"
	"fettle/engine/schedule/shopfile"
)

type shopClash struct {
	Found  bool       `json:"found"`
	Least  bool       `json:"least"`
	Trials int        `json:"trials"`
	Facts  []shopFact `json:"facts"`
}

type shopFact struct {
	Kind  string `json:"kind"`
	ID    string `json:"id,omitempty"`
	After string `json:"after,omitempty"`
	Says  string `json:"says"`

	lag   string // between After and ID
	apart bool   // not to be folded into a line with others
}

// clashOf names the facts that cannot all hold.
func clashOf(ctx context.Context, f shopfile.File) (*shopClash, error) {
	found, err := schedule.Conflict(ctx, f.Problem, schedule.ConflictOptions{})
	if err != nil {
		return nil, err
	}
	clash := &shopClash{Found: found.Found, Least: found.Least, Trials: found.Calls, Facts: []shopFact{}}
	for _, one := range found.Facts {
		fact := shopFact{ID: one.ID}
		if one.Link >= 0 {
			l := f.Problem.Links[one.Link]
			fact.After, fact.lag, fact.apart = f.Problem.Activities[l.From].ID, some(l.Lag), l.Max || l.FromStart
		}
		fact.Kind, fact.Says = factSays(f, one)
		clash.Facts = append(clash.Facts, fact)
	}
	return clash, nil
}

// factSays gives the kind of a fact and the fact in words, by the names of the file.
func factSays(f shopfile.File, x schedule.Fact) (kind, says string) {
	p := &f.Problem
	of := ""
	if x.Link >= 0 {
		of = p.Activities[p.Links[x.Link].From].ID
		if p.Links[x.Link].FromStart {
			of = "the start of " + of
		}
	}
	switch x.Kind {
	case schedule.FactGoal:
		return "goal", "everything is over by " + f.Moment(x.At)
	case schedule.FactPin:
		return "pinned", x.ID + " starts at " + f.Moment(x.At)
	case schedule.FactMaxLag:
		return "at most", x.ID + " starts no later than " + spoken(x.Length) + " after " + of
	case schedule.FactLink:
		if x.Length == 0 {
			return "after", x.ID + " comes after " + of
		}
		return "after", x.ID + " waits " + spoken(x.Length) + " after " + of
	case schedule.FactRelease:
		return "not before", x.ID + " may not begin before " + f.Moment(x.At)
	case schedule.FactStarted:
		return "started", x.ID + " has " + spoken(x.Length) + " to go"
	case schedule.FactPlace:
		return "place", fmt.Sprintf("%s holds no more than %d at once", x.ID, p.Places[x.Place].Units)
	case schedule.FactAway:
		return "away", x.ID + " is not at work from " + f.Moment(x.Window.From) + " to " + f.Moment(x.Window.To)
	case schedule.FactHours:
		return "hours", x.ID + " works the hours of their calendar, no others"
	}
	return "calendar", fmt.Sprintf("times on calendar %d of the file count its open hours only", x.Calendar+1)
}

func (c *shopClash) print(w io.Writer) {
	if !c.Found {
		fmt.Fprintf(w, "\tclash\tnone is known: no plan that was tried does it, and nothing rules it out\n")
		return
	}
	says := fmt.Sprintf("these %d cannot all hold with the work to be done", len(c.Facts))
	switch {
	case len(c.Facts) == 1:
		says = "this cannot hold with the work to be done"
	case c.Least:
		says += "; no smaller set is known to clash"
	default:
		says += "; without any one of them nothing is known against it"
	}
	fmt.Fprintf(w, "\tclash\t%s\n", says)
	for _, x := range c.folded() {
		fmt.Fprintf(w, "\tclash\t%s\t%s\n", x.Kind, x.Says)
	}
}

const inOrder = "in order"

// folded writes links that hang on each other as one line, the first of them in
// its place.
func (c *shopClash) folded() []shopFact {
	var list, links []shopFact
	for _, x := range c.Facts {
		if x.hangs() {
			links = append(links, x)
		}
	}
	for _, x := range c.Facts {
		if !x.hangs() {
			list = append(list, x)
			continue
		}
		for len(links) > 0 {
			list = append(list, path(&links))
		}
	}
	return list
}

// hangs says that a fact is a link that may stand in a line with others.
func (x shopFact) hangs() bool { return x.Kind == "after" && !x.apart }

// path takes a run of links out of a list, from one that hangs on none of them;
// a run of one is the link itself.
func path(links *[]shopFact) shopFact {
	i := slices.IndexFunc(*links, func(x shopFact) bool {
		return !slices.ContainsFunc(*links, func(y shopFact) bool { return y.ID == x.After })
	})
	i = max(i, 0) // they go round
	first := (*links)[i]
	run := shopFact{Kind: inOrder, Says: first.After}
	for at, steps := first.After, 0; ; steps++ {
		i = slices.IndexFunc(*links, func(x shopFact) bool { return x.After == at })
		if i < 0 {
			if steps == 1 {
				return first
			}
			return run
		}
		at = (*links)[i].ID
		if lag := (*links)[i].lag; lag != "" {
			run.Says += " → " + lag
		}
		run.Says += " → " + at
		*links = slices.Delete(*links, i, i+1)
	}
}
