package schedule

import (
	"context"
	"slices"
	"testing"

	"fettle/fault"
)

// sprayed is a shop with one painter: prepare, spray, polish, then trim by
// somebody else; the painter also has another job, last in the list.
func sprayed() Problem {
	p := always(labour("prepare", 200, 0), labour("spray", 100, 0), labour("polish", 50, 0), labour("other", 1000, 0))
	p.Links = []Link{after(0, 1), {From: 1, To: 2, Lag: 30, Calendar: -1}}
	return p
}

// Prepare and spray, 300 minutes, come back with a chance of 0.3, twice at
// most: the polish is over at 380, 680 or 980, and the list keeps the other
// job behind every round.
func TestRepeat_LoopsBack(t *testing.T) {
	p := sprayed()
	order, err := Repeat(&p, nil, Risk{ID: "runs", Chance: 0.3, Activities: []int{0, 1}}, 2)
	if err != nil {
		t.Fatal(err)
	}
	if want := []int{0, 1, 4, 5, 6, 7, 2, 3}; !slices.Equal(order, want) {
		t.Errorf("list %v, want %v", order, want)
	}
	p.Activities[3].Work = 0 // only the chain counts
	o := listed(t, p, order, 20_000)
	for _, c := range []struct {
		at   Minute
		want float64
	}{{379, 0}, {380, 0.7}, {679, 0.7}, {680, 0.91}, {979, 0.91}, {980, 1}} {
		got, err := o.Chance(c.at)
		close64(t, "chance by "+itoa(int(c.at)), got, c.want, 4*err)
	}
	p.Activities[3].Work = 1000
	p.Activities[2].Who, p.People = []int{1}, append(p.People, Person{ID: "B"})
	if o := listed(t, p, order, 2000); o.Quantile(1) != 1900 || o.Quantile(0) != 1300 {
		t.Errorf("the other job ends from %d to %d, want 1,300 to 1,900", o.Quantile(0), o.Quantile(1))
	}
}

// The plain plan is what it was: rounds impose nothing until they strike.
func TestRepeat_LeavesThePlanAlone(t *testing.T) {
	plain := solved(t, sprayed(), Options{})
	p := sprayed()
	p.Clashes = []Clash{{Dirty: []int{0}, Clean: []int{1}, Calendar: -1}}
	order, err := Repeat(&p, nil, Risk{ID: "runs", Chance: 0.9, Activities: []int{0, 1}}, 3)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Clashes[0].Dirty) != 4 || len(p.Clashes[0].Clean) != 4 {
		t.Errorf("the rounds are not in the clash: %v", p.Clashes[0])
	}
	p.Clashes = nil
	if got := solved(t, p, Options{Order: order}); got.Makespan != plain.Makespan {
		t.Errorf("the plan ends at %d with the risk, %d without", got.Makespan, plain.Makespan)
	}
}

func TestRepeat_Faults(t *testing.T) {
	for name, change := range map[string]func(*Problem, *Risk){
		"unknown":   func(_ *Problem, r *Risk) { r.Activities = []int{9} },
		"twice":     func(_ *Problem, r *Risk) { r.Activities = []int{1, 1} },
		"half done": func(p *Problem, _ *Risk) { p.Activities[0].State = Started },
		"lag": func(p *Problem, _ *Risk) {
			p.Links = append(p.Links, Link{From: 1, To: 2, Lag: 9, Calendar: -1, Max: true})
		},
	} {
		p, r := sprayed(), Risk{ID: "runs", Chance: 0.3, Activities: []int{0, 1}}
		change(&p, &r)
		if _, err := Repeat(&p, nil, r, 1); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: got %v, want invalid", name, err)
		}
	}
}

func listed(t *testing.T, p Problem, order []int, runs int) Outlook {
	t.Helper()
	o, err := Odds(context.Background(), p, order, OddsOptions{Runs: runs, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	return o
}
