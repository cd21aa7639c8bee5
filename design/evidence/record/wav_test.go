package record_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
)

func le(v any) string {
	b, _ := binary.Append(nil, binary.LittleEndian, v)
	return string(b)
}

func format(tag, channels uint16, rate uint32, bits uint16) string {
	return "fmt " + le(uint32(16)) + le(tag) + le(channels) + le(rate) + le(rate*uint32(channels)*uint32(bits)/8) + le(channels*bits/8) + le(bits)
}

func riff(chunks string) string { return "RIFF" + le(uint32(4+len(chunks))) + "WAVE" + chunks }

// The files are put together here byte by byte after the published layout, not by the package's writer.
func TestReadWAV(t *testing.T) {
	samples := le([]int16{0, 16384, -32768, 8192, 1, 2, 3, 4, 5, 6})
	parts := []float64{0, .5, -1, .25}
	data := func(size int, s string) string { return "data" + le(uint32(size)) + s }
	pcm := "\x01\x00\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"
	cases := []struct {
		name, file string
		want       []float64 // first samples of the first axis; nil when refused
		text       string    // in a note, or in the refusal
	}{
		{"mono", riff(format(1, 1, 8000, 16) + data(20, samples)), parts, ""},
		{"stereo", riff(format(1, 2, 8000, 16) + data(40, samples+samples)), []float64{0, -1}, ""},
		{"other blocks, one of odd length", riff("junk" + le(uint32(3)) + "abc\x00" + format(1, 1, 8000, 16) + data(20, samples)), parts, ""},
		{"extensible", riff("fmt " + le(uint32(40)) + le([]uint16{0xfffe, 1}) + le([]uint32{8000, 16000}) + le([]uint16{2, 16, 22, 16}) + le(uint32(4)) + pcm + data(20, samples)), parts, ""},
		{"size never written", riff(format(1, 1, 8000, 16) + data(0, samples)), parts, ""},
		{"size of four gigabytes", riff(format(1, 1, 8000, 16) + data(0xffffffff, samples)), parts, ""},
		{"size too large", riff(format(1, 1, 8000, 16) + data(2000, samples)), parts, "ends after 10 samples, before the 1000"},
		{"24 bits", riff(format(1, 1, 8000, 24) + data(20, samples)), nil, "have 24 bits"},
		{"coded", riff(format(6, 1, 8000, 16) + data(20, samples)), nil, "format 6"},
		{"six channels", riff(format(1, 6, 8000, 16) + data(20, samples)), nil, "6 channels"},
		{"no rate", riff(format(1, 1, 0, 16) + data(20, samples)), nil, "a rate of 0"},
		{"no format", riff(data(20, samples)), nil, "before their format"},
		{"no samples", riff(format(1, 1, 8000, 16)), nil, "ends before any samples"},
		{"format cut", "RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00\x01", nil, "ends inside"},
		{"format of a gigabyte", riff("fmt " + le(uint32(1<<30))), nil, "1073741824 bytes"},
		{"few samples", riff(format(1, 1, 8000, 16) + data(4, samples)), nil, "2 samples are too few"},
		{"text", "time,ax\n1,2\n", nil, "no WAV"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := record.ReadWAV(strings.NewReader(c.file), record.Options{Name: "tap.wav"})
			switch {
			case c.want == nil:
				if err == nil || !strings.Contains(err.Error(), c.text) {
					t.Errorf("error %v, want one with %q", err, c.text)
				}
			case err != nil:
				t.Error(err)
			case s.Rate != 8000 || !slices.Equal(s.Axes[0][:len(c.want)], c.want):
				t.Errorf("%v Hz, %v; want 8000, %v", s.Rate, s.Axes[0], c.want)
			case !strings.Contains(fmt.Sprint(s.Notes), c.text):
				t.Errorf("notes %v lack %q", s.Notes, c.text)
			}
		})
	}
}

func TestReadWAVKeeps(t *testing.T) {
	var b bytes.Buffer
	axis := make([]float64, 1000)
	for i := range axis {
		axis[i] = float64(i%50)/25 - 1
	}
	s := record.Series{Rate: 8000, Axes: [][]float64{axis}}
	if err := record.WriteWAV(&b, s, record.InventedMark+" for a test"); err != nil {
		t.Fatal(err)
	}
	got, err := record.ReadWAV(&b, record.Options{Rows: 100})
	if err != nil || got.Len() != 100 || !got.Invented || !strings.Contains(fmt.Sprint(got.Notes), "the first 100 samples (0.0125 s)") {
		t.Errorf("%d samples, invented %v, notes %v, error %v", got.Len(), got.Invented, got.Notes, err)
	}
}
