package readin

import (
	"fmt"

	lists "fettle/internal/readin"
	"fettle/internal/web/ui/field"
)

func kindOptions(picked string) []field.Option {
	hints := map[lists.Kind]string{lists.Panels: "the pieces of the body", lists.Findings: "what is wrong with them", lists.Parts: "what is to be got", lists.Hours: "what was worked"}
	var out []field.Option
	for _, k := range lists.Kinds() {
		out = append(out, field.Option{Value: string(k), Label: string(k), Hint: hints[k], Picked: string(k) == picked})
	}
	return out
}

func unitOptions(picked string) []field.Option {
	if picked == "" {
		picked = "mm"
	}
	return field.Words([]string{"mm", "cm", "m", "in", "ft"}, picked)
}

// about says what was read, and how.
func about(l look) string {
	text := fmt.Sprintf("%d rows of %s under the headings in line %d; %s, separated by %s.", len(l.List.Rows), l.Kind, l.List.HeadLine, l.List.Encoding, l.List.Separator)
	if l.List.Separator == "workbook" {
		text = fmt.Sprintf("%d rows of %s under the headings in line %d of the sheet %s.", len(l.List.Rows), l.Kind, l.List.HeadLine, l.List.Tab)
	}
	if l.List.Title != "" {
		text += " Above them: " + l.List.Title + "."
	}
	return text
}

func takes(n int) string {
	if n == 1 {
		return "Put 1 good row on my slip"
	}
	return fmt.Sprintf("Put %d good rows on my slip", n)
}

func heading(h string, at int) string {
	if h == "" {
		return fmt.Sprintf("column %d", at+1)
	}
	return h
}
