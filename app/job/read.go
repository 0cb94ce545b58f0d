package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// MaxFile is the largest job file read, in bytes. A job of MaxVariants
// variants takes a quarter of it.
const MaxFile = 1 << 20

var tooLarge = Problem{What: "is larger than 1 MiB, more than any job takes", Cure: "check that it is a job file"}

// Read reads a job from the bytes of a file; name is what problems call it.
// The error is Problems, all of them in the order of their lines; then there
// is no job.
func Read(name string, data []byte) (*Job, error) {
	root, problem := parse(data)
	if problem != nil {
		problem.File = name
		return nil, Problems{*problem}
	}
	r := &reader{file: name, units: units.Millimetre, lines: map[string]int{}, bad: map[string]bool{}}
	if !r.format(root) {
		return nil, r.problems
	}
	r.structure(root, "", 1)
	r.units = unitsIn(root)
	r.gaugeWidth = gaugeWidthIn(root, r.units)
	j := &Job{MeasuredWithin: units.Length{MM: defaultWithin}, src: root, crlf: crlfIn(data)}
	r.section(root, "", j)
	j.inheritRadii()
	r.values(j)
	if err := r.all().orNil(); err != nil {
		return nil, err
	}
	j.version, j.kept = r.version, r.keptInOrder()
	return j, nil
}

// parse turns the bytes into the one document they must hold.
func parse(data []byte) (*yaml.Node, *Problem) {
	switch {
	case len(data) > MaxFile:
		return nil, &Problem{What: tooLarge.What, Cure: tooLarge.Cure}
	case bytes.IndexByte(data, 0) >= 0, !utf8.Valid(data):
		return nil, &Problem{What: "is not a text file", Cure: "open a job file, whose name ends with .armscribe.yaml, saved as UTF-8"}
	case len(bytes.TrimSpace(data)) == 0:
		return nil, &Problem{What: "is empty", Cure: "open another file, or start a new job"}
	}
	// YAML takes both line ends alike, but the parser leaves a blank line in
	// comments for each carriage return.
	data = bytes.ReplaceAll(data, crlf, lf)
	d := yaml.NewDecoder(bytes.NewReader(data))
	var doc, second yaml.Node
	if err := d.Decode(&doc); err != nil {
		return nil, syntaxProblem(data, err)
	}
	switch err := d.Decode(&second); {
	case err == nil:
		return nil, &Problem{Line: second.Line, What: "a second document begins", Cure: "keep one job to a file, without a line of '---' or '...' inside"}
	case !errors.Is(err, io.EOF):
		return nil, syntaxProblem(data, err)
	}
	root := doc.Content[0]
	// Comments at the very top and bottom belong to the document node.
	root.HeadComment = joinComments(doc.HeadComment, root.HeadComment)
	root.FootComment = joinComments(root.FootComment, doc.FootComment)
	if root.Kind != yaml.MappingNode || root.Style&yaml.TaggedStyle != 0 {
		return nil, &Problem{Line: root.Line, What: "holds no job", Cure: "a job begins with 'armscribe: 1' and has a 'key: value' on every line"}
	}
	return root, nil
}

// Ends of lines.
var lf, crlf = []byte("\n"), []byte("\r\n")

// crlfIn tells whether lines end as usual on Windows: as the first one does.
func crlfIn(data []byte) bool {
	line, _, _ := bytes.Cut(data, lf)
	return bytes.HasSuffix(line, crlf[:1])
}

func joinComments(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "\n\n" + b
}

// maxProblems bounds what is reported of one file: nobody mends more at once.
const maxProblems = 100

const nullTag, mergeTag = "!!null", "!!merge"

// reader carries what is known while one file is read.
type reader struct {
	file       string
	units      units.Unit
	gaugeWidth float64         // of the toe gauge, mm; 0 where the file does not say
	lines      map[string]int  // where each key stands
	bad        map[string]bool // keys with a problem
	version    Version         // of the file
	kept       []Kept          // keys of a newer MINOR
	variant    string          // name of the variant that is being read
	problems   Problems
	unsaid     int // problems beyond maxProblems
}

func (r *reader) add(line int, at, value, what, cure string) {
	r.report(Problem{Line: line, Key: at, Variant: r.variant, Value: value, What: what, Cure: cure})
}

func (r *reader) report(p Problem) {
	p.File = r.file
	if len(r.problems) == maxProblems {
		r.unsaid++
		return
	}
	r.bad[p.Key] = true
	r.problems = append(r.problems, p)
}

// missing asks for a key.
func (r *reader) missing(line int, at string, f field) {
	cure := fmt.Sprintf("add '%s:' and below it %s", f.key, f.below)
	if f.below == "" {
		cure = fmt.Sprintf("add '%s: %s'", f.key, r.sample(f))
	}
	r.add(line, join(at, f.key), "", "is missing", cure)
}

// missingKey asks for a key of a section that another rule makes necessary.
func (r *reader) missingKey(line int, at string, s section, key string) {
	f, _ := fieldNamed(s.fields(), key)
	r.missing(line, at, f)
}

// all returns every problem found, in order.
func (r *reader) all() Problems {
	r.problems.sortByLine()
	if r.unsaid > 0 {
		r.problems = append(r.problems, Problem{File: r.file, What: fmt.Sprintf("%d further problems", r.unsaid), Cure: "mend these first"})
	}
	return r.problems
}

// format checks the format number before anything else: a newer file would
// only yield problems that are none.
func (r *reader) format(root *yaml.Node) bool {
	_, n := find(root, "armscribe")
	if n == nil {
		r.add(root.Line, "", "", "is not marked as a job file: the key armscribe is missing", fmt.Sprintf("begin it with 'armscribe: %d'", Format))
		return false
	}
	v, ok := parseVersion(n)
	switch {
	case n.Kind == yaml.ScalarNode && newerMajor(n.Value):
		r.add(n.Line, "armscribe", n.Value, fmt.Sprintf("is a newer file format than this program reads (%d)", Format), "open it with a newer Armscribe; this one will not touch it")
	case !ok:
		r.add(n.Line, "armscribe", scalarValue(n), "is not a format number", fmt.Sprintf("write 'armscribe: %d'", Format))
	case v.Major < Format:
		r.add(n.Line, "armscribe", n.Value, "is no file format", fmt.Sprintf("write 'armscribe: %d'", Format))
	default:
		r.version = v
		return true
	}
	return false
}

// newerMajor tells whether a format number is of a newer MAJOR, whatever that
// one puts behind it.
func newerMajor(text string) bool {
	major, _, _ := strings.Cut(text, ".")
	n, ok := formatNumber(major)
	return ok && n > Format
}

// keptInOrder returns the keys kept unread in the order of their lines.
func (r *reader) keptInOrder() []Kept {
	slices.SortStableFunc(r.kept, func(a, b Kept) int { return a.Line - b.Line })
	return r.kept
}

// unitsIn looks the file's units up before any length is read. Where they are
// missing or wrong that is reported, and mm serves for the rest.
func unitsIn(root *yaml.Node) units.Unit {
	if _, n := find(root, "units"); n != nil && n.Kind == yaml.ScalarNode {
		for _, w := range unitWords {
			if n.Value == w.text {
				return w.value
			}
		}
	}
	return units.Millimetre
}

// find returns the first key of that name and its value, or nils.
func find(mapping *yaml.Node, name string) (key, value *yaml.Node) {
	if mapping == nil || mapping.Kind != yaml.MappingNode {
		return nil, nil
	}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if k := mapping.Content[i]; k.Kind == yaml.ScalarNode && k.Value == name {
			return k, mapping.Content[i+1]
		}
	}
	return nil, nil
}

// isScalar tells whether n is a plain value, and reports it if not. An alias
// has been reported before.
func (r *reader) isScalar(n *yaml.Node, at, want string) bool {
	switch {
	case n.Kind != yaml.ScalarNode:
		r.add(n.Line, at, "", "holds "+kindName(n)+" where "+want+" should stand", "write one value behind the colon")
	case n.Tag == nullTag && n.Style == 0:
		r.add(n.Line, at, "", "has no value", "write "+want+" behind the colon")
	default:
		return true
	}
	return false
}

func kindName(n *yaml.Node) string {
	if n.Kind == yaml.SequenceNode {
		return "a list"
	}
	return "keys"
}

func scalarValue(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return n.Value
	}
	return ""
}

func join(at, key string) string {
	if at == "" {
		return key
	}
	return at + "." + key
}
