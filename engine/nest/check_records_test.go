package nest_test

import (
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
)

// record reads the placements of a record's drawing: use elements that move
// what they have turned.
func record(t *testing.T, path string, p nest.Problem) []nest.Placement {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	copies := map[int]int{}
	var list []nest.Placement
	for d := xml.NewDecoder(strings.NewReader(string(text))); ; {
		token, err := d.Token()
		if err != nil {
			break
		}
		use, ok := token.(xml.StartElement)
		if !ok || use.Name.Local != "use" {
			continue
		}
		at := nest.Placement{Piece: -1}
		item := -1
		for _, a := range use.Attr {
			switch a.Name.Local {
			case "transform":
				_, err = fmt.Sscanf(strings.ReplaceAll(a.Value, ",", ""), "translate(%g %g) rotate(%g)", &at.X, &at.Y, &at.Rotation)
			case "href":
				_, _ = fmt.Sscanf(a.Value, "#item_%d", &item) // other drawings are used too
			}
			if err != nil {
				t.Fatalf("%s: %v in %v", path, err, use.Attr)
			}
		}
		if item < 0 {
			continue
		}
		for i, piece := range p.Pieces {
			if piece.ID == fmt.Sprint(item) {
				at.Piece = i
			}
		}
		at.Copy = copies[at.Piece]
		copies[at.Piece]++
		list = append(list, at)
	}
	return list
}

// TestCheck_Records holds the published best layouts to the checker.
func TestCheck_Records(t *testing.T) {
	const sets = "../../../shared/data/nesting"
	files, _ := filepath.Glob(sets + "/records/*.svg")
	if len(files) == 0 {
		t.Skip("the published layouts are not there: ../shared/data/nesting/records")
	}
	best := bestLengths(t, sets+"/published.csv")
	for _, path := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(path), "final_best_"), ".svg")
		in, err := os.Open(filepath.Join(sets, "strip", name+".json"))
		if err != nil {
			t.Fatal(err)
		}
		f, err := nestfile.Read(in)
		in.Close()
		if err != nil {
			t.Fatal(err)
		}
		r, err := nest.Check(f.Problem, record(t, path, f.Problem))
		t.Logf("%s: length %.4f, smallest gap %.3g between %s, %v", name, r.Length, r.SmallestGap, r.Nearest, err)
		if err != nil || math.IsInf(r.SmallestGap, 0) {
			t.Errorf("%s: %v", name, err)
		}
		if want, ok := best[name]; ok && math.Abs(r.Length-want) > 1e-3*want {
			t.Errorf("%s: length %v, published as %v", name, r.Length, want)
		}
	}
}

// bestLengths of the table, by name.
func bestLengths(t *testing.T, path string) map[string]float64 {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column, best := slices.Index(rows[0], "best_length"), map[string]float64{}
	for _, row := range rows[1:] {
		name, _, _ := strings.Cut(row[0], " ")
		if v, err := strconv.ParseFloat(row[column], 64); err == nil {
			best[name] = v
		}
	}
	return best
}
