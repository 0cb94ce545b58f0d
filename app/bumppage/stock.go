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

const overWord = "over"

// standingText is the stack that stands there now, in one line: "2, 0.5", with the
// word over in front where it stands over the joint.
func standingText(s *job.Stack, unit units.Unit) string {
	words := make([]string, len(s.Pieces))
	for i, p := range s.Pieces {
		words[i] = pages.ShortLength(p.MM, unit)
	}
	text := strings.Join(words, ", ")
	if s.Over && text != "" {
		text = overWord + " " + text
	}
	return text
}

// takeStanding keeps in the variant what stands under its outer end; the points
// stay, for they were measured with it.
func (s *spacers) takeStanding(text string) {
	if !s.standing.Owing() {
		return
	}
	rest, over := strings.CutPrefix(strings.TrimSpace(text), overWord)
	list, err := parseStock(rest, s.p.setup.Unit)
	if err != nil {
		s.note.Wrong("There now: ", err)
		return
	}
	var stack job.Stack
	for _, k := range list {
		for range max(1, k.Count) {
			stack.Pieces = append(stack.Pieces, k.Thickness)
		}
	}
	stack.Over = over && len(list) > 0
	held, variant := s.standing.Held, s.p.host.Variant()
	s.standing.Taken()
	if err := s.p.host.Edit("type the stack there now", func(j *job.Job) { j.Variants[variant].Stack = stack }); err != nil {
		s.standing.Held = held
		s.note.Wrong("", s.p.said(err))
		return
	}
	s.note.Say("Kept in the job; the points stay, as measured with it.")
}
