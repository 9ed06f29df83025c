package strictjson_test

import (
	"strings"
	"testing"

	"fettle/fault"
	"fettle/fault/strictjson"
)

func TestDecode(t *testing.T) {
	form := strictjson.Form{What: "the list", Names: "docs/list.md"}
	for text, want := range map[string]string{
		`{"a": 1}`:        "",
		"7":               "line 1: a number does not fit here",
		"":                "line 1: the list is cut short",
		"{\n\"a\":":       "line 2: the list is cut short",
		"{\n\"a\" 1}":     "line 2: this is not JSON",
		"{\"a\":\n\"x\"}": "line 2, a: a string does not fit here",
		"{\n\"b\": 1}":    `line 2: there is nothing called "b" here`,
		"{\"a\": 1}\n{}":  "line 2: something follows the end of the list",
	} {
		var v struct {
			A int `json:"a"`
		}
		err := form.Decode([]byte(text), &v)
		if want == "" && (err != nil || v.A != 1) || want != "" && (err == nil || !strings.HasPrefix(err.Error(), want) || fault.KindOf(err) != fault.Invalid) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	var v struct{}
	if err := (strictjson.Form{What: "the list"}).Decode([]byte(`{"b": 1}`), &v); err != nil {
		t.Errorf("a name that need not be known: %v", err)
	}
}
