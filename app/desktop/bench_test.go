package desktop

import (
	"fmt"
	"runtime"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
)

// working opens a window for a benchmark.
func working(b *testing.B) (*Window, chan func()) {
	b.Helper()
	app := test.NewApp()
	app.Settings().SetTheme(look.Theme{Choice: look.Light})
	posted := make(chan func(), 1024)
	w := New(app, Options{State: b.TempDir(), Post: func(f func()) { posted <- f }})
	b.Cleanup(func() { w.session.Close(); app.Quit() })
	w.window.Resize(fyne.NewSize(1280, 778))
	for w.pictures.model == nil {
		(<-posted)()
	}
	return w, posted
}

// From an edit to its verdicts in the list: the checks, and the window's own work on the way.
func BenchmarkEditToVerdicts(b *testing.B) {
	w, posted := working(b)
	for i := range b.N {
		if err := w.session.Set("mast.height", fmt.Sprintf("%d mm", 90+i%20)); err != nil {
			b.Fatal(err)
		}
		for !w.shown.Current() || w.shown.Serial != w.session.Snapshot().Serial {
			(<-posted)()
		}
		b.StopTimer()
		previewed(w, posted)
		b.StartTimer()
	}
}

// From an edit to the new mount in the picture's model.
func BenchmarkEditToPreview(b *testing.B) {
	w, posted := working(b)
	for i := range b.N {
		if err := w.session.Set("mast.height", fmt.Sprintf("%d mm", 90+i%20)); err != nil {
			b.Fatal(err)
		}
		previewed(w, posted)
	}
}

// previewed waits until the picture shows the document as it stands.
func previewed(w *Window, posted chan func()) {
	for w.pictures.made.preview == nil || w.pictures.made.preview.Serial != w.session.Snapshot().Serial {
		(<-posted)()
	}
}

// One pass of the results into every widget of the window, without any checking: what the toolkit's goroutine is held up.
func BenchmarkRefresh(b *testing.B) {
	w, _ := working(b)
	for b.Loop() {
		w.refresh()
	}
}

// The window is built from nothing, without a screen.
func BenchmarkBuildWindow(b *testing.B) {
	app := test.NewApp()
	defer app.Quit()
	for b.Loop() {
		w := New(app, Options{Post: func(func()) {}, AtOnce: true})
		w.window.Resize(fyne.NewSize(1280, 778))
		b.StopTimer()
		w.session.Close()
		w.window.Close()
		b.StartTimer()
	}
}

// What a hundred edits leave in memory when everything is collected: nothing may grow with the edits but the undo list, which keeps the
// documents' texts.
func BenchmarkMemory(b *testing.B) {
	w, posted := working(b)
	edit := func(i int) {
		if err := w.session.Set("mast.height", fmt.Sprintf("%d mm", 90+i%20)); err != nil {
			b.Fatal(err)
		}
		previewed(w, posted)
	}
	for i := range 20 { // until everything has been drawn once
		edit(i)
	}
	before := heap()
	edits := 0
	for b.Loop() {
		for range 100 {
			edits++
			edit(edits)
		}
	}
	b.ReportMetric((heap()-before)/float64(edits), "B/edit")
}

func heap() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}
