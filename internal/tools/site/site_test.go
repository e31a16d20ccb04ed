package main

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

const page = `<!doctype html>
<html lang="en-GB"><head>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'">
<link rel="icon" href="icons/icon.svg" type="image/svg+xml">
<link rel="manifest" href="manifest.webmanifest">
<link rel="preload" href="worker/engine.bin" as="fetch" crossorigin>
<link rel="stylesheet" href="style/a.css">
<script type="module" src="app/main.js"></script>
</head><body></body></html>
`

func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func sources() map[string]string {
	return map[string]string{
		"index.html":           page,
		"sw.js":                "const VERSION = 'dev';\nconst FILES = [];\n",
		"manifest.webmanifest": "{}",
		"package.json":         "{}",
		"app/version.js":       "export const VERSION = 'dev';\nexport const ENGINE = 'dev';\n",
		"app/main.js":          "console.log(1)",
		"app/job.d.ts":         "export interface Job {}",
		"worker/worker.js":     "serve()",
		"worker/wasm_exec.js":  "Go = 1",
		"worker/unpack.js":     "unpack()",
		"worker/engine.bin":    "not served from the sources",
		"style/a.css":          "body { margin: 0 }",
		"icons/icon.svg":       "<svg/>",
		"test/a.test.mjs":      "test",
	}
}

func TestOnlyWhatTheBrowserNeedsIsServed(t *testing.T) {
	files, err := served(folder(t, sources()))
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join(names(files), " ")
	want := "app/main.js app/version.js icons/icon.svg index.html manifest.webmanifest style/a.css sw.js worker/unpack.js worker/wasm_exec.js worker/worker.js"
	if got != want {
		t.Errorf("served %s\nwant   %s", got, want)
	}
}

func TestServiceWorkerListsEveryFileWithItsDigest(t *testing.T) {
	files := map[string][]byte{
		"sw.js":      []byte("const VERSION = 'dev'; const FILES = [];"),
		"index.html": []byte("abc"),
	}
	if err := stampServiceWorker(files, "v7"); err != nil {
		t.Fatal(err)
	}
	got := string(files["sw.js"])
	// The digest of "abc" is the first example of FIPS 180-2, appendix B.1,
	// here in base64.
	for _, want := range []string{"VERSION = 'v7'", `"./"`, `"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="`} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in\n%s", want, got)
		}
	}
	if strings.Contains(got, `"sw.js"`) {
		t.Error("the service worker lists itself")
	}
}

func TestStampRefusesWhatItCannotFind(t *testing.T) {
	files := map[string][]byte{"a.js": []byte("VERSION = 'dev' VERSION = 'dev'")}
	for _, old := range []string{"ENGINE = 'dev'", "VERSION = 'dev'"} {
		if err := stamp(files, "a.js", old, "x"); err == nil {
			t.Errorf("%q was stamped though it does not occur once", old)
		}
	}
}

func TestVersionFollowsTheContent(t *testing.T) {
	a := map[string][]byte{"a": []byte("1"), "b": []byte("2")}
	b := map[string][]byte{"a": []byte("12"), "b": []byte("")}
	if contentHash(a) == contentHash(b) {
		t.Error("moving a byte from one file to the next keeps the version")
	}
	if contentHash(a) != contentHash(map[string][]byte{"b": []byte("2"), "a": []byte("1")}) {
		t.Error("the same files have two versions")
	}
}

func TestSingleFileHoldsAllAndAllowsNothingElse(t *testing.T) {
	dir := folder(t, sources())
	bundle := filepath.Join(dir, "bundle.js")
	if err := os.WriteFile(bundle, []byte(`const s = "</script>";`), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "one.html")
	if _, err := writeSingle(dir, bundle, out); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	one := string(data)
	if strings.Contains(one, `src="`) || regexp.MustCompile(`href="[^d]`).MatchString(one) {
		t.Errorf("it refers to another file:\n%s", one)
	}
	script := `const s = "<\/script>";`
	for _, want := range []string{
		`<script type="module">` + script + `</script>`,
		"script-src " + digest(script) + " 'wasm-unsafe-eval'",
		"style-src " + digest("body { margin: 0 }"),
		"worker-src blob:",
		"Go = 1\nserve()",
		`id="engine-unpack">unpack()<`,
	} {
		if !strings.Contains(one, want) {
			t.Errorf("no %s in\n%s", want, one)
		}
	}
	packed := base64.StdEncoding.EncodeToString([]byte("not served from the sources"))
	if want := `id="engine-packed">` + packed + "<"; !strings.Contains(one, want) {
		t.Errorf("no %s in\n%s", want, one)
	}
}

func TestSingleFileRefusesStylesThatNeedOtherFiles(t *testing.T) {
	files := sources()
	files["style/a.css"] = "@import 'b.css';"
	dir := folder(t, files)
	if _, err := writeSingle(dir, filepath.Join(dir, "app/main.js"), filepath.Join(dir, "one.html")); err == nil {
		t.Error("an import was folded in")
	}
}
