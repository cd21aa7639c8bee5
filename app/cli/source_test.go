package cli

import (
	"os"
	"path/filepath"
	"testing"
)

func TestLineOfAPath(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.yaml")
	const text = "mastwright: 1\nname: A\nairframe:\n  mass: 1 kg\n  places:\n    - name: a\n      at: {x: 0, y: 0, z: 0}\n    - name: b\nmast:\n  height: 90\n"
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	d, err := readDesign(file)
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]int{
		"name":                     2,
		"airframe.mass":            4,
		"airframe.places[0].at.x":  7,
		"airframe.places[1].name":  8,
		"airframe.places[1].at":    8, // the entry it would stand in
		"mast.wall":                10,
		"receiver.mass":            0,
		"airframe.places[7].holes": 6,
		"":                         0,
	} {
		if got := d.line(path); got != want {
			t.Errorf("%q: got line %d, want %d", path, got, want)
		}
	}
}
