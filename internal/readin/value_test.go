package readin

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/unit"
)

var plainNumerals = numeral{group: ","}

func TestParseSize(t *testing.T) {
	const mm = unit.Millimetre
	for _, c := range []struct {
		in, unit string
		want     build.Size
	}{
		{"260x180", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"260 × 180 mm", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"260*180", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"260 by 180", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"26 x 18 cm", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"26x18", "cm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"0,26 x 0,18 m", "mm", build.Size{Width: 260 * mm, Height: 180 * mm}},
		{"10 in", "mm", build.Size{Width: 254 * mm}},
		{"25 cm", "mm", build.Size{Width: 250 * mm}},
		{"1/2 in", "mm", build.Size{Width: 12_700}},
		{"½\"", "mm", build.Size{Width: 12_700}},
		{"1½ in", "mm", build.Size{Width: 38_100}},
		{"1-1/2\"", "mm", build.Size{Width: 38_100}},
		{"2'6\"", "mm", build.Size{Width: 762 * mm}},
		{"2′6″", "mm", build.Size{Width: 762 * mm}},
		{"2 ft 6 in", "mm", build.Size{Width: 762 * mm}},
		{"2'-6 1/2\" x 4\"", "mm", build.Size{Width: 774_700, Height: 101_600}},
		{"2 ft", "mm", build.Size{Width: 609_600}},
		{"10 x 4 in", "mm", build.Size{Width: 254 * mm, Height: 101_600}},
		{"10\" x 4", "mm", build.Size{Width: 254 * mm, Height: 101_600}},
		{"1,250 x 300", "mm", build.Size{Width: 1250 * mm, Height: 300 * mm}},
		{"12,5 x 8,25", "mm", build.Size{Width: 12_500, Height: 8_250}},
		{"70", "mm", build.Size{Width: 70 * mm}},
		{"30 dia", "mm", build.Size{Width: 30 * mm, Round: true}},
		{"Ø30", "mm", build.Size{Width: 30 * mm, Round: true}},
		{"6 x 30 dia", "mm", build.Size{Width: 30 * mm, Count: 6, Round: true}},
		{"11 x 8-38 dia", "mm", build.Size{Width: 38 * mm, Height: 8 * mm, Count: 11, Round: true}},
		{"11 of 8–38 dia mm", "mm", build.Size{Width: 38 * mm, Height: 8 * mm, Count: 11, Round: true}},
		{"160x80 x2", "mm", build.Size{Width: 160 * mm, Height: 80 * mm, Count: 2}},
		{"160x80 (2 off)", "mm", build.Size{Width: 160 * mm, Height: 80 * mm, Count: 2}},
		{"2 of 160 × 80 mm", "mm", build.Size{Width: 160 * mm, Height: 80 * mm, Count: 2}},
		{"-260x180", "mm", build.Size{Width: -260 * mm, Height: 180 * mm}},
	} {
		got, _, err := plainNumerals.parseSize(c.in, c.unit)
		if err != nil || got != c.want {
			t.Errorf("parseSize(%q) = %+v, %v; want %+v", c.in, got, err, c.want)
		}
	}
}

func TestParseSize_Refused(t *testing.T) {
	for _, c := range []struct{ in, says string }{
		{"", "is not a length"},
		{"big", "is not a length"},
		{"12 furlongs", `the unit "furlongs" is not known`},
		{"10 x 4 hands", `the unit "hands" is not known`},
		{"1x2x3x4", "is not a size"},
		{"160x80 x1.5", "is not a size"},
		{"1/0 in", "is not a length"},
		{"99999999999999999999", "absurd"},
		{strings.Repeat("9", 300), "too long"},
	} {
		_, _, err := plainNumerals.parseSize(c.in, "mm")
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("parseSize(%q) gave %v, want it to say %q", c.in, err, c.says)
		}
	}
}

func TestParseSize_ReadsWhatIsChalked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := build.Size{
			Width: unit.Length(rapid.Int64Range(1, 20_000_000).Draw(t, "width")),
			Count: rapid.IntRange(2, 99).Draw(t, "count"),
			Round: rapid.Bool().Draw(t, "round"),
		}
		if rapid.Bool().Draw(t, "tall") {
			size.Height = unit.Length(rapid.Int64Range(1, int64(size.Width)).Draw(t, "height"))
		}
		got, _, err := numeral{mark: '.'}.parseSize(size.String(), "in")
		if err != nil || got != size {
			t.Fatalf("parseSize(%q) = %+v, %v; want %+v", size.String(), got, err, size)
		}
	})
}

func TestParseHours(t *testing.T) {
	for _, c := range []struct {
		in   string
		want unit.Effort // minutes
	}{
		{"7.5", 450}, {"7,5 h", 450}, {"7h30", 450}, {"7:30", 450}, {"7 h 30 min", 450}, {"7½", 450}, {"7 1/2 hours", 450},
		{"45 min", 45}, {"8", 480}, {"8h", 480}, {"0:45", 45}, {"7.125", 428}, {"1,125", 68}, {"7:30:00", 450}, {"-2", -120}, {".5", 30},
	} {
		if got, err := plainNumerals.parseHours(c.in); err != nil || got != c.want {
			t.Errorf("parseHours(%q) = %d min, %v; want %d min", c.in, got, err, c.want)
		}
	}
	for _, c := range []struct{ in, says string }{
		{"", "not a number"}, {"lots", "not a number"}, {"7:75", "59 minutes"}, {"2 days", `"days" is not known`}, {"7:3", "not a number"},
	} {
		if _, err := plainNumerals.parseHours(c.in); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("parseHours(%q) gave %v, want it to say %q", c.in, err, c.says)
		}
	}
}

func TestParseShares(t *testing.T) {
	both := []share{{"MW", 300}, {"LD", 120}}
	for _, c := range []struct {
		in   string
		want []share
	}{
		{"MW 5, LD 2", both}, {"MW5+LD2", both}, {"5 MW, 2 LD", both}, {"5 h MW / 2 h LD", both}, {"MW: 5 h; LD: 2 h", both},
		{"MW 5h00 LD 2:00", both}, {"5h of MW and 2h of LD", nil}, {"MW 7,5, LD 2,25", []share{{"MW", 450}, {"LD", 135}}},
		{"lead designer 2", []share{{"lead designer", 120}}}, {"10", []share{{"", 600}}}, {"MW 5", both[:1]},
		{"MW lots", nil}, {"MW", nil}, {"MW 5, LD", nil},
	} {
		got, err := plainNumerals.parseShares(c.in)
		if (err != nil) != (c.want == nil) || len(got) != len(c.want) && err == nil {
			t.Errorf("parseShares(%q) = %v, %v; want %v", c.in, got, err, c.want)
			continue
		}
		for i := range c.want {
			if got[i] != c.want[i] {
				t.Errorf("parseShares(%q)[%d] = %v, want %v", c.in, i, got[i], c.want[i])
			}
		}
	}
}

func TestParseMoney(t *testing.T) {
	pounds, kroner := unit.Currency{Code: "GBP", Symbol: "£"}, unit.Currency{Code: "DKK", Symbol: "kr"}
	for _, c := range []struct {
		in       string
		currency unit.Currency
		mark     byte
		want     unit.Money // hundredths
		doubt    bool
	}{
		{"£1,150.00", pounds, 0, 115000, false}, {"1.150,00 kr", kroner, 0, 115000, false}, {"385", pounds, 0, 38500, false},
		{"GBP 62.50", pounds, 0, 6250, false}, {"62.50 gbp", pounds, 0, 6250, false}, {"1 150,00", pounds, 0, 115000, false},
		{"1'150.00", pounds, 0, 115000, false}, {"1,150", pounds, 0, 115000, true}, {"1.150", pounds, 0, 115000, true},
		{"1.150", kroner, ',', 115000, false}, {"1,150", kroner, ',', 115, false}, {"74,-", kroner, 0, 7400, false},
		{"12,5", kroner, 0, 1250, false}, {"-£5", pounds, 0, -500, false}, {"(5.00)", pounds, 0, -500, false},
		{"1,234,567.89", pounds, 0, 123456789, false}, {"£74 each", pounds, 0, 7400, false}, {"0.125", pounds, 0, 13, false},
	} {
		got, doubt, err := numeral{mark: c.mark}.parseMoney(c.in, c.currency)
		if err != nil || got != c.want || doubt != c.doubt {
			t.Errorf("parseMoney(%q, %s) = %d, doubt %t, %v; want %d, doubt %t", c.in, c.currency.Code, got, doubt, err, c.want, c.doubt)
		}
	}
	for _, c := range []struct{ in, says string }{
		{"", "not an amount"}, {"ask", "not an amount"}, {"74 kr", "the build's money is GBP"}, {"€74", "the build's money is GBP"},
		{"74 shells", `"shells" is not known`}, {"1,15,00", "not an amount"}, {"1.2.3", "not an amount"},
	} {
		if _, _, err := plainNumerals.parseMoney(c.in, pounds); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("parseMoney(%q) gave %v, want it to say %q", c.in, err, c.says)
		}
	}
}

func TestHeadCurrency(t *testing.T) {
	pounds := unit.Currency{Code: "GBP", Symbol: "£"}
	for _, head := range []string{"Price", "Price £", "Price (GBP)", "unit cost each", "from price"} {
		if err := headCurrency(head, pounds); err != nil {
			t.Errorf("headCurrency(%q) = %v, want none", head, err)
		}
	}
	for _, head := range []string{"Price €", "Price (EUR)", "Cost in kr", "$ each"} {
		if err := headCurrency(head, pounds); err == nil {
			t.Errorf("headCurrency(%q) is taken as pounds", head)
		}
	}
}

func TestParseDate(t *testing.T) {
	oct6, jun10 := unit.Day(2026, 10, 6), unit.Day(2026, 6, 10)
	for _, c := range []struct {
		in         string
		monthFirst bool
		want       unit.Date
		minutes    int
		doubt      bool
	}{
		{"2026-10-06", false, oct6, -1, false}, {"2026/10/6", false, oct6, -1, false}, {"6/10/2026", false, oct6, -1, true},
		{"6/10/2026", true, jun10, -1, true}, {"6.10.26", false, oct6, -1, true}, {"6. 10. 2026", false, oct6, -1, true},
		{"6 Oct 2026", false, oct6, -1, false}, {"6-Oct-26", false, oct6, -1, false}, {"6th October 2026", false, oct6, -1, false},
		{"Oct 6, 2026", false, oct6, -1, false}, {"Tue 6 Oct 2026", false, oct6, -1, false}, {"Tuesday, 6 October 2026", false, oct6, -1, false},
		{"25/10/2026", true, unit.Day(2026, 10, 25), -1, false}, {"10/25/2026", false, unit.Day(2026, 10, 25), -1, false},
		{"6/6/2026", false, unit.Day(2026, 6, 6), -1, false}, {"2026-10-06T08:10", false, oct6, 490, false},
		{"2026-10-06 16:30:00", false, oct6, 990, false}, {"6 Oct 2026 4:30 pm", false, oct6, 990, false}, {"46301", false, oct6, -1, false},
	} {
		got, minutes, doubt, err := parseDate(c.in, c.monthFirst)
		if err != nil || got != c.want || minutes != c.minutes || doubt != c.doubt {
			t.Errorf("parseDate(%q, month first %t) = %s at %d, doubt %t, %v; want %s at %d, doubt %t",
				c.in, c.monthFirst, got, minutes, doubt, err, c.want, c.minutes, c.doubt)
		}
	}
	for _, in := range []string{"", "soon", "31/2/2026", "2026-13-01", "32 Oct 2026", "6 Okt 2026", "10", strings.Repeat("1", 300)} {
		if got, _, _, err := parseDate(in, false); err == nil {
			t.Errorf("parseDate(%q) = %s, want an error", in, got)
		}
	}
}

func TestParseClock(t *testing.T) {
	for _, c := range []struct {
		in   string
		want int
	}{{"8:00", 480}, {"08:30", 510}, {"8.30", 510}, {"8", 480}, {"16h30", 990}, {"4:30 pm", 990}, {"12 am", 0}, {"12pm", 720}, {"24:00", 1440}} {
		if got, err := parseClock(c.in); err != nil || got != c.want {
			t.Errorf("parseClock(%q) = %d, %v; want %d", c.in, got, err, c.want)
		}
	}
	for _, in := range []string{"", "25:00", "8:75", "13 pm", "noon", "8-9"} {
		if got, err := parseClock(in); err == nil {
			t.Errorf("parseClock(%q) = %d, want an error", in, got)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"roof skin front", "roof skin rear", "gutter", "keep"}
	for _, c := range []struct {
		in   string
		want int
	}{{"rood skin front", 0}, {"roof skni rear", 1}, {"Guter", 2}, {"sill", -1}, {"", -1}, {"kep", 3}} {
		if got := nearest(c.in, names); got != c.want {
			t.Errorf("nearest(%q) = %d, want %d", c.in, got, c.want)
		}
	}
}
