package main

import "pintle/fit"

// calibration is what --json says of a printer card and its readings, in mm.
type calibration struct {
	Name             string       `json:"name"`
	Bore             fit.Error    `json:"bore_error"`
	Outside          fit.Error    `json:"outside_error"`
	FirstLayerGrowth float64      `json:"first_layer_growth"`
	SlipClearance    float64      `json:"slip_clearance,omitzero"`
	Interference     float64      `json:"interference,omitzero"`
	InterferenceAt   float64      `json:"interference_at,omitzero"`
	Backlash         float64      `json:"backlash,omitzero"`
	LeastWeb         float64      `json:"least_web,omitzero"`
	Kerf             float64      `json:"kerf,omitzero"` // of a cutter, for [sheet]
	Revision         string       `json:"revision,omitzero"`
	Bores            []readingRow `json:"bores"`
	Outsides         []readingRow `json:"outsides"`
	Supported        []string     `json:"supported"`
	Missing          []string     `json:"missing"`
}

type readingRow struct {
	Drawn    float64   `json:"drawn"`
	Read     []float64 `json:"read"`
	Off      float64   `json:"off"`
	Fitted   float64   `json:"fitted"`
	Residual float64   `json:"residual"`
}

func newCalibration(c fit.Calibration) calibration {
	card := c.Card
	return calibration{
		Name: card.Name, Bore: card.Bore, Outside: card.Outside, FirstLayerGrowth: card.FirstLayerGrowth,
		SlipClearance: card.SlipClearance, Interference: card.Interference, InterferenceAt: card.InterferenceAt,
		Backlash: card.Backlash, LeastWeb: card.LeastWeb, Kerf: c.Kerf, Revision: c.Revision, Bores: readingRows(c.Bores), Outsides: readingRows(c.Outsides),
		Supported: append([]string{}, c.Supported...), Missing: append([]string{}, c.Missing...),
	}
}

func readingRows(l *fit.Line) []readingRow {
	rows := []readingRow{}
	if l == nil {
		return rows
	}
	for i, f := range l.Features {
		rows = append(rows, readingRow{f.Drawn, f.Read, f.Off(), l.At(f.Drawn), l.Residuals[i]})
	}
	return rows
}
