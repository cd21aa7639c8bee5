package record

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
)

// kept is the rows a record keeps if not told otherwise.
const kept = 2_000_000

// chooser decides what is wanted when the header is known; note may be empty.
type chooser func(header []string, fields int) (want []Want, note Note)

// table reads a table whose wanted columns are chosen once its header is known.
func table(r io.Reader, choose chooser, o Options) (Record, error) {
	head := make([]byte, headSize)
	n, err := io.ReadFull(r, head)
	whole := errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
	if err != nil && !whole {
		return Record{}, fmt.Errorf("read %s: %w", nameOf(o), err)
	}
	head = bytes.TrimPrefix(head[:n], []byte("\xef\xbb\xbf"))
	if text := notTable(head); text != "" {
		return Record{}, Problems{{File: o.Name, Text: text}}
	}
	form := look(head, whole)
	t := &reading{o: o, form: form, faults: faults{file: o.Name}}
	t.rec = Record{Name: o.Name, Header: form.header, Invented: form.invented}
	if form.invented {
		t.note(InventedMark, "the file says that it was invented, not measured")
	}
	wanted, note := choose(form.header, form.fields)
	if note.Text != "" {
		t.rec.Notes = append(t.rec.Notes, note)
	}
	t.choose(wanted)
	if len(t.faults.told) > 0 {
		return Record{}, t.faults.problems()
	}
	if err := t.rows(io.MultiReader(bytes.NewReader(head), r)); err != nil {
		return Record{}, fmt.Errorf("read %s: %w", nameOf(o), err)
	}
	t.finish()
	if p := t.faults.problems(); len(p) > 0 {
		return Record{}, p
	}
	return t.rec, nil
}

func nameOf(o Options) string {
	if o.Name == "" {
		return "record"
	}
	return o.Name
}

// notTable says why the beginning of a file is no table of text, "" when it may be one.
func notTable(head []byte) string {
	switch {
	case len(bytes.TrimSpace(head)) == 0:
		return "the file is empty; record again"
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		return "the file is written in 16-bit characters; save it as UTF-8 text"
	case isWAV(head):
		return "the file is a sound recording, not a table; only the tap test and the hover record can use it"
	case bytes.IndexByte(head, 0) >= 0:
		return "the file is not text; export the log as CSV"
	}
	return ""
}

// reading is a table while it is read.
type reading struct {
	o      Options
	form   layout
	places []place // the first is time when timed
	timed  bool
	ofDay  bool // stamps are times of day
	rec    Record
	faults faults

	needTime       bool    // the time was wanted or its column chosen
	last           float64 // stamp as written, of the last row that was not left out
	same, firstDup int     // rows that repeat the stamp before, line of the first
	bare, skipped  int     // rows without a wanted value; rows left out for a problem
	beyond         int     // rows after the limit
	fold           int     // rows averaged into one
	sum            []float64
	summed, first  int
	words          []string
}

func (t *reading) note(about, format string, a ...any) {
	t.rec.Notes = append(t.rec.Notes, Note{about, fmt.Sprintf(format, a...)})
}

func (t *reading) choose(want []Want) {
	timeWant := Want{Role: Time, Optional: true}
	var rest []Want
	for _, w := range want {
		if w.Role == Time {
			timeWant, t.needTime = w, !w.Optional
			continue
		}
		rest = append(rest, w)
	}
	if t.o.Rate == 0 {
		rest = append([]Want{timeWant}, rest...)
	}
	if _, ok := t.o.Columns[Time]; ok {
		t.needTime = true
	}
	if t.form.header == nil && t.o.Rate == 0 && t.form.fields > 1 {
		rest[0].Optional = false
	}
	t.places = pick(t.form.header, t.form.fields, rest, t.o.Columns, &t.faults)
	kept := t.places[:0]
	for _, p := range t.places {
		if p.at < 0 {
			continue
		}
		if p.guess != "" {
			t.note(string(p.Role), "%s", p.guess)
		}
		t.timed = t.timed || p.Role == Time
		kept = append(kept, p)
	}
	t.places = kept
	if len(t.places) == 0 && len(t.faults.told) == 0 {
		t.faults.add("column not found", Problem{Text: "no wanted column was found; name the columns: " + listed(t.form.header, t.form.fields)})
	}
	t.fold = 1
	t.sum, t.words = make([]float64, len(t.places)), make([]string, len(t.places))
	for _, p := range t.places {
		if p.Role != Time {
			t.rec.Columns = append(t.rec.Columns, Column{Role: p.Role, Name: p.name, Unit: p.unit})
		}
	}
}

func (t *reading) rows(r io.Reader) error {
	l := newLines(r)
	var fields [][]byte
	values := make([]float64, len(t.places))
	for {
		line, err := l.next()
		switch {
		case err == io.EOF:
			return nil
		case err == errLong:
			t.bad("line too long", Problem{Line: l.n, Text: "the line is longer than a million characters; export one row a line"})
			continue
		case err != nil:
			return err
		}
		if l.n <= t.form.line || len(bytes.TrimSpace(line)) == 0 || isComment(line) {
			continue
		}
		t.rec.Rows++
		if len(t.rec.Lines) >= t.limit() && !t.o.Thin {
			t.beyond++
			continue
		}
		closed := false
		if fields, closed = split(fields, line, t.form.mark); !closed {
			t.bad("quote not closed", Problem{Line: l.n, Text: `a quote is opened and not closed; close it or take it out`})
			continue
		}
		if t.row(fields, values, l.n, l.cut) {
			t.keep(values, l.n)
		}
	}
}

// row reads the wanted fields of a line into values; false when the line is not kept.
func (t *reading) row(fields [][]byte, values []float64, n int, last bool) bool {
	good := true
	for i, p := range t.places {
		switch {
		case p.at >= len(fields) && last:
			t.note("rows", "the last line, %d, is cut off and left out", n)
			t.rec.Rows--
			return false
		case p.at >= len(fields):
			t.bad("row too short", Problem{Line: n, Column: p.name,
				Text: fmt.Sprintf("the line has %d of at least %d fields; mend or delete the line", len(fields), p.at+1)})
			return false
		case p.Words:
			t.words[i] = strings.ReplaceAll(string(fields[p.at]), `""`, `"`)
			continue
		case len(fields[p.at]) == 0:
			t.bare++
			return false
		}
		text := fields[p.at]
		v, ok := number(text, t.form.decimalComma)
		if !ok && p.Role == Time {
			if v, ok = clock(string(text)); ok {
				t.ofDay = true
			} else if !t.needTime && len(t.rec.Lines) == 0 && t.summed == 0 {
				t.timed, t.places[i].Words = false, true
				t.note(string(Time), "%q in column %q is no time in numbers; the column is not used", short(text), p.name)
				continue
			}
		}
		switch {
		case !ok && p.at < len(t.form.header) && string(text) == t.form.header[p.at]:
			t.bad("header again", Problem{Line: n, Column: p.name, Value: string(text),
				Text: "the header stands here again: the log was restarted; cut the file and read one part"})
			return false
		case !ok:
			t.bad("text in place of a number", Problem{Line: n, Column: p.name, Value: short(text),
				Text: fmt.Sprintf("%q is no number; mend or delete the line", short(text))})
			good = false
		case !finite(v):
			t.bad("not a finite number", Problem{Line: n, Column: p.name, Value: short(text),
				Text: fmt.Sprintf("%s is not a finite number; delete the line, or leave such rows out", short(text))})
			good = false
		}
		values[i] = v
	}
	if !good || !t.timed {
		return good
	}
	now := values[0]
	switch seen := len(t.rec.Lines) > 0 || t.summed > 0; {
	case seen && now == t.last:
		if t.same++; t.same == 1 {
			t.firstDup = n
		}
		return false
	case seen && now < t.last:
		t.bad("time runs backwards", Problem{Line: n, Column: t.places[0].name, Value: fmt.Sprint(now),
			Text: fmt.Sprintf("time runs backwards, from %v to %v; cut the record there and read one part", t.last, now)})
		if t.o.Skip {
			return false
		}
	}
	t.last = now
	return true
}

// bad tells a problem, or counts the row as left out when those are to be.
func (t *reading) bad(kind string, p Problem) {
	if t.o.Skip {
		t.skipped++
		return
	}
	t.faults.add(kind, p)
}

func short(text []byte) string {
	const most = 40
	if s := []rune(string(text)); len(s) > most {
		return string(s[:most]) + "..."
	}
	return string(text)
}
