package build_test

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/fault"
)

// FuzzDecodeList reads anything as a list of changes. What is refused says so
// as a fault of the input; what is read reads back the same, and applies to the
// small build as a whole or leaves it as it was, its facts keeping the rules.
func FuzzDecodeList(f *testing.F) {
	for _, k := range build.Kinds() {
		one, err := build.EncodeNamed(k.New())
		if err != nil {
			f.Fatal(err)
		}
		f.Add(append(append([]byte("["), one...), ']'))
	}
	f.Add([]byte(`[{"kind":"record-finding","finding":{"id":"F46","panels":["P1"],"x_mm":1900,"size":{"width_mm":120,"height_mm":60}}}]`))
	f.Add([]byte(`[{"kind":"set-solvent-limits","limits":{"title":"t","note":"n","classes":[{"id":"top","name":"c","most_g_l":400,"staged":true}]}}]`))
	f.Add([]byte(`[{"kind":"set-fuse","fuse":{"name":"F1","amps":7.5,"box":"box"}},{"kind":"set-circuit","circuit":{"id":"C9","length_mm":900,"load_a":2,"drop_limit_percent":3,"fuse":"F1","ends":["W1","W2"]}},{"kind":"drill-hole","hole":"H1","day":"2026-03-03"}]`))
	f.Add([]byte(`[{"kind":"say-left","task":"T1","left":[{"trade":"MW","hours_h":31}]},{"kind":"end-task","task":"T1","day":"2026-03-24"}]`))
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := build.DecodeList(data)
		if err != nil {
			if fault.KindOf(err) != fault.Invalid || list != nil {
				t.Fatalf("%v with %d changes, want an invalid fault alone", err, len(list))
			}
			return
		}
		again, err := build.DecodeList(written(t, list))
		if err != nil || !bytes.Equal(written(t, again), written(t, list)) {
			t.Fatalf("read back: %v\n%s\n%s", err, written(t, list), written(t, again))
		}
		before := cart()
		after, err := build.ApplyAll(before, list)
		if diff := cmp.Diff(cart(), before); diff != "" {
			t.Fatalf("applying altered the build it was given: %s", diff)
		}
		if err == nil {
			if err := after.Validate(); err != nil {
				t.Fatalf("%s leaves a build that breaks a rule: %v", written(t, list), err)
			}
		}
	})
}

// written is a list as DecodeList reads it.
func written(t *testing.T, list []build.Change) []byte {
	t.Helper()
	var parts [][]byte
	for _, c := range list {
		one, err := build.EncodeNamed(c)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, one)
	}
	return append(append([]byte("["), bytes.Join(parts, []byte(","))...), ']')
}
