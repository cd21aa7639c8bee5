package record

import (
	"bytes"
	"fmt"
	"io"
	"slices"
)

// motions are the groups of columns that a vibration can be read from, best first.
var motions = [][]Role{{AccX, AccY, AccZ}, {GyroX, GyroY, GyroZ}, {Sound}}

// ReadMotion reads a record of vibration at even times: sound from a WAV file, else acceleration, gyro or sound from a table,
// the first group of these that has a column, or the group for which a column was chosen. Columns named only x, y and z, or
// without a header, are taken as acceleration, and that is stated.
func ReadMotion(r io.Reader, o Options) (Series, error) {
	head := make([]byte, 12)
	n, err := io.ReadFull(r, head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return Series{}, fmt.Errorf("read %s: %w", nameOf(o), err)
	}
	all := io.MultiReader(bytes.NewReader(head[:n]), r)
	if isWAV(head[:n]) {
		return ReadWAV(all, o)
	}
	named := map[Role]string{}
	for role, name := range o.Columns {
		named[role] = name
	}
	o.Columns = named
	rec, err := table(all, func(header []string, fields int) ([]Want, Note) { return motion(header, fields, named) }, o)
	if err != nil {
		return Series{}, err
	}
	var roles []Role
	for _, c := range rec.Columns {
		roles = append(roles, c.Role)
	}
	return rec.Even(roles, EvenOptions{})
}

// motion chooses the group of columns to read; it names x, y and z in chosen when nothing better is there.
func motion(header []string, fields int, chosen map[Role]string) ([]Want, Note) {
	for _, group := range motions {
		if slices.ContainsFunc(group, func(r Role) bool { _, ok := chosen[r]; return ok }) {
			var only []Role
			for _, r := range group {
				if _, ok := chosen[r]; ok {
					only = append(only, r)
				}
			}
			return Needs(only...), Note{}
		}
	}
	for _, group := range motions {
		if slices.ContainsFunc(group, func(r Role) bool { at, _ := guess(header, r, nil); return at >= 0 }) {
			return Maybe(group...), Note{}
		}
	}
	acc := motions[0]
	if header == nil && fields > 1 {
		return Needs(acc[:min(3, fields-1)]...), Note{"columns", "taken as acceleration, guessed: the table has no header"}
	}
	plainAxes := false
	for i, axis := range []string{"x", "y", "z"} {
		if find(header, 0, axis) >= 0 {
			chosen[acc[i]], plainAxes = axis, true
		}
	}
	if plainAxes {
		return Maybe(acc...), Note{"columns", "x, y and z are taken as acceleration, guessed"}
	}
	return Needs(acc[0]), Note{}
}
