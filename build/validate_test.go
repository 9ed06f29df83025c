package build_test

import (
	"reflect"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/unit"
)

// fact is a way to break a build: the rule it breaks and a word of the place.
type fact struct {
	rule  int
	where string
	do    func(b *build.Build)
}

func brokenHead() []fact {
	return []fact{
		{1, "name", func(b *build.Build) { b.Name = "The Cart" }},
		{1, "name", func(b *build.Build) { b.Name = "" }},
		{10, "title", func(b *build.Build) { b.Title = "" }},
		{10, "vehicle, name", func(b *build.Build) { b.Vehicle.Name = "" }},
		{10, "vehicle, label", func(b *build.Build) { b.Vehicle.Label = "" }},
		{10, "currency, code", func(b *build.Build) { b.Currency.Code = "" }},
		{3, "vehicle, length_mm", func(b *build.Build) { b.Vehicle.Length = 0 }},
		{5, "promise", func(b *build.Build) { b.Promise.In = 0 }},
		{5, "promise", func(b *build.Build) { b.Promise.Ready = b.Promise.In - 1 }},
		{5, "promise", func(b *build.Build) { b.Promise.Account = b.Promise.Day - 1 }},
		{3, "promise", func(b *build.Build) { b.Promise.Account, b.Promise.Day = 0, b.Promise.In+3661 }},
		{7, "people", func(b *build.Build) { b.People = nil }},
		{7, "person", func(b *build.Build) { b.People[0].Week, b.People[0].Helps = [7]unit.Effort{}, false }},
		{7, "person", func(b *build.Build) { b.People[0].Week[2] = 25 * h }},
		{2, "trade ZZ", func(b *build.Build) { b.People[0].Trades = []build.TradeID{"ZZ"} }},
		{5, "starts", func(b *build.Build) { b.People[0].Starts = "noon" }},
		{5, "closure", func(b *build.Build) { b.Closures[0].Last = b.Closures[0].First - 1 }},
	}
}

func brokenWork() []fact {
	return []fact{
		{2, "after", func(b *build.Build) { b.Tasks[0].After = []build.TaskID{"ZZ"} }},
		{4, "stage", func(b *build.Build) { b.Tasks[0].Stage = "polish" }},
		{4, "state", func(b *build.Build) { b.Tasks[0].State = "stuck" }},
		{3, "wait_days", func(b *build.Build) { b.Tasks[0].Wait = -1 }},
		{2, "bay", func(b *build.Build) { b.Tasks[0].Bay = "ZZ" }},
		{2, "trade ZZ", func(b *build.Build) { b.Tasks[0].Legs = []build.Leg{{Trade: "ZZ"}} }},
		{3, "line 1", func(b *build.Build) { b.Tasks[0].Left = []build.Leg{{Trade: b.Trades[0].ID, Hours: -1}} }},
		{5, "ended", func(b *build.Build) { b.Tasks[0].Began, b.Tasks[0].Ended = monday, monday-1 }},
		{2, "zone ZZ", func(b *build.Build) { b.Panels[0].Areas = []build.ZoneArea{{Zone: "ZZ"}} }},
		{2, "view ZZ", func(b *build.Build) { b.Panels[0].Outlines = []build.Outline{{View: "ZZ"}} }},
		{2, "task ZZ", func(b *build.Build) { b.Panels[0].Task = "ZZ" }},
		{4, "side", func(b *build.Build) { b.Panels[0].Side = "up" }},
		{2, "colour ZZ", func(b *build.Build) { b.Zones[0].Colour = "ZZ" }},
		{3, "paint zone", func(b *build.Build) { b.Zones[0].Extra = -1 }},
		{3, "bay", func(b *build.Build) { b.Bays[0].Units = 0 }},
		{3, "risk range", func(b *build.Build) { b.Risk.Ranges[0].Factor = build.Span{Low: 1, Mode: 0.5, High: 2} }},
		{3, "risk range", func(b *build.Build) { b.Risk.Ranges[0].Common = build.Span{Low: 0, Mode: 1, High: 2} }},
		{3, "absence_per_day", func(b *build.Build) { b.Risk.Absence = 1 }},
		{2, "task ZZ", func(b *build.Build) { b.Risk.Reserve[0].Task = "ZZ" }},
		{2, "trade ZZ", func(b *build.Build) { b.Risk.Reserve[0].Trade = "ZZ" }},
		{3, "reserve", func(b *build.Build) { b.Risk.Reserve[0].Hours = build.Span{Low: -1} }},
	}
}

func brokenStores() []fact {
	return []fact{
		{2, "needed_for", func(b *build.Build) { b.Parts[0].Task = "ZZ" }},
		{4, "state", func(b *build.Build) { b.Parts[0].State = "" }},
		{2, "because", func(b *build.Build) { b.Parts[0].Because = []build.FindingID{"ZZ"} }},
		{3, "quantity", func(b *build.Build) { b.Parts[0].Quantity = -2 }},
		{2, "load", func(b *build.Build) { b.Outwork[0].Task = "ZZ" }},
		{2, "is not this load", func(b *build.Build) { b.Outwork[0].Task = other(b, b.Outwork[0].Task) }},
		{4, "load", func(b *build.Build) { b.Outwork[0].State = "lost" }},
		{3, "load", func(b *build.Build) { b.Outwork[0].Cost = -1 }},
		{2, "bag group ZZ", func(b *build.Build) { b.Bags[0].Group = "ZZ" }},
		{3, "bag", func(b *build.Build) { b.Bags[0].Pieces = -1 }},
		{4, "bag", func(b *build.Build) { b.Bags[0].State = "lost" }},
		{2, "bag ZZ", func(b *build.Build) { b.Missing[0].Bag = "ZZ" }},
		{2, "part ZZ", func(b *build.Build) { b.Missing[0].Part = "ZZ" }},
		{2, "zone ZZ", func(b *build.Build) { b.Products[0].Zones = []build.ZoneID{"ZZ"} }},
		{2, "task ZZ", func(b *build.Build) { b.Products[0].Task = "ZZ" }},
		{3, "paint product", func(b *build.Build) { b.Products[0].Transfer = 1.1 }},
		{3, "coats", func(b *build.Build) { b.Products[0].Coats = -1 }},
		{3, "purge_l", func(b *build.Build) { b.Products[0].Purge = -1 }},
		{3, "circuit", func(b *build.Build) { b.Circuits[0].DropLimit = 0 }},
		{3, "length_mm", func(b *build.Build) { b.Circuits[0].Length = -1 }},
		{3, "trim piece", func(b *build.Build) { b.Pieces[0].Width = 0 }},
		{2, "needs", func(b *build.Build) { b.Motif.Places[0].Needs = []build.TaskID{"ZZ"} }},
	}
}

func brokenMoney() []fact {
	who, work, trade := func(b *build.Build) build.PersonID { return b.People[0].ID }, func(b *build.Build) build.TaskID { return b.Tasks[0].ID }, func(b *build.Build) build.TradeID { return b.Trades[0].ID }
	return []fact{
		{2, "cost line", func(b *build.Build) { b.Costs[0].Task = "ZZ" }},
		{3, "cost line", func(b *build.Build) { b.Costs[0].Amount = -1 }},
		{3, "gift", func(b *build.Build) { b.Gifts[0].Amount = -1 }},
		{3, "gift in kind", func(b *build.Build) { b.Kind[0].Value = -1 }},
		{3, "budget", func(b *build.Build) { b.Budget.Agreed = -1 }},
		{3, "sale", func(b *build.Build) { b.Sale.Low = -1 }},
		{2, "cost line ZZ", func(b *build.Build) {
			b.Spent = append(b.Spent, build.Payment{ID: "n", Day: monday, For: "line", Ref: "ZZ", What: "x"})
		}},
		{2, "person ZZ", func(b *build.Build) {
			b.Hours = append(b.Hours, build.Hours{ID: "n", Person: "ZZ", Task: work(b), Start: 1})
		}},
		{2, "finding ZZ", func(b *build.Build) {
			b.Hours = append(b.Hours, build.Hours{ID: "n", Person: who(b), Task: work(b), Finding: "ZZ", Start: 1})
		}},
		{3, "worked_h", func(b *build.Build) {
			b.Hours = append(b.Hours, build.Hours{ID: "n", Person: who(b), Task: work(b), Start: 1, Worked: -1})
		}},
		{2, "person ZZ", func(b *build.Build) {
			b.Absences = append(b.Absences, build.Absence{Person: "ZZ", First: monday, Last: monday})
		}},
		{2, "person ZZ", func(b *build.Build) {
			b.Overtime = append(b.Overtime, build.Overtime{Person: "ZZ", Day: monday, Hours: h})
		}},
		{3, "overtime", func(b *build.Build) { b.Overtime = append(b.Overtime, build.Overtime{Person: who(b), Day: monday}) }},
		{2, "sublet of task ZZ", func(b *build.Build) { b.Sublets = append(b.Sublets, build.Sublet{Task: "ZZ", What: "x"}) }},
		{3, "offer of task", func(b *build.Build) {
			b.Offers = append(b.Offers, build.Sublet{Task: work(b), What: "x", Price: -1})
		}},
		{2, "move", func(b *build.Build) {
			b.Moves = append(b.Moves, build.Move{Task: "ZZ", From: trade(b), To: trade(b), Hours: h})
		}},
		{2, "owner", func(b *build.Build) { b.Snags = append(b.Snags, build.Snag{ID: "n", What: "x", Owner: "ZZ"}) }},
		{1, "photo", func(b *build.Build) { b.Photos = append(b.Photos, build.Photo{Hash: "abc", Of: "x"}) }},
		{3, "hide", func(b *build.Build) { b.Hides = append(b.Hides, build.Hide{ID: "n"}) }},
		{2, "finding n", func(b *build.Build) { b.Findings = append(b.Findings, build.Finding{ID: "n"}) }},
	}
}

// other returns the ID of a task that is not this one.
func other(b *build.Build, id build.TaskID) build.TaskID {
	return b.Tasks[slices.IndexFunc(b.Tasks, func(t build.Task) bool { return t.ID != id })].ID
}

func wholeBuilds(t *testing.T) map[string]build.Build {
	t.Helper()
	whole := map[string]build.Build{"cart": cart()}
	for name, read := range map[string]func() (scenario.File, error){"pedlar": demo.Pedlar, "bjelke": demo.Second} {
		f, err := read()
		if err != nil {
			t.Fatal(err)
		}
		whole[name] = f.Build
	}
	return whole
}

func TestValidate_EveryListBrokenInTurn(t *testing.T) {
	for name, whole := range wholeBuilds(t) {
		if err := whole.Validate(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, f := range slices.Concat(brokenHead(), brokenWork(), brokenStores(), brokenMoney()) {
			b := copyOf(t, whole)
			if name == "bjelke" && len(b.Motif.Places) == 0 {
				b.Motif.Places = []build.MotifPlace{{ID: "M1"}}
			}
			f.do(&b)
			wantRule(t, name, b.Validate(), f.rule, f.where)
		}
	}
}

// TestValidate_EveryIDOnce doubles the first of every list whose things have
// an ID, and takes its ID away.
func TestValidate_EveryIDOnce(t *testing.T) {
	checked := 0
	for name, whole := range wholeBuilds(t) {
		for i := range reflect.TypeFor[build.Build]().NumField() {
			b := copyOf(t, whole)
			list := reflect.ValueOf(&b).Elem().Field(i)
			if list.Kind() != reflect.Slice || list.Len() == 0 {
				continue
			}
			id := list.Index(0).FieldByName("ID")
			if !id.IsValid() {
				continue
			}
			checked++
			what := name + ": " + reflect.TypeFor[build.Build]().Field(i).Name
			doubled := reflect.Append(list, list.Index(0))
			list.Set(doubled)
			wantRule(t, what+" doubled", b.Validate(), 1, id.String())
			list.Set(doubled.Slice(0, doubled.Len()-1))
			list.Index(0).FieldByName("ID").SetString("")
			wantRule(t, what+" without ID", b.Validate(), 1, "1")
		}
	}
	if checked < 50 {
		t.Errorf("%d lists have IDs, want at least 50", checked)
	}
}

func TestValidate_LoopIsNamedWhole(t *testing.T) {
	for _, tt := range []struct {
		after map[build.TaskID][]build.TaskID
		where string
	}{
		{map[build.TaskID][]build.TaskID{"T1": {"T1"}}, "task T1: tasks wait for each other: T1 after T1 (rule 6)"},
		{map[build.TaskID][]build.TaskID{"T1": {"T2"}}, "T1 after T2 after O1 after T1 (rule 6)"},
		{map[build.TaskID][]build.TaskID{"O1": {"T2"}}, "O1 after T2 after O1 (rule 6)"},
	} {
		b := cart()
		for id, after := range tt.after {
			b.Task(id).After = after
		}
		wantRule(t, "a loop", b.Validate(), 6, tt.where)
	}
}
