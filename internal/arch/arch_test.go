package arch

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// rule says what packages below a path may import of ours. The first rule that
// fits a package counts.
type rule struct {
	of     string   // a package, or all below it where it ends in /
	may    []string // packages, or all below them where they end in /
	reason string
}

var rules = []rule{
	{"unit", nil, "units know nothing but numbers"},
	{"fault", nil, "faults know nothing but errors"},
	{"fault/strictjson", []string{"fault"}, "text in, faults out"},
	{"figure", []string{"unit", "fault"}, "a figure is a number with its working"},
	{"geom", []string{"unit", "fault"}, "geometry knows no vehicle"},
	{"geom/overlay", []string{"unit", "fault", "geom"}, "areas know no file format"},
	{"geom/lens", []string{"unit", "fault", "geom"}, "a photo knows no file format"},
	{"geom/outline", []string{"unit", "fault", "geom"}, "outlines know no file format"},
	{"geom/mesh", []string{"unit", "fault", "geom"}, "surfaces know no file format"},
	{"geom/lines", []string{"fault"}, "words of a text file, whatever they mean"},
	{"geom/meshfile", []string{"fault", "geom/"}, "which format a file has"},
	{"geom/", []string{"unit", "fault", "geom", "geom/outline", "geom/mesh", "geom/lines"}, "a format of files knows outlines and meshes, no other format"},
	{"engine/nest/longlay", []string{"fault", "engine/nest"}, "a layout as long work"},
	{"engine/nest/nestfile", []string{"fault", "fault/strictjson", "geom", "geom/outline", "geom/svg", "engine/nest"}, "layouts in and out of files"},
	{"engine/loom/loomfile", []string{"fault", "fault/strictjson", "engine/loom"}, "looms in from files"},
	{"engine/loom/steiner", []string{"fault"}, "trees in a graph, whatever it stands for"},
	{"engine/loom/circles", []string{"fault", "geom"}, "circles in a circle"},
	{"engine/loom/route", []string{"fault", "figure", "geom", "engine/loom/steiner", "engine/loom/circles"}, "the way of wires knows no volts"},
	{"engine/loom/bench", []string{"figure"}, "the bench knows wires and what they join, and no route"},
	{"engine/loom/board", []string{"fault", "figure", "geom", "engine/loom/route"}, "the board knows the routed loom"},
	{"engine/", []string{"unit", "fault", "fault/strictjson", "figure", "geom", "geom/overlay", "geom/mesh", "engine/"}, "a stranger can use an engine alone: engines know nothing of builds"},
	{"build", []string{"unit", "fault", "geom"}, "the model holds facts, nothing worked out"},
	{"rates", []string{"unit", "fault", "figure", "build"}, "rates are learnt from builds"},
	{"takeoff", []string{"unit", "fault", "figure", "build", "rates"}, "what all stages share"},
	{"takeoff/sprayout", []string{"unit", "fault", "figure", "build", "rates", "takeoff", "engine/colour"}, "what cards say of paints, for stages and places alike"},
	{"stage/", []string{"stage/", "unit", "fault", "figure", "build", "rates", "takeoff", "takeoff/", "geom", "geom/overlay", "geom/mesh", "engine/"}, "a stage never knows another stage"},
	{"plan", []string{"unit", "fault", "figure", "build", "rates", "takeoff", "stage/", "engine/schedule"}, "plan is pure: no store, no clock, no page"},
	{"internal/journal/", []string{"unit", "fault", "internal/journal", "internal/journal/"}, "a store knows entries, not what is in them"},
	{"internal/journal", []string{"unit", "fault"}, "the contract knows no store"},
	{"internal/vault/", []string{"fault", "internal/vault"}, "a vault knows bytes"},
	{"internal/vault", []string{"fault"}, "the contract knows no vault"},
	{"internal/job", nil, "the contract knows no store and no engine"},
	{"internal/job/", []string{"fault", "internal/job"}, "a queue knows bytes"},
	{"internal/account", []string{"unit", "fault"}, "accounts know no page"},
	{"internal/account/", []string{"unit", "fault", "internal/account"}, "the store of accounts"},
	{"internal/tlsca", []string{"unit", "fault"}, "certificates know no page"},
	{"internal/web", []string{"unit", "fault", "figure", "internal/account", "internal/account/", "internal/tlsca", "internal/web/"}, "the server knows no build"},
	{"internal/web/", []string{"unit", "fault", "figure", "geom", "geom/mesh", "internal/account", "internal/tlsca", "internal/web", "internal/web/"}, "shared parts know no build"},
	{"internal/live", []string{"unit", "fault", "figure", "build", "rates", "plan", "takeoff", "engine/schedule", "internal/journal"}, "the live build knows the store's contract only"},
	{"internal/scenario", []string{"unit", "fault", "build", "internal/journal"}, "scenario files"},
	{"internal/demo/", []string{"unit", "fault", "geom", "geom/mesh", "build", "internal/scenario"}, "demo data"},
	{"internal/demo", []string{"unit", "fault", "geom", "geom/mesh", "build", "internal/scenario"}, "demo data"},
	{"internal/readin", []string{"unit", "fault", "build", "geom"}, "lists become changes"},
	{"internal/surfacein", []string{"unit", "fault", "geom/", "build", "internal/vault", "internal/web", "internal/web/"}, "surfaces come in by a form and lie in the vault"},
	{"internal/flatwork", []string{"fault", "engine/flatten/longflat", "internal/desk", "internal/job", "internal/web", "internal/web/"}, "surfaces laid flat as long work of a build"},
	{"internal/shapeout", []string{"fault", "geom", "geom/", "internal/web"}, "drawings at true size, on paper and as files"},
	{"internal/shapein", []string{"fault", "geom", "geom/", "build", "internal/web"}, "typed corners and drawing files become shapes"},
	{"internal/drawn", []string{"unit", "figure", "geom", "build", "plan", "internal/web/"}, "the live build as values that ui/vehicle draws"},
	{"internal/turn", []string{"unit", "figure", "build", "plan", "takeoff"}, "whose turn it is, read out of the plan"},
	{"internal/desk", []string{"unit", "fault", "figure", "build", "plan", "rates", "takeoff", "internal/live", "internal/job", "internal/journal", "internal/vault", "internal/web", "internal/web/", "internal/account"}, "what places share"},
	{"internal/facts", []string{"fault", "build", "internal/desk", "internal/web", "internal/web/"}, "facts of many kinds by one set of pages; a place says which"},
	{"internal/place/", []string{"internal/place/", "unit", "fault", "figure", "geom", "geom/", "build", "plan", "rates", "takeoff", "takeoff/", "stage/", "internal/desk", "internal/facts", "internal/drawn", "internal/turn", "internal/live", "internal/job", "internal/journal", "internal/vault", "internal/readin", "internal/shapein", "internal/shapeout", "internal/surfacein", "internal/flatwork", "internal/account", "internal/web", "internal/web/"}, "a place never knows another place"},
	{"internal/placetest", []string{""}, "a shop for tests may know everything"},
	{"internal/cli", []string{""}, "the wiring may know everything"},
	{"cmd/", []string{"internal/cli"}, "the program is its command line"},
	{"test/", []string{""}, "tests may know everything"},
	{"internal/arch", nil, "only a test"},
}

const module = "fettle"

func TestArrows(t *testing.T) {
	for _, p := range packages(t) {
		own, r := strings.TrimPrefix(p.ImportPath, module+"/"), (*rule)(nil)
		for i := range rules {
			if fits(rules[i].of, own) {
				r = &rules[i]
				break
			}
		}
		if r == nil {
			t.Errorf("package %s stands in no room: add a rule, and a line in docs/architecture.md", own)
			continue
		}
		for _, path := range p.Imports {
			of, ours := strings.CutPrefix(path, module+"/")
			if !ours || own == of || slices.ContainsFunc(r.may, func(m string) bool { return m == "" || fits(m, of) && !sibling(own, of) }) {
				continue
			}
			t.Errorf("%s imports %s: %s", own, of, r.reason)
		}
	}
}

// TestRules shows that a wrong arrow would be seen.
func TestRules(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     bool
	}{
		{"stage/metal", "stage/paint", true}, {"internal/place/van", "internal/place/wall", true},
		{"internal/place/van", "internal/place/van/part", false}, {"engine/nest", "engine/flatten", true},
	} {
		if got := sibling(c.from, c.to); got != c.want {
			t.Errorf("sibling(%s, %s) = %v, want %v", c.from, c.to, got, c.want)
		}
	}
	if fits("unit", "build") || !fits("engine/", "engine/nest") || fits("engine/", "engine") {
		t.Error("fits takes the wrong packages")
	}
}

// fits reports whether a package is the one named, or below it where the name ends in a slash.
func fits(name, own string) bool {
	if strings.HasSuffix(name, "/") {
		return strings.HasPrefix(own, name)
	}
	return own == name
}

// sibling reports whether two packages are different rooms of one row: two
// stages, two places, two engines (sparse serves the others).
func sibling(from, to string) bool {
	for _, row := range []string{"stage/", "internal/place/", "engine/"} {
		if strings.HasPrefix(from, row) && strings.HasPrefix(to, row) && to != "engine/sparse" {
			a, _, _ := strings.Cut(strings.TrimPrefix(from, row), "/")
			b, _, _ := strings.Cut(strings.TrimPrefix(to, row), "/")
			return a != b
		}
	}
	return false
}

type listed struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports", "./...")
	cmd.Dir = "../.."
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var list []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
	if len(list) < 20 {
		t.Fatalf("go list names only %d packages", len(list))
	}
	return list
}
