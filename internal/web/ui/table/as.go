package table

import "strings"

// as is the address of the same list in another form.
func (t Table) as(form string) string {
	if strings.Contains(t.Self, "?") {
		return t.Self + "&as=" + form
	}
	return t.Self + "?as=" + form
}
