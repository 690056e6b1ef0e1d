package bearing

import "pintle/check"

// Rules of a printed ring.
var (
	strainRule = check.Rule{
		Name: "hoop-strain", Symbol: "epsilon", Unit: "%", Sense: check.AtMost,
		Meaning: "How far the plastic round the seat is stretched for good. A steel ring hardly gives, so wall and modulus do not change it.",
		Formula: "100 delta / D; caution above 70 % of what the material bears for good, fail above it",
		Source:  "PLA 0.5 %, PETG and ABS 0.8 %, PA 1.5 %; caution at 70 %: " + check.CommonPractice, Change: "less interference, or a tougher material",
	}
	coldRule = check.Rule{
		Name: "cold-strain", Symbol: "epsilon", Unit: "%", Sense: check.AtMost,
		Meaning: "How far the plastic round the seat is stretched at the lowest temperature: it shrinks more than the steel ring.",
		Formula: "100 (delta + (alpha - 12.5e-6) (20 - T) D) / D; fail above what the material bears for good",
		Source:  "steel: IKO catalogue p. 42; plastics: see the material; limit: " + check.CommonPractice, Change: "less interference, crush ribs, or a tougher material",
	}
	stressRule = check.Rule{
		Name: "hoop-stress", Symbol: "sigma", Unit: "MPa", Sense: check.AtMost,
		Meaning: "Tension round the seat just after pressing in, where a seam or a notch starts a crack.",
		Formula: "p (Do² + D²) / (Do² - D²); fail above half the in-plane strength",
		Source:  lame + "; limit half the in-plane strength: " + check.CommonPractice, Change: "less interference or a thicker wall",
	}
	wallRule = check.Rule{
		Name: "housing-wall", Symbol: "t", Unit: "mm", Sense: check.AtLeast,
		Meaning: "Thickness of plastic outside the seat.",
		Formula: "(Do - seat) / 2 as drawn; limits max(4 beads, 0.12 D, 3 mm) and 2 beads",
		Source:  check.CommonPractice, Change: "a thicker wall",
	}
	supportRule = check.Rule{
		Name: "shoulder-support", Symbol: "Da_max", Unit: "mm", Sense: check.AtMost,
		Meaning: "The hole behind the outer ring must leave enough of its face supported.",
		Formula: "shoulder hole <= Da_max", Source: abutments, Change: "a smaller shoulder hole",
	}
	clearanceRule = check.Rule{
		Name: "shoulder-clearance", Symbol: "Da_min", Unit: "mm", Sense: check.AtLeast,
		Meaning: "The shoulder must not touch the inner ring, the cage or a shield.",
		Formula: "shoulder hole >= Da_min; ball: (2d + D) / 3 for the unknown land",
		Source:  abutments + "; (2d + D) / 3 from memory", Change: "a larger shoulder hole",
	}
	shoulderRule = check.Rule{
		Name: "shoulder-thickness", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: 2, Fail: 0.8},
		Meaning: "Plastic under the outer ring: it takes the load and the force of pressing in.",
		Formula: "height of the shoulder above the bed side", Source: check.CommonPractice, Change: "a thicker shoulder",
	}
	leadInRule = check.Rule{
		Name: "lead-in", Unit: "mm", Sense: check.AtLeast,
		Meaning: "The chamfer at the mouth must be wider than the interference, or the ring shaves the seat or starts askew.",
		Formula: "width >= max(delta + 0.3, 0.5), 30 degrees from the axis", Source: check.CommonPractice, Change: "a thicker wall makes room for it",
	}
	depthRule = check.Rule{
		Name: "seat-depth", Unit: "mm", Sense: check.AtLeast,
		Meaning: "Depth of the seat: a cup's width C for a tapered bearing, not its overall width.",
		Formula: "depth >= 0.8 of the ring's width", Source: "geometry; 0.8: " + check.CommonPractice, Change: "measure the ring that goes into the seat",
	}
	retentionRule = check.Rule{
		Name: "retention", Symbol: "F", Unit: "N", Sense: check.AtLeast, Limit: check.Limit{Caution: 3, Fail: 1},
		Meaning: "Force that pulls the bearing out once the plastic has relaxed. A press fit in plastic alone is not a retention unless the load presses into the seat. Its limits are multiples of the load that pulls out.",
		Formula: "pi D L mu p E_creep / E, mu = 0.15, E_creep / E = 0.3, p at the interference less its standard uncertainty; with a lip the force past the slope on which it meets the ring's corner as well; a clamp 2 F (1 - e^(-mu pi)) E_creep / E, F its screw turned tight by hand: a quarter of the plastic's strength under its head",
		Source:  "friction of a press fit (Shigley, eq. 7-48, as quoted); mu, creep and factors: " + check.CommonPractice, Change: "a cap, a lip or a load that presses into the seat",
	}
	insertionRule = check.Rule{
		Name: "insertion-force", Unit: "N", Sense: check.AtMost, Limit: check.Limit{Caution: 5000, Fail: check.None},
		Meaning: "Force to press the ring in: push on the outer ring only, never through the balls or rollers.",
		Formula: "pi D L mu p, mu = 0.3, interference one standard uncertainty above the wanted one",
		Source:  lame + "; thresholds: " + check.CommonPractice, Change: "less interference",
	}
	leftRule = check.Rule{
		Name: "interference-left", Symbol: "delta", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: 0, Fail: check.None},
		Meaning: "Interference that remains at the highest temperature and after the plastic has taken up moisture.",
		Formula: "delta - (alpha - 12.5e-6) (T - 20) D - moisture D",
		Source:  "steel: IKO catalogue p. 42; plastics: see the material", Change: "a cap, more interference, another material",
	}
	scatterRule = check.Rule{
		Name: "interference-scatter", Symbol: "delta", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "An interference below the scatter of the printer is chance: some rings grip, some drop out.",
		Formula: "delta; caution below one standard uncertainty of the printed bore", Source: check.CommonPractice, Change: "a measured printer card, more interference, or a slip fit with a cap",
	}
	removalRule = check.Rule{
		Name: "removal", Unit: "mm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "Width of the outer ring's face that shows through the shoulder hole, or through knock-out slots, for pushing the bearing out again.",
		Formula: "(shoulder hole - inner diameter of the ring's face) / 2, or what knock-out slots open of the face; 0.4 mm is enough to push on",
		Source:  "ring's inner diameter 0.95 (d + 4D) / 5, factors from memory; 0.4 mm: " + check.CommonPractice, Change: "a larger shoulder hole, up to Da_max",
	}
	edgeRule = check.Rule{
		Name: "edge-distance", Unit: "", Sense: check.AtLeast, Limit: check.Limit{Caution: 1.5, Fail: 1},
		Meaning: "Centre of a flange screw to the edge of the flange, in screw diameters.",
		Formula: "distance / d",
		Source:  "moulded bosses 1.0 to 1.25 d (makers' guides); 1.5 for printed parts: " + check.CommonPractice, Change: "a larger flange",
	}
	formRule = check.Rule{
		Name: "seat-form", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "A printed seat cannot hold the roundness and squareness of a machined one: running accuracy is not promised.",
		Formula: "none: noted for every printed seat", Source: "a maker's catalogue asks for cylindricity IT5/2", Change: "ream or turn the seat",
	}
)
