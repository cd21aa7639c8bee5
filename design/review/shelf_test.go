package review

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"mastwright/mesh/outline"
)

func TestShelfIsBounded(t *testing.T) {
	var s shelf[int]
	made := 0
	take := func(i int) int {
		got, err := s.take(fmt.Sprint(i), func() (int, error) { made++; return i, nil })
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	const many = 5 * shelfRoom
	for i := range many {
		for range 2 {
			if got := take(i); got != i {
				t.Fatalf("answer %d is %d", i, got)
			}
		}
	}
	if made != many {
		t.Errorf("%d answers were made for %d questions", made, many)
	}
	if kept := len(s.young) + len(s.old); kept > 2*shelfRoom {
		t.Errorf("%d answers are kept, want at most %d", kept, 2*shelfRoom)
	}
	if _, err := s.take("bad", func() (int, error) { return 0, errors.New("no") }); err == nil {
		t.Error("an error is lost")
	}
	if _, err := s.take("bad", func() (int, error) { return 1, nil }); err != nil {
		t.Error("an error is kept")
	}
}

func TestKeysDiffer(t *testing.T) {
	square := outline.Rectangle(2, 3)
	keys := map[string]string{}
	for name, key := range map[string]string{
		"square":          keyOf(outline.Outline{Outer: square}, 0.3),
		"the last bit":    keyOf(outline.Outline{Outer: square}, math.Nextafter(0.3, 1)),
		"with a hole":     keyOf(outline.Outline{Outer: square, Holes: []outline.Loop{outline.Circle(0.5)}}, 0.3),
		"hole as outside": keyOf(outline.Outline{Outer: outline.Circle(0.5), Holes: []outline.Loop{square}}, 0.3),
		"text":            keyOf("ab", "c"),
		"text cut anew":   keyOf("a", "bc"),
		"yes":             keyOf(true),
		"no":              keyOf(false),
		"array":           keyOf([2]int{1, 2}),
		"minus zero":      keyOf(math.Copysign(0, -1)),
		"zero":            keyOf(0.0),
	} {
		if other, taken := keys[key]; taken {
			t.Errorf("%s has the key of %s", name, other)
		}
		keys[key] = name
	}
	if keyOf(outline.Outline{Outer: square}) != keyOf(outline.Outline{Outer: outline.Rectangle(2, 3)}) {
		t.Error("one outline has two keys")
	}
	defer func() {
		if recover() == nil {
			t.Error("a pointer has a key")
		}
	}()
	keyOf(&square)
}
