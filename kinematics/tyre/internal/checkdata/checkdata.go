// Package checkdata reads tables of check values for tests: CSV with a heading
// line, one case a row, and a column "source" that names where the row's
// values come from.
package checkdata

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Row is one case of a table.
type Row struct {
	t      *testing.T
	where  string
	fields map[string]string
}

// Read returns the rows of a table. It fails the test if the file cannot be
// read, has no rows, or a row names no source.
func Read(t *testing.T, path string) []Row {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(f).ReadAll()
	if closeErr := f.Close(); err == nil {
		err = closeErr
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	if len(records) < 2 {
		t.Fatalf("%s: no rows", path)
	}
	var rows []Row
	for i, record := range records[1:] {
		r := Row{t: t, where: path + " line " + strconv.Itoa(i+2), fields: map[string]string{}}
		for j, name := range records[0] {
			r.fields[name] = record[j]
		}
		if strings.TrimSpace(r.fields["source"]) == "" {
			t.Fatalf("%s: no source", r.where)
		}
		rows = append(rows, r)
	}
	return rows
}

// Text returns a column as it stands.
func (r Row) Text(column string) string {
	r.t.Helper()
	s, ok := r.fields[column]
	if !ok || s == "" {
		r.t.Fatalf("%s: nothing in column %s", r.where, column)
	}
	return s
}

// Number returns a column as a number.
func (r Row) Number(column string) float64 {
	r.t.Helper()
	v, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.t.Fatalf("%s, column %s: %v", r.where, column, err)
	}
	return v
}

// String names file, line and source.
func (r Row) String() string { return r.where + " (" + r.fields["source"] + ")" }
