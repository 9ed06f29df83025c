package loom

import (
	"net/url"
	"reflect"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

// TestParts_SentAsTheyStand sends every part of the loom back as its form shows
// it: nothing may change.
func TestParts_SentAsTheyStand(t *testing.T) {
	b := &placetest.Bench{Shop: loomShop(t)}
	now := b.Now(t)
	count := 0
	for _, k := range kinds() {
		if k.Final {
			continue
		}
		for _, row := range k.List(&now) {
			form := placetest.Filled(row.ID, k.Form(sheet{Build: &now}, row.ID))
			if a := b.Post("/b/pedlar/loom/parts/"+k.Key, form); a.Status != 303 {
				t.Fatalf("%s %s: %d %.900s", k.Key, row.ID, a.Status, a.Body)
			}
			count++
		}
	}
	next := now.Clone()
	for _, c := range b.Slip(t) {
		if err := c.Apply(&next); err != nil {
			t.Fatal(err)
		}
	}
	if count < 90 {
		t.Errorf("only %d parts were sent back", count)
	}
	was, is := reflect.ValueOf(now.Loom), reflect.ValueOf(next.Loom)
	for i := range was.NumField() {
		if name := was.Type().Field(i).Name; !reflect.DeepEqual(was.Field(i).Interface(), is.Field(i).Interface()) {
			t.Errorf("sent back as they stand, %s have become\n%+v, not\n%+v", name, is.Field(i), was.Field(i))
		}
	}
}

// aPart is a new one of each kind, as a person types it.
var aPart = map[string]url.Values{
	"battery":        {"id": {"second battery"}, "ah": {"44"}, "cranking": {"360"}, "drain": {"12.5"}},
	"alternator":     {"id": {"dynamo"}, "rated": {"22"}, "idle": {"0,1"}},
	"fuse-box":       {"id": {"rear box"}, "ways": {"6"}},
	"fuse":           {"id": {"F30"}, "amps": {"7.5"}, "type": {"maxi"}, "box": {"fuse box"}},
	"consumer":       {"id": {"reversing lamp"}, "circuits": {"c01, C08"}, "behaviour": {"filament"}, "watts": {"21"}, "volts": {"13.5"}, "share": {"7"}, "when": {"night", "always"}},
	"never-together": {"id": {"x90"}, "never": {"C12\nreversing lamp"}, "why": {"a trial"}},
	"switch":         {"id": {"reversing switch"}, "positions": {"forward\nback = 15 30, 58 58L"}, "contacts": {"58 = C12 c13"}},
	"relay":          {"id": {"roof relay"}, "amps": {"40"}, "kind": {"break", "diode"}, "contacts": {"87a = C12"}},
	"connector":      {"id": {"rear plug"}, "family": {"round"}, "cavities": {"4"}, "contacts": {"3 = C12"}},
	"joint":          {"id": {"earth roof"}, "kind": {"earth"}, "circuits": {"C12"}, "ohms": {"0.02"}},
	"cable":          {"id": {"cloth"}, "source": {"its sheet"}, "max_c": {"90"}, "air_c": {"30"}, "k": {"100"}, "size": {"1.0 1 19 12\nAWG 14, 2.08 9 20 3.1"}},
	"wire":           {"id": {"n1"}, "circuit": {"c12"}, "from": {"reversing switch:58"}, "to": {"reversing lamp:+"}, "length": {"2.5"}},
	"reading":        {"id": {"v90"}, "circuit": {"C12"}, "kind": {"volts"}, "value": {"12.31"}},
	"crimp-test":     {"id": {"k90"}, "terminal": {"round"}, "section": {"1.0"}, "newtons": {"120"}},
}

func TestParts_EnteredOfEveryKind(t *testing.T) {
	b := &placetest.Bench{Shop: loomShop(t)}
	at := "/b/pedlar/loom/parts/"
	for _, k := range kinds() {
		if k.Only {
			continue
		}
		holds(t, b.Get(at+k.Key+"/new"), 200, "Enter "+k.One)
		form := url.Values{"new": {"yes"}}
		for _, in := range k.Form(sheet{Build: &build.Build{}}, "") {
			for _, o := range in.Pick {
				if o.Picked {
					form.Set(in.Name, o.Value)
				}
			}
		}
		for name, v := range aPart[k.Key] {
			form[name] = v
		}
		if a := b.Post(at+k.Key, form); a.Status != 303 {
			t.Errorf("%s: %d %.900s", k.Key, a.Status, a.Body)
		}
	}
	now := b.Now(t)
	for _, c := range b.Slip(t) {
		if err := c.Apply(&now); err != nil {
			t.Fatal(err)
		}
	}
	l := &now.Loom
	lamp := factOf(l.Consumers, func(x build.Consumer) bool { return x.Name == "reversing lamp" }, build.Consumer{})
	if lamp.Share != 0.07 || !lamp.Night || !lamp.Always || len(lamp.Circuits) != 2 || lamp.Circuits[0] != "C01" {
		t.Errorf("the lamp: %+v", lamp)
	}
	sw := l.Switches[len(l.Switches)-1]
	if len(sw.Positions) != 2 || !reflect.DeepEqual(sw.Positions[1].Joins, [][]string{{"15", "30"}, {"58", "58L"}}) || sw.Contacts[0].Circuits[1] != "C13" {
		t.Errorf("the switch: %+v", sw)
	}
	if c := l.Cables[0]; len(c.Sizes) != 2 || c.Sizes[1].Name != "AWG 14" || c.Sizes[1].OD.Mm() != 3.1 {
		t.Errorf("the cable: %+v", c)
	}
	if m := l.Metered[len(l.Metered)-1]; m.By == "" || m.At.Date().String() != "2026-10-13" {
		t.Errorf("the reading: %+v", m)
	}
	holds(t, b.Get("/b/pedlar/loom/parts/wire/N1"), 200, "Another like it", "Numbers of terminals", "86")
	holds(t, b.Get("/b/pedlar/loom/parts/consumer/new?like="+url.QueryEscape("reversing lamp")), 200, `value="21"`)
}

func TestParts_SayWhatIsWrongBesideIt(t *testing.T) {
	b := &placetest.Bench{Shop: loomShop(t)}
	now := b.Now(t)
	for _, c := range []struct{ kind, id, name, value, says string }{
		{"battery", "battery", "ah", "", "Holds is empty"},
		{"alternator", "alternator", "idle", "400", "does not hold"},
		{"fuse", "F1", "amps", "many", "Rating is not a number"},
		{"consumer", "headlamp L dip", "amps", "4", "and amps: say one of them"},
		{"consumer", "headlamp L dip", "circuits", "C99", "Circuits does not hold"},
		{"never-together", "X1", "never", "C17", "names fewer than two"},
		{"switch", "ignition switch", "positions", "off\non = 30", "line 2 joins 30 to nothing"},
		{"switch", "ignition switch", "contacts", "C04", "line 1 is not a terminal"},
		{"relay", "dip relay", "contacts", "88 = C08", "does not hold"},
		{"connector", "front plug L", "cavities", "0", "must be from 1"},
		{"joint", "earth front L", "circuits", "C99", "does not hold"},
		{"settings", "the loom", "airs", "engine 80", "line 1 is not a name"},
		{"settings", "the loom", "airs", "boot = 40", "does not hold"},
	} {
		i := 0
		for ; kinds()[i].Key != c.kind; i++ {
		}
		form := placetest.Filled(c.id, kinds()[i].Form(sheet{Build: &now}, c.id))
		form.Set(c.name, c.value)
		holds(t, b.Post("/b/pedlar/loom/parts/"+c.kind, form), 422, c.says)
	}
	holds(t, b.Post("/b/pedlar/loom/parts/fuse-box/fuse%20box/drop", nil), 422, "still named")
	if a := b.Post("/b/pedlar/loom/parts/never-together/X1/drop", nil); a.Status != 303 {
		t.Errorf("X1 taken off: %d", a.Status)
	}
	b.As(account.Guest)
	holds(t, b.Get("/b/pedlar/loom/parts"), 200, "What feeds it", "fuse box")
	holds(t, b.Get("/b/pedlar/loom/parts/relay/dip%20relay"), 200, "a diode")
	holds(t, b.Get("/b/pedlar/loom/parts/moonlight"), 404)
}

// TestParts_EmptyOnes says what to enter where a build has none.
func TestParts_EmptyOnes(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	b := placetest.NewOf(t, file, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
	at := "/b/" + file.Build.Name + "/loom/"
	holds(t, b.Get(at+"parts"), 200, "None yet.")
	for _, k := range kinds() {
		if !k.Only {
			holds(t, b.Get(at+"parts/"+k.Key), 200, "None is entered yet", "Enter "+k.One)
		}
	}
	holds(t, b.Get(at+"charging"), 200, "No battery is entered")
	holds(t, b.Get(at+"charging/change?from=6"), 200, "Nothing that minds is entered")
}

// TestCharging_FiguresAndRemedies: what is drawn, and what 12 V asks of each part.
func TestCharging_FiguresAndRemedies(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/charging"), 200, "charging balance", "wet night at idle", "parked on battery", "Wet night at idle", "gives off gas")
	if rows := rowsOf(t, s, "loom/charging?as=csv"); len(rows) < 30 || rows[0][3] == "" {
		t.Errorf("%d loads: %v", len(rows), rows)
	}
	holds(t, s.Get("loom/charging/change"), 200, "not a 6 V one", "a diode lies across its coil")
	holds(t, s.Get("loom/charging/change?from=6"), 200, "a 12 V bulb of the same watts", "a coil for 12 V", "half the amps")
}

// TestOne_WayHeatAndNeighbours: the page of a circuit tells its way, what it
// bears, who shares its fuse, and takes the length of the route over.
func TestOne_WayHeatAndNeighbours(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/circuit/C15"), 200, "From the battery to earth", "C03 battery → fuse box", "fuse F11, 7.5 A in fuse box", "the fuse opens in time", "bears it", "C20 reverse lamp", "along the route", "Take the route&#39;s length over")
	holds(t, s.Get("loom/circuit/C01"), 200, "no fuse", "nothing opens")
	if got := s.Post("loom/route/lengths", "circuit", "C15"); got.Status != 303 || len(s.Slip(t)) != 1 {
		t.Errorf("the length taken over: %d, %d on the slip", got.Status, len(s.Slip(t)))
	}
	holds(t, s.Post("loom/circuit", "id", "C15", "name", "stop lamps", "from", "", "to", "x", "length", "4", "load", "3", "limit", "3", "duty", "int", "fuse", "F11"), 422, "From is empty", "From the battery to earth")
}

// TestCircuits_ViewsAndNewRow: by fuse, by place, flagged alone, and a circuit
// entered by the last row.
func TestCircuits_ViewsAndNewRow(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom?by=fuse"), 200, "F11, 7.5 A: 6.5 A for long", "F4, 15 A: only what is on for seconds")
	holds(t, s.Get("loom?by=place"), 200, "From column switch")
	if rows := rowsOf(t, s, "loom?show=flagged&as=csv"); len(rows) != 8 {
		t.Errorf("%d circuits are flagged: %v", len(rows), rows)
	}
	half := []string{"name-new", "spot lamp", "load-new", "5", "shown-C08", "x", "load-C08", "5", "length-C08", "2.2", "duty-C08", "cont", "fuse-C08", "F5 7.5", "colour-C08", "U/R"}
	a := s.Post("loom/try", half...)
	holds(t, a, 200, `id="section-C08"`)
	if strings.Contains(a.Body, `id="section-C09"`) {
		t.Error("a row that the page does not show is answered")
	}
	holds(t, s.Post("loom/circuits", half...), 422, "From is empty", `value="spot lamp"`)
	form := []string{"name-new", "spot lamp", "from-new", "spot switch", "to-new", "front panel", "length-new", "2,4", "load-new", "5", "duty-new", "cont", "colour-new", "N/U", "fuse-new", "F21", "show", "flagged", "by", "fuse"}
	if got := s.Post("loom/circuits", form...); got.See != "/b/pedlar/loom?by=fuse&show=flagged" {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	if c, ok := s.Slip(t)[0].(*build.SetCircuit); !ok || c.Circuit.ID != "C41" || c.Circuit.FuseA == 0 || c.Circuit.DropLimit != 3 {
		t.Errorf("on the slip: %+v", s.Slip(t)[0])
	}
}
