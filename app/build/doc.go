// Package build makes what a builder takes away from a design: the parts, laid out on print beds, the drawings of what is cut and
// the list of it, in a folder with the results as one JSON object and a
// summary in plain text. The commands and the window write the same files.
//
// Text is plain, aligned and at most 80 columns wide.
package build
