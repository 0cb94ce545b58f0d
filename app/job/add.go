package job

import (
	"errors"
	"fmt"
	"os"

	"armscribe/app/safefile"
)

// Add writes the job with more variants to a file, and returns their names. A
// file that holds the job already, be it with more variants than j, keeps all of
// them and gets the new ones besides, under free names, however many programs do
// so at once. from is the file that j was read from: that one is added to
// whatever it holds by now. Any other file is replaced only by force. Errors are
// those of Save, and ErrExists.
func Add(path, from string, j *Job, variants []Variant, force bool) (names []string, err error) {
	same := sameFile(path, from)
	err = safefile.Update(safefile.Disk{}, path, func(former []byte, there bool) ([]byte, error) {
		next := j.Clone()
		if there {
			now, err := addTo(path, former, j, same, force)
			if err != nil {
				return nil, err
			}
			next = now
		}
		names = names[:0]
		for _, v := range variants {
			v.Name = next.FreeName(v.Name)
			next.Variants, names = append(next.Variants, v), append(names, v.Name)
		}
		return next.Encode()
	})
	var told Problems
	switch {
	case err == nil:
		return names, nil
	case errors.As(err, &told):
		return nil, inFile(path, err)
	}
	return names, Unsaved(path, err)
}

// addTo is the job that variants of j are added to, where a file is there.
func addTo(path string, former []byte, j *Job, same, force bool) (*Job, error) {
	if err := refuseNewer(former); err != nil {
		return nil, err
	}
	if force && !same {
		return j.Clone(), nil
	}
	now, err := Read(path, former)
	what := ""
	switch {
	case err != nil:
		what = "is not written: the file there is not a job that can be read"
	case !same && !now.begins(j):
		what = "is not written: the file there holds another job"
	default:
		return now, nil
	}
	cure := fmt.Sprintf("choose another name, or --force: what is there then goes to its %s", safefile.BackupSuffix)
	return nil, Problems{{What: what, Cure: cure, Err: ErrExists}}
}

// begins tells whether the job is another one with or without further variants
// behind its own.
func (j *Job) begins(other *Job) bool {
	if len(j.Variants) < len(other.Variants) {
		return false
	}
	first := *j
	first.Variants = j.Variants[:len(other.Variants)]
	return first.Equal(other)
}

// sameFile tells whether two names lead to one file that is there.
func sameFile(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	two, err := os.Stat(b)
	return err == nil && os.SameFile(one, two)
}
