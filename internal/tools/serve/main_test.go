package main

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
)

func TestTypesAndCaching(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"index.html", "sw.js", "engine.bin", "app.webmanifest"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ path, kind, cache string }{
		{"/", "text/html; charset=utf-8", "no-cache"},
		{"/sw.js", "text/javascript; charset=utf-8", "no-store"},
		{"/engine.bin", "application/octet-stream", "no-cache"},
		{"/app.webmanifest", "application/manifest+json", "no-cache"},
	} {
		w := httptest.NewRecorder()
		handler(dir).ServeHTTP(w, httptest.NewRequest("GET", c.path, nil))
		if w.Code != 200 || w.Header().Get("Content-Type") != c.kind || w.Header().Get("Cache-Control") != c.cache {
			t.Errorf("%s: %d %q %q, want 200 %q %q", c.path, w.Code, w.Header().Get("Content-Type"), w.Header().Get("Cache-Control"), c.kind, c.cache)
		}
	}
}

func TestNothingOutsideTheFolder(t *testing.T) {
	dir := t.TempDir()
	inside := filepath.Join(dir, "in")
	if err := os.Mkdir(inside, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "secret"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	handler(inside).ServeHTTP(w, httptest.NewRequest("GET", "/../secret", nil))
	if w.Code == 200 {
		t.Error("a file outside the folder was served")
	}
}
