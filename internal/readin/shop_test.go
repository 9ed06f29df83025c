package readin

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"fettle/build"
	"fettle/fault"
	"fettle/unit"
)

// shop is a small build of the tests: some panels with a left and a right, two
// tasks, three people.
func shop() build.Build {
	b := build.Build{Name: "test", Currency: unit.Currency{Code: "GBP", Symbol: "£"}}
	b.Promise.In = unit.Day(2026, 9, 14)
	b.Trades = []build.Trade{{ID: "MW", Name: "metalworker"}, {ID: "LD", Name: "lead designer-builder"}, {ID: "PT", Name: "painter"}}
	for _, id := range []string{"MW", "LD", "PT"} {
		p := build.Person{ID: build.PersonID(id), Name: map[string]string{"MW": "Mair Wade", "LD": "Lou Dunn", "PT": "Pat Teal"}[id],
			Trades: []build.TradeID{build.TradeID(id)}, Starts: "08:00"}
		p.Week[0] = 8 * unit.Hour
		b.People = append(b.People, p)
	}
	b.Tasks = []build.Task{
		{ID: "T07", Name: "findings sweep", Stage: "metal", State: build.Finished},
		{ID: "T08", Name: "metal A floors sills frame", Stage: "metal", State: build.NotBegun},
		{ID: "T29", Name: "doors, lamps, bright work", Stage: "assembly", State: build.NotBegun},
	}
	b.Zones = []build.Zone{{ID: "limewash", Name: "Limewash"}}
	for _, line := range strings.Split(shopPanels, "\n") {
		f := strings.Split(line, ",")
		b.Panels = append(b.Panels, build.Panel{ID: build.PanelID(f[0]), Name: f[1], Side: f[2],
			Decision: build.Keep, State: build.Keep, Task: "T08"})
	}
	b.Findings = []build.Finding{{ID: "F31", Panels: []build.PanelID{"P05"}, Found: "strip", What: "holes",
		Size: build.Size{Width: unit.Millimetre}, Task: "T08", State: build.Sized}}
	b.Risk.Reserve = []build.Reserve{{Task: "T08", Trade: "MW", Since: "blast"}}
	b.Parts = []build.Part{{ID: "Q10", Name: "steel sheet", Quantity: 1, Task: "T08", State: build.Wanted}}
	return b
}

const shopPanels = `P01,roof skin front,C
P02,roof skin rear,C
P04,gutter,L
P05,gutter,R
P07,A-post,L
P08,A-post,R
P09,B-post,L
P12,cab door skin,R
P15,bonnet skin,C
P17,front wing,L
P18,front wing,R
P20,inner wing,R
P31,sill outer,L
P40,body side upper rear,R
P41,body side lower front,L
P42,body side lower front,R
P47,rear arch inner,L
P52,cross-member mid,C
P56,rear corner post,L
P57,rear corner post,R`

// openFile opens a sample of testdata.
func openFile(t *testing.T, name string) Sheet {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := Open(name, f, 0)
	if err != nil {
		t.Fatalf("Open(%s): %v", name, err)
	}
	return s
}

// openString opens a list written in a test.
func openString(t *testing.T, text string) Sheet {
	t.Helper()
	s, err := Open("list.csv", strings.NewReader(text), 0)
	if err != nil {
		t.Fatalf("Open(%q): %v", text, err)
	}
	return s
}

// planString plans a list written in a test for the shop's build.
func planString(t *testing.T, kind Kind, text string, o Options) Result {
	t.Helper()
	s := openString(t, text)
	return Plan(shop(), kind, s, Match(kind, s.Heads), o)
}

// wantGood fails unless every row is good and the changes apply.
func wantGood(t *testing.T, res Result, rows int) *build.Build {
	t.Helper()
	for _, r := range res.Rows {
		if r.Status != Good {
			t.Errorf("line %d is %s: %s: %s (%s)", r.Line, r.Status, r.Field, r.Reason, r.Hint)
		}
	}
	if len(res.Changes) != rows {
		t.Errorf("got %d changes, want %d", len(res.Changes), rows)
	}
	after, err := build.ApplyAll(shop(), res.Changes)
	if err != nil {
		t.Fatalf("the changes do not apply: %v", err)
	}
	return &after
}

// wantFault fails unless err is a fault of a kind whose text holds says.
func wantFault(t *testing.T, err error, kind fault.Kind, says string) {
	t.Helper()
	if err == nil {
		t.Fatalf("got no error, want one that says %q", says)
	}
	if got := fault.KindOf(err); got != kind {
		t.Errorf("got a fault of kind %s, want %s: %v", got, kind, err)
	}
	if text := err.Error() + "; " + fault.HintOf(err); !strings.Contains(text, says) {
		t.Errorf("got %q, want it to say %q", text, says)
	}
}

func describe(s Sheet) string {
	return fmt.Sprintf("%s, %s, %d rows", s.Encoding, s.Separator, len(s.Rows))
}

func sprint(v any) string { return fmt.Sprint(v) }
