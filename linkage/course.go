package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// A Course is a mechanism followed from the start of its drive to an end.
type Course struct {
	mechanism *Mechanism
	to        float64 // deg or mm
	postures  []Posture
	limit     *Limit // where it locks, within or a margin past the end; nil where it does not
	limits    check.Limits
}

// NewCourse follows a mechanism to an end of its drive, in deg for a crank or mm
// for a slider, at a number of stations, 0 for DefaultStations. A mechanism that
// locks on the way is no error but a finding.
func NewCourse(m *Mechanism, to float64, stations int, limits check.Limits) (*Course, error) {
	if stations == 0 {
		stations = DefaultStations
	}
	postures, limit, err := m.Follow(to, stations)
	if err != nil {
		return nil, err
	}
	c := &Course{m, to, postures, limit, limits}
	if way := to - m.spec.Drive.Start; limit == nil && m.drive.kind == crank {
		const beyond = 10 // deg, past every margin asked for
		_, c.limit, err = m.Follow(to+math.Copysign(beyond, way), stations)
	}
	return c, err
}

// Postures returns the positions of the course, as far as it goes.
func (c *Course) Postures() []Posture { return c.postures }

// Limit returns where the mechanism locks, nil where it does not, neither on the
// way nor 10 deg past the end.
func (c *Course) Limit() *Limit { return c.limit }

// Values returns the mechanism's numbers for the report.
func (c *Course) Values() map[string]any {
	count, rank := c.mechanism.Mobility()
	v := map[string]any{
		"mobility_by_count": count, "mobility_by_rank": rank,
		"drive_from": c.mechanism.spec.Drive.Start, "drive_to": c.to, "singularity_min": c.singular().Singularity,
	}
	if c.limit != nil {
		v["locks_at"], v["locks_how"] = c.limit.Drive, c.limit.InLine
	}
	for i, name := range c.mechanism.names {
		if c.mechanism.column[i] < 0 {
			continue
		}
		lo, hi := c.extent(i)
		v["travel_x_"+name], v["travel_y_"+name] = hi.X-lo.X, hi.Y-lo.Y
	}
	return v
}

// extent returns the least and the greatest coordinates of a point on its way.
func (c *Course) extent(point int) (lo, hi geom.Point) {
	lo, hi = c.postures[0].Points[point], c.postures[0].Points[point]
	for _, p := range c.postures {
		q := p.Points[point]
		lo = geom.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = geom.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}

// singular returns the posture nearest to a dead point.
func (c *Course) singular() Posture {
	worst := c.postures[0]
	for _, p := range c.postures {
		if p.Singularity < worst.Singularity {
			worst = p
		}
	}
	return worst
}

// Findings judges how near the mechanism comes to a place where it locks: by
// dead-point-margin for a crank, and by singularity.
func (c *Course) Findings() []check.Finding {
	worst := c.singular()
	singular := ruleSingularity.Judge(worst.Singularity, c.limits.Of(ruleSingularity), ruleSingularity.Change)
	singular.Detail = fmt.Sprintf("worst with the drive at %s", decimal(worst.Drive, 2))
	margin, detail, remedy := freeTurn, "the mechanism does not lock", ""
	if c.limit != nil {
		way := math.Copysign(1, c.to-c.mechanism.spec.Drive.Start)
		margin = way * (c.limit.Drive - c.to)
		detail = fmt.Sprintf("locks with the drive at %s: %s", decimal(c.limit.Drive, 3), c.limit.InLine)
		least := c.limits.Of(ruleDeadPoint).Fail
		end := floor(c.limit.Drive-least, 2)
		if way < 0 {
			end = ceil(c.limit.Drive+least, 2)
		}
		remedy = "end the drive at " + check.Number(end)
	}
	dead := ruleDeadPoint.Judge(margin, c.limits.Of(ruleDeadPoint), remedy)
	dead.Detail = detail
	return []check.Finding{dead, singular}
}

// Plots returns x and y of a named point over the drive, or nothing for a point
// that there is not.
func (c *Course) Plots(point string) []Plot {
	i, err := c.mechanism.point(point)
	if err != nil {
		return nil
	}
	drive := "drive, deg"
	if c.mechanism.drive.kind == feed {
		drive = "drive, mm"
	}
	x := Plot{Title: "way of " + point + " in x", X: drive, Y: "x, mm"}
	y := Plot{Title: "way of " + point + " in y", X: drive, Y: "y, mm"}
	for _, p := range c.postures {
		x.At = append(x.At, [2]float64{p.Drive, p.Points[i].X})
		y.At = append(y.At, [2]float64{p.Drive, p.Points[i].Y})
	}
	return []Plot{x, y}
}

// Moving returns the mechanism in motion, four seconds for one way: bars between
// their pins, plates as bars from their first two points to the others, and the
// ways of all moving points.
func (c *Course) Moving() drawing.Moving {
	m := drawing.Moving{Title: "Mechanism in motion", Seconds: 4}
	m.Caption = fmt.Sprintf("drive from %s to %s", decimal(c.postures[0].Drive, 1), decimal(c.postures[len(c.postures)-1].Drive, 1))
	width := c.mechanism.size / 30
	for _, k := range c.mechanism.all {
		switch k.kind {
		case distance:
			m.Bars = append(m.Bars, c.movingBar(k.link, k.p, k.q, width))
		case plateX:
			m.Bars = append(m.Bars, c.movingBar(k.link, k.p, k.r, width), c.movingBar(k.link, k.q, k.r, width))
		}
	}
	for i := range c.mechanism.names {
		if c.mechanism.column[i] < 0 {
			m.Pivots = append(m.Pivots, c.postures[0].Points[i])
			continue
		}
		var path []geom.Curve
		for j := 1; j < len(c.postures); j++ {
			path = append(path, geom.Line{A: c.postures[j-1].Points[i], B: c.postures[j].Points[i]})
		}
		m.Still = append(m.Still, drawing.Stroke{Kind: drawing.Centre, Curves: path})
	}
	return m
}

// movingBar follows the line from one point of a link to another at even steps of
// the course.
func (c *Course) movingBar(name string, from, to int, width float64) drawing.MovingBar {
	place := func(p Posture) drawing.Place {
		at := p.Points[from]
		return drawing.Place{X: at.X, Y: at.Y, Turn: p.Points[to].Sub(at).Angle()}
	}
	first := c.postures[0].Points
	shape := capsule{to: geom.Point{X: first[to].Sub(first[from]).Len()}, radius: width / 2}
	bar := drawing.MovingBar{Name: name, Shape: drawing.Stroke{Curves: shape.outline(), Closed: true}}
	last := len(c.postures) - 1
	for i := range frames + 1 {
		bar.Places = append(bar.Places, place(c.postures[i*last/frames]))
	}
	unwind(bar.Places)
	bar.Rest = place(c.postures[last/2])
	return bar
}
