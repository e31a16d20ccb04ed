package advise

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/design"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// WhichRequest is what somebody who wants a sub has answered. Everything may
// be left out, and gets a shown assumption.
type WhichRequest struct {
	Body     string  `json:"body,omitempty"`
	LengthMM float64 `json:"length_mm,omitempty"` // of the cabin, by tape
	WidthMM  float64 `json:"width_mm,omitempty"`
	HeightMM float64 `json:"height_mm,omitempty"`
	// Car, where not nil, is a car already known, and wins over the above.
	Car *job.Car `json:"car,omitempty"`

	BootPct float64       `json:"boot_pct,omitempty"` // share of the boot that may go
	Space   *design.Patch `json:"space,omitempty"`    // or the part of it

	Music    []string `json:"music,omitempty"`
	LowestHz float64  `json:"lowest_hz,omitempty"` // wins over Music
	Loud     string   `json:"loud,omitempty"`
	LevelDB  float64  `json:"level_db,omitempty"` // wins over Loud
	Budget   float64  `json:"budget,omitempty"`   // for the drivers
	PowerW   float64  `json:"power_w,omitempty"`  // of an amplifier that is there

	// Drivers to choose from; none: the typical ones of the shelf. Types of
	// box to try; none: all.
	Drivers []job.Driver `json:"drivers,omitempty"`
	Types   []string     `json:"types,omitempty"`
	// Most is how many choices to return at most, 3 to 5.
	Most int `json:"most,omitempty"`
}

// whichDefaults are assumed where nothing was said.
const (
	whichMusic   = "pop"
	whichLoud    = "loud"
	whichBootPct = 30
	whichPower   = 1500 // W; more is rarely fitted
)

// enquiry is a request made ready.
type enquiry struct {
	req     WhichRequest
	job     job.Job // the car and the aim; its sub is to be replaced
	room    design.Room
	subs    []driver.Stated
	types   []string
	assumed []Assumption
	say     string
}

func (a *enquiry) assume(key, at, format string, args ...any) {
	a.assumed = append(a.assumed, Assumption{key, fmt.Sprintf(format, args...), at})
}

// ready fills a request with what was not said. The error is a sentence.
func ready(req WhichRequest) (*enquiry, error) {
	a := &enquiry{req: req, assumed: []Assumption{}}
	if err := a.car(); err != nil {
		return nil, err
	}
	if err := a.aim(); err != nil {
		return nil, err
	}
	if err := a.space(); err != nil {
		return nil, err
	}
	if found := job.Check(a.job); job.HasError(found) {
		return nil, errors.New(firstError(found))
	}
	for _, d := range req.Drivers {
		a.subs = append(a.subs, driver.FromJob(d))
	}
	if len(req.Drivers) == 0 {
		for _, s := range driver.Shelf() {
			if s.Kind == driver.KindSub {
				a.subs = append(a.subs, s.Stated)
			}
		}
		a.assume("drivers", "/subs/0/driver", "Typical drivers of each size, of no maker in particular; their prices are invented too.")
	}
	a.types = design.Types()
	if len(req.Types) > 0 {
		a.types = req.Types
	}
	return a, nil
}

// car finds the car: one that is known, or a style, to the tape measures given.
func (a *enquiry) car() error {
	r := &a.req
	if r.Body == "" && r.Car == nil {
		r.Body = quickBody
		a.assume("body", "/car/body", "A family hatchback, since no car was named.")
	}
	if r.Car != nil {
		r.Body = r.Car.Body
	}
	b, ok := job.FindBody(r.Body)
	if !ok {
		return errors.New("There is no such body style; choose one of those offered.")
	}
	a.job = job.New(r.Body)
	if r.Car != nil {
		a.job.Car = *r.Car
		return nil
	}
	c := b.Cabin
	scale := func(name string, mm, usual float64) (float64, error) {
		if mm == 0 {
			return 1, nil
		}
		if !(mm >= 0.5*usual && mm <= 1.8*usual) {
			return 1, fmt.Errorf("A cabin %.0f mm %s is not that of %s; give %.0f to %.0f mm, or choose another body style.", mm, name, article(b.Name), 0.5*usual, 1.8*usual)
		}
		return mm / usual, nil
	}
	x, err := scale("long", r.LengthMM, c.LengthMM)
	if err != nil {
		return err
	}
	y, err := scale("wide", r.WidthMM, c.WidthMM)
	if err != nil {
		return err
	}
	z, err := scale("high", r.HeightMM, c.HeightMM)
	if err != nil {
		return err
	}
	if r.LengthMM == 0 || r.WidthMM == 0 || r.HeightMM == 0 {
		a.assume("car", "/car/cabin", "Inside dimensions of a usual %s where no tape measure was given.", lower(b.Name))
	} else {
		a.assume("car", "/car/cabin", "The shape of a usual %s, drawn to your length, width and height.", lower(b.Name))
	}
	a.job.Car = scaled(a.job.Car, x, y, z)
	a.job.Doors.Place = scaledPlace(a.job.Doors.Place, x, y, z)
	a.job.Subs[0].Place = scaledPlace(a.job.Subs[0].Place, x, y, z)
	return nil
}

// scaled draws a car longer, wider and higher, heads, boot and all.
func scaled(c job.Car, x, y, z float64) job.Car {
	mm := math.Round
	c.Cabin.Stations = append([]job.Station(nil), c.Cabin.Stations...)
	for i := range c.Cabin.Stations {
		s := &c.Cabin.Stations[i]
		s.XMM, s.WidthMM, s.FloorMM, s.RoofMM = mm(x*s.XMM), mm(y*s.WidthMM), mm(z*s.FloorMM), mm(z*s.RoofMM)
	}
	c.Cabin.LengthMM, c.Cabin.WidthMM, c.Cabin.HeightMM = mm(x*c.Cabin.LengthMM), mm(y*c.Cabin.WidthMM), mm(z*c.Cabin.HeightMM)
	b := &c.Boot
	b.XMM, b.LengthMM = mm(x*b.XMM), mm(x*b.LengthMM)
	b.WidthMM, b.OpeningWidthMM, b.WheelArchesMM = mm(y*b.WidthMM), mm(y*b.OpeningWidthMM), mm(y*b.WheelArchesMM)
	b.HeightMM, b.OpeningHeightMM, b.FloorMM = mm(z*b.HeightMM), mm(z*b.OpeningHeightMM), mm(z*b.FloorMM)
	c.Seats = append([]job.Seat(nil), c.Seats...)
	for i := range c.Seats {
		s := &c.Seats[i]
		s.XMM, s.YMM, s.ZMM = mm(x*s.XMM), mm(y*s.YMM), mm(z*s.ZMM)
	}
	return c
}

func scaledPlace(p job.Place, x, y, z float64) job.Place {
	p.XMM, p.YMM, p.ZMM = math.Round(x*p.XMM), math.Round(y*p.YMM), math.Round(z*p.ZMM)
	return p
}

// aim finds how low and how loud.
func (a *enquiry) aim() error {
	r := &a.req
	aim := &a.job.Aim
	aim.Budget = math.Max(0, r.Budget)
	switch {
	case r.LowestHz != 0:
		if !(r.LowestHz >= 10 && r.LowestHz <= 120) {
			return fmt.Errorf("The lowest note of %g Hz is not one that a sub is for; give 10 to 120 Hz.", r.LowestHz)
		}
		aim.Lowest = r.LowestHz
		a.say = fmt.Sprintf("down to %s", hertz(aim.Lowest))
	default:
		m, unknown := lowestOf(r.Music)
		if len(unknown) > 0 {
			return fmt.Errorf("The kind of music %q is not one of those offered.", clipped(unknown[0]))
		}
		if m.Key == "" {
			m, _ = lowestOf([]string{whichMusic})
			a.assume("music", "/aim/lowest_hz", "Pop and rock, whose lowest notes are at %s, since nothing was named.", hertz(m.LowestHz))
		}
		aim.Lowest, aim.Music = math.Round(10*m.LowestHz)/10, r.Music
		a.say = fmt.Sprintf("down to %s (%s)", hertz(aim.Lowest), lower(m.Name))
	}
	switch {
	case r.LevelDB != 0:
		if !(r.LevelDB >= 80 && r.LevelDB <= 150) {
			return fmt.Errorf("A level of %g dB cannot be aimed at; give 80 to 150.", r.LevelDB)
		}
		aim.LevelDB = r.LevelDB
	case r.Loud != "":
		l, ok := loudness(r.Loud)
		if !ok {
			return fmt.Errorf("How loud, %q, is not one of the answers offered.", clipped(r.Loud))
		}
		aim.LevelDB = l.LevelDB
	default:
		l, _ := loudness(whichLoud)
		aim.LevelDB = l.LevelDB
		a.assume("loud", "/aim/level_db", "%s: %.0f dB of bass, since nothing was said.", l.Name, l.LevelDB)
	}
	a.say = fmt.Sprintf("%.0f dB %s", aim.LevelDB, a.say)
	if r.PowerW != 0 && !(r.PowerW >= 10 && r.PowerW <= 20000) {
		return fmt.Errorf("An amplifier of %g W is outside what can be answered; give 10 to 20,000.", r.PowerW)
	}
	if r.PowerW == 0 {
		a.assume("power_w", "/subs/0/channel/amplifier/rated_w", "An amplifier that gives what the drivers are rated for, up to %d W.", whichPower)
	}
	return nil
}

// space finds what of the boot may go.
func (a *enquiry) space() (err error) {
	r := &a.req
	switch {
	case r.BootPct < 0 || r.BootPct > 100:
		return fmt.Errorf("A share of %g %% of the boot cannot be given up; give 1 to 100.", r.BootPct)
	case r.BootPct == 0 && r.Space == nil:
		r.BootPct = whichBootPct
		a.assume("boot", "/aim/boot_pct", "Up to %d %% of the boot, since nothing was marked.", whichBootPct)
	}
	a.job.Aim.BootPct = r.BootPct
	if a.room, err = design.RoomOf(a.job); err != nil {
		return fmt.Errorf("The boot: %w.", err)
	}
	if r.Space != nil {
		whole := a.room.Space.M3()
		if a.room, err = a.room.Cut(*r.Space); err != nil {
			return fmt.Errorf("The space: %w.", err)
		}
		a.job.Aim.BootPct = math.Round(math.Min(100, 100*a.room.Space.M3()/whole))
	}
	return nil
}

// clipped shortens text from outside for a sentence.
func clipped(s string) string {
	if r := []rune(s); len(r) > 30 {
		return string(r[:30]) + "..."
	}
	return s
}
