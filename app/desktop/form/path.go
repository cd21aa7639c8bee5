package form

import (
	"regexp"
	"strconv"
	"strings"
)

var number = regexp.MustCompile(`\[\d+\]`)

// pattern turns "leads[2].spacing" into "leads[].spacing".
func pattern(path string) string { return number.ReplaceAllString(path, "[]") }

// inEntry puts the entry numbers of a path into a pattern.
func inEntry(pattern, path string) string {
	for _, n := range number.FindAllString(path, -1) {
		pattern = strings.Replace(pattern, "[]", n, 1)
	}
	return pattern
}

func entryPath(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// cutLast splits "mast.root.x" into "mast.root" and "x".
func cutLast(path string) (parent, last string, nested bool) {
	at := strings.LastIndex(path, ".")
	if at < 0 {
		return "", path, false
	}
	return path[:at], path[at+1:], true
}
