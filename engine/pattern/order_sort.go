package pattern

import (
	"fmt"
	"slices"
	"strings"
)

// sorted lines the steps up, the first of the list that may come next. Where
// none may there is a ring of reasons: it is told, and its last reason put
// aside.
func (o *order) sorted() Order {
	out, place := Order{Troubles: o.troubles}, make([]int, len(o.steps))
	for i := range place {
		place[i] = -1
	}
	var aside [][2]int
	waits := func(n int) (Because, bool) {
		for _, x := range o.steps[n].After {
			if place[x.Step] < 0 && !slices.Contains(aside, [2]int{n, x.Step}) {
				return x, true
			}
		}
		return Because{}, false
	}
	for done := 0; done < len(o.steps); {
		next := -1
		for n := range o.steps {
			if _, held := waits(n); place[n] < 0 && !held {
				next = n
				break
			}
		}
		if next < 0 {
			words, pair := o.ring(place, waits)
			out.Troubles = append(out.Troubles, words)
			aside = append(aside, pair)
			continue
		}
		place[next] = done
		out.Steps = append(out.Steps, o.steps[next])
		done++
	}
	for i := range out.Steps {
		after := slices.Clone(out.Steps[i].After)
		for k := range after {
			after[k].Step = place[after[k].Step]
		}
		slices.SortFunc(after, func(a, b Because) int { return a.Step - b.Step })
		out.Steps[i].After = after
	}
	return out
}

// ring walks from the first step that is held to what holds it, until it comes
// back to one that it has passed.
func (o *order) ring(place []int, waits func(int) (Because, bool)) (string, [2]int) {
	var way []int
	at := slices.Index(place, -1)
	for !slices.Contains(way, at) {
		way = append(way, at)
		x, _ := waits(at)
		at = x.Step
	}
	way = way[slices.Index(way, at):]
	var reasons []string
	for _, n := range way {
		x, _ := waits(n)
		reasons = append(reasons, fmt.Sprintf("%s comes after %s, for %s", o.steps[n].title(), o.steps[x.Step].title(), x.Why))
	}
	return "These contradict one another: " + strings.Join(reasons, "; ") + ". The last is set aside.", [2]int{way[len(way)-1], at}
}

func (s Step) title() string { return string(s.Act) + " " + s.Of }
