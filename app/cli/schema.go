package cli

import "armscribe/app/job"

type schema struct{}

// Run prints the schema.
func (*schema) Run(out *output) error {
	out.print(string(job.Schema()))
	return nil
}
