package loom

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/engine/loom"
)

// TestPowerOrder: feeds come first, from the battery on, then loads; a fuse goes
// in once.
func TestPowerOrder(t *testing.T) {
	c := func(id, from, to, fuse string, feed bool) loom.Circuit {
		return loom.Circuit{Run: loom.Run{ID: id}, Name: id, From: from, To: to, Fuse: fuse, Feed: feed}
	}
	b := &build.Build{Loom: build.Loom{Batteries: []build.Battery{{Name: "battery"}}, Switches: []build.Switch{{Name: "key"}}, Fuses: []build.Fuse{{Name: "F1", Box: "box"}, {Name: "F2"}}}}
	p := loom.Problem{Fuses: []loom.Fuse{{Name: "F1"}, {Name: "F2"}, {Name: "link"}}, Circuits: []loom.Circuit{
		c("coil", "key", "coil", "F2", false), c("lamp", "key", "lamp", "F2", false), c("key feed", "box", "key", "F1", true), c("solenoid", "key", "solenoid", "F2", true),
		c("main", "battery", "box", "link", true), c("strap", "battery", "body", "", true)}}
	in := map[string]bool{}
	var got []string
	for _, i := range powerOrder(b, p) {
		x := p.Circuits[i]
		got = append(got, powerDo(b, x, in[x.Fuse]))
		in[x.Fuse] = true
	}
	want := "link in, nothing on behind it: meter at the box; fuse F1 in, nothing on behind it: meter at the key; fuse F2 in, solenoid unplugged, key worked: meter at the plug; fuse F2 still in, coil on; fuse F2 still in, lamp on"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("got  %s\nwant %s", s, want)
	}
}
