package sweep

import "slices"

// front returns the points that are not beaten: no other is at least as good in mass and in worst place and better in one of them.
// Of equals the earliest counts.
func front(points []Point) []int {
	var order []int
	for i, p := range points {
		if len(p.Problems) == 0 && p.Binds != "" {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		p, q := points[a], points[b]
		switch {
		case p.Mass != q.Mass:
			return sign(p.Mass - q.Mass)
		case p.Worst != q.Worst:
			return sign(p.Worst - q.Worst)
		}
		return 0
	})
	var unbeaten []int
	for _, i := range order {
		if len(unbeaten) == 0 || points[i].Worst < points[unbeaten[len(unbeaten)-1]].Worst {
			unbeaten = append(unbeaten, i)
		}
	}
	return unbeaten
}

func sign(x float64) int {
	if x < 0 {
		return -1
	}
	return 1
}
