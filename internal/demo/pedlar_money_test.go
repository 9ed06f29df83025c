package demo_test

import (
	"testing"

	"fettle/build"
	"fettle/unit"
)

const pound = unit.Money(100)

func same(t *testing.T, what string, got, want unit.Money) {
	t.Helper()
	if got != want {
		t.Errorf("%s = %d, want %d", what, got/pound, want/pound)
	}
}

// labour returns value, given part and given hours of what was worked: a
// person's given hours come off first.
func labour(b build.Build) (value, given unit.Money, hours unit.Effort) {
	for _, p := range b.People {
		if p.Helps {
			continue
		}
		var worked unit.Effort
		for _, h := range b.Hours {
			if h.Person == p.ID {
				worked += h.Worked
			}
		}
		free := min(p.Given, worked)
		if p.GivenAll {
			free = worked
		}
		value += p.Rate.PerHour(worked)
		given += p.Rate.PerHour(free)
		hours += free
	}
	return value, given, hours
}

func TestPedlar_Labour(t *testing.T) {
	value, given, hours := labour(on(t, pedlar(t), 0))
	same(t, "value", value, 45_184*pound)
	same(t, "given", given, 12_472*pound)
	same(t, "paid", value-given, 32_712*pound)
	if want := 362 * unit.Hour; hours != want {
		t.Errorf("hours given = %v, want %v", hours, want)
	}
}

func TestPedlar_PartsAndOutwork(t *testing.T) {
	b := on(t, pedlar(t), after)
	var bought, donated, cash, pressing unit.Money
	for _, p := range b.Parts {
		if p.Donated {
			donated += p.Cost()
		} else {
			bought += p.Cost()
		}
	}
	for _, o := range b.Outwork {
		cash, pressing = cash+o.Cost, pressing+o.Donated
	}
	if len(b.Parts) != 60 || len(b.Outwork) != 6 {
		t.Errorf("parts, loads = %d %d, want 60 6", len(b.Parts), len(b.Outwork))
	}
	same(t, "bought", bought, 7_598*pound)
	same(t, "donated", donated, 1_869*pound)
	same(t, "outwork", cash, 5_790*pound)
	same(t, "pressing given", pressing, 760*pound)
}

// paid adds up what left the tin, labour apart, by what it was for.
func paid(b build.Build) (sum unit.Money, by map[string]unit.Money) {
	by = map[string]unit.Money{}
	for _, p := range b.Spent {
		sum += p.Amount
		by[p.For] += p.Amount
		if p.For == "line" {
			by[p.Ref] += p.Amount
		}
	}
	return sum, by
}

func TestPedlar_Payments(t *testing.T) {
	b := on(t, pedlar(t), 0)
	sum, by := paid(b)
	same(t, "parts", by["parts"], 7_598*pound)
	same(t, "outwork", by["outwork"], 5_790*pound)
	for _, line := range b.Costs {
		same(t, line.ID, by[line.ID], line.Amount)
	}
	value, given, _ := labour(b)
	same(t, "all cash", sum+value-given, 52_570*pound)
}

func TestPedlar_NetForTheCause(t *testing.T) {
	b := on(t, pedlar(t), 0)
	var gifts unit.Money
	for _, g := range b.Gifts {
		if !g.Received {
			t.Errorf("gift %s is not received at the end", g.ID)
		}
		gifts += g.Amount
	}
	same(t, "gifts", gifts, 38_650*pound)
	same(t, "sold", b.Sale.Sold, 58_000*pound)
	fee := func(m unit.Money) unit.Money { return m.Percent(b.Sale.FeePercent) }
	same(t, "fee", fee(b.Sale.Sold), 2_320*pound)
	spent, _ := paid(b)
	value, given, _ := labour(b)
	net := func(sale unit.Money) unit.Money { return gifts + sale - fee(sale) - spent - (value - given) }
	same(t, "net", net(b.Sale.Sold), 41_760*pound)
	same(t, "net at the low bid", net(b.Sale.Low), 30_240*pound)
	same(t, "net at the high bid", net(b.Sale.High), 54_240*pound)
}

func TestPedlar_GiftsInKind(t *testing.T) {
	b := on(t, pedlar(t), 0)
	_, sum, _ := labour(b)
	for _, k := range b.Kind {
		sum += k.Value
	}
	for _, p := range b.Parts {
		if p.Donated {
			sum += p.Cost()
		}
	}
	for _, o := range b.Outwork {
		sum += o.Donated
	}
	same(t, "all in kind", sum, 19_301*pound)
}

func TestPedlar_Budget(t *testing.T) {
	f := pedlar(t)
	same(t, "agreed on arrival", f.Build.Budget.Agreed, 51_500*pound)
	same(t, "contingency", f.Build.Budget.Contingency, 1_640*pound)
	next := on(t, f, after).Budget
	if next.Day != blast || next.Agreed < 52_570*pound {
		t.Errorf("after the blast %v is agreed on %v, want a change signed the same day that covers the plan", next.Agreed, next.Day)
	}
}
