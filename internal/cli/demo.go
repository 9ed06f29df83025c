package cli

import (
	"bytes"
	"context"
	"net"
	"os"
	"time"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/internal/web"
	"fettle/unit"
)

// demoCmd opens the demo build.
type demoCmd struct {
	Until  string `help:"Replay the demo's journal up to the morning of this day." default:"2026-10-06" placeholder:"DATE"`
	Addr   string `help:"Loopback address to listen on." default:"127.0.0.1:8059"`
	NoOpen bool   `help:"Do not open a browser."`
	Data   string `help:"Folder to keep the demo in; a new temporary one by default." type:"path"`
	Seed   uint64 `help:"Seed of the odds." default:"1"`
	Runs   int    `help:"How many builds are played for the odds." default:"2000"`
}

// Run loads the demo, serves it and waits.
func (c *demoCmd) Run(ctx context.Context, s streams) error {
	if host, _, err := net.SplitHostPort(c.Addr); err != nil || !loopback(host) {
		return fault.New(fault.Denied, "the demo has no sign-in, so it listens on this machine only").
			At("--addr").WithHint("use an address such as 127.0.0.1:8059")
	}
	day, err := unit.ParseDate(c.Until)
	if err != nil {
		return fault.New(fault.Invalid, "%v", err).At("--until")
	}
	if c.Data == "" {
		dir, err := os.MkdirTemp("", "fettle-demo-")
		if err != nil {
			return fault.Wrap(fault.Internal, err, "make a folder for the demo")
		}
		defer os.RemoveAll(dir)
		c.Data = dir
	}
	shop, err := storeFlags{Data: c.Data, Now: c.Until, Seed: c.Seed, Runs: c.Runs}.open(ctx, true)
	if err != nil {
		return err
	}
	defer shop.Close()
	name, err := load(ctx, shop, day)
	if fault.KindOf(err) == fault.Conflict {
		return fault.New(fault.Conflict, "%s holds another build of this name, or the demo of another edition of fettle", c.Data).At("--data").
			WithHint("name an empty folder to begin anew; what was recorded in this one is kept, and opens with: fettle serve --data " + c.Data)
	}
	if err != nil {
		return err
	}
	if err := shop.work(ctx, s.log()); err != nil {
		return err
	}
	owner := account.Person{ID: "demo", Code: "LD", Name: "Lead designer-builder", Role: account.Owner}
	return serve(ctx, s, shop, serving{addr: c.Addr, gate: web.Fixed(owner), places: places(shop.desk()), home: "/b/" + name + "/van", open: !c.NoOpen})
}

// load replays the demo's scenario until a day into the store, keeps the scans it
// names in the vault, and returns its name.
func load(ctx context.Context, shop *shop, day unit.Date) (string, error) {
	file, err := demo.Pedlar()
	if err != nil {
		return "", err
	}
	entries, err := scenario.Entries(file, day)
	if err != nil {
		return "", err
	}
	for _, scan := range demo.Scans() {
		if _, err := shop.vault.Put(ctx, bytes.NewReader(scan), int64(len(scan))); err != nil {
			return "", err
		}
	}
	return file.Build.Name, shop.Create(ctx, entries)
}

func loopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// patience is how long open requests may take to end when the server stops.
const patience = 3 * time.Second
