// Package assets holds what the program brings along: the demo jobs.
package assets

import (
	"embed"
	"io/fs"
	"strings"
)

// demoSuffix is what every demo's file name ends with.
const demoSuffix = ".armscribe.yaml"

//go:embed demo/*.armscribe.yaml
var demos embed.FS

// DemoNames lists the demo jobs in alphabetical order, such as "gravel-estate".
func DemoNames() []string {
	entries, err := fs.ReadDir(demos, "demo")
	if err != nil {
		panic("assets: the demo jobs are not built in: " + err.Error())
	}
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), demoSuffix))
	}
	return names
}

// Demo returns the job file of a name listed by DemoNames, and false for any
// other name. The data are invented, as a comment in each file says.
func Demo(name string) ([]byte, bool) {
	data, err := demos.ReadFile("demo/" + name + demoSuffix)
	return data, err == nil
}
