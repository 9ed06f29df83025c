package drawing_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// scenarioRecords returns the records of the scenario page whose first field
// is a letter and two digits and which have as many fields as asked for. The
// page is not part of the repository; without it the test is skipped.
func scenarioRecords(t *testing.T, letter string, fields int) [][]string {
	t.Helper()
	page, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "shared", "product", "scenario.md"))
	if err != nil {
		t.Skip("skipped: the scenario page is not beside the checkout")
	}
	id := regexp.MustCompile("^" + letter + `\d\d$`)
	var records [][]string
	for line := range strings.Lines(string(page)) {
		for record := range strings.SplitSeq(line, ";") {
			cells := strings.Split(strings.TrimSpace(record), ",")
			if len(cells) >= fields && id.MatchString(cells[0]) {
				records = append(records, cells)
			}
		}
	}
	return records
}

func scenarioFindings(t *testing.T) []finding {
	t.Helper()
	var all []finding
	for _, c := range scenarioRecords(t, "F", 9) {
		x, errX := strconv.ParseFloat(c[2], 64)
		z, errZ := strconv.ParseFloat(c[3], 64)
		if errX != nil || errZ != nil {
			t.Fatalf("%s: place %q, %q is not a number", c[0], c[2], c[3])
		}
		all = append(all, finding{c[0], strings.Split(c[1], "+"), x, z})
	}
	return all
}

// scenarioAreas returns the outer skin of every panel in m²: both colours.
func scenarioAreas(t *testing.T) map[string]float64 {
	t.Helper()
	area := map[string]float64{}
	for _, c := range scenarioRecords(t, "P", 9) {
		lower, errS := strconv.ParseFloat(c[3], 64)
		upper, errL := strconv.ParseFloat(c[4], 64)
		if errS != nil || errL != nil {
			t.Fatalf("%s: areas %q, %q are not numbers", c[0], c[3], c[4])
		}
		area[c[0]] = lower + upper
	}
	return area
}
