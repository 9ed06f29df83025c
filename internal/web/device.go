package web

import (
	"encoding/base64"
	"encoding/json"
	"net/http"
	"net/url"
	"strings"

	"github.com/google/uuid"

	"fettle/fault"
	"fettle/internal/web/ui/undo"
)

const (
	themeCookie  = "theme"
	deviceCookie = "device"
	keptCookie   = "kept"
	deviceHeader = "X-Fettle-Device" // set by the server itself, never taken from outside
	// refreshHeader marks what a page's script fetches to be up to date: a page
	// that is not looked at must not take the bar from the one that is.
	refreshHeader = "Fettle-Refresh"
	yearSeconds   = 365 * 24 * 3600
)

func themeOf(r *http.Request) string {
	if c, err := r.Cookie(themeCookie); err == nil {
		switch c.Value {
		case "bright", "night":
			return c.Value
		}
	}
	return "day"
}

func chooseTheme(r *Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	theme := f.Choice("theme", "day", "bright", "night")
	if err := f.Err(); err != nil {
		return err
	}
	r.setCookie(themeCookie, theme, yearSeconds)
	return r.SeeOther(backPath(f.Text("back", 0, 2000)))
}

// backPath keeps the path and question of an address and drops its host.
func backPath(raw string) string {
	u, err := url.Parse(raw)
	if err != nil || !localPath(u.RequestURI()) {
		return "/"
	}
	return u.RequestURI()
}

func (r *Request) setCookie(name, value string, seconds int) {
	http.SetCookie(r.w, &http.Cookie{
		Name: name, Value: value, Path: "/", MaxAge: seconds, HttpOnly: true,
		Secure: r.s.cfg.TLS, SameSite: http.SameSiteLaxMode,
	})
}

// knowDevice gives every tablet a lasting name, so that the journal can say
// where an entry was made.
func (s *Server) knowDevice(w http.ResponseWriter, r *http.Request) {
	r.Header.Del(deviceHeader)
	if c, err := r.Cookie(deviceCookie); err == nil {
		if id, err := uuid.Parse(c.Value); err == nil {
			r.Header.Set(deviceHeader, id.String())
			return
		}
	}
	if strings.HasPrefix(r.URL.Path, "/static/") || r.URL.Path == "/sw.js" {
		return
	}
	id := uuid.NewString()
	r.Header.Set(deviceHeader, id)
	http.SetCookie(w, &http.Cookie{
		Name: deviceCookie, Value: id, Path: "/", MaxAge: yearSeconds, HttpOnly: true,
		Secure: s.cfg.TLS, SameSite: http.SameSiteLaxMode,
	})
}

type keptNote struct {
	Text, Entry, Build string
	Back               string `json:",omitempty"`
}

// Kept makes the next page of this tablet say what was kept and offer to put
// it back. The bar posts the entry's ID to /b/{build}/undo, with the path of the
// page that putting back leads to; empty, that is the page which shows the bar.
func (r *Request) Kept(text, entry, back string) {
	note, err := json.Marshal(keptNote{Text: text, Entry: entry, Build: r.Build(), Back: back})
	if err != nil {
		return
	}
	r.setCookie(keptCookie, base64.RawURLEncoding.EncodeToString(note), 60)
}

func (r *Request) takeKept() *undo.Bar {
	c, err := r.r.Cookie(keptCookie)
	if err != nil || r.Refresh() {
		return nil
	}
	r.setCookie(keptCookie, "", -1)
	raw, err := base64.RawURLEncoding.DecodeString(c.Value)
	if err != nil {
		return nil
	}
	var note keptNote
	if json.Unmarshal(raw, &note) != nil || note.Entry == "" || note.Build != r.Build() {
		return nil
	}
	return &undo.Bar{Text: note.Text, Entry: note.Entry, Back: note.Back, Action: "/b/" + url.PathEscape(note.Build) + "/undo"}
}

// EntryID returns the entry ID that the form carries, made on the device when
// the person began; without one the server makes it. A text that is no UUID is
// an Invalid fault.
func (f *Form) EntryID() (string, error) {
	text := f.Text("entry", 0, 36)
	if text == "" {
		id, err := uuid.NewV7()
		return id.String(), err
	}
	id, err := uuid.Parse(text)
	if err != nil {
		return "", fault.New(fault.Invalid, "the form carries no proper entry number").At("entry").WithHint("Load the page again.")
	}
	return id.String(), nil
}
