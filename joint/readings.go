package joint

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"pintle/check"
	"pintle/coupon"
	"pintle/fit"
	"pintle/quantity"
)

// Calibrate reads a file of readings and fits a printer card to them. The error
// is an *InputError with the place of what cannot be used: no key, no number, or
// a number that no caliper can have shown there.
func Calibrate(path string, data []byte) (fit.Calibration, error) {
	r, top, err := open(path, data)
	if err != nil {
		return fit.Calibration{}, err
	}
	readings := top.readingsOfCoupon()
	top.finish()
	if len(r.errs) > 0 {
		return fit.Calibration{}, r.err()
	}
	in := File{Path: path, source: r.source}
	if err := readings.Card.Validate(); err != nil {
		return fit.Calibration{}, in.Blame("", err)
	}
	c, err := fit.Calibrate(readings)
	if err != nil {
		var field *check.FieldError
		if errors.As(err, &field) && !strings.HasPrefix(field.Field, "number of ") && field.Field != "kerf" && r.source.has("tried") {
			return c, in.Blame("tried", err)
		}
		return c, in.Blame("", err)
	}
	return c, nil
}

// readingsOfCoupon reads the whole document.
func (t *table) readingsOfCoupon() fit.Readings {
	if format := t.text("format"); t.has("format") && format != coupon.ReadingsFormat {
		t.refuse("format", fmt.Sprintf("%q is no file of readings that this version reads", format), fmt.Sprintf("write format = %q", coupon.ReadingsFormat))
	}
	guess := File{source: source{}}
	card := guess.Card()
	card.Name, card.Material = t.cardName("name"), t.text("material")
	card.Nozzle, card.Orientation = t.length("nozzle"), fit.Upright
	if _, ok := t.value("orientation"); ok {
		card.Orientation = t.word("orientation", fit.Orientations())
	}
	for key, to := range map[string]*float64{"bead_width": &card.BeadWidth, "layer_thickness": &card.LayerThickness} {
		if _, ok := t.value(key); ok {
			*to = t.length(key)
		}
	}
	if t.has("bed") {
		t.lengths("bed", card.Bed[:])
	}
	t.value("bed")
	revision := t.text("revision")
	t.need("format", "name", "material", "bead_width", "layer_thickness")

	flat := t.length("nib_flat")
	r := fit.Readings{
		Card:       card,
		Bores:      t.features("bores", "bore", flat),
		CrossHoles: t.features("cross_holes", "bore", flat),
		Flipped:    t.features("flipped", "bore", flat),
		Revision:   revision,
		Kerf:       t.table("kerf").kerf(flat),
	}
	block, above := t.table("block").block()
	r.Outsides = t.features("outsides", "outside", 0, above...)
	r.Bed, r.Above = block.bed, block.above
	t.table("tried").tried(&r)
	return r
}

// cardName reads the name of a card.
func (t *table) cardName(key string) string {
	name := t.text(key)
	if reason := materialName(name); name == noCard || t.has(key) && reason != "" {
		t.refuse(key, "cannot name a card", "name printer and material in a few words")
	}
	return name
}

// features reads rows of [drawn, reading, reading, ...]; a reading of 0 was not
// taken. The flat of the caliper's inside nibs makes a bore read low: it lies on
// a chord, so that D = sqrt(reading² + flat²). More features, already read, are
// compared with the rows and returned behind them.
func (t *table) features(key, what string, flat float64, more ...fit.Feature) []fit.Feature {
	var all []fit.Feature
	var places [][]string // of each reading
	v, ok := t.value(key)
	rows, isList := v.([]any)
	if ok && !isList {
		t.refuse(key, "must be a list of rows, not "+describe(v), "write [[drawn, reading, reading], ...]")
	}
	for i, row := range rows {
		at := element(key, i)
		cells, ok := row.([]any)
		if !ok || len(cells) < 2 {
			t.refuse(at, "must be a row of a drawn size and its readings, not "+describe(row), "write [drawn, reading, reading]")
			continue
		}
		f := fit.Feature{Drawn: t.number(element(at, 0), cells[0], quantity.Length)}
		if !(f.Drawn > 0 && f.Drawn <= 1000) {
			t.refuse(element(at, 0), "must be a drawn size from above 0 to 1000 mm", "write the size that the form gives for this mark")
			continue
		}
		var place []string
		for j, cell := range cells[1:] {
			if read := t.number(element(at, j+1), cell, quantity.Length); read != 0 {
				f.Read = append(f.Read, read)
				place = append(place, element(at, j+1))
			}
		}
		if len(f.Read) > 0 {
			all, places = append(all, f), append(places, place)
		}
	}
	if i, j, err := fit.Check(what, append(all, more...)); err != nil && i < len(places) {
		t.refuseError(places[i][j], err)
	}
	for i := range all {
		for j, read := range all[i].Read {
			all[i].Read[j] = math.Hypot(read, flat)
		}
	}
	return append(all, more...)
}

// refuseError notes an error of a quantity at the place of a value.
func (t *table) refuseError(path string, err error) {
	at, _ := t.source.find("", join(t.at, path))
	t.reader.refuse(join(t.at, path), at, reasonOf(err), remedyOfInput(err))
}

// blockReadings are those of the plain block.
type blockReadings struct{ bed, above []float64 }

// block reads the block; above the first layers it is an outside like others.
func (t *table) block() (blockReadings, []fit.Feature) {
	var b blockReadings
	if t == nil {
		return b, nil
	}
	drawn := t.length("drawn")
	t.need("drawn", "bed", "above")
	for _, q := range []struct {
		key string
		to  *[]float64
	}{{"bed", &b.bed}, {"above", &b.above}} {
		var places []string
		for i, read := range t.anyLengths(q.key) {
			if read != 0 {
				*q.to, places = append(*q.to, read), append(places, element(q.key, i))
			}
		}
		if _, j, err := fit.Check("block", []fit.Feature{{Drawn: drawn, Read: *q.to}}); err != nil {
			t.refuseError(places[j], err)
		}
	}
	t.finish()
	if len(b.above) == 0 {
		return b, nil
	}
	return b, []fit.Feature{{Drawn: drawn, Read: b.above}}
}

// kerf reads the pieces that were cut from sheet. The window is read with the
// inside nibs.
func (t *table) kerf(flat float64) fit.KerfReadings {
	if t == nil {
		return fit.KerfReadings{}
	}
	k := fit.KerfReadings{
		Thickness: t.length("thickness"), Count: coupon.Bars, Together: coupon.BarsTogether, WindowOf: coupon.Window,
	}
	t.need("thickness")
	for _, q := range []struct {
		key   string
		drawn float64
		to    *[]float64
	}{{"bars", k.Together, &k.Bars}, {"window", k.WindowOf, &k.Window}} {
		if !t.has(q.key) {
			t.value(q.key)
			continue
		}
		var places []string
		for i, read := range t.anyLengths(q.key) {
			if read != 0 {
				*q.to, places = append(*q.to, read), append(places, element(q.key, i))
			}
		}
		if _, j, err := fit.Check("cut pieces", []fit.Feature{{Drawn: q.drawn, Read: *q.to}}); err != nil && q.key == "window" {
			t.refuseError(places[j], err)
		}
	}
	t.finish()
	return k
}

// tried reads what was tried by hand.
func (t *table) tried(r *fit.Readings) {
	if t == nil {
		return
	}
	r.Bearing = t.length("bearing")
	for _, q := range []struct {
		key string
		to  *fit.Tried
	}{
		{"by_hand", &r.ByHand},
		{"press", &r.Press},
		{"cracks", &r.Cracks},
		{"horn", &r.Horn},
		{"free", &r.Free},
		{"rattles", &r.Rattles},
		{"slot", &r.Slot},
	} {
		*q.to = fit.Tried{At: t.length(q.key), Found: t.has(q.key)}
	}
	r.LeastWeb = t.length("least_web")
	module := t.length("module")
	for i, v := range t.list("teeth", 2) {
		r.PitchDiameters[i] = module * float64(t.whole(element("teeth", i), v))
	}
	r.PressureAngle = DefaultPressureAngleDeg * math.Pi / 180
	if _, ok := t.value("pressure_angle"); ok {
		r.PressureAngle = t.quantity("pressure_angle", quantity.Angle) * math.Pi / 180
	}
	if t.has("by_hand") || t.has("press") || t.has("cracks") {
		t.need("bearing")
	}
	if t.has("free") || t.has("rattles") {
		t.need("module", "teeth")
	}
	t.finish()
}
