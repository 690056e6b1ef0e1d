package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"pintle/bearing"
	"pintle/check"
	"pintle/joint"
	"pintle/quantity"
)

func (env *environment) newBearingsCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "bearings [SEARCH]",
		Short: "Look bearings up in the table of dimensions",
		Long: "Look bearings up by designation, kind or sizes in mm or with a unit:\n\n" +
			"  pintle bearings 608\n" +
			"  pintle bearings tapered\n" +
			"  pintle bearings 8x22x7\n" +
			"  pintle bearings about 8 x 22 x 7     where a ruler measured it\n" +
			"  pintle bearings 0.25in x 0.625in\n" +
			"  pintle bearings bore 8               or outside 22, or width 7\n" +
			"  pintle bearings 22                   as bore or outside diameter",
		RunE: func(_ *cobra.Command, args []string) error {
			search := strings.Join(args, " ")
			found, nearest, err := joint.SearchBearings(search)
			var read *quantity.Error
			if errors.As(err, &read) {
				return usage(search+": "+err.Error(), read.Remedy)
			}
			if err != nil {
				return err
			}
			if asJSON {
				env.printJSON(bearingRows(found))
			} else if len(found) > 0 {
				listBearings(&env.out, found)
			}
			if len(found) > 0 {
				return nil
			}
			env.talk.say(fmt.Sprintf("no bearing in the table is %q", search))
			if nearest != nil {
				env.talk.say(fmt.Sprintf("the nearest is %s: %s", nearest.Designation, sizes(*nearest)))
			}
			return errFailed
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON instead of text")
	return cmd
}

func sizes(b bearing.Bearing) string {
	return fmt.Sprintf("%s x %s x %s mm", check.Number(b.Bore), check.Number(b.Outside), check.Number(b.Width))
}

// listBearings writes the rows as a table.
func listBearings(w io.Writer, found []bearing.Bearing) {
	rows := [][]string{{"designation", "kind", "d", "D", "B/T/H", "r_min", "sizes"}}
	for _, b := range found {
		chamfer := "-"
		if b.RMin > 0 {
			chamfer = check.Number(b.RMin)
		}
		rows = append(rows, []string{
			b.Designation, string(b.Kind), check.Number(b.Bore), check.Number(b.Outside), check.Number(b.Width), chamfer, provenance(b),
		})
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintln(w, "in mm; d bore, D outside, B width, T width of a tapered bearing over both rings, H height of a thrust bearing")
}

func provenance(b bearing.Bearing) string {
	if b.Provenance == bearing.Seen {
		return "seen in a public table"
	}
	return "from memory: measure yours"
}

// A bearingRow is what --json says of one bearing, in mm, under the symbols of
// the trade; what is unknown is left out.
type bearingRow struct {
	Designation string       `json:"designation"`
	Kind        bearing.Kind `json:"kind"`
	Bore        float64      `json:"d"`
	Outside     float64      `json:"D"`
	B           float64      `json:"B,omitempty"` // width; of a tapered bearing its cone's
	C           float64      `json:"C,omitempty"` // a tapered bearing's cup
	T           float64      `json:"T,omitempty"` // a tapered bearing over both rings
	H           float64      `json:"H,omitempty"` // a thrust bearing
	RMin        float64      `json:"r_min,omitempty"`
	Provenance  string       `json:"provenance"`
}

func bearingRows(found []bearing.Bearing) []bearingRow {
	rows := make([]bearingRow, len(found))
	for i, b := range found {
		rows[i] = bearingRow{
			Designation: b.Designation, Kind: b.Kind, Bore: b.Bore, Outside: b.Outside, RMin: b.RMin, Provenance: provenance(b),
		}
		switch b.Kind {
		case bearing.Tapered:
			rows[i].T, rows[i].B, rows[i].C = b.Width, b.ConeWidth, b.CupWidth
		case bearing.ThrustBall:
			rows[i].H = b.Width
		default:
			rows[i].B = b.Width
		}
	}
	return rows
}
