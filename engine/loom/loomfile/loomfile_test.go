package loomfile_test

import (
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"fettle/engine/loom"
	"fettle/engine/loom/loomfile"
	"fettle/fault"
)

// TestRead_Refuses: slips of a file are told with the line or the part.
func TestRead_Refuses(t *testing.T) {
	for text, want := range map[string]string{
		`{}`: `form: this is no loom: its form is ""`,
		"{\n\"form\": \"fettle loom\",\n\"lamps\": []}":                                               `line 3: there is nothing called "lamps" here`,
		"{\n\"form\": \"fettle loom\",\n\"wires\": 7}":                                                "line 3, Problem.wires: a number does not fit here",
		`{"form": "fettle loom", "wires": [{"id": "w", "length_m": 1, "from": "a:1", "to": ":"}]}`:    `line 1: ":" names no part`,
		`{"form": "fettle loom", "circuits": [{"id": "C1", "length_m": -2, "amps": 1}]}`:              "circuits[1] C1: length_m is from 0.01",
		`{"form": "fettle loom", "circuits": [{"id": "C1", "length_m": 2, "amps": 1, "fuse": "F9"}]}`: `circuits[1] C1: there is no fuse called "F9"`,
		`{"form": "fettle loom"`: "line 1: the loom is cut short",
	} {
		_, err := loomfile.Read(strings.NewReader(text))
		if err == nil || !strings.HasPrefix(err.Error(), want) || fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// TestRead_Same: what is read and written again reads the same.
func TestRead_Same(t *testing.T) {
	for _, name := range []string{"van.json", "tail.json"} {
		text, err := os.ReadFile("testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := loomfile.Read(strings.NewReader(string(text)))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		again, err := json.Marshal(struct {
			Form string `json:"form"`
			loom.Problem
		}{"fettle loom", p})
		if err != nil {
			t.Fatal(err)
		}
		q, err := loomfile.Read(strings.NewReader(string(again)))
		if err != nil {
			t.Fatalf("%s written: %v", name, err)
		}
		a, b := solve(t, p), solve(t, q)
		x, _ := json.Marshal(a)
		if y, _ := json.Marshal(b); string(x) != string(y) || len(x) < 1000 {
			t.Errorf("%s: the loom read again gives another result", name)
		}
	}
}

// FuzzRead: any text is a loom that solves to finite numbers, or a fault of the
// input.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"van.json", "tail.json"} {
		text, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add(`{"form": "fettle loom", "batteries": [{"name": "b", "ohms": 1e-9}], "consumers": [{"name": "c", "amps": 1e9}], "wires": [{"id": "w", "from": "b:+", "to": "c:+", "length_m": 1e-9}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		p, err := loomfile.Read(strings.NewReader(text))
		if err == nil && len(p.Wires)+len(p.Circuits) < 60 {
			var r loom.Result
			r, err = loom.Solve(context.Background(), p, loom.Options{MostPerGroup: 16})
			if err == nil {
				if _, bad := json.Marshal(r); bad != nil {
					t.Fatalf("the result cannot be written: %v", bad)
				}
			}
		}
		if kind := fault.KindOf(err); err != nil && kind != fault.Invalid && kind != fault.TooLarge {
			t.Fatalf("%v fault: %v", kind, err)
		}
	})
}
