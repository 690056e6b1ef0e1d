package export

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
)

//go:embed report.html
var reportPage string

// Figures are what a page shows beside its tables, by name: drawings as WriteSVG
// makes them and pictures as PNG. They are put into the page as they are, so
// they must be our own. The pictures that Lead names come first and large.
type Figures struct {
	Drawings, Pictures map[string][]byte
	Lead               []string
	Moving             []MovingFigure // shown first of what was followed through a motion
}

// A MovingFigure is a picture as WriteMoving makes it, with what it shows.
type MovingFigure struct {
	Caption string
	SVG     []byte
}

// WriteHTML writes the report as one self-contained page: no script, nothing
// fetched, black on white on paper. It returns an error for a number that is not
// finite, and the writer's error.
func WriteHTML(w io.Writer, r Report, figures Figures) error {
	s, err := newRecordSheet(r.complete(), figures)
	if err != nil {
		return fmt.Errorf("writing the report page: %w", err)
	}
	page, err := template.New("report").Parse(reportPage)
	if err != nil {
		panic("export: the report page does not parse: " + err.Error())
	}
	var text bytes.Buffer
	if err := page.Execute(&text, s); err != nil {
		return fmt.Errorf("writing the report page: %w", err)
	}
	_, err = w.Write(text.Bytes())
	return err
}
