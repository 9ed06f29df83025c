package schedule

import (
	"context"
	"testing"
)

// TestOdds_Calibrated draws a thousand builds from the model under luck that
// the odds have not seen: every date is met by as many as was said, and the
// 80 % date by 77 to 83 in a hundred.
func TestOdds_Calibrated(t *testing.T) {
	d := morning(t, true, true)
	stated := playDemo(t, d, 2000)
	builds, err := Odds(context.Background(), d.Problem, nil, OddsOptions{Runs: 1000, Seed: 20261006, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []float64{0.5, 0.8, 0.9} {
		day := stated.Quantile(q)
		said, _ := stated.Chance(day)
		met, err := builds.Chance(day)
		part := metAt(stated, builds, q)
		t.Logf("the %.0f %% date, %s, said %.1f %%, is met by %.1f %%, the quantile in it by %.1f %%", 100*q, moment(day), 100*said, 100*met, 100*part)
		if met < said-3*err || met > said+3*err {
			t.Errorf("the %.0f %% date is met by %.3f, said was %.3f", 100*q, met, said)
		}
		if part < q-0.03 || part > q+0.03 {
			t.Errorf("the %.0f %% quantile is met by %.3f, want within 0.03", 100*q, part)
		}
	}
}

// metAt is the part of the builds that met the quantile q of the stated odds.
// Whole evenings share one finish, so a date holds more than q; of those who
// finish on it the part counts that belongs below q (probability integral
// transform of counts [CzadoGneitingHeld2009]).
func metAt(stated, builds Outlook, q float64) float64 {
	met := 0.0
	for _, f := range builds.Finishes {
		below, _ := stated.Chance(f - 1)
		upTo, _ := stated.Chance(f)
		if upTo <= q {
			met++
		} else if below < q {
			met += (q - below) / (upTo - below)
		}
	}
	return met / float64(len(builds.Finishes))
}

// TestOdds_WithoutPeopleIsWrong shows what ignoring who does the work would
// promise: the same draws, but everybody everywhere at once.
func TestOdds_WithoutPeopleIsWrong(t *testing.T) {
	promised := at(t, "2027-02-19 23:59")
	real, _ := playDemo(t, morning(t, true, true), 2000).Chance(promised)
	crowd := morning(t, true, true)
	for j := range crowd.Activities {
		a := &crowd.Activities[j]
		if a.Kind != Labour {
			continue
		}
		crowd.People = append(crowd.People, Person{ID: a.ID, Calendar: crowd.People[a.Who[0]].Calendar})
		a.Who = []int{len(crowd.People) - 1}
	}
	wrong, _ := playDemo(t, crowd, 2000).Chance(promised)
	t.Logf("chance %.3f with people, %.3f without", real, wrong)
	if wrong < real+0.2 {
		t.Errorf("without people the chance is %.3f, with them %.3f: want at least 0.2 too rosy", wrong, real)
	}
}
