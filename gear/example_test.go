package gear_test

import (
	"fmt"
	"math"

	"pintle/fit"
	"pintle/gear"
)

func ExamplePair_CentreDistance() {
	p, err := gear.NewPair(gear.PairSpec{
		Name: "lamp", Module: 1.5, Teeth: [2]int{12, 36}, ShiftRule: gear.ShiftChoose,
		PressureAngle: 20 * math.Pi / 180, Backlash: 0.2, FaceWidth: 10,
		Card: fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	span := p.Pinion().Span()
	fmt.Printf("drill the second hole %.2f mm from the first\n", p.CentreDistance())
	fmt.Printf("pinion: x = %.3f, %.2f mm over %d teeth\n", p.Pinion().Shift(), span.Width, span.Teeth)
	// Output:
	// drill the second hole 36.43 mm from the first
	// pinion: x = 0.299, 7.11 mm over 2 teeth
}
