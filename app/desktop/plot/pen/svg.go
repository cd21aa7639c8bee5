package pen

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"

	"mastwright/app/desktop/look"
)

// SVG is a pen for paper. Texts stay texts, in the desktop's fonts where the reader has them.
type SVG struct {
	Title string
	Sheet Spot // its width and height

	faces faces
	body  bytes.Buffer
}

// Area fills a polygon.
func (s *SVG) Area(path []Spot, c color.NRGBA) {
	if len(path) >= 3 && c.A > 0 {
		fmt.Fprintf(&s.body, "<path d=\"%sZ\"%s/>\n", trace(path), ink("fill", c))
	}
}

// Line draws a chain.
func (s *SVG) Line(path []Spot, l Stroke) {
	if len(path) < 2 || l.Colour.A == 0 {
		return
	}
	dash := ""
	if l.Dash > 0 {
		dash = fmt.Sprintf(" stroke-dasharray=\"%s\"", number(l.Dash))
	}
	fmt.Fprintf(&s.body, "<path d=\"%s\" fill=\"none\"%s stroke-width=\"%s\" stroke-linejoin=\"round\"%s/>\n",
		trace(path), ink("stroke", l.Colour), number(l.Width), dash)
}

// Words writes a line of text.
func (s *SVG) Words(at Spot, text string, l Letters) {
	if text == "" {
		return
	}
	family, weight := "Go, Helvetica, Arial, sans-serif", ""
	style := l.Font.Style()
	if style.Monospace {
		family = "'Go Mono', monospace"
	}
	if style.Bold {
		weight = " font-weight=\"500\""
	}
	fmt.Fprintf(&s.body, "<text x=\"%s\" y=\"%s\" font-family=\"%s\" font-size=\"%s\"%s text-anchor=\"%s\"%s>",
		number(at.X), number(at.Y), family, number(float64(l.Font.Size())), weight, [...]string{"start", "middle", "end"}[l.Align], ink("fill", l.Colour))
	escape(&s.body, text)
	s.body.WriteString("</text>\n")
}

// Width returns how wide a text is.
func (s *SVG) Width(text string, f look.Font) float64 { return s.faces.width(text, f) }

// Encode writes the drawing as a file.
func (s *SVG) Encode(w io.Writer) error {
	var file bytes.Buffer
	fmt.Fprintf(&file, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%[1]s\" height=\"%[2]s\" viewBox=\"0 0 %[1]s %[2]s\">\n<title>",
		number(s.Sheet.X), number(s.Sheet.Y))
	escape(&file, s.Title)
	file.WriteString("</title>\n")
	file.Write(s.body.Bytes())
	file.WriteString("</svg>\n")
	_, err := w.Write(file.Bytes())
	return err
}

// escape writes text for XML; a buffer takes everything.
func escape(b *bytes.Buffer, text string) { _ = xml.EscapeText(b, []byte(text)) }

func trace(path []Spot) string {
	var b bytes.Buffer
	for i, p := range path {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(number(p.X))
		b.WriteByte(' ')
		b.WriteString(number(p.Y))
	}
	return b.String()
}

func ink(what string, c color.NRGBA) string {
	text := fmt.Sprintf(" %s=\"#%02x%02x%02x\"", what, c.R, c.G, c.B)
	if c.A < 0xFF {
		text += fmt.Sprintf(" %s-opacity=\"%s\"", what, number(float64(c.A)/0xFF))
	}
	return text
}

func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100+0, 'f', -1, 64)
}
