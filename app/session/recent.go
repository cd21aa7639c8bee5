package session

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
)

// mostRecent is how many files are remembered.
const mostRecent = 10

// Recent lists the design files opened or saved last that are still there, the newest first.
func (s *Session) Recent() []string {
	return slices.DeleteFunc(s.recent(), func(path string) bool {
		info, err := os.Stat(path)
		return err != nil || !info.Mode().IsRegular()
	})
}

func (s *Session) recent() []string {
	if s.options.State == "" {
		return nil
	}
	var paths []string
	data, err := readFile(s.recentFile())
	if err != nil || json.Unmarshal(data, &paths) != nil {
		return nil // nothing remembered yet, or not by us
	}
	return paths
}

func (s *Session) recentFile() string { return filepath.Join(s.options.State, "recent.json") }

// remember puts a file at the head of the list. A list that cannot be written is a list not kept: no work hangs on it.
func (s *Session) remember(path string) {
	if s.options.State == "" {
		return
	}
	s.remembering.Lock()
	defer s.remembering.Unlock()
	paths := append([]string{path}, slices.DeleteFunc(s.recent(), func(p string) bool { return p == path })...)
	data, err := json.MarshalIndent(paths[:min(len(paths), mostRecent)], "", "  ")
	if err == nil && os.MkdirAll(s.options.State, 0o700) == nil {
		writeFile(s.recentFile(), append(data, '\n'), 0o600)
	}
}
