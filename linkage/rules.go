package linkage

import (
	"pintle/check"
)

// Rules returns the checks of a linkage beside those of its drive.
func Rules() []check.Rule {
	return []check.Rule{
		ruleTransmission, ruleDeadPoint, ruleMonotone, ruleSwing, ruleHornAngle, ruleRatio, ruleSingularity,
		ruleBall, ruleBearingStress, ruleEyeWall, ruleEyeEnd, ruleNetSection, ruleTearOut, ruleBuckling, ruleHornMoment, rulePlay,
		ruleSeat, ruleStep, ruleHold, ruleMotorTorque, ruleMotorMean,
	}
}

var (
	ruleTransmission = check.Rule{
		Name: "transmission-angle", Symbol: "mu", Unit: "deg",
		Meaning: "The angle between pushrod and lever, from 90 deg either way, where it is worst. Near 0 or 180 deg the rod only pulls on the lever's axis: the joint turns stiff, then locks.",
		Formula: "cos mu = (b² + c² - a² - d² + 2 a d cos t2)/(2 b c); a horn, b rod, c lever, d frame, t2 angle of the horn",
		Source:  "40 deg: lecture notes on linkages; 30 deg: " + check.CommonPractice,
		Change:  "set the rod so that the angle strays equally to both sides of 90 deg, shorten the horn, or shorten the travel",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: 40, Fail: 30},
	}
	ruleDeadPoint = check.Rule{
		Name: "dead-point-margin", Unit: "deg",
		Meaning: "How far the horn could go on past the nearer end of its travel before it locks, with pushrod and lever in one line.",
		Formula: "angle to cos t2 = (a² + d² - (b ± c)²)/(2 a d)",
		Source:  check.CommonPractice,
		Change:  "shorten the travel, shorten the horn, or set the rod anew",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 5},
	}
	ruleMonotone = check.Rule{
		Name: "one-way-motion", Symbol: "d lever/d horn",
		Meaning: "The least velocity ratio along the stroke, counted in the direction of most of it. Where it passes 0 the lever turns back while the horn goes on, and a position of the joint has two pulses.",
		Formula: "a sin(t3 - t2)/(c sin(t3 - t4))",
		Source:  "definition",
		Change:  "shorten the travel so that horn and pushrod do not come into one line",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 1e-6},
	}
	ruleSwing = check.Rule{
		Name: "swing-covered", Unit: "deg",
		Meaning: "What the stroke gives the lever beyond the wanted swing.",
		Formula: "swing of the lever over the horn's travel - wanted swing",
		Source:  "definition",
		Change:  "shorten the lever, lengthen the horn, or use more of the servo's travel",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0},
	}
	ruleHornAngle = check.Rule{
		Name: "horn-angle", Symbol: "nu", Unit: "deg",
		Meaning: "The angle between horn and pushrod, from 90 deg either way, where it is worst. Near 0 or 180 deg the horn moves along the rod's own circle: the joint hardly moves, and a stalled servo loads the rod without bound.",
		Formula: "angle A between horn and rod",
		Source:  check.CommonPractice,
		Change:  "shorten the travel, or turn the horn on its spline so that it stands square to the rod in the middle",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: 30, Fail: check.None},
	}
	ruleRatio = check.Rule{
		Name: "velocity-ratio", Symbol: "d lever/d horn",
		Meaning: "How far the joint turns for a small turn of the horn, at its extremes. Far above 1 play and dead band grow at the joint; far below 1 travel is wasted.",
		Formula: "a sin(t3 - t2)/(c sin(t3 - t4))",
		Source:  "0.3 to 3: " + check.CommonPractice,
		Change:  "bring the lengths of horn and lever nearer to each other",
		Sense:   check.Informs,
	}
	ruleSingularity = check.Rule{
		Name: "singularity", Symbol: "sigma_min/sigma_max",
		Meaning: "How near the closed loop is to coming loose, from 1 (rod square to lever) to 0 (a dead point, where it may go on either way).",
		Formula: "ratio of the singular values of the Jacobian of pushrod and lever at their pin: tan(mu/2)",
		Source:  check.CommonPractice,
		Change:  "keep the stroke farther from the dead point",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: 0.05, Fail: check.None},
	}
)
