package session_test

import (
	"context"
	"testing"

	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
	"mastwright/design/sizing/certainty"
)

// failing says that a check of every document fails.
func failing(id string) func(*design.Document) (review.Result, []design.Problem) {
	return func(*design.Document) (review.Result, []design.Problem) {
		return review.Result{Verdicts: []review.Verdict{{ID: id, State: review.Fail}, {ID: "sky", State: review.Pass}}}, nil
	}
}

// The heights do not depend on the height: a drag of the mark neither gives them up nor makes them old; any other edit does both.
func TestHeightsFollowEverythingButTheHeight(t *testing.T) {
	begun, release, given := make(chan string, 9), make(chan struct{}), make(chan string, 9)
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: failing("heading"),
		Heights: func(ctx context.Context, d *design.Document) (sizing.Window, error) {
			begun <- d.Get("mast.wall")
			select {
			case <-release:
				return sizing.Window{Reviews: 1}, nil
			case <-ctx.Done():
				given <- d.Get("mast.wall")
				return sizing.Window{}, ctx.Err()
			}
		},
	})
	defer s.Close()
	if s.Snapshot().Heights != nil {
		t.Error("heights that nobody asked for")
	}
	s.Heights(true)
	<-begun
	set(t, s, "mast.height", "90 mm")
	until(t, s, changed, settled)
	release <- struct{}{}
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Heights != nil })
	if !n.Heights.Current {
		t.Error("a drag of the height made the heights old")
	}
	set(t, s, "mast.wall", "3.2 mm")
	n = until(t, s, changed, settled)
	if n.Heights == nil || n.Heights.Current {
		t.Errorf("after an edit of the wall: %+v, want the heights of before, old", n.Heights)
	}
	if got, want := <-begun, "3.2 mm"; got != want {
		t.Fatalf("the heights of wall %s are looked for, want %s", got, want)
	}
	set(t, s, "mast.wall", "2.8 mm") // gives them up
	if got, want := <-begun, "2.8 mm"; got != want {
		t.Fatalf("the heights of wall %s are looked for, want %s", got, want)
	}
	release <- struct{}{}
	until(t, s, changed, func(n *session.Snapshot) bool { return n.Heights.Current })
	if got := <-given; got != "3.2 mm" || len(given) > 0 {
		t.Errorf("the heights of wall %s were given up, want those of 3.2 mm alone", got)
	}
}

func TestRepairsAreOfThePickedCheckAndTheLastDocument(t *testing.T) {
	begun, release := make(chan string, 9), make(chan struct{})
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: failing("heading"),
		Repairs: func(ctx context.Context, d *design.Document, o sizing.RepairOptions) ([]sizing.Advice, error) {
			check := o.Checks[0]
			begun <- check + " " + d.Get("mast.height")
			select {
			case <-release:
				return []sizing.Advice{{Check: check}}, nil
			case <-ctx.Done():
				return nil, ctx.Err()
			}
		},
	})
	defer s.Close()
	until(t, s, changed, settled)
	s.Advise("sky")
	if s.Snapshot().Advising {
		t.Error("repairs of a check that passes are looked for")
	}
	s.Advise("heading")
	if !s.Snapshot().Advising {
		t.Error("it does not say that it is looking")
	}
	<-begun
	set(t, s, "mast.height", "90 mm")
	if s.Snapshot().Advising {
		t.Error("repairs of an earlier document are looked for")
	}
	if got, want := <-begun, "heading 90 mm"; got != want {
		t.Fatalf("got %q, want %q", got, want)
	}
	release <- struct{}{}
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Advice != nil })
	if n.Advice.Check != "heading" || n.Advice.Serial != n.Serial || n.Advising {
		t.Errorf("got %+v at %d, still looking: %t", n.Advice, n.Serial, n.Advising)
	}
	s.Advise("sky")
	if s.Snapshot().Advice != nil {
		t.Error("the repairs of another check are shown")
	}
}

// What is found is shown as it comes, with how far the search is; an edit gives the search up, and what it still finds is not shown.
func TestRepairsAreShownAsTheyCome(t *testing.T) {
	on, given := make(chan struct{}), make(chan struct{}, 1)
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: failing("heading"),
		Repairs: func(ctx context.Context, d *design.Document, o sizing.RepairOptions) ([]sizing.Advice, error) {
			o.Partly("heading", nil, 1, 4)
			<-on
			o.Partly("heading", []sizing.Repair{{Words: "first"}}, 2, 4)
			<-ctx.Done()
			o.Partly("heading", []sizing.Repair{{Words: "late"}, {Words: "first"}}, 3, 4)
			given <- struct{}{}
			return nil, ctx.Err()
		},
	})
	defer s.Close()
	until(t, s, changed, settled)
	s.Advise("heading")
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Sought == 0.25 })
	if n.Advice != nil || !n.Advising {
		t.Errorf("a quarter through it shows %+v, looking %t", n.Advice, n.Advising)
	}
	on <- struct{}{}
	n = until(t, s, changed, func(n *session.Snapshot) bool { return n.Advice != nil })
	if len(n.Advice.Repairs) != 1 || n.Advice.Serial != n.Serial || !n.Advising || n.Sought != 0.5 {
		t.Errorf("half way it shows %+v at %g, looking %t", n.Advice, n.Sought, n.Advising)
	}
	set(t, s, "mast.height", "90 mm")
	<-given
	if n := s.Snapshot(); n.Advice == nil || len(n.Advice.Repairs) != 1 || n.Advice.Serial == n.Serial {
		t.Errorf("after an edit it shows %+v at %d, want what was found before, of an earlier document", n.Advice, n.Serial)
	}
	on <- struct{}{} // of the search for the new document
}

func TestCertaintyGoesWithTheDocument(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Chances: func(ctx context.Context, progress func(done, total int)) (certainty.Result, error) {
			progress(1, 2)
			return certainty.Result{Samples: 7}, nil
		},
	})
	defer s.Close()
	until(t, s, changed, settled)
	s.Doubt()
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Chances != nil })
	if n.Chances.Samples != 7 || n.Doubting || n.Doubted != 0.5 {
		t.Errorf("got %+v, computing %t, told %g", n.Chances, n.Doubting, n.Doubted)
	}
	set(t, s, "mast.height", "90 mm")
	if s.Snapshot().Chances != nil {
		t.Error("the certainty of an earlier document is shown")
	}
}

func TestACrashOfSizingIsSurvived(t *testing.T) {
	changed := make(chan struct{}, 1)
	s := session.NewWith(session.Options{Changed: func() { poke(changed) }}, session.Engines{
		Review: failing("heading"),
		Repairs: func(context.Context, *design.Document, sizing.RepairOptions) ([]sizing.Advice, error) {
			panic("out of order")
		},
	})
	defer s.Close()
	until(t, s, changed, settled)
	s.Advise("heading")
	n := until(t, s, changed, func(n *session.Snapshot) bool { return !n.Advising })
	if n.Advice != nil {
		t.Errorf("got %+v", n.Advice)
	}
}

func set(t *testing.T, s *session.Session, path, text string) {
	t.Helper()
	if err := s.Set(path, text); err != nil {
		t.Fatal(err)
	}
}

func BenchmarkSizingKey(b *testing.B) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	for i := 0; b.Loop(); i++ {
		s.Set("mast.height", []string{"90 mm", "91 mm"}[i%2])
	}
}
