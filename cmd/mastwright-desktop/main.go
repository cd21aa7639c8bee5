// Command mastwright-desktop is the window. With a path it opens that design.
package main

import (
	"fmt"
	"io"
	"log"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"mastwright/app/desktop"
	"mastwright/assets"
)

// noPicture is said where the window cannot be shown, with exit status 2.
const noPicture = "mastwright-desktop: no window can be shown here (%s); use the command: mastwright check DESIGN\n"

// firstPicture is how long the toolkit may take to ask for a picture. Where a display has no OpenGL it waits for ever.
const firstPicture = 5 * time.Second

// scaleVariable is the toolkit's: it goes before what the person chose in the menu.
const scaleVariable = "FYNE_SCALE"

func main() {
	log.SetOutput(io.Discard) // the toolkit's: one sentence of ours says why there is no window
	file := ""
	if len(os.Args) > 1 {
		file = os.Args[1]
		if abs, err := filepath.Abs(file); err == nil {
			file = abs
		}
	}
	window, a, reason := open()
	if reason != "" {
		fmt.Fprintf(os.Stderr, noPicture, reason)
		os.Exit(2)
	}
	go func() {
		select {
		case <-window.Painted():
			log.SetOutput(os.Stderr)
		case <-time.After(firstPicture):
			fmt.Fprintf(os.Stderr, noPicture, "the display has no OpenGL")
			os.Exit(2)
		}
	}()
	a.Lifecycle().SetOnStarted(func() { window.Begin(file) })
	window.Window().ShowAndRun()
}

// open makes the window. Without a display the toolkit panics when the first one is made.
func open() (window *desktop.Window, a fyne.App, reason string) {
	defer func() {
		if cause := recover(); cause != nil {
			reason = "there is no display"
		}
	}()
	a = app.NewWithID("org.mastwright.desktop")
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon()))
	if scale := desktop.Scale(a.Preferences()); scale != 1 && os.Getenv(scaleVariable) == "" {
		os.Setenv(scaleVariable, fmt.Sprint(scale)) // the toolkit's only way to be told
	}
	return desktop.New(a, desktop.Options{State: stateFolder(), Version: version()}), a, ""
}

// stateFolder is where unsaved work and the list of recent files are kept.
func stateFolder() string {
	if folder := os.Getenv("MASTWRIGHT_STATE"); folder != "" {
		return folder
	}
	folder, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(folder, "mastwright")
}

func version() string {
	if info, known := debug.ReadBuildInfo(); known && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return ""
}
