// Package record reads what a bench or a flight wrote down: tables of text with one row a moment, and sound.
//
// Every reader streams: it keeps the columns that are wanted, up to a stated number of rows, and nothing else, whatever the
// length of the file. What was guessed (columns, the unit of time) and what was left out stands in notes; what is wrong is
// told all at once as problems with line, column, value and remedy. Times are in seconds from the first kept row; values
// stay in the unit the record was written in.
package record

// Record is the wanted columns of a table.
type Record struct {
	Name     string    // of the file, as given
	Time     []float64 // s from the first kept row, rising; nil when the table has no time
	Lines    []int     // line in the file of each kept row, from 1; the first line of a merged group
	Columns  []Column  // in the order they were wanted
	Header   []string  // every column name of the file
	Rows     int       // rows of numbers in the file, kept or not
	Invented bool      // the file says that it was invented, not measured
	Notes    []Note
}

// Column is one column of a record.
type Column struct {
	Role   Role
	Name   string    // as the header writes it
	Unit   string    // as the header writes it in brackets or after the name, "" when it does not
	Values []float64 // one a row; nil for a column of words
	Words  []string  // one a row; nil for a column of numbers
}

// Len returns the number of kept rows.
func (r Record) Len() int { return len(r.Lines) }

// Column returns the column of a role.
func (r Record) Column(role Role) (Column, bool) {
	for _, c := range r.Columns {
		if c.Role == role {
			return c, true
		}
	}
	return Column{}, false
}

// Values returns the numbers of a role, nil when the record does not have it.
func (r Record) Values(role Role) []float64 {
	c, _ := r.Column(role)
	return c.Values
}

// Has says whether the record has numbers or words for all roles.
func (r Record) Has(roles ...Role) bool {
	for _, role := range roles {
		if _, ok := r.Column(role); !ok {
			return false
		}
	}
	return true
}

// Seconds returns the time between the first and the last kept row, 0 without a time column.
func (r Record) Seconds() float64 {
	if len(r.Time) == 0 {
		return 0
	}
	return r.Time[len(r.Time)-1]
}
