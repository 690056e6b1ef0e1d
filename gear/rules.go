package gear

import (
	"math"

	"pintle/check"
)

// Rules returns the checks on gear pairs. Where a default limit depends on
// module or bead width, its rule has none here and Findings computes it; a
// user's own limit replaces it.
func Rules() []check.Rule {
	computed := check.Limit{Caution: check.None, Fail: check.None}
	return []check.Rule{
		{
			Name:    "contact-ratio",
			Symbol:  "epsilon_alpha",
			Meaning: "How many pairs of teeth carry on average. Below 1 the next tooth comes too late.",
			Formula: "path of contact between the tips, cut short where either involute begins (undercut), over the base pitch",
			Source:  check.CommonPractice, Change: "profile shift, more teeth, a centre distance nearer to the reference one",
			Sense: check.AtLeast, Limit: check.Limit{Caution: 1.2, Fail: 1.1},
		},
		{
			Name:   "backlash",
			Symbol: "j_bn", Unit: "mm",
			Meaning: "Room between the flanks, along their normal, with the centres as near as their tolerance lets them come.",
			Formula: "(d_b1 + d_b2)(inv alpha_w' - inv alpha_tight) at a_w minus its tolerance; caution below (2/3)(0.06 + 0.0005 a_w + 0.03 m), fail at 0",
			Source:  "floor: ISO/TR 10064-2, from memory; common practice, no source", Change: "backlash, tolerance of the centre distance",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:   "backlash-climate",
			Symbol: "j_bn", Unit: "mm",
			Meaning: "Room between the flanks at the coldest and the hottest the pair gets: plastic teeth grow more than the base that holds their axes.",
			Formula: "teeth and centre distance grown by their expansions, moisture counted when hottest, centres as near as their tolerance; caution below half the floor of the backlash, fail at 0",
			Source:  "geometry; half the floor: common practice, no source", Change: "backlash, base of the same plastic, tolerance of the centre distance",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "lost-motion",
			Unit:    "deg",
			Meaning: "How far the wheel can be turned by hand while the servo holds still.",
			Formula: "j_bn/r_b2 at a_w plus its tolerance; caution above the limit given with the joint",
			Source:  "geometry; the limit is the builder's", Change: "backlash, tolerance of the centre distance, a larger wheel",
			Sense: check.AtMost, Limit: computed,
		},
		{
			Name:    "readings",
			Unit:    "mm",
			Meaning: "What the caliper read on earlier prints changes on the next one.",
			Formula: "sum over the prints of read less wanted span, each bounded to 0.15 mm; the flanks take half of it each",
			Source:  check.CommonPractice, Change: "read again, print again", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "internal-involute",
			Meaning: "Internal pairs: the wheel's tip must meet the pinion outside its base circle.",
			Formula: "z1/|z2| - 1 + tan alpha_a2/tan alpha_w; fail below 0",
			Source:  "geometry; the formula from memory, recomputed", Change: "shorter tips of the wheel, more teeth on the pinion",
			Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
		},
		{
			Name:    "trochoid",
			Unit:    "rad",
			Meaning: "Internal pairs: the tips must pass each other as the pinion's leave the spaces.",
			Formula: "theta_1 z1/|z2| + inv alpha_w - inv alpha_a2 - theta_2; fail below 0",
			Source:  "SDP/SI, Elements of Metric Gear Technology, p. T-45, eq. 5-6 and 5-7", Change: "a larger difference of teeth (9 and more without shifts), shorter tips",
			Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
		},
		{
			Name:    "trimming",
			Unit:    "rad",
			Meaning: "Internal pairs: whether the pinion can be put in along the line of centres. Where it cannot, it goes in along its axis.",
			Formula: "theta_1 + inv alpha_a1 - inv alpha_w - (|z2|/z1)(theta_2 + inv alpha_a2 - inv alpha_w); caution below 0",
			Source:  "SDP/SI, Elements of Metric Gear Technology, p. T-45, eq. 5-9 and 5-10", Change: "assemble along the axis, or a larger difference of teeth",
			Sense: check.AtLeast, Limit: check.Limit{Caution: 0, Fail: check.None},
		},
		{
			Name:   "tip-thickness",
			Symbol: "s_a", Unit: "mm",
			Meaning: "Width of the tooth at its tip. A pointed tip does not print and breaks.",
			Formula: "d_a (s/d + inv alpha - inv alpha_a); caution below the larger of 0.2 m and 2 beads, fail below 1 bead",
			Source:  "0.2 m from memory; beads: common practice, no source", Change: "profile shift, module, number of teeth",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:   "tip-clearance",
			Symbol: "c", Unit: "mm",
			Meaning: "Room between the tip of the mate and the root of this gear.",
			Formula: "a_w - d_a/2 of the mate - d_f/2; caution below 0.15 m, fail below 0.1 m",
			Source:  check.CommonPractice, Change: "sum of the profile shifts, centre distance, rack clearance",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:   "undercut",
			Symbol: "d_Ff", Unit: "mm",
			Meaning: "How far below the working part of the flank the involute begins, as a length of path. The rack hollows the root of a small gear; beyond the working part it takes away flank.",
			Formula: "path position of the mate's tip less roll length at the form circle; caution where there is undercut, fail where it is negative",
			Source:  "geometry; the limit of 18 teeth at 20 deg: Bevan, Theory of Machines, ex. 4 p. 334", Change: "profile shift, number of teeth",
			Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0},
		},
		{
			Name:    "interference",
			Unit:    "mm",
			Meaning: "Least room between the tip of one gear and the root fillet of the other while they turn.",
			Formula: "the tip's corner followed in the frame of the mate's tooth; a thousandth covers the rounding of the rack's fillet radius",
			Source:  "geometry", Change: "profile shift, number of teeth, rack addendum",
			Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: -0.001}, Final: true,
		},
		{
			Name:    "mesh-by-motion",
			Unit:    "mm",
			Meaning: "Least gap between the outlines of the printed teeth while the pair turns through one pitch at its working centre distance.",
			Formula: "60 positions: turn of the wheel until polygons touch, times its base radius; the least of both flank sides, and of tips against roots; fail at 0",
			Source:  "geometry", Change: "backlash, profile shift, centre distance",
			Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: math.SmallestNonzeroFloat64}, Final: true,
		},
		{
			Name:   "false-contact",
			Symbol: "j_bn", Unit: "mm",
			Meaning: "What the turned outlines have less of backlash than the involutes alone would leave: the teeth meet where they should not, at a root fillet or a tip.",
			Formula: "computed less least measured normal backlash; the grid and the curves together account for 0.0005 mm",
			Source:  "geometry", Change: "profile shift, number of teeth, rack addendum",
			Sense: check.AtMost, Limit: check.Limit{Caution: 0.0005, Fail: 0.002},
		},
		{
			Name:   "tooth-size",
			Symbol: "m", Unit: "mm",
			Meaning: "Module against bead width: smaller teeth are a bead or two wide and come out round.",
			Formula: "caution below 2.5 bead widths",
			Source:  check.CommonPractice, Change: "module, nozzle",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "sliding",
			Symbol:  "zeta_f",
			Meaning: "Specific sliding at the root of the worse gear, as a magnitude: how fast flanks rub there against how fast they roll.",
			Formula: "|1 - rho_mate/(u rho)| at the end of the path; note above 3, caution above 5; only for gears without undercut",
			Source:  check.CommonPractice, Change: "profile shift: have it balanced",
			Sense: check.AtMost, Limit: check.Limit{Caution: 5, Fail: check.None},
		},
		{
			Name:   "span",
			Symbol: "W", Unit: "mm",
			Meaning: "Diameter at which a caliper over k teeth touches. It must lie on the involute, or the reading means nothing.",
			Formula: "sqrt(d_b^2 + W_k^2), between d_Ff and d_a",
			Source:  "geometry", Change: "measure over pins instead", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "hunting",
			Meaning: "Common divisor of the numbers of teeth. Above 1 each tooth meets only some of the mate's and wears into them.",
			Formula: "gcd(z1, z2)", Source: check.CommonPractice, Change: "one tooth more or less",
			Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "face-width",
			Symbol:  "b/m",
			Meaning: "Face width in modules.",
			Formula: "note outside 6 to 12, caution above 15 or below 8 layers",
			Source:  "8 to 12.5 over the diametral pitch: Wentzell, Machine Design, ex. 12.6; the rest common practice, no source",
			Change:  "face width", Sense: check.Informs, Limit: computed,
		},
		{
			Name:   "tooth-bending",
			Symbol: "sigma_F", Unit: "MPa",
			Meaning: "Bending stress at the root of one tooth that carries what the servo gives for long, at its tip. An estimate for a printed part.",
			Formula: "F_t K/(b m Y), F_t from a quarter of the stall torque, K the service factor, Y of the generated tooth; caution above the allowable stress, a fifth of the strength unless given, fail above twice that",
			Source:  "Lewis; allowable stress and factors: common practice, no source", Change: "face width, module, plastic, servo",
			Sense: check.AtMost, Limit: computed,
		},
		{
			Name:   "tooth-stall",
			Symbol: "sigma_F", Unit: "MPa",
			Meaning: "Bending stress at the root of one tooth when the joint is blocked and the servo stalls. An estimate for a printed part.",
			Formula: "F_t/(b m Y) at the stall torque; caution above half the plastic's strength, fail above it",
			Source:  "Lewis; half the strength: common practice, no source", Change: "face width, module, plastic, a soft stop",
			Sense: check.AtMost, Limit: computed,
		},
		{
			Name:   "tooth-creep",
			Symbol: "sigma_F", Unit: "MPa",
			Meaning: "Bending stress of a tooth that carries the load at rest. Plastic yields slowly: such teeth get flats.",
			Formula: "F_t/(b m Y) at the held torque; note above an eighth, caution above half of the allowable stress",
			Source:  check.CommonPractice, Change: "counterbalance, a rest stop, face width", Sense: check.AtMost, Limit: computed,
		},
		{
			Name:    "working-sector",
			Meaning: "How many teeth a part-turn joint uses: they carry everything and wear alone.",
			Formula: "z2 swing/360, rounded up; note where at most half of the teeth are in use",
			Source:  check.CommonPractice, Change: "move the gear on at service, or use a sector", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "sector",
			Meaning: "Teeth of a toothed sector against those that its swing needs.",
			Formula: "swing over pitch angle, plus contact ratio, plus one to spare; fail below",
			Source:  "geometry; one to spare: common practice, no source", Change: "teeth of the sector, swing",
			Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "rim",
			Unit:    "mm",
			Meaning: "Least material between the root circle and a pocket, bore or hole.",
			Formula: "caution below the larger of 2 m and 4 beads, fail below 2 beads",
			Source:  check.CommonPractice, Change: "number of teeth, module, hub or bolt circle", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "hub-wall",
			Unit:    "mm",
			Meaning: "Least wall of the boss around the horn, or of a hub around its bore, its nuts and its screws.",
			Formula: "caution below 4 beads, fail below 2 beads",
			Source:  check.CommonPractice, Change: "number of teeth, hollow, hub diameter", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "spoke",
			Unit:    "mm",
			Meaning: "Least width of a spoke, or of what stands between lightening holes.",
			Formula: "caution below 4 beads, fail below 2 beads",
			Source:  check.CommonPractice, Change: "width or number of spokes or holes", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "web-thickness",
			Unit:    "mm",
			Meaning: "Thickness of the web between hub and rim.",
			Formula: "caution below 6 layers, fail below 3 layers",
			Source:  check.CommonPractice, Change: "web", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "shaft-torque",
			Symbol:  "T",
			Unit:    "N·m",
			Meaning: "Torque that a bore holds on its shaft, by the shape of its flat or key or by the friction of its screw.",
			Formula: "flats: p L w²/12 each; key: p (h - t1) L d/2; set screw: mu F d; clamp: mu F d times the ratio of its levers; p half the strength, mu 0.2, half of F lost to creep; caution below 1.5 times, fail below the servo's stall torque on that shaft",
			Source:  "statics; shares and friction: " + check.CommonPractice, Change: "longer hub, larger screw, a bore that holds by its shape", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "gear-mark",
			Unit:    "mm",
			Meaning: "Letters on a gear: its name, module and number of teeth, and which side lies down.",
			Formula: "cap height of what found room between hub and roots",
			Source:  "raised lettering of printed parts, as collected in testdata/ref; the rest " + check.CommonPractice, Change: "shorter text, larger gear", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "journal-wall",
			Unit:    "mm",
			Meaning: "Least wall of a journal around its hollow or screw: it carries the load and is printed standing.",
			Formula: "caution below 4 beads, fail below 2 beads or a tenth of the bearing's bore",
			Source:  check.CommonPractice, Change: "hollow, retaining screw", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "retain",
			Unit:    "mm",
			Meaning: "What keeps the wheel in its bearing: the screw's thread.",
			Formula: "note where nothing but weight does",
			Source:  check.CommonPractice, Change: "nut, screw or screws at the journal", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "spline-position",
			Unit:    "deg",
			Meaning: "How far the pinion stands from its wanted angle at the servo's neutral pulse: a horn goes onto its spline of N teeth only every 360/N degrees; n like arms or holes leave less.",
			Formula: "wanted less tried angle, to the nearest 360/lcm(N, n); half of that where nothing was tried; note from 0.5 deg up",
			Source:  "geometry", Change: "place on the spline and tooth in mesh, chosen together", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "hole-web",
			Unit:    "mm",
			Meaning: "Least material between neighbouring holes.",
			Formula: "caution below 2 beads, fail below 1 bead",
			Source:  check.CommonPractice, Change: "circle or number of the holes", Sense: check.AtLeast, Limit: computed,
		},
		{
			Name:    "tooth-chamfer",
			Unit:    "mm",
			Meaning: "Bed-side chamfer on the teeth, which takes up the growth of the first layers. It shrinks so that the tip keeps one bead.",
			Formula: "note where it is less than the printer card asks for",
			Source:  check.CommonPractice, Change: "module, tip thickness; trim the first layers with a knife", Sense: check.Informs, Limit: computed,
		},
		{
			Name:    "flank-allowance",
			Unit:    "mm",
			Meaning: "What the card's outside error would still leave on the span after the allowance, which is bounded to 0.1 modules per flank.",
			Formula: "expected less wanted span; caution above 0.01 mm",
			Source:  check.CommonPractice, Change: "calibrate the printer's flow, or use a larger module", Sense: check.AtMost, Limit: check.Limit{Caution: 0.01, Fail: check.None},
		},
	}
}

// rule returns one of the rules.
func rule(name string) check.Rule {
	for _, r := range Rules() {
		if r.Name == name {
			return r
		}
	}
	panic("gear: no rule named " + name)
}
