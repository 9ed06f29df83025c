package schedule

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
)

// ruled has one of everything: T1 then T2 with a window between them and its
// remedy T3, T4 that a risk calls for, a clash, overtime, a crew.
func ruled() Problem {
	p := shopOf(2, labour("T1", 60, 0), labour("T2", 60, 0, 1), labour("T3", 30, 0), labour("T4", 30, 1))
	p.Links = []Link{after(0, 1), {From: 0, To: 1, Lag: 600, Calendar: -1, Max: true}}
	p.Remedies = []Remedy{{Link: 1, Activity: 2}}
	p.Risks = []Risk{{ID: "rust", Chance: 0.5, Activities: []int{3}}}
	p.Clashes = []Clash{{Dirty: []int{0}, Clean: []int{1}, Calendar: -1}}
	p.Overtime = []Overtime{{Person: 0, Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}, Price: 100}}
	p.Activities[0].Crew, p.Activities[1].Crew = "x", "x"
	p.Factors = []Factor{{ID: "metal", Range: Spread{1, 1, 2}, Seen: []float64{1.2}}}
	p.Published = []Slot{{Start: Never}, {Start: 600, People: []int{0}}, {Start: Never}, {Start: Never}}
	p.Weights = &Weights{Late: 1}
	return p
}

func TestValidate_TheRulesOfAShop(t *testing.T) {
	cases := []struct {
		name  string
		spoil func(*Problem)
		want  string
	}{
		{"sound", func(p *Problem) {}, ""},
		{"remedy of no link", func(p *Problem) { p.Remedies[0].Link = 2 }, "remedy 0: schedule rule 3"},
		{"remedy without work", func(p *Problem) { p.Remedies[0].Activity = -1 }, "remedy 0: schedule rule 3"},
		{"remedy of a minimum lag", func(p *Problem) { p.Remedies[0].Link = 0 }, "remedy 0: schedule rule 15: link 0 is not"},
		{"remedy begun", func(p *Problem) { p.Activities[2].State = Started }, "remedy 0: schedule rule 15: T3 is not open"},
		{"remedy of two windows", func(p *Problem) { p.Remedies = append(p.Remedies, p.Remedies[0]) }, "remedy 1: schedule rule 15: T3 is a remedy"},
		{"remedy and risk", func(p *Problem) { p.Risks[0].Activities[0] = 2 }, "remedy 0: schedule rule 15: T3 is a remedy"},
		{"window without a link", func(p *Problem) { p.Links[0].To = 3 }, "remedy 0: schedule rule 15: T2 does not wait for T1"},
		{"window into a remedy", func(p *Problem) {
			p.Links[0].To, p.Links[1].To = 2, 2
			p.Remedies[0].Activity = 3
			p.Risks = nil
			p.Remedies = append(p.Remedies, Remedy{3, 2})
			p.Links = append(p.Links, after(0, 1), Link{From: 0, To: 1, Max: true, Calendar: -1})
		},
			"remedy 0: schedule rule 15: the window ends in a remedy"},
		{"remedy leads elsewhere", func(p *Problem) {
			p.Activities = append(p.Activities, labour("T5", 1, 0))
			p.Published = nil
			p.Links = append(p.Links, after(2, 4))
		}, "link 2: schedule rule 15: T5 waits"},
		{"remedy waits for the end", func(p *Problem) { p.Links = append(p.Links, after(1, 2)) }, "activity T2: schedule rule 12"},
		{"clash with nothing", func(p *Problem) { p.Clashes[0].Clean[0] = 4 }, "clash 0: schedule rule 3"},
		{"clash calendar", func(p *Problem) { p.Clashes[0].Calendar = 1 }, "clash 0: schedule rule 3"},
		{"settle", func(p *Problem) { p.Clashes[0].Settle = -1 }, "clash 0: schedule rule 4"},
		{"dirty and clean", func(p *Problem) { p.Clashes[0].Clean[0] = 0 }, "clash 0: schedule rule 16: T1"},
		{"dirty twice", func(p *Problem) { p.Clashes[0].Dirty = []int{0, 0} }, "clash 0: schedule rule 16: T1"},
		{"a dusty milestone", func(p *Problem) {
			p.Activities[3] = Activity{ID: "T4", Kind: Milestone}
			p.Clashes[0].Dirty = []int{3}
		}, "clash 0: schedule rule 16: T4"},
		{"overtime of nobody", func(p *Problem) { p.Overtime[0].Person = 2 }, "overtime 0: schedule rule 3"},
		{"overtime upside down", func(p *Problem) { p.Overtime[0].Window.To = 0 }, "overtime 0: schedule rule 1"},
		{"overtime at a gift", func(p *Problem) { p.Overtime[0].Price = -1 }, "overtime 0: schedule rule 17: price"},
		{"overtime in hours", func(p *Problem) { p.Overtime[0].Window = Window{900, 1000} }, "overtime 0: schedule rule 17: 900 to 1000: A"},
		{"overtime twice", func(p *Problem) { p.Overtime = append(p.Overtime, p.Overtime[0]) }, "overtime 1: schedule rule 17"},
		{"a chance above one", func(p *Problem) { p.Risks[0].Chance = 1.1 }, "risk rust: schedule rule 18"},
		{"a chance that is no number", func(p *Problem) { p.Risks[0].Chance = math.NaN() }, "risk rust: schedule rule 18"},
		{"a risk of nothing", func(p *Problem) { p.Risks[0].Activities[0] = 9 }, "risk rust: schedule rule 3"},
		{"a risk of what is done", func(p *Problem) { p.Activities[3].State = Done }, "risk rust: schedule rule 18: T4"},
		{"a risk that names twice", func(p *Problem) { p.Risks[0].Activities = []int{3, 3} }, "risk rust: schedule rule 18: T4"},
		{"a risk without ID", func(p *Problem) { p.Risks[0].ID = "" }, "risk 0: schedule rule 2"},
		{"too few published", func(p *Problem) { p.Published = p.Published[:1] }, "published: schedule rule 19"},
		{"published to nobody", func(p *Problem) { p.Published[1].People[0] = 5 }, "published T2: schedule rule 3"},
		{"published far away", func(p *Problem) { p.Published[1].Start = limit + 1 }, "published T2: schedule rule 4"},
		{"near too far", func(p *Problem) { p.Near = -1 }, "now or goal: schedule rule 4"},
		{"a weight below nothing", func(p *Problem) { p.Weights.Moved = -1 }, "weights: schedule rule 20"},
		{"a weight beyond all", func(p *Problem) { p.Weights.Length = math.Inf(1) }, "weights: schedule rule 20"},
		{"crew of different sizes", func(p *Problem) { p.Activities[1].Heads = 2 }, "activity T2: schedule rule 21: 2 heads; T1"},
		{"crew without a common person", func(p *Problem) { p.Activities[1].Who = []int{1} }, "activity T1: schedule rule 21: crew x has 0"},
		{"crew that cannot hold its session", func(p *Problem) { p.Activities[1].Kind, p.Activities[1].Work = Session, 481 }, "activity T1: schedule rule 21"},
		{"a crew that waits", func(p *Problem) { p.Activities[3] = Activity{ID: "T4", Kind: Passive, Crew: "y"} }, "activity T4: schedule rule 21"},
		{"a ratio of nothing", func(p *Problem) { p.Factors[0].Seen[0] = 0 }, "factor metal: schedule rule 22"},
		{"a ratio that is no number", func(p *Problem) { p.Factors[0].Seen[0] = math.NaN() }, "factor metal: schedule rule 22"},
		{"a person's range", func(p *Problem) { p.People[0].Range = Spread{2, 1, 1} }, "person A: schedule rule 11"},
		{"learned without bounds", func(p *Problem) { p.Activities[0].Learned.Sigma = -1 }, "activity T1, learned: schedule rule 11"},
		{"a factor learned wrong", func(p *Problem) { p.Factors[0].Learned.Mu = math.NaN() }, "factor metal: schedule rule 11"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := ruled()
			c.spoil(&p)
			_, err := Solve(context.Background(), p, Options{})
			if c.want == "" && err == nil {
				return
			}
			if err == nil || fault.KindOf(err) != fault.Invalid || !strings.HasPrefix(err.Error(), c.want) || c.want == "" {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

// lies is a plan in which every rule has a part: coat, recoat after a missed
// window with its scuffing, sanding, a risk, a Saturday.
func lies(t *testing.T) (Problem, Result) {
	p := shopOf(2, labour("coat", 60, 0, 1), labour("away", 600, 0), labour("recoat", 60, 0, 1), labour("scuff", 30, 1, 0), labour("sand", 60, 1),
		labour("found", 30, 0), labour("long", 6*480, 0))
	p.Activities[0].Crew, p.Activities[2].Crew = "painters", "painters"
	p.Links = []Link{after(0, 1), after(1, 2), {From: 0, To: 2, Lag: 300, Calendar: -1, Max: true}, after(2, 6), {From: 0, To: 4, Lag: 5, Calendar: -1, Max: true}}
	p.Remedies = []Remedy{{Link: 2, Activity: 3}}
	p.Risks = []Risk{{ID: "rust", Chance: 0.1, Activities: []int{5}}}
	p.Clashes = []Clash{{Dirty: []int{4}, Clean: []int{2}, Settle: 10, Calendar: -1}}
	p.Activities[4].Release = clockTime(0, 9, 30)
	p.Overtime = []Overtime{{Person: 0, Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}, Price: 100}, {Person: 1, Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}, Price: 7}}
	return p, generated(t, p, nil, false)
}

func TestCheck_CatchesLiesAboutTheRules(t *testing.T) {
	cases := []struct {
		name string
		lie  func(*Result)
		want string
	}{
		{"no lie", func(r *Result) {}, ""},
		{"the Saturday was not bought", func(r *Result) { r.Bought, r.Price = nil, 0 }, "its work ends"},
		{"bought twice", func(r *Result) { r.Bought = []int{0, 0} }, "bought twice"},
		{"bought what is not for sale", func(r *Result) { r.Bought = []int{2} }, "not for sale"},
		{"another price", func(r *Result) { r.Price-- }, "the price is 99"},
		{"another's hours", func(r *Result) { r.Bought, r.Price = []int{1}, 7 }, "its work ends"},
		{"no remedy", func(r *Result) { r.Times[3] = Timing{Skipped: true}; r.Remedies = nil }, "without its remedy"},
		{"remedy not named", func(r *Result) { r.Remedies = nil }, "a remedy is done and not named"},
		{"remedy while the window is open", func(r *Result) { r.Times[3].move(clockTime(0, 13, 30) - r.Times[3].Start) }, "the window closes at"},
		{"remedy after the end", func(r *Result) { r.Times[3].move(r.Times[2].Start - 15 - r.Times[3].Start) }, "before its remedy is over"},
		{"another crew", func(r *Result) { r.Times[2].People = []int{1} }, "crew painters is"},
		{"dust in the paint", func(r *Result) { r.Times[4].move(r.Times[2].Start + 30 - r.Times[4].Start) }, "makes dust while it runs"},
		{"dust not settled", func(r *Result) { r.Times[4].move(r.Times[2].Start - 65 - r.Times[4].Start) }, "the air is clean at"},
		{"work left out", func(r *Result) { r.Times[4] = Timing{Skipped: true}; r.Overruns = nil }, "it is left out"},
		{"a risk in the plan", func(r *Result) { r.Times[5] = r.Times[4]; r.Times[5].Finish -= 30; r.Times[5].People = []int{0} }, "A is still at"},
		{"a risk that strikes", func(r *Result) {
			r.Times[5] = Timing{Start: clockTime(12, 8, 0) + 2*day, Resume: clockTime(14, 8, 0), Finish: clockTime(14, 8, 30), People: []int{0}}
		}, "is off at its start"},
		{"an overrun not named", func(r *Result) { r.Overruns = nil }, "which is not named"},
		{"an overrun of another size", func(r *Result) { r.Overruns = slices.Clone(r.Overruns); r.Overruns[0].By++ }, "which is not named"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, res := lies(t)
			c.lie(&res)
			err := Check(p, res)
			if (c.want == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}
