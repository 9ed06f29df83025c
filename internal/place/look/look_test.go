package look_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/url"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/knockon"
	"fettle/internal/place/look"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

func places(d desk.Desk) []web.Place { return []web.Place{look.Place(d), knockon.Place(d)} }

const at = "/b/pedlar/look"

func has(t *testing.T, body string, all ...string) {
	t.Helper()
	for _, want := range all {
		if !strings.Contains(body, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

// TestBoard_LooksSideBySide: the van in the predicted colours under three lights,
// what each look takes, and how neighbours stand apart.
func TestBoard_LooksSideBySide(t *testing.T) {
	b := placetest.New(t, places)
	page := b.Get(at)
	if page.Status != 200 {
		t.Fatalf("got %d", page.Status)
	}
	has(t, page.Body, "data-neutral", "Slack Water", "High Water", "Low Water", "the one chosen", "indication only", "worked out from a spray-out", "as measured",
		"#eae6d6", "#164856", "#224755", "L 91.1  a −1.1  b 8.0", "± 0.4", "53.96", "Slackwater beside Limewash", "Marker Orange line on Slackwater", "Break line", "1180 mm",
		"Feb 2027", `popovertarget="w-litres-base-limewash-0"`, "A screen is never a match")
	if n := strings.Count(page.Body, `class="vehicle-svg vehicle-small"`); n != 6 {
		t.Errorf("%d small drawings, want lamp and tube of three looks", n)
	}
	var told []struct {
		Look  build.Look `json:"look"`
		Area  float64    `json:"area_m2"`
		Zones []struct {
			Area float64 `json:"area_m2"`
		} `json:"zones"`
	}
	if err := json.Unmarshal([]byte(b.Get(at+"?as=json").Body), &told); err != nil || len(told) != 3 {
		t.Fatalf("%d looks as JSON, %v", len(told), err)
	}
	for _, l := range told {
		sum := 0.0
		for _, z := range l.Zones {
			sum += z.Area
		}
		if sum < 53.959 || sum > 53.961 || l.Area != told[0].Area {
			t.Errorf("%s: zones add up to %.3f m², all is %.3f", l.Look.ID, sum, l.Area)
		}
	}
	rows, err := csv.NewReader(strings.NewReader(b.Get(at + "?as=csv").Body)).ReadAll()
	if err != nil || len(rows) < 20 || len(rows[0]) != 5 {
		t.Errorf("%d rows as CSV, %v", len(rows), err)
	}
}

// TestBoard_WithoutLooks offers the first act, and a vehicle without paint has a
// board too.
func TestBoard_WithoutLooks(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	b := placetest.NewOf(t, file, places)
	base := "/b/" + file.Build.Name + "/look"
	has(t, b.Get(base).Body, "No look yet", "Propose a look", base+"/new")
	if got := b.Get(base + "/new"); got.Status != 200 {
		t.Errorf("the first look: %d", got.Status)
	}
}

// TestPaint_OverBlackStops is the painter about to seal the roof black.
func TestPaint_OverBlackStops(t *testing.T) {
	b := placetest.New(t, places)
	page := b.Get(at + "/paint/base-limewash?over=sealer-black").Body
	has(t, page, "data-neutral", "Wrong undercoat", "6 coats, not 3: 8.1 l instead of 4.2 l, +3 coats ≈ +2.5 h in the booth",
		"Sealer light grey here, 1.85 l for 15.56 m²", "1.16 l for 9.00 m²", "no, planned", "8.08", "CIEDE2000", "Card C01", "Contrast")
	if page := b.Get(at + "/paint/base-limewash").Body; strings.Contains(page, "Wrong undercoat") || !strings.Contains(page, "yes, planned") {
		t.Error("over its own sealer it stops, or does not hide")
	}
	has(t, b.Get(at+"/paint/base-slackwater").Body, "Indication only, card C02.", "flop L", "Nothing is worked out coat by coat")
	has(t, b.Get(at+"/paint/base-slackwater?over=sealer-grey").Body, "Not known", "nobody has sprayed", "url(#h-ready)")
	has(t, b.Get(at+"/paint/epoxy").Body, "Not known", "url(#h-ready)")
	if got := b.Get(at + "/paint/none").Status; got != 404 {
		t.Errorf("a paint that is none: %d", got)
	}
	rows, err := csv.NewReader(strings.NewReader(b.Get(at + "/paint/base-limewash?over=sealer-black&as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 8 || rows[6][1] != "6" {
		t.Errorf("%v, %v", rows, err)
	}
}

func spectrum(v float64) string {
	return strings.TrimSpace(strings.Repeat(fmt.Sprintf("%.3f ", v), 36))
}

func aCard(with ...string) url.Values {
	f := url.Values{"product": {"base-limewash"}, "id": {"C40"}, "day": {"2026-10-06"}, "gun": {"1.3 mm"}, "gloss": {"included"}, "cleared": {"yes"},
		"ground-black": {spectrum(0.05)}, "ground-white": {spectrum(0.82)}, "coats-1": {"1"}, "film-1": {"9"}, "black-1": {spectrum(0.40)}, "white-1": {spectrum(0.74)}}
	for i := 0; i+1 < len(with); i += 2 {
		f.Set(with[i], with[i+1])
	}
	return f
}

// TestCard_MovesThePrediction: a card on the slip shows before and after, and is
// kept like any other change.
func TestCard_MovesThePrediction(t *testing.T) {
	b := placetest.New(t, places)
	got := b.Post(at+"/card", aCard())
	if got.Status != 303 || got.See != at+"/paint/base-limewash" {
		t.Fatalf("%d to %q %.300s", got.Status, got.See, got.Body)
	}
	has(t, b.Get(got.See).Body, "With your slip", "As it is kept", "card C40", "card C01")
	now := b.KeepSlip(t)
	c := now.Card("C40")
	if c == nil || len(c.Steps) != 1 || len(c.Grounds) != 2 || c.Steps[0].Film != 9 || !c.Gloss || !c.Cleared || len(c.Steps[0].Readings[1].Spectrum) != 36 {
		t.Fatalf("kept %+v", c)
	}
}

// TestCard_SaysWhatIsWrongBesideTheField.
func TestCard_SaysWhatIsWrongBesideTheField(t *testing.T) {
	b := placetest.New(t, places)
	gap := strings.Replace(spectrum(0.4), "0.400", "-", 18)
	for _, tt := range []struct{ field, value, want string }{
		{"face-1", "#12345", "is no colour like #1F4A55"},
		{"face-1", "50 3", "has 2 numbers"},
		{"face-1", "50 300 0", "is no Lab"},
		{"black-1", gap, "at 380 nm: a number is wanted, no gaps"},
		{"black-1", strings.Replace(spectrum(0.4), "0.400", "-0.1", 1), "is negative at 380 nm"},
		{"white-1", strings.Replace(spectrum(0.7), "0.700", "1.3", 1), "is above 1.2 at 380 nm"},
		{"black-1", spectrum(0.78), "reads lighter"},
		{"ground-white", spectrum(0.055), "too alike"},
		{"ground-white", "", "bare ground"},
		{"coats-1", "", "is empty"},
		{"film-1", "0", "must be from"},
		{"id", "C01", "is taken"},
		{"day", "", "give a day"},
		{"white-1", spectrum(0.74) + " ± lots", "has no error"},
	} {
		got := b.Post(at+"/card", aCard(tt.field, tt.value))
		if got.Status != 422 || !strings.Contains(got.Body, tt.want) || !strings.Contains(got.Body, "field-error") {
			t.Errorf("%s %.20q: %d, no %q beside a field", tt.field, tt.value, got.Status, tt.want)
		}
	}
	if len(b.Slip(t)) != 0 {
		t.Error("something wrong is on the slip")
	}
}

// TestCard_FromAFile fills the form in, to be looked over.
func TestCard_FromAFile(t *testing.T) {
	b := placetest.New(t, places)
	var file strings.Builder
	file.WriteString("nm,black,white,1 over black,1 over white,odd\n")
	for nm := 380; nm <= 730; nm += 10 {
		fmt.Fprintf(&file, "%d,0.05,0.82,0.41,0.75,0.3\n", nm)
	}
	got := b.Send(at+"/card", url.Values{"product": {"base-limewash"}}, "file", "card.csv", []byte(file.String()))
	if got.Status != 200 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	has(t, got.Body, "0.41 0.41 0.41", "is taken for white 1", "is taken for ground black", "&#34;odd&#34; is left out")
	if got := b.Send(at+"/card", aCard(), "file", "card.csv", []byte("nm,black\n380,\n")); got.Status != 422 || !strings.Contains(got.Body, "cannot be taken") {
		t.Errorf("a file with gaps: %d", got.Status)
	}
}

// TestCard_FromAPhotograph estimates with an error, and refuses what is no photo
// of the patches.
func TestCard_FromAPhotograph(t *testing.T) {
	b := placetest.New(t, places)
	f := url.Values{"product": {"base-limewash"}, "photo-card": {"#EDE7D6"}, "photo-grey": {"#808080"}, "grey-lab": {"53.6 0 0"}, "photo-patch": {"#1F4A55"},
		"patch-lab": {"29.0 -11.1 -11.0"}, "photo-spread": {"2"}, "photo-to": {"face-1"}}
	got := b.Post(at+"/photo", f)
	if got.Status != 200 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	has(t, got.Body, "two in three within", "91.7 -0.8 9.0 ± 3.4", "no match")
	for field, value := range map[string]string{"photo-card": "white", "grey-lab": "x", "photo-patch": "#FF0000", "photo-to": "roof"} {
		bad := url.Values{}
		for k, v := range f {
			bad[k] = v
		}
		bad.Set(field, value)
		if got := b.Post(at+"/photo", bad); got.Status != 422 || !strings.Contains(got.Body, "field-error") {
			t.Errorf("%s %q: %d", field, value, got.Status)
		}
	}
}

// TestStep_Chosen moves what is predicted and planned.
func TestStep_Chosen(t *testing.T) {
	b := placetest.New(t, places)
	got := b.Post(at+"/paint/base-limewash/step", url.Values{"card": {"C01"}, "step": {"2"}})
	if got.Status != 303 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	has(t, b.Get(got.See).Body, "With your slip", "2 coats of 9 µm", "no, planned", "<b>chosen</b>")
	if got := b.Post(at+"/paint/base-limewash/step", url.Values{"card": {"C01"}, "step": {"9"}}); got.Status != 422 {
		t.Errorf("a step that is none: %d", got.Status)
	}
}

func aLook(with ...string) url.Values {
	f := url.Values{"name": {"Tide Mark"}, "break-z": {"1180"}, "break-upper": {"limewash"}, "break-lower": {"slackwater"}, "break-words": {"straight"}, "note": {""}}
	for _, z := range []struct{ zone, colour, base, under string }{{"slackwater", "slackwater", "base-slackwater", "sealer-black"}, {"limewash", "limewash", "base-limewash", "sealer-grey"},
		{"jamb", "limewash", "base-limewash", "sealer-grey"}, {"wheels", "limewash", "base-limewash", "sealer-grey"}, {"grey", "harbour-grey", "satin-grey", ""}} {
		f.Set("colour-"+z.zone, z.colour)
		f.Set("base-"+z.zone, z.base)
		f.Set("under-"+z.zone, z.under)
	}
	for i := 0; i+1 < len(with); i += 2 {
		f.Set(with[i], with[i+1])
	}
	return f
}

// TestPropose_AndChoose: a look goes on the slip with its panels divided, and a
// wrong undercoat stops it with the figures.
func TestPropose_AndChoose(t *testing.T) {
	b := placetest.New(t, places)
	if got := b.Post(at+"/new", aLook()); got.Status != 303 || got.See != "/b/pedlar/slip" {
		t.Fatalf("%d to %q %.300s", got.Status, got.See, got.Body)
	}
	l := b.Slip(t)[0].(*build.AddLook).Look
	if l.ID != "tide-mark" || len(l.Zones) != 5 || len(l.Panels) == 0 || l.Break.Z.Mm() != 1180 {
		t.Errorf("proposed %+v", l)
	}
	has(t, b.Get(at).Body, "Tide Mark")
	for _, tt := range []struct{ field, value, want string }{
		{"name", "", "is empty"}, {"base-limewash", "base-slackwater", "is Slackwater, and the zone gets Limewash"}, {"under-limewash", "epoxy", "must be one of"},
		{"break-z", "high", "is not a number"}, {"break-lower", "limewash", "above the line already"}, {"under-limewash", "sealer-black", "6 coats, not 3"},
	} {
		if got := b.Post(at+"/new", aLook(tt.field, tt.value)); got.Status != 422 || !strings.Contains(got.Body, tt.want) || !strings.Contains(got.Body, "field-error") {
			t.Errorf("%s %q: %d without %q", tt.field, tt.value, got.Status, tt.want)
		}
	}
	b.Post("/b/pedlar/slip/back", url.Values{})
	if got := b.Post(at+"/new", aLook("under-limewash", "sealer-black", "under-jamb", "sealer-black", "under-wheels", "sealer-black", "anyway", "yes")); got.Status != 303 {
		t.Fatalf("all the same: %d", got.Status)
	}
	stop := b.Post(at+"/choose", url.Values{"look": {"tide-mark"}})
	if stop.Status != 422 {
		t.Fatalf("choosing it: %d", stop.Status)
	}
	has(t, stop.Body, "Wrong undercoat", "6 coats, not 3", "+3 coats", "Choose it with the right sealer", "Sealer light grey here")
	if got := b.Post(at+"/choose", url.Values{"look": {"tide-mark"}, "anyway": {"yes"}, "righted": {"yes"}}); got.Status != 303 {
		t.Fatalf("with the right sealer: %d", got.Status)
	}
	now := b.KeepSlip(t)
	if l := now.Look("tide-mark-2"); l == nil || !l.Chosen || l.Zones[1].Undercoat != "sealer-grey" {
		t.Errorf("chosen is %+v", l)
	}
}

// TestKnockOn_StopsTheWrongUndercoat: chosen all the same, the knock-on asks.
func TestKnockOn_StopsTheWrongUndercoat(t *testing.T) {
	b := placetest.New(t, places)
	b.Post(at+"/new", aLook("under-limewash", "sealer-black", "anyway", "yes"))
	b.Post(at+"/choose", url.Values{"look": {"tide-mark"}, "anyway": {"yes"}})
	has(t, b.Get("/b/pedlar/slip").Body, "Decide today", "Sealer black", "6 coats, not 3")
}

func TestLook_GuestsLook(t *testing.T) {
	b := placetest.New(t, places)
	b.As(account.Guest)
	if page := b.Get(at); page.Status != 200 || strings.Contains(page.Body, "Propose it changed") {
		t.Errorf("a guest's board: %d", page.Status)
	}
	for _, path := range []string{"/new", "/choose", "/colour", "/card", "/picture", "/photo", "/paint/base-limewash/step"} {
		if got := b.Post(at+path, url.Values{}); got.Status != 403 {
			t.Errorf("%s: %d, want 403", path, got.Status)
		}
	}
}

// TestBoard_OfManyLooks does not keep the page waiting for every plan.
func TestBoard_OfManyLooks(t *testing.T) {
	b := placetest.New(t, places)
	b.Post(at+"/new", aLook())
	if page := b.Get(at).Body; !strings.Contains(page, `hx-get="/b/pedlar/look/dates"`) || !strings.Contains(page, "Work the dates out") || strings.Contains(page, "Four in five by") {
		t.Error("four looks are planned while the page waits")
	}
	for _, path := range []string{at + "/dates", at + "?now=1", at + "?as=csv"} {
		has(t, b.Get(path).Body, "Four in five by", "Tide Mark")
	}
	has(t, b.Refresh(at).Body, "Four in five by", `id="looks" data-live`) // else the dates on an open page would go
}

// TestColour_AddedAndTried: a colour goes on the slip, and a look can try it before
// there is paint of it.
func TestColour_AddedAndTried(t *testing.T) {
	b := placetest.New(t, places)
	has(t, b.Get(at).Body, "Add a colour", "looks: Slack Water, High Water, Low Water", "paint: Limewash base")
	has(t, b.Get(at+"/colour").Body, "Add a colour", "as named, no spray-out yet")
	got := b.Post(at+"/colour", url.Values{"name": {"Kelp"}, "face": {"3b4a2f"}, "flop": {""}, "note": {"to try"}})
	if got.Status != 303 || got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	if c := b.Slip(t)[0].(*build.SetColour).Colour; c.ID != "kelp" || c.Face != "#3B4A2F" || c.Note != "to try" {
		t.Errorf("proposed %+v", c)
	}
	has(t, b.Get("/b/pedlar/slip").Body, "Colour added: Kelp, drawn as #3B4A2F")
	if got := b.Post(at+"/new", aLook("colour-slackwater", "kelp", "base-slackwater", "", "name", "Kelp Line")); got.Status != 303 {
		t.Fatalf("a look with it: %d %.300s", got.Status, got.Body)
	}
	has(t, b.Get(at).Body, "Kelp Line", "as named, no spray-out yet", "Litres of Kelp are not known", "Kelp, no paint of it yet", "at least ", "#3b4a2f")
	b.Post(at+"/choose", url.Values{"look": {"kelp-line"}})
	has(t, b.Get("/b/pedlar/slip").Body, "Look chosen: Kelp Line", "its litres are not known", "Enter the sheet of a base or single stage of Kelp")
}

// TestColour_ChangedOrRefused: an edit keeps the ID; troubles stand beside their
// fields.
func TestColour_ChangedOrRefused(t *testing.T) {
	b := placetest.New(t, places)
	has(t, b.Get(at+"/colour?colour=limewash").Body, "The colour Limewash", "Upper body", "paint: Limewash base", "as its card has it")
	if got := b.Get(at + "/colour?colour=none").Status; got != 404 {
		t.Errorf("a colour that is none: %d", got)
	}
	for _, tt := range []struct{ field, value, want string }{
		{"name", "", "is empty"}, {"name", "limewash", "is the name of another"}, {"face", "", "is empty"}, {"face", "green", "is no colour like"},
		{"flop", "#12", "is no colour like"}, {"colour", "none", "belongs to no colour"}, {"note", strings.Repeat("x", 201), "is too long"},
	} {
		f := url.Values{"name": {"Kelp"}, "face": {"#3B4A2F"}}
		f.Set(tt.field, tt.value)
		if got := b.Post(at+"/colour", f); got.Status != 422 || !strings.Contains(got.Body, tt.want) || !strings.Contains(got.Body, "field-error") {
			t.Errorf("%s %.20q: %d without %q", tt.field, tt.value, got.Status, tt.want)
		}
	}
	if got := b.Post(at+"/colour", url.Values{"colour": {"limewash"}, "name": {"Chalk"}, "face": {"#F0ECE0"}}); got.Status != 303 {
		t.Fatalf("an edit: %d", got.Status)
	}
	now := b.KeepSlip(t)
	if c := now.Colour("limewash"); c.Name != "Chalk" || c.Face != "#F0ECE0" {
		t.Errorf("kept %+v", c)
	}
}
