package trackpage

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/pages"
	"armscribe/app/targets"
)

// mark frames a field that holds what cannot be read; a nil error takes the
// frame away.
func mark(f *pages.Field, err error) {
	f.AlwaysShowValidationError = true
	f.SetValidationError(err)
	f.AlwaysShowValidationError = err != nil
}

// each puts all that is wrong on lines of their own, each with its mark.
func each(err error) error {
	return errors.New(strings.ReplaceAll(err.Error(), "\n", "\n✕ "))
}

// verdictWord is a verdict as a cell, told by mark and word.
func verdictWord(v targets.Trend) fyne.CanvasObject {
	switch v {
	case targets.Better:
		return pages.Plain("✓ " + v.String())
	case targets.Worse:
		return pages.Marked("✕ " + v.String())
	case targets.Kept, targets.AsGood:
		return pages.Quiet("= " + v.String())
	case targets.Turned:
		return pages.Plain("▲ " + v.String())
	case targets.Changed:
		return pages.Quiet(v.String())
	case targets.Open:
		return pages.Quiet("≈ " + v.String())
	}
	return nil
}
