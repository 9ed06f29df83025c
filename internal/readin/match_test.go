package readin

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
)

// says writes a mapping as "field=heading" in the order of the columns.
func says(m Mapping) string {
	columns := slices.Clone(m.Columns)
	slices.SortFunc(columns, func(a, b Column) int { return a.At - b.At })
	var parts []string
	for _, c := range columns {
		text := c.Field + "=" + c.Head
		if c.Of != "" {
			text += " of " + c.Of
		}
		if c.Unit != "" {
			text += " in " + c.Unit
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

func TestMatch(t *testing.T) {
	for _, c := range []struct {
		kind            Kind
		heads           string // parted by |
		want            string
		missing, unused []string
	}{
		{Findings, "number|panel|x|z|what|width|height|count|remedy|hours|part|quantity|price|lead",
			"number=number; panel=panel; x=x; z=z; what=what; width=width; height=height; count=count; remedy=remedy; hours=hours; part=part; quantity=quantity; price=price; lead=lead", nil, nil},
		{Findings, "No.|PANEL|What found?|Width (mm)|Height, in|Decision|MW hours|Hours LD|PT|Colour",
			"number=No.; panel=PANEL; what=What found?; width=Width (mm) in mm; height=Height, in in in; remedy=Decision; hours=MW hours of MW; hours=Hours LD of LD; hours=PT of PT", nil, []string{"Colour"}},
		{Findings, "panel|finding|size|qty", "panel=panel; what=finding; size=size; count=qty", nil, nil},
		{Findings, "finding|panel|what|w|h", "number=finding; panel=panel; what=what; width=w; height=h", nil, nil},
		{Findings, "x|z|colour", "x=x; z=z", []string{"panel", "what", "size"}, []string{"colour"}},
		{Findings, "panel|what|dia (cm)", "panel=panel; what=what; diameter=dia (cm) in cm", nil, nil},
		{Panels, "Panel|Name|L/R|Thickness mm|Verdict|Limewash m²|area Slackwater (m2)",
			"number=Panel; name=Name; side=L/R; gauge=Thickness mm in mm; decision=Verdict; area=Limewash m² of Limewash in m²; area=area Slackwater (m2) of Slackwater in m2", nil, nil},
		{Parts, "Ref|Description|Qty|Each (£)|Lead time (weeks)|Needed for|Bought or donated",
			"number=Ref; name=Description; quantity=Qty; price=Each (£); lead=Lead time (weeks) in weeks; task=Needed for; donated=Bought or donated", nil, nil},
		{Hours, "Who|Day|Job|From|To|Remarks", "person=Who; date=Day; task=Job; start=From; stop=To; note=Remarks", nil, nil},
		{Hours, "Date|Task|MW|LD", "date=Date; task=Task; hours=MW of MW; hours=LD of LD", nil, nil},
		{Hours, "Task", "task=Task", []string{"person", "date", "hours"}, nil},
	} {
		m := Match(c.kind, strings.Split(c.heads, "|"))
		if got := says(m); got != c.want {
			t.Errorf("%s %q:\n got %s\nwant %s", c.kind, c.heads, got, c.want)
		}
		if !slices.Equal(m.Missing, c.missing) || !slices.Equal(m.Unused, c.unused) {
			t.Errorf("%s %q: missing %q, unused %q; want %q, %q", c.kind, c.heads, m.Missing, m.Unused, c.missing, c.unused)
		}
	}
}

// Every documented heading must lead to a field of its kind, whatever its case
// and punctuation.
func TestMatch_EveryHeadingIsKnown(t *testing.T) {
	for _, k := range Kinds() {
		for _, f := range Fields(k) {
			for _, name := range f.Heads {
				if f.With != "" {
					continue
				}
				if m := Match(k, []string{" " + strings.ToUpper(strings.ReplaceAll(name, " ", "_")) + ": "}); len(m.Columns) != 1 {
					t.Errorf("%s: heading %q of %s is not known", k, name, f.Name)
				}
			}
		}
	}
}

func TestMapping_Choose(t *testing.T) {
	m := Match(Findings, []string{"Blech", "what", "size", "note", "how"})
	if !slices.Equal(m.Missing, []string{"panel"}) {
		t.Fatalf("missing %q, want panel", m.Missing)
	}
	chosen, err := m.Choose(map[string]string{"panel": "blech", "how": "", "hours": "4"})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := says(chosen), "panel=Blech; what=what; size=size; hours=note"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if len(chosen.Missing) != 0 || !slices.Equal(chosen.Unused, []string{"how"}) {
		t.Errorf("missing %q, unused %q; want none, how", chosen.Missing, chosen.Unused)
	}
	for _, c := range []struct{ field, head, says string }{
		{"panel", "Glas", `there is no heading "Glas"; the headings are: Blech, what`},
		{"colour", "what", `findings have no field "colour"; the fields are: panel, what`},
		{"panel", "9", `there is no heading "9"`},
	} {
		_, err := m.Choose(map[string]string{c.field: c.head})
		wantFault(t, err, fault.Invalid, c.says)
	}
	if got := fmt.Sprint(m.Missing); got != "[panel]" {
		t.Errorf("Choose altered the mapping it was called on: missing %s", got)
	}
}
