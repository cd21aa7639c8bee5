package build

import (
	"fmt"
	"io"
	"strings"

	"mastwright/design/parts"
	"mastwright/materials/hardware"
)

// boughtRecord is a thing to buy in results.json: a screw, a nut, an insert, edge guard.
type boughtRecord struct {
	Name     string   `json:"name"`
	For      string   `json:"for"`
	Material string   `json:"material"`
	Count    int      `json:"count"`
	Length   *float64 `json:"length_mm"` // of a screw, or of what is sold by length; null otherwise
	Note     string   `json:"note"`
}

// bought lists the hardware of a mount.
func bought(a parts.Assembly) []boughtRecord {
	out := []boughtRecord{}
	for _, u := range a.Screws {
		out = append(out, screw(u))
		if u.Nut {
			nut := boughtRecord{Name: fmt.Sprintf("%s hexagon nut, ISO 4032", u.Size), For: u.For, Material: u.Material, Count: u.Count}
			if u.Pocket {
				nut.Note = "in its pocket"
			}
			out = append(out, nut)
		}
	}
	for _, f := range a.Fittings {
		one := boughtRecord{Name: f.Name, For: f.For, Material: f.Material, Count: f.Count, Note: f.Note}
		if f.Length > 0 {
			one.Length = Number(f.Length.Millimetres())
		}
		out = append(out, one)
	}
	return out
}

func screw(u parts.ScrewUse) boughtRecord {
	form := "socket head, ISO 4762"
	if u.Head == hardware.Button {
		form = "button head, ISO 7380-1"
	}
	out := boughtRecord{Name: fmt.Sprintf("%s screw, %s", u.Size, form), For: u.For, Material: u.Material, Count: u.Count}
	if u.Length > 0 {
		out.Length = Number(u.Length.Millimetres())
	} else {
		out.Note = fmt.Sprintf("no stock length is long enough: at least %s mm under the head", Digits(u.Grip+u.Through+u.Engagement, 4))
	}
	return out
}

// printBought lists what is bought; nothing when there is nothing.
func printBought(w io.Writer, list []boughtRecord) {
	if len(list) == 0 {
		return
	}
	fmt.Fprint(w, "\nTo buy\n")
	for _, b := range list {
		text := b.Name
		if b.Length != nil {
			text += ", " + Digits(*b.Length, 4) + " mm"
		}
		if b.Material != "" {
			text += ", " + b.Material
		}
		if b.For != "" {
			text += ", for the " + b.For
		}
		fmt.Fprint(w, Wrap("  "+PadLeft(fmt.Sprint(b.Count), 3)+"  ", 7, text))
		if b.Note != "" {
			fmt.Fprint(w, Wrap(strings.Repeat(" ", 7), 7, Sentence(capital(b.Note))))
		}
	}
}
