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
	_, err := SaveIf(sys, path, j, nil)
	return err
}

// ErrOther: the guard of SaveIf has refused to replace the file.
var ErrOther = errors.New("the file there is another one")

// SaveIf is SaveOn for a file whose former content, if there is one, the guard
// agrees to have replaced; a nil guard agrees to all. It returns what was
// written. The error matches ErrOther where the guard did not agree.
func SaveIf(sys safefile.System, path string, j *Job, guard func(former []byte) bool) (written []byte, err error) {
	data, err := j.Encode()
	if err != nil {
		return nil, inFile(path, err)
	}
	err = safefile.Write(sys, path, data, func(former []byte) error {
		if err := refuseNewer(former); err != nil {
			return err
		}
		if guard != nil && !guard(former) {
			return ErrOther
		}
		return nil
	})
	switch {
	case err == nil:
		return data, nil
	case errors.As(err, new(*safefile.NotSynced)):
		return data, explained(path, err)
	case errors.Is(err, ErrOther):
		return nil, Problems{{File: path, What: "is not saved: another program has changed the file", Cure: "look at what it holds now, then replace it or save under another name", Err: err}}
	case errors.Is(err, errNewer):
		return nil, Problems{{File: path, What: "is not saved: the file there has a newer format", Cure: "save under another name, or use a newer Armscribe", Err: err}}
	}
	return nil, explained(path, err)
}

func explained(path string, err error) error {
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
