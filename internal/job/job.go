// Package job defines the one document of the product: everything about one
// car and one customer. It is what the page edits, what a file holds and what
// the engine reads. Keys carry their units. Lengths and places are those of a
// tape measure, so millimetres.
//
// Axes: x runs rearward from the foremost point of the cabin, y from the
// centre line to the right-hand side (seen facing forward), z upward from the
// lowest point of the cabin floor.
package job

// Format and Version identify the document. A reader refuses a version newer
// than its own with a sentence, and migrates an older one. Version grows when a
// key is renamed, moved or changes its meaning; a new optional key alone does
// not need it, since older readers leave out keys they do not know, and say so.
const (
	Format  = "bootfloor-job"
	Version = 1
)

// Job is the document.
type Job struct {
	Format  string `json:"format"`
	Version int    `json:"version"`

	Title string `json:"title"`
	Notes string `json:"notes,omitempty"`
	// Demo marks invented data: the car, the speakers and the result.
	Demo bool `json:"demo,omitempty"`

	Air       Air       `json:"air"`
	Car       Car       `json:"car"`
	Subs      []Sub     `json:"subs"`
	Doors     Doors     `json:"doors"`
	Aim       Aim       `json:"aim"`
	Tolerance Tolerance `json:"tolerance"`

	// Assumed lists, as JSON pointers (RFC 6901) to single values, those that
	// nobody measured or chose; see Leaves. The page shows them as assumed;
	// changing one takes it off. A pointer to a value that is left out, being
	// zero and optional, is allowed.
	Assumed []string `json:"assumed,omitempty"`
}

// Air is the weather inside the car.
type Air struct {
	TemperatureC float64 `json:"temperature_c"`
	HumidityPct  float64 `json:"humidity_pct"`
	PressurePa   float64 `json:"pressure_pa"`
}

// Car is the listening space and what it is made of.
type Car struct {
	Body  string `json:"body"` // key of a body style, see Bodies
	Cabin Cabin  `json:"cabin"`
	// Boot is the load space. When Separate it is a cavity of its own behind
	// the seat back; otherwise it is the rear part of the cabin.
	Boot     Boot      `json:"boot"`
	Finish   Finish    `json:"finish"`
	Openings []Opening `json:"openings,omitempty"`
	Seats    []Seat    `json:"seats"`
	Learned  *Learned  `json:"learned,omitempty"`
}

// Cabin is the air volume the listeners sit in. Shape "cuboid" uses
// LengthMM, WidthMM and HeightMM; shape "stations" uses Stations (3 to 8, the
// first at x = 0). The measures of the other shape may be kept beside, for a
// reader who switches over and back.
type Cabin struct {
	Shape    string    `json:"shape"`
	LengthMM float64   `json:"length_mm"`
	WidthMM  float64   `json:"width_mm"`
	HeightMM float64   `json:"height_mm"`
	Stations []Station `json:"stations,omitempty"`
}

// Station is one cross-section along a cavity: straight lines join it to the
// next one.
type Station struct {
	XMM     float64 `json:"x_mm"`
	FloorMM float64 `json:"floor_mm"`
	RoofMM  float64 `json:"roof_mm"`
	WidthMM float64 `json:"width_mm"`
}

// Boot is the load space, symmetric about the centre line. XMM is where its
// floor begins (the foot of the seat back), FloorMM how high that floor is, and
// HeightMM the room above it under the shelf or lid. The opening is what a box
// must pass.
type Boot struct {
	Separate        bool    `json:"separate"`
	XMM             float64 `json:"x_mm"`
	LengthMM        float64 `json:"length_mm"`
	WidthMM         float64 `json:"width_mm"`
	HeightMM        float64 `json:"height_mm"`
	FloorMM         float64 `json:"floor_mm"`
	SeatSlopeDeg    float64 `json:"seat_slope_deg"` // lean of the seat back from upright
	OpeningWidthMM  float64 `json:"opening_width_mm"`
	OpeningHeightMM float64 `json:"opening_height_mm"`
	// The rest matters when Separate: the free area through the ski hatch or
	// shelf, and the limp mass of the seat-back panel.
	HatchCM2      float64 `json:"hatch_cm2,omitempty"`
	SeatBackKgM2  float64 `json:"seat_back_kg_m2,omitempty"`
	SeatsFolded   bool    `json:"seats_folded,omitempty"`
	WheelArchesMM float64 `json:"wheel_arches_mm,omitempty"` // width between the arches
}

// Finish says what the cabin is made of; each names one of Finishes. LeakCM2 is the total of all small gaps and vents.
type Finish struct {
	Floor    string  `json:"floor"`
	Roof     string  `json:"roof"`
	Sides    string  `json:"sides"`
	Front    string  `json:"front"`
	Rear     string  `json:"rear"`
	GlassPct float64 `json:"glass_pct"` // share of the sides, front and rear that is glass
	LeakCM2  float64 `json:"leak_cm2"`
	// PanelGivePct adds the compliance of panels that breathe, as a share of
	// the compliance of the air.
	PanelGivePct float64 `json:"panel_give_pct"`
}

// Opening is a window, sunroof, tailgate or roof that stands open.
type Opening struct {
	Kind    string  `json:"kind"` // window | sunroof | tailgate | roof_off
	AreaCM2 float64 `json:"area_cm2"`
	XMM     float64 `json:"x_mm"`
	YMM     float64 `json:"y_mm"`
	ZMM     float64 `json:"z_mm"`
}

// Seat is a listening position: the point between the ears.
type Seat struct {
	ID       string  `json:"id"` // wheel | passenger | rear_right | rear_left | rear_middle
	XMM      float64 `json:"x_mm"`
	YMM      float64 `json:"y_mm"`
	ZMM      float64 `json:"z_mm"`
	Occupied bool    `json:"occupied"`
}

// Learned is what one measurement taught about this cabin: factors on the
// assumed leak, damping and volume, and a change of level.
type Learned struct {
	On           string  `json:"on"` // date of the measurement
	LeakScale    float64 `json:"leak_scale"`
	DampingScale float64 `json:"damping_scale"`
	VolumeScale  float64 `json:"volume_scale"`
	LevelDB      float64 `json:"level_db"`
}

// Sub is one box with its subwoofer driver or drivers.
type Sub struct {
	ID       string  `json:"id"`
	Driver   Driver  `json:"driver"`
	Series   int     `json:"series"`   // drivers in one series string
	Parallel int     `json:"parallel"` // strings in parallel
	Box      Box     `json:"box"`
	Place    Place   `json:"place"`
	Channel  Channel `json:"channel"`
}

// Doors is the pair of door speakers that the sub must join, each in its own
// leaky door. Place gives the right-hand one; the left mirrors it.
type Doors struct {
	Fitted  bool    `json:"fitted"`
	Driver  Driver  `json:"driver"`
	VolumeL float64 `json:"volume_l"` // air in the door behind the cone
	LeakCM2 float64 `json:"leak_cm2"` // holes in the door's inner skin, treated or not
	Place   Place   `json:"place"`
	Channel Channel `json:"channel"`
}

// Driver is a loudspeaker as its data sheet states it: any sufficient set of
// small-signal parameters (names after IEC 60268-22); absent values are
// derived.
type Driver struct {
	Name      string   `json:"name"`
	Typical   bool     `json:"typical,omitempty"` // an invented, typical set
	ReOhm     *float64 `json:"re_ohm,omitempty"`
	FsHz      *float64 `json:"fs_hz,omitempty"`
	Qes       *float64 `json:"qes,omitempty"`
	Qms       *float64 `json:"qms,omitempty"`
	Qts       *float64 `json:"qts,omitempty"`
	VasL      *float64 `json:"vas_l,omitempty"`
	SdCM2     *float64 `json:"sd_cm2,omitempty"`
	BlTm      *float64 `json:"bl_tm,omitempty"`
	MmsG      *float64 `json:"mms_g,omitempty"`
	CmsMMN    *float64 `json:"cms_mm_n,omitempty"`
	RmsKgS    *float64 `json:"rms_kg_s,omitempty"`
	LeMH      *float64 `json:"le_mh,omitempty"`
	L2MH      *float64 `json:"l2_mh,omitempty"`
	R2Ohm     *float64 `json:"r2_ohm,omitempty"`
	SemiK     *float64 `json:"semi_k,omitempty"` // coil Z = K (jw)^n, K in ohm s^n
	SemiN     *float64 `json:"semi_n,omitempty"`
	XmaxMM    *float64 `json:"xmax_mm,omitempty"`
	PowerW    *float64 `json:"power_w,omitempty"` // thermal rating
	SizeIn    *float64 `json:"size_in,omitempty"` // nominal size, inches
	DepthMM   *float64 `json:"depth_mm,omitempty"`
	CutOutMM  *float64 `json:"cut_out_mm,omitempty"`
	OutsideMM *float64 `json:"outside_mm,omitempty"`
	VolumeL   *float64 `json:"volume_l,omitempty"` // air the driver displaces
	MassKg    *float64 `json:"mass_kg,omitempty"`
	Price     *float64 `json:"price,omitempty"`
	Coils     int      `json:"coils,omitempty"`    // voice coils; 0 or 1 is single
	CoilOhm   *float64 `json:"coil_ohm,omitempty"` // nominal impedance of one coil
}

// Box is the enclosure. Type selects which of the other fields are read.
type Box struct {
	// Type: sealed | vented | infinite_baffle | passive_radiator | bandpass4 |
	// bandpass6_series | bandpass6_parallel | line | aperiodic
	Type     string    `json:"type"`
	NetL     float64   `json:"net_l"`             // air behind the cone
	FrontL   float64   `json:"front_l"`           // air in front of the cone (band-pass)
	Lining   float64   `json:"lining"`            // share of the isothermal limit reached, 0 none to 1
	QL       float64   `json:"ql"`                // leak loss at the box resonance; 0 is no leak
	QA       float64   `json:"qa"`                // absorption loss at the box resonance; 0 is none
	Port     *Port     `json:"port,omitempty"`    // the vent of the rear chamber
	Front    *Port     `json:"front,omitempty"`   // the vent of the front chamber
	Passive  *Passive  `json:"passive,omitempty"` // passive radiators
	Line     []Segment `json:"line,omitempty"`    // from the closed end to the mouth
	TapMM    float64   `json:"tap_mm,omitempty"`  // where on the line the cone sits, from the closed end
	Isobaric bool      `json:"isobaric,omitempty"`
	// BetweenL is the air between the two cones of each isobaric pair; 0 where
	// it was not measured, and then follows from the size of the cones.
	BetweenL float64    `json:"between_l,omitempty"`
	Vent     *Aperiodic `json:"vent,omitempty"`
	PanelMM  float64    `json:"panel_mm"` // sheet thickness
	// Outside size of the box as it stands in the boot: across the car, upward
	// and along the car; 0 where not yet drawn.
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"`
	DepthMM  float64 `json:"depth_mm"`
	Form     string  `json:"form,omitempty"` // cuboid | wedge | slab
}

// Port is a vent: Count alike. LengthMM zero means: computed from TuningHz.
type Port struct {
	Shape      string  `json:"shape"` // round | slot
	Count      int     `json:"count"`
	DiameterMM float64 `json:"diameter_mm,omitempty"`
	WidthMM    float64 `json:"width_mm,omitempty"`
	HeightMM   float64 `json:"height_mm,omitempty"`
	LengthMM   float64 `json:"length_mm,omitempty"`
	TuningHz   float64 `json:"tuning_hz,omitempty"`
	// Ends: flanged_free | flanged_flanged | free_free | wall (slot along a wall)
	Ends string  `json:"ends"`
	QP   float64 `json:"qp"` // extra port loss at tuning; 0 is none beyond the duct's own
}

// Passive is a passive radiator: Count alike.
type Passive struct {
	Count  int     `json:"count"`
	SdCM2  float64 `json:"sd_cm2"`
	MassG  float64 `json:"mass_g"` // moving mass of one, with air load, without AddedG
	AddedG float64 `json:"added_g"`
	FreeHz float64 `json:"free_hz"` // resonance of one in free air without AddedG
	Qmp    float64 `json:"qmp"`
	XmaxMM float64 `json:"xmax_mm"`
}

// Segment is one straight or flared piece of a line.
type Segment struct {
	LengthMM float64 `json:"length_mm"`
	StartCM2 float64 `json:"start_cm2"`
	EndCM2   float64 `json:"end_cm2"`
	Stuffing float64 `json:"stuffing"` // kg/m3 of fibre
}

// Aperiodic is a aperiodic vent.
type Aperiodic struct {
	AreaCM2    float64 `json:"area_cm2"`
	Resistance float64 `json:"resistance_pa_s_m"` // specific flow resistance of the mat, Pa s/m
}

// Place is where the middle of a cone or mouth stands and which way it fires.
// "left" and "right" are those of the car seen facing forward.
type Place struct {
	XMM   float64 `json:"x_mm"`
	YMM   float64 `json:"y_mm"`
	ZMM   float64 `json:"z_mm"`
	Fires string  `json:"fires"`            // up | down | front | rear | left | right
	GapMM float64 `json:"gap_mm,omitempty"` // to the nearest surface in front of the cone
}

// Channel is the chain from signal to speaker terminals.
type Channel struct {
	Filters   []Filter  `json:"filters"`
	GainDB    float64   `json:"gain_db"`
	DelayMS   float64   `json:"delay_ms"`
	Inverted  bool      `json:"inverted"`
	Amplifier Amplifier `json:"amplifier"`
}

// Filter is one block of the chain. Kind highpass and lowpass use Shape and
// Order; peak, low_shelf and high_shelf use GainDB and Q.
type Filter struct {
	Kind   string  `json:"kind"`            // highpass | lowpass | peak | low_shelf | high_shelf
	Shape  string  `json:"shape,omitempty"` // butterworth | linkwitz_riley | bessel
	Order  int     `json:"order,omitempty"`
	FreqHz float64 `json:"freq_hz"`
	GainDB float64 `json:"gain_db,omitempty"`
	Q      float64 `json:"q,omitempty"`
	Off    bool    `json:"off,omitempty"`
}

// Amplifier is one output and the cable to its speakers.
type Amplifier struct {
	RatedW      float64 `json:"rated_w"` // continuous, into RatedOhm
	RatedOhm    float64 `json:"rated_ohm"`
	MinOhm      float64 `json:"min_ohm"` // lowest load the maker allows
	OutputOhm   float64 `json:"output_ohm"`
	CableM      float64 `json:"cable_m"`   // one way
	CableMM2    float64 `json:"cable_mm2"` // copper area
	SupplyV     float64 `json:"supply_v"`
	EfficiencyP float64 `json:"efficiency_pct"`
}

// Aim is what the customer asked for.
type Aim struct {
	Lowest  float64  `json:"lowest_hz"` // lowest note they care for
	LevelDB float64  `json:"level_db"`  // how loud at the seat at the wheel
	SeatID  string   `json:"seat"`      // the seat that counts most
	Music   []string `json:"music,omitempty"`
	BootPct float64  `json:"boot_pct"` // share of the boot they will give up
	Budget  float64  `json:"budget,omitempty"`
}

// Tolerance is how far the truth may lie from the stated value: half-widths.
type Tolerance struct {
	FsPct      float64 `json:"fs_pct"`
	QPct       float64 `json:"q_pct"`
	VasPct     float64 `json:"vas_pct"`
	TapeMM     float64 `json:"tape_mm"`
	LeakPct    float64 `json:"leak_pct"`
	DampingPct float64 `json:"damping_pct"`
}
