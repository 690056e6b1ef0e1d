package bearing

import "pintle/check"

const (
	lame      = "Lamé, thick-walled cylinder in plane stress"
	abutments = "abutment columns of a maker's tapered table; ball: D - 2h, h from the chamfer (0.6, 1 and 1.5 mm recovered from that table, rest from memory)"
)

// Rules of a bearing and its load.
var (
	measuredRule = check.Rule{
		Name: "bearing-measured", Unit: "mm", Sense: check.AtMost, Limit: check.Limit{Caution: 0.2, Fail: check.None},
		Meaning: "How far the measured sizes stray from the row of the named bearing. The measured ones are used.",
		Formula: "largest difference of bore, outside diameter and widths",
		Source:  check.CommonPractice, Change: "measure again, or name the bearing it really is",
	}
	sourceRule = check.Rule{
		Name: "bearing-source", Unit: "mm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "The sizes of this row are recalled, or vary between open and shielded bearings, and nobody has measured the bearing in hand.",
		Formula: "the row's outside diameter",
		Source:  check.CommonPractice, Change: "measure bore, outside diameter and width",
	}
	directionRule = check.Rule{
		Name: "load-direction", Symbol: "F_a", Unit: "N", Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
		Meaning: "A tapered bearing carries axial load one way only, and a radial load pushes its cone out: alone it needs a steady load that keeps cone and cup together. A thrust bearing falls apart under a reversed load.",
		Formula: "F_a - F_r / (2 Y)",
		Source:  "makers' guides for tapered bearings used singly; Y from the table, 0.6 / e where only e is known (from memory), else 0.7 (below the smallest of 16 rows)",
		Change:  "turn the joint so that the weight presses into the seat, or use two bearings against each other",
	}
	tippingRule = check.Rule{
		Name: "tipping", Sense: check.AtMost, Limit: check.Limit{Caution: 0.7, Fail: 1},
		Meaning: "A single bearing under a load beside its axis: above 1 the far side lifts and the part tilts.",
		Formula: "M / (F_a d_m / 4), d_m = (d + D) / 2",
		Source:  "thin ring under a line load stays loaded all round while M <= F_a d_m / 4 (derived); caution at 70 %: common practice, no source",
		Change:  "bring the centre of gravity nearer to the axis, or add a second bearing",
	}
	guideRule = check.Rule{
		Name: "guide-bearing", Unit: "N", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "A single bearing is held together by the load alone. The value is the sideways push at the height of the centre of gravity that starts to lift one side.",
		Formula: "(F_a d_m / 4 - M) / h",
		Source:  "thin ring under a line load (derived)",
		Change:  "add a second guide bearing or bush above the centre of gravity or below the plate",
	}
	staticRule = check.Rule{
		Name: "static-safety", Symbol: "s_0", Sense: check.AtLeast,
		Meaning: "Static safety of the bearing itself. In a figure it is ten times what is needed or more: the printed seat is the limit, not the bearing.",
		Formula: "C_0 / P_0; ball P_0 = max(F_r, 0.6 F_r + 0.5 F_a), tapered max(F_r, 0.5 F_r + Y_0 F_a), thrust F_a; F_a raised by 4 M / d_m; caution below 1 (tapered 1.5), fail below 0.5 (tapered 1)",
		Source:  "a maker's guideline table of s_0 for normal running, read at bearing-centre.com; 4 M / d_m derived",
		Change:  "take a larger bearing",
	}
	radialRule = check.Rule{
		Name: "radial-load", Symbol: "F_r", Unit: "N", Sense: check.AtMost, Limit: check.Limit{Caution: check.None, Fail: 0},
		Meaning: "A thrust ball bearing carries no radial load: its washers slide apart.",
		Formula: "F_r",
		Source:  "makers' text on thrust ball bearings", Change: "add a radial bearing or bush beside it",
	}
	lifeRule = check.Rule{
		Name: "rating-life", Symbol: "L_10h", Unit: "h", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "Hours that nine of ten such bearings run. Told only above 10 turns per minute: below, static safety governs.",
		Formula: "10^6 (C / P)^p / (60 n), p = 3 ball, 10/3 roller; P tapered F_r or 0.4 F_r + Y F_a, ball max(F_r, 0.56 F_r + 2.3 F_a), thrust F_a",
		Source:  "ISO 281 as quoted in course notes; 10 rpm: a maker's glossary; 0.56 and 2.3 from memory", Change: "a larger bearing",
	}
	spanRule = check.Rule{
		Name: "bearing-span", Unit: "mm", Sense: check.AtLeast,
		Meaning: "Distance between the points where two bearings carry: the shorter, the larger the couple on them and the more the part rocks.",
		Formula: "distance of the outer rings' back faces + a_1 + a_2, face to face - a_1 - a_2; at least d_m",
		Source:  "a: a maker's table; its place checked against T / 2 + (d_m / 2) tan(alpha) (derived); d_m: " + check.CommonPractice, Change: "set the bearings farther apart, or back to back",
	}
	endPlayRule = check.Rule{
		Name: "end-play", Unit: "mm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "Two opposed tapered bearings are set by a nut. Printed seats settle under it.",
		Formula: "0.02 to 0.1 mm", Source: check.CommonPractice, Change: "set the nut again after 24 hours",
	}
	shareRule = check.Rule{
		Name: "axial-share", Symbol: "F_a / C_0", Sense: check.AtMost, Limit: check.Limit{Caution: 0.5, Fail: check.None},
		Meaning: "How much of its static rating a deep-groove bearing carries along its axis.",
		Formula: "F_a / C_0; limit 0.5, light bearings (d <= 12 mm) 0.25",
		Source:  "a maker's page on deep-groove bearings, partly visible", Change: "take a larger or a tapered bearing",
	}
)

// Rules lists every check of this package; heat and fit-unmeasured are fit's.
func Rules() []check.Rule {
	return append([]check.Rule{
		measuredRule, sourceRule, directionRule, tippingRule, guideRule, staticRule, radialRule, shareRule, lifeRule, spanRule, endPlayRule, rodRule, rodShoulderRule, rodClearanceRule, flatRule,
	}, ringRules()...)
}
