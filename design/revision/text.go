package revision

import (
	"bytes"
	"regexp"
	"slices"

	"mastwright/design"
)

// Text is the file of a carried mount, made of the texts of the two files it comes from: what stays has the comments and the order of the
// mount's, what is taken over those of the aircraft's.
func (c Carried) Text(mount, aircraft []byte) ([]byte, error) {
	blocks := blocksOf(mount)
	blocks = slices.DeleteFunc(blocks, func(b block) bool {
		return slices.Contains(taken, b.section) && blockOf(aircraft, b.section) == nil || slices.Contains(left, b.section)
	})
	for i, b := range blocks {
		if slices.Contains(taken, b.section) {
			blocks[i].text = blockOf(aircraft, b.section)
		}
	}
	for _, b := range blocksOf(aircraft) {
		if !slices.Contains(taken, b.section) || slices.ContainsFunc(blocks, func(o block) bool { return o.section == b.section }) {
			continue
		}
		at := 0
		for i, o := range blocks {
			if rank(o.section) < rank(b.section) {
				at = i + 1
			}
		}
		blocks = slices.Insert(blocks, at, b)
	}
	var text []byte
	for _, b := range blocks {
		text = append(text, b.text...)
		if !bytes.HasSuffix(text, []byte("\n")) {
			text = append(text, '\n')
		}
	}
	return design.Revise(text, c.Document)
}

// left are the sections that speak of the old aircraft alone, entry by entry; those that stay are written anew.
var left = []string{"accepted", "measured"}

// block is a section of a file with the comments right above it.
type block struct {
	section string // "" for what stands before the first
	text    []byte
}

var sectionLine = regexp.MustCompile(`(?m)(?:^#.*\n)*^([a-z]+):`)

func blocksOf(text []byte) []block {
	var list []block
	from := 0
	name := ""
	for _, at := range sectionLine.FindAllSubmatchIndex(text, -1) {
		if at[0] > from {
			list = append(list, block{name, text[from:at[0]]})
		}
		from, name = at[0], string(text[at[2]:at[3]])
	}
	return append(list, block{name, text[from:]})
}

func blockOf(text []byte, section string) []byte {
	for _, b := range blocksOf(text) {
		if b.section == section {
			return b.text
		}
	}
	return nil
}

// rank is the place of a section in the field table.
func rank(name string) int {
	return slices.IndexFunc(design.Fields(), func(f design.Field) bool { return section(f.Path) == name })
}
