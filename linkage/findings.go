package linkage

import (
	"fmt"
	"math"

	"pintle/check"
)

// Findings returns what was judged: by the rules of Rules that apply, then by
// those of the drive.
func (s *Stroke) Findings() []check.Finding { return s.findings }

// judge judges all, without remedies. Strokes of like specs give like lists.
func (s *Stroke) judge() []check.Finding {
	found := append(s.judgeMotion(), s.judgeForces()...)
	for _, judge := range []func() []check.Finding{s.judgePlay, s.judgeSeat, s.judgeStep, s.judgeHold, s.judgeMotor} {
		found = append(found, judge()...)
	}
	if s.drive == nil {
		found = append(found, s.judgeTravel()...)
	} else {
		for _, f := range s.drive.Judge() {
			if f.Check == "servo-torque" {
				f.Detail = s.atJoint("worst", s.drive.WorstDeg())
			}
			found = append(found, f)
		}
	}
	return found
}

func (s *Stroke) judgeMotion() []check.Finding {
	worst := s.worst(func(st Station) float64 { return OffSquareDeg(st.TransmissionDeg) })
	found := []check.Finding{s.judged(ruleTransmission, OffSquareDeg(worst.TransmissionDeg), s.where(worst))}
	if !s.spec.Turning {
		margin, how := s.DeadPointMargin()
		found = append(found,
			s.judged(ruleDeadPoint, margin, how),
			s.judgeMonotone(), s.judgeSwing())
		worst = s.worst(func(st Station) float64 { return OffSquareDeg(st.HornAngleDeg) })
		least := s.aim(ruleHornAngle)
		angle := s.judged(ruleHornAngle, OffSquareDeg(worst.HornAngleDeg), s.where(worst))
		found = append(found, s.shortened(angle, func(st Station) bool { return OffSquareDeg(st.HornAngleDeg) >= least }), s.judgeRatio())
	}
	worst = s.worst(func(st Station) float64 { return st.Singularity })
	return append(found, s.judged(ruleSingularity, worst.Singularity, s.where(worst)))
}

func (s *Stroke) judged(r check.Rule, value float64, detail string) check.Finding {
	f := r.Judge(value, s.spec.Limits.Of(r), r.Change)
	f.Detail = detail
	return f
}

// worst returns the station at which a measure is least.
func (s *Stroke) worst(measure func(Station) float64) Station {
	worst, least := 0, math.Inf(1)
	for i, st := range s.stations {
		if v := measure(st); v < least {
			worst, least = i, v
		}
	}
	return s.stations[worst]
}

// where names a position.
func (s *Stroke) where(st Station) string {
	return fmt.Sprintf("worst with the horn at %.1f deg, the lever at %.1f deg", st.HornDeg, st.LeverDeg)
}

// atJoint names a place of the joint, in deg from mid-swing.
func (s *Stroke) atJoint(word string, jointDeg float64) string {
	lever := s.middleDeg() + s.rises()*jointDeg
	horn, _ := s.HornFor(lever)
	return fmt.Sprintf("%s with the horn at %.1f deg, the lever at %.1f deg", word, horn, lever)
}

// freeTurn is the margin of a horn that meets no dead point at all.
const freeTurn = 180.0

// DeadPointMargin returns how far in deg the horn could go on past the nearer
// end of its travel before it locks, at most 180, and what locks it.
func (s *Stroke) DeadPointMargin() (marginDeg float64, how string) {
	before, howBefore := s.flat.lockAfter(s.spec.FromDeg, -1)
	after, howAfter := s.flat.lockAfter(s.spec.ToDeg, 1)
	marginDeg, at, how := after-s.spec.ToDeg, after, howAfter
	if s.spec.FromDeg-before < marginDeg {
		marginDeg, at, how = s.spec.FromDeg-before, before, howBefore
	}
	if marginDeg > freeTurn {
		return freeTurn, "the horn meets no dead point"
	}
	return marginDeg, fmt.Sprintf("at %.1f deg of the horn: %s", at, how)
}

func (s *Stroke) judgeMonotone() check.Finding {
	sum := 0.0
	for _, st := range s.stations {
		sum += st.Ratio
	}
	way := math.Copysign(1, sum)
	worst := s.worst(func(st Station) float64 { return way * st.Ratio })
	f := s.judged(ruleMonotone, way*worst.Ratio, s.where(worst))
	return s.shortened(f, func(st Station) bool { return way*st.Ratio > 1e-3 })
}

// shortened gives a finding that does not pass the travel of the horn about the
// middle of the stroke, in whole degrees, in which a condition holds.
func (s *Stroke) shortened(f check.Finding, holds func(Station) bool) check.Finding {
	middle := s.nearest((s.spec.FromDeg + s.spec.ToDeg) / 2)
	if f.Verdict == check.Pass || !holds(s.stations[middle]) {
		return f
	}
	lo, hi := middle, middle
	for lo > 0 && holds(s.stations[lo-1]) {
		lo--
	}
	for hi < len(s.stations)-1 && holds(s.stations[hi+1]) {
		hi++
	}
	from, to := math.Ceil(s.stations[lo].HornDeg), math.Floor(s.stations[hi].HornDeg)
	if from < to {
		f.Remedy = fmt.Sprintf("travel of the horn from %g to %g deg", from, to)
	}
	return f
}

func (s *Stroke) judgeSwing() check.Finding {
	swing := s.SwingDeg()
	wanted := s.spec.SwingDeg
	if wanted == 0 {
		wanted = swing
	}
	return s.judged(ruleSwing, swing-wanted,
		fmt.Sprintf("the stroke turns the lever %.1f deg, wanted are %.1f deg, for which the horn turns %.1f of its %.1f deg",
			swing, wanted, s.used.HornToDeg-s.used.HornFromDeg, s.spec.ToDeg-s.spec.FromDeg))
}

// RatioRange returns the least and the greatest velocity ratio along the stroke,
// without sign.
func (s *Stroke) RatioRange() (least, most float64) {
	least = math.Abs(s.worst(func(st Station) float64 { return math.Abs(st.Ratio) }).Ratio)
	return least, math.Abs(s.worst(func(st Station) float64 { return -math.Abs(st.Ratio) }).Ratio)
}

func (s *Stroke) judgeRatio() check.Finding {
	least, most := s.RatioRange()
	verdict, remedy := check.Pass, ""
	if least < 0.3 || most > 3 {
		verdict, remedy = check.Note, ruleRatio.Change
	}
	return ruleRatio.Say(verdict, most, fmt.Sprintf("from %.3f to %.3f along the stroke", least, most), remedy)
}
