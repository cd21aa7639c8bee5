package session

import (
	"errors"
	"slices"
	"strings"

	"mastwright/design"
)

// Change is a text for a field.
type Change struct{ Path, Text string }

// Set answers a field with a text as it is typed. An error is a design.Problem; the document then keeps the last good value and
// the snapshot lists the error under its path until the field is set or dismissed.
func (s *Session) Set(path, text string) error {
	f, _ := design.FieldOf(path)
	err := s.edit(f.Title, []Change{{path, text}}, path, func(d *design.Document) error { return d.Set(path, text) })
	if err == nil {
		return nil
	}
	s.mu.Lock()
	if slices.Contains(s.history.now.doc.Paths(), path) {
		s.errors[path] = FieldError{path, text, sentence(path, err)}
		s.publish()
	}
	s.mu.Unlock()
	s.tell()
	return err
}

// Apply makes several changes as one step, or none of them: a repair, a material for every part.
func (s *Session) Apply(title string, changes ...Change) error {
	return s.edit(title, changes, "", func(d *design.Document) error {
		for _, c := range changes {
			if err := d.Set(c.Path, c.Text); err != nil {
				return err
			}
		}
		return nil
	})
}

// ApplyMaterial makes every printed part of one material.
func (s *Session) ApplyMaterial(id string) error {
	m, err := s.Snapshot().Document.Library().Find(id)
	if err != nil {
		return design.Problem{Path: "materials.mast", Value: id, Text: err.Error()}
	}
	return s.Apply("Material "+m.Title, Change{"materials.mast", id}, Change{"materials.foot", id}, Change{"materials.tray", id})
}

// Clear takes the design's own answer back: what the shelf file or the default says holds again.
func (s *Session) Clear(path string) {
	f, _ := design.FieldOf(path)
	s.edit(f.Title, []Change{{Path: path}}, "", func(d *design.Document) error { d.Clear(path); return nil })
}

// Insert puts a new entry into a list before the one at the index. The error is a design.Problem.
func (s *Session) Insert(list string, at int) error {
	f, _ := design.FieldOf(list)
	return s.edit(f.Title+": entry added", []Change{{Path: list}}, "", func(d *design.Document) error { return d.Insert(list, at) })
}

// Remove takes an entry out of a list. The error is a design.Problem.
func (s *Session) Remove(list string, at int) error {
	f, _ := design.FieldOf(list)
	return s.edit(f.Title+": entry removed", []Change{{Path: list}}, "", func(d *design.Document) error { return d.Remove(list, at) })
}

// Dismiss forgets the error of a field: its last good value is shown again.
func (s *Session) Dismiss(path string) {
	s.mu.Lock()
	delete(s.errors, path)
	s.publish()
	s.mu.Unlock()
	s.tell()
}

// Begin opens a group: every edit until End is one step of undo. Groups nest; the outermost title counts.
func (s *Session) Begin(title string) { s.grouped(func(h *history) { h.begin(title) }) }

// End closes the group.
func (s *Session) End() { s.grouped((*history).end) }

// Abandon closes every open group and takes back what was edited in it.
func (s *Session) Abandon() { s.grouped((*history).abandon) }

func (s *Session) grouped(do func(*history)) {
	s.travel(func(h *history) (step, bool) { do(h); return step{}, true })
}

// Undo takes the last step back and returns the path of the field it edited, "" for more than one.
func (s *Session) Undo() (path string, ok bool) { return s.travel((*history).undo) }

// Redo brings back what was undone last.
func (s *Session) Redo() (path string, ok bool) { return s.travel((*history).redo) }

func (s *Session) travel(move func(*history) (step, bool)) (path string, ok bool) {
	s.mu.Lock()
	before := s.history.now
	step, ok := move(&s.history)
	if s.history.now.text != before.text {
		s.prune(before.doc)
		s.edited()
	} else {
		s.publish()
	}
	s.mu.Unlock()
	s.tell()
	return step.path, ok
}

// edit changes the document. The path is that of the one field, "" for more than one. Field errors of what was changed, and of
// the entries of a changed list, are forgotten.
func (s *Session) edit(title string, changes []Change, path string, change func(*design.Document) error) error {
	s.mu.Lock()
	next := s.history.now.doc.Clone()
	err := change(next)
	if err == nil && slices.ContainsFunc(changes, func(c Change) bool { return namesShelf(c.Path) }) {
		next, err = s.reread(next, changes)
	}
	if err != nil {
		s.mu.Unlock()
		return err
	}
	for _, c := range changes {
		s.forgetErrors(func(path string) bool { return path == c.Path || strings.HasPrefix(path, c.Path+"[") })
	}
	if s.history.change(stateOf(next), title, path, s.options.Now(), s.options.Pause) {
		s.edited()
	} else {
		s.publish()
	}
	s.mu.Unlock()
	s.tell()
	return nil
}

// namesShelf reports whether a field names a file that answers other fields.
func namesShelf(path string) bool {
	return strings.HasSuffix(path, ".from") && !strings.Contains(path, "[")
}

// reread reads a document again with the shelf files that it names now.
func (s *Session) reread(doc *design.Document, changes []Change) (*design.Document, error) {
	fresh, problems := design.Decode([]byte(stateOf(doc).text), design.Options{Open: s.file.open})
	if fresh != nil {
		return fresh, nil
	}
	c := changes[slices.IndexFunc(changes, func(c Change) bool { return namesShelf(c.Path) })]
	if i := slices.IndexFunc(problems, func(p design.Problem) bool { return p.Path == c.Path }); i >= 0 {
		return nil, problems[i]
	}
	return nil, design.Problem{Path: c.Path, Value: c.Text, Text: problems[0].String()}
}

// sentence words an error of a field for its form.
func sentence(path string, err error) string {
	var p design.Problem
	if errors.As(err, &p) {
		return p.Sentence()
	}
	return err.Error()
}
