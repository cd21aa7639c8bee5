package review

import (
	"fmt"

	"mastwright/design/parts"
)

// needed is a kind of thing that a mount is made of, with how many there are of it.
type needed struct {
	one, many string // its name: "spacer", "spacers"
	of        string // what follows the name
	nuts      bool   // each with a nut
	count     int
	shapes    int // parts of one kind that differ
}

// needs is a list of them in order of their first mention.
type needs []needed

// add counts things to those of the same name.
func (l *needs) add(n needed) {
	for i, o := range *l {
		if o.one == n.one && o.of == n.of && o.nuts == n.nuts {
			(*l)[i].count += n.count
			(*l)[i].shapes += n.shapes
			return
		}
	}
	*l = append(*l, n)
}

// words says each kind in a few words: "foot", "2 spacers", "4 legs in 2 shapes".
func (l needs) words(numbered bool) []string {
	var all []string
	for _, n := range l {
		text := plural(n.count, n.one, n.many) + n.of
		if n.nuts {
			text += plural(n.count, " with its nut", " with their nuts")
		}
		if n.count > 1 || numbered {
			text = fmt.Sprintf("%d %s", n.count, text)
		}
		if n.shapes > 1 {
			text += fmt.Sprintf(" in %d shapes", n.shapes)
		}
		all = append(all, text)
	}
	return all
}

// needs lists what a mount is made of.
func (o *Styled) needs(a parts.Assembly) {
	var printed, cut, bought needs
	for _, p := range a.Parts {
		kind := needed{one: p.Kind(), many: plurals(p.Kind()), count: p.Count, shapes: 1}
		o.Pieces += p.Count
		switch p.Making {
		case parts.Cut:
			kind.of = fmt.Sprintf(" of %v %s", mm(p.Thickness/1e3), p.Material)
			cut.add(kind)
		case parts.Stock:
			o.Buy = append(o.Buy, fmt.Sprintf("%.1f mm of %s, %s", p.Length, p.Size, p.Material))
		default:
			printed.add(kind)
		}
	}
	for _, u := range a.Screws {
		screw := needed{one: fmt.Sprintf("%s × %v screw", u.Size, u.Length), of: " of " + u.Material, nuts: u.Nut, count: u.Count}
		screw.many = plurals(screw.one)
		bought.add(screw)
		o.Pieces += u.Count
	}
	for _, f := range a.Fittings {
		n := needed{one: f.Name, many: plurals(f.Name), count: max(1, f.Count)}
		if f.Length > 0 {
			n.of = fmt.Sprintf(" of %v", f.Length)
		} else {
			n.of = " of " + f.Material
		}
		bought.add(n)
		o.Pieces += n.count
	}
	o.Make, o.Cut, o.Buy = printed.words(false), cut.words(false), append(o.Buy, bought.words(true)...)
}

// plurals is a part's name for several of it.
func plurals(name string) string {
	if name == "foot" {
		return "feet"
	}
	return name + "s"
}
