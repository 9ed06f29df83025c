package readin

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
)

// names finds the things of a build by what people write for them.
type names struct {
	b      *build.Build
	byID   map[string]build.PanelID   // folded number
	byName map[string][]build.PanelID // panel key without its side
	guess  []string                   // what a panel may be called
	ids    []build.PanelID            // the panel of each guess
	tries  int                        // near names that were looked for
}

// mostTries bounds the search for near names, which is slow on long lists.
const mostTries = 2_000

func newNames(b *build.Build) names {
	n := names{b: b, byID: map[string]build.PanelID{}, byName: map[string][]build.PanelID{}}
	for _, p := range b.Panels {
		n.byID[numberKey(string(p.ID))] = p.ID
		key, _ := panelKey(p.Name)
		n.byName[key] = append(n.byName[key], p.ID)
		n.guess = append(n.guess, string(p.ID), p.Name, p.FullName(), p.Name+" "+p.Side)
		n.ids = append(n.ids, p.ID, p.ID, p.ID, p.ID)
	}
	return n
}

// numberKey folds a number and drops zeros before digits: P01, p1 and "P 1"
// are the same.
func numberKey(text string) string {
	text = strings.ReplaceAll(fold(text), " ", "")
	at := strings.IndexAny(text, "0123456789")
	if at < 0 || !digits(text[at:]) {
		return text
	}
	rest := strings.TrimLeft(text[at:], "0")
	if rest == "" {
		rest = "0"
	}
	return text[:at] + rest
}

// ukPairs turns pairs of words of the other shore into ours.
var ukPairs = strings.NewReplacer(" rocker panel ", " sill ", " quarter panel ", " rear side ",
	" license plate ", " number plate ", " gas filler ", " fuel filler ")

// ukWord does the same for one word.
func ukWord(word string) string {
	switch word {
	case "rocker":
		return "sill"
	case "hood":
		return "bonnet"
	case "fender":
		return "wing"
	case "firewall":
		return "bulkhead"
	case "cowl":
		return "scuttle"
	case "trunk":
		return "boot"
	case "windshield":
		return "windscreen"
	case "pillar":
		return "post"
	}
	return word
}

// panelKey folds a panel's name so that the order of words does not matter,
// and takes the side out of it.
func panelKey(name string) (key, side string) {
	var words []string
	for _, w := range strings.Fields(ukPairs.Replace(" " + fold(name) + " ")) {
		if s := sideOf(w); s != "" && side == "" {
			side = s
			continue
		}
		words = append(words, ukWord(w))
	}
	slices.Sort(words)
	return strings.Join(words, " "), side
}

// sideOf reads a side; nearside and offside differ by country and are not
// taken.
func sideOf(word string) string {
	switch strings.ToLower(word) {
	case "l", "left", "lh", "lhs":
		return "L"
	case "r", "right", "rh", "rhs":
		return "R"
	case "c", "centre", "center", "middle":
		return "C"
	}
	return ""
}

var joiners = strings.NewReplacer("+", "\n", "&", "\n", ";", "\n", ",", "\n", "/", "\n", " and ", "\n")

// panels reads one panel or several that are joined by +, commas or "and".
func (n *names) panels(text, side string) ([]build.PanelID, error) {
	text = tidy(text)
	if len(text) > longestValue {
		return nil, invalid("the text is too long for a panel")
	}
	whole, err := n.panel(text, side)
	if err == nil {
		return []build.PanelID{whole}, nil
	}
	pieces := strings.Split(joiners.Replace(text), "\n")
	if len(pieces) == 1 {
		return nil, err
	}
	var ids []build.PanelID
	for _, piece := range pieces {
		if piece = strings.TrimSpace(piece); piece == "" {
			continue
		}
		id, err := n.panel(piece, side)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		return nil, err
	}
	return ids, nil
}

// panel reads one panel: its number, perhaps with its name behind it, or its
// name in any order of words, with its side.
func (n *names) panel(text, side string) (build.PanelID, error) {
	if id, ok := n.byID[numberKey(text)]; ok {
		return id, nil
	}
	if first, rest, more := strings.Cut(strings.TrimSpace(text), " "); more && !strings.ContainsAny(rest, "+&,;/") {
		if id, ok := n.byID[numberKey(first)]; ok && strings.ContainsAny(first, "0123456789") {
			return id, nil
		}
	}
	key, written := panelKey(text)
	if written != "" {
		side = written
	}
	found := n.byName[key]
	if side != "" && len(found) > 0 {
		found = slices.DeleteFunc(slices.Clone(found), func(id build.PanelID) bool { return n.b.Panel(id).Side != side })
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return "", n.unknownPanel(text)
	}
	var called []string
	for _, id := range found {
		called = append(called, string(id)+" "+n.b.Panel(id).FullName())
	}
	return "", invalid("%q can be %s", text, strings.Join(called, " or ")).WithHint("say which side, or write the number")
}

func (n *names) unknownPanel(text string) error {
	f := invalid("there is no panel %q", text)
	if n.tries++; n.tries > mostTries {
		return f
	}
	if i := nearest(text, n.guess); i >= 0 {
		p := n.b.Panel(n.ids[i])
		return f.WithHint("did you mean " + string(p.ID) + " " + p.FullName() + "?")
	}
	return f.WithHint("write a panel's number or name as it stands in the build")
}

// pick finds a thing by number or by name, exactly or as the only beginning.
func (n *names) pick(what, text string, ids, called []string) (int, error) {
	if len(text) > longestValue {
		return -1, invalid("the text is too long for a %s", what)
	}
	number, name := numberKey(text), fold(text)
	begins := -1
	for i := range ids {
		if numberKey(ids[i]) == number || fold(called[i]) == name || fold(ids[i]+" "+called[i]) == name {
			return i, nil
		}
		if strings.HasPrefix(fold(called[i])+" ", name+" ") {
			if begins >= 0 {
				begins = len(ids)
			} else {
				begins = i
			}
		}
	}
	if name != "" && begins >= 0 && begins < len(ids) {
		return begins, nil
	}
	f := invalid("there is no %s %q", what, text)
	return -1, n.suggest(f, text, ids, called)
}

func (n *names) suggest(f *fault.Fault, text string, ids, called []string) error {
	if n.tries++; n.tries > mostTries {
		return f
	}
	if i := nearest(text, called); i >= 0 {
		return f.WithHint("did you mean " + ids[i] + " " + called[i] + "?")
	}
	if len(ids) <= 12 && len(ids) > 0 {
		return f.WithHint("the build has: " + strings.Join(ids, ", "))
	}
	if i := nearest(text, ids); i >= 0 {
		return f.WithHint("did you mean " + ids[i] + " " + called[i] + "?")
	}
	return f
}

// task finds a task by number, name or stage; a stage means its first task
// that is not finished, and the note says so.
func (n *names) task(text string) (id build.TaskID, note string, err error) {
	var ids, called []string
	for _, t := range n.b.Tasks {
		ids, called = append(ids, string(t.ID)), append(called, t.Name)
	}
	i, err := n.pick("task", text, ids, called)
	if err == nil {
		return n.b.Tasks[i].ID, "", nil
	}
	for _, t := range n.b.Tasks {
		if fold(t.Stage) == fold(text) && t.State != build.Finished && t.Outwork == "" {
			return t.ID, text + " is taken as its first open task, " + string(t.ID) + " " + t.Name, nil
		}
	}
	return "", "", err
}

// trade finds a trade by number or name.
func (n *names) trade(text string) (build.TradeID, error) {
	var ids, called []string
	for _, t := range n.b.Trades {
		ids, called = append(ids, string(t.ID)), append(called, t.Name)
	}
	i, err := n.pick("trade", text, ids, called)
	if err != nil {
		return "", err
	}
	return n.b.Trades[i].ID, nil
}

// person finds a person by number or name.
func (n *names) person(text string) (build.PersonID, error) {
	var ids, called []string
	for _, p := range n.b.People {
		ids, called = append(ids, string(p.ID)), append(called, p.Name)
	}
	i, err := n.pick("person", text, ids, called)
	if err != nil {
		return "", err
	}
	return n.b.People[i].ID, nil
}

// zone finds a paint zone by number or name.
func (n *names) zone(text string) (build.ZoneID, error) {
	var ids, called []string
	for _, z := range n.b.Zones {
		ids, called = append(ids, string(z.ID)), append(called, z.Name)
	}
	i, err := n.pick("paint zone", text, ids, called)
	if err != nil {
		return "", err
	}
	return n.b.Zones[i].ID, nil
}

// of finds what a column belongs to: a zone for panels, a trade for findings,
// a person for hours.
func (n *names) of(k Kind, text string) (id string, what string, ok bool) {
	var err error
	switch k {
	case Panels:
		var z build.ZoneID
		z, err = n.zone(text)
		return string(z), "paint zone", err == nil
	case Hours:
		var p build.PersonID
		p, err = n.person(text)
		return string(p), "person", err == nil
	}
	t, err := n.trade(text)
	return string(t), "trade", err == nil
}
