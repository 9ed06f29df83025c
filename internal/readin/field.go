package readin

import "slices"

// Kind is what a list holds.
type Kind string

// The kinds of list.
const (
	Panels   Kind = "panels"
	Findings Kind = "findings"
	Parts    Kind = "parts"
	Hours    Kind = "hours"
)

// Kinds lists the kinds in the order in which a new build needs them.
func Kinds() []Kind { return []Kind{Panels, Findings, Parts, Hours} }

// Field is one thing that a row can say.
type Field struct {
	Name  string
	What  string   // for people
	Heads []string // headings that mean it, as docs/import.md lists them
	Need  bool     // a row cannot do without it
	With  string   // the field must have a column for this one to be looked for
	Or    []string // fields that can stand in for it where it is needed
}

// Fields lists the fields of a kind, in the order in which headings are given
// to them: where one heading can mean two things, the earlier field wins.
func Fields(k Kind) []Field {
	switch k {
	case Panels:
		return panelFields()
	case Findings:
		return findingFields()
	case Parts:
		return partFields()
	case Hours:
		return hoursFields()
	}
	return nil
}

func panelFields() []Field {
	return []Field{
		{Name: "name", What: "the panel's name, such as front wing", Need: true,
			Heads: []string{"name", "panel name", "description", "desc", "panel", "piece", "what", "part"}},
		numberField("the panel's number, such as P17; empty takes the next free one", "panel no", "panel number", "panel id", "panel code", "panel ref", "panel"),
		{Name: "side", What: "L, R or C; empty is C", Heads: []string{"side", "hand", "l r", "lr", "l r c", "left right"}},
		{Name: "gauge", What: "thickness of the sheet", Heads: []string{"gauge", "gage", "thickness", "thick", "sheet", "metal thickness", "sheet thickness", "steel"}},
		{Name: "decision", What: "keep, repair, replace or make; empty is keep",
			Heads: []string{"decision", "remedy", "action", "what to do", "verdict", "decided", "plan"}},
		{Name: "state", What: "how far the panel is", Heads: []string{"state", "status", "stage", "how far"}},
		taskField("the metal task of its findings", "metal task"),
	}
}

func numberField(what string, more ...string) Field {
	heads := []string{"number", "no", "nr", "num", "#", "id", "ref", "reference", "code", "mark", "chalk", "chalk mark", "chalk no", "chalk number", "item no", "item number"}
	return Field{Name: "number", What: what, Heads: append(heads, more...)}
}

func taskField(what string, more ...string) Field {
	return Field{Name: "task", What: what, Heads: append(more, "task", "task no", "task number", "job", "operation", "work package")}
}

func findingFields() []Field {
	return slices.Concat([]Field{
		{Name: "panel", What: "the panel it lies on, by number or name; two are joined by +", Need: true,
			Heads: []string{"panel", "panels", "panel no", "panel number", "panel name", "body panel", "on panel", "where", "location"}},
		{Name: "what", What: "what was found", Need: true,
			Heads: []string{"what", "what found", "what was found", "what is it", "description", "desc", "fault", "defect", "damage", "problem", "condition", "finding", "rust", "rot"}},
		numberField("the number chalked on the metal, such as F32; empty takes the next free one", "finding no", "finding number", "finding id", "f no", "finding"),
		{Name: "side", What: "L or R, where the panel's name does not say", Heads: []string{"side", "hand", "l r", "lr"}},
		{Name: "x", What: "distance behind the front axle", Heads: []string{"x", "x pos", "x position", "from front axle", "behind front axle", "rear of front axle", "along", "fore and aft"}},
		{Name: "z", What: "height above the floor", Heads: []string{"z", "z pos", "z position", "above floor", "height above floor", "from floor", "height from floor", "up"}},
		{Name: "found", What: "when it was found, such as blast", Heads: []string{"found", "found at", "found in", "found during", "found when", "seen at", "seen"}},
	}, sizeFields(), decisionFields(), rowPartFields(), []Field{
		{Name: "count", What: "how many equal places", Heads: []string{"count", "places", "how many", "number of places", "no of", "no off", "off", "holes", "times", "qty", "quantity", "pcs"}},
	})
}

func sizeFields() []Field {
	return []Field{
		{Name: "size", What: "the size in one cell, such as 260x180", Need: true, Or: []string{"width", "diameter"},
			Heads: []string{"size", "sizes", "dimensions", "dimension", "dims", "dim", "w x h", "wxh", "width x height", "size w x h", "extent", "area affected"}},
		{Name: "width", What: "the width; a crack has no more", Heads: []string{"width", "wide", "w", "length", "long", "len"}},
		{Name: "height", What: "the height", Heads: []string{"height", "high", "h", "depth", "tall"}},
		{Name: "diameter", What: "the diameter of holes", Heads: []string{"diameter", "dia", "hole size", "hole diameter"}},
		{Name: "round", What: "whether the width is a diameter", Heads: []string{"round", "is round", "circular", "round hole", "round holes"}},
	}
}

func decisionFields() []Field {
	return []Field{
		{Name: "decision", What: "what becomes of the whole panel", Heads: []string{"panel decision", "whole panel", "panel becomes"}},
		{Name: "remedy", What: "repair, replace, make or keep; empty is not decided",
			Heads: []string{"remedy", "decision", "action", "what to do", "fix", "cure", "repair or replace", "do"}},
		{Name: "how", What: "the remedy in words", Heads: []string{"how", "method", "remedy note", "details", "detail", "notes", "note", "comments", "comment", "remarks"}},
		{Name: "hours", What: "hours by trade, such as MW 5, LD 2",
			Heads: []string{"hours", "hrs", "hours by trade", "hrs by trade", "hours per trade", "labour", "labor", "labour hours", "labor hours", "man hours", "planned hours", "time", "effort", "work", "estimate"}},
		{Name: "trade", What: "the trade that does the hours", Heads: []string{"trade", "trades", "who", "by", "role"}},
		taskField("the task that does it; empty takes the panel's", "metal task"),
		{Name: "state", What: "how far it is", Heads: []string{"state", "status", "stage", "how far"}},
	}
}

func rowPartFields() []Field {
	const with = "part"
	return []Field{
		{Name: "part", What: "a part that the finding makes necessary, by name, perhaps with its number before it",
			Heads: []string{"part", "parts", "part name", "part needed", "parts needed", "new part", "part to buy", "to order", "order", "material"}},
		{Name: "part number", What: "the part's number, such as Q11", With: with, Heads: []string{"part no", "part number", "part nr", "part id", "part ref", "part code"}},
		{Name: "quantity", What: "how many parts; empty is one", With: with, Heads: []string{"part quantity", "part qty", "quantity", "qty", "parts qty"}},
		{Name: "price", What: "the price of one", With: with, Heads: priceHeads()},
		{Name: "lead", What: "working days from order to arrival", With: with, Heads: leadHeads()},
		{Name: "supplier", What: "who sells it", With: with, Heads: supplierHeads()},
		{Name: "donated", What: "whether it is given", With: with, Heads: donatedHeads()},
	}
}

func priceHeads() []string {
	return []string{"price", "unit price", "part price", "price each", "each", "unit cost", "part cost", "cost", "cost each", "price per unit"}
}

func leadHeads() []string {
	return []string{"lead", "lead time", "lead days", "delivery", "delivery time", "arrives in", "wait"}
}

func supplierHeads() []string {
	return []string{"supplier", "seller", "bought from", "vendor", "from", "maker", "store"}
}

func donatedHeads() []string {
	return []string{"donated", "given", "gift", "bought or donated", "bought or given", "b d", "bought donated"}
}

func partFields() []Field {
	return []Field{
		{Name: "name", What: "what it is", Need: true,
			Heads: []string{"name", "part", "part name", "description", "desc", "what", "item", "material"}},
		numberField("the part's number, such as Q11; empty takes the next free one", "part no", "part number", "part nr", "part id", "part ref", "part code"),
		{Name: "quantity", What: "how many; empty is one", Heads: []string{"quantity", "qty", "count", "how many", "no off", "number off", "off", "pcs", "pieces"}},
		{Name: "price", What: "the price of one", Heads: priceHeads()},
		{Name: "lead", What: "working days from order to arrival", Heads: leadHeads()},
		taskField("the task that needs it, by number, name or stage", "needed for", "need for", "for", "used for", "used in", "where used", "wanted for", "stage"),
		{Name: "because", What: "the findings that make it necessary", Heads: []string{"because", "because of", "finding", "findings", "reason"}},
		{Name: "end", What: "whether only the end of the task needs it", Heads: []string{"at end", "at the end", "end of task", "only at end"}},
		{Name: "donated", What: "whether it is given", Heads: donatedHeads()},
		{Name: "supplier", What: "who sells it", Heads: supplierHeads()},
	}
}

func hoursFields() []Field {
	return []Field{
		{Name: "person", What: "who worked, by name or initials", Need: true,
			Heads: []string{"person", "who", "name", "initials", "worker", "fitter", "by", "employee", "staff", "hand"}},
		{Name: "date", What: "the day", Need: true, Or: []string{"start"}, Heads: []string{"date", "day", "work date", "date worked"}},
		taskField("the task, by number or name", "task name", "work done", "work", "what"),
		{Name: "start", What: "when it began", Heads: []string{"start", "started", "from", "begin", "began", "on", "in", "time in", "time on", "clock on", "start time"}},
		{Name: "stop", What: "when it ended", Heads: []string{"stop", "stopped", "to", "until", "till", "end", "ended", "off", "out", "finish", "finished", "time out", "time off", "clock off", "end time", "stop time"}},
		{Name: "hours", What: "the hours worked", Need: true, Or: []string{"stop"},
			Heads: []string{"hours", "hrs", "h", "hours worked", "worked", "time", "total", "total hours", "duration", "effort"}},
		{Name: "finding", What: "the finding they went into", Heads: []string{"finding", "finding no", "finding number", "on finding"}},
		{Name: "note", What: "a word about it", Heads: []string{"note", "notes", "comment", "comments", "remarks", "details", "description"}},
	}
}
