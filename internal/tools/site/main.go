// Command site puts the page together: it compiles the engine, copies what is
// served, and stamps both with hashes of their contents.
//
//	site -out dist                    the folder to serve
//	site -single build/one.html ...   one file that opens from a disk
package main

import (
	"flag"
	"fmt"
	"log"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("site: ")
	www := flag.String("www", "www", "the page's sources")
	app := flag.String("app", "", "the page's modules in one module")
	style := flag.String("style", "", "the page's style sheets in one")
	out := flag.String("out", "dist", "the folder to serve")
	cache := flag.String("cache", "build", "where compiled engines are kept")
	single := flag.String("single", "", "write one HTML file from the folder -out instead")
	bundle := flag.String("bundle", "", "with -single: the page's modules in one module")
	flag.Parse()

	if *single != "" {
		size, err := writeSingle(*out, *bundle, *single)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %d kB, opens by a double click\n", *single, size/1000)
		return
	}
	b := builder{www: *www, app: *app, style: *style, out: *out, cache: *cache}
	version, err := b.build()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s: version %s\n", *out, version)
}
