package form

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// barless is the theme of a box: the program's, but a long text is moved with the cursor, without a bar over its letters.
type barless struct{}

func (barless) worn() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

// Color is the program's.
func (b barless) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	return b.worn().Color(name, v)
}

// Font is the program's.
func (b barless) Font(style fyne.TextStyle) fyne.Resource { return b.worn().Font(style) }

// Icon is the program's.
func (b barless) Icon(name fyne.ThemeIconName) fyne.Resource { return b.worn().Icon(name) }

// Size is the program's, but for the bars.
func (b barless) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameScrollBar, theme.SizeNameScrollBarSmall:
		return 0
	}
	return b.worn().Size(name)
}
