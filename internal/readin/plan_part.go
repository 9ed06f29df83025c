package readin

import (
	"strings"

	"fettle/build"
)

func partSame(x build.Part) string { return fingerprint("part", fold(x.Name), x.Task) }

// part turns a row into add-part.
func (p *planner) part(r *rowReader) (build.Change, func()) {
	x := r.partOf(r.need("name"))
	x.Task = r.task()
	if x.Task == "" {
		r.fail("task", invalid("no column says what the part is needed for").WithHint("name the task in a column, or for the whole list"))
	}
	x.AtEnd = r.yes("end")
	x.Because = r.because()
	x.ID = build.PartID(r.number("part", "number", partSame(x)))
	return &build.AddPart{Part: x}, func() { p.keepPart(x, r.Line) }
}

func (p *planner) keepPart(x build.Part, line int) {
	p.keep(partSame(x), "part "+string(x.ID), line)
	p.parts[x.ID] = x.Name
}

// partName returns the name of a part of the build or of this list.
func (p *planner) partName(id build.PartID) (string, bool) {
	if x := p.work.Part(id); x != nil {
		return x.Name, true
	}
	name, ok := p.parts[id]
	return name, ok
}

// partOf reads what lists of parts and lists of findings both say of a part.
func (r *rowReader) partOf(name string) build.Part {
	return build.Part{Name: name, Quantity: r.count("quantity", 1), Price: r.money("price"),
		Lead: r.days("lead"), Donated: r.yes("donated"), Supplier: r.text("supplier")}
}

// because reads the findings that a part is for.
func (r *rowReader) because() []build.FindingID {
	var ids []build.FindingID
	for _, piece := range strings.Fields(joiners.Replace(tidy(r.text("because")))) {
		id := build.FindingID(shapeNumber(piece, "F"))
		if r.p.work.Finding(id) == nil {
			r.fail("because", invalid("there is no finding %q", piece))
			return nil
		}
		ids = append(ids, id)
	}
	return ids
}

// leadingNumber cuts a number from the front of a part's name: "Q11 gutter
// strip" is Q11, gutter strip. Both are empty of nothing else.
func leadingNumber(text string) (number, name string) {
	first, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	first = strings.TrimRight(first, ":,.")
	at := strings.IndexAny(first, "0123456789")
	if at < 1 || at > 2 || len(first)-at > 4 || !digits(first[at:]) || strings.ToUpper(first) != first {
		return "", text
	}
	return first, strings.TrimSpace(rest)
}

// rowParts reads the part that a finding makes necessary. A part whose number
// and name are on the list already is not added again.
func (r *rowReader) rowParts(f build.Finding) []build.Part {
	text := r.text("part")
	if text == "" || text == "-" || fold(text) == "none" {
		return nil
	}
	number, name := leadingNumber(text)
	if own := r.text("part number"); own != "" {
		number, name = own, text
	}
	id := build.PartID(shapeNumber(number, r.p.prefixFor("part number")))
	if old, there := r.p.partName(id); number != "" && there {
		if name != "" && fold(name) != fold(old) {
			r.fail("part", invalid("part %s is %s already", id, old).WithHint("give the part another number, or none"))
		}
		r.note("part %s is on the list already and is not added again", id)
		return nil
	}
	x := r.partOf(name)
	x.ID = id
	if number == "" && r.Status != Bad {
		x.ID = build.PartID(r.p.newNumber(r.p.prefixFor("part number")))
	}
	return []build.Part{x}
}
