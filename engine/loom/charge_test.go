package loom

import (
	"slices"
	"strings"
	"testing"
)

// TestCharge holds sums that a person does on paper.
func TestCharge(t *testing.T) {
	p := Problem{
		Alternators: []Alternator{{Name: "alternator", RatedAmps: 50}},
		Batteries:   []Battery{{Name: "battery", AmpHours: 60, DrainMilliamps: 35, ReserveMinutes: 90}},
		Consumers: []Consumer{
			{Name: "head", Amps: 10, Night: true}, {Name: "wiper", Amps: 5, Duty: 0.3, Night: true}, {Name: "blower", Amps: 12, Duty: 0.5, Night: true},
			{Name: "coil", Amps: 4, Night: true}, {Name: "stop", Amps: 4, Duty: 0.1, Night: true}, {Name: "starter", Amps: 150, Short: true},
		},
		Circuits: []Circuit{{Run: Run{ID: "C1", LengthM: 1, Duty: Intermittent}, Amps: 10, Fuse: "F"}, {Run: Run{ID: "C2", LengthM: 1}, Amps: 2, Share: 0.5, Fuse: "F"}, {Run: Run{ID: "C3", LengthM: 1}, Amps: 30, Feed: true, Fuse: "F"}},
		Fuses:    []Fuse{{Name: "F", Amps: 60}},
	}
	r := solved1(t, p)
	near(t, "mean load", r.Charge.LoadA, 10+1.5+6+4+0.4+3+1, 1e-9)
	near(t, "may", r.Charge.MayA, 40, 1e-9)
	if !r.Charge.Enough || r.Night.Text != "the battery keeps" || !strings.HasPrefix(r.Night.With, "35.0 A against 35.0 A") {
		t.Errorf("enough %v, night %s (%s)", r.Charge.Enough, r.Night.Text, r.Night.With)
	}
	text := ""
	for _, f := range r.Reserve {
		text += f.Name + ": " + f.Text + "; "
	}
	if text != "reserve of battery: 90 min at 25 A; driving without charge on battery: 1.2 h to half; parked on battery: 36 days to half; " {
		t.Error(text)
	}
	p.Alternators[0].RatedAmps, p.Exclusives = 30, []Exclusive{{[]string{"C1", "C2"}}}
	if r := solved1(t, p); r.Charge.Enough || r.Night.Text != "the battery drains" || r.Charge.LoadA != 10+1.5+6+4+0.4+3 {
		t.Errorf("30 A: %+v, %s", r.Charge, r.Night.Text)
	}
}

// TestTo12V: wire stays, bulbs change, a steady load may keep a resistor.
func TestTo12V(t *testing.T) {
	p := Problem{
		NominalV:  6,
		Consumers: []Consumer{{Name: "gauge", Amps: 3}, {Name: "lamp", Behaviour: Filament, Watts: 36}, {Name: "wiper", Behaviour: Motor, Amps: 6}, {Name: "starter", Amps: 200, Use: Starter}},
		Circuits:  []Circuit{{Run: Run{ID: "C1", LengthM: 2}, Amps: 8, Fuse: "F"}},
		Fuses:     []Fuse{{Name: "F", Amps: 20}},
	}
	list := To12V(p)
	for part, want := range map[string]string{"gauge": "resistor = 2.33 Ω, 21 W", "lamp": "change bulb", "wiper": "change motor", "starter": "stays short cranks", "C1": "stays 8 A become 4 A", "F": "look 10 A"} {
		i := slices.IndexFunc(list, func(a Advice) bool { return a.Part == part })
		verdict, says, _ := strings.Cut(want, " ")
		if i < 0 || list[i].Verdict != verdict || !strings.Contains(list[i].Says, says) {
			t.Errorf("%s: %+v, want %s", part, list[max(i, 0)], want)
		}
	}
	if list := To12V(tail()); len(list) != 1 || list[0].Verdict != "look" {
		t.Errorf("a 12 V loom: %v", list)
	}
}
