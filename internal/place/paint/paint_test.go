package paint_test

import (
	"encoding/csv"
	"encoding/json"
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/placetest"
	"fettle/unit"
)

// record keeps changes behind the pages.
func record(t *testing.T, s *placetest.Shop, changes ...build.Change) {
	t.Helper()
	var drafts []live.Draft
	for _, c := range changes {
		drafts = append(drafts, live.Draft{Change: c})
	}
	if _, err := s.Desk.Shop.Record(t.Context(), s.Name, journal.AnySeq, live.Who{Person: "PT"}, drafts); err != nil {
		t.Fatal(err)
	}
}

func TestOverview_WhatIsNextAndWithWhat(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	holds(t, s.Get("paint"), http.StatusOK, "Next to be painted", "Sealer black", "23 panels", "17.56", "11.03", "Lower body", "9.00",
		"Slackwater base", "Underside", "N08", "S-0114", "Mixes made", "M03", "Tins, with a tenth to spare")
	rows, err := csv.NewReader(strings.NewReader(s.Get("paint?as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 9 || rows[6][4] != "2.23" {
		t.Errorf("file %v, %v, want eight paints and 2.23 l of the sixth", rows, err)
	}
	for list, head := range map[string]string{"to-buy": "Part,", "zones": "Zone,", "mixes": "Mix,"} {
		if a := s.Get("paint?list=" + list + "&as=csv"); a.Status != http.StatusOK || !strings.HasPrefix(a.Body, head) || strings.Count(a.Body, "\n") < 4 {
			t.Errorf("list %s is %d %.80q", list, a.Status, a.Body)
		}
	}
	var doc struct {
		Next []struct {
			Product build.ProductID
			Area    float64 `json:"area_m2"`
			Planned unit.Moment
		}
		Tins []build.Tin
	}
	if err := json.Unmarshal([]byte(s.Get("paint?as=json").Body), &doc); err != nil || len(doc.Tins) != 16 || len(doc.Next) == 0 {
		t.Errorf("document %+v, %v", doc, err)
	}
	for _, n := range doc.Next { // the light grey's own task is finished, the black's has begun
		if n.Planned < unit.Day(2027, time.January, 7).At(8, 0) {
			t.Errorf("%s is planned for %v, which is over", n.Product, n.Planned)
		}
	}
	holds(t, s.Get("paint?as=paper"), http.StatusOK, "Zones and what goes on them")
}

// TestOverview_BeforeTheTinsAreBoxed warns of the two batches, and no more once
// they are one.
func TestOverview_BeforeTheTinsAreBoxed(t *testing.T) {
	s := shop(t, time.October, 6, 8, 0)
	holds(t, s.Get("paint"), http.StatusOK, "L-2207 and L-2311", "Box all tins together before the first coat")
	holds(t, s.Get("paint/tins"), http.StatusOK, "two batches", "Pour all of them together", "N05, batch L-2207")
	holds(t, s.Post("paint/tins/box", "tins", "N05"), http.StatusUnprocessableEntity, "it takes two tins or more")
	holds(t, s.Post("paint/tins/box", "tins", "N05", "tins", "N08"), http.StatusUnprocessableEntity, "does not hold what tin N05 holds")
	if got := s.Post("paint/tins/box", "tins", "N05", "tins", "N06", "tins", "N07"); got.Status != http.StatusSeeOther {
		t.Fatalf("boxed: status %d", got.Status)
	}
	if text := plainText(s.Get("paint").Body + s.Get("paint/tins").Body); strings.Contains(text, "Box all tins") || strings.Contains(text, "two batches") {
		t.Error("boxed tins are still warned of")
	}
}

func TestTins_TakenInAndAdjusted(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	for _, tt := range []struct{ name, value, want string }{
		{"id", "", "is empty"},
		{"id", "n08", "is taken: write the next free number on the lid, N17"},
		{"holds", "sealer-grey 7", "is not chosen"},
		{"size", "0", "must be from 0.001 to 1000"},
		{"left", "2", "is more than the tin holds"},
	} {
		form := []string{tt.name, tt.value}
		for name, value := range map[string]string{"id": "N17", "holds": "sealer-grey 0", "size": "1", "batch": "SG-80"} {
			if name != tt.name {
				form = append(form, name, value)
			}
		}
		holds(t, s.Post("paint/tins", form...), http.StatusUnprocessableEntity, tt.want)
	}
	if got := s.Post("paint/tins", "id", "n17", "holds", "sealer-grey 0", "size", "1,5", "batch", "SG-80", "given", "yes"); got.See != "/b/pedlar/paint/tins" {
		t.Fatalf("taken in: status %d: %s", got.Status, plainText(got.Body))
	}
	b := s.Build(t)
	tin := b.Tin("N17")
	if tin == nil || tin.Left != 1_500_000 || !tin.Given || tin.Arrived == 0 {
		t.Fatalf("tin %+v, want 1.5 l, full, given", tin)
	}
	holds(t, s.Post("paint/tin/N17", "left", "3", "why", "weighed"), http.StatusUnprocessableEntity, "is more than the tin holds, 1.50 l")
	holds(t, s.Post("paint/tin/N17", "left", "1", "why", ""), http.StatusUnprocessableEntity, "is empty")
	got := s.Post("paint/tin/N17", "left", "0.25", "why", "skinned over")
	if b = s.Build(t); got.Status != http.StatusSeeOther || b.Tin("N17").Left != 250_000 {
		t.Errorf("adjusted: status %d, %v left", got.Status, b.Tin("N17").Left)
	}
	holds(t, s.Get("paint/tin/n17"), http.StatusOK, "0.25 l", "SG-80", "Sealer light grey")
	holds(t, s.Get("paint/tin/N99"), http.StatusNotFound, "There is no tin")
	rows, err := csv.NewReader(strings.NewReader(s.Get("paint/tins?as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 18 {
		t.Errorf("%d rows of tins, %v, want 17 under their heads", len(rows), err)
	}
}

func TestTins_PastTheirShelfLife(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	b := s.Build(t)
	product := *b.Product("base-slackwater")
	product.ShelfLife = 30 // days; its tins came on 30 Sep
	record(t, s, &build.SetProduct{Product: product})
	holds(t, s.Get("paint/tin/N08"), http.StatusOK, "past its shelf life since Fri 30 Oct 2026")
	holds(t, s.Get(fourDoors+"&metal=18"), http.StatusOK, "past its shelf life")
}

func TestFind_ATinAMixACard(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	for code, see := range map[string]string{
		"n08":   "/b/pedlar/paint/tin/N08",
		" m03 ": "/b/pedlar/paint/pour/M03",
		"base-slackwater p11 P12 @slackwater 3x 18,5c": "/b/pedlar/paint/mix/base-slackwater?coats=3&metal=18%2C5&panel=P11&panel=P12&zone=slackwater",
	} {
		if got := s.Get("paint/find?code=" + url.QueryEscape(code)); got.Status != http.StatusSeeOther || got.See != see {
			t.Errorf("%q: status %d to %q, want %q", code, got.Status, got.See, see)
		}
	}
	for code, want := range map[string]string{
		"":                     "is empty",
		"Z99":                  "is no tin, no mix and no paint",
		"base-slackwater door": "is no panel",
	} {
		holds(t, s.Get("paint/find?code="+url.QueryEscape(code)), http.StatusUnprocessableEntity, want)
	}
}

// sheetOf is the form of a small sheet, with some fields changed.
func sheetOf(changed ...string) []string {
	form := map[string]string{"name": "Cavity wax", "use": "", "zones": "grey", "task": "T16", "solids": "40", "coats": "1", "film": "50", "rounds": "1", "transfer": "0.5",
		"part-1-name": "Wax", "part-1-parts": "4", "part-1-density": "0.9", "part-2-name": "Thinner", "part-2-parts": "1", "part-2-density": "0.8"}
	for i := 0; i+1 < len(changed); i += 2 {
		form[changed[i]] = changed[i+1]
	}
	var pairs []string
	for name, value := range form {
		pairs = append(pairs, name, value)
	}
	return pairs
}

func TestProduct_EnteredOnceThroughTheSlip(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	if got := s.Post("paint/new", sheetOf("grade-1-name", "slow", "grade-1-from", "20", "grade-1-to", "30", "recoat_from", "30", "recoat_to", "1440")...); got.See != "/b/pedlar/slip" {
		t.Fatalf("entered: status %d: %s", got.Status, plainText(got.Body))
	}
	slip := s.Slip(t)
	p := slip[0].(*build.SetProduct).Product
	if p.ID != "cavity-wax" || len(p.Mix) != 2 || p.Mix[0] != 4 || p.Parts[1].Density != 0.8 || p.Transfer != 0.5 || p.Grades[0].To != 30 || p.Times.RecoatTo != 1440 {
		t.Errorf("product %+v", p)
	}
}

// TestProduct_ShownAndSentAgainIsTheSame sends every field of a sheet back as it
// was shown.
func TestProduct_ShownAndSentAgainIsTheSame(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	b := s.Build(t)
	for _, id := range []build.ProductID{"base-slackwater", "clear", "epoxy"} {
		body := s.Get("paint/product/" + string(id)).Body
		holds(t, s.Get("paint/product/"+string(id)), http.StatusOK, "ready to spray, less water and exempt", "the owner's text", "isocyanates")
		if base := id == "base-slackwater"; base != strings.Contains(plainText(body), "where a rule takes base and clear as one topcoat") {
			t.Errorf("%s: base and clear as one topcoat: want %v", id, base)
		}
		if got := s.Post("paint/product/"+string(id), shown(body)...); got.See != "/b/pedlar/slip" {
			t.Fatalf("%s: status %d: %s", id, got.Status, plainText(got.Body))
		}
		slip := s.Slip(t)
		want, _ := json.Marshal(b.Product(id))
		got, _ := json.Marshal(slip[len(slip)-1].(*build.SetProduct).Product)
		if string(got) != string(want) {
			t.Errorf("%s comes back as\n%s, want\n%s", id, got, want)
		}
	}
}

// shown reads the fields of a page as a browser would send them.
func shown(body string) []string { return shownIn(body, "product") }

// shownIn reads those of the form of that ID.
func shownIn(body, id string) []string {
	var pairs []string
	_, body, _ = strings.Cut(body, `id="`+id+`"`)
	body, _, _ = strings.Cut(body, "</form>")
	for _, tag := range strings.Split(body, "<")[1:] {
		tag, _, _ = strings.Cut(tag, ">")
		box := strings.Contains(tag, `type="checkbox"`)
		if strings.HasPrefix(tag, "input") && attr(tag, "name") != "" && (!box || strings.Contains(tag, " checked")) {
			pairs = append(pairs, attr(tag, "name"), attr(tag, "value"))
		}
	}
	for _, part := range strings.Split(body, "<textarea")[1:] {
		tag, rest, _ := strings.Cut(part, ">")
		text, _, _ := strings.Cut(rest, "</textarea>")
		pairs = append(pairs, attr(tag, "name"), html.UnescapeString(text))
	}
	for _, part := range strings.Split(body, "<select")[1:] {
		part, _, _ = strings.Cut(part, "</select>")
		for _, option := range strings.Split(part, "<option")[1:] {
			if tag, _, _ := strings.Cut(option, ">"); strings.Contains(tag, " selected") {
				pairs = append(pairs, attr(part, "name"), attr(tag, "value"))
			}
		}
	}
	return pairs
}

func attr(tag, name string) string {
	_, rest, _ := strings.Cut(tag, " "+name+`="`)
	value, _, _ := strings.Cut(rest, `"`)
	return strings.NewReplacer("&#39;", "'", "&amp;", "&", "&#34;", `"`).Replace(value)
}

// TestProduct_RatioTyped: a ratio typed anew fills the rows that are used, and
// says what its percentage is of; left as it was, the rows speak.
func TestProduct_RatioTyped(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	enter := func(path string, form []string) build.Product {
		t.Helper()
		if got := s.Post(path, form...); got.See != "/b/pedlar/slip" {
			t.Fatalf("status %d: %s", got.Status, plainText(got.Body))
		}
		slip := s.Slip(t)
		return slip[len(slip)-1].(*build.SetProduct).Product
	}
	clear := shown(s.Get("paint/product/clear").Body)
	holds(t, s.Get("paint/product/clear"), http.StatusOK, "2 : 1 + 5 % of all parts", "5 % × (2 + 1) = 0.15 parts")
	for _, tt := range []struct{ ratio, of, mix, extra string }{
		{"2:1 + 5 %", "paint", "[2,1,0.1]", "5 of the paint"},
		{"4:1 + 10 %", "all", "[4,1,0.5]", "10 of all parts"},
		{"3:1:1", "all", "[3,1,1]", ""},
	} {
		p := enter("paint/product/clear", with(with(clear, "ratio", tt.ratio), "extra_of", tt.of))
		mix, _ := json.Marshal(p.Mix)
		want := build.Extra{}
		if tt.extra != "" {
			want.Of = build.ExtraOf(tt.of)
		}
		if string(mix) != tt.mix || p.Extra.Of != want.Of || len(p.Parts) != 3 {
			t.Errorf("%s of %s: %s, %+v", tt.ratio, tt.of, mix, p.Extra)
		}
	}
	if p := enter("paint/product/clear", with(clear, part("3"), "0.2")); p.Mix[2] != 0.2 || p.Extra.Percent != 0 {
		t.Errorf("a row typed over: %v, %+v, want 0.2 and no percentage", p.Mix, p.Extra)
	}
	base := shown(s.Get("paint/product/base-slackwater").Body)
	if p := enter("paint/product/base-slackwater", with(base, "ratio", "1:0,9")); len(p.Mix) != 3 || p.Mix[1] != 0 || p.Mix[2] != 0.9 {
		t.Errorf("a ratio goes to the rows that are used: %v, want 1, none, 0.9", p.Mix)
	}
	form := with(with(with(with(sheetOf("ratio", "1 + 10 %", "extra_of", "paint"), "part-1-name", ""), "part-1-parts", ""), "part-2-name", ""), "part-2-parts", "")
	if p := enter("paint/new", form); len(p.Mix) != 2 || p.Mix[1] != 0.1 || p.Extra.Of != build.OfPaint {
		t.Errorf("rows left empty: %v, %+v", p.Mix, p.Extra)
	}
}

func part(n string) string { return "part-" + n + "-parts" }

func TestProduct_RefusesBesideTheField(t *testing.T) {
	s := shop(t, time.January, 7, 8, 0)
	for _, tt := range []struct{ name, value, want string }{
		{"name", "", "Name is empty"},
		{"part-1-parts", "0", "Parts by volume is none: give how many parts"},
		{"part-2-parts", "0", "Parts by volume is none: give how many parts"},
		{"part-2-parts", "-1", "must be from 0 to 1000"},
		{"part-1-density", "900", "Density must be from 0 to 10"},
		{"transfer", "60", "Part that stays on the panel must be from 0 to 1"},
		{"solids", "", "is none: the sheet gives it"},
		{"film", "0", "is none: the sheet gives it"},
		{"high_rh", "4500", "Highest humidity must be from 0 to 100"},
		{"ratio", "2:1 + 5 %", "of what, the paint or all of it?"},
		{"ratio", "2:x", "is not a number"},
		{"ratio", "3:1:1", "has 3 parts, and the rows below have not"},
		{"ratio", "1:1:1:1:1", "has 5 parts"},
		{"cup_s", "18", "which cup runs empty in 18 s?"},
		{"cup", "Ford 4", "in how many seconds does the cup run empty?"},
		{"solvent", "moon", "there is no solvent class moon"},
		{"recoat_to", "10", "the window closes before it opens"},
		{"grade-1-to", "10", "is colder than where the grade begins"},
		{"task", "T99", "Needed for cannot be"},
		{"use", "varnish", "Use cannot be"},
		{"id", "Clear", "is taken: clear"},
		{"sheet_day", "yesterday", "is not a day"},
	} {
		form := sheetOf("recoat_from", "20", "grade-1-name", "slow", "grade-1-from", "20", "grade-1-to", "30", tt.name, tt.value)
		holds(t, s.Post("paint/new", form...), http.StatusUnprocessableEntity, tt.want)
	}
	if len(s.Slip(t)) != 0 {
		t.Error("something refused lies on the slip")
	}
	holds(t, s.Get("paint/product/nothing"), http.StatusNotFound, "There is no paint")
	s.Person.Role = account.Guest
	if got := s.Get("paint/new"); got.Status != http.StatusForbidden {
		t.Errorf("a guest enters a sheet: status %d, want 403", got.Status)
	}
	holds(t, s.Get("paint/product/clear"), http.StatusOK, "Hardener CL-H, 1 by volume", "Pot life", "180 min")
}
