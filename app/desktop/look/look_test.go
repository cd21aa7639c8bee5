package look_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

func dressed(t *testing.T, choice look.Choice) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Choice: choice})
}

// The descent of g, j, p, q and y in Go Regular is 432 of 2048 units below the baseline (measured in the font's own outlines); a text
// must have ink there at every size and scale, or its tails were cut off.
func TestTailsAreNotCut(t *testing.T) {
	dressed(t, look.Light)
	for font := look.Body; font <= look.Headline; font++ {
		for _, scale := range []float32{1, 1.25, 1.5, 2} {
			t.Run(fmt.Sprintf("%v at %v", font.Size(), scale), func(t *testing.T) {
				text := look.Words("gjpqy", font, look.Ink)
				surface := software.NewCanvas()
				surface.SetScale(scale)
				surface.SetPadded(false)
				surface.SetContent(container.NewWithoutLayout(text))
				surface.Resize(fyne.NewSize(200, 80))
				look.Lay(text, fyne.TextAlignLeading, 8, 8, font.Pitch())
				img := surface.Capture()
				bottom := lowestInk(img)
				size := float64(font.Size() * scale)
				baseline := math.Ceil(size) + math.Round(float64(text.Position().Y*scale))
				// the last row that the outlines enter, less one for a row that they only graze
				want := int(baseline+math.Floor(0.18*size)) - 1
				if bottom < want {
					t.Errorf("lowest ink in row %d, the tails reach row %d", bottom, want)
				}
			})
		}
	}
}

func lowestInk(img image.Image) int {
	ground := img.At(0, 0)
	for y := img.Bounds().Max.Y - 1; y >= 0; y-- {
		for x := range img.Bounds().Max.X {
			if img.At(x, y) != ground {
				return y
			}
		}
	}
	return -1
}

// A figure column must not dance while its digits change.
func TestDigitsAreOneWidth(t *testing.T) {
	dressed(t, look.Light)
	for font := look.Body; font <= look.Headline; font++ {
		for digit := '1'; digit <= '9'; digit++ {
			if got, want := font.Width(string(digit)), font.Width("0"); got != want {
				t.Errorf("size %v: %c is %v wide, 0 is %v", font.Size(), digit, got, want)
			}
		}
	}
}

// WCAG 2.2, success criterion 1.4.3: 4.5 for text; 1.4.11: 3 for marks and the edges of what can be acted on.
func TestContrast(t *testing.T) {
	words := []look.Role{look.Ink, look.Second, look.Third, look.Act, look.PassWord, look.MarginalWord, look.FailWord, look.NoDataWord}
	marks := []look.Role{look.Edge, look.PassBar, look.MarginalBar, look.FailBar, look.NoDataWord}
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		for _, role := range words {
			if ratio := contrast(look.Shade(role, variant), look.Shade(look.Panel, variant)); ratio < 4.5 {
				t.Errorf("%s on the panel, variant %d: %.2f, less than 4.5", role, variant, ratio)
			}
		}
		for _, role := range marks {
			if ratio := contrast(look.Shade(role, variant), look.Shade(look.Panel, variant)); ratio < 3 {
				t.Errorf("%s on the panel, variant %d: %.2f, less than 3", role, variant, ratio)
			}
		}
		if ratio := contrast(look.Shade(look.OnAct, variant), look.Shade(look.Act, variant)); ratio < 4.5 {
			t.Errorf("words on act, variant %d: %.2f", variant, ratio)
		}
		for _, role := range []look.Role{look.Ink, look.FailWord, look.PassWord, look.MarginalWord, look.NoDataWord} {
			if ratio := contrast(look.Shade(role, variant), look.Shade(look.ActSoft, variant)); ratio < 4.5 {
				t.Logf("%s on the picked row, variant %d: %.2f", role, variant, ratio)
			}
		}
	}
}

func contrast(a, b color.NRGBA) float64 {
	light, dark := max(luminance(a), luminance(b)), min(luminance(a), luminance(b))
	return (light + 0.05) / (dark + 0.05)
}

// luminance is WCAG's relative luminance of an sRGB colour.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Shape alone must tell the signs: in one grey any two differ in more than a tenth of their pixels.
func TestSignsDifferInGrey(t *testing.T) {
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		for a := look.Passes; a <= look.NotBegun; a++ {
			for b := a + 1; b <= look.NotBegun; b++ {
				if share := differing(look.Signed(a, 28, variant), look.Signed(b, 28, variant)); share < 0.1 {
					t.Errorf("signs %d and %d differ in %.0f %% of their pixels only", a, b, 100*share)
				}
			}
		}
	}
}

// differing is the share of pixels whose coverage differs: colours are left out.
func differing(a, b image.Image) float64 {
	bounds := a.Bounds()
	panel := func(img image.Image, x, y int) bool {
		r, g, bl, alpha := img.At(x, y).RGBA()
		light := look.Shade(look.Panel, theme.VariantLight)
		dark := look.Shade(look.Panel, theme.VariantDark)
		is := func(c color.NRGBA) bool { return r>>8 == uint32(c.R) && g>>8 == uint32(c.G) && bl>>8 == uint32(c.B) }
		return alpha < 0x8000 || is(light) || is(dark)
	}
	n := 0
	for y := range bounds.Dy() {
		for x := range bounds.Dx() {
			if panel(a, x, y) != panel(b, x, y) {
				n++
			}
		}
	}
	return float64(n) / float64(bounds.Dx()*bounds.Dy())
}

func TestSignOfEveryState(t *testing.T) {
	want := map[review.State]look.Sign{
		review.Pass: look.Passes, review.Marginal: look.IsMarginal, review.Fail: look.Fails, review.NoData: look.HasNoData,
	}
	for state, sign := range want {
		if got := look.SignOf(state); got != sign {
			t.Errorf("%v: sign %d, want %d", state, got, sign)
		}
	}
}

func TestThemeFollowsTheChoice(t *testing.T) {
	for _, c := range []struct {
		choice look.Choice
		want   color.NRGBA
	}{
		{look.Light, color.NRGBA{0xF5, 0xF6, 0xF3, 0xFF}},
		{look.Night, color.NRGBA{0x1D, 0x23, 0x24, 0xFF}},
	} {
		dressed(t, c.choice)
		if got := look.Color(look.Panel); got != c.want {
			t.Errorf("panel of %q is %v, want %v", c.choice, got, c.want)
		}
		if got := theme.Color(theme.ColorNameOverlayBackground); got != color.Color(c.want) {
			t.Errorf("overlay of %q is %v, want %v", c.choice, got, c.want)
		}
	}
}

// What the toolkit makes of the foreground for the keys in its menus (widget/menu_item.go, v2.7.4): they must be readable on the menu.
func TestKeysInMenusAreReadable(t *testing.T) {
	for _, variant := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		r, g, b, a := look.Theme{}.Color(theme.ColorNameForeground, variant).RGBA()
		key := color.NRGBA{R: uint8(r), G: uint8(g), B: uint8(b), A: uint8(uint32(float32(a) * 0.95))}
		if key.A < 0xF0 {
			t.Errorf("variant %d: alpha of %d leaves the keys pale", variant, key.A)
		}
		if ratio := contrast(key, look.Shade(look.Ground, variant)); ratio < 4.5 {
			t.Errorf("variant %d: %.2f on the menu, less than 4.5", variant, ratio)
		}
	}
}

func TestWrapped(t *testing.T) {
	dressed(t, look.Light)
	text := "In cruise, 20 A, the loose battery lead swings the compass by 16.1° at its worst heading and placement."
	for _, width := range []float32{60, 120, 294, 1000} {
		lines := look.Wrapped(text, look.Body, width)
		joined := ""
		for _, line := range lines {
			if w := look.Body.Width(line); w > width {
				t.Errorf("%q is %v wide in a column of %v", line, w, width)
			}
			if joined != "" {
				joined += " "
			}
			joined += line
		}
		if width > 100 && joined != text {
			t.Errorf("in %v the text became %q", width, joined)
		}
	}
	for _, line := range look.Wrapped("The lowest mode rings at 36 Hz where the control works to 12 Hz.", look.Body, 150) {
		if strings.HasPrefix(line, "Hz") {
			t.Errorf("a line begins with the unit of a figure: %q", line)
		}
	}
	if got := look.Wrapped("/home/builder/mounts/quarry-survey-loose-lead", look.Body, 250); len(got) != 2 || !strings.HasSuffix(got[0], "-") {
		t.Errorf("a path breaks inside a word: %q", got)
	}
	if got := look.Wrapped("a\nb", look.Body, 100); len(got) != 2 {
		t.Errorf("a newline gives %q", got)
	}
}

func TestColumnGivesProseItsHeight(t *testing.T) {
	dressed(t, look.Light)
	prose := look.NewProse("several words that will need more than one line in a narrow column", look.Body, look.Ink)
	below := look.NewLabel("below", look.Body, look.Ink)
	column := look.NewColumn(prose, below)
	window := test.NewTempWindow(t, column)
	window.SetPadded(false)
	for _, width := range []float32{160, 320} {
		window.Resize(fyne.NewSize(width, 300))
		lines := len(look.Wrapped(prose.Text, look.Body, width-2*look.ColumnMargin))
		if got, want := below.Position().Y, look.ColumnMargin+float32(lines)*look.Body.Pitch(); got != want {
			t.Errorf("in a column of %v the next piece stands at %v, want %v", width, got, want)
		}
	}
}

func TestChipByKeyboardAndPointer(t *testing.T) {
	dressed(t, look.Light)
	pressed := 0
	chip := look.NewChip("fit", func() { pressed++ })
	window := test.NewTempWindow(t, chip)
	test.Tap(chip)
	window.Canvas().Focus(chip)
	chip.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	chip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if pressed != 3 {
		t.Errorf("pressed %d times, want 3", pressed)
	}
	chip.SetOff(true)
	test.Tap(chip)
	if pressed != 3 {
		t.Error("a chip that is off was pressed")
	}
}

func ExampleShortened() {
	test.NewTempApp(&testing.T{}).Settings().SetTheme(look.Theme{})
	fmt.Println(look.Shortened("battery lead, 22.0 mm apart", look.Body, 120))
	// Output: battery lead, 22.0…
}
