package readin

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// openWorkbook reads one sheet of an .xlsx workbook: the named one, or the
// visible one whose headings are known best.
func openWorkbook(data []byte, tab string) (s Sheet, err error) {
	if err := checkUnpacked(data); err != nil {
		return Sheet{}, err
	}
	// The workbook reader is a large library that meets broken files here.
	defer func() {
		if p := recover(); p != nil {
			s, err = Sheet{}, broken(nil)
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data),
		excelize.Options{UnzipSizeLimit: unpackLimit, UnzipXMLSizeLimit: unpackLimit})
	if errors.Is(err, excelize.ErrWorkbookPassword) {
		return Sheet{}, invalid("the workbook is locked with a password").WithHint("save a copy without a password")
	}
	if err != nil {
		return Sheet{}, broken(err)
	}
	defer f.Close()
	if err := plainFormats(f); err != nil {
		return Sheet{}, broken(err)
	}
	return readTabs(f, tab)
}

func readTabs(f *excelize.File, tab string) (Sheet, error) {
	tabs := f.GetSheetList()
	switch {
	case len(tabs) == 0:
		return Sheet{}, broken(nil)
	case tab != "" && !slices.Contains(tabs, tab):
		return Sheet{}, invalid("the workbook has no sheet %q", tab).WithHint("it has: " + strings.Join(tabs, ", "))
	case tab == "":
		tab = bestTab(f, tabs)
	}
	t, err := readTab(f, tab, mostRows+headDepth)
	if err != nil {
		return Sheet{}, within(err, "sheet "+tab)
	}
	s, err := t.sheet(false)
	if err != nil {
		return Sheet{}, within(err, "sheet "+tab)
	}
	s.Tab, s.Tabs, s.Encoding, s.Separator = tab, tabs, "workbook", "workbook"
	if len(tabs) > 1 {
		s.Notes = append(s.Notes, Note{0, "sheet " + tab + " is read; the workbook also has " +
			strings.Join(slices.DeleteFunc(slices.Clone(tabs), func(t string) bool { return t == tab }), ", ")})
	}
	return s, nil
}

// bestTab returns the visible sheet with the most known headings, the first
// of equals.
func bestTab(f *excelize.File, tabs []string) string {
	best, most := tabs[0], -1
	for _, tab := range tabs {
		if seen, err := f.GetSheetVisible(tab); err != nil || !seen {
			continue
		}
		t, err := readTab(f, tab, headDepth)
		if err != nil || len(t.rows) == 0 {
			continue
		}
		if _, known := findHeads(t.rows); known > most {
			best, most = tab, known
		}
	}
	return best
}

// readTab reads up to depth filled rows of a sheet.
func readTab(f *excelize.File, tab string, depth int) (*table, error) {
	rows, err := f.Rows(tab)
	if err != nil {
		return nil, broken(err)
	}
	defer rows.Close()
	t := &table{}
	for line := 1; len(t.rows) < depth && rows.Next(); line++ {
		cells, err := rows.Columns()
		if err != nil {
			return nil, broken(err)
		}
		if err := t.add(line, cells); err != nil {
			return nil, err
		}
	}
	if err := rows.Error(); err != nil {
		return nil, broken(err)
	}
	return t, nil
}

// plainFormats replaces the number formats of a workbook, so that its cells
// read the same however they are dressed: dates as 2026-10-06, times as 7:30,
// and numbers as they are kept, with a point and without a currency.
func plainFormats(f *excelize.File) error {
	if f.Styles == nil || f.Styles.CellXfs == nil {
		return nil
	}
	codes := map[int]string{}
	if f.Styles.NumFmts != nil {
		for _, n := range f.Styles.NumFmts.NumFmt {
			codes[n.NumFmtID] = n.FormatCode
		}
	}
	var plain [3]*int
	for i, code := range [...]string{dayOnly: "yyyy-mm-dd", dayAndTime: "yyyy-mm-dd hh:mm", timeOnly: "[h]:mm"} {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			return err
		}
		plain[i] = f.Styles.CellXfs.Xf[style].NumFmtID
	}
	general := 0
	for i := range f.Styles.CellXfs.Xf {
		x := &f.Styles.CellXfs.Xf[i]
		if x.NumFmtID == nil || x.NumFmtID == plain[dayOnly] || x.NumFmtID == plain[dayAndTime] || x.NumFmtID == plain[timeOnly] {
			continue
		}
		if form := formatOf(*x.NumFmtID, codes[*x.NumFmtID]); form < 0 {
			x.NumFmtID = &general
		} else {
			x.NumFmtID = plain[form]
		}
	}
	return nil
}

// What a number format shows; below zero it shows a number.
const (
	dayOnly = iota
	dayAndTime
	timeOnly
	noDay = -1
)

// formatOf sorts a number format: by its fixed number (ECMA-376, 18.8.30), else
// by the letters of its code outside quotation marks and brackets.
func formatOf(id int, code string) int {
	switch {
	case id == 22:
		return dayAndTime
	case id >= 14 && id <= 17 || id >= 27 && id <= 31 || id == 36 || id >= 50 && id <= 58:
		return dayOnly
	case id >= 18 && id <= 21 || id >= 32 && id <= 35 || id >= 45 && id <= 47:
		return timeOnly
	case id < 164:
		return noDay
	}
	letters := formatLetters(code)
	day, clock := strings.ContainsAny(letters, "yd"), strings.ContainsAny(letters, "hs")
	switch {
	case day && clock:
		return dayAndTime
	case day, strings.Contains(letters, "mm") && !clock:
		return dayOnly
	case clock:
		return timeOnly
	}
	return noDay
}

// formatLetters returns a format code in lower case without literal text,
// colours and conditions; [h] and its like stay.
func formatLetters(code string) string {
	var b strings.Builder
	for i := 0; i < len(code); i++ {
		switch code[i] {
		case '\\', '_', '*':
			i++
		case '"':
			if end := strings.IndexByte(code[i+1:], '"'); end >= 0 {
				i += end + 1
			}
		case '[':
			if end := strings.IndexByte(code[i:], ']'); end > 2 {
				i += end
			}
		case 'G', 'g': // General
			if strings.HasPrefix(strings.ToLower(code[i:]), "general") {
				i += len("general") - 1
			}
		default:
			b.WriteByte(code[i])
		}
	}
	return strings.ToLower(b.String())
}
