// Package export turns finished designs into the bytes of files: meshes,
// drawings, the report as JSON and as a page, and the table of parts. It opens
// no files and judges no designs.
//
// Equal input gives equal bytes: nothing is dated and maps are sorted.
package export

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"pintle/check"
	"pintle/fit"
)

// Schema names the form of report.json.
const Schema = "pintle-report/1"

// A Report is everything a build or check found. Writing it fills in Schema and
// Verdict.
type Report struct {
	Schema     string                    `json:"schema"`
	Tool       string                    `json:"tool"` // name and version
	Title      string                    `json:"title"`
	Verdict    check.Verdict             `json:"verdict"`
	Inputs     any                       `json:"inputs"`  // as read, with defaults filled in
	Designs    map[string]map[string]any `json:"designs"` // values by symbol, by design
	Files      []string                  `json:"files"`   // of the whole set, by whoever writes it
	Parts      []Part                    `json:"parts"`
	Fits       []fit.Fit                 `json:"fits"`
	Findings   []check.Finding           `json:"findings"`
	Placed     []Placed                  `json:"placed"`
	Motions    []Moving                  `json:"motions,omitempty"`    // how what is placed moves
	Clearances []Clearance               `json:"clearances,omitempty"` // the nearest first, by joint
	Cautions   []Caution                 `json:"cautions"`
	Channels   []Channel                 `json:"channels,omitempty"` // of the controller, one for each servo
	Known      []Known                   `json:"known"`              // where the inputs come from
	Assembly   []string                  `json:"assembly"`           // how the joint goes together, in order
	Shopping   []Supply                  `json:"shopping"`           // what to print, cut and buy
	Rods       []Rod                     `json:"rods,omitempty"`     // to cut from stock
	Curves     []Curve                   `json:"curves,omitempty"`   // what was followed through a motion
}

// A Part is one printed part as it was written.
type Part struct {
	Name      string     `json:"name"`
	Design    string     `json:"design"`
	Files     []string   `json:"files"`
	SizeMM    [3]float64 `json:"size_mm"` // x, y, z of the bounding box
	VolumeMM3 float64    `json:"volume_mm3"`
	MassG     float64    `json:"mass_g"`
	Triangles int        `json:"triangles"`
	Closed    bool       `json:"closed"`
	Material  string     `json:"material"`
	Count     int        `json:"count"`

	Orientation string `json:"orientation,omitempty"`  // on the bed; "" where it is not printed
	BeadsAcross int    `json:"beads_across,omitempty"` // whole beads across the thinnest wall; 0 where there is none
}

// A Rod is a piece to cut from bought stock.
type Rod struct {
	Name     string  `json:"name"`
	Design   string  `json:"design"`
	Stock    string  `json:"stock"`     // such as "threaded rod M3"
	Length   float64 `json:"length_mm"` // to cut
	Diameter float64 `json:"diameter_mm"`
}

// A Placed says where a part stands in the joint, in mm, and with which motion
// it moves.
type Placed struct {
	Joint     string  `json:"joint"` // it stands in: each has a frame of its own
	Part      string  `json:"part"`
	X         float64 `json:"x"`
	Y         float64 `json:"y"`
	Z         float64 `json:"z"`
	TurnDeg   float64 `json:"turn_deg"`
	Flip      bool    `json:"flip"`
	MovesWith string  `json:"moves_with"` // a motion's name, or "" for what stands still
}

// A Moving says how what moves with a name does so through the stroke of its
// joint, from where it is placed.
type Moving struct {
	Joint string       `json:"joint"`
	Name  string       `json:"name"`
	Of    string       `json:"of"` // what the stations count
	At    [][4]float64 `json:"at"` // station in deg; x and y that it is shifted by, mm, after a turn about the frame's origin, deg
}

// A Clearance is how near two bodies of a joint come to each other through its
// stroke, and where, in the joint's frame. Width is below 0 where they overlap.
type Clearance struct {
	Joint  string   `json:"joint"`
	A      string   `json:"a"`
	B      string   `json:"b"`
	Width  float64  `json:"mm"`
	X      float64  `json:"x"`
	Y      float64  `json:"y"`
	Z      float64  `json:"z"`
	Moving bool     `json:"moving"`           // they move against each other
	Of     string   `json:"of,omitempty"`     // what the station counts
	AtDeg  *float64 `json:"at_deg,omitempty"` // station of the stroke, where the distance changes
}

// A Channel is one servo on its controller: the pulses that bring what it moves to
// the low end, the middle and the high end, and must not be left.
type Channel struct {
	Channel      int        `json:"channel"`
	Servo        string     `json:"servo"`
	Moves        string     `json:"moves"` // design, or "" for nothing in the file
	Pulse        [3]float64 `json:"pulse_us"`
	ServoDeg     [3]float64 `json:"servo_deg"`
	Joint        [3]float64 `json:"joint"`
	Unit         string     `json:"unit"`            // of Joint
	StallCurrent float64    `json:"stall_current_a"` // 0 where nobody stated it
}

// A Known says where one input comes from: measured by the user, a table, or a
// guess that stands until somebody measures.
type Known struct {
	What string `json:"what"`
	How  string `json:"how"` // one of Measured, Tabled, Guessed
	Note string `json:"note,omitempty"`
}

// How an input is known.
const (
	Measured = "measured"
	Tabled   = "from a table"
	Guessed  = "guessed"
)

// A Curve is a quantity followed through a motion, to be drawn in the report.
type Curve struct {
	Title string       `json:"title"`
	X     string       `json:"x"` // what the axes show, with units
	Y     string       `json:"y"`
	At    [][2]float64 `json:"at"`
}

// A Caution is one of the texts of check.Cautions, with what made it apply.
type Caution = check.CautionText

// Verdict sums up findings: fail where a failure is not accepted, caution where
// something else stays to be looked at, otherwise pass. Notes count as passes.
func Verdict(findings []check.Finding) check.Verdict {
	verdict := check.Pass
	for _, f := range findings {
		switch {
		case f.Verdict == check.Fail && f.Accepted == "":
			return check.Fail
		case f.Verdict == check.Fail || f.Verdict == check.Caution:
			verdict = check.Caution
		}
	}
	return verdict
}

// complete fills in what follows from the rest, and empty lists for absent
// ones, so that each key has the same kind of value in every report.
func (r Report) complete() Report {
	r.Schema, r.Verdict = Schema, Verdict(r.Findings)
	if r.Inputs == nil {
		r.Inputs = map[string]any{}
	}
	if r.Designs == nil {
		r.Designs = map[string]map[string]any{}
	}
	r.Files = append([]string{}, r.Files...)
	parts := make([]Part, len(r.Parts))
	for i, p := range r.Parts {
		p.Files = append([]string{}, p.Files...)
		parts[i] = p
	}
	r.Parts = parts
	r.Fits = append([]fit.Fit{}, r.Fits...)
	r.Findings = append([]check.Finding{}, r.Findings...)
	r.Placed = append([]Placed{}, r.Placed...)
	r.Cautions = append([]Caution{}, r.Cautions...)
	r.Known = append([]Known{}, r.Known...)
	r.Assembly = append([]string{}, r.Assembly...)
	r.Shopping = append([]Supply{}, r.Shopping...)
	return r
}

// WriteJSON writes the report with its keys in the order of the struct, designs
// sorted by name and every number to 10 significant digits. It returns an error
// for a number that is not finite, and the writer's error.
func WriteJSON(w io.Writer, r Report) error { return WriteValue(w, r.complete()) }

// WriteValue writes any value as JSON, its numbers rounded to 10 significant
// digits, so that it reads the same on every machine.
func WriteValue(w io.Writer, v any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing the report: %w", err)
	}
	_, err := w.Write(roundNumbers(text.Bytes()))
	return err
}

// roundNumbers rounds the numbers of a JSON text to 10 significant digits and
// leaves strings alone.
func roundNumbers(text []byte) []byte {
	out := make([]byte, 0, len(text))
	for i := 0; i < len(text); {
		end := i + 1
		switch c := text[i]; {
		case c == '"':
			for text[end] != '"' {
				if text[end] == '\\' {
					end++
				}
				end++
			}
			end++
			out = append(out, text[i:end]...)
		case c == '-' || c >= '0' && c <= '9':
			for end < len(text) && bytes.IndexByte([]byte("+-.eE0123456789"), text[end]) >= 0 {
				end++
			}
			out = append(out, roundNumber(string(text[i:end]))...)
		default:
			out = append(out, c)
		}
		i = end
	}
	return out
}

func roundNumber(literal string) []byte {
	v, err := strconv.ParseFloat(literal, 64)
	if err == nil {
		v, err = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 10, 64), 64)
	}
	if err != nil {
		panic("export: a number in the report does not parse: " + err.Error())
	}
	if v == 0 {
		return []byte("0") // not -0
	}
	rounded, err := json.Marshal(v)
	if err != nil {
		panic("export: a number in the report does not format: " + err.Error())
	}
	return rounded
}
