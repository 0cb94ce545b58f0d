package look

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"fyne.io/fyne/v2/lang"
)

// The toolkit speaks English and has nothing to complain of, whatever the language of
// the desktop is called.
func TestTheToolkitSpeaksEnglish(t *testing.T) {
	if os.Getenv("ASK_FOR_THE_LANGUAGE") != "" {
		if got := lang.L("Cancel") + " " + lang.SystemLocale().LanguageString(); got != "Cancel en" {
			t.Error(got)
		}
		return
	}
	for _, name := range []string{"C.UTF-8", "C", "de_DE.UTF-8", "", "no such language"} {
		c := exec.Command(os.Args[0], "-test.run=TestTheToolkitSpeaksEnglish")
		for _, v := range os.Environ() {
			if !strings.HasPrefix(v, "LANG") && !strings.HasPrefix(v, "LC_") {
				c.Env = append(c.Env, v)
			}
		}
		c.Env = append(c.Env, "LANG="+name, "ASK_FOR_THE_LANGUAGE=yes")
		if said, err := c.CombinedOutput(); err != nil || strings.TrimSpace(string(said)) != "PASS" {
			t.Errorf("LANG=%q: %v, %s", name, err, said)
		}
	}
}
