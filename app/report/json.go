package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
)

func orNull(v float64, ok bool) *float64 { return rounded(v, ok, jsonDigits) }

// bandOrNull is orNull for a half-width.
func bandOrNull(v float64, ok bool) *float64 { return rounded(v, ok, bandDigits) }

func rounded(v float64, ok bool, digits int) *float64 {
	if !ok {
		return nil
	}
	if math.Abs(v) < jsonNought {
		v = 0
	}
	text := strconv.FormatFloat(v, 'g', digits, 64)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic(fmt.Sprintf("report: %v", err))
	}
	return &v
}

// jsonDigits, significant, are more than any measurement and fewer than what
// rounding leaves behind a number such as 0.1 degrees; jsonNought, in any of
// the units, is what rounding leaves of nought. A band comes from differences,
// which keep fewer digits: bandDigits are still more than it means.
const (
	jsonDigits = 12
	bandDigits = 6
	jsonNought = 1e-12
)

// encode prints a value as indented JSON. What the reports hold can always be
// encoded: a failure, such as a NaN, is a bug.
func encode(v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		panic(fmt.Sprintf("report: %v", err))
	}
	return b.String()
}
