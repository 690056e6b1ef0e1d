package joint

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pintle/export"
	"pintle/fit"
)

// What the lighthouse takes, worked out by hand from its stack: the ring's flange
// of 5 mm and 4 mm of plate under it are 9 mm of grip, an M3 nut 2.4 mm and its
// end 0.5 mm make 11.9: M3 x 12. Servo tabs of 2.5 mm on a plate of 6 mm, a nut of
// 3.2 mm and 0.5 mm make 12.2: M4 x 14. Nuts by their table, ISO 4032.
func TestShoppingList(t *testing.T) {
	list := map[string]export.Supply{}
	for _, s := range build(t).Report.Shopping {
		if _, twice := list[s.Name]; twice {
			t.Errorf("%s stands twice", s.Name)
		}
		list[s.Name] = s
	}
	for _, want := range []export.Supply{
		{How: export.Buy, Name: "M3 x 12 cap screw", Count: 4, Spare: 1},
		{How: export.Buy, Name: "M4 x 14 cap screw", Count: 4, Spare: 1},
		{How: export.Buy, Name: "M3 nut", Count: 4, Spare: 1},
		{How: export.Buy, Name: "bearing 30203", Count: 1, Spare: 1},
		{How: export.Buy, Name: "M2 self-cutting screw", Count: 3, Spare: 1},
		{How: export.Print, Name: "lamp-pinion", Count: 1, Spare: 1},
		{How: export.Print, Name: "lamp-ring", Count: 1},
	} {
		got := list[want.Name]
		if got.How != want.How || got.Count != want.Count || got.Spare != want.Spare {
			t.Errorf("%s: %+v", want.Name, got)
		}
	}
	// Beads of 0.45 mm: eleven make the ring's wall of 4.95 mm, but only five fit
	// between its screw holes of 3.58 mm on 56.5 mm and the rim drawn at 65.42 mm:
	// (65.42 - 56.5 - 3.58) / 2 = 2.67 mm.
	if got := list["lamp-ring"].BeadsAcross; got != 5 {
		t.Errorf("%d beads across the ring's thinnest wall", got)
	}
	if ring := list["lamp-ring"]; ring.Material != "PETG" || ring.MassG < 20 || ring.MassG > 25 || ring.For != "housing.lamp" {
		t.Errorf("ring %+v", ring)
	}
}

// Screws of two joints that are alike are counted together.
func TestBuyingCountsTogether(t *testing.T) {
	var list buying
	list.add(screws("M3 nut", 4, "here"), screws("M3 nut", 9, "there"), screws("M3 nut", 1, "here"))
	if len(list) != 1 || list[0].Count != 14 || list[0].Spare != 3 || list[0].For != "here; there" {
		t.Errorf("%+v", list)
	}
}

// Whatever screw the order of assembly asks for by size and length is on the
// list, for joints of every kind.
func TestScrewsOfTheAssemblyAreBought(t *testing.T) {
	sized := regexp.MustCompile(`M[0-9.]+ x [0-9]+`)
	for _, name := range []string{"lighthouse", "mayor", "heron", "baker", "carousel"} {
		data, err := os.ReadFile("../testdata/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		file, err := Read(name+".toml", data)
		if err != nil {
			t.Fatal(err)
		}
		result, err := Design(file, Options{})
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, line := range result.Report.Assembly {
			for _, screw := range sized.FindAllString(line, -1) {
				found++
				if !slices.ContainsFunc(result.Report.Shopping, func(s export.Supply) bool { return strings.HasPrefix(s.Name, screw+" ") }) {
					t.Errorf("%s: %q asks for %s, which nobody buys", name, line, screw)
				}
			}
		}
		if found == 0 && name == "lighthouse" {
			t.Error("no screw in the lighthouse's assembly")
		}
	}
}

// The heron's bar bears its name in sunk letters: between these stands no wall. Its
// eyes, drawn 8.92 mm around holes of 3.28 mm, leave 2.82 mm: six beads of 0.45 mm.
func TestLettersAreNoWalls(t *testing.T) {
	data, err := os.ReadFile("../testdata/heron.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("heron.toml", data)
	if err != nil {
		t.Fatal(err)
	}
	result, err := Design(file, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range result.Report.Parts {
		if p.Name == "nod-bar" && p.BeadsAcross != 6 {
			t.Errorf("%d beads across the bar's eye", p.BeadsAcross)
		}
	}
}

// The table of parts says of each printed part what the shopping list says of
// it: how it lies on the bed, and the beads across its thinnest wall.
func TestPartsSayHowTheyPrint(t *testing.T) {
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("lighthouse.toml", data)
	if err != nil {
		t.Fatal(err)
	}
	result, err := Design(file, Options{})
	if err != nil {
		t.Fatal(err)
	}
	beads := map[string]int{}
	for _, p := range result.Report.Parts {
		if !strings.Contains(p.Orientation, "bed side down") {
			t.Errorf("%s lies %q", p.Name, p.Orientation)
		}
		i := slices.IndexFunc(result.Report.Shopping, func(s export.Supply) bool { return s.Name == p.Name })
		if i < 0 || result.Report.Shopping[i].BeadsAcross != p.BeadsAcross {
			t.Errorf("%s has %d beads across, not what the shopping list says", p.Name, p.BeadsAcross)
		}
		beads[p.Name] = p.BeadsAcross
	}
	if beads["lamp-ring"] < 2 {
		t.Errorf("%d beads across the ring's wall", beads["lamp-ring"])
	}
}

// What holds the carousel's pinions on their rods is bought: one set screw M3
// with its nut, one clamp screw M2 with its nut, a rod of 6 and one of 5 mm, as
// its joint file says.
func TestHubsAreBought(t *testing.T) {
	data, err := os.ReadFile("../testdata/carousel.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("carousel.toml", data)
	if err != nil {
		t.Fatal(err)
	}
	result, err := Design(file, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"M3 set screw", "M3 nut", "M2 cap screw across the clamp's slit", "M2 nut", "rod of 6 mm with a flat", "rod of 5 mm", "bearing 608"} {
		if !slices.ContainsFunc(result.Report.Shopping, func(s export.Supply) bool {
			return s.How == export.Buy && s.Count > 0 && strings.HasSuffix(s.Name, want)
		}) {
			t.Errorf("nobody buys %s", want)
		}
	}
	// The canopy's three screws turn in nuts: nobody buys self-cutting ones.
	for _, s := range result.Report.Shopping {
		if strings.Contains(s.Name, "self-cutting") {
			t.Errorf("bought besides the nuts: %s", s.Name)
		}
	}
	if inserts := threadsFor(fit.Insert, fit.Nut, fit.Screw{Size: "M3"}, 4, "x"); len(inserts) != 1 || inserts[0].Name != "M3 heat-set insert" || inserts[0].Count != 4 {
		t.Errorf("inserts %+v", inserts)
	}
	if none := threadsFor(fit.SelfCutting, fit.Nut, fit.Screw{Size: "M3"}, 4, "x"); len(none) > 0 {
		t.Errorf("a self-cutting screw needs %+v", none)
	}
}
