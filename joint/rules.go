package joint

import (
	"pintle/bearing"
	"pintle/check"
	"pintle/drive"
	"pintle/fit"
	"pintle/gear"
	"pintle/grille"
)

// Rules lists every rule a joint is judged by, each once.
func Rules() []check.Rule {
	rules := []check.Rule{
		ruleBed, ruleMesh, ruleOverlap, ruleMoving, ruleStanding, ruleFaceOverlap,
		rulePlateFloor, rulePlateBridge,
	}
	for _, of := range [][]check.Rule{gear.Rules(), bearing.Rules(), drive.Rules(), grille.Rules(), fit.Rules()} {
		rules = append(rules, of...)
	}
	return rules
}
