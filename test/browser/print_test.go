package browser

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// paper prints a page and returns what its sheets of A4 say, one by one.
func (p *tab) paper(name, path string) []string {
	p.Helper()
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		p.Skip("skipped: poppler's pdftotext is not installed on this machine")
	}
	p.open(path)
	pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	p.must("print "+name, err)
	file := keep(p.T, "print-"+name+".pdf", pdf)
	out, err := exec.Command(reader, "-layout", file, "-").Output()
	if err != nil {
		p.Fatal(err)
	}
	draw(p.T, file)
	var sheets []string
	for sheet := range strings.SplitSeq(strings.TrimSuffix(string(out), "\f"), "\f") {
		sheets = append(sheets, strings.Join(strings.Fields(sheet), " "))
	}
	return sheets
}

// TestPrint prints the papers a shop hangs up and reads them back.
func TestPrint(t *testing.T) {
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
		text := strings.Join(p.paper(c.name, c.path), " ")
		for _, want := range []string{"Build Place", "Larkmere Pedlar 10-cwt van", "Shown", "Revision", "Tue 6 Oct 2026", "Lead designer-builder", "mm · l · £", c.holds} {
			if !strings.Contains(text, want) {
				t.Errorf("%s on paper: %q is missing; it says %.400s", c.name, want, text)
			}
		}
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
