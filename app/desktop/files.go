package desktop

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"mastwright/app/session"
)

// designSuffix is that of a design file.
const designSuffix = ".yaml"

// ask does something that gives up the open design, after the question what is to become of unsaved work.
func (w *Window) ask(then func()) {
	w.desk.Settle()
	if !w.session.Snapshot().Dirty {
		then()
		return
	}
	w.put("Save "+w.shown.Name+"?", "It has changes that are not in its file. Without saving they are lost.", 420, nil,
		answer{"Save", func() { w.save(then) }}, answer{"Do not save", then}, answer{label: "Cancel"})
}

// Quit ends the program, after the question about unsaved work.
func (w *Window) Quit() {
	w.ask(func() {
		w.session.Close()
		w.app.Quit()
	})
}

func (w *Window) openFile(file string) {
	if err := w.session.Open(file); err != nil {
		var unreadable session.Unreadable
		text := capital(err.Error())
		if errors.As(err, &unreadable) {
			text = "Nothing was opened. " + listed(unreadable)
		}
		w.tellPerson("Could not open "+filepath.Base(file), text)
		return
	}
	w.app.Preferences().SetString(folderKey, filepath.Dir(file))
}

// listed says the first problems of a file that is no design.
func listed(u session.Unreadable) string {
	const most = 6
	var lines []string
	for i, p := range u.Problems {
		if i == most {
			lines = append(lines, "and more; mend these first")
			break
		}
		lines = append(lines, p.Error())
	}
	return strings.Join(lines, "\n")
}

// save writes the design to its file, asks what there is to ask, and goes on.
func (w *Window) save(then func()) {
	w.desk.Settle()
	w.saved(w.session.Save(), then)
}

// saved looks at what became of a save.
func (w *Window) saved(err error, then func()) {
	var conflict session.Conflict
	switch {
	case err == nil:
		if file := w.session.Snapshot().File; file != "" {
			w.app.Preferences().SetString(folderKey, filepath.Dir(file))
		}
		if then != nil {
			then()
		}
	case !errors.As(err, &conflict):
		w.tellPerson("Not saved", capital(err.Error()))
	case conflict.Reason == session.Unnamed:
		w.chooseSave(then)
	default:
		w.put("Replace "+filepath.Base(conflict.File)+"?", capital(conflict.Error()), 440, nil,
			answer{"Replace", func() { w.saved(w.session.SaveOver(conflict.File), then) }},
			answer{"Another name", func() { w.chooseSave(then) }}, answer{label: "Cancel"})
	}
}

func (w *Window) chooseOpen() {
	w.ask(func() {
		w.choose(chooser{title: "Open a design", act: "Open", folder: w.folder(), suffix: designSuffix, also: []string{".yml"}, done: func(path string) { w.openFile(path) }})
	})
}

func (w *Window) chooseSave(then func()) {
	name := w.fileName() + designSuffix
	if w.shown.File != "" {
		name = filepath.Base(w.shown.File)
	}
	w.choose(chooser{title: "Save the design as", act: "Save", folder: w.folder(), name: name, suffix: designSuffix, also: []string{".yml"}, making: true,
		done: func(path string) {
			if filepath.Ext(path) == "" {
				path += designSuffix
			}
			w.saved(w.session.SaveAs(path), then)
		}})
}

// folder is where designs were opened or saved last.
func (w *Window) folder() string {
	if w.shown.File != "" {
		return filepath.Dir(w.shown.File)
	}
	return standing(w.app.Preferences().String(folderKey))
}

// standing is a folder that is there: the one given, or the person's home.
func standing(folder string) string {
	if info, err := os.Stat(folder); err == nil && info.IsDir() {
		return folder
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return string(filepath.Separator)
}

// dropped opens a design that was dropped on the window.
func (w *Window) dropped(_ fyne.Position, uris []fyne.URI) {
	for _, uri := range uris {
		if uri.Scheme() == "file" {
			file := uri.Path()
			w.ask(func() { w.openFile(file) })
			return
		}
	}
}

// noticeChange asks what to do when another program has changed the design's file.
func (w *Window) noticeChange() {
	n := w.session.Snapshot()
	if w.asked != nil || n.File == "" || n.File == w.noticed || w.session.OnDisk() {
		return
	}
	w.noticed = n.File // once is enough: Save asks again
	w.put(filepath.Base(n.File)+" was changed", "Another program has changed the file since it was read.", 420, nil,
		answer{"Read it again", func() { w.noticed = ""; w.ask(func() { w.openFile(n.File) }) }}, answer{label: "Keep what is here"})
}

// offerRecoveries offers unsaved work of a session that ended without being closed, the newest first.
func (w *Window) offerRecoveries() {
	kept := w.session.Recoveries()
	if len(kept) == 0 {
		return
	}
	r := kept[0]
	where := "It had no file yet."
	if r.File != "" {
		where = "Its file is " + r.File + "."
	}
	w.put("Unsaved work was kept", r.Name+" was being worked on when Mastwright ended on "+r.At.Format("2 January at 15:04")+". "+where, 440, nil,
		answer{"Bring it back", func() { w.complain(w.session.Recover(r)) }},
		answer{"Throw it away", func() { w.session.Discard(r); w.offerRecoveries() }},
		answer{label: "Later"})
}
