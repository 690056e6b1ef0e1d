package linkage

import (
	"math"

	"pintle/geom"
)

// A Station is one position of the stroke. Angles are degrees; the lever's and
// the rod's go on without jumps from station to station.
type Station struct {
	HornDeg, RodDeg, LeverDeg float64
	HornPin, LeverPin         geom.Point // mm
	Ratio                     float64    // d lever / d horn
	Acceleration              float64    // d² lever / d horn², 1/rad
	RodRate                   float64    // d rod / d horn
	TransmissionDeg           float64    // mu, 0 to 180
	HornAngleDeg              float64    // nu, 0 to 180, between horn and rod
	Singularity               float64    // sigma_min/sigma_max of the closure's Jacobian, 0 to 1
}

// OffSquareDeg returns the smaller of an angle and its supplement, in deg: how
// far a transmission angle is from the nearest dead point.
func OffSquareDeg(angleDeg float64) float64 { return min(angleDeg, 180-angleDeg) }

func station(p Pose) Station {
	cos := math.Abs(math.Cos(p.Transmission))
	return Station{
		HornDeg: p.Horn / deg, RodDeg: p.Rod / deg, LeverDeg: p.Lever / deg,
		HornPin: p.HornPin, LeverPin: p.LeverPin,
		Ratio: p.Ratio, Acceleration: p.Acceleration, RodRate: p.RodRate,
		TransmissionDeg: p.Transmission / deg, HornAngleDeg: p.HornAngle / deg,
		// The rows of J at the lever's pin are the unit vectors of rod and lever.
		Singularity: math.Sqrt((1 - cos) / (1 + cos)),
	}
}

// follow returns the stations of a stroke at even steps of the horn. The linkage
// must close all the way.
func (f FourBar) follow(fromDeg, toDeg float64, count int) []Station {
	stations := make([]Station, count)
	for i := range stations {
		hornDeg := fromDeg + (toDeg-fromDeg)*float64(i)/float64(count-1)
		pose, ok := f.At(hornDeg * deg)
		if !ok {
			panic("linkage: a linkage that closes all the way does not close")
		}
		s := station(pose)
		s.HornDeg = hornDeg
		if i > 0 {
			s.LeverDeg = near(s.LeverDeg, stations[i-1].LeverDeg)
			s.RodDeg = near(s.RodDeg, stations[i-1].RodDeg)
		}
		stations[i] = s
	}
	return stations
}

// near returns the angle in deg, less or more whole turns, nearest to another.
func near(angleDeg, to float64) float64 { return to + math.Remainder(angleDeg-to, 360) }
