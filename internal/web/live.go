package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"fettle/fault"
)

const (
	heartbeat    = 15 * time.Second
	writeTimeout = 10 * time.Second
)

// live streams what changes on a build after the journal number the tablet has
// seen, as server-sent events named "moved" whose ID is the journal number, and
// what is stirred without one as events named "stirred".
func (s *Server) live(r *Request) error {
	if _, err := s.cfg.Builds.Title(r.Context(), r.Build()); err != nil {
		return err
	}
	seen, err := lastSeen(r)
	if err != nil {
		return err
	}
	h := r.w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("X-Accel-Buffering", "no")
	l := s.hub.listen(r.Build())
	defer s.hub.leave(r.Build(), l)
	s.stream(r, l, seen)
	return nil
}

// stream ends when the tablet goes away or takes longer than writeTimeout.
func (s *Server) stream(r *Request, l *listener, seen int64) {
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	text := "retry: 1000\n: listening\n\n"
	for {
		for _, ev := range s.hub.since(r.Build(), seen) {
			body, _ := json.Marshal(ev) // numbers and texts only: cannot fail
			text += fmt.Sprintf("id: %d\nevent: moved\ndata: %s\n\n", ev.Seq, body)
			seen = ev.Seq
		}
		if places := s.hub.stirred(l); len(places) > 0 {
			body, _ := json.Marshal(Event{Seq: seen, Places: places}) // numbers and texts only: cannot fail
			text += fmt.Sprintf("event: stirred\ndata: %s\n\n", body)
		}
		if send(r.w, text) != nil {
			return
		}
		text = ""
		select {
		case <-r.Context().Done():
			return
		case <-s.hub.done:
			return
		case <-l.wake:
		case <-beat.C:
			text = ": beat\n\n"
		}
	}
}

func send(w http.ResponseWriter, text string) error {
	if text == "" {
		return nil
	}
	c := http.NewResponseController(w)
	if err := c.SetWriteDeadline(time.Now().Add(writeTimeout)); err != nil {
		return err
	}
	if _, err := w.Write([]byte(text)); err != nil {
		return err
	}
	return c.Flush()
}

func lastSeen(r *Request) (int64, error) {
	text := r.r.Header.Get("Last-Event-ID")
	if text == "" {
		text = r.Query("after")
	}
	if text == "" {
		return 0, nil
	}
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 0 {
		return 0, fault.New(fault.Invalid, "%q is not a journal number", text).At("after")
	}
	return n, nil
}
