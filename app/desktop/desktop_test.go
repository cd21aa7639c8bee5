package desktop

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"mastwright/design/review"
)

// hand works a window under the toolkit's test driver; what the background posts runs on the test's goroutine.
type hand struct {
	*Window
	t      *testing.T
	posted chan func()
}

func opened(t *testing.T) *hand {
	t.Helper()
	return reopened(t, test.NewTempApp(t), t.TempDir())
}

func reopened(t *testing.T, app fyne.App, state string) *hand {
	t.Helper()
	h := &hand{t: t, posted: make(chan func(), 1024)}
	h.Window = New(app, Options{State: state, Post: func(f func()) { h.posted <- f }, AtOnce: true})
	t.Cleanup(h.session.Close)
	h.window.Resize(fyne.NewSize(1280, 778))
	h.settle()
	return h
}

// until runs what is posted until something holds.
func (h *hand) until(what string, holds func() bool) {
	h.t.Helper()
	limit := time.After(2 * time.Minute) // of a crowded machine; figures take a tenth of a second, repairs some seconds
	for {
		if len(h.posted) == 0 && holds() {
			return
		}
		select {
		case f := <-h.posted:
			f()
		case <-limit:
			h.t.Fatal("waited in vain until " + what)
		}
	}
}

// settle waits for the checks of the document as it stands.
func (h *hand) settle() {
	h.t.Helper()
	h.until("the figures are current", func() bool {
		n := h.session.Snapshot()
		return h.shown.Serial == n.Serial && (h.shown.Current() || len(h.shown.Problems) > 0 && !h.shown.Checking)
	})
}

// typing gives a field the keyboard and writes into it.
func (h *hand) typing(path, text string) *widget.Entry {
	h.t.Helper()
	h.lead(path)
	entry := h.entry()
	entry.SetText(text)
	return entry
}

// entry is the one with the keyboard.
func (h *hand) entry() *widget.Entry {
	h.t.Helper()
	type worn interface{ Inner() *widget.Entry }
	focused, is := h.window.Canvas().Focused().(worn)
	if !is {
		h.t.Fatalf("the keyboard is at %T, not in a field", h.window.Canvas().Focused())
	}
	return focused.Inner()
}

func (h *hand) key(name fyne.KeyName) {
	h.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

func TestFirstStartIsAFinishedExample(t *testing.T) {
	h := opened(t)
	rows := h.list.Rows()
	if len(rows) != 14 {
		t.Fatalf("%d verdicts are shown, want 14", len(rows))
	}
	for _, row := range rows {
		if row.State == review.NoData || row.State == review.Fail {
			t.Errorf("%s: %s on the first start; the example is finished", row.Name, row.Word)
		}
	}
	if len(h.shown.Missing) > 0 {
		t.Errorf("the example lacks %v", h.shown.Missing)
	}
	for _, station := range h.road.stations {
		if station.text == "" {
			t.Errorf("station %s says nothing", station.name)
		}
	}
	if h.shown.Dirty {
		t.Error("the example is dirty before anything was done")
	}
}

func TestEditChangesVerdictsAndUndoBringsThemBack(t *testing.T) {
	h := opened(t)
	before := h.list.Rows()
	entry := h.typing("mast.height", "140")
	entry.OnSubmitted(entry.Text)
	h.settle()
	if got := h.shown.Document.Get("mast.height"); got != "140 mm" {
		t.Fatalf("height is %q, want 140 mm", got)
	}
	if rows := h.list.Rows(); rows[1].Figure == before[1].Figure {
		t.Errorf("Heading still says %s at 140 mm", rows[1].Figure)
	}
	if !strings.HasPrefix(h.window.Title(), "• ") {
		t.Errorf("the title %q does not say that there is something to save", h.window.Title())
	}
	h.undo()
	h.settle()
	if rows := h.list.Rows(); rows[1].Figure != before[1].Figure {
		t.Errorf("after undo Heading says %s, want %s", rows[1].Figure, before[1].Figure)
	}
	if entry.Text != "100" {
		t.Errorf("the field shows %q after undo, want 100", entry.Text)
	}
	h.redo()
	h.settle()
	if got := h.shown.Document.Get("mast.height"); got != "140 mm" {
		t.Errorf("after redo the height is %q", got)
	}
}

func TestAFieldThatIsNotUnderstood(t *testing.T) {
	h := opened(t)
	entry := h.typing("mast.height", "3000")
	entry.OnSubmitted(entry.Text)
	h.settle()
	if got := h.shown.Document.Get("mast.height"); got != "100 mm" {
		t.Errorf("the model holds %q, want the last good value", got)
	}
	if got, want := h.list.Notice(), "1 field is not understood; showing Height 100 mm"; got != want {
		t.Errorf("over the verdicts: %q, want %q", got, want)
	}
	if got := h.road.stations[Shape].String(); got != "Shape: 1 field is not understood" {
		t.Errorf("on the road: %q", got)
	}
	h.key(fyne.KeyEscape)
	h.settle()
	if entry.Text != "100" || h.list.Notice() != "" {
		t.Errorf("after Escape the field shows %q under %q", entry.Text, h.list.Notice())
	}
}

func TestNothingOldLooksCurrent(t *testing.T) {
	h := opened(t)
	entry := h.typing("mast.height", "35") // the cable's opening does not fit any more
	entry.OnSubmitted(entry.Text)
	h.settle()
	h.Stage(Check)
	if len(h.shown.Problems) == 0 {
		t.Fatal("a mast of 35 mm with an opening up to 36 mm can be built")
	}
	if !strings.HasPrefix(h.list.Notice(), "Cannot be built: ") {
		t.Errorf("over the verdicts: %q", h.list.Notice())
	}
	if chart, has := h.pictures.chart(h.shown, "heading"); !has || !chart.Empty() {
		t.Error("the plot of an earlier document is shown")
	}
	h.next(1)
	if !strings.HasPrefix(h.hint.help.Text, "Cannot be built: ") {
		t.Errorf("the next verdict that is not pass: %q", h.hint.help.Text)
	}
	h.Stage(Make)
	if !h.maker.write.Off {
		t.Error("files can be written of a mount that cannot be built")
	}
}

func TestUndoTakesTypingFirst(t *testing.T) {
	h := opened(t)
	entry := h.typing("mast.height", "12x")
	h.undo()
	if entry.Text != "100" {
		t.Errorf("the field shows %q after undo, want the good value", entry.Text)
	}
	if h.session.Snapshot().Serial != h.shown.Serial || h.shown.Dirty {
		t.Error("undo of typing changed the design")
	}
}

func TestAMissingAnswerLeadsToItsField(t *testing.T) {
	h := opened(t)
	h.blank()
	h.settle()
	for _, row := range h.list.Rows() {
		if row.State != review.NoData {
			t.Errorf("%s still says %s of the design that was open before", row.Name, row.Word)
		}
	}
	if len(h.shown.Missing) == 0 {
		t.Fatal("an empty design lacks nothing")
	}
	for _, path := range []string{"airframe.mass", "cable.length", "receiver.compass", "site.latitude", "motors.kv"} {
		h.lead(path)
		if h.open != Measure {
			t.Errorf("%s led to %s", path, stageNames[h.open])
		}
		if h.window.Canvas().Focused() == nil {
			t.Errorf("%s: the keyboard is nowhere", path)
		}
		if !strings.Contains(h.hint.help.Text, ":") {
			t.Errorf("%s: the hint line says %q", path, h.hint.help.Text)
		}
	}
}

// The window is made for 1024 by 700, of which the menu takes 22.
func TestEverythingFitsTheLeastWindow(t *testing.T) {
	h := opened(t)
	for _, example := range []string{"river-survey", "coastline-watch"} {
		if err := h.session.Example(example); err != nil {
			t.Fatal(err)
		}
		h.settle()
		for stage, name := range stageNames {
			h.Stage(stage)
			if least := h.frame.MinSize(); least.Width > 1024 || least.Height > 678 {
				t.Errorf("%s, %s: least size %v, more than 1024 by 678", example, name, least)
			}
			for what, column := range map[string]struct {
				object fyne.CanvasObject
				width  float32
			}{"left": {h.columns.left, leastLeft}, "right": {h.columns.right, leastRight}} {
				if got := column.object.MinSize().Width; got > column.width {
					t.Errorf("%s, %s: the %s column needs %v, it has %v", example, name, what, got, column.width)
				}
			}
		}
		for _, id := range []string{"heading", "shake", "bus", "printing", "clearance"} {
			h.Stage(Check)
			h.pick(id)
			if got := h.left.MinSize().Width; got > leastLeft {
				t.Errorf("%s, account of %s needs %v", example, id, got)
			}
		}
	}
}

func TestColumnsKeepTheirPlaceAndTheirPixels(t *testing.T) {
	for _, c := range []struct{ window, left, right float32 }{{1024, 304, 336}, {1280, 322, 404}, {1600, 360, 460}, {1920, 360, 460}} {
		left, right := widths(c.window)
		if left != c.left || right != c.right {
			t.Errorf("window of %v: %v and %v, want %v and %v", c.window, left, right, c.left, c.right)
		}
	}
	h := opened(t)
	h.columns.drag(40, 0)
	h.columns.dropped()
	if left, _ := h.columns.sizes(1600); left != 362 {
		t.Errorf("a seam dragged by 40 in a window of 1280 stands at %v, want 362 pixels in every window", left)
	}
	h.columns.drag(4000, 0)
	left, right := h.columns.sizes(1280)
	if picture := 1280 - left - right - staffWidth - 3; picture < leastPicture {
		t.Errorf("the picture is left with %v", picture)
	}
}

// The keys that the desktop promises; each must stand in the menu, because the toolkit gives the menu's keys before those of a field.
func TestEveryShortcutStandsInTheMenu(t *testing.T) {
	h := opened(t)
	listed := map[string]string{}
	var walk func(items []*fyne.MenuItem)
	walk = func(items []*fyne.MenuItem) {
		for _, item := range items {
			if key, is := item.Shortcut.(fyne.KeyboardShortcut); is {
				name := ""
				if key.Mod()&fyne.KeyModifierControl != 0 {
					name += "Ctrl+"
				}
				if key.Mod()&fyne.KeyModifierAlt != 0 {
					name += "Alt+"
				}
				if key.Mod()&fyne.KeyModifierShift != 0 {
					name += "Shift+"
				}
				name += string(key.Key())
				if other, twice := listed[name]; twice {
					t.Errorf("%s stands for %s and %s", name, other, item.Label)
				}
				listed[name] = item.Label
			}
			if item.ChildMenu != nil {
				walk(item.ChildMenu.Items)
			}
		}
	}
	for _, menu := range h.menu().Items {
		walk(menu.Items)
	}
	for _, want := range strings.Fields("Ctrl+1 Ctrl+2 Ctrl+3 Ctrl+4 Ctrl+5 Ctrl+N Ctrl+O Ctrl+S Ctrl+Shift+S Ctrl+Z Ctrl+Y Ctrl+E Ctrl+Q Ctrl+. Ctrl+Shift+. " +
		"Ctrl+Shift+C Alt+C Alt+F Alt+S Alt+T Alt+0") {
		if listed[want] == "" {
			t.Errorf("%s does not stand in the menu", want)
		}
	}
}

func TestQuitAsksAboutUnsavedWork(t *testing.T) {
	h := opened(t)
	entry := h.typing("mast.height", "120")
	entry.OnSubmitted(entry.Text)
	h.settle()
	h.Quit()
	if h.asked == nil || h.asked.title.Text != "Save River survey?" {
		t.Fatalf("no question: %+v", h.asked)
	}
	h.asked.press("Cancel")
	if h.asked != nil {
		t.Fatal("the question stays after Cancel")
	}
	h.Quit()
	path := filepath.Join(t.TempDir(), "kept")
	h.asked.press("Save")
	if h.asked == nil {
		t.Fatal("a design without a file was saved without a name")
	}
	h.entryOf(path)
	h.asked.press("Save")
	data, err := os.ReadFile(path + ".yaml")
	if err != nil || !strings.Contains(string(data), "height: 120 mm") {
		t.Errorf("saved %q, %v", data, err)
	}
}

// entryOf types into the chooser's line.
func (h *hand) entryOf(path string) {
	h.t.Helper()
	line, is := h.window.Canvas().Focused().(*pathLine)
	if !is {
		h.t.Fatalf("the keyboard is at %T, not in the path", h.window.Canvas().Focused())
	}
	line.SetText(path)
}

func TestSaveOpenDropAndReplace(t *testing.T) {
	h := opened(t)
	folder := t.TempDir()
	file := filepath.Join(folder, "mine.yaml")
	h.chooseSave(nil)
	h.entryOf(file)
	h.asked.press("Save")
	if h.shown = h.session.Snapshot(); h.shown.File != file || h.shown.Dirty {
		t.Fatalf("saved as %q, dirty %v", h.shown.File, h.shown.Dirty)
	}
	entry := h.typing("name", "Other name")
	entry.OnSubmitted(entry.Text)
	h.settle()
	h.save(nil)
	if h.session.Snapshot().Dirty {
		t.Error("still dirty after Ctrl+S")
	}
	if err := h.session.Example("orchard-mapper"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	h.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(file)})
	h.settle()
	if h.shown.Name != "Other name" {
		t.Errorf("after the drop %q is open", h.shown.Name)
	}
	if err := os.WriteFile(filepath.Join(folder, "there.yaml"), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	h.chooseSave(nil)
	h.entryOf(filepath.Join(folder, "there.yaml"))
	h.asked.press("Save")
	if h.asked == nil || !strings.HasPrefix(h.asked.title.Text, "Replace ") {
		t.Fatal("another file is replaced without a question")
	}
	h.asked.press("Cancel")
	h.openFile(filepath.Join(folder, "there.yaml"))
	if h.asked == nil || !strings.HasPrefix(h.asked.title.Text, "Could not open") {
		t.Error("a file that is no design is opened without a word")
	}
}

func TestWriteFiles(t *testing.T) {
	h := opened(t)
	folder := filepath.Join(t.TempDir(), "out")
	h.app.Preferences().SetString(makeFolderKey, folder)
	h.writeFiles()
	if h.open != Make {
		t.Errorf("the files are written in %s", stageNames[h.open])
	}
	h.until("the files are written", func() bool { return h.maker.cancel == nil })
	for _, name := range []string{"mast_mm.stl", "foot_mm.stl", "tray_mm.stl", "results.json", "summary.txt"} {
		if !exists(filepath.Join(folder, name)) {
			t.Errorf("%s is not there", name)
		}
	}
	if got := h.road.stations[Make].String(); got != "Make: 3 parts, written" {
		t.Errorf("on the road: %q", got)
	}
	if err := os.WriteFile(filepath.Join(folder, "mast_mm.stl"), []byte("changed"), 0o600); err != nil {
		t.Fatal(err)
	}
	h.writeFiles()
	h.until("there is an answer", func() bool { return h.maker.cancel == nil })
	if h.asked == nil || !h.asked.press("Cancel") {
		t.Error("a file that was changed since is replaced without a question")
	}

	other := filepath.Join(t.TempDir(), "none")
	h.app.Preferences().SetString(makeFolderKey, other)
	h.writeFiles()
	h.maker.gauge.onCancel()
	h.until("writing is given up", func() bool { return h.maker.cancel == nil })
	if exists(other) {
		t.Error("something was written after Cancel")
	}

	h.app.Preferences().SetString(makeFolderKey, other)
	for _, tick := range h.maker.ticks.ticks[1:] {
		tick.check.SetChecked(false)
	}
	h.writeFiles()
	h.until("one part is written", func() bool { return h.maker.cancel == nil })
	if !exists(filepath.Join(other, "foot_mm.stl")) || exists(filepath.Join(other, "mast_mm.stl")) {
		t.Error("not the one part that was ticked was written")
	}
}

func TestWindowSizeIsKept(t *testing.T) {
	app := test.NewTempApp(t)
	h := reopened(t, app, t.TempDir())
	h.window.Resize(fyne.NewSize(1400, 900))
	if got := sizeOf(app.Preferences()); got != fyne.NewSize(1400, 900) {
		t.Errorf("kept %v, want 1400 by 900", got)
	}
}

func TestNextVerdictThatIsNotPass(t *testing.T) {
	h := opened(t)
	if err := h.session.Example("coastline-watch"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	seen := map[string]bool{}
	for range 14 {
		h.next(1)
		v, known := h.shown.Review.Result.Verdict(h.picked())
		if !known || v.State == review.Pass {
			t.Fatalf("went to %s, which passes", h.picked())
		}
		seen[v.ID] = true
	}
	want := 14 - h.shown.Review.Result.Count(review.Pass)
	if len(seen) != want {
		t.Errorf("went to %d verdicts, %d do not pass", len(seen), want)
	}
	if h.account.Story().Verdict.ID != h.picked() {
		t.Errorf("the account tells of %s, picked is %s", h.account.Story().Verdict.ID, h.picked())
	}
}

// WCAG 2.5.8: a target for the mouse is 24 px or more.
func TestTargetsAreLargeEnough(t *testing.T) {
	h := opened(t)
	for stage := range stageNames {
		h.Stage(stage)
		for _, o := range test.LaidOutObjects(h.frame) {
			if _, press := o.(fyne.Tappable); !press || !o.Visible() {
				continue
			}
			if _, isSeam := o.(desktop.Cursorable); isSeam || strings.Contains(fmt.Sprintf("%T", o), "scrollBar") {
				continue
			}
			if size := o.Size(); size.Height > 0 && (size.Height < 24 || size.Width < 24) {
				t.Errorf("%s: a %T of %v", stageNames[stage], o, size)
			}
		}
	}
}

// The verdicts stand in the right column of Check whatever Shape did with them before, and stay there when the materials have been compared
// for a check that shows them.
func TestVerdictsStayInTheirColumn(t *testing.T) {
	h := opened(t)
	h.window.Resize(fyne.NewSize(1024, 678))
	h.Stage(Shape)
	h.shaping.turn(true)
	h.Stage(Check)
	stands := func() (fyne.Position, fyne.Size, bool) { return h.list.Position(), h.list.Size(), h.list.Visible() }
	at, size, visible := stands()
	if !visible || at.X < 1024-2*leastRight || size.Width < leastRight-2 {
		t.Fatalf("after the materials were shown in Shape the verdicts are at %v, %v, visible %t", at, size, visible)
	}
	h.pick("tipover")
	h.until("the materials are compared", func() bool { return h.shown.Comparison != nil })
	if now, wide, _ := stands(); now != at || wide != size {
		t.Errorf("the verdicts moved from %v, %v to %v, %v", at, size, now, wide)
	}
}
