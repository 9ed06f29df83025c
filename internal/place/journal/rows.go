package journal

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/unit"
)

// row is one entry as a person reads it.
type row struct {
	ID     string    `json:"id"`
	Seq    int64     `json:"seq"`
	At     time.Time `json:"at"`
	Person string    `json:"person"`
	Device string    `json:"device"`
	Kind   string    `json:"kind"`
	Says   string    `json:"says"`
	Note   string    `json:"note,omitempty"`
	Of     []string  `json:"of,omitempty"`            // the things it is about, such as finding/F32
	Undone bool      `json:"taken_back,omitempty"`    // it does not count
	By     string    `json:"taken_back_by,omitempty"` // who took it back
	When   time.Time `json:"taken_back_at,omitzero"`
}

// sheet is what the pages of the journal know.
type sheet struct {
	Base   string
	Crew   bool
	Rows   []row // newest first
	Page   []row
	Older  string // the filter of the next page; empty when there is none
	Filter filter
	People []string // everybody who kept something
	Kinds  []string
	Today  unit.Date
	Names  map[string]string // of people, by initials
	Seq    int64             // the last entry
}

func (p place) load(r *web.Request) (sheet, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return sheet{}, err
	}
	rows, err := p.readings.of(r.Build(), view.Seq, func() ([]journal.Entry, error) {
		return p.desk.Shop.Entries(r.Context(), r.Build())
	})
	if err != nil {
		return sheet{}, err
	}
	s := sheet{Base: "/b/" + r.Build(), Crew: r.Person().Role >= account.Crew, Rows: rows, Filter: filterOf(r),
		Today: p.desk.Shop.Now().Date(), Names: map[string]string{}, Seq: view.Seq}
	for _, who := range view.Build.People {
		s.Names[string(who.ID)] = who.Name
	}
	for _, one := range rows {
		s.People, s.Kinds = with(s.People, one.Person), with(s.Kinds, one.Kind)
	}
	slices.Sort(s.People)
	slices.Sort(s.Kinds)
	return s, nil
}

func with(list []string, word string) []string {
	if slices.Contains(list, word) {
		return list
	}
	return append(list, word)
}

// read replays the journal once and puts each entry into words as of the
// facts before it, the newest first.
func read(all []journal.Entry) []row {
	var b build.Build
	undone := live.Undone(all)
	rows := make([]row, 0, len(all))
	at := map[string]int{}
	for i, e := range all {
		one := row{ID: e.ID, Seq: e.Seq, At: e.At, Person: e.Person, Device: e.Device, Kind: e.Kind, Note: e.Note, Undone: undone[e.ID]}
		at[e.ID] = i
		if e.Kind == journal.KindUndo {
			one.Says = takeBack(rows, at, e, one.Undone)
			rows = append(rows, one)
			continue
		}
		one.Of = things(e.Change)
		one.Says = e.Kind
		if c, err := build.Decode(e.Kind, e.Version, e.Change); err == nil {
			one.Says = sayOf(c, &b)
			if !one.Undone {
				_ = c.Apply(&b) // the journal replays as a whole, else no page of the build would open
			}
		}
		rows = append(rows, one)
	}
	slices.Reverse(rows)
	return rows
}

func sayOf(c build.Change, b *build.Build) string {
	if start, ok := c.(*build.Start); ok {
		return "The build is opened: " + start.Build.Title
	}
	return c.Say(b)
}

// takeBack says what an undo took back and, while it holds, marks that entry.
func takeBack(rows []row, at map[string]int, e journal.Entry, undone bool) string {
	i, known := at[e.Undoes]
	if !known || i >= len(rows) {
		return "put back"
	}
	if !undone {
		rows[i].By, rows[i].When = e.Person, e.At
	}
	return fmt.Sprintf("Put back entry %d: %s", rows[i].Seq, rows[i].Says)
}

// kindOf names the kind of thing that a field of a change holds; a field that
// holds none has no kind.
func kindOf(field string) string {
	switch field {
	case "finding", "panel", "part", "load", "task", "bag", "payment", "gift", "snag", "person", "tin", "pour", "product":
		return field
	case "panels", "parts", "bags", "tins":
		return field[:len(field)-1]
	case "needed_for":
		return "task"
	case "because":
		return "finding"
	}
	return ""
}

// things lists what a change is about: IDs under the names that changes use
// for them, and what photos and notes are of.
func things(change json.RawMessage) []string {
	var body map[string]any
	if json.Unmarshal(change, &body) != nil || body["build"] != nil {
		return nil
	}
	var list []string
	walk(body, &list)
	slices.Sort(list)
	return slices.Compact(list)
}

func walk(fields map[string]any, list *[]string) {
	for name, value := range fields {
		if text, ok := value.(string); ok && (name == "of" || name == "on") && text != "" {
			*list = append(*list, text)
		}
		many, ok := value.([]any)
		if !ok {
			many = []any{value}
		}
		for _, one := range many {
			thing(kindOf(name), one, list)
		}
	}
}

// thing notes one ID, or the ID inside an object and what that refers to.
func thing(kind string, value any, list *[]string) {
	switch v := value.(type) {
	case string:
		if kind != "" && v != "" {
			*list = append(*list, kind+"/"+v)
		}
	case map[string]any:
		if id, ok := v["id"].(string); ok && kind != "" {
			*list = append(*list, kind+"/"+id)
		}
		walk(v, list)
	}
}

// device is a short name of the tablet.
func (r row) device() string {
	if id, _, found := strings.Cut(r.Device, "-"); found && len(id) == 8 {
		return "tablet " + id[:4]
	}
	return r.Device
}

// act is a run of entries that one person kept at once.
type act struct {
	Rows []row // newest first
}

// acts parts the entries of a page into days, and those into acts.
func acts(rows []row) [][]act {
	var days [][]act
	for i, one := range rows {
		newDay := i == 0 || unit.DateOf(rows[i-1].At) != unit.DateOf(one.At)
		if newDay {
			days = append(days, nil)
		}
		last := &days[len(days)-1]
		if newDay || rows[i-1].At != one.At || rows[i-1].Person != one.Person || rows[i-1].Seq != one.Seq+1 {
			*last = append(*last, act{})
		}
		group := &(*last)[len(*last)-1]
		group.Rows = append(group.Rows, one)
	}
	return days
}

// span names the entries of an act that can be put back together; empty when
// there are fewer than two or one of them is taken back already.
func (a act) span() string {
	if len(a.Rows) < 2 || a.Rows[len(a.Rows)-1].Seq == 1 {
		return ""
	}
	for _, one := range a.Rows {
		if one.Undone {
			return ""
		}
	}
	return fmt.Sprintf("%d-%d", a.Rows[len(a.Rows)-1].Seq, a.Rows[0].Seq)
}
