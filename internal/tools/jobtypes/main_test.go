package main

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

func TestTypes(t *testing.T) {
	type Inner struct {
		Sd *float64 `json:"sd_cm2,omitempty"`
	}
	type Outer struct {
		Title string  `json:"title"`
		Count int     `json:"count"`
		In    []Inner `json:"in"`
		Kept  string  `json:"-"`
	}
	got := types(reflect.TypeFor[Outer]())
	_, got, _ = strings.Cut(got, "\n")
	want := `
export interface Outer {
  title: string;
  count: number;
  in: Inner[];
}

export interface Inner {
  sd_cm2?: number;
}
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestPageTypesAreOfThisDocument(t *testing.T) {
	have, err := os.ReadFile(filepath.Join("..", "..", "..", "www", "app", "job.d.ts"))
	if err != nil {
		t.Fatal(err)
	}
	if string(have) != types(reflect.TypeFor[job.Job]()) {
		t.Error("www/app/job.d.ts is not of this job document: run `make types`")
	}
}
