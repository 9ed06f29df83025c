package paint_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/unit"
)

const fourDoors = "paint/mix/base-slackwater?panel=P11&panel=P12&panel=P58&panel=P59&coats=3"

// doorsOf is the form of a mix for the four doors, with the rest of its fields.
func doorsOf(rest ...string) []string {
	return append([]string{"panel", "P11", "panel", "P12", "panel", "P58", "panel", "P59", "coats", "3"}, rest...)
}

func TestMixCard_FourDoors(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	holds(t, s.Get(fourDoors+"&metal=18&tin=N08"), http.StatusOK, "3 coats on P11 cab door skin, left", "1.72", "0.37", "0.20 l", "0.57",
		"Slackwater base", "316", "Reducer BR", "253", "536", "fast", "0.68 l left after", "0.92", "of 1.24 l for the whole job",
		"Will the same batch do the rest?", "yes", "S-0114", "1.18", "isocyanates", "air-fed", "earthed", "maker's sheet")
	var card struct {
		Code string
		Need struct {
			Area   float64 `json:"area_m2"`
			Volume float64 `json:"volume_l"`
		}
		Pour []struct {
			Tin   build.TinID
			Ml    float64
			Scale float64 `json:"scale_g"`
		}
		Job   float64 `json:"job_l"`
		Still float64 `json:"still_l"`
	}
	if err := json.Unmarshal([]byte(s.Get(fourDoors+"&metal=18&as=json").Body), &card); err != nil {
		t.Fatal(err)
	}
	if card.Need.Area != 1.72 || card.Pour[0].Ml != 316 || card.Pour[1].Ml != 253 || card.Pour[1].Scale != 536 || card.Code != "base-slackwater P11 P12 P58 P59 3x 18C" {
		t.Errorf("card %+v", card)
	}
	holds(t, s.Get(fourDoors+"&metal=18&as=paper"), http.StatusOK, "536", "Type back in at Paint", card.Code, "Left in the cup after spraying", "isocyanates")
}

// TestMixCard_TwoTouches leads from a scanned tin to grams: the tin's own act,
// then the temperature.
func TestMixCard_TwoTouches(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	tin := s.Get("paint/tin/N14").Body
	_, rest, _ := strings.Cut(tin, `href="/b/pedlar/paint/mix/sealer-black?`)
	href, _, _ := strings.Cut(rest, `"`)
	card := s.Get("paint/mix/sealer-black?" + strings.ReplaceAll(href, "&amp;", "&"))
	holds(t, card, http.StatusOK, "How warm is the metal?", "Sealer black", "23 panels", "9.00")
	_, rest, _ = strings.Cut(card.Body, `class="button button-plain num" href="/b/pedlar/`)
	href, _, _ = strings.Cut(rest, `"`)
	holds(t, s.Get(strings.ReplaceAll(href, "&amp;", "&")), http.StatusOK, "14", "too cold", "under the sheet's 16 °C")
}

func TestMixCard_RefusesWhatCannotBe(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	for query, want := range map[string]string{
		"&rh=4500":              "Humidity must be from 0 to 100",
		"&metal=180":            "Metal must be from -20 to 60",
		"&metal=warm":           "Metal is not a number",
		"&coats=0":              "Coats must be from 1 to 20",
		"&panel=P99":            "Panels is not on the vehicle: P99",
		"&zone=limewash":        "gets none of Slackwater base: limewash",
		"&tin=N99":              "is not on record: N99",
		"&cup=Zahn+2&seconds=2": "cannot be",
	} {
		path := fourDoors + query
		if strings.HasPrefix(query, "&coats") {
			path = strings.Replace(fourDoors, "&coats=3", "", 1) + query
		}
		holds(t, s.Get(path), http.StatusUnprocessableEntity, want)
	}
	holds(t, s.Get("paint/mix/nothing?panel=P11"), http.StatusNotFound, "There is no paint")
	holds(t, s.Get("paint/mix/base-slackwater"), http.StatusOK, "touch those you spray with this mix", "P11 cab door skin, left")
}

func TestMixCard_StopsAtAWrongUndercoat(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	holds(t, s.Get("paint/mix/sealer-black?panel=P01&zone=slackwater&metal=18"), http.StatusOK, "Limewash base", "6 coats")
}

func TestPour_KeepsWhatTheScaleShowed(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	got := s.Post("paint/mix/base-slackwater", doorsOf("metal", "18", "air", "20", "rh", "42", "scale-1", "320", "tin-1", "N08", "scale-2", "541", "tin-2", "N10")...)
	if got.Status != http.StatusSeeOther || got.See != "/b/pedlar/paint/pour/M04" {
		t.Fatalf("poured: status %d to %q: %s", got.Status, got.See, plainText(got.Body))
	}
	b := s.Build(t)
	m := b.Pour("M04")
	if m == nil || m.Parts[0].Volume != 320_000 || m.Parts[0].Mass != 320_000 || m.Parts[1].Mass != 221_000 || m.Grade != "fast" || m.By != "PT" || m.RH != 42 {
		t.Fatalf("mix %+v", m)
	}
	if left := b.Tin("N08").Left; left != 680_000 {
		t.Errorf("N08 holds %v, want 0.68 l", left)
	}
	holds(t, s.Get("paint/pour/M04"), http.StatusOK, "320 ml, 320 g", "Weigh back what is left", "%", "n = 1 mix weighed back")
	if got := s.Post("paint/pour/M04", "left", "1000"); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "is more than was mixed") {
		t.Errorf("a kilogram back of half a litre: status %d", got.Status)
	}
	if got := s.Post("paint/pour/M04", "left", "94"); got.Status != http.StatusSeeOther {
		t.Fatalf("weighed back: status %d: %s", got.Status, plainText(got.Body))
	}
	b = s.Build(t)
	if m := b.Pour("M04"); m.LeftMass != 94_000 || m.Left < 98_000 || m.Left > 100_000 { // 541 g are 0.574 l
		t.Errorf("left %v, %v, want 94 g, 0.10 l", m.LeftMass, m.Left)
	}
	holds(t, s.Post("paint/pour/M04", "left", "94"), http.StatusUnprocessableEntity, "was weighed back already")
	holds(t, s.Get("paint/pour/M99"), http.StatusNotFound, "There is no mix")
}

func TestPour_RefusesBesideTheField(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	good := map[string]string{"metal": "18", "air": "20", "rh": "42", "scale-1": "316", "tin-1": "N08", "scale-2": "536", "tin-2": "N10"}
	for _, tt := range []struct{ name, value, want string }{
		{"rh", "4500", "Humidity must be from 0 to 100"},
		{"air", "", "Air is empty"},
		{"scale-1", "0", "is not more than before it"},
		{"scale-2", "300", "is not more than before it"},
		{"scale-2", "many", "is not a number"},
		{"tin-1", "N10", "tin N10 holds none of it"},
		{"tin-1", "N99", "tin N99 holds none of it"},
		{"scale-1", "1900", "hold 1.50 l"},
		{"coats", "99", "must be from 1 to 20"},
		{"metal", "13.5", "Metal is too cold: metal of 13.5 °C is under the sheet's 16 °C"},
	} {
		form := doorsOf()
		for name, value := range good {
			if name != tt.name {
				form = append(form, name, value)
			}
		}
		if tt.name == "coats" {
			form = append([]string{"coats", tt.value}, form...)
		} else {
			form = append(form, tt.name, tt.value)
		}
		if tt.value == "1900" {
			form = append([]string{"scale-2", "3300"}, form...)
		}
		holds(t, s.Post("paint/mix/base-slackwater", form...), http.StatusUnprocessableEntity, tt.want)
	}
	if n := len(s.Build(t).Pours); n != 3 {
		t.Errorf("%d mixes kept, want the 3 of before", n)
	}
	s.Person.Role = account.Guest
	if got := s.Post("paint/mix/base-slackwater", doorsOf()...); got.Status != http.StatusForbidden {
		t.Errorf("a guest pours: status %d, want 403", got.Status)
	}
}

// TestPour_HardenerOff holds a mix back whose hardener is a tenth short, says
// what to add, and keeps it when the painter says so.
func TestPour_HardenerOff(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	form := []string{"panel", "P11", "panel", "P12", "zone", "slackwater", "coats", "3", "metal", "19", "air", "20", "rh", "42",
		"scale-1", "495", "tin-1", "N11", "scale-2", "733", "tin-2", "N12", "scale-3", "765", "tin-3", ""}
	holds(t, s.Post("paint/mix/clear", form...), http.StatusUnprocessableEntity, "is off; add 27 g of Hardener CL-H to be right again", "is kept as it is")
	if got := s.Post("paint/mix/clear", append(form, "anyway", "yes")...); got.Status != http.StatusSeeOther {
		t.Fatalf("kept as it is: status %d: %s", got.Status, plainText(got.Body))
	}
	holds(t, s.Get("paint"), http.StatusOK, "In the cup: Clear", "3 h 00 left")
	s.At(unit.Day(2027, time.January, 7), 9, 0)
	holds(t, s.Get("paint/pour/M04"), http.StatusOK, "2 h 00 left, spray it by 11:00")
}

func TestMixCard_PanelsAreTouchedOnTheVehicle(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	body := s.Get(fourDoors + "&metal=18&view=right").Body
	_, drawing, _ := strings.Cut(body, `On the drawn vehicle`)
	for _, want := range []string{
		"coats=3&amp;metal=18&amp;panel=P11&amp;panel=P58&amp;panel=P59&amp;view=right#drawn",                 // P12 again: out
		"coats=3&amp;metal=18&amp;panel=P11&amp;panel=P12&amp;panel=P58&amp;panel=P59&amp;panel=P18&amp;view", // P18: in
	} {
		if !strings.Contains(drawing, want) {
			t.Errorf("no panel leads to %s", want)
		}
	}
	if strings.Contains(s.Get(fourDoors).Body, "On the drawn vehicle") {
		t.Error("the drawing is sent before it is asked for")
	}
}

func TestMix_WithoutDensitiesGoesByTheCup(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	b := s.Build(t)
	product := *b.Product("base-slackwater")
	product.Parts = nil
	record(t, s, &build.SetProduct{Product: product})
	holds(t, s.Get(fourDoors+"&metal=18"), http.StatusOK, "cup filled to, ml", "569", "Weigh 100 ml")
	got := s.Post("paint/mix/base-slackwater", doorsOf("metal", "18", "air", "20", "rh", "42", "scale-1", "316", "tin-1", "N08", "scale-2", "569", "tin-2", "")...)
	if got.Status != http.StatusSeeOther {
		t.Fatalf("poured by the cup: status %d: %s", got.Status, plainText(got.Body))
	}
	b = s.Build(t)
	if m := b.Pour("M04"); m.Parts[0].Volume != 316_000 || m.Parts[0].Mass != 0 {
		t.Errorf("mix %+v, want 316 ml and no weight", m)
	}
}

// TestMixCard_AimOfTheCup: the sheet's seconds stand on card and paper, the cup
// is chosen, and a reading in any cup is held beside them.
func TestMixCard_AimOfTheCup(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	card := fourDoors + "&metal=18"
	holds(t, s.Get(card), http.StatusOK, "Aim: 16 s in Ford 4 , as the sheet says", "Zahn 2 27 s")
	holds(t, s.Get(card+"&as=paper"), http.StatusOK, "Cup, s; aim 16 s in Ford 4:")
	for query, want := range map[string]string{
		"&cup=Ford+4&seconds=16.8": "as aimed",
		"&cup=Zahn+2&seconds=27":   "as aimed",
		"&cup=Ford+4&seconds=20":   "too thick by 4 s in Ford 4",
		"&cup=Ford+4&seconds=12":   "too thin by 4 s in Ford 4",
	} {
		holds(t, s.Get(card+query), http.StatusOK, want)
	}
	b := s.Build(t)
	product := *b.Product("base-slackwater")
	product.Viscosity = build.Viscosity{Cup: "shop's own", Seconds: 20}
	record(t, s, &build.SetProduct{Product: product})
	holds(t, s.Get(card+"&cup=Ford+4&seconds=20"), http.StatusOK, "Aim: 20 s in shop's own")
	holds(t, s.Get("paint/product/base-slackwater"), http.StatusOK, "shop's own")
	product.Viscosity = build.Viscosity{}
	record(t, s, &build.SetProduct{Product: product})
	holds(t, s.Get(card), http.StatusOK, "seconds are not entered")
	holds(t, s.Get("paint/mix/clear?panel=P11&coats=1&metal=18"), http.StatusOK, "5 % of all parts: 5 % × (2 + 1) = 0.15 parts")
}

func TestLabels_OfTins(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	holds(t, s.Get("paint/tins"), http.StatusOK, "Labels to print")
	all := s.Get("paint/tins/labels")
	holds(t, all, http.StatusOK, "N08", "Slackwater base", "Batch S-0114", "Came in", "Keeps until", "Type at Paint: N08", "Two-pack")
	b := s.Build(t)
	full := 0
	for _, tin := range b.Tins {
		if tin.Left > 0 {
			full++
		}
	}
	if n := strings.Count(all.Body, `class="paint-label"`); n != full {
		t.Errorf("%d labels, want %d, one for each tin that holds something", n, full)
	}
	one := s.Get("paint/tins/labels?tin=N12&tin=N08")
	holds(t, one, http.StatusOK, "2 labels", "Part of Clear")
	if n := strings.Count(one.Body, `class="paint-label"`); n != 2 {
		t.Errorf("%d labels of two tins", n)
	}
	holds(t, s.Get("paint/tins/labels?tin=N99"), http.StatusUnprocessableEntity, "is not on record: N99")
	holds(t, s.Get("paint/tin/N08"), http.StatusOK, "Keeps until", "Its label")
}
