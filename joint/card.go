package joint

import (
	"fmt"
	"path/filepath"

	"pintle/fit"
)

// CardFormat is the first line of every printer card this version reads.
const CardFormat = "pintle-card/1"

// A card without name would read as one without measurements.
const noCard = "none"

// ReadCard reads a printer card: what one printer, material and nozzle were
// measured to do. The keys are those of a joint file's [printer], all needed,
// below a line format = "pintle-card/1" and a name; conditions and what was tried
// on the coupon may be left out. The second result is the
// material the card was measured with, or "". Errors are as those of Read.
func ReadCard(path string, data []byte) (fit.Card, string, error) {
	r, top, err := open(path, data)
	if err != nil {
		return fit.Card{}, "", err
	}
	if format := top.text("format"); top.has("format") && format != CardFormat {
		top.refuse("format", fmt.Sprintf("%q is not a card this version reads", format),
			fmt.Sprintf("write format = %q", CardFormat))
	}
	name := top.cardName("name")
	p := top.measurements()
	p.Material = top.text("material")
	p.Nozzle, p.Orientation = top.length("nozzle"), top.word("orientation", fit.Orientations())
	tried := fit.Card{
		SlipClearance: top.length("slip_clearance"), Interference: top.length("interference"), InterferenceAt: top.length("interference_at"),
		Backlash: top.length("backlash"), LeastWeb: top.length("least_web"),
	}
	top.need("format", "name", "bead_width", "layer_thickness", "bore_error", "outside_error",
		"first_layer_growth", "bed")
	top.finish()
	if len(r.errs) > 0 {
		return fit.Card{}, "", r.err()
	}
	card := p.card(name)
	card.Material, card.Nozzle, card.Orientation = p.Material, p.Nozzle, p.Orientation
	card.SlipClearance, card.Interference, card.InterferenceAt = tried.SlipClearance, tried.Interference, tried.InterferenceAt
	card.Backlash, card.LeastWeb = tried.Backlash, tried.LeastWeb
	cardFile := File{Path: path, source: r.source}
	return card, p.Material, cardFile.Blame("", card.Validate())
}

// CardPath returns the card file that the joint file names, seen from where the
// joint file was, or "".
func (f *File) CardPath() string {
	if f.Printer.Card == "" || filepath.IsAbs(f.Printer.Card) {
		return f.Printer.Card
	}
	return filepath.Join(filepath.Dir(f.Path), f.Printer.Card)
}

// Card returns what the file says of the printer, and first guesses for the
// rest: a bead of 0.45, layers of 0.2, growth of 0.2 and a bed of 220 x 220 mm
// (common practice, no source). Its name is "none": nothing was measured on a
// coupon.
func (f *File) Card() fit.Card {
	p := f.Printer
	for _, guess := range []struct {
		key   string
		to    *float64
		value float64
	}{
		{"bead_width", &p.BeadWidth, 0.45},
		{"layer_thickness", &p.LayerThickness, 0.2},
		{"first_layer_growth", &p.FirstLayerGrowth, 0.2},
	} {
		if !f.Has("printer." + guess.key) {
			*guess.to = guess.value
		}
	}
	if !f.Has("printer.bed") {
		p.Bed = [2]float64{220, 220}
	}
	if !f.Has("printer.bore_error") {
		p.Bore = fit.FirstGuessBore
	}
	if !f.Has("printer.outside_error") {
		p.Outside = fit.FirstGuessOutside
	}
	return p.card(noCard)
}

func (p Printer) card(name string) fit.Card {
	return fit.Card{
		Name: name, BeadWidth: p.BeadWidth, LayerThickness: p.LayerThickness,
		Bore: p.Bore, Outside: p.Outside, FirstLayerGrowth: p.FirstLayerGrowth, Bed: p.Bed,
	}
}
