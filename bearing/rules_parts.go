package bearing

import "pintle/check"

// Rules of what a ring may have beside its seat.
var (
	smoothRule = check.Rule{
		Name: "interference-smoothed", Symbol: "delta", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: 0, Fail: check.None},
		Meaning: "Interference that remains when the ridges of printed layers are pressed flat.",
		Formula: "delta - 0.4 Rz, Rz = 0.1 mm",
		Source:  "smoothing 0.4 Rz: DIN 7190, later edition, as quoted (the earlier one has 0.8); Rz from Ra 6 to 18 µm of printed walls (additive.tools)",
		Change:  "more interference, crush ribs, or a slip fit with a cap or a lip",
	}
	lostRule = check.Rule{
		Name: "clearance-lost", Unit: "µm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "How much the outer ring's inside shrinks: this is taken from the play between balls and rings.",
		Formula: "2 p D² di / ((D² - di²) E)", Source: lame, Change: "less interference",
	}
	ringCreepRule = check.Rule{
		Name: "ring-creep", Sense: check.AtLeast, Limit: check.Limit{Caution: creepMargin, Fail: check.None},
		Meaning: "How surely the relaxed fit keeps the outer ring from creeping round in its seat with the bearing's own friction.",
		Formula: "(F D / 2) / (mu_b P d / 2), F the friction left after relaxation, mu_b 0.0015 ball, 0.002 tapered",
		Source:  "load rule of makers' fit guides; mu_b from memory; factor 5: " + check.CommonPractice, Change: "more interference, crush ribs, or a cap",
	}
	crushRule = check.Rule{
		Name: "rib-crush", Sense: check.AtMost, Limit: check.Limit{Caution: 0.75, Fail: 0.95},
		Meaning: "Share of their height that crush ribs lose: too much, and the ring jams on the bore itself.",
		Formula: "delta / (2 rib height)", Source: check.CommonPractice, Change: "higher ribs or less interference",
	}
	cornerRule = check.Rule{
		Name: "corner-relief", Symbol: "r_min", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: cornerBlob},
		Meaning: "A printed corner has a fillet: the ring's chamfer, or a groove at the foot of the seat, must clear it, or the ring stands askew.",
		Formula: "r_min + width of the corner relief",
		Source:  "fillet r_a <= r_min: makers' abutment pages; 0.3 mm of a printed corner: " + check.CommonPractice, Change: "a corner relief of 0.4 mm",
	}
	knockOutRule = check.Rule{
		Name: "knock-out", Unit: "mm", Sense: check.AtLeast,
		Meaning: "How far the knock-out slots or holes open the outer ring's face.",
		Formula: "outer end of the opening - inner radius of the face; at least 1 mm, or as much as the face has",
		Source:  check.CommonPractice, Change: "a larger shoulder hole within its limits",
	}
	lipStrainRule = check.Rule{
		Name: "lip-strain", Symbol: "epsilon", Unit: "%", Sense: check.AtMost,
		Meaning: "How far the lip is stretched for a moment while the ring snaps past it.",
		Formula: "100 x 2 x lip height / D; limits 1.5 and 2.5 times the strain the plastic holds for good",
		Source:  check.CommonPractice, Change: "a lower lip, a tougher material, or a cap",
	}
	lipRule = check.Rule{
		Name: "lip-height", Unit: "mm", Sense: check.AtLeast,
		Meaning: "A lip lower than the printer's scatter may not be there at all.",
		Formula: "2 x lip height >= two standard uncertainties of the printed bore", Source: check.CommonPractice, Change: "a higher lip, a measured printer card, or a cap",
	}
	capLandRule = check.Rule{
		Name: "cap-land", Unit: "mm", Sense: check.AtLeast,
		Meaning: "How wide the cap lies on the outer ring's flat face, inside its chamfer.",
		Formula: "(D - opening) / 2 - r_min; the opening clears what turns",
		Source:  check.CommonPractice, Change: "hold the ring by a lip, or by a load that presses into the seat",
	}
	bossRule = check.Rule{
		Name: "boss-edge", Sense: check.AtLeast, Limit: check.Limit{Caution: bossEdge, Fail: 1},
		Meaning: "Centre of a cap's pilot hole to the faces of the wall, in screw diameters.",
		Formula: "wall / (2 d)", Source: "moulded bosses of 2.0 to 2.5 d (makers' guides)", Change: "a thicker wall or smaller screws",
	}
	threadRule = check.Rule{
		Name: "thread-grip", Sense: check.AtLeast, Limit: check.Limit{Caution: 2, Fail: 1},
		Meaning: "Length of thread that a cap's screw cuts in the wall, in screw diameters.",
		Formula: "depth of the pilot hole / d", Source: check.CommonPractice, Change: "a thicker shoulder, or smaller screws",
	}
	washerRule = check.Rule{
		Name: "washers", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0.05},
		Meaning: "The housing washer of a thrust bearing has the larger bore: it stands still and must clear the shaft. Swapped, both washers rub.",
		Formula: "bore of the housing washer - bore of the shaft washer",
		Source:  "makers' text on thrust ball bearings; least difference " + check.CommonPractice, Change: "swap the washers",
	}
	classRule = check.Rule{
		Name: "fit-class", Unit: "µm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "A seat in a tolerance class must be reamed, bored or turned: printing holds a tenth of a millimetre, the class some hundredths. The value is the tightest fit, negative where it grips.",
		Formula: "lower deviation of the bore; loosest: upper deviation + tolerance of the ring",
		Source:  "ISO 286, bearings of normal class in ISO 492", Change: "machine the seat, or print a press fit",
	}
)

func ringRules() []check.Rule {
	return []check.Rule{
		strainRule, stressRule, wallRule, supportRule, clearanceRule, shoulderRule, leadInRule, depthRule,
		retentionRule, insertionRule, leftRule, scatterRule, removalRule, edgeRule, formRule,
		smoothRule, lostRule, ringCreepRule, crushRule, cornerRule, knockOutRule, lipStrainRule, lipRule, capLandRule, bossRule, threadRule, washerRule, classRule,
		clampSlitRule, earRule, screwReachRule, coldRule, readingsRule,
	}
}
