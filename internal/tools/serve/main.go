// Command serve shows a folder on this machine's own address only, for looking
// at the built page. It prints the address on a line of its own.
package main

import (
	"flag"
	"fmt"
	"log"
	"net"
	"net/http"
	"os/exec"
	"path"
	"runtime"
	"strings"
)

func main() {
	dir := flag.String("dir", "dist", "the folder to show")
	addr := flag.String("addr", "127.0.0.1:8080", "where to listen; port 0 takes any free one")
	open := flag.Bool("open", false, "open the page in a browser, if there is one")
	flag.Parse()
	log.SetFlags(0)

	listener, err := net.Listen("tcp", *addr)
	if err != nil {
		// Someone else has the port: any free one will do as well.
		log.Printf("%s is taken (%v); another port is used.", *addr, err)
		if listener, err = net.Listen("tcp", "127.0.0.1:0"); err != nil {
			log.Fatal(err)
		}
	}
	url := fmt.Sprintf("http://%s/", listener.Addr())
	fmt.Printf("%s\n", url)
	if *open {
		openBrowser(url)
	}
	log.Fatal(http.Serve(listener, handler(*dir)))
}

// types are stated here because a machine's own table may lack them, and a
// wrong one stops streaming compilation and module scripts.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".bin":         "application/octet-stream",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".webmanifest": "application/manifest+json",
	".json":        "application/json",
}

func handler(dir string) http.Handler {
	files := http.FileServer(http.Dir(dir))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		if t := types[path.Ext(r.URL.Path)]; t != "" {
			h.Set("Content-Type", t)
		}
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Cache-Control", "no-cache")
		if r.URL.Path == "/sw.js" {
			h.Set("Cache-Control", "no-store")
		}
		if strings.HasPrefix(r.URL.Path, "/worker/") {
			// A worker takes its policy from its own answer, not from the page.
			h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'")
		}
		files.ServeHTTP(w, r)
	})
}

func openBrowser(url string) {
	command := map[string][]string{
		"darwin":  {"open"},
		"windows": {"rundll32", "url.dll,FileProtocolHandler"},
	}[runtime.GOOS]
	if command == nil {
		command = []string{"xdg-open"}
	}
	if _, err := exec.LookPath(command[0]); err != nil {
		fmt.Println("No browser was found to open it with: open the address above in one.")
		return
	}
	if err := exec.Command(command[0], append(command[1:], url)...).Start(); err != nil {
		fmt.Printf("The browser did not start (%v): open the address above in one.\n", err)
	}
}
