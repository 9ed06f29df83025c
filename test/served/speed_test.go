// Package served asks the real program, serving the demo build, as browsers
// do. The links are always walked. The speed is measured only when asked for:
// go test ./test/served -load.
package served

import (
	"flag"
	"fmt"
	"io"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

var (
	load    = flag.Bool("load", false, "measure the served pages; takes the machine for as long as -for says")
	rate    = flag.Int("rate", 50, "requests a second")
	lasting = flag.Duration("for", 20*time.Second, "how long to ask")
	floor   = flag.Duration("floor", 50*time.Millisecond, "the most the 95th percentile may be")
)

// TestLoad asks for all pages in turn at a steady rate, whether or not the
// answers keep up: a late answer does not hold back the next question.
func TestLoad(t *testing.T) {
	if !*load {
		t.Skip("skipped: run go test ./test/served -load to measure the served pages")
	}
	base := serve(t)
	client := &http.Client{Timeout: 30 * time.Second, Transport: &http.Transport{MaxIdleConnsPerHost: 64}}
	pages := plates(t, client, base)
	for _, p := range pages { // the first look works out the plan, as the first tablet of the morning does
		ask(t, client, base+p)
	}
	took := make([][]time.Duration, len(pages))
	bytes := make([]int, len(pages))
	var mu sync.Mutex
	var all sync.WaitGroup
	tick := time.NewTicker(time.Second / time.Duration(*rate))
	defer tick.Stop()
	for n := range int(lasting.Seconds() * float64(*rate)) {
		<-tick.C
		i := n % len(pages)
		all.Go(func() {
			d, size := ask(t, client, base+pages[i])
			mu.Lock()
			defer mu.Unlock()
			took[i], bytes[i] = append(took[i], d), size
		})
	}
	all.Wait()
	report(t, pages, took, bytes)
}

// report prints the table, and fails where a page or all together are slow.
func report(t *testing.T, pages []string, took [][]time.Duration, bytes []int) {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "%d requests a second for %s\n| page | requests | half | 95 %% | slowest | kB |\n|---|---|---|---|---|---|\n", *rate, *lasting)
	line := func(name string, list []time.Duration, size int) time.Duration {
		slices.Sort(list)
		p95 := at(list, 0.95)
		fmt.Fprintf(&b, "| %s | %d | %.1f ms | %.1f ms | %.1f ms | %d |\n", name, len(list), ms(at(list, 0.5)), ms(p95), ms(list[len(list)-1]), size>>10)
		return p95
	}
	var whole []time.Duration
	for i, p := range pages {
		if p95 := line(p, took[i], bytes[i]); p95 > *floor {
			t.Errorf("%s: 95th percentile %s, want at most %s", p, p95, *floor)
		}
		whole = append(whole, took[i]...)
	}
	line("all", whole, 0)
	t.Log(b.String())
}

func at(sorted []time.Duration, share float64) time.Duration {
	return sorted[min(int(share*float64(len(sorted))), len(sorted)-1)]
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// ask fetches a page whole and returns how long that took.
func ask(t *testing.T, c *http.Client, url string) (time.Duration, int) {
	began := time.Now()
	r, err := c.Get(url)
	if err != nil {
		t.Errorf("%s: %v", url, err)
		return 0, 0
	}
	defer r.Body.Close()
	n, err := io.Copy(io.Discard, r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		t.Errorf("%s: %s, %v", url, r.Status, err)
	}
	return time.Since(began), int(n)
}

var plate = regexp.MustCompile(`href="(/b/pedlar/[a-z]+)"`)

// plates finds the pages that the front page leads to.
func plates(t *testing.T, c *http.Client, base string) []string {
	t.Helper()
	r, err := c.Get(base + "/")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	page, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	var pages []string
	for _, m := range plate.FindAllStringSubmatch(string(page), -1) {
		if !slices.Contains(pages, m[1]) {
			pages = append(pages, m[1])
		}
	}
	if len(pages) < 8 {
		t.Fatalf("the front page leads only to %v", pages)
	}
	return pages
}
