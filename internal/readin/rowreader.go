package readin

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/unit"
)

// rowReader reads the fields of one row. The first fault sticks; reading goes
// on, and whoever called looks at Status once.
type rowReader struct {
	Row
	p     *planner
	cells []string
}

// fail makes the row bad for a reason; later faults are dropped.
func (r *rowReader) fail(field string, err error) {
	if r.Status == Bad {
		return
	}
	r.Status, r.Field, r.Reason = Bad, field, err.Error()
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		r.Reason, r.Hint = f.Msg, f.Hint
	}
}

func (r *rowReader) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// text returns the cell of a field, or nothing where it has no column.
func (r *rowReader) text(field string) string {
	if c, ok := r.p.cols[field]; ok && c.At < len(r.cells) {
		return r.cells[c.At]
	}
	return ""
}

// need returns the cell of a field that must not be empty.
func (r *rowReader) need(field string) string {
	text := r.text(field)
	if text == "" {
		r.fail(field, invalid("%s is empty", field))
	}
	return text
}

// idle tells why a row is no fact: nothing in the columns that are read, the
// headings once more, or a sum.
func (r *rowReader) idle() string {
	filled, repeated := 0, 0
	for _, c := range r.p.m.Columns {
		if c.At >= len(r.cells) || r.cells[c.At] == "" {
			continue
		}
		filled++
		if r.cells[c.At] == c.Head {
			repeated++
		}
	}
	switch {
	case filled == 0:
		return "nothing stands in the columns that are read"
	case repeated == filled && filled > 1:
		return "the headings once more"
	}
	for _, c := range r.cells {
		if c == "" {
			continue
		}
		switch fold(c) {
		case "total", "totals", "sum", "sub total", "subtotal", "grand total":
			return "a sum, not a fact"
		}
		return ""
	}
	return ""
}

// unitOf returns the unit that bare sizes of a field have.
func (r *rowReader) unitOf(field string) string {
	if u := r.p.cols[field].Unit; u != "" {
		return u
	}
	return r.p.o.Unit
}

// length reads a length; empty is zero.
func (r *rowReader) length(field string) unit.Length {
	text := r.text(field)
	if text == "" {
		return 0
	}
	l, doubt, err := r.p.n.parseLength(text, r.unitOf(field))
	if err != nil {
		r.fail(field, err)
	}
	if doubt {
		r.note("%s: the comma in %q is taken as a mark between thousands", field, text)
	}
	return l
}

// count reads a whole number with perhaps a word such as "off" behind it;
// empty is none.
func (r *rowReader) count(field string, none int) int {
	text := tidy(r.text(field))
	if text == "" {
		return none
	}
	number, word := cutUnit(text)
	switch word {
	case "", "off", "no", "nr", "pcs", "pc", "pieces", "ea", "each", "x", "sets", "set", "pairs", "pair":
	default:
		r.fail(field, unknownUnit(word, "write a whole number"))
		return none
	}
	value, _, ok := r.p.n.parse(number)
	if !ok || !value.IsInt() || !value.Num().IsInt64() || value.Num().BitLen() > 31 {
		r.fail(field, invalid("%q is not a whole number", text))
		return none
	}
	return int(value.Num().Int64())
}

// days reads working days: "21", "21 d", "3 weeks" of five days.
func (r *rowReader) days(field string) int {
	text := tidy(r.text(field))
	if text == "" {
		return 0
	}
	number, word := cutUnit(text)
	if word == "" {
		word = r.p.cols[field].Unit
	}
	value, _, ok := r.p.n.parse(number)
	if !ok {
		r.fail(field, invalid("%q is not a number of days", text).WithHint("write it like 21, 21 d or 3 weeks"))
		return 0
	}
	per := int64(1)
	switch word {
	case "", "d", "day", "days", "wd", "working days", "working day", "work days", "workdays":
	case "w", "wk", "wks", "week", "weeks":
		per = 5
	default:
		r.fail(field, unknownUnit(word, "working days (21, 21 d) and weeks of five days (3 weeks) are understood"))
	}
	n, ok := steps(value, per)
	if !ok || n > 1e6 || n < -1e6 {
		r.fail(field, invalid("%q is too many days", text))
		return 0
	}
	return int(n)
}

// money reads an amount in the build's currency; empty is zero.
func (r *rowReader) money(field string) unit.Money {
	text := r.text(field)
	if text == "" {
		return 0
	}
	amount, doubt, err := r.p.n.parseMoney(text, r.p.work.Currency)
	if err == nil {
		err = headCurrency(r.p.cols[field].Head, r.p.work.Currency)
	}
	if err != nil {
		r.fail(field, err)
	}
	if doubt {
		r.note("%s: the mark in %q is taken as one between thousands", field, text)
	}
	return amount
}

// day reads a date, and the clock time behind it or -1.
func (r *rowReader) day(field, text string) (unit.Date, int) {
	day, minutes, doubt, err := parseDate(text, r.p.o.MonthFirst)
	if err != nil {
		r.fail(field, err)
		return 0, -1
	}
	if doubt {
		r.note("%s: %q is taken as %s", field, text, day.Short())
	}
	in := r.p.work.Promise.In
	if in != 0 && (day < in-366 || day > in+10*366) {
		r.fail(field, invalid("%s is far from the day the vehicle came in, %s", day.Short(), in.Short()).WithHint("look at the year"))
	}
	return day, minutes
}

// yes reads a tick; empty is no. Letters for bought and donated count too.
func (r *rowReader) yes(field string) bool {
	text := fold(r.text(field))
	switch text {
	case "y", "yes", "x", "true", "1", "d", "donated", "given", "gift", "free", "at end", "end":
		return true
	case "", "n", "no", "false", "0", "b", "bought", "buy":
		return false
	}
	switch strings.TrimSpace(r.text(field)) {
	case "✓", "✔", "☑":
		return true
	case "-", "–", "—":
		return false
	}
	r.fail(field, invalid("%q is neither yes nor no", r.text(field)))
	return false
}

// oneOf reads one of a list of words; empty is the zero word.
func oneOf[T ~string](r *rowReader, field string, list []T) T {
	text := fold(r.text(field))
	if text == "" {
		return ""
	}
	words := make([]string, len(list))
	for i, w := range list {
		if words[i] = string(w); fold(words[i]) == text {
			return w
		}
	}
	f := invalid("%q is none of: %s", r.text(field), strings.Join(words, ", "))
	if i := nearest(text, words); i >= 0 {
		f = f.WithHint("did you mean " + words[i] + "?")
	}
	r.fail(field, f)
	return ""
}

// task reads a task; empty takes the option, else none.
func (r *rowReader) task() build.TaskID {
	text := r.text("task")
	if text == "" {
		return r.p.o.Task
	}
	id, note, err := r.p.names.task(text)
	if err != nil {
		r.fail("task", err)
	}
	if note != "" {
		r.note("task: %s", note)
	}
	return id
}

// shapeNumber writes a number as the build does: "32" becomes F32, "f 32" F32.
func shapeNumber(text, prefix string) string {
	t := strings.Join(strings.Fields(tidy(text)), "")
	if digits(t) && len(t) <= 6 {
		n, _ := strconv.Atoi(t)
		return fmt.Sprintf("%s%02d", prefix, n)
	}
	if rest, ok := strings.CutPrefix(strings.ToUpper(t), prefix); ok && digits(rest) && len(rest) > 0 && len(rest) <= 6 {
		n, _ := strconv.Atoi(rest)
		return fmt.Sprintf("%s%02d", prefix, n)
	}
	return strings.TrimSpace(text)
}
