package cli

import (
	"context"
	"fmt"
	"net"
	"os"
	"time"

	"fettle/fault"
	accounts "fettle/internal/account/sqlite"
	"fettle/internal/tlsca"
	"fettle/internal/web/door"
	"fettle/internal/web/trust"
)

// serveCmd is the shop's server.
type serveCmd struct {
	storeFlags
	Addr   string `help:"Address to listen on for HTTPS." default:":8443"`
	Plain  string `help:"Address of the plain page that helps a tablet trust the shop; empty for none." default:":8080"`
	NoOpen bool   `help:"Do not open a browser."`
	NoTLS  bool   `name:"no-tls" help:"Speak plain HTTP, for use behind a proxy that does HTTPS, or on loopback."`
}

// Run serves the shop until it is stopped.
func (c *serveCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, true)
	if err != nil {
		return err
	}
	defer shop.Close()
	if host, _, err := net.SplitHostPort(c.Addr); c.NoTLS && (err != nil || !loopback(host)) {
		return fault.New(fault.Denied, "plain HTTP would carry passwords in the open").At("--no-tls").
			WithHint("name a loopback address with --addr, and put the proxy in front of it")
	}
	entry, err := door.New(ctx, door.Config{
		Accounts: accounts.New(shop.store.Write(), shop.store.Read()),
		Sessions: accounts.NewSessions(shop.store.Write(), shop.store.Read(), time.Now),
		Announce: s.err, TLS: !c.NoTLS,
	})
	if err != nil {
		return err
	}
	if err := shop.work(ctx, s.log()); err != nil {
		return err
	}
	o := serving{addr: c.Addr, gate: entry, open: !c.NoOpen, places: append(places(shop.desk()), entry.Place())}
	if !c.NoTLS {
		if err := c.secure(s, shop, &o); err != nil {
			return err
		}
	}
	return serve(ctx, s, shop, o)
}

// secure opens the shop's certificate authority and adds the page that hands
// its certificate to tablets.
func (c *serveCmd) secure(s streams, shop *shop, o *serving) error {
	host, err := os.Hostname()
	if err != nil {
		host = "fettle"
	}
	ca, err := tlsca.Open(shop.dir, host, time.Now)
	if err != nil {
		return err
	}
	if o.tls, err = ca.TLS(nil); err != nil {
		return err
	}
	_, port, err := net.SplitHostPort(c.Addr)
	if err != nil {
		return fault.New(fault.Invalid, "%v", err).At("--addr")
	}
	o.places = append(o.places, trust.Place(ca, port))
	o.plain, o.port = c.Plain, port
	fmt.Fprintln(s.err, "fettle: fingerprint of the shop's certificate:", ca.Fingerprint())
	return nil
}
