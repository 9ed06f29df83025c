package browser

import (
	"encoding/json"
	"net/http"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestLabelsScan prints the labels of all wires, lets poppler draw the sheets and
// a reader of codes look at them: each end says the text of its row of the cut
// list.
func TestLabelsScan(t *testing.T) {
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("skipped: zbar's zbarimg is not installed on this machine")
	}
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.open("/b/pedlar/loom/labels")
	pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	p.must("print the labels", err)
	file := keep(p.T, "print-labels.pdf", pdf)
	to := filepath.Join(t.TempDir(), "sheet")
	if out, err := exec.Command("pdftoppm", "-r", "300", "-png", file, to).CombinedOutput(); err != nil {
		t.Skipf("skipped: poppler's pdftoppm: %v %s", err, out)
	}
	sheets, err := filepath.Glob(to + "*.png")
	if err != nil || len(sheets) == 0 {
		t.Fatalf("%d sheets, %v", len(sheets), err)
	}
	said, err := exec.Command(reader, append([]string{"-q", "--raw", "-Sdisable", "-Sqrcode.enable"}, sheets...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var cuts []struct{ Label, From, To string }
	list, err := http.Get(s.url + "/b/pedlar/loom/cut?as=json")
	if err != nil {
		t.Fatal(err)
	}
	defer list.Body.Close()
	if err := json.NewDecoder(list.Body).Decode(&cuts); err != nil || len(cuts) < 40 {
		t.Fatalf("%d wires, %v", len(cuts), err)
	}
	for _, c := range cuts {
		for _, end := range []string{"from " + c.From, "to " + c.To} {
			if text := c.Label + "\npedlar · " + end + "\n"; strings.Count(string(said), text) != 1 {
				t.Errorf("read %d times: %q", strings.Count(string(said), text), text)
			}
		}
	}
}
