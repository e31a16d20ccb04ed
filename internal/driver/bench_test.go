package driver

import (
	"math/rand/v2"
	"testing"

	"bootfloor/internal/air"
)

func BenchmarkDerive(b *testing.B) {
	s, std := Shelf()[9].Stated, air.MustStandard()
	for b.Loop() {
		if _, _, err := Derive(s, std); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	c := sweep(subwoofer(r, Coil{K: 0.03, N: 0.7}), 8, 1000, 0.01, false, r)
	for b.Loop() {
		if _, err := Fit(c, FitOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
