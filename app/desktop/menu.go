package desktop

import (
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"mastwright/app/desktop/look"
	"mastwright/assets"
	"mastwright/mesh/view"
)

// menu is the main menu. Every shortcut stands in it: the toolkit gives the menu's keys before those of a field.
func (w *Window) menu() *fyne.MainMenu {
	return fyne.NewMainMenu(
		fyne.NewMenu("Design",
			keyed("New", ctrl(fyne.KeyN), func() { w.ask(w.blank) }),
			keyed("Open…", ctrl(fyne.KeyO), w.chooseOpen),
			w.recentMenu(),
			w.exampleMenu(),
			fyne.NewMenuItemSeparator(),
			keyed("Save", ctrl(fyne.KeyS), func() { w.save(nil) }),
			keyed("Save as…", ctrlShift(fyne.KeyS), func() { w.chooseSave(nil) }),
			fyne.NewMenuItemSeparator(),
			w.quitItem(),
		),
		fyne.NewMenu("Edit",
			keyed(undoLabel("Undo", w.shown.Undo), &fyne.ShortcutUndo{}, w.undo),
			keyed(undoLabel("Redo", w.shown.Redo), &fyne.ShortcutRedo{}, w.redo),
			fyne.NewMenuItemSeparator(),
			keyed("Copy the figure with unit and source", ctrlShift(fyne.KeyC), func() { w.copy(w.account.Citation()) }),
		),
		fyne.NewMenu("View", w.viewItems()...),
		fyne.NewMenu("Build",
			keyed("Write files…", ctrl(fyne.KeyE), w.writeFiles),
			keyed("Find the lightest design that passes…", ctrl(fyne.KeyG), w.lighten),
			keyed("Find what opens a height…", ctrl(fyne.KeyT), w.unshut),
			keyed("Save the plot…", ctrl(fyne.KeyP), w.savePlot),
			keyed("Open a record of a test…", ctrl(fyne.KeyR), func() { w.Stage(Prove); w.prover.openRecord() }),
			keyed("Limits and assumptions", ctrl(fyne.KeyL), func() { w.showTerms(!w.termed) }),
		),
		fyne.NewMenu("Help",
			fyne.NewMenuItem("Keys", w.showKeys),
			fyne.NewMenuItem("About Mastwright", w.about),
		),
	)
}

func (w *Window) viewItems() []*fyne.MenuItem {
	keys := [...]fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5}
	var items []*fyne.MenuItem
	for i, name := range stageNames {
		item := keyed(name, ctrl(keys[i]), func() { w.Stage(i) })
		item.Checked = w.open == i
		items = append(items, item)
	}
	items = append(items, fyne.NewMenuItemSeparator(),
		keyed("Next verdict that is not pass", ctrl(fyne.KeyPeriod), func() { w.next(1) }),
		keyed("Last verdict that is not pass", ctrlShift(fyne.KeyPeriod), func() { w.next(-1) }),
		fyne.NewMenuItemSeparator())
	for _, standard := range []struct {
		name string
		key  fyne.KeyName
		turn view.Standard
	}{{"From the corner", fyne.KeyC, view.Corner}, {"From the front", fyne.KeyF, view.Front}, {"From the side", fyne.KeyS, view.Side},
		{"From the top", fyne.KeyT, view.Top}} {
		items = append(items, keyed(standard.name, alt(standard.key), func() { w.pictures.turn(standard.turn) }))
	}
	ghost := keyed("Outline of the design before the last edit", alt(fyne.KeyG), func() { w.pictures.showBefore(!w.pictures.ghost); w.syncMenu() })
	ghost.Checked = w.pictures.ghost
	items = append(items, keyed("Fit", alt(fyne.Key0), w.pictures.fit), ghost, fyne.NewMenuItemSeparator())
	for _, palette := range []struct {
		name   string
		choice look.Choice
	}{{"Light", look.Light}, {"Dark", look.Night}, {"As the system", look.System}} {
		item := fyne.NewMenuItem(palette.name, func() { w.dress(palette.choice) })
		item.Checked = choiceOf(w.app.Preferences()) == palette.choice
		items = append(items, item)
	}
	return append(items, fyne.NewMenuItemSeparator(), w.scaleMenu())
}

// scaleMenu chooses how large everything is written.
func (w *Window) scaleMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Text and everything", nil)
	var sizes []*fyne.MenuItem
	for _, percent := range scales {
		size := fyne.NewMenuItem(fmt.Sprintf("%d %%", percent), func() {
			w.app.Preferences().SetFloat(scaleKey, float64(percent)/100)
			w.hint.say("The size is changed at the next start.")
			w.syncMenu()
		})
		size.Checked = Scale(w.app.Preferences()) == float64(percent)/100
		sizes = append(sizes, size)
	}
	item.ChildMenu = fyne.NewMenu("", sizes...)
	return item
}

var scales = [...]int{80, 100, 125, 150, 175, 200}

func (w *Window) recentMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Open recent", nil)
	var files []*fyne.MenuItem
	for _, file := range w.session.Recent() {
		files = append(files, fyne.NewMenuItem(filepath.Base(file)+"  "+filepath.Dir(file), func() { w.ask(func() { w.openFile(file) }) }))
	}
	item.Disabled = len(files) == 0
	item.ChildMenu = fyne.NewMenu("", files...)
	return item
}

func (w *Window) exampleMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Examples", nil)
	var examples []*fyne.MenuItem
	for _, e := range assets.Examples() {
		examples = append(examples, fyne.NewMenuItem(e.Name, func() { w.ask(func() { w.complain(w.session.Example(e.Name)) }) }))
	}
	item.ChildMenu = fyne.NewMenu("", examples...)
	return item
}

// blank begins a design in which nothing is answered, where there is the most to do.
func (w *Window) blank() {
	w.session.Blank()
	w.Stage(Measure)
}

func (w *Window) quitItem() *fyne.MenuItem {
	item := keyed("Quit", ctrl(fyne.KeyQ), w.Quit)
	item.IsQuit = true
	return item
}

// syncMenu makes the menu anew where what it says has changed.
func (w *Window) syncMenu() {
	state := fmt.Sprint(w.shown.Undo, "\n", w.shown.Redo, w.open, choiceOf(w.app.Preferences()), w.shown.File, w.pictures.ghost,
		Scale(w.app.Preferences()))
	if w.menued != state {
		w.menued = state
		w.window.SetMainMenu(w.menu())
	}
}

// undo takes back what is being typed first, and then the last edit.
func (w *Window) undo() {
	if w.desk.Typing() {
		w.desk.Revert()
		return
	}
	w.session.Undo()
}

func (w *Window) redo() { w.session.Redo() }

func (w *Window) next(step int) {
	switch said := notice(w.shown); {
	case said != "":
		w.hint.say(said)
	case !w.list.Next(step):
		w.hint.say("Every verdict passes.")
	default:
		w.pick(w.list.Picked())
	}
}

func (w *Window) dress(choice look.Choice) {
	w.app.Preferences().SetString(paletteKey, string(choice))
	w.app.Settings().SetTheme(look.Theme{Choice: choice})
	w.refresh()
}

func undoLabel(word, what string) string {
	if what == "" {
		return word
	}
	return word + " " + what
}

func keyed(label string, shortcut fyne.Shortcut, action func()) *fyne.MenuItem {
	item := fyne.NewMenuItem(label, action)
	item.Shortcut = shortcut
	return item
}

func ctrl(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

func ctrlShift(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
}

func alt(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierAlt}
}
