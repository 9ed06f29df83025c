package coat_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"
	"fettle/unit"

	"pgregory.net/rapid"
)

var (
	base = coat.Product{Name: "base", Coats: 3, Flash: 12, Rate: 1, Mix: 5, Missed: "scuff and a new base coat",
		Next: coat.Recoat{From: 25, To: 1440}, Drying: coat.Drying{Tape: 40}}
	clearCoat = coat.Product{Name: "clear", TwoPack: true, Coats: 3, Flash: 12, Rate: 1, Mix: 10, Pot: 180,
		Drying: coat.Drying{DustFree: 40, Handle: 600}}
)

func oneSet(opens unit.Moment) coat.Day {
	return coat.Day{Opens: opens, Closes: opens + 480, Metal: 20, Warm: 60, Clean: 30, Clearance: 5,
		Sets: []coat.Set{{Name: "doors", Panels: 4, Area: 1.72}},
		Runs: []coat.Run{{Product: base, Sets: []string{"doors"}}, {Product: clearCoat, Sets: []string{"doors"}}}}
}

func lines(s coat.DaySheet) string {
	var b strings.Builder
	for _, l := range s.Lines {
		fmt.Fprintf(&b, "%s %s", l.From.Clock(), l.Act)
		if l.Set != "" {
			fmt.Fprintf(&b, " %s", l.Set)
		}
		if l.Coat > 0 {
			fmt.Fprintf(&b, " %s %d", l.Product, l.Coat)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// TestDay_ByHand is a day whose every minute is reckoned by hand: 1.72 m² at
// 1 m² a minute are two minutes a coat.
func TestDay_ByHand(t *testing.T) {
	s, err := oneSet(day(t, "2027-01-07T08:00")).Sheet()
	good(t, err)
	want := `08:00 warm up
09:00 clean
09:30 mix doors
09:35 spray doors base 1
09:37 wait doors
09:49 spray doors base 2
09:51 wait doors
10:03 spray doors base 3
10:05 wait doors
10:20 mix doors
10:30 spray doors clear 1
10:32 wait doors
10:44 spray doors clear 2
10:46 wait doors
10:58 spray doors clear 3
11:00 clear the booth
11:05 shut until dust free
`
	if got := lines(s); got != want {
		t.Errorf("sheet\n%swant\n%s", got, want)
	}
	if !s.Fits() || s.Finish.Clock() != "11:40" || s.Spare != 260 || s.StartBy.Clock() != "12:20" || s.Say() != "done 11:40, 4 h 20 min to spare" {
		t.Errorf("%s; start by %s", s.Say(), s.StartBy.Clock())
	}
	if len(s.Clocks) != 1 || s.Clocks[0].Name != "doors: handle" || s.Clocks[0].From.Clock() != "21:00" || len(s.Cautions) != 4 {
		t.Errorf("clocks %v, cautions %q", s.Clocks, s.Cautions)
	}
	if l := s.Lines[10]; l.Within.To.Date() != s.Finish.Date()+1 || len(l.Starts) != 1 || l.Starts[0].From.Clock() != "10:44" {
		t.Errorf("first clear: %+v", l)
	}
}

// TestDay_SetsShareTheFlash: two sets of 14 m² flash while the other is sprayed.
func TestDay_SetsShareTheFlash(t *testing.T) {
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Sets = []coat.Set{{Name: "left", Panels: 1, Area: 14}, {Name: "right", Panels: 1, Area: 14}}
	for i := range d.Runs {
		d.Runs[i].Sets = []string{"left", "right"}
	}
	s, err := d.Sheet()
	good(t, err)
	waits := 0
	for _, l := range s.Lines {
		if l.Act == coat.Waits {
			waits += int(l.To - l.From)
		}
	}
	if waits != 1 { // the first clear, 25 min after the left's last base: 14 of the right and 10 of mixing
		t.Errorf("%d minutes of waiting, want 1:\n%s", waits, lines(s))
	}
}

// TestDay_WindowOfYesterday: base went on at 16:10 yesterday and clear must be
// on by 16:10; a booth that takes all day to warm misses it by what it takes.
func TestDay_WindowOfYesterday(t *testing.T) {
	laid := day(t, "2027-01-05T16:10")
	window, err := base.Next.Window(laid, 20)
	good(t, err)
	d := coat.Day{Opens: day(t, "2027-01-06T15:30"), Closes: day(t, "2027-01-06T22:00"), Metal: 16, Warm: 20, Clearance: 5,
		Sets: []coat.Set{{Name: "body", Area: 9, Under: coat.Clock{Name: "clear over base", Window: window}, Missed: base.Missed}},
		Runs: []coat.Run{{Product: clearCoat, Sets: []string{"body"}}}}
	s, err := d.Sheet()
	good(t, err)
	if !s.Fits() || s.StartBy.Clock() != "15:31" { // 20 + 10 + 9 of 40 minutes
		t.Errorf("%s, start by %s", s.Say(), s.StartBy.Clock())
	}
	d.Warm = 21 // to the minute
	if s, err = d.Sheet(); err != nil || !s.Fits() || s.StartBy != d.Opens {
		t.Errorf("%s, start by %s, %v", s.Say(), s.StartBy.Clock(), err)
	}
	d.Warm = 50
	s, err = d.Sheet()
	good(t, err)
	if s.Fits() || len(s.Troubles) != 1 || s.Troubles[0].Minutes != 29 || !strings.Contains(s.Say(), "29 min after the window has closed (16:10): scuff and a new base coat") {
		t.Errorf("%s, want 29 min late", s.Say())
	}
	d.Metal = 13.5
	_, err = d.Sheet()
	refused(t, "cold metal", err, "two-pack needs 16")
}

func TestDay_TooLong(t *testing.T) {
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Closes = d.Opens + 220
	if s, err := d.Sheet(); err != nil || !s.Fits() || s.Spare != 0 {
		t.Errorf("to the minute: %s, %v", s.Say(), err)
	}
	d.Closes = d.Opens + 200
	s, err := d.Sheet()
	good(t, err)
	if s.Fits() || s.Spare != -20 || s.StartBy != d.Opens-20 || !strings.Contains(s.Say(), "20 min too long for the day") {
		t.Errorf("%s, start by %s", s.Say(), s.StartBy)
	}
}

// TestDay_MaskTurn: the second colour waits until the first bears tape.
func TestDay_MaskTurn(t *testing.T) {
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Sets = []coat.Set{{Name: "upper", Area: 5}, {Name: "lower", Area: 5}}
	d.Runs = []coat.Run{{Product: base, Sets: []string{"upper"}}, {Product: base, Sets: []string{"lower"}, Turn: 45, Taped: []string{"upper"}}}
	s, err := d.Sheet()
	good(t, err)
	want := "10:14 wait upper\n10:54 mask and turn lower\n11:39 mix lower\n11:44 spray lower base 1\n"
	if got := lines(s); !strings.Contains(got, want) {
		t.Errorf("sheet\n%swant in it\n%s", got, want)
	}
}

// TestDay_PotLife: 45 min of pot are 31 in which a batch is sprayed; three coats
// with 15 of flash want a second one, mixed while the film flashes.
func TestDay_PotLife(t *testing.T) {
	p := coat.Product{Name: "high build", Coats: 3, Flash: 15, Rate: 1, Mix: 5, Pot: 45}
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Runs = []coat.Run{{Product: p, Sets: []string{"doors"}}}
	d.Sets[0].Area = 5
	s, err := d.Sheet()
	good(t, err)
	if got := strings.Count(lines(s), "mix"); got != 2 || !s.Fits() {
		t.Errorf("%d batches, %s:\n%s", got, s.Say(), lines(s))
	}
	d.Sets[0].Area = 40
	s, err = d.Sheet()
	good(t, err)
	if len(s.Troubles) != 3 || s.Troubles[0].Minutes != 9 || s.Fits() {
		t.Errorf("a coat of 40 min in 31.5: %s", s.Say())
	}
}

// TestDay_MixStands: an epoxy that stands 20 min after mixing is mixed that much
// earlier, and its pot life runs meanwhile.
func TestDay_MixStands(t *testing.T) {
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Runs = []coat.Run{{Product: coat.Product{Name: "epoxy", Coats: 2, Flash: 30, Rate: 1, Mix: 5, Stand: 20, Pot: 480}, Sets: []string{"doors"}}}
	s, err := d.Sheet()
	good(t, err)
	if got := lines(s); !strings.Contains(got, "09:30 mix doors\n09:35 wait doors\n09:55 spray doors epoxy 1\n") || strings.Count(got, "mix") != 1 {
		t.Errorf("sheet\n%s", got)
	}
}

// TestDay_Stands: six wet panels on four stands wait for the first to be
// handled, or are trouble where that is not today.
func TestDay_Stands(t *testing.T) {
	quick := clearCoat
	quick.Coats, quick.Drying.Handle = 1, 60
	d := oneSet(day(t, "2027-01-07T08:00"))
	d.Stands = 4
	d.Sets = []coat.Set{{Name: "a", Panels: 3, Area: 3}, {Name: "b", Panels: 3, Area: 3}}
	d.Runs = []coat.Run{{Product: quick, Sets: []string{"a"}}, {Product: quick, Sets: []string{"b"}}}
	s, err := d.Sheet()
	good(t, err)
	if !s.Fits() || !strings.Contains(lines(s), "09:43 wait b\n10:43 mix b") {
		t.Errorf("%s\n%s", s.Say(), lines(s))
	}
	early := s
	early.Lines = append([]coat.Line{}, s.Lines...)
	shift(&early, len(early.Lines)-4, -30) // mix, spray, clear, dry
	early.Lines = append(early.Lines[:len(early.Lines)-5], early.Lines[len(early.Lines)-4:]...)
	if err := coat.CheckDay(d, early); err == nil || !strings.Contains(err.Error(), "no stand") {
		t.Errorf("half an hour too early for the stands: %v\n%s", err, lines(early))
	}
	d.Runs[0].Product.Drying.Handle = 900
	s, err = d.Sheet()
	good(t, err)
	if s.Fits() || !strings.Contains(s.Say(), "no stand for 2 wet panels of b") {
		t.Errorf("%s", s.Say())
	}
}

func TestDay_Refuses(t *testing.T) {
	for holds, do := range map[string]func(*coat.Day){
		"warm the metal first": func(d *coat.Day) { d.Metal = 31 },
		"nobody enters before": func(d *coat.Day) { d.Clearance = 0 },
		"the booth is yours":   func(d *coat.Day) { d.Closes = d.Opens },
		"at least one product": func(d *coat.Day) { d.Runs = nil },
		"name each set once":   func(d *coat.Day) { d.Sets = append(d.Sets, d.Sets[0]) },
		"area":                 func(d *coat.Day) { d.Sets[0].Area = math.NaN() },
		"no set of the day":    func(d *coat.Day) { d.Runs[0].Sets = []string{"roof"} },
		"name the sets it":     func(d *coat.Day) { d.Runs[0].Sets = nil },
		"tape goes on":         func(d *coat.Day) { d.Runs[0].Taped = []string{"doors"} },
		"coats of the sheet":   func(d *coat.Day) { d.Runs[0].Product.Coats = 0 },
		"m² a minute":          func(d *coat.Day) { d.Runs[1].Product.Rate = 0 },
	} {
		d := oneSet(day(t, "2027-01-07T08:00"))
		do(&d)
		_, err := d.Sheet()
		refused(t, holds, err, holds)
	}
}

// TestCheckDay_SeesFaults spoils a sheet and wants it seen.
func TestCheckDay_SeesFaults(t *testing.T) {
	d := oneSet(day(t, "2027-01-07T08:00"))
	for holds, do := range map[string]func(*coat.DaySheet){
		"overlaps": func(s *coat.DaySheet) { s.Lines[3].From -= 3 },
		"flash": func(s *coat.DaySheet) {
			s.Lines[5].From, s.Lines[5].To = s.Lines[5].From-5, s.Lines[5].To-5
			s.Lines[4].To -= 5
		},
		"too short":       func(s *coat.DaySheet) { s.Lines[3].To-- },
		"is missing":      func(s *coat.DaySheet) { s.Lines = s.Lines[:13] },
		"too often":       func(s *coat.DaySheet) { s.Lines[16].Act = coat.Sprays },
		"dust free":       func(s *coat.DaySheet) { s.Finish -= 20 },
		"to spare":        func(s *coat.DaySheet) { s.Spare++ },
		"window opens":    func(s *coat.DaySheet) { s.Lines[10].From--; s.Lines[9].To-- },
		"another coat":    func(s *coat.DaySheet) { s.Lines[5].Coat = 3 },
		"70 % of the pot": func(s *coat.DaySheet) { shift(s, 11, 180) },
	} {
		s, err := d.Sheet()
		good(t, err)
		do(&s)
		if err := coat.CheckDay(d, s); err == nil || !strings.Contains(err.Error(), holds) {
			t.Errorf("%s: %v", holds, err)
		}
	}
}

// shift moves the lines from one on.
func shift(s *coat.DaySheet, from int, by unit.Moment) {
	for i := range s.Lines[from:] {
		s.Lines[from+i].From, s.Lines[from+i].To = s.Lines[from+i].From+by, s.Lines[from+i].To+by
	}
}

// TestDay_AnyDayHolds: whatever is asked, the sheet passes its checker, comes
// again exactly, and an hour of warm-up more never ends it earlier.
func TestDay_AnyDayHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := coat.Day{Opens: 29_000_000, Metal: rapid.Float64Range(16, 30).Draw(t, "metal"), Warm: float64(rapid.IntRange(0, 90).Draw(t, "warm")),
			Clearance: 5, Stands: rapid.IntRange(0, 6).Draw(t, "stands")}
		d.Closes = d.Opens + unit.Moment(rapid.IntRange(60, 900).Draw(t, "day"))
		names := []string{"a", "b", "c"}
		for _, n := range names {
			d.Sets = append(d.Sets, coat.Set{Name: n, Panels: rapid.IntRange(0, 3).Draw(t, "panels"), Area: rapid.Float64Range(0.1, 20).Draw(t, "area")})
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "runs") {
			p := coat.Product{Name: fmt.Sprint("p", i), Coats: rapid.IntRange(1, 4).Draw(t, "coats"), Flash: rapid.Float64Range(0, 30).Draw(t, "flash"), Rate: 1,
				Mix: rapid.Float64Range(0, 10).Draw(t, "mix"), Stand: rapid.SampledFrom([]float64{0, 15}).Draw(t, "stand"), Pot: rapid.SampledFrom([]float64{0, 30, 60, 240}).Draw(t, "pot"),
				Next:   coat.Recoat{From: 20, To: rapid.SampledFrom([]float64{0, 60, 1440}).Draw(t, "to")},
				Drying: coat.Drying{Tape: 40, DustFree: 30, Handle: rapid.SampledFrom([]float64{0, 60, 600}).Draw(t, "handle")}}
			k := rapid.IntRange(0, 2).Draw(t, "taped")
			d.Runs = append(d.Runs, coat.Run{Product: p, Sets: append(append([]string{}, names[:k]...), names[k+1:]...), Turn: 10, Taped: names[k : k+1]})
		}
		s, err := d.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		again, err := d.Sheet()
		if err != nil || fmt.Sprint(again) != fmt.Sprint(s) {
			t.Fatalf("twice the same day: %v", err)
		}
		if d.Stands > 0 {
			return // with stands, a later start may find panels dry
		}
		d.Warm += 60
		if late, err := d.Sheet(); err != nil || late.Finish < s.Finish {
			t.Fatalf("an hour later it ends %v, before %v; %v", late.Finish, s.Finish, err)
		}
	})
}
