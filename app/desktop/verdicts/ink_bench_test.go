package verdicts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// The picture of all lanes at scale 2, as it is drawn in every step of a glide.
func BenchmarkLanes(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.Theme{Choice: look.Light})
	l := NewList()
	for i := range l.bars {
		l.bars[i] = bar{state: review.State(i % 4), middle: 0.5, low: 0.3, high: 0.9}
	}
	w := test.NewTempWindow(b, l)
	w.Resize(fyne.NewSize(404, 698))
	size := l.lanes.Size()
	for b.Loop() {
		l.lanes.Generator(int(2*size.Width), int(2*size.Height))
	}
}
