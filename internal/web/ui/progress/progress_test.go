package progress

import (
	"strings"
	"testing"
	"time"
)

func TestSpent(t *testing.T) {
	for d, want := range map[time.Duration]string{
		8400 * time.Millisecond: "8 s", 200 * time.Second: "3 min 20 s", 2*time.Hour + 5*time.Minute + 59*time.Second: "2 h 5 min",
	} {
		if got := Spent(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
}

// TestShow: each state offers what can be done in it, and nothing else.
func TestShow(t *testing.T) {
	whole := Params{ID: "w", What: "Laying", Done: 1430, Of: 2000, Best: "3 laid", By: "TR", Asked: "14:03", Spent: 80 * time.Second,
		Fault: "no hide is drawn", Stop: "/stop", Again: "/again", All: "/jobs"}
	for _, c := range []struct {
		state    State
		ahead    int
		has, not string
	}{
		{Working, 0, "It is being worked out.|71 %|1,430 of 2,000 steps · 1 min 20 s · asked by TR at 14:03|/stop|You may leave|Look again", "/again"},
		{Waiting, 0, "It is next.|/stop", "/again"},
		{Waiting, 1, "one piece of work comes first", "/again"},
		{Waiting, 3, "3 pieces of work come first", "/again"},
		{Done, 0, "It is worked out.", "/stop|/again|You may leave|<progress|Look again"},
		{Stopped, 0, "the best so far stands|Best so far: 3 laid|/again", "/stop"},
		{Failed, 0, "did not come to an end: no hide is drawn.|/again", "/stop"},
	} {
		p := whole
		p.State, p.Ahead = c.state, c.ahead
		var b strings.Builder
		if err := Show(p).Render(t.Context(), &b); err != nil {
			t.Fatal(err)
		}
		for _, want := range strings.Split(c.has, "|") {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%q: %q is missing in %s", c.state, want, b.String())
			}
		}
		for _, bad := range strings.Split(c.not, "|") {
			if strings.Contains(b.String(), bad) {
				t.Errorf("%q: %q is there", c.state, bad)
			}
		}
	}
}
