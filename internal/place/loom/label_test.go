package loom

import (
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fettle/internal/placetest"
	stage "fettle/stage/loom"
)

var drawnCode = regexp.MustCompile(`(?s)<svg class="qr" viewBox="0 0 (\d+) .*?class="qr-dark" d="([^"]*)"`)

// TestLabels_CodesSayTheCutList: both codes of every wire say the text of its
// row, then the build and the end; and no wire has a third.
func TestLabels_CodesSayTheCutList(t *testing.T) {
	s := loomShop(t)
	var cuts []stage.Cut
	if err := json.Unmarshal([]byte(s.Get("loom/cut?as=json").Body), &cuts); err != nil {
		t.Fatal(err)
	}
	left := map[string]bool{}
	for _, c := range cuts {
		left[c.Label+"\npedlar · from "+c.From], left[c.Label+"\npedlar · to "+c.To] = true, true
	}
	if len(left) != 2*len(cuts) {
		t.Errorf("%d different labels for %d wires", len(left), len(cuts))
	}
	for _, m := range drawnCode.FindAllStringSubmatch(s.Get("loom/labels").Body, -1) {
		side, _ := strconv.Atoi(m[1])
		text := placetest.ReadCode(t, m[2], side)
		if !left[text] {
			t.Errorf("a label too many, or no row says %q", text)
		}
		delete(left, text)
		if side > 53 { // 18 mm: a module of 0.34 mm, what a phone still reads
			t.Errorf("%q takes %d modules", text, side)
		}
	}
	if len(left) > 0 {
		t.Errorf("%d ends have no label that says what they are: %q", len(left), slices.Sorted(maps.Keys(left)))
	}
}

// TestLabels_OnlyWhatChanged: what is printed and stands is left out.
func TestLabels_OnlyWhatChanged(t *testing.T) {
	s := loomShop(t)
	if got := s.Post("loom/labels"); got.Status >= 400 {
		t.Fatalf("printed: %d %.300s", got.Status, got.Body)
	}
	holds(t, s.Get("loom/labels?only=new"), 200, "All labels are printed as they are")
	line := []string{"length-C15", "5.4", "load-C15", "3.5", "duty-C15", "int", "colour-C15", "G/W", "fuse-C15", "F11 7.5"}
	if got := s.Post("loom/circuits", line...); got.See == "" {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	page := s.Get("loom/labels?only=new").Body
	if n := strings.Count(page, `class="qr"`); n != 6 || !strings.Contains(page, "3 wires printed with another text") {
		t.Errorf("%d labels, want the six of C15 and its branches", n)
	}
}
