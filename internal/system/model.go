package system

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/driver"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// standardAir is the air that data sheets are taken to have been measured in.
var standardAir = air.MustStandard()

// model is a job made ready: its drivers complete, its channels evaluated.
type model struct {
	job    job.Job
	air    air.Properties
	omega  []float64
	vary   Variation
	subs   []driver.Driver
	door   driver.Driver
	drives []drive // one for each sub, then one for the doors
	lines  *enclosure.Lines
}

// newModel completes drivers and channels, those of the doors if wanted. It returns every finding; the model
// is usable only when none of them is an error.
func newModel(j job.Job, omega []float64, v Variation, doors bool) (*model, []job.Finding) {
	m := &model{job: j, omega: omega, vary: v}
	var found []job.Finding
	var err error
	if m.air, err = properties(j.Air); err != nil {
		found = append(found, job.Errorf("/air", "%s", job.Sentence(err)))
	}
	channel := func(c job.Channel, at string) {
		d, f := newDrive(c, omega)
		m.drives = append(m.drives, d)
		found = append(found, prefixed(at, f)...)
	}
	for i, s := range j.Subs {
		at := fmt.Sprintf("/subs/%d", i)
		d, f := completed(s.Driver, at+"/driver")
		m.subs = append(m.subs, m.varied(d))
		found = append(found, f...)
		channel(s.Channel, at+"/channel")
	}
	if j.Doors.Fitted && doors {
		d, f := completed(j.Doors.Driver, "/doors/driver")
		m.door = d
		found = append(found, f...)
		channel(j.Doors.Channel, "/doors/channel")
	}
	return m, found
}

// built is the network of a model in one world.
type built struct {
	net   network.Network
	subs  []enclosure.Parts
	doors []enclosure.Parts
}

// assembleSubs puts the boxes into a world.
func (m *model) assembleSubs(b *built, w enclosure.World) []job.Finding {
	var found []job.Finding
	for i, s := range m.job.Subs {
		at := s.Place
		if boot := m.job.Car.Boot; s.Box.Type == "infinite_baffle" && boot.Separate {
			// The baffle is the wall between the two rooms, wherever the box
			// that stood there before was: the cone faces the cabin.
			at.XMM = math.Min(at.XMM, boot.XMM-50)
		}
		set := enclosure.Setting{Net: &b.net, Air: m.air, World: w, At: at, Lines: m.lines}
		u := newUnit(m.subs[i], s.Series, s.Parallel, s.Channel.Amplifier, i)
		p, err := enclosure.Assemble(set, u, s.Box)
		if err != nil {
			found = append(found, job.Errorf(fmt.Sprintf("/subs/%d/box", i), "%s", job.Sentence(err)))
		}
		if s.Box.Type == "infinite_baffle" && !m.job.Car.Boot.Separate {
			found = append(found, job.Warnf(fmt.Sprintf("/subs/%d/box/type", i),
				"An infinite baffle needs a closed boot behind it. In this car both sides of the cone are in one room and undo each other: build a box, or say that the boot is separate."))
		}
		if say := p.Gap.Say(); say != "" {
			found = append(found, job.Warnf(fmt.Sprintf("/subs/%d/place/gap_mm", i), "%s", say))
		}
		if say := enclosure.SagSay(p.SagM, m.subs[i].Xmax); say != "" {
			found = append(found, job.Warnf(fmt.Sprintf("/subs/%d/place/fires", i), "%s", say))
		}
		b.subs = append(b.subs, p)
	}
	return found
}

// assembleDoors puts the pair of door speakers into a world.
func (m *model) assembleDoors(b *built, w enclosure.World) {
	d := m.job.Doors
	if !d.Fitted {
		return
	}
	u := newUnit(m.door, 1, 1, d.Channel.Amplifier, len(m.job.Subs))
	for _, at := range []job.Place{d.Place, mirrored(d.Place)} {
		set := enclosure.Setting{Net: &b.net, Air: m.air, World: w, At: at}
		b.doors = append(b.doors, addDoor(set, u, d))
	}
}

// prefixed moves findings under a pointer.
func prefixed(at string, found []job.Finding) []job.Finding {
	out := make([]job.Finding, len(found))
	for i, f := range found {
		f.At = at + f.At
		out[i] = f
	}
	return out
}

// varied returns the driver at its place within the tolerances.
func (m *model) varied(d driver.Driver) driver.Driver {
	if m.vary.Driver == nil {
		return d
	}
	t := m.job.Tolerance
	return d.Perturb(driver.Tolerances{Fs: t.FsPct / 100, Q: t.QPct / 100, Vas: t.VasPct / 100}, m.vary.Driver)
}
