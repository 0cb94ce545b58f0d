package job

import (
	"errors"
	"fmt"

	"gopkg.in/yaml.v3"

	"armscribe/app/safefile"
)

// Save writes the job to a file, whole or not at all; a former file stays
// beside it as .bak. See safefile.Write. What is written has been read back
// before the old file is touched. A file of a newer format is not replaced.
//
// The error is Problems. errors.As with *safefile.NotSynced tells the one case
// in which the file has been replaced all the same.
func Save(path string, j *Job) error { return SaveOn(safefile.Disk{}, path, j) }

// SaveOn is Save on any file system.
func SaveOn(sys safefile.System, path string, j *Job) error {
	data, err := j.Encode()
	if err != nil {
		return inFile(path, err)
	}
	err = safefile.Write(sys, path, data, refuseNewer)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, errNewer):
		return Problems{{File: path, What: "is not saved: the file there has a newer format", Cure: "save under another name, or use a newer Armscribe", Err: err}}
	}
	what, cure := safefile.Explain(err)
	return Problems{{File: path, What: what, Cure: cure, Err: err}}
}

// inFile names the file in each problem of a job.
func inFile(path string, err error) error {
	var ps Problems
	if !errors.As(err, &ps) {
		return Problems{{File: path, What: "is not saved: " + err.Error(), Cure: "the former file is untouched", Err: err}}
	}
	named := make(Problems, len(ps))
	for i, p := range ps {
		p.File = path
		named[i] = p
	}
	return named
}

var errNewer = errors.New("newer file format")

// refuseNewer keeps a file that a newer release has written: this one would
// drop what it does not know.
func refuseNewer(former []byte) error {
	root, problem := parse(former)
	if problem != nil {
		return nil // no job at all; its content goes to the backup
	}
	if _, n := find(root, "armscribe"); n != nil && n.Kind == yaml.ScalarNode && newerMajor(n.Value) {
		return fmt.Errorf("%w %s", errNewer, shorten(n.Value))
	}
	return nil
}
