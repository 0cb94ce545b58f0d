package bumppage

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
)

// stockText writes the shop's spacers in one line: "1, 1.5, 2 (4)", in brackets
// how many there are of one.
func stockText(list []job.Stock, unit units.Unit) string {
	words := make([]string, len(list))
	for i, s := range list {
		if words[i] = s.Thickness.Typed; words[i] == "" {
			words[i] = pages.ShortLength(s.Thickness.MM, unit)
		}
		if s.Count > 0 {
			words[i] += fmt.Sprintf(" (%d)", s.Count)
		}
	}
	return strings.Join(words, ", ")
}

var (
	counted      = regexp.MustCompile(`^(.*)\((\d{1,6})\)\s*$`)
	commaDecimal = regexp.MustCompile(`\d,\d`)
)

// parseStock reads such a line. A comma between two digits is refused rather
// than taken for either meaning.
func parseStock(text string, unit units.Unit) ([]job.Stock, error) {
	if at := commaDecimal.FindString(text); at != "" {
		return nil, fmt.Errorf("“%s” has two readings; decimals take a point, and between two spacers stands a comma with a space", at)
	}
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	var list []job.Stock
	for _, word := range strings.Split(text, ",") {
		var s job.Stock
		if m := counted.FindStringSubmatch(word); m != nil {
			n, err := strconv.Atoi(m[2])
			if err != nil || n == 0 {
				return nil, fmt.Errorf("“%s”: in brackets stands how many there are, 1 or more", strings.TrimSpace(word))
			}
			word, s.Count = m[1], n
		}
		mm, err := units.Parse(word, unit)
		if err != nil {
			return nil, fmt.Errorf("“%s”: %w", strings.TrimSpace(word), err)
		}
		s.Thickness = units.Length{MM: mm}
		list = append(list, s)
	}
	return list, nil
}

// mergeStock keeps the thicknesses that stay as they were typed in the job.
func mergeStock(next, old []job.Stock) []job.Stock {
	const same = 0.005 // mm, what a field rounds to
	for i := range next {
		for _, o := range old {
			if d := next[i].Thickness.MM - o.Thickness.MM; d < same && d > -same {
				next[i].Thickness = o.Thickness
			}
		}
	}
	return next
}
