package readin

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"strings"

	"fettle/fault"
)

// Bounds on the parts of a workbook, so that a small file cannot unfold into a
// large tree: a reader of XML pays about a hundred bytes for each tag.
const (
	mostParts    = 2_000
	mostTags     = 1_000_000  // in any part but a sheet; a quarter of a million texts
	mostCellTags = 12_000_000 // in the sheets, which are read row by row
	mostRowCells = 1_024      // in one row, filled or only coloured
	mostRich     = 64 << 10   // bytes of one text with its formatting
)

// checkUnpacked unpacks every part once, one at a time, and refuses what would
// grow beyond the limits: first as the directory states the sizes, then as
// they come out, since a directory can lie.
func checkUnpacked(data []byte) error {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return broken(err)
	}
	if len(z.File) > mostParts {
		return tooLarge("the workbook has more than %d parts", mostParts)
	}
	var total uint64
	for _, f := range z.File {
		if total += f.UncompressedSize64; total > unpackLimit || f.UncompressedSize64 > unpackLimit {
			return tooLarge("the workbook unpacks to more than the limit of %s", bytesText(unpackLimit))
		}
	}
	if err := looksLikeWorkbook(z); err != nil {
		return err
	}
	for _, f := range z.File {
		if err := checkPart(f); err != nil {
			return err
		}
	}
	return nil
}

// looksLikeWorkbook tells other packed files and other forms of workbook apart.
func looksLikeWorkbook(z *zip.Reader) error {
	for _, f := range z.File {
		name := strings.ToLower(f.Name)
		switch {
		case strings.HasPrefix(name, "xl/") && strings.HasSuffix(name, "workbook.bin"):
			return invalid("this is a binary workbook (.xlsb)").WithHint("save it as .xlsx or as CSV")
		case name == "mimetype" || name == "content.xml":
			return invalid("this is a workbook or letter of the OpenDocument form").WithHint("save it as .xlsx or as CSV")
		case strings.HasPrefix(name, "word/"):
			return invalid("this is a letter, not a workbook").WithHint("copy its table into a spreadsheet and save that")
		}
	}
	for _, f := range z.File {
		if strings.HasPrefix(strings.ToLower(f.Name), "xl/workbook") {
			return nil
		}
	}
	return invalid("this is a packed file without a workbook in it").WithHint("unpack it and import the list inside")
}

// checkPart unpacks one part, never further than its stated size, and counts
// what is in it.
func checkPart(f *zip.File) error {
	r, err := f.Open()
	if err != nil {
		return broken(err)
	}
	defer r.Close()
	var b bytes.Buffer
	n, err := io.Copy(&b, io.LimitReader(r, int64(f.UncompressedSize64)+1))
	if uint64(n) > f.UncompressedSize64 || errors.Is(err, zip.ErrFormat) { // the zip reader's own guard
		return tooLarge("the workbook's part %s is larger than it says", f.Name)
	}
	if err != nil {
		return broken(err)
	}
	name := strings.ToLower(strings.ReplaceAll(f.Name, "\\", "/"))
	if strings.HasSuffix(name, ".rels") && !strings.HasPrefix(name, "xl/") && bytes.Contains(b.Bytes(), []byte("worksheets/")) {
		return broken(nil)
	}
	c := tagCount{sheet: strings.HasPrefix(name, "xl/worksheets/sheet")}
	if err := c.read(b.Bytes()); err != nil {
		return within(err, f.Name)
	}
	return nil
}

// tagCount walks over the tags of a part without building anything.
type tagCount struct {
	sheet bool
	tags  int
	cells int // of the present row
	text  int // offset where the present text began
}

func (c *tagCount) read(data []byte) error {
	for at := 0; ; {
		i := bytes.IndexByte(data[at:], '<')
		if i < 0 {
			return nil
		}
		at += i + 1
		if c.tags++; c.tags > mostTags && !c.sheet || c.tags > mostCellTags {
			return tooLarge("the part has more than %d tags", c.tags-1)
		}
		name, closing := tagName(data[at:])
		if err := c.tag(name, closing, at); err != nil {
			return err
		}
	}
}

func (c *tagCount) tag(name string, closing bool, at int) error {
	switch name {
	case "row", "sheetData":
		c.cells = 0
	case "c":
		if !closing {
			c.cells++
		}
	case "si":
		if closing && at-c.text > mostRich {
			return tooLarge("a text is longer than %d kB", mostCell>>10)
		}
		c.text = at
	case "![CDATA[", "!DOCTYPE":
		return invalid("the part holds a form of XML that workbooks do not use").WithHint("open the workbook and save it again as .xlsx")
	}
	if c.sheet && c.cells > mostRowCells {
		return tooLarge("a row has more than %d cells, the limit is %d columns", mostRowCells, mostColumns)
	}
	return nil
}

// tagName returns the name of a tag without its prefix.
func tagName(data []byte) (name string, closing bool) {
	data = data[:min(len(data), 80)]
	if len(data) > 0 && data[0] == '/' {
		data, closing = data[1:], true
	}
	if bytes.HasPrefix(data, []byte("![CDATA[")) {
		return "![CDATA[", false
	}
	if end := bytes.IndexAny(data, " \t\r\n>/"); end >= 0 {
		data = data[:end]
	}
	if colon := bytes.IndexByte(data, ':'); colon >= 0 {
		data = data[colon+1:]
	}
	return string(data), closing
}

// broken is the fault of a workbook that cannot be opened.
func broken(err error) *fault.Fault {
	f := invalid("the workbook is broken and cannot be read").WithHint("open it in a spreadsheet and save it again as .xlsx, or as CSV")
	f.Cause = err
	return f
}
