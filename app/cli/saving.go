package cli

import (
	"fmt"
	"strconv"
	"strings"

	"armscribe/app/job"
)

// saving is what the commands share that can write what they found.
type saving struct {
	Output *string `name:"output" short:"o" placeholder:"OUT" help:"Write the job to this file with what was found as its last variant. A file that holds the job keeps all it has and gets the variant besides; another asks for --force. A former file stays beside it as .bak."`
	Force  bool    `help:"With -o: replace a file that holds something else."`
}

// answer writes the job with more variants, if that is asked for, prints the
// answer, and behind a table where they went; JSON stays as it is.
func (s *saving) answer(out *output, text, format, from string, j *job.Job, found func() []job.Variant) error {
	if s.Output != nil {
		names, err := job.Add(*s.Output, from, j, found(), s.Force)
		if err != nil {
			return err
		}
		if format != "json" {
			text += written(*s.Output, names)
		}
	}
	out.print(text)
	return nil
}

func written(path string, names []string) string {
	what := "variant "
	if len(names) > 1 {
		what = "variants "
	}
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = strconv.Quote(name)
	}
	return fmt.Sprintf("\n%s: written, with %s%s\n", strings.Map(visible, path), what, strings.Join(quoted, " and "))
}
