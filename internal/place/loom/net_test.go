package loom

import (
	"encoding/json"
	"strings"
	"testing"

	stage "fettle/stage/loom"
)

// TestNet_EveryRunOnce: each circuit stands on one sheet, with its switch or
// relay by terminals, connector by cavity and the earth nearest to its consumer.
func TestNet_EveryRunOnce(t *testing.T) {
	s := loomShop(t)
	var rungs []rung
	if err := json.Unmarshal([]byte(s.Get("loom/net?as=json").Body), &rungs); err != nil || len(rungs) != 40 {
		t.Fatalf("%d runs, %v", len(rungs), err)
	}
	page := s.Get("loom/net").Body
	for _, g := range rungs {
		if n := strings.Count(page, `href="/b/pedlar/loom/circuit/`+g.ID+`"`); n != 1 {
			t.Errorf("%s is drawn %d times", g.ID, n)
		}
	}
	if strings.Contains(page, "…") {
		t.Error("a name is cut off")
	}
	for id, want := range map[string][2]string{
		"C08": {lighting, "C08: from dip relay terminal 87 by U/R 1.0 to headlamp L dip by headlamp plug L cavity 1, fuse F5 7.5 A"},
		"C12": {lighting, "C12: from light switch terminal 58 by R/B 0.5 to front side L by front plug L cavity 1 and tail L by rear plug L cavity 1, fuse F9 5 A"},
		"C15": {signals, "stop R by rear plug R cavity 2"}, "C21": {motors, "wiper motor"}, "C02": {charging, "battery"}, "C06": {ignition, "fuel pump"}, "C36": {inside, "radio"}, "C26": {gauges, "tank sender"},
	} {
		for _, g := range rungs {
			if g.ID == id && (g.System != want[0] || !strings.Contains(g.Says(), want[1])) {
				t.Errorf("%s: on %s, says %q", id, g.System, g.Says())
			}
			if g.ID == "C12" && (g.Loads[0].Earth != "earth front L" || g.Loads[1].Earth != "earth rear L") {
				t.Errorf("earths of C12: %+v", g.Loads)
			}
		}
	}
	one := s.Get("loom/net?system=lighting").Body
	holds(t, s.Get("loom/net?system=lighting"), 200, "net-drive", ">86<", ">85<", ">87<", "side, head", "F5 7.5 A")
	if strings.Count(one, "<figure") != 1 || strings.Contains(one, "/circuit/C36") {
		t.Error("a system alone shows others")
	}
}

// TestNet_FusesWhereTheyMustBe: behind a terminal that several hang on, behind a
// switch that has a feed of its own, else before.
func TestNet_FusesWhereTheyMustBe(t *testing.T) {
	shop := loomShop(t)
	b := shop.Build(t)
	s := sheet{Base: "/b/pedlar", Build: &b}
	var err error
	if s.Loom, err = stage.Work(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	for _, g := range s.rungs() {
		want, asked := map[string]bool{"C08": true, "C12": true, "C05": true, "C14": false, "C15": false, "C17": false, "C31": false, "C40": false}[g.ID]
		if asked && s.late(g) != want {
			t.Errorf("%s: fuse behind its feeder %v, want %v", g.ID, s.late(g), want)
		}
	}
}

func TestFolded(t *testing.T) {
	if got := strings.Join(wrapped("front side and indicator L", 12), "|"); got != "front side|and|indicator L" {
		t.Errorf("got %s", got)
	}
}
