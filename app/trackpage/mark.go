package trackpage

import (
	"errors"
	"strings"

	"armscribe/app/pages"
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
