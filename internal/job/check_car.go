package job

import "fmt"

// edgeMM forgives places that stand a little outside the drawn cavity: a tape
// measure and a cone's frame are no better than this.
const edgeMM = 30

func (c *checker) car(car *Car) {
	carRules.check(c, "/car", car)
	c.cabin(&car.Cabin)
	bootRules.check(c, "/car/boot", &car.Boot)
	finishRules.check(c, "/car/finish", &car.Finish)
	sound := !c.bad("/car/cabin")
	if sound && !c.bad("/car/boot") {
		c.boot(car)
	}
	if c.length("/car/openings", "openings", len(car.Openings), 0, MaxOpenings) {
		for i := range car.Openings {
			at := fmt.Sprintf("/car/openings/%d", i)
			o := &car.Openings[i]
			openingRules.check(c, at, o)
			if sound && !c.bad(at) {
				c.inCabin(at, "the opening", car.Cabin, o.XMM, o.YMM, o.ZMM, 150)
			}
		}
	}
	c.seats(car, sound)
	if car.Learned != nil {
		learnedRules.check(c, "/car/learned", car.Learned)
	}
}

func (c *checker) cabin(k *Cabin) {
	cabinRules.check(c, "/car/cabin", k)
	if k.Shape != "stations" {
		return
	}
	if !c.length("/car/cabin/stations", "stations of the cabin", len(k.Stations), MinStations, MaxStations) {
		return
	}
	for i := range k.Stations {
		at := fmt.Sprintf("/car/cabin/stations/%d", i)
		s := &k.Stations[i]
		stationRules.check(c, at, s)
		if c.bad(at) {
			continue
		}
		const least = 50.0
		if s.RoofMM < s.FloorMM+least {
			c.errorf(at+"/roof_mm", "Station %d: the roof height is %s and the floor height %s; the roof must be at least %s above the floor.",
				i+1, Number(s.RoofMM, "mm"), Number(s.FloorMM, "mm"), Number(least, "mm"))
		}
		if i == 0 {
			if s.XMM != 0 {
				c.errorf(at+"/x_mm", "Station 1: the place along the car is %s; the first station is where the measuring begins, so it must be 0 mm.", Number(s.XMM, "mm"))
			}
			continue
		}
		const apart = 20.0
		if before := k.Stations[i-1].XMM; s.XMM < before+apart {
			c.errorf(at+"/x_mm", "Station %d: the place along the car is %s and that of station %d is %s; each station must stand at least %s behind the one before.",
				i+1, Number(s.XMM, "mm"), i, Number(before, "mm"), Number(apart, "mm"))
		}
	}
	if c.bad("/car/cabin") {
		return
	}
	if l := k.Stations[len(k.Stations)-1].XMM; l < 600 {
		c.errorf(fmt.Sprintf("/car/cabin/stations/%d/x_mm", len(k.Stations)-1), "The last station stands %s behind the first; a cabin must be at least 600 mm long.", Number(l, "mm"))
	}
}

func (c *checker) boot(car *Car) {
	b, rear := &car.Boot, car.Cabin.Length()
	if b.Separate {
		if b.XMM < rear-800 || b.XMM > rear+800 {
			c.errorf("/car/boot/x_mm", "The boot floor begins %s from the front and the cabin ends at %s; a separate boot must begin within 800 mm of the end of the cabin.", Number(b.XMM, "mm"), Number(rear, "mm"))
		}
		if b.HatchCM2 == 0 && b.SeatBackKgM2 == 0 {
			c.warnf("/car/boot/hatch_cm2", "The boot is separate, with no opening and no seat-back mass given, so no sound passes into the cabin; give the area of the ski hatch and shelf holes, or the mass of the seat back.")
		}
	} else if b.XMM+b.LengthMM > rear+2*edgeMM {
		c.warnf("/car/boot/length_mm", "The boot floor ends at %s but the cabin at %s; shorten the boot or lengthen the cabin.", Number(b.XMM+b.LengthMM, "mm"), Number(rear, "mm"))
	}
	if b.WheelArchesMM > b.WidthMM {
		c.warnf("/car/boot/wheel_arches_mm", "The width between the wheel arches is %s, more than the width of the boot, %s; measure both again.", Number(b.WheelArchesMM, "mm"), Number(b.WidthMM, "mm"))
	}
}

func (c *checker) seats(car *Car, sound bool) {
	if !c.length("/car/seats", "seats", len(car.Seats), 1, MaxSeats) {
		return
	}
	first := map[string]int{}
	for i := range car.Seats {
		at := fmt.Sprintf("/car/seats/%d", i)
		s := &car.Seats[i]
		seatRules.check(c, at, s)
		if c.bad(at) {
			continue
		}
		if k, taken := first[s.ID]; taken {
			c.errorf(at+"/id", "Seat %d: the name %q is already that of seat %d; each seat needs its own.", i+1, s.ID, k+1)
			continue
		}
		first[s.ID] = i
		if sound {
			c.inCabin(at, fmt.Sprintf("seat %d, the ears", i+1), car.Cabin, s.XMM, s.YMM, s.ZMM, 0)
		}
	}
}

// inCabin checks that a point lies inside the cabin, within slack, and says
// which coordinate is out and what span would do.
func (c *checker) inCabin(at, what string, k Cabin, x, y, z, slack float64) {
	rear := k.Length()
	if x < -slack || x > rear+slack {
		c.errorf(at+"/x_mm", "%s: the place along the car is %s, outside the cabin; give 0 to %s.", upperFirst(what), Number(x, "mm"), Number(rear, "mm"))
		return
	}
	s := k.Section(x)
	if half := s.WidthMM / 2; y < -half-slack || y > half+slack {
		c.errorf(at+"/y_mm", "%s: the place across the car is %s, outside the cabin; there it is from %s to %s.", upperFirst(what), Number(y, "mm"), tidy(-half, ""), tidy(half, "mm"))
	}
	if z < s.FloorMM-slack || z > s.RoofMM+slack {
		c.errorf(at+"/z_mm", "%s: the height is %s, outside the cabin; there the floor is at %s and the roof at %s.", upperFirst(what), Number(z, "mm"), tidy(s.FloorMM, "mm"), tidy(s.RoofMM, "mm"))
	}
}
