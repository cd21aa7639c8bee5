package session_test

import (
	"context"
	"errors"
	"strconv"
	"sync"
	"testing"
	"time"

	"mastwright/app/session"
	"mastwright/assets"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/mesh"
)

func poke(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// until waits for a snapshot that a session tells of.
func until(t testing.TB, s *session.Session, changed <-chan struct{}, want func(*session.Snapshot) bool) *session.Snapshot {
	t.Helper()
	lost := time.After(2 * time.Minute) // a dead session must not hang the tests
	for {
		if n := s.Snapshot(); want(n) {
			return n
		}
		select {
		case <-changed:
		case <-lost:
			t.Fatalf("what was waited for did not come; the last snapshot is %+v", s.Snapshot())
		}
	}
}

func settled(n *session.Snapshot) bool { return !n.Checking && !n.Previewing }

func TestLatestWins(t *testing.T) {
	const edits = 100
	begun, release := make(chan string, edits), make(chan struct{})
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: func(d *design.Document) (review.Result, []design.Problem) {
			begun <- d.Get("mast.height")
			<-release
			return review.Result{Design: d.Get("mast.height")}, nil
		},
	})
	defer s.Close()
	<-begun // the first review holds the worker
	for i := range edits {
		if err := s.Set("mast.height", strconv.Itoa(50+i)+" mm"); err != nil {
			t.Fatal(err)
		}
	}
	if n := s.Snapshot(); !n.Checking || n.Current() || n.Document.Get("mast.height") != "149 mm" {
		t.Fatalf("while checking: checking %t, current %t, height %s", n.Checking, n.Current(), n.Document.Get("mast.height"))
	}
	close(release)
	n := until(t, s, changed, settled)
	if !n.Current() || n.Review.Result.Design != "149 mm" || n.Review.Document != n.Document {
		t.Errorf("reviewed %q, want the last of the edits", n.Review.Result.Design)
	}
	if got := s.Counts(); got.Edits != edits+1 || got.Reviews != 2 {
		t.Errorf("%d reviews of %d documents, want 2: the first and the last", got.Reviews, got.Edits)
	}
}

// A drag is seen while it goes on: a review that was overtaken is shown, and said to be of an earlier document.
func TestOvertakenReviewIsShownAsOld(t *testing.T) {
	begun, release := make(chan struct{}), make(chan struct{})
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: func(*design.Document) (review.Result, []design.Problem) {
			begun <- struct{}{}
			<-release
			return review.Result{}, nil
		},
	})
	defer s.Close()
	<-begun
	must(t, s.Set("mast.height", "60 mm"))
	release <- struct{}{}
	<-begun // the second is under way
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Review != nil })
	if n.Current() || !n.Checking || n.Review.Serial >= n.Serial {
		t.Errorf("review of %d shown for document %d: current %t, checking %t", n.Review.Serial, n.Serial, n.Current(), n.Checking)
	}
	close(release)
	until(t, s, changed, settled)
}

func TestPreviewIsGivenUp(t *testing.T) {
	meshing := make(chan struct{})
	changed := make(chan struct{}, 1)
	first := true
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Mesh: func(ctx context.Context) error {
			if !first {
				return nil
			}
			first = false
			close(meshing)
			<-ctx.Done() // a preview that would never end
			return ctx.Err()
		},
	})
	defer s.Close()
	<-meshing
	must(t, s.Set("mast.height", "60 mm"))
	n := until(t, s, changed, settled)
	if got := s.Counts(); got.Previews != 2 || got.Abandoned != 1 || n.Preview.Serial != n.Serial || n.PreviewReason != "" {
		t.Errorf("%+v, preview of %d for document %d, %q", got, n.Preview.Serial, n.Serial, n.PreviewReason)
	}
}

func TestEnginesMayFail(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: func(d *design.Document) (review.Result, []design.Problem) {
			switch d.Get("mast.height") {
			case "60 mm":
				panic("index out of range")
			case "61 mm":
				return review.Result{}, []design.Problem{{Path: "mast.height", Text: "61 mm is odd; use 60 mm"}}
			}
			return review.Result{}, nil
		},
		Mesh: func(context.Context) error { return errors.New("too thin") },
	})
	defer s.Close()
	n := until(t, s, changed, settled)
	if n.PreviewReason != "too thin" || n.Preview != nil || !n.Current() {
		t.Errorf("preview says %q", n.PreviewReason)
	}
	for _, height := range []string{"60 mm", "61 mm"} {
		must(t, s.Set("mast.height", height))
		n = until(t, s, changed, settled)
		if len(n.Problems) != 1 || n.Current() || n.Review == nil || n.Review.Serial == n.Serial {
			t.Errorf("%s: problems %v, current %t", height, n.Problems, n.Current())
		}
	}
	s.Undo()
	if n = until(t, s, changed, settled); !n.Current() {
		t.Error("the worker did not go on after a crash")
	}
}

func TestComparisonFollowsOnlyWhenAsked(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Compare: func(d *design.Document) ([]review.Candidate, []design.Problem) {
			return []review.Candidate{{Name: d.Get("mast.height")}}, nil
		},
	})
	defer s.Close()
	until(t, s, changed, settled)
	must(t, s.Set("mast.height", "60 mm"))
	if n := until(t, s, changed, settled); n.Comparison != nil || s.Counts().Compare != 0 {
		t.Error("compared without being asked")
	}
	s.Compare(true)
	compared := func(n *session.Snapshot) bool { return n.Comparison != nil && n.Comparison.Serial == n.Serial }
	until(t, s, changed, compared)
	must(t, s.Set("mast.height", "70 mm"))
	if n := until(t, s, changed, compared); n.Comparison.Candidates[0].Name != "70 mm" {
		t.Errorf("compared %+v", n.Comparison)
	}
	s.Compare(false)
	if s.Snapshot().Comparison != nil {
		t.Error("a comparison that nobody follows is still shown")
	}
}

// Many goroutines at once: for the race detector, and that the end is one of the documents that were set.
func TestUseFromManyGoroutines(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{State: t.TempDir(), KeepIn: time.Microsecond, Changed: func() { poke(changed) }}, session.Engines{})
	defer s.Close()
	path := t.TempDir() + "/a.yaml"
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for j := range 20 {
				switch (i + j) % 8 {
				case 0:
					s.Undo()
				case 1:
					s.Redo()
				case 2:
					s.SaveOver(path)
				case 3:
					s.Begin("drag")
					s.Set("mast.wall", "3 mm")
					s.End()
				case 4:
					s.Set("mast.wall", "?")
				default:
					s.Set("mast.height", strconv.Itoa(50+j)+" mm")
				}
				n := s.Snapshot()
				n.Error("mast.wall")
				n.Document.Get("mast.height")
			}
		})
	}
	all.Wait()
	s.End()
	n := until(t, s, changed, settled)
	if !n.Current() {
		t.Error("the last document was not checked")
	}
}

// The real engines on the example of the first start.
func TestFirstStart(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.New(session.Options{Changed: func() { poke(changed) }})
	defer s.Close()
	n := until(t, s, changed, settled)
	if n.Dirty || n.File != "" || n.Name != "River survey" || len(n.Review.Result.Verdicts) != len(design.Checks()) {
		t.Fatalf("dirty %t, file %q, name %q, %d verdicts", n.Dirty, n.File, n.Name, len(n.Review.Result.Verdicts))
	}
	must(t, s.Set("mast.height", "70 mm"))
	n = until(t, s, changed, settled)
	if z := n.Review.Assembly.Seat.Z; z != 70 {
		t.Errorf("the seat is %g mm up, want the 70 that were typed", z)
	}
	if len(n.Preview.Pieces) != 3 || n.Preview.Serial != n.Serial {
		t.Fatalf("%d pieces, %q", len(n.Preview.Pieces), n.PreviewReason)
	}
	for _, p := range n.Preview.Pieces {
		if _, err := mesh.Gate(p.Mesh); err != nil {
			t.Errorf("%s: %v", p.Part.Name, err)
		}
	}
	for i, want := range []string{"Measure", "Shape", "Check", "Make", "Prove"} {
		if st := n.Stages[i]; st.Name != want || st.Text == "" {
			t.Errorf("stage %d is %+v, want %s", i, st, want)
		}
	}
}

// Every example is a design that can be worked on at once.
func TestExamples(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.New(session.Options{Changed: func() { poke(changed) }})
	defer s.Close()
	for _, e := range assets.Examples() {
		must(t, s.Example(e.Name))
		n := until(t, s, changed, func(n *session.Snapshot) bool { return !n.Checking })
		if !n.Current() || n.Dirty {
			t.Errorf("%s: current %t, dirty %t, %v", e.Name, n.Current(), n.Dirty, n.Problems)
		}
	}
	if err := s.Example("none"); err == nil {
		t.Error("an example that is not there was opened")
	}
	s.Blank()
	n := until(t, s, changed, func(n *session.Snapshot) bool { return !n.Checking })
	if n.Current() || len(n.Missing) == 0 || n.Name != "new design" {
		t.Errorf("a blank design: current %t, %d missing, name %q", n.Current(), len(n.Missing), n.Name)
	}
}
