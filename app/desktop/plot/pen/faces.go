package pen

import (
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"mastwright/app/desktop/look"
)

// faces are the desktop's fonts at the sizes that were asked for.
type faces struct{ known map[facing]font.Face }

type facing struct {
	font look.Font
	size float64
}

func (f *faces) of(use look.Font, scale float64) font.Face {
	key := facing{use, float64(use.Size()) * scale}
	if face, ok := f.known[key]; ok {
		return face
	}
	parsed, err := opentype.Parse(use.TTF())
	if err != nil {
		panic(err) // embedded: it is sound
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: key.size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic(err)
	}
	if f.known == nil {
		f.known = map[facing]font.Face{}
	}
	f.known[key] = face
	return face
}

func (f *faces) width(text string, use look.Font) float64 {
	return float64(font.MeasureString(f.of(use, 1), text)) / 64
}
