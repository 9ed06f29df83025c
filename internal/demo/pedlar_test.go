package demo_test

import (
	"bytes"
	"os"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/unit"
)

var (
	arrival = unit.Day(2026, time.September, 14)
	blast   = unit.Day(2026, time.October, 6)
	after   = unit.Day(2026, time.October, 7)
)

func pedlar(t testing.TB) scenario.File {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func second(t testing.TB) scenario.File {
	t.Helper()
	f, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// on returns a build as it stood when the shop opened on a day; 0 is at the end.
func on(t testing.TB, f scenario.File, day unit.Date) build.Build {
	t.Helper()
	b, err := scenario.Replay(f, day)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestPedlar_AreasByZone(t *testing.T) {
	b := pedlar(t).Build
	want := map[build.ZoneID]unit.Area{
		"slackwater": 9_000_000, "limewash": 9_690_000, "jamb": 4_370_000, "grey": 25_350_000,
		"wheels": 1_500_000, "roof-inside": 4_050_000,
	}
	if len(b.Zones) != len(want) {
		t.Errorf("zones = %d, want %d", len(b.Zones), len(want))
	}
	for _, z := range b.Zones {
		if got := b.ZoneArea(z.ID); got != want[z.ID] {
			t.Errorf("%s = %v, want %v", z.ID, got, want[z.ID])
		}
	}
	var sum unit.Area
	for _, p := range b.Panels {
		sum += p.Area()
	}
	if want := unit.Area(48_410_000); sum != want {
		t.Errorf("62 panels = %v, want %v", sum, want)
	}
}

func TestPedlar_DecisionsAfterTheBlast(t *testing.T) {
	b := on(t, pedlar(t), after)
	want := map[build.PanelState]int{build.Keep: 12, build.Repair: 26, build.Replace: 12, build.Make: 12}
	got := map[build.PanelState]int{}
	for _, p := range b.Panels {
		got[p.Decision]++
	}
	for _, d := range build.Decisions() {
		if got[d] != want[d] {
			t.Errorf("%s = %d panels, want %d", d, got[d], want[d])
		}
	}
	if len(b.Panels) != 62 {
		t.Errorf("panels = %d, want 62", len(b.Panels))
	}
}

func TestPedlar_FindingsByStage(t *testing.T) {
	b := on(t, pedlar(t), after)
	count, hours := map[string]int{}, map[string]unit.Effort{}
	for _, f := range b.Findings {
		count[f.Found]++
		hours[f.Found] += f.Hours()
		for _, id := range f.Panels {
			if got := b.Panel(id).Task; got != f.Task {
				t.Errorf("%s belongs to %s, its panel %s to %s", f.ID, f.Task, id, got)
			}
		}
	}
	for stage, want := range map[string]int{"arrival": 10, "strip": 21, "blast": 14} {
		if count[stage] != want {
			t.Errorf("found at %s = %d, want %d", stage, count[stage], want)
		}
	}
	if got, want := hours["arrival"]+hours["strip"], 224*unit.Hour; got != want {
		t.Errorf("hours of arrival and strip = %v, want %v", got, want)
	}
	if got, want := hours["blast"], 86*unit.Hour; got != want {
		t.Errorf("hours of the blast = %v, want %v", got, want)
	}
}

// byTrade adds up hours of legs.
func byTrade(legs ...build.Leg) map[build.TradeID]unit.Effort {
	sum := map[build.TradeID]unit.Effort{}
	for _, l := range legs {
		sum[l.Trade] += l.Hours
	}
	return sum
}

// planned returns the legs of a task: those of its findings where it lives on them.
func planned(b build.Build, t build.Task) []build.Leg {
	if !t.Findings {
		return t.Legs
	}
	var legs []build.Leg
	for _, f := range b.Findings {
		if f.Task == t.ID {
			legs = append(legs, f.Work...)
		}
	}
	return legs
}

func sameHours(t *testing.T, what string, got map[build.TradeID]unit.Effort, want map[build.TradeID]unit.Effort) {
	t.Helper()
	for _, trade := range []build.TradeID{"LD", "MW", "PT", "WA", "TR"} {
		if got[trade] != want[trade] {
			t.Errorf("%s: %s = %v, want %v", what, trade, got[trade], want[trade])
		}
	}
}

func TestPedlar_HoursOfMetalTasks(t *testing.T) {
	h := unit.Hour
	type hours = map[build.TradeID]unit.Effort
	tests := []struct {
		task   build.TaskID
		before hours
		after  hours
	}{
		{"T08", hours{"MW": 80 * h, "WA": 18 * h, "LD": 16 * h}, hours{"MW": 86 * h, "WA": 22 * h, "LD": 16 * h}},
		{"T09", hours{"MW": 9 * h, "LD": 2 * h}, hours{"MW": 43 * h, "LD": 6 * h}},
		{"T10", hours{"MW": 37 * h, "LD": 6 * h}, hours{"MW": 53 * h, "LD": 10 * h}},
		{"T11", hours{"MW": 16 * h, "LD": 18 * h, "WA": 22 * h}, hours{"MW": 24 * h, "LD": 22 * h, "WA": 28 * h}},
	}
	f := pedlar(t)
	morning, next := on(t, f, blast), on(t, f, after)
	for _, tt := range tests {
		guess := *f.Build.Task(tt.task)
		sameHours(t, string(tt.task)+" as guessed", byTrade(guess.Legs...), tt.before)
		sameHours(t, string(tt.task)+" before blast", byTrade(planned(morning, guess)...), tt.before)
		sameHours(t, string(tt.task)+" after blast", byTrade(planned(next, guess)...), tt.after)
		if guess.Guess != "T07" || !guess.Findings {
			t.Errorf("%s: guess until %q, hours of findings %v", tt.task, guess.Guess, guess.Findings)
		}
	}
	if got := next.Task("T07").State; got != build.Finished {
		t.Errorf("T07 on %v is %s, want finished: the guess falls away", after, got)
	}
}

func TestPedlar_HoursByPerson(t *testing.T) {
	h := unit.Hour
	f := pedlar(t)
	for _, tt := range []struct {
		when  string
		build build.Build
		want  map[build.TradeID]unit.Effort
		total unit.Effort
	}{
		{"before blast", on(t, f, blast), map[build.TradeID]unit.Effort{"LD": 160 * h, "MW": 342 * h, "PT": 274 * h, "WA": 344 * h, "TR": 142 * h}, 1262 * h},
		{"after blast", on(t, f, after), map[build.TradeID]unit.Effort{"LD": 172 * h, "MW": 406 * h, "PT": 274 * h, "WA": 354 * h, "TR": 142 * h}, 1348 * h},
	} {
		var legs []build.Leg
		for _, task := range tt.build.Tasks {
			legs = append(legs, planned(tt.build, task)...)
		}
		sameHours(t, tt.when, byTrade(legs...), tt.want)
		if got := build.Total(legs); got != tt.total {
			t.Errorf("%s: all = %v, want %v", tt.when, got, tt.total)
		}
	}
}

func TestPedlar_Bags(t *testing.T) {
	b := pedlar(t).Build
	if got, want := len(b.Bags), 252; got != want {
		t.Errorf("bags = %d, want %d", got, want)
	}
	if got, want := len(b.Missing), 17; got != want {
		t.Errorf("missing = %d, want %d", got, want)
	}
	all, routed := 0, 0
	for _, g := range b.Groups {
		bags, pieces := 0, 0
		for _, x := range b.Bags {
			if x.Group == g.ID {
				bags, pieces = bags+1, pieces+x.Pieces
			}
		}
		if bags != g.Bags || pieces != g.Pieces {
			t.Errorf("%s: %d bags, %d pieces, want %d and %d", g.ID, bags, pieces, g.Bags, g.Pieces)
		}
		all += pieces
	}
	for _, r := range b.Routes {
		routed += r.Pieces
	}
	if all != 1866 || routed != 1866 {
		t.Errorf("pieces = %d in bags, %d on routes, want 1866", all, routed)
	}
	for _, m := range b.Missing {
		if b.Bag(m.Bag) == nil {
			t.Errorf("%s: there is no bag %s", m.What, m.Bag)
		}
	}
}

func TestPedlar_Trim(t *testing.T) {
	b := pedlar(t).Build
	net := map[string]unit.Area{}
	for _, p := range b.Pieces {
		net[p.Material] += p.Area()
		net[p.Material+" "+p.Grade] += p.Area()
	}
	for material, want := range map[string]string{
		"tan leather": "6.41 m²", "tan leather A": "2.75 m²", "tan leather B": "3.09 m²", "tan leather C": "0.57 m²",
		"embossed tan leather": "0.45 m²",
	} {
		if got := net[material].String(); got != want {
			t.Errorf("%s = %s, want %s", material, got, want)
		}
	}
	if len(b.Pieces) != 35 || len(b.Hides) != 5 || len(b.Circuits) != 40 || len(b.Motif.Places) != 12 || len(b.Products) != 8 {
		t.Errorf("pieces, hides, circuits, places, products = %d %d %d %d %d, want 35 5 40 12 8",
			len(b.Pieces), len(b.Hides), len(b.Circuits), len(b.Motif.Places), len(b.Products))
	}
}

// TestPedlar_Litres works out what is ready to spray by the formula of the
// maker's sheets: area by film over solids and transfer, and the purge.
func TestPedlar_Litres(t *testing.T) {
	b := pedlar(t).Build
	want := map[build.ProductID]float64{"epoxy": 11.0, "high-build": 8.8, "sealer-black": 1.16, "sealer-grey": 1.85,
		"base-limewash": 4.2, "base-slackwater": 2.23, "clear": 6.3, "satin-grey": 5.75}
	for _, p := range b.Products {
		var area unit.Area
		for _, z := range p.Zones {
			area += b.ZoneArea(z)
		}
		film := float64(p.Coats) * p.Film
		got := area.M2()/(10*p.Solids/film*p.Transfer) + p.Purge.L()
		if d := got - want[p.ID]; d > 0.06 || d < -0.06 {
			t.Errorf("%s = %.3f l, want %.2f", p.ID, got, want[p.ID])
		}
	}
}

func TestPedlar_IsWrittenAsWriteWrites(t *testing.T) {
	for name, f := range map[string]scenario.File{"pedlar.json": pedlar(t), "bjelke.json": second(t)} {
		onDisk, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := scenario.Write(&out, f); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(out.Bytes(), onDisk) {
			t.Errorf("%s differs from what Write makes of it", name)
		}
		if got, most := len(onDisk), 600_000; got > most {
			t.Errorf("%s has %d bytes, more than %d", name, got, most)
		}
	}
}
