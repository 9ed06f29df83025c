package plan

import (
	"math"
	"testing"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// under is the small build with its metal task, planned at 16 h, under way and
// so many hours booked on it by the day before monday.
func under(worked unit.Effort) *build.Build {
	b := small()
	b.Risk.Ranges = []build.RiskRange{metalRange}
	t := &b.Tasks[0]
	t.Risk, t.State, t.Began = "metal", build.Begun, monday-7
	b.Hours = []build.Hours{{ID: "1", Person: "mo", Task: "T1", Start: (monday - 7).At(8, 0), Stop: (monday - 3).At(16, 0), Worked: worked}}
	return b
}

// TestOverrun_IsDrawnFromWhatIsBeyond: the odds draw the whole of begun work
// among those wholes that exceed what is booked, also when nothing is left.
func TestOverrun_IsDrawnFromWhatIsBeyond(t *testing.T) {
	for _, worked := range []unit.Effort{10 * h, 16 * h, 20 * h} {
		a, _ := sides(under(worked))
		if want := (schedule.Begun{Planned: 16 * 60, Spent: schedule.Minute(worked)}); a.ID == "" || a.Begun != want || a.Work != schedule.Minute(max(16*h-worked, 0)) {
			t.Errorf("%s booked: %d minutes left of %+v, want %+v", worked, a.Work, a.Begun, want)
		}
	}
}

// TestOverrun_AsksWhatIsLeft: the check names the hours that the odds expect.
func TestOverrun_AsksWhatIsLeft(t *testing.T) {
	p := made(t, under(20*h), monday.At(8, 0))
	if len(p.Checks) != 1 || p.Checks[0].ID != "used-up/T1" || p.Tasks[0].Left != 0 {
		t.Fatalf("checks %+v with %s left, want one, and hours as they are planned", p.Checks, p.Tasks[0].Left)
	}
	own, common := schedule.Spread(metalRange.Factor).Lognormal(), schedule.Spread(metalRange.Common).Lognormal()
	whole := schedule.Lognormal{Mu: own.Mu + common.Mu, Sigma: math.Hypot(own.Sigma, common.Sigma)}
	if want := unit.Hours(16 * whole.Left(1.25)).String(); p.Checks[0].Figure.Text != want {
		t.Errorf("%s more, want %s", p.Checks[0].Figure.Text, want)
	}
	if p := made(t, under(10*h), monday.At(8, 0)); len(p.Checks) != 0 {
		t.Errorf("with hours left: %+v", p.Checks)
	}
}

// TestOverrun_EndsWhenSomethingElseIsBegun: who works elsewhere, or has said
// what is left, is not thought to need more.
func TestOverrun_EndsWhenSomethingElseIsBegun(t *testing.T) {
	for what, alter := range map[string]func(b *build.Build){
		"works elsewhere since": func(b *build.Build) {
			b.Hours = append(b.Hours, build.Hours{ID: "2", Person: "mo", Task: "T2", Start: (monday - 3).At(8, 0), Worked: h})
		},
		"has said nothing is left": func(b *build.Build) { b.Tasks[0].LeftSaid = true },
		"has no range":             func(b *build.Build) { b.Tasks[0].Risk = "" },
	} {
		b := under(20 * h)
		alter(b)
		for _, a := range network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0)).problem.Activities {
			if a.ID == "T1/MW" {
				t.Errorf("%s: still %+v", what, a)
			}
		}
	}
}

// TestOverrun_ALateLoadIsNotBackToday: a load that should be back takes longer
// yet, in the odds; the day that was last heard counts until it has passed.
func TestOverrun_ALateLoadIsNotBackToday(t *testing.T) {
	b := small()
	b.Risk.Ranges = []build.RiskRange{{Kind: outwork, Factor: build.Span{Low: 0.85, Mode: 1, High: 1.6}}}
	b.Outwork = []build.Outwork{{ID: "O1", Task: "O1", Pieces: 1, State: build.Away, Sent: monday - 14}}
	b.Tasks = append(b.Tasks, build.Task{ID: "O1", Name: "plating", Stage: "away", Outwork: "O1", Wait: 5, State: build.Begun, Began: monday - 14})
	wait := func() schedule.Activity {
		for _, a := range network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0)).problem.Activities {
			if a.ID == "O1/wait" {
				return a
			}
		}
		return schedule.Activity{}
	}
	if a := wait(); a.Work != 0 || a.Begun != (schedule.Begun{Planned: 5 * dayLong, Spent: 10 * dayLong}) {
		t.Errorf("sent ten days ago for five: %d minutes, %+v", a.Work, a.Begun)
	}
	b.Outwork[0].Likely = 14
	if a := wait(); a.Work != 4*dayLong || a.Begun.Spent != 0 {
		t.Errorf("heard to take 14 days: %d minutes, %+v; want four days and their range", a.Work, a.Begun)
	}
}
