package parts_test

import (
	"testing"

	"mastwright/design/parts"
)

// BenchmarkNumber is what the number in the foot's underside adds to working a mount out.
func BenchmarkNumber(b *testing.B) {
	d := mount(b, "foot.mark", "number", "revision", "B")
	for b.Loop() {
		parts.Build(d)
	}
}
