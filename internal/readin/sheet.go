package readin

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"fettle/fault"
)

// Limits of what is read. Beyond them a file is refused as a whole.
const (
	DefaultLimit = 10 << 20  // bytes of a file, where the caller gives no limit
	unpackLimit  = 100 << 20 // bytes of all parts of a workbook together
	mostRows     = 100_000
	mostColumns  = 200
	mostCell     = 32 << 10  // bytes of one cell
	mostCells    = 4_000_000 // with the empty ones under a heading
	mostText     = 64 << 20  // bytes of all cells together
)

// Sheet is a list as it was read: its headings and the rows under them.
type Sheet struct {
	Name      string     // of the file, as the caller gave it
	Tab       string     // of the workbook's sheet, empty for text
	Tabs      []string   // every sheet of the workbook, in order
	Title     string     // what stood above the headings
	Heads     []string   // one for each column
	HeadLine  int        // line of the headings, from 1
	Rows      [][]string // trimmed cells, each row as long as Heads; empty rows are left out
	Lines     []int      // line in the file of each row, from 1
	Encoding  string     // such as "UTF-8" or "Windows-1252 (assumed)"
	Separator string     // "comma", "semicolon", "tab", "pipe", "none" or "workbook"
	Notes     []Note     // what a person should know, such as ragged rows
}

// Note is a remark about a line; line 0 is the whole file.
type Note struct {
	Line int    `json:"line"`
	Text string `json:"text"`
}

// Open reads a list. It looks at the content, not at the name: a workbook
// (.xlsx) or text in any common encoding and with any common separator.
// At most limit bytes are read; 0 means [DefaultLimit].
//
// Faults: TooLarge beyond a limit, Invalid for anything that is not a list.
func Open(name string, r io.Reader, limit int64) (Sheet, error) {
	return OpenTab(name, "", r, limit)
}

// OpenTab is [Open] for one named sheet of a workbook. An empty tab means the
// sheet whose headings are known best.
func OpenTab(name, tab string, r io.Reader, limit int64) (Sheet, error) {
	data, err := readAll(name, r, limit)
	if err != nil {
		return Sheet{}, err
	}
	var s Sheet
	switch {
	case len(bytes.TrimSpace(data)) == 0:
		err = fault.New(fault.Invalid, "the file is empty")
	case bytes.HasPrefix(data, []byte("PK")):
		s, err = openWorkbook(data, tab)
	default:
		s, err = openText(data)
	}
	if err != nil {
		return Sheet{}, within(err, name)
	}
	s.Name = name
	return s, nil
}

// readAll reads at most limit bytes, and one more to know that there are more.
func readAll(name string, r io.Reader, limit int64) ([]byte, error) {
	if limit <= 0 {
		limit = DefaultLimit
	}
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "read "+name)
	}
	if int64(len(data)) > limit {
		return nil, tooLarge("the file is larger than the limit of %s", bytesText(limit)).At(name)
	}
	return data, nil
}

func bytesText(n int64) string {
	if n%(1<<20) == 0 {
		return fmt.Sprintf("%d MB", n>>20)
	}
	return fmt.Sprintf("%d bytes", n)
}

func tooLarge(format string, args ...any) *fault.Fault {
	return fault.New(fault.TooLarge, format, args...).WithHint("split the list, or take out what the build does not need")
}

func invalid(format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...)
}

// within puts a place in front of the place that a fault knows already.
func within(err error, where string) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.At(where)
	}
	return fault.Wrap(fault.Internal, err, where)
}
