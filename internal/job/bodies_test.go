package job

import (
	"math"
	"reflect"
	"testing"
)

// Interior volumes of the empty cabin in cubic metres: common practice, no
// source. The spans keep a style from drifting into another's size.
var cabinVolumes = map[string][2]float64{
	"small_hatch": {2.5, 2.8}, "hatch": {2.9, 3.2}, "saloon": {2.8, 3.0}, "estate": {3.5, 3.8},
	"off_roader_short": {3.2, 3.5}, "off_roader_long": {4.4, 4.9}, "panel_van": {6, 10},
	"pick_up": {1.9, 2.3}, "coupe": {2.3, 2.5}, "open_car": {2.1, 2.3},
}

func TestBodiesVolumes(t *testing.T) {
	for _, b := range Bodies() {
		span, ok := cabinVolumes[b.Key]
		v := b.Cabin.VolumeM3()
		if !ok || v < span[0] || v > span[1] {
			t.Errorf("%s: cabin of %.3f m3, want %v", b.Key, v, span)
		}
		if b.Boot.Separate {
			if v := b.Boot.VolumeM3(); v < 0.2 || v > 0.5 {
				t.Errorf("%s: boot of %.3f m3", b.Key, v)
			}
		}
	}
}

func TestBodyKeysMatchBodies(t *testing.T) {
	var keys []string
	for _, b := range Bodies() {
		keys = append(keys, b.Key)
	}
	if !reflect.DeepEqual(keys, BodyKeys()) {
		t.Errorf("BodyKeys %v, Bodies %v", BodyKeys(), keys)
	}
}

// A new job of each style, and the demo, pass every rule without a word.
func TestPresetsAreSound(t *testing.T) {
	for _, key := range BodyKeys() {
		if found := Check(New(key)); len(found) > 0 {
			t.Errorf("%s: %v", key, found)
		}
	}
	if found := Check(Demo()); len(found) > 0 {
		t.Errorf("demo: %v", found)
	}
}

// Heads stay below the roof lining, ears at a plausible height, boxes inside
// the boot, wheels on the road and the outline around the cabin.
func TestBodiesHoldTogether(t *testing.T) {
	for _, b := range Bodies() {
		for _, s := range b.Seats {
			room := b.Cabin.Section(s.XMM).RoofMM - s.ZMM
			// From the ear to the top of the head is about 130 mm (from memory
			// of anthropometric tables).
			if room < 130 {
				t.Errorf("%s %s: only %.0f mm from ear to roof", b.Key, s.ID, room)
			}
			if s.ZMM < 800 || s.ZMM > 1100 {
				t.Errorf("%s %s: ears at %.0f mm", b.Key, s.ID, s.ZMM)
			}
		}
		st, bt := b.Stand, b.Boot
		if st.WidthMM > bt.WidthMM || st.HeightMM > bt.HeightMM || st.DepthMM > bt.LengthMM {
			t.Errorf("%s: the box does not fit the boot", b.Key)
		}
		if !bt.inBoot(st.Place.XMM, st.Place.YMM, st.Place.ZMM, 0) {
			t.Errorf("%s: the cone is not in the boot: %+v in %+v", b.Key, st.Place, bt)
		}
		rear := max(b.Cabin.Length(), bt.XMM+bt.LengthMM)
		o := b.Outline
		if !(o.NoseXMM < o.FrontAxleMM && o.FrontAxleMM < o.RearAxleMM && o.RearAxleMM < o.TailXMM) {
			t.Errorf("%s: axles out of order %+v", b.Key, o)
		}
		if o.TailXMM < rear || o.NoseXMM > -500 || o.RoadZMM > -150 {
			t.Errorf("%s: the outline does not hold the cabin", b.Key)
		}
		if wheelbase := o.RearAxleMM - o.FrontAxleMM; wheelbase < 2200 || wheelbase > 3400 {
			t.Errorf("%s: wheelbase %.0f", b.Key, wheelbase)
		}
	}
}

// A car swapped from wheel-right to wheel-left is the mirror of itself.
func TestSeatsMirror(t *testing.T) {
	for _, b := range Bodies() {
		for i := 0; i+1 < len(b.Seats); i += 2 {
			if b.Seats[i].YMM != -b.Seats[i+1].YMM || b.Seats[i].YMM <= 0 {
				t.Errorf("%s: seats %s and %s do not mirror", b.Key, b.Seats[i].ID, b.Seats[i+1].ID)
			}
		}
	}
}

// Two ways to the same volume: Simpson's rule, exact for a parabola, against
// ten thousand slices; and the cuboid and prism worked by hand.
func TestCabinVolume(t *testing.T) {
	for _, b := range Bodies() {
		const slices = 10000
		sum, step := 0.0, b.Cabin.Length()/slices
		for i := 0; i < slices; i++ {
			s := b.Cabin.Section((float64(i) + 0.5) * step)
			sum += (s.RoofMM - s.FloorMM) * s.WidthMM * step * 1e-9
		}
		if v := b.Cabin.VolumeM3(); math.Abs(v-sum) > 1e-7*v {
			t.Errorf("%s: %.9f by rule, %.9f by slices", b.Key, v, sum)
		}
	}
	box := Cabin{Shape: "cuboid", LengthMM: 2000, WidthMM: 1500, HeightMM: 1000}
	if v := box.VolumeM3(); math.Abs(v-3) > 1e-12 {
		t.Errorf("cuboid %g m3, want 3", v)
	}
	wedge := Cabin{Shape: "stations", Stations: []Station{{0, 0, 500, 1000}, {1000, 0, 1000, 1000}, {2000, 0, 500, 1000}}}
	if v := wedge.VolumeM3(); math.Abs(v-1.5) > 1e-12 {
		t.Errorf("wedge %g m3, want 1.5", v)
	}
}

// The typical drivers, their whole sets derived by the standard relations
// (Thiele 1961; Small, JAES 1972): plausible moving mass, force factor,
// compliance, and a rim larger than the cone.
func TestTypicalDriversAreConsistent(t *testing.T) {
	const rho, c = 1.2041, 343.2
	cases := []struct {
		d            Driver
		mms, bl, xmx [2]float64
	}{
		{Typical10(), [2]float64{90, 160}, [2]float64{9, 18}, [2]float64{8, 20}},
		{Typical65(), [2]float64{12, 22}, [2]float64{4, 7}, [2]float64{2, 7}},
	}
	for _, k := range cases {
		d := k.d
		sd := *d.SdCM2 * 1e-4
		cms := *d.VasL * 1e-3 / (rho * c * c * sd * sd)
		w := 2 * math.Pi * *d.FsHz
		mms := 1 / (w * w * cms)
		bl := math.Sqrt(w * mms * *d.ReOhm / *d.Qes)
		if g := mms * 1e3; g < k.mms[0] || g > k.mms[1] {
			t.Errorf("%s: Mms %.1f g", d.Name, g)
		}
		if bl < k.bl[0] || bl > k.bl[1] {
			t.Errorf("%s: Bl %.2f T m", d.Name, bl)
		}
		if x := *d.XmaxMM; x < k.xmx[0] || x > k.xmx[1] {
			t.Errorf("%s: Xmax %.1f mm", d.Name, x)
		}
		// Cone area against the nominal size: the cone with half its surround
		// is 75 to 90 % of the nominal diameter.
		ratio := 2 * math.Sqrt(sd/math.Pi) / (*d.SizeIn * 0.0254)
		if ratio < 0.75 || ratio > 0.9 {
			t.Errorf("%s: cone diameter %.2f of the nominal", d.Name, ratio)
		}
		if re := *d.ReOhm / *d.CoilOhm; re < 0.8 || re > 0.95 {
			t.Errorf("%s: Re is %.2f of the nominal impedance", d.Name, re)
		}
	}
	// The demo box: Qtc = Qts sqrt(1 + Vas/Vb) (Small, JAES 1972).
	j := Demo()
	d := j.Subs[0].Driver
	qts := 1 / (1 / *d.Qes + 1 / *d.Qms)
	qtc := qts * math.Sqrt(1+*d.VasL/j.Subs[0].Box.NetL)
	if math.Abs(qtc-0.7217) > 5e-4 {
		t.Errorf("the demo box has Qtc %.4f, want 0.7217", qtc)
	}
}

// The outside sizes of the standing boxes leave 25 litres net after 18 mm
// panels, the driver and half a litre of bracing.
func TestStandsHold25Litres(t *testing.T) {
	for _, b := range Bodies() {
		s := b.Stand
		inside := (s.WidthMM - 36) * (s.HeightMM - 36) * (s.DepthMM - 36) * 1e-6
		net := inside - *Typical10().VolumeL - 0.5
		if math.Abs(net-25) > 0.1 {
			t.Errorf("%s: %.2f L net", b.Key, net)
		}
		if front := math.Min(s.WidthMM, s.HeightMM); front < *Typical10().OutsideMM {
			t.Errorf("%s: the driver is wider than the box", b.Key)
		}
	}
}
