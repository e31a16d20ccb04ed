package design

import (
	"fmt"
	"math"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/job"
)

// Room is where a box may stand in a boot, and how much of the boot may go.
type Room struct {
	Space carpentry.Space
	// FootMM is where the front of the space stands along the car, MiddleMM
	// its middle across the car and FloorMM its height, in the axes of the
	// document.
	FootMM, MiddleMM, FloorMM float64
	// SlopeDeg is the lean of the seat back, for a wedge against it. Zero
	// where the space does not begin at the seat.
	SlopeDeg float64
	// MostM3 is the outside volume that may go; zero is as much as fits.
	MostM3 float64
	// BootM3 is the whole boot, of which the space may be a part.
	BootM3 float64
	// OpeningW and OpeningH are the opening to pass, m; zero is not known.
	OpeningW, OpeningH float64
}

// Patch is a part of the boot floor that may be taken: a rectangle that begins
// FromSeatMM behind the foot of the seat back, with its middle MiddleMM to the
// right of the centre line, and the height that may be used. Zero measures are
// those of the boot.
type Patch struct {
	FromSeatMM float64 `json:"from_seat_mm,omitempty"`
	MiddleMM   float64 `json:"middle_mm,omitempty"`
	LengthMM   float64 `json:"length_mm,omitempty"`
	WidthMM    float64 `json:"width_mm,omitempty"`
	HeightMM   float64 `json:"height_mm,omitempty"`
}

// RoomOf returns the room in the boot of a job, of which the share that its
// aim allows may go. A share of zero leaves the question open: all of it.
func RoomOf(j job.Job) (Room, error) {
	b := j.Car.Boot
	s, err := carpentry.SpaceFromBoot(b)
	if err != nil {
		return Room{}, err
	}
	r := Room{
		Space: s, FootMM: b.XMM, FloorMM: b.FloorMM, BootM3: s.M3(),
		OpeningW: b.OpeningWidthMM / 1000, OpeningH: b.OpeningHeightMM / 1000,
	}
	if !b.SeatsFolded {
		r.SlopeDeg = b.SeatSlopeDeg
	}
	if p := j.Aim.BootPct; p > 0 && p < 100 {
		r.MostM3 = p / 100 * s.M3()
	}
	return r, nil
}

// Cut returns the part of a room over a patch of its floor; all of that part
// may go. The error says which measure leaves nothing.
func (r Room) Cut(p Patch) (Room, error) {
	length, width := r.Space.Length(), r.Space.Width
	from := math.Max(p.FromSeatMM/1000, 0)
	to := length
	if p.LengthMM > 0 {
		to = math.Min(length, from+p.LengthMM/1000)
	}
	if to-from < 0.05 {
		return r, fmt.Errorf("the part of the boot floor marked is %.0f mm long; a box needs at least 50 mm", math.Max(0, to-from)*1000)
	}
	out := r
	out.MostM3 = 0
	out.FootMM += 1000 * from
	if p.WidthMM > 0 {
		half := width / 2
		left := math.Max(-half, p.MiddleMM/1000-p.WidthMM/2000)
		right := math.Min(half, p.MiddleMM/1000+p.WidthMM/2000)
		if right-left < 0.05 {
			return r, fmt.Errorf("the part of the boot floor marked is %.0f mm wide; a box needs at least 50 mm", math.Max(0, right-left)*1000)
		}
		out.Space.Width = right - left
		out.MiddleMM += 500 * (left + right)
	}
	top := math.Inf(1)
	if p.HeightMM > 0 {
		top = p.HeightMM / 1000
	}
	out.Space.Ceiling = crop(r.Space, r.Space.Ceiling[0].X+from, r.Space.Ceiling[0].X+to, top)
	if from > 0.02 {
		out.SlopeDeg = 0
	}
	return out, nil
}

// crop returns the ceiling between two places under a lid, moved to begin at
// zero.
func crop(s carpentry.Space, from, to, top float64) []carpentry.Point {
	xs := []float64{from}
	for i, c := range s.Ceiling {
		if i > 0 {
			// Where the ceiling passes through the lid is a corner as well.
			a := s.Ceiling[i-1]
			if (a.Z-top)*(c.Z-top) < 0 {
				xs = append(xs, a.X+(top-a.Z)/(c.Z-a.Z)*(c.X-a.X))
			}
		}
		xs = append(xs, c.X)
	}
	xs = append(xs, to)
	var out []carpentry.Point
	for _, x := range xs {
		if x < from || x > to || (len(out) > 0 && x-from <= out[len(out)-1].X) {
			continue
		}
		out = append(out, carpentry.Point{X: x - from, Z: math.Min(s.HeightAt(x), top)})
	}
	return out
}

// clear returns from where on, m from the front of the space, it is at least
// height high all the way to its rear; false where it never is.
func (r Room) clear(height float64) (float64, bool) {
	c := r.Space.Ceiling
	const slack = 1e-9
	at := c[len(c)-1].X
	for i := len(c) - 1; i >= 0; i-- {
		if c[i].Z < height-slack {
			if i == len(c)-1 {
				return 0, false
			}
			n := c[i+1]
			return c[i].X + (height-c[i].Z)/(n.Z-c[i].Z)*(n.X-c[i].X) - c[0].X, true
		}
		at = c[i].X
	}
	return at - c[0].X, true
}

// bafflePlace returns where a cone sits in the panel between cabin and boot:
// at the foot of the shelf, on the cabin's side of where the boot begins. A
// place already there is kept, as is any in a car without a boot of its own.
func bafflePlace(car job.Car, at job.Place) job.Place {
	b := car.Boot
	if !b.Separate || at.XMM < b.XMM {
		return at
	}
	const inFront, above = 30, 60 // mm
	x := b.XMM - inFront
	return job.Place{XMM: x, YMM: 0, ZMM: math.Round(car.Cabin.Section(x).FloorMM + above), Fires: "front"}
}
