package view_test

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"mastwright/app/desktop/view"
	"mastwright/design/review"
)

// A mount on four legs has one leg in its list of parts, and four where it stands: the picture shows more with the other three.
func TestEveryCopyOfAPartIsDrawn(t *testing.T) {
	doc := example(t, "marsh-census")
	result, problems := review.Run(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	all := printed(t, doc)
	one := append([]view.Part(nil), all...)
	copies := 0
	for i := range one {
		copies = max(copies, len(one[i].Places))
		one[i].Places = one[i].Places[:min(1, len(one[i].Places))]
	}
	if copies != 4 {
		t.Fatalf("a part stands at %d places, want 4", copies)
	}
	draw := func(list []view.Part) *image.RGBA {
		p, _ := window(t, fyne.NewSize(320, 320), view.Options{AtOnce: true}, view.Build(doc, result, list, nil))
		return p.Image(320, 320, 1, theme.VariantLight)
	}
	a, b := draw(all), draw(one)
	differ := 0
	for i := range a.Pix {
		if a.Pix[i] != b.Pix[i] {
			differ++
		}
	}
	if differ < 4*500 { // three legs are far more than 500 pixels
		t.Errorf("%d values differ when three legs are left out", differ)
	}
}
