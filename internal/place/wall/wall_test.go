package wall

import (
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/takeoff"
	"fettle/unit"
)

var blast = unit.Day(2026, time.October, 6)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

// mornings are days on which little, half and most of the work is done.
func mornings() []unit.Date {
	return []unit.Date{unit.Day(2026, 9, 14), blast, unit.Day(2026, 11, 6), unit.Day(2027, 1, 20)}
}

func wholeBuild(t *testing.T, s *placetest.Shop) (drawing, []run) {
	p, v := s.Plan(t)
	w := window{First: p.Promise.In.Monday(), Weeks: 30, Whole: true}
	runs := runsOf(p, v)
	return chartOf("pedlar", p, v, runs, w), runs
}

func TestChart_ShowsEveryOpenLegOnce(t *testing.T) {
	for _, morning := range mornings() {
		s := open(t, morning)
		c, _ := wholeBuild(t, s)
		p, _ := s.Plan(t)
		drawn := map[string]int{}
		for _, r := range c.Rows {
			for _, b := range r.Bars {
				if !b.Done && r.ID != awayRow && r.ID != waitRow {
					drawn[fmt.Sprint(b.Task, r.ID, b.From, b.To)]++
				}
			}
		}
		legs := 0
		for _, task := range p.Tasks {
			for _, l := range task.Legs {
				if l.Left > 0 {
					legs++
					if n := drawn[fmt.Sprint(task.ID, string(l.Person), l.Start, l.Finish)]; n != 1 {
						t.Errorf("%s: leg %s of %s is drawn %d times, want once", morning, l.Trade, task.ID, n)
					}
				}
			}
		}
		if len(drawn) != legs {
			t.Errorf("%s: %d open bars, want %d", morning, len(drawn), legs)
		}
	}
}

func TestChart_BarsOfOnePersonNeverOverlap(t *testing.T) {
	for _, morning := range mornings() {
		c, _ := wholeBuild(t, open(t, morning))
		for _, r := range c.Rows {
			for i, a := range r.Bars {
				for _, b := range r.Bars[i+1:] {
					if a.Y == b.Y && a.X+a.W > b.X+0.01 && b.X+b.W > a.X+0.01 {
						t.Errorf("%s, %s: %q and %q overlap", morning, r.ID, a.Spoken, b.Spoken)
					}
				}
			}
		}
	}
}

func TestChart_BarsStandOnTheDaysOfThePlan(t *testing.T) {
	s := open(t, blast)
	p, v := s.Plan(t)
	w := window{First: blast.Monday(), Weeks: 6}
	sc := scaleOf(&v.Build, w, nameWide, chartWide-nameWide)
	for _, r := range chartOf("pedlar", p, v, runsOf(p, v), w).Rows {
		for _, b := range r.Bars {
			first := max(b.From.Date(), w.First)
			i := int(first - w.First)
			if b.X < sc.edge[i]-0.01 || b.X > sc.edge[i+1]+0.01 {
				t.Errorf("%q begins at x %.1f, want inside %s, %.1f to %.1f", b.Spoken, b.X, first, sc.edge[i], sc.edge[i+1])
			}
		}
	}
	if want := sc.edge[1]; sc.x(blast.At(8, 0)) != want {
		t.Errorf("eight o'clock on the second day is at %.1f, want %.1f", sc.x(blast.At(8, 0)), want)
	}
}

// TestChart_IsWellFormed reads the drawing as a browser that knows only XML
// would, and expects a focusable link with a name on every bar.
func TestChart_IsWellFormed(t *testing.T) {
	s := open(t, blast)
	c, _ := wholeBuild(t, s)
	var text strings.Builder
	if err := draw(c).Render(t.Context(), &text); err != nil {
		t.Fatal(err)
	}
	links, bars := 0, 0
	for _, r := range c.Rows {
		bars += len(r.Bars)
	}
	d := xml.NewDecoder(strings.NewReader(text.String()))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "a" {
			links++
			for _, a := range e.Attr {
				if a.Name.Local == "aria-label" && !strings.Contains(a.Value, ",") {
					t.Errorf("a bar is called %q", a.Value)
				}
			}
		}
	}
	if links != bars || bars < 50 {
		t.Errorf("%d links on %d bars, want one each and at least 50", links, bars)
	}
}

func TestWall_SpeaksTheDatesOfThePlan(t *testing.T) {
	s := open(t, blast)
	p, v := s.Plan(t)
	body := s.Get("wall").Body
	t8 := taskOf(p, "T08")
	for _, l := range t8.Legs {
		want := fmt.Sprintf("T08 Metal A: floors, sills, frame, %s, %s, %s left", nameOf(&v.Build, l.Person), fromTo(l.Start, l.Finish), l.Left)
		if !strings.Contains(body, want) {
			t.Errorf("the wall does not say %q", want)
		}
	}
	for _, want := range []string{p.Dates.P50.Long(), p.Promise.Ready.Long(), "Why this date", "Odds of being ready"} {
		if !strings.Contains(body, want) {
			t.Errorf("the wall does not say %q", want)
		}
	}
	if n := len(rungs(p)); n != len(p.Chain) || n < 10 {
		t.Errorf("the ladder has %d rungs, want the %d links of the chain", n, len(p.Chain))
	}
}

func TestWall_Forms(t *testing.T) {
	s := open(t, blast)
	rows, err := csv.NewReader(strings.NewReader(s.Get("wall?as=csv").Body)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got, want := len(rows), len(s.Build(t).Tasks)+1; got != want {
		t.Errorf("the file has %d lines, want %d", got, want)
	}
	paper := s.Get("wall?as=paper&from=2026-10-05").Body
	p, _ := s.Plan(t)
	last := max(p.Dates.P90, p.Promise.Ready)
	if got, want := strings.Count(paper, `class="wall-sheet"`), int(last.Monday()-blast.Monday())/42+1; got != want {
		t.Errorf("%d sheets of paper, want %d of six weeks", got, want)
	}
	if got := s.Get("wall?from=2026-11-16").Body; !strings.Contains(got, "16 Nov to 27 Dec 2026") {
		t.Error("the wall of later weeks does not name them")
	}
}

func TestWays_PutOnTheSlip(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("wall/ways").Body; !strings.Contains(body, `hx-get="/b/pedlar/wall/ways/table"`) || !strings.Contains(body, "ways?now=1") {
		t.Error("the page of ways out answers at once with neither a fragment to fetch nor a plain link")
	}
	ways, err := s.Desk.Shop.WaysOut(t.Context(), "pedlar")
	if err != nil || len(ways) == 0 {
		t.Fatalf("%d ways out, %v; want some", len(ways), err)
	}
	table := s.Get("wall/ways/table").Body
	if got := strings.Count(table, "Put on my slip</button>"); got != len(ways) {
		t.Errorf("%d ways to put on the slip, want %d", got, len(ways))
	}
	best := ways[0]
	if got := s.Post("wall/ways/put", "way", keyOf(best)); got.See != "/b/pedlar/slip" {
		t.Fatalf("putting %q on the slip: status %d, leads to %q", best.Name, got.Status, got.See)
	}
	trial, err := s.Desk.Shop.Try(t.Context(), "pedlar", s.Slip(t))
	if err != nil {
		t.Fatal(err)
	}
	if trial.After.Odds.Ready != best.Ready {
		t.Errorf("the slip gives odds of %.4f, the table promised %.4f", trial.After.Odds.Ready, best.Ready)
	}
	if got := s.Post("wall/ways/put", "way", "a ladder to the moon"); got.Status != http.StatusConflict {
		t.Errorf("an unknown way: status %d, want 409", got.Status)
	}
}

func TestWall_DrawsTheSlip(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("wall?slip=1").Body; strings.Contains(body, "wall-ghost") || strings.Contains(body, "With your slip") {
		t.Error("the wall speaks of a slip with nothing on it")
	}
	s.Post("wall/task/T08/hold", "until", "2026-10-19")
	if body := s.Get("wall").Body; strings.Contains(body, "wall-ghost") || !strings.Contains(body, "With your slip") {
		t.Error("the wall draws a slip that was not asked for, or does not offer it")
	}
	body := s.Get("wall?slip=1").Body
	_, before := s.Plan(t)
	trial, err := s.Desk.Shop.Try(t.Context(), "pedlar", s.Slip(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range taskOf(trial.After, "T08").Legs {
		if want := fmt.Sprintf("%s, %s, %s left", nameOf(&before.Build, l.Person), fromTo(l.Start, l.Finish), l.Left); !strings.Contains(body, want) {
			t.Errorf("with the slip the wall does not say %q", want)
		}
	}
	if !strings.Contains(body, "wall-ghost") {
		t.Error("with the slip the wall does not show where the work stands now")
	}
}

func TestTask_Acts(t *testing.T) {
	s := open(t, blast)
	if got := s.Post("wall/task/T07/begin", "day", "2026-10-06"); got.Status != http.StatusSeeOther {
		t.Fatalf("begin: status %d", got.Status)
	}
	b := s.Build(t)
	if got := b.Task("T07"); got.State != build.Begun || got.Began != blast {
		t.Errorf("T07 is %s since %s, want begun on the day", got.State, got.Began)
	}
	s.Post("wall/task/T08/left", "left-MW", "91.5", "left-WA", "18", "left-LD", "16")
	s.Post("wall/task/T09/hold", "until", "2026-11-02")
	slip := s.Slip(t)
	if len(slip) != 2 {
		t.Fatalf("%d changes on the slip, want the hours left and the hold", len(slip))
	}
	if got := slip[0].(*build.SayLeft).Left[0].Hours; got != unit.Hours(91.5) {
		t.Errorf("hours left of the first leg: %s, want 91.5 h", got)
	}
	if got := s.Post("wall/task/T08/left", "left-MW", "a few"); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "is not a number") {
		t.Errorf("hours that are no number: status %d, want 422 with the reason", got.Status)
	}
	if got := s.Post("wall/task/T09/hold", "until", "2026-10-01"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("a hold in the past: status %d, want 422", got.Status)
	}
	if got := s.Get("wall/task/T99"); got.Status != http.StatusNotFound {
		t.Errorf("a task that is not there: status %d, want 404", got.Status)
	}
}

func TestTask_EveryPageDraws(t *testing.T) {
	s := open(t, unit.Day(2026, 11, 6))
	for _, task := range s.Build(t).Tasks {
		got := s.Get("wall/task/" + string(task.ID))
		if got.Status != http.StatusOK || !strings.Contains(got.Body, "<h1") {
			t.Errorf("%s: status %d", task.ID, got.Status)
		}
		for _, caution := range task.Caution {
			if !strings.Contains(got.Body, strings.ReplaceAll(caution, "'", "&#39;")) {
				t.Errorf("%s leaves out its caution %q", task.ID, caution)
			}
		}
	}
}

func TestGuest_LooksOnly(t *testing.T) {
	s := open(t, blast)
	s.Person.Role = account.Guest
	if got := s.Get("wall").Status; got != http.StatusOK {
		t.Errorf("a guest looks at the wall: status %d", got)
	}
	for _, path := range []string{"wall/task/T07/begin", "wall/task/T07/end", "wall/task/T08/left", "wall/task/T08/hold", "wall/ways/put", "wall/order/put"} {
		if got := s.Post(path, "day", "2026-10-06").Status; got != http.StatusForbidden {
			t.Errorf("a guest posts to %s: status %d, want 403", path, got)
		}
	}
	if s.Build(t).Tasks[5].State != open(t, blast).Build(t).Tasks[5].State {
		t.Error("a guest changed a task")
	}
}

func TestPaces_NameTheCause(t *testing.T) {
	s := open(t, blast)
	_, v := s.Plan(t)
	worst := spent{task: "T09", planned: 50 * unit.Hour, booked: 61 * unit.Hour}
	for _, c := range []struct {
		booked, planned unit.Effort
		want            string
	}{
		{204 * unit.Hour, 186 * unit.Hour, "T09 Metal B: pillars, gutters, roof ran 1.22 × (61 h for 50 h)"},
		{188 * unit.Hour, 186 * unit.Hour, ""}, // within one in twenty: no cause to name
		{150 * unit.Hour, 186 * unit.Hour, ""}, // ahead, and this one is behind
	} {
		if got := worst.cause(v, c.booked, c.planned); got != c.want {
			t.Errorf("%s for %s: cause %q, want %q", c.booked, c.planned, got, c.want)
		}
	}
}

// TestPaces_MetalOnAFriday signs some metal off, with the hours booked on it.
func TestPaces_MetalOnAFriday(t *testing.T) {
	for _, c := range []struct {
		name   string
		signed []build.TaskID
		more   unit.Effort // booked on T09 beyond its plan
		factor string
		cause  string
	}{
		{"as planned", []build.TaskID{"T08", "T09", "T10", "T11"}, 0, "0.85 ×", "T10 Metal C: sides, quarters, valance ran 0.54 ×"},
		{"two tasks not signed", []build.TaskID{"T08", "T09"}, 11 * unit.Hour, "1.06 ×", "T09 Metal B: pillars, gutters, roof ran 1.22 × (60 h for 49 h)"},
	} {
		s := open(t, unit.Day(2026, time.November, 6))
		p, v := s.Plan(t)
		b := v.Build.Clone()
		for i, f := range b.Findings {
			if slices.Contains(c.signed, f.Task) {
				b.Findings[i].State = build.Closed
			}
		}
		b.Hours = append(b.Hours, build.Hours{ID: "more", Person: "MW", Task: "T09", Start: blast.At(8, 0), Worked: c.more})
		v.Build = b
		p.Pace = append([]takeoff.Pace{takeoff.PaceOf(&b, "metal")}, takeoff.Paces(&b, "metal")...)
		row := paces(p, v)[0]
		if row.Factor != c.factor || !strings.HasPrefix(row.Cause, c.cause) {
			t.Errorf("%s: %s runs %s because %q, want %s because %q", c.name, row.What, row.Factor, row.Cause, c.factor, c.cause)
		}
	}
}

func TestWindow(t *testing.T) {
	begin, end := unit.Day(2026, 9, 14), unit.Day(2027, 2, 15)
	w := window{First: unit.Day(2026, 10, 5), Weeks: 6, Begin: begin, End: end}
	if got, want := w.earlier(), begin; got != want {
		t.Errorf("earlier: %s, want the first week, %s", got, want)
	}
	if got, want := w.later(), unit.Day(2026, 11, 16); got != want {
		t.Errorf("later: %s, want %s", got, want)
	}
	if got := len(w.sheets()); got != 4 {
		t.Errorf("%d sheets, want 4", got)
	}
}

func TestFitted(t *testing.T) {
	for _, c := range []struct {
		text    string
		letters int
		want    string
	}{
		{"T08 Metal A", 11, "T08 Metal A"},
		{"T08 Metal A: floors, sills", 14, "T08 Metal A…"},
		{"T29 Doors, lamps, bright work", 18, "T29 Doors, lamps…"},
		{"Größe über alles", 6, "Größe…"},
	} {
		if got := fitted(c.text, c.letters); got != c.want {
			t.Errorf("fitted(%q, %d) = %q, want %q", c.text, c.letters, got, c.want)
		}
	}
}
