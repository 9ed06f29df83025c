package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
)

func clashing(t testing.TB, p Problem) Contradiction {
	t.Helper()
	out, err := Conflict(context.Background(), p, ConflictOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func words(facts []Fact) []string {
	var list []string
	for _, f := range facts {
		list = append(list, f.String())
	}
	return list
}

// Contradictions that can be seen on paper.
func TestConflict_ByHand(t *testing.T) {
	cure := func(id string, work Minute) Activity {
		return Activity{ID: id, Kind: Passive, Work: work, Calendar: -1}
	}
	away := shopOf(1, labour("paint", 480, 0))
	away.Calendars[0] = Calendar{{20*day + 480, 20*day + 960}, {21*day + 480, 21*day + 960}}
	away.Goal = 15 * day
	window := shopOf(0, cure("prime", 60), cure("flash", 120), cure("coat", 60))
	window.Links = []Link{after(0, 1), after(1, 2), {From: 0, To: 2, Lag: 90, Calendar: -1, Max: true}}
	pin := shopOf(1, labour("a", 60, 0), labour("b", 60, 0))
	pin.Links = []Link{after(0, 1)}
	pin.Activities[0].Release = clockTime(3, 8, 0)
	pin.Activities[1].Pinned, pin.Activities[1].Release = true, clockTime(2, 8, 0)
	session := shopOf(1, Activity{ID: "spray", Kind: Session, Work: 500, Who: []int{0}})
	alone := shopOf(1, labour("a", 3*480, 0), labour("b", 480, 0))
	alone.Goal = clockTime(2, 12, 0)
	shared := shopOf(1, labour("a", 480, 0), labour("b", 480, 0))
	shared.Goal = clockTime(1, 12, 0)
	loop := shopOf(1, labour("a", 60, 0), labour("b", 60, 0), labour("c", 60, 0))
	loop.Links = []Link{after(0, 1), after(1, 2), after(2, 1)}
	booth := shopOf(0, cure("a", 300), cure("b", 300))
	booth.Places, booth.Goal = []Place{{ID: "booth", Units: 1}}, 500
	booth.Activities[0].Uses, booth.Activities[1].Uses = []Use{{0, 1}}, []Use{{0, 1}}
	begun := shopOf(1, labour("begun", 480, 0))
	begun.Now, begun.Goal = clockTime(1, 8, 0), clockTime(1, 12, 0)
	begun.Activities[0].State, begun.Activities[0].Start = Started, clockTime(0, 8, 0)
	lag := shopOf(0, cure("a", 60), cure("b", 60))
	lag.Calendars = []Calendar{week()}
	lag.Links, lag.Goal = []Link{{From: 0, To: 1, Lag: 600, Calendar: 0}}, clockTime(1, 9, 0)
	cases := []struct {
		name    string
		problem Problem
		want    []string
	}{
		{"a person comes back after the goal", away, []string{"over by day 15", "A away from day 0 until day 20 8:00"}},
		{"a recoat window shorter than the flash", window, []string{"coat within 1 h 30 min", "flash waits 0 min", "coat waits 0 min"}},
		{"a pin before what comes first", pin, []string{"b fixed at day 2 8:00", "b waits 0 min", "a not before day 3 8:00"}},
		{"a session longer than any window", session, []string{"the hours of A"}},
		{"more work than hours", shared, []string{"over by day 1 12:00", "the hours of A"}},
		{"one task alone is too long", alone, []string{"over by day 2 12:00", "the hours of A"}},
		{"a loop", loop, []string{"c waits 0 min", "b waits 0 min"}},
		{"a place for one", booth, []string{"over by day 0 8:20", "booth is full"}},
		{"what is begun takes too long", begun, []string{"over by day 1 12:00", "begun has 8 h to go"}},
		{"a lag in working hours", lag, []string{"over by day 1 9:00", "b waits 10 h", "calendar 0"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			out := clashing(t, c.problem)
			if got := words(out.Facts); !out.Found || !out.Least || !slices.Equal(got, c.want) {
				t.Errorf("found %v, least %v: %q; want %q", out.Found, out.Least, got, c.want)
			}
		})
	}
}

func TestConflict_NoneWhereThereIsAPlan(t *testing.T) {
	p := trap()
	p.Goal = clockTime(2, 16, 0)
	if out := clashing(t, p); out.Found {
		t.Errorf("%q; there is a plan", words(out.Facts))
	}
	p.Goal--
	if out := clashing(t, p); !out.Found || !out.Least {
		t.Errorf("found %v, least %v, want why not a minute sooner", out.Found, out.Least)
	}
}

// A remedy puts a missed window right, so the window is no wall.
func TestConflict_RemediesAreNoWalls(t *testing.T) {
	p := shopOf(1, labour("prime", 60, 0), labour("coat", 60, 0), labour("scuff", 30, 0))
	p.Links = []Link{{From: 0, To: 1, Lag: day, Calendar: -1}, {From: 0, To: 1, Lag: 60, Calendar: -1, Max: true}}
	if out := clashing(t, p); !out.Found {
		t.Error("without a remedy: none found")
	}
	p.Remedies = []Remedy{{Link: 1, Activity: 2}}
	if out := clashing(t, p); out.Found {
		t.Errorf("with a remedy: %q", words(out.Facts))
	}
}

// tight is a small problem with walls it may run into.
func tight(seed uint64, most int) Problem {
	p := smallProblem(seed, most)
	roll := rand.New(rand.NewPCG(seed, 3)).IntN
	for range roll(3) {
		if last := len(p.Activities) - len(p.Risks); last > 1 {
			to := 1 + roll(last-1)
			p.Links = append(p.Links, Link{From: roll(to), To: to, Lag: Minute(roll(8) * 3 * hour), Calendar: roll(len(p.Calendars)+1) - 1, Max: true})
		}
	}
	for j := range p.Activities {
		if a := &p.Activities[j]; a.State == Open && roll(6) == 0 {
			a.Pinned = true
		}
	}
	if roll(3) > 0 {
		p.Goal = p.Now + Minute(1+roll(80))*hour
	}
	return p
}

// No plan in time that keeps every lag and pin is ever called impossible.
func TestConflict_NeverAgainstAPlan(t *testing.T) {
	plans, found := 0, 0
	for seed := range uint64(600) {
		p := tight(seed, 6)
		if _, err := compile(p); err != nil {
			continue
		}
		res := solved(t, p, Options{Schedules: 40, Seed: seed})
		out := clashing(t, p)
		found += one(out.Found)
		if res.Status == OutOfHours || res.Lateness > 0 || res.Score.Remedial > 0 {
			continue
		}
		if plans++; out.Found {
			t.Fatalf("seed %d: %q; there is a plan", seed, words(out.Facts))
		}
	}
	t.Logf("%d problems with a plan, %d with a contradiction", plans, found)
	if plans < 100 || found < 200 {
		t.Errorf("too few to show anything")
	}
}

// The same with every rule the engine knows, and no bound above a plan.
func TestConflict_EveryRule(t *testing.T) {
	plans, found := 0, 0
	for seed := range uint64(600) {
		p := scenario(rand.New(rand.NewPCG(seed, 11)).IntN)
		res := solved(t, p, Options{Schedules: 40, Seed: seed})
		if path, low, deep := bounds(t, p, res.Makespan, limitless); path > low || low > deep || deep > res.Makespan {
			t.Fatalf("seed %d: path %d, bound %d, raised %d, plan %d", seed, path, low, deep, res.Makespan)
		}
		good := res.Status != OutOfHours && res.Lateness == 0 && res.Score.Remedial == 0
		out := clashing(t, p)
		if plans, found = plans+one(good), found+one(out.Found); good && out.Found {
			t.Fatalf("seed %d: %q; there is a plan", seed, words(out.Facts))
		}
	}
	t.Logf("%d problems with a plan, %d with a contradiction", plans, found)
	if plans < 100 || found < 100 {
		t.Errorf("too few to show anything")
	}
}

// From every set that comes out nothing can be left out, and none is larger
// than the smallest that trying all subsets in order of size finds.
func TestConflict_IrreducibleAndSmallest(t *testing.T) {
	sets, compared, larger := 0, 0, 0
	for seed := range uint64(600) {
		p := tight(seed, 5)
		if wellFormed(&p) != nil {
			continue
		}
		x := newExplainer(context.Background(), netOf(p))
		all := natural(len(x.facts))
		if !x.refuted(all) {
			continue
		}
		set := x.irreducible(all)
		for i := range set {
			if rest := slices.Delete(slices.Clone(set), i, i+1); x.refuted(rest) {
				t.Fatalf("seed %d: without %s the rest is refuted too", seed, x.facts[set[i]])
			}
		}
		least, proved := x.least(all, set, x.calls+1000)
		if !x.refuted(set) || !x.refuted(least) || !proved {
			t.Fatalf("seed %d: not refuted, or not proved least", seed)
		}
		sets++
		larger += one(len(set) > len(least))
		if len(all) <= 14 {
			compared++
			if want := smallestRefuted(x, len(all)); len(least) != want {
				t.Fatalf("seed %d: %d facts, the smallest set has %d", seed, len(least), want)
			}
		}
	}
	t.Logf("%d sets, %d compared with all subsets; %d times the first was not the smallest", sets, compared, larger)
	if sets < 200 || compared < 100 || larger == 0 {
		t.Error("too few to show anything")
	}
}

func smallestRefuted(x *explainer, facts int) int {
	best := facts
	for mask := range 1 << facts {
		var set []int
		for i := range facts {
			if mask>>i&1 == 1 {
				set = append(set, i)
			}
		}
		if len(set) < best && x.refuted(set) {
			best = len(set)
		}
	}
	return best
}

// Why the demo cannot be done by Christmas, after the findings.
func TestConflict_Demo(t *testing.T) {
	d := newDemo(t, shop{after: true})
	d.Goal = at(t, "2026-12-23 16:00")
	out := clashing(t, d.Problem)
	t.Logf("%d facts, least %v, %d calls: %q", len(out.Facts), out.Least, out.Calls, words(out.Facts))
	if !out.Found {
		t.Error("none found")
	}
	if again := clashing(t, d.Problem); string(encode(again)) != string(encode(out)) {
		t.Error("two answers to one question")
	}
}

func BenchmarkConflict_Demo(b *testing.B) {
	d := newDemo(b, shop{after: true})
	d.Goal = at(b, "2026-12-23 16:00")
	for b.Loop() {
		clashing(b, d.Problem)
	}
}
