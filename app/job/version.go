package job

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// The file format that is read and written in full. A MINOR adds keys and
// changes the meaning of none, so a file of the same MAJOR can be read, and
// what a later MINOR added be kept unread. A MAJOR may change anything.
const (
	Format = 1 // MAJOR
	Minor  = 5
)

// since tells which MINOR brought a key; the others have been there from the
// start. A file is written with the lowest MINOR that has all its keys.
var since = map[string]uint64{
	"targets":          1,
	"photo":            1,
	"variants.assumed": 1,

	"spacers":               2,
	"toe_gauge":             2,
	"adjusters":             2,
	"variants.toe_readings": 2,

	"obstacles": 3,

	"steering":      4,
	"corner_weight": 4,
	"brake":         4,
	"housings":      4,
	"joint_limits":  4,
	"wheels":        4,

	"invented":                   5,
	"targets.motion_ratio":       5,
	"variants.track":             5,
	"variants.stack":             5,
	"variants.fitted_to":         5,
	"variants.picked_together":   5,
	"variants.wheel.radius_tyre": 5,
	"travel.assumed":             5,
	"rack.assumed":               5,
	"variants.camber_within":     5,
	"variants.toe_within":        5,
	"photo.calibration.within":   5,
	"photo.calibration.ahead":    5,
	"photo.level.within":         5,
	"obstacles.via":              5,
	"obstacles.angles":           5,
}

func init() {
	for _, key := range pointKeys {
		since["variants."+key+".within"] = 5
	}
	since["variants.upper_arm.pivot.within"], since["variants.lower_arm.pivot.within"] = 5, 5
}

// Version is a file format: MAJOR and MINOR.
type Version struct{ Major, Minor uint64 }

// String is what stands behind armscribe: 1 for 1.0, else 1.MINOR.
func (v Version) String() string {
	if v.Minor == 0 {
		return strconv.FormatUint(v.Major, 10)
	}
	return fmt.Sprintf("%d.%d", v.Major, v.Minor)
}

// parseVersion reads MAJOR or MAJOR.MINOR. A YAML number it is not: 1.10 comes
// after 1.9.
func parseVersion(n *yaml.Node) (v Version, ok bool) {
	major, minor, dotted := strings.Cut(n.Value, ".")
	v.Major, ok = formatNumber(major)
	if dotted && ok {
		v.Minor, ok = formatNumber(minor)
	}
	return v, ok && n.Kind == yaml.ScalarNode
}

func formatNumber(text string) (uint64, bool) {
	n, err := strconv.ParseUint(text, 10, 32)
	return n, err == nil
}

// newerMinor tells whether a file may hold keys that this program does not know.
func (v Version) newerMinor() bool { return v.Major == Format && v.Minor > Minor }

// Kept is a key of a newer MINOR, which is kept as it was and not read.
type Kept struct {
	Key  string // path, such as variants[1].bump_stop
	Line int
}

// Version returns the format of the file that the job was read from; nought
// for a job that was in none.
func (j *Job) Version() Version { return j.version }

// Kept lists the keys that a newer release has written and that this one keeps
// unread, in the order of their lines. A variant that is deleted takes its own
// along; a copy of a variant has none.
func (j *Job) Kept() []Kept { return j.kept }

// KeptNote says once what is kept unread; empty when there is nothing.
func (j *Job) KeptNote() string {
	if len(j.kept) == 0 {
		return ""
	}
	const named = 5
	keys := make([]string, 0, named)
	for _, k := range j.kept[:min(named, len(j.kept))] {
		keys = append(keys, shorten(k.Key))
	}
	text := strings.Join(keys, ", ")
	if more := len(j.kept) - len(keys); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return fmt.Sprintf("the file has format %s, this program knows %d.%d: not used, and kept as it is: %s", j.version, Format, Minor, text)
}

// setVersion puts the format number into a file that is otherwise written: the
// one it had, or what its keys ask for if that is more.
func setVersion(root *yaml.Node, had Version) {
	v := Version{Format, max(had.Minor, needed(root, ""))}
	_, n := find(root, "armscribe")
	if was, ok := parseVersion(n); !ok || was != v {
		n.Value, n.Tag, n.Style = v.String(), "", 0
	}
}

// needed is the lowest MINOR that has all keys of a node.
func needed(n *yaml.Node, at string) uint64 {
	least := since[at]
	switch n.Kind {
	case yaml.ScalarNode:
		if at == "variants.toe" {
			least = neededByToe(n.Value)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			least = max(least, needed(n.Content[i+1], join(at, n.Content[i].Value)))
		}
	case yaml.SequenceNode:
		for _, item := range n.Content {
			least = max(least, needed(item, at))
		}
	}
	return least
}
