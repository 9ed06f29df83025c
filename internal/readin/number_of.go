package readin

import (
	"fmt"
	"strconv"
	"strings"
)

// learn notes which numbers are in use: by the build, and by rows that give
// their own, so that a number made for one row is never that of another.
func (p *planner) learn(s Sheet) {
	for _, x := range p.work.Panels {
		p.use(string(x.ID))
		p.same[panelSame(x)] = "panel " + string(x.ID)
	}
	for _, x := range p.work.Findings {
		p.use(string(x.ID))
		p.same[findingSame(x)] = "finding " + string(x.ID)
	}
	for _, x := range p.work.Parts {
		p.use(string(x.ID))
		p.same[partSame(x)] = "part " + string(x.ID)
	}
	for _, x := range p.work.Hours {
		p.same["hours "+x.ID] = "hours " + x.ID
	}
	for _, field := range []string{"number", "part number", "part"} {
		c, ok := p.cols[field]
		for _, row := range s.Rows {
			if !ok || c.At >= len(row) {
				break
			}
			text := row[c.At]
			if field == "part" {
				text, _ = leadingNumber(text)
			}
			p.use(shapeNumber(text, p.prefixFor(field)))
		}
	}
}

// use marks a number as taken, so that newNumber passes it by.
func (p *planner) use(id string) {
	at := strings.IndexAny(id, "0123456789")
	if at < 0 || !digits(id[at:]) || len(id)-at > 6 {
		return
	}
	n, _ := strconv.Atoi(id[at:])
	p.next[id[:at]] = max(p.next[id[:at]], n)
}

// newNumber returns the number after the highest in use.
func (p *planner) newNumber(prefix string) string {
	p.next[prefix]++
	return fmt.Sprintf("%s%02d", prefix, p.next[prefix])
}

// prefixFor returns the letters before a number: those of the build's own
// first one, else P for panels, F for findings and Q for parts.
func (p *planner) prefixFor(field string) string {
	kind := p.m.Kind
	if field != "number" {
		kind = Parts
	}
	first, prefix := "", ""
	switch kind {
	case Panels:
		prefix = "P"
		if len(p.work.Panels) > 0 {
			first = string(p.work.Panels[0].ID)
		}
	case Findings:
		prefix = "F"
		if len(p.work.Findings) > 0 {
			first = string(p.work.Findings[0].ID)
		}
	case Parts:
		prefix = "Q"
		if len(p.work.Parts) > 0 {
			first = string(p.work.Parts[0].ID)
		}
	}
	if at := strings.IndexAny(first, "0123456789"); at > 0 && digits(first[at:]) {
		return first[:at]
	}
	return prefix
}

// number reads the number of a row's thing, or makes one. A number that is in
// use makes the row bad, and so does a row without a number that says the same
// as a thing that is there.
func (r *rowReader) number(what, field, same string) string {
	prefix := r.p.prefixFor(field)
	if text := r.text(field); text != "" {
		if len(text) > 40 {
			r.fail(field, invalid("%q is too long for a number", text[:40]))
			return ""
		}
		return r.free(what, field, shapeNumber(text, prefix))
	}
	if r.Status == Bad {
		return ""
	}
	if old, ok := r.p.same[same]; ok {
		r.fail(field, invalid("%s, and says the same", r.p.lineOrBuild(old)).WithHint("give the row a number of its own if it is another"))
		return ""
	}
	return r.p.newNumber(prefix)
}

// free refuses a number that is in use.
func (r *rowReader) free(what, field, id string) string {
	if r.p.taken(what, id) {
		r.fail(field, invalid("%s", r.p.lineOrBuild(what+" "+id)).WithHint("leave the number empty to get the next free one"))
	}
	return id
}

// keep remembers a thing that a row brought, by what it says and by its name.
func (p *planner) keep(same, thing string, line int) {
	p.same[same], p.lines[thing] = thing, line
}

func fingerprint(parts ...any) string {
	var b strings.Builder
	for _, x := range parts {
		fmt.Fprintf(&b, "%v|", x)
	}
	return b.String()
}
