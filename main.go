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
