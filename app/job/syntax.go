package job

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

var yamlLine = regexp.MustCompile(`^line (\d+): (.*)`)

// syntaxProblem puts the parser's complaint into the form of a problem.
func syntaxProblem(data []byte, err error) *Problem {
	if errors.Is(err, io.EOF) {
		return &Problem{What: "holds nothing but comments", Cure: "a job begins with 'armscribe: 1'"}
	}
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 0
	if m := yamlLine.FindStringSubmatch(text); m != nil {
		if n, convErr := strconv.Atoi(m[1]); convErr == nil {
			line, text = n, m[2]
		}
	}
	if len(data) <= maxSearch {
		line = brokenLine(data)
	}
	return &Problem{Line: line, What: "is not YAML here: " + shorten(text),
		Cure: "check indents, brackets, colons and quotes in this line and the one before", Err: err}
}

// Bounds of the search for the line that breaks a file. The parser names the
// line where the broken part began, which may be the top of the file.
const (
	maxSearch = 64 << 10 // bytes; above, the parser's line has to do
	maxSpan   = 100      // lines that a value in brackets or quotes may run over
)

// brokenLine finds the first line with which the file can no longer be parsed,
// however much of what follows is taken with it. The file as a whole must not
// parse.
func brokenLine(data []byte) int {
	var ends []int // where each line ends
	for i, b := range data {
		if b == '\n' {
			ends = append(ends, i+1)
		}
	}
	if len(data) > 0 && data[len(data)-1] != '\n' {
		ends = append(ends, len(data))
	}
	parses := func(lines int) bool { return lines == 0 || parsesWhole(data[:ends[lines-1]]) }
	good, broken := 0, len(ends)
	for {
		for broken-good > 1 {
			if mid := (good + broken) / 2; parses(mid) {
				good = mid
			} else {
				broken = mid
			}
		}
		// A value over several lines does not parse until its end is there.
		next := good + 2
		for next <= min(len(ends), good+maxSpan) && !parses(next) {
			next++
		}
		if next > min(len(ends), good+maxSpan) {
			return good + 1
		}
		good, broken = next, len(ends)
	}
}

// parsesWhole tells whether every document in the text can be parsed.
func parsesWhole(text []byte) bool {
	d := yaml.NewDecoder(bytes.NewReader(text))
	for {
		var n yaml.Node
		if err := d.Decode(&n); err != nil {
			return errors.Is(err, io.EOF)
		}
	}
}
