package parts

import "fmt"

// fixings are the inserts and washers of a mount's screws.
func fixings(a Assembly) []Fitting {
	var all []Fitting
	for _, u := range a.Screws {
		if u.Insert {
			i := u.Size.Insert()
			all = append(all, Fitting{
				Name: fmt.Sprintf("%s heat-set insert", u.Size), For: u.For, Material: "brass", Count: u.Count,
				Note: fmt.Sprintf("%v long, for a bore of %v to %v with %v of plastic around it: common practice, no source; its maker's own figures come first.", i.Length, i.BoreLow, i.BoreHigh, i.Wall),
			})
		}
		if u.Washers > 0 {
			under := "under each head"
			if u.Washers > 1 {
				under = "under each head and each nut"
			}
			all = append(all, Fitting{Name: fmt.Sprintf("%s plain washer, ISO 7089", u.Size), For: u.For, Material: u.Material, Count: u.Count * u.Washers, Note: under + "."})
		}
	}
	return all
}
