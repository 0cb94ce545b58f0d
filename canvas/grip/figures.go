package grip

import (
	"math"
	"strconv"
	"strings"
)

// figures is how many significant digits a message shows of a number.
const figures = 4

// shortNumbers rounds every decimal number in a text that has more figures;
// whole numbers stay as they are.
func shortNumbers(text string) string {
	var out strings.Builder
	for i := 0; i < len(text); {
		n := numberLength(text[i:])
		if n == 0 {
			out.WriteByte(text[i])
			i++
			continue
		}
		out.WriteString(shortNumber(text[i : i+n]))
		i += n
	}
	return out.String()
}

// numberLength is how many bytes at the start of a text are digits and at most
// one point between digits.
func numberLength(text string) int {
	digit := func(i int) bool { return i < len(text) && text[i] >= '0' && text[i] <= '9' }
	n := 0
	for digit(n) {
		n++
	}
	if n > 0 && n < len(text) && text[n] == '.' && digit(n+1) {
		for n++; digit(n); {
			n++
		}
	}
	return n
}

func shortNumber(text string) string {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !strings.Contains(text, ".") || len(text)-1 <= figures || v == 0 {
		return text
	}
	decimals := max(0, figures-1-int(math.Floor(math.Log10(v))))
	return strconv.FormatFloat(v, 'f', min(decimals, len(text)-strings.Index(text, ".")-1), 64)
}

func pick(cond bool, yes, no string) string {
	if cond {
		return yes
	}
	return no
}
