package verdicts_test

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/review"
)

// dressed starts a test application in one of the palettes.
func dressed(t *testing.T, choice look.Choice) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Choice: choice})
}

// example is one of the designs that come with the program.
func example(t *testing.T, name string) *design.Document {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc, problems := design.Decode(data, design.Options{Name: name})
	if doc == nil {
		t.Fatal(problems)
	}
	return doc
}

func reviewed(t *testing.T, doc *design.Document) review.Result {
	t.Helper()
	r, problems := review.Run(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return r
}

// shown puts a widget into a window of a size.
func shown(t *testing.T, object fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	w := test.NewTempWindow(t, container.NewStack(look.Surface(look.Panel), object))
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

// objects are everything in a window that can be seen.
func objects(w fyne.Window) []fyne.CanvasObject {
	var list []fyne.CanvasObject
	visit(w.Canvas().Content(), 0, func(o fyne.CanvasObject, _ float32) { list = append(list, o) })
	return list
}

// visit goes through what can be seen, with how far from the window's left edge it begins.
func visit(o fyne.CanvasObject, left float32, see func(o fyne.CanvasObject, left float32)) {
	if !o.Visible() {
		return
	}
	left += o.Position().X
	see(o, left)
	var children []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		children = o.Objects
	case fyne.Widget:
		children = test.WidgetRenderer(o).Objects()
	}
	for _, child := range children {
		visit(child, left, see)
	}
}

// texts are all lines that are written in a window.
func texts(w fyne.Window) []string {
	var list []string
	for _, o := range objects(w) {
		if text, is := o.(*canvas.Text); is && text.Text != "" {
			list = append(list, text.Text)
		}
	}
	return list
}

// rims counts the violet rims of what has the focus.
func rims(w fyne.Window) int {
	n := 0
	for _, o := range objects(w) {
		if r, is := o.(*canvas.Rectangle); is && r.StrokeWidth == 2 && r.StrokeColor == color.Color(look.Color(look.Act)) {
			n++
		}
	}
	return n
}

func press(on fyne.Focusable, keys ...fyne.KeyName) {
	for _, key := range keys {
		on.TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// keep writes what a window shows, and a grey copy, into the folder MASTWRIGHT_PICTURES; nowhere when it is not set.
func keep(t *testing.T, w fyne.Window, name string) {
	t.Helper()
	folder := os.Getenv("MASTWRIGHT_PICTURES")
	if folder == "" {
		return
	}
	for _, scale := range []float32{1, 1.5, 2} {
		w.Canvas().(interface{ SetScale(float32) }).SetScale(scale)
		img := w.Canvas().Capture()
		suffix := fmt.Sprintf("@%v", scale)
		if scale == 1 {
			suffix = ""
			write(t, filepath.Join(folder, name+"-grey.png"), grey(img))
		}
		write(t, filepath.Join(folder, name+suffix+".png"), img)
	}
	w.Canvas().(interface{ SetScale(float32) }).SetScale(1)
}

func grey(img image.Image) image.Image {
	copied := image.NewGray(img.Bounds())
	draw.Draw(copied, copied.Bounds(), img, img.Bounds().Min, draw.Src)
	return copied
}

func write(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
