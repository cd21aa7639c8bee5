// Package look is how the desktop looks: its palette, its type, its theme, the marks of the verdicts and the few small widgets that every
// part of the window is made of. Sizes are in the toolkit's pixels, at scale 1.
package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Role is what a colour is for.
type Role = fyne.ThemeColorName

// The roles of the palette. Green, ochre and crimson mean pass, marginal and fail and nothing else; Act means "yours to act on": focus,
// picked, dragged.
const (
	Ground Role = "ground" // of the window: menu, road's edge, hint line
	Panel  Role = "panel"
	Field  Role = "field"
	Ink    Role = "ink"
	Second Role = "second ink"
	Third  Role = "third ink"
	Seam   Role = "seam" // decoration: never the only edge of something to act on
	Edge   Role = "edge" // of fields and buttons

	Act     Role = "act"
	ActSoft Role = "act, soft ground"
	OnAct   Role = "on act"

	PassWord     Role = "pass, words"
	MarginalWord Role = "marginal, words"
	FailWord     Role = "fail, words"
	NoDataWord   Role = "no data, words"
	PassBar      Role = "pass bar"
	MarginalBar  Role = "marginal bar"
	FailBar      Role = "fail bar"
	PassLane     Role = "pass lane"
	MarginalLane Role = "marginal lane"
	FailLane     Role = "fail lane"

	ViewTop    Role = "view, top"
	ViewBottom Role = "view, bottom"
	Grid       Role = "grid"
	Print      Role = "print" // raw plastic: the mount
	Frame      Role = "frame"
	Block      Role = "block" // receiver, pack, other bodies
)

// shades are a role's colours, RRGGBB. Every pair of words and ground keeps a contrast of 4.5, every mark and edge of 3 (WCAG 2.2,
// success criteria 1.4.3 and 1.4.11).
type shades struct{ light, dark uint32 }

var palette = map[Role]shades{
	Ground: {0xE4E7E3, 0x141819},
	Panel:  {0xF5F6F3, 0x1D2324},
	Field:  {0xFFFFFF, 0x121617},
	Ink:    {0x1B2322, 0xE7EBE7},
	Second: {0x48534F, 0xB1BBB6},
	Third:  {0x66716C, 0x8B9691},
	Seam:   {0xC8CFC9, 0x343D3E},
	Edge:   {0x77827C, 0x71807B},

	Act:     {0x4D3F94, 0xBBABF5},
	ActSoft: {0xE3DFF2, 0x332D52},
	OnAct:   {0xFFFFFF, 0x191335},

	PassWord:     {0x17695A, 0x6BCBB0},
	MarginalWord: {0x7E5200, 0xEBB85C},
	FailWord:     {0x99182F, 0xFF8CA0},
	NoDataWord:   {0x59655F, 0x98A49F},
	PassBar:      {0x2F8D79, 0x45A58C},
	MarginalBar:  {0xAF730B, 0xDDA63C},
	FailBar:      {0xA11D33, 0xDC4A64},
	PassLane:     {0xE9ECE8, 0x232A2B},
	MarginalLane: {0xE0E4DF, 0x283031},
	FailLane:     {0xD6DBD6, 0x2D3637},

	ViewTop:    {0xDDE1DD, 0x1A2021},
	ViewBottom: {0xC9D0CB, 0x0D1011},
	Grid:       {0xAFB8B1, 0x313A3B},
	Print:      {0xEFE7D4, 0xD8CFBA},
	Frame:      {0x3A4242, 0x363E40},
	Block:      {0x50595B, 0x4A5456},
}

// Shade returns a role's colour in the light or the dark palette.
func Shade(role Role, variant fyne.ThemeVariant) color.NRGBA {
	pair, known := palette[role]
	if !known {
		panic("look: no such role: " + string(role))
	}
	if variant == theme.VariantDark {
		return opaque(pair.dark)
	}
	return opaque(pair.light)
}

// Color returns a role's colour in the palette that is shown.
func Color(role Role) color.NRGBA { return Shade(role, Variant()) }

// Dark reports whether the dark palette is shown.
func Dark() bool { return Variant() == theme.VariantDark }

// Variant returns the palette that is shown: the person's choice, or else the system's.
func Variant() fyne.ThemeVariant {
	settings := fyne.CurrentApp().Settings()
	if own, ok := settings.Theme().(Theme); ok {
		return own.variant(settings.ThemeVariant())
	}
	return settings.ThemeVariant()
}

func opaque(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xFF}
}
