// Armscribe opens the window on a job; see package window.
package main

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"armscribe/app/window"
)

func main() {
	open := func() fyne.App { return app.NewWithID(window.ID) }
	os.Exit(window.Main(open, os.Args[1:], os.Stdout, os.Stderr))
}
