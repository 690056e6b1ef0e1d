package gear

import (
	"slices"
	"strings"
	"testing"

	"pintle/check"
)

// The drawing names the marks that are made and no others; the finding names all
// that found no room.
func TestMarksSaid(t *testing.T) {
	named := Mark{Text: "this side down", Under: "lamp m1 z60"}
	tall := named
	tall.Height = 14 // too tall for either text on a wheel of 60 mm
	short := tall
	short.Short, short.Text = "z60", ""
	for _, q := range []struct {
		name    string
		body    Body
		marks   string
		missing int
	}{
		{"room for both", Body{Bore: 8, Mark: &Mark{Text: "up", Under: "m1 z60"}}, "marked: bed side “m1 z60”, sunk “up”", 0},
		{"raised", Body{Bore: 8, Mark: &Mark{Text: "up", Raised: true}}, "marked: raised “up”", 0},
		{"room for neither", Body{Bore: 8, Mark: &tall}, "", 2},
		{"room for the short one", Body{Bore: 8, Mark: &short}, "marked: bed side “z60”", 0},
	} {
		p := mustPair(t, blank(q.body))
		said := ""
		for _, n := range p.Details("lamp-wheel").Notes {
			if strings.HasPrefix(n, "marked") {
				said = n
			}
		}
		if said != q.marks {
			t.Errorf("%s: %q", q.name, said)
		}
		f := finding(t, p, "lamp-wheel", "gear-mark")
		missing := slices.DeleteFunc(strings.Split(f.Detail, "; "), func(s string) bool { return s == "" })
		if len(missing) != q.missing || (f.Verdict == check.Note) != (q.missing > 0) {
			t.Errorf("%s: %s, %q", q.name, f.Verdict, f.Detail)
		}
	}
}
