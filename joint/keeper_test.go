package joint_test

import (
	"bytes"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pintle/joint"
)

// keeper returns the words of the keeper's sheet of the lighthouse with changes.
func keeper(t *testing.T, changes ...string) []string {
	t.Helper()
	text := lighthouse(t)
	for i := 0; i < len(changes); i += 2 {
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	file, err := joint.Read("x.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	sheet := fileNamed(t, result, "keeper.svg")
	if !bytes.Equal(sheet, fileNamed(t, result, "keeper.svg")) {
		t.Error("not the same twice")
	}
	var words []string
	for _, r := range examine(t, "keeper's sheet", sheet).texts {
		words = append(words, r.words)
	}
	return words
}

func contains(words []string, part string) bool {
	return strings.Contains(strings.Join(words, "\n"), part)
}

// The sheet says what the builder asked for: 50000 cycles at 600 a day are 83
// whole days; a backlash doubled by equal wear of both gears takes half of
// 0.2 mm x cos 20 deg off each span: W1 15.99, W2 16.16 (see the scenario's
// contract) become 15.90 and 16.07.
func TestKeepersSheet(t *testing.T) {
	words := keeper(t, "[motion.lamp]", "[motion.lamp]\ncycles_per_day = 600")
	for _, want := range []string{
		"every 83 days", "50000 cycles", "600", "15.99", "15.90", "16.16", "16.07", "0.42°", "0.85°",
		"Meshing teeth pull in hair", "At switch-on the servo may jump", "lamp-pinion", "M3 x 12 cap screw", "Off: let it come to rest",
	} {
		if !contains(words, want) {
			t.Errorf("%q stands nowhere", want)
		}
	}
	if contains(words, "Press slowly") || contains(words, "dust mask") {
		t.Error("cautions for the builder stand on the keeper's sheet")
	}
	for i, word := range words {
		if word == "lamp-wheel: W over 4 teeth" {
			should, _ := strconv.ParseFloat(words[i+1], 64)
			limit, _ := strconv.ParseFloat(words[i+2], 64)
			if wear := 0.1 * math.Cos(20*math.Pi/180); math.Abs(should-limit-wear) > 0.01 {
				t.Errorf("W may wear by %.3f mm, want %.3f", should-limit, wear)
			}
		}
	}
}

// What hangs on the choice of the builder, and a load that falls.
func TestKeepersSheetKeys(t *testing.T) {
	words := keeper(t, "[motion.lamp]", "[keeper]\ninspection_cycles = 1000\npurpose = \"Turns the lamp.\"\ncontact = \"the model club\"\n\n[motion.lamp]\ncycles_per_day = 2000",
		`axis = "vertical"`, `axis = "horizontal"`)
	for _, want := range []string{"every day", "1000 cycles", "Turns the lamp.", "Ask when in doubt: the model club", "Off: support what it holds up first"} {
		if !contains(words, want) {
			t.Errorf("%q stands nowhere", want)
		}
	}
	if _, err := joint.Read("x.toml", []byte(lighthouse(t)+"\n[keeper]\ninspection_cycles = 0\n")); err == nil || !strings.Contains(err.Error(), "must be 1 or more") {
		t.Errorf("no cycles at all: %v", err)
	}
	if words := keeper(t); !contains(words, "count the cycles") || !contains(words, "____") {
		t.Error("without cycles a day and a contact the sheet must say so")
	}
}

// A rack drive has its keeper's sheet too: the free play of the rack is its
// backlash, and as much again is the limit.
func TestKeeperOfARack(t *testing.T) {
	text, err := os.ReadFile("../testdata/puppet-moon.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := joint.Read("puppet-moon.toml", text)
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, r := range examine(t, "keeper's sheet", fileNamed(t, result, "keeper.svg")).texts {
		words = append(words, r.words)
	}
	for _, want := range []string{"free play, rack", "0.20 mm", "0.40 mm", "count the cycles"} {
		if !contains(words, want) {
			t.Errorf("%q stands nowhere", want)
		}
	}
}
