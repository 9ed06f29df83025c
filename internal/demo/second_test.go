package demo_test

import (
	"testing"
	"time"

	"fettle/build"
	"fettle/unit"
)

// TestSecond_IsUnlikeTheVan names what a program could have taken for granted.
func TestSecond_IsUnlikeTheVan(t *testing.T) {
	van, b := pedlar(t).Build, second(t).Build
	if b.Currency.Code != "NOK" || b.Currency.Format(12_00) != "kr 12" {
		t.Errorf("currency = %+v", b.Currency)
	}
	if b.Vehicle.RightHand || b.Vehicle.Label != "The Pick-up" {
		t.Errorf("vehicle = %q, right-hand %v", b.Vehicle.Label, b.Vehicle.RightHand)
	}
	for _, p := range b.People {
		if p.Week[0] != 0 || p.Week[5] == 0 {
			t.Errorf("%s works %v on Mondays and %v on Saturdays, want none and some", p.ID, p.Week[0], p.Week[5])
		}
		if van.Person(p.ID) != nil {
			t.Errorf("person %s is in both builds", p.ID)
		}
	}
	for _, task := range b.Tasks {
		if van.Task(task.ID) != nil {
			t.Errorf("task %s is in both builds", task.ID)
		}
	}
	for _, trade := range b.Trades {
		if van.Trade(trade.ID) != nil {
			t.Errorf("trade %s is in both builds", trade.ID)
		}
	}
}

func TestSecond_Counts(t *testing.T) {
	b := on(t, second(t), 0)
	got := []int{len(b.People), len(b.Trades), len(b.Panels), len(b.Findings), len(b.Tasks), len(b.Parts), len(b.Outwork), len(b.Bags)}
	want := []int{3, 3, 16, 12, 14, 10, 1, 18}
	for i, what := range []string{"people", "trades", "panels", "findings", "tasks", "parts", "loads", "bags"} {
		if got[i] != want[i] {
			t.Errorf("%s = %d, want %d", what, got[i], want[i])
		}
	}
	decided := map[build.PanelState]int{}
	for _, p := range b.Panels {
		decided[p.Decision]++
	}
	if decided[build.Keep] != 5 || decided[build.Repair] != 7 || decided[build.Replace] != 2 || decided[build.Make] != 2 {
		t.Errorf("decisions = %v, want keep 5, repair 7, replace 2, make 2", decided)
	}
	bags, routed := 0, 0
	for _, x := range b.Bags {
		bags += x.Pieces
	}
	for _, r := range b.Routes {
		routed += r.Pieces
	}
	if bags != 220 || routed != 220 {
		t.Errorf("pieces = %d in bags, %d on routes, want 220", bags, routed)
	}
}

func TestSecond_AreasByZone(t *testing.T) {
	b := second(t).Build
	for zone, want := range map[build.ZoneID]unit.Area{"rowan": 9_350_000, "iron": 11_100_000, "wheels": 1_100_000} {
		if got := b.ZoneArea(zone); got != want {
			t.Errorf("%s = %v, want %v", zone, got, want)
		}
	}
}

func TestSecond_HoursByTrade(t *testing.T) {
	f := second(t)
	h := unit.Hour
	for _, tt := range []struct {
		day  unit.Date
		want map[build.TradeID]unit.Effort
	}{
		{unit.Day(2027, time.January, 27), map[build.TradeID]unit.Effort{"SM": 111 * h, "EM": 104 * h, "LT": 108 * h}},
		{unit.Day(2027, time.January, 28), map[build.TradeID]unit.Effort{"SM": 127 * h, "EM": 106 * h, "LT": 108 * h}},
	} {
		b := on(t, f, tt.day)
		var legs []build.Leg
		for _, task := range b.Tasks {
			legs = append(legs, planned(b, task)...)
		}
		got := byTrade(legs...)
		for _, trade := range b.Trades {
			if got[trade.ID] != tt.want[trade.ID] {
				t.Errorf("on %v: %s = %v, want %v", tt.day, trade.ID, got[trade.ID], tt.want[trade.ID])
			}
		}
	}
}

// TestSecond_Money adds up the plan after the dip: kr 129,070 of cash, of
// which kr 80,040 is labour, and what would reach the library.
func TestSecond_Money(t *testing.T) {
	b := on(t, second(t), 0)
	const krone = unit.Money(100)
	var legs []build.Leg
	for _, task := range b.Tasks {
		legs = append(legs, planned(b, task)...)
	}
	hours := byTrade(legs...)
	var labour, cash, kind unit.Money
	for _, p := range b.People {
		free := min(p.Given, hours[p.Trades[0]])
		if p.GivenAll {
			free = hours[p.Trades[0]]
		}
		labour += p.Rate.PerHour(hours[p.Trades[0]] - free)
		kind += p.Rate.PerHour(free)
	}
	cash = labour
	for _, p := range b.Parts {
		if p.Donated {
			kind += p.Cost()
		} else {
			cash += p.Cost()
		}
	}
	for _, o := range b.Outwork {
		cash, kind = cash+o.Cost, kind+o.Donated
	}
	for _, c := range b.Costs {
		cash += c.Amount
	}
	for _, g := range b.Kind {
		kind += g.Value
	}
	var gifts unit.Money
	for _, g := range b.Gifts {
		gifts += g.Amount
	}
	same(t, "paid labour", labour, 80_040*krone)
	same(t, "cash", cash, 129_070*krone)
	same(t, "in kind", kind, 70_030*krone)
	same(t, "net", gifts+b.Sale.Expected-b.Sale.Expected.Percent(b.Sale.FeePercent)-cash, 80_180*krone)
}

func TestSecond_StandsInMidBuild(t *testing.T) {
	b := on(t, second(t), 0)
	states := map[build.TaskState]int{}
	for _, task := range b.Tasks {
		states[task.State]++
	}
	if states[build.Finished] != 5 || states[build.Begun] != 2 || states[build.NotBegun] != 7 {
		t.Errorf("tasks = %v, want 5 finished, 2 begun, 7 not begun", states)
	}
	if got, want := b.Load("W1").State, build.Back; got != want {
		t.Errorf("load W1 is %s, want %s", got, want)
	}
}
