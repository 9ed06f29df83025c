// Package cli is the command line: one file a verb, and the wiring of stores,
// places and server.
package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"

	"fettle/fault"
)

// streams are where a verb reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// commands lists every verb.
type commands struct {
	Demo     demoCmd     `cmd:"" help:"Open the demo build in the browser, on this machine only."`
	Serve    serveCmd    `cmd:"" help:"Serve the shop to its tablets, over HTTPS."`
	New      newCmd      `cmd:"" help:"Make a build from a scenario file."`
	Plan     planCmd     `cmd:"" help:"Print the plan of a build: dates, odds, hours, cash, what to order today."`
	Try      tryCmd      `cmd:"" help:"Print what changes would do; nothing is kept."`
	Record   recordCmd   `cmd:"" help:"Keep changes."`
	Undo     undoCmd     `cmd:"" help:"Take kept entries back."`
	Import   importCmd   `cmd:"" help:"Read in a list of panels, findings, parts or hours."`
	Export   exportCmd   `cmd:"" help:"Write a build as a file that new reads."`
	Check    checkCmd    `cmd:"" help:"Verify the whole store: every entry replays, every photo matches."`
	Backup   backupCmd   `cmd:"" help:"Write the whole store into one file."`
	Restore  restoreCmd  `cmd:"" help:"Lay a backup out as a new data folder, and check it."`
	Backtest backtestCmd `cmd:"" help:"Set the forecasts made on the way beside what came, on finished builds or tasks."`
	Solve    solveCmd    `cmd:"" help:"Run an engine alone, on files."`
	Bench    benchCmd    `cmd:"" help:"Measure an engine on a public test set."`
}

const about = `fettle holds one live model of a vehicle's rebuild, and shows what every change does before it is kept.

Exit codes: 0 done, 1 our mistake or a broken machine, 2 the input breaks a rule, 10 not found,
11 the facts have moved on, 12 denied, 13 too large, 80 wrong use of the command, 130 interrupted.`

// Main runs the command line and returns its exit code.
func Main(args []string, in io.Reader, out, errs io.Writer) int {
	var c commands
	s := streams{in, out, errs}
	usage := -1
	parser, err := kong.New(&c, kong.Name("fettle"), kong.Description(about),
		kong.Writers(out, errs), kong.Exit(func(code int) { usage = code }), kong.UsageOnError())
	if err != nil {
		return report(s, err)
	}
	parsed, err := parser.Parse(args)
	if usage >= 0 {
		return usage
	}
	if err != nil {
		fmt.Fprintln(errs, "fettle:", err)
		return 80
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	parsed.BindTo(ctx, (*context.Context)(nil))
	return report(s, parsed.Run(s))
}

// report prints a fault for a person and returns its exit code.
func report(s streams, err error) int {
	if err == nil {
		return 0
	}
	fmt.Fprintln(s.err, "fettle:", err)
	if hint := fault.HintOf(err); hint != "" {
		fmt.Fprintln(s.err, "  "+hint)
	}
	if errors.Is(err, context.Canceled) {
		return fault.Interrupted.Exit()
	}
	return fault.KindOf(err).Exit()
}

func asFault(err error) (*fault.Fault, bool) { return errors.AsType[*fault.Fault](err) }

// readAtMost reads all of r, and refuses more than limit bytes.
func readAtMost(r io.Reader, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "read")
	}
	if int64(len(data)) > limit {
		return nil, fault.New(fault.TooLarge, "that is more than %d MB", limit>>20)
	}
	return data, nil
}

// printJSON writes one document.
func printJSON(s streams, v any) error {
	e := json.NewEncoder(s.out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
