package carpentry

import (
	"errors"
	"math"
	"testing"

	"bootfloor/internal/job"
)

// An invented sub in an invented hatchback.
func sub(form string) job.Sub {
	at := func(v float64) *float64 { return &v }
	return job.Sub{
		Series: 1, Parallel: 1,
		Driver: job.Driver{DepthMM: at(150), CutOutMM: at(236), OutsideMM: at(268), VolumeL: at(1.8), MassKg: at(7.5)},
		Box:    job.Box{Type: "sealed", NetL: 25, PanelMM: 18, Form: form},
		Place:  job.Place{Fires: "rear"},
	}
}

func hatch() job.Boot {
	return job.Boot{LengthMM: 730, WidthMM: 1020, HeightMM: 500, SeatSlopeDeg: 22, OpeningWidthMM: 1020, OpeningHeightMM: 620, WheelArchesMM: 1000}
}

func TestPlanFindsTheSides(t *testing.T) {
	for _, form := range []string{"cuboid", "wedge", "slab", ""} {
		s := sub(form)
		if form == "slab" {
			s.Place = job.Place{Fires: "down", GapMM: 60}
		}
		b, err := Plan(s, hatch(), Options{})
		if err != nil {
			t.Fatalf("%s: %v", form, err)
		}
		if !b.Sized || len(b.Findings) != 0 || !b.Stand.Fits || !b.Passage.Passes || b.Layout.Sheets != 1 {
			t.Errorf("%s: %+v: %+v", form, b.Box, b.Findings)
		}
		// Whole millimetres upward: never less than wanted, at most three
		// faces of a millimetre more.
		face := b.Box.Width*b.Box.Height + b.Box.Width*b.Box.Depth + b.Box.Depth*b.Box.Height
		if b.NetM3 < .025-1e-12 || b.NetM3 > .025+.001*face {
			t.Errorf("%s: net %g", form, b.NetM3)
		}
		for _, v := range []float64{b.Box.Width, b.Box.Height, b.Box.Depth} {
			near(t, "whole millimetres", v*1000, math.Round(v*1000), 1e-9)
		}
		near(t, "sum", b.NetM3+b.Displacement.Total(), b.GrossM3, 1e-12)
		// Wood by volume, less the hole, and the braces.
		wood := b.Box.Outside().Volume() - b.Box.Inside().Volume() - math.Pi/4*.236*.236*.018
		near(t, "mass", b.Mass.Total, 760*(wood+b.Displacement.Bracing)+7.5, 1e-9)
		near(t, "forward", b.Restraint.ForwardN, .9*9.80665*b.Mass.Total, 1e-9)
	}
}

func TestPlanKeepsWhatIsDrawn(t *testing.T) {
	s := sub("cuboid")
	s.Box.WidthMM, s.Box.HeightMM, s.Box.DepthMM = 500, 320, 280
	b, err := Plan(s, hatch(), Options{Material: "birch_ply"})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "gross", b.GrossM3, .464*.284*.244, 1e-12)
	near(t, "net", b.NetM3, .464*.284*.244-.0018-.03*.025, 1e-12)
	if b.Sized || len(b.Findings) != 1 || b.Findings[0].At != "/box/net_l" || b.Findings[0].Level != job.LevelNote {
		t.Errorf("%+v", b.Findings)
	}
	s.Box.NetL = 40
	if b, _ := Plan(s, hatch(), Options{}); len(b.Findings) != 1 || b.Findings[0].Level != job.LevelWarning {
		t.Errorf("%+v", b.Findings)
	}
	// Too tall for the boot, too large for its opening.
	s.Box.HeightMM, s.Box.NetL = 620, 65
	low := hatch()
	low.OpeningHeightMM = 200
	b, err = Plan(s, low, Options{})
	if err != nil || b.Stand.Fits || b.Passage.Passes || len(b.Findings) < 2 {
		t.Errorf("%v, %+v", err, b.Findings)
	}
}

// The panel between the chambers of a band-pass box comes out of the air too.
func TestPlanBandpass(t *testing.T) {
	s := sub("cuboid")
	s.Box.Type, s.Box.FrontL = "bandpass4", 15
	b, err := Plan(s, hatch(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if b.NetM3 < .040-1e-12 || b.NetM3 > .0406 {
		t.Errorf("net %g", b.NetM3)
	}
	divider := (b.Box.Width - .036) * (b.Box.Height - .036) * .018
	near(t, "braces and divider", b.Displacement.Bracing, .03*.040+divider, 1e-12)
}

func TestPlanRefusals(t *testing.T) {
	s := sub("cuboid")
	s.Box.Type = "infinite_baffle"
	if _, err := Plan(s, hatch(), Options{}); !errors.Is(err, ErrNoBox) {
		t.Errorf("%v", err)
	}
	s = sub("cuboid")
	s.Box.NetL = 500
	if _, err := Plan(s, hatch(), Options{}); err == nil {
		t.Error("500 l fitted into a hatchback")
	}
	if _, err := Plan(sub("cuboid"), job.Boot{}, Options{}); err == nil {
		t.Error("no boot accepted")
	}
	if _, err := Plan(sub("cuboid"), hatch(), Options{Material: "steel"}); err == nil {
		t.Error("steel accepted")
	}
	// A driver that no box of that volume takes: a box all the same, and a
	// sentence about the driver.
	s = sub("cuboid")
	s.Box.NetL = 4
	if b, err := Plan(s, hatch(), Options{}); err != nil || !job.HasError(b.Findings) {
		t.Errorf("%v, %+v", err, b.Findings)
	}
	s = sub("cuboid")
	s.Driver.DepthMM = nil
	s.Driver.VolumeL = nil
	if b, err := Plan(s, hatch(), Options{}); err != nil || b.Displacement.Driver != 0 {
		t.Errorf("a driver without measures: %v, %+v", err, b.Displacement)
	}
}

func BenchmarkPlan(b *testing.B) {
	s, boot := sub("wedge"), hatch()
	for b.Loop() {
		if _, err := Plan(s, boot, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
