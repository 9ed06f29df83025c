package drawn_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"testing"

	"github.com/a-h/templ"

	"fettle/internal/drawn"
)

func TestPress_DrawsOnce(t *testing.T) {
	var press drawn.Press
	drawings := 0
	plate := func(text string) templ.Component {
		return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
			drawings++
			_, err := io.WriteString(w, text)
			return err
		})
	}
	for range 3 {
		for _, key := range []string{"a", "b"} {
			var out bytes.Buffer
			if err := press.Print(key, plate("drawing "+key)).Render(t.Context(), &out); err != nil {
				t.Fatal(err)
			}
			if got, want := out.String(), "drawing "+key; got != want {
				t.Errorf("print %q, want %q", got, want)
			}
		}
	}
	if drawings != 2 {
		t.Errorf("drawn %d times, want 2", drawings)
	}
	for i := range 200 {
		_ = press.Print(fmt.Sprint(i), plate("x")).Render(t.Context(), io.Discard)
	}
	drawings = 0
	if _ = press.Print("a", plate("drawing a")).Render(t.Context(), io.Discard); drawings != 1 {
		t.Error("an old print was never let go")
	}
}
