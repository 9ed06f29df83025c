package schedule

import "slices"

// crewOf is who may do an activity: of its Who, in that order, those that the
// whole crew has in common.
func crewOf(p *Problem, j int) []int {
	a := &p.Activities[j]
	if a.Crew == "" {
		return a.Who
	}
	who := slices.Clone(a.Who)
	for i := range p.Activities {
		b := &p.Activities[i]
		if b.Crew != a.Crew || b.State == Done && !fixes(b) {
			continue
		}
		who = slices.DeleteFunc(who, func(w int) bool { return !slices.Contains(b.Who, w) })
	}
	return who
}

// fixes says that a fact names the people of its crew: as many as it took.
func fixes(a *Activity) bool { return a.State != Open && len(a.Who) == max(1, a.Heads) }

// checkCrews looks for people who may do all the work of their crew.
func checkCrews(p *Problem) error {
	first := map[string]int{}
	for j := range p.Activities {
		a := &p.Activities[j]
		if a.Crew == "" || a.State == Done && !fixes(a) {
			continue
		}
		if a.State != Done && headsOf(a) == 0 {
			return broken(ruleCrew, "activity "+a.ID, "a wait or a milestone has a crew, %s", a.Crew)
		}
		i, known := first[a.Crew]
		if !known {
			first[a.Crew], i = j, j
		}
		if b := &p.Activities[i]; max(1, a.Heads) != max(1, b.Heads) {
			return broken(ruleCrew, "activity "+a.ID, "%d heads; %s of crew %s has %d", max(1, a.Heads), b.ID, a.Crew, max(1, b.Heads))
		}
		if who := crewOf(p, j); len(who) < max(1, a.Heads) {
			return broken(ruleCrew, "activity "+a.ID, "crew %s has %d people in common for %d heads", a.Crew, len(who), max(1, a.Heads)).
				WithHint("name the same people for all of its work")
		}
	}
	return nil
}
