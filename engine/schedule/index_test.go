package schedule

import (
	"context"
	"math"
	"testing"

	"fettle/fault"
)

func indexed(t testing.TB, p Problem, o IndexOptions) map[string]Index {
	t.Helper()
	list, err := Indices(context.Background(), p, nil, o)
	if err != nil {
		t.Fatal(err)
	}
	by := map[string]Index{}
	for i, x := range list {
		if i > 0 && x.Significance > list[i-1].Significance {
			t.Errorf("%s comes after %s, which says less", x.Group, list[i-1].Group)
		}
		by[x.Group] = x
	}
	return by
}

// sure, then wild: both on every chain, and only one of them worth a thought.
// aside runs beside them and never matters.
func aside() Problem {
	sure, wild, off := labour("sure", 3000, 0), labour("wild", 1000, 0), labour("aside", 100, 1)
	sure.Group, wild.Group, off.Group = "sure", "wild", "aside"
	wild.Learned, off.Learned = Lognormal{0, 0.3}, Lognormal{0, 0.3}
	p := always(sure, wild, off)
	p.People = append(p.People, Person{ID: "B"})
	return p
}

// What criticality alone gets wrong: a certain task that is always on the chain.
// What is won if wild goes well is the distance of two of its quantiles.
func TestIndices_ByHand(t *testing.T) {
	got := indexed(t, aside(), IndexOptions{Runs: 10_000, Workers: 2, Top: 2})
	d := Lognormal{0, 0.3}
	close64(t, "criticality of sure", got["sure"].Critical, 1, 0)
	close64(t, "significance of sure", got["sure"].Significance, 0, 0)
	close64(t, "cruciality of sure", got["sure"].Cruciality, 0, 0)
	close64(t, "significance of wild", got["wild"].Significance, 1, 1e-9)
	close64(t, "cruciality of wild", got["wild"].Cruciality, 1, 1e-9)
	deviation := 1000 * d.Mean() * math.Sqrt(math.Exp(0.09)-1)
	close64(t, "deviation of wild", got["wild"].Deviation, deviation, 0.03*deviation)
	want := 1000 * (d.Quantile(0.8) - d.Quantile(0.1))
	close64(t, "won by wild", float64(got["wild"].Won), want, 4*got["wild"].WonErr)
	if e := got["wild"].WonErr; e < 1 || e > 0.05*want {
		t.Errorf("error of what is won: %.1f of %.0f", e, want)
	}
	if x := got["aside"]; x.Critical != 0 || x.Significance != 0 || math.Abs(x.Cruciality) > 0.04 || x.Won != 0 {
		t.Errorf("aside: %+v, want nothing", x)
	}
}

// Two equal groups share the chain; a risk counts as the minutes it costs.
func TestIndices_RiskAndHalf(t *testing.T) {
	a, b, rot := labour("a", 1000, 0), labour("b", 1000, 1), labour("rot", 5000, 0)
	a.Group, b.Group, rot.Group = "a", "b", "rot"
	a.Learned, b.Learned = Lognormal{0, 0.2}, Lognormal{0, 0.2}
	p := always(a, b, rot)
	p.People = append(p.People, Person{ID: "B"})
	p.Links = []Link{after(0, 2)}
	p.Risks = []Risk{{"rot", 0.25, []int{2}}}
	got := indexed(t, p, IndexOptions{Runs: 10_000, Workers: 2, Top: 1})
	close64(t, "criticality of rot", got["rot"].Critical, 0.25, 4*got["rot"].CriticalErr)
	close64(t, "criticality of a", got["a"].Critical, 0.25+0.75/2, 4*got["a"].CriticalErr)
	close64(t, "deviation of rot", got["rot"].Deviation, 5000*math.Sqrt(0.25*0.75), 50)
	if got["rot"].Won < 4000 {
		t.Errorf("without rot the 80 %% date comes %d minutes earlier, want more than 4,000", got["rot"].Won)
	}
}

func TestIndices_SameForAnyWorkers(t *testing.T) {
	d := morning(t, true, true)
	one := indexed(t, d.Problem, IndexOptions{Runs: 200, Seed: 4, Top: 2})
	two := indexed(t, d.Problem, IndexOptions{Runs: 200, Seed: 4, Top: 2, Workers: 2})
	for group, x := range one {
		if x != two[group] {
			t.Errorf("%+v with one worker, %+v with two", x, two[group])
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Indices(ctx, d.Problem, nil, IndexOptions{}); fault.KindOf(err) != fault.Interrupted {
		t.Errorf("got %v, want interrupted", err)
	}
}

// Spearman's own example of ties: ranks share their mean.
func TestRanks(t *testing.T) {
	got := ranks([]Minute{30, 10, 20, 10, 30, 30})
	for i, want := range []Minute{8, 1, 4, 1, 8, 8} {
		if got[i] != want {
			t.Errorf("ranks %v: place %d is %d, want %d", got, i, got[i], want)
		}
	}
	close64(t, "correlation", correlation(ranks([]Minute{1, 2, 3, 4, 5}), ranks([]Minute{5, 6, 7, 8, 7})), 0.8207826816681233, 1e-12)
}

// The interval of the 80 % date holds the true one in about 19 of 20 sets.
func TestOutlook_BetweenHoldsTheQuantile(t *testing.T) {
	a := labour("a", 10_000, 0)
	a.Learned = Lognormal{0, 0.3}
	truth := rounded(10_000 * a.Learned.Quantile(0.8))
	held, narrow := 0, Never
	for seed := range uint64(600) {
		o := played(t, always(a), OddsOptions{Runs: 300, Seed: seed})
		low, high := o.Between(0.8)
		if low <= truth && truth <= high {
			held++
		}
		if at := o.Quantile(0.8); at < low || at > high {
			t.Fatalf("%d lies outside %d to %d", at, low, high)
		}
		narrow = min(narrow, high-low)
	}
	if part := float64(held) / 600; part < 0.93 || part > 0.98 || narrow == 0 {
		t.Errorf("held in %.3f of the sets, the narrowest is %d minutes; want 0.93 to 0.98", part, narrow)
	}
	if low, high := (Outlook{}).Between(0.5); low != Never || high != Never {
		t.Errorf("without runs from %d to %d, want never", low, high)
	}
}

func BenchmarkIndices(b *testing.B) {
	d := morning(b, true, true)
	for b.Loop() {
		indexed(b, d.Problem, IndexOptions{Seed: 1, Workers: 2, Top: 3})
	}
}
