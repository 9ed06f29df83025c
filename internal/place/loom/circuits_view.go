package loom

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/ways"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// listView is which circuits of the list are shown, and in what order.
type listView struct{ By, Show string }

// viewOf reads it from what was asked; what is not known is the whole list.
func viewOf(f *web.Form) listView {
	v := listView{By: f.Raw("by"), Show: f.Raw("show")}
	if !slices.Contains([]string{"fuse", "place"}, v.By) {
		v.By = ""
	}
	if v.Show != "flagged" {
		v.Show = ""
	}
	return v
}

// query is the view behind an address.
func (v listView) query() string {
	var words []string
	if v.By != "" {
		words = append(words, "by="+v.By)
	}
	if v.Show != "" {
		words = append(words, "show="+v.Show)
	}
	if len(words) == 0 {
		return ""
	}
	return "?" + strings.Join(words, "&")
}

// orders are the ways between the orders, shows those between what is shown.
func (page listPage) orders() []ways.Way {
	at := func(label, by string) ways.Way {
		return ways.Way{Href: page.At() + listView{by, page.View.Show}.query(), Label: label}
	}
	return []ways.Way{at("By number", ""), at("By fuse", "fuse"), at("By place", "place")}
}

func (page listPage) shows() []ways.Way {
	return []ways.Way{{Href: page.At() + listView{page.View.By, ""}.query(), Label: "All " + fmt.Sprint(len(page.Build.Circuits))},
		{Href: page.At() + listView{page.View.By, "flagged"}.query(), Label: fmt.Sprintf("Flagged %d", page.Flagged)}}
}

// here is the address of the view.
func (page listPage) here() string { return page.At() + page.View.query() }

// flagged tells whether a line is one to put right: a rule that its section
// breaks, or a fuse that carries more than it may.
func (s sheet) flagged(l line) bool {
	for _, r := range l.Found {
		if len(r.Fails) > 0 {
			return true
		}
	}
	for _, f := range s.Loom.Fuses {
		if f.Name == l.Circuit.Fuse {
			return f.Flag || f.Inrush == "opens"
		}
	}
	return false
}

// seen puts the lines in the order of the view and leaves out what it does not show.
func (page listPage) seen(v listView) listPage {
	page.View, page.Flagged = v, 0
	lines := slices.Clone(page.Lines)
	for _, l := range lines {
		if page.flagged(l) {
			page.Flagged++
		}
	}
	if v.Show == "flagged" {
		lines = slices.DeleteFunc(lines, func(l line) bool { return !page.flagged(l) })
	}
	for i := range lines {
		lines[i].Group = page.group(lines[i].Circuit, v.By)
	}
	if v.By != "" {
		slices.SortStableFunc(lines, func(a, b line) int {
			if v.By == "fuse" {
				return page.fuseRank(a.Circuit.Fuse) - page.fuseRank(b.Circuit.Fuse)
			}
			return cmp.Compare(a.Group, b.Group)
		})
	}
	page.Lines = lines
	page.Table = page.table()
	return page
}

// fuseRank is where a fuse stands in the list; none stands first.
func (s sheet) fuseRank(name string) int {
	return slices.IndexFunc(s.Loom.Fuses, func(f stage.FuseLoad) bool { return f.Name == name })
}

// group is the heading that a circuit stands under.
func (s sheet) group(c build.Circuit, by string) string {
	switch by {
	case "fuse":
		if fuse, _ := s.neighbours(c); fuse != nil {
			text := fmt.Sprintf("%s, %g A: ", fuse.Name, fuse.Amps)
			if fuse.LongA == 0 && fuse.ShortA > 0 {
				return text + "only what is on for seconds"
			}
			return text + amps(fuse.LongA) + " A for long"
		}
		return "No fuse of the list"
	case "place":
		return "From " + c.From
	}
	return ""
}

// labelWord says whether the labels of both ends of a circuit are printed as
// they stand.
func (s sheet) labelWord(id string) string {
	said := ""
	for _, c := range s.Loom.Cuts {
		if c.Circuit != id {
			continue
		}
		l := printed(s.Build, id)
		if l == nil {
			return notPrinted
		}
		if said = "printed, both ends"; !slices.Contains(l.Text, c.Label) {
			return "printed with an older text"
		}
	}
	return said
}

// notPrinted is said of most rows until the labels are made: the list leaves it out.
const notPrinted = "not printed"

// newFields are those of the last row, which enters a circuit.
var newFields = []string{"name", "from", "to", "length", "load", "colour", "fuse"}

// readNew reads the last row of the list: nothing where it is empty, or half
// typed where that may be.
func (page *listPage) readNew(f *web.Form, half bool) []build.Change {
	page.Fresh = map[string]string{"duty": f.Raw("duty-new")}
	empty, lacks := true, false
	for _, name := range newFields {
		page.Fresh[name] = strings.TrimSpace(f.Raw(name + "-new"))
		empty = empty && page.Fresh[name] == ""
		lacks = lacks || name != "colour" && page.Fresh[name] == ""
	}
	if empty || half && lacks {
		return nil
	}
	before := len(f.Errors)
	c := build.Circuit{ID: page.nextCircuit(), Name: f.Text("name-new", 1, 80), From: f.Text("from-new", 1, 80), To: f.Text("to-new", 1, 80), DropLimit: usualDrop,
		Length: unit.Length(f.Decimal("length-new", 3, 1, mostMetres*1000)) * unit.Millimetre, Load: float64(f.Decimal("load-new", 2, 0, mostAmps*100)) / 100,
		Duty: f.Choice("duty-new", field.Values(duties)...), Colour: f.Text("colour-new", 0, 20)}
	var err error
	if c.Fuse, c.FuseA, err = readFuse(page.Build, page.Fresh["fuse"]); err != nil {
		f.Fail("fuse-new", err.Error())
	}
	page.Errors = append(page.Errors, f.Errors[before:]...)
	if len(f.Errors) > before {
		return nil
	}
	return []build.Change{&build.SetCircuit{Circuit: c}}
}

// usualDrop is the percent that a new circuit may lose one way until somebody
// says otherwise.
const usualDrop = 3

// more joins what else is asked to an address.
func more(address string) string {
	if strings.Contains(address, "?") {
		return "&"
	}
	return "?"
}

// print tells one answer of a line from another: the page holds that of what it
// shows and sends it along, so that only what differs is answered.
func (l line) print() string {
	h := fnv.New64a()
	for _, r := range l.Found {
		fmt.Fprint(h, r.ID, r.Section, r.Rule, r.Fails, r.DropV, r.DropMaxV, r.Working, r.Drop)
	}
	return strconv.FormatUint(h.Sum64(), 36)
}
