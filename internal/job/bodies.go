package job

// Body is a style of car body with generic inside dimensions to start from.
// Every number is assumed: plausible for the style, of no car in particular,
// and meant to be replaced by a tape measure. Heads are placed after common
// seating practice (from memory of SAE J1100 and J941: heel to hip 250 to
// 400 mm upward, hip to eye about 640 mm, ear a little below and behind the
// eye), which puts the ears of a car at 0.85 to 0.95 m above its floor and
// those of a tall vehicle at about 1 m.
type Body struct {
	Key  string `json:"key"`
	Name string `json:"name"`
	Say  string `json:"say"` // one sentence: what it stands for

	Cabin   Cabin   `json:"cabin"`
	Boot    Boot    `json:"boot"`
	Finish  Finish  `json:"finish"`
	Seats   []Seat  `json:"seats"`
	Door    Place   `json:"door"`  // the right-hand door speaker
	Stand   Stand   `json:"stand"` // where a first sub box stands
	Outline Outline `json:"outline"`
}

// Stand is the place of a box of about 25 litres net in the boot, its outside
// size across the car, upward and along the car, and the middle of its cone.
type Stand struct {
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"`
	DepthMM  float64 `json:"depth_mm"`
	Place    Place   `json:"place"`
}

// Outline holds what a side-view drawing needs beyond the inside: the axes
// and the origin are those of the document, so the nose has a negative x and
// the road a negative z.
type Outline struct {
	Profile     string  `json:"profile"` // two_box | three_box | one_box | pick_up
	NoseXMM     float64 `json:"nose_x_mm"`
	TailXMM     float64 `json:"tail_x_mm"`
	FrontAxleMM float64 `json:"front_axle_x_mm"`
	RearAxleMM  float64 `json:"rear_axle_x_mm"`
	WheelMM     float64 `json:"wheel_diameter_mm"`
	RoadZMM     float64 `json:"road_z_mm"`
	NoseZMM     float64 `json:"nose_z_mm"`       // leading edge of the bonnet
	ScreenXMM   float64 `json:"screen_x_mm"`     // where windscreen and bonnet meet
	ScreenZMM   float64 `json:"screen_z_mm"`     // and how high
	WaistZMM    float64 `json:"waist_z_mm"`      // lower edge of the side glass
	DeckZMM     float64 `json:"deck_z_mm"`       // boot lid, tailgate sill or load-bed side at the tail
	RearGlassMM float64 `json:"rear_glass_x_mm"` // where the rear glass meets deck or tailgate
	SkinMM      float64 `json:"skin_mm"`         // from headlining to outer roof
}

// BodyKeys lists the keys of Bodies in the same order.
func BodyKeys() []string {
	return []string{"small_hatch", "hatch", "saloon", "estate", "off_roader_short", "off_roader_long", "panel_van", "pick_up", "coupe", "open_car"}
}

// FindBody returns the body style with the key.
func FindBody(key string) (Body, bool) {
	for _, b := range Bodies() {
		if b.Key == key {
			return b, true
		}
	}
	return Body{}, false
}

// car makes the car of a document from the style.
func (b Body) car() Car {
	return Car{Body: b.Key, Cabin: b.Cabin, Boot: b.Boot, Finish: b.Finish, Seats: b.Seats}
}

// stations builds a cabin from rows of x, floor, roof, width in millimetres.
// The cuboid of the same car, for a reader who prefers length, width and
// height, takes the length, the greatest width, and the greatest height.
func stations(rows ...[4]float64) Cabin {
	k := Cabin{Shape: "stations"}
	for _, r := range rows {
		k.Stations = append(k.Stations, Station{XMM: r[0], FloorMM: r[1], RoofMM: r[2], WidthMM: r[3]})
		k.LengthMM = max(k.LengthMM, r[0])
		k.WidthMM = max(k.WidthMM, r[3])
		k.HeightMM = max(k.HeightMM, r[2]-r[1])
	}
	return k
}

// seatRows makes the two front seats and, where rearX is not zero, two rear seats.
func seatRows(frontX, frontZ, frontY, rearX, rearZ, rearY float64) []Seat {
	seats := []Seat{
		{ID: "wheel", XMM: frontX, YMM: frontY, ZMM: frontZ, Occupied: true},
		{ID: "passenger", XMM: frontX, YMM: -frontY, ZMM: frontZ},
	}
	if rearX != 0 {
		seats = append(seats,
			Seat{ID: "rear_right", XMM: rearX, YMM: rearY, ZMM: rearZ},
			Seat{ID: "rear_left", XMM: rearX, YMM: -rearY, ZMM: rearZ})
	}
	return seats
}

// finish is the usual inside of a car; styles that differ change it. Its leak
// is that of vent flaps, seals and drains together: about 0.1 m3/s at 125 Pa,
// which is what body leak tests of cars find (from memory), flows through some
// 100 cm2.
func finish(rear string, glassPct, leakCM2 float64) Finish {
	return Finish{Floor: "carpet", Roof: "headliner", Sides: "hard_trim", Front: "hard_trim", Rear: rear,
		GlassPct: glassPct, LeakCM2: leakCM2, PanelGivePct: 10}
}

// standard25 is a cuboid box of 18 mm sheet: inside 450 by 290 by 209 mm,
// 27.3 litres, of which driver and bracing leave 25.
func standard25(coneX, coneY, floorZ float64, fires string) Stand {
	return Stand{WidthMM: 486, HeightMM: 326, DepthMM: 245, Place: Place{XMM: coneX, YMM: coneY, ZMM: floorZ + 163, Fires: fires}}
}
