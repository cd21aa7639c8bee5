package record

import (
	"fmt"
	"strconv"
	"strings"
)

// place is where a wanted column stands.
type place struct {
	Want
	at    int // field, from 0; -1 when the table does not have it
	name  string
	unit  string
	guess string // a note, "" when it was chosen
}

// pick finds the wanted columns by choice, then by name, then, in a table without a header, by order.
func pick(header []string, fields int, want []Want, chosen map[Role]string, f *faults) []place {
	places := make([]place, len(want))
	taken := map[int]bool{}
	for i, w := range want {
		places[i] = place{Want: w, at: -1}
		name, ok := chosen[w.Role]
		if !ok {
			continue
		}
		at := find(header, fields, name)
		if at < 0 {
			f.add("column not found", Problem{Column: string(w.Role), Value: name,
				Text: fmt.Sprintf("there is no column %q; %s", name, listed(header, fields))})
		}
		places[i].at, taken[at] = at, true
	}
	for i, w := range want {
		if _, ok := chosen[w.Role]; ok {
			continue
		}
		at, others := guess(header, w.Role, taken)
		switch {
		case at >= 0:
			places[i].guess = fmt.Sprintf("taken from column %q, guessed from its name", header[at])
			if len(others) > 0 {
				places[i].guess += fmt.Sprintf("; %s would fit too", quoted(others))
			}
		case header == nil && !w.Optional && len(taken) < fields:
			for at = 0; taken[at]; at++ {
			}
			places[i].guess = fmt.Sprintf("taken from column %d, guessed from its place: the table has no header", at+1)
		case !w.Optional:
			f.add("column not found", Problem{Column: string(w.Role),
				Text: fmt.Sprintf("no column reads like it; name the column that holds it: %s", listed(header, fields))})
			continue
		default:
			continue
		}
		places[i].at, taken[at] = at, true
	}
	for i := range places {
		if at := places[i].at; at >= 0 {
			places[i].name = "column " + strconv.Itoa(at+1)
			if header != nil && at < len(header) {
				places[i].name = header[at]
				_, places[i].unit = splitUnit(header[at])
			}
		}
	}
	return places
}

// find returns the field of a name as written, in other case, or given as a number from 1.
func find(header []string, fields int, name string) int {
	for i, h := range header {
		if h == name {
			return i
		}
	}
	for i, h := range header {
		if strings.EqualFold(strings.TrimSpace(h), strings.TrimSpace(name)) {
			return i
		}
	}
	if n, err := strconv.Atoi(strings.TrimSpace(name)); err == nil && n >= 1 && n <= max(fields, len(header)) {
		return n - 1
	}
	return -1
}

// guess returns the column that reads most surely as a role, and the names of those that read as surely.
func guess(header []string, role Role, taken map[int]bool) (at int, others []string) {
	at, best := -1, 0
	for i, h := range header {
		if taken[i] {
			continue
		}
		r, sure := roleOf(h)
		if own := plain(h); r != role && own != "" && own == plain(string(role)) {
			r, sure = role, 2
		}
		switch {
		case r != role || sure < best:
		case sure > best:
			at, best, others = i, sure, nil
		default:
			others = append(others, h)
		}
	}
	return at, others
}

func listed(header []string, fields int) string {
	if header == nil {
		return fmt.Sprintf("the table has no header and %d columns, numbered from 1", fields)
	}
	const most = 40
	if len(header) > most {
		return fmt.Sprintf("the table has %s and %d more", quoted(header[:most]), len(header)-most)
	}
	return "the table has " + quoted(header)
}

func quoted(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = strconv.Quote(n)
	}
	return strings.Join(q, ", ")
}
