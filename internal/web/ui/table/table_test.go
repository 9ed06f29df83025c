package table

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var list = Table{
	ID: "list", Caption: "Findings", Self: "/b/x/list?week=3",
	Columns: []Column{{Head: "No."}, {Head: "Work", Unit: "h", Number: true}},
	Rows: []Row{
		{ID: "F1", Group: "Roof", Cells: []Cell{Link("F1", "/f/1"), Text("10.0")}},
		{ID: "F2", Group: "Roof", Cells: []Cell{Text("F2"), Text("6.5")}},
		{ID: "F3", Group: "Sills", Cells: []Cell{Text("F3"), Text("9.0")}},
	},
}

func TestTable_Records(t *testing.T) {
	want := [][]string{{"No.", "Work, h"}, {"F1", "10.0"}, {"F2", "6.5"}, {"F3", "9.0"}}
	if diff := cmp.Diff(want, list.Records()); diff != "" {
		t.Errorf("want -, got +:\n%s", diff)
	}
}

func TestDraw(t *testing.T) {
	var b strings.Builder
	if err := Draw(list).Render(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	got := b.String()
	for _, want := range []string{
		"<caption>Findings</caption>", `<th scope="col" class="right num">`, `<td class="right num">6.5</td>`,
		`href="/b/x/list?week=3&amp;as=csv"`, `<a href="/f/1">F1</a>`, `<tr id="F3"`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("lacks %s", want)
		}
	}
	if n := strings.Count(got, "list-group"); n != 2 {
		t.Errorf("%d group headings, want 2", n)
	}
	b.Reset()
	if err := Draw(Table{ID: "none", Empty: "Nothing yet."}).Render(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); !strings.Contains(got, "Nothing yet.") || strings.Contains(got, "<table") {
		t.Errorf("an empty list: %s", got)
	}
}
