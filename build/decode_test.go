package build_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"fettle/build"
	"fettle/fault"
)

// wantFault fails unless err is an invalid fault at a place, saying something.
func wantFault(t *testing.T, what string, err error, where, says string) {
	t.Helper()
	f, ok := errors.AsType[*fault.Fault](err)
	if !ok || f.Kind != fault.Invalid || f.Where != where || !strings.Contains(f.Msg, says) {
		t.Errorf("%s: %v, want an invalid fault at %q that says %q", what, err, where, says)
	}
}

func TestDecode_Refuses(t *testing.T) {
	for _, tt := range []struct {
		kind        string
		version     int
		json        string
		where, says string
	}{
		{"paint-it-black", 1, `{}`, "", `no kind of change called "paint-it-black"`},
		{"begin-task", 2, `{}`, "", "newer"},
		{"begin-task", 0, `{}`, "", "the first is 1"},
		{"begin-task", 1, `{"task":"T1","dya":"2026-03-02"}`, "begin-task", `unknown field "dya"`},
		{"begin-task", 1, `{"task":1}`, "begin-task, task", "number does not fit here"},
		{"record-finding", 1, `{"finding":{"size":{"count":"two"}}}`, "record-finding, finding.size.count", "string does not fit here"},
		{"begin-task", 1, `{"task":"T1","day":"Tuesday"}`, "begin-task", `"Tuesday" is not a date`},
		{"pay", 1, `{"payment":{"amount":"a lot"}}`, "pay", "not a plain decimal"},
		{"begin-task", 1, `{"task":}`, "begin-task, byte 9", "cannot be read"},
		{"begin-task", 1, `{"task":"T1"`, "begin-task", "cannot be read"},
		{"begin-task", 1, ``, "begin-task", "cannot be read"},
		{"begin-task", 1, `{} {}`, "begin-task, byte 3", "something follows"},
		{"begin-task", 1, `[]`, "begin-task", "array does not fit here"},
	} {
		c, err := build.Decode(tt.kind, tt.version, []byte(tt.json))
		wantFault(t, tt.kind+" "+tt.json, err, tt.where, tt.says)
		if c != nil {
			t.Errorf("%s %s gives %+v beside the fault", tt.kind, tt.json, c)
		}
	}
}

func TestDecodeList_Refuses(t *testing.T) {
	for _, tt := range []struct{ json, where, says string }{
		{`{}`, "list of changes", "object does not fit here"},
		{`[`, "list of changes, byte 1", "cannot be read"},
		{`[{"task":"T1"}]`, "change 1, kind", `needs a "kind"`},
		{`[{"kind":7}]`, "change 1, kind", `needs a "kind"`},
		{`[null]`, "change 1, kind", `needs a "kind"`},
		{`["begin-task"]`, "change 1, change", "string does not fit here"},
		{`[{"kind":"begin-task"},{"kind":"fly"}]`, "change 2", `"fly"`},
		{`[{"kind":"begin-task","task":true}]`, "change 1, begin-task, task", "bool does not fit here"},
	} {
		list, err := build.DecodeList([]byte(tt.json))
		wantFault(t, tt.json, err, tt.where, tt.says)
		if list != nil {
			t.Errorf("%s gives %d changes beside the fault", tt.json, len(list))
		}
	}
}

func TestEncodeNamed_IsReadByDecodeList(t *testing.T) {
	kinds := map[string]bool{}
	for _, c := range pool() {
		data, err := build.EncodeNamed(c)
		if err != nil {
			t.Fatal(err)
		}
		list, err := build.DecodeList([]byte("[" + string(data) + "]"))
		if err != nil || len(list) != 1 {
			t.Errorf("%s: %d changes, %v", data, len(list), err)
			continue
		}
		if d := cmp.Diff(form(t, c), form(t, list[0])); d != "" || list[0].Kind() != c.Kind() {
			t.Errorf("%s read back (-want +got):\n%s", c.Kind(), d)
		}
		kinds[c.Kind()] = true
	}
	for _, k := range build.Kinds() {
		if !kinds[k.Name] {
			t.Errorf("no change of the kind %s was written", k.Name)
		}
		data, err := build.EncodeNamed(k.New())
		if err != nil {
			t.Errorf("an empty %s: %v", k.Name, err)
		}
		if _, err := build.DecodeList([]byte("[" + string(data) + "]")); err != nil {
			t.Errorf("an empty %s is written %s: %v", k.Name, data, err)
		}
	}
}

func TestEncodeNamed_RoundTripOfAnything(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := mangled(r)
		if c == nil {
			return
		}
		data, err := build.EncodeNamed(c)
		if err != nil {
			r.Fatal(err)
		}
		list, err := build.DecodeList([]byte("[" + string(data) + "]"))
		if err != nil || form(t, list[0]) != form(t, c) {
			r.Fatalf("%s read back as %+v, %v", data, list, err)
		}
	})
}

func form(t *testing.T, c build.Change) string {
	t.Helper()
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
