package moments

import (
	"bytes"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/plan"
	"fettle/unit"
)

// hoursOf returns the planned hours of a trade in the tasks of a stage.
func hoursOf(p plan.Plan, stage string, trade build.TradeID, findings bool) unit.Effort {
	var sum unit.Effort
	for _, t := range p.Tasks {
		if t.Stage != stage || findings && !slices.Contains([]build.TaskID{"T08", "T09", "T10", "T11"}, t.ID) {
			continue
		}
		for _, l := range t.Legs {
			if l.Trade == trade {
				sum += l.Planned
			}
		}
	}
	return sum
}

func TestBlastFoundFourteenMore(t *testing.T) {
	s := morning(t, "2026-10-06")
	before := s.run("plan", "pedlar", "--json")
	sheet := s.file("blast.json", demo.BlastSheet())
	tried := s.try(sheet)
	k := tried.KnockOn

	equal(t, "hours of findings before", k.Before.Metal, 224*unit.Hour)
	equal(t, "hours of findings after", k.After.Metal, 310*unit.Hour)
	for trade, want := range map[build.TradeID]unit.Effort{"MW": 64, "LD": 12, "WA": 10} {
		got := hoursOf(tried.After, "metal", trade, true) - hoursOf(tried.Before, "metal", trade, true)
		equal(t, "more hours of "+string(trade), got, want*unit.Hour)
	}
	equal(t, "more cash", k.After.Cash-k.Before.Cash, unit.Money(2710_00))
	line := func(p plan.Plan, name string) unit.Money {
		for _, l := range p.Money.Lines {
			if l.Name == name {
				return l.Amount
			}
		}
		return -1
	}
	equal(t, "more paid hours", line(tried.After, "paid hours")-line(tried.Before, "paid hours"), unit.Money(2496_00))
	equal(t, "more parts", line(tried.After, "parts bought")-line(tried.Before, "parts bought"), unit.Money(214_00))
	equal(t, "over the budget", k.After.Over, unit.Money(1070_00))
	equal(t, "net after", k.After.Expected, unit.Money(41760_00))

	near(t, "half before", k.Before.P50, unit.Day(2027, 2, 15))
	near(t, "half after", k.After.P50, unit.Day(2027, 2, 23))
	t.Logf("odds %.3f ± %.3f before, %.3f ± %.3f after; half by %s and %s", k.Before.Ready, k.Before.StdErr, k.After.Ready, k.After.StdErr, k.Before.P50, k.After.P50)
	if k.Before.Ready < 0.85 || k.After.Ready > 0.55 || k.Before.Ready-k.After.Ready < 0.35 {
		t.Errorf("odds %.3f before and %.3f after, want at least 0.85, at most 0.55, and 0.35 between", k.Before.Ready, k.After.Ready)
	}

	var orders []string
	for _, o := range k.Order {
		orders = append(orders, string(o.Part))
	}
	slices.Sort(orders)
	equal(t, "orders today", len(orders), 3)
	for i, want := range []string{"Q11", "Q12", "Q13"} {
		if i < len(orders) {
			equal(t, "order today", orders[i], want)
		}
	}
	if !slices.ContainsFunc(k.Decide, func(c takeoffCheck) bool { return c.ID == "choose/F37" }) {
		t.Error("the choice between a bought and a repaired right door skin is not offered")
	}

	if now := s.run("plan", "pedlar", "--json"); !bytes.Equal(now, before) {
		t.Error("trying changed the plan")
	}
	kept := decode[[]entry](t, s.run("record", "pedlar", sheet, "--json"))
	equal(t, "kept entries", len(kept), 14)
	if now := s.run("plan", "pedlar", "--json"); bytes.Equal(now, before) {
		t.Error("keeping did not change the plan")
	}
	ids := []string{"undo", "pedlar"}
	for _, e := range kept {
		ids = append(ids, e.ID)
	}
	s.run(ids...)
	if now := s.run("plan", "pedlar", "--json"); !bytes.Equal(now, before) {
		t.Error("taking the findings back did not return the old plan byte for byte")
	}
}

// TestAFindIsNeverGoodNews touches the findings in one by one: the reserve that
// each draws down must not outweigh its own hours.
func TestAFindIsNeverGoodNews(t *testing.T) {
	s := morning(t, "2026-10-06")
	all, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	last := s.plan().Odds.Ready
	for n := 1; n <= len(all); n++ {
		now := s.try(s.changes(all[:n]...)).After.Odds.Ready
		if now > last+0.01 {
			t.Errorf("the find number %d lifts the odds from %.3f to %.3f", n, last, now)
		}
		last = now
	}
}
