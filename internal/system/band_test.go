package system

import (
	"context"
	"math"
	"testing"

	"bootfloor/internal/job"
)

// carOf is the job with a variation of its car written into the document, so
// that the cavity is solved anew.
func carOf(j job.Job, v Variation) job.Job {
	c := &j.Car.Cabin
	c.Stations = append([]job.Station(nil), c.Stations...)
	for i := range c.Stations {
		s := &c.Stations[i]
		s.XMM, s.FloorMM, s.RoofMM, s.WidthMM = s.XMM*v.Length, s.FloorMM*v.Length, s.RoofMM*v.Length, s.WidthMM*v.Length
	}
	move := func(x, y, z *float64) { *x, *y, *z = *x*v.Length, *y*v.Length, *z*v.Length }
	j.Car.Seats = append([]job.Seat(nil), j.Car.Seats...)
	for i := range j.Car.Seats {
		s := &j.Car.Seats[i]
		move(&s.XMM, &s.YMM, &s.ZMM)
	}
	j.Subs = append([]job.Sub(nil), j.Subs...)
	for i := range j.Subs {
		p := &j.Subs[i].Place
		move(&p.XMM, &p.YMM, &p.ZMM)
	}
	p := &j.Doors.Place
	move(&p.XMM, &p.YMM, &p.ZMM)
	j.Car.Finish.LeakCM2 *= v.Leak
	j.Car.Learned = &job.Learned{LeakScale: 1, DampingScale: v.Damping, VolumeScale: 1}
	return j
}

// A band takes one cavity for all its cars: scaled in length, with the mouth of
// the leak as large as stated. Its edges against those of as many cars, each
// solved anew with its own leak and dimensions. Where only leak, damping and
// driver vary they agree closely; with the dimensions, seats, people and boxes
// keep their size and mouths fall on another place of their raster.
func TestBandAgainstEveryCarSolved(t *testing.T) {
	for _, car := range steepCars[:2] {
		for _, tape := range []bool{false, true} {
			j, share := withStations(car.stations), 0.2
			if !tape {
				j.Assumed, j.Tolerance.TapeMM, share = nil, 0, 0.01
			}
			b, found := NewSolver().Band(context.Background(), j, BandSamples, nil)
			if b == nil {
				t.Fatal(found)
			}
			var solved []*Response
			for _, v := range Variations(likely(j), meanM(j.Car.Cabin), BandSamples) {
				r, found := NewSolver().respond(carOf(j, v), BandGrid, Variation{Length: 1, Leak: 1, Damping: 1, Driver: v.Driver})
				if r == nil {
					t.Fatal(found)
				}
				solved = append(solved, r)
			}
			low, high := edges(solved)
			for i, c := range b.Low {
				if c.ID != "level/sub/wheel" && c.ID != "level/sum/wheel" {
					continue
				}
				var square, width float64
				for k := range b.Hz {
					a, z := c.Values[k]-low[i].Values[k], b.High[i].Values[k]-high[i].Values[k]
					square += (a*a + z*z) / 2
					width += b.High[i].Values[k] - c.Values[k]
				}
				rms, width := math.Sqrt(square/float64(len(b.Hz))), width/float64(len(b.Hz))
				t.Logf("%s, %s, dimensions vary %t: edges %.3f dB rms apart, the band %.1f dB wide", car.name, c.ID, tape, rms, width)
				if rms > share*width {
					t.Errorf("%s, %s, dimensions vary %t: the edges are %.3f dB rms off, the band is %.1f dB wide", car.name, c.ID, tape, rms, width)
				}
			}
		}
	}
}
