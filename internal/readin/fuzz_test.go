package readin

import (
	"bytes"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"fettle/build"
	"fettle/fault"
)

// most bytes that reading one byte of text may allocate, and what any reading
// may allocate besides: text is copied at most five times, and a row of one
// byte costs its slices, its line and its share of lists that grow.
const (
	textFactor = 200
	textBase   = 4 << 20
)

// allocated returns how many bytes f allocates in all.
func allocated(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// openAnything opens bytes of any kind, checks what every sheet promises and
// plans it as every kind of list.
func openAnything(t *testing.T, data []byte) {
	t.Helper()
	s, err := Open("any", bytes.NewReader(data), 1<<20)
	if err != nil {
		if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge {
			t.Fatalf("a fault of kind %s: %v", k, err)
		}
		return
	}
	if len(s.Rows) != len(s.Lines) || len(s.Rows) > mostRows || len(s.Heads) > mostColumns {
		t.Fatalf("%d rows, %d lines, %d headings", len(s.Rows), len(s.Lines), len(s.Heads))
	}
	for i, row := range s.Rows {
		if len(row) != len(s.Heads) || i > 0 && s.Lines[i] <= s.Lines[i-1] {
			t.Fatalf("row %d on line %d has %d cells under %d headings", i, s.Lines[i], len(row), len(s.Heads))
		}
	}
	if len(s.Rows) > 200 {
		s.Rows, s.Lines = s.Rows[:200], s.Lines[:200]
	}
	for _, k := range Kinds() {
		planAnything(t, k, s)
	}
}

func planAnything(t *testing.T, k Kind, s Sheet) {
	t.Helper()
	res := Plan(shop(), k, s, Match(k, s.Heads), Options{Task: "T08", Trade: "MW"})
	if len(res.Rows) != len(s.Rows) || res.Good != len(res.Changes) || res.Good+res.Bad+res.Skipped != len(res.Rows) {
		t.Fatalf("%s: %d rows, %d good, %d bad, %d skipped, %d changes", k, len(res.Rows), res.Good, res.Bad, res.Skipped, len(res.Changes))
	}
	for _, r := range res.Rows {
		if r.Status == Bad && r.Reason == "" {
			t.Fatalf("%s: line %d is bad for no reason", k, r.Line)
		}
	}
	if _, err := build.ApplyAll(shop(), res.Changes); err != nil {
		t.Fatalf("%s: the changes do not apply: %v", k, err)
	}
}

func FuzzOpenText(f *testing.F) {
	files, err := filepath.Glob("testdata/*.*")
	if err != nil || len(files) == 0 {
		f.Fatal("there are no samples", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("a,\"b\"\"\n,c\"d,\"\r\r\n\xff\xfe"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if bytes.HasPrefix(data, []byte("PK")) {
			return
		}
		openAnything(t, data)
	})
}

func FuzzOpenWorkbook(f *testing.F) {
	f.Add(twoSheets(f), "xl/workbook.xml", []byte("<workbook/>"))
	f.Add(twoSheets(f), "", []byte{})
	f.Add([]byte("PK\x03\x04"), "", []byte{})
	f.Fuzz(func(t *testing.T, data []byte, part string, content []byte) {
		openAnything(t, append([]byte("PK"), data[min(2, len(data)):]...))
		if part != "" {
			openAnything(t, withPart(t, part, content))
		}
	})
}

// withPart is a sound workbook in which one part is replaced.
func withPart(t testing.TB, name string, content []byte) []byte {
	if len(name) > 100 {
		name = name[:100]
	}
	return withParts(t, map[string]string{name: string(content)})
}

// withParts is a sound workbook in which some parts are replaced.
func withParts(t testing.TB, contents map[string]string) []byte {
	t.Helper()
	parts := map[string]func(io.Writer){}
	for name, content := range soundParts() {
		parts[name] = text(content)
	}
	for name, content := range contents {
		parts[name] = text(content)
	}
	return packed(t, parts)
}

func soundParts() map[string]string {
	const (
		main     = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
		packages = `xmlns="http://schemas.openxmlformats.org/package/2006/`
		office   = `"http://schemas.openxmlformats.org/officeDocument/2006/relationships`
		sheet    = `application/vnd.openxmlformats-officedocument.spreadsheetml.`
	)
	return map[string]string{
		"[Content_Types].xml": `<Types ` + packages + `content-types"><Override PartName="/xl/workbook.xml" ContentType="` + sheet + `sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + sheet + `worksheet+xml"/></Types>`,
		"_rels/.rels":                `<Relationships ` + packages + `relationships"><Relationship Id="rId1" Type=` + office + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook ` + main + ` xmlns:r=` + office + `"><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships ` + packages + `relationships"><Relationship Id="rId1" Type=` + office + `/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/sharedStrings.xml":       `<sst ` + main + `><si><t>panel</t></si><si><t>what</t></si></sst>`,
		"xl/worksheets/sheet1.xml": `<worksheet ` + main + `><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>` +
			`<row r="2"><c r="A2" t="inlineStr"><is><t>P02</t></is></c></row></sheetData></worksheet>`,
	}
}

func text(s string) func(io.Writer) {
	return func(w io.Writer) { io.WriteString(w, s) }
}

func FuzzSize(f *testing.F) {
	for _, s := range []string{"260x180", "2'-6 1/2\" x 4\"", "11 x 8-38 dia", "160x80 (2 off)", "1.150,5 cm", "½ in", "-5", "9/0"} {
		f.Add(s, "mm")
	}
	f.Fuzz(func(t *testing.T, s, unit string) {
		size, _, err := numeral{group: ","}.parseSize(s, unit)
		if err == nil && (size.Count < 0 || size.Width > 1e15 || size.Width < -1e15) {
			t.Errorf("parseSize(%q, %q) = %+v", s, unit, size)
		}
	})
}

func FuzzHours(f *testing.F) {
	for _, s := range []string{"7.5", "7h30", "MW 5, LD 2", "5 h MW + 2", "7:30:00", "1 1/2", "½ day"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		shares, err := numeral{}.parseShares(s)
		if err == nil && len(shares) == 0 {
			t.Errorf("parseShares(%q) gives neither hours nor a fault", s)
		}
		for _, part := range shares {
			if err == nil && (part.hours > 1e15 || part.hours < -1e15) {
				t.Errorf("parseShares(%q) = %v", s, shares)
			}
		}
	})
}

// hostile makes texts that make a careless reader slow or greedy.
func hostile() map[string]string {
	const n = 1 << 20
	return map[string]string{
		"separators":   strings.Repeat(",", n),
		"quotes":       strings.Repeat("\"", n),
		"open quotes":  strings.Repeat("\"a\n", n/3),
		"quoted runs":  strings.Repeat("\"\",", n/3),
		"line ends":    strings.Repeat("\n", n),
		"short rows":   strings.Repeat("a\n", 90_000),
		"narrow cells": strings.Repeat(strings.Repeat("a,", 199)+"\n", n/400),
		"wide head":    strings.Repeat("a,", 199) + "b\n" + strings.Repeat("a\n", 19_000),
		"latin":        strings.Repeat("\xa3", 30_000) + "\n" + strings.Repeat("\xa3,\n", 50_000),
		"spaces":       "\"a\"" + strings.Repeat(" ", n-10) + "b\n",
		"quote spaces": strings.Repeat("\"a\"   x,", n/8),
	}
}

func TestOpen_AllocatesWithinABound(t *testing.T) {
	inputs := hostile()
	random := rand.New(rand.NewPCG(7, 11))
	for i, alphabet := range []string{"abc,;\t|\"\n\r", "\x00\xff\xfe\xa3,\n", "0123456789.,-\n"} {
		b := make([]byte, 200_000)
		for k := range b {
			b[k] = alphabet[random.IntN(len(alphabet))]
		}
		inputs["random "+string(rune('1'+i))] = string(b)
	}
	for name, in := range inputs {
		t.Run(name, func(t *testing.T) {
			var s Sheet
			got := allocated(func() { s, _ = Open("any", strings.NewReader(in), 0) })
			squared := len(s.Rows) * len(s.Heads) * 20 // a string header and what an allocation rounds up to
			if most := uint64(len(in)*textFactor + textBase + squared); got > most {
				t.Errorf("%d bytes of text made %d kB, want at most %d kB", len(in), got>>10, most>>10)
			}
			t.Logf("%d kB of text: %d kB allocated", len(in)>>10, got>>10)
		})
	}
}

// A workbook may allocate in proportion to what it unpacks to, never to what a
// reference in it can be blown up to.
func TestOpen_WorkbookAllocatesWithinABound(t *testing.T) {
	long := strings.Repeat("a", 30<<10)
	rich := `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><r><t>` + long + `</t></r><r><t>b</t></r></si></sst>`
	row := "<row>" + strings.Repeat(`<c t="s"><v>0</v></c>`, 150) + "</row>"
	for _, c := range []struct{ name, part, content string }{
		{"one long text in every cell", "xl/sharedStrings.xml", rich},
		{"nested tags", "xl/worksheets/sheet1.xml", strings.Repeat("<a>", 500_000)},
		{"many rich texts", "xl/sharedStrings.xml", "<sst xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">" + strings.Repeat("<si><r/></si>", 240_000) + "</sst>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sheet := `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + strings.Repeat(row, 200) + `</sheetData></worksheet>`
			data := withParts(t, map[string]string{"xl/worksheets/sheet1.xml": sheet, c.part: c.content})
			var err error
			got := allocated(func() { _, err = Open("any.xlsx", bytes.NewReader(data), 0) })
			if most := uint64(700 << 20); got > most {
				t.Errorf("%d kB allocated, want at most %d kB (%v)", got>>10, most>>10, err)
			}
			t.Logf("%d kB allocated, %v", got>>10, err)
		})
	}
}
