package joint

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"pintle/fit"
)

// maxFileSize in bytes bounds the work on a file that is no joint file; the
// largest sensible one has a few kilobytes.
const maxFileSize = 1 << 20

// Read reads a joint file. Every key must be known, every value usable as what
// it stands for, and every name it refers to must be in the file; whether the
// values make a joint is Design's business. The error is an *InputError, or
// several in the order of the file, joined.
func Read(path string, data []byte) (*File, error) {
	r, top, err := open(path, data)
	if err != nil {
		return nil, err
	}
	f := r.file(top)
	f.Path, f.source = path, r.source
	r.references(f)
	if len(r.errs) > 0 {
		return nil, r.err()
	}
	return f, nil
}

// open parses a document and gives its top table.
func open(path string, data []byte) (*reader, *table, error) {
	refuse := func(line, column int, reason, remedy string) (*reader, *table, error) {
		return nil, nil, &InputError{
			File: path, Line: line, Column: column, Err: errors.New(reason), Remedy: remedy,
		}
	}
	if len(data) > maxFileSize {
		return refuse(0, 0, "is larger than 1 MB", "check that this is a joint file")
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if i := invalidByte(data); i >= 0 {
		return refuse(1+bytes.Count(data[:i], []byte("\n")), 0, "is not a text in UTF-8", "save it as UTF-8")
	}
	var values map[string]any
	if err := toml.Unmarshal(data, &values); err != nil {
		line, column := 0, 0
		var syntax *toml.DecodeError
		if errors.As(err, &syntax) {
			line, column = syntax.Position()
		}
		reason, remedy := refusedSyntax(data, line, strings.TrimPrefix(err.Error(), "toml: "))
		return refuse(line, column, reason, remedy)
	}
	r := &reader{path: path, source: index(data)}
	return r, &table{reader: r, values: values}, nil
}

func invalidByte(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// A reader gathers what is wrong with one file.
type reader struct {
	path   string
	source source
	errs   []*InputError
}

// err returns what was gathered, in the order of the file.
func (r *reader) err() error {
	slices.SortStableFunc(r.errs, func(a, b *InputError) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	if len(r.errs) == 1 {
		return r.errs[0]
	}
	var all []error
	for _, err := range r.errs {
		all = append(all, err)
	}
	return errors.Join(all...)
}

// refuse notes an error at a path's value, or at its key where there is a
// choice and the key itself is wrong.
func (r *reader) refuse(path string, at Position, reason, remedy string) {
	r.errs = append(r.errs, &InputError{
		File: r.path, Line: at.Line, Column: at.Column, Key: path,
		Err: errors.New(reason), Remedy: remedy,
	})
}

// file reads the tables of a joint file.
func (r *reader) file(top *table) *File {
	f := &File{
		Format:    top.text("format"),
		Title:     top.text("title"),
		Printer:   top.table("printer").printer(),
		Place:     top.table("place").place(),
		Materials: named(top.table("material"), materialName, (*table).material),
		Bearings:  named(top.table("bearing"), tableName, (*table).bearing),
		Servos:    named(top.table("servo"), tableName, (*table).servo),
		Loads:     named(top.table("load"), tableName, (*table).load),
		Motions:   named(top.table("motion"), tableName, (*table).motion),
		Gears:     named(top.table("gears"), tableName, (*table).gears),
		Racks:     named(top.table("rack"), tableName, (*table).rackDrive),
		Housings:  named(top.table("housing"), tableName, (*table).housing),
		Plates:    named(top.table("plate"), tableName, (*table).plate),
		Linkages:  named(top.table("linkage"), tableName, (*table).linkage),
		Grilles:   named(top.table("grille"), tableName, (*table).grille),
		Panels:    named(top.table("panel"), tableName, (*table).panel),
		Supply:    top.table("supply").supply(),
		Wires:     named(top.table("wire"), tableName, (*table).wire),
		Coupon:    top.table("coupon").coupon(),
		Sheet:     top.table("sheet").stock(),
		Drawing:   top.table("drawing").papers(),
		Keeper:    top.table("keeper").keeper(),
		Measured:  named(top.table("measured"), tableName, (*table).featureReadings),
		Limits:    top.table("limits").limits(),
		Accept:    top.table("accept").accept(),

		Mechanisms: named(top.table("mechanism"), tableName, (*table).mechanism),
	}
	top.need("format")
	if f.Format != "" && f.Format != Format {
		top.refuse("format", fmt.Sprintf("%q is not a format this version reads", f.Format),
			fmt.Sprintf("write format = %q", Format))
	}
	top.finish()
	return f
}

// references holds the file's names against its tables.
func (r *reader) references(f *File) {
	for name, g := range f.Gears {
		in := "gears." + name
		refer(r, in, "servo", g.Servo, f.Servos)
		refer(r, in, "load", g.Load, f.Loads)
		refer(r, in, "motion", g.Motion, f.Motions)
		refer(r, in, "wheel.bearing", g.Wheel.Bearing, f.Bearings)
		r.material(f, in, "material", g.Material)
		r.material(f, in, "pinion.material", g.Pinion.Material)
		r.material(f, in, "wheel.material", g.Wheel.Material)
	}
	for name, d := range f.Racks {
		refer(r, "rack."+name, "servo", d.Servo, f.Servos)
		r.material(f, "rack."+name, "material", d.Material)
		r.material(f, "rack."+name, "rack_material", d.RackMaterial)
		r.material(f, "rack."+name, "pinion.material", d.Pinion.Material)
	}
	for name, h := range f.Housings {
		refer(r, "housing."+name, "bearing", h.Bearing, f.Bearings)
		refer(r, "housing."+name, "second_bearing", h.SecondBearing, f.Bearings)
		refer(r, "housing."+name, "load", h.Load, f.Loads)
		r.material(f, "housing."+name, "material", h.Material)
	}
	for name, p := range f.Plates {
		refer(r, "plate."+name, "housing", p.Housing, f.Housings)
		refer(r, "plate."+name, "gears", p.Gears, f.Gears)
		r.material(f, "plate."+name, "material", p.Material)
	}
	for name, l := range f.Linkages {
		in := "linkage." + name
		refer(r, in, "servo", l.Servo, f.Servos)
		refer(r, in, "load", l.Load, f.Loads)
		refer(r, in, "motion", l.Motion, f.Motions)
		refer(r, in, "lever.bearing", l.Lever.Bearing, f.Bearings)
		r.material(f, in, "material", l.Material)
	}
	for name, m := range f.Mechanisms {
		r.material(f, "mechanism."+name, "material", m.Material)
	}
	for name, g := range f.Grilles {
		r.material(f, "grille."+name, "material", g.Material)
	}
	for name, p := range f.Panels {
		r.material(f, "panel."+name, "material", p.Material)
	}
	for name, w := range f.Wires {
		for i, servo := range w.Servos {
			refer(r, "wire."+name, element("servos", i), servo, f.Servos)
		}
	}
	if f.Coupon != nil {
		refer(r, "coupon", "bearing", f.Coupon.Bearing, f.Bearings)
		refer(r, "coupon", "servo", f.Coupon.Servo, f.Servos)
		r.material(f, "coupon", "material", f.Coupon.Material)
	}
	r.material(f, "printer", "material", f.Printer.Material)
}

// refer refuses a name that is no table of its kind.
func refer[T any](r *reader, table, key, name string, tables map[string]T) {
	if _, ok := tables[name]; ok || name == "" {
		return
	}
	kind, _, several := strings.Cut(strings.TrimPrefix(key[strings.LastIndex(key, ".")+1:], "second_"), "[")
	if several { // servos[0] names a servo
		kind = strings.TrimSuffix(kind, "s")
	}
	remedy := fmt.Sprintf("add a table [%s.%s]", kind, name)
	if len(tables) > 0 {
		remedy = "the file has " + strings.Join(sorted(tables), ", ")
	}
	at, path := r.source.find(table, key)
	r.refuse(path, at, fmt.Sprintf("there is no [%s.%s]", kind, name), remedy)
}

// material refuses the name of an unknown material.
func (r *reader) material(f *File, table, key, name string) {
	if _, ok := f.Materials[name]; ok || name == "" {
		return
	}
	if _, ok := fit.MaterialNamed(name); ok {
		return
	}
	known := sorted(f.Materials)
	for _, m := range fit.Materials() {
		known = append(known, m.Name)
	}
	at, path := r.source.find(table, key)
	r.refuse(path, at, fmt.Sprintf("the material %q is not known", name),
		fmt.Sprintf("use one of %s, or describe it in [material.%s]", strings.Join(known, ", "), name))
}
