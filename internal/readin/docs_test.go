package readin

import (
	"os"
	"strings"
	"testing"
)

// docLine is the line of docs/import.md about a field.
func docLine(f Field) string {
	need := ""
	switch {
	case f.Need && len(f.Or) > 0:
		need = "yes, or " + strings.Join(f.Or, " or ")
	case f.Need:
		need = "yes"
	case f.With != "":
		need = "only with " + f.With
	}
	return "| " + f.Name + " | " + need + " | " + f.What + " | " + strings.Join(f.Heads, " · ") + " |"
}

// docs/import.md lists every field and every heading, word for word.
func TestFields_AreDocumented(t *testing.T) {
	page, err := os.ReadFile("../../docs/import.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range Kinds() {
		_, section, ok := strings.Cut(string(page), "\n### "+string(k)+"\n")
		if !ok {
			t.Errorf("docs/import.md has no section %q", k)
		}
		section, _, _ = strings.Cut(section, "\n### ")
		for _, f := range Fields(k) {
			if line := docLine(f); !strings.Contains(section, line+"\n") {
				t.Errorf("docs/import.md, %s, lacks the line\n%s", k, line)
			}
		}
	}
}
