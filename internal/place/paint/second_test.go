package paint_test

import (
	"strings"
	"testing"

	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/paint"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

// TestAnotherVehicle: sheets that say little, and a shop without any paint, are
// answered with what is missing.
func TestAnotherVehicle(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	places := func(d desk.Desk) []web.Place { return []web.Place{paint.Place(d)} }
	s := placetest.Of(t, file, file.Build.Promise.In+30, places)
	id := string(file.Build.Products[0].ID)
	for path, status := range map[string]int{
		"paint/may-spray": 200, "paint/may-spray?product=" + id + "&air=18&rh=50&metal=18": 200, "paint/clocks": 200, "paint/day": 200, "paint/day?fill=sealer": 303,
		"paint/day?product-1=" + id: 422, "paint/records": 200, "paint/panel/" + string(file.Build.Panels[0].ID): 200,
	} {
		if a := s.Get(path); a.Status != status {
			t.Errorf("%s: %d, want %d: %.300s", path, a.Status, status, plainText(a.Body))
		}
	}
	if a := s.Get("paint/day?product-1=" + id); !strings.Contains(plainText(a.Body), "clearance time") {
		t.Errorf("nothing says that the clearance time is missing: %.900s", plainText(a.Body))
	}
	file.Build.Products, file.Days = nil, nil
	s = placetest.Of(t, file, file.Build.Promise.In+30, places)
	for _, path := range []string{"paint/may-spray", "paint/may-spray?air=18&rh=50&metal=18", "paint/clocks", "paint/day", "paint/records"} {
		if a := s.Get(path); a.Status != 200 {
			t.Errorf("without paint, %s: %d: %.300s", path, a.Status, plainText(a.Body))
		}
	}
}
