package browser

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestPrint prints the papers a shop hangs up and reads them back.
func TestPrint(t *testing.T) {
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("skipped: poppler's pdftotext is not installed on this machine")
	}
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	for _, c := range []struct{ name, path, holds string }{
		{"wall", "/b/pedlar/wall", "T08"},
		{"spray-day", "/b/pedlar" + sprayDay + "&as=paper", "epoxy @limewash 2x 18C"},
		{"why-not", "/b/pedlar/wall/why?day=2027-01-15&now=1", "Everything is finished by Fri 15 Jan 2027"},
		{"stores", "/b/pedlar/stores", "Q01"},
		{"account", "/b/pedlar/tin/account", "£38,650"},
		{"findings", "/b/pedlar/metal/findings", "F31"},
		{"day-sheet", "/b/pedlar/clocking/MW/sheet", "Metalworker"},
	} {
		p.open(c.path)
		pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
		p.must("print "+c.name, err)
		path := keep(t, "print-"+c.name+".pdf", pdf)
		out, err := exec.Command(reader, "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(out)), " ")
		for _, want := range []string{"Build Place", "Larkmere Pedlar 10-cwt van", "Shown", "Revision", "Tue 6 Oct 2026", "Lead designer-builder", "mm · l · £", c.holds} {
			if !strings.Contains(text, want) {
				t.Errorf("%s on paper: %q is missing; it says %.400s", c.name, want, text)
			}
		}
		draw(t, path)
	}
	p.quiet()
}

// draw turns a printed paper into pictures beside it.
func draw(t *testing.T, path string) {
	t.Helper()
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Log("no pictures of the papers: poppler's pdftoppm is not installed on this machine")
		return
	}
	if out, err := exec.Command(tool, "-r", "60", "-png", path, strings.TrimSuffix(path, ".pdf")).CombinedOutput(); err != nil {
		t.Errorf("pdftoppm: %v %s", err, out)
	}
}
