package loom

import (
	"fmt"
	"html"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/scenario"
	"fettle/internal/web"
	"fettle/internal/web/ui/flash"
	"fettle/takeoff"
	"fettle/unit"
)

// wiredRear is the rear of a trailer as a net: tail and stop lamps of both
// sides on one earth, a high stop lamp on the body, a horn over its relay.
func wiredRear() []build.Change {
	list := []build.Change{}
	add := func(c ...build.Change) { list = append(list, c...) }
	for _, id := range []string{"C41", "C42", "C43"} {
		add(&build.SetCircuit{Circuit: build.Circuit{ID: id, Name: "trailer " + id, Length: unit.Metre, Load: 3.5, DropLimit: 5, Duty: "int", Fuse: "G" + id[1:], FuseA: 10}})
		add(&build.SetFuse{Fuse: build.Fuse{Name: "G" + id[1:], Amps: 10}})
	}
	lamp := func(name, circuit string, watts float64) build.Change {
		return &build.SetConsumer{Consumer: build.Consumer{Name: name, Circuits: []string{circuit}, Use: "lamp", Behaviour: "resistance", Watts: watts, Volts: 12}}
	}
	add(lamp("tail left", "C41", 5), lamp("tail right", "C41", 5), lamp("stop left", "C42", 21), lamp("stop right", "C42", 21), lamp("stop high", "C42", 5))
	add(&build.SetConsumer{Consumer: build.Consumer{Name: "trailer horn", Circuits: []string{"C43"}, Amps: 4, Short: true}})
	toggle := func(name string) build.Change {
		return &build.SetSwitch{Switch: build.Switch{Name: name, Positions: []build.SwitchPosition{{Name: "off"}, {Name: "on", Joins: [][]string{{"1", "2"}}}}}}
	}
	add(toggle("trailer lamps"), toggle("trailer pedal"), toggle("trailer button"))
	add(&build.SetRelay{Relay: build.Relay{Name: "trailer relay", Amps: 30}})
	add(&build.SetJoint{Joint: build.Joint{Name: "splice X", Kind: "splice"}}, &build.SetJoint{Joint: build.Joint{Name: "EX", Kind: "earth"}}, &build.SetJoint{Joint: build.Joint{Name: "bus", Kind: "splice"}})
	add(trailerWires()...)
	return list
}

func trailerWires() []build.Change {
	var list []build.Change
	for _, w := range strings.Split(`N01 C41 battery:+ bus:1 0.3
N11 C41 bus:2 G41:1 0.2
N12 C41 G41:2 trailer lamps:1 1
N13 C41 trailer lamps:2 tail left:+ 2
N14 C41 trailer lamps:2 tail right:+ 2
N21 C42 bus:3 G42:1 0.2
N22 C42 G42:2 trailer pedal:1 1
N23 C42 trailer pedal:2 stop left:+ 2
N24 C42 trailer pedal:2 stop right:+ 2
N25 C42 trailer pedal:2 stop high:+ 1
N26 C42 stop high:- body 0.3
N31 C43 bus:4 G43:1 0.2
N32 C43 G43:2 trailer relay:30 1
N33 C43 G43:2 trailer button:1 1
N34 C43 trailer button:2 trailer relay:86 1
N35 C43 trailer relay:85 body 0.3
N36 C43 trailer relay:87 trailer horn:+ 1
N37 C43 trailer horn:- body 0.3
N41 C41 tail left:- splice X:1 0.3
N42 C41 tail right:- splice X:2 0.3
N43 C42 stop left:- splice X:3 0.3
N44 C42 stop right:- splice X:4 0.3
N45 C41 splice X:5 EX:1 1
N51 C41 battery:- body 0.5`, "\n") {
		list = append(list, aWire(w))
	}
	return list
}

// aWire reads "ID circuit end end metres" with ends of one or two words.
func aWire(line string) build.Change {
	f := strings.Fields(line)
	var ends []string
	word := ""
	for _, x := range f[2 : len(f)-1] {
		word = strings.TrimSpace(word + " " + x)
		if strings.Contains(x, ":") || x == "body" {
			ends, word = append(ends, word), ""
		}
	}
	var metres float64
	fmt.Sscan(f[len(f)-1], &metres)
	w := build.Wire{ID: f[0], Circuit: f[1], From: ends[0], To: ends[1], Length: unit.Length(metres * float64(unit.Metre))}
	if w.ID == "N01" {
		w.Unfused = "lead to the fuses"
	}
	return &build.SetWire{Wire: w}
}

// trailer is the demo shop with the net kept, and a fault planted in it.
func trailer(t *testing.T, plant ...build.Change) *placetest.Shop {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	morning := unit.Day(2026, 10, 13)
	at := (morning - 1).At(20, 0)
	last := len(file.Days)
	for last > 0 && file.Days[last-1].At > at {
		last--
	}
	file.Days = slices.Insert(file.Days, last, scenario.Day{At: at, Person: "WA", Changes: append(wiredRear(), plant...)})
	return placetest.Of(t, file, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

// tellings are the checks of the loom that the shop's plan has beyond those of the
// list, by ID.
func tellings(t *testing.T, s *placetest.Shop) map[string]takeoff.Check {
	t.Helper()
	p, _ := s.Plan(t)
	list := map[string]takeoff.Check{}
	for _, c := range p.Checks {
		if strings.HasPrefix(c.ID, "loom/") {
			list[c.ID] = c
		}
	}
	return list
}

// TestFaults_PlantedAreFound: each fault is kept as a person would keep it, told
// in the plan with its place and remedy, and stands on the place's page.
func TestFaults_PlantedAreFound(t *testing.T) {
	sound := tellings(t, trailer(t))
	wire := func(line string) build.Change { return aWire(line) }
	joint := func(name string, change func(*build.Joint)) build.Change {
		j := build.Joint{Name: name, Kind: "earth"}
		change(&j)
		return &build.SetJoint{Joint: j}
	}
	section := func(line, mm2 string) build.Change {
		w := aWire(line).(*build.SetWire)
		w.Wire.Section = mm2
		return w
	}
	for _, tt := range []struct {
		what, id string
		says, do string
		plant    []build.Change
	}{
		{"open earth", "loom/open-earth/EX", "glows", "make the earth", []build.Change{joint("EX", func(j *build.Joint) { j.Open = true })}},
		{"shared thin earth", "loom/shared-thin-earth/wire N45", "lifts 4 consumers", "", []build.Change{section("N45 C41 splice X:5 EX:1 6", "0.5")}},
		{"reversed relay", "loom/relay-reversed/relay trailer relay", "", "feed to 30, load to 87", []build.Change{wire("N32 C43 G43:2 trailer relay:87 1"), wire("N36 C43 trailer relay:30 trailer horn:+ 1")}},
		{"missing fuse", "loom/no-fuse/wire N22", "no fuse stands", "as near the battery", []build.Change{wire("N22 C42 bus:5 trailer pedal:1 1")}},
		{"two nets joined", "loom/two-circuits-joined/fuses G41 and G42", "either feeds the other's loads", "part them", []build.Change{wire("N60 C41 tail left:+ stop left:+ 0.2")}},
		{"engraved twice", "loom/label-twice/N12 and C34", "both are labelled", "a label of its own", []build.Change{&build.SetWire{Wire: func() build.Wire {
			w := aWire("N12 C41 G41:2 trailer lamps:1 1").(*build.SetWire).Wire
			w.Label = "C34"
			return w
		}()}}},
		{"box full", "loom/box-full/box fuse box", "23 fuses, room for 22", "a box of 23 ways", []build.Change{&build.SetFuse{Fuse: build.Fuse{Name: "G41", Amps: 10, Box: "fuse box"}}}},
		{"fuse too large for its wire", "loom/fuse-too-large/wire N", "", "", []build.Change{section("N13 C41 trailer lamps:2 tail left:+ 2", "0.5"), section("N12 C41 G41:2 trailer lamps:1 1", "0.5"), &build.SetFuse{Fuse: build.Fuse{Name: "G41", Amps: 30}}}},
	} {
		s := trailer(t, tt.plant...)
		var got takeoff.Check
		for id, c := range tellings(t, s) {
			if _, before := sound[id]; !before && strings.HasPrefix(id, tt.id) && (got.ID == "" || id < got.ID) {
				got = c
			}
		}
		if got.ID == "" || !strings.Contains(got.Says, tt.says) || got.Do == "" || !strings.Contains(got.Do, tt.do) {
			var ids []string
			for id, c := range tellings(t, s) {
				if _, before := sound[id]; !before {
					ids = append(ids, id+": "+c.Says+" → "+c.Do)
				}
			}
			t.Errorf("%s: %+v\ntold: %s", tt.what, got, strings.Join(ids, "\n"))
			continue
		}
		page := s.Get("loom").Body
		if text := html.UnescapeString(page); !strings.Contains(text, flash.Sentence(got.Says)) && !strings.Contains(text, got.Says) {
			t.Errorf("%s: the page does not say %q", tt.what, got.Says)
		}
	}
}
