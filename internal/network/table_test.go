package network

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// published reads a table of testdata/network: lines that begin with # tell
// its source.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/network/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) == 0 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	return rows
}

// numbers turns the columns of a row from the given one on into numbers.
func numbers(t *testing.T, row []string, from int) []float64 {
	t.Helper()
	var out []float64
	for _, s := range row[from:] {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

// near fails unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %.1g", what, got, want, tol)
	}
}

// crossing returns where f changes sign between lo and hi.
func crossing(f func(float64) float64, lo, hi float64) float64 {
	rising := f(hi) > 0
	for range 200 {
		mid := (lo + hi) / 2
		if (f(mid) > 0) == rising {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2
}

// highest returns where f is greatest between lo and hi, by golden section.
func highest(f func(float64) float64, lo, hi float64) float64 {
	g := (math.Sqrt(5) - 1) / 2
	for range 100 {
		a, b := hi-g*(hi-lo), lo+g*(hi-lo)
		if f(a) > f(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return (lo + hi) / 2
}
