package bridge

import (
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// MapRequest asks for a picture of the pressure in the car at one frequency,
// or, with Modes above zero, for that many standing waves.
type MapRequest struct {
	Job   job.Job      `json:"job"`
	Hz    float64      `json:"hz"`
	Modes int          `json:"modes,omitempty"`
	Plane system.Plane `json:"plane"`
}

// TileMeta says where a picture's values lie in the car, in metres, and among
// the numbers. Values run row by row from the front of the car; those at
// system.Outside lie outside it.
type TileMeta struct {
	Room    string  `json:"room"`
	X0      float64 `json:"x0_m"`
	X1      float64 `json:"x1_m"`
	V0      float64 `json:"v0_m"`
	V1      float64 `json:"v1_m"`
	Columns int     `json:"columns"`
	Rows    int     `json:"rows"`
	Offset  int     `json:"offset"`
	Length  int     `json:"length"`
}

// Mapped is the reply to the call map: one tile for each room, or one for each
// mode.
type Mapped struct {
	Findings []job.Finding `json:"findings"`
	Tiles    []TileMeta    `json:"tiles"`
	Modes    []system.Mode `json:"modes,omitempty"`
	Outside  float64       `json:"outside"`
}

func (e *Engine) mapped(request []byte) (Reply, error) {
	var req MapRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	p := &req.Plane
	p.Columns, p.Rows = min(max(p.Columns, 8), 200), min(max(p.Rows, 8), 200)
	out := Mapped{Findings: job.Check(req.Job), Outside: system.Outside}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	var tiles []system.Tile
	var found []job.Finding
	if req.Modes > 0 {
		out.Modes, found = e.solver.ModeMaps(req.Job, min(req.Modes, 30), *p)
		for _, m := range out.Modes {
			tiles = append(tiles, m.Tile)
		}
	} else {
		if !(req.Hz >= 5 && req.Hz <= 1000) {
			return Reply{}, &Error{BadRequest, "The frequency of the picture must lie between 5 and 1000 Hz."}
		}
		var m *system.Map
		if m, found = e.solver.PressureMap(req.Job, req.Hz, *p); m != nil {
			tiles = m.Tiles
		}
	}
	out.Findings = append(out.Findings, found...)
	var floats []float64
	for _, t := range tiles {
		out.Tiles = append(out.Tiles, TileMeta{t.Room, t.X0, t.X1, t.V0, t.V1, t.Columns, t.Rows, len(floats), len(t.Values)})
		floats = append(floats, t.Values...)
	}
	return reply(out, floats)
}
