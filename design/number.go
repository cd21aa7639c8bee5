package design

import (
	"hash/fnv"
	"io"
)

// Number is a short number of the design, four letters and figures that follow from every answer in it: a part that bears it can
// be told from one of another design, or of an older state of this one.
func (d *Document) Number() string {
	const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ" // none that is mistaken for another
	h := fnv.New32a()
	for _, path := range d.Paths() {
		io.WriteString(h, path+": "+d.Get(path)+"\n")
	}
	sum := h.Sum32()
	sum ^= sum >> 20 // all of the sum counts
	number := make([]byte, 4)
	for i := range number {
		number[i] = signs[sum>>(5*i)&31]
	}
	return string(number)
}
