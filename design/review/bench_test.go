package review_test

import (
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
