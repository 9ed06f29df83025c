package plan

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/unit"
)

// balance fails unless every sum of an account is the sum of its parts.
func balance(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, b *build.Build, m Money) {
	t.Helper()
	same := func(of string, got, want unit.Money) {
		if got != want {
			t.Errorf("%s: %s = %v, want %v", what, of, b.Currency.Format(got), b.Currency.Format(want))
		}
	}
	price := b.Sale.Expected
	if b.Sale.Sold > 0 {
		price = b.Sale.Sold
	}
	sale := price - price.Percent(b.Sale.FeePercent)
	var cash, spent, gifts, kind, out, in, tin unit.Money
	for _, l := range m.Lines {
		cash, spent = cash+l.Amount, spent+l.Spent
	}
	for _, l := range m.Gifts {
		gifts += l.Amount
	}
	for _, l := range m.InKinds {
		kind += l.Amount
	}
	for i, w := range m.Weeks {
		out, in = out+w.Out, in+w.In
		tin += w.In - w.Out
		same("tin in the week of "+w.Monday.Short(), w.Tin, tin)
		if w.Monday != m.Weeks[0].Monday+unit.Date(7*i) || w.Monday.Monday() != w.Monday {
			t.Errorf("%s: week %d begins on %s", what, i+1, w.Monday.Long())
		}
	}
	same("cash", m.Cash, cash)
	same("spent", m.Spent, spent)
	same("income", m.Income, gifts)
	same("gifts in kind", m.InKind, kind)
	same("over", m.Over, m.Cash-b.Budget.Agreed)
	same("money out over the weeks", out, m.Cash)
	same("money in over the weeks", in, m.Income+sale)
	same("net", m.Net.Expected, m.Income+sale-m.Cash)
	same("net as the tin at the end", m.Net.Expected, tin)
}

func TestMoney_BalancesOnEveryDay(t *testing.T) {
	for _, s := range stories(t) {
		balance(t, s.name, &s.b, made(t, &s.b, s.now).Money)
	}
}

// TestMoney_BalancesWhateverHappens plays random facts onto the small build.
func TestMoney_BalancesWhateverHappens(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := small()
		amount := func(name string) unit.Money { return unit.Money(rapid.Int64Range(0, 90_000).Draw(r, name)) }
		day := func(name string) unit.Date {
			return monday + unit.Date(rapid.IntRange(-20, 60).Draw(r, name))
		}
		b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 3, Price: amount("price"), Task: "T2", State: build.Wanted, Donated: rapid.Bool().Draw(r, "donated")}}
		b.Tasks = append(b.Tasks, build.Task{ID: "O1", Stage: "away", Outwork: "O1", Wait: 3})
		b.Outwork = []build.Outwork{{ID: "O1", What: "plating", Task: "O1", Cost: amount("load"), Donated: amount("given")}}
		b.Costs = []build.CostLine{{ID: "C1", Name: "paint", Amount: amount("paint"), Day: day("paint day"), Weeks: rapid.IntRange(0, 9).Draw(r, "weeks")}, {ID: "C2", Name: "paint", Amount: amount("more"), Task: "T2"}}
		b.Gifts = []build.Gift{{ID: "A", From: "x", Amount: amount("gift"), Day: day("gift day")}}
		b.Sublets = []build.Sublet{{Task: "T2", What: "wheels", Legs: []build.Leg{{Trade: "WA", Hours: h}}, Price: amount("sublet"), Days: 2}}
		b.People[0].Given, b.People[1].GivenAll = unit.Effort(rapid.IntRange(0, 2000).Draw(r, "given")), rapid.Bool().Draw(r, "all given")
		for i, what := range []string{"parts", "outwork", "line", "other"} {
			for k := range rapid.IntRange(0, 2).Draw(r, "payments") {
				ref := []string{"Q1", "O1", "C1", ""}[i]
				b.Spent = append(b.Spent, build.Payment{ID: fmt.Sprint(what, k), For: what, Ref: ref, What: "x", Day: day("paid"), Amount: amount("paid") - 20_000})
			}
		}
		for i := range rapid.IntRange(0, 3).Draw(r, "hours") {
			who := rapid.SampledFrom([]build.PersonID{"mo", "wyn", "lee"}).Draw(r, "who")
			b.Hours = append(b.Hours, build.Hours{ID: fmt.Sprint(i), Person: who, Task: "T1", Start: day("worked").At(9, 0), Worked: unit.Effort(rapid.IntRange(1, 700).Draw(r, "worked"))})
		}
		if rapid.Bool().Draw(r, "overtime") {
			b.Overtime = []build.Overtime{{Person: "mo", Day: monday + 40, Hours: 7 * h}}
		}
		if rapid.Bool().Draw(r, "metal finished") {
			b.Tasks[0].State, b.Tasks[0].Began, b.Tasks[0].Ended = build.Finished, monday-5, monday-3
		}
		if rapid.Bool().Draw(r, "sold") {
			b.Sale.Sold = 1 + amount("sold")
		}
		balance(r, "drawn", b, made(t, b, monday.At(8, 0)).Money)
	})
}

// lines writes the lines of an account.
func lines(b *build.Build, list []Line) string {
	text := ""
	for _, l := range list {
		text += fmt.Sprintf("%s %s", l.Name, b.Currency.Format(l.Amount))
		if l.Spent != 0 {
			text += " (" + b.Currency.Format(l.Spent) + " spent)"
		}
		text += "; "
	}
	return text
}

// TestMoney_Lines: Mo costs £30 an hour and works 16 h, Wyn £20 and 8 h.
func TestMoney_Lines(t *testing.T) {
	pay := func(f, ref string, m unit.Money) func(*build.Build) {
		return func(b *build.Build) {
			b.Spent = append(b.Spent, build.Payment{ID: f + ref, For: f, Ref: ref, What: "x", Day: monday - 1, Amount: m})
		}
	}
	stores := func(b *build.Build) {
		b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 2, Price: 7_50, Task: "T2", State: build.Wanted}, {ID: "Q2", Name: "lamp", Quantity: 1, Price: 90_00, Task: "T2", Donated: true, State: build.Wanted}}
		b.Outwork = []build.Outwork{{ID: "O1", What: "plating", Cost: 60_00, Donated: 25_00}}
		b.Costs = []build.CostLine{{ID: "C1", Name: "paint", Amount: 80_00}}
	}
	const hours, bought = "paid hours £640; ", "parts bought £15; "
	tests := []struct {
		what string
		do   []func(*build.Build)
		want string
	}{
		{"hours alone", nil, hours + "parts bought £0; outwork £0; "},
		{"stores", []func(*build.Build){stores}, hours + bought + "outwork £60; paint £80; "},
		{"hours given", []func(*build.Build){func(b *build.Build) { b.People[0].Given = 6 * h }}, "paid hours £460; parts bought £0; outwork £0; "},
		{"more hours given than needed", []func(*build.Build){func(b *build.Build) { b.People[0].Given = 60 * h }}, "paid hours £160; parts bought £0; outwork £0; "},
		{"all hours given", []func(*build.Build){func(b *build.Build) { b.People[1].GivenAll = true }}, "paid hours £480; parts bought £0; outwork £0; "},
		{"hours booked, of which some are given", []func(*build.Build){func(b *build.Build) {
			b.People[0].Given = 2 * h
			b.Hours = []build.Hours{{ID: "1", Person: "mo", Task: "T1", Start: monday.At(-20, 0), Worked: 5 * h}}
		}}, "paid hours £580 (£90 spent); parts bought £0; outwork £0; "},
		{"hours of a helper cost nothing", []func(*build.Build){func(b *build.Build) {
			b.Hours = []build.Hours{{ID: "1", Person: "lee", Task: "T1", Start: monday.At(-20, 0), Worked: 5 * h}}
		}}, hours + "parts bought £0; outwork £0; "},
		{"overtime of 4 h at half as much again", []func(*build.Build){func(b *build.Build) { b.Overtime = []build.Overtime{{Person: "mo", Day: monday, Hours: 4 * h}} }}, "paid hours £700; parts bought £0; outwork £0; "},
		{"a part paid is no longer quoted", []func(*build.Build){stores, pay("parts", "Q1", 17_00)}, hours + "parts bought £17 (£17 spent); outwork £60; paint £80; "},
		{"carriage of a part that is given", []func(*build.Build){stores, pay("parts", "Q2", 4_00)}, hours + "parts bought £19 (£4 spent); outwork £60; paint £80; "},
		{"a load paid", []func(*build.Build){stores, pay("outwork", "O1", 55_00)}, hours + bought + "outwork £55 (£55 spent); paint £80; "},
		{"a sublet", []func(*build.Build){stores, func(b *build.Build) { b.Sublets = []build.Sublet{{Task: "T2", What: "wheels", Price: 40_00}} }}, hours + bought + "outwork £100; paint £80; "},
		{"a line partly paid", []func(*build.Build){stores, pay("line", "C1", 30_00)}, hours + bought + "outwork £60; paint £80 (£30 spent); "},
		{"a line overpaid", []func(*build.Build){stores, pay("line", "C1", 99_00)}, hours + bought + "outwork £60; paint £99 (£99 spent); "},
		{"what no line foresaw", []func(*build.Build){stores, pay("other", "", 3_00)}, hours + bought + "outwork £60; paint £80; other payments £3 (£3 spent); "},
	}
	for _, tt := range tests {
		b := small()
		for _, do := range tt.do {
			do(b)
		}
		if got := lines(b, made(t, b, monday.At(8, 0)).Money.Lines); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
	}
}

func TestMoney_GiftsInKindStandApart(t *testing.T) {
	b := small()
	before := made(t, b, monday.At(8, 0)).Money
	b.People[1].Given = 3 * h
	b.Parts = []build.Part{{ID: "Q2", Name: "lamp", Quantity: 2, Price: 45_00, Task: "T2", Donated: true, State: build.Wanted}}
	b.Outwork = []build.Outwork{{ID: "O1", What: "pressing", Donated: 25_00}}
	b.Kind = []build.GivenKind{{ID: "K", What: "the wreck", Value: 400_00, Basis: "as sold at auction"}}
	m := made(t, b, monday.At(8, 0)).Money
	if got, want := lines(b, m.InKinds), "given hours, Wyn £60; lamp £90; part of pressing £25; the wreck £400; "; got != want {
		t.Errorf("in kind: %s, want %s", got, want)
	}
	if m.InKind != 575_00 {
		t.Errorf("in kind = %v, want £575", b.Currency.Format(m.InKind))
	}
	// Three hours of Wyn's are no longer paid; nothing else reaches the net.
	if got, want := m.Net.Expected, before.Net.Expected+60_00; got != want {
		t.Errorf("net = %s, want %s", b.Currency.Format(got), b.Currency.Format(want))
	}
}

// TestMoney_Net: cash is £640, the fee 4 %, gifts £300.
func TestMoney_Net(t *testing.T) {
	tests := []struct {
		what string
		do   func(*build.Build)
		want Net
		with string
	}{
		{"expected", func(*build.Build) {}, Net{140_00, 332_00, 524_00, 47}, "£300 + £700 − £28 − £640 = £332"},
		{"sold", func(b *build.Build) { b.Sale.Sold = 1_000_00 }, Net{620_00, 620_00, 620_00, 62}, "£300 + £1,000 − £40 − £640 = £620"},
		{"sold for too little", func(b *build.Build) { b.Sale.Sold = 200_00 }, Net{-148_00, -148_00, -148_00, -74}, "£300 + £200 − £8 − £640 = −£148"},
		{"no sale", func(b *build.Build) { b.Sale = build.Sale{} }, Net{-340_00, -340_00, -340_00, 0}, "£300 + £0 − £0 − £640 = −£340"},
	}
	for _, tt := range tests {
		b := small()
		b.Gifts = []build.Gift{{ID: "A", From: "x", Amount: 300_00, Day: monday}}
		tt.do(b)
		m := made(t, b, monday.At(8, 0)).Money
		if m.Net != tt.want || m.NetFig.With != tt.with || m.NetFig.Text != b.Currency.Format(tt.want.Expected) {
			t.Errorf("%s: %+v, %q, want %+v, %q", tt.what, m.Net, m.NetFig.With, tt.want, tt.with)
		}
	}
}

// TestMoney_WhenItMoves: what is paid on the day it was paid, hours in the
// weeks in which they are worked, the rest when it falls due.
func TestMoney_WhenItMoves(t *testing.T) {
	b := small()
	b.Task("T1").Legs[0].Hours = 60 * h // 40 h this week, 20 h the next
	b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Price: 15_00, Task: "T2", State: build.Ordered, Ordered: monday - 4}}
	b.Costs = []build.CostLine{{ID: "C1", Name: "rent", Amount: 90_00, Day: monday, Weeks: 3}}
	b.Gifts = []build.Gift{{ID: "A", From: "x", Amount: 300_00, Day: monday - 7}}
	b.Sale.Closes = monday + 14
	want := []Week{
		{monday - 7, 15_00, 300_00, 285_00},
		{monday, 40*30_00 + 30_00, 0, -945_00},
		{monday + 7, 20*30_00 + 8*20_00 + 30_00, 0, -1_735_00},
		{monday + 14, 30_00, 672_00, -1_093_00},
	}
	got := made(t, b, monday.At(8, 0)).Money.Weeks
	if len(got) != len(want) {
		t.Fatalf("%d weeks, want %d: %+v", len(got), len(want), got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("week %d = %+v, want %+v", i+1, got[i], want[i])
		}
	}
}
