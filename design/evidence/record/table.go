package record

import "io"

// Want is a column that the caller needs.
type Want struct {
	Role     Role
	Words    bool // the column holds words, not numbers
	Optional bool // its absence is no problem
}

// Needs returns the roles as wanted columns of numbers.
func Needs(roles ...Role) []Want {
	w := make([]Want, len(roles))
	for i, r := range roles {
		w[i] = Want{Role: r}
	}
	return w
}

// Maybe returns the roles as columns of numbers that may be missing.
func Maybe(roles ...Role) []Want {
	w := Needs(roles...)
	for i := range w {
		w[i].Optional = true
	}
	return w
}

// Options say how a table is to be read. The zero value guesses what it can and states it.
type Options struct {
	Name     string          // of the file, for problems and notes
	Columns  map[Role]string // header name of a role, or its number from 1; a role not in the map is guessed
	TimeUnit string          // s, ms, us or ns; "" takes the header's or guesses from the spacing
	Rate     float64         // Hz; 0 takes the time column; else the time column is not looked at
	Rows     int             // rows (or samples of sound) kept at most, an even number; 0 means 2 million, 16 MB a column
	Thin     bool            // when there are more rows, neighbours are averaged two by two until they fit; else the rest is left out
	Least    int             // rows below which the record is refused; 0 means 8
	Skip     bool            // rows with a problem are left out and counted in a note, not refused
}

// Read reads the wanted columns and the time column of a table of text: comma, semicolon or tab between fields, quoted fields,
// lines that begin with # as comments, a decimal comma where the comma parts no fields, lines of other shape before the
// header. Time is optional unless it is wanted. Everything wrong is returned at once as Problems, at most five of a kind.
func Read(r io.Reader, want []Want, o Options) (Record, error) {
	return table(r, func([]string, int) ([]Want, Note) { return want, Note{} }, o)
}
