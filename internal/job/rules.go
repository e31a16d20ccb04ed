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

var rootRules = sheet{
	texts: []text{
		{"title", "the title", 200},
		{"notes", "the notes", 8000},
	},
}

// The span of the air is that over which the cited air models are stated or
// nearly so, widened to the weather that a parked car meets.
var airRules = sheet{numbers: []number{
	num("temperature_c", "the air temperature", "°C", -30, 60),
	num("humidity_pct", "the relative humidity", "%", 0, 100),
	num("pressure_pa", "the air pressure", "Pa", 50000, 110000),
}}

var carRules = sheet{words: []word{
	{key: "body", label: "the body style", choices: BodyKeys()},
}}

func cuboid(c *Cabin) bool { return c.Shape == "cuboid" }

var cabinRules = sheet{
	numbers: []number{
		num("length_mm", "the length of the cabin", "mm", 600, 8000).onlyIf(is(cuboid)),
		num("width_mm", "the width of the cabin", "mm", 600, 3000).onlyIf(is(cuboid)),
		num("height_mm", "the height of the cabin", "mm", 400, 3000).onlyIf(is(cuboid)),
	},
	words: []word{
		{key: "shape", label: "the way the cabin is described", choices: []string{"cuboid", "stations"}},
	},
}

var stationRules = sheet{numbers: []number{
	num("x_mm", "the place along the car", "mm", 0, 8000),
	num("floor_mm", "the floor height", "mm", 0, 2000),
	num("roof_mm", "the roof height", "mm", 100, 3000),
	num("width_mm", "the width", "mm", 200, 3000),
}}

func separate(b *Boot) bool { return b.Separate }

var bootRules = sheet{numbers: []number{
	num("x_mm", "the place where the boot floor begins", "mm", 0, 8000),
	num("length_mm", "the length of the boot floor", "mm", 100, 6000),
	num("width_mm", "the width of the boot", "mm", 200, 3000),
	num("height_mm", "the height of the boot", "mm", 100, 3000),
	num("floor_mm", "the height of the boot floor", "mm", -500, 2000),
	num("seat_slope_deg", "the lean of the seat back", "°", 0, 60),
	num("opening_width_mm", "the width of the boot opening", "mm", 100, 3000),
	num("opening_height_mm", "the height of the boot opening", "mm", 50, 3000),
	num("hatch_cm2", "the free area between boot and cabin", "cm²", 1, 10000).orZero().onlyIf(is(separate)),
	num("seat_back_kg_m2", "the mass of the seat-back panel per area", "kg/m²", 1, 100).orZero().onlyIf(is(separate)),
	num("wheel_arches_mm", "the width between the wheel arches", "mm", 200, 3000).orZero(),
}}

var finishRules = sheet{
	numbers: []number{
		num("glass_pct", "the share of glass", "%", 0, 100),
		num("leak_cm2", "the area of all small gaps of the body", "cm²", 0, 5000),
		num("panel_give_pct", "the give of the panels", "%", 0, 300),
	},
	words: []word{
		{key: "floor", label: "the finish of the floor", choices: FinishKeys()},
		{key: "roof", label: "the finish of the roof", choices: FinishKeys()},
		{key: "sides", label: "the finish of the sides", choices: FinishKeys()},
		{key: "front", label: "the finish of the front", choices: FinishKeys()},
		{key: "rear", label: "the finish of the rear", choices: FinishKeys()},
	},
}

var openingRules = sheet{
	numbers: []number{
		num("area_cm2", "the open area", "cm²", 1, 60000),
		num("x_mm", "the place along the car", "mm", 0, 8000),
		num("y_mm", "the place across the car", "mm", -1500, 1500),
		num("z_mm", "the height", "mm", 0, 3000),
	},
	words: []word{
		{key: "kind", label: "the kind of opening", choices: []string{"window", "sunroof", "tailgate", "roof_off"}},
	},
}

var seatRules = sheet{
	numbers: []number{
		num("x_mm", "the place of the ears along the car", "mm", 0, 8000),
		num("y_mm", "the place of the ears across the car", "mm", -1500, 1500),
		num("z_mm", "the height of the ears", "mm", 100, 2500),
	},
	words: []word{
		{key: "id", label: "the name of the seat", choices: seatIDs},
	},
}

var learnedRules = sheet{
	numbers: []number{
		num("leak_scale", "the learned factor on the leak", "", 0.01, 100),
		num("damping_scale", "the learned factor on the damping", "", 0.05, 20),
		num("volume_scale", "the learned factor on the volume", "", 0.3, 3),
		num("level_db", "the learned change of level", "dB", -40, 40),
	},
	texts: []text{{"on", "the date of the measurement", 40}},
}

var subRules = sheet{
	numbers: []number{
		count("series", "the number of drivers in series", 1, MaxDrivers),
		count("parallel", "the number of strings in parallel", 1, MaxDrivers),
	},
	texts: []text{{"id", "the short name", 40}},
}

var doorRules = sheet{numbers: []number{
	num("volume_l", "the air in one door", "L", 1, 300),
	num("leak_cm2", "the area of the holes in the door's inner skin", "cm²", 0, 2000),
}}

var driverRules = sheet{
	numbers: []number{
		num("re_ohm", "the coil resistance Re", "ohm", 0.1, 100),
		num("fs_hz", "the free-air resonance fs", "Hz", 5, 500),
		num("qes", "the electrical Q, Qes", "", 0.05, 10),
		num("qms", "the mechanical Q, Qms", "", 0.3, 50),
		num("qts", "the total Q, Qts", "", 0.05, 10),
		num("vas_l", "the compliance volume Vas", "L", 0.1, 2000),
		num("sd_cm2", "the cone area Sd", "cm²", 5, 5000),
		num("bl_tm", "the force factor Bl", "T m", 0.3, 150),
		num("mms_g", "the moving mass Mms", "g", 0.5, 3000),
		num("cms_mm_n", "the compliance Cms", "mm/N", 0.005, 10),
		num("rms_kg_s", "the mechanical resistance Rms", "kg/s", 0.05, 200),
		num("le_mh", "the coil inductance Le", "mH", 0, 50),
		num("l2_mh", "the second coil inductance L2", "mH", 0, 100),
		num("r2_ohm", "the resistance across L2", "ohm", 0, 1000),
		num("semi_k", "the semi-inductance K", "ohm s^n", 0, 10),
		num("semi_n", "the exponent of the semi-inductance", "", 0.3, 1),
		num("xmax_mm", "the cone travel Xmax", "mm", 0.3, 100),
		num("power_w", "the thermal power rating", "W", 1, 20000),
		num("size_in", "the nominal size", "in", 2, 36),
		num("depth_mm", "the mounting depth", "mm", 10, 700),
		num("cut_out_mm", "the cut-out diameter", "mm", 40, 900),
		num("outside_mm", "the outside diameter", "mm", 45, 1000),
		num("volume_l", "the air the driver takes up", "L", 0, 50),
		num("mass_kg", "the mass", "kg", 0.05, 150),
		num("price", "the price", "", 0, 1e6),
		count("coils", "the number of voice coils", 0, 4),
		num("coil_ohm", "the nominal impedance of one coil", "ohm", 0.25, 100),
	},
	texts: []text{{"name", "the name of the driver", 120}},
}

func bandpass(b *Box) bool {
	return b.Type == "bandpass4" || b.Type == "bandpass6_series" || b.Type == "bandpass6_parallel"
}

func hasRear(b *Box) bool  { return b.Type != "infinite_baffle" && b.Type != "line" }
func isLine(b *Box) bool   { return b.Type == "line" }
func isobaric(b *Box) bool { return b.Isobaric }

// Small (JAES 1973) reports box losses QL mostly between 5 and 10 for vented
// boxes of 25 to 100 litres; tighter and leakier ones are built.
var boxRules = sheet{
	numbers: []number{
		num("net_l", "the net volume of the box", "L", 0.5, 2000).onlyIf(is(hasRear)),
		num("front_l", "the volume of the front chamber", "L", 0.5, 2000).onlyIf(is(bandpass)),
		num("lining", "the share of lining or stuffing", "", 0, 1),
		num("ql", "the leak loss QL of the box", "", 1, 1000).orZero(),
		num("qa", "the absorption loss QA of the box", "", 1, 1000).orZero(),
		num("tap_mm", "the place of the cone on the line", "mm", 0, 10000).onlyIf(is(isLine)),
		num("between_l", "the air between the two cones of a pair", "L", 0.05, 200).orZero().onlyIf(is(isobaric)),
		num("panel_mm", "the thickness of the panels", "mm", 3, 60).usual(9, 30),
		num("width_mm", "the outside width of the box", "mm", 50, 3000).orZero(),
		num("height_mm", "the outside height of the box", "mm", 50, 3000).orZero(),
		num("depth_mm", "the outside depth of the box", "mm", 50, 3000).orZero(),
	},
	words: []word{
		{key: "type", label: "the type of box", choices: boxTypes},
		{key: "form", label: "the form of the box", choices: []string{"cuboid", "wedge", "slab"}, mayBeEmpty: true},
	},
}

func round(p *Port) bool { return p.Shape == "round" }
func slot(p *Port) bool  { return p.Shape == "slot" }

var portRules = sheet{
	numbers: []number{
		count("count", "the number of ports", 1, 8),
		num("diameter_mm", "the diameter of the port", "mm", 10, 600).onlyIf(is(round)),
		num("width_mm", "the width of the slot port", "mm", 5, 2000).onlyIf(is(slot)),
		num("height_mm", "the height of the slot port", "mm", 5, 2000).onlyIf(is(slot)),
		num("length_mm", "the length of the port", "mm", 3, 5000).orZero(),
		num("tuning_hz", "the tuning of the port", "Hz", 5, 300).orZero(),
		num("qp", "the port loss QP", "", 1, 1000).orZero(),
	},
	words: []word{
		{key: "shape", label: "the shape of the port", choices: []string{"round", "slot"}},
		{key: "ends", label: "the ends of the port", choices: portEnds},
	},
}

var passiveRules = sheet{numbers: []number{
	count("count", "the number of passive radiators", 1, 8),
	num("sd_cm2", "the area of the passive radiator", "cm²", 5, 5000),
	num("mass_g", "the moving mass of the passive radiator", "g", 1, 5000),
	num("added_g", "the mass added to the passive radiator", "g", 0, 10000),
	num("free_hz", "the free-air resonance of the passive radiator", "Hz", 1, 300),
	num("qmp", "the Q of the passive radiator, Qmp", "", 0.3, 100),
	num("xmax_mm", "the travel of the passive radiator", "mm", 0.3, 150),
}}

var segmentRules = sheet{numbers: []number{
	num("length_mm", "the length of the piece", "mm", 5, 10000),
	num("start_cm2", "the area at the start of the piece", "cm²", 1, 20000),
	num("end_cm2", "the area at the end of the piece", "cm²", 1, 20000),
	num("stuffing", "the stuffing of the piece", "kg/m³", 0, 60),
}}

var aperiodicRules = sheet{numbers: []number{
	num("area_cm2", "the area of the aperiodic vent", "cm²", 0.5, 5000),
	num("resistance_pa_s_m", "the flow resistance of the vent's mat", "Pa s/m", 1, 1e6),
}}

var placeRules = sheet{
	numbers: []number{
		num("x_mm", "the place along the car", "mm", 0, 8000),
		num("y_mm", "the place across the car", "mm", -1500, 1500),
		num("z_mm", "the height", "mm", -500, 3000),
		num("gap_mm", "the gap in front of the cone", "mm", 5, 3000).orZero(),
	},
	words: []word{
		{key: "fires", label: "the way it fires", choices: fires},
	},
}

var channelRules = sheet{numbers: []number{
	num("gain_db", "the gain of the channel", "dB", -60, 24),
	num("delay_ms", "the delay of the channel", "ms", 0, 100).usual(0, 20),
}}

func passes(f *Filter) bool { return has(passKinds, f.Kind) }
func shapes(f *Filter) bool { return !passes(f) }

var filterRules = sheet{
	numbers: []number{
		num("freq_hz", "the frequency of the filter", "Hz", 5, 20000),
		count("order", "the order of the filter", 1, 8).onlyIf(is(passes)),
		num("gain_db", "the gain of the filter", "dB", -30, 30).onlyIf(is(shapes)).usual(-15, 9),
		num("q", "the Q of the filter", "", 0.1, 30).onlyIf(is(shapes)),
	},
	words: []word{
		{key: "kind", label: "the kind of filter", choices: []string{"highpass", "lowpass", "peak", "low_shelf", "high_shelf"}},
		{key: "shape", label: "the shape of the filter", choices: []string{"butterworth", "linkwitz_riley", "bessel"}, when: is(passes)},
	},
}

var amplifierRules = sheet{numbers: []number{
	num("rated_w", "the rated power of the amplifier", "W", 1, 20000),
	num("rated_ohm", "the load at which the power is rated", "ohm", 0.25, 32),
	num("min_ohm", "the lowest load of the amplifier", "ohm", 0.1, 32),
	num("output_ohm", "the output resistance of the amplifier", "ohm", 0, 5),
	num("cable_m", "the length of the speaker cable", "m", 0, 50),
	num("cable_mm2", "the copper area of the speaker cable", "mm²", 0.2, 200),
	num("supply_v", "the supply voltage", "V", 6, 60),
	num("efficiency_pct", "the efficiency of the amplifier", "%", 5, 99),
}}

var aimRules = sheet{
	numbers: []number{
		num("lowest_hz", "the lowest note asked for", "Hz", 5, 200),
		num("level_db", "the level asked for", "dB", 60, 160),
		num("boot_pct", "the share of the boot to give up", "%", 0, 100),
		num("budget", "the budget", "", 0, 1e7),
	},
	words: []word{{key: "seat", label: "the seat that counts most", choices: seatIDs}},
}

var toleranceRules = sheet{numbers: []number{
	num("fs_pct", "the tolerance of fs", "%", 0, 60),
	num("q_pct", "the tolerance of the Q values", "%", 0, 60),
	num("vas_pct", "the tolerance of Vas", "%", 0, 60),
	num("tape_mm", "the tolerance of the tape measure", "mm", 0, 300),
	num("leak_pct", "the tolerance of the leak", "%", 0, 95),
	num("damping_pct", "the tolerance of the damping", "%", 0, 95),
}}
