package gear

import (
	"math"
	"testing"

	"pintle/fit"
	"pintle/mesh"
)

// Whatever a body asks for, the answer is a gear with a closed mesh and finite
// findings, or an error that names a quantity, a reason and a remedy.
func FuzzBody(f *testing.F) {
	f.Add(60, 1.0, 8.0, uint32(0), 6.0, 20.0, 6.0, 0.0, 3.0)
	f.Add(60, 1.0, 8.0, uint32(0x111), 6.0, 0.0, 0.0, 30.0, 0.0)
	f.Add(48, 1.25, 10.0, uint32(0x2315), 12.0, 24.0, 8.0, 36.0, 2.5)
	f.Add(90, 1.0, 6.0, uint32(0xffff), 5.0, 0.0, 0.0, 40.0, 0.4)
	f.Add(30, 2.0, 12.0, uint32(0x18733), 8.0, 30.0, 12.0, 45.0, 4.0)
	f.Add(40, 1.5, 5.0, uint32(0x34251), math.NaN(), math.Inf(1), -3.0, 0.0, -1.0)
	f.Fuzz(func(t *testing.T, z int, m, face float64, kind uint32, shaft, diameter, length, circle, size float64) {
		if z > 120 || z*int(math.Abs(m)) > 400 {
			t.Skip("nothing new, only slower")
		}
		pick := func(shift, n int) int { return int(kind>>shift) % n }
		screws := fit.Screws()
		screw := screws[pick(0, len(screws))]
		spec := bareSpec(20, z)
		spec.Module, spec.FaceWidth = m, face
		b := Body{
			Shaft:      &Shaft{Kind: []string{RoundBore, DBore, HexBore, SquareBore, Keyway, "", "star"}[pick(3, 7)], Size: shaft, Fit: append(ShaftFits(), "", "loose")[pick(6, 5)]},
			TopChamfer: size * float64(pick(8, 2)),
		}
		switch pick(9, 5) {
		case 1:
			b.Hub = &Hub{Diameter: diameter, Length: length}
		case 2:
			b.SetScrew = &SetScrew{Screw: screw, Holds: append(fit.ScrewHoles(), "")[pick(11, 7)], Count: pick(14, 4)}
		case 3:
			b.Clamp = &Clamp{Screw: screw, Slit: size * float64(pick(11, 2))}
		case 4:
			b.Hub, b.SetScrew = &Hub{Diameter: diameter, Length: length}, &SetScrew{Screw: screw}
		}
		if pick(16, 2) == 1 {
			b.Bolts = &BoltCircle{Diameter: circle, Screw: screw, Count: pick(12, 9), Kind: append(fit.ScrewHoles(), "", "rivet")[pick(17, 8)]}
		}
		if pick(20, 2) == 1 {
			b.Lighten = &Lighten{Kind: append(Lightenings(), "air")[pick(21, 4)], Count: pick(13, 12), Rim: size * float64(pick(22, 2)), Web: length * float64(pick(23, 2)), Width: diameter / 4 * float64(pick(24, 2)), Fillet: size * float64(pick(25, 2))}
		}
		if pick(26, 2) == 1 {
			b.Mark = &Mark{Text: "z", Under: []string{"", "down"}[pick(27, 2)], Raised: pick(28, 2) == 1, Sector: pick(29, 2) == 1, Teeth: size, Height: length * float64(pick(30, 2))}
		}
		spec.Wheel = b
		tell(t, func() (teller, error) {
			p, err := NewPair(spec)
			if err != nil {
				return nil, err
			}
			made, err := mesh.FromPart(p.Wheel().Part())
			if err == nil {
				err = made.Verify()
			}
			return p, err
		})
	})
}
