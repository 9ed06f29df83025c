package cli

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"fettle/internal/journal"
	"fettle/plan"
)

var update = flag.Bool("update", false, "write the tables of docs/cli.md anew")

const (
	docs  = "../../docs/cli.md"
	begin = "<!-- verbs: made by go test ./internal/cli -run Docs -update -->\n"
	end   = "<!-- end of verbs -->\n"
)

// TestDocs_Verbs holds the tables of verbs and flags to the command line.
func TestDocs_Verbs(t *testing.T) {
	page, err := os.ReadFile(docs)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(page), begin)
	_, tail, closed := strings.Cut(rest, end)
	if !ok || !closed {
		t.Fatalf("%s has lost the marks around its tables", docs)
	}
	want := head + begin + "\n" + verbs(t) + end + tail
	if *update {
		if err := os.WriteFile(docs, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if string(page) != want {
		t.Errorf("%s does not match the command line; run go test ./internal/cli -run Docs -update", docs)
	}
}

// verbs writes a section for each verb, as the command line knows it.
func verbs(t *testing.T) string {
	t.Helper()
	parser, err := kong.New(&commands{}, kong.Name("fettle"))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	for _, verb := range parser.Model.Leaves(true) {
		fmt.Fprintf(&b, "### %s\n\n`%s`\n\n%s\n\n", nameOf(verb), synopsis(verb), verb.Help)
		fmt.Fprint(&b, "| argument or flag | default | what |\n|---|---|---|\n")
		for _, a := range verb.Positional {
			fmt.Fprintf(&b, "| `<%s>` | | %s |\n", a.Name, a.Help)
		}
		for _, f := range verb.Flags {
			if !f.Hidden && f.Name != "help" {
				fmt.Fprintf(&b, "| `%s` | %s | %s |\n", flagName(f), defaultOf(f), f.Help)
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}

// nameOf is the words by which a verb is called.
func nameOf(verb *kong.Node) string { return strings.TrimPrefix(verb.Path(), "fettle ") }

func synopsis(verb *kong.Node) string {
	line := "fettle " + nameOf(verb)
	for _, a := range verb.Positional {
		line += " <" + a.Name + ">"
		if a.IsCumulative() {
			line += "…"
		}
	}
	for _, f := range verb.Flags {
		if f.Required {
			line += " " + flagName(f)
		}
	}
	return line
}

func flagName(f *kong.Flag) string {
	name := "--" + f.Name
	if f.Short != 0 {
		name = fmt.Sprintf("-%c, %s", f.Short, name)
	}
	if f.IsBool() {
		return name
	}
	if f.PlaceHolder != "" {
		return name + "=" + f.PlaceHolder
	}
	return name + "=" + strings.ToUpper(f.Name)
}

func defaultOf(f *kong.Flag) string {
	var text string
	if f.HasDefault && !f.IsBool() && f.Default != "" {
		text = "`" + f.Default + "`"
	}
	if len(f.Envs) > 0 {
		text += ", or `" + strings.Join(f.Envs, "`, `") + "`"
	}
	return text
}

// TestDocs_Documents wants every name of every JSON document in the page's
// table for it.
func TestDocs_Documents(t *testing.T) {
	page, err := os.ReadFile(docs)
	if err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile("../../docs/engine/schedule-file.md")
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, part := range strings.Split(string(page)+string(file), "\n## ")[1:] {
		title, body, _ := strings.Cut(part, "\n")
		parts[title] = body
	}
	for title, doc := range map[string]reflect.Type{
		"The document of plan": reflect.TypeFor[plan.Plan](), "The document of try": reflect.TypeFor[plan.KnockOn](),
		"The document of import": reflect.TypeFor[imported](), "The document of record and undo": reflect.TypeFor[journal.Entry](),
		"The document of check": reflect.TypeFor[verdict](), "The document of plan --gains": reflect.TypeFor[plan.Gain](), "The document of backtest": reflect.TypeFor[backtested](),
		"What is printed":               reflect.TypeFor[shopSolved](),
		"The document of plan --better": reflect.TypeFor[found](),
	} {
		for _, name := range names(doc, map[reflect.Type]bool{}) {
			if !strings.Contains(parts[title], "| `"+name+"` |") && !strings.Contains(parts[title], "| `"+name+"` * |") {
				t.Errorf("%q does not list %s", title, name)
			}
		}
	}
}

// shown are documents of which the page tells elsewhere.
var shown = map[string]bool{"Figure": true, "Promise": true, "Plan": true}

// names lists the JSON names of a document and of all that is in it.
func names(t reflect.Type, seen map[reflect.Type]bool) []string {
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || seen[t] || shown[t.Name()] && len(seen) > 0 || !strings.HasPrefix(t.PkgPath(), "fettle/") {
		return nil
	}
	seen[t] = true
	var list []string
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous {
			list = append(list, names(f.Type, seen)...)
		}
		if name == "" || name == "-" {
			continue
		}
		list = append(append(list, name), names(f.Type, seen)...)
	}
	return list
}
