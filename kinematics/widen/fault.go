package widen

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/kinematics"
)

// fault is a number no track can be changed by, in words; it matches ErrWiden.
type fault string

func (f fault) Error() string      { return string(f) }
func (fault) Is(target error) bool { return target == ErrWiden }

// wild is a corner that cannot be compared, in words; it matches
// kinematics.ErrGeometry.
type wild string

func (w wild) Error() string      { return string(w) }
func (wild) Is(target error) bool { return target == kinematics.ErrGeometry }

func faultf(format string, args ...any) error { return fault(fmt.Sprintf(format, args...)) }

// num prints a number to a thousandth, with a true minus sign.
func num(v float64) string {
	return strings.ReplaceAll(strconv.FormatFloat(math.Round(v*1e3)/1e3, 'f', -1, 64), "-", "\u2212")
}
