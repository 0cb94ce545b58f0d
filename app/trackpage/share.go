package trackpage

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/pages"
	"armscribe/app/units"
)

// share is a field of the page's own for a number without a unit, from nought up.
type share struct {
	*pages.Field
	what string // for messages
	most float64
}

func newShare(what string, most float64, width float32) *share {
	s := &share{Field: pages.NewField(width), what: what, most: most}
	s.Live = true
	return s
}

// value is what is typed; the error names the field.
func (s *share) value() (float64, error) {
	text := strings.TrimSpace(s.Text)
	switch {
	case text == "":
		return 0, fmt.Errorf("%s: %w", s.what, pages.ErrBlank)
	case strings.Contains(text, ","):
		return 0, fmt.Errorf("%s: “%s” has a comma, which is not read; write a decimal point, as in 0.7", s.what, text)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || strings.ContainsAny(text, "xX_pP") {
		return 0, fmt.Errorf("%s: “%s” is not a number; write it as 0.7", s.what, text)
	}
	if !(v >= 0 && v <= s.most) {
		return 0, fmt.Errorf("%s: %s is not between 0 and %s", s.what, text, units.FormatNumber(s.most, 0))
	}
	return v, nil
}
