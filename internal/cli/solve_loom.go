package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"fettle/engine/loom"
	"fettle/engine/loom/loomfile"
	"fettle/fault"
)

// solveLoomCmd works a loom out.
type solveLoomCmd struct {
	File   string `arg:"" help:"A loom (docs/engine/loom-file.md)." type:"existingfile"`
	JSON   bool   `name:"json" help:"Print one JSON document."`
	States bool   `help:"Tell every state of the switches that was solved, not only those without a working point; in --json."`
	Set    string `help:"Positions of switches for --read and --deck, such as ignition=on,lamps=head; the rest at rest." placeholder:"SWITCH=POSITION,…"`
	Engine string `help:"What turns the alternator for --read and --deck." enum:"off,idle,running" default:"off"`
	Read   bool   `help:"Tell the volts of every terminal and the amps of every consumer in the state of --set, at 20 °C."`
	Deck   string `help:"Write the net in the state of --set, at 20 °C, as a SPICE deck into this file." type:"path"`
	Change bool   `help:"Tell what a change from 6 V to 12 V asks of this loom."`
}

// loomSolved is what solve loom prints.
type loomSolved struct {
	File string `json:"file"`
	loom.Result
	Reading *loom.Reading `json:"reading,omitempty"`
	Change  []loom.Advice `json:"to_12_v,omitempty"`
}

// Run works the file out.
func (c *solveLoomCmd) Run(ctx context.Context, s streams) error {
	one, err := c.solve(ctx)
	if err != nil {
		return within(err, c.File)
	}
	if c.JSON {
		return printJSON(s, one)
	}
	one.print(s.out)
	return nil
}

func (c *solveLoomCmd) solve(ctx context.Context) (loomSolved, error) {
	in, err := os.Open(c.File)
	if err != nil {
		return loomSolved{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	defer in.Close()
	p, err := loomfile.Read(in)
	if err != nil {
		return loomSolved{}, err
	}
	one := loomSolved{File: filepath.Base(c.File)}
	if one.Result, err = loom.Solve(ctx, p, loom.Options{KeepStates: c.States}); err != nil {
		return one, err
	}
	if c.Change {
		one.Change = loom.To12V(p)
	}
	u := loom.Setup{Switches: c.Set, Engine: loom.Engine(c.Engine), Sections: map[string]string{}}
	for _, r := range one.Runs {
		u.Sections[r.ID] = r.Section
	}
	if c.Read {
		r, err := loom.Operate(ctx, p, u)
		if err != nil {
			return one, fault.Within(err, "--set")
		}
		one.Reading = &r
	}
	if c.Deck != "" {
		var deck bytes.Buffer
		if err := loom.WriteDeck(&deck, p, u); err != nil {
			return one, err
		}
		if err := os.WriteFile(c.Deck, deck.Bytes(), 0o644); err != nil {
			return one, fault.New(fault.Invalid, "cannot be written: %v", err).At("--deck")
		}
	}
	return one, nil
}

func (one loomSolved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\t%s\trules %s\t%d runs, %d fuses, %d states\n", one.File, one.Status, one.Rules.Name, len(one.Runs), len(one.Fuses), one.Stats.States)
	for _, r := range one.Runs {
		fmt.Fprintf(w, "\t%s\t%s\t%s\t%.3g A\t%.2f V of %.2f V\t%s\n", r.ID, r.Working.Text, r.Rule, r.Amps, r.DropV, r.DropMaxV, r.Fuse)
	}
	for _, f := range one.Fuses {
		fmt.Fprintf(w, "\tfuse\t%s\t%s\t%s\n", f.Name, f.Working.Text, f.Inrush)
	}
	for _, b := range one.Boxes {
		fmt.Fprintf(w, "\tbox\t%s\t%s\n", b.Name, b.Working.With)
	}
	for _, f := range one.Flaws {
		fmt.Fprintf(w, "\tflaw\t%s\t%s\t%s\t%s\n", f.Kind, f.Place, f.Does, f.Remedy)
	}
	if one.Charge != nil {
		fmt.Fprintf(w, "\tcharge\t%s\n", one.Charge.Working.With)
	}
	if one.Night != nil {
		fmt.Fprintf(w, "\tnight\t%s\t%s\n", one.Night.Text, one.Night.With)
	}
	for _, f := range one.Reserve {
		fmt.Fprintf(w, "\tbattery\t%s\t%s\t%s\n", f.Name, f.Text, f.With)
	}
	for _, a := range one.Change {
		fmt.Fprintf(w, "\tto 12 V\t%s\t%s\t%s\n", a.Part, a.Verdict, a.Says)
	}
	if r := one.Reading; r != nil {
		one.printReading(w)
	}
	for _, c := range one.Cautions {
		fmt.Fprintf(w, "\tcaution\t%s\n", c)
	}
}

func (one loomSolved) printReading(w io.Writer) {
	r := one.Reading
	fmt.Fprintf(w, "\tstate\t%s\t%.3f A from the battery\t%s\n", r.Name, r.State.Battery, r.Says)
	for _, c := range r.Consumer {
		fmt.Fprintf(w, "\treads\t%s\t%.2f V\t%.3f A\n", c.Name, c.Volts, c.Amps)
	}
}
