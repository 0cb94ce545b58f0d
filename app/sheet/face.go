package sheet

// Faces that the command line can ask for.
const (
	AsTable = "table"
	AsJSON  = "json"
	AsCSV   = "csv"
)

// Face prints the answer in one of its faces; another name is a bug.
func (s *Sheet) Face(name string) string {
	switch name {
	case AsTable:
		return s.String()
	case AsJSON:
		return s.JSON()
	case AsCSV:
		return s.CSV()
	}
	panic("sheet: no face " + name)
}
