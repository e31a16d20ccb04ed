package system

import (
	"math"

	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
)

// Plane is a cut through the car.
type Plane struct {
	Side    bool    `json:"side"`  // along the car and upward; else the plan view
	AtMM    float64 `json:"at_mm"` // distance from the centre line, or height
	Columns int     `json:"columns"`
	Rows    int     `json:"rows"`
}

// Tile is a cut through one room.
type Tile struct {
	Room    string // cabin | boot
	X0, X1  float64
	V0, V1  float64 // height or distance from the centre line, m
	Columns int
	Rows    int
	Values  []float64 // row by row from the front; see Outside
}

// Outside marks a point of a tile that lies outside the car.
const Outside = -1e4

// Map is what is heard, or how a mode moves, over a plane.
type Map struct {
	Hz    float64
	Tiles []Tile
}

// PressureMap returns the level (dB re 20 uPa) over a plane at one frequency,
// with every channel at full drive.
func (s *Solver) PressureMap(j job.Job, hz float64, p Plane) (*Map, []job.Finding) {
	b, w, m, found := s.assemble(j, []float64{2 * math.Pi * hz}, asStated, true)
	if job.HasError(found) {
		return nil, found
	}
	c, ok := w.(*cabinWorld)
	if !ok {
		return nil, append(found, job.Errorf("/car/openings", "With the roof off there is no cabin to draw the pressure in."))
	}
	sol := b.net.Solve(m.omega)
	volts := make([]complex128, len(m.drives))
	for i := range volts {
		volts[i] = m.drives[i].volts[0]
	}
	out := &Map{Hz: hz}
	for _, r := range c.rooms() {
		g := grid(r.shape, p)
		flow := b.net.Inflow(sol, r.id, volts, 0)
		for i := range flow {
			flow[i] *= complex(r.scale, 0)
		}
		pressure, err := r.field.Pressure(m.omega[0], flow, g)
		if err != nil {
			return nil, append(found, job.Errorf("/car", "%s", job.Sentence(err)))
		}
		t := tile(r, c, p, g)
		for i, inside := range g.Inside {
			t.Values[i] = Outside
			if inside {
				t.Values[i] = decibels(pressure[i], Reference)
			}
		}
		out.Tiles = append(out.Tiles, t)
	}
	return out, found
}

// Mode is one standing wave of the empty cabin.
type Mode struct {
	Hz float64 `json:"hz"`
	// Seats gives the share of the wave's mean pressure at each seat, in the
	// order of the job: near zero is a null.
	Seats []float64 `json:"seats"`
	Tile  Tile      `json:"-"`
}

// ModeMaps returns the first n modes of the cabin (the uniform one left out),
// drawn over a plane.
func (s *Solver) ModeMaps(j job.Job, n int, p Plane) ([]Mode, []job.Finding) {
	shape := cabinShape(j.Car.Cabin)
	if err := shape.Validate(); err != nil {
		return nil, []job.Finding{job.Errorf("/car/cabin", "%s", job.Sentence(err))}
	}
	a, err := properties(j.Air)
	if err != nil {
		return nil, []job.Finding{job.Errorf("/air", "%s", job.Sentence(err))}
	}
	modes, err := s.modesOf(shape)
	if err != nil {
		return nil, []job.Finding{job.Errorf("/car/cabin", "%s", job.Sentence(err))}
	}
	g := grid(shape, p)
	var out []Mode
	for i := 1; i < modes.Len() && i <= n; i++ {
		m := Mode{Hz: modes.Wavenumber(i) * a.SpeedOfSound / (2 * math.Pi)}
		for _, seat := range j.Car.Seats {
			m.Seats = append(m.Seats, modes.Value(i, point(seat.XMM, seat.YMM, seat.ZMM)))
		}
		m.Tile = tile(&room{shape: shape}, nil, p, g)
		m.Tile.Values = modes.ModeShape(i, g)
		for k, inside := range g.Inside {
			if !inside {
				m.Tile.Values[k] = Outside
			}
		}
		out = append(out, m)
	}
	return out, nil
}

// rooms lists the cavities of the car.
func (w *cabinWorld) rooms() []*room {
	if w.boot == nil {
		return []*room{w.cabin}
	}
	return []*room{w.cabin, w.boot}
}

// grid lays the plane's points over a shape.
func grid(s cavity.Shape, p Plane) cavity.Grid {
	if p.Side {
		return s.SideGrid(p.AtMM*1e-3, p.Columns, p.Rows)
	}
	return s.PlanGrid(p.AtMM*1e-3, p.Columns, p.Rows)
}

// tile describes where a grid lies.
func tile(r *room, w *cabinWorld, p Plane, g cavity.Grid) Tile {
	t := Tile{Room: "cabin", Columns: g.Columns, Rows: g.Rows, Values: make([]float64, len(g.Points))}
	if w != nil && r == w.boot {
		t.Room = "boot"
	}
	st := r.shape.Stations
	t.X0, t.X1 = st[0].X, st[len(st)-1].X
	t.V0, t.V1 = math.Inf(1), math.Inf(-1)
	for _, x := range st {
		lo, hi := x.Floor, x.Roof
		if !p.Side {
			lo, hi = -x.Width/2, x.Width/2
		}
		t.V0, t.V1 = math.Min(t.V0, lo), math.Max(t.V1, hi)
	}
	return t
}
