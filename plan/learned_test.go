package plan

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

var metalRange = build.RiskRange{Kind: "metal", Source: "trade default",
	Factor: build.Span{Low: 0.8, Mode: 1, High: 1.6}, Common: build.Span{Low: 0.85, Mode: 1, High: 1.35}}

// learning is the small build with so many finished metal tasks of 10 h that
// took so many, in a stage.
func learning(finished int, took unit.Effort, stage string) *build.Build {
	b := small()
	b.Risk.Ranges = []build.RiskRange{metalRange}
	b.Tasks[0].Risk = "metal"
	for i := range finished {
		id := build.TaskID("D" + string(rune('1'+i)))
		b.Tasks = append(b.Tasks, build.Task{ID: id, Name: "done", Stage: stage, Risk: "metal", State: build.Finished,
			Legs: []build.Leg{{Trade: "MW", Hours: 10 * h}}, Began: monday - 7, Ended: monday - 3})
		b.Hours = append(b.Hours, build.Hours{ID: string(id), Person: "mo", Task: id, Start: (monday - 7).At(8, 0), Stop: (monday - 3).At(16, 0), Worked: took})
	}
	return b
}

// sides returns the activity of the open metal task and the mean logarithm of
// the factor on its hours.
func sides(b *build.Build) (a schedule.Activity, mean float64) {
	n := network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0))
	for _, a = range n.problem.Activities {
		if a.ID == "T1/MW" {
			mean = a.Learned.Mu
			for _, f := range a.Factors {
				mean += n.problem.Factors[f].Learned.Mu
			}
			return a, mean
		}
	}
	return a, 0
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s is %.8f, want %.8f", what, got, want)
	}
}

// TestLearned_ByHand: three tasks that took twice their plan. The common factor
// goes w = 3p ÷ (3p + o) of the way from its stated mean to what they say, with
// p its stated variance and o that of the own range, which their likeness has
// narrowed by two records: 10/12 of the stated one.
func TestLearned_ByHand(t *testing.T) {
	own, prior := schedule.Spread(metalRange.Factor).Lognormal(), schedule.Spread(metalRange.Common).Lognormal()
	a, mean := sides(learning(3, 20*h, "metal"))
	o, p := own.Sigma*own.Sigma*10/12, prior.Sigma*prior.Sigma
	w := 3 * p / (3*p + o)
	near(t, "deviation of the own range", a.Learned.Sigma, math.Sqrt(o))
	near(t, "mean", mean, own.Mu+prior.Mu+w*(math.Log(2)-own.Mu-prior.Mu))
	if _, stated := sides(learning(0, 0, "metal")); math.Abs(stated-own.Mu-prior.Mu) > 1e-12 {
		t.Errorf("without finished work the mean is %v, want the stated %v", stated, own.Mu+prior.Mu)
	}
	if _, other := sides(learning(3, 20*h, "strip")); math.Abs(other-own.Mu-prior.Mu) > 1e-12 {
		t.Errorf("finished work of another stage moves the mean to %v, want the stated %v", other, own.Mu+prior.Mu)
	}
}

// TestLearned_PaceCountsOnce: hours that the take-off has scaled by the pace are
// taken back to the plan, so that scaled hours times factor are what planned
// hours times factor are.
func TestLearned_PaceCountsOnce(t *testing.T) {
	b := learning(0, 0, "metal")
	b.Tasks[0].Findings, b.Tasks[0].State, b.Tasks[0].Began = true, build.Begun, monday-7
	work := func(id string, state build.FindingState) build.Finding {
		return build.Finding{ID: build.FindingID(id), Task: "T1", State: state, Work: []build.Leg{{Trade: "MW", Hours: 20 * h}}}
	}
	b.Findings = []build.Finding{work("F1", build.Closed), work("F2", build.Settled)}
	b.Hours = []build.Hours{{ID: "1", Person: "mo", Task: "T1", Finding: "F1", Start: (monday - 7).At(8, 0), Stop: (monday - 3).At(16, 0), Worked: 30 * h}}
	a, mean := sides(b)
	if a.Work != 30*60 {
		t.Fatalf("%d minutes left in the plain plan, want 20 h at the pace of 1.5", a.Work)
	}
	own, prior := schedule.Spread(metalRange.Factor).Lognormal(), schedule.Spread(metalRange.Common).Lognormal()
	w := prior.Sigma * prior.Sigma / (prior.Sigma*prior.Sigma + own.Sigma*own.Sigma)
	want := 20 * 60 * math.Exp(own.Mu+prior.Mu+w*(math.Log(1.5)-own.Mu-prior.Mu))
	near(t, "median minutes", float64(a.Work)*math.Exp(mean)/want, 1)
}

// TestLearned_JudgedHoursAreNotShifted: who says what is left knows how it goes.
func TestLearned_JudgedHoursAreNotShifted(t *testing.T) {
	b := learning(3, 20*h, "metal")
	b.Tasks[0].Left, b.Tasks[0].LeftSaid = []build.Leg{{Trade: "MW", Hours: 9 * h}}, true
	own, prior := schedule.Spread(metalRange.Factor).Lognormal(), schedule.Spread(metalRange.Common).Lognormal()
	a, mean := sides(b)
	near(t, "mean", mean, own.Mu+prior.Mu)
	if a.Work != 9*60 {
		t.Errorf("%d minutes left, want the 9 h said", a.Work)
	}
}

// TestLearned_ShowsWhereItCameFrom: the working of the odds says n, what they
// came to, and what was stated.
func TestLearned_ShowsWhereItCameFrom(t *testing.T) {
	b := learning(3, 12*h, "metal")
	p := made(t, b, monday.At(8, 0))
	for _, in := range p.Odds.Figure.Inputs {
		if in.Name != "metal still to do in metal" {
			continue
		}
		if in.Source != "own past" || !strings.HasPrefix(in.Note, "n = 3 finished here, on the mean × 1.20 of the plan; as stated it would be × 0.") {
			t.Errorf("input %+v", in)
		}
		return
	}
	t.Errorf("no input says what was learnt: %+v", p.Odds.Figure.Inputs)
}
