package view

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
	raster "mastwright/mesh/view"
)

// colours are those of one picture, light or dark.
type colours struct {
	variant fyne.ThemeVariant
	palette raster.Palette
	leads   [3]color.NRGBA // by polarity
}

func coloursOf(variant fyne.ThemeVariant) colours {
	if variant == theme.VariantDark {
		return colours{variant, raster.Dark(), [...]color.NRGBA{red: {R: 0xC2, G: 0x4A, B: 0x3C, A: 0xFF}, black: {R: 0x3B, G: 0x42, B: 0x44, A: 0xFF}}}
	}
	return colours{variant, raster.Light(), [...]color.NRGBA{red: {R: 0xB4, G: 0x3A, B: 0x2E, A: 0xFF}, black: {R: 0x24, G: 0x28, B: 0x2A, A: 0xFF}}}
}

func (c *colours) of(role look.Role) color.NRGBA { return look.Shade(role, c.variant) }

// plate is the ground behind words in the picture.
func (c *colours) plate() color.NRGBA { return fade(c.of(look.Panel), 0.86) }

// body is the colour of a thing.
func (c *colours) body(b *body) color.NRGBA {
	switch {
	case b.lead != none:
		return c.leads[b.lead]
	case b.role == look.Print:
		return c.palette.Print
	case b.role == look.Frame:
		return c.palette.Frame
	}
	return c.palette.Body
}

// state is the colour of a place on the verdict scale, laid over a colour: the further through its lane, the stronger.
func (c *colours) state(place float64, over color.NRGBA) color.NRGBA {
	state := stateOf(place)
	share := min(max(place-float64(state), 0), 1)
	return mix(over, c.of(look.BarRole(state)), 0.45+0.45*share)
}

// stateOf is the state of a place on the verdict scale.
func stateOf(place float64) review.State {
	return review.State(min(max(int(place), int(review.Pass)), int(review.Fail)))
}

func fade(c color.NRGBA, opacity float64) color.NRGBA {
	c.A = uint8(opacity*255 + 0.5)
	return c
}

func mix(a, b color.NRGBA, t float64) color.NRGBA {
	part := func(a, b uint8) uint8 { return uint8(float64(a) + (float64(b)-float64(a))*t + 0.5) }
	return color.NRGBA{R: part(a.R, b.R), G: part(a.G, b.G), B: part(a.B, b.B), A: 0xFF}
}
