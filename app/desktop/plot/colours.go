package plot

import (
	"image/color"

	"fyne.io/fyne/v2/theme"

	"mastwright/app/desktop/look"
)

// Colours are those of a sheet. The zero value is the light palette on the window's panel.
type Colours struct {
	Dark  bool // the dark palette
	Paper bool // on white
}

func (k Colours) of(role look.Role) color.NRGBA {
	if k.Paper && role == look.Panel {
		return color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	}
	if k.Dark {
		return look.Shade(role, theme.VariantDark)
	}
	return look.Shade(role, theme.VariantLight)
}

func (k Colours) ground() color.NRGBA { return k.of(look.Panel) }

func (k Colours) faded(role look.Role, opacity float64) color.NRGBA {
	c := k.of(role)
	c.A = uint8(255*opacity + 0.5)
	return c
}
