package joint

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
	"pintle/drive"
)

var (
	ruleSupplyPeak = check.Rule{
		Name: "supply-peak", Symbol: "I_stall", Unit: "A",
		Meaning: "What the servos draw together when all of them start at once: each its stall current for a moment. A supply that gives less sags, and controllers reset.",
		Formula: "sum of the stated stall currents; against what the supply gives for a moment",
		Source:  "a servo that starts stands still, and draws its stall current (direct-current motor); the rest common practice, no source",
		Change:  "take a stronger supply, or let the servos start one after the other",
		Sense:   check.AtMost,
	}
	ruleSupplyRunning = check.Rule{
		Name: "supply-running", Symbol: "I", Unit: "A",
		Meaning: "What the servos draw together at the highest torque of their moves. A supply that gives less cannot feed them.",
		Formula: "sum of I_idle + (I_stall - I_idle) T / T_stall; stall where a torque is not known",
		Source:  "straight line of a direct-current motor (derived)", Change: "take a stronger supply",
		Sense: check.AtMost,
	}
	ruleFuseRunning = check.Rule{
		Name: "fuse-running", Symbol: "I/I_f",
		Meaning: "What the servos draw together while they move, as a share of the fuse's rating: near it a fuse ages and blows in the middle of a show.",
		Formula: "sum of the running currents / rating of the fuse",
		Source:  check.CommonPractice, Change: "take the next larger fuse that still protects the wire",
		Sense: check.AtMost, Limit: check.Limit{Caution: 0.75, Fail: 1},
	}
	ruleFuseWire = check.Rule{
		Name: "fuse-wire", Symbol: "I_f", Unit: "A",
		Meaning: "The fuse must blow before the wire behind it overheats.",
		Formula: "rating of the fuse against the current that the wire's maker rates it for",
		Source:  "what a fuse is for; the wire's rating is its maker's", Change: "take a smaller fuse or a thicker wire",
		Sense: check.AtMost,
	}
	ruleWireDrop = check.Rule{
		Name: "wire-drop", Symbol: "u", Unit: "%",
		Meaning: "The voltage that the wire loses, out and back, while all servos on it start: torque and speed sink with it, and their electronics may reset.",
		Formula: "2 l R' I / U, R' = rho (1 + 0.00393 (T - 20)) / A of copper at the hottest place",
		Source:  "rho = 1/58 ohm mm2/m: IEC 60028, from memory; limits common practice, no source",
		Change:  "use a thicker or a shorter wire",
		Sense:   check.AtMost, Limit: check.Limit{Caution: 5, Fail: 10},
	}
	ruleOwnSupply = check.Rule{
		Name: "servo-supply", Symbol: "I_stall", Unit: "A",
		Meaning: "What a supply of the servos' own must give.",
		Formula: "sum of the stated stall currents for a moment, of the running currents for as long as they move",
		Source:  check.CommonPractice, Change: "put it into [supply] with the figures on its label, and the wire into [wire.NAME]",
		Sense: check.Informs,
	}
)

// A power is what the servos of a file draw together.
type power struct {
	stall, running float64  // A
	unknown        []string // servos whose stall current nobody stated
}

// draw adds up what servos draw; all of them where none is named.
func (b *builder) draw(servos []string) power {
	if len(servos) == 0 {
		servos = sorted(b.file.Servos)
	}
	var p power
	for _, name := range servos {
		s := b.file.Servos[name]
		if s.StallCurrent == 0 {
			p.unknown = append(p.unknown, name)
			continue
		}
		share := 0.0
		for _, u := range b.usesOf(name) {
			share = max(share, u.share)
		}
		if len(b.usesOf(name)) == 0 {
			share = 1
		}
		p.stall += s.StallCurrent
		p.running += drive.Current(share, s.StallCurrent, s.IdleCurrent)
	}
	return p
}

// addPower reports what the servos draw, and judges supply, fuse and wires by
// what the builder stated of them.
func (b *builder) addPower() error {
	if len(b.file.Servos) == 0 {
		return nil
	}
	if err := b.validatePower(); err != nil {
		return err
	}
	all := b.draw(nil)
	if all.stall == 0 && b.file.Supply == (Supply{}) && len(b.file.Wires) == 0 {
		return nil // nothing was said of currents, nothing asked
	}
	if len(all.unknown) > 0 {
		b.find("supply", ruleUnchecked.Say(check.Caution, 0,
			"the stall current is not stated of servo "+strings.Join(all.unknown, ", ")+": supply, fuse and wires are judged without it",
			"add stall_current = ... in A, from its leaflet or measured with the arm held for a moment at the voltage it runs on"))
	}
	b.report.Designs["supply"] = b.supplyValues(all)
	b.judgeSupply(all)
	return b.judgeWires()
}

func (b *builder) validatePower() error {
	s := b.file.Supply
	if s != (Supply{}) {
		for _, q := range []struct {
			field, unit string
			value, lo   float64
		}{{"supply voltage", "V", s.Voltage, 1}, {"supply current", "A", s.Current, 0.01}, {"peak current of the supply", "A", s.Peak, s.Current}, {"fuse rating", "A", s.Fuse, 0}} {
			if err := check.InRange(q.field, q.value, q.unit, q.lo, 100, "read the label of the supply or fuse"); err != nil {
				return b.file.Blame("supply", err)
			}
		}
	}
	for _, name := range sorted(b.file.Servos) {
		v := b.file.Servos[name]
		if err := check.InRange("stall current", v.StallCurrent, "A", 0, 100, "\"2.5A\" and \"850mA\" are understood"); err != nil {
			return b.file.Blame("servo."+name, err)
		}
		if err := check.InRange("idle current", v.IdleCurrent, "A", 0, v.StallCurrent, "it is drawn without load, and less than at stall"); err != nil {
			return b.file.Blame("servo."+name, err)
		}
	}
	for _, name := range sorted(b.file.Wires) {
		w := b.file.Wires[name]
		if err := w.drawn().Validate(); err != nil {
			return b.file.Blame("wire."+name, err)
		}
		if s.Voltage == 0 {
			return b.file.Blame("wire."+name, &check.FieldError{
				Field: "wire", Text: name, Reason: "has no supply at its end", Remedy: "add a [supply] table with voltage and current",
			})
		}
	}
	return nil
}

func (w Wire) drawn() drive.Wire {
	return drive.Wire{Length: w.Length, Section: w.Section, Resistance: w.Resistance}
}

func (b *builder) supplyValues(all power) map[string]any {
	values := map[string]any{"stall_current_sum": all.stall, "running_current_sum": all.running, "servos": len(b.file.Servos)}
	if s := b.file.Supply; s != (Supply{}) {
		values["voltage"], values["current"], values["peak_current"], values["fuse"] = s.Voltage, s.Current, s.Peak, s.Fuse
	}
	return values
}

func (b *builder) judgeSupply(all power) {
	s := b.file.Supply
	verdict := check.Note
	if s != (Supply{}) {
		verdict = check.Pass
	}
	b.find("supply", ruleOwnSupply.Say(verdict, all.stall, fmt.Sprintf(
		"%.1f A for a moment, when all servos start at once, and %.1f A while they move; servos on a supply of their own, its minus joined to the controller's ground, a capacitor near the servos",
		all.stall, all.running), ruleOwnSupply.Change))
	if s == (Supply{}) {
		return
	}
	peak := ruleSupplyPeak
	peak.Limit = check.Limit{Caution: s.Peak, Fail: check.None}
	b.find("supply", peak.Judge(all.stall, b.file.Limits.Of(peak),
		fmt.Sprintf("a supply of %.1f A for a moment, or servos that start one after the other", roundUp(all.stall, 0.1))))
	running := ruleSupplyRunning
	running.Limit = check.Limit{Caution: 0.8 * s.Current, Fail: s.Current}
	b.find("supply", running.Judge(all.running, b.file.Limits.Of(running),
		fmt.Sprintf("a supply of %.1f A", roundUp(all.running/0.8, 0.1))))
	if s.Fuse > 0 {
		limit := b.file.Limits.Of(ruleFuseRunning)
		b.find("supply", ruleFuseRunning.Judge(all.running/s.Fuse, limit, fmt.Sprintf("a fuse of %.1f A or more", roundUp(all.running/limit.Caution, 0.1))))
	}
}

// judgeWires judges each wire with all servos on it starting at once.
func (b *builder) judgeWires() error {
	hottest := max(b.file.Place.Hottest, 20)
	for _, name := range sorted(b.file.Wires) {
		w, s, at := b.file.Wires[name], b.file.Supply, "wire."+name
		draws := b.draw(w.Servos)
		drop := w.drawn().Drop(draws.stall, hottest)
		b.report.Designs[at] = map[string]any{
			"loop_ohm": w.drawn().Loop(hottest), "stall_current_sum": draws.stall, "running_current_sum": draws.running,
			"drop_start_v": drop, "drop_running_v": w.drawn().Drop(draws.running, hottest), "voltage_at_servo_start": s.Voltage - drop,
		}
		limit := b.file.Limits.Of(ruleWireDrop)
		f := ruleWireDrop.Judge(100*drop/s.Voltage, limit, fmt.Sprintf("section >= %.2f mm²",
			roundUp(w.drawn().SectionFor(draws.stall, limit.Caution/100*s.Voltage, hottest), 0.01)))
		f.Detail = fmt.Sprintf("%.2f V of %s V are left at the servos while %.1f A flow", s.Voltage-drop, check.Number(s.Voltage), draws.stall)
		b.find(at, f)
		if w.Current > 0 {
			rule := ruleFuseWire
			rule.Limit = check.Limit{Caution: check.None, Fail: w.Current}
			fuse, remedy := s.Fuse, fmt.Sprintf("a fuse of %s A or less", check.Number(w.Current))
			if fuse == 0 { // then only the supply ends a short
				fuse = s.Peak
			}
			b.find(at, rule.Judge(fuse, b.file.Limits.Of(rule), remedy))
		}
	}
	return nil
}

func roundUp(v, step float64) float64 { return math.Ceil(v/step-1e-9) * step }
