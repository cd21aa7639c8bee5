package record

import (
	"bufio"
	"encoding/binary"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteTable writes columns of equal lengths as a table with commas, six significant digits, times with nine. The comment, if
// any, goes first, each of its lines behind a #.
func WriteTable(w io.Writer, comment string, names []string, columns [][]float64) error {
	b := bufio.NewWriter(w)
	if comment != "" {
		for line := range strings.SplitSeq(comment, "\n") {
			b.WriteString("# " + line + "\n")
		}
	}
	b.WriteString(strings.Join(names, ",") + "\n")
	var line []byte
	for i := range columns[0] {
		line = line[:0]
		for c, column := range columns {
			digits := 6
			if r, _ := roleOf(names[c]); r == Time {
				digits = 9
			}
			if c > 0 {
				line = append(line, ',')
			}
			line = strconv.AppendFloat(line, column[i], 'g', digits, 64)
		}
		b.Write(append(line, '\n'))
	}
	return b.Flush()
}

// WriteWAV writes one or two axes in parts of full scale as 16-bit sound with a comment. Values beyond full scale are clipped.
func WriteWAV(w io.Writer, s Series, comment string) error {
	b := bufio.NewWriter(w)
	text := comment + "\x00"
	text += strings.Repeat("\x00", len(text)&1)
	channels, n := len(s.Axes), s.Len()
	data := n * channels * 2
	put := func(v any) { binary.Write(b, binary.LittleEndian, v) } // an error stays with b until Flush
	b.WriteString("RIFF")
	put(uint32(4 + 24 + 20 + len(text) + 8 + data))
	b.WriteString("WAVEfmt ")
	put(uint32(16))
	put([]uint16{1, uint16(channels)})
	put([]uint32{uint32(math.Round(s.Rate)), uint32(math.Round(s.Rate)) * uint32(2*channels)})
	put([]uint16{uint16(2 * channels), 16})
	b.WriteString("LIST")
	put(uint32(12 + len(text)))
	b.WriteString("INFOICMT")
	put(uint32(len(text)))
	b.WriteString(text)
	b.WriteString("data")
	put(uint32(data))
	var sample [2]byte
	for i := range n {
		for _, axis := range s.Axes {
			v := max(-32768, min(32767, math.Round(axis[i]*32768)))
			binary.LittleEndian.PutUint16(sample[:], uint16(int16(v)))
			b.Write(sample[:])
		}
	}
	return b.Flush()
}
