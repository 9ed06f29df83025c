package schedule

import (
	"context"
	"reflect"
	"slices"
	"testing"
)

func helped(t testing.TB, p Problem, o Options, h HelpOptions) Helped {
	t.Helper()
	out, err := Helps(context.Background(), p, o, h)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Wins that can be worked out on paper, by the words of the relaxation.
func TestHelps_ByHand(t *testing.T) {
	booth := func() Problem {
		p := shopOf(2, labour("a", 240, 0), labour("b", 240, 1))
		p.Places = []Place{{ID: "booth", Units: 1}}
		p.Activities[0].Uses, p.Activities[1].Uses = []Use{{0, 1}}, []Use{{0, 1}}
		return p
	}()
	late := shopOf(1, labour("a", 60, 0))
	late.Activities[0].Release = clockTime(9, 8, 0)
	pinned := shopOf(1, labour("long", 300, 0), labour("pinned", 60, 0))
	pinned.Activities[1].Pinned, pinned.Activities[1].Release = true, clockTime(1, 10, 0)
	saturday := shopOf(1, labour("a", 5*480+240, 0))
	saturday.Overtime = []Overtime{{Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}, Price: 90}}
	cases := []struct {
		name    string
		problem Problem
		help    HelpOptions
		want    map[string]Minute
	}{
		{"hands", shopOf(1, labour("a", 480, 0), labour("b", 480, 0)), HelpOptions{},
			map[string]Minute{"one more like A": day, "A 1 h longer a day": 60}},
		{"room", booth, HelpOptions{}, map[string]Minute{"one more booth": 240, "A 1 h longer a day": 0, "B 1 h longer a day": 0}},
		{"a part", late, HelpOptions{}, map[string]Minute{"a released 7 d earlier": 7 * day, "A 1 h longer a day": 0}},
		{"a pin", pinned, HelpOptions{}, map[string]Minute{"pinned not held to its date": clockTime(1, 11, 0) - clockTime(0, 14, 0), "A 1 h longer a day": 0}},
		{"an offer", saturday, HelpOptions{}, map[string]Minute{"overtime of A on day 5": 2 * day, "A 1 h longer a day": clockTime(7, 12, 0) - clockTime(4, 16, 0)}},
		{"a Saturday", shopOf(1, labour("a", 5*480+240, 0)), HelpOptions{Days: []Window{{clockTime(5, 8, 0), clockTime(5, 11, 0)}}},
			map[string]Minute{"A an extra day on day 5": 180, "A 1 h longer a day": clockTime(7, 12, 0) - clockTime(4, 16, 0)}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := map[string]Minute{}
			for _, h := range helped(t, c.problem, Options{Schedules: 20}, c.help).Helps {
				got[h.Of[0].String()] = h.Sooner
				if h.Most != h.Sooner && h.Of[0].Kind != LongerDays {
					t.Errorf("%s: at most %d, want the %d found", h.Of[0], h.Most, h.Sooner)
				}
			}
			for text, want := range c.want {
				if sooner, tried := got[text]; !tried || sooner != want {
					t.Errorf("%s: %d sooner, tried %v; want %d", text, sooner, tried, want)
				}
			}
			if len(got) != len(c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

// A cure is named as a limit and never offered.
func TestHelps_WaitsAreLimits(t *testing.T) {
	p := shopOf(1, labour("a", 60, 0), Activity{ID: "cure", Kind: Passive, Work: day, Calendar: -1}, labour("b", 60, 0))
	p.Links = []Link{after(0, 1), {From: 1, To: 2, Lag: 90, Calendar: -1}}
	out := helped(t, p, Options{}, HelpOptions{})
	if want := []Limit{{Activity: 2, Link: 1, Length: 90}, {Activity: 1, Link: -1, Length: day}}; !slices.Equal(out.Limits, want) {
		t.Errorf("limits %v, want %v", out.Limits, want)
	}
	for _, h := range out.Helps {
		if h.Of[0].Kind != LongerDays {
			t.Errorf("offered: %s", h)
		}
	}
}

// The demo after the findings: chances on one seed, and pairs beside single ones.
func TestHelps_Demo(t *testing.T) {
	d := newDemo(t, shop{after: true})
	d.uncertain()
	d.Goal = at(t, "2027-02-19 16:00")
	o, h := Options{Schedules: 200, Seed: 1}, HelpOptions{Runs: 200, Seed: 1, Pairs: true, Most: 6}
	out := helped(t, d.Problem, o, h)
	for _, x := range out.Helps {
		t.Logf("%s (±%.1f)", x, 100*x.StdErr)
	}
	if first := out.Helps[0]; first.Chance <= 0 || len(first.Of) != 2 {
		t.Errorf("the most is won by %s; want two together to better the chance", first)
	}
	if again := helped(t, d.Problem, o, h); string(encode(again)) != string(encode(out)) {
		t.Error("two answers to one question")
	}
}

func TestHelps_Telling(t *testing.T) {
	a, b, c := Relaxation{ID: "a"}, Relaxation{ID: "b"}, Relaxation{ID: "c"}
	all := Helped{Helps: []Help{
		{Of: []Relaxation{a, b}, Sooner: 15, Late: 5}, {Of: []Relaxation{a}, Sooner: 10, Late: 5},
		{Of: []Relaxation{a, c}, Sooner: 10, Late: 5}, {Of: []Relaxation{b, c}, Sooner: 10}, {Of: []Relaxation{b}},
	}}
	if got, want := all.Telling(), []Help{all.Helps[0], all.Helps[1], all.Helps[3], all.Helps[4]}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v: all but a and c", got, want)
	}
}

// What is won is what a plan of the loosened problem says, and never less than
// nothing; what is loosened stays a sound problem.
func TestHelps_AnySmallProblem(t *testing.T) {
	won, tried := 0, 0
	for seed := range uint64(400) {
		p := smallProblem(seed, 8)
		if _, err := compile(p); err != nil {
			continue
		}
		p.Goal = p.Now + day
		out := helped(t, p, Options{Schedules: 10, Seed: seed}, HelpOptions{Days: []Window{{2*day + 60, 2*day + 300}}})
		for _, h := range out.Helps {
			tried++
			won += one(h.Sooner > 0)
			if h.Sooner < 0 || h.Late < 0 || h.Late > h.Sooner || h.Most < h.Sooner {
				t.Fatalf("seed %d: %s, at most %d", seed, h, h.Most)
			}
		}
	}
	t.Logf("%d tried, %d win", tried, won)
	if won < 200 {
		t.Errorf("%d of %d win: too few to show anything", won, tried)
	}
}
