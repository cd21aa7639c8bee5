package review_test

import (
	"fmt"
	"sync/atomic"
	"testing"

	"mastwright/assets"
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

// BenchmarkJudge reviews every example in a workshop of its own, as who opens a design does.
func BenchmarkJudge(b *testing.B) {
	for _, e := range assets.Examples() {
		b.Run(e.Name, func(b *testing.B) {
			doc := example(b, e.Name)
			b.ReportAllocs()
			for b.Loop() {
				if _, problems := review.Judge(doc); len(problems) > 0 {
					b.Fatal(problems)
				}
			}
		})
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

// column20 is a column of 20 elements in one piece.
var column20 = []string{"mast.root_fillet", "0 mm", "mast.tip_fillet", "0 mm", "mast.height", "75 mm"}

// BenchmarkStructural tries lots of a column of 20 elements on all cores: modes flying, sway, shake, strength and tip-over of each.
func BenchmarkStructural(b *testing.B) {
	doc := set(b, example(b, "hedgerow-scout"), column20...)
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

// BenchmarkReshaped reviews a column of 20 elements whose height, root, tip and wall change every time, on all cores, as sizing does: modes
// flying, sway, shake, strength and tip-over of each. Roots go by tenths of a millimetre, so that the foot's plate is met again.
func BenchmarkReshaped(b *testing.B) {
	var shop review.Workshop
	b.ReportAllocs()
	var drawn atomic.Int64
	b.RunParallel(func(p *testing.PB) {
		doc := set(b, example(b, "hedgerow-scout"), column20...)
		for p.Next() {
			i := drawn.Add(1)
			share := float64(i%1000) / 1000
			for path, size := range map[string]float64{
				"mast.height": 74 + share, "mast.root.x": 11 + float64(i%20)/10, "mast.tip.x": 8 + share, "mast.wall": 1.8 + share/5,
			} {
				if err := doc.Set(path, fmt.Sprintf("%.3f mm", size)); err != nil {
					b.Error(err)
					return
				}
			}
			if _, problems, err := shop.Judge(b.Context(), doc, structural...); err != nil || len(problems) > 0 {
				b.Error(problems, err)
				return
			}
		}
	})
	work := shop.Work()
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "reviews/s")
	b.ReportMetric(float64(work.Condensed)/float64(b.N), "solves/op")
	b.ReportMetric(float64(work.Sections)/float64(b.N), "sections/op")
	b.ReportMetric(float64(work.Plates)/float64(b.N), "plates/op")
}
