package job

// The one place for what each value may be. Spans are wide: they keep out what
// cannot be meant or would break the arithmetic, and leave judgement to the
// reader. The usual spans are common practice, no source, unless a comment
// says otherwise.

// Longest lists and texts.
const (
	MaxSubs     = 8
	MaxSeats    = 8
	MinStations = 3
	MaxStations = 8
	MaxOpenings = 8
	MaxFilters  = 16
	MaxSegments = 24
	MaxMusic    = 16
	MaxAssumed  = 1000
	MaxDrivers  = 16 // drivers in one box
)

var (
	fires     = []string{"up", "down", "front", "rear", "left", "right"}
	boxTypes  = []string{"sealed", "vented", "infinite_baffle", "passive_radiator", "bandpass4", "bandpass6_series", "bandpass6_parallel", "line", "aperiodic"}
	seatIDs   = []string{"wheel", "passenger", "rear_right", "rear_left", "rear_middle"}
	portEnds  = []string{"flanged_free", "flanged_flanged", "free_free", "wall"}
	passKinds = []string{"highpass", "lowpass"}
)

var rootRules = sheet[Job]{
	texts: []text[Job]{
		{"title", "the title", 200, func(j *Job) string { return j.Title }},
		{"notes", "the notes", 8000, func(j *Job) string { return j.Notes }},
	},
}

// The span of the air is that over which the cited air models are stated or
// nearly so, widened to the weather that a parked car meets.
var airRules = sheet[Air]{numbers: []number[Air]{
	num("temperature_c", "the air temperature", "°C", -30, 60, func(a *Air) *float64 { return &a.TemperatureC }),
	num("humidity_pct", "the relative humidity", "%", 0, 100, func(a *Air) *float64 { return &a.HumidityPct }),
	num("pressure_pa", "the air pressure", "Pa", 50000, 110000, func(a *Air) *float64 { return &a.PressurePa }),
}}

var carRules = sheet[Car]{words: []word[Car]{
	{key: "body", label: "the body style", choices: BodyKeys(), get: func(c *Car) string { return c.Body }},
}}

func cuboid(c *Cabin) bool { return c.Shape == "cuboid" }

var cabinRules = sheet[Cabin]{
	numbers: []number[Cabin]{
		num("length_mm", "the length of the cabin", "mm", 600, 8000, func(c *Cabin) *float64 { return &c.LengthMM }).onlyIf(cuboid),
		num("width_mm", "the width of the cabin", "mm", 600, 3000, func(c *Cabin) *float64 { return &c.WidthMM }).onlyIf(cuboid),
		num("height_mm", "the height of the cabin", "mm", 400, 3000, func(c *Cabin) *float64 { return &c.HeightMM }).onlyIf(cuboid),
	},
	words: []word[Cabin]{
		{key: "shape", label: "the way the cabin is described", choices: []string{"cuboid", "stations"}, get: func(c *Cabin) string { return c.Shape }},
	},
}

var stationRules = sheet[Station]{numbers: []number[Station]{
	num("x_mm", "the place along the car", "mm", 0, 8000, func(s *Station) *float64 { return &s.XMM }),
	num("floor_mm", "the floor height", "mm", 0, 2000, func(s *Station) *float64 { return &s.FloorMM }),
	num("roof_mm", "the roof height", "mm", 100, 3000, func(s *Station) *float64 { return &s.RoofMM }),
	num("width_mm", "the width", "mm", 200, 3000, func(s *Station) *float64 { return &s.WidthMM }),
}}

func separate(b *Boot) bool { return b.Separate }

var bootRules = sheet[Boot]{numbers: []number[Boot]{
	num("x_mm", "the place where the boot floor begins", "mm", 0, 8000, func(b *Boot) *float64 { return &b.XMM }),
	num("length_mm", "the length of the boot floor", "mm", 100, 6000, func(b *Boot) *float64 { return &b.LengthMM }),
	num("width_mm", "the width of the boot", "mm", 200, 3000, func(b *Boot) *float64 { return &b.WidthMM }),
	num("height_mm", "the height of the boot", "mm", 100, 3000, func(b *Boot) *float64 { return &b.HeightMM }),
	num("floor_mm", "the height of the boot floor", "mm", -500, 2000, func(b *Boot) *float64 { return &b.FloorMM }),
	num("seat_slope_deg", "the lean of the seat back", "°", 0, 60, func(b *Boot) *float64 { return &b.SeatSlopeDeg }),
	num("opening_width_mm", "the width of the boot opening", "mm", 100, 3000, func(b *Boot) *float64 { return &b.OpeningWidthMM }),
	num("opening_height_mm", "the height of the boot opening", "mm", 50, 3000, func(b *Boot) *float64 { return &b.OpeningHeightMM }),
	num("hatch_cm2", "the free area between boot and cabin", "cm²", 1, 10000, func(b *Boot) *float64 { return &b.HatchCM2 }).orZero().onlyIf(separate),
	num("seat_back_kg_m2", "the mass of the seat-back panel per area", "kg/m²", 1, 100, func(b *Boot) *float64 { return &b.SeatBackKgM2 }).orZero().onlyIf(separate),
	num("wheel_arches_mm", "the width between the wheel arches", "mm", 200, 3000, func(b *Boot) *float64 { return &b.WheelArchesMM }).orZero(),
}}

var finishRules = sheet[Finish]{
	numbers: []number[Finish]{
		num("glass_pct", "the share of glass", "%", 0, 100, func(f *Finish) *float64 { return &f.GlassPct }),
		num("leak_cm2", "the area of all small gaps of the body", "cm²", 0, 5000, func(f *Finish) *float64 { return &f.LeakCM2 }),
		num("panel_give_pct", "the give of the panels", "%", 0, 300, func(f *Finish) *float64 { return &f.PanelGivePct }),
	},
	words: []word[Finish]{
		{key: "floor", label: "the finish of the floor", choices: FinishKeys(), get: func(f *Finish) string { return f.Floor }},
		{key: "roof", label: "the finish of the roof", choices: FinishKeys(), get: func(f *Finish) string { return f.Roof }},
		{key: "sides", label: "the finish of the sides", choices: FinishKeys(), get: func(f *Finish) string { return f.Sides }},
		{key: "front", label: "the finish of the front", choices: FinishKeys(), get: func(f *Finish) string { return f.Front }},
		{key: "rear", label: "the finish of the rear", choices: FinishKeys(), get: func(f *Finish) string { return f.Rear }},
	},
}

var openingRules = sheet[Opening]{
	numbers: []number[Opening]{
		num("area_cm2", "the open area", "cm²", 1, 60000, func(o *Opening) *float64 { return &o.AreaCM2 }),
		num("x_mm", "the place along the car", "mm", 0, 8000, func(o *Opening) *float64 { return &o.XMM }),
		num("y_mm", "the place across the car", "mm", -1500, 1500, func(o *Opening) *float64 { return &o.YMM }),
		num("z_mm", "the height", "mm", 0, 3000, func(o *Opening) *float64 { return &o.ZMM }),
	},
	words: []word[Opening]{
		{key: "kind", label: "the kind of opening", choices: []string{"window", "sunroof", "tailgate", "roof_off"}, get: func(o *Opening) string { return o.Kind }},
	},
}

var seatRules = sheet[Seat]{
	numbers: []number[Seat]{
		num("x_mm", "the place of the ears along the car", "mm", 0, 8000, func(s *Seat) *float64 { return &s.XMM }),
		num("y_mm", "the place of the ears across the car", "mm", -1500, 1500, func(s *Seat) *float64 { return &s.YMM }),
		num("z_mm", "the height of the ears", "mm", 100, 2500, func(s *Seat) *float64 { return &s.ZMM }),
	},
	words: []word[Seat]{
		{key: "id", label: "the name of the seat", choices: seatIDs, get: func(s *Seat) string { return s.ID }},
	},
}

var learnedRules = sheet[Learned]{
	numbers: []number[Learned]{
		num("leak_scale", "the learned factor on the leak", "", 0.01, 100, func(l *Learned) *float64 { return &l.LeakScale }),
		num("damping_scale", "the learned factor on the damping", "", 0.05, 20, func(l *Learned) *float64 { return &l.DampingScale }),
		num("volume_scale", "the learned factor on the volume", "", 0.3, 3, func(l *Learned) *float64 { return &l.VolumeScale }),
		num("level_db", "the learned change of level", "dB", -40, 40, func(l *Learned) *float64 { return &l.LevelDB }),
	},
	texts: []text[Learned]{{"on", "the date of the measurement", 40, func(l *Learned) string { return l.On }}},
}

var subRules = sheet[Sub]{
	numbers: []number[Sub]{
		count("series", "the number of drivers in series", 1, MaxDrivers, func(s *Sub) int { return s.Series }),
		count("parallel", "the number of strings in parallel", 1, MaxDrivers, func(s *Sub) int { return s.Parallel }),
	},
	texts: []text[Sub]{{"id", "the short name", 40, func(s *Sub) string { return s.ID }}},
}

var doorRules = sheet[Doors]{numbers: []number[Doors]{
	num("volume_l", "the air in one door", "L", 1, 300, func(d *Doors) *float64 { return &d.VolumeL }),
	num("leak_cm2", "the area of the holes in the door's inner skin", "cm²", 0, 2000, func(d *Doors) *float64 { return &d.LeakCM2 }),
}}

var driverRules = sheet[Driver]{
	numbers: []number[Driver]{
		num("re_ohm", "the coil resistance Re", "ohm", 0.1, 100, func(d *Driver) *float64 { return d.ReOhm }),
		num("fs_hz", "the free-air resonance fs", "Hz", 5, 500, func(d *Driver) *float64 { return d.FsHz }),
		num("qes", "the electrical Q, Qes", "", 0.05, 10, func(d *Driver) *float64 { return d.Qes }),
		num("qms", "the mechanical Q, Qms", "", 0.3, 50, func(d *Driver) *float64 { return d.Qms }),
		num("qts", "the total Q, Qts", "", 0.05, 10, func(d *Driver) *float64 { return d.Qts }),
		num("vas_l", "the compliance volume Vas", "L", 0.1, 2000, func(d *Driver) *float64 { return d.VasL }),
		num("sd_cm2", "the cone area Sd", "cm²", 5, 5000, func(d *Driver) *float64 { return d.SdCM2 }),
		num("bl_tm", "the force factor Bl", "T m", 0.3, 150, func(d *Driver) *float64 { return d.BlTm }),
		num("mms_g", "the moving mass Mms", "g", 0.5, 3000, func(d *Driver) *float64 { return d.MmsG }),
		num("cms_mm_n", "the compliance Cms", "mm/N", 0.005, 10, func(d *Driver) *float64 { return d.CmsMMN }),
		num("rms_kg_s", "the mechanical resistance Rms", "kg/s", 0.05, 200, func(d *Driver) *float64 { return d.RmsKgS }),
		num("le_mh", "the coil inductance Le", "mH", 0, 50, func(d *Driver) *float64 { return d.LeMH }),
		num("l2_mh", "the second coil inductance L2", "mH", 0, 100, func(d *Driver) *float64 { return d.L2MH }),
		num("r2_ohm", "the resistance across L2", "ohm", 0, 1000, func(d *Driver) *float64 { return d.R2Ohm }),
		num("semi_k", "the semi-inductance K", "ohm s^n", 0, 10, func(d *Driver) *float64 { return d.SemiK }),
		num("semi_n", "the exponent of the semi-inductance", "", 0.3, 1, func(d *Driver) *float64 { return d.SemiN }),
		num("xmax_mm", "the cone travel Xmax", "mm", 0.3, 100, func(d *Driver) *float64 { return d.XmaxMM }),
		num("power_w", "the thermal power rating", "W", 1, 20000, func(d *Driver) *float64 { return d.PowerW }),
		num("size_in", "the nominal size", "in", 2, 36, func(d *Driver) *float64 { return d.SizeIn }),
		num("depth_mm", "the mounting depth", "mm", 10, 700, func(d *Driver) *float64 { return d.DepthMM }),
		num("cut_out_mm", "the cut-out diameter", "mm", 40, 900, func(d *Driver) *float64 { return d.CutOutMM }),
		num("outside_mm", "the outside diameter", "mm", 45, 1000, func(d *Driver) *float64 { return d.OutsideMM }),
		num("volume_l", "the air the driver takes up", "L", 0, 50, func(d *Driver) *float64 { return d.VolumeL }),
		num("mass_kg", "the mass", "kg", 0.05, 150, func(d *Driver) *float64 { return d.MassKg }),
		num("price", "the price", "", 0, 1e6, func(d *Driver) *float64 { return d.Price }),
		count("coils", "the number of voice coils", 0, 4, func(d *Driver) int { return d.Coils }),
		num("coil_ohm", "the nominal impedance of one coil", "ohm", 0.25, 100, func(d *Driver) *float64 { return d.CoilOhm }),
	},
	texts: []text[Driver]{{"name", "the name of the driver", 120, func(d *Driver) string { return d.Name }}},
}

func bandpass(b *Box) bool {
	return b.Type == "bandpass4" || b.Type == "bandpass6_series" || b.Type == "bandpass6_parallel"
}

func hasRear(b *Box) bool { return b.Type != "infinite_baffle" && b.Type != "line" }
func isLine(b *Box) bool  { return b.Type == "line" }

// Small (JAES 1973) reports box losses QL mostly between 5 and 10 for vented
// boxes of 25 to 100 litres; tighter and leakier ones are built.
var boxRules = sheet[Box]{
	numbers: []number[Box]{
		num("net_l", "the net volume of the box", "L", 0.5, 2000, func(b *Box) *float64 { return &b.NetL }).onlyIf(hasRear),
		num("front_l", "the volume of the front chamber", "L", 0.5, 2000, func(b *Box) *float64 { return &b.FrontL }).onlyIf(bandpass),
		num("lining", "the share of lining or stuffing", "", 0, 1, func(b *Box) *float64 { return &b.Lining }),
		num("ql", "the leak loss QL of the box", "", 1, 1000, func(b *Box) *float64 { return &b.QL }).orZero(),
		num("qa", "the absorption loss QA of the box", "", 1, 1000, func(b *Box) *float64 { return &b.QA }).orZero(),
		num("tap_mm", "the place of the cone on the line", "mm", 0, 10000, func(b *Box) *float64 { return &b.TapMM }).onlyIf(isLine),
		num("panel_mm", "the thickness of the panels", "mm", 3, 60, func(b *Box) *float64 { return &b.PanelMM }).usual(9, 30),
		num("width_mm", "the outside width of the box", "mm", 50, 3000, func(b *Box) *float64 { return &b.WidthMM }).orZero(),
		num("height_mm", "the outside height of the box", "mm", 50, 3000, func(b *Box) *float64 { return &b.HeightMM }).orZero(),
		num("depth_mm", "the outside depth of the box", "mm", 50, 3000, func(b *Box) *float64 { return &b.DepthMM }).orZero(),
	},
	words: []word[Box]{
		{key: "type", label: "the type of box", choices: boxTypes, get: func(b *Box) string { return b.Type }},
		{key: "form", label: "the form of the box", choices: []string{"cuboid", "wedge", "slab"}, get: func(b *Box) string { return b.Form }, mayBeEmpty: true},
	},
}

func round(p *Port) bool { return p.Shape == "round" }
func slot(p *Port) bool  { return p.Shape == "slot" }

var portRules = sheet[Port]{
	numbers: []number[Port]{
		count("count", "the number of ports", 1, 8, func(p *Port) int { return p.Count }),
		num("diameter_mm", "the diameter of the port", "mm", 10, 600, func(p *Port) *float64 { return &p.DiameterMM }).onlyIf(round),
		num("width_mm", "the width of the slot port", "mm", 5, 2000, func(p *Port) *float64 { return &p.WidthMM }).onlyIf(slot),
		num("height_mm", "the height of the slot port", "mm", 5, 2000, func(p *Port) *float64 { return &p.HeightMM }).onlyIf(slot),
		num("length_mm", "the length of the port", "mm", 3, 5000, func(p *Port) *float64 { return &p.LengthMM }).orZero(),
		num("tuning_hz", "the tuning of the port", "Hz", 5, 300, func(p *Port) *float64 { return &p.TuningHz }).orZero(),
		num("qp", "the port loss QP", "", 1, 1000, func(p *Port) *float64 { return &p.QP }).orZero(),
	},
	words: []word[Port]{
		{key: "shape", label: "the shape of the port", choices: []string{"round", "slot"}, get: func(p *Port) string { return p.Shape }},
		{key: "ends", label: "the ends of the port", choices: portEnds, get: func(p *Port) string { return p.Ends }},
	},
}

var passiveRules = sheet[Passive]{numbers: []number[Passive]{
	count("count", "the number of passive radiators", 1, 8, func(p *Passive) int { return p.Count }),
	num("sd_cm2", "the area of the passive radiator", "cm²", 5, 5000, func(p *Passive) *float64 { return &p.SdCM2 }),
	num("mass_g", "the moving mass of the passive radiator", "g", 1, 5000, func(p *Passive) *float64 { return &p.MassG }),
	num("added_g", "the mass added to the passive radiator", "g", 0, 10000, func(p *Passive) *float64 { return &p.AddedG }),
	num("free_hz", "the free-air resonance of the passive radiator", "Hz", 1, 300, func(p *Passive) *float64 { return &p.FreeHz }),
	num("qmp", "the Q of the passive radiator, Qmp", "", 0.3, 100, func(p *Passive) *float64 { return &p.Qmp }),
	num("xmax_mm", "the travel of the passive radiator", "mm", 0.3, 150, func(p *Passive) *float64 { return &p.XmaxMM }),
}}

var segmentRules = sheet[Segment]{numbers: []number[Segment]{
	num("length_mm", "the length of the piece", "mm", 5, 10000, func(s *Segment) *float64 { return &s.LengthMM }),
	num("start_cm2", "the area at the start of the piece", "cm²", 1, 20000, func(s *Segment) *float64 { return &s.StartCM2 }),
	num("end_cm2", "the area at the end of the piece", "cm²", 1, 20000, func(s *Segment) *float64 { return &s.EndCM2 }),
	num("stuffing", "the stuffing of the piece", "kg/m³", 0, 60, func(s *Segment) *float64 { return &s.Stuffing }),
}}

var aperiodicRules = sheet[Aperiodic]{numbers: []number[Aperiodic]{
	num("area_cm2", "the area of the resistive vent", "cm²", 0.5, 5000, func(a *Aperiodic) *float64 { return &a.AreaCM2 }),
	num("resistance_pa_s_m", "the flow resistance of the vent's mat", "Pa s/m", 1, 1e6, func(a *Aperiodic) *float64 { return &a.Resistance }),
}}

var placeRules = sheet[Place]{
	numbers: []number[Place]{
		num("x_mm", "the place along the car", "mm", 0, 8000, func(p *Place) *float64 { return &p.XMM }),
		num("y_mm", "the place across the car", "mm", -1500, 1500, func(p *Place) *float64 { return &p.YMM }),
		num("z_mm", "the height", "mm", -500, 3000, func(p *Place) *float64 { return &p.ZMM }),
		num("gap_mm", "the gap in front of the cone", "mm", 5, 3000, func(p *Place) *float64 { return &p.GapMM }).orZero(),
	},
	words: []word[Place]{
		{key: "fires", label: "the way it fires", choices: fires, get: func(p *Place) string { return p.Fires }},
	},
}

var channelRules = sheet[Channel]{numbers: []number[Channel]{
	num("gain_db", "the gain of the channel", "dB", -60, 24, func(c *Channel) *float64 { return &c.GainDB }),
	num("delay_ms", "the delay of the channel", "ms", 0, 100, func(c *Channel) *float64 { return &c.DelayMS }).usual(0, 20),
}}

func passes(f *Filter) bool { return has(passKinds, f.Kind) }
func shapes(f *Filter) bool { return !passes(f) }

var filterRules = sheet[Filter]{
	numbers: []number[Filter]{
		num("freq_hz", "the frequency of the filter", "Hz", 5, 20000, func(f *Filter) *float64 { return &f.FreqHz }),
		count("order", "the order of the filter", 1, 8, func(f *Filter) int { return f.Order }).onlyIf(passes),
		num("gain_db", "the gain of the filter", "dB", -30, 30, func(f *Filter) *float64 { return &f.GainDB }).onlyIf(shapes).usual(-15, 9),
		num("q", "the Q of the filter", "", 0.1, 30, func(f *Filter) *float64 { return &f.Q }).onlyIf(shapes),
	},
	words: []word[Filter]{
		{key: "kind", label: "the kind of filter", choices: []string{"highpass", "lowpass", "peak", "low_shelf", "high_shelf"}, get: func(f *Filter) string { return f.Kind }},
		{key: "shape", label: "the shape of the filter", choices: []string{"butterworth", "linkwitz_riley", "bessel"}, get: func(f *Filter) string { return f.Shape }, when: passes},
	},
}

var amplifierRules = sheet[Amplifier]{numbers: []number[Amplifier]{
	num("rated_w", "the rated power of the amplifier", "W", 1, 20000, func(a *Amplifier) *float64 { return &a.RatedW }),
	num("rated_ohm", "the load at which the power is rated", "ohm", 0.25, 32, func(a *Amplifier) *float64 { return &a.RatedOhm }),
	num("min_ohm", "the lowest load of the amplifier", "ohm", 0.1, 32, func(a *Amplifier) *float64 { return &a.MinOhm }),
	num("output_ohm", "the output resistance of the amplifier", "ohm", 0, 5, func(a *Amplifier) *float64 { return &a.OutputOhm }),
	num("cable_m", "the length of the speaker cable", "m", 0, 50, func(a *Amplifier) *float64 { return &a.CableM }),
	num("cable_mm2", "the copper area of the speaker cable", "mm²", 0.2, 200, func(a *Amplifier) *float64 { return &a.CableMM2 }),
	num("supply_v", "the supply voltage", "V", 6, 60, func(a *Amplifier) *float64 { return &a.SupplyV }),
	num("efficiency_pct", "the efficiency of the amplifier", "%", 5, 99, func(a *Amplifier) *float64 { return &a.EfficiencyP }),
}}

var aimRules = sheet[Aim]{
	numbers: []number[Aim]{
		num("lowest_hz", "the lowest note asked for", "Hz", 5, 200, func(a *Aim) *float64 { return &a.Lowest }),
		num("level_db", "the level asked for", "dB", 60, 160, func(a *Aim) *float64 { return &a.LevelDB }),
		num("boot_pct", "the share of the boot to give up", "%", 0, 100, func(a *Aim) *float64 { return &a.BootPct }),
		num("budget", "the budget", "", 0, 1e7, func(a *Aim) *float64 { return &a.Budget }),
	},
	words: []word[Aim]{{key: "seat", label: "the seat that counts most", choices: seatIDs, get: func(a *Aim) string { return a.SeatID }}},
}

var toleranceRules = sheet[Tolerance]{numbers: []number[Tolerance]{
	num("fs_pct", "the tolerance of fs", "%", 0, 60, func(t *Tolerance) *float64 { return &t.FsPct }),
	num("q_pct", "the tolerance of the Q values", "%", 0, 60, func(t *Tolerance) *float64 { return &t.QPct }),
	num("vas_pct", "the tolerance of Vas", "%", 0, 60, func(t *Tolerance) *float64 { return &t.VasPct }),
	num("tape_mm", "the tolerance of the tape measure", "mm", 0, 300, func(t *Tolerance) *float64 { return &t.TapeMM }),
	num("leak_pct", "the tolerance of the leak", "%", 0, 95, func(t *Tolerance) *float64 { return &t.LeakPct }),
	num("damping_pct", "the tolerance of the damping", "%", 0, 95, func(t *Tolerance) *float64 { return &t.DampingPct }),
}}
