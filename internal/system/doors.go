package system

import (
	"math"

	"bootfloor/internal/driver"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// doorSkinM is the thickness that the air in a hole of the door's inner skin
// moves through: sheet metal with a card or trim behind it. Assumed.
const doorSkinM = 0.004

// doorLossQ is the Q at the resonance of the air in the door with its holes:
// cloth, foam and ragged edges make it low. Assumed.
const doorLossQ = 3

// addDoor puts one door speaker into its door: air behind the cone, which
// leaks into the cabin through the holes of the inner skin.
func addDoor(s enclosure.Setting, u enclosure.Unit, d job.Doors) enclosure.Parts {
	cab := network.Compliance(s.Air, d.VolumeL*1e-3, 0)
	rear := s.Net.AddChamber(network.Chamber{Compliance: cab})
	front := s.World.Mouth(s.At, u.Area)
	cone := s.Net.Join(rear, front, network.Mechanical{
		Mass: u.Mass, Compliance: u.Compliance, Resistance: u.Resistance, Area: u.Area,
	})
	mesh := s.Net.AddMesh(u.Channel, u.Electrical)
	s.Net.Couple(mesh, cone, u.Bl/u.Area)
	p := enclosure.Parts{Cone: cone, Mesh: mesh, SystemHz: u.Resonance()}
	p.Radiating = append(p.Radiating, cone)

	if area := d.LeakCM2 * 1e-4; area > 0 {
		a := math.Sqrt(area / math.Pi)
		m := s.Air.Density * (doorSkinM + 2*network.FlangedEnd*a) / area
		w0 := 1 / math.Sqrt(m*cab)
		hole := s.At
		hole.ZMM -= 150 // the holes lie around and below the speaker
		p.Radiating = append(p.Radiating, s.Net.Join(rear, s.World.Mouth(hole, area),
			network.Inertance{Mass: m, Resistance: w0 * m / doorLossQ}))
	}
	return p
}

// mirrored returns a place on the other side of the car.
func mirrored(p job.Place) job.Place {
	p.YMM = -p.YMM
	return p
}

// completed derives a driver of the job; the first error becomes the finding.
func completed(j job.Driver, at string) (driver.Driver, []job.Finding) {
	d, found, err := driver.Derive(driver.FromJob(j), standardAir)
	var out []job.Finding
	for _, f := range found {
		out = append(out, job.Finding{At: at + "/" + string(f.Key), Level: "warning", Say: f.Say})
	}
	if err != nil {
		out = append(out, job.Finding{At: at, Level: "error", Say: job.Sentence(err)})
	}
	return d, out
}
