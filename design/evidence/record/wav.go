package record

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
)

func isWAV(head []byte) bool {
	return len(head) >= 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WAVE"
}

// ReadWAV reads a sound recording of 16-bit linear samples, mono or stereo, as parts of full scale. It believes no size in the
// file further than there are bytes, and keeps o.Rows samples at most; of the options it reads Name and Rows.
//
// Source: Multimedia Programming Interface and Data Specifications 1.0, 1991, chapter "Waveform Audio File Format"; the
// extensible form with the sub-format of linear samples is read too.
func ReadWAV(r io.Reader, o Options) (Series, error) {
	w := wave{r: bufio.NewReaderSize(r, 1<<16), s: Series{Name: o.Name, Kind: Audio, Unit: "of full scale"}, limit: o.Rows}
	if w.limit <= 0 {
		w.limit = kept
	}
	if text := w.read(); text != "" {
		return Series{}, Problems{{File: o.Name, Text: text}}
	}
	if w.err != nil {
		return Series{}, fmt.Errorf("read %s: %w", nameOf(o), w.err)
	}
	return w.s, nil
}

type wave struct {
	r        *bufio.Reader
	s        Series
	limit    int
	channels int
	err      error // of the reader, other than the end
}

func (w *wave) full(b []byte) bool {
	_, err := io.ReadFull(w.r, b)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		w.err = err
	}
	return err == nil
}

func (w *wave) note(about, format string, a ...any) {
	w.s.Notes = append(w.s.Notes, Note{about, fmt.Sprintf(format, a...)})
}

// read goes through the chunks and returns what is wrong, "" when nothing is.
func (w *wave) read() string {
	var head [12]byte
	if !w.full(head[:]) || !isWAV(head[:]) {
		return "this is no WAV file; save the sound as WAV, 16-bit linear samples"
	}
	for {
		var chunk [8]byte
		if !w.full(chunk[:]) {
			return "the file ends before any samples; record again"
		}
		size := int64(binary.LittleEndian.Uint32(chunk[4:]))
		switch string(chunk[:4]) {
		case "fmt ":
			if text := w.format(size); text != "" {
				return text
			}
		case "LIST":
			if w.comment(size); w.err != nil {
				return ""
			}
		case "data":
			if w.channels == 0 {
				return "the samples come before their format; save the sound as WAV again"
			}
			return w.samples(size)
		default:
			w.skip(size + size&1)
		}
	}
}

func (w *wave) skip(n int64) {
	if _, err := io.CopyN(io.Discard, w.r, n); err != nil && !errors.Is(err, io.EOF) {
		w.err = err
	}
}

func (w *wave) format(size int64) string {
	if size < 16 || size > 1<<12 {
		return fmt.Sprintf("the format block has %d bytes in place of 16 to 40; save the sound as WAV again", size)
	}
	b := make([]byte, size+size&1)
	if !w.full(b) {
		return "the file ends inside its format block; record again"
	}
	tag, bits := binary.LittleEndian.Uint16(b), binary.LittleEndian.Uint16(b[14:])
	if tag == 0xfffe && size >= 26 {
		tag = binary.LittleEndian.Uint16(b[24:])
	}
	channels, rate := int(binary.LittleEndian.Uint16(b[2:])), binary.LittleEndian.Uint32(b[4:])
	switch {
	case tag != 1:
		return fmt.Sprintf("the sound is coded (format %d); save it as WAV, 16-bit linear samples", tag)
	case bits != 16:
		return fmt.Sprintf("the samples have %d bits; save the sound with 16", bits)
	case channels != 1 && channels != 2:
		return fmt.Sprintf("the sound has %d channels; save it as mono or stereo", channels)
	case rate < 500 || rate > 400_000:
		return fmt.Sprintf("a rate of %d samples a second is no sound recording's; save the sound as WAV again", rate)
	}
	w.channels, w.s.Rate = channels, float64(rate)
	return ""
}

// comment looks for the mark of an invented record in the file's own comment.
func (w *wave) comment(size int64) {
	if size > 1<<16 {
		w.skip(size + size&1)
		return
	}
	b := make([]byte, size+size&1)
	if !w.full(b) {
		return
	}
	if i := bytes.Index(b, []byte("ICMT")); i >= 0 && i+8 <= len(b) && strings.HasPrefix(string(b[i+8:]), InventedMark) {
		w.s.Invented = true
		w.note(InventedMark, "the file says that it was invented, not measured")
	}
}

func (w *wave) samples(size int64) string {
	frame := 2 * w.channels
	open := size == 0 || size >= math.MaxUint32-8 // a recorder that could not go back to write the size
	w.s.Names = []string{string(Sound)}
	if w.channels == 2 {
		w.s.Names = []string{"sound left", "sound right"}
	}
	w.s.Axes = make([][]float64, w.channels)
	var b [4]byte
	n, short := 0, false
	for open || int64(n+1)*int64(frame) <= size {
		if n == w.limit {
			w.note("rows", "the first %d samples (%.4g s) are kept and the rest left out; cut the sound", n, float64(n)/w.s.Rate)
			break
		}
		if !w.full(b[:frame]) {
			short = !open
			break
		}
		for c := range w.channels {
			w.s.Axes[c] = append(w.s.Axes[c], float64(int16(binary.LittleEndian.Uint16(b[2*c:])))/32768)
		}
		n++
	}
	if n < 8 {
		return fmt.Sprintf("%d samples are too few; record again", n)
	}
	if short {
		w.note("rows", "the file ends after %d samples, before the %d it announces", n, size/int64(frame))
	}
	for c, axis := range w.s.Axes {
		if run, ok := Saturated(axis); ok {
			w.note(w.s.Names[c], "stands at its extreme for up to %d samples together: the recording is overdriven", run.Longest)
		}
	}
	return ""
}
