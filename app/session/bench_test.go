package session_test

import (
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"mastwright/app/session"
)

// What an edit costs the window's thread.
func BenchmarkSet(b *testing.B) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if err := s.Set("mast.height", strconv.Itoa(60+i%60)+" mm"); err != nil {
			b.Fatal(err)
		}
	}
}

// From an edit of the first example to its verdicts, and to its preview.
func BenchmarkEditToVerdicts(b *testing.B) {
	benchmarkEdit(b, (*session.Snapshot).Current)
}

func BenchmarkEditToPreview(b *testing.B) {
	benchmarkEdit(b, settled)
}

func benchmarkEdit(b *testing.B, done func(*session.Snapshot) bool) {
	changed := make(chan struct{}, 1)
	s := session.New(session.Options{Changed: func() { poke(changed) }})
	defer s.Close()
	until(b, s, changed, settled)
	for i := 0; b.Loop(); i++ {
		if err := s.Set("mast.height", strconv.Itoa(60+i%60)+" mm"); err != nil {
			b.Fatal(err)
		}
		until(b, s, changed, done)
		b.StopTimer()
		until(b, s, changed, settled)
		b.StartTimer()
	}
}

// A drag of 60 edits a second: how many reviews and previews are seen of it.
func BenchmarkDrag(b *testing.B) {
	changed := make(chan struct{}, 1)
	s := session.New(session.Options{Changed: func() { poke(changed) }})
	defer s.Close()
	until(b, s, changed, settled)
	before := s.Counts()
	for b.Loop() {
		s.Begin("Height")
		for i := range 60 {
			if err := s.Set("mast.height", strconv.Itoa(60+i)+" mm"); err != nil {
				b.Fatal(err)
			}
			time.Sleep(time.Second / 60)
		}
		s.End()
		until(b, s, changed, settled)
	}
	after := s.Counts()
	b.ReportMetric(float64(after.Reviews-before.Reviews)/float64(b.N), "reviews/op")
	b.ReportMetric(float64(after.Previews-before.Previews-after.Abandoned+before.Abandoned)/float64(b.N), "previews/op")
}

func BenchmarkSave(b *testing.B) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	path := filepath.Join(b.TempDir(), "a.yaml")
	for i := 0; b.Loop(); i++ {
		if err := s.Set("mast.height", strconv.Itoa(60+i%60)+" mm"); err != nil {
			b.Fatal(err)
		}
		if err := s.SaveOver(path); err != nil {
			b.Fatal(err)
		}
	}
}
