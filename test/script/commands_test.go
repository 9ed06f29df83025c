package script

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// command is a word of the stories beside those of the library.
type command = func(ts *testscript.TestScript, neg bool, args []string)

func commands() map[string]command {
	return map[string]command{
		"exits": exits, "json": document, "alter": alter, "zeros": zeros, "bomb": bomb, "encode": encode,
		"remember": remember, "untouched": untouched,
	}
}

func need(ts *testscript.TestScript, neg bool, args []string, n int, usage string) {
	if neg || len(args) < n {
		ts.Fatalf("usage: %s", usage)
	}
}

// exits runs a command that must end with an exit code, and wants nothing on
// standard output where it fails: only a document may stand there.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 2, "exits CODE COMMAND ARGS…")
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	code := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		ended, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%v", err)
		}
		code = ended.ExitCode()
	}
	if code != want {
		ts.Fatalf("exit code %d, want %d", code, want)
	}
}

// document wants standard output to be exactly one JSON document, and where a
// path and a value are given, that value at the path: names and list places
// joined by dots, a # for the length of a list.
func document(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 0, "json [PATH VALUE]")
	d := json.NewDecoder(strings.NewReader(ts.ReadFile("stdout")))
	d.UseNumber()
	var v any
	ts.Check(d.Decode(&v))
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		ts.Fatalf("something follows the document")
	}
	if len(args) < 2 {
		return
	}
	for _, name := range strings.Split(args[0], ".") {
		v = step(ts, v, name)
	}
	if got := fmt.Sprint(v); got != args[1] {
		ts.Fatalf("%s = %s, want %s", args[0], got, args[1])
	}
}

func step(ts *testscript.TestScript, v any, name string) any {
	switch in := v.(type) {
	case map[string]any:
		if next, ok := in[name]; ok {
			return next
		}
	case []any:
		if name == "#" {
			return len(in)
		}
		if i, err := strconv.Atoi(name); err == nil && i < len(in) {
			return in[i]
		}
	}
	ts.Fatalf("there is no %q", name)
	return nil
}

// alter copies a file with one text exchanged, the first time it stands there.
func alter(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 4, "alter FROM TO OLD NEW")
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[2]) {
		ts.Fatalf("%s does not hold %q", args[0], args[2])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(strings.Replace(text, args[2], args[3], 1)), 0o600))
}

// zeros makes a file of many megabytes that takes no room on the disk. Text
// before them makes it look like a list.
func zeros(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 2, "zeros FILE MEGABYTES [TEXT]")
	n, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Join(args[2:], " ")), 0o600))
	ts.Check(os.Truncate(ts.MkAbs(args[0]), n<<20))
}

// bomb makes a workbook of about a megabyte whose sheet unpacks to a gigabyte.
func bomb(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 1, "bomb FILE")
	out, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	z := zip.NewWriter(out)
	for _, name := range []string{"[Content_Types].xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml"} {
		w, err := z.Create(name)
		ts.Check(err)
		if strings.Contains(name, "sheet") {
			_, err = io.CopyN(w, spaces{}, 1<<30)
		}
		ts.Check(err)
	}
	ts.Check(z.Close())
	ts.Check(out.Close())
}

// spaces is an endless text.
type spaces struct{}

func (spaces) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

// encode writes a UTF-8 text as an old machine would.
func encode(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 3, "encode FROM TO ENCODING")
	text := strings.TrimPrefix(ts.ReadFile(args[0]), "\ufeff")
	var out string
	var err error
	switch args[2] {
	case "windows-1252":
		out, err = charmap.Windows1252.NewEncoder().String(text)
	case "utf-16":
		out, err = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
	default:
		ts.Fatalf("unknown encoding %s", args[2])
	}
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(out), 0o600))
}

// remember and untouched hold the store to what it was: the plan of a build
// byte for byte on a day, and what check finds.
func remember(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 2, "remember BUILD DAY")
	ts.Check(os.WriteFile(ts.MkAbs(".kept-"+args[0]), []byte(state(ts, args[0], args[1])), 0o600))
}

func untouched(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, neg, args, 2, "untouched BUILD DAY")
	if got, want := state(ts, args[0], args[1]), ts.ReadFile(".kept-"+args[0]); got != want {
		ts.Fatalf("the store of %s is not what it was", args[0])
	}
}

func state(ts *testscript.TestScript, name, day string) string {
	return quietly(ts, "plan", name, "--json", "--now", day, "--runs", "40") + quietly(ts, "check", "--json")
}

// quietly runs fettle without a word in the story's log.
func quietly(ts *testscript.TestScript, args ...string) string {
	c := exec.Command("fettle", args...)
	c.Env = append(os.Environ(), "FETTLE_DATA="+ts.Getenv("FETTLE_DATA"))
	out, err := c.Output()
	if err != nil {
		ts.Fatalf("fettle %s: %v", strings.Join(args, " "), err)
	}
	return string(out)
}
