package review_test

import (
	"fmt"
	"sync/atomic"
	"testing"

	"mastwright/design/review"
)

func BenchmarkRun(b *testing.B) {
	doc := example(b, "river-survey")
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := review.Run(doc); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

func BenchmarkJudge(b *testing.B) {
	doc := example(b, "river-survey")
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := review.Judge(doc); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

// BenchmarkWorkshop reviews a design whose mast grows a little every time: the plates are kept, the rest is not.
func BenchmarkWorkshop(b *testing.B) {
	doc := example(b, "river-survey")
	var shop review.Workshop
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if err := doc.Set("mast.height", fmt.Sprintf("%.3f mm", 90+0.001*float64(i%10000))); err != nil {
			b.Fatal(err)
		}
		if _, problems, err := shop.Judge(b.Context(), doc); err != nil || len(problems) > 0 {
			b.Fatal(problems, err)
		}
	}
	work := shop.Work()
	b.ReportMetric(float64(work.Condensed)/float64(b.N), "solves/op")
}

// BenchmarkStructural tries lots of a column of 20 elements on all cores: modes flying, sway, shake, strength and tip-over of each.
func BenchmarkStructural(b *testing.B) {
	doc := set(b, example(b, "hedgerow-scout"), "mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm", "mast.height", "70 mm")
	var shop review.Workshop
	made := bench(b, &shop, doc)
	b.ReportAllocs()
	var drawn atomic.Int64
	before := shop.Work()
	b.ResetTimer()
	b.RunParallel(func(p *testing.PB) {
		for p.Next() {
			lot := review.Lot{Modulus: 0.8 + 0.4*float64(drawn.Add(1)%1000)/1000}
			if _, err := made.Try(lot, structural...); err != nil {
				b.Error(err)
				return
			}
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "reviews/s")
	b.ReportMetric(float64(shop.Work().Condensed-before.Condensed)/float64(b.N), "solves/op")
}
