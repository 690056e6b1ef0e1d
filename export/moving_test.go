package export_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"pintle/drawing"
	"pintle/export"
	"pintle/geom"
)

// arm is one bar of 10 mm that swings a quarter turn about the origin.
func arm() drawing.Moving {
	shape := drawing.Stroke{Closed: true, Curves: []geom.Curve{
		geom.Line{A: geom.Point{Y: -1}, B: geom.Point{X: 10, Y: -1}},
		geom.Line{A: geom.Point{X: 10, Y: -1}, B: geom.Point{X: 10, Y: 1}},
		geom.Line{A: geom.Point{X: 10, Y: 1}, B: geom.Point{Y: 1}},
		geom.Line{A: geom.Point{Y: 1}, B: geom.Point{Y: -1}},
	}}
	return drawing.Moving{
		Title: "arm < & >", Seconds: 1.5, Pivots: []geom.Point{{}},
		Bars: []drawing.MovingBar{{Name: "arm", Shape: shape, Places: []drawing.Place{{}, {Turn: math.Pi / 4}, {Turn: math.Pi / 2}}, Rest: drawing.Place{Turn: math.Pi / 4}}},
	}
}

func moving(t *testing.T, m drawing.Moving) string {
	t.Helper()
	var out bytes.Buffer
	if err := export.WriteMoving(&out, "arm", m); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The picture is whole XML, moves only for readers who have not asked for less
// motion, and stands at rest by its attributes. By hand: the bar reaches from -1 to
// 10 in x and -1 to 10 in y, so that with 8 mm of rim its pivot lies at 9, 18;
// anticlockwise is a negative turn on a page whose y runs down.
func TestMovingStandsStillOnRequest(t *testing.T) {
	text := moving(t, arm())
	for d := xml.NewDecoder(strings.NewReader(text)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	still, wanted, ok := strings.Cut(text, "@media (prefers-reduced-motion:no-preference){")
	if !ok || strings.Contains(still, "animation") || strings.Contains(still, "@keyframes") {
		t.Error("the picture moves whether the reader wants it or not")
	}
	inside, _, _ := strings.Cut(wanted, "@media print")
	for _, want := range []string{
		"animation:moving-arm-0 1.5s linear infinite alternate",
		"0%{transform:translate(9px,18px) rotate(0deg)}", "100%{transform:translate(9px,18px) rotate(-90deg)}",
	} {
		if !strings.Contains(inside, want) {
			t.Errorf("no %q in %s", want, inside)
		}
	}
	if !strings.Contains(text, `transform="translate(9,18) rotate(-45)"`) {
		t.Error("the bar does not stand at rest by its attribute")
	}
	if !strings.Contains(text, "@media (prefers-color-scheme:dark){") {
		t.Error("no colours for the dark")
	}
}

// A full turn starts again instead of going back, and a number that is none is
// refused.
func TestMovingEdges(t *testing.T) {
	m := arm()
	m.Turning = true
	if text := moving(t, m); !strings.Contains(text, "infinite normal") {
		t.Error("a full turn goes back")
	}
	m.Bars[0].Places[1].Turn = math.NaN()
	if err := export.WriteMoving(io.Discard, "arm", m); err == nil {
		t.Error("NaN is written")
	}
	m = arm()
	m.Seconds = 0
	if err := export.WriteMoving(io.Discard, "arm", m); err == nil {
		t.Error("no time is written")
	}
}
