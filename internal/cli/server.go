package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"time"

	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/web"
)

// serving is how a shop is served.
type serving struct {
	addr string
	gate web.Gate
	home string
	open bool // a browser
}

// serve answers requests until ctx ends.
func serve(ctx context.Context, s streams, shop *shop, o serving) error {
	hub := web.NewHub()
	stop := shop.Watch(func(e live.Event) { hub.Publish(e.Build, web.Event{Seq: e.Seq}) })
	defer stop()
	go shop.Follow(ctx, 500*time.Millisecond)
	d := desk.Desk{Shop: shop.Shop, Vault: shop.vault}
	server := web.New(web.Config{Places: places(d), Builds: titles{shop.Shop, o.home}, Gate: o.gate, Hub: hub})
	listener, err := net.Listen("tcp", o.addr)
	if err != nil {
		return fault.Wrap(fault.Conflict, err, "listen on "+o.addr).(*fault.Fault).WithHint("is it open already? choose another with --addr")
	}
	at := "http://" + listener.Addr().String() + o.home
	fmt.Fprintln(s.err, "fettle: open", at)
	fmt.Fprintln(s.err, "fettle: press Ctrl-C to stop")
	if o.open {
		browse(at)
	}
	h := &http.Server{Handler: server, ReadHeaderTimeout: 10 * time.Second}
	done := make(chan error, 1)
	go func() { done <- h.Serve(listener) }()
	select {
	case err = <-done:
	case <-ctx.Done():
		quiet, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		if h.Shutdown(quiet) != nil {
			h.Close()
		}
		err = nil
	}
	if err != nil && !errors.Is(err, http.ErrServerClosed) {
		return fault.Wrap(fault.Internal, err, "serve")
	}
	return nil
}

// titles tells the server about builds.
type titles struct {
	shop *live.Shop
	home string
}

// Title describes a build for the title block.
func (t titles) Title(ctx context.Context, id string) (web.Title, error) {
	v, err := t.shop.View(ctx, id)
	if err != nil {
		return web.Title{}, err
	}
	return web.Title{Build: id, Vehicle: v.Build.Vehicle.Name, Revision: v.Seq, Day: v.Now.Date(),
		Units: "mm · l · " + v.Build.Currency.Symbol, Labels: map[string]string{"van": v.Build.Vehicle.Label}}, nil
}

// Home is the first page.
func (t titles) Home(ctx context.Context) (string, error) {
	if t.home != "" {
		return t.home, nil
	}
	builds, err := t.shop.Builds(ctx)
	if err != nil || len(builds) == 0 {
		return "/builds", err
	}
	return "/b/" + builds[0].ID + "/van", nil
}

// browse opens a page in whatever the machine opens pages with. A machine
// without one is no fault: the address is printed.
func browse(at string) {
	switch runtime.GOOS {
	case "windows":
		_ = exec.Command("rundll32", "url.dll,FileProtocolHandler", at).Start()
	case "darwin":
		_ = exec.Command("open", at).Start()
	default:
		_ = exec.Command("xdg-open", at).Start()
	}
}
