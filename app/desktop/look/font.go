package look

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"fyne.io/fyne/v2"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomediumitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
)

// Font is one of the uses of type. The zero value is Body.
type Font int

// The uses. Nothing is smaller than Formula.
const (
	Body     Font = iota // fields, rows, sentences: 13
	Strong               // a picked or failing row, a heading: 13 Medium
	Assumed              // a value nobody entered: 13 Italic
	Caption              // ranges, plots, second lines: 12
	Formula              // 11 Mono
	Title                // the name of what is picked: 17 Medium
	Headline             // the one figure: 29
)

// Size returns the size of the type in pixels at scale 1.
func (f Font) Size() float32 { return uses[f].size }

// Pitch returns the distance between two baselines in pixels at scale 1.
func (f Font) Pitch() float32 { return uses[f].pitch }

// Style returns the toolkit's name for the face.
func (f Font) Style() fyne.TextStyle { return uses[f].style }

// TTF returns the font file, for drawing into a picture.
func (f Font) TTF() []byte { return Theme{}.Font(f.Style()).Content() }

// Width returns the width of a text in pixels at scale 1.
func (f Font) Width(text string) float32 { return fyne.MeasureText(text, f.Size(), f.Style()).Width }

var uses = [...]struct {
	size, pitch float32
	style       fyne.TextStyle
}{
	Body:     {13, 16, fyne.TextStyle{}},
	Strong:   {13, 16, fyne.TextStyle{Bold: true}},
	Assumed:  {13, 16, fyne.TextStyle{Italic: true}},
	Caption:  {12, 15, fyne.TextStyle{}},
	Formula:  {11, 15, fyne.TextStyle{Monospace: true}},
	Title:    {17, 22, fyne.TextStyle{Bold: true}},
	Headline: {29, 36, fyne.TextStyle{}},
}

var faces = struct{ regular, medium, italic, mediumItalic, mono fyne.Resource }{
	regular:      seated("GoRegular", goregular.TTF),
	medium:       seated("GoMedium", gomedium.TTF),
	italic:       seated("GoItalic", goitalic.TTF),
	mediumItalic: seated("GoMediumItalic", gomediumitalic.TTF),
	mono:         seated("GoMono", gomono.TTF),
}

// The heights given to every face, in its units of 2048 an em. The toolkit puts the baseline at the ceiling of the ascent in a picture as
// high as the rounded sum of ascent and descent: with an ascent of a whole em the baseline of a whole size falls on a whole pixel, and
// the tails of g and y are not cut off.
const (
	ascender  = 2048
	descender = -472
)

// seated returns a copy of a font whose lines are as high as the toolkit needs them.
func seated(name string, original []byte) fyne.Resource {
	font := bytes.Clone(original)
	tables := int(binary.BigEndian.Uint16(font[4:]))
	for i := range tables {
		record := font[12+16*i:]
		if string(record[:4]) != "hhea" {
			continue
		}
		hhea := font[binary.BigEndian.Uint32(record[8:]):]
		put(hhea[4:], ascender)
		put(hhea[6:], descender)
		put(hhea[8:], 0) // line gap
		return fyne.NewStaticResource(name+".ttf", font)
	}
	panic(fmt.Sprintf("look: %s has no hhea table", name)) // an embedded font: it cannot be absent
}

func put(at []byte, value int16) { binary.BigEndian.PutUint16(at, uint16(value)) }
