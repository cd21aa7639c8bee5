package record

import (
	"cmp"
	"fmt"
	"slices"
)

// perKind is how many problems of a kind are told one by one.
const perKind = 5

// faults gathers problems: the first few of each kind in full, the rest as a count.
type faults struct {
	file  string
	kinds []string
	count map[string]int
	told  Problems
}

func (f *faults) add(kind string, p Problem) {
	if f.count == nil {
		f.count = map[string]int{}
	}
	if f.count[kind] == 0 {
		f.kinds = append(f.kinds, kind)
	}
	f.count[kind]++
	if f.count[kind] <= perKind {
		p.File = f.file
		f.told = append(f.told, p)
	}
}

func (f *faults) problems() Problems {
	p := slices.Clone(f.told)
	slices.SortStableFunc(p, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	for _, k := range f.kinds {
		if n := f.count[k] - perKind; n > 0 {
			p = append(p, Problem{File: f.file, Text: fmt.Sprintf("%d more of the same: %s", n, k)})
		}
	}
	return p
}
