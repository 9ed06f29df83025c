package web

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"mime"
	"net/http"
	"strconv"

	"github.com/a-h/templ"

	"fettle/fault"
	"fettle/internal/web/ui/working"
)

// Page answers with a whole sheet around the body. Fields of sh left empty are
// filled in from the build named in the path.
func (r *Request) Page(sh Sheet, body ...templ.Component) error {
	return r.page(http.StatusOK, sh, body)
}

// Invalid answers as Page does with status 422, to show a form again with what
// is wrong in it.
func (r *Request) Invalid(sh Sheet, body ...templ.Component) error {
	return r.page(http.StatusUnprocessableEntity, sh, body)
}

// PageStatus answers as Page does with another status, such as 401.
func (r *Request) PageStatus(status int, sh Sheet, body ...templ.Component) error {
	return r.page(status, sh, body)
}

// Refuse answers with a fault under a status that its kind does not give, such
// as 429.
func (r *Request) Refuse(status int, err error) error {
	r.s.answerFault(r, status, err)
	return nil
}

func (r *Request) page(status int, sh Sheet, body []templ.Component) error {
	data, err := r.sheet(sh)
	if err != nil {
		return err
	}
	return r.render(status, drawn(data, body))
}

// Fragment answers with the parts alone, for a script that puts them in place.
func (r *Request) Fragment(parts ...templ.Component) error {
	return r.render(http.StatusOK, templ.Join(parts...))
}

// render draws into memory first, so that a failure can still become a fault page.
func (r *Request) render(status int, c templ.Component) error {
	var b bytes.Buffer
	ctx := r.Context()
	if build := r.Build(); build != "" {
		ctx = working.WithRoot(ctx, "/b/"+build)
	}
	if err := c.Render(ctx, &b); err != nil {
		return err
	}
	return r.write(status, "text/html; charset=utf-8", b.Bytes())
}

func (r *Request) write(status int, kind string, body []byte) error {
	h := r.w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Length", strconv.Itoa(len(body)))
	r.w.WriteHeader(status)
	_, _ = r.w.Write(body) // the asker may have gone; there is nobody left to tell
	return nil
}

// JSON answers with v as one document.
func (r *Request) JSON(v any) error {
	body, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	return r.write(http.StatusOK, "application/json; charset=utf-8", append(body, '\n'))
}

// CSV answers with rows, the first of them the headings, as a file of that
// name. Cells that a spreadsheet would take for a formula are quoted first.
func (r *Request) CSV(name string, rows [][]string) error {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	for _, row := range rows {
		if err := w.Write(harmless(row)); err != nil {
			return err
		}
	}
	w.Flush()
	return r.File(name, "text/csv; charset=utf-8", b.Bytes())
}

// harmless puts an apostrophe before text that begins like a formula; plain
// negative numbers stay as they are.
func harmless(row []string) []string {
	out := make([]string, len(row))
	for i, cell := range row {
		out[i] = cell
		if cell == "" || (cell[0] != '=' && cell[0] != '+' && cell[0] != '@' && cell[0] != '-') {
			continue
		}
		if _, err := strconv.ParseFloat(cell, 64); err != nil {
			out[i] = "'" + cell
		}
	}
	return out
}

// File answers with a file to keep, under that name.
func (r *Request) File(name, kind string, body []byte) error {
	r.w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	return r.write(http.StatusOK, kind, body)
}

// Show answers with bytes to show in the browser, such as a picture or a PDF.
func (r *Request) Show(kind string, body io.Reader) error {
	data, err := io.ReadAll(body)
	if err != nil {
		return err
	}
	return r.write(http.StatusOK, kind, data)
}

// SeeOther sends a browser on to a path of this server after something was
// kept. A script that asked for JSON gets {"see": path} instead.
func (r *Request) SeeOther(path string) error {
	if !localPath(path) {
		return fault.New(fault.Internal, "cannot send a person to %q", path)
	}
	if wantsJSON(r.r) {
		return r.JSON(map[string]string{"see": path})
	}
	http.Redirect(r.w, r.r, path, http.StatusSeeOther)
	return nil
}

// localPath keeps a redirect on this server: one slash, no second, no backslash.
func localPath(path string) bool {
	return len(path) > 0 && path[0] == '/' && (len(path) == 1 || (path[1] != '/' && path[1] != '\\'))
}
