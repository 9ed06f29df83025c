package readin

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"fettle/fault"
)

// samples are one list in every encoding and with every separator.
func samples() []struct{ file, encoding, separator string } {
	return []struct{ file, encoding, separator string }{
		{"blast-sheet.csv", "UTF-8", "comma"},
		{"blast-utf8-bom-semicolon.csv", "UTF-8 with byte order mark", "semicolon"},
		{"blast-utf16le-tab.txt", "UTF-16 little-endian", "tab"},
		{"blast-utf16be-pipe.txt", "UTF-16 big-endian", "pipe"},
		{"blast-windows1252-semicolon.csv", "Windows-1252 (assumed)", "semicolon"},
		{"blast-mac-lines.csv", "UTF-8", "comma"},
		{"blast-sep-line.csv", "UTF-8", "pipe"},
	}
}

func TestOpen_EncodingsAndSeparatorsReadTheSame(t *testing.T) {
	want := openFile(t, "blast-sheet.csv")
	if len(want.Rows) != 7 || len(want.Heads) != 14 || want.Rows[1][12] != "£74" {
		t.Fatalf("the sample reads as %q", want.Rows)
	}
	for _, c := range samples() {
		got := openFile(t, c.file)
		if got.Encoding != c.encoding || got.Separator != c.separator {
			t.Errorf("%s is %s, want %s, %s", c.file, describe(got), c.encoding, c.separator)
		}
		if !slices.Equal(got.Heads, want.Heads) || !slices.EqualFunc(got.Rows, want.Rows, slices.Equal) {
			t.Errorf("%s reads as %q, want %q", c.file, got.Rows, want.Rows)
		}
	}
}

func TestOpen_Forms(t *testing.T) {
	for _, c := range []struct {
		name, in string
		heads    []string
		rows     string // cells parted by |, rows by /
		lines    []int
	}{
		{"empty lines are left out and lines still count", "panel,what\n\nP01,hole\n,,\nP02,dent\n", []string{"panel", "what"}, "P01|hole/P02|dent", []int{3, 5}},
		{"quotes hold separators, quotes and line ends", "panel,what\n\"P01\",\"a, b \"\"c\"\"\nd\"\nP02,e\n", []string{"panel", "what"}, "P01|a, b \"c\"\nd/P02|e", []int{2, 4}},
		{"a stray quote keeps to its line", "panel,what\nP01,\"6 inch hole\nP02,e\n", []string{"panel", "what"}, "P01|\"6 inch hole/P02|e", []int{2, 3}},
		{"inches at the front of a cell are no quotation", "panel,size\nP01,\"12\" x 4\"\nP02,\"left, rear\"\n", []string{"panel", "size"}, "P01|\"12\" x 4\"/P02|left, rear", []int{2, 3}},
		{"decimal commas do not part semicolon lists", "panel;width;height\nP01;12,5;3,5\nP02;1,5;2,5\n", []string{"panel", "width", "height"}, "P01|12,5|3,5/P02|1,5|2,5", []int{2, 3}},
		{"headings below a title", "Ropery Yard\nlist of 6 Oct\npanel,what\nP01,hole\n", []string{"panel", "what"}, "P01|hole", []int{4}},
		{"short and long rows are squared", "panel,what,x\nP01\nP02,dent,5,beyond\n", []string{"panel", "what", "x"}, "P01||/P02|dent|5", []int{2, 3}},
		{"the mark before a sign is dropped", "panel,x\nP01,'-480\n", []string{"panel", "x"}, "P01|-480", []int{2}},
		{"one column", "name\nwing\nsill\n", []string{"name"}, "wing/sill", []int{2, 3}},
		{"no end of line", "panel,what\nP01,hole", []string{"panel", "what"}, "P01|hole", []int{2}},
		{"many empty columns behind", "panel,what" + strings.Repeat(",", 300) + "\nP01,hole" + strings.Repeat(",", 300), []string{"panel", "what"}, "P01|hole", []int{2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := openString(t, c.in)
			var rows []string
			for _, r := range s.Rows {
				rows = append(rows, strings.Join(r, "|"))
			}
			if got := strings.Join(rows, "/"); !slices.Equal(s.Heads, c.heads) || got != c.rows || !slices.Equal(s.Lines, c.lines) {
				t.Errorf("got %q, %q, lines %v; want %q, %q, lines %v", s.Heads, got, s.Lines, c.heads, c.rows, c.lines)
			}
		})
	}
}

func TestOpen_NotesRaggedRowsAndStrayQuotes(t *testing.T) {
	s := openString(t, "panel,what,x\nP01\nP02,dent,5,beyond\nP03,\"stray,7\n")
	var lines []int
	for _, n := range s.Notes {
		lines = append(lines, n.Line)
	}
	if slices.Sort(lines); !slices.Equal(lines, []int{2, 3, 4}) {
		t.Errorf("notes are about lines %v, want 2, 3 and 4: %v", lines, s.Notes)
	}
}

func TestOpen_ManyRaggedRowsAreOneNote(t *testing.T) {
	s := openString(t, "panel,what,x\n"+strings.Repeat("P01,hole\n", mostNotes+1))
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0].Text, "21 rows are shorter") || s.Notes[0].Line != 2 {
		t.Errorf("got %v, want one note about 21 rows", s.Notes)
	}
}

func TestOpen_Refused(t *testing.T) {
	old := append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 600)...)
	var locked []byte
	for _, c := range []byte("EncryptedPackage") {
		locked = append(locked, c, 0)
	}
	wide := strings.Repeat("a,", 250) + "b\n"
	for _, c := range []struct {
		name string
		in   []byte
		kind fault.Kind
		says string
	}{
		{"empty", nil, fault.Invalid, "list.csv: the file is empty"},
		{"blank", []byte(" \r\n\n"), fault.Invalid, "the file is empty"},
		{"only separators", []byte(",,\n;;\n,,,\n"), fault.Invalid, ""},
		{"NUL bytes", []byte("panel,what\nP01,a\x00b\n"), fault.Invalid, "line 2 holds a byte of value 0"},
		{"control bytes", []byte("abc\x01\x02"), fault.Invalid, "this is not text"},
		{"UTF-32", []byte("\xff\xfe\x00\x00a\x00\x00\x00"), fault.Invalid, "UTF-32"},
		{"PDF", []byte("%PDF-1.7\n..."), fault.Invalid, "this is a PDF"},
		{"picture", []byte("\x89PNG\r\n\x1a\n"), fault.Invalid, "this is a picture"},
		{"web page", []byte("<html><table>"), fault.Invalid, "this is a web page"},
		{"old workbook", old, fault.Invalid, "old form (.xls)"},
		{"locked workbook", append(slices.Clone(old), locked...), fault.Invalid, "locked with a password"},
		{"broken workbook", []byte("PK\x03\x04 and then nothing"), fault.Invalid, "the workbook is broken"},
		{"columns", []byte("panel,what\n" + wide), fault.TooLarge, "line 2: there are more than 200 columns"},
		{"rows", []byte("panel\n" + strings.Repeat("a\n", mostRows+1)), fault.TooLarge, "more than 100000 rows"},
		{"cell", []byte("panel\n" + strings.Repeat("a", mostCell+1)), fault.TooLarge, "line 2: cell 1 holds more than 32 kB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Open("list.csv", bytes.NewReader(c.in), 0)
			if c.says == "" && err == nil && len(s.Rows) == 0 {
				return
			}
			wantFault(t, err, c.kind, c.says)
		})
	}
}

// endless gives bytes for ever and counts what was taken.
type endless struct{ read int64 }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = "panel,what\n"[i%11]
	}
	e.read += int64(len(p))
	return len(p), nil
}

func TestOpen_StopsAtTheLimit(t *testing.T) {
	for _, c := range []struct {
		limit, most int64
		says        string
	}{{0, DefaultLimit, "10 MB"}, {1 << 20, 1 << 20, "1 MB"}, {1000, 1000, "1000 bytes"}} {
		upload := &endless{}
		_, err := Open("upload.csv", io.LimitReader(upload, 200<<20), c.limit)
		wantFault(t, err, fault.TooLarge, "upload.csv: the file is larger than the limit of "+c.says)
		if upload.read > c.most+64<<10 {
			t.Errorf("limit %d: %d bytes were read, want no more than a buffer beyond the limit", c.limit, upload.read)
		}
	}
}

func TestOpen_PassesReadErrorsOn(t *testing.T) {
	cause := errors.New("the cable came out")
	_, err := Open("x", io.MultiReader(strings.NewReader("a,b\n"), failing{cause}), 0)
	if !errors.Is(err, cause) {
		t.Errorf("got %v, want the cause kept", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// workbook makes a workbook of sheets, each a list of rows.
func workbook(t testing.TB, tabs []string, rows map[string][][]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, tab := range tabs {
		if _, err := f.NewSheet(tab); err != nil {
			t.Fatal(err)
		}
		if i == 0 && tab != "Sheet1" {
			f.DeleteSheet("Sheet1")
		}
		for r, row := range rows[tab] {
			cell, _ := excelize.CoordinatesToCellName(1, r+1)
			if err := f.SetSheetRow(tab, cell, &row); err != nil {
				t.Fatal(err)
			}
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func twoSheets(t testing.TB) []byte {
	return workbook(t, []string{"Read me", "Blast"}, map[string][][]any{
		"Read me": {{"How to use this list"}, {"Fill in the other sheet"}},
		"Blast": {{"Ropery Yard"}, {}, {"No", "Panel", "What", "Width", "Height", "Hours", "Price"},
			{"F32", "P02", "filler", 500, 350.5, "MW 8", 74.25}, {"F33", "P04", "holes", 640, 25, "MW 5", nil}},
	})
}

func TestOpen_WorkbookWithTwoSheets(t *testing.T) {
	data := twoSheets(t)
	s, err := Open("list.bin", bytes.NewReader(data), 0)
	if err != nil {
		t.Fatal(err)
	}
	if s.Tab != "Blast" || s.HeadLine != 3 || !slices.Equal(s.Lines, []int{4, 5}) || s.Separator != "workbook" {
		t.Errorf("got sheet %q, headings on %d, lines %v; want Blast, 3, [4 5]", s.Tab, s.HeadLine, s.Lines)
	}
	if want := []string{"F32", "P02", "filler", "500", "350.5", "MW 8", "74.25"}; !slices.Equal(s.Rows[0], want) {
		t.Errorf("got %q, want %q", s.Rows[0], want)
	}
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0].Text, "Read me") {
		t.Errorf("got notes %v, want one that names the other sheet", s.Notes)
	}
	if s, err = OpenTab("x", "Read me", bytes.NewReader(data), 0); err != nil || s.Tab != "Read me" {
		t.Errorf("OpenTab gave %q, %v; want the sheet asked for", s.Tab, err)
	}
	_, err = OpenTab("x", "Paint", bytes.NewReader(data), 0)
	wantFault(t, err, fault.Invalid, `no sheet "Paint"; it has: Read me, Blast`)
}

func TestOpen_WorkbookCellsReadPlainly(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	day := time.Date(2026, 10, 6, 8, 10, 0, 0, time.UTC)
	for i, c := range []struct {
		value any
		form  excelize.Style
	}{
		{day, excelize.Style{NumFmt: 14}}, {day, excelize.Style{NumFmt: 22}},
		{day, excelize.Style{CustomNumFmt: ptr(`dd/mm/yyyy`)}}, {day, excelize.Style{CustomNumFmt: ptr(`[$-809]d mmmm yyyy hh:mm`)}},
		{0.3125, excelize.Style{CustomNumFmt: ptr(`[h]:mm`)}}, {0.3125, excelize.Style{NumFmt: 20}},
		{1150.5, excelize.Style{CustomNumFmt: ptr(`"£"#,##0.00`)}}, {1150.5, excelize.Style{NumFmt: 4}},
		{7.5, excelize.Style{CustomNumFmt: ptr(`0.00 "h dry"`)}}, {"text", excelize.Style{NumFmt: 14}},
	} {
		cell, _ := excelize.CoordinatesToCellName(i+1, 2)
		style, err := f.NewStyle(&c.form)
		if err != nil {
			t.Fatal(err)
		}
		head, _ := excelize.CoordinatesToCellName(i+1, 1)
		f.SetCellValue("Sheet1", head, "date")
		f.SetCellValue("Sheet1", cell, c.value)
		f.SetCellStyle("Sheet1", cell, cell, style)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	s, err := Open("x", &b, 0)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"2026-10-06", "2026-10-06 08:10", "2026-10-06", "2026-10-06 08:10", "7:30", "7:30", "1150.5", "1150.5", "7.5", "text"}
	if !slices.Equal(s.Rows[0], want) {
		t.Errorf("got %q, want %q", s.Rows[0], want)
	}
}

func ptr(s string) *string { return &s }

// packed makes a zip of parts.
func packed(t testing.TB, parts map[string]func(io.Writer)) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range sortedNames(parts) {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		parts[name](w)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func sortedNames(parts map[string]func(io.Writer)) []string {
	var names []string
	for n := range parts {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

func repeat(text string, n int) func(io.Writer) {
	return func(w io.Writer) {
		block := []byte(strings.Repeat(text, 1000))
		for range n / 1000 {
			w.Write(block)
		}
	}
}

func TestOpen_ZipBombs(t *testing.T) {
	bomb := packed(t, map[string]func(io.Writer){"xl/workbook.xml": repeat(" ", 1000), "xl/worksheets/sheet1.xml": repeat("          ", 12_000_000)})
	liar := slices.Clone(bomb)
	lieAboutSize(liar, "xl/worksheets/sheet1.xml", 1000)
	for _, c := range []struct {
		name string
		in   []byte
		kind fault.Kind
		says string
	}{
		{"120 MB", bomb, fault.TooLarge, "unpacks to more than the limit of 100 MB"},
		{"120 MB that says 1 kB", liar, fault.TooLarge, "larger than it says"},
		{"many tags", packed(t, map[string]func(io.Writer){"xl/workbook.xml": repeat(" ", 1000), "xl/sharedStrings.xml": repeat("<si/>", 2_000_000)}),
			fault.TooLarge, "more than 1000000 tags"},
		{"long text", packed(t, map[string]func(io.Writer){"xl/workbook.xml": repeat(" ", 1000), "xl/sharedStrings.xml": func(w io.Writer) {
			io.WriteString(w, "<sst><si><t>"+strings.Repeat("a", 100_000)+"</t></si></sst>")
		}}), fault.TooLarge, "longer than 32 kB"},
		{"wide row", packed(t, map[string]func(io.Writer){"xl/workbook.xml": repeat(" ", 1000), "xl/worksheets/sheet1.xml": repeat("<c/>", 2_000)}),
			fault.TooLarge, "more than 1024 cells"},
		{"many parts", packed(t, manyParts()), fault.TooLarge, "more than 2000 parts"},
		{"no workbook", packed(t, map[string]func(io.Writer){"a.csv": repeat("a,b\n", 1000)}), fault.Invalid, "without a workbook"},
		{"OpenDocument", packed(t, map[string]func(io.Writer){"mimetype": repeat("a", 1000)}), fault.Invalid, "OpenDocument"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if len(c.in) > DefaultLimit {
				t.Fatalf("the bomb has %d bytes, it must pass the limit of the file", len(c.in))
			}
			_, err := Open("bomb.xlsx", bytes.NewReader(c.in), 0)
			wantFault(t, err, c.kind, c.says)
		})
	}
}

func manyParts() map[string]func(io.Writer) {
	parts := map[string]func(io.Writer){}
	for i := range mostParts + 1 {
		parts[strings.Repeat("a", i%50)+string(rune('a'+i/50))] = func(io.Writer) {}
	}
	return parts
}

// lieAboutSize overwrites the unpacked size of a part in the zip's directory.
func lieAboutSize(data []byte, name string, size uint32) {
	at := bytes.LastIndex(data, []byte("PK\x01\x02"))
	for i := at; i >= 0; i = bytes.LastIndex(data[:i], []byte("PK\x01\x02")) {
		if bytes.HasPrefix(data[i+46:], []byte(name)) {
			data[i+24], data[i+25], data[i+26], data[i+27] = byte(size), byte(size>>8), byte(size>>16), byte(size>>24)
		}
	}
}

func TestOpen_LockedWorkbook(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	var b bytes.Buffer
	if err := f.Write(&b, excelize.Options{Password: "slack water"}); err != nil {
		t.Fatal(err)
	}
	_, err := Open("locked.xlsx", &b, 0)
	wantFault(t, err, fault.Invalid, "locked with a password; save a copy without a password")
}

func TestOpen_WorkbookCutShort(t *testing.T) {
	data := twoSheets(t)
	for _, n := range []int{10, len(data) / 2, len(data) - 1} {
		_, err := Open("x", bytes.NewReader(data[:n]), 0)
		wantFault(t, err, fault.Invalid, "the workbook is broken")
	}
}
