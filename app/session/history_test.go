package session_test

import (
	"slices"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"mastwright/app/session"
	"mastwright/design"
)

// clock is a time that a test moves on.
type clock struct{ now time.Time }

func (c *clock) read() time.Time { return c.now }

// version is what a document holds, as far as the test edits it.
type version struct {
	height, wall string
	names        []string // of the neighbours
}

func (v version) equal(w version) bool {
	return v.height == w.height && v.wall == w.wall && slices.Equal(v.names, w.names)
}

func versionOf(d *design.Document) version {
	v := version{height: d.Get("mast.height"), wall: d.Get("mast.wall")}
	for i := range d.Len("airframe.neighbours") {
		v.names = append(v.names, d.Get(neighbour(i)))
	}
	return v
}

func neighbour(i int) string { return "airframe.neighbours[" + strconv.Itoa(i) + "].name" }

// model is the plain account of what undo and redo should do: every version there is, and which one is shown.
type model struct {
	versions []version
	at       int
	merges   string // path that the next edit may still be merged for
	last     time.Time
	group    int // versions[group] stood before the open group; -1 without one
	depth    int
}

func (m *model) edit(v version, path string, now time.Time) {
	switch {
	case v.equal(m.versions[m.at]):
		return
	case m.depth > 0:
		m.versions = append(m.versions[:m.at+1:m.at+1], v)
		m.at++
		return
	case path != "" && path == m.merges && now.Sub(m.last) < time.Second:
		m.versions = append(m.versions[:m.at:m.at], v)
		if v.equal(m.versions[m.at-1]) {
			m.versions = m.versions[:m.at]
			m.at--
			m.merges = ""
			return
		}
	default:
		m.versions = append(m.versions[:m.at+1:m.at+1], v)
		m.at++
	}
	m.merges, m.last = path, now
}

// TestUndoAgainstAPlainModel drives a session and the model with the same edits.
func TestUndoAgainstAPlainModel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := &clock{time.Unix(1e9, 0)}
		s := session.NewWith(session.Options{Now: now.read}, session.Engines{})
		defer s.Close()
		m := &model{versions: []version{versionOf(s.Snapshot().Document)}, group: -1}
		var redoable []version // kept while a group is open, for a group that changes nothing

		closeGroup := func() {
			if m.depth == 0 {
				return
			}
			m.depth = 0
			before, after := m.versions[m.group], m.versions[m.at]
			m.versions, m.at = m.versions[:m.group+1:m.group+1], m.group
			if before.equal(after) {
				m.versions = append(m.versions, redoable...)
			} else {
				m.versions, m.at = append(m.versions, after), m.at+1
			}
			m.merges, m.group = "", -1
		}
		present := func() version {
			v := m.versions[m.at]
			v.names = slices.Clone(v.names)
			return v
		}
		set := func(path string, store func(v *version, text string)) func(*rapid.T) {
			return func(t *rapid.T) {
				text := strconv.Itoa(rapid.IntRange(2, 4).Draw(t, "value")*10) + " mm"
				if path == "mast.wall" {
					text = text[:1] + " mm"
				}
				now.now = now.now.Add(time.Duration(rapid.IntRange(0, 3).Draw(t, "half seconds")) * time.Second / 2)
				if err := s.Set(path, text); err != nil {
					t.Fatal(err)
				}
				v := present()
				store(&v, text)
				m.edit(v, path, now.now)
			}
		}
		t.Repeat(map[string]func(*rapid.T){
			"height": set("mast.height", func(v *version, text string) { v.height = text }),
			"wall":   set("mast.wall", func(v *version, text string) { v.wall = text }),
			"mistyped": func(t *rapid.T) {
				if s.Set("mast.height", "tall") == nil {
					t.Fatal("\"tall\" was understood")
				}
			},
			"insert": func(t *rapid.T) {
				v := present()
				at := rapid.IntRange(0, len(v.names)).Draw(t, "at")
				if len(v.names) > 6 {
					t.Skip("long enough")
				}
				if err := s.Insert("airframe.neighbours", at); err != nil {
					t.Fatal(err)
				}
				v.names = slices.Insert(v.names, at, "")
				m.edit(v, "", now.now)
			},
			"remove": func(t *rapid.T) {
				v := present()
				if len(v.names) == 0 {
					t.Skip("nothing to remove")
				}
				at := rapid.IntRange(0, len(v.names)-1).Draw(t, "at")
				if err := s.Remove("airframe.neighbours", at); err != nil {
					t.Fatal(err)
				}
				v.names = slices.Delete(v.names, at, at+1)
				m.edit(v, "", now.now)
			},
			"name": func(t *rapid.T) {
				v := present()
				if len(v.names) == 0 {
					t.Skip("nobody to name")
				}
				at := rapid.IntRange(0, len(v.names)-1).Draw(t, "at")
				v.names[at] = rapid.SampledFrom([]string{"pack", "camera"}).Draw(t, "name")
				if err := s.Set(neighbour(at), v.names[at]); err != nil {
					t.Fatal(err)
				}
				m.edit(v, neighbour(at), now.now)
			},
			"both": func(t *rapid.T) {
				v := present()
				v.height, v.wall = "70 mm", "3 mm"
				if err := s.Apply("repair", session.Change{Path: "mast.height", Text: v.height}, session.Change{Path: "mast.wall", Text: v.wall}); err != nil {
					t.Fatal(err)
				}
				m.edit(v, "", now.now)
			},
			"half of a repair": func(t *rapid.T) {
				err := s.Apply("repair", session.Change{Path: "mast.height", Text: "55 mm"}, session.Change{Path: "mast.wall", Text: "thick"})
				if err == nil {
					t.Fatal("\"thick\" was understood")
				}
			},
			"begin": func(t *rapid.T) {
				s.Begin("drag")
				if m.depth == 0 {
					m.group, redoable = m.at, slices.Clone(m.versions[m.at+1:])
				}
				m.depth++
			},
			"end": func(t *rapid.T) {
				s.End()
				if m.depth > 1 {
					m.depth--
				} else {
					closeGroup()
				}
			},
			"abandon": func(t *rapid.T) {
				s.Abandon()
				if m.depth > 0 {
					m.versions, m.at = append(m.versions[:m.group+1:m.group+1], redoable...), m.group
					m.depth, m.merges, m.group = 0, "", -1
				}
			},
			"undo": func(t *rapid.T) {
				closeGroup()
				_, ok := s.Undo()
				if ok != (m.at > 0) {
					t.Fatalf("undo said %t at version %d", ok, m.at)
				}
				if ok {
					m.at, m.merges = m.at-1, ""
				}
			},
			"redo": func(t *rapid.T) {
				closeGroup()
				_, ok := s.Redo()
				if ok != (m.at < len(m.versions)-1) {
					t.Fatalf("redo said %t at version %d of %d", ok, m.at, len(m.versions))
				}
				if ok {
					m.at, m.merges = m.at+1, ""
				}
			},
			"": func(t *rapid.T) {
				n := s.Snapshot()
				if got, want := versionOf(n.Document), m.versions[m.at]; !got.equal(want) {
					t.Fatalf("document holds %+v, want %+v", got, want)
				}
				if m.depth == 0 && ((n.Undo != "") != (m.at > 0) || (n.Redo != "") != (m.at < len(m.versions)-1)) {
					t.Fatalf("offers undo %q and redo %q at version %d of %d", n.Undo, n.Redo, m.at, len(m.versions))
				}
				if n.Dirty != !versionOf(n.Document).equal(m.versions[0]) {
					t.Fatalf("dirty %t, want whether it differs from the start", n.Dirty)
				}
			},
		})
	})
}

// What is one step and what is two.
func TestSteps(t *testing.T) {
	type do = func(s *session.Session)
	set := func(path, text string) do { return func(s *session.Session) { s.Set(path, text) } }
	undo, begin, end := func(s *session.Session) { s.Undo() }, func(s *session.Session) { s.Begin("drag") }, (*session.Session).End
	for _, c := range []struct {
		name  string
		edits []do // all at one moment
		want  int
	}{
		{"one field", []do{set("mast.height", "70 mm"), set("mast.height", "71 mm")}, 1},
		{"two fields", []do{set("mast.height", "70 mm"), set("mast.wall", "3 mm"), set("mast.height", "71 mm")}, 3},
		{"there and back", []do{set("mast.height", "70 mm"), set("mast.height", "100 mm")}, 0},
		{"after an undo", []do{set("mast.height", "70 mm"), set("mast.wall", "3 mm"), undo, set("mast.height", "71 mm")}, 2},
		{"after a drag", []do{begin, set("mast.height", "70 mm"), set("mast.wall", "3 mm"), end, set("mast.wall", "4 mm")}, 2},
		{"a drag there and back", []do{begin, set("mast.height", "70 mm"), set("mast.height", "100 mm"), end}, 0},
		{"a drag in a drag", []do{begin, begin, set("mast.height", "70 mm"), end, set("mast.wall", "3 mm"), end}, 1},
		{"the same as before", []do{set("mast.height", "100 mm")}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			now := clock{time.Unix(1e9, 0)}
			s := session.NewWith(session.Options{Now: now.read}, session.Engines{})
			defer s.Close()
			for _, edit := range c.edits {
				edit(s)
			}
			got := 0
			for s.Snapshot().Undo != "" {
				s.Undo()
				got++
			}
			if got != c.want {
				t.Errorf("got %d steps, want %d", got, c.want)
			}
		})
	}
}

// A snapshot taken earlier must not move with later edits.
func TestSnapshotStays(t *testing.T) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	before := s.Snapshot()
	had := before.Document.Get("mast.height")
	for _, edit := range []func() error{
		func() error { return s.Set("mast.height", "61 mm") },
		func() error { return s.Insert("airframe.neighbours", 0) },
		func() error { return s.ApplyMaterial("pla") },
	} {
		if err := edit(); err != nil {
			t.Fatal(err)
		}
	}
	if got := before.Document.Get("mast.height"); got != had || before.Document.Materials.Mast == "pla" || before.Dirty || before.Undo != "" {
		t.Errorf("the first snapshot holds %s, %s, dirty %t, undo %q", got, before.Document.Materials.Mast, before.Dirty, before.Undo)
	}
}

func TestHistoryIsBounded(t *testing.T) {
	s := session.NewWith(session.Options{Pause: time.Nanosecond}, session.Engines{})
	defer s.Close()
	for i := range 400 {
		if err := s.Set("mast.height", strconv.Itoa(50+i%7)+" mm"); err != nil {
			t.Fatal(err)
		}
	}
	n := 0
	for {
		if _, ok := s.Undo(); !ok {
			break
		}
		n++
	}
	if n != 300 {
		t.Errorf("%d steps can be undone after 400 edits, want the 300 that are kept", n)
	}
}

func TestFieldErrors(t *testing.T) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	err := s.Set("mast.wall", "thick")
	n := s.Snapshot()
	sentence, said := n.Error("mast.wall")
	if err == nil || !said || len(n.Errors) != 1 || n.Errors[0].Text != "thick" || n.Document.Get("mast.wall") != "2.4 mm" || n.Dirty {
		t.Fatalf("error %v, listed %+v, wall %s", err, n.Errors, n.Document.Get("mast.wall"))
	}
	if sentence[:6] != "Wall: " {
		t.Errorf("said %q, want the field's title first", sentence)
	}
	if n.Stages[1].Text != "1 field is not understood" {
		t.Errorf("the road says %q", n.Stages[1].Text)
	}
	for _, c := range []struct {
		name string
		do   func()
		left int
	}{
		{"another field", func() { s.Set("mast.height", "70 mm") }, 1},
		{"undo of another field", func() { s.Undo() }, 1},
		{"a good text", func() { s.Set("mast.wall", "2 mm") }, 0},
		{"mistyped again", func() { s.Set("mast.wall", "?") }, 1},
		{"undo of this field", func() { s.Undo() }, 0},
		{"mistyped in a list", func() { s.Set("leads[0].spacing", "?") }, 1},
		{"its entry is removed", func() { s.Remove("leads", 0) }, 0},
		{"no such entry", func() { s.Set("leads[7].spacing", "5 mm") }, 0},
		{"mistyped a last time", func() { s.Set("mast.wall", "?") }, 1},
		{"dismissed", func() { s.Dismiss("mast.wall") }, 0},
	} {
		c.do()
		if got := len(s.Snapshot().Errors); got != c.left {
			t.Errorf("%s: %d errors are listed, want %d", c.name, got, c.left)
		}
	}
}

func TestMaterialIsOneStep(t *testing.T) {
	s := session.NewWith(session.Options{}, session.Engines{})
	defer s.Close()
	if err := s.ApplyMaterial("unobtainium"); err == nil {
		t.Error("a material that is not there was applied")
	}
	if err := s.ApplyMaterial("pla"); err != nil {
		t.Fatal(err)
	}
	m := s.Snapshot().Document.Materials
	if m.Mast != "pla" || m.Foot != "pla" || m.Tray != "pla" {
		t.Errorf("got %+v", m)
	}
	s.Undo()
	if n := s.Snapshot(); n.Dirty || n.Document.Materials.Foot != "copolyester" || n.Undo != "" {
		t.Errorf("after one undo: dirty %t, foot of %s", n.Dirty, n.Document.Materials.Foot)
	}
}
