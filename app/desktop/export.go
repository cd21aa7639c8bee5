package desktop

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"mastwright/app/build"
	"mastwright/app/session"
)

// makeFolder is where files are written: where they were written last, or beside the design.
func (w *Window) makeFolder() string {
	if kept := w.app.Preferences().String(makeFolderKey); kept != "" {
		return kept
	}
	return filepath.Join(w.folder(), w.fileName())
}

// fileName is the design's name as a file's: letters and digits, with dashes between.
func (w *Window) fileName() string {
	apart := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	return strings.Join(strings.FieldsFunc(strings.ToLower(w.shown.Name), apart), "-")
}

func (w *Window) chooseFolder() {
	w.choose(chooser{title: "Write files into", act: "Use this folder", folder: standing(filepath.Dir(w.makeFolder())),
		name: filepath.Base(w.makeFolder()), making: true, done: func(path string) {
			w.app.Preferences().SetString(makeFolderKey, path)
			w.refresh()
		}})
}

// writeFiles writes what is ticked in Make, beside the toolkit's goroutine.
func (w *Window) writeFiles() {
	w.desk.Settle()
	if w.open != Make {
		w.Stage(Make)
	}
	w.write(w.maker.selection())
}

func (w *Window) write(what session.Selection) {
	if w.maker.cancel != nil {
		return // being written
	}
	if what.Parts != nil && len(what.Parts) == 0 && !what.Fit {
		w.hint.say("Nothing is ticked: there is nothing to write.")
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	folder := w.makeFolder()
	w.maker.began(cancel)
	progress := func(part string, done, total int) {
		w.options.Post(func() { w.maker.progress(part, done, total) })
	}
	go func() {
		made, err := w.session.Make(ctx, folder, what, progress)
		cancel()
		w.options.Post(func() { w.wrote(folder, what, made, err) })
	}()
}

// wrote says what became of writing.
func (w *Window) wrote(folder string, what session.Selection, made build.Made, err error) {
	w.maker.ended()
	var way build.InTheWay
	var wrong build.Problems
	switch {
	case err == nil:
		w.app.Preferences().SetString(makeFolderKey, folder)
		w.hint.say(fmt.Sprintf("%d files are in %s", len(made.Files), folder))
	case errors.Is(err, context.Canceled):
		w.hint.say("Given up: nothing was written.")
	case errors.As(err, &way):
		w.put("Replace files in this folder?", capital(err.Error()), 480, nil,
			answer{"Replace", func() { what.Replace = true; w.write(what) }},
			answer{"Another folder", w.chooseFolder}, answer{label: "Cancel"})
	case errors.As(err, &wrong):
		w.tellPerson("Cannot be built", capital(err.Error()))
	default:
		w.tellPerson("Not written", capital(err.Error()))
	}
	w.refresh()
}

// previewSheet makes the build sheet of the design as it stands and opens it with the system's own program, before anything is written.
func (w *Window) previewSheet() {
	w.desk.Settle()
	w.hint.say("The build sheet is being drawn.")
	go func() {
		name, err := w.drawSheet()
		w.options.Post(func() {
			if err != nil {
				w.tellPerson("No build sheet", capital(err.Error()))
				return
			}
			w.hint.say("The build sheet is open in another window.")
			w.openOutside(name)
		})
	}()
}

// drawSheet writes the build sheet into a file of the system's temporary folder.
func (w *Window) drawSheet() (name string, err error) {
	file, err := os.CreateTemp("", "mastwright-*.pdf")
	if err != nil {
		return "", err
	}
	err = w.session.Sheet(context.Background(), file, build.Sheet{Version: w.options.Version})
	return file.Name(), errors.Join(err, file.Close())
}

// reveal opens the folder that was written in the system's own way.
func (w *Window) reveal() { w.openWritten("") }

// readSheet opens the build sheet that was written.
func (w *Window) readSheet() { w.openWritten(build.SheetPDF) }

// openWritten opens a file of the folder that was written, or the folder, with the system's own program.
func (w *Window) openWritten(name string) {
	if w.shown.Written == nil {
		return
	}
	w.openOutside(filepath.Join(w.shown.Written.Folder, name))
}

// openOutside opens a file or a folder with the system's own program.
func (w *Window) openOutside(path string) {
	if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		w.complain(err)
	}
}
