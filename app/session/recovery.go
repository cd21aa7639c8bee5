package session

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"time"

	"mastwright/design"
)

// Recovery is unsaved work of a session that ended without being closed.
type Recovery struct {
	Kept string // the file it is kept in
	File string // the design's own file; "" when it had none
	Name string // of the design
	At   time.Time

	sum [sha256.Size]byte // of the design's own file when it was last read or written
}

const keptHead = "# Unsaved work of Mastwright. It is taken away when the design is saved or closed.\n"

// keptForm is the head of the file that keeps unsaved work: the design's own file and its sum.
const keptForm = keptHead + "# of %q %x\n"

// keeper keeps unsaved work in a file of its own, which a lock marks as one of a living session.
type keeper struct {
	folder string // "" keeps nothing

	mu   sync.Mutex
	lock *os.File
	path string
	gone bool
}

func recoveryFolder(state string) string {
	if state == "" {
		return ""
	}
	return filepath.Join(state, "unsaved")
}

// keep writes unsaved work, or takes the file away when there is none.
func (s *Session) keep() {
	s.keeper.mu.Lock()
	defer s.keeper.mu.Unlock()
	s.mu.Lock()
	now, f, dirty := s.history.now, s.file, s.dirty()
	s.mu.Unlock()
	if s.keeper.folder == "" || s.keeper.gone {
		return
	}
	if !dirty {
		s.keeper.clear()
		return
	}
	err := s.keeper.write(fmt.Appendf(nil, keptForm+"%s", f.path, f.sum, now.text))
	s.mu.Lock()
	s.keepError = err
	s.publish()
	s.mu.Unlock()
	if err != nil {
		s.tell()
	}
}

func (k *keeper) write(data []byte) error {
	if k.lock == nil {
		if err := k.claim(); err != nil {
			return fmt.Errorf("keep unsaved work in %s: %w", k.folder, withoutPath(err))
		}
	}
	if err := writeFile(k.path, data, 0o600); err != nil {
		return fmt.Errorf("keep unsaved work in %s: %w", k.folder, withoutPath(err))
	}
	return nil
}

// mostKept is how many sessions may keep unsaved work at once.
const mostKept = 1000

// claim takes the first name that no living session has and under which nothing is kept.
func (k *keeper) claim() error {
	if err := os.MkdirAll(k.folder, 0o700); err != nil {
		return err
	}
	for i := range mostKept {
		path := filepath.Join(k.folder, strconv.Itoa(i+1)+".yaml")
		lock, err := takeLock(path + ".lock")
		if err != nil {
			continue
		}
		if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
			k.lock, k.path = lock, path
			sweepUp(path)
			return nil
		}
		lock.Close()
	}
	return errors.New("no name in it is free; empty the folder")
}

// clear takes the kept file away.
func (k *keeper) clear() {
	if k.path != "" {
		os.Remove(k.path)
	}
}

// release takes everything away; nothing is kept after it.
func (k *keeper) release() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.gone = true
	k.clear()
	if k.lock != nil {
		os.Remove(k.lock.Name())
		k.lock.Close()
	}
}

// Recoveries lists what sessions that are no more have left unsaved, the newest first.
func (s *Session) Recoveries() []Recovery {
	if s.keeper.folder == "" {
		return nil
	}
	names, _ := filepath.Glob(filepath.Join(s.keeper.folder, "*.yaml"))
	var list []Recovery
	for _, name := range names {
		lock, err := takeLock(name + ".lock")
		if err != nil {
			continue // its session is alive
		}
		lock.Close()
		if r, _, err := readKept(name); err == nil {
			list = append(list, r)
		}
	}
	slices.SortStableFunc(list, func(a, b Recovery) int { return b.At.Compare(a.At) })
	return list
}

func readKept(name string) (Recovery, []byte, error) {
	data, err := readFile(name)
	if err != nil {
		return Recovery{}, nil, err
	}
	info, err := os.Stat(name)
	if err != nil {
		return Recovery{}, nil, err
	}
	r := Recovery{Kept: name, At: info.ModTime()}
	var sum []byte
	if n, err := fmt.Sscanf(string(data), keptForm, &r.File, &sum); n == 2 && err == nil {
		copy(r.sum[:], sum)
	}
	doc, problems := design.Decode(data, design.Options{Name: name, Open: file{path: r.File}.open})
	if doc == nil {
		return r, nil, Unreadable{name, problems}
	}
	r.Name = doc.Name
	if r.Name == "" && r.File != "" {
		r.Name = filepath.Base(r.File)
	}
	return r, data, nil
}

// Recover opens unsaved work as changes of its own file.
func (s *Session) Recover(r Recovery) error {
	_, data, err := readKept(r.Kept)
	if err != nil {
		return fmt.Errorf("recover %s: %w", r.Name, err)
	}
	doc, _ := design.Decode(data, design.Options{Open: file{path: r.File}.open})
	f := file{path: r.File, name: "recovered design", saved: unsaved}
	if r.File != "" {
		if onDisk, _, err := readDesign(r.File); err == nil {
			f = onDisk
		}
		f.path, f.sum, f.known = r.File, r.sum, true
	}
	s.replace(doc, f)
	if n := s.Snapshot(); n.Dirty && n.Unkept != "" {
		return nil // it stays where it is: that is the only place
	}
	s.Discard(r)
	return nil
}

// unsaved is a text that no document has.
const unsaved = "\x00"

// Discard throws unsaved work away.
func (s *Session) Discard(r Recovery) {
	if lock, err := takeLock(r.Kept + ".lock"); err == nil {
		os.Remove(r.Kept)
		sweepUp(r.Kept)
		os.Remove(lock.Name())
		lock.Close()
	}
}

// sweepUp takes away what a session was in the middle of writing when it was killed. The caller holds the name's lock.
func sweepUp(kept string) {
	halves, _ := filepath.Glob(filepath.Join(filepath.Dir(kept), besideOf(kept)+"*"))
	for _, half := range halves {
		os.Remove(half)
	}
}
