package figure_test

import (
	"encoding/json"
	"testing"

	"fettle/figure"
)

// TestFigure_Form holds the keys that places and documents read.
func TestFigure_Form(t *testing.T) {
	whole := figure.Figure{Name: "cash", Text: "£3", Formula: "a + b", With: "£1 + £2 = £3", Caution: "mind the step",
		Inputs: []figure.Input{{Name: "a", Value: "£1", Source: figure.Measured, Note: "n = 1", Link: "tin"}, {Name: "b", Value: "£2", Source: figure.TradeDefault}}}
	for _, tt := range []struct {
		f    figure.Figure
		want string
	}{
		{figure.Figure{Name: "x", Text: "1", Formula: "f", With: "w"}, `{"name":"x","text":"1","formula":"f","with":"w"}`},
		{whole, `{"name":"cash","text":"£3","formula":"a + b","with":"£1 + £2 = £3","inputs":[` +
			`{"name":"a","value":"£1","source":"measured","note":"n = 1","link":"tin"},{"name":"b","value":"£2","source":"trade default"}],"caution":"mind the step"}`},
	} {
		if got, err := json.Marshal(tt.f); string(got) != tt.want || err != nil {
			t.Errorf("%s is written\n%s, %v, want\n%s", tt.f.Name, got, err, tt.want)
		}
	}
}
