// Flatwright plans a hollow, rib-and-skin workbench or assembly-table top: how
// stiff and heavy it will be, what to cut and how to glue it, with a build
// packet to print. Without arguments it opens its window; flatwright -help
// lists the commands that need none.
package main

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"

	toolkit "fyne.io/fyne/v2/app"

	"flatwright/app"
)

// memory is where the garbage collector starts to work harder, bytes: what is
// kept of a bench takes half of it. The window also keeps pictures.
const memory = 200 << 20

func main() { os.Exit(run(os.Args[1:])) }

func run(args []string) int {
	debug.SetMemoryLimit(memory)
	if status, done := app.Command(args, os.Stdin, os.Stdout, os.Stderr); done {
		return status
	}
	if trouble := app.NoDisplay(runtime.GOOS, os.Getenv("DISPLAY")); trouble != "" {
		fmt.Fprintln(os.Stderr, trouble)
		return 2
	}
	debug.SetMemoryLimit(2 * memory)
	drawAtOnce()
	var file string
	if len(args) > 0 {
		file = args[0]
	}
	// The toolkit keeps its cache below this folder and complains if it is not
	// there, as in a new home; without it the program only starts slower.
	if cache, err := os.UserCacheDir(); err == nil {
		_ = os.MkdirAll(cache, 0o755)
	}
	return app.Run(toolkit.NewWithID(app.ID), file)
}

// drawAtOnce has Mesa's software renderer, which draws where there is no graphics
// card, draw a frame on the thread that asks for it. With threads of its own it
// holds whole frames in a queue, 35 MB of them on a screen of 1920 × 1080
// (measured, Mesa 22.3), and takes the cores that compute. It must be said before
// the window is there; a setting of the person's own goes first.
func drawAtOnce() {
	const threads = "LP_NUM_THREADS"
	if _, set := os.LookupEnv(threads); !set {
		_ = os.Setenv(threads, "0") // it fails only for a bad name
	}
}
