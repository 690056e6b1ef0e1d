package joint

import (
	"fmt"
	"slices"
	"strings"

	"pintle/bearing"
	"pintle/check"
	"pintle/coupon"
	"pintle/drive"
	"pintle/fit"
	"pintle/gear"
	"pintle/grille"
	"pintle/linkage"
)

// A RuleGroup is the rules of one package.
type RuleGroup struct {
	Name  string
	Rules []check.Rule
}

// RuleGroups lists every rule a joint is judged by, each once, by package.
func RuleGroups() []RuleGroup {
	return []RuleGroup{
		{"gear", gear.Rules()},
		{"bearing", bearing.Rules()},
		{"drive", drive.Rules()},
		{"search", []check.Rule{rulePairChoice}},
		{"linkage", slices.Concat(linkage.Rules(), linkage.LinkRules(), linkage.RodRules())},
		{"grille", grille.Rules()},
		{"fit", fit.Rules()},
		{"coupon", coupon.Rules()},
		{"joint", []check.Rule{
			ruleBed, ruleBeds, ruleMesh, ruleOverhang, ruleMeasured, ruleOverlap, ruleMoving, ruleStanding, ruleCrushing, ruleFaceOverlap,
			rulePlateFloor, rulePlateBridge, rulePlateOverlap, ruleWheelHeld, ruleTable, ruleCentre, ruleHornScrew,
			rulePanelWeb, ruleMark, ruleStopReach, ruleStopShear, ruleUnchecked, ruleServoUnit, ruleMassUnit, ruleInertiaUnit, ruleUnusedAccept,
			ruleOwnSupply, ruleSupplyPeak, ruleSupplyRunning, ruleFuseRunning, ruleFuseWire, ruleWireDrop, ruleStartUp, ruleSheetMaterial, ruleSheetThickness,
		}},
	}
}

// Rules lists the rules of all groups.
func Rules() []check.Rule {
	var rules []check.Rule
	for _, group := range RuleGroups() {
		rules = append(rules, group.Rules...)
	}
	return rules
}

// RuleNamed returns the rule of a name. The error is a *check.FieldError that
// names the nearest, or those that hold the word.
func RuleNamed(name string) (check.Rule, error) {
	var known, holding []string
	for _, rule := range Rules() {
		if rule.Name == name {
			return rule, nil
		}
		known = append(known, rule.Name)
		if len(name) > 2 && strings.Contains(rule.Name, strings.ToLower(name)) {
			holding = append(holding, rule.Name)
		}
	}
	remedy := "pintle explain lists the checks"
	if nearest, ok := Nearest(name, known); ok {
		remedy = fmt.Sprintf("did you mean %q?", nearest)
	} else if len(holding) > 0 {
		remedy = "checks with that word: " + strings.Join(holding, ", ")
	}
	return check.Rule{}, &check.FieldError{
		Field: "check", Text: name, Reason: "is not the name of a check", Remedy: remedy,
	}
}
