package design

import (
	"context"
	"math"
	"strings"
	"testing"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Every box that the designer proposes, for every driver on the shelf, is built
// again by package carpentry: drawn as proposed it holds the air proposed,
// within three per cent, and nothing is in the driver's way.
func TestDesignsCanBeBuilt(t *testing.T) {
	solver := system.NewSolver()
	built := 0
	for _, body := range []string{"hatch", "saloon", "estate"} {
		for _, d := range driver.Shelf() {
			if d.Kind != driver.KindSub {
				continue
			}
			for _, typ := range []string{"sealed", "vented", "passive_radiator"} {
				j := job.New(body)
				j.Aim.BootPct = 0
				j.Subs[0].Driver = d.Stated.ToJob()
				room, err := RoomOf(j)
				if err != nil {
					t.Fatal(err)
				}
				found, err := Find(context.Background(), solver, Task{Job: j, Type: typ, Goal: Goal{Kind: Smallest, LevelDB: 90}, Room: &room, Rough: true})
				if err != nil || !found.Kept {
					t.Logf("%s, %s, %s: no design (%v)", body, d.ID, typ, err)
					continue
				}
				b, err := carpentry.Plan(found.Sub(j.Subs[0]), j.Car.Boot, carpentry.Options{PortLength: found.PortMM / 1000})
				if err != nil {
					t.Errorf("%s, %s, %s: %v", body, d.ID, typ, err)
					continue
				}
				built++
				if off := 1000*b.NetM3/found.NetL - 1; math.Abs(off) > 0.03 {
					t.Errorf("%s, %s, %s: %.1f l proposed, the box drawn holds %.1f (%+.1f %%)", body, d.ID, typ, found.NetL, 1000*b.NetM3, 100*off)
				}
				for _, f := range b.Findings {
					if strings.HasPrefix(f.At, "/driver") {
						t.Errorf("%s, %s, %s: %s", body, d.ID, typ, f.Say)
					}
				}
			}
		}
	}
	if built < 60 {
		t.Errorf("only %d boxes were built", built)
	}
}

// Without a room the least box counts as well.
func TestLeastWithoutRoom(t *testing.T) {
	j := shelfJob(t, "hatch", "sub-10-standard")
	found, err := Best(context.Background(), system.NewSolver(), j, 0, "sealed", Goal{Kind: Smallest, LevelDB: 80}, Bounds{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := carpentry.Plan(found.Sub(j.Subs[0]), j.Car.Boot, carpentry.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if off := 1000*b.NetM3/found.NetL - 1; math.Abs(off) > 0.03 {
		t.Errorf("%.1f l proposed, the box drawn holds %.1f", found.NetL, 1000*b.NetM3)
	}
}
