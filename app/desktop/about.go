package desktop

import (
	"fmt"
	"runtime"
	"strings"
)

// cautions are said in About, in Make and in Prove.
const cautions = "Propellers off for every bench step that powers the aircraft. Fly only as local rules allow. The figures are estimates for " +
	"mounts of model aircraft; they are no proof of airworthiness."

func (w *Window) about() {
	version := w.options.Version
	if version == "" {
		version = "built from its source"
	}
	text := fmt.Sprintf("Version: %s.\n\nDesigns the raised mount of a satellite receiver with a compass on a small multirotor, checks it before anything is "+
		"printed, makes its files, and proves it with measurements.\n\n%s\n\nDesign files: schema 1. Earth's field: World Magnetic "+
		"Model 2025. Built with %s for %s/%s.\nType: Go fonts. Released under the licence in the file LICENSE.",
		version, cautions, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	w.put("Mastwright", text, 480, nil, answer{label: "Close"})
}

func (w *Window) showKeys() {
	w.put("Keys", strings.TrimSpace(keys), 480, nil, answer{label: "Close"})
}

// keys are those that are not in the menu because they belong to what has the focus.
const keys = `
Tab and Shift+Tab go through road, left column, staff, picture and right column.
In a field: Up and Down step, with Shift a tenth, Page keys ten steps; Enter commits, Escape brings back the last good value. Any unit may be typed, and the comma is a decimal mark too.
In the picture: arrows orbit, with Shift they move; + and - zoom, 0 fits; C F S T are the standard views.
On the staff: Up and Down 1 mm, Page keys 10 mm.
In a list: Up and Down; Enter opens, tries or applies.
Everything else stands in the menu with its keys.
`
