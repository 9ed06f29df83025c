package build_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/unit"
)

// act is a change, what it says, and a fact it makes true.
type act struct {
	change build.Change
	says   string
	fact   func(b *build.Build) any
	want   any
}

// line writes values with a space between each two.
func line(values ...any) string { return strings.TrimSuffix(fmt.Sprintln(values...), "\n") }

func days(n ...unit.Date) []unit.Date {
	for i := range n {
		n[i] += monday
	}
	return n
}

// aFinding is one that can be recorded on the cart.
func aFinding() build.Finding {
	return build.Finding{ID: "F02", Panels: []build.PanelID{"P1"}, Found: "strip", What: "holes", Size: build.Size{Width: 30 * mm},
		Remedy: build.Replace, Work: []build.Leg{{Trade: "MW", Hours: 3 * h}}}
}

func acts() []act {
	return slices.Concat(actsOnMetal(), actsOnTasks(), actsOfPeople(), actsOnRisk(), actsInStores(), actsInTheTin(), actsOnPaint(), actsOnColour(), actsOnTrim(), actsOnBlanks(), actsOnFolds(), actsOnSewn(), actsOnLoom())
}

func actsOnMetal() []act {
	return []act{
		{&build.RecordFinding{Finding: aFinding(), Parts: []build.Part{{ID: "Q9", Name: "patch", Quantity: 1}}}, "Finding F02 on Side, left: holes, 30 mm",
			func(b *build.Build) any {
				f, p, q := b.Finding("F02"), b.Panel("P1"), b.Part("Q9")
				return line(f.Task, f.State, p.Decision, p.State, q.Task, q.State, q.Because)
			}, "T1 decided repair repair T1 wanted [F02]"},
		{&build.RecordFinding{Finding: build.Finding{ID: "F03", Panels: []build.PanelID{"P1", "P2"}, What: "dent", Size: build.Size{Width: 9 * mm}}}, "Finding F03 on Side, left and Side, right: dent, 9 mm",
			func(b *build.Build) any { return line(b.Finding("F03").State, b.Panel("P1").Decision) }, "sized keep"},
		{&build.RecordFinding{Finding: aFinding(), Decision: build.Make}, "Finding F02 on Side, left: holes, 30 mm",
			func(b *build.Build) any { return b.Panel("P1").Decision }, build.Make},
		{&build.DecideRemedy{Finding: "F01", Remedy: build.Replace, How: "new side", Work: []build.Leg{{Trade: "MW", Hours: 9 * h}}, Decision: build.Replace, Parts: []build.Part{{ID: "Q9", Name: "side", Quantity: 1}}},
			"F01 decided: replace new side, 9 h",
			func(b *build.Build) any {
				f, p := b.Finding("F01"), b.Panel("P2")
				return line(f.Remedy, f.Hours(), f.State, p.Decision, p.State, b.Part("Q9").Because)
			}, "replace 9 h decided replace in epoxy [F01]"},
		{&build.MoveFinding{Finding: "F01", State: build.Closed}, "F01 is closed", func(b *build.Build) any { return b.Finding("F01").State }, build.Closed},
		{&build.WithdrawFinding{Finding: "F01", Why: "only dirt"}, "F01 withdrawn: only dirt",
			func(b *build.Build) any { return line(len(b.Findings), b.Hours[0].Finding, b.Part("Q1").Because) }, "0  []"},
		{&build.AddPanel{Panel: build.Panel{ID: "P3", Name: "Tailboard", Side: "C", Decision: build.Make}}, "Panel P3 added: Tailboard",
			func(b *build.Build) any { return b.Panel("P3").State }, build.Make},
		{&build.DecidePanel{Panel: "P1", Decision: build.Replace}, "Panel P1 decided: replace",
			func(b *build.Build) any { return line(b.Panel("P1").Decision, b.Panel("P1").State) }, "replace replace"},
		{&build.DecidePanel{Panel: "P2", Decision: build.Replace}, "Panel P2 decided: replace",
			func(b *build.Build) any { return line(b.Panel("P2").Decision, b.Panel("P2").State) }, "replace in epoxy"},
		{&build.MovePanels{Panels: []build.PanelID{"P1", "P2"}, State: build.Blocked}, "2 panels are blocked",
			func(b *build.Build) any { return line(b.Panel("P1").State, b.Panel("P2").State) }, "blocked blocked"},
		{&build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(strings.Repeat("0f", 32)), Of: "panel/P1"}}, "Photo of panel/P1", func(b *build.Build) any { return len(b.Photos) }, 2},
	}
}

func actsOnRisk() []act {
	runs := build.Event{ID: "E2", What: "the top coat runs", Task: "T2", Chance: 0.1, Times: 2}
	return []act{
		{&build.JudgeEvent{Event: runs}, "E2 the top coat runs: 10 in 100", func(b *build.Build) any { return line(len(b.Risk.Events), *b.Event("E2")) }, "2 " + line(runs)},
		{&build.JudgeEvent{Event: build.Event{ID: "E1", What: "rot in the sill", Task: "T1"}}, "E1 rot in the sill is not judged yet",
			func(b *build.Build) any { return line(len(b.Risk.Events), b.Event("E1").Chance) }, "1 0"},
		{&build.SettleEvent{Event: "E1", Happened: true}, "E1 rot in the sill happened", func(b *build.Build) any { return b.Event("E1").State }, build.Happened},
		{&build.SettleEvent{Event: "E1"}, "E1 rot in the sill did not happen", func(b *build.Build) any { return b.Event("E1").State }, build.Passed},
		{&build.JudgeRange{Of: build.OfLateParts, Range: build.Span{Mode: 1, High: 8}, Source: "own guess"}, "The range of late parts is judged: 0 to 8, mostly 1",
			func(b *build.Build) any { return line(b.Risk.Late) }, "{{0 1 8} own guess}"},
		{&build.JudgeRange{Of: build.OfPeople}, "The range of people is not judged yet", func(b *build.Build) any { return b.Risk.People.Given() }, false},
	}
}

func actsOnTasks() []act {
	return []act{
		{&build.BeginTask{Task: "T1", Day: monday}, "T1 sides begun", func(b *build.Build) any { return line(b.Task("T1").State, b.Task("T1").Began) }, "begun 2026-03-02"},
		{&build.EndTask{Task: "T1", Day: monday + 1}, "T1 sides finished",
			func(b *build.Build) any { return line(b.Task("T1").State, b.Task("T1").Began, b.Task("T1").Ended) }, "finished 2026-03-03 2026-03-03"},
		{&build.SayLeft{Task: "T1", Left: []build.Leg{{Trade: "MW", Hours: 2 * h}}}, "T1 sides: 2 h left",
			func(b *build.Build) any { return line(b.Task("T1").Left, b.Task("T1").LeftSaid) }, "[{MW 2 h}] true"},
		{&build.HoldTask{Task: "T1", Day: monday + 9}, "T1 sides not before 11 Mar 2026", func(b *build.Build) any { return b.Task("T1").NoEarly }, monday + 9},
		{&build.HoldTask{Task: "T1"}, "T1 sides may begin when it can", func(b *build.Build) any { return b.Task("T1").NoEarly }, unit.Date(0)},
		{&build.AddTask{Task: build.Task{ID: "T3", Name: "gild", Stage: "book", After: []build.TaskID{"T2"}}}, "Task T3 added: gild", func(b *build.Build) any { return b.Task("T3").State }, build.NotBegun},
		{&build.ArrangeTasks{Tasks: []build.TaskID{"T2", "T1"}}, "On the list: O1 plating before T1 sides; T1 sides last",
			func(b *build.Build) any { return line(b.Tasks[0].ID, b.Tasks[1].ID, b.Tasks[2].ID) }, "T2 O1 T1"},
		{&build.ArrangeTasks{Tasks: []build.TaskID{"O1", "T2"}}, "The list stays in its order", func(b *build.Build) any { return b.Tasks[2].ID }, build.TaskID("T2")},
		{&build.MoveWork{Moves: []build.Move{{Task: "T2", From: "WA", To: "MW", Hours: 2 * h}, {Task: "T1", From: "WA", To: "MW", Hours: h}}}, "MW takes 3 h from WA", func(b *build.Build) any { return len(b.Moves) }, 3},
		{&build.SubletWork{Sublet: build.Sublet{Task: "T2", What: "wheels", Legs: []build.Leg{{Trade: "WA", Hours: 2 * h}}, Price: 90_00, Days: 3}}, "2 h of wheels sublet for £90", func(b *build.Build) any { return len(b.Sublets) }, 2},
	}
}

func actsOfPeople() []act {
	return []act{
		{&build.AddPerson{Person: build.Person{ID: "PT", Name: "Pat", Starts: "9:30", Week: week(6)}}, "Pat joins the build", func(b *build.Build) any { return b.Person("PT").PerWeek() }, 30 * h},
		{&build.AddAbsence{Absence: build.Absence{Person: "MW", First: monday, Last: monday + 4}}, "MW away 2 Mar 2026 to 6 Mar 2026", func(b *build.Build) any { return len(b.Absences) }, 2},
		{&build.AddClosure{Closure: build.Closure{First: monday, Last: monday, Why: "flood"}}, "Shut 2 Mar 2026 to 2 Mar 2026: flood", func(b *build.Build) any { return len(b.Closures) }, 2},
		{&build.AddOvertime{Person: "MW", Days: days(12, 19), Hours: 6 * h}, "MW works 2 extra days of 6 h", func(b *build.Build) any { return line(b.Overtime[1:]) }, "[{MW 2026-03-14 6 h} {MW 2026-03-21 6 h}]"},
		{&build.ClockOn{ID: "W2", Person: "WA", Task: "T2", At: monday.At(9, 0)}, "WA starts T2 fit at 09:00",
			func(b *build.Build) any { return line(b.Clocked("WA").Task, b.Task("T2").State, b.Task("T2").Began) }, "T2 begun 2026-03-02"},
		{&build.RecordHours{Hours: []build.Hours{{ID: "W2", Person: "MW", Task: "T2", Start: monday.At(13, 0), Worked: 90 * unit.Minute}}}, "1.5 h recorded in one line",
			func(b *build.Build) any { return line(b.Hours[1].Stop, b.Task("T2").State) }, "2026-03-02T14:30 begun"},
		{&build.RaiseSnag{Snag: build.Snag{ID: "S2", What: "rattle"}}, "Snag: rattle", func(b *build.Build) any { return len(b.Snags) }, 2},
		{&build.CloseSnag{Snag: "S1", At: monday.At(10, 0)}, "Snag S1 put right", func(b *build.Build) any { return b.Snags[0].Done }, monday.At(10, 0)},
		{&build.WriteNote{Note: build.Note{Text: "no roof rack"}}, "no roof rack", func(b *build.Build) any { return len(b.Notes) }, 1},
		{&build.SetPromise{Ready: monday + 70, Day: monday + 71, Why: "fair moved"}, "Promised for Tue 12 May 2026: fair moved",
			func(b *build.Build) any {
				return line(int(b.Promise.Ready-monday), int(b.Promise.Day-monday), int(b.Promise.Account-monday))
			}, "70 71 90"},
		{&build.SetPromise{Ready: monday + 70, Day: monday + 95, Why: "fair moved"}, "Promised for Fri 5 Jun 2026: fair moved", func(b *build.Build) any { return b.Promise.Account }, monday + 95},
	}
}

func actsInStores() []act {
	return []act{
		{&build.AddPart{Part: build.Part{ID: "Q9", Name: "bolt", Quantity: 8, Task: "T2"}}, "Q9 wanted: bolt", func(b *build.Build) any { return b.Part("Q9").State }, build.Wanted},
		{&build.OrderPart{Parts: []build.PartID{"Q1"}, Day: monday}, "Q1 hinge ordered", func(b *build.Build) any { return line(b.Part("Q1").State, b.Part("Q1").Supplier) }, "ordered smithy"},
		{&build.OrderPart{Parts: []build.PartID{"Q1", "Q3"}, Day: monday, Promised: monday + 4, Supplier: "forge"}, "2 parts ordered",
			func(b *build.Build) any {
				return line(b.Part("Q3").State, b.Part("Q1").Promised, b.Part("Q1").Supplier)
			}, "promised 2026-03-06 forge"},
		{&build.PromisePart{Part: "Q2", Promised: monday + 9}, "Q2 promised for 11 Mar 2026", func(b *build.Build) any { return b.Part("Q2").State }, build.Promised},
		{&build.PromisePart{Part: "Q2", Promised: monday + 9, Late: true}, "Q2 promised for 11 Mar 2026", func(b *build.Build) any { return b.Part("Q2").State }, build.Late},
		{&build.ReceivePart{Parts: []build.PartID{"Q2", "Q3"}, Day: monday + 8}, "2 parts came in",
			func(b *build.Build) any { return line(b.Part("Q2").State, b.Part("Q2").Received, b.Part("Q3").State) }, "in 1 given"},
		{&build.ReceivePart{Parts: []build.PartID{"Q2"}, Day: monday + 8, Wrong: "too wide"}, "Q2 tyre came in wrong: too wide",
			func(b *build.Build) any { return line(b.Part("Q2").State, b.Part("Q2").Received) }, "wrong 0"},
		{&build.WantPart{Part: "Q3", Quantity: 7}, "Q3: 7 wanted of lamp, was 1", func(b *build.Build) any { return b.Part("Q3").Quantity }, 7},
		{&build.CancelPart{Part: "Q3", Why: "found one"}, "Q3 not wanted: found one", func(b *build.Build) any { return b.Part("Q3") }, (*build.Part)(nil)},
		{&build.SendAway{Load: "O1", Day: monday + 1, Pieces: 3}, "O1 bright work sent: 3 pieces",
			func(b *build.Build) any { return line(b.Load("O1").State, b.Load("O1").Pieces, b.Task("O1").State) }, "away 3 begun"},
		{&build.MoveBags{Bags: []build.BagID{"G1-1"}, State: build.AtBench}, "1 bags at bench", func(b *build.Build) any { return b.Bag("G1-1").State }, build.AtBench},
	}
}

func actsInTheTin() []act {
	return []act{
		{&build.RecordGift{Gift: build.Gift{ID: "A2", From: "a friend", Amount: 20_00}}, "£20 from a friend", func(b *build.Build) any { return len(b.Gifts) }, 2},
		{&build.RecordGift{Gift: build.Gift{ID: "A1", From: "the fair", Amount: 310_00, Received: true}}, "£310 from the fair", func(b *build.Build) any { return line(len(b.Gifts), b.Gifts[0].Received) }, "1 true"},
		{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K2", What: "oil", Value: 5_00, Basis: "new price"}}, "Given: oil, worth £5", func(b *build.Build) any { return len(b.Kind) }, 2},
		{&build.RecordGiftInKind{Gift: build.GivenKind{ID: "K1", What: "wood", Value: 60_00, Basis: "new price"}}, "Given: wood, worth £60", func(b *build.Build) any { return b.Kind[0].Value }, unit.Money(60_00)},
		{&build.Pay{Payment: build.Payment{ID: "B2", Day: monday, For: "parts", Ref: "Q2", What: "tyre", Amount: 30_00}}, "£30 paid for tyre", func(b *build.Build) any { return len(b.Spent) }, 2},
		{&build.AgreeBudget{Budget: build.Budget{Agreed: 1_000_00, Contingency: 1_000_00}}, "Budget agreed: £1,000", func(b *build.Build) any { return b.Budget.Agreed }, unit.Money(1_000_00)},
		{&build.SetSale{Sale: build.Sale{Low: 1, Expected: 2, High: 3}}, "Sale expected at £0.02", func(b *build.Build) any { return b.Sale.High }, unit.Money(3)},
		{&build.SetSale{Sale: build.Sale{Low: 1, Expected: 2, High: 3, Sold: 5_00}}, "Sold for £5", func(b *build.Build) any { return b.Sale.Sold }, unit.Money(5_00)},
	}
}

// afterwards are acts that need another before them.
func afterwards() [][]build.Change {
	on := &build.ClockOn{ID: "W2", Person: "WA", Task: "T2", At: monday.At(9, 0)}
	sent := &build.SendAway{Load: "O1", Day: monday + 1, Pieces: 3}
	return [][]build.Change{
		{on, &build.ClockOff{Person: "WA", At: monday.At(12, 30)}},
		{sent, &build.ChaseAway{Load: "O1", Likely: 9}},
		{sent, &build.ReceiveAway{Load: "O1", Day: monday + 8, Counted: 3}},
		{&build.Start{}},
	}
}

func TestChange_DoesWhatItSays(t *testing.T) {
	for _, a := range acts() {
		b := cart()
		if got := a.change.Say(&b); got != a.says {
			t.Errorf("%s says %q, want %q", a.change.Kind(), got, a.says)
		}
		if err := a.change.Apply(&b); err != nil {
			t.Errorf("%s: %v", a.change.Kind(), err)
			continue
		}
		if got := a.fact(&b); got != a.want {
			t.Errorf("after %s: %v, want %v", a.says, got, a.want)
		}
		if err := b.Validate(); err != nil {
			t.Errorf("after %s the build is not whole: %v", a.says, err)
		}
	}
}

func TestChange_EveryKindIsTried(t *testing.T) {
	tried := map[string]bool{}
	for _, a := range acts() {
		tried[a.change.Kind()] = true
	}
	for _, run := range afterwards() {
		tried[run[len(run)-1].Kind()] = true
	}
	for _, k := range build.Kinds() {
		if !tried[k.Name] {
			t.Errorf("no test applies %s", k.Name)
		}
		if got := k.New().Kind(); got != k.Name {
			t.Errorf("the change of the kind %s calls itself %s", k.Name, got)
		}
	}
}

func TestClock_OneThingAtATime(t *testing.T) {
	b, err := build.ApplyAll(cart(), []build.Change{
		&build.ClockOn{ID: "W2", Person: "WA", Task: "T2", At: monday.At(9, 0)},
		&build.ClockOn{ID: "W3", Person: "WA", Task: "T1", Finding: "F01", At: monday.At(11, 15)},
		&build.ClockOff{Person: "WA", At: monday.At(36, 0)},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []build.Hours{
		{ID: "W2", Person: "WA", Task: "T2", Start: monday.At(9, 0), Stop: monday.At(11, 15), Worked: 2*h + 15},
		{ID: "W3", Person: "WA", Task: "T1", Finding: "F01", Start: monday.At(11, 15), Stop: monday.At(36, 0), Worked: 12 * h},
	}
	if d := cmp.Diff(want, b.Hours[1:]); d != "" {
		t.Errorf("hours, a forgotten stop being cut to 12 h (-want +got):\n%s", d)
	}
	if b.Clocked("WA") != nil {
		t.Error("WA is still clocked on")
	}
}

func TestAway_ThereAndBack(t *testing.T) {
	sent := &build.SendAway{Load: "O1", Day: monday + 1, Pieces: 3}
	for _, tt := range []struct {
		back  build.ReceiveAway
		state build.AwayState
		says  string
	}{
		{build.ReceiveAway{Load: "O1", Day: monday + 8, Counted: 3}, build.Back, "O1 bright work back: 3 pieces"},
		{build.ReceiveAway{Load: "O1", Day: monday + 8, Counted: 2, Short: "one hinge"}, build.Claimed, "O1 bright work back: 2 pieces; one hinge"},
	} {
		chased := &build.ChaseAway{Load: "O1", Likely: 9}
		b, err := build.ApplyAll(cart(), []build.Change{sent, chased, &tt.back})
		if err != nil {
			t.Fatal(err)
		}
		o, task := b.Load("O1"), b.Task("O1")
		if o.State != tt.state || o.Likely != 9 || task.State != build.Finished || task.Ended != monday+8 {
			t.Errorf("load %s, likely %d, task %s on %s, want %s, 9, finished on the day it came back", o.State, o.Likely, task.State, task.Ended, tt.state)
		}
		if got, want := chased.Say(&b), "O1 bright work now likely 9 working days"; got != want {
			t.Errorf("says %q, want %q", got, want)
		}
		if got := tt.back.Say(&b); got != tt.says {
			t.Errorf("says %q, want %q", got, tt.says)
		}
	}
}

func TestApplyAll_AllOrNone(t *testing.T) {
	b := cart()
	before := copyOf(t, b)
	got, err := build.ApplyAll(b, []build.Change{&build.BeginTask{Task: "T1", Day: monday}, &build.BeginTask{Task: "T9", Day: monday}})
	wantRule(t, "the second of two", err, 2, "change 2, begin-task: there is no task T9")
	if d := cmp.Diff(before, copyOf(t, got)); d != "" {
		t.Errorf("after a refusal (-before +after):\n%s", d)
	}
}

func TestStart_OnlyOnceAndWhole(t *testing.T) {
	var b build.Build
	if err := (&build.Start{Build: cart()}).Apply(&b); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(cart(), b); d != "" {
		t.Errorf("opened (-want +got):\n%s", d)
	}
	wantRule(t, "a second start", (&build.Start{Build: cart()}).Apply(&b), 9, "cart")
	broken := cart()
	broken.Tasks[0].After = []build.TaskID{"T7"}
	var none build.Build
	wantRule(t, "a broken start", (&build.Start{Build: broken}).Apply(&none), 2, "T7")
	if none.Name != "" {
		t.Errorf("a refused start left %q", none.Name)
	}
}
