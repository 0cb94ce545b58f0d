// Command armcalc gives the answers of Armscribe without a window. It links no
// window toolkit and builds without cgo.
package main

import (
	"os"

	"armscribe/app/cli"
)

func main() {
	os.Exit(cli.Run(os.Args[1:], os.Stdout, os.Stderr))
}
