package gear

import (
	"errors"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/geom"
	"pintle/geom/lettering"
)

// A Mark is what a gear says of itself, in letters that run around the axis.
type Mark struct {
	Text    string  // on the face away from the bed; "" for none
	Under   string  // on the bed side, read from below; "" for none
	Short   string  // said in place of Text or Under, whichever is longer, where that has no room; "" for nothing
	Raised  bool    // Text stands up from the face; else it is sunk
	Sector  bool    // notches in the face at the first and last tooth that work in a part-turn drive
	Height  float64 // cap height, mm; 0 for what fits
	Teeth   float64 // that work; 0 takes what the motion asks for
	Neutral float64 // rad, direction of the mate at rest in the print frame
}

// markDepth is how far letters stand up or in, mm: three usual layers (common
// practice, no source).
const markDepth = 0.6

// capHeights are the cap heights that are tried over the least one.
var capHeights = []float64{1.5, 1.2, 1}

// marked returns the spec with the number of teeth that work on gear i: those
// that pass in the swing and those in contact at its ends.
func (s solution) marked(i int) PairSpec {
	spec := s.spec
	m := spec.body(i).Mark
	if m == nil || !m.Sector || m.Teeth > 0 || spec.Loading.Swing == 0 {
		return spec
	}
	own := *m
	own.Teeth = float64(s.contact.t[1].z)*spec.Loading.Swing/(2*math.Pi) + s.contact.ratio()
	[2]*Body{&spec.Pinion, &spec.Wheel}[i].Mark = &own
	return spec
}

// addMark draws the letters where they fit between what stands around the axis
// and the roots; where nothing that can be read fits, the gear says nothing, and
// a finding tells so.
func (s *structure) addMark(m Mark) error {
	if m.Height != 0 {
		if err := check.InRange("cap height of "+s.part, m.Height, "mm", lettering.LeastCap, 50, "leave it out: it is then what fits"); err != nil {
			return err
		}
	}
	depth := math.Max(math.Round(markDepth/s.card.LayerThickness), 2) * s.card.LayerThickness
	if s.face < 2*depth+s.card.BedChamfer()+2*s.card.LayerThickness {
		s.unmarked = append(s.unmarked, "the gear is too thin for a mark")
		return nil
	}
	if m.Sector && m.Teeth > 0 {
		if err := s.markSector(m, depth); err != nil {
			return err
		}
	}
	if m.Under != "" {
		letters, err := s.setText(m.Under, m, 0, depth, true)
		if err != nil {
			return err
		}
		for _, c := range letters {
			s.letters = append(s.letters, hole{0, depth, c})
		}
	}
	if m.Text != "" {
		z0, z1 := s.face-depth, s.face
		if m.Raised {
			z0, z1 = s.face, s.face+depth
		}
		letters, err := s.setText(m.Text, m, z0, z1, false)
		if err != nil {
			return err
		}
		for _, c := range letters {
			s.letters = append(s.letters, hole{z0, z1, c})
		}
		if m.Raised && len(letters) > 0 {
			s.height = math.Max(s.height, z1)
		}
	}
	return nil
}

// setText returns the letters of a text for the layers from z0 to z1, as raised
// or sunk contours, or none where they do not fit.
func (s *structure) setText(text string, m Mark, z0, z1 float64, under bool) ([]geom.Contour, error) {
	tries := []string{text}
	if longer := max(len(m.Text), len(m.Under)); m.Short != "" && len(text) == longer {
		tries = append(tries, m.Short)
	}
	for _, said := range tries {
		letters, err := s.tryText(said, m, z0, z1, under)
		if err != nil {
			return nil, err
		}
		if letters != nil {
			s.marks = append(s.marks, m.manner(under)+" "+quoted(said))
			return letters, nil
		}
	}
	least := lettering.LeastHeight(s.card.BeadWidth)
	s.unmarked = append(s.unmarked, "no room for "+quoted(text)+" in letters of "+check.Number(math.Round(least*10)/10)+" mm that can be read")
	return nil, nil
}

// manner says how and where letters stand.
func (m Mark) manner(under bool) string {
	switch {
	case under:
		return "bed side"
	case m.Raised:
		return "raised"
	}
	return "sunk"
}

// tryText returns the letters of a text, or none where they do not fit.
func (s *structure) tryText(text string, m Mark, z0, z1 float64, under bool) ([]geom.Contour, error) {
	bead := s.card.BeadWidth
	least := lettering.LeastHeight(bead)
	heights := []float64{m.Height}
	if m.Height == 0 {
		heights = nil
		for _, k := range capHeights {
			heights = append(heights, k*least)
		}
	}
	obstacles, err := s.obstacles(z0, z1)
	if err != nil {
		return nil, err
	}
	for _, cap := range heights {
		flat, width, err := lettering.Text(text, cap, geom.ChordPlain)
		if err != nil {
			var field *check.FieldError
			if errors.As(err, &field) {
				return nil, &check.FieldError{Field: "text of " + s.part, Text: text, Reason: field.Reason, Remedy: field.Remedy}
			}
			return nil, err
		}
		for _, base := range s.baseLines(cap, under) {
			middle := base + cap/2
			if width > 2*math.Pi*middle-4*cap {
				continue
			}
			turn, ok := clear(obstacles, onCircle(flat, width, base, middle, 0, under), 2*bead)
			if !ok {
				continue
			}
			s.values["cap_height"] = cap
			around := onCircle(flat, width, base, middle, turn, under)
			if m.Raised && !under {
				return around, nil
			}
			return lettering.Sunk(around, geom.ChordPlain), nil
		}
	}
	return nil, nil
}

// clear returns the angle nearest +y, of 24, to which letters about +x can be
// turned so that they keep a gap from all obstacles.
func clear(obstacles *geom.Feeler, letters []geom.Contour, gap float64) (float64, bool) {
	region, err := geom.RegionOf(letters)
	if err != nil {
		return 0, false
	}
	feeler := geom.NewFeeler(region)
	for k := range 24 {
		turn := math.Pi/2 + math.Pi/12*float64((k+1)/2)*float64(1-k%2*2)
		if obstacles == nil || obstacles.Gap(feeler, geom.Motion{Turn: turn}).Width >= gap {
			return turn, true
		}
	}
	return 0, false
}

// baseLines returns the radii at which the base line of letters may run, from
// below the roots to above what stands around the axis.
func (s *structure) baseLines(cap float64, under bool) []float64 {
	bead := s.card.BeadWidth
	inner := 0.0
	for _, h := range s.holes { // about the axis; others are gone round
		if onAxis := h.contour.Holds(geom.Point{}); onAxis && (!under || h.z0 == 0) {
			inner = math.Max(inner, farthestPoint(h.contour))
		}
	}
	if !under {
		inner = math.Max(inner, s.hubFoot()/2)
	}
	inner += 2 * bead
	const descender = 0.25 // of a cap height: the tail of a g or p hangs so far below the base line
	lo, hi := inner+descender*cap, s.root/2-2*bead-1.15*cap
	var lines []float64
	const tries = 8
	for k := range tries {
		if r := hi - (hi-lo)*float64(k)/(tries-1); hi >= lo {
			lines = append(lines, r)
		}
	}
	return lines
}

// obstacles returns the holes that letters between two heights must keep from,
// or nil where there is none.
func (s *structure) obstacles(z0, z1 float64) (*geom.Feeler, error) {
	var loops []geom.Contour
	open := append(slices.Clone(s.holes), s.letters...)
	for _, w := range s.slopes {
		if wide := w.top; wide.Area() < 0 { // a countersink, the mouth of a seat, the foot of a web
			open = append(open, hole{w.z0, w.z1, wide})
		}
	}
	for _, h := range open {
		if h.z0 < z1 && h.z1 > z0-2*s.card.LayerThickness {
			loops = append(loops, h.contour.Reversed(geom.ChordPlain))
		}
	}
	if len(loops) == 0 {
		return nil, nil
	}
	var all *geom.Region
	for _, c := range loops {
		r, err := geom.RegionOf([]geom.Contour{c})
		if err != nil {
			return nil, err
		}
		if all == nil {
			all = &r
			continue
		}
		if *all, err = geom.Unite(*all, r, 0.01); err != nil {
			return nil, err
		}
	}
	return geom.NewFeeler(*all), nil
}

// onCircle bends letters of a width around the axis: their base line to the
// radius base, their middle to the angle, true to length at the radius middle.
// Read from below they run the other way.
func onCircle(flat []geom.Contour, width, base, middle, angle float64, under bool) []geom.Contour {
	bent := make([]geom.Contour, len(flat))
	for i, c := range flat {
		bent[i] = c.Map(func(p geom.Point) geom.Point {
			turn := -(p.X - width/2) / middle
			if under {
				turn = -turn
			}
			return geom.Polar(base+p.Y, angle+turn)
		})
		if under {
			bent[i] = bent[i].Reversed(0)
		}
	}
	return bent
}

// notch is the size of a mark beside a tooth, mm (common practice, no source).
const notchLength, notchBeads = 2.0, 2.0

// markSector cuts a short radial notch below the space before the first and
// after the last tooth that works.
func (s *structure) markSector(m Mark, depth float64) error {
	bead := s.card.BeadWidth
	pitch := 2 * math.Pi / float64(s.count)
	half := math.Ceil(m.Teeth/2-1e-9) * pitch // both ends in a space
	if onTooth := math.Abs(math.Remainder(m.Neutral, pitch)) < pitch/4; onTooth {
		half = (math.Ceil((m.Teeth-1)/2-1e-9) + 0.5) * pitch
	}
	if 2*half > 2*math.Pi-2*pitch {
		return nil // every tooth works
	}
	at := s.root/2 - 2*bead - notchLength/2
	if at-notchLength/2 < math.Max(s.middle, s.hubFoot())/2+2*bead {
		s.unmarked = append(s.unmarked, "no room for the notches of the working teeth")
		return nil
	}
	z0, z1 := s.face-depth, s.face
	if m.Under != "" { // beside the name
		z0, z1 = 0, depth
	}
	var notches []hole
	for _, angle := range []float64{m.Neutral - half, m.Neutral + half} {
		notches = append(notches, hole{z0, z1, geom.Window(geom.Polar(at, angle), notchLength, notchBeads*bead, 0, angle, geom.ChordPlain)})
	}
	obstacles, err := s.obstacles(z0, z1)
	if err != nil {
		return err
	}
	for _, n := range notches {
		region, err := geom.RegionOf([]geom.Contour{n.contour.Reversed(geom.ChordPlain)})
		if err != nil {
			return err
		}
		if obstacles != nil && obstacles.Gap(geom.NewFeeler(region), geom.Motion{}).Width < bead {
			s.unmarked = append(s.unmarked, "no room for the notches of the working teeth in the rim")
			return nil
		}
	}
	s.letters = append(s.letters, notches...)
	s.marks = append(s.marks, "notches at the first and last working tooth")
	s.values["working_teeth"], s.values["working_sector_deg"] = m.Teeth, 2*half*180/math.Pi
	return nil
}

func quoted(text string) string { return "“" + text + "”" }

// sayMark tells what a gear could not be marked with.
func (p *Pair) sayMark(i int) (check.Finding, bool) {
	s := p.gears[i].body
	if s.spec.Mark == nil {
		return check.Finding{}, false
	}
	f := rule("gear-mark").Say(check.Pass, s.values["cap_height"], "", "")
	if len(s.unmarked) > 0 {
		f.Verdict, f.Detail = check.Note, strings.Join(s.unmarked, "; ")
		f.Remedy = "use a shorter text, more teeth, or no mark"
	}
	f.Part = p.spec.partName(i)
	return f, true
}
