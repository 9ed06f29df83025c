package loom

import (
	"testing"

	"fettle/build"
)

// TestMendedAt: a check leads to what it names where that is there, and never
// to a page that is not.
func TestMendedAt(t *testing.T) {
	b := &build.Build{Circuits: []build.Circuit{{ID: "C12"}}, Loom: build.Loom{
		Wires: []build.Wire{{ID: "N1"}}, Relays: []build.Relay{{Name: "horn relay"}}, Joints: []build.Joint{{Name: "E1"}}}}
	for place, want := range map[string]string{
		"fuse F1": "loom/fuses", "box rear": "loom/fuses", "wire C12": "loom/circuit/C12", "wire C12.2": "loom/circuit/C12",
		"wire N1 at lamp:+": "loom/parts/wire/N1", "wire N9": "loom/parts", "relay horn relay": "loom/parts/relay/horn%20relay", "relay lamp, left": "loom/parts",
		"earth point E1": "loom/parts/joint/E1", "consumer tail": "loom/parts", "hole H01": "loom/route/hole/H01", "C12 and C3": "loom/circuit/C12", "the net": "loom",
	} {
		if got := mendedAt(b, place); got != want {
			t.Errorf("%q leads to %q, want %q", place, got, want)
		}
	}
}
