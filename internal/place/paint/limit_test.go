package paint_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/paint"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

// TestLimits_TheOwnersText: the table is shown with what is in each class,
// edited by its form as shown, and refused beside the field.
func TestLimits_TheOwnersText(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	page := s.Get("paint/limits")
	holds(t, page, http.StatusOK, "the owner's text, no law", "the yard's own list", "since March 2026", "Sealer black 592 g/l, 2.0 g/l over", "Clear, as one topcoat, 595 g/l, 25 g/l under", "Begin from this")
	before := s.Build(t).Solvent
	form := shownIn(page.Body, "limits-form")
	if got := s.Post("paint/limits", form...); got.See != "/b/pedlar/paint/limits" {
		t.Fatalf("sent as shown: status %d: %s", got.Status, plainText(got.Body))
	}
	if after := s.Build(t).Solvent; after.Title != before.Title || after.Note != before.Note || !slices.Equal(after.Classes, before.Classes) {
		t.Errorf("sent as shown: %+v, want %+v", after, before)
	}
	form = shownIn(s.Get("paint/limits").Body, "limits-form") // another entry
	for _, tt := range []struct{ name, value, want string }{
		{"note", "", "Whose rule, since when is empty"},
		{"title", "", "is empty"},
		{"class-1-most", "", "Limit is empty"},
		{"class-1-most", "9000", "must be from 1 to 2000"},
		{"class-2-name", "", "is empty"},
	} {
		holds(t, s.Post("paint/limits", with(form, tt.name, tt.value)...), http.StatusUnprocessableEntity, tt.want)
	}
	holds(t, s.Post("paint/limits", with(with(form, "class-3-name", ""), "class-3-most", "")...), http.StatusUnprocessableEntity, "there is no solvent class sealer")
	renamed := with(with(with(form, "class-3-name", "Sealers"), "class-6-name", "Sealer"), "class-6-most", "580,5")
	if got := s.Post("paint/limits", renamed...); got.Status != http.StatusSeeOther {
		t.Fatalf("named anew: status %d: %s", got.Status, plainText(got.Body))
	}
	b := s.Build(t)
	if c := b.SolventClass("sealer"); c == nil || c.Name != "Sealers" {
		t.Errorf("named anew, the class is %+v, want the same under its new name", c)
	}
	if c := b.SolventClass("sealer-2"); c == nil || c.Most != 580.5 {
		t.Errorf("a new class of a taken name: %+v in %+v", c, b.Solvent.Classes)
	}
	s.Person.Role = account.Guest
	if got := s.Get("paint/limits"); got.Status != http.StatusOK || strings.Contains(got.Body, "limits-form") {
		t.Errorf("a guest sees status %d, or the form", got.Status)
	}
	if got := s.Post("paint/limits", form...); got.Status != http.StatusForbidden {
		t.Errorf("a guest writes limits: status %d, want 403", got.Status)
	}
}

// TestLimits_BeganFromAnExample: without a table nothing is compared; an
// example fills the form, and the owner must still say whose rule it is.
func TestLimits_BeganFromAnExample(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	b := s.Build(t)
	for _, p := range b.Products {
		p.Solvent = ""
		record(t, s, &build.SetProduct{Product: p})
	}
	record(t, s, &build.SetSolventLimits{})
	holds(t, s.Get("paint/limits"), http.StatusOK, "No table is written yet")
	holds(t, s.Get("paint/product/clear"), http.StatusOK, "is written: the owner's text")
	holds(t, s.Get(fourDoors+"&metal=18"), http.StatusOK, "solvent limits is written")
	form := shownIn(s.Get("paint/limits?from=2").Body, "limits-form")
	holds(t, s.Post("paint/limits", form...), http.StatusUnprocessableEntity, "Whose rule, since when is empty")
	if got := s.Post("paint/limits", with(form, "note", "copied by MW, read in June")...); got.Status != http.StatusSeeOther {
		t.Fatalf("kept: status %d: %s", got.Status, plainText(got.Body))
	}
	b = s.Build(t)
	if c := b.SolventClass("topcoat"); c == nil || c.Most != 420 {
		t.Errorf("the topcoat of the table is %+v", c)
	}
	holds(t, s.Get(fourDoors+"&metal=18"), http.StatusOK, "is not said on its sheet")
}

func TestLimit_OnSheetCardAndPaper(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	holds(t, s.Get("paint/product/sealer-black"), http.StatusOK, "over the limit", "2.0 g/l", "592.0 − 590 = 2.0 g/l", "590 g/l for sealer in the yard's own list", "the owner's text, no law", "Beside every class")
	holds(t, s.Get(fourDoors+"&metal=18"), http.StatusOK, "under the limit", "620 − 595.1 = 25 g/l", "the owner's text, no law")
	holds(t, s.Get(fourDoors+"&metal=18&as=paper"), http.StatusOK, "25 g/l under the limit of 620 g/l for base and clear", "the owner's text, no law")
}

// TestLimitsAndLabels_OfAnotherVehicle: sheets that say no solvent, and a shop
// without a tin or a paint.
func TestLimitsAndLabels_OfAnotherVehicle(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	places := func(d desk.Desk) []web.Place { return []web.Place{paint.Place(d)} }
	s := placetest.Of(t, file, file.Build.Promise.In+30, places)
	holds(t, s.Get("paint/limits"), http.StatusOK, "No table is written yet")
	holds(t, s.Get("paint/tins/labels"), http.StatusOK, "No tin holds anything")
	product := file.Build.Products[0]
	product.Solvent = "any"
	record(t, s, &build.SetSolventLimits{Limits: build.SolventLimits{Title: "posted", Note: "since June", Classes: []build.SolventClass{{ID: "any", Name: "any paint", Most: 500}}}}, &build.SetProduct{Product: product})
	holds(t, s.Get("paint/limits"), http.StatusOK, product.Name+", solvent not known")
	holds(t, s.Get("paint/mix/"+string(product.ID)+"?coats=1&panel="+string(file.Build.Panels[0].ID)), http.StatusOK, "sheets do not say the solvent")
	file.Build.Products, file.Days = nil, nil
	s = placetest.Of(t, file, file.Build.Promise.In+30, places)
	holds(t, s.Get("paint/limits"), http.StatusOK, "No table is written yet")
}

// with is a form with one field changed.
func with(form []string, name, value string) []string {
	out := slices.Clone(form)
	for i := 0; i+1 < len(out); i += 2 {
		if out[i] == name {
			out[i+1] = value
		}
	}
	return out
}
