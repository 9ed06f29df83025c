package web

import (
	"log/slog"
	"net/http"
	"time"
)

// requestAttrs are what the log keeps of a request: no query, no body, as
// both can hold what a person typed.
func requestAttrs(r *http.Request, status int, took time.Duration, id string) []slog.Attr {
	return []slog.Attr{
		slog.String("id", id),
		slog.String("method", r.Method),
		slog.String("path", r.URL.Path),
		slog.Int("status", status),
		slog.Duration("took", took),
	}
}
