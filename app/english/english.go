// Package english has the toolkit speak English as the program does, whatever the
// language of the desktop. The toolkit asks for the language when it is loaded, and
// complains of names such as C.UTF-8: this package is loaded before, since it needs
// less and its name sorts first (The Go Programming Language Specification,
// Program initialization). Import it for that alone.
package english

import "os"

func init() {
	if err := os.Setenv("LANGUAGE", "en"); err != nil {
		return // then the toolkit says what it makes of the language
	}
}
