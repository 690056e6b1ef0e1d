package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
	"pintle/export"
	"pintle/gear"
	"pintle/geom"
)

// addRacks designs every rack drive, sizes its servo and puts it together.
func (b *builder) addRacks() error {
	for _, name := range sorted(b.file.Racks) {
		if err := b.addRack(name, b.file.Racks[name]); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) addRack(name string, r RackDrive) error {
	at := "rack." + name
	if _, twice := b.file.Gears[name]; twice {
		return b.file.Blame(at, &check.FieldError{
			Field: "name", Text: name, Reason: "is that of a gears table as well: their pinions would share one file",
			Remedy: "rename one of the two tables",
		})
	}
	t := &turning{name: name, at: at, table: r.pair()}
	t.servo = b.file.Servos[r.Servo]
	pair, err := b.pairSpec(t)
	if err != nil {
		return err
	}
	spec := gear.RackSpec{Pair: pair, Travel: r.Travel, Height: r.Height, Screws: r.ScrewCount}
	if r.ScrewCount > 0 {
		if spec.Screw, err = b.screw(at, r.ScrewSize, "M3"); err != nil {
			return err
		}
	}
	radius := r.Module * float64(r.Teeth) / 2
	spec.Pair.Loading.Held, spec.Pair.Loading.Swing = r.Force*radius/1000, 0
	if turn := r.Travel / radius; turn < 2*math.Pi {
		spec.Pair.Loading.Swing = turn
	}
	d, err := gear.NewRackDrive(spec)
	if err != nil {
		return b.file.Blame(at, err)
	}
	b.racks[name] = d
	b.report.Designs[at] = d.Values()
	b.find(at, d.Findings()...)
	b.report.Fits = append(b.report.Fits, d.Fits()...)
	for i, part := range d.Parts() {
		b.addBody(at, part, pair.Loading.Material[i], sheetNotes{}.detailed(d, part.Name()))
	}
	b.arrange(rackArrangement(name, d))
	return b.driveRack(name, r)
}

// driveRack sizes the servo: the rack is a joint about the pinion's own axis,
// its mass a point at the reference circle.
func (b *builder) driveRack(name string, r RackDrive) error {
	servo, known := b.file.Servos[r.Servo]
	at := "rack." + name
	if r.Servo == "" && r.Time == 0 {
		return nil // a drive on its own: nothing of a servo was asked for
	}
	if !known || r.Time == 0 {
		b.find(at, ruleUnchecked.Say(check.Caution, 0, "servo or time is not said: travel, torque and speed of the servo are not checked",
			"add servo = \"NAME\" with its [servo.NAME] table, and time = ... in s"))
		return nil
	}
	d, err := drive.Size(b.rackTask(r, servo))
	if err != nil {
		return b.file.Blame(at, err)
	}
	use := servo.swing(r.Servo, at, r.Travel/(r.Module*float64(r.Teeth)/2)*180/math.Pi, 1, d.PeakShare())
	use.joint, use.unit = [3]float64{-r.Travel / 2, 0, r.Travel / 2}, "mm"
	b.useServo(use)
	b.report.Designs["drive."+name] = d.Values()
	findings := d.Findings()
	for i := range findings {
		if f := &findings[i]; f.Verdict != check.Pass && f.Remedy != "" {
			f.Remedy = b.rackRemedy(r, servo, *f)
		}
	}
	b.find("drive."+name, findings...)
	return nil
}

func (b *builder) rackTask(r RackDrive, s Servo) drive.Spec {
	radius := r.Module * float64(r.Teeth) / 2
	return drive.Spec{
		Servo:  s.measured(),
		Load:   drive.Load{Mass: r.Mass, Inertia: drive.Point(r.Mass, radius), ExtraTorque: r.Force * radius / 1000, Axis: drive.Vertical},
		Motion: drive.Motion{SwingDeg: r.Travel / radius * 180 / math.Pi, Time: r.Time, Law: drive.Law(r.Law), Hold: r.Hold},
		Ratio:  1, Efficiency: drive.DefaultEfficiency, PlayDeg: r.Backlash / radius * 180 / math.Pi, Limits: b.file.Limits,
	}
}

// rackRemedy is the number of the pinion's teeth nearest to the present one with
// which the check passes and no other one of the drive is worse, else what the
// rule says, since a rack has no ratio to change.
func (b *builder) rackRemedy(r RackDrive, s Servo, failed check.Finding) string {
	before := verdicts(nil)
	if d, err := drive.Size(b.rackTask(r, s)); err == nil {
		before = verdicts(d.Findings())
	}
	cures := func(teeth int) bool {
		r.Teeth = teeth
		d, err := drive.Size(b.rackTask(r, s))
		if err != nil {
			return false
		}
		for name, v := range verdicts(d.Findings()) {
			if worse(v, before[name]) || name == failed.Check && v != check.Pass {
				return false
			}
		}
		return true
	}
	for step, now := 1, r.Teeth; step < 120; step++ {
		for _, teeth := range []int{now + step, now - step} {
			if teeth >= 8 && cures(teeth) {
				sign := ">="
				if teeth < now {
					sign = "<="
				}
				return fmt.Sprintf("teeth %s %d", sign, teeth)
			}
		}
	}
	return "shorten the travel, take longer, lighten what moves, or take a stronger servo with more travel"
}

func verdicts(findings []check.Finding) map[string]check.Verdict {
	by := map[string]check.Verdict{}
	for _, f := range findings {
		by[f.Check] = f.Verdict
	}
	return by
}

// worse says whether a verdict is worse than another; what was not judged was
// good.
func worse(v, than check.Verdict) bool {
	rank := map[check.Verdict]int{check.Note: 1, check.Caution: 2, check.Fail: 3}
	return rank[v] > rank[than]
}

// withPinion and withRack name what moves with what in a rack drive.
const (
	withPinion = "pinion"
	withRack   = "rack"
)

// rackArrangement puts the drive together about the pinion's axis: a tooth of it
// stands in a space of the rack, in the middle of the travel.
func rackArrangement(name string, d *gear.RackDrive) *arrangement {
	spec := d.Spec()
	radius := d.Pinion().ReferenceDiameter() / 2
	half := spec.Travel / radius / 2 * 180 / math.Pi
	a := &arrangement{name: name, design: "rack." + name}
	a.stroke = newStroke("pinion", evenStations(-half, half, 2*int(math.Ceil(half/stationStep))+1))
	var pinion, rack []geom.Motion
	for _, deg := range a.stroke.stations {
		turn := deg * math.Pi / 180
		pinion = append(pinion, geom.TurnAbout(geom.Point{}, turn))
		rack = append(rack, geom.Motion{Shift: geom.Point{X: turn * radius}})
	}
	a.moves(withPinion, pinion)
	a.moves(withRack, rack)
	middle := math.Pi * spec.Pair.Module * float64(d.Teeth()/2)
	a.place(export.Placed{Part: name + "-pinion", TurnDeg: -90, MovesWith: withPinion}, whole("pinion", inMesh))
	a.place(export.Placed{Part: name + "-rack", X: -middle, Y: -d.AxisDistance(), MovesWith: withRack}, whole("rack", inMesh))
	return a
}

var _ design = (*gear.RackDrive)(nil)
