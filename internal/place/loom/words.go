package loom

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
)

// changed tells whether a circuit stands otherwise on the slip.
func (s sheet) changed(id string) bool {
	now, kept := s.Build.Circuit(id), s.Kept.Circuit(id)
	if now == nil || kept == nil {
		return now != kept
	}
	a, b := *now, *kept
	same := slices.Equal(a.Ends, b.Ends)
	a.Ends, b.Ends = nil, nil
	return !same || !equal(a, b)
}

// equal compares circuits but for their ends.
func equal(a, b build.Circuit) bool {
	return a.Name == b.Name && a.From == b.From && a.To == b.To && a.Label == b.Label && a.Section == b.Section && a.Pair == b.Pair &&
		a.DropLimit == b.DropLimit && a.Air == b.Air && a.Unfused == b.Unfused && a.Feed == b.Feed && a.FuseA == b.FuseA &&
		a.Length == b.Length && a.Load == b.Load && a.Duty == b.Duty && a.Colour == b.Colour && a.Fuse == b.Fuse
}

// heading is a column of the list in words.
func heading(column string) string {
	if column == "duty" {
		return "On"
	}
	return strings.ToUpper(column[:1]) + column[1:]
}

// fieldWords names a field of the list, such as "Load of C08".
func fieldWords(name string) string {
	column, id, ok := strings.Cut(name, "-")
	switch {
	case !ok:
		return "The list"
	case id == "new":
		id = "the new one"
	}
	return heading(column) + " of " + id
}

// bare is a figure without its unit, where the heading has it.
func bare(f figure.Figure) figure.Figure {
	f.Text, _, _ = strings.Cut(f.Text, " ")
	return f
}

// shown is the list with its workings, for those who only read.
func (page listPage) shown() table.Table {
	t := page.Table
	for i, l := range page.Lines {
		if len(l.Found) == 0 {
			continue
		}
		r, cells := l.worst(), t.Rows[i].Cells
		cells[0] = table.Link(l.Circuit.ID, page.onePath(l.Circuit.ID))
		cells[9] = table.Show(r.Section, working.Figure("w-section-"+r.ID, working.Inline, section(r)))
		cells[11] = table.Show(volts(r.DropV), working.Figure("w-drop-"+r.ID, working.Inline, bare(r.Drop)))
	}
	return t
}
