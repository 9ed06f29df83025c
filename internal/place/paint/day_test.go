package paint_test

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/place/knockon"
	"fettle/internal/place/paint"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// shop is the demo shop at a moment, asked by its painter.
func shop(t *testing.T, month time.Month, day, hour, minute int) *placetest.Shop {
	t.Helper()
	year := 2026
	if month < time.September {
		year = 2027
	}
	d := unit.Day(year, month, day)
	s := placetest.Open(t, d, func(d desk.Desk) []web.Place { return []web.Place{paint.Place(d), knockon.Place(d)} })
	s.Person = account.Person{ID: "3", Code: "PT", Name: "Painter", Role: account.Crew}
	s.At(d, hour, minute)
	return s
}

// holds wants a status and words on a page, spaces and tags aside.
func holds(t *testing.T, a placetest.Answer, status int, words ...string) {
	t.Helper()
	if a.Status != status {
		t.Errorf("status %d, want %d", a.Status, status)
	}
	text := plainText(a.Body)
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%q is missing in %.3000s", w, text)
		}
	}
}

func plainText(html string) string {
	var b strings.Builder
	in := false
	for _, c := range html {
		switch {
		case c == '<':
			in = true
			b.WriteByte(' ')
		case c == '>':
			in = false
		case !in:
			b.WriteRune(c)
		}
	}
	return strings.NewReplacer("&#39;", "'", "&amp;", "&", "&#34;", `"`).Replace(strings.Join(strings.Fields(b.String()), " "))
}

const cold = "paint/may-spray?product=clear&air=17&rh=72&metal=13.5&panel=P02&steady=yes&filters=yes&breathing=yes&at=2027-01-06T15:30"

func TestMaySpray_ColdBooth(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	holds(t, s.Get(cold+"&laid=2027-01-05T16:10"), 200, "No Clear, 15:30 on 6 Jan", "metal of P02 roof skin rear", "13.5 − 11.9 = 1.6 °C, at least 3",
		"13.5 °C, at least 16", "the margin is then 4.1 °C", "72 %, at most 70", "Metal to 16 °C", "at about 16:14", "by 2 warm-ups of this booth",
		"closing, 40 min left (by 16:10)", "It closes before the metal is warm", "6.4", "to scuff and lay again", "Posted clearance 20 min", "before 15:50", "air-fed breathing", "The maker's sheet rules")
	holds(t, s.Get("paint/may-spray"), 200, "May I spray?", "Humidity")
	holds(t, s.Get("paint/may-spray?product=clear&air=20&rh=45&metal=18&steady=yes&filters=yes&breathing=yes"), 200, "Go Clear")
	holds(t, s.Get("paint/may-spray?product=clear&air=20&rh=45"), 200, "not known", "Read air, humidity and metal")
	var out struct {
		Go     bool     `json:"go"`
		WarmTo float64  `json:"warm_to_c"`
		Waits  []string `json:"windows"`
	}
	if err := json.Unmarshal([]byte(s.Get(cold+"&laid=16:10&as=json").Body), &out); err != nil || out.Go || out.WarmTo != 16 {
		t.Errorf("as JSON: %+v, %v", out, err)
	}
}

func TestMaySpray_RefusesWhatCannotBe(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	for query, says := range map[string]string{
		"air=17&rh=4500&metal=13":          "as 45 % meant?",
		"air=62&rh=45&metal=18":            "16.7 °C",
		"air=20&rh=45&metal=-19":           "o metal stays that cold",
		"air=warm&rh=45&metal=18":          "is not a number",
		"product=tar&air=17&rh=4&metal=18": "none of the paints",
		"air=17&rh=45&metal=18&at=later":   "is not a time",
	} {
		holds(t, s.Get("paint/may-spray?"+query), 422, says)
	}
}

func TestClocks_OfTheStory(t *testing.T) {
	s := shop(t, time.October, 6, 8, 0)
	holds(t, s.Get("paint/clocks"), 200, "bare", "16 h 00", "bare since 16:00 on Mon 5 Oct", "P37")
	holds(t, s.Get("paint/clocks?air=18&rh=60&metal=18"), 200, "The time is over", "16 h 00")
	holds(t, s.Get("paint/clocks?air=18&rh=4500&metal=18"), 422, "as 45 % meant?")
	s = shop(t, time.January, 8, 8, 0)
	holds(t, s.Get("paint/clocks"), 200, "As it stands at 08:00", "curing 2 d 8 h until cut and polish", "handle 21:10 on Thu 7 Jan", "Upper body", "Lower body")
	if a := s.Get("paint/clocks?as=csv"); a.Status != 200 || !strings.HasPrefix(a.Body, "Panel,Zone") {
		t.Errorf("as a file: %d %.80s", a.Status, a.Body)
	}
	var list []map[string]any
	if err := json.Unmarshal([]byte(s.Get("paint/clocks?as=json").Body), &list); err != nil || len(list) < 60 {
		t.Errorf("%d clocks, %v", len(list), err)
	}
}

// TestClocks_BaseThatWaits: a coat is laid on the page, and its window hangs on the wall.
func TestClocks_BaseThatWaits(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	a := s.Post("paint/coat", "product", "base-limewash", "number", "3", "panels", "P37 p38", "at", "2027-01-05T16:10", "metal", "18", "air", "20", "rh", "45")
	if a.Status != 303 {
		holds(t, a, 303)
	}
	holds(t, s.Get("paint/clocks"), 200, "closing 40 min closes 16:10", "Clear over Limewash base", "P37 P38", "scuff and lay the base again", "What painting it again would move")
	holds(t, s.Get("paint/panel/P37"), 200, "closing", "Limewash base, 3 of 3", "coat", "Paint it again")
	if body := s.Get("paint/panel/P37").Body; !strings.Contains(body, `value="clear" selected`) {
		t.Error("the form does not begin with the clear that is waited for")
	}
}

const bodyDay = "paint/day?date=2027-01-07&opens=05:30&closes=18:00&metal=18&cold=13&clean=60&product-1=sealer-grey&sets-1=limewash&product-2=sealer-black&sets-2=slackwater&turn-2=20" +
	"&product-3=base-limewash&sets-3=limewash&turn-3=20&product-4=base-slackwater&sets-4=slackwater&turn-4=60&product-5=clear&sets-5=limewash+/+slackwater&turn-5=20"

func TestDay_OfTheBody(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	holds(t, s.Get(bodyDay), 200, "Fits Thu 7 Jan 2027", "to spare", "by 2 warm-ups of this booth", "Clear, coat 3 on Lower body", "wash the gun, mask and turn", "clear the booth", "shut until dust free",
		"Painter works 08:00 to 16:00", "isocyanates")
	holds(t, s.Get(bodyDay+"&as=paper"), 200, "Spray-day sheet, Thu 7 Jan 2027", "Code to type back", "base-limewash @limewash 2x 18C", "Nobody enters without air-fed breathing before 20 min")
	holds(t, s.Get(strings.Replace(bodyDay, "closes=18:00", "closes=11:00", 1)), 200, "Does not fit", "too long for the day")
	if a := s.Get(bodyDay + "&as=csv"); a.Status != 200 || strings.Count(a.Body, ",spray,") != 14 {
		t.Errorf("as a file: %d, %d coats", a.Status, strings.Count(a.Body, "spray"))
	}
	a := s.Get("paint/day?fill=sealer")
	if q, err := url.QueryUnescape(a.See); a.Status != 303 || err != nil || !strings.Contains(q, "sets-5=slackwater / limewash") {
		t.Errorf("filled: %d %s", a.Status, a.See)
	}
	holds(t, s.Get("paint/day"), 200, "Lay the day out")
	for query, says := range map[string]string{
		"date=2026-01-01&product-1=clear":                                    "before the wreck came in",
		"product-1=clear&metal=13.5&warm=0":                                  "16",
		"product-1=tar":                                                      "no paint",
		"product-1=clear&sets-1=P99":                                         "no panel and no zone",
		"product-1=clear&opens=noon":                                         "is not a clock time",
		"product-1=clear&opens=17:00&closes=08:00":                           "no later than it opens",
		"product-1=clear&stands=-1":                                          "must be from",
		"product-1=base-limewash&sets-1=slackwater&metal=18&date=2027-01-07": "does not go on",
	} {
		holds(t, s.Get("paint/day?"+query), 422, says)
	}
}

// TestTicks: what the paper says is typed back as it is printed.
func TestTicks(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	before := len(s.Build(t).Coats)
	a := s.Post("paint/ticks", "day", "2027-01-06", "metal", "18", "air", "20", "rh", "45", "ticks", "base-limewash @limewash 1x 18C 10:05\nbase-limewash P37 P38 2x 18C 10:25")
	holds(t, a, 303)
	b := s.Build(t)
	if len(b.Coats) != before+2 || len(b.Coats[before].Panels) < 15 || b.Coats[before].At.Clock() != "10:05" || b.Coats[before+1].Number != 2 || len(b.Coats[before+1].Panels) != 2 {
		t.Errorf("coats %+v", b.Coats[before:])
	}
	for line, says := range map[string]string{"": "is no code", "base-limewash @limewash 1x": "does not end with a clock time", "tar P37 10:05": "no paint",
		"clear P37 1x 18C 23:00": "is still to come", "clear 1x 10:00": "names no panel"} {
		holds(t, s.Post("paint/ticks", "day", "2027-01-06", "metal", "18", "air", "20", "rh", "45", "ticks", line), 422, says)
	}
}

func TestRecords(t *testing.T) {
	s := shop(t, time.January, 12, 10, 0)
	holds(t, s.Get("paint/records"), 200, "Clear, 3 of 3", "Film", "P37", "Warm-ups", "13 to 18 °C in 105 min")
	holds(t, s.Get("paint/panel/P37"), 200, "P37 body side upper front, left, paint", "polishing may take")
	holds(t, s.Get("paint/panel/P99"), 404)
	for _, c := range []struct {
		to, says string
		pairs    []string
	}{
		{"film", "", []string{"panel", "P12", "film-product", "clear", "um", "204 211 199", "under", "142"}},
		{"warm-up", "", []string{"bay", "booth", "began", "2027-01-12T07:00", "from", "12", "to", "18", "minutes", "110", "warm-air", "22"}},
		{"clearance", "", []string{"bay", "booth", "clear", "18"}},
		{"bare", "", []string{"bared", "P12", "since", "2027-01-11T09:00"}},
		{"film", "no reading in µm", []string{"panel", "P12", "film-product", "clear", "um", "2 mil"}},
		{"film", "thinner", []string{"panel", "P12", "film-product", "clear", "um", "90", "under", "142"}},
		{"film", "is not chosen", []string{"um", "90"}},
		{"warm-up", "no warmer", []string{"bay", "booth", "from", "18", "to", "12", "minutes", "110", "warm-air", "22"}},
		{"warm-up", "no bay", []string{"bay", "attic", "from", "12", "to", "18", "minutes", "110", "warm-air", "22"}},
		{"clearance", "must be from", []string{"bay", "booth", "clear", "0"}},
		{"bare", "names no panel", []string{"bared", "P99"}},
		{"bare", "before the wreck came in", []string{"bared", "P12", "since", "2025-01-11T09:00"}},
		{"coat", "as 45 % meant?", []string{"product", "clear", "number", "1", "panels", "P37", "metal", "18", "air", "20", "rh", "4500"}},
		{"coat", "o metal stays that cold", []string{"product", "clear", "number", "1", "panels", "P37", "metal", "-19", "air", "20", "rh", "45"}},
		{"coat", "is still to come", []string{"product", "clear", "number", "1", "panels", "P37", "metal", "18", "air", "20", "rh", "45", "at", "2027-02-01T10:00"}},
		{"coat", "is empty", []string{"product", "clear", "number", "1", "panels", "P37"}},
	} {
		status := 303
		if c.says != "" {
			status = 422
		}
		holds(t, s.Post("paint/"+c.to, c.pairs...), status, c.says)
	}
	b := s.Build(t)
	if len(b.Films) != 6 || len(b.WarmUps) != 4 || b.Panel("P12").Bare.Clock() != "09:00" {
		t.Errorf("%d films, %d warm-ups, bare %s", len(b.Films), len(b.WarmUps), b.Panel("P12").Bare)
	}
	s.Person.Role = account.Guest
	if a := s.Post("paint/clearance", "bay", "booth", "clear", "18"); a.Status != 403 {
		t.Errorf("a guest posts: %d", a.Status)
	}
}

// TestRedo_FiveLostDays is the end of the cold booth: five days and nine hours
// go on the slip, and it says what they move.
func TestRedo_FiveLostDays(t *testing.T) {
	s := shop(t, time.January, 6, 15, 30)
	holds(t, s.Get("paint/redo?panels=P37&why=cold&product-1=base-limewash&coats-1=3"), 200, "Paint again", "P37")
	a := s.Post("paint/redo", "why", "clear not on in time", "panels", "P37 P38", "zone", "limewash", "product-1", "base-limewash", "coats-1", "3", "hours", "9", "trade", "PT", "days", "5", "task", "T18")
	holds(t, a, 303)
	changes := s.Slip(t)
	if len(changes) != 1 || changes[0].Kind() != "redo-paint" || changes[0].(*build.RedoPaint).Redo.Days != 5 {
		t.Fatalf("on the slip: %+v", changes)
	}
	holds(t, s.Get("slip"), 200, "clear not on in time")
	for says, pairs := range map[string][]string{
		"is empty: which paint":       {"why", "x y", "panels", "P37", "hours", "9", "trade", "PT", "days", "0", "task", "T18"},
		"names no panel":              {"why", "x y", "panels", "P99", "product-1", "clear", "coats-1", "1", "hours", "9", "trade", "PT", "days", "0", "task", "T18"},
		"is finished":                 {"why", "x y", "panels", "P37", "product-1", "clear", "coats-1", "1", "hours", "9", "trade", "PT", "days", "0", "task", "T06"},
		"must be from 0.1 to 1000":    {"why", "x y", "panels", "P37", "product-1", "clear", "coats-1", "1", "hours", "9999", "trade", "PT", "days", "0", "task", "T18"},
		"is not chosen: whose hours":  {"why", "x y", "panels", "P37", "product-1", "clear", "coats-1", "1", "hours", "9", "trade", "XX", "days", "0", "task", "T18"},
		"is empty: please fill it in": {"why", "", "panels", "P37", "product-1", "clear", "coats-1", "1", "hours", "9", "trade", "PT", "days", "0", "task", "T18"},
	} {
		holds(t, s.Post("paint/redo", pairs...), 422, says)
	}
}
