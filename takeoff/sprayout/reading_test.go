package sprayout_test

import (
	"strconv"
	"strings"
	"testing"

	"fettle/takeoff/sprayout"
)

func TestSamples_OfAFile(t *testing.T) {
	var csv strings.Builder
	csv.WriteString("nm,over black,over white\n")
	for nm := 380; nm <= 730; nm += 10 {
		csv.WriteString(strings.Join([]string{strconv.Itoa(nm), "0.5", "0.7"}, ",") + "\n")
	}
	list, err := sprayout.Samples(strings.NewReader(csv.String()))
	if err != nil || len(list) != 2 || len(list[1].Reading.Spectrum) != 36 || list[1].Reading.Spectrum[35] != 0.7 || list[0].Name != "over black" {
		t.Fatalf("%+v, %v", list, err)
	}
	gap := strings.Replace(csv.String(), "550,0.5,", "550,,", 1)
	if _, err := sprayout.Samples(strings.NewReader(gap)); err == nil || !strings.Contains(err.Error(), "550") {
		t.Errorf("a gap at 550 nm: %v", err)
	}
}

// TestPhotographed_OnItsGrey: a picture that is right already gives the card as it
// is, with the error that two patches cannot take away.
func TestPhotographed_OnItsGrey(t *testing.T) {
	grey, blue := [3]float64{53.585, 0, 0}, [3]float64{29.016, -11.126, -11.016}
	e, err := sprayout.Photographed(sprayout.Spot{RGB: "#EDE7D6"}, sprayout.Spot{RGB: "#808080"}, sprayout.Spot{RGB: "#1F4A55"}, grey, blue)
	if err != nil || e.Hex != "#ede7d6" || e.Within < 2 || e.Within > 2.5 || e.Missed > 0.5 {
		t.Errorf("%+v, %v", e, err)
	}
	for _, rgb := range []string{"", "#12345", "blue"} {
		if _, err := sprayout.Photographed(sprayout.Spot{RGB: rgb}, sprayout.Spot{RGB: "#808080"}, sprayout.Spot{RGB: "#1F4A55"}, grey, blue); err == nil {
			t.Errorf("%q is taken for a colour", rgb)
		}
	}
}
