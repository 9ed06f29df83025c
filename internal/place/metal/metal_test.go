package metal_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/metal"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

const at = "/b/pedlar/metal"

func bench(t *testing.T) *placetest.Bench {
	return placetest.New(t, func(d desk.Desk) []web.Place { return []web.Place{metal.Place(d)} })
}

func mm(l unit.Length) string { return unit.FormatDecimal(int64(l), 3, 0) }

// formOf fills the form of a new finding as a person would.
func formOf(c *build.RecordFinding) url.Values {
	f := c.Finding
	v := url.Values{"x": {mm(f.X)}, "z": {mm(f.Z)}, "words": {f.What}, "width": {mm(f.Size.Width)}, "found": {f.Found}, "remedy": {string(f.Remedy)},
		"how": {f.How}, "decision": {string(c.Decision)}, "quantity": {"1"}, "part-id": {"Q90"}}
	for _, p := range f.Panels {
		v.Add("panel", string(p))
	}
	if f.Size.Height > 0 {
		v.Set("height", mm(f.Size.Height))
	}
	if f.Size.Count > 1 {
		v.Set("count", fmt.Sprint(f.Size.Count))
	}
	if f.Size.Round {
		v.Set("round", "yes")
	}
	for _, l := range f.Work {
		v.Set("hours-"+string(l.Trade), fmt.Sprint(l.Hours.H()))
	}
	for _, p := range c.Parts {
		v.Set("part", p.Name)
		v.Set("part-id", string(p.ID))
		v.Set("quantity", fmt.Sprint(p.Quantity))
		v.Set("price", fmt.Sprint(float64(p.Price)/100))
		v.Set("lead", fmt.Sprint(p.Lead))
	}
	return v
}

func TestTheFourteenOfTheBlastSheetGoThroughTheForm(t *testing.T) {
	b := bench(t)
	sheet, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range sheet {
		got := b.Post(at+"/new", formOf(c.(*build.RecordFinding)))
		if got.Status != 303 || got.See != at {
			t.Fatalf("%s: got %d to %q\n%s", c.(*build.RecordFinding).Finding.ID, got.Status, got.See, errorsIn(got.Body))
		}
	}
	kept := b.KeepSlip(t)
	for _, c := range sheet {
		want := c.(*build.RecordFinding).Finding
		got := kept.Finding(want.ID)
		if got == nil {
			t.Errorf("%s is not on the body", want.ID)
			continue
		}
		if got.What != want.What || got.Size != want.Size || got.Hours() != want.Hours() || got.Task != want.Task || got.X != want.X || got.Z != want.Z ||
			got.Found != want.Found || got.Remedy != want.Remedy || fmt.Sprint(got.Panels) != fmt.Sprint(want.Panels) {
			t.Errorf("%s: got %+v, want %+v", want.ID, *got, want)
		}
		for _, p := range c.(*build.RecordFinding).Parts {
			if part := kept.Part(p.ID); part == nil || part.Price != p.Price || part.Lead != p.Lead {
				t.Errorf("%s: part %s: got %+v, want %+v", want.ID, p.ID, part, p)
			}
		}
		for _, id := range want.Panels {
			if p := kept.Panel(id); p.Decision == build.Keep {
				t.Errorf("%s: panel %s is still to be kept", want.ID, id)
			}
		}
	}
	var all unit.Effort
	for _, f := range kept.Findings {
		all += f.Hours()
	}
	if len(kept.Findings) != 45 || all != 310*unit.Hour {
		t.Errorf("got %d findings with %s, want 45 with 310 h", len(kept.Findings), all)
	}
}

var wrongField = regexp.MustCompile(`(?s)class="field-error"[^>]*>(.*?)</p>`)

func errorsIn(page string) string {
	var out []string
	for _, m := range wrongField.FindAllStringSubmatch(page, -1) {
		out = append(out, m[1])
	}
	return strings.Join(out, "\n")
}

func TestAFormWithTroubleComesBackAsItWasTyped(t *testing.T) {
	good := url.Values{"panel": {"P02"}, "x": {"2450"}, "z": {"1850"}, "kind": {"perforated"}, "width": {"500"}, "height": {"350"}, "count": {"1"},
		"found": {"blast"}, "remedy": {"repair"}, "how": {"replace section"}, "hours-MW": {"10"}, "part-id": {"Q90"}, "quantity": {"1"}}
	for _, c := range []struct{ name, field, value, says string }{
		{"a size in words", "width", "five", "Width is not a number"},
		{"no size", "width", "", "Width is empty"},
		{"a size beyond the vehicle", "width", "900000", "Width must be from 1 to 20000"},
		{"less than nothing", "height", "-3", "Height must be from"},
		{"half a place", "count", "1.5x", "Places is not a number"},
		{"no kind", "kind", "", "What it is is not chosen"},
		{"a panel of another vehicle", "panel", "P99", "The panel is not on this vehicle"},
		{"no place", "x", "", "x, rearward of the front axle is empty"},
		{"hours in words", "hours-MW", "ten", "Hours MW is not a number"},
		{"a price without a part", "price", "12", "Part to get has a price but no name"},
		{"a number that is taken", "part-id", "Q01", "missing or taken"},
	} {
		b := bench(t)
		form := url.Values{}
		for k, v := range good {
			form[k] = v
		}
		form.Set(c.field, c.value)
		if c.field == "part-id" {
			form.Set("part", "roof skin")
			form.Set("price", "80")
			form.Set("lead", "5")
		}
		got := b.Post(at+"/new", form)
		if got.Status != 422 {
			t.Errorf("%s: got %d, want 422", c.name, got.Status)
		}
		if !strings.Contains(errorsIn(got.Body), c.says) {
			t.Errorf("%s: got %q beside the fields, want %q", c.name, errorsIn(got.Body), c.says)
		}
		for _, typed := range []string{`value="replace section"`, `value="2450"`, `value="350"`} {
			if (c.field == "x" && typed == `value="2450"`) || (c.field == "height" && typed == `value="350"`) {
				continue
			}
			if !strings.Contains(got.Body, typed) {
				t.Errorf("%s: %s was lost", c.name, typed)
			}
		}
		if n := len(b.Slip(t)); n != 0 {
			t.Errorf("%s: %d changes on the slip, want 0", c.name, n)
		}
	}
}

func TestTheShortestWayNeedsKindAndTwoSizes(t *testing.T) {
	b := bench(t)
	page := b.Get(at + "/new?panel=P02&x=2450&z=1850")
	for _, want := range []string{`value="2450"`, `value="1850"`, "F32 on P02 roof skin rear", `value="blast" checked`, `value="repair" checked`} {
		if !strings.Contains(page.Body, want) {
			t.Errorf("the form lacks %s", want)
		}
	}
	got := b.Post(at+"/new", url.Values{"panel": {"P02", ""}, "x": {"2450"}, "z": {"1850"}, "kind": {"perforated"}, "width": {"500"}, "height": {"350"}, "count": {"1"},
		"found": {"blast"}, "remedy": {"repair"}, "part-id": {"Q90"}, "quantity": {"1"}})
	if got.Status != 303 {
		t.Fatalf("got %d: %s", got.Status, errorsIn(got.Body))
	}
	f := b.Slip(t)[0].(*build.RecordFinding).Finding
	// 2 h at the bench and 4 h a metre of 2 × (0.50 + 0.35) m, to the half hour.
	if f.ID != "F32" || f.Hours() != 9*unit.Hour || f.Task != "T09" {
		t.Errorf("got %s with %s on %s, want F32 with 9 h on T09", f.ID, f.Hours(), f.Task)
	}
	if next := b.Get(at + "/new?panel=P02").Body; !strings.Contains(next, "F33 on P02") {
		t.Error("the next number does not count what is on the slip")
	}
	if body := b.Get(at).Body; !strings.Contains(body, "vehicle-draft") || !strings.Contains(body, `id="slipbar"`) {
		t.Error("the drawing does not show the finding that is on the slip")
	}
}

func TestGuessAnswersWithHoursForTheSizeSoFar(t *testing.T) {
	b := bench(t)
	got := b.Post(at+"/guess", url.Values{"panel": {"P12"}, "width": {"600"}, "height": {"40"}, "remedy": {"repair"}})
	// The other door's skin, Q02, is quoted at £142 and 14 days.
	for _, want := range []string{"Q02 cab door skin L is for the other side: £142, 14 working days.", "Buying at £142 pays once the repair takes more than"} {
		if !strings.Contains(got.Body, want) {
			t.Errorf("got no %q in\n%s", want, got.Body)
		}
	}
}

func picture(t *testing.T, w, h int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = byte(i % 251)
	}
	img.SetGray(0, 0, color.Gray{Y: 9})
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestAPhotoLandsInTheVaultAndBelongsToItsFinding(t *testing.T) {
	b := bench(t)
	data := picture(t, 1600, 1200)
	bad := b.Send(at+"/new", url.Values{"panel": {"P02"}, "x": {"1"}, "z": {"1"}, "kind": {"lace"}, "width": {"wide"}, "found": {"blast"}, "remedy": {"repair"}}, "photo", "hole.jpg", data)
	kept := regexp.MustCompile(`name="photo-kept" value="([0-9a-f]{64})"`).FindStringSubmatch(bad.Body)
	if bad.Status != 422 || kept == nil {
		t.Fatalf("got %d, and the photo was lost with the wrong size", bad.Status)
	}
	if there, err := b.Desk.Vault.Has(t.Context(), kept[1]); err != nil || !there {
		t.Fatalf("the vault has it: %v, %v", there, err)
	}
	good := b.Post(at+"/new", url.Values{"panel": {"P02"}, "x": {"1"}, "z": {"1"}, "kind": {"lace"}, "width": {"80"}, "found": {"blast"}, "remedy": {"repair"}, "photo-kept": {kept[1]}})
	if good.Status != 303 {
		t.Fatalf("got %d: %s", good.Status, errorsIn(good.Body))
	}
	now := b.KeepSlip(t)
	if len(now.Photos) == 0 || now.Photos[len(now.Photos)-1].Of != "finding/F32" {
		t.Fatalf("got photos %+v, want one of finding/F32", now.Photos)
	}
	small := b.Get("/b/pedlar/photo/" + kept[1] + "?edge=240")
	cfg, _, err := image.DecodeConfig(strings.NewReader(small.Body))
	if small.Status != 200 || err != nil || cfg.Width != 240 {
		t.Errorf("got %d, width %d, %v, want a picture 240 wide", small.Status, cfg.Width, err)
	}
	if got := b.Get("/b/pedlar/photo/" + strings.Repeat("0", 64)); got.Status != 404 {
		t.Errorf("a photo of nothing: got %d, want 404", got.Status)
	}
}

func TestGuestsLookAndDoNotSeeQuietPhotos(t *testing.T) {
	b := bench(t)
	if got := b.Send(at+"/finding/F01/photo", url.Values{"what": {"the plate"}, "quiet": {"yes"}}, "photo", "plate.jpg", picture(t, 40, 30)); got.Status != 303 {
		t.Fatalf("got %d: %s", got.Status, got.Body)
	}
	now := b.Now(t)
	photo := "/b/pedlar/photo/" + string(now.Photos[len(now.Photos)-1].Hash)
	if got := b.Get(photo); got.Status != 200 {
		t.Errorf("the crew: got %d, want 200", got.Status)
	}
	b.As(account.Guest)
	if got := b.Get(photo); got.Status != 404 {
		t.Errorf("a guest: got %d, want 404", got.Status)
	}
	if got := b.Get(at + "/finding/F01"); got.Status != 200 || strings.Contains(got.Body, "/photo/") || strings.Contains(got.Body, "On my slip") {
		t.Errorf("a guest sees what is not for guests (%d)", got.Status)
	}
	for _, path := range []string{"/new", "/guess", "/finding/F01/state", "/finding/F01/remedy", "/finding/F01/withdraw", "/finding/F01/photo", "/panel/P02/decide", "/panel/P02/photo"} {
		if got := b.Post(at+path, url.Values{}); got.Status != 403 {
			t.Errorf("a guest posts to %s: got %d, want 403", path, got.Status)
		}
	}
	if got := b.Get(at + "/new"); got.Status != 403 {
		t.Errorf("a guest opens the form: got %d, want 403", got.Status)
	}
}

func TestWhatIsDecidedGoesOnTheSlipAndWhatIsDoneIsKept(t *testing.T) {
	b := bench(t)
	for _, c := range []struct {
		path string
		form url.Values
		kind string
	}{
		{"/finding/F19/remedy", url.Values{"remedy": {"replace"}, "hours-MW": {"6,5"}, "how": {"bought floor"}}, "decide-remedy"},
		{"/finding/F31/withdraw", url.Values{"why": {"factory holes"}}, "withdraw-finding"},
		{"/panel/P02/decide", url.Values{"decision": {"replace"}}, "decide-panel"},
	} {
		before := len(b.Slip(t))
		got := b.Post(at+c.path, c.form)
		slip := b.Slip(t)
		if got.Status != 303 || len(slip) != before+1 || slip[before].Kind() != c.kind {
			t.Errorf("%s: got %d and %d changes, want 303 and %s on the slip", c.path, got.Status, len(slip), c.kind)
		}
	}
	if got := b.Slip(t)[0].(*build.DecideRemedy); build.Total(got.Work) != 6*unit.Hour+30*unit.Minute || got.Decision != build.Replace {
		t.Errorf("got %+v, want 6.5 h and the panel replaced", got)
	}
	if got := b.Post(at+"/finding/F01/state", url.Values{"state": {"cut out"}}); got.Status != 303 {
		t.Fatalf("got %d", got.Status)
	}
	now := b.Now(t)
	if got := now.Finding("F01").State; got != build.CutOut {
		t.Errorf("got %s, want cut out", got)
	}
	if got := b.Post(at+"/finding/F01/remedy", url.Values{"remedy": {"repair"}, "hours-MW": {"many"}}); got.Status != 422 || !strings.Contains(got.Body, `value="many"`) {
		t.Errorf("hours in words: got %d, want 422 with what was typed", got.Status)
	}
}

func TestEveryPageOpensAndEveryPanelCanBeReachedByTab(t *testing.T) {
	b := bench(t)
	reached := map[string]bool{}
	link := regexp.MustCompile(`<a class="vehicle-panel[^>]*href="/b/pedlar/metal/new\?panel=(P\d+)" aria-label="(P\d+) [^"]+, [a-z ]+`)
	for _, view := range []string{"left", "right", "front", "rear", "top", "inside"} {
		for _, m := range link.FindAllStringSubmatch(b.Get(at+"?view="+view).Body, -1) {
			if m[1] != m[2] {
				t.Errorf("the link to %s is called %s", m[1], m[2])
			}
			reached[m[1]] = true
		}
	}
	if len(reached) != 62 {
		t.Errorf("got %d panels with a named link, want 62", len(reached))
	}
	now := b.Now(t)
	for _, p := range now.Panels {
		if got := b.Get(at + "/panel/" + string(p.ID)); got.Status != 200 {
			t.Errorf("panel %s: got %d", p.ID, got.Status)
		}
		if got := b.Get(at + "/new?panel=" + string(p.ID)); got.Status != 200 || strings.Contains(got.Body, `name="x" type="text" value=""`) {
			t.Errorf("new on %s: got %d, or no place filled in", p.ID, got.Status)
		}
	}
	for _, path := range []string{"/findings", "/findings?as=csv", "/findings?as=json", "/panels", "/panels?as=csv", "/panels?as=json", "/finding/F44", "?as=json"} {
		if got := b.Get(at + path); path != "/finding/F44" && got.Status != 200 || path == "/finding/F44" && got.Status != 404 {
			t.Errorf("%s: got %d", path, got.Status)
		}
	}
	if csv := b.Get(at + "/findings?as=csv").Body; strings.Count(csv, "\n") != 32 {
		t.Errorf("got %d lines of findings, want 32", strings.Count(csv, "\n"))
	}
}
