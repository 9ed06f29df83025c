package cli

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"time"

	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/trust"
)

// serving is how a shop is served.
type serving struct {
	addr   string
	gate   web.Gate
	places []web.Place
	home   string      // first page; empty finds it
	open   bool        // a browser
	tls    *tls.Config // nil speaks plain HTTP
	plain  string      // address of the plain page that helps tablets trust; empty for none
	port   string      // the port of addr
}

// log says what goes wrong while a shop is served.
func (s streams) log() *slog.Logger {
	return slog.New(slog.NewTextHandler(s.err, &slog.HandlerOptions{Level: slog.LevelWarn}))
}

// desk is what the shop's places work at.
func (s *shop) desk() desk.Desk {
	d := desk.Desk{Shop: s.Shop, Vault: s.vault}
	if s.jobs != nil {
		d.Jobs = s.jobs
	}
	return d
}

// serve answers requests until ctx ends.
func serve(ctx context.Context, s streams, shop *shop, o serving) error {
	hub := web.NewHub()
	stop := shop.Watch(func(e live.Event) { hub.Publish(e.Build, web.Event{Seq: e.Seq}) })
	defer stop()
	if shop.jobs != nil {
		defer shop.jobs.Watch(func(string, string) { hub.Stir("", "jobs") })() // a queue is one for all builds
	}
	go shop.Follow(ctx, 500*time.Millisecond)
	server := web.New(web.Config{Places: o.places, Builds: titles{shop.Shop, o.home}, Gate: o.gate, Hub: hub, Log: s.log(), TLS: o.tls != nil})
	main, err := listen(o.addr, "--addr")
	if err != nil {
		return err
	}
	ends := make(chan error, 2)
	h := server.HTTP(o.addr)
	h.TLSConfig = o.tls
	scheme := "http://"
	if o.tls != nil {
		scheme = "https://"
		go func() { ends <- h.ServeTLS(main, "", "") }()
	} else {
		go func() { ends <- h.Serve(main) }()
	}
	if o.plain != "" {
		side, err := listen(o.plain, "--plain")
		if err != nil {
			h.Close()
			return err
		}
		p := &http.Server{Handler: trust.Plain(server, o.port), ReadHeaderTimeout: 10 * time.Second}
		defer p.Close()
		go func() { ends <- p.Serve(side) }()
		fmt.Fprintln(s.err, "fettle: a tablet that does not trust the shop yet begins at http://"+side.Addr().String()+"/trust")
	}
	at := scheme + main.Addr().String() + o.home
	fmt.Fprintln(s.err, "fettle: open", at)
	fmt.Fprintln(s.err, "fettle: press Ctrl-C to stop")
	if o.open {
		browse(at)
	}
	return wait(ctx, h, ends)
}

func listen(addr, flag string) (net.Listener, error) {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return nil, fault.New(fault.Conflict, "cannot listen on %s: %v", addr, err).At(flag).WithHint("is it open already? choose another address with " + flag)
	}
	return l, nil
}

// wait returns when a server ends, or, when ctx ends, once open requests have
// ended or patience has run out.
func wait(ctx context.Context, h *http.Server, ends <-chan error) error {
	select {
	case err := <-ends:
		if !errors.Is(err, http.ErrServerClosed) {
			return fault.Wrap(fault.Internal, err, "serve")
		}
	case <-ctx.Done():
		quiet, cancel := context.WithTimeout(context.WithoutCancel(ctx), patience)
		defer cancel()
		if h.Shutdown(quiet) != nil {
			h.Close()
		}
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
