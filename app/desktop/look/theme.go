package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Choice is the person's choice of palette.
type Choice string

// The choices. The zero value follows the system.
const (
	System Choice = ""
	Light  Choice = "light"
	Night  Choice = "dark"
)

// Theme dresses the toolkit's own widgets as ours.
type Theme struct{ Choice Choice }

// Color returns the colour of one of our roles or of the toolkit's names.
func (t Theme) Color(name fyne.ThemeColorName, system fyne.ThemeVariant) color.Color {
	variant := t.variant(system)
	if _, own := palette[name]; own {
		return Shade(name, variant)
	}
	switch name {
	case theme.ColorNameForeground:
		return inked(Shade(Ink, variant))
	case theme.ColorNameHover:
		return veil(Shade(Ink, variant), 0x12)
	case theme.ColorNamePressed:
		return veil(Shade(Act, variant), 0x30)
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x28}
	case theme.ColorNameScrollBar:
		return veil(Shade(Edge, variant), 0xC0)
	case theme.ColorNameScrollBarBackground:
		return veil(Shade(Seam, variant), 0x40)
	case theme.ColorNameFocus:
		// Check and Radio draw their focus behind the mark
		return veil(Shade(Act, variant), 0x60)
	}
	if role, known := stock[name]; known {
		return Shade(role, variant)
	}
	return theme.DefaultTheme().Color(name, variant)
}

// Font returns Go Regular, Medium for bold, and Mono.
func (t Theme) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Monospace:
		return faces.mono
	case style.Bold && style.Italic:
		return faces.mediumItalic
	case style.Bold:
		return faces.medium
	case style.Italic:
		return faces.italic
	}
	return faces.regular
}

// Icon returns the toolkit's own.
func (t Theme) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size returns the sizes that make a field 26 high: text 13 with an inner padding of 5.
func (t Theme) Size(name fyne.ThemeSizeName) float32 {
	if size, known := sizes[name]; known {
		return size
	}
	return theme.DefaultTheme().Size(name)
}

func (t Theme) variant(system fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.Choice {
	case Light:
		return theme.VariantLight
	case Night:
		return theme.VariantDark
	}
	return system
}

var stock = map[fyne.ThemeColorName]Role{
	theme.ColorNameBackground:          Ground,
	theme.ColorNameButton:              Ground,
	theme.ColorNameDisabledButton:      Panel,
	theme.ColorNameDisabled:            Third,
	theme.ColorNameError:               FailWord,
	theme.ColorNameForegroundOnError:   Panel,
	theme.ColorNameForegroundOnPrimary: OnAct,
	theme.ColorNameForegroundOnSuccess: Panel,
	theme.ColorNameForegroundOnWarning: Panel,
	theme.ColorNameHeaderBackground:    Ground,
	theme.ColorNameHyperlink:           Act,
	theme.ColorNameInputBackground:     Field,
	theme.ColorNameInputBorder:         Edge,
	theme.ColorNameMenuBackground:      Ground,
	theme.ColorNameOverlayBackground:   Panel,
	theme.ColorNamePlaceHolder:         Third,
	theme.ColorNamePrimary:             Act,
	theme.ColorNameSelection:           ActSoft,
	theme.ColorNameSeparator:           Seam,
	theme.ColorNameSuccess:             PassWord,
	theme.ColorNameWarning:             MarginalWord,
}

var sizes = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:               13,
	theme.SizeNameCaptionText:        12,
	theme.SizeNameHeadingText:        17,
	theme.SizeNameSubHeadingText:     17,
	theme.SizeNameInnerPadding:       5,
	theme.SizeNamePadding:            4,
	theme.SizeNameLineSpacing:        4,
	theme.SizeNameInlineIcon:         16,
	theme.SizeNameInputBorder:        1,
	theme.SizeNameInputRadius:        3,
	theme.SizeNameSelectionRadius:    3,
	theme.SizeNameScrollBar:          10,
	theme.SizeNameScrollBarSmall:     5,
	theme.SizeNameScrollBarRadius:    3,
	theme.SizeNameSeparatorThickness: 1,
}

// inked is an opaque colour for the toolkit's own words. For the keys in its menus the toolkit keeps the low byte of 0.95 of the 16 bits of
// alpha: full opacity would leave a fifth of the ink, this one leaves all of it.
type inked color.NRGBA

// RGBA is opaque to a thousandth.
func (c inked) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = color.NRGBA(c).RGBA()
	return r, g, b, 0xFFC9
}

// veil returns a colour that lets what is behind it through.
func veil(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}
