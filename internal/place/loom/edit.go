package loom

import (
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// most that a field takes.
const (
	mostMetres = 100
	mostAmps   = 2000
)

// setCircuits lays what was typed on the slip and shows the list again.
func (p place) setCircuits(r *web.Request) error {
	page, changes, err := p.typed(r, false)
	if err != nil {
		return err
	}
	if len(page.Errors) > 0 {
		return r.Invalid(page.web(), showCircuits(page.seen(page.View)))
	}
	if len(changes) == 0 {
		return r.SeeOther(page.here())
	}
	return p.desk.Propose(r, page.here(), changes...)
}

// tryCircuits answers with what would follow from what is typed; nothing is
// laid on the slip.
func (p place) tryCircuits(r *web.Request) error {
	page, changes, err := p.typed(r, true)
	if err != nil {
		return err
	}
	if len(page.Errors) > 0 {
		return r.Fragment(foundSays(page.Errors))
	}
	next, err := build.ApplyAll(*page.Build, changes)
	if err != nil {
		return r.Fragment(foundSays(field.Errors{{Field: "list", Msg: "does not hold: " + err.Error()}}))
	}
	led, err := p.led.get(r.Context(), page.sheet)
	page.Build = &next
	if err == nil {
		page.Loom, err = stage.Again(r.Context(), &next, led)
	}
	if err != nil {
		return r.Fragment(foundSays(field.Errors{{Field: "list", Msg: "cannot be worked out: " + err.Error()}}))
	}
	page.box()
	anew := page.sheet.list()
	anew.Lines = slices.DeleteFunc(anew.Lines, func(l line) bool { return page.Sent[l.Circuit.ID] == "" || page.Sent[l.Circuit.ID] == l.print() })
	return r.Fragment(foundAnew(anew))
}

// typed reads the form of the list: the page with it typed in, and the changes
// that it comes to. A new circuit may be half typed where nothing is laid on
// the slip yet.
func (p place) typed(r *web.Request, half bool) (listPage, []build.Change, error) {
	f, err := r.Form()
	if err != nil {
		return listPage{}, nil, err
	}
	open := p.load
	if half {
		open = p.facts // what follows is worked out from what is typed alone
	}
	s, err := open(r)
	if err != nil {
		return listPage{}, nil, err
	}
	page := s.list()
	page.View, page.Sent = viewOf(f), map[string]string{}
	var changes []build.Change
	for i := range page.Lines {
		l := &page.Lines[i]
		page.Sent[l.Circuit.ID] = f.Raw("shown-" + l.Circuit.ID)
		if l.take(f) {
			changes = append(changes, l.read(f, s.Build, &page.Errors)...)
		}
	}
	changes = append(changes, page.readNew(f, half)...)
	if len(page.Errors) == 0 {
		if _, err := build.ApplyAll(*s.Build, changes); err != nil {
			page.Errors = append(page.Errors, field.Error{Field: "list", Msg: "does not hold: " + err.Error()})
		}
	}
	return page, changes, nil
}

// take takes over what was typed in a line; false where nothing is new.
func (l *line) take(f *web.Form) bool {
	changed := false
	for _, column := range columns {
		name := column + "-" + l.Circuit.ID
		if text := strings.TrimSpace(f.Raw(name)); f.Has(name) && text != l.Typed[column] {
			l.Typed[column], changed = text, true
		}
	}
	return changed
}

// read turns a line as typed into changes.
func (l *line) read(f *web.Form, b *build.Build, errs *field.Errors) []build.Change {
	id, c := "-"+l.Circuit.ID, l.Circuit
	before := len(f.Errors)
	c.Length = unit.Length(f.Decimal("length"+id, 3, 1, mostMetres*1000)) * unit.Millimetre
	c.Load = float64(f.Decimal("load"+id, 2, 0, mostAmps*100)) / 100
	c.Duty = f.Choice("duty"+id, field.Values(duties)...)
	c.Colour = f.Text("colour"+id, 0, 20)
	fuse, amps, err := readFuse(b, l.Typed["fuse"])
	if err != nil {
		f.Fail("fuse"+id, err.Error())
	}
	*errs = append(*errs, f.Errors[before:]...)
	if len(f.Errors) > before {
		return nil
	}
	var changes []build.Change
	if kept := b.Loom.Fuse(fuse); kept != nil && kept.Amps != amps {
		anew := *kept
		anew.Amps = amps
		changes = append(changes, &build.SetFuse{Fuse: anew})
	}
	if c.Fuse, c.FuseA = fuse, amps; equal(c, l.Circuit) {
		return changes
	}
	return append(changes, &build.SetCircuit{Circuit: c})
}

// readFuse reads a fuse, such as "F11" or "F11 7.5": without its rating it has
// the one it has already.
func readFuse(b *build.Build, text string) (name string, amps float64, err error) {
	words := strings.Fields(strings.TrimSuffix(strings.TrimSpace(text), " A"))
	if n := len(words); n > 1 {
		if v, bad := strconv.ParseFloat(strings.Replace(words[n-1], ",", ".", 1), 64); bad == nil {
			if !(v > 0 && v <= mostAmps) {
				return "", 0, fault.New(fault.Invalid, "has a rating from 0.1 to %d A", mostAmps)
			}
			return strings.Join(words[:n-1], " "), v, nil
		}
	}
	name = strings.Join(words, " ")
	if name == "" {
		return "", 0, fault.New(fault.Invalid, "is empty: name a fuse, or none")
	}
	if f := b.Loom.Fuse(name); f != nil {
		return name, f.Amps, nil
	}
	i := slices.IndexFunc(b.Circuits, func(c build.Circuit) bool { return c.Fuse == name })
	if i >= 0 {
		return name, b.Circuits[i].FuseA, nil
	}
	if name == "none" {
		return name, 0, nil
	}
	return "", 0, fault.New(fault.Invalid, "%s is not there yet: write its amps behind it, such as %s 10", name, name)
}
