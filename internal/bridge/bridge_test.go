package bridge

import (
	"context"
	"encoding/json"
	"errors"
	"testing"
)

func TestHelloStatesTheVersion(t *testing.T) {
	r, err := New("v1").Call(context.Background(), "hello", []byte("{}"), nil)
	if err != nil {
		t.Fatal(err)
	}
	var h Hello
	if err := json.Unmarshal(r.JSON, &h); err != nil {
		t.Fatal(err)
	}
	if h.Version != "v1" {
		t.Errorf("version %q, want v1", h.Version)
	}
}

func TestUnknownCallIsABadRequest(t *testing.T) {
	_, err := New("v1").Call(context.Background(), "no such", nil, nil)
	var e *Error
	if !errors.As(err, &e) || e.Kind != BadRequest || e.Say == "" {
		t.Errorf("got %v, want a bad_request with a sentence", err)
	}
}
