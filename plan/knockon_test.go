package plan

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/unit"
)

// rows writes the rows of a knock-on, worse ones with a mark.
func rows(k KnockOn) []string {
	var list []string
	for _, r := range k.Rows {
		mark := "+"
		if r.Worse {
			mark = "−"
		}
		list = append(list, fmt.Sprintf("%s %s: %s: %s → %s (%s)", mark, r.Group, r.Name, r.Before, r.After, r.Change))
	}
	return list
}

func TestCompare_SamePlansGiveNoRows(t *testing.T) {
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		k := Compare(&s.b, p, made(t, &s.b, s.now))
		if len(k.Rows)+len(k.Order)+len(k.Decide)+len(k.Settled) != 0 || k.Before != k.After {
			t.Errorf("%s: the same plan twice differs: %v", s.name, rows(k))
		}
	}
}

// TestCompare_RowsOfEveryKind makes one change after another to a small build
// with a load and a part, and names a row that must be there.
func TestCompare_RowsOfEveryKind(t *testing.T) {
	shop := func() *build.Build {
		b := small()
		b.Tasks[0].Findings = true
		b.Panels = []build.Panel{{ID: "P1", Name: "side", Side: "L", Decision: build.Keep, State: build.Keep, Task: "T1"}}
		b.Tasks = append(b.Tasks, build.Task{ID: "O1", Name: "plating", Stage: "away", Outwork: "O1", Wait: 1, State: build.NotBegun})
		b.Task("T2").After = []build.TaskID{"T1", "O1"}
		b.Outwork = []build.Outwork{{ID: "O1", What: "bright work", Task: "O1", State: build.ToPack}}
		b.Costs = []build.CostLine{{ID: "C1", Name: "paint", Amount: 50_00}, {ID: "C2", Name: "paint", Amount: 70_00}}
		b.Budget.Agreed = 700_00
		return b
	}
	lace := &build.RecordFinding{Finding: build.Finding{ID: "F1", Panels: []build.PanelID{"P1"}, What: "lace", Size: build.Size{Width: 1000}, Remedy: build.Repair, Work: []build.Leg{{Trade: "MW", Hours: 24 * h}}},
		Parts: []build.Part{{ID: "Q1", Name: "patch", Quantity: 1, Price: 10_00, Lead: 3}}}
	pat := build.Person{ID: "pat", Name: "Pat", Trades: []build.TradeID{"MW"}, Starts: "08:00", Week: [7]unit.Effort{8 * h, 8 * h, 8 * h}, Rate: 10_00}
	tests := []struct {
		what    string
		changes []build.Change
		want    []string
	}{
		{"a finding", []build.Change{lace}, []string{
			"− date: half the builds are finished by: Wed 4 Mar 2026 → Thu 5 Mar 2026 (+1 day)",
			"− date: four in five by: Wed 4 Mar 2026 → Thu 5 Mar 2026 (+1 day)",
			"− date: nine in ten by: Wed 4 Mar 2026 → Thu 5 Mar 2026 (+1 day)",
			"− date: if nothing runs over: Wed 4 Mar 2026 → Thu 5 Mar 2026 (+1 day)",
			"− hours: findings in metal: 16 h → 24 h (+8 h)",
			"− hours: Mo: 16 h → 24 h (+8 h)",
			"− money: cash: £760 → £1,010 (+£250)",
			"− money: over the budget: £60 → £310 (+£250)",
			"− money: reaches the cause: −£88 → −£338 (−£250)",
			"− money: paid hours: £640 → £880 (+£240)",
			"− money: parts bought: £0 → £10 (+£10)",
			"+ outwork: float of O1 bright work: 1 days → 2 days (+1 day)",
		}},
		{"a promise that cannot be kept", []build.Change{&build.AddAbsence{Absence: build.Absence{Person: "mo", First: monday, Last: monday + 11}}}, []string{
			"− date: odds of Fri 13 Mar 2026: 100 % → 0 % (−100 points)"}},
		{"somebody joins and takes hours", []build.Change{&build.AddPerson{Person: pat}, &build.AddAbsence{Absence: build.Absence{Person: "mo", First: monday, Last: monday + 30}}}, []string{
			"− hours: Pat: 0 h → 16 h (+16 h)", "+ hours: Mo: 16 h → 0 h (−16 h)", "+ money: paid hours: £640 → £320 (−£320)"}},
		{"a gift in kind", []build.Change{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K", What: "x", Value: 5_00, Basis: "x"}}}, []string{
			"+ money: gifts in kind: £0 → £5 (+£5)"}},
		{"a payment no line foresaw", []build.Change{&build.Pay{Payment: build.Payment{ID: "B", Day: monday, For: "other", What: "x", Amount: 5_00}}}, []string{
			"− money: other payments: £0 → £5 (+£5)"}},
		{"one of two lines of one name", []build.Change{&build.Pay{Payment: build.Payment{ID: "B", Day: monday, For: "line", Ref: "C2", What: "x", Amount: 75_00}}}, []string{
			"− money: paint: £70 → £75 (+£5)"}},
	}
	for _, tt := range tests {
		b := shop()
		after, err := build.ApplyAll(*b, tt.changes)
		if err != nil {
			t.Fatal(err)
		}
		got := rows(Compare(b, made(t, b, monday.At(8, 0)), made(t, &after, monday.At(8, 0))))
		for _, want := range tt.want {
			if !slices.Contains(got, want) {
				t.Errorf("%s: no row %q in\n%s", tt.what, want, strings.Join(got, "\n"))
			}
		}
		if tt.what == "a finding" && len(got) != len(tt.want) {
			t.Errorf("%s: %d rows, want %d:\n%s", tt.what, len(got), len(tt.want), strings.Join(got, "\n"))
		}
	}
}

// TestCompare_LargestFirst: two days of the date outweigh ten pounds.
func TestCompare_LargestFirst(t *testing.T) {
	b := small()
	after := b.Clone()
	after.Tasks[0].Wait = 2
	after.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Price: 10_00, Task: "T2", State: build.In}}
	k := Compare(b, made(t, b, monday.At(8, 0)), made(t, &after, monday.At(8, 0)))
	for i := 1; i < len(k.Rows); i++ {
		if k.Rows[i].weight > k.Rows[i-1].weight {
			t.Errorf("row %d, %s, outweighs the one before it", i+1, k.Rows[i].Name)
		}
	}
	if first, last := k.Rows[0].Group, k.Rows[len(k.Rows)-1].Group; first != "date" || last != "money" {
		t.Errorf("rows run from %s to %s, want from date to money", first, last)
	}
}

func TestCompare_OrdersAndChecksThatAreNew(t *testing.T) {
	b := small()
	b.Tasks[0].Findings = true
	b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Lead: 2, Task: "T2", State: build.Wanted}}
	b.Findings = []build.Finding{{ID: "F1", Task: "T1", What: "lace"}}
	after := b.Clone()
	after.Parts = append(after.Parts, build.Part{ID: "Q2", Name: "patch", Quantity: 1, Lead: 2, Task: "T2", State: build.Wanted})
	after.Findings[0].Remedy = build.Keep
	after.Findings = append(after.Findings, build.Finding{ID: "F2", Task: "T1", What: "dent"})
	k := Compare(b, made(t, b, monday.At(8, 0)), made(t, &after, monday.At(8, 0)))
	if len(k.Order) != 1 || k.Order[0].Part != "Q2" {
		t.Errorf("to order = %+v, want the patch alone", k.Order)
	}
	if len(k.Decide) != 1 || k.Decide[0].ID != "undecided/F2" || len(k.Settled) != 1 || k.Settled[0].ID != "undecided/F1" {
		t.Errorf("to decide %+v, settled %+v, want F2 and F1", k.Decide, k.Settled)
	}
}
