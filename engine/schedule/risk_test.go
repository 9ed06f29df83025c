package schedule

import (
	"math"
	"testing"
)

// A chance of 0.3 of two days more: the finish is one of two moments, and the
// later one comes in three runs of ten.
func TestOdds_RiskIsAMixture(t *testing.T) {
	a, rot := labour("blast", 1000, 0), labour("rot", 960, 0)
	p := always(a, rot)
	p.Links = []Link{after(0, 1)}
	p.Risks = []Risk{{ID: "rot under the filler", Chance: 0.3, Activities: []int{1}}}
	o := played(t, p, OddsOptions{Runs: 20_000, Workers: 2})
	early, late := 0, 0
	for _, f := range o.Finishes {
		switch f {
		case 1000:
			early++
		case 1960:
			late++
		default:
			t.Fatalf("a run ends at %d, want 1,000 or 1,960", f)
		}
	}
	close64(t, "part of the late runs", float64(late)/20_000, 0.3, 3*math.Sqrt(0.3*0.7/20_000))
	for _, g := range o.Groups {
		if g.Group == rot.Group && math.Abs(g.Part-float64(late)/20_000) > 1e-9 {
			t.Errorf("rot sets the finish in %.3f of the runs, it struck in %.3f", g.Part, float64(late)/20_000)
		}
	}
	if k := o.Risks[0]; k.Risk != p.Risks[0].ID || k.Later != 960 || math.Abs(k.Part-float64(late)/20_000) > 1e-9 {
		t.Errorf("strikes %+v, want 960 minutes later in %d of 20,000 runs", k, late)
	}
	for chance, want := range map[float64]Minute{0: 1000, 1: 1960} {
		p.Risks[0].Chance = chance
		if o := played(t, p, OddsOptions{Runs: 500}); o.Finishes[0] != want || o.Finishes[499] != want {
			t.Errorf("chance %v: finishes from %d to %d, want %d", chance, o.Finishes[0], o.Finishes[499], want)
		}
	}
}

// An activity of two risks is done when both strike.
func TestOdds_RiskOfARisk(t *testing.T) {
	p := always(labour("spray", 500, 0), labour("again", 100, 0), labour("and again", 7, 0))
	p.Links = []Link{after(0, 1), after(1, 2)}
	p.Risks = []Risk{{"runs", 0.4, []int{1, 2}}, {"runs again", 0.5, []int{2}}}
	o := played(t, p, OddsOptions{Runs: 20_000, Workers: 2})
	for _, c := range []struct {
		at   Minute
		want float64
	}{{500, 0.6}, {600, 0.8}, {607, 1}} {
		got, err := o.Chance(c.at)
		close64(t, "chance", got, c.want, 4*err)
	}
}

// A part that comes late holds up what it is for, and nobody else.
func TestOdds_LatePartIsARisk(t *testing.T) {
	glass := Activity{ID: "glass late", Kind: Passive, Work: 5000, Calendar: -1}
	p := always(labour("trim", 300, 0), labour("fit glass", 200, 0), glass)
	p.Links = []Link{after(2, 1)}
	p.Risks = []Risk{{"glass", 0.25, []int{2}}}
	o := played(t, p, OddsOptions{Runs: 10_000, Workers: 2})
	got, err := o.Chance(500)
	close64(t, "chance without delay", got, 0.75, 4*err)
	if o.Quantile(1) != 5200 {
		t.Errorf("the last run ends at %d, want 5,200", o.Quantile(1))
	}
}

// A new risk leaves the runs in which it does not strike as they were.
func TestOdds_RiskKeepsCommonRandomNumbers(t *testing.T) {
	a := labour("a", 1000, 0)
	a.Range = Spread{0.8, 1, 1.6}
	p := always(a, labour("b", 2000, 0))
	p.Links = []Link{after(0, 1)}
	p.Risks = []Risk{{"b", 0, []int{1}}}
	calm := played(t, p, OddsOptions{Runs: 400})
	p.Risks[0].Chance = 0.5
	rough := played(t, p, OddsOptions{Runs: 400})
	same, i := 0, 0
	for _, f := range calm.Finishes {
		if i < 400 && rough.Finishes[i] == f {
			same, i = same+1, i+1
		}
	}
	if same < 120 {
		t.Errorf("%d runs as they were, want about half of 400", same)
	}
}

func TestOdds_PaceOfAPerson(t *testing.T) {
	p := always(labour("a", 1000, 0))
	p.People[0].Range = Spread{0.9, 1, 1.4}
	d, o := p.People[0].Range.Lognormal(), played(t, p, OddsOptions{Runs: 20_000, Workers: 2})
	for _, q := range []float64{0.1, 0.5, 0.9} {
		close64(t, "quantile", float64(o.Quantile(q)), 1000*d.Quantile(q), 4)
	}
}
