package joint

import (
	"fmt"
	"math"

	"pintle/export"
	"pintle/geom"
)

// An arrangement is one joint put together: where its parts stand at mid-stroke,
// what else takes up room beside them, and how all of it moves. Clearances, the
// report's "placed", the pictures and the pack of the joint are made from it and
// from nothing else, so that they cannot disagree.
//
// Whatever moves does so in planes of constant z: it turns and shifts in x and y
// by a geom.Motion for each station of the stroke. That is a turn about a fixed
// axis for a wheel, and any rigid motion for a coupler or a rod. To put a design
// in, make an arrangement, then call
//
//	a.stroke = newStroke("servo.nod", anglesDeg)   // stations, in rising order
//	a.moves("rod", motions)                        // one motion for each station
//	a.place(export.Placed{Part: "nod-rod", X: 20, Z: 4, MovesWith: "rod"})
//	a.stand(piece{...}, "rod", contours...)        // what is bought and is in the way
//	b.arrange(a)
//
// A Motion takes a part from where it is placed to where it is at that station;
// the place itself need not be a station's, but it must be one the part has in
// the joint, since pictures show it.
type arrangement struct {
	name   string // names the files that show the joint
	design string // whose findings its clearances are, such as "plate.lamp"
	stroke stroke
	placed []placing
	solids []solid // what is bought, or known by its outline only
	cuts   []solid // the placed parts in pieces, once they are cut

	cure func(passage) (string, bool) // a remedy tried out, or nil
}

// A placing is a printed part in its place, cut into pieces by height.
type placing struct {
	export.Placed
	pieces []piece
}

// A stroke is what a joint runs through, from one end of its swing to the other.
type stroke struct {
	of       string    // what is counted, such as "wheel" or "servo.nod"
	stations []float64 // deg, rising
	motions  map[string][]geom.Motion
}

// newStroke returns a stroke in which nothing moves yet. Stations are in degrees
// and rise; between two of them a body turns about the pole that takes it from
// the one place to the other.
func newStroke(of string, stationsDeg []float64) stroke {
	if len(stationsDeg) < 2 {
		panic("joint: a stroke of " + of + " needs two stations at least")
	}
	return stroke{of: of, stations: stationsDeg, motions: map[string][]geom.Motion{}}
}

// evenStations returns n stations from one angle to another, in degrees.
func evenStations(from, to float64, n int) []float64 {
	stations := make([]float64, n)
	for i := range stations {
		stations[i] = from + (to-from)*float64(i)/float64(n-1)
	}
	return stations
}

// moves gives a motion its name: where it takes what it moves, at each station.
func (a *arrangement) moves(name string, motions []geom.Motion) {
	if len(motions) != len(a.stroke.stations) {
		panic(fmt.Sprintf("joint: %s of %s has %d places for %d stations", name, a.name, len(motions), len(a.stroke.stations)))
	}
	a.stroke.motions[name] = motions
}

// knows panics where something moves with a motion that the stroke does not have.
func (a *arrangement) knows(what, moves string) {
	if _, ok := a.stroke.motions[moves]; !ok && moves != "" {
		panic(fmt.Sprintf("joint: %s moves with %q, which %s does not know", what, moves, a.name))
	}
}

// place puts a printed part into the joint. Its MovesWith is the name of a
// motion, or "" for what stands still. The pieces say what of it touches what;
// a part without pieces is one that touches nothing.
func (a *arrangement) place(p export.Placed, pieces ...piece) {
	a.knows(p.Part, p.MovesWith)
	if len(pieces) == 0 {
		pieces = []piece{whole(p.Part)}
	}
	p.Joint = a.name
	a.placed = append(a.placed, placing{p, pieces})
}

// cured returns a remedy that was tried and cures a passage.
func (a *arrangement) cured(p passage) (string, bool) {
	if a.cure == nil {
		return "", false
	}
	return a.cure(p)
}

// arrange records a joint put together.
func (b *builder) arrange(a *arrangement) {
	b.arrangements = append(b.arrangements, a)
}

// addPlaced reports where everything stands and how it moves.
func (b *builder) addPlaced() {
	for _, a := range b.arrangements {
		for _, p := range a.placed {
			b.report.Placed = append(b.report.Placed, p.Placed)
		}
		for _, name := range sorted(a.stroke.motions) {
			moving := export.Moving{Joint: a.name, Name: name, Of: a.stroke.of}
			for i, m := range a.stroke.motions[name] {
				moving.At = append(moving.At, [4]float64{a.stroke.stations[i], m.Shift.X, m.Shift.Y, m.Turn * 180 / math.Pi})
			}
			b.report.Motions = append(b.report.Motions, moving)
		}
	}
}
