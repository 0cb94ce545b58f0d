package widen

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/kinematics"
)

// fault is a number no track can be changed by, in words; it matches ErrWiden.
type fault struct {
	form    string    // a %s for each length
	lengths []float64 // mm
}

func (f fault) Error() string {
	return f.Say(func(mm float64) string { return num(mm) + " mm" }, nil)
}

// Say is Error with lengths printed in another unit.
func (f fault) Say(amount, _ func(mm float64) string) string {
	texts := make([]any, len(f.lengths))
	for i, mm := range f.lengths {
		if texts[i] = num(mm) + " mm"; math.Abs(mm) <= math.MaxFloat64 {
			texts[i] = amount(mm)
		}
	}
	return fmt.Sprintf(f.form, texts...)
}

func (fault) Is(target error) bool { return target == ErrWiden }

// wild is a corner that cannot be compared, in words; it matches
// kinematics.ErrGeometry.
type wild string

func (w wild) Error() string      { return string(w) }
func (wild) Is(target error) bool { return target == kinematics.ErrGeometry }

func faultOf(form string, lengths ...float64) error { return fault{form, lengths} }

// num prints a number to a thousandth, with a true minus sign.
func num(v float64) string {
	return strings.ReplaceAll(strconv.FormatFloat(math.Round(v*1e3)/1e3, 'f', -1, 64), "-", "\u2212")
}
