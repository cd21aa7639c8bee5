package plot_test

import (
	"fmt"
	"os"

	"mastwright/app/desktop/plot"
	"mastwright/design"
	"mastwright/design/review"
)

func ExampleBreak() {
	limit := review.Limit{Sense: review.AtLeast, Pass: 1.3, Marginal: 0.8}
	result := review.Result{
		Verdicts: []review.Verdict{{ID: "tipover", Figures: []review.Figure{{Value: 1.5, Unit: "×", Limit: &limit}}}},
		TipOver:  &review.TipOver{Required: 1.2, Break: 1.8},
	}
	materials := []review.Candidate{
		{Name: "petg", Title: "PETG", Break: 1.8, BreakLow: 1.5, BreakHigh: 2.2, Required: 1.2},
		{Name: "pla", Title: "PLA", Break: 1.1, BreakLow: 0.8, BreakHigh: 1.4, Required: 1.2},
	}
	chart := plot.Break(design.New(), result, materials)
	fmt.Println(chart.Title())
	fmt.Println(chart.Summary())
	// Output:
	// Break speed over topple speed, by material
	// The aircraft topples onto the mast at 1.2 m/s; this design breaks at 1.8 m/s, 1.5 times that. 1 of 2 materials pass.
}

func ExampleChart_SVG() {
	chart := plot.Heading(design.New(), review.Result{})
	if err := chart.SVG(os.Stdout, 200, 80); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <svg xmlns="http://www.w3.org/2000/svg" width="200" height="80" viewBox="0 0 200 80">
	// <title>Heading swing against height, worst heading</title>
	// <path d="M0 0L200 0L200 80L0 80Z" fill="#ffffff"/>
	// <text x="12" y="20" font-family="Go, Helvetica, Arial, sans-serif" font-size="13" font-weight="500" text-anchor="start" fill="#1b2322">Heading swing against height</text>
	// <path d="M44 36L186 36L186 56L44 56L44 36" fill="none" stroke="#77827c" stroke-width="1" stroke-linejoin="round"/>
	// <text x="115" y="50" font-family="Go, Helvetica, Arial, sans-serif" font-size="12" text-anchor="middle" fill="#59655f">no data: it needs the…</text>
	// </svg>
}
