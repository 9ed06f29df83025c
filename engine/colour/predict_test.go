package colour

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/fault"
)

func hint(err error) string { return fault.HintOf(err) }

func TestCoats(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	cream := paints()[0]
	job := Job{Paint: Known(cream), Coat: 9, Over: Flat(0.03), Surface: skin, Clear: []Layer{{Paint{Name: "clear"}, 66}}}
	black, err := job.ToHide(v, Hides{})
	if err != nil {
		t.Fatal(err)
	}
	list, err := job.Coats(v, black+2, Hides{})
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range list {
		if want := skin.Seen(Over(job.Over, Layer{cream, c.Film})); math.Abs(c.Seen[9]-want[9]) > 1e-12 {
			t.Errorf("coat %d: %g, at one go %g", i+1, c.Seen[9], want[9])
		}
		if c.Hidden != (i >= black-1) || c.Hidden != (c.Left <= 1 && c.Bright >= 0.98) || c.Within != 0 {
			t.Errorf("coat %d: %+v", i+1, c)
		}
		if i > 0 && !(c.Left < list[i-1].Left && c.Step > 0 && c.Bright > list[i-1].Bright) {
			t.Errorf("coat %d: left %g after %g, bright %g", i+1, c.Left, list[i-1].Left, c.Bright)
		}
	}
	job.Over = Flat(0.6)
	grey, err := job.ToHide(v, Hides{})
	if err != nil || grey >= black {
		t.Errorf("%d coats over light grey, %d over black, %v", grey, black, err)
	}
	if strict, err := job.ToHide(v, Hides{Difference: 0.5}); err != nil || strict < grey {
		t.Errorf("half the difference in %d coats, %v", strict, err)
	}
	job.Over = cream.Hidden() // the ground is the colour itself
	if n, err := job.ToHide(v, Hides{}); err != nil || n != 1 {
		t.Errorf("over itself %d coats, %v", n, err)
	}
}

// TestScatter: a film that is laid unevenly makes the colour uncertain, even of
// a paint that is known.
func TestScatter(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	job := Job{Paint: Known(paints()[0]), Coat: 9, Scatter: 0.1, Over: Flat(0.03), Surface: skin}
	list, err := job.Coats(v, 20, Hides{})
	if err != nil {
		t.Fatal(err)
	}
	thick := v.Lab(skin.Seen(Over(job.Over, Layer{job.Paint.Paint, list[0].Film * (1 + 0.1*in95)})))
	if d := Difference(list[0].Lab, thick); math.Abs(d/list[0].Within-1) > 0.2 {
		t.Errorf("at 95 of 100 films the colour is off by %.3f, stated %.3f", d, list[0].Within)
	}
	if !(list[19].Within < list[1].Within/2) {
		t.Errorf("where it hides, the film matters as much: %g after %g", list[19].Within, list[1].Within)
	}
}

func TestJobRefuses(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	dye := Paint{Name: "dye", K: Flat(1e-4)}
	for want, change := range map[string]func(*Job){
		"no prediction for a metallic film": func(j *Job) { j.Paint.Paint.Finish = Metallic },
		"no prediction for a pearl film":    func(j *Job) { j.Clear = []Layer{{Paint{Finish: Pearl}, 9}} },
		"a film of 0 µm":                    func(j *Job) { j.Coat = 0 },
		"the ground, 380 nm":                func(j *Job) { j.Over[0] = math.NaN() },
		"a scatter of the film":             func(j *Job) { j.Scatter = -1 },
		"60 coats of 9 µm do not hide":      func(j *Job) { j.Paint = Known(dye) },
	} {
		j := Job{Paint: Known(paints()[0]), Coat: 9, Over: Flat(0.03)}
		change(&j)
		if _, err := j.ToHide(v, Hides{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
	j := Job{Paint: Known(paints()[0]), Coat: 9, Over: Flat(0.03)}
	if _, err := j.Coats(v, 0, Hides{}); err == nil {
		t.Error("no coats are predicted")
	}
}

// BenchmarkRecolour: 60 panels, five layers each, under three lights.
func BenchmarkRecolour(b *testing.B) {
	viewers := []*Viewer{NewViewer(D65(), Degrees10()), NewViewer(A(), Degrees10()), NewViewer(F11(), Degrees10())}
	layers := fiveLayers()
	panels := make([]Lab, 60*len(viewers))
	b.ReportAllocs()
	for b.Loop() {
		for p := range 60 {
			seen := skin.Seen(Over(Flat(0.1+float64(p)/100), layers...))
			for i, v := range viewers {
				panels[len(viewers)*p+i] = v.Lab(seen)
			}
		}
	}
}

// BenchmarkFit is a card of two films over black and white.
func BenchmarkFit(b *testing.B) {
	c := blurred(sprayed(paints()[1], 9, 18), rand.New(rand.NewPCG(1, 1)))
	for b.Loop() {
		if _, err := Fit(c); err != nil {
			b.Fatal(err)
		}
	}
}
