package demo_test

import (
	"maps"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/scenario"
	"fettle/unit"
)

func page(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../docs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// sections splits a page at headings of a level, such as "## ".
func sections(text, level string) map[string]string {
	out := map[string]string{}
	for _, part := range strings.Split(text, "\n"+level)[1:] {
		title, body, _ := strings.Cut(part, "\n")
		out[title] = body
	}
	return out
}

var example = regexp.MustCompile("(?s)```json\n(.*?)\n```")

func TestChangesPage_HasEveryKindWithAnExample(t *testing.T) {
	parts := sections(page(t, "changes.md"), "## ")
	stands := standsOfPedlar(t)
	for _, kind := range build.Kinds() {
		match := example.FindStringSubmatch(parts[kind.Name])
		if match == nil {
			t.Errorf("%s: no section with an example", kind.Name)
			continue
		}
		changes, err := build.DecodeList([]byte("[" + match[1] + "]"))
		if err != nil || len(changes) != 1 || changes[0].Kind() != kind.Name {
			t.Errorf("%s: the example gives %v, %v", kind.Name, changes, err)
			continue
		}
		if err := appliesToOne(stands, changes[0]); err != nil {
			t.Errorf("%s: the example applies on no day of the demo build: %v", kind.Name, err)
		}
		for _, name := range jsonNames(reflect.TypeOf(kind.New()).Elem()) {
			if !strings.Contains(parts[kind.Name], "| `"+name+"`") {
				t.Errorf("%s: the table does not list %s", kind.Name, name)
			}
		}
	}
	if len(parts) != len(build.Kinds()) {
		t.Errorf("sections = %d, kinds = %d: %v", len(parts), len(build.Kinds()), slices.Sorted(maps.Keys(parts)))
	}
}

// standsOfPedlar returns the demo build on some of its days, and no build at all.
func standsOfPedlar(t *testing.T) []build.Build {
	f := pedlar(t)
	stands := []build.Build{{}}
	for _, day := range []unit.Date{
		arrival, unit.Day(2026, time.September, 23), unit.Day(2026, time.September, 24), blast, after,
		unit.Day(2026, time.November, 13), unit.Day(2026, time.November, 20), 0,
	} {
		stands = append(stands, on(t, f, day))
	}
	b := stands[5].Clone()
	if err := (&build.ClockOn{ID: "x", Person: "MW", Task: "T06", At: after.At(8, 0)}).Apply(&b); err != nil {
		t.Fatal(err)
	}
	// A cut plan of sheet metal is kept.
	cut := stands[5].Clone()
	plan := build.SheetPlan{Gauge: cut.Blank("B01").Gauge, Placed: []build.BlankPlaced{{Blank: "B01", Sheet: "M2", X: 10, Y: 10}}}
	if err := (&build.KeepSheetPlan{Plan: plan}).Apply(&cut); err != nil {
		t.Fatal(err)
	}
	return append(stands, b, cut)
}

func appliesToOne(stands []build.Build, c build.Change) error {
	var last error
	for _, b := range stands {
		tried := b.Clone()
		if last = c.Apply(&tried); last == nil {
			return nil
		}
	}
	return last
}

// jsonNames lists the names of a struct's JSON form.
func jsonNames(t reflect.Type) []string {
	names := make([]string, t.NumField())
	for i := range names {
		names[i], _, _ = strings.Cut(t.Field(i).Tag.Get("json"), ",")
	}
	return names
}

// TestScenarioPage_ListsEveryName walks the types of a scenario and expects
// each of their names in a table of the page.
func TestScenarioPage_ListsEveryName(t *testing.T) {
	text := page(t, "scenario.md")
	seen := map[reflect.Type]bool{}
	var walk func(typ reflect.Type, path string)
	walk = func(typ reflect.Type, path string) {
		switch typ.Kind() {
		case reflect.Slice, reflect.Array:
			walk(typ.Elem(), path)
		case reflect.Struct:
			if seen[typ] {
				return
			}
			seen[typ] = true
			for i, name := range jsonNames(typ) {
				if !strings.Contains(text, "| `"+name+"`") && !strings.Contains(text, "| [`"+name+"`](#"+name+")") && !strings.Contains(text, name+"}") && !strings.Contains(text, name+",") {
					t.Errorf("the page does not list %s of %s", name, path)
				}
				walk(typ.Field(i).Type, path+", "+name)
			}
		}
	}
	walk(reflect.TypeFor[scenario.File](), "file")
	parts := sections(text, "### ")
	for _, name := range jsonNames(reflect.TypeFor[build.Build]())[2:] {
		if parts[name] == "" {
			t.Errorf("the page has no section for %s", name)
		}
	}
}

func TestScenarioPage_ShowsAListOfChangesThatReads(t *testing.T) {
	match := example.FindStringSubmatch(page(t, "scenario.md"))
	if match == nil || !strings.Contains(match[1], `"days"`) {
		t.Fatal("no example of a file")
	}
	if _, err := scenario.Read(strings.NewReader(match[1]), 1<<20); err == nil || strings.Contains(err.Error(), "byte") {
		t.Errorf("the example has a fault of form: %v", err)
	}
}
