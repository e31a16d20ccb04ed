package job

import "fmt"

func (c *checker) subs(subs []Sub) {
	if !c.length("/subs", "subs", len(subs), 0, MaxSubs) {
		return
	}
	if len(subs) == 0 && !c.job.Doors.Fitted {
		c.errorf("/subs", "The car has neither a sub nor door speakers; add one to hear anything.")
	}
	first := map[string]int{}
	for i := range subs {
		s := &subs[i]
		at := fmt.Sprintf("/subs/%d", i)
		subRules.check(c, at, s)
		if k, taken := first[s.ID]; taken && s.ID != "" {
			c.errorf(at+"/id", "%s is %s, already that of sub %d; each sub needs its own.", c.name(at+"/id", "the short name"), quote(s.ID), k+1)
		}
		first[s.ID] = i
		if n := s.Series * s.Parallel; n > MaxDrivers && !c.bad(at) {
			c.errorf(at+"/parallel", "%s: %d in series times %d in parallel makes %d; at most %d share a box.", c.name(at, "the drivers"), s.Series, s.Parallel, n, MaxDrivers)
		}
		driverRules.check(c, at+"/driver", &s.Driver)
		c.driver(at+"/driver", &s.Driver)
		c.box(at+"/box", &s.Box)
		c.place(at+"/place", "the cone", &s.Place, true)
		c.channel(at+"/channel", &s.Channel)
	}
	c.apart(subs)
}

// apart warns of two boxes on one spot.
func (c *checker) apart(subs []Sub) {
	const least = 100 // mm; two cones are never this near
	near := func(a, b float64) bool { return a-b < least && b-a < least }
	for i := range subs {
		for k := range i {
			a, b := subs[i].Place, subs[k].Place
			if near(a.XMM, b.XMM) && near(a.YMM, b.YMM) && near(a.ZMM, b.ZMM) {
				c.warnf(fmt.Sprintf("/subs/%d/place/y_mm", i), "Sub %d stands where sub %d does; move one of them.", i+1, k+1)
				break
			}
		}
	}
}

func (c *checker) doors(d *Doors) {
	doorRules.check(c, "/doors", d)
	driverRules.check(c, "/doors/driver", &d.Driver)
	c.driver("/doors/driver", &d.Driver)
	c.place("/doors/place", "the right-hand one", &d.Place, false)
	c.channel("/doors/channel", &d.Channel)
	if !c.bad("/doors/place") && d.Place.YMM <= 0 {
		c.errorf("/doors/place/y_mm", "Door speakers: the place across the car is %s; give that of the right-hand door, more than 0 mm (the left one mirrors it).", Number(d.Place.YMM, "mm"))
	}
}

// driver checks what belongs together; the derivation of the whole set is the
// business of package driver.
func (c *checker) driver(at string, d *Driver) {
	if (d.SemiK == nil) != (d.SemiN == nil) {
		c.errorf(at+"/semi_k", "%s: the semi-inductance needs both K and its exponent; give the other or clear this one.", c.name(at, "the driver"))
	}
	if (d.L2MH == nil) != (d.R2Ohm == nil) {
		c.errorf(at+"/l2_mh", "%s: the second coil inductance L2 and its resistance belong together; give the other or clear this one.", c.name(at, "the driver"))
	}
	if d.XmaxMM == nil {
		c.notef(at+"/xmax_mm", "%s: the cone travel Xmax is not given, so nothing can be said about running out of travel.", c.name(at, "the driver"))
	}
	if d.CutOutMM != nil && d.OutsideMM != nil && *d.CutOutMM >= *d.OutsideMM {
		c.warnf(at+"/cut_out_mm", "%s is %s, not smaller than the outside diameter, %s; measure both again.", c.name(at, "the cut-out diameter"), Number(*d.CutOutMM, "mm"), Number(*d.OutsideMM, "mm"))
	}
}

// box checks that each type of box has the parts it is made of.
func (c *checker) box(at string, b *Box) {
	boxRules.check(c, at, b)
	if c.bad(at + "/type") {
		return
	}
	what := map[string]string{
		"vented": "a vented box", "passive_radiator": "a box with passive radiators", "bandpass4": "a fourth-order band-pass box",
		"bandpass6_series": "a sixth-order series band-pass box", "bandpass6_parallel": "a sixth-order parallel band-pass box",
		"line": "a quarter-wave line", "aperiodic": "a box with a aperiodic vent",
	}[b.Type]
	missing := func(key, part, do string) {
		c.errorf(at+"/"+key, "%s is missing; %s needs one. %s", c.name(at, part), what, do)
	}
	if b.Type == "vented" || b.Type == "bandpass6_series" || b.Type == "bandpass6_parallel" {
		c.port(at+"/port", b.Port, func() {
			missing("port", "the port", "Add a port with its size and its tuning or length.")
		})
	}
	if bandpass(b) {
		c.port(at+"/front", b.Front, func() {
			missing("front", "the port of the front chamber", "Add a front port with its size and its tuning or length.")
		})
	}
	if b.Type == "passive_radiator" {
		if b.Passive == nil {
			missing("passive", "the passive radiator", "Add one with its area, mass and free-air resonance.")
		} else {
			passiveRules.check(c, at+"/passive", b.Passive)
		}
	}
	if b.Type == "aperiodic" {
		if b.Vent == nil {
			missing("vent", "the aperiodic vent", "Add one with its area and flow resistance.")
		} else {
			aperiodicRules.check(c, at+"/vent", b.Vent)
		}
	}
	if b.Type == "line" {
		c.line(at, b)
	}
}

func (c *checker) port(at string, p *Port, missing func()) {
	if p == nil {
		missing()
		return
	}
	portRules.check(c, at, p)
	if p.LengthMM == 0 && p.TuningHz == 0 {
		c.errorf(at+"/tuning_hz", "%s has neither tuning nor length; give one of them.", c.name(at, "the port"))
	}
	if p.LengthMM != 0 && p.TuningHz != 0 {
		c.notef(at+"/tuning_hz", "%s has both a length and a tuning; the length, %s, is used.", c.name(at, "the port"), Number(p.LengthMM, "mm"))
	}
	if p.Ends == "wall" && p.Shape == "round" {
		c.errorf(at+"/ends", "%s is round and ends along a wall; only a slot does. Choose other ends.", c.name(at, "the port"))
	}
}

func (c *checker) line(at string, b *Box) {
	if !c.length(at+"/line", "pieces of the line", len(b.Line), 1, MaxSegments) {
		return
	}
	total := 0.0
	for i := range b.Line {
		piece := fmt.Sprintf("%s/line/%d", at, i)
		segmentRules.check(c, piece, &b.Line[i])
		total += b.Line[i].LengthMM
	}
	if !c.bad(at) && b.TapMM > total {
		c.errorf(at+"/tap_mm", "%s is %s from the closed end, but the line is only %s long; give 0 to %s.",
			c.name(at, "the place of the cone on the line"), Number(b.TapMM, "mm"), tidy(total, "mm"), tidy(total, "mm"))
	}
}

// place checks that a cone or mouth stands in the car. A sub may stand in a
// separate boot as well.
func (c *checker) place(at, what string, p *Place, bootToo bool) {
	placeRules.check(c, at, p)
	car := &c.job.Car
	if c.bad(at) || c.bad("/car/cabin") || c.bad("/car/boot") {
		return
	}
	if bootToo && car.Boot.Separate && car.Boot.inBoot(p.XMM, p.YMM, p.ZMM, edgeMM) {
		return
	}
	c.inCabin(at, c.name(at, what), car.Cabin, p.XMM, p.YMM, p.ZMM, edgeMM)
}

func (c *checker) channel(at string, h *Channel) {
	channelRules.check(c, at, h)
	if c.length(at+"/filters", c.name(at, "filters"), len(h.Filters), 0, MaxFilters) {
		for i := range h.Filters {
			c.filter(fmt.Sprintf("%s/filters/%d", at, i), &h.Filters[i])
		}
	}
	amplifierRules.check(c, at+"/amplifier", &h.Amplifier)
	if a := &h.Amplifier; !c.bad(at+"/amplifier") && a.MinOhm > a.RatedOhm {
		c.warnf(at+"/amplifier/min_ohm", "%s is %s, above the load at which its power is rated, %s; check both on the data sheet.",
			c.name(at, "the lowest load of the amplifier"), Number(a.MinOhm, "ohm"), Number(a.RatedOhm, "ohm"))
	}
}

func (c *checker) filter(at string, f *Filter) {
	filterRules.check(c, at, f)
	// Two equal Butterworth filters in cascade make a Linkwitz-Riley filter, so
	// its order is even (Linkwitz, JAES 1976).
	if f.Shape == "linkwitz_riley" && passes(f) && f.Order%2 != 0 && !c.bad(at+"/order") {
		c.errorf(at+"/order", "%s is %d; a Linkwitz-Riley filter has an even order: 2, 4, 6 or 8.", c.name(at, "the order"), f.Order)
	}
}
