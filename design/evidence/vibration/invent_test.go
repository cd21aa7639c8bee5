package vibration_test

import (
	"bytes"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
)

// Every invented file says so, in its first line or its own comment, is the same every time, and is read as what it is.
func TestInvented(t *testing.T) {
	for _, c := range []struct {
		name  string
		write func(b *bytes.Buffer, seed uint64) error
		sound bool
	}{
		{"tap", func(b *bytes.Buffer, seed uint64) error { return vibration.InventedTap{Seed: seed}.Write(b) }, false},
		{"tap, sound", func(b *bytes.Buffer, seed uint64) error {
			return vibration.InventedTap{Seed: seed, Sound: true, Taps: 1}.Write(b)
		}, true},
		{"hover", func(b *bytes.Buffer, seed uint64) error {
			return vibration.InventedHover{Seed: seed, Seconds: 4}.Write(b)
		}, false},
		{"hover, sound", func(b *bytes.Buffer, seed uint64) error {
			return vibration.InventedHover{Seed: seed, Seconds: 1, Sound: true}.Write(b)
		}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var a, again, other bytes.Buffer
			for b, seed := range map[*bytes.Buffer]uint64{&a: 1, &again: 1, &other: 2} {
				if err := c.write(b, seed); err != nil {
					t.Fatal(err)
				}
			}
			if !bytes.Equal(a.Bytes(), again.Bytes()) || bytes.Equal(a.Bytes(), other.Bytes()) {
				t.Error("the bytes do not follow the seed")
			}
			if !c.sound && !strings.HasPrefix(a.String(), "# invented") {
				t.Errorf("the first line is %.60q", a.String())
			}
			s, err := record.ReadMotion(&a, record.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if !s.Invented || (s.Kind == record.Audio) != c.sound {
				t.Errorf("read as %v, invented %v", s.Kind, s.Invented)
			}
		})
	}
}
