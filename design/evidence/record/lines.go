package record

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// longest is the most bytes of a line that are looked at.
const longest = 1 << 20

var errLong = errors.New("line too long")

// lines gives the lines of a text one by one, without their ends.
type lines struct {
	r    *bufio.Reader
	n    int // of the line last given, from 1
	part []byte
	cut  bool // the line last given had no end: it is the file's last
}

func newLines(r io.Reader) *lines { return &lines{r: bufio.NewReaderSize(r, 1<<16)} }

// next returns the next line, valid until the next call; io.EOF after the last; errLong for a line over the limit, which is
// then passed over.
func (l *lines) next() ([]byte, error) {
	l.part = l.part[:0]
	l.n++
	for {
		piece, err := l.r.ReadSlice('\n')
		switch {
		case err == nil && len(l.part) == 0:
			return bytes.TrimRight(piece, "\r\n"), nil
		case len(l.part)+len(piece) > longest:
			for err == bufio.ErrBufferFull {
				_, err = l.r.ReadSlice('\n')
			}
			return nil, errLong
		}
		l.part = append(l.part, piece...)
		switch err {
		case nil:
			return bytes.TrimRight(l.part, "\r\n"), nil
		case bufio.ErrBufferFull:
		case io.EOF:
			if len(l.part) == 0 {
				return nil, io.EOF
			}
			l.cut = true
			return bytes.TrimRight(l.part, "\r\n"), nil
		default:
			return nil, err
		}
	}
}

// split cuts a line at a mark that stands outside quotes into fields, reusing them. Spaces around a field and the quotes
// around it are taken off; a doubled quote inside stays doubled. It says whether every quote was closed.
func split(fields [][]byte, line []byte, mark byte) ([][]byte, bool) {
	fields = fields[:0]
	if bytes.IndexByte(line, '"') < 0 {
		for {
			i := bytes.IndexByte(line, mark)
			if i < 0 {
				return append(fields, bytes.TrimSpace(line)), true
			}
			fields = append(fields, bytes.TrimSpace(line[:i]))
			line = line[i+1:]
		}
	}
	start, inside := 0, false
	for i, b := range line {
		switch {
		case b == '"':
			inside = !inside
		case b == mark && !inside:
			fields = append(fields, unquote(line[start:i]))
			start = i + 1
		}
	}
	return append(fields, unquote(line[start:])), !inside
}

func unquote(field []byte) []byte {
	field = bytes.TrimSpace(field)
	if len(field) >= 2 && field[0] == '"' && field[len(field)-1] == '"' {
		field = bytes.TrimSpace(field[1 : len(field)-1])
	}
	return field
}

func isComment(line []byte) bool {
	line = bytes.TrimLeft(line, " \t\"")
	return len(line) > 0 && line[0] == '#'
}
