package desktop

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
)

// chooser asks for a file or a folder: by walking through the list, or by a path typed into the line over it.
type chooser struct {
	title, act string
	folder     string
	name       string   // offered
	suffix     string   // of the files that are listed; "" asks for a folder
	also       []string // more of them
	making     bool     // the file need not be there
	done       func(path string)

	line    *pathLine
	list    *widget.List
	entries []string // names; folders end with a separator
	said    *look.Label
}

// choose puts the chooser over the window.
func (w *Window) choose(c chooser) {
	c.line = newPathLine()
	c.said = look.NewLabel("", look.Caption, look.FailWord)
	c.list = widget.NewList(func() int { return len(c.entries) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i widget.ListItemID, object fyne.CanvasObject) { object.(*widget.Label).SetText(c.entries[i]) })
	c.list.OnSelected = c.picked
	c.walk(c.folder)
	if c.name != "" {
		c.line.SetText(filepath.Join(c.folder, c.name))
	}
	body := container.NewBorder(container.NewVBox(c.line, c.said), nil, nil, nil, c.list)
	sized := container.New(tallLayout{360}, body)
	q := w.put(c.title, "", 560, sized, answer{c.act, func() { c.finish(w) }}, answer{label: "Cancel"})
	c.line.OnSubmitted = func(string) { q.press(c.act) }
	c.line.left = func() { q.press("Cancel") }
	w.window.Canvas().Focus(c.line)
	c.line.CursorColumn = len([]rune(c.line.Text))
	c.line.Refresh()
}

// walk lists a folder.
func (c *chooser) walk(folder string) {
	items, err := os.ReadDir(folder)
	if err != nil {
		c.said.SetText(capital(err.Error()))
		return
	}
	c.folder = filepath.Clean(folder)
	var folders, files []string
	for _, item := range items {
		switch {
		case strings.HasPrefix(item.Name(), "."):
		case item.IsDir():
			folders = append(folders, item.Name()+string(filepath.Separator))
		case c.suffix != "" && slices.ContainsFunc(append(c.also, c.suffix), func(s string) bool { return s != "" && strings.EqualFold(filepath.Ext(item.Name()), s) }):
			files = append(files, item.Name())
		}
	}
	c.entries = slices.Concat([]string{".." + string(filepath.Separator)}, folders, files)
	c.line.SetText(c.folder + string(filepath.Separator))
	c.list.UnselectAll()
	c.list.Refresh()
	c.list.ScrollToTop()
}

// picked goes into a folder, or puts a file into the line.
func (c *chooser) picked(i widget.ListItemID) {
	entry := c.entries[i]
	if strings.HasSuffix(entry, string(filepath.Separator)) {
		name := ""
		if c.making && c.suffix != "" {
			name = filepath.Base(c.line.Text)
			if strings.HasSuffix(c.line.Text, string(filepath.Separator)) {
				name = ""
			}
		}
		c.walk(filepath.Join(c.folder, entry))
		if name != "" {
			c.line.SetText(filepath.Join(c.folder, name))
		}
		return
	}
	c.line.SetText(filepath.Join(c.folder, entry))
}

// finish takes what stands in the line. A folder that is named where a file is wanted is walked into.
func (c *chooser) finish(w *Window) {
	path := tilde(strings.TrimSpace(c.line.Text))
	if !filepath.IsAbs(path) {
		path = filepath.Join(c.folder, path)
	}
	info, err := os.Stat(path)
	switch {
	case c.suffix == "":
		c.done(path)
	case err == nil && info.IsDir():
		again := *c
		again.folder = path
		w.choose(again)
	default:
		c.done(path)
	}
}

// tilde puts the person's home for a leading "~".
func tilde(path string) string {
	rest, is := strings.CutPrefix(path, "~")
	if home, err := os.UserHomeDir(); is && err == nil && (rest == "" || rest[0] == '/' || rest[0] == filepath.Separator) {
		return filepath.Join(home, rest)
	}
	return path
}

// pathLine is an entry that can be left with Escape.
type pathLine struct {
	widget.Entry
	left func()
}

func newPathLine() *pathLine {
	l := &pathLine{}
	l.ExtendBaseWidget(l)
	l.Scroll = fyne.ScrollHorizontalOnly
	return l
}

// TypedKey leaves on Escape.
func (l *pathLine) TypedKey(key *fyne.KeyEvent) {
	if key.Name == fyne.KeyEscape && l.left != nil {
		l.left()
		return
	}
	l.Entry.TypedKey(key)
}

// tallLayout gives one object a least height.
type tallLayout struct{ height float32 }

// Layout fills the box.
func (tallLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// MinSize is the object's, but as high as asked.
func (t tallLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(objects[0].MinSize().Width, t.height)
}
