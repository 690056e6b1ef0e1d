package bearing_test

import (
	"errors"
	"fmt"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/mesh"
)

// seats are the ways to hold a bearing that a builder chooses among. A thrust
// bearing takes no cap.
func seats(t *testing.T) map[string]func(*bearing.HousingSpec) {
	return map[string]func(*bearing.HousingSpec){
		"press":      func(s *bearing.HousingSpec) { s.Fit = bearing.Press },
		"slip":       func(s *bearing.HousingSpec) { s.Fit = bearing.Slip },
		"crush-ribs": func(s *bearing.HousingSpec) { s.Fit = bearing.CrushRibs },
		"N7":         func(s *bearing.HousingSpec) { s.Fit = "N7" },
		"slip, cap": func(s *bearing.HousingSpec) {
			s.Fit = bearing.Slip
			if s.Bearing.Kind != bearing.ThrustBall {
				s.Cap = &bearing.Cap{Screw: screw(t, "M2.5"), Count: 3}
			}
		},
	}
}

// Every row of the table in every plastic with every seat as anybody would ask for
// it, and in one plastic as nobody should: far too tight, thin and open. The ring's mesh is proved closed, holds what its layers hold, and no check
// fails; or what failed or was refused says what to change in numbers, and after
// at most six such changes that is so. With -short every fifth row.
func TestEveryRowInEveryPlastic(t *testing.T) {
	type job struct {
		what string
		spec bearing.HousingSpec
	}
	jobs := make(chan job)
	var (
		mutex  sync.Mutex
		fixed  = map[string]int{}
		worker sync.WaitGroup
		rings  int
	)
	for range runtime.GOMAXPROCS(0) {
		worker.Go(func() {
			for j := range jobs {
				changes, err := untilItHolds(j.spec)
				mutex.Lock()
				rings++
				for _, c := range changes {
					fixed[c]++
				}
				mutex.Unlock()
				if err != nil {
					t.Errorf("%s in %s, %s: %v", j.spec.Bearing.Designation, j.spec.Material.Name, j.what, err)
				}
			}
		})
	}
	card := fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, FirstLayerGrowth: 0.2, Bed: [2]float64{300, 300}, Bore: fit.FirstGuessBore, Outside: fit.FirstGuessOutside}
	for i, b := range bearing.All() {
		if testing.Short() && i%5 != 0 {
			continue
		}
		for k, plastic := range fit.Materials() {
			for name, choose := range seats(t) {
				plain := bearing.HousingSpec{Name: "any", Bearing: b, Material: plastic, Card: card, Load: bearing.Load{Axial: 10}}
				choose(&plain)
				jobs <- job{name, plain}
				if i%4 != k {
					continue
				}
				greedy := plain
				greedy.Wall, greedy.ShoulderThickness, greedy.ShoulderHole = 0.2, 0.5, 0.98*b.Outside
				if greedy.Fit == bearing.Press || greedy.Fit == bearing.CrushRibs {
					greedy.Interference = 0.04 * b.Outside
				}
				jobs <- job{name + ", asked too much", greedy}
			}
		}
	}
	close(jobs)
	worker.Wait()
	t.Logf("%d rings; changed on the way: %v", rings, fixed)
	if !testing.Short() && rings != 25*len(bearing.All()) {
		t.Errorf("%d rings of %d rows in four plastics with five seats, one of them twice", rings, len(bearing.All()))
	}
	for _, change := range []string{"hoop-strain", "shoulder-support", "refused shoulder hole", "refused shoulder thickness", "refused wall"} {
		if fixed[change] == 0 {
			t.Errorf("no remedy of %s was followed", change)
		}
	}
}

// untilItHolds follows remedies until a ring stands and no check fails, and
// returns what was changed.
func untilItHolds(spec bearing.HousingSpec) (changes []string, err error) {
	for range 6 {
		h, err := bearing.NewHousing(spec)
		if err != nil {
			var wrong *check.FieldError
			if !errors.As(err, &wrong) {
				return changes, err
			}
			m, apply := firstNumber.FindStringSubmatch(wrong.Remedy), refusals[wrong.Field]
			switch {
			case m != nil && apply != nil:
				apply(&spec, mustFloat(m[1]))
			case !obey(&spec, wrong.Remedy):
				return changes, fmt.Errorf("refused without a number to follow: %w", err)
			}
			changes = append(changes, "refused "+wrong.Field)
			continue
		}
		bad, ok := firstFail(h.Findings())
		if !ok {
			return changes, printable(h)
		}
		if !obey(&spec, bad.Remedy) {
			return changes, fmt.Errorf("%s %v fails and no number is named: %q", bad.Check, bad.Value, bad.Remedy)
		}
		changes = append(changes, bad.Check)
	}
	return changes, fmt.Errorf("after %v a check still fails", changes)
}

func firstFail(found []check.Finding) (check.Finding, bool) {
	for _, f := range found {
		if f.Verdict == check.Fail {
			return f, true
		}
	}
	return check.Finding{}, false
}

// obey does what a remedy says, where it says a number or a lip for a cap.
func obey(spec *bearing.HousingSpec, remedy string) bool {
	if strings.Contains(remedy, "hold the ring by a lip") {
		spec.Cap, spec.Lip = nil, &bearing.Lip{}
		return true
	}
	for _, way := range remedies {
		if m := way.says.FindStringSubmatch(remedy); m != nil {
			way.apply(spec, mustFloat(m[1]))
			return true
		}
	}
	return false
}

// printable proves the meshes of a ring's parts, closed and of the volume of
// their layers, and asks for two beads of wall and for parts that start on the bed
// and hang nowhere over air.
func printable(h *bearing.Housing) error {
	if beads := h.Wall() / h.Spec().Card.BeadWidth; beads < 2 {
		return fmt.Errorf("a wall of %.2f beads", beads)
	}
	for _, p := range h.Parts() {
		m, err := mesh.FromPart(p)
		if err == nil {
			err = m.Verify()
		}
		if err != nil {
			return fmt.Errorf("%s: %w", p.Name(), err)
		}
		if hanging := p.Overhangs(); len(hanging) > 0 {
			return fmt.Errorf("%s needs support: %+v", p.Name(), hanging)
		}
		want := h.Height()
		if p.Name() == "any-cap" {
			want = h.CapThickness()
		}
		if lo, hi := m.Bounds(); lo[2] != 0 || !near(hi[2], want, 0.001) {
			return fmt.Errorf("%s: heights %v to %v, want 0 to %v", p.Name(), lo[2], hi[2], want)
		}
	}
	return nil
}

func mustFloat(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("bearing_test: a remedy's number: " + err.Error())
	}
	return v
}
