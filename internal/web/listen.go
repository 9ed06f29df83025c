package web

import (
	"log/slog"
	"net/http"
	"time"
)

// HTTP returns a server for an address with the bounds this one needs: no
// write timeout, since streams of changes last; their own deadlines are set
// for every write, and bodies have bodyTime. Shutdown ends the streams.
func (s *Server) HTTP(addr string) *http.Server {
	srv := &http.Server{
		Addr: addr, Handler: s,
		ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		ErrorLog: slog.NewLogLogger(s.cfg.Log.Handler(), slog.LevelDebug),
	}
	srv.RegisterOnShutdown(s.hub.Close)
	return srv
}
