// Package face knows the letters of a sheet: the Go fonts, their widths, and where a line of them breaks.
//
// Sizes and widths are in mm; a size is that of the letter's body (1 pt is 0.3528 mm).
package face

import (
	"strings"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"mastwright/app/sheet/paper"
)

// Point is a typographer's point in mm.
const Point = 25.4 / 72

// Data is the font file of a weight.
func Data(w paper.Weight) []byte {
	return [...][]byte{paper.Regular: goregular.TTF, paper.Medium: gomedium.TTF, paper.Mono: gomono.TTF}[w]
}

// Ruler measures words. One goroutine at a time.
type Ruler struct {
	fonts  [3]*sfnt.Font
	widths [3]map[rune]float64 // of a body of 1
	buffer sfnt.Buffer
}

// NewRuler returns a ruler.
func NewRuler() *Ruler {
	r := &Ruler{}
	for w := range r.fonts {
		f, err := sfnt.Parse(Data(paper.Weight(w)))
		if err != nil {
			panic(err) // embedded: it is always whole
		}
		r.fonts[w], r.widths[w] = f, map[rune]float64{}
	}
	return r
}

// Width is how wide a text is.
func (r *Ruler) Width(text string, w paper.Weight, size float64) float64 {
	sum := 0.0
	for _, c := range text {
		sum += r.width(c, w)
	}
	return sum * size
}

const unitsPerEm = 2048 // of the Go fonts

func (r *Ruler) width(c rune, w paper.Weight) float64 {
	if known, ok := r.widths[w][c]; ok {
		return known
	}
	width := 0.0
	if glyph, err := r.fonts[w].GlyphIndex(&r.buffer, c); err == nil {
		if advance, err := r.fonts[w].GlyphAdvance(&r.buffer, glyph, fixed.I(unitsPerEm), font.HintingNone); err == nil {
			width = float64(advance) / 64 / unitsPerEm
		}
	}
	r.widths[w][c] = width
	return width
}

// Legible is a text in which every letter that the fonts lack is a question mark, and every blank a space.
func (r *Ruler) Legible(text string) string {
	return strings.Map(func(c rune) rune {
		switch {
		case unicode.IsSpace(c):
			return ' '
		case unicode.IsControl(c):
			return -1
		}
		if glyph, err := r.fonts[paper.Mono].GlyphIndex(&r.buffer, c); err != nil || glyph == 0 {
			return '?'
		}
		return c
	}, text)
}

// Lines breaks a text into lines no wider than a width: at spaces, and within a word that is wider than a line. There is at
// least one line.
func (r *Ruler) Lines(text string, w paper.Weight, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(r.Legible(text)) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if r.Width(joined, w, size) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for r.Width(word, w, size) > width {
			n := r.fitting(word, w, size, width)
			lines = append(lines, word[:n])
			word = word[n:]
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// fitting is how many bytes of a word fit into a width: one letter at least.
func (r *Ruler) fitting(word string, w paper.Weight, size, width float64) int {
	sum := 0.0
	for i, c := range word {
		sum += r.width(c, w) * size
		if sum > width && i > 0 {
			return i
		}
	}
	return len(word)
}

// Shortened is a text that fits into a width, cut with an ellipsis where it does not.
func (r *Ruler) Shortened(text string, w paper.Weight, size, width float64) string {
	text = r.Legible(text)
	if r.Width(text, w, size) <= width {
		return text
	}
	room := width - r.Width("…", w, size)
	cut := ""
	for _, c := range text {
		if r.Width(cut+string(c), w, size) > room {
			break
		}
		cut += string(c)
	}
	return strings.TrimRight(cut, " ") + "…"
}
