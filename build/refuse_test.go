package build_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/unit"
)

// no is a change that must be refused: the rule and a word of its place.
type no struct {
	change build.Change
	rule   int
	where  string
}

// with returns a copy of v after f.
func with[T any](v T, f func(*T)) T {
	f(&v)
	return v
}

func finding(f func(*build.Finding)) build.Change {
	return &build.RecordFinding{Finding: with(aFinding(), f)}
}

func part(f func(*build.Part)) build.Change {
	return &build.AddPart{Part: with(build.Part{ID: "Q9", Name: "bolt", Quantity: 1, Task: "T2"}, f)}
}

func task(f func(*build.Task)) build.Change {
	return &build.AddTask{Task: with(build.Task{ID: "T3", Name: "gild", Stage: "book"}, f)}
}

func person(f func(*build.Person)) build.Change {
	return &build.AddPerson{Person: with(build.Person{ID: "PT", Name: "Pat", Starts: "08:00", Week: week(6)}, f)}
}

func payment(f func(*build.Payment)) build.Change {
	return &build.Pay{Payment: with(build.Payment{ID: "B2", Day: monday, For: "other", What: "stamps", Amount: 3_00}, f)}
}

func hours(f func(*build.Hours)) build.Change {
	return &build.RecordHours{Hours: []build.Hours{with(build.Hours{ID: "W2", Person: "MW", Task: "T1", Start: monday.At(8, 0), Worked: h}, f)}}
}

func noesOnMetal() []no {
	leg := func(trade build.TradeID) []build.Leg { return []build.Leg{{Trade: trade, Hours: h}} }
	hash := build.PhotoHash(strings.Repeat("ab", 32))
	return []no{
		{finding(func(f *build.Finding) { f.ID = "" }), 1, "finding"},
		{finding(func(f *build.Finding) { f.ID = "F01" }), 1, "finding F01"},
		{finding(func(f *build.Finding) { f.Panels = nil }), 2, "finding F02, panels"},
		{finding(func(f *build.Finding) { f.Panels = []build.PanelID{"P1", "P9"} }), 2, "panel P9"},
		{finding(func(f *build.Finding) { f.Task = "T9" }), 2, "task T9"},
		{finding(func(f *build.Finding) { f.Work = leg("ZZ") }), 2, "work, line 1: there is no trade ZZ"},
		{finding(func(f *build.Finding) { f.Work = leg("XX") }), 7, "nobody does the trade XX"},
		{finding(func(f *build.Finding) { f.Work[0].Hours = -h }), 3, "work, line 1"},
		{finding(func(f *build.Finding) { f.Size.Width = 0 }), 3, "width_mm"},
		{finding(func(f *build.Finding) { f.Size.Width = 21_000 * mm }), 3, "width_mm"},
		{finding(func(f *build.Finding) { f.Size.Height = -1 }), 3, "height_mm"},
		{finding(func(f *build.Finding) { f.Size.Round, f.Size.Height = true, 31*mm }), 3, "height_mm"},
		{finding(func(f *build.Finding) { f.Size.Count = -1 }), 3, "count"},
		{finding(func(f *build.Finding) { f.X = -21_000 * mm }), 3, "x_mm"},
		{finding(func(f *build.Finding) { f.Z = 21_000 * mm }), 3, "z_mm"},
		{finding(func(f *build.Finding) { f.Remedy = "pray" }), 4, "remedy"},
		{finding(func(f *build.Finding) { f.State = "gone" }), 4, "state"},
		{finding(func(f *build.Finding) { f.What = " \t" }), 10, "what"},
		{finding(func(f *build.Finding) { f.What = strings.Repeat("x", 4001) }), 3, "what"},
		{&build.RecordFinding{Finding: aFinding(), Decision: "pray"}, 4, "panel_decision"},
		{&build.RecordFinding{Finding: aFinding(), Parts: []build.Part{{ID: "Q1", Name: "x", Quantity: 1}}}, 1, "finding F02, part Q1"},
		{&build.RecordFinding{Finding: aFinding(), Parts: []build.Part{{ID: "Q8", Name: "x", Quantity: 1}, {ID: "Q8", Name: "x", Quantity: 1}}}, 1, "part Q8"},
		{&build.DecideRemedy{Finding: "F09", Remedy: build.Repair}, 2, "finding F09"},
		{&build.DecideRemedy{Finding: "F01"}, 4, "remedy"},
		{&build.DecideRemedy{Finding: "F01", Remedy: "pray"}, 4, "remedy"},
		{&build.DecideRemedy{Finding: "F01", Remedy: build.Repair, Decision: "pray"}, 4, "panel_decision"},
		{&build.DecideRemedy{Finding: "F01", Remedy: build.Repair, Work: leg("XX")}, 7, "work"},
		{&build.DecideRemedy{Finding: "F01", Remedy: build.Repair, Parts: []build.Part{{ID: "Q8", Name: "x"}}}, 3, "quantity"},
		{&build.MoveFinding{Finding: "F09", State: build.Closed}, 2, "finding F09"},
		{&build.MoveFinding{Finding: "F01", State: "gone"}, 4, "finding F01, state"},
		{&build.WithdrawFinding{Finding: "F09", Why: "x"}, 2, "finding F09"},
		{&build.WithdrawFinding{Finding: "F01"}, 10, "why"},
		{&build.AddPanel{Panel: build.Panel{ID: "P1", Name: "x", Side: "C", Decision: build.Keep}}, 1, "panel P1"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "U", Decision: build.Keep}}, 4, "side"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "C", Decision: build.Fitted}}, 4, "decision"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "C", Decision: build.Keep, Gauge: -1}}, 3, "gauge_mm"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "C", Decision: build.Keep, Task: "T9"}}, 2, "metal_task"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "C", Decision: build.Keep, Areas: []build.ZoneArea{{Zone: "moon"}}}}, 2, "paint zone moon"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "x", Side: "C", Decision: build.Keep, Areas: []build.ZoneArea{{Zone: "outside", Area: -1}}}}, 3, "areas"},
		{&build.DecidePanel{Panel: "P9", Decision: build.Keep}, 2, "panel P9"},
		{&build.DecidePanel{Panel: "P1", Decision: build.Fitted}, 4, "panel P1, decision"},
		{&build.MovePanels{Panels: []build.PanelID{"P1", "P9"}, State: build.Fitted}, 2, "panel P9"},
		{&build.MovePanels{Panels: []build.PanelID{"P1"}, State: "gone"}, 4, "state"},
		{&build.AddPhoto{Photo: build.Photo{Hash: hash[1:], Of: "x"}}, 1, "photo, hash"},
		{&build.AddPhoto{Photo: build.Photo{Hash: "g" + hash[1:], Of: "x"}}, 1, "photo, hash"},
		{&build.AddPhoto{Photo: build.Photo{Hash: hash}}, 10, "photo, of"},
	}
}

func noesOnTasks() []no {
	move := func(m build.Move) build.Change { return &build.MoveWork{Moves: []build.Move{m}} }
	sublet := func(f func(*build.Sublet)) build.Change {
		return &build.SubletWork{Sublet: with(build.Sublet{Task: "T2", What: "wheels"}, f)}
	}
	return []no{
		{&build.BeginTask{Task: "T9", Day: monday}, 2, "task T9"},
		{&build.BeginTask{Task: "T1"}, 5, "task T1, day"},
		{&build.EndTask{Task: "T9", Day: monday}, 2, "task T9"},
		{&build.EndTask{Task: "T1"}, 5, "task T1, day"},
		{&build.SayLeft{Task: "T9"}, 2, "task T9"},
		{&build.SayLeft{Task: "T1", Left: []build.Leg{{Trade: "ZZ"}}}, 2, "trade ZZ"},
		{&build.SayLeft{Task: "T1", Left: []build.Leg{{Trade: "MW", Hours: 10_001 * h}}}, 3, "left, line 1"},
		{&build.HoldTask{Task: "T9"}, 2, "task T9"},
		{task(func(t *build.Task) { t.ID = "T1" }), 1, "task T1"},
		{task(func(t *build.Task) { t.Name = "" }), 10, "name"},
		{task(func(t *build.Task) { t.Stage = "polish" }), 4, "stage"},
		{task(func(t *build.Task) { t.State = "stuck" }), 4, "state"},
		{task(func(t *build.Task) { t.After = []build.TaskID{"T9"} }), 2, "after"},
		{task(func(t *build.Task) { t.After = []build.TaskID{"T3"} }), 6, "T3 after T3"},
		{task(func(t *build.Task) { t.Guess = "T9" }), 2, "guess_until"},
		{task(func(t *build.Task) { t.Bay = "moon" }), 2, "bay"},
		{task(func(t *build.Task) { t.Outwork = "O9" }), 2, "outwork"},
		{task(func(t *build.Task) { t.Wait = -1 }), 3, "wait_days"},
		{task(func(t *build.Task) { t.Began, t.Ended = monday+1, monday }), 5, "task T3"},
		{task(func(t *build.Task) { t.Legs = []build.Leg{{Trade: "XX", Hours: h}} }), 7, "legs"},
		{move(build.Move{Task: "T9", From: "MW", To: "WA", Hours: h}), 2, "move 1: there is no task T9"},
		{move(build.Move{Task: "T1", From: "ZZ", To: "WA", Hours: h}), 2, "trade ZZ"},
		{move(build.Move{Task: "T1", From: "MW", To: "ZZ", Hours: h}), 2, "trade ZZ"},
		{move(build.Move{Task: "T1", From: "MW", To: "XX", Hours: h}), 7, "trade XX"},
		{move(build.Move{Task: "T1", From: "MW", To: "WA"}), 3, "hours_h"},
		{&build.ArrangeTasks{}, 10, "tasks"},
		{&build.ArrangeTasks{Tasks: []build.TaskID{"T1", "T9"}}, 2, "tasks, line 2"},
		{&build.ArrangeTasks{Tasks: []build.TaskID{"T2", "T1", "T2"}}, 1, "tasks, line 3"},
		{sublet(func(s *build.Sublet) { s.Task = "T9" }), 2, "sublet of task T9"},
		{sublet(func(s *build.Sublet) { s.What = "" }), 10, "what"},
		{sublet(func(s *build.Sublet) { s.Price = -1 }), 3, "price"},
		{sublet(func(s *build.Sublet) { s.Days = 1001 }), 3, "days"},
	}
}

func noesOfPeople() []no {
	absence := func(p build.PersonID, first, last unit.Date) build.Change {
		return &build.AddAbsence{Absence: build.Absence{Person: p, First: monday + first, Last: monday + last}}
	}
	return []no{
		{person(func(p *build.Person) { p.ID = "MW" }), 1, "person MW"},
		{person(func(p *build.Person) { p.Name = "" }), 10, "name"},
		{person(func(p *build.Person) { p.Trades = []build.TradeID{"ZZ"} }), 2, "trades"},
		{person(func(p *build.Person) { p.Week = week(0) }), 7, "week_h"},
		{person(func(p *build.Person) { p.Week[6] = -h }), 7, "day 7"},
		{person(func(p *build.Person) { p.Week[6] = 25 * h }), 7, "day 7"},
		{person(func(p *build.Person) { p.Starts = "08:5x" }), 5, "starts"},
		{person(func(p *build.Person) { p.Rate = -1 }), 3, "rate"},
		{person(func(p *build.Person) { p.Given = -1 }), 3, "given_h"},
		{person(func(p *build.Person) { p.Saturday = 25 * h }), 3, "saturday_h"},
		{person(func(p *build.Person) { p.Premium = -1 }), 3, "premium_percent"},
		{absence("PT", 0, 1), 2, "person PT"},
		{absence("MW", 1, 0), 5, "absence of MW"},
		{absence("MW", 0, 1001), 3, "absence of MW"},
		{&build.AddClosure{}, 5, "closure"},
		{&build.AddOvertime{Person: "PT", Days: days(12), Hours: h}, 2, "person PT"},
		{&build.AddOvertime{Person: "MW", Days: days(5), Hours: h}, 5, "overtime of MW, 7 Mar 2026"},
		{&build.AddOvertime{Person: "MW", Days: days(12, 12), Hours: h}, 5, "14 Mar 2026"},
		{&build.AddOvertime{Person: "MW", Days: days(12), Hours: 17 * h}, 3, "hours_h"},
		{&build.AddOvertime{Person: "MW", Days: days(12)}, 3, "hours_h"},
		{&build.ClockOn{Person: "WA", Task: "T2", At: monday.At(9, 0)}, 1, "hours"},
		{&build.ClockOn{ID: "W1", Person: "WA", Task: "T2", At: monday.At(9, 0)}, 1, "hours W1"},
		{&build.ClockOn{ID: "W2", Person: "PT", Task: "T2", At: monday.At(9, 0)}, 2, "person PT"},
		{&build.ClockOn{ID: "W2", Person: "WA", Task: "T9", At: monday.At(9, 0)}, 2, "task T9"},
		{&build.ClockOn{ID: "W2", Person: "WA", Task: "T1", Finding: "F09", At: monday.At(9, 0)}, 2, "finding F09"},
		{&build.ClockOn{ID: "W2", Person: "WA", Task: "T2"}, 5, "start"},
		{&build.ClockOff{Person: "WA", At: monday.At(9, 0)}, 8, "WA is not clocked on"},
		{hours(func(x *build.Hours) { x.ID = "W1" }), 1, "hours W1"},
		{hours(func(x *build.Hours) { x.Worked = 0 }), 3, "worked_h"},
		{hours(func(x *build.Hours) { x.Worked = 25 * h }), 3, "worked_h"},
		{hours(func(x *build.Hours) { x.Stop = x.Start - 1 }), 5, "stop"},
		{&build.RaiseSnag{Snag: build.Snag{ID: "S1", What: "x"}}, 1, "snag S1"},
		{&build.RaiseSnag{Snag: build.Snag{ID: "S2"}}, 10, "what"},
		{&build.RaiseSnag{Snag: build.Snag{ID: "S2", What: "x", Owner: "PT"}}, 2, "owner"},
		{&build.CloseSnag{Snag: "S9", At: monday.At(9, 0)}, 2, "snag S9"},
		{&build.CloseSnag{Snag: "S1", At: monday.At(8, 59)}, 5, "snag S1, at"},
		{&build.CloseSnag{Snag: "S1"}, 5, "snag S1, at"},
		{&build.WriteNote{}, 10, "note, text"},
		{&build.SetPromise{Ready: monday - 1, Day: monday, Why: "x"}, 5, "promise"},
		{&build.SetPromise{Ready: monday + 2, Day: monday + 1, Why: "x"}, 5, "promise"},
		{&build.SetPromise{Ready: monday, Day: monday + 4000, Why: "x"}, 3, "promise"},
		{&build.SetPromise{Ready: monday, Day: monday}, 10, "promise, why"},
	}
}

func noesInStores() []no {
	return []no{
		{part(func(p *build.Part) { p.ID = "Q1" }), 1, "part Q1"},
		{part(func(p *build.Part) { p.Task = "" }), 2, "needed_for"},
		{part(func(p *build.Part) { p.Task = "T9" }), 2, "needed_for"},
		{part(func(p *build.Part) { p.State = "lost" }), 4, "state"},
		{part(func(p *build.Part) { p.Name = "" }), 10, "name"},
		{part(func(p *build.Part) { p.Quantity = 0 }), 3, "quantity"},
		{part(func(p *build.Part) { p.Price = -1 }), 3, "unit_price"},
		{part(func(p *build.Part) { p.Lead = 1001 }), 3, "lead_days"},
		{&build.OrderPart{Parts: []build.PartID{"Q1", "Q9"}, Day: monday}, 2, "part Q9"},
		{&build.OrderPart{Parts: []build.PartID{"Q1", "Q2"}, Day: monday}, 9, "part Q2"},
		{&build.OrderPart{Parts: []build.PartID{"Q1"}}, 5, "part Q1"},
		{&build.OrderPart{Parts: []build.PartID{"Q1"}, Day: monday, Promised: monday - 1}, 5, "part Q1"},
		{&build.PromisePart{Part: "Q9", Promised: monday}, 2, "part Q9"},
		{&build.PromisePart{Part: "Q1", Promised: monday}, 9, "part Q1"},
		{&build.PromisePart{Part: "Q2", Promised: monday - 1}, 5, "promised"},
		{&build.PromisePart{Part: "Q2"}, 5, "promised"},
		{&build.ReceivePart{Parts: []build.PartID{"Q2", "Q9"}, Day: monday}, 2, "part Q9"},
		{&build.ReceivePart{Parts: []build.PartID{"Q2"}, Day: monday - 1}, 5, "part Q2, day"},
		{&build.ReceivePart{Parts: []build.PartID{"Q1"}}, 5, "part Q1, day"},
		{&build.CancelPart{Part: "Q9", Why: "x"}, 2, "part Q9"},
		{&build.WantPart{Part: "Q9", Quantity: 1}, 2, "part Q9"},
		{&build.WantPart{Part: "Q2", Quantity: 1}, 9, "order more as another part"},
		{&build.WantPart{Part: "Q3"}, 3, "part Q3, quantity"},
		{&build.CancelPart{Part: "Q2", Why: "x"}, 9, "send it back instead"},
		{&build.JudgeEvent{}, 1, "event"},
		{&build.JudgeEvent{Event: build.Event{ID: "E2", What: "x", Task: "ZZ"}}, 2, "task ZZ"},
		{&build.JudgeEvent{Event: build.Event{ID: "E2", What: "x", Task: "T1", Chance: 1.1}}, 3, "chance"},
		{&build.JudgeEvent{Event: build.Event{ID: "E2", What: "x", Task: "T1", Times: 6}}, 3, "times"},
		{&build.JudgeEvent{Event: build.Event{ID: "E2", Task: "T1"}}, 10, "what"},
		{&build.JudgeEvent{Event: build.Event{ID: "E2", What: "x", Task: "T1", State: build.Happened}}, 9, "state"},
		{&build.SettleEvent{Event: "E9"}, 2, "event E9"},
		{&build.JudgeRange{Of: "weather"}, 4, "of"},
		{&build.JudgeRange{Of: build.OfLateParts, Range: build.Span{Low: 2, High: 1}}, 3, "late_parts"},
		{&build.JudgeRange{Of: build.OfPeople, Range: build.Span{High: 1}}, 3, "people"},
		{&build.CancelPart{Part: "Q3"}, 10, "why"},
		{&build.SendAway{Load: "O9", Day: monday, Pieces: 1}, 2, "load O9"},
		{&build.SendAway{Load: "O1", Pieces: 1}, 5, "load O1, day"},
		{&build.SendAway{Load: "O1", Day: monday}, 3, "pieces"},
		{&build.ChaseAway{Load: "O9", Likely: 1}, 2, "load O9"},
		{&build.ChaseAway{Load: "O1", Likely: 1}, 9, "load O1"},
		{&build.ReceiveAway{Load: "O9"}, 2, "load O9"},
		{&build.ReceiveAway{Load: "O1", Day: monday}, 9, "load O1"},
		{&build.MoveBags{Bags: []build.BagID{"G1-1", "G9"}, State: build.AtBench}, 2, "bag G9"},
		{&build.MoveBags{Bags: []build.BagID{"G1-1"}, State: "lost"}, 4, "state"},
	}
}

func noesInTheTin() []no {
	sale := func(f func(*build.Sale)) build.Change {
		return &build.SetSale{Sale: with(build.Sale{Low: 1, Expected: 2, High: 3}, f)}
	}
	return []no{
		{&build.RecordGift{Gift: build.Gift{From: "x", Amount: 1}}, 1, "gift"},
		{&build.RecordGift{Gift: build.Gift{ID: "A2", Amount: 1}}, 10, "gift A2, from"},
		{&build.RecordGift{Gift: build.Gift{ID: "A2", From: "x"}}, 3, "gift A2, amount"},
		{&build.RecordGiftInKind{Gift: build.GivenKind{What: "x", Basis: "x"}}, 1, "gift in kind"},
		{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K2", Basis: "x"}}, 10, "what"},
		{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K2", What: "x"}}, 10, "basis"},
		{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K2", What: "x", Basis: "x", Value: -1}}, 3, "value"},
		{payment(func(p *build.Payment) { p.ID = "B1" }), 1, "payment B1"},
		{payment(func(p *build.Payment) { p.Day = 0 }), 5, "day"},
		{payment(func(p *build.Payment) { p.For = "fun" }), 4, "for"},
		{payment(func(p *build.Payment) { p.For, p.Ref = "parts", "Q9" }), 2, "part Q9"},
		{payment(func(p *build.Payment) { p.For, p.Ref = "outwork", "O9" }), 2, "load O9"},
		{payment(func(p *build.Payment) { p.For, p.Ref = "line", "C9" }), 2, "cost line C9"},
		{payment(func(p *build.Payment) { p.What = "" }), 10, "what"},
		{payment(func(p *build.Payment) { p.Amount = -100_000_001_00 }), 3, "amount"},
		{&build.AgreeBudget{Budget: build.Budget{Agreed: -1}}, 3, "agreed"},
		{&build.AgreeBudget{Budget: build.Budget{Agreed: 1, Contingency: 2}}, 3, "contingency"},
		{sale(func(s *build.Sale) { s.Low = 3 }), 3, "sale"},
		{sale(func(s *build.Sale) { s.High = 1 }), 3, "sale"},
		{sale(func(s *build.Sale) { s.FeePercent = 10_001 }), 3, "fee_hundredths_percent"},
		{sale(func(s *build.Sale) { s.Opens, s.Closes = monday+1, monday }), 5, "closes"},
		{sale(func(s *build.Sale) { s.Sold = -1 }), 3, "sold"},
		{&build.Start{Build: cart()}, 9, "open already"},
	}
}

func TestChange_RefusedByRuleAndPlace(t *testing.T) {
	for _, n := range slices.Concat(noesOnMetal(), noesOnTasks(), noesOfPeople(), noesInStores(), noesInTheTin(), noesOnPaint(), noesOnColour(), noesOnTrim(), noesOnBlanks(), noesOnFolds(), noesOnPatterns(), noesOnSeams(), noesOnSundries(), noesOnLoom()) {
		b := cart()
		before := copyOf(t, b)
		wantRule(t, n.change.Kind(), n.change.Apply(&b), n.rule, n.where)
		if d := cmp.Diff(before, copyOf(t, b)); d != "" {
			t.Errorf("a refused %s altered the build (-before +after):\n%s", n.change.Kind(), d)
		}
	}
}

// TestChange_RefusedOutOfTurn: what is right once is wrong the second time.
func TestChange_RefusedOutOfTurn(t *testing.T) {
	sent := &build.SendAway{Load: "O1", Day: monday + 1, Pieces: 3}
	back := func(r build.ReceiveAway) build.Change { r.Load = "O1"; return &r }
	on := &build.ClockOn{ID: "W2", Person: "WA", Task: "T2", At: monday.At(9, 0)}
	for _, tt := range []struct {
		done []build.Change
		no
	}{
		{[]build.Change{&build.BeginTask{Task: "T1", Day: monday}}, no{&build.BeginTask{Task: "T1", Day: monday}, 9, "task T1"}},
		{[]build.Change{&build.BeginTask{Task: "T1", Day: monday}}, no{&build.EndTask{Task: "T1", Day: monday - 1}, 5, "task T1, day"}},
		{[]build.Change{&build.EndTask{Task: "T1", Day: monday}}, no{&build.EndTask{Task: "T1", Day: monday}, 9, "task T1"}},
		{[]build.Change{sent}, no{sent, 9, "load O1"}},
		{[]build.Change{&build.SettleEvent{Event: "E1"}}, no{&build.SettleEvent{Event: "E1"}, 9, "event E1"}},
		{[]build.Change{&build.SettleEvent{Event: "E1"}}, no{&build.JudgeEvent{Event: build.Event{ID: "E1"}}, 9, "event E1"}},
		{[]build.Change{sent}, no{&build.ChaseAway{Load: "O1"}, 3, "likely_days"}},
		{[]build.Change{sent}, no{back(build.ReceiveAway{Counted: 3}), 5, "load O1, day"}},
		{[]build.Change{sent}, no{back(build.ReceiveAway{Day: monday, Counted: 3}), 5, "load O1, day"}},
		{[]build.Change{sent}, no{back(build.ReceiveAway{Day: monday + 9, Counted: 4}), 11, "counted"}},
		{[]build.Change{sent}, no{back(build.ReceiveAway{Day: monday + 9, Counted: 2}), 10, "short"}},
		{[]build.Change{on}, no{&build.ClockOn{ID: "W3", Person: "WA", Task: "T1", At: monday.At(8, 59)}, 8, "WA is on T2 since 09:00"}},
		{[]build.Change{on}, no{&build.ClockOff{Person: "WA", At: monday.At(8, 59)}, 5, "clock-off, at"}},
		{[]build.Change{&build.CloseSnag{Snag: "S1", At: monday.At(9, 0)}}, no{&build.CloseSnag{Snag: "S1", At: monday.At(9, 0)}, 9, "snag S1"}},
		{[]build.Change{&build.ReceivePart{Parts: []build.PartID{"Q2"}, Day: monday}}, no{&build.ReceivePart{Parts: []build.PartID{"Q2"}, Day: monday}, 9, "part Q2"}},
		{[]build.Change{payment(func(p *build.Payment) { p.For, p.Ref = "parts", "Q3" })}, no{&build.CancelPart{Part: "Q3", Why: "x"}, 9, "money was paid"}},
		{[]build.Change{&build.SetThread{Thread: build.Thread{ID: "L1", Name: "bonded", Tex: 135, Bobbin: 40 * unit.Metre, Part: "Q3"}}}, no{&build.CancelPart{Part: "Q3", Why: "x"}, 2, "part Q3 is still named"}},
	} {
		b, err := build.ApplyAll(cart(), tt.done)
		if err != nil {
			t.Fatal(err)
		}
		before := copyOf(t, b)
		wantRule(t, tt.change.Kind()+" out of turn", tt.change.Apply(&b), tt.rule, tt.where)
		if d := cmp.Diff(before, copyOf(t, b)); d != "" {
			t.Errorf("a refused %s altered the build (-before +after):\n%s", tt.change.Kind(), d)
		}
	}
}
