package carpentry

import (
	"errors"
	"math"

	"bootfloor/internal/job"
)

// Options are choices of the workshop that the job document does not hold.
type Options struct {
	Material   string  // key of the sheet; empty is mdf
	PortLength float64 // m, of ports whose length the document leaves open
	Clearance  float64 // m to keep all round at the boot opening; zero is 10 mm
	Sheet      Sheet   // zero is 2440 x 1220 mm with a kerf of 3 mm
}

// Build is a box as built, and whether it can be.
type Build struct {
	Box          Box
	Sized        bool // the sides that the document left open were found here
	WantedM3     float64
	GrossM3      float64
	NetM3        float64
	Displacement Displacement
	Panels       []Panel
	Layout       Layout
	Mass         Mass
	Stand        Stand
	Passage      Passage
	Restraint    Restraint
	Findings     []job.Finding // pointers start at the sub
}

// ErrNoBox is returned for a sub that the car itself encloses.
var ErrNoBox = errors.New("an infinite baffle has no box to build; it is a panel in the shelf or seat back")

// proportions of a box of which nothing is drawn yet: low and wide, as boot
// floors are.
var proportions = Box{Width: 0.60, Height: 0.36, Depth: 0.36}

// Plan builds the box of a sub for a boot: finds the sides that are still
// open within the boot, takes out what displaces the air, draws up the cut
// list, lays the sheets, weighs it, and tries it at the opening and on the
// floor. What is wrong but does not stop it is in Findings. An error says what
// keeps the box from being built at all.
func Plan(s job.Sub, boot job.Boot, o Options) (Build, error) {
	if s.Box.Type == "infinite_baffle" {
		return Build{}, ErrNoBox
	}
	if o.Material == "" {
		o.Material = "mdf"
	}
	if o.Clearance == 0 {
		o.Clearance = 0.010
	}
	if o.Sheet == (Sheet{}) {
		o.Sheet = Sheet{Length: 2.44, Width: 1.22, Kerf: 0.003}
	}
	material, err := MaterialFor(o.Material)
	if err != nil {
		return Build{}, err
	}
	space, err := SpaceFromBoot(boot)
	if err != nil {
		return Build{}, err
	}
	b := Build{Box: FromJob(s, boot), WantedM3: (s.Box.NetL + s.Box.FrontL) / 1000, Displacement: DisplacementOf(s, o.PortLength)}
	if err := b.size(s, space); err != nil {
		return Build{}, err
	}
	b.GrossM3, b.NetM3 = b.Box.GrossM3(), b.Box.NetM3(b.Displacement)
	b.compare()
	b.Panels = b.Box.Panels()
	if b.Layout, err = o.Sheet.Lay(b.Panels); err != nil {
		b.Findings = append(b.Findings, job.Warnf("/box/width_mm", "%s.", sentence(err)))
	}
	mount, fittings := fittingsOf(s, b.Box)
	b.Findings = append(b.Findings, b.Box.CheckMount(mount)...)
	if b.Mass, err = b.Box.Weigh(material, fittings, material.Density*b.Displacement.Bracing); err != nil {
		return Build{}, err
	}
	b.Restraint = Restrain(b.Mass.Total)
	b.Stand = space.Stand(b.Box)
	b.Passage = b.Box.Pass(boot.OpeningWidthMM/1000, boot.OpeningHeightMM/1000, o.Clearance)
	if !b.Stand.Fits {
		b.Findings = append(b.Findings, job.Warnf("/box/height_mm", "%s", b.Stand.Say))
	}
	if !b.Passage.Passes {
		b.Findings = append(b.Findings, job.Warnf("/box/width_mm", "%s", b.Passage.Say))
	}
	return b, nil
}

// size finds the open sides. A band-pass box has one more panel inside, whose
// volume hangs on the sides, so it is taken out until it stands still.
func (b *Build) size(s job.Sub, space Space) error {
	open := b.Box
	b.Sized = !(open.Width > 0 && open.Height > 0 && open.Depth > 0)
	if !b.Sized {
		if err := open.Check(); err != nil {
			return err
		}
		b.Displacement.Bracing += b.Box.divider(s.Box.Type)
		return nil
	}
	tallest := 0.0
	for _, c := range space.Ceiling {
		tallest = math.Max(tallest, c.Z)
	}
	limits := Limits{Most: Sides{space.Width, tallest - open.Feet, space.Length()}}
	braces := b.Displacement.Bracing
	mount, _ := fittingsOf(s, open)
	for range 8 {
		limits.Least = mount.room(b.Box)
		found, err := Size(open, proportions, b.WantedM3, b.Displacement, limits)
		if err != nil {
			// Without room for the driver there may still be a box; what is in
			// the driver's way is then told on its own.
			limits.Least = Sides{}
			if found, err = Size(open, proportions, b.WantedM3, b.Displacement, limits); err != nil {
				return err
			}
		}
		b.Box = found
		b.Displacement.Bracing = braces + found.divider(s.Box.Type)
	}
	b.Box = b.Box.RoundUp(0.001)
	b.Displacement.Bracing = braces + b.Box.divider(s.Box.Type)
	return nil
}

// divider returns the volume of the panel between the chambers, m3.
func (b Box) divider(boxType string) float64 {
	switch boxType {
	case "bandpass4", "bandpass6_series", "bandpass6_parallel":
		return (b.Width - 2*b.Panel) * (b.Height - 2*b.Panel) * b.Panel
	}
	return 0
}

// compare adds a finding where the box as drawn does not hold what is wanted.
func (b *Build) compare() {
	const tolerance = 0.02 // common practice, no source: 2 % is beyond hearing
	wanted, net := b.WantedM3*1000, b.NetM3*1000
	switch {
	case !(b.WantedM3 > 0) || b.Sized:
	case net < wanted*(1-tolerance):
		b.Findings = append(b.Findings, job.Warnf("/box/net_l",
			"The box as drawn holds %.1f l net, %.1f l less than the %.1f l wanted; make one side larger, or set it to 0 to have it found.", net, wanted-net, wanted))
	case net > wanted*(1+tolerance):
		b.Findings = append(b.Findings, job.Notef("/box/net_l",
			"The box as drawn holds %.1f l net, %.1f l more than the %.1f l wanted; fill it with solid wood, or make one side smaller.", net, net-wanted, wanted))
	}
}

// magnetShare is how far down a driver's depth its centre of gravity lies.
// Common practice, no source: the magnet is most of the mass.
const magnetShare = 0.6

// fittingsOf returns the drivers as one thing to check and one to weigh.
func fittingsOf(s job.Sub, b Box) (Mount, []Fitting) {
	value := func(p *float64) float64 {
		if p == nil {
			return 0
		}
		return *p
	}
	count := max(s.Series, 1) * max(s.Parallel, 1)
	onFace := count
	if s.Box.Isobaric {
		onFace = (count + 1) / 2 // the other of each pair stands behind the first
	}
	on := Face(s.Place.Fires)
	if on == "" {
		on = Rear
		if b.Form == Slab {
			on = Down
		}
	}
	d := s.Driver
	m := Mount{On: on, CutOut: value(d.CutOutMM) / 1000, Outside: value(d.OutsideMM) / 1000, Depth: value(d.DepthMM) / 1000, Count: onFace}
	// Holes side by side take out as much wood as one of their joint area.
	hole := m.CutOut * math.Sqrt(float64(onFace))
	return m, []Fitting{{On: on, Hole: hole, Mass: value(d.MassKg) * float64(count), Behind: magnetShare * m.Depth}}
}

// sentence starts an error's text with a capital.
func sentence(err error) string {
	s := []rune(err.Error())
	if len(s) > 0 && s[0] >= 'a' && s[0] <= 'z' {
		s[0] += 'A' - 'a'
	}
	return string(s)
}
